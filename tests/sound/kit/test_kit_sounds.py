from __future__ import annotations

import subprocess
import sys
from statistics import mean

import numpy as np
import pytest

from wristwork.pattern.model import Drum, Level
from wristwork.sound.kit import Kit, Sound, Voice, voice_of
from wristwork.sound.kit.facts import BRIGHTER, KIT_FACTS, brightness, ringing
from wristwork.sound.kit.made import VARIANTS
from wristwork.sound.kit.voices import CLICK, VOICES
from wristwork.sound.loudness import decibels

KIT = Kit()
PLACES = list(Drum)


def waves(drum, level):
    return [sound.samples for sound in KIT.sounds(voice_of(drum, level))]


def mean_peak(drum, level):
    return decibels(mean(float(np.abs(wave).max()) for wave in waves(drum, level)))


@pytest.mark.parametrize("fact", KIT_FACTS, ids=lambda fact: f"{fact.place}: {fact.what}".replace(" ", "-"))
def test_every_sound_keeps_to_its_facts(fact):
    for level in Level:
        for number, wave in enumerate(waves(fact.place, level), start=1):
            measured = fact.measure(wave)
            assert fact.low <= measured <= fact.high, f"{fact.place} {level} {number}: {fact.what} is {measured:.3g}"


def test_every_drum_has_facts():
    assert {fact.place for fact in KIT_FACTS} == set(Drum)


@pytest.mark.parametrize("drum", PLACES)
def test_louder_strokes_are_brighter(drum):
    bright = {level.value: mean(brightness(wave) for wave in waves(drum, level)) for level in Level}
    for (louder, softer), factor in BRIGHTER.items():
        assert bright[louder] > factor * bright[softer], bright


@pytest.mark.parametrize("drum", PLACES)
def test_levels_are_apart_as_a_drummer_hears_them(drum):
    ghost, tap, accent = (mean_peak(drum, level) for level in (Level.GHOST, Level.TAP, Level.ACCENT))
    assert 8 <= accent - tap <= 14
    assert 4 <= tap - ghost <= 8


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


@pytest.mark.parametrize("drum", PLACES)
@pytest.mark.parametrize("level", list(Level))
def test_repeated_strokes_are_not_copies(drum, level):
    first, *others = waves(drum, level)
    assert len(others) + 1 == VARIANTS >= 3
    start = slice(0, 1300)  # the first 30 ms, by which a stroke is known
    for other in others:
        difference = np.sqrt(np.mean((first[start] - other[start]) ** 2) / np.mean(first[start] ** 2))
        assert difference > 0.05


def test_the_two_clicks_are_told_apart_by_pitch():
    high, low = (KIT.sounds(Voice(CLICK, pitch))[0].samples for pitch in ("high", "low"))
    assert brightness(high) > 1.2 * brightness(low)
    assert max(ringing(high), ringing(low)) < 0.06


def test_another_process_makes_the_same_bytes():
    told = (
        "import hashlib; from wristwork.sound.kit.made import made_sounds; from wristwork.sound.kit.voices import *\n"
    )
    told += "from wristwork.pattern.model import *\n"
    told += "print(*(hashlib.sha256(s.strike.tobytes() + repr(s.gain).encode()).hexdigest() for v in "
    told += "[Voice('pad', 'tap'), Voice('snare', 'accent'), Voice('crash', 'ghost')] for s in made_sounds(v)))"
    there = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True).stdout
    script: dict[str, object] = {}
    lines = told.replace("print(*(", "here = [*(").removesuffix(")") + "]"
    exec(lines, script)
    assert there.split() == script["here"]


def test_an_own_sound_wins_for_its_voice_only():
    own = Sound(np.array([1, -1, 0], np.int16), 0.5)
    kit = Kit({Voice("pad", "tap"): (own,)})
    assert kit.sounds(Voice("pad", "tap")) == (own,)
    assert kit.sounds(Voice("pad", "ghost")) == KIT.sounds(Voice("pad", "ghost"))
