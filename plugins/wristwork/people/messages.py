"""What comes back from a student: a message that the site made, a link, or words of their own."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from wristwork.languages.catalogues import SOURCE, language
from wristwork.languages.hearing import pattern_of
from wristwork.languages.numbers import read_whole_day
from wristwork.languages.say import say, speaking, spoken
from wristwork.pattern.settings import FASTEST, SLOWEST, is_id
from wristwork.people.links import Report, Row, report_of
from wristwork.people.typed_tempos import typed_tempo

# Letters of an address: fewer hold no report.
_SHORTEST_CODE = 12
_LINK = re.compile(r"\S*#(?P<code>[\w%-]{12,})")
_BARE = re.compile(r"[\w-]{24,}", re.ASCII)
_PLACE = re.compile(r"\S*?\bx/(?P<id>[a-z0-9-]+)/(?:\?(?P<query>[^\s#]*))?\S*")
_TEMPO = re.compile(r"(?:^|&)tempo=(\d{1,3})(?=&|$)")
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


def read_message(text: str, titles: Mapping[str, str], week: int = 1) -> Heard:
    """Read what came back, in the spoken language or in English. ``titles`` gives each exercise's title by its id.

    ``week`` is the one that a student means who types tempos without the line that the site writes over them.
    """
    report, rest = _linked(text)
    links, rest = _places(rest)
    lines = [line.strip() for line in rest.splitlines()]
    for tongue in (spoken(), language(SOURCE)):
        with speaking(tongue):
            heard = _typed(lines, titles, report, links)
        if heard is not None:
            return heard
    if report is None:
        rows, lines = _bare_rows(lines, titles)
        report = Report(week, 0, 0, rows) if rows else None
    return Heard(report, report.question if report else "", _joined(lines), links)


def _bare_rows(lines: list[str], titles: Mapping[str, str]) -> tuple[tuple[Row, ...], list[str]]:
    """What a student typed of exercises, a line each, and the lines around that."""
    rows: list[Row] = []
    for tongue in (spoken(), language(SOURCE)):
        with speaking(tongue):
            found, _, lines = _rows(lines, titles)
        rows += found
    left: list[str] = []
    for line in lines:
        typed = typed_tempo(line, titles)
        rows += [typed[0]] if typed else []
        left.append(typed[1] if typed else line)
    return tuple(rows), left


def _typed(lines: list[str], titles: Mapping[str, str], report: Report | None, links: tuple[str, ...]) -> Heard | None:
    """What the site wrote, and what stands around it; None where its first line is not there."""
    pattern = re.compile(_head())
    at, head = next(((n, m) for n, line in enumerate(lines) if (m := pattern.fullmatch(line))), (0, None))
    if head is None:
        return None
    before, after = lines[:at], lines[at + 1 :]
    opening = say("Question: {question}", question="").rstrip()
    asked = next((number for number, line in enumerate(after) if line.startswith(opening)), len(after))
    rows, unknown, other = _rows(after[:asked], titles)
    question = _joined(after[asked:]).removeprefix(opening).strip()
    typed = Report(int(head["week"]), int(head["minutes"]), int(head["days"]), rows, question)
    words = _joined([*before, *other])
    # A link says more than the message around it.
    return Heard(
        report or typed, question or (report.question if report else ""), words, links, head["name"] or "", unknown
    )


def _head() -> str:
    """The first line that the site writes."""
    mine, named = pattern_of("My practice"), pattern_of("{name}, my practice", name="(?P<name>.+)")
    return pattern_of(
        "{whose}, week {week}: {total} minutes in the last {days} days",
        whose=f"(?:{named}|{mine})",
        week=r"(?P<week>\d{1,3})",
        total=r"(?P<minutes>\d{1,5})",
        days=r"(?P<days>\d{1,3})",
    )


def _facts(group: str = "(") -> dict[str, str]:
    """What a line says of an exercise, by what it is called here; ``group`` opens the group of the value."""
    return {
        "best": pattern_of("clean at {best}", best=rf"{group}\d{{1,3}})"),
        "minutes": pattern_of("{played} min", played=rf"{group}\d{{1,5}})"),
        "day": pattern_of("done on {day}", day=rf"{group}[^,]{{6,40}}\d{{4}})"),
        "done": pattern_of("done"),
    }


def _row_pattern() -> str:
    fact = f"(?:{'|'.join(_facts('(?:').values())})"
    listened = pattern_of("heard at {tempo}, {facts}", tempo=r"\d{1,3}", facts="[^;]+")
    return rf"(?P<title>.+): (?P<facts>{fact}(?:, {fact})*)(?:, (?P<listened>{listened}))?"


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
        # A line of a student's file, which is in English whatever is spoken.
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
    pattern = re.compile(_row_pattern())
    for line in lines:
        found = pattern.fullmatch(line)
        if found is None:
            other += [line] if line != say("No exercise of this week yet") else []
        elif (id_ := ids.get(_plain(found["title"]))) is None:
            unknown.append(found["title"])
            other.append(line)
        else:
            rows.append(_row(id_, found["facts"], found["listened"] or ""))
    return tuple(rows), tuple(unknown), other


def _row(id_: str, said: str, listened: str) -> Row:
    facts = [(name, found) for fact in said.split(", ") for name, found in [_fact(fact)]]
    told = dict(facts)
    best, minutes, day = told.get("best"), told.get("minutes"), told.get("day")
    is_done = "day" in told or "done" in told
    done_on = read_whole_day(day) if day else None
    return Row(id_, int(best) if best else None, None, int(minutes) if minutes else 0, is_done, done_on, listened)


def _fact(said: str) -> tuple[str, str]:
    """What a fact is called here, and what it is."""
    for name, pattern in _facts().items():
        if found := re.fullmatch(pattern, said):
            return name, found[1] if found.re.groups else ""
    return "", ""


def _plain(words: str) -> str:
    return " ".join(_CHAT_MARKS.sub(" ", words).split()).casefold()


def _joined(lines: list[str]) -> str:
    return " ".join(" ".join(lines).split())
