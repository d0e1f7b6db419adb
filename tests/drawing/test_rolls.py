import pytest

from wristwork.drawing import diagram
from wristwork.drawing.score import read_score
from wristwork.drawing.ties import read_ties
from wristwork.pattern import read_one


def chords(hands: str, lines: str = ""):
    score = read_score(read_one(f"title: Rolls\nhands: {hands}\n{lines}"))
    return [chord for cut in score.cuts for chord in cut.hands.chords]


def rolls(hands: str, lines: str = "") -> list[tuple[int, str, int]]:
    """Number, value and slashes of each roll."""
    found = [chord for chord in chords(hands, lines) if chord.roll]
    return [(chord.roll, str(chord.piece.value), chord.slashes.count) for chord in found]


@pytest.mark.parametrize(
    ("hands", "found"),
    [
        ("R/L/R>- L/R/L>-", [(5, "1/8", 2), (5, "1/8", 2)]),
        ("R>L/R/L> R>L/R/L>", [(6, "1/8", 2), (6, "1/8", 2)]),
        ("R/L/R/L> R/L/R/L>", [(7, "3/16", 2), (7, "3/16", 2)]),
        ("R/L/R/L/ R>---", [(9, "1/4", 3)]),
        ("R/L/R/L/ R>L>--", [(10, "1/4", 3)]),
        ("R/L/R/L/ R/L>--", [(11, "1/4", 3)]),
        ("R/L/R/L/ R/L/R>-", [(13, "3/8", 3)]),
        ("R/L/R/L/ R/L/R/L>", [(15, "1/4", 3)]),
        ("R/L/R/L/ R/L/R/L/ R>--- ....", [(17, "1/2", 3)]),
        ("R>/L/R/L/ R>---", [(9, "1/4", 3)]),
        ("R/L>/R/L/ R>---", [(7, "3/16", 2)]),
    ],
)
def test_doubles_that_run_into_a_stroke_are_one_note_with_the_number_of_the_roll(hands, found):
    assert rolls(hands) == found


@pytest.mark.parametrize(
    "hands",
    [
        "R/L/R/L/ R/L/R/L/",  # it runs into nothing
        "R/L/.. R>---",
        "R/LR/L RLRL",
        "R/R/R/R/ L>---",
        "R/L/R/L/ L>---",
        "R/L/ R>-",
        "(R)/(L)/(R)/(L)/ R>---",
        "R/L/R/ L>--",  # in a triplet slashes are no thirty-seconds
        "R/L/R/L/ Rz---",
    ],
)
def test_what_is_no_roll_keeps_its_slashes(hands):
    assert rolls(hands) == []


def test_a_roll_that_is_released_on_another_drum_keeps_its_slashes():
    assert rolls("R/L/R/L/ R>---", "place: all on snare, accents on crash") == []


def test_a_roll_of_more_than_one_value_is_tied_on_with_slashes_to_its_release():
    found = chords("R/L/R/L/ R/L>--")
    assert [(str(c.piece.value), c.slashes.count, c.ties_on) for c in found] == [
        ("1/4", 3, True),
        ("1/16", 1, True),
        ("3/16", 0, False),
    ]


def test_each_double_of_a_roll_keeps_its_letter():
    drawn = diagram(read_one("title: Nine\nhands: R/L/R/L/ R>---"), ())
    assert [label.label.text for cut in drawn.layout.cuts for label in cut.sticking] == list("RLRLR")


def test_a_roll_is_tied_to_its_release_but_nothing_to_what_follows_a_sign():
    def ties(text):
        return len(read_ties(diagram(read_one(f"title: Any\n{text}"), ()).layout))

    assert ties("hands: R/L/R/L/ R>---") == 1
    assert ties("hands: R/L/R/L/ R/L>--") == 2
    assert ties("time: 2/4\nhands: R L | -R R | % | -R L") == 1, "into the first bar that is drawn, over no sign"
