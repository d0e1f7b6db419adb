"""How a pattern lies on what was played: its tempo and its first beat, or that it does not fit.

A teacher's take has strokes that were not heard, sounds that are none, words before and after, and any number of
rounds. So every tempo in range is tried with every stroke of the pattern on some of the sounds heard; the best of these
are drawn out over the whole take, each time with a line through the sounds that they meet (least squares), and the
stretch in which most is met is kept. What is left must be close and nearly complete, or nothing is said.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wristwork.pattern.model import Level, Pattern
from wristwork.sound.schedule import pass_seconds, schedule
from wristwork.sound.take.fit import Fit
from wristwork.sound.take.hits import Hits, Numbers
from wristwork.technique.strokes import Kind

Flags = NDArray[np.bool_]

# How far from the start tempo a take may be.
SLOWEST, FASTEST = 0.5, 2.0
# What a fit must reach: strokes met, the share of the pattern's strokes that were heard and of the sounds that are
# strokes of the pattern, and how far off a stroke is in the mean.
LEAST_STROKES = 12
LEAST_HEARD, LEAST_MEANT = 0.85, 0.85
LARGEST_ERROR_S = 0.030
# By chance sounds lie anywhere in the room around a stroke, 0.58 of its half off in the mean.
_LARGEST_SHARE_OF_ROOM = 0.42

_TEMPO_STEP = 0.004
_ANCHORS = 6
_AROUND_S = 4.0
_LARGEST_ROOM_S, _ROOM_OF_GAP = 0.06, 0.3
_TOGETHER_S = 0.025
_APART_S = 0.03  # so far from where they are written grace notes may be
_FINALISTS = 24
_LOUDNESS = {Level.GHOST: 0.0, Level.TAP: 1.0, Level.ACCENT: 2.0}
# What a stroke that is met adds to a stretch, and what one that is not takes away; a ghost note may go unheard.
_MET, _NOT_MET = 1.0, -2.0
# Evenly spaced strokes fit wherever they begin: then accents decide, and then that a take begins at the beginning.
_ACCENTS_COUNT, _BEGINNING_COUNTS = 0.2, 0.1


@dataclass(frozen=True, slots=True)
class _Round:
    """A pass as shares of its length at which strokes begin, and how loud each is meant."""

    shares: Numbers
    loudness: Numbers
    seconds: float  # that it lasts at the start tempo
    ornaments: float  # seconds from the earliest grace note to its main stroke; 0 where there is none

    @property
    def closest(self) -> float:
        """The smallest share from stroke to stroke."""
        return float(np.diff(np.append(self.shares, self.shares[0] + 1)).min())


@dataclass(frozen=True, slots=True)
class _Line:
    """A pass begins at ``zero`` seconds and lasts ``length``."""

    zero: float
    length: float


@dataclass(frozen=True, slots=True)
class _Laid:
    """A line laid over a take, in the stretch in which it fits: what it reaches there."""

    line: _Line
    met: Numbers  # moments of the pattern, in passes
    heard: Numbers  # the sounds that they met, in seconds
    loudness_meant: Numbers
    loudness_heard: Numbers
    share_heard: float
    share_meant: float

    @property
    def error(self) -> float:
        return float(np.sqrt(np.mean((self.line.zero + self.line.length * self.met - self.heard) ** 2)))

    @property
    def worth(self) -> float:
        """How well it fits: complete, long, and as loud as it is meant."""
        complete = 2 * self.share_heard * self.share_meant / (self.share_heard + self.share_meant)
        first = self.met[0] % 1
        at_beginning = min(first, 1 - first) < 1e-6
        return complete + _ACCENTS_COUNT * self._accents + _BEGINNING_COUNTS * at_beginning

    @property
    def _accents(self) -> float:
        meant, heard = self.loudness_meant, self.loudness_heard
        if np.ptp(meant) == 0 or np.ptp(heard) == 0:
            return 0.0
        return float(np.corrcoef(meant, heard)[0, 1])


def fitted(pattern: Pattern, take: Hits) -> Fit | None:
    """How the pattern lies on the take; None where it doesn't."""
    if len(take.at) < LEAST_STROKES:
        return None
    once = _once(pattern)
    laid = [one for line in _finalists(once, take) if (one := _laid(once, take, line))]
    if not laid:
        return None
    likeliest = max(laid, key=lambda one: one.worth * np.sqrt(len(one.met)))
    best = max(_shifted(once, take, likeliest), key=lambda one: one.worth * np.sqrt(len(one.met)))
    return _good(pattern, once, best)


