"""What can be measured of one stroke on a drum: a waveform at 44.1 kHz → figures with names.

The same measures are taken of recorded strokes (``recorded_strokes.json`` holds only what came out) and of the made
kit. All are independent of how loud the recording is.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from scipy.signal import butter, hilbert, sosfiltfilt

from wristwork.sound.kit.samples import RATE, Samples

OCTAVES = (50, 100, 200, 400, 800, 1600, 3200, 6400, 12800, 22050)
LONGEST = 6 * RATE
FLOOR = 1e-12


def figures(wave: Samples, fundamental: tuple[float, float] | None = None) -> dict[str, float]:
    """Every figure of a stroke; those of a drum with a pitch where the bounds of its fundamental (hertz) are given."""
    stroke = np.asarray(wave[:LONGEST], np.float64)
    hertz, energy = spectrum(stroke)
    found = {
        "centroid Hz": float((hertz * energy).sum() / energy.sum()),
        **_octaves(hertz, energy),
        "T20 s": fall_seconds(stroke),
        "to -20 dB s": seconds_above(stroke, -20.0),
        "first 10 ms dB": _decibels((stroke[: RATE // 100] ** 2).sum() / (stroke**2).sum()),
        "attack ms": attack_ms(stroke),
        "tonal above 2 kHz": tonal_share(stroke),
    }
    return found | (pitched(stroke, fundamental) if fundamental else {})


def spectrum(stroke: Samples) -> tuple[Samples, Samples]:
    """Frequencies in hertz and the energy at each."""
    return np.fft.rfftfreq(len(stroke), 1 / RATE), np.abs(np.fft.rfft(stroke)) ** 2


def _decibels(ratio: float) -> float:
    return float(10 * np.log10(max(ratio, FLOOR)))


def _octaves(hertz: Samples, energy: Samples) -> dict[str, float]:
    """The energy of each octave, in decibels below all of it."""
    whole = energy.sum()
    return {
        f"{low}-{high} Hz dB": _decibels(energy[(hertz >= low) & (hertz < high)].sum() / whole)
        for low, high in pairwise(OCTAVES)
    }


def envelope(stroke: Samples, seconds: float) -> Samples:
    """The effective value within a moving window of so many seconds."""
    count = max(1, round(seconds * RATE))
    summed = np.cumsum(np.concatenate([np.zeros(count // 2), stroke**2, np.zeros(count - count // 2)]))
    return np.sqrt(np.maximum(summed[count:] - summed[:-count], 0.0) / count)


def seconds_above(stroke: Samples, decibels: float) -> float:
    """When the stroke has fallen so far below its loudest for good."""
    size = envelope(stroke, 0.005)
    return float(np.flatnonzero(size >= size.max() * 10 ** (decibels / 20))[-1] / RATE)


def fall_seconds(stroke: Samples) -> float:
    """The time of a fall by 60 dB, told from that from -5 to -25 dB of what is still to come."""
    left = np.cumsum((stroke**2)[::-1])[::-1]
    level = 10 * np.log10(np.maximum(left / left[0], FLOOR))
    within = np.flatnonzero((level <= -5) & (level >= -25))
    slope = np.polyfit(within / RATE, level[within], 1)[0]
    return float(-60 / slope)


def attack_ms(stroke: Samples) -> float:
    """From a tenth to nine tenths of the highest point, in milliseconds."""
    risen = np.maximum.accumulate(np.abs(stroke))
    tenth, most = (int(np.argmax(risen >= share * risen[-1])) for share in (0.1, 0.9))
    return 1000 * (most - tenth) / RATE


def tonal_share(stroke: Samples) -> float:
    """How much of the energy above 2 kHz stands in narrow peaks, 0 to 1."""
    window = stroke[: RATE // 10]
    hertz, energy = spectrum(window * np.hanning(2 * len(window))[len(window) :])
    energy = energy[hertz >= 2000]
    width = 15
    around = np.lib.stride_tricks.sliding_window_view(np.pad(energy, width // 2, mode="edge"), width)
    peaks = energy > 6 * np.median(around, axis=1)
    return float(energy[peaks].sum() / max(energy.sum(), FLOOR))


def pitched(stroke: Samples, bounds: tuple[float, float]) -> dict[str, float]:
    """Of a drum with a head: its fundamental and what is above it."""
    hertz, energy = spectrum(stroke)
    low, high = bounds
    inside = (hertz >= low) & (hertz <= high)
    lowest = float(hertz[inside][np.argmax(energy[inside])])
    early = stroke[: RATE // 2]
    above, at = spectrum(early * np.exp(-np.arange(len(early)) / (0.15 * RATE)))
    partials = at[(above > 1.35 * lowest) & (above < 8 * lowest)].max()
    own = at[(above > 0.8 * lowest) & (above < 1.25 * lowest)].max()
    return {
        "fundamental Hz": lowest,
        "fundamental T60 s": fall_seconds(band(stroke, 0.75 * lowest, 1.25 * lowest)),
        "upper T60 s": fall_seconds(band(stroke, 1.4 * lowest, min(8 * lowest, 4000.0))),
        "partials dB": _decibels(partials / own),
        "glide %": glide_percent(stroke, lowest),
    }


def band(stroke: Samples, low: float, high: float) -> Samples:
    """What lies between two frequencies, unmoved in time."""
    filtered: Samples = sosfiltfilt(butter(3, (low, high), "bandpass", fs=RATE, output="sos"), stroke)
    return filtered


def glide_percent(stroke: Samples, lowest: float) -> float:
    """How much higher the fundamental starts (10 to 25 ms) than it is after a quarter of a second."""
    cycles = np.unwrap(np.angle(hilbert(band(stroke[:RATE], 0.7 * lowest, 1.5 * lowest)))) / (2 * np.pi)

    def pitch(start: float, end: float) -> float:
        first, last = round(start * RATE), min(round(end * RATE), len(cycles) - 1)
        return float((cycles[last] - cycles[first]) * RATE / max(1, last - first))

    return 100 * (pitch(0.01, 0.03) / pitch(0.2, 0.35) - 1)
