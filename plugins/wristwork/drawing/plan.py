"""Score → plan: every column, text and head of a diagram has its place; nothing is drawn yet."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import NamedTuple

from wristwork.drawing.beams import Run
from wristwork.drawing.labels import (
    HANDS,
    CutLabels,
    Label,
    feet_need_letters,
    foot_letters,
    initials,
    parts,
    read_labels,
)
from wristwork.drawing.lettering import BEAT, width
from wristwork.drawing.noteheads import PlacedChord, aside_of_hands, place_chord
from wristwork.drawing.score import Cut, Score
from wristwork.drawing.shape import Staff, read_staff, voice_runs
from wristwork.drawing.spacing import Extent, Row, Spacing, settle, space
from wristwork.drawing.voices import Chord, Voice
from wristwork.pattern.model import Row as DiagramRow
from wristwork.technique.strokes import Limb

COUNT_GAP, LETTER_GAP, STAFF_GAP, DRUM_GAP, TOUCH_GAP = 3.0, 5.0, 3.0, 8.0, 1.0
LETTER_EDGE = 2.5
NAME_EDGE, DRUM_EDGE = 2.0, 4.0
DRUM_GIVE = 3.0  # at the edge of a cut, the name of a drum may be so far off its note
NAME_GAP, NAME_GIVE = 4.0, 3.5
FULL_GAP, INITIAL_GAP = 3.0, 1.5  # as they are settled in the end
NAME_FAR = 7.0  # further from its stroke a name is not read as its name
_TOUCH = 3.5  # radius of the mark of a stroke in its lane
_REST_REACH = 5.5
_DIGIT = 13.0  # a digit of the time signature
_AROUND_TIME = 9.0
BAR_ROOM, FINAL_ROOM, REPEAT_ROOM = 4.0, 11.0, 17.0


Names = Mapping[Limb, list[Label]]


class PlacedLabel(NamedTuple):
    """A text with its middle ``x`` pixels from the left edge of its cut, on line ``line`` (from 0) of its row."""

    label: Label
    x: float
    line: int = 0


@dataclass(frozen=True, slots=True)
class CutPlan:
    """One cut with everything in its place."""

    cut: Cut
    spacing: Spacing
    hands: tuple[PlacedChord, ...]
    feet: tuple[PlacedChord, ...]
    hand_runs: Sequence[Run]
    foot_runs: Sequence[Run]
    count: list[PlacedLabel]
    sticking: list[PlacedLabel]
    foot_letters: list[PlacedLabel]
    names: Mapping[Limb, list[PlacedLabel]]
    drums: Mapping[Limb, list[PlacedLabel]]
    is_first: bool
    is_last: bool
    in_full: bool
    """Are the names of the strokes written in full?"""

    def column(self, chord: Chord) -> float:
        """Where the column of a note is."""
        return self.spacing.x(chord.at)


@dataclass(frozen=True, slots=True)
class Plan:
    """A whole diagram in its places.

    ``offsets`` tell where each cut begins on the strip of all cuts, and its end. ``lanes`` are the hands that play:
    an idle hand has no lane.
    """

    score: Score
    staff: Staff
    rows: frozenset[DiagramRow]
    cuts: tuple[CutPlan, ...]
    offsets: tuple[int, ...]
    lanes: tuple[Limb, ...]


def end_words(score: Score) -> str:
    """What stands above the end of the pattern: how often it is played."""
    return f"×{score.pattern.repeat}" if score.pattern.repeat > 1 else ""


def has_repeat_sign(score: Score) -> bool:
    """Does the end lead back to the start?"""
    return score.pattern.loop or score.pattern.repeat > 1


def time_width(score: Score) -> float:
    """Pixels that the time signature takes at the left of the first cut."""
    return max(len(str(score.time.upper)), len(str(score.time.lower))) * _DIGIT


def make_plan(score: Score, rows: frozenset[DiagramRow]) -> Plan:
    """Place everything in a score that the rows show."""
    hand_runs, foot_runs = voice_runs(score)
    staff = read_staff(score, hand_runs, foot_runs)
    feet_lettered = score.pattern.hands is not None and feet_need_letters(score)
    drafts = [
        _Draft(score, cut, staff, rows, labels, of_hands, of_feet, feet_lettered)
        for cut, labels, of_hands, of_feet in zip(score.cuts, read_labels(score), hand_runs, foot_runs, strict=True)
    ]
    cuts = [_plan_cut(draft) for draft in drafts]
    if not all(cut.in_full for cut in cuts):  # full names and initials in one lane would be two languages
        cuts = [_plan_cut(draft, in_full=False) for draft in drafts]
    offsets = tuple(accumulate((cut.spacing.width for cut in cuts), initial=0))
    return Plan(score, staff, rows, tuple(cuts), offsets, _lanes(score))


def _lanes(score: Score) -> tuple[Limb, ...]:
    playing = {limb for cut in score.cuts for limb in cut.hands.hits}
    return tuple(limb for limb in HANDS if limb in playing) or HANDS


@dataclass(frozen=True, slots=True)
class _Draft:
    """What is known of a cut before it is spaced."""

    score: Score
    cut: Cut
    staff: Staff
    rows: frozenset[DiagramRow]
    labels: CutLabels
    hand_runs: list[Run]
    foot_runs: list[Run]
    feet_lettered: bool

    @property
    def is_first(self) -> bool:
        return self.cut.start == 0

    @property
    def is_last(self) -> bool:
        return self.cut is self.score.cuts[-1]

    @property
    def end_room(self) -> float:
        """What a bar line, a final line or a repeat sign takes."""
        if DiagramRow.NOTATION not in self.rows:
            return 0
        if self.is_last:
            return REPEAT_ROOM if has_repeat_sign(self.score) else FINAL_ROOM
        return BAR_ROOM if self.cut.ends_bar else 0


def _plan_cut(draft: _Draft, in_full: bool = True) -> CutPlan:
    cut, labels = draft.cut, draft.labels
    hands, feet = _place_voices(draft)
    feet_labels = foot_letters(cut) if draft.feet_lettered else []
    with_names = DiagramRow.NAMES in draft.rows
    names = labels.names if with_names else {}
    drums = labels.drums if with_names else {}
    rows = [*_staff_rows(draft, hands, feet), *_text_rows(draft, feet_labels), *_drum_rows(drums)]
    moments = [extent.at for row in rows[:2] for extent in row.extents]
    least = max((label.width + 2 * DRUM_EDGE for found in drums.values() for label in found), default=0)

    def spaced(names: Names, gap: float) -> Spacing:
        wide = max(least, *(_width_of_all(found, gap) for found in names.values()), 0)
        return space(cut.beats, cut.slots, [*rows, *_name_rows(names)], moments, draft.end_room, wide)

    names, gap, spacing = _first_that_fits(cut, names, spaced, in_full)
    return CutPlan(
        cut,
        spacing,
        hands,
        feet,
        draft.hand_runs,
        draft.foot_runs,
        _in_columns(labels.count, spacing) if DiagramRow.COUNT in draft.rows else [],
        _in_columns(labels.sticking, spacing) if DiagramRow.STICKING in draft.rows else [],
        _in_columns(feet_labels, spacing) if DiagramRow.STICKING in draft.rows else [],
        {limb: _settled(found, spacing, gap) for limb, found in names.items()},
        {limb: _staggered(found, spacing) for limb, found in drums.items()},
        draft.is_first,
        draft.is_last,
        gap == FULL_GAP,
    )


def _first_that_fits(
    cut: Cut, names: Names, spaced: Callable[[Names, float], Spacing], in_full: bool
) -> tuple[Names, float, Spacing]:
    """The names in full; where there is no room their initials; at the very worst one for each written note."""
    if not names:
        return names, FULL_GAP, spaced(names, FULL_GAP)
    if in_full:
        spacing = spaced(names, FULL_GAP)
        if _all_fit(names, spacing, FULL_GAP):
            return names, FULL_GAP, spacing
    short = initials(cut)
    spacing = spaced(short, INITIAL_GAP)
    if any(_width_of_all(found, INITIAL_GAP) > spacing.width for found in short.values()):
        short = {limb: [together[0] for together in parts(found)] for limb, found in short.items()}
        spacing = spaced(short, INITIAL_GAP)
    return short, INITIAL_GAP, spacing


def _all_fit(names: Names, spacing: Spacing, gap: float) -> bool:
    return not spacing.tight or all(_fit(found, spacing, gap) for found in names.values())


def _width_of_all(labels: Sequence[Label], gap: float) -> float:
    """What the names of one hand take side by side."""
    return sum([label.width + gap for label in labels]) - gap + 2 * NAME_EDGE


def _place_voices(draft: _Draft) -> tuple[tuple[PlacedChord, ...], tuple[PlacedChord, ...]]:
    cut, staff = draft.cut, draft.staff
    beamed = {id(chord) for run in (*draft.hand_runs, *draft.foot_runs) if run.beamed for chord in run.chords}
    hands = tuple(place_chord(chord, staff, True, id(chord) in beamed) for chord in cut.hands.chords)
    by_time = {chord.at: chord for chord in cut.hands.chords}
    feet = tuple(
        place_chord(chord, staff, False, id(chord) in beamed, aside_of_hands(chord, by_time.get(chord.at), staff))
        for chord in cut.feet.chords
    )
    return hands, feet


def _staff_rows(draft: _Draft, hands: tuple[PlacedChord, ...], feet: tuple[PlacedChord, ...]) -> list[Row]:
    timed = draft.is_first and DiagramRow.NOTATION in draft.rows
    low = time_width(draft.score) + _AROUND_TIME if timed else 2
    words = width(end_words(draft.score), BEAT, bold=True) if draft.is_last else 0
    high = max(draft.end_room, words) + 3
    cut = draft.cut
    voices: tuple[tuple[tuple[PlacedChord, ...], Voice], ...] = ((hands, cut.hands), (feet, cut.feet))
    return [
        Row(
            sorted(
                [
                    *[chord.extent for chord in chords],
                    *[Extent(rest.at, _REST_REACH, _REST_REACH) for rest in voice.rests],
                ]
            ),
            STAFF_GAP,
            low=low,
            high=high,
        )
        for chords, voice in voices
    ]


def _text_rows(draft: _Draft, feet_labels: list[Label]) -> Iterator[Row]:
    labels, rows = draft.labels, draft.rows
    if DiagramRow.COUNT in rows:
        yield Row([label.extent for label in labels.count], COUNT_GAP)
    if DiagramRow.STICKING in rows:
        for found in (labels.sticking, feet_labels):
            yield Row([label.extent for label in found], LETTER_GAP, low=LETTER_EDGE, high=LETTER_EDGE)
    if DiagramRow.HEIGHTS in rows:
        for limb in HANDS:
            hits = draft.cut.hands.hits.get(limb, ())
            yield Row([Extent(hit.at, _TOUCH - hit.shift, _TOUCH + hit.shift) for hit in hits], TOUCH_GAP)


def _name_rows(names: Names) -> Iterator[Row]:
    """Names keep clear of each other; those of one drag or diddle may move apart together."""
    for found in names.values():
        together = parts(found)
        yield Row([_joint_extent(labels) for labels in together], NAME_GAP, NAME_GIVE, NAME_EDGE, NAME_EDGE)
        for before, after in pairwise(together):
            if len(before) > 1 or len(after) > 1:
                yield Row([before[-1].extent, after[0].extent], NAME_GAP, NAME_GIVE, NAME_EDGE, NAME_EDGE)


def _joint_extent(labels: Sequence[Label]) -> Extent:
    if len(labels) == 1:
        return labels[0].extent
    at = sum(label.at for label in labels) / len(labels)
    shift = sum(label.shift for label in labels) / len(labels)
    half = (sum(label.width + NAME_GAP for label in labels) - NAME_GAP) / 2
    return Extent(at, half - shift, half + shift)


def _drum_rows(drums: Names) -> Iterator[Row]:
    """Names of drums are staggered on two lines, so every other one has to be clear."""
    edge = DRUM_EDGE - DRUM_GIVE
    for found in filter(None, drums.values()):
        for first in (0, 1):
            yield Row([label.extent for label in found[first::2]], DRUM_GAP, low=edge, high=edge, free=True)


def _in_columns(labels: Sequence[Label], spacing: Spacing) -> list[PlacedLabel]:
    return [PlacedLabel(label, spacing.x(label.at) + label.shift) for label in labels]


def _settled(labels: Sequence[Label], spacing: Spacing, gap: float) -> list[PlacedLabel]:
    wanted = [spacing.x(label.at) + label.shift for label in labels]
    places = settle(wanted, [label.width for label in labels], gap, NAME_EDGE, spacing.width - NAME_EDGE)
    return [PlacedLabel(label, x) for label, x in zip(labels, places, strict=True)]


def _fit(labels: Sequence[Label], spacing: Spacing, gap: float) -> bool:
    """Do the names of a hand stand where their strokes are, or nearly so?"""
    if _width_of_all(labels, gap) > spacing.width:
        return False
    placed = iter(_settled(labels, spacing, gap))
    for together in parts(labels):
        drifts = [next(placed).x - spacing.x(label.at) - label.shift for label in together]
        if abs(sum(drifts)) > NAME_FAR * len(together):
            return False
    return True


def _staggered(labels: Sequence[Label], spacing: Spacing) -> list[PlacedLabel]:
    """Names of drums, each on the first line where there is room for it."""
    ends: list[float] = []
    found = []
    for label in labels:
        half = label.width / 2
        x = max(DRUM_EDGE + half, min(spacing.x(label.at) + label.shift, spacing.width - DRUM_EDGE - half))
        line = next((line for line, end in enumerate(ends) if end + DRUM_GAP <= x - half), len(ends))
        ends[line : line + 1] = [x + half]
        found.append(PlacedLabel(label, x, line))
    return found
