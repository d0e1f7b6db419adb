"""Chance that comes out the same on every machine.

Only the raw bits of a generator are used: numpy promises their stream for ever, but not how its
distributions turn bits into numbers.
"""

from __future__ import annotations

import hashlib

import numpy as np
from numpy.random import PCG64

from wristwork.sound.kit.filters import band
from wristwork.sound.kit.samples import Samples

_UNIT = 2.0**-53
_EFFECTIVE = 0.5


class Chance:
    """A stream of numbers that belongs to a name."""

    def __init__(self, name: str) -> None:
        digest = hashlib.sha256(name.encode("utf-8")).digest()
        self._bits = PCG64(int.from_bytes(digest[:16], "big"))

    def unit(self, count: int) -> Samples:
        """``count`` numbers, evenly spread from 0 up to 1."""
        raw: Samples = (self._bits.random_raw(count) >> np.uint64(11)) * _UNIT
        return raw

    def between(self, low: float, high: float) -> float:
        """One number from ``low`` to ``high``."""
        return low + (high - low) * float(self.unit(1)[0])

    def about(self, value: float, spread: float) -> float:
        """``value``, up or down by as much as ``spread`` of itself."""
        return value * self.between(1 - spread, 1 + spread)

    def noise(self, count: int, low: float | None = None, high: float | None = None, order: int = 2) -> Samples:
        """Noise between two frequencies in hertz, with an effective value of one half.

        Always that: how loud a hiss is should not hang on its one highest peak.
        """
        hiss = band(2.0 * self.unit(count) - 1.0, low, high, order)
        return hiss * (_EFFECTIVE / float(np.sqrt(np.mean(hiss**2))))
