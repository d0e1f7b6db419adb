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
    entry_id, entry = _find(name, library())
    files = read_files(folder)
    _refuse_twice(entry_id, files)
    path = from_folder(folder, _page_of(week, files))
    _append(Path(path), entry.section)
    paint.line(f"{paint.styled('good', 'Added')} {entry.title} at the end of {paint.styled('strong', path)}.")
    paint.line("Set its tempos for your students, say what it needs (requires: …), and put the text in your own words.")
    return 0


def list_rudiments(words: str, paint: Paint) -> int:
    """The rudiments whose id or title holds some words."""
    entries = library()
    wanted = words.casefold().split()
    found = {name: each for name, each in entries.items() if _is_meant(wanted, name, each)}
    width = max(map(len, found), default=0)
    for name, entry in found.items():
        paint.line(f"{paint.styled('strong', name)}{' ' * (width - len(name))}  {entry.title}")
    if not found:
        near = nearest(id_from(words), entries)
        raise Trouble(
            f"no rudiment has '{words}' in its name", f"did you mean {near}?" if near else "leave the words out"
        )
    return 0


def _is_meant(wanted: list[str], name: str, entry: LibraryEntry) -> bool:
    text = f"{name} {entry.title}".casefold()
    return all(word in text for word in wanted)


def library() -> dict[str, LibraryEntry]:
    """The rudiments by id, in the order of the library's pages."""
    docs = seed_folder("rudiments") / "docs"
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
    """The entry of a name typed as an id or as a title."""
    wanted = id_from(name)
    if wanted in entries:
        return wanted, entries[wanted]
    near = nearest(wanted, entries)
    hint = f"did you mean {near}?" if near else f"there are {', '.join(entries)}"
    raise Trouble(f"no rudiment is called '{name}'", hint)


def _refuse_twice(name: str, files: CourseFiles) -> None:
    # Fences with errors count too: their id is taken.
    for fence in files.course.text.fences:
        if fence.name == name and not (fence.pattern and fence.pattern.example):
            where = f"{from_folder(files.folder, fence.path)}:{fence.place.line}"
            raise Trouble(f"'{name}' is in the course already, in {where}", "nothing was changed")


def _page_of(number: int, files: CourseFiles) -> str:
    course = files.course
    found = [week.path for week in course.weeks if week.number == number]
    if len(found) > 1:
        raise Trouble(f"week {number} is there twice, in {' and '.join(found)}", "give one of them another number")
    if found:
        return found[0]
    numbers = ", ".join(str(week.number) for week in course.numbered)
    there = f"there are weeks {numbers}" if numbers else "no page has one"
    raise Trouble(
        f"there is no week {number} in {files.docs} ({there})", f"begin a page with the lines ---, week: {number}, ---"
    )


def _append(path: Path, section: str) -> None:
    """Add to a page without touching what is there, in its own kind of line ends; all of it or nothing."""
    before = path.read_bytes()
    ending = b"\r\n" if b"\r\n" in before else b"\n"
    gap = b"" if before.endswith(ending) else ending
    added = ending.join(section.encode().split(b"\n")) + ending
    try:
        write_whole(path, before + gap + ending + added)
    except OSError as error:
        raise Trouble(f"{path} can't be written ({error.strerror or error})", "nothing was changed") from error
