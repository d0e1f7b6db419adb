"""The week's plan: minutes that add up, tempos that climb by the rule, breaks, what comes back."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wristwork.course.course import read_teaching
from wristwork.course.plan import (
    Activity,
    PlannedExercise,
    climb,
    exercise_minutes,
    sessions,
    shared_out,
)
from wristwork.course.safety.breaks import BREAK_MINUTES, PLAYING_AT_MOST, breaks_needed
from wristwork.course.weeks import Week
from wristwork.page.page import read_pages
from wristwork.pattern.model import Side, Tempo


def week(minutes=30, days=5):
    return Week("week-01.md", 1, "A week", minutes=minutes, days=days)


def piece(name="first", start=60, goal=100, step=4, again=False, right=2, left=1):
    return PlannedExercise(name, name.capitalize(), Tempo(start, goal, step), Fraction(right), Fraction(left), again)


def tempos(plan, name):
    """The exercise's tempo in each session that has it."""
    held = [{part.tempo for part in session.parts if part.exercise == name} for session in plan]
    return [tempo for tempos in held for tempo in tempos]


# --- the climb ----------------------------------------------------------------------------------------------------


def test_the_climb_goes_in_equal_ratios_stepped_down_to_the_grid():
    # 60 · (100/60)^(k/4) = 60, 68.2, 77.5, 88.0, 100 on the grid 60, 64, 68 …
    assert climb(Tempo(60, 100, 4), 5) == (60, 68, 76, 88, 100)


def test_the_last_session_is_at_the_goal_even_off_the_grid():
    assert climb(Tempo(60, 90, 7), 3) == (60, 67, 90)


def test_a_ratio_that_lands_on_the_grid_is_not_stepped_below_it():
    # 16 · (81/16)^(k/4) = 16, 24, 36, 54, 81 exactly
    assert climb(Tempo(16, 81, 1), 5) == (16, 24, 36, 54, 81)
    assert climb(Tempo(40, 160, 40), 3) == (40, 80, 160)


def test_a_step_wider_than_the_climb_waits_at_the_start():
    assert climb(Tempo(60, 70, 20), 4) == (60, 60, 60, 70)


def test_one_session_works_at_the_start():
    assert climb(Tempo(60, 100, 4), 1) == (60,)


def test_one_tempo_stays():
    assert climb(Tempo(72, 72, 4), 5) == (72,) * 5


@given(st.integers(20, 320), st.integers(0, 300), st.integers(1, 40), st.integers(1, 7))
@settings(deadline=None)
def test_a_climb_never_goes_down_and_stays_within_its_tempos(start, more, step, count):
    goal = min(320, start + more)
    climbed = climb(Tempo(start, goal, step), count)
    assert len(climbed) == count
    assert climbed[0] == start
    assert all(before <= after for before, after in pairwise(climbed))
    assert climbed[-1] == (goal if count > 1 else start)
    for number, tempo in enumerate(climbed[:-1]):
        exact = start * (goal / start) ** (number / max(1, count - 1))
        assert (tempo - start) % step == 0
        assert exact - step < tempo + 1e-6
        assert tempo <= exact + 1e-6


# --- a session ----------------------------------------------------------------------------------------------------


def test_a_session_warms_up_first_and_eases_off_last():
    (session, *_) = sessions(week(30), [piece("first"), piece("second")])
    assert session.parts[0].activity is Activity.WARM_UP
    assert session.parts[-1].activity is Activity.EASE_OFF
    assert [part.exercise for part in session.parts if part.exercise] == ["first", "second"]


def test_sessions_are_numbered():
    plan = sessions(week(days=3), [piece()])
    assert [(session.number, session.of) for session in plan] == [(1, 3), (2, 3), (3, 3)]
    assert len(sessions(week(days=3), [piece()], days=2)) == 2


def test_what_is_new_gets_twice_the_time_of_what_comes_back():
    (session, *_) = sessions(week(25), [piece("old", again=True), piece("new")])
    by_id = {part.exercise: part.minutes for part in session.parts if part.exercise}
    # 25 − 5 − 2 = 18 minutes: one each, the other 16 as one to two
    assert by_id == {"old": 6, "new": 12}


def test_tempos_climb_from_session_to_session():
    assert tempos(sessions(week(), [piece()]), "first") == [60, 68, 76, 88, 100]


def test_a_week_of_one_session_works_at_the_start():
    assert tempos(sessions(week(days=1), [piece()]), "first") == [60]


def test_strokes_are_counted_for_each_hand():
    (session,) = sessions(week(25, days=1), [piece(right=2, left=Fraction(1, 2))])
    # 18 minutes at 60: two strokes a beat and one every other beat
    assert session.strokes(Side.RIGHT) == 18 * 60 * 2
    assert session.strokes(Side.LEFT) == 18 * 60 // 2


def test_more_exercises_than_minutes_take_turns():
    pieces = [piece(f"number-{n}") for n in range(12)]
    plan = sessions(week(10, days=5), pieces)
    assert exercise_minutes(10) == 7
    for session in plan:
        assert session.minutes == 10
        assert len([part for part in session.parts if part.exercise]) == 7
    played = [part.exercise for session in plan for part in session.parts if part.exercise]
    assert set(played) == {each.id for each in pieces}
    assert {played.count(each.id) for each in pieces} <= {2, 3}
    assert all(tempos(plan, each.id)[-1] == 100 for each in pieces)


