"""Groups, slots and bars: what is read, and where errors are told."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.strategies import TIMES, lanes
from wristwork.pattern import PatternError, read_one
from wristwork.pattern.model import BOTH, Gap, Level, Note, Side
from wristwork.pattern.write import lane_text

R, L = Side.RIGHT, Side.LEFT


def read_hands(groups, *more):
    return read_one("\n".join(["title: A title", f"hands: {groups}", *more]))


def complaints(text):
    with pytest.raises(PatternError) as caught:
        read_one(text)
    return [(p.line, p.column, p.found, p.remedy) for p in caught.value.problems]


SLOTS = {
    "R": Note((R,)),
    "L": Note((L,)),
    "B": Note(BOTH),
    "R>": Note((R,), Level.ACCENT),
    "(R)": Note((R,), Level.GHOST),
    "lR": Note((R,), graces=(L,)),
    "rL": Note((L,), graces=(R,)),
    "llR": Note((R,), graces=(L, L)),
    "rlR": Note((R,), graces=(R, L)),
    "lrlR": Note((R,), graces=(L, R, L)),
    "R/": Note((R,), strokes=2),
    "R/3": Note((R,), strokes=3),
    "R//": Note((R,), strokes=4),
    "Rz": Note((R,), buzz=True),
    ".": Gap.REST,
    "lR>": Note((R,), Level.ACCENT, (L,)),
    "(lR)": Note((R,), Level.GHOST, (L,)),
    "R>/": Note((R,), Level.ACCENT, strokes=2),
    "R/>": Note((R,), Level.ACCENT, strokes=2),
    "R/3>": Note((R,), Level.ACCENT, strokes=3),
    "(R)/": Note((R,), Level.GHOST, strokes=2),
    "(R/)": Note((R,), Level.GHOST, strokes=2),
    "(R)z": Note((R,), Level.GHOST, buzz=True),
    "(Rz)": Note((R,), Level.GHOST, buzz=True),
    "R>z": Note((R,), Level.ACCENT, buzz=True),
    "Rz>": Note((R,), Level.ACCENT, buzz=True),
    "B>/": Note(BOTH, Level.ACCENT, strokes=2),
}


@pytest.mark.parametrize("text", SLOTS, ids=str)
def test_a_slot_reads_as(text):
    assert read_hands(text).hands.slots == (SLOTS[text],)


def test_slots_of_a_group_are_kept_apart():
    assert read_hands("R>llR(rL)/.-").hands.slots == (
        Note((R,), Level.ACCENT), Note((R,), graces=(L, L)), Note((L,), Level.GHOST, (R,), 2), Gap.REST, Gap.HOLD,
    )  # fmt: skip


@given(st.data())
def test_a_lane_survives_being_written_and_read(data):
    time = data.draw(TIMES)
    lane = data.draw(lanes(data.draw(st.integers(1, 3)), time, holds=data.draw(st.booleans())))
    bare = lane_text(lane, time, bar_lines=False)
    for text in (bare, lane_text(lane, time), f"| {lane_text(lane, time)} |"):
        assert read_hands(text, f"time: {time}").hands == lane


SLOT_ERRORS = [
    ("R>LRR >RLL", 7, "an accent mark with no stroke before it", "R> or L>"),
    ("/R", 1, "a slash with no stroke", "R/ or L/"),
    ("zR", 1, "a buzz mark with no stroke", "Rz or Lz"),
    (".>", 2, "an accent mark with no stroke", "R>"),
    ("R>>", 3, "the mark > twice", "R>"),
    ("Rzz", 3, "the mark z twice", "Rz"),
    ("R///", 4, "the mark / twice", "R// is four"),
    ("R/4", 3, "a slash followed by 4", "R// is four"),
    ("R/z", 3, "a buzz with a slash", "Rz or R/"),
    ("Rz/", 3, "a buzz with a slash", "Rz or R/"),
    ("(R>)", 3, "an accent in a ghost", "R> or (R)"),
    ("(R)>", 4, "an accent in a ghost", "R> or (R)"),
    ("(R", 1, "not closed", "(R)"),
    ("R)", 2, "none open", "(R)"),
    ("()", 1, "no stroke in them", "(R)"),
    ("(.)", 1, "no stroke in them", "(R)"),
    ("(RL)", 3, "more than one stroke", "(R)(L)"),
    ("rlrr", 1, "a lower-case letter with no capital after it", "capitals are strokes, mark accents with >: RLRR"),
    ("Rlrr", 2, "a lower-case letter with no capital after it", "R>LRR"),
    ("R>lrr", 3, "a lower-case letter with no capital after it", "R>LRR"),
    ("l(R)", 1, "outside the parentheses", "(lR)"),
    ("rR", 1, "own hand", "lR"),
    ("rrR", 2, "own hand", "rlR"),
    ("lrR", 2, "own hand", "llR"),
    ("llllR", 1, "4 grace notes", "one to three"),
    ("lB", 1, "both hands together", "B takes no grace notes"),
    ("RxL", 2, "'x' means nothing here", "strokes are R, L and B"),
    ("R\u200bL", 2, "U+200B (zero width space)", "take it out"),
    ("R3", 2, "'3' means nothing here", "strokes are"),
    ("RLRLRLRLRLRLR", 1, "a group of 13 slots", "put a space between beats"),
    ("-RL", 1, "a held slot with nothing before it", "R or ."),
    ("over 2", 1, "over with no group before it", "RLR over 2"),
    ("R | over 2", 5, "over with no group before it", "RLR over 2"),
    ("RLR over", 5, "over without a number", "RLR over 2"),
    ("RLR over 5", 10, "a group over 5 beats", "over 2, 3 or 4"),
    ("RLR over 1", 10, "a group over 1 beats", "over 2, 3 or 4"),
    ("RLR over 2 over 2", 12, "a second time", "keep one"),
    ("RLRover 2", 4, "over without a space before it", "leave one: RLR over 2"),
    ("((R))", 2, "parentheses inside parentheses", "(R)"),
    ("(r)L", 2, "a lower-case letter with no capital after it", ": (R)L"),
    ("rzLR", 1, "a lower-case letter with no capital after it", ": RzLR"),
    ("R # soft and low", 3, "a comment in the line of a lane", "a line of its own"),
    ("Right", 2, "'i' means nothing here", "strokes are R, L and B"),
    ("RLR over2", 5, "'over2' is no group", "leave a space"),
    ("|", 1, "no group of strokes", "RLRL"),
]  # fmt: skip


@pytest.mark.parametrize(("groups", "column", "found", "remedy"), SLOT_ERRORS, ids=[each[0] for each in SLOT_ERRORS])
def test_what_is_wrong_in_a_group(groups, column, found, remedy):
    told = complaints(f"title: A title\nhands: {groups}")
    assert len(told) == 1, told
    line, at, said, mended = told[0]
    assert (line, at) == (2, column + len("hands: "))
    assert found in said
    assert remedy in mended


def test_every_error_of_a_lane_is_told_at_once():
    told = complaints("title: A title\nhands: R>> RLx (R\nfeet: q\ntempo: 500")
    assert [(line, column) for line, column, _, _ in told] == [(2, 10), (2, 14), (2, 16), (3, 7), (4, 8)]


def test_word_processors_are_undone():
    assert read_hands("R\u00aeL.") == read_hands("R(R)L.")
    plain = read_hands("R-L. .-R- ...L R---")
    assert read_hands("R\u2013L.\u00a0.\u2212R\u2014 \u2026L\u2003R\u2010\u2011\u2012").hands == plain.hands


def test_an_ellipsis_is_three_slots_at_one_place():
    assert complaints("title: A title\nhands: \u2026x")[0][1] == 9


def test_bar_lines_may_touch_and_frame():
    bare = read_hands("RLRL RLRL | RLRL RLRL")
    for text in (
        "|RLRL RLRL|RLRL RLRL|",
        "RLRL RLRL | RLRL RLRL ||",
        "|| RLRL RLRL|RLRL RLRL",
        "| RLRL RLRL | RLRL RLRL",
        "RLRL RLRL|RLRL RLRL |",
    ):
        assert read_hands(text) == bare
    assert str(bare.time) == "2/4"


def test_a_frame_is_no_bar_line():
    assert str(read_hands("| R L R L R L R L |").time) == "4/4"


TIMES_TOLD = {
    "R": "1/4", "R L": "2/4", "R L R": "3/4", "R L R L": "4/4", "R L R L R": "5/4", "R L R L R L": "6/4",
    "R L R L R L R": "7/4", "R L R L R L R L": "4/4", "RLR over 2 R L": "4/4", "R L R | L R L": "3/4",
    "R L R L R L R L R | R L R L R L R L R": "9/4",
}  # fmt: skip


@pytest.mark.parametrize("groups", TIMES_TOLD)
def test_the_time_is_told_from_the_hands(groups):
    assert str(read_hands(groups).time) == TIMES_TOLD[groups]


def test_the_time_is_told_from_the_lane_that_alone_has_bar_lines():
    assert str(read_hands("R L R L R L R L R L R L", "feet: R L R | R L R").time) == "3/4"
    assert str(read_one("title: Feet\nfeet: R L R").time) == "3/4"


def test_nine_beats_ask_for_a_time():
    ((line, column, found, remedy),) = complaints("title: A title\nhands: R L R L R L R L R")
    assert (line, column) == (2, 8)
    assert "9 beats" in found
    assert "time:" in remedy


BAR_ERRORS = [
    ("R L R L | R L R", "", 18, "bar 2 holds 3 beats, where 4/4 (told from the first bar) asks for 4"),
    ("R L R | R L R L | R", "", 16, "bar 2 holds 4 beats, where 3/4 (told from the first bar) asks for 3"),
    ("R L | | R L", "", 14, "bar 2 holds 0 beats"),
    ("R L R L R", "time: 4/4", 16, "the last bar (bar 2) holds 1 beat, where 4/4 asks for 4"),
    ("R L R RLR over 2", "time: 4/4", 14, "crosses a bar line"),
    ("RLR RLR RLR", "time: 6/8", 16, "the last bar (bar 2) holds 1 beat, where 6/8 asks for 2"),
]


@pytest.mark.parametrize(("groups", "more", "column", "found"), BAR_ERRORS, ids=[each[0] for each in BAR_ERRORS])
def test_a_bar_that_does_not_hold_its_beats(groups, more, column, found):
    told = complaints(f"title: A title\nhands: {groups}\n{more}")
    assert told[0][:2] == (2, column)
    assert found in told[0][2]


def test_a_shorter_lane_repeats_whole():
    pattern = read_hands("RLRL RLRL RLRL RLRL | RLRL RLRL RLRL RLRL", "feet: R . L .")
    assert pattern.feet.beats == 8
    assert pattern.feet == read_one("title: Feet\nfeet: R . L . | R . L .").feet


def test_lanes_that_never_end_together():
    told = complaints("title: A title\ntime: 2/4\nhands: R L R L R L\nfeet: R L R L")
    assert told == [
        (4, 7, "hands of 3 bars and feet of 2 bars never end together",
         "make one lane a whole number of times as long as the other")
    ]  # fmt: skip


def test_a_pattern_has_at_most_64_bars():
    assert read_hands("R " * 64, "time: 1/4").bars == 64
    assert "65 bars" in complaints("title: A title\ntime: 1/4\nhands: " + "R " * 65)[0][2]


def test_a_pattern_has_at_most_4096_slots():
    full = "RLRLRLRLRLRL " * 256
    assert read_hands(full, "time: 32/4").beats == 256
    assert "6144 slots" in complaints(f"title: A title\ntime: 32/4\nhands: {full}\nfeet: {full}")[0][2]


def test_a_slash_fills_the_whole_of_one_value():
    assert read_hands("RLRLRL R/-----").hands.slots[6].strokes == 2
    assert read_hands("R/---LLLL").hands.slots[0].strokes == 2


@pytest.mark.parametrize(
    ("hands", "more", "column"),
    [
        ("LLLR/----", "", 11),  # five slots of eight
        ("R L R L/ | - L R L", "", 14),  # over a bar line
        ("RLR/ -LR RLR RLR", "", 10),  # out of a triplet
    ],
)
def test_a_slash_on_what_no_single_value_holds(hands, more, column):
    ((line, at, found, _),) = complaints(f"title: A title\nhands: {hands}\n{more}")
    assert (line, at) == (2, column)
    assert "no single note value" in found


def test_three_strokes_in_a_long_note_are_to_be_written_as_a_group():
    ((line, at, found, remedy),) = complaints("title: A title\nhands: R L/3 - R")
    assert (line, at) == (2, 10)
    assert found == "three strokes in a note longer than a quarter, which no slash can say"
    assert remedy == "write them as a group, over as many beats: RRR over 2"
    assert read_one("title: A title\ntime: 3/4\nhands: L/3 - -").hands
