"""A week's sessions side by side."""

from hypothesis import given, settings
from hypothesis import strategies as st

from wristwork.course.plan import Activity, PlannedExercise, sessions
from wristwork.course.week_sheet import sheet_lines
from wristwork.course.weeks import Week
from wristwork.pattern.model import Tempo


def plan(minutes: int, count: int, days: int = 5):
    pieces = [PlannedExercise(f"exercise-{number}", f"Exercise {number}", Tempo(60, 80, 4)) for number in range(count)]
    return sessions(Week("week.md", 1, "Week", minutes=minutes, days=days), pieces)


def test_a_line_for_each_part_with_every_sessions_tempo() -> None:
    lines = sheet_lines(plan(20, 3))
    assert [(line.part.activity.value, line.part.exercise, line.minutes) for line in lines] == [
        ("warm-up", None, 5),
        ("exercise", "exercise-0", 5),
        ("exercise", "exercise-1", 4),
        ("exercise", "exercise-2", 4),
        ("ease-off", None, 2),
    ]
    assert [part.tempo for part in lines[1].parts if part] == [60, 64, 68, 72, 80]


def test_exercises_that_take_turns_have_gaps_and_minutes_of_their_own() -> None:
    lines = sheet_lines(plan(10, 9))
    exercises = [line for line in lines if line.part.activity is Activity.EXERCISE]
    assert len(exercises) == 9
    assert any(None in line.parts for line in exercises)
    assert all(line.minutes is None for line in exercises if None in line.parts)


def test_an_exercise_that_a_break_cuts_has_two_lines() -> None:
    lines = sheet_lines(plan(60, 1))
    names = [line.part.activity.value for line in lines]
    assert names.count("exercise") == names.count("break") + 1 > 1


@settings(max_examples=60, deadline=None)
@given(st.integers(5, 240), st.integers(0, 12), st.integers(1, 7))
def test_every_part_of_every_session_stands_on_the_sheet_once(minutes: int, count: int, days: int) -> None:
    week = plan(minutes, count, days)
    lines = sheet_lines(week)
    for number, session in enumerate(week):
        listed = [line.parts[number] for line in lines if line.parts[number] is not None]
        assert sorted(listed, key=repr) == sorted(session.parts, key=repr)
