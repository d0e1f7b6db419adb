"""What is told instead of a diagram says the rhythm too."""

import re
from gettext import NullTranslations

import pytest

from wristwork.drawing import words
from wristwork.languages.catalogues import Language
from wristwork.languages.say import speaking
from wristwork.pattern import read_one


def told(lines: str) -> list[str]:
    """The lines of all beats."""
    return [line for bar in words(read_one(f"title: Told in words\n{lines}")).bars for line in bar]


@pytest.mark.parametrize(
    ("lines", "beats"),
    [
        (
            "time: 1/4\nhands: R>LRR",
            ["Beat 1: right, accent, down stroke; e: left, tap stroke; &: right, tap stroke; a: right, up stroke."],
        ),
        ("time: 1/4\nhands: R.-L", ["Beat 1: right, tap stroke; e: rest; a: left, tap stroke."]),
        (
            "time: 3/8\nhands: R LR RLR",
            [
                "Beat 1: right, tap stroke.",
                "Beat 2: left, tap stroke; &: right, tap stroke.",
                "Beat 3: right, tap stroke; trip: left, tap stroke; let: right, tap stroke.",
            ],
        ),
        (
            "time: 6/8\nhands: RLR R-",
            [
                "Beat 1: right, tap stroke; la: left, tap stroke; li: right, tap stroke.",
                "Beat 2: right, tap stroke.",
            ],
        ),
        (
            "time: 2/4\nhands: RLR over 2",
            ["Beats 1 and 2: three evenly in two beats: right, tap stroke; left, tap stroke; right, tap stroke."],
        ),
        (
            "time: 1/4\nhands: R....",
            ["Beat 1: five evenly in the beat: right, tap stroke; 2: rest."],
        ),
        (
            "time: 1/4\nright: RRR\nleft: .LLL",
            [
                "Beat 1: twelve evenly in the beat: right, tap stroke; 4: left, tap stroke; 5: right, tap stroke; "
                "7: left, tap stroke; 9: right, tap stroke; 10: left, tap stroke."
            ],
        ),
    ],
)
def test_the_count_is_told_with_every_stroke(lines, beats):
    assert told(lines) == beats


def test_beats_that_are_told_in_one_line_have_their_numbers():
    (line,) = told("time: 2/4\nhands: R RL\nfeet: RLR over 2")
    assert line.startswith(
        "Beats 1 and 2: 1: right on the snare, tap stroke; 2: right, tap stroke; &: left on the snare"
    )
    assert "Feet: three evenly in two beats: right foot on the kick; left foot" in line


class _Spaced(NullTranslations):
    """Says everything with a space before what two points end."""

    def gettext(self, message: str) -> str:
        return re.sub("[:;]", "\N{NO-BREAK SPACE}\\g<0>", message)


def test_a_language_says_what_stands_before_colons_and_semicolons():
    lines = """title: Told in words
tempo: 60
tempos: 80 at bar 2
sections: Groove at bar 2
text: sing at bar 1, hold at beat 2
dynamics: p at bar 1, f at bar 2
hands: R>LRR RRLL R{LRL} RLL | R..L R.-L RL RL
feet: R L R L | R L R L"""
    with speaking(Language("fr", _Spaced(), {})):
        text = words(read_one(lines)).text
    assert text.count("\N{NO-BREAK SPACE}:") > 20
    assert re.findall(r"[^\N{NO-BREAK SPACE}][:;]", text) == []
