"""The record of addresses as a file of the course, and the pages of the addresses that are gone."""

from __future__ import annotations

import os
import re
from collections.abc import Container, Iterator, Mapping
from copy import copy
from dataclasses import replace
from html import unescape
from pathlib import Path
from textwrap import indent

from wristwork.course.addresses import (
    FILE_NAME,
    Address,
    Record,
    address_problem,
    hold_against,
    lines_of,
    read_record,
    record_text,
)
from wristwork.files import read_plain, write_whole
from wristwork.languages.say import say, say_count
from wristwork.page.problem import Problem
from wristwork.site.addresses import absolute, relative
from wristwork.site.exercise.place_page import SiteName
from wristwork.site.frontend.dress import dressed
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.templating import whole_page

# What the page of an address that no exercise has any more tells (see gone.html): title, way, words.
_TOLD = (
    re.compile(r"<bdi>(.*?)</bdi>"),
    re.compile(r'<meta http-equiv="refresh" content="0; url=\.\./([a-z0-9-]+)/">'),
    re.compile(r'<p dir="auto">(.*?)</p>\n<p><a href="[./]*">', re.DOTALL),
)
_LARGEST_PAGE = 10_000_000
_NO = ("", "0", "false", "no")


class AddressBook:
    """The record of one course, held against the exercises that it has now.

    ``root`` is the folder that holds the file. ``problems`` is all that is wrong; reading changes nothing.
    ``unread`` are ids that text of the course names and that are no exercises: of them those that were published.
    """

    def __init__(self, root: Path, site: CourseSite, unread: frozenset[str] = frozenset()) -> None:
        self._file = root / FILE_NAME
        self._record, problems = _read(self._file)
        self._outcome = hold_against(self._record, _current(site, self._record, unread))
        self.unread = unread & {id_ for id_, address in self._record.addresses.items() if _is_live(address)}
        self.problems: list[Problem] = [*problems, *self._outcome.problems]

    @staticmethod
    def published_in(root: Path, uris: Container[str]) -> dict[str, str]:
        """The pages of some exercises that were published, by id: those whose page is one of these."""
        record, _ = _read(root / FILE_NAME)
        found = record.addresses.items()
        return {id_: address.lesson for id_, address in found if _is_live(address) and address.lesson in uris}

    def has(self, id_: str) -> bool:
        """Was an exercise published under this id?"""
        return id_ in self._record.addresses

    @property
    def forwards(self) -> Mapping[str, str]:
        """Where each moved id leads."""
        return self._outcome.forwards

    @property
    def retired(self) -> Mapping[str, str]:
        """Each retired id with its line for readers."""
        return self._outcome.retired

    def leading_to(self, there: Container[str]) -> AddressBook:
        """The book for a site that holds only some exercises: moved addresses of others wait, the record does not."""
        book = copy(self)
        forwards = {id_: end for id_, end in self.forwards.items() if end in there or end in self.retired}
        book._outcome = replace(self._outcome, forwards=forwards)
        return book

    def lost_since(self, last: Path) -> list[str]:
        """What to say where the file is gone: only the site built ``last`` knows where old addresses lead."""
        lost = [] if self._file.exists() else _only_published(last, self._outcome.addresses)
        return [_lost(lost)] if lost else []

    @property
    def is_out_of_date(self) -> bool:
        """Whether a successful build has something to write."""
        return self._outcome.addresses != self._record.addresses or not self._file.exists()

    def write(self) -> None:
        """Write the file where it does not say what the course has now. Raises OSError."""
        if self.is_out_of_date:
            write_whole(self._file, record_text(self._outcome.addresses, self._record).encode())

    def pages(self, name: SiteName) -> Iterator[tuple[str, str]]:
        """The pages of the addresses that no exercise has any more, as (address, HTML)."""
        for id_, end in self.forwards.items():
            yield f"x/{id_}/index.html", self._page(name, id_, end)
        for id_ in self.retired:
            yield f"x/{id_}/index.html", self._page(name, id_, None)

    def _page(self, name: SiteName, id_: str, end: str | None) -> str:
        here = f"x/{id_}/"
        target = f"x/{end}/" if end is not None else None
        addresses = self._outcome.addresses
        return whole_page(
            "exercise/gone.html",
            lang=name.language,
            site_name=name.name,
            title=addresses[id_].title,
            home=relative("", here),
            **dressed(name.look, here),
            target=relative(target, here) if target else None,
            target_title=addresses[end].title if end is not None else None,
            canonical=absolute(target, name.url) if target else None,
            words=self.retired.get(id_),
        )


def commit_first() -> Problem:
    """What a strict build in continuous integration says where it would have to change the file."""
    return address_problem(
        0,
        say("the record of addresses is not what the course holds now, and what a build writes here is lost"),
        say("run mkdocs build in the course's folder, then commit {file}", file=FILE_NAME),
    )


def in_continuous_integration(environment: Mapping[str, str] = os.environ) -> bool:
    """Whether this is a machine that builds and forgets; such machines set the variable CI."""
    return environment.get("CI", "").strip().lower() not in _NO


def _read(file: Path) -> tuple[Record, list[Problem]]:
    try:
        return read_record(read_plain(file).decode("utf-8-sig"))
    except FileNotFoundError:
        return read_record("")
    except (OSError, UnicodeDecodeError) as error:
        why = error.strerror if isinstance(error, OSError) else say("it is not written in UTF-8")
        found, remedy = (
            say("cannot be read: {reason}", reason=why),
            say("take it back from version control, as UTF-8 text"),
        )
        return Record({}, {}), [address_problem(1, found, remedy)]


def _is_live(address: Address) -> bool:
    return address.moved_to is None and address.retired is None


def _only_published(last: Path, known: Mapping[str, Address]) -> list[Address]:
    """The addresses of a site that these are not, as its pages tell them."""
    pages = sorted(last.glob("x/*/index.html"))
    return [read for page in pages if page.parent.name not in known and (read := _published(page)) is not None]


def _published(page: Path) -> Address | None:
    """The address whose page this is; None for a page of somebody else's."""
    try:
        html = read_plain(page, at_most=_LARGEST_PAGE).decode()
    except (OSError, UnicodeDecodeError):
        return None
    if 'class="ww-place-page"' not in html:
        return None
    title, moved, retired = (match and unescape(match[1]) for match in (one.search(html) for one in _TOLD))
    return Address(page.parent.name, title or page.parent.name, "", moved, None if moved else retired)


def _lost(addresses: list[Address]) -> str:
    told = address_problem(
        0,
        say_count(
            "the file is gone, and with it where {count} address of the last site would lead: links to them break",
            "the file is gone, and with it where {count} addresses of the last site would lead: links to them break",
            len(addresses),
        ),
        say("take the file back from version control, or put these lines into it:"),
    )
    return f"{told}\n{indent(lines_of(addresses), '    ')}"


def _current(site: CourseSite, record: Record, unread: frozenset[str]) -> dict[str, Address]:
    """The exercises of the course. One whose pattern is wrong is told as that, and not as gone."""
    current = {placed.id: Address(placed.id, placed.title, placed.page.src_uri) for placed in site.exercises.values()}
    named = {fence.name for fence in site.course.text.fences if fence.pattern is None}
    wrong = named | site.course.text.claimed | unread
    return {**{id_: address for id_, address in record.addresses.items() if id_ in wrong}, **current}
