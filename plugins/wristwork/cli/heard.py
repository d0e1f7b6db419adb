"""``wristwork heard``: what came back from a student, into their file."""

from __future__ import annotations

import codecs
import sys
from collections.abc import Container, Iterator
from datetime import date, timedelta
from pathlib import Path

from wristwork.cli.course_files import read_files
from wristwork.cli.paint import Paint
from wristwork.cli.students import append, sound
from wristwork.cli.trouble import Trouble
from wristwork.languages.say import marked, say, say_count
from wristwork.people import notes
from wristwork.people.folder import StudentsFolder
from wristwork.people.messages import Heard, read_message
from wristwork.people.notes import ASKED, SAID, Note

# So soon after, the same words are the same message.
_SAME = timedelta(days=6)
_LONGEST = 100_000  # letters: far more than any message
_REMEDY = marked("give the message or the link in quotes, or send it in: wristwork heard Jo < message.txt")


def heard(name: str, text: str, day: date, folder: Path, paint: Paint) -> int:
    """Note a message or a link; what is noted already is not noted twice."""
    people = StudentsFolder(folder)
    student = sound(people, name)
    came = text or _typed(paint)
    files = read_files(folder)
    titles = {exercise.id: exercise.title for exercise in files.course.exercises.values()}
    told = read_message(came, titles, (student.last_sent and student.last_sent.week) or student.week or 1)
    if told.is_nothing:
        raise Trouble(say("there is nothing in it to note"), say(_REMEDY))
    before = {(note.verb, note.words) for note in student.notes if abs(note.day - day) < _SAME}
    new = [note for note in _notes(told, day) if (note.verb, note.words) not in before]
    file = f"{people.path / student.key}.md"
    if not new:
        paint.line(say("All of it is noted already in {file}.", file=file))
        return 0
    append(people, student, new)
    paint.line(paint.styled("good", say("Noted for {name}, in {file}:", name=student.name, file=file)))
    for note in new:
        paint.line(f"  {note}")
    for line in _remarks(told, student.name, titles):
        paint.line(line)
    return 0


def _typed(paint: Paint) -> str:
    if sys.stdin.isatty():
        paint.line(say("Paste the message, then press Enter, Ctrl+D (on Windows Ctrl+Z, Enter)."))
    text = _decoded(sys.stdin.buffer.read(_LONGEST))
    if not text.strip():
        raise Trouble(say("there is nothing to note"), say(_REMEDY))
    return text


def _decoded(content: bytes) -> str:
    """The text of a message; Windows writes files of its terminal in UTF-16."""
    encoding = "utf-16" if content.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)) else "utf-8-sig"
    try:
        return content.decode(encoding)
    except UnicodeDecodeError as error:
        remedy = say("save it in that encoding; nothing was noted")
        raise Trouble(say("the message is not written in UTF-8"), remedy) from error


def _notes(told: Heard, day: date) -> Iterator[Note]:
    if told.report is not None:
        yield notes.heard(day, told.report)
    if told.question:
        yield notes.own_words(day, ASKED, told.question)
    about = f"(about {', '.join(told.links)}) " if told.links else ""
    if about or told.words:
        yield notes.own_words(day, SAID, f"{about}{told.words}")


def _remarks(told: Heard, name: str, known: Container[str]) -> Iterator[str]:
    if told.name and told.name.casefold() not in name.casefold() and name.casefold() not in told.name.casefold():
        yield say("The message says it is from {name}.", name=told.name)
    if told.report is not None and told.report.lost:
        yield say_count(
            "{count} line of the link did not come through: ask for it again.",
            "{count} lines of the link did not come through: ask for it again.",
            told.report.lost,
        )
    for title in told.unknown:
        yield say("No exercise of the course is called '{title}' now: its line is noted as it came.", title=title)
    for id_ in (link.partition(" ")[0] for link in told.links):
        if id_ not in known:
            yield say("No exercise of the course has the address x/{id}/ now.", id=id_)
