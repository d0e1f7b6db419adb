"""Forearm, hand and stick as linked segments: their angles from where wrist and bead are (inverse kinematics)."""

from __future__ import annotations

from math import asin, atan2, cos, hypot, sin
from typing import NamedTuple

from wristwork.technique.motion.constants import LIMBS
from wristwork.technique.motion.paths import Motion

Point = tuple[float, float]


class Stance(NamedTuple):
    """Three angles in radians above the horizontal; where segments end, in cm right of the elbow and over the head."""

    forearm: float
    hand: float
    stick: float
    wrist: Point
    grip: Point
    bead: Point


# Hand and stick together, as one segment from wrist to bead, and its angle against the hand.
_ALONG, _ACROSS = LIMBS.hand + LIMBS.stick * cos(LIMBS.tilt), LIMBS.stick * sin(LIMBS.tilt)
_REACH, _TURN = hypot(_ALONG, _ACROSS), atan2(_ACROSS, _ALONG)


def pose(motion: Motion, at: float) -> Stance:
    """How the arm stands at a time: the fingers alone follow the bead where it bounces."""
    return stands(motion.bead.value(at), motion.hand.value(at), motion.wrist.value(at))


def stands(bead: float, hand: float, wrist: float) -> Stance:
    """How it stands with the bead so high, carried so high by the hand, and the wrist so far above its place (cm)."""
    wrist_up = LIMBS.wrist_up + wrist
    forearm = asin((wrist_up - LIMBS.elbow_up) / LIMBS.forearm)
    hand_angle = asin((hand - wrist_up) / _REACH) - _TURN
    wrist_at = LIMBS.forearm * cos(forearm), wrist_up
    grip = wrist_at[0] + LIMBS.hand * cos(hand_angle), wrist_up + LIMBS.hand * sin(hand_angle)
    stick = asin((bead - grip[1]) / LIMBS.stick)
    return Stance(forearm, hand_angle, stick, wrist_at, grip, (grip[0] + LIMBS.stick * cos(stick), bead))
