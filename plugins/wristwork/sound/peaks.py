"""How high a waveform goes, and the stage that keeps it from going too high.

A true peak is the peak of the curve between the samples, found by looking at four times the rate, in decibels below
full scale (dBTP).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.signal import resample_poly

from wristwork.sound.kit.samples import Samples, gain_of

HIGHEST_DBTP = -1.0

# Below the knee nothing is touched, so the pattern keeps its accents as they are; what several limbs add up to above it
# is bent towards the ceiling. The player has the same stage.
KNEE_DB = -3.0
CEILING_DB = -1.8

_OVERSAMPLING = 4
_STRETCH = 4096
_MARGIN = 64  # samples on both sides, so that the filter sees what it needs


def safe(wave: NDArray[np.float32], lower_db: float = 0.0) -> NDArray[np.float32]:
    """The wave with what is above the knee bent; ``lower_db`` lowers knee and ceiling."""
    knee, ceiling = gain_of(KNEE_DB - lower_db), gain_of(CEILING_DB - lower_db)
    size = np.abs(wave)
    over = size > knee
    if not over.any():
        return wave
    bent = wave.copy()
    room = ceiling - knee
    bent[over] = np.sign(wave[over]) * (knee + room * np.tanh((size[over] - knee) / room))
    return bent


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
