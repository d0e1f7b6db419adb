from __future__ import annotations

import io
from statistics import mean

import numpy as np
import pytest
import soundfile
from hypothesis import given, settings
from hypothesis import strategies as st

from wristwork.pattern.model import Drum, Level
from wristwork.sound.kit import Kit, KitVoice, voice_of
from wristwork.sound.kit.samples import RATE, loudest_db
from wristwork.sound.kit.voices import level_db
from wristwork.sound.own import OwnSoundsError, own_sounds


def recorded(seconds=0.2, rate=RATE, size=0.5, before=0.0, channels=1):
    time = np.arange(round(seconds * rate)) / rate
    wave = size * np.sin(2 * np.pi * 700 * time) * np.exp(-30 * time)
    wave = np.concatenate([np.zeros(round(before * rate)), wave])
    return np.column_stack([wave] * channels)


def file(wave, rate=RATE, kind="WAV", subtype="PCM_16"):
    written = io.BytesIO()
    soundfile.write(written, wave, rate, format=kind, subtype=subtype)
    return written.getvalue()


GOOD = file(recorded())


def problems(**files):
    return problems_of({f"{name.replace('_', '-')}.wav": content for name, content in files.items()})


def problems_of(files):
    with pytest.raises(OwnSoundsError) as caught:
        own_sounds(files)
    return [f"{problem.path}: {problem.found}: {problem.remedy}" for problem in caught.value.problems]


def test_a_file_takes_the_place_of_its_place_and_level_only():
    own = own_sounds({"snare-accent-1.wav": GOOD})
    assert set(own) == {KitVoice("snare", "accent")}
    kit = Kit(own)
    assert kit.sounds(KitVoice("snare", "accent"))[0] is own["snare", "accent"][0]
    assert kit.sounds(KitVoice("snare", "tap")) == Kit().sounds(KitVoice("snare", "tap"))


@pytest.mark.parametrize("drum", list(Drum))
@pytest.mark.parametrize("ending", ["wav", "flac", "WAV"])
def test_every_place_can_be_replaced(drum, ending):
    kind = "FLAC" if ending == "flac" else "WAV"
    name = f"{drum.value.replace(' ', '-')}-tap-1.{ending}"
    assert set(own_sounds({name: file(recorded(), kind=kind)})) == {voice_of(drum, Level.TAP)}


def test_the_clicks_can_be_replaced():
    own = own_sounds({"click-high-1.wav": GOOD, "click-low-1.wav": GOOD})
    assert set(own) == {KitVoice("click", "high"), KitVoice("click", "low")}


def test_files_are_taken_in_the_order_of_their_numbers():
    files = {f"pad-tap-{number}.wav": file(recorded(size=0.05 * number)) for number in (10, 2, 7)}
    peaks = [np.abs(sound.samples).max() for sound in own_sounds(files)["pad", "tap"]]
    assert peaks == sorted(peaks)
    assert len(peaks) == 3


def test_a_level_is_brought_to_that_of_the_made_kit_and_keeps_its_differences():
    files = {"pad-accent-1.wav": file(recorded(size=0.02)), "pad-accent-2.wav": file(recorded(size=0.04))}
    first, second = (loudest_db(sound.samples) for sound in own_sounds(files)["pad", "accent"])
    assert mean([first, second]) == pytest.approx(level_db(KitVoice("pad", "accent")), abs=0.05)
    assert second - first == pytest.approx(6.02, abs=0.05)


def test_silence_in_front_is_taken_off():
    (sound,) = own_sounds({"pad-tap-1.wav": file(recorded(before=0.25))})["pad", "tap"]
    wave = np.abs(sound.samples)
    assert np.argmax(wave > 0.1 * wave.max()) < 0.002 * RATE


def test_stereo_becomes_mono_and_48_kilohertz_become_44_1():
    wave = recorded(rate=48_000, channels=2)
    (sound,) = own_sounds({"pad-tap-1.flac": file(wave, 48_000, "FLAC")})["pad", "tap"]
    spectrum = np.abs(np.fft.rfft(sound.samples))
    hertz = np.fft.rfftfreq(len(sound.samples), 1 / RATE)[np.argmax(spectrum)]
    assert sound.samples.ndim == 1
    assert hertz == pytest.approx(700, abs=6)
    assert len(sound.samples) == pytest.approx(0.2 * RATE, abs=60)


