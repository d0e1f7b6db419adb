"""The kit for the browser's player: one short lossless file for each sound, and a list of what is what.

To keep a phone's wait short the files hold less than the kit's own sounds: a lower rate where there is
nothing high, fewer variants, long tails cut with a fade, and no steps finer than what is heard. The
starts stay exact: no file has a sample of silence in front. Of cymbals, the wash is one file that
sounds along with every strike. A tutor's own sounds go out whole.
"""

from __future__ import annotations

import io
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from statistics import mean
from typing import Any

import numpy as np
import soundfile
from scipy.signal import resample_poly

from wristwork.pattern.model import Drum, Level
from wristwork.sound.kit import Kit, Sound, Voice
from wristwork.sound.kit.samples import FULL_SCALE, RATE, Pcm, Samples, count_of, fade_out
from wristwork.sound.kit.voices import CHOKE_SECONDS, CHOKES, CLICK, VOICES, peak_of
from wristwork.sound.schedule import BOUNCE_DROP_DB, BOUNCE_FADE_DB, BOUNCE_HURRY, BOUNCE_SPACING

# FLAC packs a block best when its length divides many times by two.
BLOCK = 64
CUT_FADE = 0.25  # the share of a cut sound in which it fades


@dataclass(frozen=True, slots=True)
class Cut:
    """How a place's sounds are cut: rate in hertz, how many variants, seconds at most.

    ``bits``: the accent's peak is 2^bits steps high; nothing below one step is kept.
    """

    rate: int
    variants: int
    seconds: float
    bits: int = 10


CLEAR, BRIGHT, MIDDLE, DARK = RATE, 32_000, 24_000, 16_000
STRIKES = {
    Drum.PAD: Cut(CLEAR, 3, 0.1, bits=14),
    Drum.SNARE: Cut(MIDDLE, 3, 0.33, bits=11),
    Drum.RIM_SHOT: Cut(MIDDLE, 2, 0.3),
    Drum.CROSS_STICK: Cut(MIDDLE, 2, 0.1),
    Drum.HI_HAT: Cut(BRIGHT, 3, 0.15),
    Drum.OPEN_HI_HAT: Cut(BRIGHT, 2, 0.16),
    Drum.RIDE: Cut(MIDDLE, 2, 0.2),
    Drum.RIDE_BELL: Cut(MIDDLE, 2, 0.2),
    Drum.CRASH: Cut(BRIGHT, 2, 0.16),
    Drum.HIGH_TOM: Cut(DARK, 2, 0.5),
    Drum.MID_TOM: Cut(DARK, 2, 0.55),
    Drum.FLOOR_TOM: Cut(DARK, 2, 0.65),
    Drum.COWBELL: Cut(MIDDLE, 2, 0.3),
    Drum.KICK: Cut(DARK, 2, 0.35),
    Drum.HI_HAT_FOOT: Cut(MIDDLE, 2, 0.1),
    Drum.CHINA: Cut(MIDDLE, 2, 0.18),
    Drum.SPLASH: Cut(MIDDLE, 2, 0.3),
    Drum.SECOND_CRASH: Cut(MIDDLE, 2, 0.18),
    Drum.HALF_OPEN_HI_HAT: Cut(MIDDLE, 2, 0.2),
    Drum.FOOT_SPLASH: Cut(MIDDLE, 2, 0.25),
    Drum.LOW_TOM: Cut(DARK, 2, 0.6),
    Drum.RIM: Cut(MIDDLE, 2, 0.15),
    Drum.STICK_ON_STICK: Cut(MIDDLE, 2, 0.1, bits=12),
    Drum.BRUSH_SWEEP: Cut(MIDDLE, 2, 0.2),
}
WASHES = {
    Drum.OPEN_HI_HAT: Cut(MIDDLE, 1, 0.9),
    Drum.RIDE: Cut(MIDDLE, 1, 1.3),
    Drum.RIDE_BELL: Cut(MIDDLE, 1, 1.2),
    Drum.CRASH: Cut(MIDDLE, 1, 1.2),
    Drum.CHINA: Cut(MIDDLE, 1, 0.9),
    Drum.SECOND_CRASH: Cut(MIDDLE, 1, 0.9),
}
CLICK_CUT = Cut(CLEAR, 1, 0.06, bits=14)


@dataclass(frozen=True, slots=True)
class OneShot:
    """A file, and the gain that its samples need to sound as loud as in the kit."""

    name: str
    content: bytes
    gain: float


def oneshots(kit: Kit) -> dict[str, bytes]:
    """The files of a kit, by name: FLAC, mono, 16 bits."""
    files = [shot for voice in VOICES for shot in _strikes(kit, voice)]
    files += [_wash(drum) for drum in WASHES if _washed_levels(kit, drum)]
    return {shot.name: shot.content for shot in files}


