"""Demand: rates and times worked out by hand, rules that hold for any pattern, pairs that every tutor orders alike."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import assume, given, reject, settings
from hypothesis import strategies as st

from tests.strategies import pattern_texts
from wristwork.pattern import read_one
from wristwork.pattern.model import Lane, Level, Note, Side, together
from wristwork.pattern.problems import PatternError
from wristwork.technique.demand import Demand, demand, grade_of
from wristwork.technique.measures import LONGEST_RUN_COUNTED, measure


def read(hands, **more):
    lines = [f"{key}: {value}" for key, value in more.items()]
    return read_one("\n".join(["title: A title", f"hands: {hands}", *lines]))


def score(pattern, tempo=100):
    return demand(pattern, tempo).score


# --- rates and times, worked out by hand -------------------------------------------------------------------------


def test_single_strokes_in_sixteenths_at_60():
    # four notes a second, every other one the right hand's
    right = demand(read("RLRL RLRL RLRL RLRL"), 60).right_hand
    assert right.strokes_per_second == 2
    assert right.fastest_strokes_per_second == 2
    assert right.motions_per_second == 2
    assert right.shortest_lift_s is None
    assert right.shortest_stop_s is None
    assert right.height_changes_per_second == 0
    assert right.drum_changes_per_second == 0
    assert right.longest_run_strokes == 1


@pytest.mark.parametrize(("tempo", "lift", "stop"), [(60, 0.75, 0.5), (120, 0.375, 0.25)])
def test_the_accented_paradiddle_has_the_lift_and_the_stop_of_the_trade_sheet(tempo, lift, stop):
    found = demand(read("R>LRR L>RLL"), tempo)
    for hand in (found.right_hand, found.left_hand):
        assert hand.shortest_lift_s == lift
        assert hand.shortest_stop_s == stop
        # in two beats: one down and one up
        assert hand.height_changes_per_second == tempo / 60
        assert hand.strokes_per_second == 2 * tempo / 60
        assert hand.fastest_strokes_per_second == 4 * tempo / 60
        # four strokes in two beats, of which the double's second is a rebound
        assert hand.motions_per_second == 1.5 * tempo / 60
        assert hand.longest_run_strokes == 2


def test_a_double_is_one_motion_and_an_accent_on_its_second_stroke_makes_it_two():
    assert demand(read("RRLL RRLL"), 60).right_hand.motions_per_second == 1
    assert demand(read("RR>LL RRLL"), 60).right_hand.motions_per_second == 1.5


def test_at_most_three_strokes_come_from_one_motion():
    assert demand(read("RRRLLL RRRLLL"), 60).right_hand.motions_per_second == 1
    assert demand(read("RRRR LLLL"), 60).right_hand.motions_per_second == 1
    # eight in a row: three motions in two beats
    assert demand(read("RRRRRRRR LLLLLLLL"), 60).right_hand.motions_per_second == 1.5


def test_two_strokes_further_apart_than_the_shortest_spacing_are_two_motions():
    assert demand(read("RR LL RLRL RLRL"), 60).right_hand.motions_per_second == 1.5


def test_a_buzz_is_one_motion_and_rebounds_into_nothing():
    assert demand(read("RzRzLzLz"), 60).right_hand.motions_per_second == 2


def test_a_grace_note_is_a_stroke_of_its_hand_on_the_beat_of_its_main_note():
    found = demand(read("lR> rL>"), 60)
    for hand in (found.right_hand, found.left_hand):
        assert hand.strokes_per_second == 1
        assert hand.fastest_strokes_per_second == 1
        assert hand.shortest_lift_s == 1
        assert hand.shortest_stop_s == 1
    assert found.ornaments_per_second == 1


def test_no_rate_is_measured_inside_an_ornament():
    drag = demand(read("llR rrL"), 60)
    assert drag.left_hand.strokes_per_second == 1.5
    assert drag.left_hand.fastest_strokes_per_second == 1
    ruff = demand(read("R rlR>"), 60)
    # the right hand's grace note goes up to its own main note: the time for that is the beat before it
    assert ruff.right_hand.fastest_strokes_per_second == 1
    assert ruff.right_hand.shortest_lift_s == 1


def test_a_hand_with_one_stroke_has_the_whole_loop_for_it():
    left = demand(read("R R R L"), 60).left_hand
    assert left.fastest_strokes_per_second == 0.25


def test_without_a_loop_nothing_is_measured_across_the_end():
    looping, ending = read("R>LRL"), read("R>LRL", loop="no", time="1/4")
    assert demand(looping, 60).right_hand.shortest_lift_s == 0.5
    assert demand(ending, 60).right_hand.shortest_lift_s is None
    assert demand(ending, 60).right_hand.shortest_stop_s == 0.5
    assert demand(read("R... L...", loop="no"), 60).right_hand.fastest_strokes_per_second is None


def test_drum_changes_are_counted_for_each_hand_round_the_loop():
    found = demand(read("R>LRL R>LRL", place="all on snare, accents on floor tom"), 60)
    assert found.right_hand.drum_changes_per_second == 2
    assert found.left_hand.drum_changes_per_second == 0


def test_the_tempo_counts_beats_of_the_time_signature():
    # a dotted beat of six sixteenths: three for each hand
    assert demand(read("RLRLRL RLRLRL", time="6/8"), 60).right_hand.strokes_per_second == 3


def test_limbs_and_their_combinations():
    found = demand(read("RR BR RR BR", feet="R . R .", place="right on hi-hat, left on snare"), 60)
    assert found.limbs == 3
    assert found.limb_combinations == 3  # right hand and foot, right hand alone, both hands


def test_subdivisions_and_their_changes():
    found = demand(read("RL RLR LR LRL"), 60)
    assert found.subdivisions == 2
    assert found.subdivision_changes_per_second == 1


def test_a_hand_that_plays_alone_has_the_longest_run_there_is():
    assert demand(read("RRRR RRRR"), 60).right_hand.longest_run_strokes == LONGEST_RUN_COUNTED
    assert demand(read("RRRR RRRR"), 60).right_hand.long_run_strokes_per_second == 4
    assert demand(read("LRRR RRLL"), 60).right_hand.longest_run_strokes == 5
    assert demand(read("RRLL RLRR"), 60).right_hand.longest_run_strokes == 4  # across the seam
    assert demand(read("RRLL RLRR"), 60).right_hand.long_run_strokes_per_second == 4
    assert demand(read("RRLL RRLL"), 60).right_hand.long_run_strokes_per_second is None


def test_nothing_is_asked_of_a_hand_that_does_not_play():
    left = demand(read("R R R R"), 60).left_hand
    assert left.strokes_per_second == left.motions_per_second == left.longest_run_strokes == 0
    assert left.fastest_strokes_per_second is None


@pytest.mark.parametrize(
    ("hands", "time", "is_across"),
    [
        ("RLR over 2 LRL over 2", "4/4", True),  # three over two beats
        ("BRLR", "1/4", False),
        ("R L R L", "4/4", False),
        ("R over 2 L over 2", "4/4", False),
        ("RLRL over 3", "3/4", True),
        ("RL over 3", "3/4", True),
        ("RLRLRL over 3", "3/4", False),
        ("RLR LRL", "2/4", False),
        ("R..L ..R. .L.. R...", "4/4", True),  # dotted eighths from 1 to 4
        ("R.LR R.LR", "2/4", False),
    ],
)
def test_a_rhythm_that_stands_across_the_beats(hands, time, is_across):
    assert measure(read(hands, time=time)).is_across is is_across


def test_hands_that_stand_across_each_other():
    three_over_two = read_one("title: Three over two\nright: RRR\nleft: LL\ntime: 1/4")
    assert measure(three_over_two).is_across
    assert not measure(read_one("title: Four over two\nright: RRRR\nleft: LL\ntime: 1/4")).is_across


def test_ornaments_and_buzzes_are_known():
    assert [measure(read(hands)).most_graces for hands in ("RL RL", "lRL RL", "llRL rLR", "lrlR L")] == [0, 1, 2, 3]
    assert [measure(read(hands)).has_buzz for hands in ("RL RL", "RzL RL")] == [False, True]


def test_the_feet_alone_have_a_demand_too():
    pattern = read_one("title: Feet alone\nfeet: R L R L")
    assert demand(pattern, 60).limbs == 2
    assert demand(pattern, 120).score > demand(pattern, 60).score > 0


def test_a_lane_of_rests_asks_nothing():
    assert score(read(". . . .")) == 0


# --- rules that hold for any pattern -----------------------------------------------------------------------------

TEMPOS = st.integers(20, 320)


def readable(text):
    """The pattern of a random text; now and then one has a slash on a note of a length that can't be written."""
    try:
        return read_one(text)
    except PatternError as error:
        if all("slash" in problem.found for problem in error.problems):
            reject()
        raise


