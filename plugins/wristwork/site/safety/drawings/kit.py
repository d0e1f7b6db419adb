"""Pad and kit from above, for right- and left-handed players."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from wristwork.languages.say import marked, say
from wristwork.pattern.model import Side
from wristwork.site.safety.drawings.shapes import (
    FILL,
    INK,
    PAPER,
    QUIET,
    Point,
    circle,
    drawing,
    limb,
    line,
    shape,
    silhouette,
    text,
)

WIDTH, HEIGHT = 288, 300
MIDDLE = WIDTH / 2


@dataclass(frozen=True, slots=True)
class Round:
    """A drum or cymbal from above, as a right-handed player has it. ``words`` is its name, line by line."""

    words: tuple[str, ...]
    centre: Point
    radius: float
    cymbal: bool = False


SNARE = Round(("snare",), Point(MIDDLE, 172), 32)
PRACTICE_PAD = Round(("pad",), Point(MIDDLE, 166), 38)
KIT = (
    Round(("high", "tom"), Point(114, 106), 25),
    Round(("mid", "tom"), Point(172, 106), 26),
    Round(("floor", "tom"), Point(244, 186), 35),
    SNARE,
    Round(("crash",), Point(50, 68), 33, cymbal=True),
    Round(("ride",), Point(242, 86), 38, cymbal=True),
    Round(("hi-hat",), Point(50, 158), 30, cymbal=True),
)


_RIGHT_HANDED = (
    marked("A right-handed kit from above"),
    marked(
        "A right-handed kit from above. The player sits at the bottom and faces up, the snare between the knees, "
        "both sticks on it. On the left: the hi-hat with that foot on its pedal, and the crash. In front: "
        "high tom, mid tom, and the kick with the right foot on its pedal. On the right: floor tom and ride."
    ),
)
_LEFT_HANDED = (
    marked("A left-handed kit from above"),
    marked(
        "A left-handed kit from above. The player sits at the bottom and faces up, the snare between the knees, "
        "both sticks on it. On the right: the hi-hat with that foot on its pedal, and the crash. In front: "
        "high tom, mid tom, and the kick with the left foot on its pedal. On the left: floor tom and ride."
    ),
)


def kit_from_above(leading: Side) -> Markup:
    """The kit round a player whose leading hand is that one; the left-handed kit is the mirror image."""
    mirrored = leading is Side.LEFT
    title, says = _RIGHT_HANDED if leading is Side.RIGHT else _LEFT_HANDED
    body = _kick(mirrored) + _legs(mirrored) + "".join(_round(item, mirrored) for item in KIT) + _upper_body()
    return drawing(f"kit-{leading}-handed", say(title), say(says), WIDTH, HEIGHT, body)


def pad_from_above() -> Markup:
    """The player at a pad: elbows near the body, the sticks in a wide V."""
    says = say(
        "A player at a practice pad, from above. The elbows are near the body, the forearms point forward and a little "
        "inward, each stick carries on the line of its forearm, and the two sticks meet on the pad in a wide V."
    )
    thighs = silhouette([limb(_hip(side), 15, Point(MIDDLE + side * 34, 196), 12) for side in (-1, 1)])
    body = f'<g transform="translate(0 -96)">{_stool()}{thighs}{_round(PRACTICE_PAD, False)}{_upper_body()}</g>'
    return drawing("pad-above", say("At the pad, from above"), says, WIDTH, HEIGHT - 96, body)


def _at(point: Point, mirrored: bool) -> Point:
    return Point(WIDTH - point.x, point.y) if mirrored else point


def _hip(side: int) -> Point:
    return Point(MIDDLE + side * 16, 256)


def _round(item: Round, mirrored: bool) -> str:
    centre = _at(item.centre, mirrored)
    inner = item.radius * 0.86 if item.cymbal else item.radius - 4
    drawn = circle(centre, item.radius, FILL if item.cymbal else PAPER) + circle(centre, inner, "none", QUIET, 0.9)
    # The sticks lie on the lower half of what is played: its name stands above them.
    raised = 15 if item in (SNARE, PRACTICE_PAD) else 0
    first = centre.y + 4.5 - raised - 7.5 * (len(item.words) - 1)
    return drawn + "".join(text(Point(centre.x, first + 15 * row), word) for row, word in enumerate(item.words))


def _kick(mirrored: bool) -> str:
    left, right = sorted((_at(Point(100, 0), mirrored).x, _at(Point(186, 0), mirrored).x))
    return shape(f"M{left:g} 14H{right:g}V92H{left:g}Z") + text(Point((left + right) / 2, 48), "kick")


def _legs(mirrored: bool) -> str:
    """One foot at the hi-hat, the other at the kick, the snare between the knees."""
    hat_side, kick_side = (-1, 1) if not mirrored else (1, -1)
    hat_knee, kick_knee = _at(Point(96, 210), mirrored), _at(Point(194, 206), mirrored)
    hat_foot = limb(_at(Point(92, 204), mirrored), 9, _at(Point(70, 174), mirrored), 6)
    kick_foot = limb(_at(Point(192, 194), mirrored), 9, _at(Point(172, 140), mirrored), 6)
    thighs = [limb(_hip(hat_side), 16, hat_knee, 13), limb(_hip(kick_side), 16, kick_knee, 13)]
    return _stool() + silhouette([hat_foot]) + silhouette([kick_foot]) + silhouette(thighs)


def _stool() -> str:
    return circle(Point(MIDDLE, 262), 32, FILL)


def _upper_body() -> str:
    """Trunk, arms, sticks and head; the same for both leads."""
    arms: list[str] = []
    sticks = ""
    for side in (-1, 1):
        shoulder, elbow = Point(MIDDLE + side * 35, 260), Point(MIDDLE + side * 47, 254)
        wrist, knuckles = Point(MIDDLE + side * 32, 219), Point(MIDDLE + side * 28, 211)
        bead, butt = Point(MIDDLE + side * 7, 169), Point(MIDDLE + side * 34, 223)
        sticks += silhouette([limb(butt, 2.6, knuckles, 2.4), limb(knuckles, 2.4, bead, 1.8)], INK, FILL)
        arms += [limb(shoulder, 14, elbow, 12), limb(elbow, 11, wrist, 7), limb(wrist, 7, knuckles, 7.5)]
    trunk = limb(Point(MIDDLE - 30, 262), 16, Point(MIDDLE + 30, 262), 15.9)
    nose = f"M{MIDDLE - 4:g} 243L{MIDDLE:g} 236L{MIDDLE + 4:g} 243"
    head = line(nose) + circle(Point(MIDDLE, 258), 17)
    return sticks + silhouette([trunk, *arms]) + head
