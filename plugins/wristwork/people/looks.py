"""What a tutor should look at in a student's notes."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache

from wristwork.course.load import GROWS_AT_MOST, MINUTES_FLOOR
from wristwork.course.weeks import DEFAULT_DAYS
from wristwork.days import day_words
from wristwork.languages.catalogues import SOURCE, language
from wristwork.languages.hearing import pattern_of
from wristwork.languages.say import marked, say, say_count, speaking, spoken
from wristwork.people.notes import ASKED, CAME, HEARD, SAID, SENT, Note
from wristwork.people.student import Student

# Our own settings.
QUIET = timedelta(days=21)
REMEMBERED = timedelta(days=42)
UNEVEN = 4  # dB between the hands
# What a message says of hands that their device heard to differ, and what is told of it.
_LOUDER = (
    (marked("right hand {count} dB louder"), marked("{id}: the right hand was {count} dB louder")),
    (marked("left hand {count} dB louder"), marked("{id}: the left hand was {count} dB louder")),
)
# What the stop rule and the warning signs of the ears name, in the words of students, and cramped or stiff hands, which
# is our own: with commas between them, a star for any letters. Another language has its own words in this place, as
# many as it needs.
_SIGNS = marked(
    "pain*, hurt*, ache, aches, aching, achy, sore*, numb*, tingl*, weak*, burn*, swoll*, swell*, cramp*, stiff*, "
    "ringing, muffled"
)

# The grade of an exercise at a tempo, None where nobody knows.
GradeOf = Callable[[str, int], int | None]


@dataclass(frozen=True, slots=True)
class Look:
    """One thing to look at: what it is about (``Hands``, ``Tempo``, ``Load``, ``Grade``, ``Quiet``), and words.

    Both are said in the course's language.
    """

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


@cache
def _words(signs: str) -> re.Pattern[str]:
    """What finds one of these words."""
    told = filter(None, map(str.strip, signs.split(",")))
    words = "|".join(re.escape(word).replace(r"\*", r"\w*") for word in told)
    return re.compile(rf"\b(?:{words})\b", re.IGNORECASE)


def _sign(text: str) -> str | None:
    """The first word of a text that names a warning sign, in the spoken language or in English."""
    found = (_words(signs).search(text) for signs in (say(_SIGNS), _SIGNS))
    return next((each[0] for each in found if each), None)


def _signs(student: Student, day: date) -> Iterator[Look]:
    for note in student.notes:
        is_told = note.verb in (ASKED, SAID, "") and day - REMEMBERED <= note.day
        if is_told and (found := _sign(note.words)):
            words = say("“{sign}” on {day}: {words}", sign=found, day=day_words(note.day), words=note.words)
            yield Look(say("Hands"), words)


def _uneven(student: Student) -> Iterator[Look]:
    """Hands that their device heard to differ, in what was heard last."""
    for row in student.last_heard.rows if student.last_heard else ():
        louder = _louder(row.listened)
        if louder and louder[1] >= UNEVEN:
            text, count = louder
            yield Look(say("Hands"), say(text, id=row.id, count=count))


def _louder(listened: str) -> tuple[str, int] | None:
    """What is to be told of the louder hand, and its decibels, from a message in the spoken language or in English."""
    for tongue in (spoken(), language(SOURCE)):
        with speaking(tongue):
            for heard, told in _LOUDER:
                if found := re.search(pattern_of(heard, count=r"(\d{1,3})"), listened):
                    return told, int(found[1])
    return None


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
            words = say(
                "{id} is clean at {now}; it was at {before}, heard on {day}",
                id=row.id,
                now=now,
                before=before,
                day=day_words(since),
            )
            yield Look(say("Tempo"), words)
        elif row.best and row.latest and row.latest < row.best:
            words = say("{id} is clean at {now}; it was at {before} before", id=row.id, now=row.latest, before=row.best)
            yield Look(say("Tempo"), words)


def _sudden(student: Student) -> Iterator[Look]:
    known = [note.minutes for note in student.of(HEARD) if note.minutes is not None]
    if len(known) < 2:
        return
    (before, days_before), (now, days) = known[-2:]
    if not (before and days and days_before):
        return
    floor = MINUTES_FLOOR * DEFAULT_DAYS * days / 7
    if now > floor and now / days > before / days_before * (1 + GROWS_AT_MOST):
        words = say_count(
            "{minutes} minutes in {count} day, after {before} in {days_before}",
            "{minutes} minutes in {count} days, after {before} in {days_before}",
            days,
            minutes=now,
            before=before,
            days_before=days_before,
        )
        yield Look(say("Load"), words)


def _above(student: Student, grade_of: GradeOf) -> Iterator[Look]:
    note = student.last_sent
    if student.level is None or note is None:
        return
    for item in note.items:
        grade = grade_of(item.id, item.goal)
        if grade is not None and grade > student.level:
            words = say(
                "{id} at {tempo} is of grade {grade}, above the level {level}; sent on {day}",
                id=item.id,
                tempo=item.goal,
                grade=grade,
                level=student.level,
                day=day_words(note.day),
            )
            yield Look(say("Grade"), words)


def _quiet(student: Student, day: date) -> Iterator[Look]:
    sent = student.of(SENT)
    last = max((note.day for note in student.notes if note.verb in CAME), default=None)
    unanswered = [note for note in sent if last is None or note.day > last]
    if unanswered and day - unanswered[0].day >= QUIET:
        yield Look(say("Quiet"), _nothing_heard(unanswered[0]))
    elif sent and not unanswered and day - sent[-1].day >= QUIET:
        yield Look(say("Quiet"), _nothing_sent(sent[-1]))


def _nothing_heard(since: Note) -> str:
    day = day_words(since.day)
    if since.week:
        return say("nothing heard since week {week} was sent on {day}", week=since.week, day=day)
    return say("nothing heard since something was sent on {day}", day=day)


def _nothing_sent(since: Note) -> str:
    day = day_words(since.day)
    if since.week:
        return say("nothing sent since week {week} was sent on {day}", week=since.week, day=day)
    return say("nothing sent since something was sent on {day}", day=day)
