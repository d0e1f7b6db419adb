"""How loud a waveform is, and the gain that brings previews to where they should be.

Loudness is that of ITU-R BS.1770 (integrated, in LUFS). A true peak is the peak of the curve
between the samples, found by looking at four times the rate, in decibels below full scale (dBTP).
"""

from __future__ import annotations

import warnings
from collections.abc import Iterable

import numpy as np
from pyloudnorm import Meter
from scipy.signal import resample_poly

from wristwork.sound.kit.samples import RATE, Samples

TARGET_LUFS = -24.0
HIGHEST_DBTP = -1.0
TOLERANCE_LU = 0.1
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


def too_loud_by(waves: Iterable[Samples]) -> float:
    """Decibels by which the loudest of the waves is above what it may be; 0 or less: it is not.

    The bound of the true peak is strict, that of the loudness is met to a tenth of a decibel.
    """
    return max(
        max(decibels(true_peak(wave)) - HIGHEST_DBTP, integrated_loudness(wave) - TARGET_LUFS - TOLERANCE_LU)
        for wave in waves
    )


def common_gain(waves: Iterable[Samples]) -> float:
    """The one gain for waves that belong together.

    With it the loudest of them reaches the target loudness or the highest true peak (less a margin for the encoder),
    whichever it meets first; none is above either.
    """
    highest = HIGHEST_DBTP - ENCODING_MARGIN_DB
    louder_by = min(min(TARGET_LUFS - integrated_loudness(wave), highest - decibels(true_peak(wave))) for wave in waves)
    return float(10 ** (louder_by / 20))
