"""Cymbals, hi-hats, the cowbell: textures whose brightness grows with the effort.

What rings long is two clips that all strokes on a cymbal share, one below :data:`CROSSOVER` and one above;
their shares follow the effort. A stroke's own clip is the part that falls quickly.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from wristwork.sound.kit.chance import Chance
from wristwork.sound.kit.samples import Samples, mix
from wristwork.sound.kit.tables import Table, bands, table
from wristwork.sound.kit.texture import Blow, Grain, texture

CROSSOVER = int(np.argmin(np.abs(bands() - 2000.0)))
LOW, HIGH = slice(None, CROSSOVER), slice(CROSSOVER, None)


@dataclass(frozen=True, eq=False)
class Cymbal:
    """A cymbal: its table, what it is made of, and for how many seconds its strike and its ring go on."""

    fitted: Table
    grain: Grain
    strike_seconds: float
    ring_seconds: float

    def strike(self, blow: Blow, chance: Chance) -> Samples:
        """What falls quickly."""
        return texture(self.fitted, blow, self.grain, chance, self.strike_seconds)[0]

    def ring(self, part: slice) -> Callable[[Chance], Samples]:
        """The maker of what rings on in some of the bands, at full effort."""

        def make(chance: Chance) -> Samples:
            return texture(self.fitted, Blow(1.0), self.grain, chance, self.ring_seconds, part)[1]

        return make

    def share(self, part: slice) -> Callable[[float], float]:
        """How large these bands are at an effort, against full effort: a factor."""

        def share_at(effort: float) -> float:
            return float(np.sqrt(self.fitted.energies(effort)[part].sum() / self.fitted.energies(1.0)[part].sum()))

        return share_at


RIDE = Cymbal(table("ride"), Grain("ride", 0.6, 20, lasting=0.7), 0.16, 2.2)
RIDE_BELL = Cymbal(table("ride bell"), Grain("ride bell", 0.8, 5, lasting=0.7), 0.16, 2.2)
CRASH = Cymbal(table("crash"), Grain("crash", 0.4, 20, lasting=0.7), 0.16, 2.2)
SECOND_CRASH = Cymbal(table("crash").moved(-0.3), Grain("second crash", 0.4, 20, lasting=0.7), 0.16, 2.2)
CHINA = Cymbal(table("china"), Grain("china", 0.3, 20, lasting=0.7), 0.16, 1.6)
SPLASH = Cymbal(table("splash"), Grain("splash", 0.35, 20, lasting=0.7), 0.16, 1.3)
OPEN_HI_HAT = Cymbal(table("open hi-hat").steady(0.2), Grain("hi-hat", 0.4, 20, lasting=0.7), 0.16, 0.9)

FOOT_SPLASH = Cymbal(table("open hi-hat").steady(0.0), Grain("hi-hat foot", 0.4, 20, swell=1.4, lasting=0.7), 0.16, 0.7)


def damped(fitted: Table, grain: Grain, seconds: float) -> Callable[[Blow, Chance], Samples]:
    """A metal thing that rings so briefly that each stroke has all of it."""

    def make(blow: Blow, chance: Chance) -> Samples:
        return mix(*texture(fitted, blow, grain, chance, seconds))

    return make


closed_hat = damped(table("hi-hat").steady(0.1), Grain("hi-hat", 0.3, 20), 0.3)
half_open_hat = damped(table("half-open hi-hat").steady(0.3), Grain("hi-hat", 0.35, 20), 0.45)
# The pedal claps the whole pair together: a body below, and a start that takes its time.
foot_hat = damped(table("hi-hat foot").steady(0.2).raised(80.0, 520.0, 5.0), Grain("hi-hat", 0.2, 20, swell=1.4), 0.25)
cowbell = damped(table("cowbell").steady(0.3), Grain("cowbell", 0.9, 2), 0.4)
