from __future__ import annotations

import io
import json
from fractions import Fraction

import numpy as np
import pytest
import soundfile
from scipy.signal import resample_poly

from wristwork.pattern.model import Drum, Level
from wristwork.sound.kit import Kit, Sound, Voice, voice_of
from wristwork.sound.kit.samples import RATE
from wristwork.sound.kit.voices import VOICES
from wristwork.sound.loudness import decibels
from wristwork.sound.oneshots import manifest, oneshots
from wristwork.sound.schedule import bounces

KIT = Kit()
FILES = oneshots(KIT)
MANIFEST = manifest(KIT)
KILO = 1000
# A page loads the sounds of the drums that it plays, so these weigh on nobody who has no use for them.
SELDOM = [
    Drum.CHINA, Drum.SPLASH, Drum.SECOND_CRASH, Drum.HALF_OPEN_HI_HAT, Drum.FOOT_SPLASH, Drum.LOW_TOM, Drum.RIM,
    Drum.STICK_ON_STICK, Drum.BRUSH_SWEEP,
]  # fmt: skip


def names(places):
    return [name for place in places for level in MANIFEST["sounds"][place].values() for name in level]


def played(name):
    """A file as a player plays it: at 44.1 kHz and as loud as the manifest says."""
    wave, rate = soundfile.read(io.BytesIO(FILES[name]))
    return resample_poly(wave, *Fraction(RATE, rate).as_integer_ratio()) * MANIFEST["gain"].get(name, 1.0)


def test_a_pad_exercise_and_a_full_kit_are_small_enough():
    assert sum(len(FILES[name]) for name in names(["pad", "click"])) <= 80 * KILO
    usual = [drum.value for drum in Drum if drum not in SELDOM]
    washes = [wash["file"] for place, wash in MANIFEST["washes"].items() if place in usual]
    files = [*names([*usual, "click"]), *washes]
    assert sum(len(FILES[name]) for name in files) + len(json.dumps(MANIFEST)) <= 300 * KILO


@pytest.mark.parametrize("drum", SELDOM)
def test_a_drum_that_few_patterns_use_adds_little_for_those_that_do(drum):
    wash = MANIFEST["washes"].get(drum.value)
    files = [*names([drum.value]), *([wash["file"]] if wash else [])]
    assert sum(len(FILES[name]) for name in files) <= 40 * KILO


def test_the_manifest_names_every_file_and_every_voice():
    named = {*names(MANIFEST["sounds"]), *(wash["file"] for wash in MANIFEST["washes"].values())}
    assert named == set(FILES)
    assert {(place, level) for place, levels in MANIFEST["sounds"].items() for level in levels} == set(VOICES)
    assert set(MANIFEST["gain"]) == set(names(MANIFEST["sounds"]))
    assert json.loads(json.dumps(MANIFEST)) == MANIFEST


def test_repeated_strokes_have_sounds_to_change_between():
    for level in ("ghost", "tap", "accent"):
        assert len(MANIFEST["sounds"]["pad"][level]) >= 3
        assert all(len(MANIFEST["sounds"][drum.value][level]) >= 2 for drum in Drum)


@pytest.mark.parametrize("drum", list(Drum))
@pytest.mark.parametrize("level", list(Level))
def test_a_file_starts_where_the_kits_sound_starts_and_is_as_loud(drum, level):
    for name, sound in zip(MANIFEST["sounds"][drum.value][level], KIT.sounds(voice_of(drum, level)), strict=False):
        strike = sound.strike * (sound.gain / 32767)
        wave = played(name)
        early = 1300
        lags = range(-3, 4)
        alike = [np.dot(wave[3:early], strike[3 + lag : early + lag]) for lag in lags]
        assert abs(lags[int(np.argmax(alike))]) <= 1
        assert decibels(np.abs(wave).max() / np.abs(strike).max()) == pytest.approx(0, abs=2.5)
        assert np.flatnonzero(np.abs(wave) > np.abs(wave).max() / 50)[0] <= 44


@pytest.mark.parametrize("name", sorted(MANIFEST["washes"]))
def test_a_wash_is_as_loud_as_in_the_kit(name):
    wash = MANIFEST["washes"][name]
    for level, gain in wash["gain"].items():
        heard = float(np.abs(played(wash["file"])).max()) * gain
        kept = [sound.wash_gain for sound in KIT.sounds(Voice(name, level))]
        assert min(kept) * 0.7 < heard < max(kept) * 1.3


def test_no_file_ends_in_a_step():
    for name in FILES:
        wave = np.abs(soundfile.read(io.BytesIO(FILES[name]))[0])
        assert wave[-8:].max() <= max(0.03 * wave.max(), 1.5 / 32768)


def test_the_same_kit_gives_the_same_bytes():
    assert oneshots(Kit()) == FILES


def test_own_sounds_go_out_whole_and_need_no_wash():
    own = Sound((20000 * np.sin(np.arange(3000) / 5)).astype(np.int16), 0.5)
    kit = Kit({Voice("ride", level): (own,) for level in ("ghost", "tap", "accent")})
    told = manifest(kit)
    files = oneshots(kit)
    assert told["sounds"]["ride"]["tap"] == ["ride-tap-1.flac"]
    assert told["gain"]["ride-tap-1.flac"] == 0.5
    assert np.array_equal(soundfile.read(io.BytesIO(files["ride-tap-1.flac"]), dtype="int16")[0], own.strike)
    assert "ride" not in told["washes"]
    assert "ride-wash.flac" not in files


def test_an_own_accent_leaves_the_wash_to_the_other_levels():
    own = Sound(np.array([1000, -1000] * 300, np.int16), 0.5)
    told = manifest(Kit({Voice("crash", "accent"): (own,)}))
    assert set(told["washes"]["crash"]["gain"]) == {"ghost", "tap"}


def test_the_figures_of_a_buzz_are_those_of_the_schedule():
    told = MANIFEST["buzz"]
    count = max(2, round(0.4 / told["spacing"]))
    after, gain = [0.0], [1.0]
    for number in range(1, count):
        u = number / count
        after.append(0.4 * (u + told["hurry"] * u * (1 - u)))
        gain.append(10 ** (-(told["drop_db"] + told["fade_db"] * u) / 20))
    assert after == pytest.approx([bounce.after for bounce in bounces(0.4)])
    assert gain == pytest.approx([bounce.gain for bounce in bounces(0.4)])


def test_chokes_name_places():
    ringing = ["open hi-hat", "half-open hi-hat", "foot splash"]
    assert MANIFEST["chokes"] == {"hi-hat": ringing, "hi-hat foot": ringing}
