"""A part for each hand: two lanes, one of the right hand and one of the left, made into one and taken apart.

What a hand plays starts where it is written. How long a note is held is heard of no drum, so a note of
the two lanes together lasts until either hand plays again or both are silent; only a roll, which fills
its value, must be left whole.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import accumulate, pairwise
from math import lcm

from wristwork.languages.say import marked, say
from wristwork.pattern.model import Event, Gap, Group, Lane, Note, Side, Slot, events, together

MOST_SLOTS = 12
MOST_BEATS = 4
_CUT_BUZZ = {
    Side.RIGHT: marked("a buzz of the right hand that lasts on while the other hand plays or rests"),
    Side.LEFT: marked("a buzz of the left hand that lasts on while the other hand plays or rests"),
}
_CUT_SLASH = {
    Side.RIGHT: marked("a slash of the right hand that lasts on while the other hand plays or rests"),
    Side.LEFT: marked("a slash of the left hand that lasts on while the other hand plays or rests"),
}


class CannotJoin(Exception):
    """Raised where two parts can't be played or written together: what was found, the remedy, and the beat (from 0)."""

    def __init__(self, found: str, remedy: str, beat: int) -> None:
        super().__init__(found)
        self.found = found
        self.remedy = remedy
        self.beat = beat


def joined(right: Lane, left: Lane) -> Lane:
    """Both hands in one lane; the two must be equally long. Raises :class:`CannotJoin`."""
    played = {side: _Played(lane) for side, lane in ((Side.RIGHT, right), (Side.LEFT, left))}
    groups: list[Group] = []
    for start, end in pairwise(_bounds(right, left)):
        if end - start > MOST_BEATS:
            raise CannotJoin(
                say("groups of the two hands that only come together after {beats} beats", beats=end - start),
                say("let both hands begin a group within four beats"),
                start,
            )
        for first, blank in _blanks((right, left), played.values(), start, end):
            slots = [_slot(played, first + at, bool(groups or at)) for at in blank.starts]
            groups.append(replace(blank, slots=tuple(slots)))
    lane = Lane(tuple(groups))
    _check_rolls(lane, played)
    return lane


def _blanks(lanes: tuple[Lane, Lane], played: Collection[_Played], start: int, end: int) -> Sequence[tuple[int, Group]]:
    """The groups, still empty, that hold what both hands play between two beats, and where they begin.

    One holds all of it where it can. Else each beat has a group of its own: five strokes over four beats against one
    on each of them are counted in fives.
    """
    whole = _blank(lanes, played, start, end)
    if len(whole.slots) <= MOST_SLOTS:
        return [(start, whole)]
    if end > start + 1 and not any(True for lane in lanes for _ in _bracketed(lane, start, end)):
        by_beat = [(beat, _blank(lanes, played, beat, beat + 1)) for beat in range(start, end)]
        if all(len(blank.slots) <= MOST_SLOTS for _, blank in by_beat):
            return by_beat
    raise CannotJoin(
        say(
            "two hands that would need {slots} slots in one group, where it holds at most {most}",
            slots=len(whole.slots),
            most=MOST_SLOTS,
        ),
        say(
            "give the hands groups of which one divides the other, or nearly so: 2 and 3, 4 and 3, 4 and 8; 5 against "
            "4 can be counted over four beats: RRRRR over 4 in one hand, L L L L in the other"
        ),
        start,
    )


def _blank(lanes: tuple[Lane, Lane], played: Iterable[_Played], start: int, end: int) -> Group:
    parts = _parts(lanes, played, start, end)
    return Group((Gap.REST,) * sum(parts), end - start, parts if len(parts) > 1 else ())


def _parts(lanes: Iterable[Lane], played: Iterable[_Played], start: int, end: int) -> tuple[int, ...]:
    """How many slots both hands need in each of the equal parts that the brackets of either make, or in the whole."""
    count = lcm(*(number for lane in lanes for number in _bracketed(lane, start, end)))
    bounds = [start + Fraction((end - start) * number, count) for number in range(count + 1)]
    return tuple(lcm(*(part.parts(*pair) for part in played)) for pair in pairwise(bounds))


