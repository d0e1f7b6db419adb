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
from wristwork.pattern.pace import Pace, pace
from wristwork.sound.swing import even_pairs, swung
from wristwork.technique.strokes import FLAM_AHEAD_MS, Kind, Stroke, strokes


@dataclass(frozen=True, slots=True)
class Onset:
    """One stroke in time.

    It sounds at ``beat`` (for a grace note, ahead of its main note) and fills ``beats`` (for a grace note: up to
    its main note), at ``tempo`` beats a minute where sections have no tempos of their own; ``pace`` knows those.
    """

    beat: Fraction
    beats: Fraction
    tempo: int
    stroke: Stroke
    pace: Pace

    @property
    def starts_s(self) -> Fraction:
        """When it sounds, in seconds."""
        if self.stroke.kind is not Kind.GRACE:
            return self._seconds(self.beat)
        main = self.beat + self.beats
        return self._seconds(main) - self._ahead_s(main)

    @property
    def lasts_s(self) -> Fraction:
        """The time it fills, in seconds."""
        if self.stroke.kind is Kind.GRACE:
            return self._ahead_s(self.beat + self.beats)
        return self._seconds(self.beat + self.beats) - self._seconds(self.beat)

    def _seconds(self, beat: Fraction) -> Fraction:
        return self.pace.elapsed(beat) * beat_seconds(self.tempo)

    def _ahead_s(self, main: Fraction) -> Fraction:
        """Seconds from a grace note to its main note, at the tempo of the main note."""
        return self.beats * beat_seconds(self.tempo * self.pace.share_at(main))


def beat_seconds(tempo: int | Fraction) -> Fraction:
    """Seconds that one beat lasts at ``tempo`` beats a minute."""
    return Fraction(60) / tempo


def pass_seconds(pattern: Pattern, tempo: int) -> Fraction:
    """Seconds that one pass lasts, with all repeats and the tempos of its sections."""
    return pace(pattern).elapsed(Fraction(pass_beats(pattern))) * beat_seconds(tempo)


def counted_tempo(pattern: Pattern, tempo: int) -> Fraction:
    """Beats a minute of the count-in: those of the first beat."""
    return tempo * pace(pattern).share_at(Fraction(0))


def pass_beats(pattern: Pattern) -> int:
    """Beats in one pass: the bars as they are played, as often as ``repeat`` says."""
    return pattern.played_beats * pattern.repeat


def count_in_beats(pattern: Pattern) -> int:
    """Beats that are counted before the first one: a bar, and with a pick-up as much of the next as lies before it."""
    return 2 * pattern.time.beats - pattern.pickup if pattern.pickup else pattern.time.beats


def preview_names(pattern: Pattern) -> tuple[str, ...]:
    """The names of a pattern's previews, at its first and its last tempo: one where the tempos are the same."""
    return ("start.mp3",) if pattern.tempo.start == pattern.tempo.goal else ("start.mp3", "goal.mp3")


def schedule(pattern: Pattern, tempo: int, passes: int = 1) -> tuple[Onset, ...]:
    """Every stroke of ``passes`` passes at ``tempo`` (beats a minute), in the order in which they sound.

    A pass holds all repeats. Strokes at one moment keep the playing order of the strokes.
    """
    written = strokes(pattern)
    written_beats = pattern.played_beats if pattern.loop else pass_beats(pattern)
    rounds = passes * pass_beats(pattern) // written_beats
    once = tuple(_once(pattern, written, tempo))
    onsets = [replace(onset, beat=onset.beat + number * written_beats) for number in range(rounds) for onset in once]
    return tuple(sorted(onsets, key=lambda onset: onset.beat))


def _once(pattern: Pattern, written: tuple[Stroke, ...], tempo: int) -> Iterator[Onset]:
    even = even_pairs(pattern, written)
    own_pace = pace(pattern)
    for _, together in groupby(written, key=_ornament):
        ornament = tuple(together)
        here = tempo if own_pace.is_even else tempo * own_pace.share_at(ornament[0].at)
        squeeze = _squeeze(ornament[0], here)
        for stroke in ornament:
            ahead = _ahead(stroke, here) * squeeze
            at = swung(stroke.at, pattern, here, even)
            # What the other hand's thirds end may swing past them.
            length = max(Fraction(0), swung(stroke.at + stroke.length, pattern, here, even) - at)
            yield Onset(at - ahead, ahead or length, tempo, stroke, own_pace)


def _ornament(stroke: Stroke) -> tuple[bool, bool, Fraction]:
    """Equal for the grace notes of one main note: hands (or feet) play them at one moment, in a row."""
    return stroke.kind is Kind.GRACE, stroke.limb.is_hand, stroke.at


def _ahead(stroke: Stroke, tempo: int | Fraction) -> Fraction:
    """How far ahead of its written place a stroke would sound if there were room, in beats."""
    return Fraction(stroke.ahead_ms or 0, 1000) / beat_seconds(tempo)


def _squeeze(first: Stroke, tempo: int | Fraction) -> Fraction:
    """How far an ornament is squeezed so that its first grace note is no further ahead than it may be (at most 1)."""
    ahead = _ahead(first, tempo)
    if not ahead or first.ahead_at_most is None:
        return Fraction(1)
    return min(_closed(first, tempo), first.ahead_at_most / ahead)


# The strokes of a drag lie 50 ms apart at an easy tempo, and close to 40 ms at a quick one.
DRAG_CLOSES_FROM, DRAG_CLOSED_AT = 60, 120
DRAG_CLOSES_TO = Fraction(4, 5)


def _closed(first: Stroke, tempo: int | Fraction) -> Fraction:
    """How far the tempo alone closes an ornament (1: not); a flam stays as it is."""
    if first.ahead_ms is None or first.ahead_ms <= FLAM_AHEAD_MS:
        return Fraction(1)
    share = min(max(Fraction(tempo - DRAG_CLOSES_FROM) / (DRAG_CLOSED_AT - DRAG_CLOSES_FROM), Fraction(0)), Fraction(1))
    return 1 - share * (1 - DRAG_CLOSES_TO)


# A buzz: the stick is pressed into the head and bounces, so close together and so evenly that the bounces knit into one
# sound, and the last of them leads into whatever comes next. ``first_db`` is how much softer than a free stroke the
# first touch is, ``drop_db`` how much softer the bounces are, and ``fade_db`` what they lose to the end.
BUZZ = {"spacing": 0.012, "first_db": 7.5, "drop_db": 8.5, "fade_db": 1.0}


@dataclass(frozen=True, slots=True)
class Bounce:
    """One bounce of a buzz: seconds after the stroke, and how much softer than a free stroke (a factor)."""

    after: float
    gain: float


def bounces(length: float) -> tuple[Bounce, ...]:
    """The first touch of a buzz that fills ``length`` seconds, and its bounces.

    With n of them in the length (the length over the spacing, to the nearest whole number, halves up; at least 2),
    bounce k stands at u = k/n of the length and is ``drop + fade·u`` decibels softer than a free stroke.
    """
    count = max(2, floor(length / BUZZ["spacing"] + 0.5))
    shares = [number / count for number in range(1, count)]
    return Bounce(0.0, _softer(BUZZ["first_db"])), *(
        Bounce(length * share, _softer(BUZZ["drop_db"] + BUZZ["fade_db"] * share)) for share in shares
    )


def _softer(decibels: float) -> float:
    return 10 ** (-decibels / 20)
