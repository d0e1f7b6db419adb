"""A course as it lies on the disk: its settings and its pages."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from wristwork.cli.trouble import Trouble
from wristwork.course.course import Course, read_teaching
from wristwork.course.page_order import nav_pages, page_order
from wristwork.course.weeks import DEFAULT_DAYS, allow_line, read_allowances, read_week
from wristwork.page.page import read_pages
from wristwork.page.problem import Problem

SETTINGS = ("mkdocs.yml", "mkdocs.yaml")


# Settings may hold tags of other tools; what they mean is not our business.
_SettingsLoader: Any = type("_SettingsLoader", (yaml.SafeLoader,), {})
_SettingsLoader.add_multi_constructor("", lambda loader, suffix, node: None)


@dataclass(frozen=True, slots=True)
class CourseFiles:
    """A course's folder. ``pages`` are texts by path, in the order of teaching; paths start at the folder as typed.

    ``options`` are the plugin's settings, ``settings`` the file they are in (None for a bare folder of pages).
    """

    folder: Path
    settings: Path | None
    docs: Path
    options: dict[str, Any]
    pages: dict[str, str]
    files: frozenset[str]

    @property
    def checks_are_off(self) -> bool:
        """Does the tutor say that this is no course? YAML reads a bare off as false."""
        return self.options.get("checks") in (False, "off")


def read_files(folder: Path) -> CourseFiles:
    """Read a course's folder: one with settings, or a bare folder of pages."""
    if not folder.is_dir():
        raise Trouble(f"there is no folder {folder}", "name the folder that your mkdocs.yml is in")
    settings = next((folder / name for name in SETTINGS if (folder / name).is_file()), None)
    values = _settings(settings) if settings else {}
    docs = folder / str(values.get("docs_dir") or "docs") if settings else folder
    if settings is not None and not docs.is_dir():
        raise Trouble(f"there is no folder {docs}", f"make it, or change docs_dir in {settings}")
    texts = {_shown(path): _text(path) for path in sorted(docs.rglob("*.md")) if not _hidden(path, docs)}
    if not texts:
        raise Trouble(f"there are no pages in {docs}", "go to your course's folder, or wristwork new my-course")
    read = {page.path: read_week(page)[0] for page in read_pages(texts)}
    weeks = {path: week.number for path, week in read.items() if week is not None}
    nav = [_shown(docs / name) for name in nav_pages(values.get("nav"))]
    return CourseFiles(
        folder=folder,
        settings=settings,
        docs=docs,
        options=_options(values.get("plugins")),
        pages={path: texts[path] for path in page_order(texts, weeks, nav)},
        files=frozenset(_shown(path) for path in docs.rglob("*") if path.is_file()),
    )


def read_whole(files: CourseFiles) -> tuple[Course, tuple[Problem, ...]]:
    """The course that the files make, and what is wrong in settings and front matter."""
    days = files.options.get("days")
    place = files.settings or files.folder
    line = allow_line(_text(files.settings)) if files.settings else 1
    allow, problems = read_allowances(files.options.get("allow"), _shown(place), line)
    days = days if isinstance(days, int) else DEFAULT_DAYS
    there = files.files | _made_pages(files.docs)
    course, more = read_teaching(read_pages(files.pages), days, allow, there)
    return course, (*problems, *more)


def _made_pages(docs: Path) -> frozenset[str]:
    """The pages that a build adds to every course: a link to them is right though no file is there."""
    from wristwork.course.safety.safe_practice import Topic
    from wristwork.site.overview.made_pages import made_pages  # here, because it brings all of the site generator

    return frozenset(_shown(docs / page.src_uri) for page in made_pages("Course", None, Topic))


def _settings(path: Path) -> dict[str, Any]:
    try:
        values = yaml.load(_text(path), _SettingsLoader)
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        place = f"{path}:{mark.line + 1}" if mark else str(path)
        raise Trouble(f"{place} can't be read", getattr(error, "problem", None) or "it is no YAML") from error
    if not isinstance(values, dict):
        raise Trouble(f"{path} is no list of settings", "it begins with a line such as site_name: My course")
    return values


def _options(plugins: object) -> dict[str, Any]:
    """The settings of our plugin, which stand in a list or in a mapping."""
    entries = plugins if isinstance(plugins, list) else [plugins]
    for entry in entries:
        if isinstance(entry, dict) and isinstance(entry.get("wristwork"), dict):
            return dict(entry["wristwork"])
    return {}


def _hidden(path: Path, docs: Path) -> bool:
    return any(part.startswith(".") for part in path.relative_to(docs).parts)


def _shown(path: Path) -> str:
    return path.as_posix()


def _text(path: Path) -> str:
    try:
        return path.read_bytes().decode("utf-8")
    except UnicodeDecodeError as error:
        raise Trouble(f"{path} is not written in UTF-8", "save it in that encoding") from error
    except OSError as error:
        raise Trouble(f"{path} can't be read", error.strerror or "look at its permissions") from error
