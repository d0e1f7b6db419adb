"""Sound that is too dense to count its modes: cymbals, wires, the knock of a stick. Made band by band from a table."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from wristwork.sound.kit.chance import Chance
from wristwork.sound.kit.samples import RATE, Samples, count_of, times
from wristwork.sound.kit.tables import BAND_OCTAVES, Table, bands

# What any filter of half an octave adds to the time of a rise, in seconds times hertz of its middle.
OWN_RISE = 1.5
QUICKEST = 0.0004
RISE_SHARE = 2.3  # an exponential approach is at nine tenths after so many of its time constants
ALL = slice(None)
LEVELS = (10**-0.5, 10**-1.0, 10**-1.5)


@dataclass(frozen=True, slots=True)
class Grain:
    """What a texture is made of: noise, or the modes of one plate.

    ``name`` decides which modes; a share ``tonal`` of the energy is theirs, ``modes`` of them in each band. ``swell``
    is the power of its rise: 2 starts softly. At most the share ``lasting`` of it rings on after the stroke's start.
    """

    name: str
    tonal: float = 0.0
    modes: int = 12
    swell: float = 1.0
    lasting: float = 1.0


@dataclass(frozen=True, eq=False)
class Fall:
    """How a band falls: a ``quick`` part, and the rest that ``lasts``; time constants in seconds, shares of 1."""

    quick: float
    lasting: float
    share: float

    @classmethod
    def through(cls, falls: Samples, most: float) -> Fall:
        """Through the three times of a table's row; at ``most`` so large a share lasts."""
        ten, twenty, thirty = (float(fall) for fall in falls)
        lasting = max((thirty - twenty) / np.log(LEVELS[1] / LEVELS[2]), 0.003)
        share = min(most, LEVELS[1] * np.exp(min(twenty / lasting, 10.0)))
        left = LEVELS[0] - share * np.exp(-ten / lasting)
        quick = -ten / np.log(left / (1 - share)) if 0 < left < 1 - share else 0.4 * ten
        return cls(max(float(quick), 0.001), float(lasting), float(share))


@dataclass(frozen=True, slots=True)
class Blow:
    """One stroke: its effort from 0 (a ghost note) to 1 (an accent), and how it differs from the usual one.

    ``further_out``: by so much of the radius; ``tilt``: brighter, in decibels an octave; ``stretch``: from -1 to 1,
    how much more than usual it stretches a head.
    """

    effort: float
    further_out: float = 0.0
    tilt: float = 0.0
    stretch: float = 0.0


def texture(
    table: Table, blow: Blow, grain: Grain, chance: Chance, seconds: float, only: slice = ALL
) -> tuple[Samples, Samples]:
    """The quick part and the lasting part of one stroke; with all bands, their energy together is about 1."""
    count = count_of(seconds)
    quick, lasting = np.zeros(count), np.zeros(count)
    energies = table.energies(blow.effort, blow.tilt)
    spectrum = _spectrum(grain, chance, count)
    for number in range(len(bands()))[only]:
        first, rest = _ways(table, number, grain, count)
        carrier = np.sqrt(energies[number] / np.sum((first + rest) ** 2)) * _carrier(spectrum, number, count)
        quick += first * carrier
        lasting += rest * carrier
    return quick, lasting


def _ways(table: Table, number: int, grain: Grain, count: int) -> tuple[Samples, Samples]:
    """How the two parts of a band rise and fall."""
    t = times(count)
    fall = Fall.through(table.falls[:, number], grain.lasting)
    rise = max(float(table.rises[number]) - OWN_RISE / bands()[number], QUICKEST) / RISE_SHARE
    risen = (1 - np.exp(-t / rise)) ** grain.swell
    return (
        risen * (1 - fall.share) * np.exp(-t / fall.quick),
        risen * fall.share * np.exp(-t / fall.lasting),
    )


def _spectrum(grain: Grain, chance: Chance, count: int) -> Samples:
    """Random amplitudes at all frequencies, and stronger ones at those of the modes."""
    size = count // 2 + 1
    noise = np.sqrt(-2 * np.log(chance.unit(size) + 1e-12)) * np.exp(2j * np.pi * chance.unit(size))
    if not grain.tonal:
        return noise
    where = np.zeros(size)
    plate = Chance(f"modes of {grain.name}")
    for middle in bands():
        octaves = (plate.unit(grain.modes) - 0.5) * BAND_OCTAVES
        bins = np.round(middle * 2**octaves * count / RATE).astype(int)
        bins = bins[bins < size]
        if len(bins):
            within = middle * (2**0.25 - 2**-0.25) * count / RATE  # bins of the band
            where[bins] = np.sqrt(within / len(bins))
    return noise * (np.sqrt(1 - grain.tonal) + np.sqrt(grain.tonal) * where)


def _carrier(spectrum: Samples, number: int, count: int) -> Samples:
    """The band's share of a spectrum as a steady sound of effective value 1."""
    start, share = _share(number, count)
    within = np.zeros(len(spectrum), complex)
    within[start : start + len(share)] = spectrum[start : start + len(share)] * share
    sound = np.fft.irfft(within, count)
    return sound / np.sqrt(np.mean(sound**2))


@lru_cache(256)
def _share(number: int, count: int) -> tuple[int, Samples]:
    """How much of each frequency belongs to a band, from the first that does; the bands add up to all energy."""
    hertz = np.fft.rfftfreq(count, 1 / RATE)
    octaves = np.log2(np.maximum(hertz, 1e-3) / bands()[number])
    if number == len(bands()) - 1:
        octaves = np.minimum(octaves, 0.0)
    share = np.cos(np.pi / 2 * np.clip(np.abs(octaves) / BAND_OCTAVES, 0.0, 1.0))
    found = np.flatnonzero(share > 0)
    return int(found[0]), share[found[0] : found[-1] + 1]
