"""Addresses that last: the record of every exercise id a course has ever published.

The record is a YAML file with one line for each id, sorted, so that two tutors' copies merge line by
line. A successful build writes it; an id that has gone from the course has to say where it went.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import yaml

from wristwork.wording import nearest

FILE_NAME = "addresses.yml"
_HEAD = (
    "# Every exercise address this course has published, kept by Wristwork: commit it with the course.\n"
    "# Where an exercise has gone, add to its line one of\n"
    "#   moved to: other-id            its address then forwards\n"
    '#   retired: "a line to readers"  its address then says so\n'
)
_LINE = re.compile(r"^(?P<id>[a-z0-9][a-z0-9-]*):\s+(?P<entry>\{.*\})\s*$")
_CONFLICT = re.compile(r"^(?:<{7}|={7}|>{7})")
_KEYS = ("title", "lesson", "moved to", "retired")


@dataclass(frozen=True, slots=True)
class Address:
    """One id with the title and lesson it was last published with, and where it went if it is gone."""

    id: str
    title: str
    lesson: str
    moved_to: str | None = None
    retired: str | None = None


@dataclass(frozen=True, slots=True)
class AddressProblem:
    """Something wrong with the record, with its line (from 1; 0 where it stands nowhere) and remedy."""

    line: int
    found: str
    remedy: str

    def __str__(self) -> str:
        where = f"{FILE_NAME}:{self.line}:1" if self.line else FILE_NAME
        return f"{where}: {self.found}\n    {self.remedy}"


@dataclass(frozen=True, slots=True)
class Record:
    """The addresses as read from the file, with the line of each id."""

    addresses: Mapping[str, Address]
    lines: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Outcome:
    """The record held against the course: what to write, where gone addresses lead, what is wrong.

    ``forwards`` maps a moved id to the id that its readers end at; ``retired`` an id to the line for
    its readers.
    """

    addresses: Mapping[str, Address]
    forwards: Mapping[str, str]
    retired: Mapping[str, str]
    problems: tuple[AddressProblem, ...]


def read_record(text: str) -> tuple[Record, list[AddressProblem]]:
    """The record in a file's text; unreadable lines are left out and told."""
    addresses: dict[str, Address] = {}
    lines: dict[str, int] = {}
    problems: list[AddressProblem] = []
    for number, line in enumerate(text.splitlines(), start=1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        read = _read_line(line)
        if isinstance(read, str):
            problems.append(
                AddressProblem(number, read, 'write one line for each id: an-id: {title: "…", lesson: "…"}')
            )
            continue
        # A merge can leave an id on two lines: the one that says where it went wins, else the later one.
        before = addresses.get(read.id)
        if before is None or not (before.moved_to or before.retired):
            addresses[read.id] = read
            lines[read.id] = number
    return Record(addresses, lines), problems


def _read_line(line: str) -> Address | str:
    """The address of one line, or what is wrong with it."""
    if _CONFLICT.match(line):
        return "a mark that a merge left behind (keep the lines of both sides, take out the mark)"
    match = _LINE.match(line)
    if match is None:
        return "a line that is no address"
    try:
        entry: Any = yaml.safe_load(match["entry"])
    except yaml.YAMLError:
        return "a line that can't be read"
    if not isinstance(entry, dict):
        return "a line that can't be read"
    for key, value in entry.items():
        if key not in _KEYS:
            near = nearest(str(key), _KEYS)
            return f"an unknown word '{key}'" + (f" (did you mean {near}?)" if near else "")
        if not isinstance(value, str) or not value.strip():
            return f"{key}: without a text in quotes"
    if "moved to" in entry and "retired" in entry:
        return "both moved to and retired (keep one)"
    return Address(
        match["id"],
        entry.get("title") or match["id"],
        entry.get("lesson") or "",
        entry.get("moved to"),
        entry.get("retired"),
    )


def hold_against(record: Record, current: Mapping[str, Address]) -> Outcome:
    """Hold the record against the exercises that the course has now (by id)."""
    problems: list[AddressProblem] = []
    kept: dict[str, Address] = dict(current)
    forwards: dict[str, str] = {}
    retired: dict[str, str] = {}
    for id_, address in record.addresses.items():
        line = record.lines[id_]
        if id_ in current:
            if address.moved_to or address.retired:
                problems.append(_back_again(address, line))
            continue
        kept[id_] = address
        if address.retired:
            retired[id_] = address.retired
        elif address.moved_to:
            end = _end_of(id_, record, current)
            if isinstance(end, AddressProblem):
                problems.append(end)
            else:
                forwards[id_] = end
        else:
            problems.append(_gone(address, line, current))
    return Outcome(dict(sorted(kept.items())), forwards, retired, tuple(problems))


def _gone(address: Address, line: int, current: Mapping[str, Address]) -> AddressProblem:
    near = nearest(address.id, current) or "other-id"
    moved = _line_text(Address(address.id, address.title, address.lesson, moved_to=near))
    return AddressProblem(
        line,
        f"the exercise '{address.id}' ({address.title}, last in {address.lesson or 'no lesson'}) was published and is "
        "gone from the course: links to it would break",
        f'put it back; or write that it moved: {moved}; or write retired: "a line to readers" there instead',
    )


def _back_again(address: Address, line: int) -> AddressProblem:
    mark = "moved to" if address.moved_to else "retired"
    return AddressProblem(
        line,
        f"the exercise '{address.id}' is in the course, but its address says {mark}",
        f"take {mark} out of its line",
    )


def _end_of(id_: str, record: Record, current: Mapping[str, Address]) -> str | AddressProblem:
    """Where a moved address ends: an exercise of the course, or a retired one."""
    steps = [id_]
    while True:
        address = record.addresses[steps[-1]]
        if address.moved_to is None:
            if address.retired:
                return address.id
            return AddressProblem(
                record.lines[id_],
                f"'{id_}' moved to '{address.id}', which is gone as well",
                f"say where {address.id} went, or name another id",
            )
        target = address.moved_to
        if target in current:
            return target
        if target in steps:
            way = " → ".join([*steps, target])
            return AddressProblem(record.lines[id_], f"addresses that move in a circle: {way}", "end it at an exercise")
        if target not in record.addresses:
            near = nearest(target, current)
            return AddressProblem(
                record.lines[id_],
                f"'{id_}' moved to '{target}', which is not in the course",
                f"did you mean {near}?" if near else "name the id of an exercise that is there",
            )
        steps.append(target)


def record_text(addresses: Mapping[str, Address]) -> str:
    """The text of the file: one line for each id, sorted."""
    return _HEAD + "".join(f"{_line_text(address)}\n" for _, address in sorted(addresses.items()))


def _line_text(address: Address) -> str:
    parts = {
        "title": address.title,
        "lesson": address.lesson,
        "moved to": address.moved_to,
        "retired": address.retired,
    }
    inside = ", ".join(f"{key}: {_quoted(value)}" for key, value in parts.items() if value is not None)
    return f"{address.id}: {{{inside}}}"


def _quoted(value: str) -> str:
    """A YAML double-quoted text on one line, with what does not print written as its number."""
    text = json.dumps(value, ensure_ascii=False)
    return "".join(char if char.isprintable() else f"\\U{ord(char):08X}" for char in text)
