"""The motion of a hand: it is where the strokes are, it is smooth between them, and no hand has to be quicker."""

from __future__ import annotations

from itertools import pairwise
from math import hypot, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wristwork.pattern.model import Level, Manner
from wristwork.sound.schedule import BUZZ
from wristwork.technique.motion.arm import pose, stands
from wristwork.technique.motion.constants import BUZZ_SPACING_S, FALL, FASTEST_BEAD, HEIGHT_CM, LIMBS, REBOUND_SHARE
from wristwork.technique.motion.paths import Impact, Motion, fall_time, lift_time, motion

LONG = 0.5  # seconds in which every way is whole


@st.composite
def played(draw: st.DrawFn) -> tuple[list[Impact], float | None]:
    """Strokes of one hand, down to the spacing of a drag, and the period in which they come again, if at all."""
    gaps = draw(st.lists(st.floats(0.02, 1.5), min_size=1, max_size=8))
    at, impacts = draw(st.floats(-0.1, 0.5)), []
    for number, gap in enumerate(gaps):
        is_rebound = number > 0 and gaps[number - 1] < 0.2 and draw(st.booleans())
        impacts.append(Impact(at, draw(st.sampled_from(Level)), is_rebound, draw(st.sampled_from([0.0, 0.1, 0.4]))))
        at += gap
    return impacts, draw(st.sampled_from([None, at - impacts[0].at]))


manners = st.sampled_from(Manner)


def tracks(moved: Motion) -> list[tuple[str, list]]:
    return [(name, list(getattr(moved, name).segments)) for name in ("bead", "hand", "wrist")]


@given(played(), manners)
def test_the_bead_meets_the_head_at_the_moments_of_the_strokes(strokes, manner) -> None:
    impacts, period = strokes
    moved = motion(impacts, period, manner)
    ends = {segment.end for segment in moved.bead.segments} | {moved.bead.segments[0].start}
    for impact in impacts:
        assert impact.at in ends
        assert moved.bead.value(impact.at) == pytest.approx(0, abs=1e-6)


@given(played(), manners)
def test_no_track_jumps_and_only_the_head_stops_the_bead(strokes, manner) -> None:
    impacts, period = strokes
    for name, segments in tracks(motion(impacts, period, manner)):
        seams = list(pairwise(segments))
        if period is not None:
            last = segments[-1]
            moved_on = segments[0]._replace(start=last.end, end=last.end + segments[0].end - segments[0].start)
            seams.append((last, moved_on))
        for before, after in seams:
            assert before.end == pytest.approx(after.start, abs=1e-9)
            assert before.value(before.end) == pytest.approx(after.value(after.start), abs=1e-6)
            if name == "wrist" or before.value(before.end) > 1e-6:
                assert before.speed(before.end) == pytest.approx(after.speed(after.start), abs=1e-4)


@given(played(), manners)
def test_nothing_is_faster_than_a_hand_or_higher_than_its_stroke(strokes, manner) -> None:
    impacts, period = strokes
    moved = motion(impacts, period, manner)
    for name, segments in tracks(moved):
        for segment in segments:
            for number in range(21):
                at = segment.start + number / 20 * (segment.end - segment.start)
                assert abs(segment.speed(at)) <= FASTEST_BEAD, name
                assert -1e-6 <= segment.value(at) <= HEIGHT_CM[Level.ACCENT] + 1e-6


@given(played(), manners, st.floats(0, 1))
def test_the_arm_reaches_the_bead_and_stays_in_one_piece(strokes, manner, share) -> None:
    impacts, period = strokes
    moved = motion(impacts, period, manner)
    at = impacts[0].at + share * (period or impacts[-1].at - impacts[0].at)
    stance = pose(moved, at)
    assert stance.bead[1] == pytest.approx(moved.bead.value(at), abs=1e-6)
    assert hypot(*(one - other for one, other in zip(stance.grip, stance.wrist, strict=True))) == pytest.approx(
        LIMBS.hand
    )
    assert hypot(*(one - other for one, other in zip(stance.bead, stance.grip, strict=True))) == pytest.approx(
        LIMBS.stick
    )
    assert max(abs(stance.forearm), abs(stance.hand), abs(stance.stick)) < pi / 2


