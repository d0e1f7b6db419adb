"""Links as the site reads and writes them: a practice list for a student, a report that comes back."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TypeVar

from wristwork.days import read_day
from wristwork.pattern.settings import FASTEST, SLOWEST, is_id
from wristwork.people.packing import Damaged, Reader, number, pack, text, unpack

LONGEST_LINK = 2000
MOST_ITEMS = 24
MOST_MINUTES = 25

_VERSION = 1
_UNITS = 2  # minutes and passes share a number: minutes are the even ones
_MOST_DAYS, _MOST_TEMPOS = 31, 60

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Item:
    """An exercise of a list: from one tempo to another (beats a minute), for some minutes; a word to the student."""

    id: str
    start: int
    goal: int
    minutes: int
    words: str = ""


@dataclass(frozen=True, slots=True)
class Row:
    """What a student says of an exercise: the highest clean tempo, and the one that was clean last."""

    id: str
    best: int | None = None
    latest: int | None = None
    minutes: int = 0
    is_done: bool = False
    done_on: date | None = None
    listened: str = ""
    """What their device heard of their strokes, in the words of its message: ``heard at 72, within 9 ms``."""


@dataclass(frozen=True, slots=True)
class Report:
    """A student's practice in the last ``days`` days, 0 where nobody said. ``lost`` rows could not be read."""

    week: int
    minutes: int
    days: int
    rows: tuple[Row, ...]
    question: str = ""
    lost: int = 0


def list_code(items: Sequence[Item]) -> str:
    """The letters of a list, which stand behind the # of the practice page's address."""
    return pack(_VERSION, [_item(item) for item in items])


def report_of(letters: str) -> Report | None:
    """The report that some letters hold, as far as it can be read; None where they hold none."""
    unpacked = unpack(letters)
    head = _reading(unpacked.pieces[0] if unpacked.pieces else None, _head)
    if not unpacked.version or head is None:
        return None
    week, minutes, question = head
    rows = [row for row in (_reading(piece, _row) for piece in unpacked.pieces[1:]) if row is not None]
    lost = unpacked.announced - 1 - len(rows)
    return Report(week, sum(minutes), len(minutes), tuple(rows), question, lost)


def _item(item: Item) -> bytes:
    amount = number(item.minutes * _UNITS)
    return text(item.id) + number(item.start) + number(item.goal) + amount + text(item.words)


def _head(reader: Reader) -> tuple[int, list[int], str]:
    week = reader.number()
    return week, _numbers(reader, _MOST_DAYS), reader.text()


def _row(reader: Reader) -> Row | None:
    name, is_done, best, minutes = reader.text(), reader.number() % 2 == 1, reader.number() or None, reader.number()
    tempos = _numbers(reader, _MOST_TEMPOS)
    day = "" if reader.is_over else reader.text()  # older links say no day
    done_on = read_day(day) if day else None
    is_sound = is_id(name) and all(SLOWEST <= tempo <= FASTEST for tempo in [*tempos, best or SLOWEST])
    if not is_sound or (day and done_on is None):
        return None
    return Row(name, best, tempos[-1] if tempos else None, minutes, is_done, done_on)


def _numbers(reader: Reader, most: int) -> list[int]:
    count = reader.number()
    if count > most:
        raise Damaged
    return [reader.number() for _ in range(count)]


def _reading(piece: bytes | None, read: Callable[[Reader], T | None]) -> T | None:
    try:
        return None if piece is None else read(Reader(piece))
    except Damaged:
        return None
