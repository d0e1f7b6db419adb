"""What a student's device may keep: the list of the site's files, and the worker that keeps them.

Both are made from the finished site, so that they name what is there. The same site gives the same bytes.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from wristwork.course.exercise import json_bytes
from wristwork.site.audio.sounds import PUBLISHED
from wristwork.site.frontend.assets import asset_root
from wristwork.site.frontend.head import MANIFEST
from wristwork.site.frontend.templating import TEMPLATES
from wristwork.site.reading.course_site import CourseSite, Placed
from wristwork.site.reading.lessons import LessonPage
from wristwork.site.student.pages import COURSE

LIST, WORKER = "offline.json", "worker.js"
# For search engines, link previews and developers; and how the theme would cut words of other languages.
_NOT_KEPT_ENDINGS = (".map", ".gz", "sitemap.xml", "card.png", "404.html")
_NOT_KEPT_FOLDERS = ("assets/javascripts/lunr/", "schema/")

Fingerprint = Callable[[str], str | None]


def write_offline(site_dir: Path, site: CourseSite, pages: Sequence[str], known: Fingerprint) -> None:
    """Write the list and the worker into the finished site.

    ``pages`` are the addresses of the pages that every visitor keeps. ``known`` tells what a file was made
    from where that is known, so that thousands of files need not be read again.
    """
    files = {_address(name): (name, *entry) for name, entry in _files(site_dir, known)}
    entries = {address: [sum_, size] for address, (_, sum_, size) in sorted(files.items())}
    data: dict[str, Any] = {
        "starts": site.starts.isoformat() if site.starts else None,
        "files": entries,
        "shell": sorted({*(page for page in pages if page in entries), *_shell(entries)}),
        "weeks": {str(page.number): _week(site, page, entries) for page in site.weeks},
    }
    data["build"] = hashlib.sha256(json_bytes(data)).hexdigest()[:12]
    (site_dir / LIST).write_bytes(json_bytes(data))
    worker = (TEMPLATES / "worker.js").read_text(encoding="utf-8").replace("@BUILD@", data["build"])
    (site_dir / WORKER).write_text(worker, encoding="utf-8")


def write_farewell(site_dir: Path) -> None:
    """Write a worker that takes an earlier one away."""
    (site_dir / WORKER).write_bytes((TEMPLATES / "worker-off.js").read_bytes())


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
    if file.startswith(".") or file.endswith(_NOT_KEPT_ENDINGS) or name in (LIST, WORKER, "CNAME"):
        return False
    return not name.startswith(_NOT_KEPT_FOLDERS)


def _address(name: str) -> str:
    """Where a browser finds a file: a folder for its index."""
    return name.removesuffix("index.html") if name == "index.html" or name.endswith("/index.html") else name


def _shell(entries: Mapping[str, object]) -> Iterator[str]:
    """What every page needs: scripts and styles, the course as data, the search."""
    own = f"{asset_root()}/"
    theme = ("assets/stylesheets/", "assets/javascripts/", "search/")
    for address in entries:
        if address.startswith((own, *theme)) or address in (COURSE, MANIFEST):
            yield address


def _week(site: CourseSite, page: LessonPage, entries: Mapping[str, object]) -> list[str]:
    """What a week needs: its page, its exercises' own pages and data, the list that names their sounds."""
    own = [address for placed in site.practised_on(page) for address in _place(placed)]
    return [address for address in dict.fromkeys([page.url, *own, f"{PUBLISHED}/sounds.json"]) if address in entries]


def _place(placed: Placed) -> tuple[str, str]:
    return placed.folder, f"{placed.folder}exercise.json"
