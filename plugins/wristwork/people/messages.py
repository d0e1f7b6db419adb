"""What comes back from a student: a message that the site made, a link, or words of their own."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from wristwork.days import MONTHS
from wristwork.pattern.settings import FASTEST, SLOWEST, is_id
from wristwork.people.links import Report, Row, report_of

# Letters of an address: fewer hold no report.
_SHORTEST_CODE = 12
_LINK = re.compile(r"\S*#(?P<code>[\w%-]{12,})")
_BARE = re.compile(r"[\w-]{24,}", re.ASCII)
_PLACE = re.compile(r"\S*?\bx/(?P<id>[a-z0-9-]+)/(?:\?(?P<query>[^\s#]*))?\S*")
_TEMPO = re.compile(r"(?:^|&)tempo=(\d{1,3})(?=&|$)")
_HEAD = re.compile(
    r"(?:(?P<name>.+), my|My) practice, week (?P<week>\d{1,3}): "
    r"(?P<minutes>\d{1,5}) minutes in the last (?P<days>\d{1,3}) days?"
)
_FACT = r"(?:clean at \d{1,3}|\d{1,5} min|done(?: on \d{1,2} [A-Z][a-z]+ \d{4})?)"
_LISTENED = r"heard at \d{1,3}, within [^;]+"
_ROW = re.compile(rf"(?P<title>.+): (?P<facts>{_FACT}(?:, {_FACT})*)(?:, (?P<listened>{_LISTENED}))?")
_QUESTION = "Question: "
_NOTHING_YET = "No exercise of this week yet"
# A title stands in a message without what a chat would set type with.
_CHAT_MARKS = re.compile(r"[*_~`|<>]")


@dataclass(frozen=True, slots=True)
class Heard:
    """What a text holds: a report, a question, words of the student's own, and exercises that its links lead to.

    ``name`` is the one that the student wrote. ``unknown`` are titles that no exercise of the course has.
    """

    report: Report | None
    question: str
    words: str
    links: tuple[str, ...] = ()
    name: str = ""
    unknown: tuple[str, ...] = ()

    @property
    def is_nothing(self) -> bool:
        return self.report is None and not (self.question or self.words or self.links)


def read_message(text: str, titles: Mapping[str, str]) -> Heard:
    """Read what came back. ``titles`` gives the title of each exercise by its id."""
    report, rest = _linked(text)
    links, rest = _places(rest)
    lines = [line.strip() for line in rest.splitlines()]
    at, head = next(((n, m) for n, line in enumerate(lines) if (m := _HEAD.fullmatch(line))), (0, None))
    if head is None:
        question = report.question if report else ""
        return Heard(report, question, _joined(lines), links)
    before, after = lines[:at], lines[at + 1 :]
    asked = next((number for number, line in enumerate(after) if line.startswith(_QUESTION)), len(after))
    rows, unknown, other = _rows(after[:asked], titles)
    question = _joined(after[asked:]).removeprefix(_QUESTION)
    typed = Report(int(head["week"]), int(head["minutes"]), int(head["days"]), rows, question)
    words = _joined([*before, *other])
    # A link says more than the message around it.
    return Heard(
        report or typed, question or (report.question if report else ""), words, links, head["name"] or "", unknown
    )


def _linked(text: str) -> tuple[Report | None, str]:
    """The report that a link in a text holds, and the text without that link."""
    for found in [*_LINK.finditer(text), *_BARE.finditer(text)]:
        code = found["code"] if "code" in found.re.groupindex else found[0]
        report = report_of(code) if len(code) >= _SHORTEST_CODE else None
        if report is not None:
            return report, text[: found.start()] + text[found.end() :]
    return None, text


def _places(text: str) -> tuple[tuple[str, ...], str]:
    """The exercises that links lead to, with their tempo, and the text without these links."""
    found: list[str] = []

    def note(match: re.Match[str]) -> str:
        if not is_id(match["id"]):
            return match[0]
        tempo = _TEMPO.search(match["query"] or "")
        is_sound = tempo is not None and SLOWEST <= int(tempo[1]) <= FASTEST
        found.append(f"{match['id']} at {tempo[1]}" if tempo and is_sound else match["id"])
        return ""

    rest = _PLACE.sub(note, text)
    return tuple(dict.fromkeys(found)), rest


def _rows(lines: list[str], titles: Mapping[str, str]) -> tuple[tuple[Row, ...], tuple[str, ...], list[str]]:
    """What is said of exercises, the titles that none has, and the other lines."""
    ids = {_plain(title): id_ for id_, title in titles.items()} | {_plain(id_): id_ for id_ in titles}
    rows: list[Row] = []
    unknown: list[str] = []
    other: list[str] = []
    for line in lines:
        found = _ROW.fullmatch(line)
        if found is None:
            other += [line] if line != _NOTHING_YET else []
        elif (id_ := ids.get(_plain(found["title"]))) is None:
            unknown.append(found["title"])
            other.append(line)
        else:
            rows.append(_row(id_, found["facts"], found["listened"] or ""))
    return tuple(rows), tuple(unknown), other


def _row(id_: str, facts: str, listened: str) -> Row:
    best = re.search(r"clean at (\d+)", facts)
    minutes = re.search(r"(\d+) min", facts)
    done = re.search(r"done(?: on (\d+) ([A-Z][a-z]+) (\d+))?", facts)
    tempo = int(best[1]) if best else None
    day = _day(done[1], done[2], done[3]) if done and done[1] else None
    return Row(id_, tempo, None, int(minutes[1]) if minutes else 0, done is not None, day, listened)


def _day(day: str, month: str, year: str) -> date | None:
    try:
        return date(int(year), MONTHS.index(month) + 1, int(day))
    except ValueError:
        return None


def _plain(words: str) -> str:
    return " ".join(_CHAT_MARKS.sub(" ", words).split()).casefold()


def _joined(lines: list[str]) -> str:
    return " ".join(" ".join(lines).split())
