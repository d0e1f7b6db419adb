"""Figures of recorded strokes, fitted: what the made kit takes its spectra and its rise and fall from.

Source: some six hundred recorded strokes of acoustic kits by nine makers, published for free use, were measured in
bands of half an octave; here are the medians, each kit counted once, moved until what is made of them measures like
the recordings. No recording is kept. For each instrument: the energy of each band below that of the whole stroke in
decibels, of soft and of loud strokes; the milliseconds until a band is 10, 20 and 30 dB below its highest; and those
until it is near that.
"""

from __future__ import annotations

from wristwork.sound.kit.fitted.metal import METAL
from wristwork.sound.kit.fitted.skins_and_sticks import SKINS_AND_STICKS

# fmt: off
HERTZ = (62.5, 88.4, 125.0, 176.8, 250.0, 353.6, 500.0, 707.1, 1000.0,
         1414.2, 2000.0, 2828.4, 4000.0, 5656.9, 8000.0, 11313.7, 16000.0)
# fmt: on

FITTED = {**SKINS_AND_STICKS, **METAL}
