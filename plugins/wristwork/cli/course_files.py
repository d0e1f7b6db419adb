"""A course as it lies on the disk, read as a build reads it, and nothing written."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property, partial
from pathlib import Path
from posixpath import join, normpath

import yaml
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import ConfigurationError, PluginError
from mkdocs.structure.files import File, Files, get_files, set_exclusions

from wristwork.cli.tongue import SETTINGS_FILES
from wristwork.cli.trouble import Trouble
from wristwork.course.course import Course
from wristwork.course.page_order import nav_pages
from wristwork.course.safety.safe_practice import Topic
from wristwork.languages.say import say, say_count, speak
from wristwork.page.problem import Problem
from wristwork.site.exercise.record import AddressBook
from wristwork.site.mkdocs.collecting import collected
from wristwork.site.mkdocs.config import WristworkConfig
from wristwork.site.mkdocs.course_checks import OFF, course_findings
from wristwork.site.mkdocs.course_reading import Reading, prepare
from wristwork.site.mkdocs.disk import mind_devices
from wristwork.site.mkdocs.settings_file import Settings, SettingsFile, bare_settings, read_settings
from wristwork.site.mkdocs.sources import shown_path
from wristwork.site.mkdocs.speech import course_language
from wristwork.site.reading.course_site import CourseSite
from wristwork.store.store import Store
from wristwork.wording import nearest


@dataclass(frozen=True)
class CourseFiles:
    """A course's folder as it was read. Paths in problems start at the folder as typed.

    ``settings`` is the file of its settings, None for a bare folder of pages; ``topics`` are the pages on safe
    practice by ``src_uri``. ``wrong`` cannot be read and stops a build; checks wait for it.
    """

    folder: Path
    settings: Path | None
    docs: str
    own: WristworkConfig
    config: MkDocsConfig
    site: CourseSite
    topics: Mapping[str, Topic]
    book: AddressBook
    course: Course
    wrong: tuple[Problem, ...]
    warnings: tuple[Problem, ...]
    notes: tuple[str, ...] = ()

    @property
    def checks_are_off(self) -> bool:
        """Does the tutor say that this is no course?"""
        return self.own.checks == OFF

    @property
    def problems(self) -> tuple[Problem, ...]:
        """What is wrong in pages, settings and records."""
        return tuple(self._shown(problem) for problem in (*self.wrong, *self.warnings))

    @cached_property
    def findings(self) -> tuple[Problem, ...]:
        """What the checks find."""
        found = course_findings(self.course, self.own, has_problems=bool(self.wrong), leave_out=())
        return tuple(self._shown(finding) for finding in found)

    def _shown(self, problem: Problem) -> Problem:
        return replace(problem, path=from_folder(self.folder, problem.path))


def from_folder(folder: Path, path: str) -> str:
    """How a path of the course is shown to somebody who named the course's folder like this."""
    return (folder / path).as_posix()


def read_files(folder: Path) -> CourseFiles:
    """Read a course's folder: one with settings, or a bare folder of pages."""
    if not folder.is_dir():
        found = say("there is no folder {folder}", folder=folder)
        raise Trouble(found, say("name the folder that your mkdocs.yml is in"))
    path = next((folder / name for name in SETTINGS_FILES if (folder / name).is_file()), None)
    file = SettingsFile(path, _text(path)) if path is not None else None
    settings = _settings(file, folder)
    if file is not None:  # else nobody says, and the machine's language goes on
        speak(course_language(settings.config, settings.own))
    docs = Path(settings.config.docs_dir)
    if not docs.is_dir():
        remedy = say("make it, or change docs_dir in {settings}", settings=path)
        raise Trouble(say("there is no folder {folder}", folder=docs), remedy)
    # Where there are no settings, pages lie in the folder itself: else it may be anything, a whole disk even.
    files = _collected(settings.config) if file or any(docs.glob("*.md")) else Files([])
    if not files.documentation_pages():
        shown = folder / docs.name if path else folder
        remedy = say("go to your course's folder, or wristwork new my-course")
        raise Trouble(say("there are no pages in {folder}", folder=shown), remedy)
    with tempfile.TemporaryDirectory() as kept:  # a check writes nothing into a course
        reading = _reading(settings, files, Store(Path(kept) / "kept"), folder.resolve())
    inside = Path(os.path.relpath(docs, folder.resolve())).as_posix()
    there = frozenset(normpath(join(inside, each.src_uri)) for each in files)
    course = replace(reading.site.course, files=there)
    problems = (*settings.problems, *_nav_problems(file, settings.config, files), *reading.problems)
    return CourseFiles(
        folder=folder,
        settings=path,
        docs=from_folder(folder, inside),
        own=settings.own,
        config=settings.config,
        site=reading.site,
        topics=reading.topics,
        book=reading.book,
        course=course,
        wrong=problems,
        warnings=reading.site.warnings,
        notes=reading.notes,
    )


