"""Where each drum stands on the staff and with which head, by the percussion community's usual places."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from wristwork.pattern.drums import Drum
from wristwork.pattern.drums import Head as Head


@dataclass(frozen=True, slots=True)
class StaffPosition:
    """Where a drum stands, by its row in :class:`wristwork.pattern.drums.DrumRow`."""

    step: int
    head: Head
    surface: str


STAFF_POSITIONS: dict[Drum, StaffPosition] = {
    drum: StaffPosition(drum.row.step, drum.row.head, drum.row.surface) for drum in Drum
}


@dataclass(frozen=True, slots=True)
class HeadShape:
    """Half the width of a head and where a stem meets it, in staff spaces from its centre.

    ``stem`` is the point for a stem that goes up; one that goes down meets the opposite point,
    except on a triangle, which it meets at its base.
    """

    half_width: float
    stem: tuple[float, float]
    stem_down: tuple[float, float]


def _mirrored(half_width: float, x: float, y: float) -> HeadShape:
    return HeadShape(half_width, (x, y), (-x, -y))


_SHAPES = {
    Head.PLAIN: _mirrored(0.6, 0.5625, -0.14),
    Head.SLASHED: _mirrored(0.6, 0.5625, -0.14),
    Head.CROSS: _mirrored(0.52, 0.4375, -0.42),
    Head.DIAMOND: _mirrored(0.58, 0.5, -0.02),
    Head.TRIANGLE: HeadShape(0.62, (0.5625, 0.44), (-0.5625, 0.44)),
    Head.SWEEP: _mirrored(0.8, 0.74, -0.46),
}
_HOLLOW_CROSS = _mirrored(0.66, 0.5625, -0.4)
_STEMLESS = {
    Head.PLAIN: 0.88,
    Head.SLASHED: 1.0,
    Head.CROSS: 0.68,
    Head.DIAMOND: 0.76,
    Head.TRIANGLE: 0.78,
    Head.SWEEP: 0.8,
}
# A breve is wider by its bars.
_BARS = {Head.PLAIN: 0.42, Head.SLASHED: 0.3, Head.CROSS: 0.2, Head.DIAMOND: 0.2, Head.TRIANGLE: 0.2, Head.SWEEP: 0.2}

_KINDS = {-1: "DoubleWhole", 0: "Whole", 1: "Half"}


def head_glyph(head: Head, halvings: int) -> str:
    """The SMuFL name of a head for a value of so many halvings of a whole note."""
    kind = _KINDS.get(halvings, "Black")
    return f"noteheadSlashed{kind}1" if head is Head.SLASHED else f"notehead{head.value}{kind}"


@cache
def head_shape(head: Head, halvings: int) -> HeadShape:
    """Width and stem points of a head for a value of so many halvings of a whole note."""
    if halvings <= 0:
        return _mirrored(_STEMLESS[head] + (_BARS[head] if halvings < 0 else 0), 0, 0)
    return _HOLLOW_CROSS if head is Head.CROSS and halvings == 1 else _SHAPES[head]


def has_one_surface(drums: Iterable[Drum]) -> bool:
    """Does everything happen on one thing that is struck?"""
    return len({STAFF_POSITIONS[drum].surface for drum in drums}) <= 1
