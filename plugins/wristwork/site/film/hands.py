"""How both hands move through a film, from the moments of its strokes. `hand-strokes.js` marks rebounds alike."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import degrees

from wristwork.pattern.model import Level, Pattern
from wristwork.site.film.timing import FilmTimes
from wristwork.site.safety.drawings.hand import FULCRUM, Pose, arm_and_hand
from wristwork.site.safety.drawings.shapes import FILL, QUIET, Point, line, number, shape
from wristwork.sound.schedule import Onset, bounces, schedule
from wristwork.technique.motion.arm import pose
from wristwork.technique.motion.constants import HEIGHT_CM, LIMBS
from wristwork.technique.motion.paths import Impact, Motion, motion
from wristwork.technique.strokes import Height, Kind, Limb, StrokeName

WIDTH, HEIGHT, HEAD_Y = 320, 192, 176
_SCALE, _ELBOW_X = 5.0, -86.0
# The way that the bead came, so long and in so many pieces.
_TRAIL_S, _TRAIL = 0.24, 16
# Strokes this close together, against the closest of the pattern, are of one throw; at most so many are.
_CLOSE, _MOST_OF_A_THROW = 1.1, 3
_SLOWEST_THROW_S = 0.25
_TOGETHER_S = 0.001
# From when on the name of a stroke is shown: a little before the bead falls.
_EARLY_S = 0.13
HANDS = (Limb.LEFT_HAND, Limb.RIGHT_HAND)


@dataclass(frozen=True, slots=True)
class Hit:
    """A stroke of a hand, so many seconds into the film."""

    at: float
    limb: Limb
    name: StrokeName
    kind: Kind
    level: Level
    buzz: float = 0.0
    """Seconds for which the bead is pressed on."""
    is_rebound: bool = False


@dataclass(frozen=True, slots=True)
class MovingHand:
    """A hand in a film: how it moves, and which stroke it plays when."""

    limb: Limb
    moves: Motion
    names: tuple[tuple[float, StrokeName], ...]

    def drawn(self, seconds: float) -> str:
        """The hand at a moment, as the inside of an SVG of :data:`WIDTH` × :data:`HEIGHT`."""
        stance = pose(self.moves, seconds)
        elbow = Point(_ELBOW_X, HEAD_Y - _SCALE * LIMBS.elbow_up)
        own = degrees(stance.hand) + Point(0, 0).angle_to(FULCRUM)
        placed = Pose(elbow, _place(stance.wrist), -own, -degrees(stance.stick))
        past = (pose(self.moves, seconds - step * _TRAIL_S / _TRAIL).bead for step in range(_TRAIL + 1))
        trail = "M" + "L".join(str(_place(bead)) for bead in past)
        return _SETTING + line(trail, QUIET, 1.6) + arm_and_hand(placed)

    def stroke(self, seconds: float) -> StrokeName:
        """The stroke that falls, or fell last."""
        fallen = [name for at, name in self.names if at <= seconds + _EARLY_S]
        return fallen[-1] if fallen else self.names[0][1]


def moving_hands(pattern: Pattern, times: FilmTimes) -> tuple[MovingHand, ...]:
    """The hands that play, the left one first."""
    onsets = [onset for onset in schedule(pattern, times.tempo, times.passes) if onset.stroke.limb.is_hand]
    hits = [hit for onset in onsets for hit in [hit_of(onset, float(times.begins))] if hit.at < times.closes]
    marked = with_rebounds(sorted(hits, key=lambda hit: hit.at))
    found = []
    for limb in HANDS:
        own = [hit for hit in marked if hit.limb is limb]
        if own:
            impacts = [Impact(hit.at, hit.level, hit.is_rebound, hit.buzz) for hit in own]
            found.append(
                MovingHand(limb, motion(impacts, None, pattern.motion), tuple((hit.at, hit.name) for hit in own))
            )
    return tuple(found)


def hit_of(onset: Onset, begins: float) -> Hit:
    """A stroke of a film in which the first beat comes after so many seconds."""
    stroke = onset.stroke
    name = stroke.name or StrokeName.TAP
    # Where nothing is accented a stroke may come from high all the same: its name says so.
    level = Level.ACCENT if name.starts is Height.HIGH else stroke.level
    buzz = bounces(float(onset.lasts_s))[-1].after if stroke.kind is Kind.BUZZ else 0.0
    return Hit(begins + float(onset.starts_s), stroke.limb, name, stroke.kind, level, float(buzz))


def with_rebounds(hits: Sequence[Hit]) -> list[Hit]:
    """Two or three strokes of one hand, with none of the other between and no accent after the first, are one throw."""
    main = [hit.at for hit in hits if hit.kind is not Kind.GRACE]
    gaps = [later - at for at, later in pairwise(main) if later - at > _TOGETHER_S]
    close = min(_SLOWEST_THROW_S, _CLOSE * min(gaps, default=0.0))
    throws: list[list[Hit]] = []
    for hit in hits:
        before = throws[-1][-1] if throws else None
        is_same = (
            before is not None
            and before.limb is hit.limb
            and before.kind is not Kind.BUZZ
            and hit.level is not Level.ACCENT
            and hit.at - before.at > _TOGETHER_S
            and (hit.at - before.at <= close or before.kind is hit.kind is Kind.GRACE)
        )
        if is_same:
            throws[-1].append(hit)
        else:
            throws.append([hit])
    return [
        replace(hit, is_rebound=number > 0 and len(throw) <= _MOST_OF_A_THROW)
        for throw in throws
        for number, hit in enumerate(throw)
    ]


def _place(at: tuple[float, float]) -> Point:
    return Point(_ELBOW_X + _SCALE * at[0], HEAD_Y - _SCALE * at[1])


def _heights() -> str:
    levels: Mapping[Height, Level] = {Height.HIGH: Level.ACCENT, Height.LOW: Level.TAP}
    places = (HEAD_Y - _SCALE * HEIGHT_CM[level] for level in levels.values())
    return "".join(line(f"M{WIDTH - 60} {number(y)}H{WIDTH - 2}", QUIET, 1.2, "1 4") for y in places)


# The head of the drum and the two heights, which stand still.
_SETTING = _heights() + shape(f"M182 {HEAD_Y}H{WIDTH - 4}V{HEAD_Y + 12}H182Z", FILL)
