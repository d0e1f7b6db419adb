"""Drums with heads: snare drum, rim shot, toms, kick."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from wristwork.pattern.model import Level
from wristwork.sound.kit.blocks import stick
from wristwork.sound.kit.chance import Chance
from wristwork.sound.kit.filters import band
from wristwork.sound.kit.modes import HeadMode, Mode, contact, gliding_ring, head_modes, ring, struck
from wristwork.sound.kit.samples import Samples, count_of, decay, leveled, mix, rise

# How long the stick stays on a head, in seconds, and how far the blow stretches the head (1: the accent).
CONTACT = {Level.GHOST: 0.00105, Level.TAP: 0.00072, Level.ACCENT: 0.0004}
STRETCH = {Level.GHOST: 0.06, Level.TAP: 0.25, Level.ACCENT: 1.0}
SETTLE_SECONDS = 0.045


@dataclass(frozen=True, slots=True)
class Head:
    """A struck head over a shell.

    ``hertz``: its lowest mode as an ideal head would have it. ``coupled``: the real drum's two lowest round modes,
    as ratios of that (air and the other head pull the lowest mode down and put a second one above it). ``t60``: how
    long the longest mode rings, in seconds. ``sharp``: how much too high an accent starts (a share). ``struck``: how
    far from the middle, 0 to 1. ``highest``: the highest mode that matters, as a ratio.
    """

    hertz: float
    coupled: tuple[float, float]
    t60: float
    sharp: float
    struck: float
    highest: float

    def sound(self, level: Level, chance: Chance, contact_scale: float = 1.0) -> Samples:
        """The ringing head after one stroke, with a peak of 1; harder strokes reach higher modes."""
        modes = self._modes(chance, contact_scale * CONTACT[level])
        whole = gliding_ring(modes, 1.15 * self.t60, self.sharp * STRETCH[level], SETTLE_SECONDS)
        return leveled(band(whole, 0.5 * self.hertz, None), 1.0)  # a drum moves no air below its lowest mode

    def _modes(self, chance: Chance, contact_seconds: float) -> list[Mode]:
        radius = chance.about(self.struck, 0.18)
        found = []
        for mode in head_modes(self.highest):
            size = mode.struck_at(radius) * chance.about(1.0, 0.12)
            for ratio, share in self._ratios(mode):
                hertz = chance.about(self.hertz * ratio, 0.003)
                found.append(
                    Mode(hertz, size * share * contact(hertz, contact_seconds), self._t60(mode.diameters, ratio))
                )
        return found

    def _ratios(self, mode: HeadMode) -> tuple[tuple[float, float], ...]:
        """A mode's ratios and shares; the lowest is two modes of the coupled heads."""
        if mode.ratio == 1.0:
            low, high = self.coupled
            return (low, 1.0), (high, 0.45)
        return ((mode.ratio, 1.0),)

    def _t60(self, diameters: int, ratio: float) -> float:
        """Round modes push air and spend themselves; modes with nodal lines ring longer; high ones die in the skin."""
        skin = 1.0 + 0.32 * max(0.0, ratio - 1.6) ** 2
        air = 2.0 if diameters == 0 else 1.0
        return self.t60 / (skin * air)


SNARE = Head(hertz=186.0, coupled=(0.98, 1.78), t60=0.42, sharp=0.05, struck=0.22, highest=9.0)
HIGH_TOM = Head(hertz=158.0, coupled=(0.9, 1.5), t60=0.75, sharp=0.07, struck=0.25, highest=9.0)
LOW_TOM = Head(hertz=94.0, coupled=(0.9, 1.5), t60=0.95, sharp=0.09, struck=0.25, highest=10.0)
MID_TOM = Head(hertz=116.0, coupled=(0.9, 1.5), t60=0.9, sharp=0.08, struck=0.25, highest=9.5)
FLOOR_TOM = Head(hertz=76.0, coupled=(0.9, 1.48), t60=1.15, sharp=0.09, struck=0.25, highest=10.0)

WIRES_LATE_SECONDS = 0.0012  # the wave has to cross the drum first
WIRES_TOP = {Level.GHOST: 6500.0, Level.TAP: 8500.0, Level.ACCENT: 12500.0}


