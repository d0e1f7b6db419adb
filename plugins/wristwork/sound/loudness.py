"""How loud a waveform is, and how much louder it may be.

Loudness is that of ITU-R BS.1770 (integrated, in LUFS). A true peak is the peak of the curve
between the samples, found by looking at four times the rate, in decibels below full scale (dBTP).
"""

from __future__ import annotations

import warnings
from dataclasses import dataclass

import numpy as np
from pyloudnorm import Meter
from scipy.signal import resample_poly

from wristwork.sound.kit.samples import RATE, Samples

TARGET_LUFS = -24.0
HIGHEST_DBTP = -1.0
TOLERANCE_LU = 0.1
ENCODING_MOVES_LU = 1.0  # more than encoding was ever seen to change the loudness
ENCODING_MARGIN_DB = 0.2  # most previews gain less than this in true peak when they are encoded and decoded

_OVERSAMPLING = 4
_STRETCH = 4096
_MARGIN = 64  # samples on both sides, so that the filter sees what it needs
_meter = Meter(RATE)


def integrated_loudness(wave: Samples) -> float:
    """LUFS of the whole; minus infinity for silence."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # the meter warns of what it then answers correctly: minus infinity
        return float(_meter.integrated_loudness(wave.astype(np.float64)))


def true_peak(wave: Samples) -> float:
    """The true peak, where 1 is full scale.

    Only stretches that come within 6 dB of the highest sample are looked at: between the samples of any others the
    curve cannot rise above it.
    """
    highest = float(np.abs(wave).max(initial=0.0))
    if highest == 0.0:
        return 0.0
    found = highest
    for start in range(0, len(wave), _STRETCH):
        before = min(start, _MARGIN)
        stretch = wave[start - before : start + _STRETCH + _MARGIN]
        if np.abs(stretch).max() > highest / 2:
            finer = resample_poly(stretch, _OVERSAMPLING, 1)[before * _OVERSAMPLING :][: _STRETCH * _OVERSAMPLING]
            found = max(found, float(np.abs(finer).max()))
    return found


def decibels(factor: float) -> float:
    """A factor in decibels; minus infinity for 0."""
    return float(20 * np.log10(factor)) if factor > 0 else -np.inf


@dataclass(frozen=True, slots=True)
class Levels:
    """Loudness in LUFS and true peak in dBTP."""

    loudness: float
    peak: float

    def raised(self, decibels: float) -> Levels:
        """The levels of the same wave, so much louder."""
        return Levels(self.loudness + decibels, self.peak + decibels)

    @property
    def room(self) -> float:
        """By how many decibels the wave may still be raised; a margin is left for the encoder."""
        return min(TARGET_LUFS - self.loudness, HIGHEST_DBTP - ENCODING_MARGIN_DB - self.peak)


def levels(wave: Samples) -> Levels:
    """Both levels of a wave."""
    return Levels(integrated_loudness(wave), decibels(true_peak(wave)))


def too_loud_by(decoded: Samples, before: Levels) -> float:
    """Decibels by which a decoded wave is above what it may be (0 or less: it is not), given its levels before.

    The bound of the true peak is strict, that of the loudness is met to a tenth of a decibel. Where the loudness was
    not near its bound, encoding cannot have taken it there, and it is not measured again.
    """
    over = decibels(true_peak(decoded)) - HIGHEST_DBTP
    if before.loudness > TARGET_LUFS - ENCODING_MOVES_LU:
        over = max(over, integrated_loudness(decoded) - TARGET_LUFS - TOLERANCE_LU)
    return over
