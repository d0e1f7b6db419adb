"""Read the one-line values of a pattern: tempo, time, yes or no, lists of ids and rows."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from fractions import Fraction
from typing import TypeVar

from wristwork.languages.lists import either
from wristwork.languages.say import say, say_count
from wristwork.pattern.model import DiagramRow, Manner, Swing, Tempo, TimeSignature
from wristwork.pattern.problems import Report, all_read
from wristwork.pattern.text import Value
from wristwork.wording import nearest

SLOWEST, FASTEST = 20, 320
LONGEST_STEP = 100
MOST_REPEATS = 16
MOST_UPPER = 32
LOWER = (2, 4, 8, 16)
SHORTEST_ID, LONGEST_ID = 3, 48
DEFAULT_STEP = 4
# Names of devices: a folder that is called like one cannot be made or copied on Windows.
RESERVED = ("con", "prn", "aux", "nul", *(f"{port}{number}" for port in ("com", "lpt") for number in range(10)))

_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_TIME = re.compile(r"([0-9]{1,4})\s*/\s*([0-9]{1,4})(?:\s+as\s+(\S.*))?", re.IGNORECASE)
_PULSES = re.compile(r"[0-9]{1,2}(?:\s*\+\s*[0-9]{1,2})+")
PULSES = (2, 3, 4)
COUNTED_IN_PULSES = (8, 16)
_TEMPO = re.compile(r"([0-9]{1,6})(?:\s+to\s+([0-9]{1,6})(?:\s+by\s+([0-9]{1,6}))?)?", re.IGNORECASE)
_FEEL = re.compile(
    r"(?P<straight>straight)|swing(?:\s+(?P<unit>eighths|sixteenths))?"
    r"(?:\s+(?P<long>[0-9]{1,2})\s*(?::|to)\s*(?P<short>[0-9]{1,2}))?",
    re.IGNORECASE,
)
MOST_SWING = 4
T = TypeVar("T")
STRAIGHT = Swing(ratio=(1, 1))


Reader = Callable[[Value, Report], T | None]


def read_id(value: Value, report: Report) -> str | None:
    """An id, or None with an error."""
    text = value.text
    if not _ID.fullmatch(text):
        near = id_from(text)
        found = say("'{text}' is no id: lower-case letters, digits and single hyphens between them", text=text)
        remedy = say("use lower-case letters, digits and single hyphens")
        report.add(value.place(), found, say("write {near}", near=near) if near else remedy)
        return None
    if not SHORTEST_ID <= len(text) <= LONGEST_ID:
        report.add(
            value.place(),
            say_count(
                "an id of {count} character, where it takes {shortest} to {longest}",
                "an id of {count} characters, where it takes {shortest} to {longest}",
                len(text),
                shortest=SHORTEST_ID,
                longest=LONGEST_ID,
            ),
            say("choose a longer name") if len(text) < SHORTEST_ID else say("choose a shorter name"),
        )
        return None
    if text in RESERVED:
        report.add(
            value.place(),
            say("an id called '{text}', under which Windows can keep no folder", text=text),
            say("choose another, such as {name}", name=f"{text}-exercise"),
        )
        return None
    return text


def is_id(text: str) -> bool:
    """Can a text be the id of an exercise?"""
    return SHORTEST_ID <= len(text) <= LONGEST_ID and _ID.fullmatch(text) is not None


def id_from(title: str) -> str:
    """Plain letters, digits and hyphens made from a title; may be too short or too long for an id."""
    dashed = "".join("-" if unicodedata.category(char) == "Pd" else char for char in title)
    plain = unicodedata.normalize("NFKD", dashed).encode("ascii", "ignore").decode("ascii")
    return re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")


def read_time(value: Value, report: Report) -> TimeSignature | None:
    """A time signature, or None with an error."""
    match = _TIME.fullmatch(value.text)
    if match is None:
        found = say("'{text}' is no time signature", text=value.text)
        report.add(value.place(), found, say("write it as 4/4, 6/8 or 7/8 as 2+2+3"))
        return None
    upper, lower = int(match[1]), int(match[2])
    if lower not in LOWER:
        found = say("{number} as the lower number", number=lower)
        report.add(value.place(match.start(2)), found, say("it is one of 2, 4, 8 and 16"))
        return None
    if not 1 <= upper <= MOST_UPPER:
        found = say("{number} as the upper number", number=upper)
        report.add(value.place(), found, say("it is a number from 1 to {most}", most=MOST_UPPER))
        return None
    if match[3] is None:
        return TimeSignature(upper, lower)
    pulses = _read_pulses(value.cut(match.start(3), match.end(3)), upper, lower, report)
    return None if pulses is None else TimeSignature(upper, lower, pulses)


def _read_pulses(value: Value, upper: int, lower: int, report: Report) -> tuple[int, ...] | None:
    """The unlike groups that a bar is counted in, or None with an error."""
    if not _PULSES.fullmatch(value.text):
        found = say("'{text}' is no grouping", text=value.text)
        report.add(value.place(), found, say("add up the groups of a bar, as in 7/8 as 2+2+3"))
        return None
    pulses = tuple(int(number) for number in value.text.split("+"))
    if lower not in COUNTED_IN_PULSES:
        report.add(
            value.place(),
            say("a grouping of {time}", time=f"{upper}/{lower}"),
            say("bars of eighths or sixteenths have groups: 7/8 as 2+2+3"),
        )
    elif not set(pulses) <= set(PULSES):
        report.add(
            value.place(),
            say("a group that is none of {sizes}", sizes=", ".join(map(str, PULSES))),
            say("groups of 2, 3 or 4, as in 2+2+3"),
        )
    elif sum(pulses) != upper:
        report.add(
            value.place(),
            say("groups that add up to {sum}, in a bar of {beats}", sum=sum(pulses), beats=upper),
            say("let them add up to {beats}", beats=upper),
        )
    else:
        return pulses
    return None


def read_tempo(value: Value, report: Report) -> Tempo | None:
    """A tempo, or None with an error."""
    match = _TEMPO.fullmatch(value.text)
    if match is None:
        report.add(
            value.place(),
            say("'{text}' is no tempo", text=value.text),
            say("write beats a minute: 72, or 60 to 100, or 60 to 100 by 4"),
        )
        return None
    start = int(match[1])
    goal = int(match[2]) if match[2] else start
    step = int(match[3]) if match[3] else DEFAULT_STEP
    for number, group in ((start, 1), (goal, 2 if match[2] else 1)):
        if not SLOWEST <= number <= FASTEST:
            report.add(
                value.place(match.start(group)),
                say_count("a tempo of {count} beat a minute", "a tempo of {count} beats a minute", number),
                say("it is a whole number from {slowest} to {fastest}", slowest=SLOWEST, fastest=FASTEST),
            )
            return None
    if goal < start:
        report.add(
            value.place(match.start(2)),
            say("a goal of {goal} below the start of {start}", goal=goal, start=start),
            say("the slower tempo comes first: {tempo}", tempo=f"{goal} to {start}"),
        )
        return None
    if not 1 <= step <= LONGEST_STEP:
        remedy = say("it is a number from 1 to {most}", most=LONGEST_STEP)
        report.add(value.place(match.start(3)), say("a step of {step}", step=step), remedy)
        return None
    return Tempo(start, goal, step)


def read_feel(value: Value, report: Report) -> Swing | None:
    """How even notes are played, or None with an error."""
    match = _FEEL.fullmatch(value.text)
    if match is None:
        found = say("'{text}' is no feel", text=value.text)
        report.add(value.place(), found, say("write swing, swing 3:2, swing sixteenths or straight"))
        return None
    if match["straight"]:
        return STRAIGHT
    unit = Fraction(1, 16) if (match["unit"] or "").lower() == "sixteenths" else Fraction(1, 8)
    if match["long"] is None:
        return Swing(unit)
    long, short = int(match["long"]), int(match["short"])
    if not short or not 1 <= Fraction(long, short) <= MOST_SWING:
        report.add(
            value.place(match.start("long")),
            say("a swing of {long} to {short}", long=long, short=short),
            say("the first note is as long as the second, or up to {most} times: swing 2:1", most=MOST_SWING),
        )
        return None
    return Swing(unit, (long, short))


def read_yes_no(value: Value, report: Report) -> bool | None:
    """True for yes, False for no, None with an error."""
    answer = {"yes": True, "no": False}.get(value.text.lower())
    if answer is None:
        report.add(value.place(), say("'{text}' is neither yes nor no", text=value.text), say("write yes or no"))
    return answer


def read_motion(value: Value, report: Report) -> Manner | None:
    """How the hands move, or None with an error."""
    manner = next((manner for manner in Manner if manner == value.text.lower()), None)
    if manner is None:
        found = say("'{text}' is no way to move", text=value.text)
        report.add(value.place(), found, say("write {words}", words=either(Manner)))
    return manner


def read_repeat(value: Value, report: Report) -> int | None:
    """How many times, or None with an error."""
    if re.fullmatch("0{,9}[0-9]{1,4}", value.text) and 1 <= int(value.text) <= MOST_REPEATS:
        return int(value.text)
    remedy = say("write a number from 1 to {most}", most=MOST_REPEATS)
    if "bar" in value.text.lower():
        remedy = say(
            "write a number from 1 to {most}; bars that are played again have a line repeats: bars 1 to 4",
            most=MOST_REPEATS,
        )
    report.add(value.place(), say("'{text}' is no number of times", text=value.text), remedy)
    return None


def read_show(value: Value, report: Report) -> tuple[DiagramRow, ...] | None:
    """The rows to draw, in the order of the diagram, or None with an error."""
    shown = all_read(_read_row(part, report) for part in value.split(","))
    return None if shown is None else tuple(row for row in DiagramRow if row in shown)


def _read_row(part: Value, report: Report) -> DiagramRow | None:
    known = [row.value for row in DiagramRow]
    if part.text in known:
        return DiagramRow(part.text)
    near = nearest(part.text, known)
    remedy = say("did you mean {near}?", near=near) if near else say("the rows are {rows}", rows=", ".join(known))
    if len(part.text.split()) > 1 and set(part.text.split()) <= set(known):
        remedy = say("separate rows by commas: {rows}", rows=", ".join(part.text.split()))
    report.add(part.place(), say("no row is called '{text}'", text=part.text), remedy)
    return None


def read_ids(value: Value, report: Report) -> tuple[Value, ...]:
    """The ids among the parts between commas, each with its place; the others are reported."""
    return tuple(part for part in value.split(",") if _is_listed_id(part, report))


def _is_listed_id(part: Value, report: Report) -> bool:
    words = part.text.split()
    if not words:
        report.add(part.place(), say("a comma with no id beside it"), say("take out the comma, or name an exercise"))
    elif len(words) > 1 and all(_ID.fullmatch(word) for word in words):
        report.add(
            part.place(),
            say("'{text}' is more than one id", text=part.text),
            say("separate ids by commas: {ids}", ids=", ".join(words)),
        )
    else:
        return read_id(part, report) is not None
    return False


def read_line(value: Value, report: Report) -> str | None:
    """Any text."""
    del report  # every text is right: the reader of lines has refused what no page can show
    return value.text
