"""``wristwork people``: who is where, who got what, and who needs a look."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path

from wristwork.cli.course_files import read_files
from wristwork.cli.paint import Paint
from wristwork.cli.people_page import people_page
from wristwork.cli.students import found
from wristwork.cli.trouble import Trouble
from wristwork.course.safety.exposure import surface
from wristwork.days import day_words
from wristwork.files import write_whole
from wristwork.languages.numbers import month_of_year, short_day
from wristwork.languages.say import marked, say, say_count
from wristwork.people.folder import StudentsFolder
from wristwork.people.looks import GradeOf, looks
from wristwork.people.months import Month
from wristwork.people.notes import LINK, Note
from wristwork.people.student import Student
from wristwork.technique.demand import demand

PAGE = "people.html"
_LEADS = {"right": marked("right hand leads"), "left": marked("left hand leads")}
# What was done, as the page of students says it: the words of their files.
_DONE = (marked("sent"), marked("link"), marked("heard"), marked("asked"), marked("said"))


def people(name: str | None, month: Month | None, as_page: bool, day: date, folder: Path, paint: Paint) -> int:
    """One student's notes, or a few lines for each student; 1 where a file can't be read."""
    there = StudentsFolder(folder)
    if name is None:
        if not folder.is_dir():
            remedy = say("name the folder that your mkdocs.yml is in")
            raise Trouble(say("there is no folder {folder}", folder=folder), remedy)
        chosen = there.students()
        if not chosen:
            remedy = say("go to your course's folder, or begin with wristwork add student {name}", name="Jo")
            raise Trouble(say("there is nobody in {folder}", folder=there.path.as_posix()), remedy)
    else:
        chosen = (found(there, name),)
    grade_of = _grades(folder, chosen)
    if as_page:
        return _write_page(there, chosen, day, grade_of, paint)
    for number, student in enumerate(chosen):
        if number:
            paint.line()
        _tell(student, _called(student, chosen), day, grade_of, paint)
        if name is not None or month is not None:
            _tell_notes(student, month, paint)
    return 1 if any(student.problems for student in chosen) else 0


def _called(student: Student, students: Sequence[Student]) -> str:
    """The name of a student, with their file where another one has the same name."""
    is_shared = sum(each.name.casefold() == student.name.casefold() for each in students) > 1
    return f"{student.name} ({student.key}.md)" if is_shared else student.name


def _tell(student: Student, name: str, day: date, grade_of: GradeOf, paint: Paint) -> None:
    paint.line(f"{paint.styled('strong', name)}  {', '.join(facts(student))}")
    for words in last_words(student):
        paint.line(f"  {words}")
    for look in looks(student, day, grade_of):
        paint.line(f"  {paint.styled('accent', f'{look.about}:')} {look.words}")
    for problem in student.problems:
        headline, *rest = str(problem).splitlines()
        paint.line(f"  {paint.styled('wrong', headline)}")
        for line in rest:
            paint.line(f"  {line}")


def _tell_notes(student: Student, month: Month | None, paint: Paint) -> None:
    notes = [note for note in by_day(student) if month is None or month.holds(note.day)]
    paint.line()
    if not notes:
        nothing = say("Nothing in {month}.", month=_month_words(month)) if month else say("Nothing yet.")
        paint.line(f"  {nothing}")
    for note in notes:
        style = "quiet" if note.verb == LINK else ""
        paint.line(f"  {paint.styled(style, str(note)) if style else note}")


def _month_words(month: Month) -> str:
    return month_of_year(date(month.year, month.number, 1))


def by_day(student: Student) -> list[Note]:
    """The notes of a student, oldest first."""
    return sorted(student.notes, key=lambda note: note.day)


def facts(student: Student) -> Iterator[str]:
    """What is known of a student, in words."""
    week = (student.last_sent and student.last_sent.week) or student.week
    yield say("week {number}", number=week) if week else say("no week yet")
    if student.level:
        yield say("level {number}", number=student.level)
    if student.hand:
        yield say(_LEADS[student.hand])
    if student.surface:
        yield say(surface(student.surface).name)


def last_words(student: Student) -> Iterator[str]:
    """What was sent and heard last, in words."""
    sent, last = student.last_sent, student.last_heard
    if sent is None:
        yield say("Nothing sent yet")
    elif sent.week:
        yield say("Sent week {number} on {day}", number=sent.week, day=day_words(sent.day))
    else:
        yield say("Sent {words} on {day}", words=sent.words, day=day_words(sent.day))
    if last is not None:
        yield _heard_words(last)


def _heard_words(note: Note) -> str:
    day = day_words(note.day)
    tempos = ", ".join(f"{row.id} {row.best}" for row in note.rows if row.best)
    if note.minutes is None:
        return (
            say("Heard on {day}: clean {tempos}", day=day, tempos=tempos) if tempos else say("Heard on {day}", day=day)
        )
    minutes, days = note.minutes
    practice = say_count(
        "{minutes} in {count} day",
        "{minutes} in {count} days",
        days,
        minutes=say_count("{count} minute", "{count} minutes", minutes),
    )
    if tempos:
        return say("Heard on {day}, {practice}: clean {tempos}", day=day, practice=practice, tempos=tempos)
    return say("Heard on {day}, {practice}", day=day, practice=practice)


def _grades(folder: Path, students: tuple[Student, ...]) -> GradeOf:
    """How hard exercises are, for those whose level is known; a course that can't be read says nothing of it."""
    if not any(student.level for student in students):
        return lambda name, tempo: None
    try:
        exercises = read_files(folder).course.exercises
    except Trouble:
        return lambda name, tempo: None

    def grade(name: str, tempo: int) -> int | None:
        exercise = exercises.get(name)
        return None if exercise is None else demand(exercise.pattern, tempo).grade

    return grade


def _write_page(there: StudentsFolder, chosen: tuple[Student, ...], day: date, grade_of: GradeOf, paint: Paint) -> int:
    shown = [
        {
            "name": _called(student, chosen),
            "facts": ", ".join(facts(student)),
            "last": list(last_words(student)),
            "looks": looks(student, day, grade_of),
            "problems": [f"{problem.headline}: {problem.remedy}" for problem in student.problems],
            "notes": [_shown(note) for note in reversed(by_day(student))],
        }
        for student in chosen
    ]
    path = there.path / PAGE
    try:
        write_whole(path, people_page(shown, day_words(day)).encode())
    except OSError as error:
        raise Trouble(say("{file} can't be written", file=path), error.strerror or say("look at its folder")) from error
    paint.line(paint.styled("good", say("Written {file}: open it in a browser.", file=path.as_posix())))
    return 1 if any(student.problems for student in chosen) else 0


def _shown(note: Note) -> dict[str, str]:
    said = say(note.verb) if note.verb else ""
    return {
        "day": short_day(note.day),
        "iso": note.day.isoformat(),
        "verb": note.verb,
        "said": said,
        "words": note.words,
    }
