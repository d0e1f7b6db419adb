"""What a student's device may keep: lists of the site's files, and the worker that keeps them.

All are made from the finished site, so that they name what is there. The same site gives the same bytes. A page of a
large course asks for the list of its week alone; the list of all files is for those who keep the whole course.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable, Container, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from wristwork.course.exercise import json_bytes
from wristwork.pattern.video import FORMATS
from wristwork.site.audio.sounds import PUBLISHED
from wristwork.site.frontend import colours
from wristwork.site.frontend.assets import asset_root
from wristwork.site.frontend.head import MANIFEST
from wristwork.site.frontend.look import Look
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.reading.lessons import LessonPage
from wristwork.site.reading.paper_places import BOOK, SHEET, WEEK
from wristwork.site.reading.place_files import SCORE
from wristwork.site.student.pages import COURSE
from wristwork.site.week.session_files import session_address

_FOLDER = Path(__file__).parent
_PICTURES = ("diagram.svg", "pattern.mid")
ALL, LISTS, WORKER = "offline.json", "offline/", "worker.js"
# For search engines, link previews and developers; videos, which are large; how the theme would cut words of other
# languages.
_NOT_KEPT_ENDINGS = (".map", ".gz", "sitemap.xml", "card.png", "404.html", *FORMATS)
_NOT_KEPT_FOLDERS = ("assets/javascripts/lunr/", "schema/")

Fingerprint = Callable[[str], str | None]
Entries = Mapping[str, list[Any]]
"""Each file by its address: what shows whether it changed, and its bytes."""


def write_offline(
    site_dir: Path,
    site: CourseSite,
    look: Look,
    pages: Sequence[str],
    known: Fingerprint,
    waiting: Container[str] = (),
) -> None:
    """Write the lists and the worker into the finished site.

    ``pages`` are the addresses of the pages that every visitor keeps. ``known`` tells what a file was made
    from where that is known, so that thousands of files need not be read again. Pages that are ``waiting`` for their
    day are in no list: nobody is to find them by it, or to keep them beyond that day.
    """
    found = _files(site_dir, known)
    files = {_address(name): [sum_, size] for name, (sum_, size) in found if name not in waiting}
    entries = dict(sorted(files.items()))
    lists: dict[str, Any] = {
        ALL: {"files": entries},
        f"{LISTS}size.json": {"bytes": sum(size for _, size in entries.values())},
        f"{LISTS}shell.json": _shell_list(entries, pages, look),
        **{f"{LISTS}week-{page.number}.json": _week_list(site, page, entries) for page in site.weeks},
    }
    build = hashlib.sha256(json_bytes(lists)).hexdigest()[:12]
    (site_dir / LISTS).mkdir(exist_ok=True)
    for name, data in lists.items():
        (site_dir / name).write_bytes(json_bytes({**data, "build": build}))
    worker = (_FOLDER / "worker.js").read_text(encoding="utf-8")
    shades = colours.in_page(look.colours, "paper", "ink", "link")
    worker = worker.replace("@BUILD@", build).replace("@COLOURS@", shades)
    (site_dir / WORKER).write_text(worker, encoding="utf-8")


def write_farewell(site_dir: Path) -> None:
    """Write a worker that takes an earlier one away."""
    (site_dir / WORKER).write_bytes((_FOLDER / "worker-off.js").read_bytes())


def _files(site_dir: Path, known: Fingerprint) -> Iterator[tuple[str, tuple[str, int]]]:
    """Every file that may be kept: name, what shows whether it changed, bytes."""
    for folder, folders, names in os.walk(site_dir):
        folders[:] = [name for name in folders if not name.startswith(".")]
        base = Path(folder).relative_to(site_dir).as_posix()
        for file in names:
            name = file if base == "." else f"{base}/{file}"
            if _is_kept(name, file):
                path = Path(folder, file)
                sum_ = known(name) or hashlib.sha256(path.read_bytes()).hexdigest()
                yield name, (sum_[:10], path.stat().st_size)


def _is_kept(name: str, file: str) -> bool:
    if file.startswith(".") or file.endswith(_NOT_KEPT_ENDINGS) or name in (ALL, WORKER, "CNAME", BOOK):
        return False
    if file in (SHEET, WEEK, SCORE):  # who prints or works on has a signal
        return False
    return not name.startswith(_NOT_KEPT_FOLDERS)


def _address(name: str) -> str:
    """Where a browser finds a file: a folder for its index."""
    return name.removesuffix("index.html") if name == "index.html" or name.endswith("/index.html") else name


def _shell_list(entries: Entries, pages: Sequence[str], look: Look) -> dict[str, Any]:
    """What every page needs, and what is known of the sounds, of which a device keeps those of its weeks."""
    paths = sorted({*(page for page in pages if page in entries), *_shell(entries, look)})
    sounds = [address for address in entries if address.startswith(f"{PUBLISHED}/")]
    return {"paths": paths, "files": {address: entries[address] for address in (*paths, *sounds)}}


def _shell(entries: Entries, look: Look) -> Iterator[str]:
    """What every page needs: scripts and styles, the tutor's own look, the course as data, the search."""
    own = f"{asset_root()}/"
    looks = {look.logo, look.icon, *look.styles, *look.files}
    theme = ("assets/stylesheets/", "assets/javascripts/", "search/")
    for address in entries:
        if address.startswith((own, *theme)) or address in looks or address in (COURSE, MANIFEST):
            yield address


def _week_list(site: CourseSite, page: LessonPage, entries: Entries) -> dict[str, Any]:
    """What a week needs: its page, its exercises' own pages and data, the list that names their sounds.

    ``files`` knows the other files of its exercises, too, of which a device keeps those that were asked for.
    """
    practised = site.practised_on(page)
    own = [address for placed in practised for address in (placed.folder, f"{placed.folder}exercise.json")]
    more = [
        placed.folder + name for placed in practised for name in ("pattern.mid", "diagram.svg", *site.heard(placed))
    ]
    lists = [session_address(page.number or 0), f"{PUBLISHED}/sounds.json"]
    paths = [address for address in dict.fromkeys([page.url, *own, *lists]) if address in entries]
    return {"paths": paths, "files": {each: entries[each] for each in (*paths, *more) if each in entries}}
