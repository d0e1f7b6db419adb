from __future__ import annotations

import subprocess
import sys
from itertools import combinations
from statistics import mean

import numpy as np
import pytest
from scipy.signal import correlate

from wristwork.pattern.model import Drum, Level
from wristwork.sound.kit import Clip, Kit, KitVoice, Sound, voice_of
from wristwork.sound.kit.blocks import CLICK_HERTZ
from wristwork.sound.kit.filters import band
from wristwork.sound.kit.made import VARIANTS, brightness
from wristwork.sound.kit.samples import loudest_db
from wristwork.sound.kit.voices import CLICK, VOICES, level_db
from wristwork.sound.peaks import decibels

KIT = Kit()
PLACES = list(Drum)
LEVELS = (Level.GHOST, Level.TAP, Level.ACCENT)


def own_sound(gain):
    return Sound(((Clip("pad-tap-1", np.array([5, -1, 0], np.int16)), gain),))


def waves(drum, level):
    return [sound.samples for sound in KIT.sounds(voice_of(drum, level))]


def mean_peak(drum, level):
    return decibels(mean(float(np.abs(wave).max()) for wave in waves(drum, level)))


@pytest.mark.parametrize("drum", PLACES)
@pytest.mark.parametrize("level", list(Level))
def test_the_same_stroke_has_the_same_level(drum, level):
    levels = [loudest_db(wave) for wave in waves(drum, level)]
    assert levels == pytest.approx([level_db(voice_of(drum, level))] * VARIANTS, abs=0.1)


@pytest.mark.parametrize("drum", PLACES)
def test_levels_are_apart_as_a_drummer_hears_them(drum):
    ghost, tap, accent = (mean(loudest_db(wave) for wave in waves(drum, level)) for level in LEVELS)
    assert 8 <= accent - tap <= 11
    assert tap - ghost >= 6


@pytest.mark.parametrize("drum", PLACES)
def test_peaks_are_apart_like_the_levels(drum):
    ghost, tap, accent = (mean_peak(drum, level) for level in LEVELS)
    assert 7 <= accent - tap <= 12.5
    assert tap - ghost >= 5.5


def test_a_kick_is_heard_on_a_phone_at_least_as_well_as_a_hi_hat():
    kick, hat = (loudest_db(band(waves(drum, Level.TAP)[0], 500, 8000)) for drum in (Drum.KICK, Drum.HI_HAT))
    assert kick >= hat
    assert 4 <= level_db(voice_of(Drum.KICK, Level.TAP)) - level_db(voice_of(Drum.SNARE, Level.TAP)) <= 8


@pytest.mark.parametrize("drum", [Drum.PAD, Drum.SNARE])
def test_nothing_that_is_struck_covers_the_click(drum):
    for pitch in CLICK_HERTZ:
        click = KIT.sounds(KitVoice(CLICK, pitch))[0].samples
        around = CLICK_HERTZ[pitch] / 1.15, CLICK_HERTZ[pitch] * 1.15, 4
        loudest = max(loudest_db(band(wave, *around)) for wave in waves(drum, Level.ACCENT))
        assert loudest_db(band(click, *around)) >= loudest + 6


@pytest.mark.parametrize("drum", PLACES)
@pytest.mark.parametrize("level", list(Level))
def test_the_hands_differ_a_little_in_brightness(drum, level):
    bright = [brightness(wave) for wave in waves(drum, level)]
    assert 1.03 <= mean(bright[0::2]) / mean(bright[1::2]) <= 1.05


@pytest.mark.parametrize("drum", PLACES)
@pytest.mark.parametrize("level", list(Level))
def test_repeated_strokes_are_not_copies(drum, level):
    made = waves(drum, level)
    assert len(made) == VARIANTS >= 4
    for one, other in combinations(made, 2):
        assert likeness(one, other) < 0.95
        assert likeness(one[:4410], other[:4410]) < 0.95


def likeness(one, other):
    """The highest correlation of two waves that are moved by at most a millisecond."""
    count = min(len(one), len(other))
    first, second = one[:count].astype(float), other[:count].astype(float)
    found = correlate(first, second, "full", method="fft")[count - 45 : count + 44]
    return found.max() / np.sqrt((first @ first) * (second @ second))


@pytest.mark.parametrize("voice", VOICES, ids="-".join)
def test_a_sound_starts_at_once_ends_in_silence_and_holds_its_scale(voice):
    for sound in KIT.sounds(voice):
        wave = sound.samples
        loudest = np.abs(wave).max()
        assert np.isfinite(wave).all()
        assert 0 < loudest <= 1
        begins = np.flatnonzero(np.abs(wave) > loudest / 100)[0]
        assert begins <= 44, "more than a millisecond before it is heard"
        assert abs(wave[0]) < loudest / 2
        assert np.abs(wave[-20:]).max() < loudest / 500
        assert abs(float(wave.mean())) < loudest / 200


def test_the_two_clicks_are_told_apart_by_pitch():
    high, low = (KIT.sounds(KitVoice(CLICK, pitch))[0].samples for pitch in ("high", "low"))
    assert brightness(high) > 1.2 * brightness(low)


def test_another_process_makes_the_same_bytes():
    told = (
        "import hashlib; from wristwork.sound.kit.made import made_sounds; from wristwork.sound.kit.voices import *\n"
    )
    told += "from wristwork.pattern.model import *\n"
    told += "print(*(hashlib.sha256(repr([(c.pcm.tobytes(), g) for c, g in s.parts]).encode()).hexdigest() for v in "
    told += (
        "[KitVoice('pad', 'tap'), KitVoice('snare', 'accent'), KitVoice('crash', 'ghost')] for s in made_sounds(v)))"
    )
    there = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True).stdout
    script: dict[str, object] = {}
    lines = told.replace("print(*(", "here = [*(").removesuffix(")") + "]"
    exec(lines, script)
    assert there.split() == script["here"]


def test_an_own_sound_wins_for_its_voice_only():
    own = own_sound(0.5)
    kit = Kit({KitVoice("pad", "tap"): (own,)})
    assert kit.sounds(KitVoice("pad", "tap")) == (own,)
    assert kit.sounds(KitVoice("pad", "ghost")) == KIT.sounds(KitVoice("pad", "ghost"))
