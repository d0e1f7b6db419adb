"""What a tutor should look at in a student's notes."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from wristwork.course.load import GROWS_AT_MOST, MINUTES_FLOOR
from wristwork.course.weeks import DEFAULT_DAYS
from wristwork.days import day_words
from wristwork.people.notes import ASKED, HEARD, SAID, SENT, Note
from wristwork.people.student import Student

# Our own settings.
QUIET = timedelta(days=21)
REMEMBERED = timedelta(days=42)
UNEVEN = 4  # dB between the hands
_LOUDER = re.compile(r"(right|left) hand (\d{1,3}) dB louder")
# What the stop rule and the warning signs of the ears name, in the words of students.
_SIGNS = re.compile(
    r"\b(?:pain\w*|hurt\w*|ach(?:e|es|ing|y)|sore\w*|numb\w*|tingl\w*|weak\w*|burn\w*|swoll\w*|swell\w*|ringing|muffled)\b",
    re.IGNORECASE,
)

# The grade of an exercise at a tempo, None where nobody knows.
GradeOf = Callable[[str, int], int | None]


@dataclass(frozen=True, slots=True)
class Look:
    """One thing to look at: what it is about (``Hands``, ``Tempo``, ``Load``, ``Level``, ``Quiet``), and words."""

    about: str
    words: str


def looks(student: Student, day: date, grade_of: GradeOf) -> tuple[Look, ...]:
    """What needs a look on a day, the hands first."""
    return (
        *_signs(student, day),
        *_uneven(student),
        *_fallen(student),
        *_sudden(student),
        *_above(student, grade_of),
        *_quiet(student, day),
    )


def _signs(student: Student, day: date) -> Iterator[Look]:
    for note in student.notes:
        is_told = note.verb in (ASKED, SAID, "") and day - REMEMBERED <= note.day
        if is_told and (found := _SIGNS.search(note.words)):
            yield Look("Hands", f"“{found[0]}” on {day_words(note.day)}: {note.words}")


def _uneven(student: Student) -> Iterator[Look]:
    """Hands that their device heard to differ, in what was heard last."""
    for row in student.last_heard.rows if student.last_heard else ():
        louder = _LOUDER.search(row.listened)
        if louder and int(louder[2]) >= UNEVEN:
            yield Look("Hands", f"{row.id}: the {louder[1]} hand was {louder[2]} dB louder")


def _fallen(student: Student) -> Iterator[Look]:
    """Tempos that were clean and are not any more, by what was heard last."""
    heard = student.of(HEARD)
    if not heard:
        return
    highest: dict[str, tuple[int, date]] = {}
    for note in heard[:-1]:
        for row in note.rows:
            tempo = row.best or row.latest
            if tempo is not None and tempo > highest.get(row.id, (0, note.day))[0]:
                highest[row.id] = tempo, note.day
    for row in heard[-1].rows:
        now = row.latest or row.best
        before, since = highest.get(row.id, (0, heard[-1].day))
        if now is not None and before > now:
            yield Look("Tempo", f"{row.id} is clean at {now}; it was at {before}, heard on {day_words(since)}")
        elif row.best and row.latest and row.latest < row.best:
            yield Look("Tempo", f"{row.id} is clean at {row.latest}; it was at {row.best} before")


def _sudden(student: Student) -> Iterator[Look]:
    known = [note.minutes for note in student.of(HEARD) if note.minutes is not None]
    if len(known) < 2:
        return
    (before, days_before), (now, days) = known[-2:]
    if not (before and days and days_before):
        return
    floor = MINUTES_FLOOR * DEFAULT_DAYS * days / 7
    if now > floor and now / days > before / days_before * (1 + GROWS_AT_MOST):
        yield Look("Load", f"{now} minutes in {days} days, after {before} in {days_before}")


def _above(student: Student, grade_of: GradeOf) -> Iterator[Look]:
    note = student.last_sent
    if student.level is None or note is None:
        return
    for item in note.items:
        grade = grade_of(item.id, item.goal)
        if grade is not None and grade > student.level:
            words = f"{item.id} at {item.goal} is of grade {grade}, above the level {student.level}"
            yield Look("Level", f"{words}; sent on {day_words(note.day)}")


def _quiet(student: Student, day: date) -> Iterator[Look]:
    sent, last = student.of(SENT), student.last_heard
    unanswered = [note for note in sent if last is None or note.day > last.day]
    if unanswered and day - unanswered[0].day >= QUIET:
        yield Look("Quiet", f"nothing heard since {_sent_words(unanswered[0])}")
    elif sent and not unanswered and day - sent[-1].day >= QUIET:
        yield Look("Quiet", f"nothing sent since {_sent_words(sent[-1])}")


def _sent_words(note: Note) -> str:
    what = f"week {note.week} was sent" if note.week else "something was sent"
    return f"{what} on {day_words(note.day)}"
