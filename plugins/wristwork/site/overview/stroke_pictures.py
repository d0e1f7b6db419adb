"""Pictures of the strokes for any page: arm, stick and the way of the bead in time, from one computed motion.

The stick is drawn where the stroke starts. From its bead runs the bead's own line: down to the head and up to
where the stroke ends, at the same heights and in the same form as the lanes of a diagram have it.
"""

from __future__ import annotations

from math import degrees

from markupsafe import Markup

from wristwork.languages.say import marked, say
from wristwork.pattern.model import Level, Manner
from wristwork.site.safety.drawings.hand import FULCRUM, Pose, arm_and_hand, faint_stick
from wristwork.site.safety.drawings.shapes import (
    ACCENT,
    FILL,
    QUIET,
    Point,
    arrow_head,
    drawing,
    line,
    number,
    shape,
    text,
)
from wristwork.site.safety.drawings.strokes import STROKE_CAPTIONS, STROKE_TITLES, Picture
from wristwork.site.templating import markup
from wristwork.technique.motion.arm import pose
from wristwork.technique.motion.constants import HEIGHT_CM, LIMBS
from wristwork.technique.motion.paths import Impact, Motion, fall_time, lift_time, motion
from wristwork.technique.strokes import Height, StrokeName

WIDTH, HEIGHT, HEAD_Y = 320, 192, 176
# Pixels to the centimetre, the elbow's place, and pixels to the second of the bead's line.
_SCALE, _ELBOW_X, _PACE = 5.0, -86.0, 108.0
# The next stroke of the hand comes so much later that the bead waits for it, and is seen to.
_APART_S, _WAIT_S = 1.0, 0.12
# The word of a height stands clear of the arrow that ends at it.
_WORD_ABOVE = 10
_LEVELS = {Height.HIGH: Level.ACCENT, Height.LOW: Level.TAP}
_SAYS = {
    Height.HIGH: marked("high, about a hand's length over the head"),
    Height.LOW: marked("low, about three fingers over the head"),
}


def four_strokes() -> Markup:
    """Full, down, tap and up, in a row that wraps."""
    return markup("safety/drawings.html", pictures=tuple(_stroke(name) for name in StrokeName))


def one_stroke(name: StrokeName) -> Markup:
    """The picture of one stroke."""
    return markup("safety/drawings.html", pictures=(_stroke(name),))


def two_manners() -> Markup:
    """The same up stroke half way: lifted from the wrist, and whipped."""
    return markup("safety/drawings.html", pictures=(_lift(Manner.WRIST), _lift(Manner.WHIP)))


def _stroke(name: StrokeName) -> Picture:
    level, after = _LEVELS[name.starts], _LEVELS[name.ends]
    moved = motion([Impact(0.0, level), Impact(_APART_S, after)], 2 * _APART_S)
    starts, ends = -fall_time(level), lift_time(after)
    stands = _drawn(moved, starts)
    faint = faint_stick(_drawn(moved, ends)) if name.starts is not name.ends else ""
    body = _heights() + _head() + faint + arm_and_hand(stands) + _way(moved, starts, ends, stands.bead.x)
    says = say(
        "Forearm, hand and stick from the side. The bead starts {start}, falls faster and faster, meets the head, and "
        "is lifted to where the next stroke starts: {end}.",
        start=say(_SAYS[name.starts]),
        end=say(_SAYS[name.ends]),
    )
    picture = drawing(f"moving-{name}", say(STROKE_TITLES[name]), says, WIDTH, HEIGHT, body)
    return Picture(picture, say(STROKE_CAPTIONS[name]))


_MANNERS = {
    Manner.WRIST: (
        marked("From the wrist"),
        marked("The hand turns up at the wrist, and hand and stick go up as one piece."),
    ),
    Manner.WHIP: (
        marked("Whipped"),
        marked("Forearm and wrist are up already; hand and stick hang from them, the bead low."),
    ),
}


def _lift(manner: Manner) -> Picture:
    moved = motion([Impact(0.0, Level.ACCENT)], _APART_S, manner)
    caption, says = map(say, _MANNERS[manner])
    body = _heights() + _head() + arm_and_hand(_drawn(moved, 0.4 * lift_time(Level.ACCENT)))
    return Picture(
        drawing(f"lift-{manner}", say("{picture}, on the way up", picture=caption), says, WIDTH, HEIGHT, body), caption
    )


def _drawn(moved: Motion, at: float) -> Pose:
    stance = pose(moved, at)
    elbow = Point(_ELBOW_X, HEAD_Y - _SCALE * LIMBS.elbow_up)
    own = degrees(stance.hand) + Point(0, 0).angle_to(FULCRUM)
    return Pose(elbow, _place(stance.wrist), -own, -degrees(stance.stick))


def _place(at: tuple[float, float]) -> Point:
    return Point(_ELBOW_X + _SCALE * at[0], HEAD_Y - _SCALE * at[1])


def _way(moved: Motion, starts: float, ends: float, left: float) -> str:
    """The bead's line in time, from the bead to an arrow where it has waited a little."""
    until = ends + _WAIT_S
    count = 48
    moments = [starts + number / count * (until - starts) for number in range(count + 1)]
    points = [Point(left + _PACE * (at - starts), HEAD_Y - _SCALE * moved.bead.value(at)) for at in moments]
    path = "M" + "L".join(str(point) for point in points)
    return line(path, ACCENT, 3) + arrow_head(Point(points[-1].x + 9, points[-1].y), 0, 11)


def _heights() -> str:
    marks = ((level, height) for height, level in _LEVELS.items())
    return "".join(
        line(f"M{WIDTH - 68} {number(y)}H{WIDTH - 2}", QUIET, 1.2, "1 4")
        + text(Point(WIDTH - 2, y - _WORD_ABOVE), say(height), "end", 13, QUIET)
        for level, height in marks
        for y in [HEAD_Y - _SCALE * HEIGHT_CM[level]]
    )


def _head() -> str:
    return shape(f"M182 {HEAD_Y}H{WIDTH - 4}V{HEAD_Y + 12}H182Z", FILL)
