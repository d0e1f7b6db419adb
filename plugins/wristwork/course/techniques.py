"""The marks and techniques that a pattern asks a student to know already."""

from __future__ import annotations

from collections.abc import Callable

from wristwork.languages.say import marked
from wristwork.pattern.model import Group, Level, Note, Pattern, Side
from wristwork.technique.strokes import Limb, strokes


def _notes(pattern: Pattern) -> list[Note]:
    lanes = [lane for lane in (pattern.hands, pattern.feet) if lane is not None]
    notes = [slot for lane in lanes for slot in lane.slots if isinstance(slot, Note)]
    return [hand for note in notes for hand in ((note, note.left) if note.left else (note,))]


def _hands(pattern: Pattern) -> list[Note]:
    return [slot for slot in pattern.hands.slots if isinstance(slot, Note)] if pattern.hands else []


def _groups(pattern: Pattern) -> list[Group]:
    return list(pattern.hands.groups) if pattern.hands else []


def _slots(pattern: Pattern) -> set[int]:
    """How many slots the hands' groups over one beat have."""
    return {group.finest for group in _groups(pattern) if group.beats == 1 and group.is_even}


def _foot(pattern: Pattern, side: Side) -> bool:
    return pattern.feet is not None and any(side in slot.sides for slot in pattern.feet.slots if isinstance(slot, Note))


def _moves(pattern: Pattern) -> bool:
    """Does a hand go from drum to drum?"""
    if pattern.placement is None and pattern.drums is None:
        return False
    played = strokes(pattern)
    return any(len({stroke.on for stroke in played if stroke.limb is limb}) > 1 for limb in Limb if limb.is_hand)


# What a student has to have met before, told from the pattern. Single taps, rests and held notes in two
# or four to a beat are where everybody starts, and are not counted.
_TOLD_BY: dict[str, Callable[[Pattern], bool]] = {
    marked("accents"): lambda pattern: any(note.level is Level.ACCENT for note in _notes(pattern)),
    marked("ghost notes"): lambda pattern: any(note.level is Level.GHOST for note in _notes(pattern)),
    marked("flams"): lambda pattern: any(len(note.graces) == 1 for note in _notes(pattern)),
    marked("drags"): lambda pattern: any(len(note.graces) > 1 for note in _notes(pattern)),
    marked("diddles"): lambda pattern: any(note.strokes == 2 for note in _notes(pattern)),
    marked("three and four strokes to a slash"): lambda pattern: any(note.strokes > 2 for note in _notes(pattern)),
    marked("buzz strokes"): lambda pattern: any(note.buzz for note in _notes(pattern)),
    marked("both hands together"): lambda pattern: any(note.is_both for note in _hands(pattern)),
    marked("the right foot"): lambda pattern: _foot(pattern, Side.RIGHT),
    marked("the left foot"): lambda pattern: _foot(pattern, Side.LEFT),
    marked("moving between drums"): _moves,
    marked("triplets"): lambda pattern: not pattern.time.compound and 3 in _slots(pattern),
    marked("sextuplets"): lambda pattern: not pattern.time.compound and bool({6, 12} & _slots(pattern)),
    marked("fives, sevens and nines"): lambda pattern: bool({5, 7, 9, 10, 11} & _slots(pattern)),
    marked("tuplets in part of a beat"): lambda pattern: any(not group.is_even for group in _groups(pattern)),
    marked("groups over several beats"): lambda pattern: (
        not pattern.time.pulses and any(group.beats > 1 for group in _groups(pattern))
    ),
    marked("dynamics"): lambda pattern: bool(pattern.dynamics),
    marked("strong accents"): lambda pattern: any(note.strong for note in _notes(pattern)),
    marked("swing"): lambda pattern: pattern.swing is not None,
    marked("tempos that change"): lambda pattern: bool(pattern.tempos),
    marked("unlike groups in a bar"): lambda pattern: bool(pattern.time.pulses),
    marked("compound time"): lambda pattern: pattern.time.compound,
}


def techniques(pattern: Pattern) -> tuple[str, ...]:
    """The names of what the pattern holds, in the order of the table; readers are told :func:`say` of each."""
    return tuple(name for name, holds in _TOLD_BY.items() if holds(pattern))