def _settings(file: SettingsFile | None, folder: Path) -> Settings:
    if file is None:
        own = WristworkConfig()
        own.validate()
        return Settings(bare_settings(folder), own, ())
    try:
        if not file.has_settings:
            remedy = say("it begins with a line such as site_name: My course")
            raise Trouble(say("{file} is no list of settings", file=file.path), remedy)
        if (day := file.no_such_day()) is not None:
            why = say("{value} is written like a date and is no day", value=day[1])
            raise Trouble(_unread(f"{file.path}:{day[0]}"), why)
        return read_settings(file)
    except yaml.YAMLError as error:
        mark = getattr(error, "context_mark", None) if _in_quotes(error) else getattr(error, "problem_mark", None)
        place = f"{file.path}:{min(mark.line + 1, len(file.text.splitlines()))}" if mark else str(file.path)
        is_open = _in_quotes(error)
        reason = say("a quotation mark that is not closed") if is_open else getattr(error, "problem", None)
        raise Trouble(_unread(place), reason or say("it is no YAML")) from error
    except ConfigurationError as error:
        raise Trouble(_unread(file.path), " ".join(str(error).split())) from error


def unread(count: int) -> str:
    """What is told beside whatever was made of a course in which some things can't be read."""
    return say_count(
        "{count} thing in the course can't be read: see wristwork check",
        "{count} things in the course can't be read: see wristwork check",
        count,
    )


def _unread(place: str | Path) -> str:
    return say("{file} can't be read", file=place)


def _in_quotes(error: yaml.YAMLError) -> bool:
    return "quoted scalar" in (getattr(error, "context", None) or "")


def _collected(config: MkDocsConfig) -> Files:
    files = get_files(config)
    set_exclusions(files, config)
    try:
        mind_devices(files)
    except PluginError as error:
        raise Trouble(str(error).rstrip("."), say("take it away: a build would wait for it without end")) from error
    return files


def _reading(settings: Settings, files: Files, store: Store, root: Path) -> Reading:
    prepared = prepare(settings.config, settings.own, root)
    shown = partial(_shown, config=settings.config)
    return collected(settings.config, prepared, files, store, shown, previewing=False, renders=True)


def _shown(file: File, config: MkDocsConfig) -> str:
    """How messages name a file: from the course's folder, which for a bare folder of pages is that."""
    return shown_path(file, config) if config.config_file_path else file.src_uri


def _nav_problems(file: SettingsFile | None, config: MkDocsConfig, files: Files) -> Iterator[Problem]:
    """Pages that ``nav`` names and that are not there."""
    there = {each.src_uri for each in files}
    for uri in nav_pages(config.nav) if file is not None else ():
        if file is not None and uri.endswith(".md") and uri not in there:
            near = nearest(uri, there)
            remedy = say("did you mean {near}?", near=near) if near else say("write the page, or take it out of nav")
            found = say("nav names {page}, and there is no such page", page=uri)
            yield file.problem(file.line_with(uri), found, remedy)


def _text(path: Path) -> str:
    try:
        return path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise Trouble(say("{file} is not written in UTF-8", file=path), say("save it in that encoding")) from error
    except OSError as error:
        raise Trouble(_unread(path), error.strerror or say("look at its permissions")) from error