@pytest.mark.parametrize("level", Level)
def test_with_time_the_bead_waits_at_the_height_of_the_next_stroke(level) -> None:
    moved = motion([Impact(0.0, Level.TAP), Impact(LONG, level)], 2 * LONG)
    assert moved.bead.value(LONG - fall_time(level) - 0.001) == pytest.approx(HEIGHT_CM[level])
    assert max(moved.bead.value(number / 100 * LONG) for number in range(101)) == pytest.approx(HEIGHT_CM[level])


def test_the_fall_is_one_acceleration_and_a_louder_stroke_lands_faster() -> None:
    landing = {}
    for level in Level:
        falls = motion([Impact(0.0, level)], LONG).bead.segments[-1]
        for share in (0.2, 0.6, 1.0):
            after = share * (falls.end - falls.start)
            assert falls.speed(falls.start + after) == pytest.approx(-FALL[level] * after)
        landing[level] = -falls.speed(falls.end)
    assert landing[Level.ACCENT] > 3 * landing[Level.TAP] > 5 * landing[Level.GHOST]


def test_in_less_time_the_wait_goes_and_lengths_shrink_by_its_square() -> None:
    whole = lift_time(Level.ACCENT) + fall_time(Level.ACCENT)
    for share in (0.25, 0.5, 0.9):
        bead = motion([Impact(0.0, Level.ACCENT)], share * whole).bead
        heights = [bead.value(number / 1000 * share * whole) for number in range(1001)]
        assert max(heights) == pytest.approx(share**2 * HEIGHT_CM[Level.ACCENT], rel=1e-3)


def test_a_down_stroke_stays_low_and_an_up_stroke_lifts_at_once() -> None:
    """`R> R R>` of one hand: down, up, full."""
    bead = motion([Impact(0.0, Level.ACCENT), Impact(LONG, Level.TAP)], 2 * LONG).bead
    assert max(bead.value(number / 100 * LONG) for number in range(101)) == pytest.approx(HEIGHT_CM[Level.TAP])
    assert bead.value(LONG + 0.2) > 2 * HEIGHT_CM[Level.TAP]


def test_the_second_of_a_double_is_what_comes_back_from_the_first() -> None:
    moved = motion([Impact(0.0, Level.TAP), Impact(0.1, Level.TAP, is_rebound=True)], LONG)
    landing = -moved.bead.segments[-1].speed(moved.bead.segments[-1].end)
    first = moved.bead.segments[0]
    assert 0 < first.speed(first.start) <= REBOUND_SHARE * landing
    assert first.value(0.05) > 0
    assert moved.hand.value(0.05) == moved.wrist.value(0.05) == 0


def test_whipped_the_wrist_leads_both_ways_and_the_bead_trails_pointing_down() -> None:
    impacts = [Impact(0.0, Level.ACCENT)]
    whip, wrist = (motion(impacts, 1.0, manner) for manner in (Manner.WHIP, Manner.WRIST))
    lifting, about_to_fall = 0.13, 1.0 - fall_time(Level.ACCENT)
    assert pose(whip, lifting).stick < -0.3 < pose(wrist, lifting).stick
    assert whip.wrist.value(about_to_fall) < max(whip.wrist.value(number / 100) for number in range(100)) - 1
    assert whip.bead.value(about_to_fall) == pytest.approx(HEIGHT_CM[Level.ACCENT])


def test_a_buzz_touches_again_and_again_and_leaves_time_for_the_next_stroke() -> None:
    moved = motion([Impact(0.0, Level.TAP, buzz=0.25)], 0.5)
    touches = [segment.end for segment in moved.bead.segments if segment.value(segment.end) < 1e-9]
    assert len(touches) > 15
    assert moved.bead.value(0.25 + lift_time(Level.TAP)) == pytest.approx(HEIGHT_CM[Level.TAP])


def test_a_buzz_touches_as_often_as_it_sounds() -> None:
    assert BUZZ["spacing"] == BUZZ_SPACING_S


def test_without_strokes_there_is_no_motion() -> None:
    for impacts in ([], [Impact(0.0, Level.TAP, is_rebound=True)]):
        with pytest.raises(ValueError, match="no rebound"):
            motion(impacts, 1.0)


def test_an_arm_at_rest_points_down_to_the_head() -> None:
    at_rest = stands(0.0, 0.0, 0.0)
    assert -0.5 < at_rest.hand < at_rest.stick < 0