def _once(pattern: Pattern) -> _Round:
    """What can be heard of a pass: grace notes and bounces melt into their main strokes."""
    tempo = pattern.tempo.start
    whole = float(pass_seconds(pattern, tempo))
    starts: list[float] = []
    loudness: list[float] = []
    ornaments = 0.0
    for onset in schedule(pattern, tempo):
        if onset.stroke.kind is Kind.GRACE:
            ornaments = max(ornaments, float(onset.lasts_s))
            continue
        at, loud = float(onset.starts_s), _LOUDNESS[onset.stroke.level]
        if starts and at - starts[-1] < _TOGETHER_S:
            loudness[-1] = max(loudness[-1], loud)
        else:
            starts.append(at)
            loudness.append(loud)
    return _Round(np.array(starts) / whole, np.array(loudness), whole, ornaments)


def _room(once: _Round, length: float) -> float:
    """How far from its moment a stroke is still that stroke."""
    return min(_LARGEST_ROOM_S, _ROOM_OF_GAP * once.closest * length)


def _finalists(once: _Round, take: Hits) -> Iterator[_Line]:
    """The lines that fit best around some of the sounds, each drawn out over the take."""
    found: list[tuple[float, float, float, float]] = []
    count = int(np.log(FASTEST / SLOWEST) / _TEMPO_STEP) + 1
    anchors = np.unique(np.linspace(0, len(take.at) - 1, _ANCHORS).round().astype(int))
    for anchor in take.at[anchors]:
        around = take.at[np.abs(take.at - anchor) <= _AROUND_S]
        span = float(np.ptp(around)) if len(around) > 1 else 0.0
        if span == 0:
            continue
        for slower in np.exp(np.linspace(np.log(1 / FASTEST), np.log(1 / SLOWEST), count)):
            length = float(once.seconds * slower)
            worth = _worths(once, around - anchor, length, span)
            best = int(worth.argmax())
            found.append((float(worth[best]), float(anchor), length, float(once.shares[best])))
    found.sort(reverse=True)
    for _, anchor, length, share in found[:_FINALISTS]:
        yield _drawn_out(once, take, _Line(anchor - share * length, length), anchor)


def _worths(once: _Round, apart: Numbers, length: float, span: float) -> Numbers:
    """How well sounds ``apart`` seconds from one fit, by which of the strokes that one is."""
    places = (apart[None, :] / length + once.shares[:, None]) % 1
    met = _off(once, places) * length <= _room(once, length)
    expected = len(once.shares) * span / length + 1
    return np.asarray(2 * met.sum(axis=1) / (len(apart) + expected), np.float64)


def _off(once: _Round, places: Numbers) -> Numbers:
    """How far places in a pass are from the nearest stroke, in passes."""
    ring = np.concatenate([[once.shares[-1] - 1], once.shares, [once.shares[0] + 1]])
    after = np.clip(np.searchsorted(ring, places), 1, len(ring) - 1)
    return np.minimum(np.abs(places - ring[after - 1]), np.abs(ring[after] - places))


def _drawn_out(once: _Round, take: Hits, line: _Line, anchor: float) -> _Line:
    """The line through what it meets, first around the anchor and then further and further."""
    reach = _AROUND_S
    whole = float(np.ptp(take.at))
    while True:
        for _ in range(2):
            place, heard = _pairs(once, take.at[np.abs(take.at - anchor) <= reach], line)
            line = _through(place, heard, line)
        if reach > whole:
            return line
        reach *= 1.6


def _pairs(once: _Round, at: Numbers, line: _Line) -> tuple[Numbers, Numbers]:
    """Moments of the pattern (in passes) and the sounds that meet them."""
    places = (at - line.zero) / line.length
    ring = np.concatenate([[once.shares[-1] - 1], once.shares, [once.shares[0] + 1]])
    rounds = np.floor(places)
    within = places - rounds
    after = np.clip(np.searchsorted(ring, within), 1, len(ring) - 1)
    nearer = np.where(within - ring[after - 1] < ring[after] - within, ring[after - 1], ring[after])
    close = np.abs(within - nearer) * line.length <= _room(once, line.length)
    return (rounds + nearer)[close], at[close]


