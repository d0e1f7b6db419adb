"""Where the heads of one written note stand, and how far they reach."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from wristwork.drawing.glyphs import SPACE
from wristwork.drawing.shape import Staff, accented_below
from wristwork.drawing.spacing import Extent
from wristwork.drawing.staff_positions import STAFF_POSITIONS, Head, HeadShape, head_glyph, head_shape
from wristwork.drawing.voices import Chord, Hit
from wristwork.pattern.drums import Opening
from wristwork.pattern.model import Drum, Level

STEM_WIDTH = 1.1
GRACE_SIZE = 0.64
PARENTHESIS = 3.7  # width of one, with its distance from the head
DOT = 6.0  # an augmentation dot, with its distance from the head
_FLAG = 8.0
_GRACE_REACH = 4.5
_SMALL_THREE = 13.0

_OPENINGS = {drum: drum.row.opening for drum in Drum if drum.row.opening is not Opening.NONE}


class PlacedHead(NamedTuple):
    """One head, ``x`` pixels from its column, with the hits that fall on it."""

    family: Head
    glyph: str
    x: float
    y: float
    shape: HeadShape
    step: int
    hits: tuple[Hit, ...]


class PlacedChord(NamedTuple):
    """The heads of one written note, lowest first; ``stem`` is the stem's x from the column (0 where there is none).

    An ``accented`` note has an accent outside its stem, a ghost takes parentheses, and ``opening`` says how far
    the cymbals of the hi-hat stand apart where the note says so.
    """

    chord: Chord
    heads: tuple[PlacedHead, ...]
    up: bool
    stem: float
    beamed: bool
    accented: bool
    is_ghost: bool
    opening: Opening

    @property
    def has_stem(self) -> bool:
        """Whole notes and breves have none."""
        return self.chord.halvings > 0

    @property
    def left(self) -> float:
        """How far it reaches left of its column, grace notes and parentheses included."""
        head = self.heads[0]
        reach = head.shape.half_width * SPACE - head.x
        if len(self.heads) > 1:
            reach = max([head.shape.half_width * SPACE - head.x for head in self.heads])
        if self.is_ghost:
            reach += PARENTHESIS
        if self.chord.slashes.three:
            reach = max(reach, _SMALL_THREE)
        if self.chord.graces:
            reach = max(reach, _GRACE_REACH - self.chord.graces[0].shift)
        return reach

    @property
    def right(self) -> float:
        """How far it reaches right of its column."""
        head = self.heads[0]
        reach = head.shape.half_width * SPACE + head.x
        if len(self.heads) > 1:
            reach = max([head.shape.half_width * SPACE + head.x for head in self.heads])
        if self.is_ghost:
            reach += PARENTHESIS
        if self.chord.piece.dotted:
            reach += DOT
        if self.chord.flags and not self.beamed:
            reach = max(reach, self.stem + _FLAG)
        return reach

    def _is_ghosted(self, head: PlacedHead) -> bool:
        """Is everything that falls on this head a ghost note?"""
        return self.chord.note.left is None or all(hit.stroke.level is Level.GHOST for hit in head.hits)

    @property
    def parentheses(self) -> tuple[tuple[PlacedHead, PlacedHead], ...]:
        """Heads with a left and with a right parenthesis: each its own pair, one pair for heads side by side."""
        if not self.is_ghost:
            return ()
        if len(self.heads) > 1 and self.heads[0].x != self.heads[1].x and all(map(self._is_ghosted, self.heads)):
            return ((self.heads[0], self.heads[1]),)
        return tuple((head, head) for head in self.heads if self._is_ghosted(head))

    @property
    def extent(self) -> Extent:
        """What it reaches of its column."""
        return Extent(self.chord.cut_beat, self.left, self.right)


def place_chord(chord: Chord, staff: Staff, up: bool, beamed: bool, aside: float = 0) -> PlacedChord:
    """Put the heads of a note on the staff; ``aside`` moves the whole note right, out of another voice's way."""
    value = chord.halvings
    heads: list[PlacedHead] = []
    for drum, hits in chord.heads:
        family, glyph, shape, step = _head_of(drum, value)
        heads.append(PlacedHead(family, glyph, aside, staff.y(drum), shape, step, hits))
    if len(heads) > 1 and abs(heads[0].y - heads[1].y) < SPACE:
        heads = _side_by_side(heads, up)
    stem = 0.0
    if value > 0 and len(heads) == 1:
        shape = heads[0].shape
        stem = aside + (shape.stem if up else shape.stem_down)[0] * SPACE
    elif value > 0:
        xs = [(head.shape.stem if up else head.shape.stem_down)[0] * SPACE for head in heads if head.x == aside]
        stem = aside + (max(xs) if up else min(xs))
    accented, is_ghost, opening = (False, False, Opening.NONE) if chord.ties_back else _marks(chord)
    return PlacedChord(chord, tuple(heads), up, stem, beamed, accented, is_ghost, opening)


def _marks(chord: Chord) -> tuple[bool, bool, Opening]:
    """Is a note accented outside its stem, is it a ghost, and how open is the hi-hat?"""
    note = chord.note
    if note.left is None:
        accented, is_ghost = note.level is Level.ACCENT, note.level is Level.GHOST
    else:
        accented, is_ghost = Level.ACCENT in note.levels and not accented_below(chord), Level.GHOST in note.levels
    for drum, _ in chord.heads:
        if drum in _OPENINGS:
            return accented, is_ghost, _OPENINGS[drum]
    return accented, is_ghost, Opening.NONE


@cache
def _head_of(drum: Drum, halvings: int) -> tuple[Head, str, HeadShape, int]:
    position = STAFF_POSITIONS[drum]
    return position.head, head_glyph(position.head, halvings), head_shape(position.head, halvings), position.step


def _side_by_side(heads: list[PlacedHead], up: bool) -> list[PlacedHead]:
    """Two heads too close to stand above each other: one on either side of the stem."""
    low, high = heads
    apart = (low.shape.half_width + high.shape.half_width) * SPACE - STEM_WIDTH
    if up:
        return [low, high._replace(x=high.x + apart)]
    return [low._replace(x=low.x - apart), high]


def aside_of_hands(feet: Chord, hands: Chord | None, staff: Staff) -> float:
    """How far a note of the feet moves right where a head of the hands is in its way."""
    if hands is None:
        return 0
    for hand_drum, _ in hands.heads:
        for foot_drum, _ in feet.heads:
            one, other = STAFF_POSITIONS[hand_drum], STAFF_POSITIONS[foot_drum]
            same = one.head is other.head and feet.halvings == hands.halvings
            shared = one.step == other.step and same and other.head is not Head.SLASHED
            if abs(staff.y(hand_drum) - staff.y(foot_drum)) < SPACE and not shared:
                return 11
    return 0