def test_a_week_with_no_exercise_leaves_the_time_to_the_student():
    (session, *_) = sessions(week(20), [])
    assert [part.activity for part in session.parts] == [Activity.WARM_UP, Activity.OWN_CHOICE, Activity.EASE_OFF]
    assert session.minutes == 20


def test_a_week_without_minutes_has_no_plan():
    assert sessions(week(None), [piece()]) == ()


@given(st.integers(5, 240), st.integers(1, 7), st.lists(st.booleans(), max_size=14))
@settings(max_examples=100, deadline=None)
def test_minutes_add_up_and_nobody_plays_for_more_than_25_minutes(minutes, days, again):
    pieces = [piece(f"piece-{n}", again=is_again) for n, is_again in enumerate(again)]
    for session in sessions(week(minutes, days), pieces):
        assert session.minutes == minutes
        assert session.parts[0].activity is Activity.WARM_UP
        assert session.parts[-1].activity is Activity.EASE_OFF
        assert all(part.minutes >= 1 for part in session.parts)
        playing = 0
        for part in session.parts:
            playing = 0 if part.activity is Activity.BREAK else playing + part.minutes
            assert playing <= PLAYING_AT_MOST
        assert session.minutes_of(Activity.BREAK) == sum(breaks_needed(minutes))
        assert session.playing_minutes == minutes - sum(breaks_needed(minutes))


@pytest.mark.parametrize(("minutes", "count"), [(25, 0), (26, 1), (53, 1), (54, 2), (81, 2), (82, 3)])
def test_breaks_come_at_least_every_25_minutes(minutes, count):
    assert breaks_needed(minutes) == (BREAK_MINUTES,) * count


def test_a_break_stands_between_exercises_where_it_can():
    (session, *_) = sessions(week(40), [piece("first"), piece("second"), piece("third")])
    exercises = [part.exercise for part in session.parts if part.activity is Activity.EXERCISE]
    assert exercises == ["first", "second", "third"]


def test_a_long_exercise_is_cut_by_a_break_and_keeps_its_strokes():
    (session, *_) = sessions(week(40, days=1), [piece("only")])
    parts = [part for part in session.parts if part.exercise == "only"]
    assert len(parts) == 2
    assert abs(parts[0].minutes - parts[1].minutes) <= 5
    assert session.strokes(Side.RIGHT) == exercise_minutes(40) * 120


@given(st.lists(st.sampled_from([1, 2]), min_size=1, max_size=12), st.integers(0, 60))
def test_shared_minutes_add_up(shares, spare):
    minutes = len(shares) + spare
    given_out = shared_out(minutes, shares)
    assert sum(given_out) == minutes
    assert min(given_out) >= 1


def test_a_session_with_something_new_and_something_met_again():
    first, second = sessions(week(25, days=2), [piece("first"), piece("old", again=True)])
    assert (first.number, first.of, second.number, second.of) == (1, 2, 2, 2)
    assert [(part.activity, part.minutes, part.title, part.tempo, part.again) for part in first.parts] == [
        (Activity.WARM_UP, 5, None, None, False),
        (Activity.EXERCISE, 12, "First", 60, False),
        (Activity.EXERCISE, 6, "Old", 60, True),
        (Activity.EASE_OFF, 2, None, None, False),
    ]
    assert (first.strokes(Side.RIGHT), first.strokes(Side.LEFT)) == (2160, 1080)


# --- from week to week --------------------------------------------------------------------------------------------


def page(number, *exercises, again="", days=5, minutes=25):
    front = [f"week: {number}", "aim: Something.", f"minutes: {minutes}", f"days: {days}", *([again] if again else [])]
    fences = [f"```pattern\n{lines}\n```" for lines in exercises]
    return "---\n" + "\n".join(front) + "\n---\n\n# A week\n\n" + "\n\n".join(fences) + "\n"


STROLL = "id: stroll\ntitle: Stroll\ntempo: 60 to 100 by 4\nhands: RLRL RLRL"
HOP = "id: the-hop\ntitle: The hop\ntempo: 50 to 70 by 5\nhands: RR LL RR LL"


def plans(*pages):
    course, problems = read_teaching(
        read_pages({f"week-{number:02}.md": text for number, text in enumerate(pages, start=1)})
    )
    assert not problems
    return [course.plans[each.path] for each in course.numbered]


def test_an_exercise_met_again_starts_where_it_ended():
    first, second = plans(page(1, STROLL), page(2, HOP, again="again: [stroll]"))
    assert tempos(first, "stroll")[-1] == 100
    assert tempos(second, "stroll") == [100] * 5
    assert tempos(second, "the-hop") == [50, 50, 55, 60, 70]


def test_what_ended_at_its_start_climbs_when_it_comes_back():
    first, second, third = plans(
        page(1, STROLL, days=1),
        page(2, HOP, again="again: stroll", days=1),
        page(3, HOP.replace("the-hop", "hop-2"), again="again: stroll"),
    )
    assert tempos(first, "stroll") == tempos(second, "stroll") == [60]
    assert tempos(third, "stroll") == [60, 68, 76, 88, 100]


def test_what_comes_back_is_played_before_what_is_new():
    _, second = plans(page(1, STROLL), page(2, HOP, again="again: [stroll]"))
    assert [part.exercise for part in second[0].parts if part.exercise] == ["stroll", "the-hop"]


def test_strokes_of_a_real_exercise():
    (first,) = plans(page(1, STROLL, days=1))
    # 18 minutes of two strokes a beat at 60
    assert first[0].strokes(Side.RIGHT) == first[0].strokes(Side.LEFT) == 18 * 60 * 2
