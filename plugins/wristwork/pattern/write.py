"""Pattern → the text of its groups, as a tutor would type it."""

from __future__ import annotations

from collections.abc import Iterator

from wristwork.pattern.alphabet import ACCENT, BUZZ, CLOSE, JOIN, OPEN, PART_CLOSE, PART_OPEN, SLASHES, STRONG
from wristwork.pattern.model import Gap, Group, Lane, Level, Note, Slot, TimeSignature


def slot_text(slot: Slot) -> str:
    """One slot: ``R>``, ``(lR)``, ``L/``, ``.``"""
    if isinstance(slot, Gap):
        return slot.value
    return _note_text(slot)


def _note_text(note: Note) -> str:
    if note.left is not None:
        return JOIN.join(_note_text(hand) for hand in note.hands)
    letter = "B" if note.is_both else note.sides[0].letter
    stroke = "".join(side.letter.lower() for side in note.graces) + letter
    if note.level is Level.GHOST:
        stroke = f"{OPEN}{stroke}{CLOSE}"
    accent = STRONG if note.strong else ACCENT if note.level is Level.ACCENT else ""
    return stroke + accent + SLASHES[note.strokes] + (BUZZ if note.buzz else "")


def group_text(group: Group, usual: int = 1) -> str:
    """One group: ``R>LRR`` or ``RLR over 2``; ``usual`` is how many beats it fills without a word."""
    slots = "".join(_parts_text(group) if group.parts else map(slot_text, group.slots))
    return slots if group.beats == usual else f"{slots} over {group.beats}"


def _parts_text(group: Group) -> Iterator[str]:
    first = 0
    for count in group.parts:
        inside = "".join(map(slot_text, group.slots[first : first + count]))
        yield inside if count == 1 else f"{PART_OPEN}{inside}{PART_CLOSE}"
        first += count


def lane_text(lane: Lane, time: TimeSignature | None = None, *, bar_lines: bool = True) -> str:
    """The groups with a space between them; with bar lines where a time signature is given, unless not wanted."""
    parts: list[str] = []
    beat = 0
    for group in lane.groups:
        if time is not None and bar_lines and beat and beat % time.beats == 0:
            parts.append("|")
        parts.append(group_text(group, time.pulse_at(beat) if time is not None else 1))
        beat += group.beats
    return " ".join(parts)


def cut_between_groups(text: str, longest: int) -> str:
    """The text of a lane, cut between two groups (within one where a group alone is too long), with a sign for more."""
    if len(text) <= longest:
        return text
    whole = text[:longest].rpartition(" ")[0]
    return f"{whole or text[:longest]} …"
