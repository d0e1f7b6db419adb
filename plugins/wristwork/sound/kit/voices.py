"""What can sound: a voice is an instrument at a level, a sound one stroke on it, a clip what a file holds of it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from wristwork.pattern.model import Drum, Level
from wristwork.sound.kit.samples import RATE, Pcm

CLICK = "click"
CLICK_LEVELS = ("high", "low")


class KitVoice(NamedTuple):
    """What is struck (a drum's name, or ``click``) and how loud (a level, or ``high`` and ``low`` for the click)."""

    instrument: str
    level: str


def voice_of(drum: Drum, level: Level) -> KitVoice:
    """The voice of a stroke."""
    return KitVoice(drum.value, level.value)


VOICES = (
    *(voice_of(drum, level) for drum in Drum for level in Level),
    *(KitVoice(CLICK, level) for level in CLICK_LEVELS),
)

# One scale for the whole site. A tap on the snare drum has this effective value in its loudest tenth of a second, in
# decibels below full scale; a drum's row tells how its taps stand to that, and the other levels stand to the taps.
SNARE_TAP_DB = -31.0
LEVEL_DB = {Level.ACCENT: 9.5, Level.TAP: 0.0, Level.GHOST: -7.5}
CLICK_DB = {"high": 4.0, "low": 2.5}


def level_db(voice: KitVoice) -> float:
    """The level that every sound of a voice has, as :func:`wristwork.sound.kit.samples.loudest_db` measures it."""
    if voice.instrument == CLICK:
        return SNARE_TAP_DB + CLICK_DB[voice.level]
    return SNARE_TAP_DB + Drum(voice.instrument).row.tap_db + LEVEL_DB[Level(voice.level)]


# A closed or foot hi-hat ends what the open one still rings; strokes at one moment leave each other alone.
CHOKES = {drum: tuple(Drum(name) for name in drum.row.silences) for drum in Drum if drum.row.silences}
CHOKE_SECONDS = 0.04

# From so many sounds on the two hands take theirs from different ones: no two hands strike quite alike.
SOUNDS_FOR_TWO_HANDS = 4

PCM_SCALE = 32_768


@dataclass(frozen=True, eq=False)
class Clip:
    """A short recording or made sound: whole 16-bit numbers at a rate, mono. It starts at its first sample."""

    name: str
    pcm: Pcm
    rate: int = RATE

    @cached_property
    def samples(self) -> NDArray[np.float32]:
        """At 44.1 kHz, where 1 is full scale."""
        wave = self.pcm.astype(np.float32) / np.float32(PCM_SCALE)
        if self.rate == RATE:
            return wave
        from scipy.signal import resample_poly

        return np.asarray(resample_poly(wave, *Fraction(RATE, self.rate).as_integer_ratio()), np.float32)


def rounded(gain: float) -> float:
    """A gain as it is kept and as the player gets it: six digits of it."""
    return float(f"{gain:.6g}")


@dataclass(frozen=True, eq=False)
class Sound:
    """One stroke: clips that start together, each with its gain.

    The first is the stroke's own; the long rings of cymbals and toms are shared with other strokes.
    """

    parts: tuple[tuple[Clip, float], ...]

    @cached_property
    def samples(self) -> NDArray[np.float32]:
        """All of it at 44.1 kHz, where 1 is full scale."""
        whole = np.zeros(max(len(clip.samples) for clip, _ in self.parts), np.float32)
        for clip, gain in self.parts:
            whole[: len(clip.samples)] += clip.samples * np.float32(gain)
        return whole


def sound_in_turn(count: int, turn: int, hand_turn: int, hand: str | None) -> int:
    """Which of ``count`` sounds a stroke takes.

    ``turn`` counts the strokes of its voice, ``hand_turn`` those of one hand (``right`` or ``left``; None: a foot, or
    the click). Where there are enough, the right hand takes every other sound from the first on, the left hand the
    rest.
    """
    if hand is None or count < SOUNDS_FOR_TWO_HANDS:
        return turn % count
    first = 0 if hand == "right" else 1
    own = len(range(first, count, 2))
    return first + 2 * (hand_turn % own)
