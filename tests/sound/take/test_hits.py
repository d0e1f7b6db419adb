from __future__ import annotations

import numpy as np
import pytest

from tests.sound.made_patterns import pattern
from tests.sound.take.played import speech, take
from wristwork.sound.kit.samples import RATE
from wristwork.sound.take.hits import hits

FOURS = pattern("R>LRR L>RLL", time="2/4", tempo="90")


@pytest.mark.parametrize("noise", [0.0, 0.003, 0.01])
def test_strokes_are_heard_where_they_begin_and_as_loud_as_they_are(noise):
    heard = hits(take(FOURS, 90, 3, before=0.5, noise=noise), RATE)
    meant = 0.5 + np.arange(24) / 6
    nearest = heard.at[np.abs(heard.at[:, None] - meant).argmin(axis=0)]
    assert np.abs(nearest - meant).max() < 0.005
    assert len(heard.at) <= 25  # the end of the recording may count as one
    loud = heard.decibels[np.abs(heard.at[:, None] - meant).argmin(axis=0)].reshape(6, 4)
    assert (loud[:, 0] > loud[:, 1:].max(axis=1) + 3).all()


def test_any_rate_will_do():
    wave = take(FOURS, 90, 2)
    half = 0.5 * (wave[: len(wave) // 2 * 2 : 2] + wave[1::2])
    assert np.abs(hits(half, RATE // 2).at[:16] - hits(wave, RATE).at[:16]).max() < 0.003


@pytest.mark.parametrize(
    "silence", [np.zeros(0), np.zeros(5), np.zeros(RATE), np.full(RATE, 0.5), np.full(RATE, np.nan)]
)
def test_where_nothing_is_struck_nothing_is_heard(silence):
    assert len(hits(silence, RATE).at) <= 1


def test_a_voice_is_less_than_strokes():
    talking = speech(4)
    both = talking.copy()
    playing = take(FOURS, 90, 2)[: len(both)]
    both[: len(playing)] += playing
    heard = hits(both, RATE).at
    meant = 1.0 + np.arange(16) / 6
    assert (np.abs(heard[:, None] - meant).min(axis=0) < 0.01).mean() >= 0.75
