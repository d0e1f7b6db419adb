"""Small tools for sampled sound: mono, at one rate, as arrays of real numbers."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

RATE = 44_100
Samples = NDArray[np.floating[Any]]
Pcm = NDArray[np.int16]

FULL_SCALE = 32_767
NEPERS_TO_60_DB = 6.907755278982137  # ln(1000)


def gain_of(decibels: float) -> float:
    """The factor that stands for so many decibels."""
    return float(10 ** (decibels / 20))


def count_of(seconds: float) -> int:
    """How many samples fill a time."""
    return round(seconds * RATE)


def times(count: int) -> Samples:
    """The time of each sample in seconds."""
    return np.arange(count) / RATE


def decay(count: int, t60: float) -> Samples:
    """An exponential fall from 1 that is 60 dB down after ``t60`` seconds."""
    fallen: Samples = np.exp(-NEPERS_TO_60_DB / t60 * times(count))
    return fallen


def rise(count: int, seconds: float) -> Samples:
    """From 0 to 1 in ``seconds`` along half a cosine, then 1."""
    risen: Samples = 0.5 - 0.5 * np.cos(np.pi * np.minimum(times(count) / seconds, 1.0))
    return risen


def fade_out(samples: Samples, seconds: float) -> Samples:
    """The samples with their last ``seconds`` faded to nothing."""
    faded = samples.copy()
    count = min(count_of(seconds), len(faded))
    faded[len(faded) - count :] *= rise(count, seconds)[::-1]
    return faded


def peak(samples: Samples) -> float:
    """The largest distance from 0."""
    return float(np.max(np.abs(samples), initial=0.0))


def leveled(samples: Samples, size: float) -> Samples:
    """The sound with its peak at ``size``."""
    return samples * (size / peak(samples))


def mix(*parts: Samples) -> Samples:
    """The sum of sounds that start together; as long as the longest."""
    total = np.zeros(max(len(part) for part in parts))
    for part in parts:
        total[: len(part)] += part
    return total


def rounded(samples: Samples) -> tuple[Pcm, float]:
    """16-bit values that use the whole scale, and the gain that turns full scale back into the samples.

    Rounding makes the last bits of the arithmetic, which may differ between machines, disappear.
    """
    loudest = peak(samples)
    pcm = np.round(samples * (FULL_SCALE / loudest)).astype(np.int16)
    return pcm, loudest
