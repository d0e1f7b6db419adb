"""Small dead things: the practice pad, wood on wood and on the rim, the clicks."""

from __future__ import annotations

from dataclasses import replace

from wristwork.sound.kit.chance import Chance
from wristwork.sound.kit.filters import band
from wristwork.sound.kit.metal import damped
from wristwork.sound.kit.modes import Mode, ring, struck
from wristwork.sound.kit.samples import Samples, count_of, decay, leveled, mix, push, rise
from wristwork.sound.kit.tables import table
from wristwork.sound.kit.texture import Blow, Grain

# A rubber face on a wooden board: a few modes that the rubber kills at once. They are not all set off the same way:
# together they have less of a point. Its give makes the contact longer; the
# thing is small, so it sends out little below its own lowest mode.
PAD = (
    Mode(345.0, 0.8, 0.095),
    Mode(520.0, 0.9, 0.09),
    Mode(835.0, 0.9, 0.07),
    Mode(1290.0, -0.9, 0.055),
    Mode(1980.0, 0.8, 0.04),
    Mode(2870.0, -0.7, 0.03),
)
PAD_LOWEST = 240.0
PAD_SECONDS = 0.1
DB_AN_OCTAVE = 6.02  # of a size that grows as the frequency does
PAD_PUSH = 0.0004  # the rubber gives way for so long, in seconds

# The bending modes of a free hickory stick of about 40 cm (those of a free bar: 1, 2.76, 5.40, 8.93, …); the hand
# takes most of their ring away.
STICK = (
    Mode(480.0, 0.6, 0.05),
    Mode(1325.0, 0.9, 0.036),
    Mode(2590.0, 1.0, 0.028),
    Mode(6410.0, 0.5, 0.012),
)


def contact_seconds(effort: float) -> float:
    """How long a stick stays on rubber: the harder the stroke, the shorter."""
    return 0.0005 - 0.0003 * effort


def pad(blow: Blow, chance: Chance) -> Samples:
    """A short dead knock with the click of the stick on it."""
    length = contact_seconds(blow.effort)
    tilted = [replace(mode, size=mode.size * (mode.hertz / 1000) ** (blow.tilt / DB_AN_OCTAVE)) for mode in PAD]
    board = ring(struck(tilted, chance, 1.2 * length, 0.045, 0.5), PAD_SECONDS)
    stick = ring(struck(STICK, chance, length, 0.03, 0.3), PAD_SECONDS)
    count = count_of(0.03)
    scrape = chance.noise(count, 1200.0, 1.2 / length, order=1) * decay(count, 0.008) * rise(count, 0.0003)
    knock = mix(leveled(board, 1.0), (0.15 + 0.3 * blow.effort) * leveled(stick, 1.0), 0.15 * scrape)
    return band(knock * push(len(knock), PAD_PUSH), PAD_LOWEST, None)


cross_stick = damped(table("cross-stick").steady(0.3), Grain("cross-stick"), 0.22)
# The hoop alone: the clack without the drum below it, with steel in it.
HOOP = table("cross-stick").steady(0.3).raised(0.0, 600.0, -8.0).raised(2000.0, 8000.0, 3.0)
rim = damped(HOOP, Grain("rim", 0.7, 3), 0.22)
stick_on_stick = damped(table("stick"), Grain("stick"), 0.08)

# Above all drums and below most of the hiss: nothing that is struck covers these.
CLICK_HERTZ = {"high": 5150.0, "low": 4100.0}


def click(pitch: str) -> Samples:
    """A click that marks time: short, hard and high, higher still for the first beat of a bar."""
    hertz = CLICK_HERTZ[pitch]
    tone = ring((Mode(hertz, 1.0, 0.05), Mode(1.01 * hertz, 0.5, 0.04)), 0.06)
    return tone * rise(len(tone), 0.0006)
