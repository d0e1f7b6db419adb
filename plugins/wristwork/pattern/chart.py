"""What stands over and under the notes of a whole chart: sections, words, dynamics."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from wristwork.languages.say import marked, say, say_count
from wristwork.pattern.model import Dynamic, Hairpin, Loudness, Pattern, Place, TempoAt, TimeSignature, When, WordsAt
from wristwork.pattern.moments import read_when, split_words, unreachable
from wristwork.pattern.problems import Report, all_read
from wristwork.pattern.settings import FASTEST, SLOWEST
from wristwork.pattern.text import Value

LONGEST_WORDS, LONGEST_SECTION = 30, 12


@dataclass(frozen=True, slots=True)
class _Kind:
    """What is said of an entry of one line: that it is none at one moment, what one looks like, that it is too long."""

    none: str
    example: str
    too_long: str
    longest: int


_SECTION = _Kind(
    marked("'{typed}' is not a section at one moment"),
    marked("write, say, A at bar 3, or beat 4 of bar 2"),
    marked("a section of {letters} letters"),
    LONGEST_SECTION,
)
_TEXT = _Kind(
    marked("'{typed}' is not a text at one moment"),
    marked("write, say, fill at bar 3, or beat 4 of bar 2"),
    marked("a text of {letters} letters"),
    LONGEST_WORDS,
)
_DYNAMIC = _Kind(
    marked("'{typed}' is not a dynamic at one moment"),
    marked("write, say, p at bar 3, or beat 4 of bar 2, growing or fading"),
    marked("a dynamic of {letters} letters"),
    LONGEST_WORDS,
)
_TEMPO = _Kind(
    marked("'{typed}' is not a tempo at one moment"),
    marked("write, say, 120 at bar 3, or beat 4 of bar 2"),
    marked("a tempo of {letters} letters"),
    LONGEST_WORDS,
)


@dataclass(frozen=True, slots=True)
class Written:
    """Something that stands at one moment: what, when, and where the tutor wrote it."""

    what: str
    when: When
    hairpin: Hairpin | None
    place: Place


def read_sections(value: Value, report: Report) -> tuple[Written, ...] | None:
    """``A at bar 1, B at bar 5``, or None with an error."""
    return _read(value, report, _SECTION)


def read_words(value: Value, report: Report) -> tuple[Written, ...] | None:
    """``brushes at bar 1, fill at beat 4 of bar 2``, or None with an error."""
    return _read(value, report, _TEXT)


def read_dynamics(value: Value, report: Report) -> tuple[Written, ...] | None:
    """``p at bar 1 growing, f at bar 3``, or None with an error."""
    found = _read(value, report, _DYNAMIC)
    unknown = [written for written in found or () if written.what not in list(Loudness)]
    for written in unknown:
        report.add(
            written.place,
            say("'{typed}' is no dynamic", typed=written.what),
            say("write one of {names}", names=", ".join(Loudness)),
        )
    return None if unknown else found


def read_tempos(value: Value, report: Report) -> tuple[Written, ...] | None:
    """``120 at bar 5, 96 at bar 9``, or None with an error."""
    found = _read(value, report, _TEMPO)
    wrong = [each for each in found or () if not (each.what.isdecimal() and SLOWEST <= int(each.what) <= FASTEST)]
    for each in wrong:
        report.add(
            each.place,
            say("'{text}' is no tempo", text=each.what),
            say("write {slowest} to {fastest} beats a minute", slowest=SLOWEST, fastest=FASTEST),
        )
    return None if wrong else found


def _read(value: Value, report: Report, kind: _Kind) -> tuple[Written, ...] | None:
    return all_read(_read_one(part, report, kind) for part in value.split(","))


def _read_one(part: Value, report: Report, kind: _Kind) -> Written | None:
    words, _, moment = part.text.rpartition(" at ")
    *rest, last = moment.lower().split() or [""]
    hairpin = Hairpin(last) if last in list(Hairpin) and kind is _DYNAMIC else None
    when = read_when(split_words(" ".join(rest) if hairpin else moment))
    if not words.strip() or not moment.strip() or when is None or not _is_one_moment(when):
        report.add(part.place(), say(kind.none, typed=part.text), say(kind.example))
    elif _names_a_moment(words):
        report.add(
            part.place(),
            say("'{typed}' names two moments", typed=part.text),
            say("put a comma after the first of them"),
        )
    elif len(words) > kind.longest:
        report.add(
            part.place(),
            say(kind.too_long, letters=len(words)),
            say("{most} is the most that has room", most=kind.longest),
        )
    else:
        return Written(words.strip(), when, hairpin, part.place())
    return None


def _names_a_moment(words: str) -> bool:
    """Does ``A at bar 1 B`` hold a moment of its own?"""
    _, at, rest = words.partition(" at ")
    return bool(at) and re.match(r"\s*(?:beats?|bars?)\s+\d|\s*\d", rest.lower()) is not None


def _is_one_moment(when: When) -> bool:
    return len(when.bars) <= 1 and len(when.beats) <= 1 and len(when.counts) <= 1 and when != When()


def _beats(when: When, time: TimeSignature, before_1: int) -> Fraction:
    """The moment in beats from the start of the pattern, which has so many bars before bar 1."""
    bar = when.bars[0] - 1 + before_1 if when.bars else before_1
    beat, share = when.counts[0] if when.counts else (when.beats[0] if when.beats else 1, Fraction(0))
    return bar * time.beats + beat - 1 + share


def placed_words(
    sections: tuple[Written, ...], words: tuple[Written, ...], time: TimeSignature, before_1: int
) -> tuple[WordsAt, ...]:
    """Sections and words in time order, where so many bars stand before bar 1."""
    found = [WordsAt(each.what, _beats(each.when, time, before_1), True) for each in sections]
    found += [WordsAt(each.what, _beats(each.when, time, before_1)) for each in words]
    return in_time_order(found)


def in_time_order(words: Iterable[WordsAt]) -> tuple[WordsAt, ...]:
    """Sections and words by their moments, at one moment the section first."""
    return tuple(sorted(words, key=lambda each: (each.at, not each.is_section)))


def placed_dynamics(written: tuple[Written, ...], time: TimeSignature, before_1: int) -> tuple[Dynamic, ...]:
    """The dynamics in time order."""
    found = [Dynamic(Loudness(each.what), _beats(each.when, time, before_1), each.hairpin) for each in written]
    return tuple(sorted(found, key=lambda each: each.at))


def placed_tempos(written: tuple[Written, ...], goal: int, time: TimeSignature, before_1: int) -> tuple[TempoAt, ...]:
    """The tempos of sections in time order, each as a share of the goal."""
    found = [TempoAt(Fraction(int(each.what), goal), _beats(each.when, time, before_1)) for each in written]
    return tuple(sorted(found, key=lambda each: each.at))


def misplaced(pattern: Pattern, written: tuple[Written, ...]) -> Iterator[tuple[Place, str, str]]:
    """What stands at a moment that the pattern has not."""
    for each in written:
        problem = unreachable(each.when, pattern.time, pattern.full_bars)
        if problem is not None:
            _, remedy = problem
            yield each.place, _out_of_reach(each, pattern.time, pattern.full_bars), remedy


def _out_of_reach(written: Written, time: TimeSignature, bars: int) -> str:
    """What is found where something stands at a moment that is not there."""
    when = written.when
    for beat in (*when.beats, *(beat for beat, _ in when.counts)):
        if not 1 <= beat <= time.beats:
            return say(
                "'{typed}' at beat {beat}, where a bar of {time} has {beats}",
                typed=written.what,
                beat=beat,
                time=time,
                beats=time.beats,
            )
    return say_count(
        "'{typed}' at bar {bar}, where the pattern has {count} bar",
        "'{typed}' at bar {bar}, where the pattern has {count} bars",
        bars,
        typed=written.what,
        bar=when.bars[0],
    )


def leads_nowhere(dynamics: tuple[Dynamic, ...]) -> tuple[str, str] | None:
    """A way from one dynamic to the next that does not lead where it says, and the remedy."""
    order = list(Loudness)
    for here, there in pairwise((*dynamics, None)):
        if here is None or here.hairpin is None:
            continue
        if there is None:
            return (
                say("{dynamic} {hairpin} to nothing", dynamic=here.loudness, hairpin=here.hairpin),
                say("say where it leads: p at bar 1 growing, f at bar 3"),
            )
        louder_by = order.index(there.loudness) - order.index(here.loudness)
        if louder_by * (1 if here.hairpin is Hairpin.GROWING else -1) <= 0:
            return (
                say(
                    "{dynamic} {hairpin} to {next}",
                    dynamic=here.loudness,
                    hairpin=here.hairpin,
                    next=there.loudness,
                ),
                say("from soft to loud is growing, the other way fading"),
            )
    return None
