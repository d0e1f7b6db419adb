"""Dealt strikes → a lane: groups of slots, as few slots as hold everything."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby, pairwise
from math import lcm

from wristwork.exchange.incoming.strikes import Strike
from wristwork.exchange.vocabulary import side_of
from wristwork.pattern.groups import MOST_SLOTS, STRETCHES
from wristwork.pattern.model import Gap, Group, Lane, Note, Side, Slot, TimeSignature, together
from wristwork.pattern.values import takes_brackets
from wristwork.pattern.written import unheld_slashes


class CannotFit(Exception):
    """A beat (from 0, of all bars) holds what no group of slots can hold."""

    def __init__(self, beat: int) -> None:
        super().__init__(f"beat {beat}")
        self.beat = beat


@dataclass(frozen=True, slots=True)
class Placed:
    """A note of a lane and from when to when it lasts, in beats."""

    at: Fraction
    end: Fraction
    note: Note


def placed_notes(strikes: Iterable[Strike], *, apart: bool) -> list[Placed]:
    """The notes of one lane, those of both hands at one moment in one; ``apart`` writes each stroke by itself."""
    each = [single for strike in strikes for single in (strike.apart() if apart else (strike,))]
    found: list[Placed] = []
    for at, same in groupby(sorted(_like(each), key=_order), key=lambda strike: strike.at):
        chord = list(same)
        notes = [_note(strike) for strike in chord]
        note = notes[0] if len(notes) == 1 else together(notes[0], notes[1])
        found.append(Placed(at, min(strike.end for strike in chord), note))
    return [
        Placed(here.at, min(here.end, there.at) if there else here.end, here.note)
        for here, there in pairwise((*found, None))
        if here is not None
    ]


def _like(strikes: Sequence[Strike]) -> Iterator[Strike]:
    """Strikes at one moment that share a number of strokes; where they don't, each stroke is one by itself."""
    for _, same in groupby(sorted(strikes, key=_order), key=lambda strike: strike.at):
        chord = list(same)
        alike = len({(strike.strokes, strike.length) for strike in chord if strike.strokes > 1}) <= 1 and (
            len({strike.strokes for strike in chord}) == 1
        )
        for strike in chord:
            yield from (strike,) if alike else strike.apart()


def _order(strike: Strike) -> tuple[Fraction, int]:
    return strike.at, 0 if strike.limb is not None and side_of(strike.limb) is Side.RIGHT else 1


def _note(strike: Strike) -> Note:
    assert strike.limb is not None, "strikes are dealt before they are put into slots"
    graces = tuple(side_of(grace.limb) for grace in strike.graces if grace.limb is not None)
    return Note((side_of(strike.limb),), strike.level, graces, strike.strokes, strike.buzz, strike.strong)


