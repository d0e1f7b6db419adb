"""``wristwork people``: who is where, who got what, and who needs a look."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from wristwork.cli.attention import by_day, grades, look_line, question_words, unanswered
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
from wristwork.people.folder import StudentsFolder, folded
from wristwork.people.links import Row
from wristwork.people.looks import GradeOf, Look, looks
from wristwork.people.months import Month
from wristwork.people.notes import ASKED, LINK, SAID, Note
from wristwork.people.student import Student

PAGE = "people.html"
_MOST_LETTERS = 200  # of a student's own words; all of them are among the notes
_LEADS = {"right": marked("right hand leads"), "left": marked("left hand leads")}
# What was done, as the page of students says it: the words of their files.
_DONE = (marked("sent"), marked("link"), marked("heard"), marked("asked"), marked("said"))


@dataclass(frozen=True, slots=True)
class _Shown:
    """A student as they are shown: ``name`` says more where two have the same."""

    student: Student
    name: str
    looks: tuple[Look, ...]

    @property
    def needs_a_look(self) -> bool:
        return bool(self.looks or self.student.problems or unanswered(self.student))


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
    shown = _in_order(chosen, day, _grades(folder, chosen))
    if as_page:
        _write_page(there, shown, day, paint)
    else:
        for number, each in enumerate(shown):
            if number:
                paint.line()
            _tell(each, paint)
            if name is not None or month is not None:
                _tell_notes(each.student, month, paint)
    return 1 if any(student.problems for student in chosen) else 0


def _in_order(students: Sequence[Student], day: date, grade_of: GradeOf) -> list[_Shown]:
    """Those who need a look first, then the others; each by name."""
    shown = [_Shown(each, _called(each, students), looks(each, day, grade_of)) for each in students]
    return sorted(shown, key=lambda each: (not each.needs_a_look, folded(each.name)))


def _called(student: Student, students: Sequence[Student]) -> str:
    """The name of a student, with their file where another one has the same name."""
    is_shared = sum(each.name.casefold() == student.name.casefold() for each in students) > 1
    return f"{student.name} ({student.key}.md)" if is_shared else student.name


def _tell(shown: _Shown, paint: Paint) -> None:
    student = shown.student
    paint.line(f"{paint.styled('strong', shown.name)}  {', '.join(facts(student))}")
    for words in last_words(student):
        paint.line(f"  {words}")
    for look in shown.looks:
        paint.line(look_line(look, paint))
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
    """What was sent, heard and asked last, in words."""
    question = unanswered(student)
    sent, last = student.last_sent, student.last_heard
    if sent is None:
        yield say("Nothing sent yet")
    elif sent.week:
        yield say("Sent week {number} on {day}", number=sent.week, day=day_words(sent.day))
    else:
        yield say("Sent {words} on {day}", words=sent.words, day=day_words(sent.day))
    if last is not None:
        yield _heard_words(last)
    own = [
        note
        for note in by_day(student)
        if note.verb in (ASKED, SAID) and note is not question and (last is None or note.day > last.day)
    ]
    if own:
        yield say("Heard on {day}: {words}", day=day_words(own[-1].day), words=_short(own[-1].words))
    if question is not None:
        yield question_words(question)


def _short(words: str) -> str:
    return words if len(words) <= _MOST_LETTERS else f"{words[:_MOST_LETTERS].rstrip()}…"


def _heard_words(note: Note) -> str:
    day = day_words(note.day)
    tempos = ", ".join(_tempos(note.rows))
    is_clean = any(row.best for row in note.rows)
    if note.minutes is None:
        if not tempos:
            return say("Heard on {day}", day=day)
        if is_clean:
            return say("Heard on {day}: clean {tempos}", day=day, tempos=tempos)
        return say("Heard on {day}: {words}", day=day, words=tempos)
    minutes, days = note.minutes
    practice = say_count(
        "{minutes} in {count} day",
        "{minutes} in {count} days",
        days,
        minutes=say_count("{count} minute", "{count} minutes", minutes),
    )
    if not tempos:
        return say("Heard on {day}, {practice}", day=day, practice=practice)
    if is_clean:
        return say("Heard on {day}, {practice}: clean {tempos}", day=day, practice=practice, tempos=tempos)
    return say("Heard on {day}, {practice}: {words}", day=day, practice=practice, words=tempos)


def _tempos(rows: Sequence[Row]) -> Iterator[str]:
    """Clean tempos, and after them those that somebody typed and did not call clean."""
    yield from (f"{row.id} {row.best}" for row in rows if row.best)
    yield from (say("{id} last at {tempo}", id=row.id, tempo=row.latest) for row in rows if row.latest and not row.best)


def _grades(folder: Path, students: tuple[Student, ...]) -> GradeOf:
    """How hard exercises are, for those whose level is known; a course that can't be read says nothing of it."""
    if not any(student.level for student in students):
        return lambda name, tempo: None
    try:
        return grades(read_files(folder).course.exercises)
    except Trouble:
        return lambda name, tempo: None


def _write_page(there: StudentsFolder, shown: Sequence[_Shown], day: date, paint: Paint) -> None:
    students = [
        {
            "name": each.name,
            "facts": ", ".join(facts(each.student)),
            "last": list(last_words(each.student)),
            "looks": each.looks,
            "problems": [f"{problem.headline}: {problem.remedy}" for problem in each.student.problems],
            "notes": [_note(note) for note in reversed(by_day(each.student))],
        }
        for each in shown
    ]
    path = there.path / PAGE
    try:
        write_whole(path, people_page(students, day_words(day)).encode())
    except OSError as error:
        raise Trouble(say("{file} can't be written", file=path), error.strerror or say("look at its folder")) from error
    paint.line(paint.styled("good", say("Written {file}: open it in a browser.", file=path.as_posix())))


def _note(note: Note) -> dict[str, str]:
    said = say(note.verb) if note.verb else ""
    return {
        "day": short_day(note.day),
        "iso": note.day.isoformat(),
        "verb": note.verb,
        "said": said,
        "words": note.words,
    }
