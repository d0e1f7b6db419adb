"""Read a lane: groups of slots, one group a beat, with or without bar lines."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from wristwork.languages.say import say
from wristwork.pattern.alphabet import SAME, SLASH
from wristwork.pattern.form import Bars
from wristwork.pattern.model import Gap, Group, Lane, Place, Side
from wristwork.pattern.problems import Report
from wristwork.pattern.slots import SlotReader
from wristwork.pattern.stretches import Stretches
from wristwork.pattern.text import Value

MOST_SLOTS = 12
STRETCHES = (2, 3, 4)
DASHES = "\u2010\u2011\u2012\u2013\u2014\u2015\u2043\u2212\ufe58\ufe63\uff0d"


@dataclass(frozen=True, slots=True)
class WrittenBar:
    """The groups of one written bar, and where they start."""

    groups: tuple[Group, ...]
    place: Place

    @property
    def beats(self) -> int:
        return sum(group.beats for group in self.groups)


@dataclass(frozen=True, slots=True)
class WrittenLane:
    """A lane as it stands in the page.

    ``bars`` holds the written bars, or one stretch with everything where no bar line is written.
    ``places`` says where each group starts.
    """

    lane: Lane
    bars: tuple[WrittenBar, ...]
    places: tuple[Place, ...]
    place: Place
    same: tuple[Bars, ...] = ()
    """Bars (counted from 0) in place of which a sign says that they are as those before."""

    @property
    def has_bar_lines(self) -> bool:
        return len(self.bars) > 1

    def place_of_beat(self, beat: int) -> Place:
        """Where the group stands that holds a beat (from 0), the lane being played over and over."""
        left = beat % self.lane.beats
        for group, place in zip(self.lane.groups, self.places, strict=True):
            if left < group.beats:
                return place
            left -= group.beats
        return self.place


@dataclass(frozen=True, slots=True)
class _Word:
    """A bar line, or a run of characters as they were meant, and the index in the value that each of them has."""

    text: str
    value: Value
    indexes: tuple[int, ...]

    def place_of(self, number: int) -> Place:
        """Where one of its characters stands, by its number."""
        return self.value.place(self.indexes[number])

    @property
    def place(self) -> Place:
        return self.place_of(0)


def read_lane(value: Value, report: Report, hand: Side | None = None) -> WrittenLane | None:
    """The lane, or None where it holds an error (which goes to the report); with a ``hand``, that hand's own part."""
    stretches = Stretches(report)
    words = list(_words(value))
    index = 0
    while index < len(words):
        word = words[index]
        if word.text == "|":
            stretches.bar_line(word.place)
        elif word.text.startswith("#"):
            stretches.error(
                word.place, say("a comment in the line of a lane"), say("a comment has a line of its own: # …")
            )
            break
        elif word.text in SAME:
            stretches.again(SAME[word.text], word.place)
        elif word.text.lower().startswith("over"):
            index += _read_over(words, index, stretches)
        elif word.text.lower().find("over") > 0:
            index += _read_touching_over(words, index, stretches)
        else:
            group = _read_group(word, report, hand)
            stretches.has_error |= group is None
            stretches.group(group or Group((Gap.REST,)), word.place)
        index += 1
    return _finish(stretches, value)


def read_right(value: Value, report: Report) -> WrittenLane | None:
    """The part of the right hand, or None with an error."""
    return read_lane(value, report, Side.RIGHT)


def read_left(value: Value, report: Report) -> WrittenLane | None:
    """The part of the left hand, or None with an error."""
    return read_lane(value, report, Side.LEFT)


