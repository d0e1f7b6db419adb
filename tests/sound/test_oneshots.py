from __future__ import annotations

import io
import json
from fractions import Fraction

import numpy as np
import pytest
import soundfile
from scipy.signal import resample_poly

from wristwork.pattern.model import Drum, Level
from wristwork.sound.kit import Clip, Kit, KitVoice, Sound, voice_of
from wristwork.sound.kit.samples import RATE
from wristwork.sound.kit.voices import VOICES
from wristwork.sound.oneshots import kit_of, manifest, oneshots
from wristwork.sound.own import own_sounds
from wristwork.sound.schedule import bounces
from wristwork.store.store import json_text

KIT = Kit()
FILES = oneshots(KIT)
MANIFEST = manifest(KIT)
KILO = 1000
# A page loads the sounds of the drums that it plays, so these weigh on nobody who has no use for them.
SELDOM = [
    Drum.CHINA, Drum.SPLASH, Drum.SECOND_CRASH, Drum.HALF_OPEN_HI_HAT, Drum.FOOT_SPLASH, Drum.LOW_TOM, Drum.RIM,
    Drum.STICK_ON_STICK, Drum.BRUSH_SWEEP,
]  # fmt: skip


def files(places):
    """Files of these places, by name, in the order of the list."""
    return {
        name: FILES[name]
        for place in places
        for level in MANIFEST["sounds"][place].values()
        for sound in level
        for name, _ in sound
    }


def played(place, level):
    """The sounds as a player plays them: at 44.1 kHz and as loud as the list says."""
    for sound in MANIFEST["sounds"][place][level]:
        waves = []
        for name, gain in sound:
            wave, rate = soundfile.read(io.BytesIO(FILES[name]))
            waves.append(gain * resample_poly(wave, *Fraction(RATE, rate).as_integer_ratio()))
        whole = np.zeros(max(map(len, waves)))
        for wave in waves:
            whole[: len(wave)] += wave
        yield whole


def size(found):
    return sum(map(len, found.values()))


def test_a_pad_exercise_and_the_whole_kit_are_small_enough():
    assert size(files(["pad", "click"])) <= 80 * KILO
    assert size(FILES) + len(json_text(MANIFEST)) <= 600 * KILO


@pytest.mark.parametrize("drum", SELDOM)
def test_a_drum_that_few_patterns_use_adds_little_for_those_that_do(drum):
    assert size(files([drum.value])) <= 60 * KILO


def test_what_the_pad_needs_comes_first():
    pad = set(files(["pad"]))
    assert set(MANIFEST["files"][: len(pad)]) == pad


def test_the_manifest_names_every_file_and_every_voice():
    assert set(files(MANIFEST["sounds"])) == set(FILES) == set(MANIFEST["files"])
    assert {(place, level) for place, levels in MANIFEST["sounds"].items() for level in levels} == set(VOICES)
    assert json.loads(json.dumps(MANIFEST)) == MANIFEST


def test_repeated_strokes_have_sounds_to_change_between():
    assert all(len(MANIFEST["sounds"][drum.value][level]) >= 4 for drum in Drum for level in Level)


@pytest.mark.parametrize("drum", list(Drum))
@pytest.mark.parametrize("level", list(Level))
def test_the_player_has_the_sounds_of_the_audio_files(drum, level):
    for wave, sound in zip(played(drum.value, level), KIT.sounds(voice_of(drum, level)), strict=True):
        kept = sound.samples
        assert np.abs(wave[: len(kept)] - kept).max() < 2e-3 * np.abs(kept).max()
        assert not np.any(np.abs(wave[len(kept) :]) > 2e-3 * np.abs(kept).max())


def test_no_file_ends_in_a_step():
    for name in FILES:
        wave = np.abs(soundfile.read(io.BytesIO(FILES[name]))[0])
        assert wave[-8:].max() <= 0.04 * wave.max()


def test_files_hold_nothing_but_sound():
    for content in FILES.values():
        assert content[4] == 0x80
        assert b"libFLAC" not in content
        assert content[42] == 0xFF  # the first frame follows upon the first block


def test_the_same_kit_gives_the_same_bytes():
    assert oneshots(Kit()) == FILES


def tone(seconds):
    file = io.BytesIO()
    soundfile.write(file, 0.5 * np.sin(np.arange(round(seconds * RATE)) / 9), RATE, format="WAV")
    return file.getvalue()


# Ghost notes of the made kit take the strikes of its taps, and go on doing so beside a tutor's own taps.
@pytest.mark.parametrize("own", [{}, {"kick-tap-1.wav": tone(0.2), "kick-tap-2.wav": tone(0.3)}])
def test_the_kit_is_read_back_as_it_was(own):
    kit = Kit(own_sounds(own))
    back = kit_of(json.loads(json.dumps(manifest(kit))), oneshots(kit))
    for voice in VOICES:
        kept, made = back.sounds(voice), kit.sounds(voice)
        assert [[gain for _, gain in sound.parts] for sound in kept] == [[g for _, g in sound.parts] for sound in made]
        assert all(np.array_equal(one.samples, other.samples) for one, other in zip(kept, made, strict=True))


def test_own_sounds_go_out_whole_and_need_no_ring():
    pcm = (20000 * np.sin(np.arange(3008) / 5)).astype(np.int16)
    own = Sound(((Clip("ride-tap-1", pcm), 0.5),))
    kit = Kit({KitVoice("ride", level): (own,) for level in ("ghost", "tap", "accent")})
    told = manifest(kit)
    assert told["sounds"]["ride"]["tap"] == [[["ride-tap-1.flac", 0.5]]]
    assert np.array_equal(soundfile.read(io.BytesIO(oneshots(kit)["ride-tap-1.flac"]), dtype="int16")[0], pcm)
    assert not [name for name in told["files"] if name.startswith("ride-") and "bell" not in name and "tap" not in name]


def test_an_own_accent_leaves_the_ring_to_the_other_levels():
    own = Sound(((Clip("crash-accent-1", np.array([1000, -1000] * 300, np.int16)), 0.5),))
    told = manifest(Kit({KitVoice("crash", "accent"): (own,)}))
    assert told["sounds"]["crash"]["accent"] == [[["crash-accent-1.flac", 0.5]]]
    assert "crash-low.flac" in told["files"]


def test_the_figures_of_a_buzz_are_those_of_the_schedule():
    told = MANIFEST["buzz"]
    count = max(2, round(0.4 / told["spacing"]))
    after, gain = [0.0], [10 ** (-told["first_db"] / 20)]
    for number in range(1, count):
        after.append(0.4 * number / count)
        gain.append(10 ** (-(told["drop_db"] + told["fade_db"] * number / count) / 20))
    assert after == pytest.approx([bounce.after for bounce in bounces(0.4)])
    assert gain == pytest.approx([bounce.gain for bounce in bounces(0.4)])


def test_chokes_name_places():
    ringing = ["open hi-hat", "half-open hi-hat", "foot splash"]
    assert MANIFEST["chokes"] == {"hi-hat": ringing, "hi-hat foot": ringing}
