"""Recorded hits → hits on even grids, each beat on the coarsest that its hits are near to."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby
from typing import NamedTuple

from wristwork.exchange.incoming.midi_file import Hit
from wristwork.exchange.incoming.strikes import Strike

# A hit this near to a slot is meant for it: hands are off by 10 to 20 ms, and a 32nd at a fast tempo lasts 60 ms.
NEAR_S = 0.03
NEAR_BEATS = Fraction(1, 12)
_FINEST = 12
_IN_TWO, _IN_THREE = (1, 2, 4, 3, 8, 6, 12), (1, 3, 2, 6, 4, 12)


class OnGrid(NamedTuple):
    """A hit, the moment that it is written at (beats from the start), and how far it is off in seconds."""

    at: Fraction
    hit: Hit
    off_s: float


@dataclass(frozen=True, slots=True)
class Beats:
    """How beats lie in a recording: ``tick`` is its finest step in beats, ``seconds`` how long a beat lasts there."""

    tick: Fraction
    seconds: Callable[[Fraction], float]
    in_three: bool


def on_grids(timed: Sequence[tuple[Fraction, Hit]], beats: Beats) -> Iterator[OnGrid]:
    """All hits (with their moments in beats) on grids, in order."""
    for beat, same in groupby(timed, key=lambda each: _beat_of(each[0], beats)):
        inside = list(same)
        slots = _grid([(at - beat, hit) for at, hit in inside], beats, beats.seconds(Fraction(beat)))
        for at, hit in inside:
            written = beat + Fraction(round((at - beat) * slots), slots)
            yield OnGrid(written, hit, float(at - written) * beats.seconds(Fraction(beat)))


def _beat_of(at: Fraction, beats: Beats) -> int:
    """The beat that a hit belongs to: one a little early to the beat that it was meant for."""
    near = _near(beats.seconds(at))
    return int((at + near) // 1)


def _near(seconds: float) -> Fraction:
    return min(NEAR_BEATS, Fraction(NEAR_S / seconds).limit_denominator(1000))


def _grid(inside: Sequence[tuple[Fraction, Hit]], beats: Beats, seconds: float) -> int:
    """Into how many slots a beat is cut: exactly where a grid is exact, else the first that is near enough."""
    for slots in range(1, _FINEST + 1):
        if _off(inside, slots) <= beats.tick and _parts(inside, slots):
            return slots
    choices = _IN_THREE if beats.in_three else _IN_TWO
    near = [slots for slots in choices if _off(inside, slots) <= _near(seconds) and _parts(inside, slots)]
    return near[0] if near else min(choices, key=lambda slots: (not _parts(inside, slots), _off(inside, slots)))


def _off(inside: Sequence[tuple[Fraction, Hit]], slots: int) -> Fraction:
    return _farthest([at for at, _ in inside], slots)


def _parts(inside: Sequence[tuple[Fraction, Hit]], slots: int) -> bool:
    """Do hits of one drum keep apart on this grid?"""
    return len({(round(at * slots), hit.on) for at, hit in inside}) == len(inside)


def snapped(strikes: Sequence[Strike]) -> tuple[list[Strike], Fraction]:
    """Each stroke on the nearest slot of a grid that its beat can have; how far off (in beats) the worst one was."""
    single = sorted((one for strike in strikes for one in strike.apart()), key=lambda strike: strike.at)
    found: list[Strike] = []
    worst = Fraction(0)
    for beat, same in groupby(single, key=lambda strike: int(strike.at)):
        inside = list(same)
        shares = [strike.at - beat for strike in inside]
        slots = min(range(1, _FINEST + 1), key=lambda count: (_farthest(shares, count), count))
        worst = max(worst, _farthest(shares, slots))
        found += [
            replace(strike, at=beat + Fraction(round(share * slots), slots), length=Fraction(0))
            for strike, share in zip(inside, shares, strict=True)
        ]
    return found, worst


def _farthest(shares: Sequence[Fraction], slots: int) -> Fraction:
    return max(abs(share - Fraction(round(share * slots), slots)) for share in shares)