def _through(place: Numbers, heard: Numbers, line: _Line) -> _Line:
    """The line of least squares, or the same where there is too little to go by."""
    if len(place) < 3 or np.ptp(place) == 0:
        return line
    middle, mean = place.mean(), heard.mean()
    length = float(((place - middle) * (heard - mean)).sum() / ((place - middle) ** 2).sum())
    return _Line(float(mean - length * middle), length) if length > 0 else line


def _laid(once: _Round, take: Hits, line: _Line) -> _Laid | None:
    """The line over the whole take, cut to the stretch in which it fits best."""
    room = _room(once, line.length)
    first = int(np.floor((take.at[0] - line.zero) / line.length)) - 1
    last = int(np.ceil((take.at[-1] - line.zero) / line.length)) + 1
    if last - first > 2000:
        return None
    moments = (np.arange(first, last)[:, None] + once.shares[None, :]).ravel()
    loudness = np.tile(once.loudness, last - first)
    times = line.zero + line.length * moments
    after = np.clip(np.searchsorted(take.at, times), 1, len(take.at) - 1)
    nearest = np.where(times - take.at[after - 1] < take.at[after] - times, after - 1, after)
    met = np.abs(take.at[nearest] - times) <= room
    may_be_missed = (loudness == _LOUDNESS[Level.GHOST]) & (once.loudness.max() > _LOUDNESS[Level.GHOST])
    start, end = _best_stretch(met, may_be_missed)
    inside = met[start:end]
    if inside.sum() < 3:
        return None
    counted = inside | ~may_be_missed[start:end]
    which = nearest[start:end][inside]
    heard = take.at[which]
    there = take.at[(take.at >= times[start] - room) & (take.at <= times[end - 1] + room)]
    moments, loudness = moments[start:end][inside], loudness[start:end][inside]
    return _Laid(
        line=_through(moments, heard, line),
        met=moments,
        heard=heard,
        loudness_meant=loudness,
        loudness_heard=take.decibels[which],
        share_heard=float(inside.sum() / counted.sum()),
        share_meant=float(len(np.unique(which)) / (~_is_grace(there, heard, once)).sum()),
    )


def _is_grace(at: Numbers, met: Numbers, once: _Round) -> Flags:
    """Which sounds may be grace notes of strokes that were met: heard by themselves, they are no mistake."""
    if not once.ornaments:
        return np.zeros(len(at), np.bool_)
    ahead = met[np.clip(np.searchsorted(met, at, side="right"), 0, len(met) - 1)] - at
    return np.asarray(~np.isin(at, met) & (ahead > 0) & (ahead <= once.ornaments + _APART_S), np.bool_)


def _best_stretch(met: Flags, may_be_missed: Flags) -> tuple[int, int]:
    """Where most strokes are met and fewest are not: from and to, without the end."""
    best, best_from, best_to = 0.0, 0, 0
    here, here_from = 0.0, 0
    for number, is_met in enumerate(met):
        if here <= 0:
            here, here_from = 0.0, number
        here += _MET if is_met else 0.0 if may_be_missed[number] else _NOT_MET
        if here > best:
            best, best_from, best_to = here, here_from, number + 1
    return best_from, best_to


def _shifted(once: _Round, take: Hits, laid: _Laid) -> Iterator[_Laid]:
    """The same tempo with the pass begun at each of its strokes."""
    yield laid
    line = laid.line
    for share in once.shares:
        moved = _Line(line.zero - (share - once.shares[0]) * line.length, line.length)
        again = _laid(once, take, moved)
        if again:
            yield again


def _good(pattern: Pattern, once: _Round, laid: _Laid) -> Fit | None:
    """The fit, if it is one."""
    line, error = laid.line, laid.error
    pace = once.seconds / line.length
    is_good = (
        len(laid.met) >= LEAST_STROKES
        and laid.share_heard >= LEAST_HEARD
        and laid.share_meant >= LEAST_MEANT
        and error <= min(LARGEST_ERROR_S, _LARGEST_SHARE_OF_ROOM * _room(once, line.length))
        and SLOWEST * 0.98 <= pace <= FASTEST * 1.02
    )
    if not is_good:
        return None
    begun = np.floor(laid.met[0] + 1e-9)
    return Fit(
        zero_s=round(line.zero + line.length * float(begun), 4),
        tempo=round(pattern.tempo.start * pace, 3),
        from_s=round(float(laid.heard[0]), 3),
        to_s=round(float(laid.heard[-1]), 3),
        error_ms=round(1000 * error, 1),
        heard=round(laid.share_heard, 3),
    )
