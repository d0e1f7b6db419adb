"""Addresses that last: the record of every exercise id a course has ever published.

The record is a YAML file with one line for each id, sorted, so that two tutors' copies merge line by
line. A successful build writes it; an id that has gone from the course has to say where it went. A line whose
exercise did not change stays as it is written, and comments stay with the line that they are above or on.

Lines are read one by one, and not the file as a whole by a YAML library that keeps comments: such a library hangs a
comment onto the entry before it, so a new line would come between a comment and what it is about.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import yaml

from wristwork.languages.say import marked, say, say_count
from wristwork.page.problem import ADDRESS, Problem
from wristwork.pattern.settings import LONGEST_ID, RESERVED, SHORTEST_ID
from wristwork.wording import nearest

FILE_NAME = "addresses.yml"
_HEAD = (
    "# Every exercise address this course has published, kept by Wristwork: commit it with the course.\n"
    "# Where an exercise has gone, add to its line one of\n"
    "#   moved to: other-id            its address then forwards\n"
    '#   retired: "a line to readers"  its address then says so\n'
)
_LINE = re.compile(r"(?P<id>[a-z0-9][a-z0-9-]*):[ \t]+(?P<entry>\{.*)")
_LINE_END = re.compile(r"\r\n|\r|\n")
_LONGEST_LINE = 10_000
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


def address_problem(line: int, found: str, remedy: str) -> Problem:
    """Something wrong with the record, in a line of it (from 1; 0 where it stands nowhere)."""
    return Problem(FILE_NAME, line, 1 if line else 0, found, remedy, ADDRESS)


@dataclass(frozen=True, slots=True)
class Record:
    """The addresses as read from the file, with the line of each id, and the text of the file."""

    addresses: Mapping[str, Address]
    lines: Mapping[str, int]
    text: str = ""


@dataclass(frozen=True, slots=True)
class Outcome:
    """The record held against the course: what to write, where gone addresses lead, what is wrong.

    ``forwards`` maps a moved id to the id that its readers end at; ``retired`` an id to the line for
    its readers.
    """

    addresses: Mapping[str, Address]
    forwards: Mapping[str, str]
    retired: Mapping[str, str]
    problems: tuple[Problem, ...]


def read_record(text: str) -> tuple[Record, list[Problem]]:
    """The record in a file's text; unreadable lines are left out and told."""
    addresses: dict[str, Address] = {}
    lines: dict[str, int] = {}
    problems: list[Problem] = []
    for number, line in enumerate(_LINE_END.split(text), start=1):
        if _is_comment(line):
            continue
        if wrong := _wrong_id(line):
            problems.append(address_problem(number, wrong, say("take the line out")))
            continue
        read = _read_line(line)
        if isinstance(read, str):
            remedy = say("write one line for each id: {line}", line='an-id: {title: "…", lesson: "…"}')
            problems.append(address_problem(number, read, remedy))
            continue
        # A merge can leave an id on two lines: the one that says where it went wins, else the later one.
        before = addresses.get(read.id)
        if before is None or not (before.moved_to or before.retired):
            addresses[read.id] = read
            lines[read.id] = number
    return Record(addresses, lines, text), problems


def _is_comment(line: str) -> bool:
    return not line.strip() or line.lstrip().startswith("#")


def _wrong_id(line: str) -> str | None:
    """Why the id of a line is none that an exercise can have had."""
    match = _LINE.fullmatch(line)
    if match is None:
        return None
    if not SHORTEST_ID <= len(match["id"]) <= LONGEST_ID:
        return say_count(
            "an id of {count} character, which no exercise can have had",
            "an id of {count} characters, which no exercise can have had",
            len(match["id"]),
        )
    if match["id"] in RESERVED:
        return say("an id called '{id}', under which Windows can keep no folder", id=match["id"])
    return None


def _read_line(line: str) -> Address | str:
    """The address of one line, or what is wrong with it."""
    if _CONFLICT.match(line):
        return say("a mark that a merge left behind (keep the lines of both sides, take out the mark)")
    match = _LINE.fullmatch(line)
    if match is None:
        return say("a line that is no address")
    if len(line) > _LONGEST_LINE:
        return say("a line that can't be read")
    try:
        entry: Any = yaml.safe_load(match["entry"])
    except (yaml.YAMLError, ValueError, RecursionError):  # a day that is none, say, or brackets without end
        return say("a line that can't be read")
    if not isinstance(entry, dict):
        return say("a line that can't be read")
    for key, value in entry.items():
        if key not in _KEYS:
            near = nearest(str(key), _KEYS)
            if near:
                return say("an unknown word '{word}' (did you mean {near}?)", word=key, near=near)
            return say("an unknown word '{word}'", word=key)
        if not isinstance(value, str) or not value.strip():
            return say("{key}: without a text in quotes", key=key)
    if "moved to" in entry and "retired" in entry:
        return say("both moved to and retired (keep one)")
    return Address(
        match["id"],
        entry.get("title") or match["id"],
        entry.get("lesson") or "",
        entry.get("moved to"),
        entry.get("retired"),
    )


def hold_against(record: Record, current: Mapping[str, Address]) -> Outcome:
    """Hold the record against the exercises that the course has now (by id)."""
    problems: list[Problem] = []
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
            if isinstance(end, Problem):
                problems.append(end)
            else:
                forwards[id_] = end
        else:
            problems.append(_gone(address, line, current))
    return Outcome(dict(sorted(kept.items())), forwards, retired, tuple(problems))


