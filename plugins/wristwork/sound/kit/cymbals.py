"""Cymbals and hi-hats: dense modes that are no multiples of each other, and the hiss of the highest of them.

A cymbal's sound has two parts. The *strike* differs from level to level and stroke to stroke: the
stick, and the bright modes that a harder blow reaches. The *wash* is the cymbal's own long ring; all
strokes on it share it, louder or softer.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from wristwork.pattern.model import Level
from wristwork.sound.kit.blocks import stick
from wristwork.sound.kit.chance import Chance
from wristwork.sound.kit.modes import Mode, ring, struck
from wristwork.sound.kit.samples import Samples, count_of, decay, leveled, mix, rise

# How long wood stays on bronze, in seconds.
CONTACT = {Level.GHOST: 0.00013, Level.TAP: 0.0001, Level.ACCENT: 0.00005}
UNEVEN = 0.4  # how much a mode's size differs from one spot that is struck to the next


@dataclass(frozen=True, slots=True)
class Plate:
    """A thin bronze plate.

    Its modes lie ``spacing`` hertz apart on average, from ``lowest`` to ``highest``. They ring for ``t60`` seconds;
    above the ``corner`` ever shorter. ``tilt`` decibels an octave make the upper ones louder (or softer) than the
    lowest.
    """

    lowest: float
    highest: float
    spacing: float
    t60: float
    corner: float
    tilt: float

    def modes(self, name: str) -> tuple[Mode, ...]:
        """The modes of one such plate, which its name decides."""
        chance = Chance(name)
        found = []
        hertz = self.lowest
        while hertz < self.highest:
            size = chance.between(-1.0, 1.0) * (hertz / self.lowest) ** (self.tilt / 6.02)
            found.append(Mode(hertz, size, self.ringing(hertz) * chance.between(0.7, 1.0)))
            hertz += self.spacing * chance.between(0.35, 1.65)
        return tuple(found)

    def ringing(self, hertz: float) -> float:
        """How long a mode of this frequency rings, in seconds."""
        loss: float = (hertz / self.corner) ** 1.3
        return self.t60 / (1.0 + loss)


def _blow(modes: Iterable[Mode], level: Level, chance: Chance, seconds: float, share_of_time: float = 1.0) -> Samples:
    """The modes as one blow sets them off, with a peak of 1; ``share_of_time`` below 1 damps them."""
    set_off = struck(modes, chance, CONTACT[level], 0.0, UNEVEN)
    return leveled(ring([replace(mode, t60=mode.t60 * share_of_time) for mode in set_off], seconds), 1.0)


def _hiss(level: Level, chance: Chance, seconds: float, low: float, swell: float) -> Samples:
    """The highest modes, too dense to tell apart; they take ``swell`` seconds to fill up."""
    count = count_of(1.2 * seconds)
    top = {Level.GHOST: 9000.0, Level.TAP: 12500.0, Level.ACCENT: 17000.0}[level]
    return chance.noise(count, low, top) * decay(count, seconds) * rise(count, swell)


RIDE = Plate(lowest=190.0, highest=14000.0, spacing=26.0, t60=4.6, corner=3800.0, tilt=-1.0).modes("ride")
PING = Plate(lowest=1900.0, highest=13000.0, spacing=75.0, t60=0.3, corner=9000.0, tilt=1.5).modes("ride ping")


def ride_wash(chance: Chance) -> Samples:
    """The long shimmer of a ride cymbal."""
    return ring(struck(RIDE, chance, 0.0, 0.0, UNEVEN), 4.0)


def ride_strike(level: Level, chance: Chance) -> Samples:
    """The ping of the stick's tip."""
    ping = 0.9 * _blow(PING, level, chance, 0.3)
    return mix(ping, 0.5 * stick(level, chance), 0.35 * _hiss(level, chance, 0.12, 6000.0, 0.001))


# The bell of a ride cymbal is a small thick cup of its own: few strong modes.
BELL = (
    Mode(688.0, 0.5, 2.6),
    Mode(1106.0, 0.7, 2.4),
    Mode(1873.0, 1.0, 2.0),
    Mode(2731.0, 0.8, 1.6),
    Mode(3604.0, 0.7, 1.2),
    Mode(4779.0, 0.5, 0.9),
    Mode(6220.0, 0.35, 0.6),
)
BELL_SPLIT = 1.004  # no cup is quite round: each mode is two that beat
BELL_START = tuple(Mode(1.31 * mode.hertz, mode.size, 0.12) for mode in BELL)


def bell_wash(chance: Chance) -> Samples:
    """The bell's clear ring with a little of the plate round it."""
    beating = [replace(mode, hertz=mode.hertz * side) for mode in BELL for side in (1.0, BELL_SPLIT)]
    plate = ring(struck(RIDE, chance, 0.0, 0.0, UNEVEN), 2.6)
    return mix(leveled(ring(beating, 2.6), 1.0), leveled(plate, 0.3))


