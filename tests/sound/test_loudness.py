from __future__ import annotations

import numpy as np
import pytest
from scipy.signal import resample_poly

from wristwork.sound.kit.samples import RATE
from wristwork.sound.loudness import (
    ENCODING_MARGIN_DB,
    HIGHEST_DBTP,
    TARGET_LUFS,
    TOLERANCE_LU,
    decibels,
    integrated_loudness,
    levels,
    too_loud_by,
    true_peak,
)

SECONDS = np.arange(4 * RATE) / RATE


def sine(hertz, size, phase=0.0):
    return size * np.sin(2 * np.pi * hertz * SECONDS + phase)


def test_a_kilohertz_at_full_scale_has_the_loudness_the_standard_gives_it():
    # ITU-R BS.1770: 997 Hz at 0 dBFS in one channel reads -3.01 LKFS.
    assert integrated_loudness(sine(997, 1.0)) == pytest.approx(-3.01, abs=0.05)


def test_silence_is_infinitely_soft_and_has_no_peak():
    assert integrated_loudness(np.zeros(RATE)) == -np.inf
    assert true_peak(np.zeros(RATE)) == 0
    assert decibels(0.0) == -np.inf


def test_a_true_peak_lies_between_the_samples():
    # A quarter of the rate, sampled at 45 degrees: the samples stop 3 dB short of the curve's peak.
    between = sine(RATE / 4, 0.5, np.pi / 4)
    assert np.abs(between).max() == pytest.approx(0.5 / 2**0.5, rel=1e-6)
    assert true_peak(between) == pytest.approx(0.5, rel=0.02)


def test_looking_only_where_it_is_loud_finds_the_same_peak():
    noise = np.random.default_rng(7).standard_normal(3 * RATE) * np.linspace(0.01, 0.3, 3 * RATE)
    assert true_peak(noise) == pytest.approx(float(np.abs(resample_poly(noise, 4, 1)).max()), rel=1e-6)


def test_loud_steady_sound_may_be_raised_to_the_target_loudness():
    steady = sine(997, 0.001)
    raised = steady * 10 ** (levels(steady).room / 20)
    assert integrated_loudness(raised) == pytest.approx(TARGET_LUFS, abs=0.01)


def test_sharp_sound_may_be_raised_to_the_highest_true_peak():
    clicks = np.zeros(4 * RATE)
    clicks[::RATE] = 0.3
    raised = clicks * 10 ** (levels(clicks).room / 20)
    assert decibels(true_peak(raised)) == pytest.approx(HIGHEST_DBTP - ENCODING_MARGIN_DB, abs=0.01)
    assert integrated_loudness(raised) < TARGET_LUFS


def test_levels_are_raised_together():
    steady = sine(997, 0.1)
    twice = levels(2 * steady)
    raised = levels(steady).raised(decibels(2))
    assert (raised.loudness, raised.peak) == pytest.approx((twice.loudness, twice.peak), abs=0.01)


def test_how_much_too_loud_is_told_by_the_worse_bound():
    steady = sine(997, 0.1)
    steady *= 10 ** ((TARGET_LUFS - integrated_loudness(steady)) / 20)
    assert too_loud_by(steady, levels(steady)) == pytest.approx(-TOLERANCE_LU, abs=0.01)
    assert too_loud_by(2 * steady, levels(steady)) == pytest.approx(6.02 - TOLERANCE_LU, abs=0.01)
    sharp = np.zeros(4 * RATE)
    sharp[RATE] = 1.0
    assert too_loud_by(sharp, levels(sharp)) == pytest.approx(decibels(true_peak(sharp)) - HIGHEST_DBTP)
