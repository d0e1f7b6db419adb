"""Drums with heads: modes that glide, fitted to an instrument's table."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from wristwork.sound.kit.chance import Chance
from wristwork.sound.kit.modes import head_modes
from wristwork.sound.kit.samples import NEPERS_TO_60_DB, RATE, Samples, count_of, fade_in, rise, times
from wristwork.sound.kit.tables import Table, bands
from wristwork.sound.kit.texture import Blow

STRETCHES = 0.55  # how far strokes of one effort differ in their glide


@dataclass(frozen=True, slots=True)
class DrumHead:
    """A struck head over a shell.

    ``hertz``: its lowest mode. ``t60``: how long that one rings, in seconds; the others ring for ``upper`` of that.
    ``sharp``: how much too high an accent starts (a share), ``settle``: the time constant in which that goes.
    ``struck``: how far from the middle, 0 to 1. ``weaker``: what each line across the head takes off a mode, in
    decibels. ``highest``: the highest mode, as a ratio; ``second``: the ratio of the second round mode, which the
    other head and the air between them shift; ``drift``: by what share the pitch differs from stroke to stroke;
    ``push``: for how long an accent presses the head down, in seconds.
    """

    hertz: float
    t60: float
    upper: float
    sharp: float
    settle: float
    struck: float
    weaker: float
    highest: float
    second: float
    drift: float = 0.0
    push: float = 0.0025

    def sound(self, table: Table, blow: Blow, chance: Chance, seconds: float) -> Samples:
        """One stroke. The modes of each band together have the energy that the table says."""
        found = self._modes(blow.further_out, chance)
        energies = table.energies(blow.effort, blow.tilt)
        t = times(count_of(seconds))
        # A softer blow stretches the head less. All efforts end in one phase, so that they can share a ring.
        sharp = self.sharp * (0.35 + 0.65 * blow.effort) * (1 + STRETCHES * blow.stretch)
        cycles = t * (1 + self.drift * blow.stretch) - sharp * self.settle * np.exp(-t / self.settle)
        total = np.zeros(len(t))
        for band in {band for band, *_ in found}:
            together = [mode for mode in found if mode[0] == band]
            whole = RATE * sum(size**2 * t60 for _, _, size, t60 in together) / (4 * NEPERS_TO_60_DB)
            for _, hertz, size, t60 in together:
                falling = np.exp(-NEPERS_TO_60_DB / t60 * t)
                scale = np.sqrt(energies[band] / whole)
                total += scale * size * np.sin(2 * np.pi * hertz * cycles) * falling
        return total * rise(len(t), self.push * (1.5 - 0.5 * blow.effort))

    def ring(self, seconds: float, starts: float, whole_from: float) -> Samples:
        """The lowest mode alone, at an energy of 1, as it rings on: it fades in from ``starts`` to ``whole_from``."""
        t = times(count_of(seconds))
        size = np.sqrt(4 * NEPERS_TO_60_DB / (RATE * self.t60))
        whole = size * np.sin(2 * np.pi * self.hertz * t) * np.exp(-NEPERS_TO_60_DB / self.t60 * t)
        return whole * fade_in(len(t), starts, whole_from)

    @property
    def band(self) -> int:
        """The band of the lowest mode."""
        return _band(self.hertz)

    def _modes(self, further_out: float, chance: Chance) -> list[tuple[int, float, float, float]]:
        """Each mode's band, hertz, size and T60."""
        radius = self.struck + further_out
        found = []
        for mode in head_modes(self.highest):
            ratio = self.second if (mode.diameters, mode.circles) == (0, 2) else mode.ratio
            hertz = self.hertz * ratio * chance.between(0.996, 1.004) if ratio != 1.0 else self.hertz
            size = mode.struck_at(radius) * 10 ** (-self.weaker * mode.diameters / 20)
            if mode.diameters:  # on which side of its lines a mode is struck differs from stroke to stroke
                size *= chance.between(0.6, 1.4) * (1 if chance.between(0.0, 1.0) < 0.5 else -1)
            t60 = self.t60 if ratio == 1.0 else self.upper * self.t60 / (1 + 0.06 * (ratio - 1.5) ** 2)
            found.append((_band(hertz), hertz, size, t60))
        return found


def _band(hertz: float) -> int:
    return int(np.argmin(np.abs(np.log2(bands() / hertz))))
