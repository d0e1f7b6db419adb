"""Hand, wrist and stick in the four positions, and the four strokes between high and low."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from wristwork.languages.say import marked, say
from wristwork.site.safety.drawings.hand import Pose, arm_and_hand, faint_stick
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
from wristwork.technique.strokes import Height, StrokeName

WIDTH, HEIGHT = 288, 232
HEAD_Y = 206

LOW = Pose.with_bead_at(Point(226, 176), 1, 9, Point(-105, 142))
HIGH = Pose.with_bead_at(Point(182, 44), -46, -30, Point(-105, 138))
WRIST_LEADS = Pose.with_bead_at(Point(216, 178), 33, 35, Point(-105, 132))
WHIP = Pose.with_bead_at(Point(150, 40), -62, -36, Point(-105, 142))

# The way of the bead to the pad and from the pad back up: a path, then the tip and direction of its arrow.
BeadPath = tuple[str, Point, float]
_DOWN: dict[Height, BeadPath] = {
    Height.HIGH: ("M194 44C222 66 240 120 239 190", Point(238.8, 201), 92),
    Height.LOW: ("M239 170V190", Point(239, 201), 90),
}
_BACK: dict[StrokeName, BeadPath] = {
    StrokeName.FULL: ("M223 202C223 150 212 104 195 73", Point(190.6, 64.5), -119),
    StrokeName.DOWN: ("M223 202V198", Point(223, 187), -90),
    StrokeName.TAP: ("M223 202V198", Point(223, 187), -90),
    # To the right of the way down, so that it does not cross the stick that lies low.
    StrokeName.UP: ("M251 202C255 150 236 88 203 53", Point(196, 46.4), -138),
}

STROKE_TITLES = {
    StrokeName.FULL: marked("Full stroke"),
    StrokeName.DOWN: marked("Down stroke"),
    StrokeName.TAP: marked("Tap stroke"),
    StrokeName.UP: marked("Up stroke"),
}
STROKE_CAPTIONS = {
    StrokeName.FULL: marked("Full: starts high, ends high"),
    StrokeName.DOWN: marked("Down: starts high, ends low"),
    StrokeName.TAP: marked("Tap: starts low, ends low"),
    StrokeName.UP: marked("Up: starts low, ends high"),
}
_TOLD = {
    StrokeName.FULL: marked("The stick starts high, strikes the pad and ends high."),
    StrokeName.DOWN: marked("The stick starts high, strikes the pad and ends low."),
    StrokeName.TAP: marked("The stick starts low, strikes the pad and ends low."),
    StrokeName.UP: marked("The stick starts low, strikes the pad and ends high."),
}
_STARTS = {Height.HIGH: HIGH, Height.LOW: LOW}


# The same hand at a good height, and where the drum stands too high for the seat.
STRAIGHT = Pose.with_bead_at(Point(226, 201), 7, 15, Point(-105, 132))
BENT = Pose.with_bead_at(Point(226, 121), 3, 14, Point(-105, 196))


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing with the caption that stands under it."""

    svg: Markup
    caption: str


def four_positions() -> tuple[Picture, ...]:
    """Low, the wrist leading the lift, high, and the whip down."""
    lift = _arrow("M50 60C48 46 50 36 54 27", Point(57.5, 18), -66)
    turn = _arrow("M236 176C240 130 226 84 199 57", Point(192, 50.5), -137)
    drop = _arrow("M56 92C52 104 52 114 56 124", Point(60, 133), 66)
    fling = _arrow("M162 38C202 52 230 96 237 148", Point(238.2, 158), 83)
    return (
        _position(
            "low", LOW, "", say("1 · Low"), say("The hand hangs level from the forearm, the bead just above the pad.")
        ),
        _position(
            "wrist-leads",
            WRIST_LEADS,
            lift,
            say("2 · The wrist leads"),
            say("The forearm lifts and the wrist goes up first; hand and stick hang from it, the bead still low."),
        ),
        _position(
            "high", HIGH, turn, say("3 · High"), say("The hand has turned up at the wrist and the stick points up.")
        ),
        _position(
            "whip",
            WHIP,
            drop + fling,
            say("4 · The whip"),
            say("The forearm already sinks while hand and stick still trail behind it; then the bead is flung down."),
        ),
    )


def four_strokes() -> tuple[Picture, ...]:
    """Full, down, tap and up: where the stick starts, the way of its bead, and where it ends."""
    return tuple(_stroke(name) for name in StrokeName)


def wrists() -> tuple[Picture, ...]:
    """The wrist straight, and bent because the drum stands too high."""
    return (
        _wrist(
            "straight",
            _pad() + arm_and_hand(STRAIGHT),
            say("Straight"),
            say("Forearm and hand make one line down to the pad, on which the bead rests."),
            top=116,
        ),
        _wrist(
            "bent",
            f'<g transform="translate(0 -80)">{_pad()}</g>{arm_and_hand(BENT)}',
            say("Bent: the drum is too high"),
            say("The pad stands high: the forearm has to point up to it, and the hand is bent down at the wrist."),
            top=72,
        ),
    )


def _wrist(key: str, body: str, caption: str, description: str, top: float) -> Picture:
    """A low drawing: what is above ``top`` is empty and cut off."""
    moved = f'<g transform="translate(0 {number(-top)})">{body}</g>'
    return Picture(drawing(f"wrist-{key}", caption, description, WIDTH, 112, moved), caption)


def _position(key: str, pose: Pose, motion: str, caption: str, description: str) -> Picture:
    body = _pad() + arm_and_hand(pose) + motion
    return Picture(drawing(f"position-{key}", caption, description, WIDTH, HEIGHT, body), caption)


def _stroke(name: StrokeName) -> Picture:
    start = _STARTS[name.starts]
    ends_elsewhere = name.starts is not name.ends
    ghost = faint_stick(_STARTS[name.ends]) if ends_elsewhere else ""
    body = _heights() + _pad() + ghost + arm_and_hand(start) + _way_of_the_bead(name)
    title = say(STROKE_TITLES[name])
    says = say(_TOLD[name])
    svg = drawing(f"stroke-{name}", title, says, WIDTH, HEIGHT, body)
    return Picture(svg, say(STROKE_CAPTIONS[name]))


def _pad() -> str:
    top = HEAD_Y
    outline = (
        f"M196 {top}H276Q280 {top} 280 {top + 4}V{top + 9}Q280 {top + 12} 277 {top + 12}H195"
        f"Q192 {top + 12} 192 {top + 9}V{top + 4}Q192 {top} 196 {top}Z"
    )
    return shape(outline, FILL)


def _heights() -> str:
    """The two heights that a stroke can start from and end at, as marks at the right edge."""
    marks = ((HIGH.bead.y, say("high")), (LOW.bead.y, say("low")))
    return "".join(
        line(f"M260 {y:g}H286", QUIET, 1.2, "1 4") + text(Point(286, y - 5), words, "end", 13, QUIET)
        for y, words in marks
    )


def _way_of_the_bead(name: StrokeName) -> str:
    """Down to the pad, and back up as far as the stroke goes."""
    return _arrow(*_DOWN[name.starts]) + _arrow(*_BACK[name])


def _arrow(path: str, tip: Point, angle: float) -> str:
    return line(path, ACCENT, 2.6) + arrow_head(tip, angle, 11)
