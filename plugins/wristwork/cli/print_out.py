"""``wristwork print``: exercises, weeks or the whole course as PDF files."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from wristwork.cli.course_files import CourseFiles, read_files, unread
from wristwork.cli.paint import Paint
from wristwork.cli.trouble import Trouble
from wristwork.files import write_whole
from wristwork.languages.say import say, spoken
from wristwork.paper.press import Paper, PaperError, PaperSize, Press
from wristwork.paper.sheet import Sheet, sheet_pdf
from wristwork.pattern import read_one
from wristwork.pattern.changes import left_handed
from wristwork.pattern.model import Pattern
from wristwork.pattern.problems import PatternError
from wristwork.site.exercise.place_page import SiteName
from wristwork.site.mkdocs.config import PAPERS
from wristwork.site.mkdocs.looking import read_look
from wristwork.site.mkdocs.printing import course_papers, letterhead
from wristwork.site.paper.papers import Papers
from wristwork.wording import nearest

_PDF = b"%PDF"
_STICKING = "sticking.pdf"


@dataclass(frozen=True, slots=True)
class Asked:
    """What is to be printed, and how: all as it was typed."""

    ids: tuple[str, ...] = ()
    weeks: tuple[int, ...] = ()
    book: bool = False
    sticking: str | None = None
    title: str | None = None
    tempo: str | None = None
    paper: str | None = None
    large: bool = False
    left_handed: bool = False

    @property
    def of_the_course(self) -> int:
        """How many papers of the course are asked for."""
        return len(self.ids) + len(self.weeks) + self.book


def print_out(asked: Asked, folder: Path, target: Path | None, paint: Paint) -> int:
    """Write what is asked for, each paper to a file of its own."""
    if not asked.of_the_course and asked.sticking is None:
        remedy = say("name an exercise by its id, or say --week 3, --book or --for 'R>LRR L>RLL'")
        raise Trouble(say("nothing says what is to be printed"), remedy)
    made = list(_made(asked, folder, paint))
    for name, content in made:
        path = _path(name, target, is_only_one=len(made) == 1)
        _write(path, content)
        paint.line(paint.styled("good", say("Printed {file}", file=path)))
    return 0


def _made(asked: Asked, folder: Path, paint: Paint) -> Iterator[tuple[str, bytes]]:
    try:
        if asked.sticking is not None:
            yield _STICKING, _of_sticking(asked, asked.sticking)
        if asked.of_the_course:
            files = read_files(folder)
            if files.wrong:
                paint.line(unread(len(files.wrong)))
            yield from _of_course(asked, files)
    except PaperError as error:
        remedy = say("tell the people who make this tool, with the page")
        raise Trouble(say("the typesetter gave up ({reason})", reason=error), remedy) from error


def _of_sticking(asked: Asked, sticking: str) -> bytes:
    lines = {"hands": sticking, "tempo": asked.tempo, "title": asked.title}
    text = "\n".join(["example: yes", *(f"{key}: {' '.join(said.split())}" for key, said in lines.items() if said)])
    try:
        pattern = read_one(text)
    except PatternError as error:
        first = error.problems[0]
        raise Trouble(first.found, first.remedy) from error
    paper = Paper(PAPERS[asked.paper or "a4"], asked.large, spoken().code)
    return sheet_pdf(Press(), Sheet(_for_reader(pattern, asked)), paper)


def _of_course(asked: Asked, files: CourseFiles) -> Iterator[tuple[str, bytes]]:
    papers = _papers(asked, files)
    for name in asked.ids:
        placed = files.site.exercises.get(name)
        if placed is None:
            near = nearest(name, files.site.exercises)
            remedy = say("did you mean {near}?", near=near) if near else say("its id is the last part of its address")
            raise Trouble(say("there is no exercise '{name}' in this course", name=name), remedy)
        yield f"{name}.pdf", papers.sheet(placed)
    for number in asked.weeks:
        page = next((page for page in files.site.weeks if page.number == number), None)
        if page is None:
            there = ", ".join(str(page.number) for page in files.site.weeks)
            if there:
                remedy = say("the weeks are {numbers}; a new one begins with wristwork add week", numbers=there)
            else:
                remedy = say("it has none; the first one begins with wristwork add week")
            raise Trouble(say("there is no week {number} in this course", number=number), remedy)
        yield f"week-{number}.pdf", papers.week(page)
    if asked.book:
        yield "course.pdf", papers.book()


def _papers(asked: Asked, files: CourseFiles) -> Papers:
    config = files.config
    language = config.theme.get("language") or "en"
    look = read_look(config, files.own).look
    own = files.own.paper or PaperSize.A4
    paper = Paper(PAPERS[asked.paper] if asked.paper else own, asked.large, language, letterhead(look))
    name = SiteName(config.site_name, config.site_url or None, language)
    return course_papers(config, files.site, name, files.topics, paper, asked.left_handed)


def _for_reader(pattern: Pattern, asked: Asked) -> Pattern:
    return left_handed(pattern) if asked.left_handed else pattern


def _path(name: str, target: Path | None, is_only_one: bool) -> Path:
    """Where a paper goes: several go into a folder."""
    if target is None:
        return Path(name)
    if target.suffix.lower() != ".pdf" or target.is_dir():
        return target / name
    if not is_only_one:
        found = say("{file} is one file, and several papers are asked for", file=target)
        raise Trouble(found, say("name a folder, as in --to papers"))
    return target


def _write(path: Path, content: bytes) -> None:
    """Write a paper; an earlier one is replaced, any other file is not."""
    try:
        if path.exists():
            with path.open("rb") as file:
                if file.read(len(_PDF)) != _PDF:
                    found = say("{file} is there, and it is no PDF", file=path)
                    raise Trouble(found, say("name another file with --to"))
        write_whole(path, content)
    except OSError as error:
        raise Trouble(say("{file} can't be written", file=path), error.strerror or say("look at its folder")) from error
