"""The folder of students as commands meet it: its troubles in a line."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from wristwork.cli.paint import Paint
from wristwork.cli.trouble import Trouble
from wristwork.people.folder import NoStudent, StudentsFolder, Unsaved
from wristwork.people.notes import Note
from wristwork.people.student import HANDS, Student


def found(folder: StudentsFolder, name: str) -> Student:
    """The student of a name."""
    try:
        return folder.find(name)
    except NoStudent as error:
        raise Trouble(str(error), error.remedy) from error
    except OSError as error:
        raise Trouble(f"{folder.path} can't be read ({error.strerror or error})", "look at its permissions") from error


def sound(folder: StudentsFolder, name: str) -> Student:
    """The student of a name, whose file can be read; nothing is added to one that can't."""
    student = found(folder, name)
    if student.problems:
        first = student.problems[0]
        raise Trouble(f"{first.where}: {first.found}", f"{first.remedy}; nothing was changed")
    return student


def append(folder: StudentsFolder, student: Student, notes: Iterable[Note]) -> None:
    """Put notes into a student's file."""
    try:
        folder.append(student, notes)
    except Unsaved as error:
        raise Trouble(str(error), "nothing was noted") from error


def add_student(name: str, week: int | None, hand: str | None, course: Path, paint: Paint) -> int:
    """Make a file for a student."""
    if not name.strip() or not name.isprintable():
        raise Trouble("a name is missing", "write, say, wristwork add student Jo --week 3")
    folder = StudentsFolder(course)
    is_new = not folder.path.exists()
    settings = [(key, str(value)) for key, value in (("week", week), ("hand", hand or HANDS[0])) if value is not None]
    try:
        path = folder.add(" ".join(name.split()), settings)
    except Unsaved as error:
        raise Trouble(str(error), "nothing was written") from error
    paint.line(f"{paint.styled('good', 'Added')} {paint.styled('strong', path.as_posix())}, which no site ever holds.")
    if is_new and not _is_ignored(course):
        paint.line("Version control would keep it: to keep it to yourself, add the line /students/ to .gitignore.")
    return 0


def _is_ignored(course: Path) -> bool:
    try:
        lines = (course / ".gitignore").read_text(encoding="utf-8").splitlines()
    except (OSError, UnicodeDecodeError):
        return not (course / ".git").exists()
    return any(line.strip().strip("/") == "students" for line in lines)
