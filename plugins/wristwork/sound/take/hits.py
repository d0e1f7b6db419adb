"""Where strokes begin in a recording.

A stroke is a sudden rise over the whole spectrum. How fast it rises is held against its surroundings, so that a loud
room and a quiet one are heard alike; speech rises more slowly and in fewer places, and what of it is taken for strokes
is left to the fit, which needs a rhythm.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.float64]

_STEP_S = 0.004
_WINDOW_S = 0.016
_RISE_STEPS = 2  # a rise is what is there now over what was there so many steps before
_SURROUNDINGS_S = 0.4
_OVER_SURROUNDINGS = 6.0  # over the middle of the surroundings, times how far rises there are from it in the middle
_OVER_ALL = 0.12  # of what the strongest rises reach
_APART_S = 0.035  # closer than this there is one stroke: two hands together, or a drum's own bounce
_FLOOR_PERCENTILE = 30  # of a band's loudness over the whole recording: what is there between strokes
_OVER_FLOOR = 3.0
_LEAST_FLOOR = 0.0005  # of the loudest sample
_LOUDNESS_S = 0.03
_QUIETEST = 1e-5
# The window is half over a stroke's first samples when the rise is steepest.
_LATE_S = -0.001


@dataclass(frozen=True, slots=True)
class Hits:
    """What was heard: ``at`` seconds from the start of the recording, in order, each so many decibels loud."""

    at: Numbers
    decibels: Numbers


def hits(samples: NDArray[Any], rate: int) -> Hits:
    """The strokes in mono ``samples``, so many a second (-1 to 1)."""
    wave = np.asarray(samples, np.float64)
    step, length = max(1, round(_STEP_S * rate)), max(8, round(_WINDOW_S * rate))
    if len(wave) < 2 * length or not np.isfinite(wave).all() or np.abs(wave).max() < _QUIETEST:
        return Hits(np.zeros(0), np.zeros(0))
    rises = _rises(wave / np.abs(wave).max(), step, length)
    tops = _tops(rises, step / rate)
    at = np.array([(_top_of(rises, top) * step + length / 2) / rate + _LATE_S for top in tops])
    return Hits(at, np.array([_decibels(wave, moment, rate) for moment in at]))


def _rises(wave: Numbers, step: int, length: int) -> Numbers:
    """How much the spectrum rises at each step: in doublings, as it were, over what is always there in each band."""
    silence = np.zeros(_RISE_STEPS * step)
    frames = np.lib.stride_tricks.sliding_window_view(np.concatenate([silence, wave]), length)[::step]
    loudness = np.abs(np.fft.rfft(frames * np.hanning(length), axis=1)) / length
    floor = np.maximum(_OVER_FLOOR * np.percentile(loudness, _FLOOR_PERCENTILE, axis=0), _LEAST_FLOOR)
    spectrum = np.log1p(loudness / floor)
    rises = np.maximum(spectrum[_RISE_STEPS:] - spectrum[:-_RISE_STEPS], 0).sum(axis=1)
    return np.asarray(rises, np.float64)


def _tops(rises: Numbers, step_s: float) -> list[int]:
    """The steps at which a rise is steepest, and steep for where it is."""
    around = max(1, round(_SURROUNDINGS_S / step_s))
    middle = _middles(rises, around)
    spread = _middles(np.abs(rises - middle), around)
    least = np.maximum(middle + _OVER_SURROUNDINGS * spread, _OVER_ALL * np.percentile(rises, 99.5))
    apart = round(_APART_S / step_s)
    found: list[int] = []
    for top in np.flatnonzero(rises > least):
        if rises[top] < rises[max(0, top - 2) : top + 3].max():
            continue
        if found and top - found[-1] < apart:
            if rises[top] > rises[found[-1]]:
                found[-1] = int(top)
        else:
            found.append(int(top))
    return found


def _middles(values: Numbers, around: int) -> Numbers:
    """The middle value of the surroundings of each."""
    padded = np.pad(values, around, mode="reflect" if len(values) > around else "edge")
    return np.asarray(np.median(np.lib.stride_tricks.sliding_window_view(padded, 2 * around + 1), axis=1), np.float64)


def _top_of(rises: Numbers, top: int) -> float:
    """The top between the steps: that of the parabola through three of them."""
    if not 0 < top < len(rises) - 1:
        return float(top)
    before, here, after = rises[top - 1 : top + 2]
    bend = before - 2 * here + after
    return float(top + (0.5 * (before - after) / bend if bend < 0 else 0.0))


def _decibels(wave: Numbers, moment: float, rate: int) -> float:
    start = max(0, round(moment * rate))
    heard = wave[start : start + max(1, round(_LOUDNESS_S * rate))]
    return float(10 * np.log10(np.mean(heard**2) + 1e-12)) if len(heard) else -120.0