def bell_strike(level: Level, chance: Chance) -> Samples:
    """The shoulder of the stick on the bell: a hard, bright start."""
    hiss_size = {Level.GHOST: 0.1, Level.TAP: 0.2, Level.ACCENT: 0.45}[level]
    start = 0.9 * _blow((*BELL_START, *PING), level, chance, 0.22, 0.8)
    return mix(start, 0.5 * stick(level, chance), hiss_size * _hiss(level, chance, 0.12, 5000.0, 0.001))


CRASH = Plate(lowest=230.0, highest=15000.0, spacing=26.0, t60=3.4, corner=5200.0, tilt=0.6).modes("crash")
EDGE = Plate(lowest=400.0, highest=15000.0, spacing=60.0, t60=0.36, corner=8000.0, tilt=1.0).modes("crash edge")
SWELL_ABOVE = 2500.0


def crash_wash(chance: Chance) -> Samples:
    """The broad roar of a thin cymbal; its high part swells for some hundredths of a second."""
    modes = struck(CRASH, chance, 0.0, 0.0, UNEVEN)
    low = ring([mode for mode in modes if mode.hertz < SWELL_ABOVE], 3.0)
    high = ring([mode for mode in modes if mode.hertz >= SWELL_ABOVE], 3.0)
    return mix(low, high * rise(len(high), 0.03))


def crash_strike(level: Level, chance: Chance) -> Samples:
    """The edge struck with the stick's shoulder: a burst that fills the whole band."""
    edge = 0.8 * _blow(EDGE, level, chance, 0.32)
    return mix(edge, 0.7 * _hiss(level, chance, 0.3, 5000.0, 0.012), 0.35 * stick(level, chance))


HATS_T60 = 1.35
HATS = Plate(lowest=420.0, highest=16000.0, spacing=48.0, t60=HATS_T60, corner=9000.0, tilt=2.4).modes("hi-hat")


def closed_hat(level: Level, chance: Chance) -> Samples:
    """Two cymbals held together: they damp each other at once."""
    length = {Level.GHOST: 0.07, Level.TAP: 0.085, Level.ACCENT: 0.12}[level]
    plates = 0.9 * _blow(HATS, level, chance, 1.1 * length, length / HATS_T60)
    return mix(plates, 0.6 * _hiss(level, chance, length, 6000.0, 0.0006), 0.25 * stick(level, chance))


def open_hat_wash(chance: Chance) -> Samples:
    """Two cymbals that just touch: they sizzle against each other while they ring."""
    plates = leveled(ring(struck(HATS, chance, 0.0, 0.0, UNEVEN), 1.3), 1.0)
    count = len(plates)
    sizzle = chance.noise(count, 5000.0, 14000.0) * decay(count, 0.9)
    return mix(plates, 0.45 * sizzle)


def open_hat_strike(level: Level, chance: Chance) -> Samples:
    """The edge of the open pair."""
    start = 0.9 * _blow(HATS, level, chance, 0.3, 0.25)
    return mix(start, 0.6 * _hiss(level, chance, 0.25, 6000.0, 0.002), 0.3 * stick(level, chance))


def foot_hat(level: Level, chance: Chance) -> Samples:
    """The pair clapped together by the pedal: a softer start, a short chick."""
    plates = 0.8 * _blow(HATS, level, chance, 0.12, 0.075)
    count = count_of(0.12)
    clap = 0.7 * chance.noise(count, 900.0, 5200.0) * decay(count, 0.085)
    both = mix(plates, clap, 0.35 * _hiss(level, chance, 0.07, 6000.0, 0.003))
    return both * rise(len(both), 0.0025)


def half_open_hat(level: Level, chance: Chance) -> Samples:
    """The pair just touching: it sizzles, and dies sooner than the open one."""
    length = {Level.GHOST: 0.26, Level.TAP: 0.3, Level.ACCENT: 0.36}[level]
    plates = 0.9 * _blow(HATS, level, chance, 1.1 * length, length / HATS_T60)
    return mix(plates, 0.7 * _hiss(level, chance, length, 6000.0, 0.0012), 0.25 * stick(level, chance))


def splashed_hat(level: Level, chance: Chance) -> Samples:
    """The pair clapped by the pedal and let go at once."""
    length = 0.5
    plates = 0.8 * _blow(HATS, level, chance, 1.1 * length, length / HATS_T60)
    both = mix(plates, 0.4 * _hiss(level, chance, 0.3, 6000.0, 0.003))
    return both * rise(len(both), 0.0025)


SPLASH = Plate(lowest=520.0, highest=15000.0, spacing=60.0, t60=0.9, corner=6500.0, tilt=1.0).modes("splash")


def splash_strike(level: Level, chance: Chance) -> Samples:
    """A small thin cymbal: quick to speak, quick to die."""
    plate = 0.9 * _blow(SPLASH, level, chance, 0.9)
    return mix(plate, 0.5 * _hiss(level, chance, 0.2, 5000.0, 0.004), 0.3 * stick(level, chance))
