"""The outlines of the notation, in one table under their SMuFL names.

Outlines are SVG paths with absolute commands (M, L, C, Z) in hundredths of a staff space, y down.
All were drawn for this project. Origins: note heads, rests, digits, marks: their centre (rests that
hang from or stand on a line: that line); flags: the end of the stem, in its middle; parentheses: the
edge that faces the head. Outlines run clockwise and the holes in them the other way round, so that what
is drawn over each other in one path leaves no gaps.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from wristwork.drawing.svg import joined

SPACE = 8
"""One staff space in CSS pixels: the distance of two staff lines."""

_BLACK = "M-57 25C-67 2-51-27-18-41C14-55 46-49 57-25C67-2 51 27 18 41C-14 55-46 49-57 25Z"
_HALF_EYE = "M-47 28C-40 40-14 36 12 20C39 3 54-17 47-28C40-40 14-36-12-20C-39-3-54 17-47 28Z"
_WHOLE = (
    "M-86 0C-86-28-48-50 0-50C48-50 86-28 86 0C86 28 48 50 0 50C-48 50-86 28-86 0Z"
    "M-22-33C-37-23-38-1-26 17C-13 36 8 43 22 33C37 23 38 1 26-17C13-36-8-43-22-33Z"
)
_SLASH_THROUGH_HEAD = "M-94 60L82-72L94-60L-82 72Z"
_SLASH_THROUGH_WHOLE = "M-108 72L96-84L108-72L-96 84Z"
_X_OPEN = (
    "M-66-38L-40-60L0-25L40-60L66-38L26 0L66 38L40 60L0 25L-40 60L-66 38L-26 0Z"
    "M-48-38L-9 0L-48 38L-40 44L0 9L40 44L48 38L9 0L48-38L40-44L0-9L-40-44Z"
)
_DIAMOND_EYE = "M-36 0L0 34L36 0L0-34Z"
_TRIANGLE_EYE = "M0-28L-38 37L38 37Z"
_SWEEP = "M-80 50L34-50L80-50L-34 50Z"
_SWEEP_EYE = "M-60 42L-38 42L60-42L38-42Z"

OUTLINES: dict[str, str] = {
    # Note heads
    "noteheadBlack": _BLACK,
    "noteheadHalf": _BLACK + _HALF_EYE,
    "noteheadWhole": _WHOLE,
    "noteheadDoubleWhole": _WHOLE + "M-107-66L-94-66L-94 66L-107 66ZM94-66L107-66L107 66L94 66Z"
    "M-129-66L-116-66L-116 66L-129 66ZM116-66L129-66L129 66L116 66Z",
    "noteheadXBlack": "M-52-40L-40-52L0-14L40-52L52-40L13 0L52 40L40 52L0 14L-40 52L-52 40L-13 0Z",
    "noteheadXHalf": _X_OPEN,
    "noteheadXWhole": _X_OPEN,
    "noteheadXDoubleWhole": _X_OPEN + "M-88-62L-76-62L-76 62L-88 62ZM76-62L88-62L88 62L76 62Z",
    "noteheadDiamondBlack": "M-58 0L0-56L58 0L0 56Z",
    "noteheadDiamondHalf": "M-60 0L0-58L60 0L0 58Z" + _DIAMOND_EYE,
    "noteheadDiamondWhole": "M-74 0L0-58L74 0L0 58ZM-44 0L0 36L44 0L0-36Z",
    "noteheadDiamondDoubleWhole": "M-74 0L0-58L74 0L0 58ZM-44 0L0 36L44 0L0-36Z"
    "M-96-62L-84-62L-84 62L-96 62ZM84-62L96-62L96 62L84 62Z",
    "noteheadTriangleUpBlack": "M0-56L62 50L-62 50Z",
    "noteheadTriangleUpHalf": "M0-58L64 51L-64 51Z" + _TRIANGLE_EYE,
    "noteheadTriangleUpWhole": "M0-58L76 51L-76 51ZM0-32L-48 38L48 38Z",
    "noteheadTriangleUpDoubleWhole": "M0-58L76 51L-76 51ZM0-32L-48 38L48 38Z"
    "M-98-60L-86-60L-86 60L-98 60ZM86-60L98-60L98 60L86 60Z",
    "noteheadSlashHorizontalEndsBlack": _SWEEP,
    "noteheadSlashHorizontalEndsHalf": _SWEEP + _SWEEP_EYE,
    "noteheadSlashHorizontalEndsWhole": _SWEEP + _SWEEP_EYE,
    "noteheadSlashHorizontalEndsDoubleWhole": _SWEEP + _SWEEP_EYE + "M-100-62L-88-62L-88 62L-100 62Z"
    "M88-62L100-62L100 62L88 62Z",
    "noteheadSlashedBlack1": _BLACK + _SLASH_THROUGH_HEAD,
    "noteheadSlashedHalf1": _BLACK + _HALF_EYE + _SLASH_THROUGH_HEAD,
    "noteheadSlashedWhole1": _WHOLE + _SLASH_THROUGH_WHOLE,
    "noteheadSlashedDoubleWhole1": _WHOLE + _SLASH_THROUGH_WHOLE + "M-107-66L-94-66L-94 66L-107 66Z"
    "M94-66L104-66L104 66L94 66ZM-129-66L-116-66L-116 66L-129 66ZM116-66L129-66L129 66L116 66Z",
    "noteheadParenthesisLeft": "M4-70C-14-50-25-28-25 0C-25 28-14 50 4 70L0 74C-28 55-43 30-43 0C-43-30-28-55 0-74Z",
    "noteheadParenthesisRight": "M0-74C28-55 43-30 43 0C43 30 28 55 0 74L-4 70C14 50 25 28 25 0C25-28 14-50-4-70Z",
    # Rests
    "restDoubleWhole": "M-28-100L28-100L28 0L-28 0Z",
    "restWhole": "M-60 0L60 0L60 52L-60 52Z",
    "restHalf": "M-60-52L60-52L60 0L-60 0Z",
    "restQuarter": "M-22-147L34-74C37-69 37-64 33-58C14-34 4-18 4-2C4 12 12 26 28 45L43 63C47 68 43 73 37 70"
    "C14 59-8 64-8 86C-8 103 3 122 19 139C24 145 19 151 12 147C-20 128-40 104-40 80C-40 58-23 46 3 51L-31 9"
    "C-35 3-35-3-31-9C-11-31-4-45-4-60C-4-78-15-104-34-132C-41-143-31-157-22-147Z",
    # Marks
    "augmentationDot": "M-21 0C-21-12-12-21 0-21C12-21 21-12 21 0C21 12 12 21 0 21C-12 21-21 12-21 0Z",
    "articAccentAbove": "M-70-50L74-10L74 10L-70 50L-70 32L38 0L-70-32Z",
    "articMarcatoAbove": "M-52 52L-8-58L8-58L52 52L36 52L-4-38L-36 52Z",
    "stringsHarmonic": "M-40 0C-40-22-22-40 0-40C22-40 40-22 40 0C40 22 22 40 0 40C-22 40-40 22-40 0Z"
    "M-26 0C-26 14-14 26 0 26C14 26 26 14 26 0C26-14 14-26 0-26C-14-26-26-14-26 0Z",
    "pictHalfOpen1": "M-40 0C-40-22-22-40 0-40C22-40 40-22 40 0C40 22 22 40 0 40C-22 40-40 22-40 0Z"
    "M-26 0C-26 14-14 26 0 26C14 26 26 14 26 0C26-14 14-26 0-26C-14-26-26-14-26 0Z"
    "M-6-58L6-58L6 58L-6 58Z",
    "buzzRoll": "M-44-46L46-46L46-34L-8 25C8 17 24 17 35 24C40 26 42 24 44 16L52 18C50 38 42 48 30 48C14 48 2 34-14 34"
    "C-24 34-32 38-38 48L-48 44L8-24L-26-24C-34-24-38-20-40-12L-48-14Z",
    "unpitchedPercussionClef1": "M-48-100L-16-100L-16 100L-48 100ZM16-100L48-100L48 100L16 100Z",
    "tremolo1": "M-58 12L58-40L58-12L-58 40Z",
    "graceNoteSlashStemUp": "M-62 62L54-54L62-46L-54 70Z",
    # Time signature digits, two staff spaces high
    "timeSig0": "M-72 0C-72-60-42-98 0-98C42-98 72-60 72 0C72 60 42 98 0 98C-42 98-72 60-72 0Z"
    "M-28 0C-28 58-20 88 0 88C20 88 28 58 28 0C28-58 20-88 0-88C-20-88-28-58-28 0Z",
    "timeSig1": "M-54-50C-32-60-16-78-8-98L24-98L24 72C24 86 34 89 52 90L52 98L-52 98L-52 90C-34 89-22 86-22 72L-22-58"
    "C-30-50-40-44-50-42Z",
    "timeSig2": "M-66-50C-66-76-38-98 2-98C46-98 72-76 72-44C72-16 52 0 20 16C-4 28-22 40-36 58C-26 51-12 49 2 51"
    "C24 55 34 66 48 66C56 66 62 60 64 48L74 48C74 80 58 98 34 98C8 98-8 80-32 80C-46 80-54 85-58 98L-70 98"
    "C-72 50-48 26-14 2C12-16 26-28 26-50C26-72 14-87-8-87C-20-87-30-83-36-75C-20-76-8-66-8-50C-8-35-20-24-36-24"
    "C-54-24-66-35-66-50Z",
    "timeSig3": "M-62-56C-62-80-36-98 2-98C40-98 62-80 62-52C62-28 48-12 24-4C52 2 70 20 70 46C70 78 42 98 2 98"
    "C-40 98-66 78-66 50C-66 32-54 22-38 22C-22 22-12 32-12 46C-12 58-18 66-30 70C-26 82-14 87 0 87C20 87 28 74 28 46"
    "C28 18 18 3-4 3L-22 3L-22-11L-4-11C14-11 22-24 22-50C22-76 16-87 2-87C-10-87-20-84-26-76C-14-72-8-64-8-54"
    "C-8-40-18-32-34-32C-50-32-62-42-62-56Z",
    "timeSig4": "M-12-98L38-98C18-44-16 2-50 36L4 36L4-14L46-54L46 36L72 36L72 52L46 52L46 72C46 84 54 89 68 90L68 98"
    "L-18 98L-18 90C-4 89 4 84 4 72L4 52L-76 52L-76 38C-38 2-16-44-12-98Z",
    "timeSig5": "M-54-98C-34-92-16-90 2-90C22-90 40-92 56-98C56-70 36-52 0-52C-14-52-28-54-40-58L-42-16"
    "C-30-28-14-34 6-34C46-34 70-10 70 28C70 72 40 98-4 98C-42 98-66 80-66 52C-66 36-56 26-40 26C-24 26-14 36-14 50"
    "C-14 60-20 68-30 72C-26 82-16 87-4 87C18 87 26 68 26 30C26-4 18-22-2-22C-18-22-32-14-42 2L-54 2Z",
    "timeSig6": "M4 98C-44 98-72 60-72 4C-72-58-38-98 12-98C44-98 64-82 64-58C64-42 54-32 40-32C26-32 16-42 16-54"
    "C16-64 22-72 32-76C28-84 20-87 10-87C-16-87-28-56-28-8C-18-20-6-26 10-26C46-26 70-2 70 36C70 74 44 98 4 98Z"
    "M2 88C18 88 28 70 28 36C28 2 20-14 4-14C-14-14-26 4-26 32C-26 68-16 88 2 88Z",
    "timeSig7": "M-66-98L-54-98C-52-90-48-88-42-90C-28-98-14-98 0-92C18-84 34-82 46-90C52-94 56-96 58-98L72-98"
    "C72-62 60-40 44-12C28 16 20 50 22 98L-28 98C-26 54-10 22 14-8C32-30 42-44 46-58C32-50 16-50 0-58"
    "C-22-70-40-66-54-38L-66-38Z",
    "timeSig8": "M0-98C38-98 62-78 62-50C62-30 50-16 30-6C56 6 70 22 70 46C70 78 42 98 0 98C-42 98-70 80-70 50"
    "C-70 28-56 12-32 2C-52-10-64-26-64-48C-64-78-38-98 0-98ZM4-88C-18-88-32-78-32-60C-32-42-14-26 18-12"
    "C28-20 34-32 34-50C34-74 22-88 4-88ZM-20 8C-34 18-42 30-42 46C-42 72-24 88 0 88C20 88 36 76 36 58"
    "C36 38 16 24-20 8Z",
    "timeSig9": "M-4-98C44-98 72-60 72-4C72 58 38 98-12 98C-44 98-64 82-64 58C-64 42-54 32-40 32C-26 32-16 42-16 54"
    "C-16 64-22 72-32 76C-28 84-20 87-10 87C16 87 28 56 28 8C18 20 6 26-10 26C-46 26-70 2-70-36C-70-74-44-98-4-98Z"
    "M-2-88C-18-88-28-70-28-36C-28-2-20 14-4 14C14 14 26-4 26-32C26-68 16-88-2-88Z",
}

_LONG_FLAG = (
    "M-6 0L6 0C9 42 30 66 57 98C88 136 102 184 79 250C75 262 64 258 67 247C82 194 68 154 36 114C24 99 13 86 6 80L-6 80Z"
)
_SHORT_FLAG = (
    "M-6 0L6 0C11 34 38 50 64 74C87 95 96 118 90 150C88 160 79 158 80 148C80 120 62 102 38 88C26 81 14 74 6 68L-6 68Z"
)
# The same for stems that go down, its points in the other order (see above).
_LONG_FLAG_DOWN = (
    "M-6-80L6-80C13-86 24-99 36-114C68-154 82-194 67-247C64-258 75-262 79-250C102-184 88-136 57-98C30-66 9-42 6 0L-6 0Z"
)
_SHORT_FLAG_DOWN = (
    "M-6-68L6-68C14-74 26-81 38-88C62-102 80-120 80-148C79-158 88-160 90-150C96-118 87-95 64-74C38-50 11-34 6 0L-6 0Z"
)
_REST_HOOK = (
    "M46-82L40-56C24-38 4-30-18-30C-36-30-48-42-48-58C-48-73-38-84-22-84C-8-84 2-75 5-60C7-51 10-47 14-47"
    "C26-47 38-64 46-82Z"
)
_FLAG_SPACING = 75
_HOOK_SPACING = 100
_REST_LEAN = -29  # how far the stem of a rest leans over one staff space
_SHORT_VALUES = ("8th", "16th", "32nd", "64th", "128th")


def _moved(path: str, dx: int = 0, dy: int = 0) -> str:
    """The same outline elsewhere."""
    return "".join(command + " ".join(f"{x + dx} {y + dy}" for x, y in points) for command, points in _commands(path))


def _commands(path: str) -> Iterator[tuple[str, list[tuple[int, int]]]]:
    """Each command of a path with its points."""
    for command, numbers in re.findall(r"([MLCZ])([^MLCZ]*)", path):
        values = [int(number) for number in re.findall(r"-?\d+", numbers)]
        yield command, list(zip(values[::2], values[1::2], strict=True))


def _flags(short: str, long: str, count: int, step: int) -> str:
    """So many flags, the long one nearest to the head."""
    outer = [_moved(short, dy=number * step) for number in range(count - 1)]
    return "".join([*outer, _moved(long, dy=(count - 1) * step)])


def _short_rest(count: int) -> str:
    """A rest with ``count`` hooks, its hooks in the spaces around the middle line."""
    rise = -_HOOK_SPACING * ((count - 1) // 2)
    hooks = [_moved(_REST_HOOK, number * _REST_LEAN, rise + number * _HOOK_SPACING) for number in range(count)]
    foot = count * _HOOK_SPACING
    foot_x = 46 + _REST_LEAN * (foot + 82) // 100
    stem = f"M46-82L58-78L{foot_x + 12} {foot}L{foot_x} {foot}Z"
    return _moved("".join(hooks), dx=(count - 1) * 12) + _moved(stem, dx=(count - 1) * 12, dy=rise)


for _count, _value in enumerate(_SHORT_VALUES, start=1):
    OUTLINES[f"flag{_value}Up"] = _flags(_SHORT_FLAG, _LONG_FLAG, _count, _FLAG_SPACING)
    OUTLINES[f"flag{_value}Down"] = _flags(_SHORT_FLAG_DOWN, _LONG_FLAG_DOWN, _count, -_FLAG_SPACING)
    OUTLINES[f"rest{_value}"] = _short_rest(_count)


@cache
def outline(name: str, size: float = 1, lean: float = 0) -> str:
    """The outline in CSS pixels as relative commands, to follow an absolute ``M x y``.

    ``size`` 1 is full size; ``lean`` moves each point right by that share of its height (italics).
    """
    scale = size * SPACE / 100
    here = start = (0.0, 0.0)
    written: list[str] = []
    for command, points in _commands(OUTLINES[name]):
        placed = [(round((x - lean * y) * scale, 2), round(y * scale, 2)) for x, y in points]
        if command == "Z":
            here = start
        numbers: list[float] = []
        for index, (x, y) in enumerate(placed, start=1):
            numbers += (x - here[0], y - here[1])
            if command != "C" or index % 3 == 0:  # all three points of a curve count from where it begins
                here = (x, y)
        if command == "M":
            start = here
        written.append(command.lower() + joined(numbers))
    return "".join(written)


def glyph(name: str, x: float, y: float, size: float = 1, lean: float = 0) -> str:
    """Path data of a glyph with its origin at a point."""
    return f"M{x:.5g} {y:.5g}{outline(name, size, lean)}"
