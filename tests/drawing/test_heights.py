from itertools import pairwise

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from wristwork.drawing.drawn_cut import bead_lines
from wristwork.drawing.heights import BEAD, PX_PER_S, Touch, bead_line, clipped
from wristwork.drawing.labels import HANDS
from wristwork.drawing.layout import lay_out
from wristwork.drawing.score import read_score
from wristwork.pattern import read_one
from wristwork.pattern.model import DiagramRow, Level
from wristwork.technique.motion.constants import HEIGHT_CM
from wristwork.technique.motion.paths import Impact, fall_time, lift_time, motion

LEVELS = st.sampled_from(list(Level))


@st.composite
def strips(draw):
    """Touches at growing places, and the length of their strip."""
    steps = draw(st.lists(st.floats(4, 120), min_size=1, max_size=12))
    x, touches = draw(st.floats(0, 30)), []
    for step in steps:
        touches.append(Touch(x, draw(LEVELS)))
        x += step
    return touches, x


def test_high_tap_and_ghost_are_clearly_apart():
    assert BEAD[Level.ACCENT] - BEAD[Level.TAP] > 20
    assert BEAD[Level.TAP] - BEAD[Level.GHOST] > 5


@settings(max_examples=60, deadline=None)
@given(strips(), st.booleans())
@example(([Touch(1.375, Level.GHOST)], 5.375), False)
def test_the_bead_never_jumps_and_never_goes_back_in_time(strip, loops):
    touches, length = strip
    line = bead_line(touches, length, touches[0].level, Level.TAP, loops)
    for before, after in pairwise(line):
        assert before[3] == pytest.approx(after[0], abs=1e-9)
    for curve in line:
        assert [x for x, _ in curve] == sorted(x for x, _ in curve)


@settings(max_examples=60, deadline=None)
@given(strips())
def test_the_bead_comes_from_the_height_of_the_stroke_it_goes_to(strip):
    touches, length = strip
    line = bead_line(touches, length, touches[0].level, Level.TAP, loops=True)
    for touch in touches:
        (fall,) = [curve for curve in line if curve[3] == (touch.x, 0.0)]
        assert fall[0][1] == BEAD[touch.level]


@settings(max_examples=60, deadline=None)
@given(strips())
def test_the_whip_down_is_faster_than_the_lift(strip):
    touches, length = strip
    for lift, _, fall in zip(*[iter(bead_line(touches, length, Level.TAP, Level.TAP, loops=True))] * 3, strict=True):
        assert fall[3][0] - fall[0][0] < lift[3][0] - lift[0][0]


@settings(max_examples=60, deadline=None)
@given(strips())
def test_the_lane_is_the_motion_of_the_bead_wherever_there_is_time_for_it(strip):
    """As many pixels as seconds. A hurried motion shrinks and the drawing does not: such ways are left out."""
    touches, length = strip
    plain = [Touch(touch.x, touch.level) for touch in touches]
    bead = motion([Impact(touch.x / PX_PER_S, touch.level) for touch in plain], length / PX_PER_S).bead
    ways = list(zip(*[iter(bead_line(plain, length, Level.TAP, Level.TAP, loops=True))] * 3, strict=True))
    was_hurried = is_hurried(ways[-2] if len(ways) > 1 else ways[-1])
    for way in ways:
        level = after_level(way[2])
        if not is_hurried(way) and not was_hurried:
            for x, y in (point for curve in way for point in points(curve)):
                height = bead.value(x / PX_PER_S) / HEIGHT_CM[level]
                assert y / BEAD[level] == pytest.approx(height, abs=0.02)
        was_hurried = is_hurried(way)


def is_hurried(way):
    lift, _, fall = way
    level = after_level(fall)
    return fall[3][0] - lift[0][0] < PX_PER_S * (lift_time(level) + fall_time(level)) - 1e-9


def after_level(fall):
    return next(level for level, height in BEAD.items() if height == fall[0][1])


def points(curve):
    """Places on a curve, its ends left out."""
    (a, ay), (b, by), (c, cy), (d, dy) = curve
    for share in (0.1, 0.3, 0.5, 0.7, 0.9):
        rest = 1 - share
        shares = (rest**3, 3 * rest**2 * share, 3 * rest * share**2, share**3)
        yield tuple(
            sum(part * value for part, value in zip(shares, line, strict=True))
            for line in ((a, b, c, d), (ay, by, cy, dy))
        )