def manifest(kit: Kit) -> dict[str, Any]:
    """What a player has to know of the files, as plain values for JSON.

    - ``sounds``: place → level → names of files, taken in turn. ``click`` has the levels ``high`` and ``low``.
    - ``gain``: name of a file → the factor for it.
    - ``washes``: place → the ``file`` to start along with each of its strikes, and its ``gain`` by level.
    - ``chokes``: place → the places that fall silent, within ``choke_seconds``, when it is struck after them.
    - ``buzz``: the figures of :func:`wristwork.sound.schedule.bounces`.
    """
    sounds: dict[str, dict[str, list[str]]] = {}
    gain: dict[str, float] = {}
    for voice in VOICES:
        shots = _strikes(kit, voice)
        sounds.setdefault(voice.place, {})[voice.level] = [shot.name for shot in shots]
        gain.update({shot.name: _short(shot.gain) for shot in shots})
    return {
        "sounds": sounds,
        "gain": gain,
        "washes": {drum.value: _wash_entry(kit, drum) for drum in WASHES if _washed_levels(kit, drum)},
        "chokes": {drum.value: [choked.value for choked in all_choked] for drum, all_choked in CHOKES.items()},
        "choke_seconds": CHOKE_SECONDS,
        "buzz": {
            "spacing": BOUNCE_SPACING,
            "hurry": BOUNCE_HURRY,
            "drop_db": BOUNCE_DROP_DB,
            "fade_db": BOUNCE_FADE_DB,
        },
    }


def _strikes(kit: Kit, voice: Voice) -> list[OneShot]:
    stem = f"{voice.place.replace(' ', '-')}-{voice.level}"
    if voice in kit.own:
        return [_whole(f"{stem}-{number}.flac", sound) for number, sound in enumerate(kit.own[voice], start=1)]
    cut = CLICK_CUT if voice.place == CLICK else STRIKES[Drum(voice.place)]
    loudest = peak_of(voice if voice.place == CLICK else Voice(voice.place, Level.ACCENT))
    return [
        _cut(f"{stem}-{number}.flac", sound.strike, sound.gain, cut, loudest)
        for number, sound in enumerate(kit.sounds(voice)[: cut.variants], start=1)
    ]


def _whole(name: str, sound: Sound) -> OneShot:
    return OneShot(name, _flac(sound.strike, RATE), sound.gain)


@cache
def _wash(drum: Drum) -> OneShot:
    """The made wash, as loud as with an accent."""
    accent = Voice(drum.value, Level.ACCENT)
    name = f"{drum.value.replace(' ', '-')}-wash.flac"
    sound = Kit().sounds(accent)[0]
    assert sound.wash is not None, "only places with a wash are in the table"
    return _cut(name, sound.wash, _wash_gain(accent), WASHES[drum], peak_of(accent))


def _wash_gain(made: Voice) -> float:
    return mean(sound.wash_gain for sound in Kit().sounds(made))


def _washed_levels(kit: Kit, drum: Drum) -> list[Level]:
    """The levels whose strikes need the wash: an own sound holds its whole ring."""
    return [level for level in Level if Voice(drum.value, level) not in kit.own]


def _wash_entry(kit: Kit, drum: Drum) -> dict[str, Any]:
    shot = _wash(drum)
    for_accents = _wash_gain(Voice(drum.value, Level.ACCENT))
    gains = {
        level.value: _short(shot.gain * _wash_gain(Voice(drum.value, level)) / for_accents)
        for level in _washed_levels(kit, drum)
    }
    return {"file": shot.name, "gain": gains}


def _cut(name: str, pcm: Pcm, gain: float, cut: Cut, loudest: float) -> OneShot:
    """The file of a sound whose full scale is ``gain``, in steps of ``loudest`` / 2^bits."""
    wave: Samples = pcm[: count_of(cut.seconds)] * (gain / FULL_SCALE)
    if len(wave) < len(pcm):
        wave = fade_out(wave, CUT_FADE * cut.seconds)
    if cut.rate != RATE:
        wave = resample_poly(wave, *Fraction(cut.rate, RATE).as_integer_ratio())
    steps = np.round(wave * (2**cut.bits / loudest)).astype(np.int16)
    heard = int(np.flatnonzero(steps)[-1]) + 1
    padded = np.zeros(-(-heard // BLOCK) * BLOCK, np.int16)
    padded[:heard] = steps[:heard]
    return OneShot(name, _flac(padded, cut.rate), loudest * (FULL_SCALE + 1) / 2**cut.bits)


def _flac(values: Pcm, rate: int) -> bytes:
    written = io.BytesIO()
    soundfile.write(written, values, rate, format="FLAC", subtype="PCM_16", compression_level=1.0)
    return written.getvalue()


def _short(gain: float) -> float:
    return round(gain, 5)