@pytest.mark.parametrize("subtype", ["PCM_U8", "PCM_24", "FLOAT", "DOUBLE"])
def test_every_usual_kind_of_wav_is_read(subtype):
    assert own_sounds({"pad-tap-1.wav": file(recorded(), subtype=subtype)})


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("snare-acent-1.wav", "perhaps snare-accent-1.wav"),
        ("snare_accent_3.wav", "perhaps snare-accent-3.wav"),
        ("Hi Hat Tap 2.flac", "perhaps hi-hat-tap-2.flac"),
        ("snare-accent.wav", "perhaps snare-accent-1.wav"),
        ("bass-drum-accent-1.wav", "names no sound"),
        ("xyzzy.wav", "like snare-accent-1.wav"),
        ("snare-accent-0.wav", "numbers count from 1"),
        ("snare-accent-1.mp3", "neither WAV nor FLAC"),
        ("README", "neither WAV nor FLAC"),
    ],
)
def test_a_wrong_name_is_told_with_a_remedy(name, said):
    (problem,) = problems_of({name: GOOD})
    assert problem.startswith(f"{name}: ")
    assert said in problem


def test_a_wrong_rate_is_told():
    (problem,) = problems(pad_tap_1=file(recorded(rate=96_000), 96_000))
    assert problem == "pad-tap-1.wav: has a rate of 96000 Hz: export it at 44100 or 48000 Hz"


def test_wrong_lengths_are_told():
    long, short, empty = problems(
        pad_tap_1=file(recorded(6.5)), pad_tap_2=file(recorded(0.005)), pad_tap_3=file(np.zeros(0))
    )
    assert long == "pad-tap-1.wav: lasts 6.5 s: cut it to 6 s or less"
    assert short == "pad-tap-2.wav: lasts 5 ms: a sound lasts at least 10 ms"
    assert empty == "pad-tap-3.wav: is empty: a sound lasts at least 10 ms"


def test_silence_is_told():
    (problem,) = problems(pad_tap_1=file(recorded(size=0.0005)))
    assert problem == "pad-tap-1.wav: is silent: record it louder, or take it out of the folder"


def test_files_that_are_something_else_are_told():
    aiff = file(recorded(), kind="AIFF")
    broken = np.full(5000, np.nan)
    text, other, numbers, nothing = problems(
        pad_tap_1=b"not a sound", pad_tap_2=aiff, pad_tap_3=file(broken, subtype="FLOAT"), pad_tap_4=b""
    )
    assert text == "pad-tap-1.wav: can't be read as WAV or FLAC: export it again"
    assert other == "pad-tap-2.wav: holds AIFF, whatever its name says: export it as WAV or FLAC"
    assert numbers == "pad-tap-3.wav: holds values that are no numbers: export it again"
    assert nothing == "pad-tap-4.wav: can't be read as WAV or FLAC: export it again"


def test_one_sound_twice_is_told():
    (problem,) = problems_of({"pad-tap-1.wav": GOOD, "pad-tap-1.flac": file(recorded(), kind="FLAC")})
    assert problem == "pad-tap-1.wav: is the same sound as pad-tap-1.flac: keep one of them"


def test_everything_that_is_wrong_is_told_at_once():
    assert len(problems_of({"pad-tap-1.wav": b"", "pad-tab-1.wav": GOOD, "snare-tap-1.wav": GOOD})) == 2


@settings(max_examples=60, deadline=None)
@given(st.binary(max_size=400), st.integers(0, len(GOOD)))
def test_any_bytes_are_a_sound_or_a_plain_problem(noise, cut):
    for content in (noise, GOOD[:cut] + noise, GOOD[:12] + noise + GOOD[12:]):
        told = []
        try:
            own_sounds({"pad-tap-1.wav": content})
        except OwnSoundsError as error:
            told += error.problems
        assert len(told) <= 1
