"""Brackets: several strokes that share one slot, so that a tuplet may fill a part of a beat."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.strategies import TIMES, lanes
from wristwork.course.techniques import techniques
from wristwork.drawing.beams import beam_parts, runs
from wristwork.drawing.counting import counts
from wristwork.drawing.layout import lay_out
from wristwork.drawing.marks import tuplets
from wristwork.drawing.score import read_score
from wristwork.pattern import PatternError, read_course, read_one
from wristwork.pattern.model import DiagramRow, Pattern, Side, events
from wristwork.pattern.parts import CannotJoin, joined, part_of
from wristwork.pattern.values import group_values
from wristwork.pattern.write import lane_text


def read(*lines: str) -> Pattern:
    return read_one("\n".join(("example: yes", *lines)))


def starts(pattern: Pattern) -> list[str]:
    """The moments of the hands' notes in the first beat, in twelfths of it."""
    return [str(event.at * 12) for event in events(pattern.hands) if event.what and event.at < 1]


@pytest.mark.parametrize(
    ("beat", "twelfths"),
    [
        ("R{LRL}", "0 6 8 10"),
        ("{RLR}L", "0 2 4 6"),
        ("{RL}{RLR}", "0 3 6 8 10"),
        ("RL{RLR}R", "0 3 6 7 8 9"),
        ("R{LR}", "0 6 9"),
        ("R{-LR}", "0 8 10"),
        (".{LRL}", "6 8 10"),
    ],
)
def test_what_stands_in_brackets_shares_one_slot(beat, twelfths):
    pattern = read(f"hands: {beat} R R R")
    assert starts(pattern) == twelfths.split()
    assert lane_text(pattern.hands) == f"{beat} R R R"


@pytest.mark.parametrize(
    ("beat", "time", "values"),
    [
        ("R{LRL}", "4/4", "1/8 3x1/16"),
        ("{RL}{RLR}", "4/4", "1/16 3x1/16"),
        ("RL{RLR}R", "4/4", "1/16 3x1/32 1/16"),
        ("R{LR}", "4/4", "1/16"),
        ("R{LRLRL}", "4/4", "1/8 5x1/32"),
        ("RL{RLR}", "6/8", "1/8 3x1/16"),
        ("{RLR}LR", "6/8", "3x1/16 1/8 1/8"),
        ("R{LRL}", "2/2", "1/4 3x1/8"),
    ],
)
def test_each_stretch_is_written_by_itself(beat, time, values):
    others = {"4/4": " R R R", "6/8": " R", "2/2": " R"}[time]
    pattern = read(f"time: {time}", f"hands: {beat}{others}")
    first = [group for group in group_values(pattern.hands, pattern.time) if group.written == 0]
    assert (
        " ".join(f"{group.ratio.actual}x{group.base}" if group.ratio else str(group.base) for group in first) == values
    )


@pytest.mark.parametrize(
    ("beat", "told"),
    [
        ("R{LRL}", "1 & ta la"),
        ("{RLR}L", "1 ta la &"),
        ("{RL}{RLR}", "1 e & ta la"),
        ("R{LR}", "1 e & a"),
        ("RLR{LRL}", "1 e & a · ·"),
    ],
)
def test_it_is_counted_as_its_part_of_the_beat_is(beat, told):
    pattern = read("time: 1/4", f"hands: {beat}")
    assert [count.word for count in counts(pattern)] == told.split()


def test_one_beam_joins_the_beat_and_a_bracket_stands_over_the_tuplet_alone():
    score = read_score(read("time: 2/4", "hands: R{LRL} {RL}{RLR}"))
    beams = [
        [(part.level, part.first, part.last) for part in beam_parts(run)]
        for cut in score.cuts
        for run in runs(cut.hands)
    ]
    assert beams == [[(1, 0, 3), (2, 1, 3)], [(1, 0, 4), (2, 0, 1), (2, 2, 4)]]
    for cut in lay_out(score, frozenset(DiagramRow)).cuts:
        (tuplet,) = tuplets(cut, up=True)
        heads = [cut.column(chord.chord) for chord in cut.hands]
        assert tuplet.number == 3
        assert tuplet.bracket is not None
        assert heads[-4] < tuplet.bracket[0] < heads[-3] < heads[-1] < tuplet.bracket[1]


