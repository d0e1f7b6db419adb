"""What a file says, whatever its format: strikes on drums, and all that goes with them."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import NamedTuple

from wristwork.languages.say import say, say_count
from wristwork.pattern.drums import Drum
from wristwork.pattern.model import Level, TimeSignature
from wristwork.technique.strokes import Limb


@dataclass(frozen=True, slots=True)
class Grace:
    """A grace note: its drum, and who plays it where that is said."""

    on: Drum
    limb: Limb | None = None


@dataclass(frozen=True, slots=True)
class Strike:
    """One written stroke of one limb (several, with ``strokes``, as by a slash).

    ``at`` and ``length`` are in beats from the start of the first bar. ``limb`` is None where a file does not say
    which hand plays.
    """

    at: Fraction
    length: Fraction
    on: Drum
    limb: Limb | None = None
    level: Level = Level.TAP
    strong: bool = False
    strokes: int = 1
    buzz: bool = False
    graces: tuple[Grace, ...] = ()

    @property
    def end(self) -> Fraction:
        """Where it ends."""
        return self.at + self.length

    @property
    def is_foot(self) -> bool:
        """Does a foot play it?"""
        return self.limb is not None and not self.limb.is_hand

    def apart(self) -> tuple[Strike, ...]:
        """Each of its strokes as one of its own; only the first has the accent and the grace notes."""
        share = self.length / self.strokes
        first = replace(self, length=share, strokes=1)
        level = Level.GHOST if self.level is Level.GHOST else Level.TAP
        later = replace(first, level=level, strong=False, graces=())
        return (first, *(replace(later, at=self.at + number * share) for number in range(1, self.strokes)))


@dataclass(frozen=True, slots=True)
class Heard:
    """Everything that a file says in so many ``bars`` of one time signature.

    A ``pickup`` of so many beats ends the first of the bars. ``lines`` are further lines of a pattern by their keys.
    ``is_exact`` says that lengths mean something: in a performance they don't.
    """

    title: str
    time: TimeSignature
    bars: int
    strikes: tuple[Strike, ...]
    pickup: int = 0
    cut_short: int = 0
    lines: tuple[tuple[str, str], ...] = ()
    is_exact: bool = True


class Where(NamedTuple):
    """A bar, counted as students count them, and a beat of it, from 1."""

    bar: int
    beat: int | None = None


@dataclass(slots=True)
class Remarks:
    """What is told beside the pattern: what was left out, with how often and where first; and what else to know."""

    left_out: Counter[str] = field(default_factory=Counter)
    told: list[str] = field(default_factory=list)
    _first: dict[str, Where | None] = field(default_factory=dict)

    def leave_out(self, what: str, where: Where | None = None) -> None:
        """Note that something can't be written."""
        self.left_out[what] += 1
        self._first.setdefault(what, where)

    def tell(self, what: str) -> None:
        """Note what else there is to know, once."""
        if what not in self.told:
            self.told.append(what)

    @property
    def lines(self) -> tuple[str, ...]:
        """All of it, a line each."""
        return (*map(self._line, self.left_out), *self.told)

    def _line(self, what: str) -> str:
        count, first = self.left_out[what], self._first[what]
        if count > 1:
            return _often(what, count, first)
        if first is None:
            return say("left out: {what}", what=what)
        if first.beat is None:
            return say("left out: {what} (in bar {bar})", what=what, bar=first.bar)
        return say("left out: {what} (in bar {bar}, beat {beat})", what=what, bar=first.bar, beat=first.beat)


def _often(what: str, count: int, first: Where | None) -> str:
    if first is None:
        return say_count("left out: {what} ({count} time)", "left out: {what} ({count} times)", count, what=what)
    if first.beat is None:
        return say_count(
            "left out: {what} ({count} time, first in bar {bar})",
            "left out: {what} ({count} times, first in bar {bar})",
            count,
            what=what,
            bar=first.bar,
        )
    return say_count(
        "left out: {what} ({count} time, first in bar {bar}, beat {beat})",
        "left out: {what} ({count} times, first in bar {bar}, beat {beat})",
        count,
        what=what,
        bar=first.bar,
        beat=first.beat,
    )