def _gone(address: Address, line: int, current: Mapping[str, Address]) -> Problem:
    near = nearest(address.id, current) or "other-id"
    moved = _line_text(Address(address.id, address.title, address.lesson, moved_to=near))
    text = (
        marked(
            "the exercise '{id}' ({title}, last in {lesson}) was published and is gone from the course: links to it "
            "would break"
        )
        if address.lesson
        else marked(
            "the exercise '{id}' ({title}, last in no lesson) was published and is gone from the course: links to it "
            "would break"
        )
    )
    return address_problem(
        line,
        say(text, id=address.id, title=address.title, lesson=address.lesson),
        say(
            'put it back; or write that it moved: {moved}; or write retired: "a line to readers" there instead',
            moved=moved,
        ),
    )


def _back_again(address: Address, line: int) -> Problem:
    mark = "moved to" if address.moved_to else "retired"
    return address_problem(
        line,
        say("the exercise '{id}' is in the course, but its address says {mark}", id=address.id, mark=mark),
        say("take {mark} out of its line", mark=mark),
    )


def _end_of(id_: str, record: Record, current: Mapping[str, Address]) -> str | Problem:
    """Where a moved address ends: an exercise of the course, or a retired one."""
    steps = [id_]
    while True:
        address = record.addresses[steps[-1]]
        if address.moved_to is None:
            if address.retired:
                return address.id
            return address_problem(
                record.lines[id_],
                say("'{id}' moved to '{other}', which is gone as well", id=id_, other=address.id),
                say("say where {id} went, or name another id", id=address.id),
            )
        target = address.moved_to
        if target in current:
            return target
        if target in steps:
            way = " → ".join([*steps, target])
            found = say("addresses that move in a circle: {way}", way=way)
            return address_problem(record.lines[id_], found, say("end it at an exercise"))
        if target not in record.addresses:
            near = nearest(target, current)
            return address_problem(
                record.lines[id_],
                say("'{id}' moved to '{other}', which is not in the course", id=id_, other=target),
                say("did you mean {near}?", near=near) if near else say("name the id of an exercise that is there"),
            )
        steps.append(target)


def record_text(addresses: Mapping[str, Address], before: Record | None = None) -> str:
    """The text of the file: one line for each id, sorted; what stands in the text ``before`` and still holds stays."""
    if before is None or not before.text.strip():
        return _HEAD + "".join(f"{_line_text(address)}\n" for _, address in sorted(addresses.items()))
    head, above, tail = _comments(before)
    written = _LINE_END.split(before.text)
    lines = [*head]
    for id_, address in sorted(addresses.items()):
        old = written[before.lines[id_] - 1] if id_ in before.lines else None
        if old is None:
            line = _line_text(address)
        else:
            line = old if before.addresses[id_] == address else _line_text(address) + _end_comment(old)
        lines += [*above.get(id_, ()), line]
    ending = "\r\n" if "\r\n" in before.text else "\n"
    return "".join(f"{line}{ending}" for line in [*lines, *tail])


def lines_of(addresses: Iterable[Address]) -> str:
    """The lines that a tutor has to write for addresses."""
    return "\n".join(map(_line_text, addresses))


def _comments(record: Record) -> tuple[list[str], dict[str, list[str]], list[str]]:
    """The comments of a record: at its head, above each id, and below all."""
    above: dict[str, list[str]] = {}
    waiting: list[str] = []
    head: list[str] | None = None
    for line in _LINE_END.split(record.text):
        match = _LINE.fullmatch(line)
        if match is None:
            waiting.append(line)
            continue
        if head is None:
            head, waiting = _split_head(waiting)
        above.setdefault(match["id"], []).extend(waiting)
        waiting = []
    if waiting and not waiting[-1].strip():
        waiting.pop()  # what is after the last line's end
    return (head, above, waiting) if head is not None else (waiting, above, [])


def _split_head(comments: list[str]) -> tuple[list[str], list[str]]:
    """What is about the file, and what is about its first line: a blank line parts them, or the end of our own head."""
    own = _HEAD.splitlines()
    first = len(own) if comments[: len(own)] == own else 0
    blank = max((number + 1 for number, line in enumerate(comments) if not line.strip()), default=0)
    return comments[: max(first, blank)], comments[max(first, blank) :]


def _end_comment(line: str) -> str:
    """What stands behind an entry on its line, with the blanks before it."""
    match = _LINE.fullmatch(line)
    assert match is not None, "only lines that were read are asked for"
    ends = [event.end_mark.index for event in yaml.parse(match["entry"]) if isinstance(event, yaml.MappingEndEvent)]
    return match["entry"][ends[-1] :].rstrip()


def _line_text(address: Address) -> str:
    parts = {
        "title": address.title,
        "lesson": address.lesson,
        "moved to": address.moved_to,
        "retired": address.retired,
    }
    inside = ", ".join(f"{key}: {_quoted(value)}" for key, value in parts.items() if value)
    return f"{address.id}: {{{inside}}}"


def _quoted(value: str) -> str:
    """A YAML double-quoted text on one line, with what does not print written as its number."""
    text = json.dumps(value, ensure_ascii=False)
    return "".join(char if char.isprintable() else f"\\U{ord(char):08X}" for char in text)