def wires(head: Samples, level: Level, chance: Chance) -> Samples:
    """The snare wires: noise set off by the moving head, a moment after the stroke."""
    late = count_of(WIRES_LATE_SECONDS)
    movement = np.maximum(band(np.abs(head), None, 70.0, order=1), 0.0)
    driven = np.concatenate([np.zeros(late), movement[:-late]])
    hiss = 0.8 * chance.noise(len(head), 1500.0, WIRES_TOP[level], order=1)
    edge = 0.6 * chance.noise(len(head), 3800.0, WIRES_TOP[level])
    return (hiss + edge) * leveled(driven, 1.0)


def snare(level: Level, chance: Chance) -> Samples:
    """Head, wires and stick."""
    head = SNARE.sound(level, chance)
    wire_size = {Level.GHOST: 0.85, Level.TAP: 0.95, Level.ACCENT: 1.1}[level]
    stick_size = {Level.GHOST: 0.25, Level.TAP: 0.35, Level.ACCENT: 0.55}[level]
    return mix(head, wire_size * wires(head, level, chance), stick_size * stick(level, chance))


# The steel hoop and the shell, set ringing by a stick that lies across both.
RIM = (
    Mode(655.0, 0.6, 0.16),
    Mode(1130.0, 0.9, 0.15),
    Mode(1735.0, 0.9, 0.13),
    Mode(2460.0, 1.0, 0.11),
    Mode(3370.0, 0.9, 0.09),
    Mode(4650.0, 0.8, 0.07),
    Mode(6120.0, 0.6, 0.05),
)
CRACK_SIZE = {Level.GHOST: 0.45, Level.TAP: 0.6, Level.ACCENT: 0.9}


def rim_shot(level: Level, chance: Chance) -> Samples:
    """Head and rim at once: a hard crack with a ring of metal in it, over the snare drum."""
    head = SNARE.sound(level, chance, 0.5)
    rim = leveled(ring(struck(RIM, chance, 0.16 * CONTACT[level], 0.006, 0.15), 0.25), 1.0)
    count = count_of(0.06)
    crack = chance.noise(count, 1500.0, 14000.0) * decay(count, 0.03) * rise(count, 0.0002)
    return mix(
        0.7 * head, 0.75 * wires(head, level, chance), 0.9 * rim, CRACK_SIZE[level] * crack, stick(level, chance)
    )


def rim(level: Level, chance: Chance) -> Samples:
    """The hoop alone, struck from above."""
    hoop = ring(struck(RIM, chance, 0.16 * CONTACT[level], 0.006, 0.15), 0.2)
    return mix(leveled(band(hoop, 400.0, None), 1.0), 0.4 * stick(level, chance))


def tom(head: Head) -> Callable[[Level, Chance], Samples]:
    """The maker of a tom with this head."""
    stick_size = {Level.GHOST: 0.1, Level.TAP: 0.18, Level.ACCENT: 0.42}

    def made(level: Level, chance: Chance) -> Samples:
        return mix(head.sound(level, chance, 0.9), stick_size[level] * stick(level, chance))

    return made


# A 22-inch drum with a felt beater: the blow is slow, so the knock of the beater on the head is made of modes of its
# own, high enough for a small loudspeaker.
KICK = Head(hertz=54.0, coupled=(1.0, 1.9), t60=0.62, sharp=0.55, struck=0.08, highest=5.0)
BEATER = (
    Mode(505.0, 0.9, 0.07),
    Mode(840.0, 1.0, 0.055),
    Mode(1420.0, 0.9, 0.042),
    Mode(2350.0, 0.8, 0.03),
    Mode(3600.0, 0.7, 0.02),
)
SLAP_SIZE = {Level.GHOST: 0.08, Level.TAP: 0.15, Level.ACCENT: 0.3}


def kick(level: Level, chance: Chance) -> Samples:
    """A low push that falls in pitch, with a knock that a phone can give back."""
    knock = leveled(ring(struck(BEATER, chance, 0.6 * CONTACT[level], 0.02, 0.15), 0.1), 1.0)
    count = count_of(0.03)
    slap = chance.noise(count, 1200.0, 1.6 / CONTACT[level], order=1) * decay(count, 0.014) * rise(count, 0.0006)
    return mix(
        KICK.sound(level, chance, 3.5),
        0.45 * knock,
        SLAP_SIZE[level] * slap,
    )
