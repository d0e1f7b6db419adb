"""Hands and feet in one voice, where they never play together."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from tests.strategies import pattern_texts
from wristwork.drawing import diagram
from wristwork.drawing.beams import runs
from wristwork.drawing.counting import counts
from wristwork.drawing.score import read_score
from wristwork.pattern import read_one


def score(*lines):
    return read_score(read_one("\n".join(["example: yes", *lines])))


LINEAR = ("hands: RL.R L.RL RL.. .RL.", "feet: ..R. .R.. ..RR R..L")


def test_hands_and_feet_share_a_beam():
    drawn = score(*LINEAR)
    assert not drawn.two_voices
    assert [[len(run.chords) for run in runs(cut.hands)] for cut in drawn.cuts] == [[4]] * 4
    assert all(not cut.feet.chords and not cut.hands.rests for cut in drawn.cuts)


def test_feet_have_the_letters_of_their_pedals():
    layout = diagram(read_one("\n".join(["example: yes", *LINEAR]))).layout
    assert "".join(label.label.text for cut in layout.cuts for label in cut.sticking) == "RLKRLKRLRLKKKRLH"


def test_all_of_it_is_counted():
    drawn = score("hands: . R> . R>", "feet: R . RR .")
    assert [count.word for count in counts(drawn.counted)] == ["1", "2", "3", "&", "4"]


@pytest.mark.parametrize(
    "lines",
    [
        ("hands: RL.R RLRL", "feet: ..R. R..."),
        ("hands: RL.R RLR.", "feet: ..B. ...R"),
        ("hands: RL.R RLR.", "feet: ..R. ...R", "place: right foot on cowbell"),
        ("hands: R/--- RLR.", "feet: .... ..R."),
        ("hands: Rz-- RLR.", "feet: .R.. ...R"),
        ("hands: RLRL",),
        ("feet: RLRL",),
        ("hands: RLRL RLRL", "feet: .... ...."),
    ],
)
def test_what_is_not_one_line_has_two_voices_or_one_lane(lines):
    assert score(*lines).line is None


@settings(max_examples=40, deadline=None)
@given(pattern_texts())
def test_every_stroke_is_drawn_once_whichever_way(text):
    pattern = read_one(text)
    drawn = read_score(pattern)
    hits = [hit.stroke for cut in drawn.cuts for voice in (cut.hands, cut.feet) for found in voice.hits.values()
            for hit in found]  # fmt: skip
    assert sorted((s.at, s.limb, s.kind, s.on) for s in hits) == sorted(
        (s.at, s.limb, s.kind, s.on) for s in drawn.strokes
    )
