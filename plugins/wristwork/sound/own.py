"""A tutor's own sounds: WAV and FLAC files that take the place of made ones.

A file's name says what it is: ``snare-accent-1.wav``, ``hi-hat-tap-2.flac``, ``click-high-1.wav``.
Files of one place and level are taken in turn, in the order of their numbers. They keep their
differences among each other; together they are brought to the level that this place and level have in
the made kit, so that accents stay accents however the files were recorded.
"""

from __future__ import annotations

import io
import re
from collections import defaultdict
from collections.abc import Mapping
from statistics import mean

import numpy as np
import soundfile
from scipy.signal import resample_poly

from wristwork.languages.numbers import decimal
from wristwork.languages.say import say
from wristwork.page.problem import SOUND, Problem
from wristwork.sound.kit import Clip, KitVoice, Sound
from wristwork.sound.kit.samples import RATE, Samples, count_of, fade_out, gain_of, loudest_db, numbers, peak
from wristwork.sound.kit.voices import PCM_SCALE, VOICES, level_db, rounded
from wristwork.wording import nearest

RATES = (44_100, 48_000)
LONGEST_SECONDS = 6.0
SHORTEST_SECONDS = 0.01
SILENCE = 0.001  # a peak 60 dB below full scale
STARTS_AT = 0.01  # a sound starts where it comes within 40 dB of its peak, less a millisecond
FADE_SECONDS = 0.005
BITS = 15
FORMATS = ("WAV", "WAVEX", "RF64", "FLAC")

_NAME = re.compile(r"(?P<voice>[a-z-]+)-(?P<number>[0-9]{1,3})\.(?:wav|flac)")
_STEMS = {f"{voice.instrument.replace(' ', '-')}-{voice.level}": voice for voice in VOICES}


class OwnSoundsError(Exception):
    """Files that are no sounds; ``problems`` holds one for each, whose path is the file's name."""

    def __init__(self, problems: list[Problem]) -> None:
        super().__init__("\n".join(map(str, problems)))
        self.problems = tuple(problems)


class _Unusable(Exception):
    """What is wrong with one file, and what to do."""

    def __init__(self, found: str, remedy: str) -> None:
        super().__init__(found)
        self.found = found
        self.remedy = remedy


def own_sounds(files: Mapping[str, bytes]) -> dict[KitVoice, tuple[Sound, ...]]:
    """The sounds that these files (name → content) hold, by voice, for :class:`wristwork.sound.kit.Kit`.

    Raises :class:`OwnSoundsError` with everything that is wrong with any of them.
    """
    problems: list[Problem] = []
    read: dict[KitVoice, dict[int, tuple[str, Samples]]] = defaultdict(dict)
    for name in sorted(files):
        try:
            voice, number = _named(name)
            if number in read[voice]:
                raise _Unusable(
                    say("is the same sound as {file}", file=read[voice][number][0]), say("keep one of them")
                )
            read[voice][number] = (name, _read(files[name]))
        except _Unusable as error:
            problems.append(Problem(name, 0, 0, error.found, error.remedy, SOUND))
    if problems:
        raise OwnSoundsError(problems)
    return {voice: _brought_to_level(voice, numbered) for voice, numbered in read.items()}


def _named(name: str) -> tuple[KitVoice, int]:
    """The voice and number that a file's name says."""
    match = _NAME.fullmatch(name.lower())
    if match and match["voice"] in _STEMS and int(match["number"]) > 0:
        return _STEMS[match["voice"]], int(match["number"])
    if match and match["voice"] in _STEMS:
        raise _Unusable(say("numbers count from 1"), say("correct it, or take it out of the folder"))
    stem, dot, ending = name.lower().rpartition(".")
    if not dot or ending not in ("wav", "flac"):
        raise _Unusable(say("is neither WAV nor FLAC by its name"), say("convert it, or take it out of the folder"))
    number = re.search(r"[0-9]+$", stem)
    near = nearest(re.sub(r"[-_ ]*[0-9]*$", "", stem).replace("_", "-").replace(" ", "-"), _STEMS)
    example = f"{near or 'snare-accent'}-{int(number[0]) if number and int(number[0]) else 1}.{ending}"
    remedy = (
        say("rename it to <place>-<level>-<number>, perhaps {example}", example=example)
        if near
        else say("rename it to <place>-<level>-<number>, like {example}", example=example)
    )
    raise _Unusable(say("names no sound"), remedy)


def _read(content: bytes) -> Samples:
    """The samples of a file at 44.1 kHz, mono, from where its sound starts to where it has faded."""
    try:
        with soundfile.SoundFile(io.BytesIO(content)) as file:
            _check_header(file)
            wave: Samples = file.read(dtype="float64", always_2d=True).mean(axis=1)
            rate = file.samplerate
    except soundfile.LibsndfileError as error:
        raise _Unusable(say("can't be read as WAV or FLAC"), say("export it again")) from error
    _check_samples(wave, rate)
    if rate != RATE:
        wave = resample_poly(wave, RATE // 300, rate // 300)
    starts = int(np.argmax(np.abs(wave) >= STARTS_AT * peak(wave)))
    return fade_out(wave[max(0, starts - count_of(0.001)) :], FADE_SECONDS)


def _check_header(file: soundfile.SoundFile) -> None:
    if file.format not in FORMATS:
        found = say("holds {format}, whatever its name says", format=file.format)
        raise _Unusable(found, say("export it as WAV or FLAC"))
    if file.samplerate not in RATES:
        found = say("has a rate of {rate} Hz", rate=file.samplerate)
        raise _Unusable(found, say("export it at 44100 or 48000 Hz"))
    seconds = file.frames / file.samplerate
    if seconds > LONGEST_SECONDS:
        remedy = say("cut it to {most} s or less", most=f"{LONGEST_SECONDS:g}")
        raise _Unusable(say("lasts {seconds} s", seconds=decimal(seconds, 1)), remedy)


def _check_samples(wave: Samples, rate: int) -> None:
    if len(wave) < SHORTEST_SECONDS * rate:
        length = f"{1000 * len(wave) / rate:.0f}"
        what = say("lasts {length} ms", length=length) if len(wave) else say("is empty")
        raise _Unusable(what, say("a sound lasts at least {least} ms", least=f"{1000 * SHORTEST_SECONDS:g}"))
    if not np.isfinite(wave).all():
        raise _Unusable(say("holds values that are no numbers"), say("export it again"))
    if peak(wave) < SILENCE:
        raise _Unusable(say("is silent"), say("record it louder, or take it out of the folder"))


def _brought_to_level(voice: KitVoice, numbered: Mapping[int, tuple[str, Samples]]) -> tuple[Sound, ...]:
    waves = [numbered[number][1] for number in sorted(numbered)]
    scale = gain_of(level_db(voice) - mean(loudest_db(wave) for wave in waves))
    # A name of its own: levels that are not replaced may go on taking the made clips of this one.
    stem = f"own-{voice.instrument.replace(' ', '-')}-{voice.level}"
    return tuple(
        Sound(((Clip(f"{stem}-{number}", numbers(wave, BITS)), _gain(wave, scale)),))
        for number, wave in enumerate(waves, start=1)
    )


def _gain(wave: Samples, scale: float) -> float:
    return rounded(peak(wave) * scale * PCM_SCALE / (2**BITS - 1))