def test_each_hand_may_have_brackets_of_its_own_and_the_feet_too():
    pattern = read("right: xx xx xx xx", "left: .{xxx} . {xxx}x .", "feet: R R{RRR} . R")
    assert lane_text(pattern.hands) == "R{BLL} RR {BLL}B RR"
    assert lane_text(pattern.feet) == "R R{RRR} . R"


def test_a_line_of_drums_has_a_word_for_each_stroke_in_brackets():
    pattern = read("hands: R{LRL} R L R", "drums: snare high mid floor, snare, snare, snare")
    assert [drum and str(drum[0]) for drum in pattern.drums or ()][1:4] == ["high tom", "mid tom", "floor tom"]


def test_accents_count_the_slots_in_brackets_and_the_other_hand_keeps_them():
    grown = read_one_of("from: rough-six", "change: other hand leads, accent 2")
    assert lane_text(grown.hands) == "L{R>LR} L R L"


def read_one_of(*lines: str) -> Pattern:
    page = "```pattern\nid: rough-six\ntitle: Rough six\nhands: R{LRL} R L R\n```\n\n```pattern\nexample: yes\n"
    course = read_course({"page.md": page + "\n".join(lines) + "\n```\n"})
    assert course.problems == ()
    return course.fences[1].pattern


def test_it_is_a_technique_of_its_own():
    assert techniques(read("hands: R{LRL} R L R")) == ("tuplets in part of a beat",)
    assert techniques(read("hands: R{LR} R L R")) == ()


@pytest.mark.parametrize(
    ("hands", "found", "remedy"),
    [
        ("R{LRL R L R", "a bracket that is not closed", "close it after its strokes, without a space: R{LRL}"),
        ("RLR} R L R", "a closing bracket with none open", "brackets hold strokes that share one slot: R{LRL}"),
        ("R{L} R L R", "one slot alone in brackets", "they make several strokes share one slot: R{LRL}"),
        ("R{} R L R", "brackets with nothing in them", "they make several strokes share one slot: R{LRL}"),
        ("R{L{RL}R} R L R", "brackets inside brackets", "one pair is enough: R{LRL}"),
        (
            "R/{LRL}. R L R",
            "brackets in a group of 3, which in 4/4 is a tuplet itself",
            "write the beat in two or four, with brackets for each finer part: {RL}{RLR}",
        ),
        (
            "RL{RLR} R L R",
            "brackets in a group of 3, which in 4/4 is a tuplet itself",
            "write the beat in two or four, with brackets for each finer part: {RL}{RLR}",
        ),
    ],
)
def test_what_is_wrong_is_told_with_its_remedy(hands, found, remedy):
    with pytest.raises(PatternError) as told:
        read(f"hands: {hands}")
    assert (told.value.problems[0].found, told.value.problems[0].remedy) == (found, remedy)


@given(TIMES.flatmap(lambda time: st.tuples(st.just(time), lanes(1, time))))
def test_what_is_written_fills_the_bar_and_hands_come_apart_and_together_again(timed):
    time, lane = timed
    groups = group_values(lane, time)
    assert sum((Fraction(group.beats) for group in groups), Fraction(0)) == time.beats
    assert {event.group for event in events(lane)} <= set(range(len(groups)))
    right, left = part_of(lane, Side.RIGHT), part_of(lane, Side.LEFT)
    try:
        again = joined(right, left)
    except CannotJoin:
        return
    assert [event.at for event in events(again) if event.what] == [event.at for event in events(lane) if event.what]
