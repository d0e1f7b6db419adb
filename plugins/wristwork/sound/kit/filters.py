"""Filters, apart from the other tools because their library takes a moment to load."""

from __future__ import annotations

from scipy.signal import butter, sosfilt

from wristwork.sound.kit.samples import RATE, Samples


def band(samples: Samples, low: float | None, high: float | None, order: int = 2) -> Samples:
    """Only what lies between two frequencies in hertz (None: no bound), by a Butterworth filter."""
    if low is not None:
        samples = sosfilt(butter(order, low, "highpass", fs=RATE, output="sos"), samples)
    if high is not None:
        samples = sosfilt(butter(order, high, "lowpass", fs=RATE, output="sos"), samples)
    return samples
