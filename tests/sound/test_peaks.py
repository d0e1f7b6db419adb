from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.signal import resample_poly

from wristwork.sound.kit.samples import RATE, gain_of
from wristwork.sound.peaks import CEILING_DB, KNEE_DB, decibels, safe, true_peak

SECONDS = np.arange(4 * RATE) / RATE


def sine(hertz, size, phase=0.0):
    return size * np.sin(2 * np.pi * hertz * SECONDS + phase)


def test_silence_has_no_peak():
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


@given(st.lists(st.floats(-8, 8, width=32), min_size=1, max_size=50))
def test_the_safety_stage_touches_nothing_below_its_knee_and_lets_nothing_above_its_ceiling(values):
    wave = np.array(values, np.float32)
    bent = safe(wave)
    below = np.abs(wave) <= gain_of(KNEE_DB)
    assert np.array_equal(bent[below], wave[below])
    assert np.abs(bent).max() <= gain_of(CEILING_DB) + 1e-6
    assert np.array_equal(np.sign(bent), np.sign(wave))
    order = np.argsort(wave)
    assert np.all(np.diff(bent[order]) >= -1e-6)


def test_a_lower_safety_stage_is_lower_by_that():
    loud = np.array([9.0, -9.0], np.float32)
    assert decibels(float(np.abs(safe(loud, 2.0)).max())) == pytest.approx(CEILING_DB - 2.0, abs=0.01)
