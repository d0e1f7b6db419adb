"""The staff of a whole diagram: its lines, and how high its stems and marks reach.

All stems of the hands end at one height and all stems of the feet at another, so that beams,
accents and tuplet numbers stand in line however the page breaks the rows. The middle line of the
staff is y 0, y grows downward, in CSS pixels.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from wristwork.drawing.beams import Run, flags, runs
from wristwork.drawing.glyphs import SPACE
from wristwork.drawing.places import STAFF_PLACES
from wristwork.drawing.score import Chord, Score
from wristwork.pattern.model import Drum

STEM = 28.0  # three and a half spaces
BEAM = 4.0
BEAM_STEP = 6.0  # from beam to beam
SLASH = 7.0
SLASHES = {1: 0, 2: 1, 3: 1, 4: 2}
"""Strokes that share a note's value → slashes through its stem."""
_BESIDE_FLAG = 16.0  # below this a flag has swung clear of its stem
_GRACE_CLEAR = 21.0  # a grace note with its stem and slash
_HEAD_CLEAR = 8.0
_STEMLESS = 7.0

FIVE_LINES = (-16, -8, 0, 8, 16)
ONE_LINE = (0,)


@dataclass(frozen=True, slots=True)
class Staff:
    """Heights that hold for every cut of a diagram."""

    lines: tuple[int, ...]
    up_end: float
    """Where the stems of the hands end."""
    down_end: float
    """Where the stems of the feet end."""
    two_voices: bool

    @property
    def one_line(self) -> bool:
        """Is it the single line of a pad?"""
        return len(self.lines) == 1

    def y(self, drum: Drum) -> float:
        """Where the heads of a drum stand."""
        return 0 if self.one_line else -STAFF_PLACES[drum].step * SPACE / 2

    @property
    def bar_reach(self) -> float:
        """How far bar lines reach above and below the middle."""
        return 11 if self.one_line else 16


def read_staff(score: Score, hand_runs: Sequence[list[Run]], foot_runs: Sequence[list[Run]]) -> Staff:
    """The staff that holds everything in a score."""
    lines = ONE_LINE if score.one_surface else FIVE_LINES
    bare = Staff(lines, 0, 0, score.pattern.hands is not None and score.pattern.feet is not None)
    ups = [
        bare.y(chord.heads[-1][0]) - _stem_need(chord, run)
        for cut, in_cut in zip(score.cuts, hand_runs, strict=True)
        for chord, run in _with_runs(cut.hands.chords, in_cut)
    ]
    downs = [
        bare.y(chord.heads[0][0]) + _stem_need(chord, run)
        for cut, in_cut in zip(score.cuts, foot_runs, strict=True)
        for chord, run in _with_runs(cut.feet.chords, in_cut)
    ]
    edge = bare.bar_reach
    return Staff(lines, min([-edge, *ups]), max([edge, *downs]), bare.two_voices)


def voice_runs(score: Score) -> tuple[list[list[Run]], list[list[Run]]]:
    """Beamed and flagged notes by cut: of the hands, of the feet."""
    return [runs(cut.hands) for cut in score.cuts], [runs(cut.feet) for cut in score.cuts]


def _with_runs(chords: Iterable[Chord], found: Sequence[Run]) -> list[tuple[Chord, Run | None]]:
    by_chord = {id(chord): run for run in found for chord in run.chords}
    return [(chord, by_chord.get(id(chord))) for chord in chords]


def beams_depth(count: int) -> float:
    """How much of a stem its beams take."""
    return (count - 1) * BEAM_STEP + BEAM if count else 0


def stem_taken(chord: Chord, beamed: bool) -> float:
    """How much of the end of a stem is no place for a slash."""
    count = flags(chord.piece)
    if count and not beamed:
        return _BESIDE_FLAG + (count - 1) * BEAM_STEP
    return beams_depth(count)


def _stem_need(chord: Chord, run: Run | None) -> float:
    """How long the stem has to be, from the centre of the head nearest its end."""
    if chord.piece.undotted >= 1:
        return _STEMLESS + (SLASH + 10 if chord.note.strokes > 1 or chord.note.buzz else 0)
    beamed = run is not None and run.beamed
    count = flags(chord.piece)
    need = max(STEM, beams_depth(count) + 17) if beamed or not count else STEM + (count - 1) * BEAM_STEP
    slashes = 1 if chord.note.buzz else SLASHES[chord.note.strokes]
    if slashes:
        need = max(need, stem_taken(chord, beamed) + 3 + SLASH + (slashes - 1) * BEAM_STEP + _HEAD_CLEAR)
    if chord.graces and beamed and run is not None and chord is not run.chords[0]:
        need = max(need, beams_depth(count) + _GRACE_CLEAR)
    return need
