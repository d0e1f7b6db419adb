"""What each sound is held to: its bands, how long it rings, how bright it is at each level.

The figures are those of real instruments, rounded to what matters to the ear. They are measured on
the finished sounds, never taken from the recipes.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from wristwork.pattern.model import Drum
from wristwork.sound.kit.samples import RATE, Samples


def ringing(wave: Samples, decibels: float = 60.0) -> float:
    """Seconds after which a sound stays this far below its peak."""
    size = np.abs(wave)
    loud = np.flatnonzero(size >= size.max() * 10 ** (-decibels / 20))
    return float((loud[-1] + 1) / RATE)


def spectrum(wave: Samples) -> tuple[Samples, Samples]:
    """Frequencies in hertz and the energy at each."""
    return np.fft.rfftfreq(len(wave), 1 / RATE), np.abs(np.fft.rfft(wave.astype(np.float64))) ** 2


def share(wave: Samples, low: float, high: float = RATE / 2) -> float:
    """How much of a sound's energy lies between two frequencies, in decibels below the whole (0: all of it)."""
    hertz, energy = spectrum(wave)
    within = (hertz >= low) & (hertz < high)
    return float(10 * np.log10(energy[within].sum() / energy.sum()))


def brightness(wave: Samples) -> float:
    """The middle of a sound's spectrum: the mean frequency in hertz, weighted by energy."""
    hertz, energy = spectrum(wave)
    return float((hertz * energy).sum() / energy.sum())


@dataclass(frozen=True, slots=True)
class Fact:
    """A measure that every sound of a place keeps between two bounds."""

    place: Drum
    what: str
    measure: Callable[[Samples], float]
    low: float
    high: float


def _rings(place: Drum, low: float, high: float) -> Fact:
    return Fact(place, "seconds to -60 dB", ringing, low, high)


def _has(place: Drum, low: float, high: float, at_least: float, at_most: float = 0.0) -> Fact:
    what = f"dB of its energy from {low:g} to {high:g} Hz"
    return Fact(place, what, lambda wave: share(wave, low, high), at_least, at_most)


def _is_bright(place: Drum, low: float, high: float) -> Fact:
    return Fact(place, "brightness in Hz", brightness, low, high)


_TOP = RATE / 2
KIT_FACTS: tuple[Fact, ...] = (
    _rings(Drum.PAD, 0.03, 0.1),
    _has(Drum.PAD, 300, 2000, -4),
    _has(Drum.PAD, 0, 200, -60, -18),
    _rings(Drum.SNARE, 0.25, 0.5),
    _has(Drum.SNARE, 150, 400, -12),
    _has(Drum.SNARE, 2000, 8000, -8),
    _has(Drum.SNARE, 6000, 8000, -16),
    _rings(Drum.RIM_SHOT, 0.2, 0.5),
    _has(Drum.RIM_SHOT, 1000, 5000, -6),
    _rings(Drum.CROSS_STICK, 0.05, 0.13),
    _has(Drum.CROSS_STICK, 900, 3000, -3),
    _rings(Drum.HI_HAT, 0.05, 0.15),
    _is_bright(Drum.HI_HAT, 5000, 10000),
    _has(Drum.HI_HAT, 0, 400, -60, -15),
    _rings(Drum.OPEN_HI_HAT, 0.6, 1.4),
    _is_bright(Drum.OPEN_HI_HAT, 5500, 10000),
    _rings(Drum.HI_HAT_FOOT, 0.05, 0.12),
    _is_bright(Drum.HI_HAT_FOOT, 3500, 7500),
    _rings(Drum.RIDE, 2.0, 4.0),
    _is_bright(Drum.RIDE, 3000, 6000),
    _rings(Drum.RIDE_BELL, 1.5, 3.0),
    _has(Drum.RIDE_BELL, 1000, 4000, -3),
    _rings(Drum.CRASH, 1.6, 3.0),
    _has(Drum.CRASH, 3000, _TOP, -4),
    _rings(Drum.HIGH_TOM, 0.35, 0.8),
    _has(Drum.HIGH_TOM, 120, 500, -4),
    _rings(Drum.MID_TOM, 0.45, 1.0),
    _has(Drum.MID_TOM, 85, 400, -4),
    _rings(Drum.FLOOR_TOM, 0.55, 1.2),
    _has(Drum.FLOOR_TOM, 55, 300, -3),
    _rings(Drum.COWBELL, 0.2, 0.42),
    _has(Drum.COWBELL, 500, 3000, -2),
    _rings(Drum.KICK, 0.25, 0.7),
    _has(Drum.KICK, 40, 120, -5),
    _has(Drum.KICK, 400, _TOP, -15, -6),
    _rings(Drum.CHINA, 1.4, 3.2),
    _has(Drum.CHINA, 3000, _TOP, -4),
    _rings(Drum.SPLASH, 0.4, 1.2),
    _is_bright(Drum.SPLASH, 3200, 9000),
    _rings(Drum.SECOND_CRASH, 1.4, 3.0),
    _has(Drum.SECOND_CRASH, 3000, _TOP, -4),
    _rings(Drum.HALF_OPEN_HI_HAT, 0.2, 0.5),
    _is_bright(Drum.HALF_OPEN_HI_HAT, 5000, 10000),
    _rings(Drum.FOOT_SPLASH, 0.3, 0.8),
    _is_bright(Drum.FOOT_SPLASH, 4000, 10000),
    _rings(Drum.LOW_TOM, 0.5, 1.1),
    _has(Drum.LOW_TOM, 70, 350, -3),
    _rings(Drum.RIM, 0.08, 0.25),
    _has(Drum.RIM, 900, 5000, -4),
    _rings(Drum.STICK_ON_STICK, 0.02, 0.12),
    _has(Drum.STICK_ON_STICK, 1000, _TOP, -3),
    _rings(Drum.BRUSH_SWEEP, 0.1, 0.3),
    _has(Drum.BRUSH_SWEEP, 900, 9000, -2),
)

# An accent is brighter than a tap, and a tap than a ghost note, by at least these factors in brightness.
BRIGHTER = {("accent", "tap"): 1.08, ("tap", "ghost"): 1.03}
