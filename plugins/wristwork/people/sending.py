"""What a student is sent: a week's exercises as a list, from the tempos at which they are clean, and a message."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from wristwork.course.course import Course, Exercise
from wristwork.course.message import safe_words
from wristwork.course.plan import Activity
from wristwork.course.weeks import Week
from wristwork.languages.say import say, say_count
from wristwork.people.links import MOST_ITEMS, MOST_MINUTES, Item
from wristwork.people.notes import CAME, SENT
from wristwork.people.student import Student

USUAL_MINUTES = 5
# A week that was sent so long ago has been practised, whether anything was heard of it or not. Our own setting.
PRACTISED = timedelta(days=5)


def next_week(student: Student, day: date) -> int:
    """The week to send: the one sent last until something was heard of it or days went by, then the one after it."""
    last, heard = student.last_sent, student.last_heard
    if last is None or last.week is None:
        return student.week or 1
    is_over = day - last.day >= PRACTISED or (heard is not None and heard.day >= last.day)
    return last.week + 1 if is_over else last.week


def has_answered(student: Student) -> bool:
    """Has anything come from a student since the first message? Until then nobody knows whether it went out."""
    first = next(iter(student.of(SENT)), None)
    return first is not None and any(note.verb in CAME and note.day >= first.day for note in student.notes)


def week_items(course: Course, week: Week, student: Student) -> tuple[Item, ...]:
    """All that a week practises, as far as a list holds it."""
    minutes = _minutes(course, week)
    practised = course.practised_in(week)[:MOST_ITEMS]
    return tuple(item_of(each, student, minutes.get(each.id, USUAL_MINUTES)) for each in practised)


def item_of(exercise: Exercise, student: Student, minutes: int = USUAL_MINUTES) -> Item:
    """An exercise to be played on from where it is clean."""
    tempo = exercise.pattern.tempo
    start = min(max(tempo.start, student.clean.get(exercise.id, 0)), tempo.goal)
    return Item(exercise.id, start, tempo.goal, minutes)


def message(head: str, items: Sequence[Item], exercises: Iterable[Exercise], link: str) -> str:
    """A few lines for a chat, the link last."""
    titles = {exercise.id: exercise.title for exercise in exercises}
    lines = [f"{safe_words(titles[item.id])}: {tempo_words(item)}, {_length(item.minutes)}" for item in items]
    return "\n".join([head, *lines, link])


def tempo_words(item: Item) -> str:
    """``60 to 72``, or one number where it stays."""
    return f"{item.start}" if item.start == item.goal else say("{start} to {goal}", start=item.start, goal=item.goal)


def _length(minutes: int) -> str:
    return say_count("{count} minute", "{count} minutes", minutes)


def _minutes(course: Course, week: Week) -> dict[str, int]:
    """The longest time that each exercise has in a session of the week."""
    longest: dict[str, int] = {}
    for session in course.plans.get(week.path, ()):
        in_session: dict[str, int] = {}
        for part in session.parts:
            if part.activity is Activity.EXERCISE and part.exercise is not None:
                in_session[part.exercise] = in_session.get(part.exercise, 0) + part.minutes
        for name, minutes in in_session.items():
            longest[name] = min(MOST_MINUTES, max(minutes, longest.get(name, 0)))
    return longest
