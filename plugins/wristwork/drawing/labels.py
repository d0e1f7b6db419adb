"""The texts of a cut, before they have their places: counts, sticking letters, stroke names, drum names."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import groupby

from wristwork.drawing.counting import spoken
from wristwork.drawing.lettering import BEAT, GRACE_LETTER, LETTER, NARROW_LETTER, SMALL, width
from wristwork.drawing.score import Chord, Cut, Score
from wristwork.drawing.spacing import GRACE_FIRST, GRACE_STEP, Extent
from wristwork.drawing.svg import fraction
from wristwork.pattern.model import Drum, Lane, Level
from wristwork.technique.strokes import Kind, Limb, Stroke

NARROW_SLOTS = 9
"""Beats of so many slots may have smaller letters, and initials for the names of the strokes."""


@dataclass(frozen=True, slots=True)
class Label:
    """A text at a moment (beats from the start of its cut), ``shift`` pixels from that column.

    ``marks`` are attributes that tell which stroke it belongs to; ``part`` numbers what belongs together
    and so may move together.
    """

    text: str
    at: float
    shift: float
    width: float
    css: str = ""
    marks: str = ""
    part: int = 0

    @property
    def extent(self) -> Extent:
        """What it reaches of its column."""
        return Extent(self.at, self.width / 2 - self.shift, self.width / 2 + self.shift)


@dataclass(frozen=True, slots=True)
class CutLabels:
    """All the texts of one cut, row by row; names and drums by hand."""

    count: list[Label]
    sticking: list[Label]
    names: Mapping[Limb, list[Label]] = field(default_factory=dict)
    drums: Mapping[Limb, list[Label]] = field(default_factory=dict)


HANDS = (Limb.RIGHT_HAND, Limb.LEFT_HAND)


def marks(stroke: Stroke) -> str:
    """Attributes by which a playing cursor finds what is drawn for a stroke."""
    name = f' data-stroke="{stroke.name}"' if stroke.name else ""
    return f' data-at="{fraction(stroke.at)}" data-limb="{stroke.limb}"{name}'


def grace_shift(index: int, graces: int) -> float:
    """Pixels from the column of the main note to its grace note of this index (negative)."""
    return -(GRACE_FIRST + (graces - 1 - index) * GRACE_STEP)


def read_labels(score: Score) -> list[CutLabels]:
    """The texts of every cut."""
    lane = score.pattern.hands or score.pattern.feet
    assert lane is not None, "a pattern has at least one lane"
    counts = _counts(lane, score)
    drum_labels = _drums(score)
    with_hands = score.pattern.hands is not None
    return [
        CutLabels(
            counts[number],
            _sticking(cut, with_hands),
            {limb: _names(cut, limb, full=True) for limb in HANDS},
            {limb: drum_labels[limb][number] for limb in HANDS},
        )
        for number, cut in enumerate(score.cuts)
    ]


def _counts(lane: Lane, score: Score) -> list[list[Label]]:
    dealt: list[list[Label]] = []
    groups = iter(lane.groups)
    for cut in score.cuts:
        labels: list[Label] = []
        beat = cut.start
        while beat < cut.end:
            group = next(groups)
            step = group.beats / len(group.slots)
            for index, word in enumerate(spoken(group, beat, score.time)):
                on_beat = index * group.beats % len(group.slots) == 0
                size, css = (BEAT, "ww-strong") if on_beat else (SMALL, "")
                at = beat - cut.start + index * step
                labels.append(Label(word, at, 0, width(word, size, on_beat), css))
            beat += group.beats
        dealt.append(labels)
    return dealt


def letter_size(cut: Cut) -> int:
    """Font size of the sticking letters of a cut."""
    return NARROW_LETTER if cut.slots >= NARROW_SLOTS else LETTER


def _sticking(cut: Cut, with_hands: bool) -> list[Label]:
    voice = cut.hands if with_hands else cut.feet
    return [label for part, chord in enumerate(voice.chords) for label in _chord_letters(chord, cut, part)]


def _chord_letters(chord: Chord, cut: Cut, part: int) -> Iterator[Label]:
    if chord.ties_back:
        return
    note, at = chord.note, float(chord.at - cut.start)
    opening, closing = ("(", ")") if note.level is Level.GHOST else ("", "")
    for index, stroke in enumerate(chord.graces):
        letter = opening + stroke.limb[0].upper()
        opening = ""
        shift = grace_shift(index, len(chord.graces))
        if letter[0] == "(":
            shift -= width("(", GRACE_LETTER) / 2
        yield Label(letter, at, shift, width(letter, GRACE_LETTER), "ww-grace", marks(stroke), part)
    accented = note.level is Level.ACCENT
    letter = "B" if note.is_both else note.sides[0].letter
    text = opening + letter + closing
    size = letter_size(cut)
    shift = width(closing, size) / 2 if closing and not opening else 0
    first = next(stroke for _, strokes in chord.heads for stroke in strokes)
    css = "ww-accent" if accented else ""
    yield Label(text, at, shift, width(text, size, accented), css, marks(first), part)


def chord_touches(chord: Chord, limb: Limb) -> Iterator[tuple[Stroke, float]]:
    """The strokes of one limb that belong to a written note, in order, each with its shift from its moment."""
    for index, stroke in enumerate(chord.graces):
        if stroke.limb is limb:
            yield stroke, grace_shift(index, len(chord.graces))
    for _, played in chord.heads:
        for stroke in played:
            if stroke.limb is limb:
                yield stroke, 0


def _names(cut: Cut, limb: Limb, full: bool) -> list[Label]:
    labels: list[Label] = []
    for part, chord in enumerate(cut.hands.chords):
        for stroke, shift in chord_touches(chord, limb):
            name = str(stroke.name) if full else str(stroke.name)[0].upper()
            accented = stroke.level is Level.ACCENT
            at = float(stroke.at - cut.start)
            css = "ww-accent" if accented else ""
            labels.append(Label(name, at, shift, width(name, SMALL, accented), css, marks(stroke), part))
    return labels


def initials(cut: Cut) -> dict[Limb, list[Label]]:
    """The names of the strokes by their first letters, for where there is no room."""
    return {limb: _names(cut, limb, full=False) for limb in HANDS}


def parts(labels: Iterable[Label]) -> Iterator[list[Label]]:
    """Labels that belong together (a drag's, a diddle's), in lists."""
    for _, together in groupby(labels, key=lambda label: label.part):
        yield list(together)


def _drums(score: Score) -> dict[Limb, list[list[Label]]]:
    """For each hand and cut, the name of a drum at each stroke that changes to it."""
    drum: dict[Limb, Drum | None] = dict.fromkeys(HANDS, Drum.PAD if score.one_surface else None)
    found: dict[Limb, list[list[Label]]] = {limb: [] for limb in HANDS}
    for cut in score.cuts:
        for limb in HANDS:
            labels: list[Label] = []
            for stroke in cut.strokes:
                if stroke.limb is limb and stroke.on is not drum[limb]:
                    drum[limb] = stroke.on
                    labels.append(_drum_label(stroke, float(stroke.at - cut.start)))
            found[limb].append(labels)
    return found


def _drum_label(stroke: Stroke, at: float) -> Label:
    shift = -GRACE_FIRST if stroke.kind is Kind.GRACE else 0.0
    return Label(str(stroke.on), at, shift, width(str(stroke.on), SMALL))


def feet_need_letters(score: Score) -> bool:
    """Can the drum not tell which foot plays (both feet on one drum, or the other foot's pedal)?"""
    usual = {(Limb.RIGHT_FOOT, Drum.KICK), (Limb.LEFT_FOOT, Drum.HI_HAT_FOOT)}
    return any((stroke.limb, stroke.on) not in usual for stroke in score.strokes if not stroke.limb.is_hand)


def foot_letters(cut: Cut) -> list[Label]:
    """Small letters for the feet, for where :func:`feet_need_letters`."""
    labels = []
    for part, chord in enumerate(cut.feet.chords):
        if not chord.ties_back:
            letter = "B" if chord.note.is_both else chord.note.sides[0].letter
            first = next(stroke for _, strokes in chord.heads for stroke in strokes)
            at = float(chord.at - cut.start)
            labels.append(Label(letter, at, 0, width(letter, SMALL), "", marks(first), part))
    return labels

