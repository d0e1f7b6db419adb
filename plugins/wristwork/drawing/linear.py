"""Linear patterns: hands and feet that never play together are one line, so they are drawn in one voice."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from wristwork.pattern.drums import Drum
from wristwork.pattern.model import Lane, Note, Pattern, events
from wristwork.pattern.parts import CannotJoin, joined
from wristwork.technique.strokes import Limb, Stroke

FOOT_LETTERS = {
    (Limb.RIGHT_FOOT, Drum.KICK): "K",
    (Limb.LEFT_FOOT, Drum.HI_HAT_FOOT): "H",
    (Limb.LEFT_FOOT, Drum.FOOT_SPLASH): "H",
}
"""What stands for a foot in the row of the sticking: the pedal that it has by custom."""


@dataclass(frozen=True, slots=True)
class LinearLane:
    """Hands and feet in one lane, and the strokes with the numbers of their events in it."""

    lane: Lane
    strokes: tuple[Stroke, ...]


def one_line(pattern: Pattern, played: Sequence[Stroke]) -> LinearLane | None:
    """The one line of a linear pattern; None where any two limbs play together, or a foot plays another drum."""
    hands, feet = pattern.hands, pattern.feet
    if hands is None or feet is None or not _has_notes(hands) or not _has_notes(feet):
        return None
    of_feet = [stroke for stroke in played if not stroke.limb.is_hand]
    moments = {stroke.at for stroke in played if stroke.limb.is_hand}
    if any(stroke.at in moments or (stroke.limb, stroke.on) not in FOOT_LETTERS for stroke in of_feet):
        return None
    if any(isinstance(slot, Note) and (slot.is_both or slot.graces) for slot in feet.slots):
        return None
    try:
        lane = joined(hands, feet)
    except CannotJoin:
        return None
    return LinearLane(lane, tuple(_renumbered(pattern, lane, played)))


def _has_notes(lane: Lane) -> bool:
    return any(isinstance(slot, Note) for slot in lane.slots)


def _renumbered(pattern: Pattern, lane: Lane, played: Sequence[Stroke]) -> list[Stroke]:
    numbers: dict[Fraction, int] = {event.at: number for number, event in enumerate(events(lane))}
    starts = {
        True: [event.at for event in events(pattern.hands)] if pattern.hands else [],
        False: [event.at for event in events(pattern.feet)] if pattern.feet else [],
    }
    return [stroke._replace(event=numbers[starts[stroke.limb.is_hand][stroke.event]]) for stroke in played]
