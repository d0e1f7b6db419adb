"""Strokes → the moments at which they sound.

The only place where a stroke's written position becomes a time. Previews, the MIDI file and the
tests use it; the browser's player follows the same rules, which ``exercise.json`` states.

Times are exact fractions, counted from the first beat of the first pass: a grace note ahead of
that beat has a negative time.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby
from math import floor

from wristwork.pattern.model import Pattern
from wristwork.sound.swing import swung
from wristwork.technique.strokes import Kind, Stroke, strokes


@dataclass(frozen=True, slots=True)
class Onset:
    """One stroke in time.

    It sounds at ``beat`` (for a grace note, ahead of its main note) and fills ``beats`` (for a grace note: up to
    its main note), at ``tempo`` beats a minute.
    """

    beat: Fraction
    beats: Fraction
    tempo: int
    stroke: Stroke

    @property
    def at(self) -> Fraction:
        """When it sounds, in seconds."""
        return self.beat * beat_seconds(self.tempo)

    @property
    def length(self) -> Fraction:
        """The time it fills, in seconds."""
        return self.beats * beat_seconds(self.tempo)


def beat_seconds(tempo: int) -> Fraction:
    """Seconds that one beat lasts at ``tempo`` beats a minute."""
    return Fraction(60, tempo)


def pass_beats(pattern: Pattern) -> int:
    """Beats in one pass: the written bars as often as ``repeat`` says."""
    return pattern.beats * pattern.repeat


def preview_names(pattern: Pattern) -> tuple[str, ...]:
    """The names of a pattern's previews, at its first and its last tempo: one where the tempos are the same."""
    return ("start.mp3",) if pattern.tempo.start == pattern.tempo.goal else ("start.mp3", "goal.mp3")


def schedule(pattern: Pattern, tempo: int, passes: int = 1) -> tuple[Onset, ...]:
    """Every stroke of ``passes`` passes at ``tempo`` (beats a minute), in the order in which they sound.

    A pass holds all repeats. Strokes at one moment keep the playing order of the strokes.
    """
    written = strokes(pattern)
    written_beats = pattern.beats if pattern.loop else pass_beats(pattern)
    rounds = passes * pass_beats(pattern) // written_beats
    once = tuple(_once(pattern, written, tempo))
    onsets = [replace(onset, beat=onset.beat + number * written_beats) for number in range(rounds) for onset in once]
    return tuple(sorted(onsets, key=lambda onset: onset.beat))


def _once(pattern: Pattern, written: tuple[Stroke, ...], tempo: int) -> Iterator[Onset]:
    for _, together in groupby(written, key=_ornament):
        ornament = tuple(together)
        squeeze = _squeeze(ornament[0], tempo)
        for stroke in ornament:
            ahead = _ahead(stroke, tempo) * squeeze
            at = swung(stroke.at, pattern, tempo)
            length = swung(stroke.at + stroke.length, pattern, tempo) - at
            yield Onset(at - ahead, ahead or length, tempo, stroke)


def _ornament(stroke: Stroke) -> tuple[bool, bool, Fraction]:
    """Equal for the grace notes of one main note: hands (or feet) play them at one moment, in a row."""
    return stroke.kind is Kind.GRACE, stroke.limb.is_hand, stroke.at


def _ahead(stroke: Stroke, tempo: int) -> Fraction:
    """How far ahead of its written place a stroke would sound if there were room, in beats."""
    return Fraction(stroke.ahead_ms or 0, 1000) / beat_seconds(tempo)


def _squeeze(first: Stroke, tempo: int) -> Fraction:
    """How far an ornament is squeezed so that its first grace note is no further ahead than it may be (at most 1)."""
    ahead = _ahead(first, tempo)
    if not ahead or first.ahead_at_most is None:
        return Fraction(1)
    return min(Fraction(1), first.ahead_at_most / ahead)


# A buzz: the stick is left to bounce. The bounces come a little faster as they die away; their number is
# such that they lie about this far apart and the last one leads into whatever comes next.
BOUNCE_SPACING = 0.022
BOUNCE_HURRY = 0.35
BOUNCE_DROP_DB = 5.0
BOUNCE_FADE_DB = 11.0


@dataclass(frozen=True, slots=True)
class Bounce:
    """One bounce of a buzz: seconds after the stroke, and how much softer than it (a factor, 1 for the stroke)."""

    after: float
    gain: float


def bounces(length: float) -> tuple[Bounce, ...]:
    """The stroke of a buzz that fills ``length`` seconds, and its bounces.

    With n of them in all (the length over the spacing, to the nearest whole number, halves up; at least 2), bounce k
    stands at ``u + hurry·u·(1 − u)`` of the length, u = k/n, and is
    ``drop + fade·u`` decibels softer than the stroke.
    """
    count = max(2, floor(length / BOUNCE_SPACING + 0.5))
    shares = [number / count for number in range(1, count)]
    return Bounce(0.0, 1.0), *(Bounce(length * _hurried(share), _faded(share)) for share in shares)


def _hurried(share: float) -> float:
    return share + BOUNCE_HURRY * share * (1 - share)


def _faded(share: float) -> float:
    return 10 ** (-(BOUNCE_DROP_DB + BOUNCE_FADE_DB * share) / 20)
