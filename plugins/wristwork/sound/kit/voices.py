"""What can sound: a voice is a place at a level, a sound is one stroke on it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from wristwork.pattern.model import Drum, Level
from wristwork.sound.kit.samples import FULL_SCALE, Pcm, gain_of

CLICK = "click"
CLICK_LEVELS = ("high", "low")


class Voice(NamedTuple):
    """What is struck (a drum's name, or ``click``) and how loud (a level, or ``high`` and ``low`` for the click)."""

    place: str
    level: str


def voice_of(drum: Drum, level: Level) -> Voice:
    """The voice of a stroke."""
    return Voice(drum.value, level.value)


VOICES = (
    *(voice_of(drum, level) for drum in Drum for level in Level),
    *(Voice(CLICK, level) for level in CLICK_LEVELS),
)

# How far the softer levels stay below a place's accents, whose peak in the mix its row tells. An accent stands well out
# of the taps, a ghost note stays under them.
LEVEL_DB = {Level.ACCENT: 0.0, Level.TAP: -10.5, Level.GHOST: -16.5}
CLICK_PEAK_DB = {"high": -12.0, "low": -14.0}  # about a tap on the pad


def peak_of(voice: Voice) -> float:
    """The peak that a voice's sounds have on average, where 1 is full scale."""
    if voice.place == CLICK:
        return gain_of(CLICK_PEAK_DB[voice.level])
    return gain_of(Drum(voice.place).row.peak_db + LEVEL_DB[Level(voice.level)])


# A closed or foot hi-hat ends what the open one still rings; strokes at one moment leave each other alone.
CHOKES = {drum: tuple(Drum(name) for name in drum.row.silences) for drum in Drum if drum.row.silences}
CHOKE_SECONDS = 0.04


@dataclass(frozen=True, eq=False)
class Sound:
    """One stroke, at 44.1 kHz, mono: it starts at its first sample.

    ``strike`` is its own part, ``wash`` the long ring that it shares with the other strokes on its place (only
    cymbals have one). Both are whole 16-bit numbers, and ``gain`` and ``wash_gain`` say how loud full scale is.
    """

    strike: Pcm
    gain: float
    wash: Pcm | None = None
    wash_gain: float = 0.0

    @cached_property
    def samples(self) -> NDArray[np.float32]:
        """All of it, where 1 is full scale."""
        strike = self.strike * np.float32(self.gain / FULL_SCALE)
        if self.wash is None:
            return strike
        whole = self.wash * np.float32(self.wash_gain / FULL_SCALE)
        whole[: len(strike)] += strike
        return whole
