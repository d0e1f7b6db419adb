"""The room round the kit: small and soft, with nothing in it that is heard by itself."""

from __future__ import annotations

from functools import cache

import numpy as np
from scipy.signal import fftconvolve

from wristwork.sound.kit.chance import Chance
from wristwork.sound.kit.samples import Samples, count_of, decay, gain_of, rise

SECONDS = 0.3
WET_DB = -20.0  # the energy of what comes back, against what went out
FIRST_BACK = 0.006  # seconds in which the answer builds up
LOW, HIGH = 200.0, 7000.0  # walls swallow what is above, a small room holds nothing below


def in_room(dry: Samples) -> Samples:
    """A stroke as it is heard in the room; as long as it was."""
    wet: Samples = dry + fftconvolve(dry, _answer())[: len(dry)]
    return wet


@cache
def _answer() -> Samples:
    count = count_of(SECONDS)
    hiss = Chance("room").noise(count, LOW, HIGH, order=1) * decay(count, SECONDS) * rise(count, FIRST_BACK)
    return hiss * gain_of(WET_DB) / np.sqrt(np.sum(hiss**2))
