"""What can sound: a voice is a place at a level, a sound is one stroke on it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from wristwork.pattern.model import Drum, Level
from wristwork.sound.kit.samples import FULL_SCALE, Pcm

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

# A closed or foot hi-hat ends what the open one still rings; strokes at one moment leave each other alone.
CHOKES = {Drum.HI_HAT: (Drum.OPEN_HI_HAT,), Drum.HI_HAT_FOOT: (Drum.OPEN_HI_HAT,)}
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