def _bracketed(lane: Lane, start: int, end: int) -> Iterator[int]:
    """Into how many parts the groups between two beats ask them to be cut, each for its brackets."""
    beat = 0
    for group in lane.groups:
        if start <= beat < end and not group.is_even:
            yield len(group.parts) * (end - start) // group.beats
        beat += group.beats


def part_of(lane: Lane, side: Side) -> Lane:
    """What one hand plays of a lane: where the other one plays alone, it holds or rests."""
    sounded = False
    groups: list[Group] = []
    for group in lane.groups:
        slots: list[Slot] = []
        for slot in group.slots:
            own = isinstance(slot, Note) and side in slot.sides
            if isinstance(slot, Note):
                slots.append(slot.of(side) if own else Gap.HOLD if sounded else Gap.REST)
            else:
                slots.append(slot)
            sounded = sounded or own
        groups.append(replace(group, slots=tuple(slots)))
    return Lane(tuple(groups))


class _Played:
    """The events of one part, found by their moment."""

    def __init__(self, lane: Lane) -> None:
        self.events = events(lane)
        self._starts = [event.at for event in self.events]

    def event_at(self, moment: Fraction) -> Event:
        """What sounds or rests at a moment."""
        return self.events[bisect_right(self._starts, moment) - 1]

    def parts(self, start: Fraction, end: Fraction) -> int:
        """Into how many even parts a stretch of beats is cut so that every event in it begins with one."""
        first, last = bisect_right(self._starts, start), bisect_right(self._starts, end)
        inside = [(at - start) / (end - start) for at in self._starts[first:last]]
        return lcm(*(share.denominator for share in inside))


def _bounds(right: Lane, left: Lane) -> Sequence[int]:
    """The beats at which both lanes begin a group, and the end."""
    found = [{0, *accumulate(group.beats for group in lane.groups)} for lane in (right, left)]
    return sorted(set.intersection(*found))


def _slot(played: dict[Side, _Played], moment: Fraction, follows: bool) -> Slot:
    """What stands at a moment of both hands; ``follows`` says that something stands before it."""
    now = [part.event_at(moment) for part in played.values()]
    begun = [event.what for event in now if event.at == moment and event.what is not None]
    if len(begun) == 2:
        right, left = begun
        problem = clash(right, left)
        if problem:
            raise CannotJoin(*problem, int(moment))
        return together(right, left)
    if begun:
        return begun[0]
    sounding = any(event.what is not None for event in now)
    rests = not sounding and any(event.at == moment for event in now)
    return Gap.REST if rests or not follows else Gap.HOLD


def clash(right: Note, left: Note) -> tuple[str, str] | None:
    """What keeps two notes from beginning at one moment, and the remedy."""
    if right.graces or left.graces:
        return (
            say("a grace note where both hands play"),
            say("take the grace note out: one hand would have to play twice"),
        )
    if right.strokes != left.strokes:
        return (
            say("a slash of one hand where the other one plays too"),
            say("write its strokes one by one, in a finer group"),
        )
    return None


def _check_rolls(lane: Lane, played: dict[Side, _Played]) -> None:
    """Slashes and buzzes fill their value, so nothing of the other hand may cut it short or draw it out."""
    for event in events(lane):
        for part in played.values():
            own = part.event_at(event.at)
            note = own.what
            if own.at != event.at or note is None or (note.strokes == 1 and not note.buzz):
                continue
            if own.length != event.length:
                raise CannotJoin(
                    say((_CUT_BUZZ if note.buzz else _CUT_SLASH)[note.sides[0]]),
                    say("let it end where the other hand's next stroke or rest begins, or write it in shorter notes"),
                    int(event.at),
                )
