"""The order of a course's pages, in which its weeks are taught."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from posixpath import commonpath

_DIGITS = re.compile(r"(\d+)")


def page_order(paths: Iterable[str], weeks: Mapping[str, int], nav: Sequence[str] = ()) -> list[str]:
    """The paths of a course in the order in which somebody would read them.

    ``weeks`` are the numbers of the week pages, ``nav`` the pages that the tutor has put in order: they
    come first. Of the others, pages with a number in their path follow it; where the week pages have
    none in theirs, nothing but the week says where they belong.
    """
    known = list(paths)
    named = [path for path in nav if path in known]
    rest = [path for path in known if path not in set(named)]
    # Numbers of a folder that all pages are in say nothing.
    shared = len(commonpath(known)) if len(known) > 1 else 0
    if all(_DIGITS.search(path, shared) for path in rest if path in weeks):
        return [*named, *sorted(rest, key=_by_numbers)]
    return [*named, *sorted(rest, key=lambda path: (weeks.get(path, 0), _by_numbers(path)))]


def nav_pages(nav: object) -> Iterator[str]:
    """All pages that a ``nav`` names, in order, whatever sections it has."""
    if isinstance(nav, str):
        yield nav
    for part in nav.values() if isinstance(nav, dict) else nav if isinstance(nav, list) else ():
        yield from nav_pages(part)


def _by_numbers(path: str) -> list[tuple[int, str]]:
    """A key that puts ``week-2`` before ``week-10``."""
    return [(int(part), "") if part.isdecimal() else (0, part) for part in _DIGITS.split(path)]
