"""Notes on students lie beside the pages: what would bring them onto the site stops a build."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from html import escape
from pathlib import Path

from mkdocs.structure.files import File

from wristwork.languages.say import say
from wristwork.page.problem import PAGE, Problem
from wristwork.people.folder import FOLDER, StudentsFolder
from wristwork.people.student import is_student_file
from wristwork.site.mkdocs.sources import Shown, Sources

# A mark by which a page takes in another file, as the usual extension for that reads it.
_TAKEN_IN = re.compile(r"-{1,}8<-{1,}.*?\bstudents[/\\]", re.IGNORECASE)
_DAY = re.compile(r"\d{4}-\d\d-\d\d ")
_DAY_LENGTH = len("2026-09-14 ")
# Files that hold words.
_TEXTS = (".html", ".txt", ".md", ".json", ".js", ".xml", ".csv", ".yml")
# Fewer letters may be there by chance.
_SHORTEST = 24


def student_problems(root: Path, files: Iterable[File], sources: Sources, shown: Shown) -> Iterator[Problem]:
    """Files and pages that would publish notes on the students of the course in ``root``."""
    folder = (root / FOLDER).resolve()
    for file in files:
        is_theirs = file.abs_src_path is not None and Path(file.abs_src_path).resolve().is_relative_to(folder)
        if is_theirs and not file.inclusion.is_excluded():
            found = say("leads to {folder}/, and would be published", folder=FOLDER)
            yield Problem(shown(file), 0, 0, found, _keep_out(), PAGE)
    for source in sources.pages:
        for number, line in enumerate(source.page.lines, start=1):
            if folder.is_dir() and _TAKEN_IN.search(line):
                found = say("takes in a file of {folder}/", folder=FOLDER)
                yield Problem(source.path, number, 0, found, say("take the line out"), PAGE)
        if is_student_file(source.page.text):
            found = say("reads as notes on a student, and would be published")
            yield Problem(source.path, 0, 0, found, _keep_out(), PAGE)


def _keep_out() -> str:
    return say("keep {folder}/ beside the pages, out of their folder", folder=FOLDER)


def leaked_notes(root: Path, site: Path) -> Iterator[Problem]:
    """Files of a finished site in which a note on a student stands, however it came there."""
    notes: dict[str, list[str]] = {}
    for student in StudentsFolder(root).students():
        for words in map(str, student.notes):
            if len(words) >= _SHORTEST:
                notes.setdefault(words[:_DAY_LENGTH], []).extend({words, escape(words), escape(words, quote=False)})
    if not notes:
        return
    for path in sorted(path for path in site.rglob("*") if path.suffix in _TEXTS and path.is_file()):
        text = path.read_text(encoding="utf-8", errors="replace")
        if any(text.startswith(tuple(notes.get(day[0], ())), day.start()) for day in _DAY.finditer(text)):
            shown = path.relative_to(site).as_posix()
            remedy = say("find what takes it in; keep {folder}/ beside the pages, out of their folder", folder=FOLDER)
            yield Problem(shown, 0, 0, say("on the site, holds a note on a student"), remedy, PAGE)
