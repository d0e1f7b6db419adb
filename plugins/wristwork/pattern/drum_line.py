"""The line ``drums:``: the drum of every stroke of the hands, by a short word, in the groups of the hands."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from wristwork.languages.say import say, say_count
from wristwork.pattern.drums import Drum
from wristwork.pattern.model import DrumPair, Lane, Note, Place
from wristwork.pattern.placement import called, drum_named
from wristwork.pattern.problems import Report, all_read
from wristwork.pattern.text import Value
from wristwork.wording import nearest

AS_PLACED = "."
_SHORT = {drum.row.short: drum for drum in Drum}


@dataclass(frozen=True, slots=True)
class DrumWord:
    """What one word says: a drum for each hand, or None where the placement rules decide."""

    drums: DrumPair | None
    place: Place


@dataclass(frozen=True, slots=True)
class DrumLine:
    """The words, group by group."""

    groups: tuple[tuple[DrumWord, ...], ...]
    place: Place


class DrumLineMismatch(Exception):
    """Raised where a line does not fit the hands: what was found, the remedy, and where."""

    def __init__(self, found: str, remedy: str, place: Place) -> None:
        super().__init__(found)
        self.found = found
        self.remedy = remedy
        self.place = place


def read_drum_line(value: Value, report: Report) -> DrumLine | None:
    """The line, or None with an error. Commas part the groups; a bar line does so too."""
    parts = [part for bar in value.split("|") for part in bar.split(",") if bar.text]
    if not parts:
        report.add(
            value.place(),
            say("bar lines with no drum between them"),
            say("a word for each beat: high, mid | low, floor"),
        )
        return None
    groups = all_read(_read_group(part, report) for part in parts)
    return None if groups is None else DrumLine(groups, value.place())


def _read_group(part: Value, report: Report) -> tuple[DrumWord, ...] | None:
    if not part.text:
        report.add(
            part.place(),
            say("a comma with no drum beside it"),
            say("one word or several for each beat: high, mid mid"),
        )
        return None
    return all_read(_read_word(word, report) for word in _words(part))


def _words(part: Value) -> Iterator[Value]:
    start = 0
    for word in part.text.split():
        start = part.text.index(word, start)
        yield part.cut(start, start + len(word))
        start += len(word)


def _read_word(word: Value, report: Report) -> DrumWord | None:
    if word.text == AS_PLACED:
        return DrumWord(None, word.place())
    names = list(word.split("&"))
    drums = all_read([_drum(name, report) for name in names])
    if len(names) > 2:
        report.add(
            word.place(),
            say("'{typed}' names {drums} drums", typed=word.text, drums=len(names)),
            say("two at most, right before left: hat&snare"),
        )
        return None
    return None if drums is None else DrumWord((drums[0], drums[-1]), word.place())


def _drum(name: Value, report: Report) -> Drum | None:
    drum = _SHORT.get(name.text.lower()) or drum_named(name.text)
    if drum is None:
        near = called(name.text)
        word = near.row.short if near else nearest(name.text.lower(), _SHORT)
        known = ", ".join(_SHORT)
        remedy = say("did you mean {near}?", near=word) if word else say("the words are {words}", words=known)
        report.add(name.place(), say("no drum is called '{name}'", name=name.text), remedy)
    return drum


def fitted(line: DrumLine, hands: Lane) -> tuple[DrumPair | None, ...]:
    """For each stroke of the hands, in order, what the line says. Raises :class:`DrumLineMismatch`."""
    if len(hands.groups) % len(line.groups):
        raise DrumLineMismatch(
            say_count(
                "drums in {count} group under hands in {hands}",
                "drums in {count} groups under hands in {hands}",
                len(line.groups),
                hands=len(hands.groups),
            ),
            say("one comma for each space between the groups of the hands, or a line that repeats whole"),
            line.place,
        )
    found: list[DrumPair | None] = []
    for number, group in enumerate(hands.groups):
        words = line.groups[number % len(line.groups)]
        strokes = sum(isinstance(slot, Note) for slot in group.slots)
        if len(words) not in (1, strokes):
            raise DrumLineMismatch(
                say_count(
                    "{drums} drums for the {count} stroke of group {group}",
                    "{drums} drums for the {count} strokes of group {group}",
                    strokes,
                    drums=len(words),
                    group=number + 1,
                ),
                say("one word for the whole group or for each of its strokes, and a comma after each group"),
                words[0].place,
            )
        found += [word.drums for word in (words * strokes if len(words) == 1 else words)][:strokes]
    return tuple(found)


def drum_line_text(drums: tuple[DrumPair | None, ...], hands: Lane) -> str:
    """The line as a tutor would type it, a word for each stroke; the inverse of :func:`fitted`."""
    first = 0
    groups: list[str] = []
    for group in hands.groups:
        strokes = sum(isinstance(slot, Note) for slot in group.slots)
        words = [_word(drums[number % len(drums)]) for number in range(first, first + strokes)]
        first += strokes
        groups.append(" ".join(words) if len(set(words)) > 1 else words[0] if words else AS_PLACED)
    return ", ".join(groups)


def _word(pair: DrumPair | None) -> str:
    if pair is None:
        return AS_PLACED
    right, left = pair
    return right.row.short if right is left else f"{right.row.short}&{left.row.short}"
