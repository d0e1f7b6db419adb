"""Every number of the motion, with its unit, its reason and where it is from.

Where no source is named a number is a teacher's usual one, chosen so that the four strokes are told apart; players
differ widely, and none of these is a measurement. Two things are measured elsewhere and shape the whole: accents are
prepared by a greater height than the strokes around them (Dahl, *Journal of New Music Research* 29(3), 2000), and in
the preparation of an accent the wrist and the hand lead while the tip of the stick trails behind (Dahl, *Playing the
accent*, 2004). One hand is generally limited to 5 to 7 strokes a second, 10 were measured for a record holder (Fujii
and others, *Neuroscience Letters* 459, 2009): beyond that too every stroke has its path, and heights only shrink.
"""

from __future__ import annotations

from dataclasses import dataclass

from wristwork.pattern.model import Level, Manner

GRAVITY = 981.0  # cm/s², a constant of physics

# Height of the bead before a stroke, in cm over the head: about 1, 2½ and 10 inches, as teachers ask for.
HEIGHT_CM = {Level.GHOST: 2.5, Level.TAP: 6.0, Level.ACCENT: 25.0}

# Acceleration of the fall, in cm/s²: a ghost note is let fall, a tap is helped a little, and an accent is thrown by
# wrist and arm. An accent then meets the head at 4.5 m/s, a tap at 1.3 and a ghost note at 0.7.
FALL = {Level.GHOST: GRAVITY, Level.TAP: 1.5 * GRAVITY, Level.ACCENT: 4 * GRAVITY}

# Nothing in the model moves the bead faster, in cm/s: a limit of our own, just above an accent's fall.
FASTEST_BEAD = 450.0

# Seconds that an unhurried lift takes to the height of an accent; to others by the root of their share in it, as all
# that is moved by one force takes.
LIFT_S = 0.30

# The share of its speed that a stick brings back from a pad or a tight head at most, by the eye: nobody measured it for
# this. What the next stroke doesn't need the fingers take up.
REBOUND_SHARE = 0.5

# A minimum-jerk path that begins with a speed of its own rises all the way if this many times its mean speed is not
# exceeded; beyond it the bead would overshoot. A fact of the polynomial.
MOST_LIFT_SPEED = 2.5

# Between two strokes of one throw the bead is pulled down by its weight and the fingers, in cm/s².
BOUNCE_PULL = 1.5 * GRAVITY

# Seconds from one touch of a buzz to the next (as it sounds), and the share of the way to the next stroke that the
# stick may lie on the head.
BUZZ_SPACING_S, BUZZ_SHARE = 0.012, 0.6


@dataclass(frozen=True, slots=True)
class Limbs:
    """One side's lengths and places in the plane of the stick, in cm: a grown-up of middle height, a usual stick.

    The elbow stays where it is, ``elbow_up`` over the head, and the wrist is ``wrist_up`` over it when the bead lies
    there: the forearm slopes slightly down, as is usually advised. From the wrist to where thumb and finger hold the
    stick is the ``hand``, from there to the bead the ``stick``, which points ``tilt`` radians higher than that line.
    """

    forearm: float = 28.0
    hand: float = 9.73
    stick: float = 26.4
    elbow_up: float = 11.0
    wrist_up: float = 8.0
    tilt: float = 0.24


LIMBS = Limbs()


@dataclass(frozen=True, slots=True)
class Lead:
    """How the wrist goes with the bead.

    It rises by a ``share`` of the bead's height, in the share ``lift`` of the bead's time, and goes down up to
    ``ahead_s`` seconds before the bead does; the bead takes up the share ``rebound`` of what the head gives back.
    """

    share: float
    lift: float
    ahead_s: float
    rebound: float


# From the wrist: the forearm hardly moves. Whipped: forearm and wrist rise first and go down first, the bead trails,
# points down on its way up and is the last to fall. Players differ widely in how far they go in this.
LEADS = {
    Manner.WRIST: Lead(share=0.12, lift=1.0, ahead_s=0.0, rebound=1.0),
    Manner.WHIP: Lead(share=0.75, lift=0.6, ahead_s=0.07, rebound=0.0),
}
