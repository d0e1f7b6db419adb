"""A pattern is found on what was played of it, at any tempo in range, and on nothing else."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.sound.made_patterns import pattern
from tests.sound.take.played import speech, struck, take
from wristwork.sound.kit.samples import RATE
from wristwork.sound.take.fitting import LEAST_STROKES, fitted
from wristwork.sound.take.hits import Hits, hits

PARADIDDLES = pattern("R>LRR L>RLL R>LRR L>RLL", tempo="60 to 100")
PATTERNS = {
    "paradiddles": PARADIDDLES,
    "even strokes": pattern("RLRL RLRL RLRL RLRL", tempo="80"),
    "flams": pattern("lR>R rL>L lR>R rL>L", tempo="60"),
    "gaps": pattern("R>.L R>.L RLRL R>", tempo="70"),
    "ghosts": pattern("R>(L)(R)(L) R>(L)(R)(L) R>(L)(R)(L) R>(L)(R)(L)", tempo="70"),
    "swung": pattern("R>L RL R>L RL", tempo="100", feel="swing 2:1"),
    "two tempos": pattern("R>LRL RLRL R>LRL RLRL | R>LRL RLRL R>LRL RLRL", tempo="60", tempos="80 at bar 2"),
}


@pytest.mark.parametrize("name", PATTERNS)
@pytest.mark.parametrize("share", [0.6, 1.0, 1.7])
def test_a_take_is_found_at_its_tempo_from_its_first_beat(name, share):
    made = PATTERNS[name]
    tempo = round(made.tempo.start * share)
    fit = fitted(made, hits(take(made, tempo, 4, before=1.3, off=0.01, left_out=0.04, noise=0.008), RATE))
    assert fit is not None
    assert fit.tempo == pytest.approx(tempo, rel=0.005)
    assert fit.zero_s == pytest.approx(1.3, abs=0.012)
    assert fit.from_s == pytest.approx(1.3, abs=0.3)
    assert 4 < fit.error_ms < 16
    assert 0.85 <= fit.heard <= 1


def test_words_before_and_after_are_no_part_of_it():
    wave = np.concatenate([speech(6), take(PARADIDDLES, 75, 5, before=0.5), speech(5)])
    fit = fitted(PARADIDDLES, hits(wave, RATE))
    assert fit is not None
    assert fit.zero_s == pytest.approx(6.5, abs=0.01)
    assert fit.tempo == pytest.approx(75, rel=0.002)
    assert 22 < fit.to_s < 22.6


def test_words_alone_are_nothing():
    assert [fitted(made, hits(speech(15), RATE)) for made in PATTERNS.values()] == [None] * len(PATTERNS)


@pytest.mark.parametrize("played", ["gaps", "ghosts", "two tempos"])
def test_another_rhythm_is_dropped(played):
    made = pattern("R>.R. L>.R. RRR. L>.RL", tempo="70")
    assert fitted(made, hits(take(PATTERNS[played], 70, 6), RATE)) is None
    assert fitted(made, hits(take(made, 70, 6), RATE)) is not None


def test_a_take_out_of_range_is_dropped():
    assert fitted(PARADIDDLES, struck(PARADIDDLES, 25, 4, 0)) is None
    assert fitted(PARADIDDLES, struck(PARADIDDLES, 31, 4, 0)) is not None


def test_too_few_strokes_say_nothing():
    few = struck(PARADIDDLES, 60, 4, 0)
    few = Hits(few.at[: LEAST_STROKES - 1], few.decibels[: LEAST_STROKES - 1])
    assert fitted(PARADIDDLES, few) is None
    assert fitted(PARADIDDLES, Hits(np.zeros(0), np.zeros(0))) is None


def test_loose_playing_is_dropped():
    wild = np.random.default_rng(5).uniform(-0.1, 0.1, 64)
    assert fitted(PARADIDDLES, struck(PARADIDDLES, 60, 4, 1, wild)) is None


def test_even_strokes_are_placed_by_their_accents():
    """Begun in the middle of the pattern, only the accents say where."""
    made = pattern("R>LRL RLRL RLRL RLRL", tempo="60")
    whole = struck(made, 60, 6, 0)
    late = Hits(whole.at[5:], whole.decibels[5:])
    fit = fitted(made, late)
    assert fit is not None
    assert fit.zero_s % 4 == pytest.approx(0, abs=0.005) or fit.zero_s % 4 == pytest.approx(4, abs=0.005)


@settings(deadline=None, max_examples=25)
@given(
    tempo=st.floats(31, 119),
    before=st.floats(0, 20),
    passes=st.integers(2, 8),
    off=st.lists(st.floats(-0.012, 0.012), min_size=7, max_size=7),
)
def test_whatever_the_tempo_and_the_offset(tempo, before, passes, off):
    fit = fitted(PARADIDDLES, struck(PARADIDDLES, tempo, passes, before, off))
    assert fit is not None
    assert fit.tempo == pytest.approx(tempo, rel=0.012)
    assert fit.zero_s == pytest.approx(before, abs=0.025)
    assert fit.from_s <= fit.to_s
