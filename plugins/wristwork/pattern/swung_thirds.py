"""Swung eighths beside triplets, written as they are played: the second of two falls on the triplet's third note.

Two swung eighths are the long and the short note of a triplet. Where another hand, or a foot, plays a triplet in the
same beat, both are heard as one rhythm, and a reader finds the late eighth under the last of the three.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from wristwork.pattern.model import (
    DrumPair,
    Gap,
    Group,
    Lane,
    Note,
    PlacementRule,
    Side,
    Slot,
    Swing,
    TimeSignature,
    together,
)
from wristwork.pattern.parts import clash, part_of

_HALVES = frozenset({Fraction(0), Fraction(1, 2)})
_THIRDS = frozenset({Fraction(0), Fraction(1, 3), Fraction(2, 3)})


def beside_triplets(
    hands: Lane | None,
    feet: Lane | None,
    swing: Swing,
    time: TimeSignature,
    placement: Sequence[PlacementRule] | None = None,
    drums: Sequence[DrumPair | None] | None = None,
) -> tuple[Lane | None, Lane | None]:
    """Hands and feet, equally long, with the swung eighths of one limb beside another's triplet as part of the triplet.

    All stay where they are in a swing of other notes than halves of a beat, and where rules speak of their very
    moments; hands that have a line of ``drums`` make no notes together that were apart.
    """
    speaks_of_moments = any(rule.when.counts for rule in placement or ())
    if hands is None or speaks_of_moments or 2 * swing.unit != time.beat:
        return hands, feet
    if drums is None:
        hands = Lane(tuple(_hands_in_thirds(group) for group in hands.groups))
    if feet is None:
        return hands, None
    of_hands, of_feet = _beats(hands), _beats(feet)
    return _beside(hands, of_feet), _beside(feet, of_hands)


def _hands_in_thirds(group: Group) -> Group:
    if group.beats != 1 or not group.is_even or group.slots[0] is Gap.HOLD:
        return group
    right, left = (part_of(Lane((group,)), side).slots for side in Side)
    if _is_halved(right) and _is_in_thirds(left):
        right, left = _long_and_short(right), _each_third(left)
    elif _is_halved(left) and _is_in_thirds(right):
        right, left = _each_third(right), _long_and_short(left)
    else:
        return group
    pairs = zip(right, left, strict=True)
    if any(isinstance(one, Note) and isinstance(other, Note) and clash(one, other) for one, other in pairs):
        return group
    return Group(tuple(map(_at_once, right, left)))


def _beats(lane: Lane) -> dict[int, Group]:
    """The groups that fill one beat evenly, by their beat."""
    found: dict[int, Group] = {}
    beat = 0
    for group in lane.groups:
        if group.beats == 1 and group.is_even:
            found[beat] = group
        beat += group.beats
    return found


def _beside(lane: Lane, others: dict[int, Group]) -> Lane:
    groups: list[Group] = []
    beat = 0
    for group in lane.groups:
        other = others.get(beat)
        fits = group.beats == 1 and group.is_even and other is not None and _is_in_thirds(other.slots)
        groups.append(replace(group, slots=_long_and_short(group.slots)) if fits and _is_halved(group.slots) else group)
        beat += group.beats
    return Lane(tuple(groups))


def _onsets(slots: Sequence[Slot]) -> frozenset[Fraction]:
    """Where in the beat its notes begin."""
    return frozenset(Fraction(index, len(slots)) for index, slot in enumerate(slots) if isinstance(slot, Note))


def _is_halved(slots: Sequence[Slot]) -> bool:
    return Fraction(1, 2) in _onsets(slots) <= _HALVES


def _is_in_thirds(slots: Sequence[Slot]) -> bool:
    return bool(_onsets(slots) - {0}) and _onsets(slots) <= _THIRDS


def _long_and_short(slots: Sequence[Slot]) -> tuple[Slot, ...]:
    """Two halves of a beat as two thirds and one."""
    return slots[0], slots[0] if slots[0] is Gap.REST else Gap.HOLD, slots[len(slots) // 2]


def _each_third(slots: Sequence[Slot]) -> tuple[Slot, ...]:
    return tuple(slots[:: len(slots) // 3])


def _at_once(right: Slot, left: Slot) -> Slot:
    if isinstance(right, Note) and isinstance(left, Note):
        return together(right, left)
    if isinstance(right, Note) or isinstance(left, Note):
        return right if isinstance(right, Note) else left
    return Gap.HOLD if Gap.HOLD in (right, left) else Gap.REST
