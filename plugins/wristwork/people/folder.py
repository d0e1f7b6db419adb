"""The folder of students' files, beside the pages and never among them.

Files are only ever added to, whole or not at all, and by one command at a time; what a tutor wrote stays as it is.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from filelock import FileLock, Timeout

from wristwork.files import LinkRefused, read_plain, refuse_link, write_whole
from wristwork.languages.lists import either
from wristwork.languages.say import say
from wristwork.page.problem import PAGE, Problem
from wristwork.pattern.settings import RESERVED, id_from
from wristwork.people.notes import Note
from wristwork.people.student import HINT, Student, read_student
from wristwork.wording import nearest

FOLDER = "students"
ENDING = ".md"
_LONGEST_WAIT = 30.0  # seconds: a note is written in an instant
_LARGEST = 4_000_000  # bytes: notes of some centuries


class NoStudent(Exception):
    """No student, or more than one, is meant by a name; ``remedy`` says what to type."""

    def __init__(self, found: str, remedy: str) -> None:
        super().__init__(found)
        self.remedy = remedy


class Unsaved(Exception):
    """A note could not be written, and the file is as it was."""


def folded(name: str) -> str:
    """A name without its capitals and accents, as people type it."""
    parted = unicodedata.normalize("NFKD", name.casefold())
    return " ".join("".join(char for char in parted if not unicodedata.combining(char)).split())


def as_typed(name: str) -> str:
    """A name as it is typed behind a command: in quotes where a shell would part or change it."""
    if not any(char in name for char in " '<>&\""):
        return name
    return f'"{name}"' if "'" in name and '"' not in name else f"'{name}'"


class StudentsFolder:
    """The students of one course."""

    def __init__(self, course: Path) -> None:
        self.path = course / FOLDER
        self._lock = course / ".wristwork" / "students.lock"

    def files(self) -> tuple[Path, ...]:
        """The files of students, by name."""
        if not self.path.is_dir():
            return ()
        found = (path for path in self.path.iterdir() if path.suffix == ENDING and path.is_file())
        return tuple(sorted(found, key=lambda path: folded(path.stem)))

    def students(self) -> tuple[Student, ...]:
        """All students; those whose file cannot be read say so among their problems."""
        return tuple(map(self._read, self.files()))

    def find(self, typed: str) -> Student:
        """The student of a name, or of a file's name. Raises :class:`NoStudent`."""
        students = self.students()
        by_file = [each for each in students if typed == each.key + ENDING]
        by_name = [each for each in students if folded(typed) in (folded(each.name), folded(each.key))]
        found = by_file or by_name
        if len(found) == 1:
            return found[0]
        if found:
            files = either(each.key + ENDING for each in found)
            called = say("{count} students are called '{name}'", count=len(found), name=typed)
            raise NoStudent(called, say("name the file: {files}", files=files))
        if not students:
            remedy = say("go to your course's folder, or begin with wristwork add student {name}", name=as_typed(typed))
            raise NoStudent(say("there is nobody in {folder}", folder=self.path.as_posix()), remedy)
        names = {folded(name): name for each in students for name in (each.key, each.name)}
        by_part = _with_part(folded(typed), [*(folded(each.name) for each in students), *names])
        near = by_part or nearest(folded(typed), names)
        remedy = (
            say("did you mean {near}?", near=as_typed(names[near]))
            if near
            else say("wristwork add student {name} makes a file", name=as_typed(typed))
        )
        raise NoStudent(say("no student is called '{name}'", name=typed), remedy)

    def append(self, student: Student, notes: Iterable[Note]) -> None:
        """Put notes below what is there. Raises :class:`Unsaved`."""
        # Where a file is a link, to a folder that is kept elsewhere, say, it stays one.
        path = (self.path / (student.key + ENDING)).resolve()
        lines = [str(note) for note in notes]
        with self._turn():
            try:
                before = read_plain(path, _LARGEST)
                write_whole(path, before + _below(before, lines))
            except OSError as error:
                raise _unsaved(path, error) from error

    def add(self, name: str, settings: Sequence[tuple[str, str]]) -> Path:
        """Make a file for a new student; a second one of the same name gets a number. Raises :class:`Unsaved`."""
        plain = id_from(name.casefold())  # ß is ss
        stem = f"student-{plain}" if plain in RESERVED else plain or "student"
        with self._turn():
            taken = {folded(path.stem) for path in self.files()}
            free = next(each for each in _numbered(stem) if each not in taken)
            path = self.path / (free + ENDING)
            head = "".join(f"{key}: {value}\n" for key, value in [("name", name), *settings])
            try:
                write_whole(path, "\n".join((head, say(HINT), "")).encode())
            except OSError as error:
                raise _unsaved(path, error) from error
        return path

    def _read(self, path: Path) -> Student:
        shown = path.as_posix()
        try:
            return read_student(shown, read_plain(path, _LARGEST).decode())
        except UnicodeDecodeError:
            return _unread(path, say("it is not written in UTF-8"), say("save it in that encoding"))
        except OSError as error:
            found = say("it can't be read ({reason})", reason=error.strerror or error)
            return _unread(path, found, say("look at its permissions"))

    @contextmanager
    def _turn(self) -> Iterator[None]:
        """One command writes at a time; ends with its process, however that ends."""
        try:
            self._lock.parent.mkdir(parents=True, exist_ok=True)
            refuse_link(self._lock)
            with FileLock(self._lock, timeout=_LONGEST_WAIT):
                yield
        except Timeout:
            raise Unsaved(say("another command has been writing for half a minute")) from None
        except LinkRefused as error:
            raise Unsaved(str(error)) from error
        except OSError as error:
            raise _unsaved(self.path, error) from error


def _unsaved(path: Path, error: OSError) -> Unsaved:
    reason = error.strerror or error
    return Unsaved(say("{path} can't be written ({reason})", path=path.as_posix(), reason=reason))


def _unread(path: Path, found: str, remedy: str) -> Student:
    problem = Problem(path.as_posix(), 0, 0, found, remedy, PAGE)
    return Student(path.stem, path.stem, problems=(problem,))


def _below(before: bytes, lines: Sequence[str]) -> bytes:
    """Lines to go below a file's bytes, in its own kind of line ends."""
    ending = b"\r\n" if b"\r\n" in before else b"\n"
    gap = b"" if not before or before.endswith(b"\n") else ending
    return gap + b"".join(line.encode() + ending for line in lines)


def _numbered(stem: str) -> Iterator[str]:
    yield stem
    number = 2
    while True:
        yield f"{stem}-{number}"
        number += 1


def _with_part(typed: str, names: Iterable[str]) -> str | None:
    """A name in which all that was typed begins a word."""
    parts = typed.split()
    words = {name: name.replace("-", " ").split() for name in names}
    return next((name for name in words if parts and all(_begins_one(part, words[name]) for part in parts)), None)


def _begins_one(part: str, words: Iterable[str]) -> bool:
    return any(word.startswith(part) for word in words)