@settings(max_examples=60, deadline=None)
@given(strips(), st.floats(0.05, 0.95))
def test_both_sides_of_a_seam_meet_at_one_height(strip, share):
    touches, length = strip
    line = bead_line(touches, length, Level.TAP, Level.TAP, loops=True)
    seam = share * length
    left, right = clipped(line, 0, seam), clipped(line, seam, length)
    assert left[-1][3] == pytest.approx(right[0][0], abs=1e-3)
    assert left[-1][3][0] == pytest.approx(seam)


def lines_of(text: str):
    layout = lay_out(read_score(read_one(text)), frozenset(DiagramRow))
    return layout, bead_lines(layout)


def test_in_a_loop_the_end_leads_back_to_the_start():
    layout, lines = lines_of("title: Round and round\nhands: R>LRR L>RLL")
    for limb in HANDS:
        first = clipped(lines[limb], 0, layout.offsets[-1])
        assert first[0][0][1] == pytest.approx(first[-1][3][1], abs=1e-3)


def test_without_a_loop_both_hands_end_low_and_wait_at_the_start():
    layout, lines = lines_of("title: To the end\nhands: R>LRR L>RL>L\nloop: no")
    right, left = (clipped(lines[limb], 0, layout.offsets[-1]) for limb in HANDS)
    assert (right[0][0][1], left[0][0][1]) == (BEAD[Level.ACCENT], BEAD[Level.TAP])
    assert (right[-1][3][1], left[-1][3][1]) == (BEAD[Level.TAP], BEAD[Level.TAP])


def test_a_grace_note_is_a_stroke_a_little_before_its_main_note():
    _, lines = lines_of("title: One flam\nhands: R lR> R R")
    left = [curve[3][0] for curve in lines[HANDS[1]] if curve[3][1] == 0 and curve[0][1] > 0]
    right = [curve[3][0] for curve in lines[HANDS[0]] if curve[3][1] == 0 and curve[0][1] > 0]
    assert 8 < right[1] - left[0] < 20


def test_a_hand_that_rests_stays_low():
    _, lines = lines_of("title: One hand for a while\nhands: R R R R L R L R")
    first_bar = clipped(lines[HANDS[1]], 40, 180)
    assert {y for curve in first_bar for _, y in curve} == {BEAD[Level.TAP]}


def test_a_hand_that_never_plays_has_no_lane():
    layout, lines = lines_of("title: One hand\nhands: L L L L")
    assert layout.lanes == (HANDS[1],)
    assert list(lines) == [HANDS[1]]


def test_a_buzz_bounces_on_the_head_until_it_is_over_and_then_lifts():
    layout, lines = lines_of("title: A buzz\nhands: Rz R> R R")
    first, second = (layout.offsets[number] + layout.cuts[number].spacing.x(0) for number in (0, 1))
    share = first + 0.6 * (second - first)
    bouncing = clipped(lines[HANDS[0]], first, share)
    assert len(bouncing) > 3
    heights = [max(curve[1][1], curve[2][1]) * 3 / 4 for curve in bouncing]
    assert heights == sorted(heights, reverse=True)
    assert all(0 < height < BEAD[Level.GHOST] for height in heights)
    assert max(y for curve in clipped(lines[HANDS[0]], share, second) for _, y in curve) == BEAD[Level.ACCENT]


def test_a_held_buzz_bounces_over_the_seam_of_two_beats_until_it_is_over():
    layout, lines = lines_of("title: A held buzz\nhands: Rz - . R")
    end = layout.offsets[2] + layout.cuts[2].spacing.x(0)
    assert max(y for curve in clipped(lines[HANDS[0]], layout.cuts[0].spacing.x(0), end - 0.1) for _, y in curve) < 7


def test_where_nothing_is_accented_the_main_note_of_a_flam_comes_from_high():
    _, lines = lines_of("title: Flams\nhands: lR rL lR rL")
    high = [curve[0][1] for curve in lines[HANDS[0]] if curve[3][1] == 0]
    assert set(high) == {BEAD[Level.ACCENT], BEAD[Level.GHOST]}