class Fitter:
    """Finds groups for the notes of one lane; ``wide`` ones of several beats even where single beats say the same."""

    def __init__(self, notes: Sequence[Placed], time: TimeSignature, *, with_lengths: bool, wide: bool) -> None:
        self._notes = notes
        self._time = time
        self._wide = wide
        self._starts = {placed.at: placed.note for placed in notes}
        self._at = [placed.at for placed in notes]
        self._slashed = [placed for placed in notes if placed.note.strokes > 1]
        self._joints = sorted({*self._starts, *(self._ends() if with_lengths else self._needed_ends())})

    def lane(self, first: int, last: int) -> Lane:
        """The lane from beat ``first`` to beat ``last``."""
        groups: list[Group] = []
        beats = self._time.beats
        for bar in range(first // beats, -(-last // beats)):
            groups += self._bar(max(first, bar * beats), min(last, (bar + 1) * beats))
        return Lane(tuple(groups))

    def _ends(self) -> Iterator[Fraction]:
        return (placed.end for placed in self._notes)

    def _needed_ends(self) -> Iterator[Fraction]:
        """The ends of notes of which the strokes depend on their length."""
        return (placed.end for placed in self._notes if placed.note.strokes > 1 or placed.note.has_buzz)

    def _bar(self, first: int, last: int) -> list[Group]:
        """The groups of a bar with the fewest slots, all slashes held; of equals those of single beats."""
        best: dict[int, tuple[tuple[int, int, int], list[Group]]] = {first: ((0, 0, 0), [])}
        for end in range(first + 1, last + 1):
            choices = []
            for beats in self._lengths(end):
                before = best.get(end - beats)
                group = self._group(end - beats, beats) if before else None
                if before and group:
                    unheld, slots, longer = before[0]
                    unheld += self._unheld(group, end - beats)
                    choices.append(((unheld, slots + len(group.slots), longer + beats - 1), [*before[1], group]))
            if choices:
                best[end] = min(choices, key=lambda choice: choice[0])
        if last not in best:
            raise CannotFit(max(best))
        return best[last][1]

    def _lengths(self, end: int) -> tuple[int, ...]:
        """How many beats a group may fill that ends here."""
        if not self._time.pulses:
            return (1, *STRETCHES)
        starts = (end - beats for beats in STRETCHES)
        return tuple(end - start for start in starts if self._time.pulse_at(start) == end - start)

    def _group(self, start: int, beats: int) -> Group | None:
        inside = self._joints[
            bisect_right(self._joints, Fraction(start)) : bisect_left(self._joints, Fraction(start + beats))
        ]
        joints = [(joint - start) / beats for joint in inside]
        slots = lcm(*(joint.denominator for joint in joints))
        if beats > 1 and not (self._wide or self._time.pulses) and (slots % beats == 0 or beats % slots == 0):
            return None  # single beats say the same
        ways = self._ways(start, beats, joints, slots)
        return min(ways, key=lambda group: self._unheld(group, start), default=None)

    def _ways(self, start: int, beats: int, joints: Sequence[Fraction], slots: int) -> Iterator[Group]:
        """The group on one grid, where it is no finer than may be, and in parts that have grids of their own."""
        if slots <= MOST_SLOTS:
            yield Group(self._slots(start, beats, [Fraction(index, slots) for index in range(slots)]), beats)
            if not self._slashed_in(start, beats):
                return
        for count in range(2, MOST_SLOTS):
            parts = tuple(
                lcm(*((joint * count % 1).denominator for joint in joints if joint * count // 1 == number))
                for number in range(count)
            )
            if sum(parts) > MOST_SLOTS or max(parts) == 1:
                continue
            at = [
                (number + Fraction(index, part)) / count for number, part in enumerate(parts) for index in range(part)
            ]
            group = Group(self._slots(start, beats, at), beats, parts)
            if takes_brackets(group, self._time):
                yield group

    def _slashed_in(self, start: int, beats: int) -> list[Placed]:
        first = bisect_left(self._slashed, Fraction(start), key=lambda placed: placed.at)
        return self._slashed[first : bisect_left(self._slashed, Fraction(start + beats), key=lambda placed: placed.at)]

    def _unheld(self, group: Group, start: int) -> int:
        """How many notes have slashes that can't be written there, or leave the group with them."""
        slashed, end = self._slashed_in(start, group.beats), start + group.beats
        if not slashed:
            return 0
        alone = replace(group, slots=(Gap.REST if group.slots[0] is Gap.HOLD else group.slots[0], *group.slots[1:]))
        return len(unheld_slashes(Lane((alone,)), self._time)) + sum(placed.end > end for placed in slashed)

    def _slots(self, start: int, beats: int, shares: Iterable[Fraction]) -> tuple[Slot, ...]:
        return tuple(self._slot(start + share * beats) for share in shares)

    def _slot(self, at: Fraction) -> Slot:
        note = self._starts.get(at)
        if note is not None:
            return note
        before = bisect_left(self._at, at)
        return Gap.HOLD if before and at < self._notes[before - 1].end else Gap.REST
