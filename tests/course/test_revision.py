"""What comes back by itself, and what a student knows when a week begins."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.course.test_checks import check, good_course
from wristwork.course.course import read_teaching
from wristwork.course.known import known
from wristwork.course.plan import LOOK_BACK, SHORTEST_TURN, Activity, PlannedExercise
from wristwork.course.revision import GAPS, Return, RevisedWeek, longest_gap, revision
from wristwork.page.page import read_pages
from wristwork.pattern import read_one
from wristwork.pattern.model import Tempo


def week(number, taught=(), met=None, refreshed=(), room=5):
    return RevisedWeek(number, tuple(taught), frozenset(taught if met is None else met), frozenset(refreshed), room)


def returns(*weeks):
    return [[(each.id, each.times) for each in back] for back in revision(weeks).returns]


def test_an_exercise_comes_back_after_two_weeks_then_three_then_five():
    weeks = [week(1, ["a"]), *(week(number) for number in range(2, 18))]
    found = {number: back for number, back in enumerate(returns(*weeks), 1) if back}
    assert found == {3: [("a", 1)], 6: [("a", 2)], 11: [("a", 3)], 16: [("a", 4)]}
    assert GAPS == (3 - 1, 6 - 3, 11 - 6)


def test_what_is_met_anyway_or_stood_on_does_not_come_back():
    assert returns(week(1, ["a", "b", "c"]), week(2), week(3, met=["a"], refreshed=["b"])) == [[], [], [("c", 1)]]


def test_where_there_is_little_room_the_most_overdue_comes_first():
    weeks = [week(1, ["a"]), week(2, ["b"]), week(5, room=1), week(6, room=1)]
    assert returns(*weeks) == [[], [], [("a", 1)], [("b", 1)]]
    assert returns(week(1, ["a", "b", "c"]), week(3, room=2)) == [[], [("a", 1), ("b", 1)]]


def test_the_longest_stretch_without_an_exercise():
    assert longest_gap([1, 3, 4], 12) == (4, 12)
    assert longest_gap([1, 9], 10) == (1, 9)
    assert longest_gap([4], 4) == (4, 4)


@given(st.lists(st.tuples(st.integers(0, 4), st.integers(0, 5)), min_size=1, max_size=14))
def test_nothing_comes_back_before_its_time_twice_or_beyond_the_room(course):
    weeks = [
        week(number, [f"e{number}-{each}" for each in range(count)], room=room)
        for number, (count, room) in enumerate(course, 1)
    ]
    found = revision(weeks)
    last: dict[str, int] = {}
    for each, back in zip(weeks, found.returns, strict=True):
        assert len(back) <= each.room
        assert len({one.id for one in back}) == len(back)
        for one in back:
            assert each.number - last[one.id] >= GAPS[min(one.times - 1, len(GAPS) - 1)]
            last[one.id] = each.number
        last |= dict.fromkeys(each.taught, each.number)
    assert found == revision(weeks)


def course_of(pages):
    course, problems = read_teaching(read_pages(pages))
    assert not problems
    return course


def long_course(more="", weeks=6):
    """Weeks that each teach something of their own, with room for a look back."""
    pages = good_course(weeks)
    return {path: text.replace("minutes: 20", f"minutes: 20{more}") for path, text in pages.items()}


def test_each_session_looks_back_at_one_exercise_for_two_minutes():
    course = course_of(long_course())
    plan = course.plans["docs/week-04.md"]
    back = [[part for part in session.parts if part.again] for session in plan]
    assert [[part.exercise for part in parts] for parts in back] == [["second-1"], ["first-2"], [], [], []]
    assert {(part.minutes, part.tempo) for parts in back for part in parts} == {(LOOK_BACK, 72)}
    assert all(session.minutes == 20 for session in plan)
    assert [part.activity for part in plan[0].parts][:2] == [Activity.WARM_UP, Activity.EXERCISE]


@pytest.mark.parametrize("more", ["\nlook-back: no", "\nlook-back: false"])
def test_a_week_can_do_without(more):
    assert not any(course_of(long_course(more)).revision.returns)


def test_a_week_without_room_brings_nothing_back():
    minutes = 3 + 2 * SHORTEST_TURN + LOOK_BACK - 1  # of which 3 go to warming up and easing off
    for more, has_room in ((0, False), (1, True)):
        pages = {path: text.replace(": 20", f": {minutes + more}") for path, text in good_course(6).items()}
        assert any(course_of(pages).revision.returns) is has_room


@pytest.mark.parametrize(("times", "tempo"), [(1, 96), (2, 100), (5, 100)])
def test_it_comes_back_a_step_below_its_goal_and_then_at_it(times, tempo):
    back = PlannedExercise("a", "A", Tempo(60, 100, 4)).coming_back(times)
    assert (back.tempo.start, back.tempo.goal, back.again) == (tempo, tempo, True)
    assert PlannedExercise("a", "A", Tempo(98, 100, 4)).coming_back(1).tempo.start == 98


def test_what_is_left_for_too_long_is_told():
    pages = {path: text.replace("minutes: 20", "minutes: 20\nlook-back: no") for path, text in good_course(9).items()}
    found = [each for each in check(pages) if each.kind == "left-behind"]
    assert [(each.exercise, each.line) for each in found][:2] == [("first-1", 19), ("second-1", 28)]
    assert found[0].found == "'first-1' is not met from week 1 to week 9"
    assert "again: [first-1]" in found[0].remedy
    assert not [each for each in check(good_course(9)) if each.kind == "left-behind"]


@pytest.mark.parametrize(
    ("hands", "taught"),
    [
        ("R L R L", ()),
        ("RL RL", ("two notes a beat",)),
        ("RR RR", ("two notes a beat",)),
        ("R> L R> L", ("accents",)),
        ("RR LL", ("two notes a beat", "doubles")),
        ("R R L L", ()),
        ("R/ L/", ("two notes a beat", "doubles")),
        ("RLRL RRLL", ("two notes a beat", "doubles")),
        ("RLRR LRLL", ("two notes a beat", "doubles", "paradiddles")),
        ("R/L/ R> L/R/ L>", ("two notes a beat", "accents", "doubles")),
        ("(R) L (R) L", ("ghost notes",)),
        ("lR rL", ()),
        (". .", ()),
    ],
)
def test_what_a_pattern_has_taught(hands, taught):
    assert known([read_one(f"example: yes\ntime: 1/4\nhands: {hands}")]) == taught


def test_a_week_knows_what_the_weeks_before_it_taught():
    course = course_of(long_course())
    one, two, *_ = course.numbered
    assert course.known_before(one) == ()
    assert course.known_before(two) == ("two notes a beat",)


def test_a_return_is_a_value():
    assert Return("a", 1) == Return("a", 1)
