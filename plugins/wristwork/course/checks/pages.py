"""Checks on what the pages say: aims, texts, links."""

from __future__ import annotations

import re
from collections.abc import Iterable
from posixpath import dirname, join, normpath, relpath, splitext
from urllib.parse import unquote

from wristwork.course.checks.table import Check, at_exercise, at_week
from wristwork.course.course import Course
from wristwork.course.plan import PRACTICE_ANCHOR
from wristwork.course.prose import ProseLine, anchors, fences_without_text, prose_lines
from wristwork.languages.say import say
from wristwork.page.problem import Problem
from wristwork.page.settings import LINES, OF_A_PAGE, OF_OTHERS
from wristwork.wording import misspelt, nearest

AIM, TEXT, LINK, PLACE = "no-aim", "no-text", "broken-link", "unknown-place"
LINE = "unknown-line"

_ELSEWHERE = re.compile(r"^(?:[a-zA-Z][a-zA-Z0-9+.-]*:|//|/)")
# Endings of files that may stand for each other; any other file is like those of its own ending.
_ALIKE = (
    (".md", ".markdown"),
    (".png", ".jpg", ".jpeg", ".gif", ".svg", ".webp", ".avif"),
    (".mp4", ".m4v", ".mov", ".webm", ".mkv"),
    (".mp3", ".m4a", ".wav", ".ogg", ".oga", ".opus", ".flac"),
)
_OWN_PLACE = re.compile(r"(?:^|/)x/(?P<id>[a-z0-9-]+)/?(?:index\.html|exercise\.json)?$")


def _unknown_line(course: Course) -> Iterable[Problem]:
    for page in course.pages.values():
        settings = page.front.settings
        known = LINES if "week" in settings else OF_A_PAGE
        for key, setting in settings.items():
            near = misspelt(str(key), known) if key not in (*LINES, *OF_OTHERS) else None
            if near is not None:
                found = say("the line {key}: says nothing to Wristwork", key=key)
                yield Problem(page.path, setting.line, 0, found, say("did you mean {key}:?", key=near), LINE)


def _no_aim(course: Course) -> Iterable[Problem]:
    for week in course.weeks:
        if week.aim is None:
            remedy = say("write what is different at the week's end, in a sentence: aim: …")
            yield at_week(AIM, week, say("week {number} has no aim", number=week.number), remedy, "aim")


def _no_text(course: Course) -> Iterable[Problem]:
    for path, page in course.pages.items():
        taught = [exercise for exercise in course.exercises.values() if exercise.path == path]
        if not taught:
            continue
        bare = fences_without_text(page)
        for exercise in taught:
            if exercise.fence.number in bare:
                remedy = say("say how it moves, the usual mistake and how to know it is right")
                yield at_exercise(TEXT, exercise, say("'{id}' stands there without a text", id=exercise.id), remedy)


def _broken_link(course: Course) -> Iterable[Problem]:
    targets = _LinkTargets(course)
    for path, line, target in _links(course, ("](", "]:")):
        if _own_place(target) is None and (wrong := targets.wrong(path, target)) is not None:
            yield _leads_nowhere(LINK, path, line, target, wrong)


def _unknown_place(course: Course) -> Iterable[Problem]:
    for path, line, target in _links(course, ("x/",)):
        name = _own_place(target)
        if name is not None and name not in course.exercises:
            near = nearest(name, course.exercises)
            remedy = (
                say("no exercise has this id; did you mean {near}?", near=near)
                if near
                else say("no exercise has this id")
            )
            yield _leads_nowhere(PLACE, path, line, target, remedy)


def _links(course: Course, marks: tuple[str, ...]) -> Iterable[tuple[str, int, str]]:
    """Page, line and target of every link of the pages that hold one of the marks."""
    for path, page in course.pages.items():
        if not any(mark in page.text for mark in marks):
            continue
        for line in prose_lines(page):
            for target in line.links:
                yield path, line.number, target


def _parts(target: str) -> tuple[str, str]:
    """The file and the anchor that a link leads to."""
    file, _, anchor = unquote(target).partition("#")
    return file.partition("?")[0], anchor


