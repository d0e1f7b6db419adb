"""Things that ring: sums of modes, each a frequency that dies away at its own pace."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

import numpy as np
from scipy.special import jn_zeros, jv

from wristwork.sound.kit.chance import Chance
from wristwork.sound.kit.samples import NEPERS_TO_60_DB, RATE, Samples, count_of

_BLOCK = 128


@dataclass(frozen=True, slots=True)
class Mode:
    """One way of ringing: hertz, size at the start, and seconds until it is 60 dB down."""

    hertz: float
    size: float
    t60: float


def ring(modes: Iterable[Mode], seconds: float) -> Samples:
    """The modes sounding together, struck at 0: each starts from rest, as a sine.

    A mode above what the rate can hold is left out.
    """
    total = np.zeros(count_of(seconds))
    for mode in modes:
        if mode.hertz < RATE / 2:
            count = min(len(total), count_of(1.4 * mode.t60))  # 84 dB down: below the last bit
            total[:count] += mode.size * _decaying_sine(mode, count)
    return total


def _decaying_sine(mode: Mode, count: int) -> Samples:
    # The powers of one complex number; as an outer product of two short runs it needs no sine for each sample.
    step = complex(-NEPERS_TO_60_DB / mode.t60, 2 * np.pi * mode.hertz) / RATE
    fine = np.exp(step * np.arange(_BLOCK))
    coarse = np.exp(step * _BLOCK * np.arange(-(-count // _BLOCK)))
    powers: Samples = np.multiply.outer(coarse, fine).imag.ravel()
    return powers[:count]


def contact(hertz: float, seconds: float) -> float:
    """How much of a blow that lasts ``seconds`` reaches a mode: long, soft contacts leave high modes alone.

    The outline of the spectrum of a half-sine push, without its zeros.
    """
    return 1.0 / (1.0 + (2.0 * hertz * seconds) ** 2)


def struck(modes: Iterable[Mode], chance: Chance, contact_seconds: float, detune: float, uneven: float) -> list[Mode]:
    """The modes as one blow sets them off.

    No two strokes land on quite the same spot: pitches differ by up to ``detune`` of themselves, sizes by ``uneven``.
    """
    return [
        Mode(
            chance.about(mode.hertz, detune),
            chance.about(mode.size, uneven) * contact(mode.hertz, contact_seconds),
            mode.t60,
        )
        for mode in modes
    ]


@dataclass(frozen=True, slots=True)
class HeadMode:
    """A mode of an ideal circular head: ``diameters`` nodal lines across it, ``circles`` round it (the edge counted).

    ``ratio`` is its frequency over that of the lowest mode.
    """

    diameters: int
    circles: int
    ratio: float

    def struck_at(self, radius: float) -> float:
        """How far the mode moves where it is struck, ``radius`` from the middle (0) to the edge (1)."""
        zero = jn_zeros(self.diameters, self.circles)[-1]
        return float(jv(self.diameters, zero * radius))


@cache
def head_modes(highest_ratio: float) -> tuple[HeadMode, ...]:
    """The modes of a circular head up to a ratio: 1, 1.594, 2.136, 2.296, 2.653, … (zeros of Bessel functions)."""
    lowest = jn_zeros(0, 1)[0]
    found = [
        HeadMode(diameters, circle + 1, float(zero / lowest))
        for diameters in range(20)
        for circle, zero in enumerate(jn_zeros(diameters, 8))
    ]
    return tuple(sorted((mode for mode in found if mode.ratio <= highest_ratio), key=lambda mode: mode.ratio))
