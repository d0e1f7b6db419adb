"""What recorded strokes have in common, by instrument, as the makers of sounds use it: :mod:`.fitted` with tools."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

import numpy as np

from wristwork.sound.kit.fitted import FITTED, HERTZ
from wristwork.sound.kit.samples import Samples

BAND_OCTAVES = 0.5


@dataclass(frozen=True, eq=False)
class Table:
    """One instrument, band by band (:func:`bands` gives their middles).

    ``soft`` and ``loud``: a band's energy in decibels below that of the whole stroke. ``falls``: seconds after which
    it is 10, 20 and 30 dB below its highest. ``rises``: seconds until it is near that.
    """

    soft: Samples
    loud: Samples
    falls: Samples
    rises: Samples

    def energies(self, effort: float, tilt: float = 0.0) -> Samples:
        """Each band's share of the energy at an effort from 0 (a ghost note) to 1 (an accent).

        ``tilt`` makes the upper bands louder, by so many decibels an octave.
        """
        octaves = np.log2(bands() / 1000.0)
        shares: Samples = 10 ** ((self.soft + effort * (self.loud - self.soft) + tilt * octaves) / 10)
        return shares

    def steady(self, share: float) -> Table:
        """The same, with the difference between soft and loud strokes brought down to a share of itself."""
        return replace(self, soft=self.loud + share * (self.soft - self.loud))

    def moved(self, octaves: float) -> Table:
        """A larger (below 0) or smaller instrument of the same kind: all bands so much higher."""
        numbers = np.arange(len(self.loud)) - octaves / BAND_OCTAVES

        def shifted(values: Samples) -> Samples:
            return np.interp(numbers, np.arange(len(values)), values)

        return Table(
            shifted(self.soft), shifted(self.loud), np.array([shifted(row) for row in self.falls]), shifted(self.rises)
        )

    def raised(self, low: float, high: float, decibels: float) -> Table:
        """The bands between two frequencies so much louder."""
        more = np.where((bands() >= low) & (bands() <= high), decibels, 0.0)
        return replace(self, soft=self.soft + more, loud=self.loud + more)


@cache
def bands() -> Samples:
    """The middles of the bands, in hertz."""
    return np.array(HERTZ)


@cache
def table(instrument: str) -> Table:
    """The table of an instrument, by its name among the fitted figures."""
    found = {name: np.array(row) for name, row in FITTED[instrument].items()}
    falls = np.array([found["down 10"], found["down 20"], found["down 30"]]) / 1000
    return Table(found["soft"], found["loud"], falls, found["rise"] / 1000)
