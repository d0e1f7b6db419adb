"""Small tools for sampled sound: mono, at one rate, as arrays of real numbers."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

RATE = 44_100
Samples = NDArray[np.floating[Any]]
Pcm = NDArray[np.int16]

FULL_SCALE = 32_767
SILENT_END = 32  # samples
BLOCK = 64  # FLAC packs a block best when its length divides many times by two
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


def push(count: int, seconds: float) -> Samples:
    """From 0 to 1 in ``seconds`` along a quarter of a sine, then 1: it starts at once."""
    pushed: Samples = np.sin(np.pi / 2 * np.minimum(times(count) / seconds, 1.0))
    return pushed


def fade_in(count: int, starts: float, whole_from: float) -> Samples:
    """From 0 at one time to 1 at another, in seconds, along half a cosine."""
    share = np.clip((times(count) - starts) / (whole_from - starts), 0.0, 1.0)
    risen: Samples = 0.5 - 0.5 * np.cos(np.pi * share)
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


def loudest_db(samples: Samples, seconds: float = 0.1) -> float:
    """How loud a stroke is: the effective value of its loudest tenth of a second, in decibels below full scale."""
    count = count_of(seconds)
    summed = np.concatenate([[0.0], np.cumsum(np.square(samples, dtype=np.float64))])
    most = summed[-1] if len(samples) <= count else np.max(summed[count:] - summed[:-count])
    return float(10 * np.log10(most / count))


def numbers(samples: Samples, bits: int) -> Pcm:
    """Whole numbers, the highest of them 2^bits.

    Rounding makes the last bits of the arithmetic, which may differ between machines, disappear.
    """
    steps: Pcm = np.round(samples * ((2**bits - 1) / peak(samples))).astype(np.int16)
    return steps


def stepped(samples: Samples, bits: int) -> Pcm:
    """:func:`numbers` up to the last that is not 0, and a little silence; of a length that FLAC packs well."""
    steps = numbers(samples, bits)
    heard = int(np.flatnonzero(steps)[-1]) + 1
    ended = np.zeros(-(-(heard + SILENT_END) // BLOCK) * BLOCK, np.int16)
    ended[:heard] = steps[:heard]
    return ended
