"""The folder of exercises that several courses share: read beside a course's pages, and published by none."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig

from wristwork.files import read_plain
from wristwork.languages.say import say
from wristwork.page.page import Page, read_page
from wristwork.page.problem import PAGE, SETTINGS, Problem
from wristwork.site.mkdocs.sources import course_folder

_PAGES = (".md", ".markdown")
_LARGEST = 1_000_000  # bytes of a page that somebody typed


@dataclass(frozen=True, slots=True)
class Library:
    """The pages of shared exercises, named from the course's folder, and what is wrong with them or their folder."""

    pages: tuple[Page, ...] = ()
    problems: tuple[Problem, ...] = ()


def read_library(config: MkDocsConfig, named: str | None, line: int) -> Library:
    """The library in the folder that a course's settings name in a ``line``; an empty one where they name none."""
    if named is None:
        return Library()
    root = course_folder(config)
    folder = (root / named).resolve()
    file = Path(config.config_file_path or "mkdocs.yml").name
    docs, site = Path(config.docs_dir).resolve(), Path(config.site_dir).resolve()
    found, remedy = "", say("give it a folder of its own")
    if not folder.is_dir():
        found = (
            say("the library {name} is no folder", name=named)
            if folder.exists()
            else say("the library {name} is not there", name=named)
        )
        remedy = say("make the folder, or correct library:")
    elif docs == folder or docs in folder.parents or folder in docs.parents:
        found = say("the library {name} and the course's pages lie in each other", name=named)
    elif site == folder or site in folder.parents or folder in site.parents:
        found = say("the library {name} and the site lie in each other", name=named)
    if found:
        return Library(problems=(Problem(file, line, 0, found, remedy, SETTINGS),))
    return _read(root, folder)


def _read(root: Path, folder: Path) -> Library:
    pages: list[Page] = []
    problems: list[Problem] = []
    for path in _files(folder):
        shown = Path(os.path.relpath(path, root.resolve())).as_posix()
        if path.is_symlink():
            found = say("a link, and a library follows none")
            remedy = say("put the file itself there, so that every copy of the library holds it")
            problems.append(Problem(shown, 0, 0, found, remedy, PAGE))
            continue
        try:
            pages.append(read_page(shown, read_plain(path, _LARGEST).decode("utf-8-sig")))
        except (OSError, UnicodeDecodeError) as error:
            why = error.strerror if isinstance(error, OSError) else say("it is not written in UTF-8")
            found = say("can't be read: {reason}", reason=why or error)
            problems.append(Problem(shown, 0, 0, found, say("save it as UTF-8 text, or take it out"), PAGE))
    return Library(tuple(pages), tuple(problems))


def _files(folder: Path) -> Iterator[Path]:
    """Every page below a folder, and every link, in an order that is the same everywhere."""
    for inside, folders, names in os.walk(folder):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        links = [name for name in folders if Path(inside, name).is_symlink()]
        for name in sorted([*links, *names]):
            path = Path(inside, name)
            if not name.startswith(".") and (path.suffix.lower() in _PAGES or name in links):
                yield path
