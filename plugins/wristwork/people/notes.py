"""Notes of a student's file: a line each, which begins with a day.

::

    2026-09-14 sent week 3: slow-singles 60 to 72 for 5 minutes; flam-tap 52 to 60 for 4 minutes
    2026-09-14 link https://…
    2026-09-21 heard week 3, 84 minutes in 14 days: slow-singles clean at 66, last at 63, 20 min, done on 2026-09-20
    2026-09-21 asked My thumb slips at 66?
    2026-09-21 said See you on Monday.

Any other words behind a day are a note of the tutor's own.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from wristwork.days import read_day
from wristwork.languages.hearing import pattern_of
from wristwork.languages.say import marked, say
from wristwork.people.links import Item, Report, Row
from wristwork.wording import misspelt

SENT, LINK, HEARD, ASKED, SAID = "sent", "link", "heard", "asked", "said"
VERBS = (SENT, LINK, HEARD, ASKED, SAID)
CAME = (HEARD, ASKED, SAID)  # from a student

_DATED = re.compile(r"[ \t]*(?:[-*+][ \t]+)?(?P<day>\d{4}-\d{1,2}-\d{1,2})(?P<rest>(?:[ \t:].*)?)")
_WEEK = re.compile(r"week\s+(\d{1,3})\b", re.IGNORECASE)
_MINUTES = re.compile(r"(\d{1,5}) minutes? in (\d{1,3}) days?\b", re.IGNORECASE)
_ID = r"(?P<id>[a-z0-9]+(?:-[a-z0-9]+)*)"
_ITEM = re.compile(rf"{_ID} (?P<start>\d{{1,3}}) to (?P<goal>\d{{1,3}}) for (?P<minutes>\d{{1,2}}) min(?:ute)?s?")
_LISTENED = marked("heard at {tempo}, {facts}")
_ROW = (
    rf"{_ID}(?: clean at (?P<best>\d{{1,3}}))?(?:,? last at (?P<latest>\d{{1,3}}))?(?:,? (?P<minutes>\d{{1,5}}) min)?"
    r"(?P<done>,? done(?: on (?P<on>\d{4}-\d\d-\d\d))?)?"
)


@dataclass(frozen=True, slots=True)
class Note:
    """A dated line: its day, what was done (one of :data:`VERBS`, empty for a note of the tutor's own), its words."""

    day: date
    verb: str
    words: str

    @property
    def week(self) -> int | None:
        """The week that was sent or heard of, if the line says one."""
        found = _WEEK.match(self.words)
        return int(found[1]) if found else None

    @property
    def items(self) -> tuple[Item, ...]:
        """What was sent, as far as it is written as ``send`` writes it."""
        found = (_ITEM.fullmatch(part) for part in self._parts)
        return tuple(Item(m["id"], int(m["start"]), int(m["goal"]), int(m["minutes"])) for m in found if m)

    @property
    def rows(self) -> tuple[Row, ...]:
        """What was heard of exercises."""
        # What a device heard stands there in the words of its message.
        listened = pattern_of(_LISTENED, tempo=r"\d{1,3}", facts=".*")
        row = re.compile(rf"{_ROW}(?:,? (?P<listened>heard at \d{{1,3}}.*|{listened}))?")
        return tuple(_row(m) for m in (row.fullmatch(part) for part in self._parts) if m)

    @property
    def minutes(self) -> tuple[int, int] | None:
        """Minutes of practice, and in how many days."""
        found = _MINUTES.search(self.words.partition(":")[0])
        return (int(found[1]), int(found[2])) if found else None

    @property
    def _parts(self) -> Sequence[str]:
        return [part.strip() for part in self.words.partition(":")[2].split(";") if part.strip()]

    def __str__(self) -> str:
        return " ".join(part for part in (self.day.isoformat(), self.verb, self.words) if part)


def read_note(line: str) -> Note | tuple[str, str] | None:
    """The note that a line is; what is wrong with it and what to do; None for a line without a day."""
    found = _DATED.fullmatch(line)
    if found is None:
        return None
    day = read_day(found["day"])
    if day is None:
        remedy = say("write the year, the month and the day, as in 2026-09-14")
        return say("{typed} is no day", typed=found["day"]), remedy
    first, _, rest = found["rest"].lstrip(" \t:").strip().partition(" ")
    verb = first.lower().rstrip(":")
    if verb in VERBS:
        return Note(day, verb, rest.strip())
    near = misspelt(verb, VERBS) if len(verb) > 3 and rest else None
    if near and (near != LINK or "://" in rest) and near != SAID:
        remedy = say("write {word}, or begin your own words with another one", word=near)
        return say("'{word}' behind the day", word=first), remedy
    return Note(day, "", " ".join((first, rest)).strip())


def sent(day: date, week: int, items: Iterable[Item], link: str) -> tuple[Note, Note]:
    """The notes of what was sent."""
    said = "; ".join(f"{item.id} {item.start} to {item.goal} for {_many(item.minutes, 'minute')}" for item in items)
    return Note(day, SENT, f"week {week}: {said}"), Note(day, LINK, link)


def heard(day: date, report: Report) -> Note:
    """The note of what was heard."""
    practised = f", {_many(report.minutes, 'minute')} in {_many(report.days, 'day')}" if report.days else ""
    head = f"week {report.week}{practised}"
    rows = "; ".join(_row_words(row) for row in report.rows if row.best or row.latest or row.minutes or row.is_done)
    return Note(day, HEARD, f"{head}: {rows}" if rows else head)


def _many(count: int, what: str) -> str:
    """A count in a line of a file, which is written and read in English whatever is spoken."""
    return f"{count} {what}" if count == 1 else f"{count} {what}s"


def own_words(day: date, verb: str, words: str) -> Note:
    """The note of a student's own words, on one line whatever they hold."""
    plain = "".join(char if char.isprintable() else " " for char in words)
    return Note(day, verb, " ".join(plain.split()))


def _row(match: re.Match[str]) -> Row:
    best, latest, minutes = (int(match[key]) if match[key] else None for key in ("best", "latest", "minutes"))
    done_on = read_day(match["on"]) if match["on"] else None
    return Row(match["id"], best, latest, minutes or 0, match["done"] is not None, done_on, match["listened"] or "")


def _row_words(row: Row) -> str:
    facts = [
        f"clean at {row.best}" if row.best else "",
        f"last at {row.latest}" if row.latest and row.latest != row.best else "",
        f"{row.minutes} min" if row.minutes else "",
        ("done on " + row.done_on.isoformat() if row.done_on else "done") if row.is_done else "",
        row.listened,
    ]
    return f"{row.id} {', '.join(fact for fact in facts if fact)}"
