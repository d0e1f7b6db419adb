"""Score → layout: every column, text and head of a diagram has its place; nothing is drawn yet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from wristwork.drawing.beams import Run
from wristwork.drawing.chart_marks import chart_rows
from wristwork.drawing.labels import (
    HANDS,
    CutLabels,
    Label,
    feet_need_letters,
    foot_letters,
    read_labels,
)
from wristwork.drawing.lettering import BEAT, width
from wristwork.drawing.naming import (
    DRUM_EDGE,
    FULL_GAP,
    Names,
    PlacedLabel,
    drum_rows,
    first_that_fits,
    in_columns,
    name_rows,
    settled,
    staggered,
    width_of_all,
    within_edges,
)
from wristwork.drawing.noteheads import PlacedChord, aside_of_hands, place_chord
from wristwork.drawing.score import Cut, Score
from wristwork.drawing.shape import Staff, read_staff, voice_runs
from wristwork.drawing.spacing import Extent, SpacedRow, Spacing, space
from wristwork.drawing.voices import Chord, Voice
from wristwork.pattern.model import DiagramRow, Drum
from wristwork.technique.strokes import Limb

COUNT_GAP, LETTER_GAP, STAFF_GAP, TOUCH_GAP = 3.0, 5.0, 3.0, 1.0
LETTER_EDGE = 2.5
_TOUCH = 3.5  # radius of the mark of a stroke in its lane
_REST_REACH = 5.5
_DIGIT = 13.0  # a digit of the time signature
_AROUND_TIME = 9.0
BAR_ROOM, FINAL_ROOM, REPEAT_ROOM = 4.0, 11.0, 17.0


@dataclass(frozen=True, slots=True)
class CutLayout:
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
    stays_on: Mapping[Limb, Drum]
    is_first: bool
    is_last: bool
    in_full: bool
    """Are the names of the strokes written in full?"""

    def column(self, chord: Chord) -> float:
        """Where the column of a note is."""
        return self.spacing.x(chord.cut_beat)


@dataclass(frozen=True, slots=True)
class Layout:
    """A whole diagram in its places.

    ``offsets`` tell where each cut begins on the strip of all cuts, and its end. ``lanes`` are the hands that play:
    an idle hand has no lane.
    """

    score: Score
    staff: Staff
    rows: frozenset[DiagramRow]
    cuts: tuple[CutLayout, ...]
    offsets: tuple[int, ...]
    lanes: tuple[Limb, ...]


def end_words(score: Score, cut: Cut) -> str:
    """What stands above the end of a cut: how often that is played which ends there, where twice is not meant."""
    if cut is score.cuts[-1] and score.pattern.repeat > 1:
        return f"×{score.pattern.repeat}"
    times = score.repeat_ends.get(cut.end, 0)
    return f"×{times}" if times > 2 else ""


def has_repeat_sign(score: Score, cut: Cut) -> bool:
    """Does the end of a cut lead back?"""
    is_last = cut is score.cuts[-1]
    return cut.end in score.repeat_ends or (is_last and (score.pattern.loop or score.pattern.repeat > 1))


def time_width(score: Score) -> float:
    """Pixels that the time signature takes at the left of the first cut."""
    return max(len(str(score.time.upper)), len(str(score.time.lower))) * _DIGIT


def lay_out(score: Score, rows: frozenset[DiagramRow]) -> Layout:
    """Place everything in a score that the rows show."""
    hand_runs, foot_runs = voice_runs(score)
    staff = read_staff(score, hand_runs, foot_runs)
    feet_lettered = score.pattern.hands is not None and feet_need_letters(score)
    drafts = [
        _CutContents(score, cut, staff, rows, labels, of_hands, of_feet, feet_lettered)
        for cut, labels, of_hands, of_feet in zip(score.cuts, read_labels(score), hand_runs, foot_runs, strict=True)
    ]
    cuts = [_lay_out_cut(contents) for contents in drafts]
    if not all(cut.in_full for cut in cuts):  # full names and initials in one lane would be two languages
        cuts = [_lay_out_cut(contents, in_full=False) for contents in drafts]
    cuts = _with_lines(cuts)
    offsets = tuple(accumulate((cut.spacing.width for cut in cuts), initial=0))
    return Layout(score, staff, rows, tuple(cuts), offsets, _lanes(score))


def _with_lines(cuts: list[CutLayout]) -> list[CutLayout]:
    """The cuts with the names of drums on their lines."""
    if not any(found for cut in cuts for found in cut.drums.values()):
        return cuts
    lined = {limb: staggered([cut.drums[limb] for cut in cuts]) for limb in cuts[0].drums}
    return [replace(cut, drums={limb: of_limb[n] for limb, of_limb in lined.items()}) for n, cut in enumerate(cuts)]


def _lanes(score: Score) -> tuple[Limb, ...]:
    playing = {limb for cut in score.cuts for limb in cut.hands.hits}
    return tuple(limb for limb in HANDS if limb in playing) or HANDS


@dataclass(frozen=True, slots=True)
class _CutContents:
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
        return self.cut is self.score.cuts[0]

    @property
    def is_last(self) -> bool:
        return self.cut is self.score.cuts[-1]

    @property
    def end_room(self) -> float:
        """What a bar line, a final line or a repeat sign takes."""
        if DiagramRow.NOTATION not in self.rows:
            return 0
        if has_repeat_sign(self.score, self.cut):
            return REPEAT_ROOM
        if self.is_last:
            return FINAL_ROOM
        return BAR_ROOM if self.cut.ends_bar else 0


def _lay_out_cut(contents: _CutContents, in_full: bool = True) -> CutLayout:
    cut, labels = contents.cut, contents.labels
    hands, feet = _place_voices(contents)
    feet_labels = foot_letters(cut) if contents.feet_lettered else []
    with_names = DiagramRow.NAMES in contents.rows
    names = labels.names if with_names else {}
    drums = labels.drums if with_names else {}
    rows = [*_staff_rows(contents, hands, feet), *_text_rows(contents, feet_labels), *drum_rows(drums)]
    moments = [extent.cut_beat for row in rows[:2] for extent in row.extents]
    least = max((label.width + 2 * DRUM_EDGE for found in drums.values() for label in found), default=0)

    def spaced(names: Names, gap: float) -> Spacing:
        wide = max(least, *(width_of_all(found, gap) for found in names.values()), 0)
        return space(cut.beats, cut.slots, [*rows, *name_rows(names)], moments, contents.end_room, wide)

    names, gap, spacing = first_that_fits(cut, names, spaced, in_full)
    return CutLayout(
        cut,
        spacing,
        hands,
        feet,
        contents.hand_runs,
        contents.foot_runs,
        in_columns(labels.count, spacing) if DiagramRow.COUNT in contents.rows else [],
        in_columns(labels.sticking, spacing) if DiagramRow.STICKING in contents.rows else [],
        in_columns(feet_labels, spacing) if DiagramRow.STICKING in contents.rows else [],
        {limb: settled(found, spacing, gap) for limb, found in names.items()},
        {limb: within_edges(found, spacing) for limb, found in drums.items()},
        labels.stays_on,
        contents.is_first,
        contents.is_last,
        gap == FULL_GAP,
    )


def _place_voices(contents: _CutContents) -> tuple[tuple[PlacedChord, ...], tuple[PlacedChord, ...]]:
    cut, staff = contents.cut, contents.staff
    beamed = {id(chord) for run in (*contents.hand_runs, *contents.foot_runs) if run.beamed for chord in run.chords}
    hands = tuple(place_chord(chord, staff, True, id(chord) in beamed) for chord in cut.hands.chords)
    by_time = {chord.cut_beat: chord for chord in cut.hands.chords}
    feet = tuple(
        place_chord(chord, staff, False, id(chord) in beamed, aside_of_hands(chord, by_time.get(chord.cut_beat), staff))
        for chord in cut.feet.chords
    )
    return hands, feet


def _staff_rows(
    contents: _CutContents, hands: tuple[PlacedChord, ...], feet: tuple[PlacedChord, ...]
) -> list[SpacedRow]:
    timed = contents.is_first and DiagramRow.NOTATION in contents.rows
    low = time_width(contents.score) + _AROUND_TIME if timed else 2
    if contents.cut.start in contents.score.repeat_starts and DiagramRow.NOTATION in contents.rows:
        low += REPEAT_ROOM
    words = width(end_words(contents.score, contents.cut), BEAT, bold=True)
    high = max(contents.end_room, words) + 3
    cut = contents.cut
    voices: tuple[tuple[tuple[PlacedChord, ...], Voice], ...] = ((hands, cut.hands), (feet, cut.feet))
    return [
        SpacedRow(
            sorted(
                [
                    *[chord.extent for chord in chords],
                    *[Extent(rest.cut_beat, _REST_REACH, _REST_REACH) for rest in voice.rests],
                ]
            ),
            STAFF_GAP,
            low=low,
            high=high,
        )
        for chords, voice in voices
    ]


def _text_rows(contents: _CutContents, feet_labels: list[Label]) -> Iterator[SpacedRow]:
    labels, rows = contents.labels, contents.rows
    pattern = contents.score.pattern
    if DiagramRow.NOTATION in rows and (pattern.words or pattern.dynamics or pattern.tempos):
        yield from chart_rows(contents.cut, pattern)
    if DiagramRow.COUNT in rows:
        yield SpacedRow([label.extent for label in labels.count], COUNT_GAP)
    if DiagramRow.STICKING in rows:
        for found in (labels.sticking, feet_labels):
            yield SpacedRow([label.extent for label in found], LETTER_GAP, low=LETTER_EDGE, high=LETTER_EDGE)
    if DiagramRow.HEIGHTS in rows:
        for limb in HANDS:
            hits = contents.cut.hands.hits.get(limb, ())
            yield SpacedRow([Extent(hit.cut_beat, _TOUCH - hit.shift, _TOUCH + hit.shift) for hit in hits], TOUCH_GAP)
