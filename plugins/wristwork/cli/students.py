"""The folder of students as commands meet it: its troubles in a line."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

from wristwork.cli.paint import Paint
from wristwork.cli.trouble import Trouble
from wristwork.languages.say import say
from wristwork.people.folder import NoStudent, StudentsFolder, Unsaved
from wristwork.people.notes import Note
from wristwork.people.student import HAND, HANDS, LEVEL, SURFACE, WEEK, Student, read_student


def found(folder: StudentsFolder, name: str) -> Student:
    """The student of a name."""
    try:
        return folder.find(name)
    except NoStudent as error:
        raise Trouble(str(error), error.remedy) from error
    except OSError as error:
        cause = say("{file} can't be read ({reason})", file=folder.path, reason=error.strerror or error)
        raise Trouble(cause, say("look at its permissions")) from error


def sound(folder: StudentsFolder, name: str) -> Student:
    """The student of a name, whose file can be read; nothing is added to one that can't."""
    student = found(folder, name)
    if student.problems:
        first = student.problems[0]
        raise Trouble(f"{first.where}: {first.found}", say("{remedy}; nothing was changed", remedy=first.remedy))
    return student


def append(folder: StudentsFolder, student: Student, notes: Iterable[Note]) -> None:
    """Put notes into a student's file."""
    try:
        folder.append(student, notes)
    except Unsaved as error:
        raise Trouble(str(error), say("nothing was noted")) from error


def add_student(name: str, week: int | None, said: Mapping[str, str | None], course: Path, paint: Paint) -> int:
    """Make a file for a student, with what is ``said`` of them by the keys of their file."""
    if not name.strip() or not name.isprintable():
        raise Trouble(say("a name is missing"), say("write, say, wristwork add student Jo --week 3"))
    name = " ".join(name.split())
    folder = StudentsFolder(course)
    _refuse_second(folder, name)
    is_new = not folder.path.exists()
    given = {
        WEEK: str(week) if week else None,
        LEVEL: said[LEVEL],
        HAND: said[HAND] or HANDS[0],
        SURFACE: said[SURFACE],
    }
    settings = [(key, value) for key, value in given.items() if value is not None]
    for problem in read_student("", "".join(f"{key}: {value}\n" for key, value in settings)).problems:
        raise Trouble(problem.found, problem.remedy)
    try:
        path = folder.add(name, settings)
    except Unsaved as error:
        raise Trouble(str(error), say("nothing was written")) from error
    paint.line(paint.styled("good", say("Added {file}, which no site ever holds.", file=path.as_posix())))
    if is_new and not _is_ignored(course):
        paint.line(say("Version control would keep it: to keep it to yourself, add the line /students/ to .gitignore."))
    return 0


def _refuse_second(folder: StudentsFolder, name: str) -> None:
    """A name typed again is more often a slip than a second student."""
    there = next((each for each in folder.students() if each.name.casefold() == name.casefold()), None)
    if there is not None:
        found = say(
            "{name} is there already, in {file}", name=there.name, file=f"{folder.path.as_posix()}/{there.key}.md"
        )
        raise Trouble(
            found, say("for somebody else say more of the name, as in wristwork add student '{name} B.'", name=name)
        )


def _is_ignored(course: Path) -> bool:
    try:
        lines = (course / ".gitignore").read_text(encoding="utf-8").splitlines()
    except (OSError, UnicodeDecodeError):
        return not (course / ".git").exists()
    return any(line.strip().strip("/") == "students" for line in lines)