def _finish(stretches: Stretches, value: Value) -> WrittenLane | None:
    framed = stretches.framed()
    groups = [pair for bar, _ in framed for pair in bar]
    if not groups and not stretches.has_error:
        stretches.error(
            value.place(), say("no group of strokes"), say("write one group for each beat, as in RLRL RLRL")
        )
    if groups and groups[0][0].slots[0] is Gap.HOLD:
        stretches.error(
            groups[0][1],
            say("a held slot with nothing before it to hold"),
            say("begin with a stroke or a rest: R or ."),
        )
    if stretches.has_error:
        return None
    bars = tuple(
        WrittenBar(tuple(group for group, _ in bar), bar[0][1] if bar else line or value.place())
        for bar, line in framed
    )
    return WrittenLane(
        Lane(tuple(group for group, _ in groups)),
        bars,
        tuple(place for _, place in groups),
        value.place(),
        stretches.same,
    )


def _words(value: Value) -> Iterator[_Word]:
    """Bar lines and the runs of characters between blanks and bar lines."""
    text = ""
    indexes: list[int] = []
    for index, char in enumerate(value.text):
        blank = char.isspace()
        if blank or char == "|":
            if text:
                yield _Word(text, value, tuple(indexes))
                text, indexes = "", []
            if char == "|":
                yield _Word(char, value, (index,))
        else:
            meant = _meant(char)
            text += meant
            indexes += [index] * len(meant)
    if text:
        yield _Word(text, value, tuple(indexes))


def _meant(char: str) -> str:
    """What a word processor made of this character, undone."""
    if char == "…":
        return "..."
    if char == "®":
        return "(R)"
    return "-" if char in DASHES else char


def _read_over(words: list[_Word], index: int, stretches: Stretches) -> int:
    """Read ``over N`` after a group; how many words beyond ``over`` it took."""
    word = words[index]
    number = words[index + 1] if index + 1 < len(words) else None
    follows_group = index > 0 and words[index - 1].text != "|" and bool(stretches.bars[-1])
    if word.text.lower() != "over":
        stretches.error(word.place, say("'{typed}' is no group", typed=word.text), say("leave a space: RLR over 2"))
        return 0
    if number is None or not number.text.isdecimal():
        stretches.error(
            word.place, say("over without a number of beats"), say("say how many beats the group fills: RLR over 2")
        )
        return 0
    if not follows_group:
        stretches.error(word.place, say("over with no group before it"), say("put the group first: RLR over 2"))
    elif number.text not in {str(beats) for beats in STRETCHES}:
        found = say("a group over {beats} beats, where it can be over 2, 3 or 4", beats=number.text)
        stretches.error(number.place, found, say("write over 2, 3 or 4"))
    elif stretches.bars[-1][-1][0].beats > 1:
        stretches.error(word.place, say("over a second time for the same group"), say("keep one of the two"))
    else:
        stretches.stretch(int(number.text))
    return 1


def _read_touching_over(words: list[_Word], index: int, stretches: Stretches) -> int:
    """Report a group with ``over`` run into it; how many words beyond it belong to it."""
    text = words[index].text
    over = text.lower().find("over")
    remedy = say("leave one: {group} over 2", group=text[:over])
    stretches.error(words[index].place_of(over), say("over without a space before it"), remedy)
    follows = index + 1 < len(words) and words[index + 1].text.isdecimal()
    return 1 if follows else 0


def _read_group(word: _Word, report: Report, hand: Side | None) -> Group | None:
    """One group, or None where it holds an error."""
    group = _plain_group(word.text, hand)
    if group is None:
        chars = tuple((char, word.place_of(number)) for number, char in enumerate(word.text))
        group = SlotReader(chars, report, hand).read()
    if group is None:
        return None
    if len(group.slots) > MOST_SLOTS:
        report.add(
            word.place,
            say("a group of {slots} slots, where a beat holds 1 to {most}", slots=len(group.slots), most=MOST_SLOTS),
            say("one group is one beat: put a space between beats"),
        )
        return None
    return group


# The same few groups make up most patterns.
@lru_cache(maxsize=4096)
def _plain_group(text: str, hand: Side | None) -> Group | None:
    """A group without an error, and without a slash, which remembers where it was typed; None for any other."""
    nowhere = Place(0, 0)
    return None if SLASH in text else SlotReader(tuple((char, nowhere) for char in text), Report("", {}), hand).read()