PATTERNS = pattern_texts().map(readable)
HANDS_ONLY = pattern_texts(feet=False, place=False).map(readable)
ONCE_THROUGH = pattern_texts(form=False).map(readable)
HANDS_ONCE = pattern_texts(feet=False, place=False, form=False).map(readable)


def hands_changed(pattern, change):
    """The pattern with every note of the hands changed by ``change(number, note)``, gaps as they are."""
    number = -1

    def changed(slot):
        nonlocal number
        if not isinstance(slot, Note):
            return slot
        number += 1
        return change(number, slot)

    groups = tuple(replace(group, slots=tuple(changed(slot) for slot in group.slots)) for group in pattern.hands.groups)
    return replace(pattern, hands=Lane(groups))


def at_level(note, level):
    """The note with every hand at a level."""
    return note.each(lambda hand: replace(hand, level=level))


def harder(before: Demand, after: Demand) -> bool:
    return after.score >= before.score


@given(PATTERNS, TEMPOS, st.integers(1, 100))
@settings(max_examples=60, deadline=None)
def test_raising_the_tempo_never_lowers_the_score(pattern, tempo, more):
    assert harder(demand(pattern, tempo), demand(pattern, tempo + more))


@given(PATTERNS, TEMPOS, st.randoms(use_true_random=False))
@settings(max_examples=100, deadline=None)
def test_adding_flams_never_lowers_the_score(pattern, tempo, chance: random.Random):
    def flammed(_, note):
        plain = not note.graces and not note.is_both
        return replace(note, graces=(note.sides[0].other,)) if plain and chance.random() < 0.4 else note

    assert harder(demand(pattern, tempo), demand(hands_changed(pattern, flammed), tempo))


