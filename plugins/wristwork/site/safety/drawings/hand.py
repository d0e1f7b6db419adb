"""Hand, wrist and stick from the thumb's side: a pose, and how it is drawn."""

from __future__ import annotations

from dataclasses import dataclass

from wristwork.site.safety.drawings.shapes import (
    FAINT,
    FILL,
    INK,
    LINE,
    PAPER,
    QUIET,
    Point,
    limb,
    line,
    number,
    shape,
    silhouette,
)

# Five pixels to the centimetre of a grown-up's hand.
ELBOW_RADIUS = 21
WRIST_RADIUS = 12.5
STICK_AHEAD = 132
STICK_BEHIND = 66

# Outlines in the hand's own coordinates: the wrist's middle at 0 0, the knuckles ahead of it.
FULCRUM = Point(48, 8)
PALM = (
    "M-5 -12.4 C8 -15 26 -19.5 37 -18 C46 -16.8 55 -9 60.5 -1 C65 5.5 64.5 13 59 16.5 "
    "C54 19.5 48.5 18.5 44.5 20.5 C37 24.5 22 23.5 13 19 C7 16.5 2 13 -5 12.4 Z"
)
THUMB = "M1 4 C8 -2.5 18 -4 27 -2.4 C36 -1 44 0 51 2 C57.5 4 58 11 52 12.4 C45 14 37 13 31 13.8 C22 15 13 17 6 12.5"
THUMB_NAIL = "M49 4.4 C52.4 4.6 54.6 6.2 54.6 8.2"
KNUCKLE = "M36.5 -17.5 C40.5 -14.5 41.5 -11 40 -8"
FIRST_FINGER = "M43 -3.4 C50 -4.5 55 -2.5 57.5 1"
FINGERTIPS = (
    "M59 16.5 C55 21.5 46.5 22 45 18.2",
    "M45.5 21 C41 25.5 33 25 32.2 20.8",
    "M32.5 23.8 C28 26.4 21 25 20.2 21",
)


@dataclass(frozen=True, slots=True)
class Pose:
    """Where the elbow and the wrist are, and which way hand and stick point."""

    elbow: Point
    wrist: Point
    hand: float
    stick: float

    @classmethod
    def with_bead_at(cls, bead: Point, stick: float, hand: float, elbow: Point) -> Pose:
        """The pose that puts the bead there."""
        fulcrum = bead.towards(stick + 180, STICK_AHEAD)
        origin = Point(0, 0)
        wrist = fulcrum.towards(hand + origin.angle_to(FULCRUM) + 180, origin.distance_to(FULCRUM))
        return cls(elbow, wrist, hand, stick)

    @property
    def fulcrum(self) -> Point:
        """Where thumb and first finger hold the stick."""
        reach = Point(0, 0).distance_to(FULCRUM)
        return self.wrist.towards(self.hand + Point(0, 0).angle_to(FULCRUM), reach)

    @property
    def bead(self) -> Point:
        """The tip of the stick."""
        return self.fulcrum.towards(self.stick, STICK_AHEAD)


def faint_stick(pose: Pose) -> str:
    """The part of the stick ahead of the hand, faint: where the stick will be, without a hand to hide what counts."""
    return silhouette([limb(pose.fulcrum, 3.9, _taper(pose), 3.6), *_front(pose)], FAINT)


def arm_and_hand(pose: Pose) -> str:
    """The whole pose: the butt of the stick behind the hand, its front over the palm, the thumb over it all."""
    placed = f'transform="translate({pose.wrist}) rotate({number(pose.hand)})"'
    forearm = limb(pose.elbow, ELBOW_RADIUS, pose.wrist, WRIST_RADIUS)
    outline = f'fill="none" stroke="{INK}" stroke-width="{2 * LINE}" stroke-linejoin="round"'
    butt = pose.fulcrum.towards(pose.stick + 180, STICK_BEHIND)
    held = pose.fulcrum.towards(pose.stick + 180, 12)
    return (
        silhouette([limb(butt, 3.9, _taper(pose), 3.6), *_front(pose)], INK, FILL)
        + f'<path d="{forearm}" {outline}/><path d="{PALM}" {placed} {outline}/>'
        + f'<path d="{forearm}" fill="{PAPER}"/><path d="{PALM}" {placed} fill="{PAPER}"/>'
        + silhouette([limb(held, 3.9, _taper(pose), 3.6), *_front(pose)], INK, FILL)
        + f"<g {placed}>"
        + shape(THUMB)
        + line(THUMB_NAIL, QUIET, 1.4)
        + line(KNUCKLE, QUIET, 1.4)
        + line(FIRST_FINGER, QUIET, 1.4)
        + "".join(line(tip) for tip in FINGERTIPS)
        + "</g>"
    )


def _taper(pose: Pose) -> Point:
    """Where the stick begins to get thinner."""
    return pose.fulcrum.towards(pose.stick, STICK_AHEAD * 0.4)


def _front(pose: Pose) -> tuple[str, str]:
    neck = pose.fulcrum.towards(pose.stick, STICK_AHEAD - 7)
    return limb(_taper(pose), 3.6, neck, 1.9), limb(neck, 2.2, pose.bead, 3.2)
