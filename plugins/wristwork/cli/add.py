"""``wristwork add``: a block from the library into a week's page."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from wristwork.cli.course_files import CourseFiles, from_folder, read_files
from wristwork.cli.paint import Paint
from wristwork.cli.seeds import seed_folder
from wristwork.cli.trouble import Trouble
from wristwork.files import write_whole
from wristwork.languages.catalogues import SOURCE
from wristwork.languages.lists import both
from wristwork.languages.say import say, spoken
from wristwork.pattern.course import read_course
from wristwork.pattern.fences import split_lines
from wristwork.pattern.settings import id_from
from wristwork.wording import nearest

_HEADING = re.compile(r"^#{1,2} ")


@dataclass(frozen=True, slots=True)
class LibraryEntry:
    """A rudiment of the library: its title, and its section with heading, pattern and text."""

    title: str
    section: str


def add_rudiment(name: str, week: int, folder: Path, paint: Paint) -> int:
    """Put a rudiment at the end of a week's page; never twice."""
    entry_id, entry = _find(name, library(spoken().code))
    files = read_files(folder)
    _refuse_twice(entry_id, files)
    path = from_folder(folder, _page_of(week, files))
    _append(Path(path), entry.section)
    paint.line(paint.styled("good", say("Added {title} at the end of {page}.", title=entry.title, page=path)))
    paint.line(
        say("Set its tempos for your students, say what it needs (requires: …), and put the text in your own words.")
    )
    return 0


def refuse_unknown(name: str) -> None:
    """Raises Trouble where no rudiment has that name."""
    _find(name, library(spoken().code))


def list_rudiments(words: str, paint: Paint) -> int:
    """The rudiments whose id or title holds some words."""
    entries = library(spoken().code)
    wanted = words.casefold().split()
    found = {name: each for name, each in entries.items() if _is_meant(wanted, name, each)}
    width = max(map(len, found), default=0)
    for name, entry in found.items():
        paint.line(f"{paint.styled('strong', name)}{' ' * (width - len(name))}  {entry.title}")
    if not found:
        near = nearest(id_from(words), entries)
        remedy = say("did you mean {near}?", near=near) if near else say("leave the words out")
        raise Trouble(say("no rudiment has '{words}' in its name", words=words), remedy)
    return 0


def _is_meant(wanted: list[str], name: str, entry: LibraryEntry) -> bool:
    text = f"{name} {entry.title}".casefold()
    return all(word in text for word in wanted)


def library(code: str = SOURCE) -> dict[str, LibraryEntry]:
    """The rudiments by id, in the order of the library's pages, in a language; in English where that has none."""
    docs = seed_folder("rudiments", code) / "docs"
    pages = {path.as_posix(): path.read_text(encoding="utf-8") for path in sorted(docs.glob("*.md"))}
    entries: dict[str, LibraryEntry] = {}
    for name, fence in read_course(pages).exercises.items():
        lines = split_lines(pages[fence.path])
        place = fence.place.line - 1
        first = max((i for i in range(place) if _HEADING.match(lines[i])), default=place)
        last = next((i for i in range(place, len(lines)) if _HEADING.match(lines[i])), len(lines))
        title = fence.pattern.title if fence.pattern and fence.pattern.title else name
        entries[name] = LibraryEntry(title, "\n".join(lines[first:last]).strip())
    return entries


def _find(name: str, entries: Mapping[str, LibraryEntry]) -> tuple[str, LibraryEntry]:
    """The entry of a name typed as an id or as a title, in the language of the entries or in English."""
    wanted = id_from(name)
    called = {name: name for name in entries}
    for named in (entries, library()):
        called = {id_from(entry.title): name for name, entry in named.items() if name in entries} | called
        if wanted in called:
            return called[wanted], entries[called[wanted]]
    near = nearest(wanted, called)
    if near:
        remedy = say("did you mean {near}?", near=called[near])
    else:
        remedy = say("there are {names}", names=", ".join(entries))
    raise Trouble(say("no rudiment is called '{name}'", name=name), remedy)


def _refuse_twice(name: str, files: CourseFiles) -> None:
    # Fences with errors count too: their id is taken.
    for fence in files.course.text.fences:
        if fence.name == name and not (fence.pattern and fence.pattern.example):
            where = f"{from_folder(files.folder, fence.path)}:{fence.place.line}"
            found = say("'{name}' is in the course already, in {place}", name=name, place=where)
            raise Trouble(found, say("nothing was changed"))


def _page_of(number: int, files: CourseFiles) -> str:
    course = files.course
    found = [week.path for week in course.weeks if week.number == number]
    if len(found) > 1:
        twice = say("week {number} is there twice, in {pages}", number=number, pages=both(found))
        raise Trouble(twice, say("give one of them another number"))
    if found:
        return found[0]
    numbers = ", ".join(str(week.number) for week in course.numbered)
    if numbers:
        lacking = say(
            "there is no week {number} in {folder} (there are weeks {numbers})",
            number=number,
            folder=files.docs,
            numbers=numbers,
        )
    else:
        lacking = say("there is no week {number} in {folder} (no page has one)", number=number, folder=files.docs)
    remedy = say(
        "begin a page with the lines ---, week: {number}, ---, or let wristwork add week --week {number} make one",
        number=number,
    )
    raise Trouble(lacking, remedy)


def _append(path: Path, section: str) -> None:
    """Add to a page without touching what is there, in its own kind of line ends; all of it or nothing."""
    before = path.read_bytes()
    ending = b"\r\n" if b"\r\n" in before else b"\n"
    gap = b"" if before.endswith(ending) else ending
    added = ending.join(section.encode().split(b"\n")) + ending
    try:
        write_whole(path, before + gap + ending + added)
    except OSError as error:
        found = say("{file} can't be written ({reason})", file=path, reason=error.strerror or error)
        raise Trouble(found, say("nothing was changed")) from error