@given(HANDS_ONLY, TEMPOS, st.sampled_from(["R", "L", "R L", "R.R.", "RLR LRL", "B . RL over 2", "..R"]))
@settings(max_examples=80, deadline=None)
def test_adding_a_foot_lane_never_lowers_the_score(pattern, tempo, feet):
    lane = read_one(f"title: Feet alone\nfeet: {feet}").feet
    assume(lane.beats % pattern.beats == 0 or pattern.beats % lane.beats == 0)
    longest = max(lane.beats, pattern.beats)
    looping = replace(pattern, loop=True)
    both = replace(looping, hands=pattern.hands.times(longest // pattern.beats), feet=lane.times(longest // lane.beats))
    assert harder(demand(looping, tempo), demand(both, tempo))


@given(PATTERNS, TEMPOS)
@settings(max_examples=60, deadline=None)
def test_adding_the_other_foot_never_lowers_the_score(pattern, tempo):
    assume(pattern.feet is not None)
    one_foot = replace(pattern, feet=_feet(pattern.feet, lambda sides: (Side.RIGHT,)))
    both_feet = replace(pattern, feet=_feet(pattern.feet, lambda sides: (Side.RIGHT, Side.LEFT)))
    assert harder(demand(one_foot, tempo), demand(both_feet, tempo))


def _feet(lane, sides):
    return Lane(
        tuple(
            replace(
                group,
                slots=tuple(
                    replace(s, sides=sides(s.sides), graces=()) if isinstance(s, Note) else s for s in group.slots
                ),
            )
            for group in lane.groups
        )
    )


@given(HANDS_ONLY, TEMPOS, st.sampled_from(["accents", "right", "left taps", "ghosts", "left accents"]))
@settings(max_examples=60, deadline=None)
def test_adding_a_drum_change_never_lowers_the_score(pattern, tempo, who):
    def placed(place):
        return replace(pattern, placement=read("R", place=place, time="1/4").placement)

    one_drum = demand(placed("all on snare"), tempo)
    assert harder(one_drum, demand(placed(f"all on snare, {who} on high tom"), tempo))
    assert harder(one_drum, demand(placed(f"all on snare, {who} on high tom then snare then floor tom"), tempo))


@given(PATTERNS, TEMPOS, st.randoms(use_true_random=False), st.sampled_from([Level.TAP, Level.GHOST]))
@settings(max_examples=100, deadline=None)
def test_accents_among_even_strokes_never_lower_the_score(pattern, tempo, chance, level):
    even = hands_changed(replace(pattern, placement=None), lambda _, note: at_level(note, level))
    accented = hands_changed(even, lambda _, note: at_level(note, Level.ACCENT) if chance.random() < 0.3 else note)
    assume(any(slot.level is Level.TAP for slot in even.hands.slots if isinstance(slot, Note)) or level is Level.GHOST)
    assume(_is_contrast(accented) or accented == even)
    assert harder(demand(even, tempo), demand(accented, tempo))


@given(PATTERNS, TEMPOS, st.integers(0, 40))
@settings(max_examples=60, deadline=None)
def test_one_soft_stroke_among_accents_never_lowers_the_score(pattern, tempo, which):
    # no grace notes and no slashes: their soft strokes are contrast already
    loud = hands_changed(
        replace(pattern, placement=None), lambda _, note: Note(note.sides, Level.ACCENT, buzz=note.buzz)
    )
    softened = hands_changed(loud, lambda number, note: at_level(note, Level.TAP) if number == which else note)
    assume(_is_contrast(softened))
    assert harder(demand(loud, tempo), demand(softened, tempo))


@given(PATTERNS, TEMPOS, st.integers(0, 40))
@settings(max_examples=80, deadline=None)
def test_one_more_accent_never_lowers_the_score_while_the_hand_still_plays_low(pattern, tempo, which):
    even = replace(pattern, placement=None)
    # in place of a tap: a ghost that becomes an accent may take the softest level away
    accented = hands_changed(
        even,
        lambda number, note: at_level(note, Level.ACCENT) if number == which and note.levels == {Level.TAP} else note,
    )
    assume(all(_plays_low(accented, side) or not _plays_low(even, side) for side in Side))
    assume(_is_contrast(accented) or not _is_contrast(even))
    assert harder(demand(even, tempo), demand(accented, tempo))


def _plays_low(pattern, side):
    notes = [slot for slot in pattern.hands.slots if isinstance(slot, Note)]
    return any(side in note.sides and note.of(side).level is not Level.ACCENT for note in notes)


def _is_contrast(pattern):
    return len({level for slot in pattern.hands.slots if isinstance(slot, Note) for level in slot.levels}) > 1


@given(HANDS_ONLY, TEMPOS)
@settings(max_examples=60, deadline=None)
def test_swapping_the_hands_changes_nothing_but_the_names(pattern, tempo):
    def swapped(_, note):
        if note.is_both:
            right, left = note.hands
            return together(replace(left, sides=right.sides), replace(right, sides=left.sides))
        return replace(note, sides=(note.sides[0].other,), graces=tuple(side.other for side in note.graces))

    before, after = demand(pattern, tempo), demand(hands_changed(pattern, swapped), tempo)
    assert before == replace(after, right_hand=after.left_hand, left_hand=after.right_hand)


@given(ONCE_THROUGH, TEMPOS, st.integers(2, 4))
@settings(max_examples=60, deadline=None)
def test_repeating_changes_nothing(pattern, tempo, times):
    assert demand(replace(pattern, repeat=times), tempo) == demand(replace(pattern, repeat=1), tempo)
    looping = replace(pattern, loop=True, placement=None)
    typed_out = replace(
        looping, hands=pattern.hands.times(times), feet=pattern.feet.times(times) if pattern.feet else None
    )
    assert demand(typed_out, tempo) == demand(looping, tempo)


@given(HANDS_ONCE, st.integers(20, 160))
@settings(max_examples=60, deadline=None)
def test_half_the_beats_at_half_the_tempo_are_the_same_strokes(pattern, tempo):
    doubled = Lane(tuple(replace(group, beats=group.beats * 2) for group in pattern.hands.groups))
    # Against which beats a rhythm stands is another matter.
    assume(measure(pattern).is_across == measure(replace(pattern, hands=doubled)).is_across)
    before, after = demand(pattern, tempo), demand(replace(pattern, hands=doubled), tempo * 2)
    assert replace(after, tempo=tempo) == before


@pytest.mark.parametrize(
    ("written", "otherwise"),
    [
        ("R/L/", "RRLL"),
        ("R>/L>/", "R>RL>L"),
        ("R/3L/3", "RRRLLL"),
        ("R//L//", "RRRRLLLL"),
        ("(R)/(L)/", "(R)(R)(L)(L)"),
        ("R-L-", "RL"),
        ("R.L.", "RL"),
        ("R.L.", "R-L-"),
        ("R/-LR", "RRLR"),
        ("R>LRR L>RLL", "R>LRRL>RLL over 2"),
        ("B>B", "B>-B-"),
        ("lR.rL.", "lRrL"),
    ],
)
def test_the_same_strokes_written_otherwise_have_the_same_demand(written, otherwise):
    time = "2/4" if " " in written else "1/4"
    assert demand(read(written, time=time), 97) == demand(read(otherwise, time=time), 97)


def test_dotted_beats_and_plain_triplets_have_the_same_demand():
    compound = read("R>LR L>RL", time="6/8")
    assert demand(compound, 88) == demand(read("R>LR L>RL"), 88)


# --- pairs that every tutor orders alike ------------------------------------------------------------------------

KIT = {"place": "right accents on floor tom, left accents on high tom, taps on snare"}
GROOVE = {"place": "right on hi-hat, left on snare", "feet": "R . R ."}
PAIRS = {
    "eighths before sixteenths": (read("RL RL"), read("RLRL RLRL")),
    "triplets before sextuplets": (read("RLR LRL"), read("RLRLRL RLRLRL")),
    "one hand in quarters before two hands in eighths": (read("R R R R"), read("RL RL RL RL")),
    "the same hand in eighths before both in sixteenths": (read("RR RR RR RR"), read("RLRL RLRL RLRL RLRL")),
    "hands in turn before one hand alone": (read("RLRL RLRL"), read("RRRR RRRR")),
    "singles before doubles": (read("RLRL RLRL"), read("RRLL RRLL")),
    "doubles before triple strokes": (read("RRLLRR LLRRLL"), read("RRRLLL RRRLLL")),
    "doubles before paradiddles": (read("RRLL RRLL"), read("RLRR LRLL")),
    "singles before paradiddle-diddles": (read("RLRLRL RLRLRL"), read("RLRRLL RLRRLL")),
    "taps before full strokes": (read("RLRL RLRL"), read("R>L>R>L> R>L>R>L>")),
    "full strokes before downs and ups": (read("R>R> R>R>"), read("R>R R>R")),
    "full strokes of both hands before an accent in four": (read("R>L>R>L>"), read("R>LRL")),
    "an accent in one place before one that walks": (read("R>LRL R>LRL R>LRL R>LRL"), read("R>LRL RL>RL RLR>L RLRL>")),
    "plain paradiddle before an accented one": (read("RLRR LRLL"), read("R>LRR L>RLL")),
    "accent on the first before accent inside the double": (read("R>LRR L>RLL"), read("RLRR> LRLL>")),
    "accents in three before flam accents": (read("R>LR L>RL"), read("lR>LR rL>RL")),
    "single strokes before flams": (read("R L R L"), read("lR rL lR rL")),
    "flams before drags": (read("lR rL lR rL"), read("llR rrL llR rrL")),
    "flam accents before pataflaflas": (read("lR>LR rL>RL"), read("lR>LRrL> lR>LRrL>")),
    "paradiddle before flam paradiddle": (read("R>LRR L>RLL"), read("lR>LRR rL>RLL")),
    "the pad before the kit": (read("R>LRR L>RLL"), read("R>LRR L>RLL", **KIT)),
    "two surfaces before a way round the toms": (
        read("RLRL RLRL", place="right on floor tom, left on snare"),
        read("RLRL RLRL", place="all on snare then high tom then floor tom"),
    ),
    "hands alone before hands and feet": (read("RLR LRL"), read("RLR LRL", feet="R R")),
    "feet in step before three against four": (read("RLR LRL", feet="R R"), read("RLR LRL", feet="RRRR RRRR")),
    "one foot before two": (read("RR BR RR BR", **GROOVE), read("RR BR RR BR", **{**GROOVE, "feet": "RL .L RL .L"})),
    "a groove before the same with ghost notes": (
        read("R.R. B.R. R.R. B.R.", **GROOVE),
        read("R.R(L) B.R(L) R(L)R. B.R(L)", **GROOVE),
    ),
    "a kick on the beat before one that pushes": (
        read("RR BR RR BR", **GROOVE),
        read("RR BR RR BR", **{**GROOVE, "feet": "R..R .... ..R. ...."}),
    ),
    "a groove in eighths before one in sixteenths with one hand": (
        read("RR BR RR BR", **GROOVE),
        read("RRRR BRRR RRRR BRRR", **GROOVE),
    ),
    "one subdivision before two": (read("RL RL RL RL"), read("RL RLR LR LRL")),
    "five-stroke roll slow wrists before open roll": (read("RL R> LR L>"), read("R/L/ R> L/R/ L>")),
}


@pytest.mark.parametrize("tempo", [60, 90, 120])
@pytest.mark.parametrize("name", PAIRS)
def test_pairs_come_out_in_the_order_every_tutor_teaches(name, tempo):
    easier, hard = PAIRS[name]
    assert score(easier, tempo) < score(hard, tempo)


SPREAD = [read("R R R R"), read("RLRL RLRL"), read("R>LRR L>RLL"), read("lR>LR rL>RL"), read("RR BR RR BR", **GROOVE)]


def test_grades_use_their_whole_range_over_the_tempos_of_a_course():
    grades = {demand(pattern, tempo).grade for pattern in SPREAD for tempo in range(40, 201, 10)}
    assert grades == set(range(1, 11))


def test_a_first_lesson_is_grade_one_and_sixteenths_at_200_are_near_the_top():
    assert demand(read("R R R R"), 60).grade == 1
    assert demand(read("RLRL RLRL"), 60).grade == 2
    assert demand(read("RLRL RLRL"), 200).grade >= 8
    assert demand(read("R>LRR L>RLL"), 200).grade == 10


@pytest.mark.parametrize(("points", "grade"), [(0, 1), (9.9, 1), (10, 2), (55, 6), (89.9, 9), (90, 10), (100, 10)])
def test_a_grade_is_ten_points_wide(points, grade):
    assert grade_of(points) == grade


@given(PATTERNS, TEMPOS)
@settings(max_examples=60, deadline=None)
def test_the_score_stays_between_0_and_100_and_figures_make_sense(pattern, tempo):
    found = demand(pattern, tempo)
    assert 0 <= found.score <= 100
    assert 1 <= found.grade <= 10
    for hand in (found.right_hand, found.left_hand):
        assert hand.motions_per_second <= hand.strokes_per_second
        assert Fraction(hand.motions_per_second) * 3 >= Fraction(hand.strokes_per_second) * Fraction(999, 1000)
