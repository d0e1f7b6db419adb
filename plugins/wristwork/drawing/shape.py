"""The staff of a whole diagram: its lines, and how high its stems and marks reach.

All stems of the hands end at one height and all stems of the feet at another, so that beams,
accents and tuplet numbers stand in line however the page breaks the rows. The middle line of the
staff is y 0, y grows downward, in CSS pixels.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import ceil, floor

from wristwork.drawing.beams import Run, runs
from wristwork.drawing.glyphs import SPACE
from wristwork.drawing.score import Score
from wristwork.drawing.staff_positions import STAFF_POSITIONS
from wristwork.drawing.voices import QUARTER, Chord, Hit, Voice
from wristwork.pattern.model import Drum, Level
from wristwork.pattern.values import Piece

STEM = 28.0  # three and a half spaces
BEAM = 4.0
BEAM_STEP = 6.0  # from beam to beam
SLASH = 7.0
_BESIDE_FLAG = 16.0  # below this a flag has swung clear of its stem
_GRACE_CLEAR = 21.0  # a grace note with its stem and slash
_HEAD_CLEAR = 8.0
_STEMLESS = 7.0

_HAND_REST, _FOOT_REST, _LOW_FOOT_REST = -8.0, 20.0, 28.0
_HEAD_REACH = SPACE / 2
ACCENT_BELOW = 10.0
"""From a head down to an accent of its own."""
_ACCENT_REACH = ACCENT_BELOW + SPACE / 2
_REST_CLEAR = 3.0

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
    foot_rest: float = _FOOT_REST
    """Where the rests of the feet stand below the hands."""

    @property
    def one_line(self) -> bool:
        """Is it the single line of a pad?"""
        return len(self.lines) == 1

    def y(self, drum: Drum) -> float:
        """Where the heads of a drum stand."""
        return 0 if self.one_line else -STAFF_POSITIONS[drum].step * SPACE / 2

    def rest_y(self, hands: bool) -> float:
        """Where the rests of the hands, or of the feet, stand when the other lane plays."""
        if not self.two_voices or self.one_line:
            return 0
        return _HAND_REST if hands else self.foot_rest

    @property
    def bar_reach(self) -> float:
        """How far bar lines reach above and below the middle."""
        return 11 if self.one_line else 16


def read_staff(score: Score, hand_runs: Sequence[list[Run]], foot_runs: Sequence[list[Run]]) -> Staff:
    """The staff that holds everything in a score."""
    lines = ONE_LINE if score.one_surface else FIVE_LINES
    bare = Staff(lines, 0, 0, score.two_voices)
    bare = replace(bare, foot_rest=_foot_rest(score, bare))
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
    for cut, of_hands, of_feet in zip(score.cuts, hand_runs, foot_runs, strict=True):
        ups += [-reach for reach in _over_rests(cut.hands, of_hands, -bare.rest_y(True), upward=True)]
        downs += _over_rests(cut.feet, of_feet, bare.rest_y(False), upward=False)
    edge = bare.bar_reach
    # Ends of stems stand half a pixel off, as the lines do: so lines and beams both fall on whole pixels of the screen.
    up_end, down_end = floor(min([-edge, *ups])) - 0.5, ceil(max([edge, *downs])) + 0.5
    return replace(bare, up_end=up_end, down_end=down_end)


def _foot_rest(score: Score, bare: Staff) -> float:
    """Rests of the feet make way for a hand that plays low at the same moment, on the floor tom, say."""
    for cut in score.cuts:
        if not cut.feet.rests:
            continue
        low = {chord.cut_beat: bare.y(chord.heads[0][0]) + _reach_below(chord) for chord in cut.hands.chords}
        for rest in cut.feet.rests:
            if low.get(rest.cut_beat, -_FOOT_REST) >= _FOOT_REST - rest_reach(rest.piece)[0]:
                return _LOW_FOOT_REST
    return _FOOT_REST


def _reach_below(chord: Chord) -> float:
    """How far the lowest head, or an accent that stands right under it, reaches."""
    return _ACCENT_REACH if accented_below(chord) else _HEAD_REACH


def accented_below(chord: Chord) -> bool:
    """Is the lower of two heads accented alone? Its accent stands right under it, for none to think of both."""
    if chord.note.left is None or len(chord.heads) == 1 or chord.ties_back:
        return False
    (_, low), *higher = chord.heads
    return _has_accent(low) and not any(_has_accent(hits) for _, hits in higher)


def _has_accent(hits: Sequence[Hit]) -> bool:
    return any(hit.stroke.level is Level.ACCENT for hit in hits)


def rest_reach(rest: Piece) -> tuple[float, float]:
    """How far a rest reaches above and below where it stands."""
    hooks = rest.halvings - QUARTER
    if hooks <= 0:
        return 1.5 * SPACE, 1.5 * SPACE
    raised = (hooks - 1) // 2
    return (0.84 + raised) * SPACE, (hooks - raised) * SPACE


def _over_rests(voice: Voice, found: Sequence[Run], y: float, upward: bool) -> list[float]:
    """How far out stems end so that their beam is clear of the rests under it (``y``: outward from the middle)."""
    side = 0 if upward else 1
    return [
        y + rest_reach(rest.piece)[side] + _REST_CLEAR + beams_depth(max(chord.flags for chord in run.chords))
        for run in found
        if run.beamed
        for rest in voice.rests
        if run.chords[0].cut_beat < rest.cut_beat < run.chords[-1].cut_beat
    ]


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
    count = chord.flags
    if count and not beamed:
        return _BESIDE_FLAG + (count - 1) * BEAM_STEP
    return beams_depth(count)


def _stem_need(chord: Chord, run: Run | None) -> float:
    """How long the stem has to be, from the centre of the head nearest its end."""
    if chord.halvings <= 0:
        slashes = 1 if chord.note.has_buzz else chord.slashes.count
        return _STEMLESS + (SLASH + 10 + (slashes - 1) * BEAM_STEP if slashes else 0)
    beamed = run is not None and run.beamed
    count = chord.flags
    need = max(STEM, beams_depth(count) + 17) if beamed or not count else STEM + (count - 1) * BEAM_STEP
    slashes = 1 if chord.note.has_buzz else chord.slashes.count
    if slashes:
        need = max(need, stem_taken(chord, beamed) + 3 + SLASH + (slashes - 1) * BEAM_STEP + _HEAD_CLEAR)
    if chord.graces and beamed and run is not None and chord is not run.chords[0]:
        need = max(need, beams_depth(count) + _GRACE_CLEAR)
    return need
