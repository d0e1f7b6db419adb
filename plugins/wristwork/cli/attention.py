"""What a tutor is told to look at, by whichever command they meet the student."""

from __future__ import annotations

from collections.abc import Mapping

from wristwork.cli.paint import Paint
from wristwork.course.course import Exercise
from wristwork.days import day_words
from wristwork.languages.say import say
from wristwork.people.looks import GradeOf, Look
from wristwork.people.notes import ASKED, SENT, Note
from wristwork.people.student import Student
from wristwork.technique.demand import demand


def by_day(student: Student) -> list[Note]:
    """The notes of a student, oldest first."""
    return sorted(student.notes, key=lambda note: note.day)


def unanswered(student: Student) -> Note | None:
    """The last question, if nothing was sent since."""
    last = next((note for note in reversed(by_day(student)) if note.verb in (ASKED, SENT)), None)
    return last if last is not None and last.verb == ASKED else None


def question_words(question: Note) -> str:
    """A question with its day."""
    return say("Asked on {day}: {words}", day=day_words(question.day), words=question.words)


def look_line(look: Look, paint: Paint) -> str:
    """One thing to look at, below the name of a student."""
    return f"  {paint.styled('accent', f'{look.about}:')} {look.words}"


def grades(exercises: Mapping[str, Exercise]) -> GradeOf:
    """How hard the exercises of a course are."""

    def grade(name: str, tempo: int) -> int | None:
        exercise = exercises.get(name)
        return None if exercise is None else demand(exercise.pattern, tempo).grade

    return grade
