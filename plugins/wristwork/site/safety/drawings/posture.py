"""A drummer at the pad or the snare from the side, with the places that the page speaks of numbered."""

from __future__ import annotations

from markupsafe import Markup

from wristwork.languages.say import say
from wristwork.site.safety.drawings.shapes import (
    FILL,
    INK,
    PAPER,
    QUIET,
    Point,
    badge,
    drawing,
    limb,
    line,
    shape,
    silhouette,
)

WIDTH, HEIGHT = 288, 344
FLOOR = 330

# Joints of a seated grown-up, about two pixels to the centimetre.
HEAD = Point(98, 54)
NECK = Point(93, 82)
SHOULDER = Point(88, 112)
HIP = Point(78, 214)
KNEE = Point(158, 231)
ANKLE = Point(166, 314)
TOE = Point(200, 322)
ELBOW = Point(93, 170)
WRIST = Point(143, 181)
KNUCKLES = Point(158, 185)
BEAD = Point(226, 195)

# The face looks to the right: forehead, nose, chin, back to the neck.
_PROFILE = (
    "M96 28 C110 27 119 36 119 47 L123.5 57 C124 59 122 60 120 60 L120 66 C120 72 116 75 109 74.5 "
    "L104 78 L88 80 C76 74 72 62 73.5 50 C75 37 84 28.5 96 28 Z"
)


def side_view() -> Markup:
    """The player seated, the pad or snare before them."""
    says = say(
        "A drummer sits upright on a stool, seen from the side. The thighs slope gently down, both feet are flat on "
        "the floor, the shoulders are low, the elbows hang near the body, the forearm slopes slightly down to the drum "
        "and the wrist is straight. Numbers one to seven mark seat, feet, back, shoulders, elbows, wrists and drum."
    )
    parts = (_floor(), _stool(), _drum(), _far_arm(), _far_leg(), _body(), _near_arm(), _badges())
    return drawing("posture-side", say("Sitting at the drum, from the side"), says, WIDTH, HEIGHT, "".join(parts))


def _floor() -> str:
    return line(f"M8 {FLOOR}H280", QUIET, 1.6)


def _stool() -> str:
    seat = "M36 233H112Q120 233 120 241Q120 250 111 250H39Q30 250 30 241Q30 233 36 233Z"
    legs = f"M76 250V{FLOOR - 8}M76 286L46 {FLOOR}M76 286L106 {FLOOR}"
    return line(legs, INK, 3.2) + shape(seat, FILL)


def _body() -> str:
    """Head, trunk and the near leg as one outline, with a crease at the hip."""
    trunk = limb(Point(84, 126), 25, HIP, 24)
    neck = limb(NECK, 10, Point(88, 108), 12)
    leg = [limb(HIP, 23, KNEE, 15), limb(KNEE, 15, ANKLE, 9), _foot(ANKLE, TOE)]
    ear = line("M93 52C89 49 86 53 88 57C89 60 92 61 93 58", QUIET, 1.6)
    crease = line("M104 196C98 201 95 206 93 211", QUIET, 1.4)
    return silhouette([trunk, neck, _PROFILE, *leg]) + ear + crease


def _far_leg() -> str:
    ankle, toe = Point(ANKLE.x + 30, ANKLE.y - 1), Point(TOE.x + 30, TOE.y)
    knee = Point(KNEE.x + 10, KNEE.y)
    return silhouette([limb(knee, 14, ankle, 9), _foot(ankle, toe), limb(HIP, 20, knee, 14)])


def _foot(ankle: Point, toe: Point) -> str:
    return limb(Point(ankle.x - 2, ankle.y + 4), 10, toe, 6)


def _near_arm() -> str:
    arm = [limb(SHOULDER, 15, ELBOW, 11), limb(ELBOW, 11.5, WRIST, 7.5), limb(WRIST, 7.5, KNUCKLES, 9)]
    thumb = line("M151 184C156 182 161 184 164 188", INK, 1.8)
    return _stick(KNUCKLES, BEAD) + silhouette(arm) + thumb


def _far_arm() -> str:
    wrist, knuckles, bead = Point(152, 173), Point(168, 176), Point(237, 186)
    shoulder, elbow = Point(98, 112), Point(104, 166)
    arm = [limb(shoulder, 13, elbow, 10), limb(elbow, 10, wrist, 7), limb(wrist, 7, knuckles, 8.5)]
    return _stick(knuckles, bead) + silhouette(arm)


def _stick(hand: Point, bead: Point) -> str:
    along = hand.angle_to(bead)
    butt, neck = hand.towards(along, -26), bead.towards(along, -5)
    return silhouette([limb(butt, 2.4, hand, 2.3), limb(hand, 2.3, neck, 1.2), limb(neck, 1.4, bead, 2)], INK, FILL)


def _drum() -> str:
    legs = f"M232 236V312M232 284L206 {FLOOR}M232 284L258 {FLOOR}"
    return line(legs, INK, 3.2) + shape("M187 207H277V235H187Z", FILL) + shape("M183 202H281V208H183Z", PAPER)


def _badges() -> str:
    places = {
        "1": Point(46, 241),
        "2": Point(186, 314),
        "3": Point(50, 172),
        "4": Point(72, 106),
        "5": Point(92, 172),
        "6": Point(138, 203),
        "7": Point(264, 221),
    }
    return "".join(badge(place, label) for label, place in places.items())