def _like(file: str) -> tuple[str, ...]:
    """The endings of the files that may have been meant by one that is not there: a picture is never a page."""
    ending = splitext(file)[1].lower()
    return next((alike for alike in _ALIKE if ending in alike), (ending,))


def _own_place(target: str) -> str | None:
    """The id in a link to an exercise's own address, None for any other link."""
    own = None if _ELSEWHERE.match(target) else _OWN_PLACE.search(_parts(target)[0])
    return own["id"] if own else None


def _leads_nowhere(check: str, path: str, line: int, target: str, remedy: str) -> Problem:
    return Problem(path, line, 0, say("the link {target} leads nowhere", target=target), remedy, check)


class _LinkTargets:
    """The places in a course to which a link can lead."""

    def __init__(self, course: Course) -> None:
        self._course = course
        self._anchors: dict[str, set[str]] = {}

    def wrong(self, path: str, target: str) -> str | None:
        """What to do about a link in a page, None where it is right or none of our business."""
        if _ELSEWHERE.match(target):
            return None
        file, anchor = _parts(target)
        page = normpath(join(dirname(path), file)) if file else path
        if page in self._course.pages:
            return None if not anchor or anchor in self._anchors_of(page) else self._anchor_remedy(path, page, anchor)
        return self._file_remedy(path, page, file, anchor)

    def _anchors_of(self, page: str) -> set[str]:
        if page not in self._anchors:
            lines: tuple[ProseLine, ...] = prose_lines(self._course.pages[page])
            ids = {exercise.id for exercise in self._course.exercises.values() if exercise.path == page}
            cards = {PRACTICE_ANCHOR for week in self._course.weeks if week.path == page and week.minutes}
            self._anchors[page] = anchors(lines) | ids | cards
        return self._anchors[page]

    def _anchor_remedy(self, path: str, page: str, anchor: str) -> str | None:
        if anchor.startswith(("fn:", "fnref:", "__")):  # made by extensions while the page is converted
            return None
        if (moved := self._moved(path, anchor)) is not None:
            return moved
        near = nearest(anchor, self._anchors_of(page))
        if near is None:
            return say("{page} has no heading or exercise '{anchor}'", page=page, anchor=anchor)
        return say(
            "{page} has no heading or exercise '{anchor}'; did you mean #{near}?", page=page, anchor=anchor, near=near
        )

    def _moved(self, path: str, anchor: str) -> str | None:
        """Where an exercise is that a link in a page looks for somewhere else."""
        exercise = self._course.exercises.get(anchor)
        if exercise is None:
            return None
        target = f"{relpath(exercise.path, dirname(path) or '.')}#{anchor}"
        return say("'{id}' is in another page: write {target}", id=anchor, target=target)

    def _file_remedy(self, path: str, page: str, file: str, anchor: str) -> str | None:
        files = self._course.files
        if not file.endswith(".md") and (files is None or "." not in file.rsplit("/", 1)[-1]):
            return None
        if files is not None and page in files:
            return None
        if (moved := self._moved(path, anchor)) is not None:
            return moved
        endings = _like(page)
        near = nearest(page, [one for one in (*self._course.pages, *(files or ())) if one.lower().endswith(endings)])
        if near is None:
            return say("there is no {file}", file=page)
        return say("there is no {file}; did you mean {near}?", file=page, near=near)


CHECKS = (
    Check(
        LINE,
        "lines at the head of a page that are nearly one of ours",
        "A word that is a slip or two away from a setting of a page is that setting.",
        _unknown_line,
    ),
    Check(AIM, "weeks with no aim", "Every week says in a sentence what it is for.", _no_aim),
    Check(
        TEXT,
        "exercises with no text",
        "There is prose above or below each exercise, before the next heading or exercise.",
        _no_text,
    ),
    Check(
        LINK,
        "links that lead nowhere",
        "Links to pages, files, headings and exercises of the course lead to something that is there.",
        _broken_link,
    ),
    Check(
        PLACE,
        "links to an exercise's own address that no exercise has",
        "Links to x/ and an id name an exercise of the course.",
        _unknown_place,
    ),
)
