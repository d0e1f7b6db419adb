"""Small dead or short-ringing things: the practice pad, a stick on the rim, the cowbell, the clicks."""

from __future__ import annotations

from wristwork.pattern.model import Level
from wristwork.sound.kit.chance import Chance
from wristwork.sound.kit.filters import band
from wristwork.sound.kit.modes import Mode, ring, struck
from wristwork.sound.kit.samples import Samples, count_of, decay, leveled, mix, rise

# How long a stick stays on a hard surface, in seconds: the harder the stroke, the shorter.
CONTACT = {Level.GHOST: 0.00042, Level.TAP: 0.00025, Level.ACCENT: 0.00012}

# The bending modes of a free hickory stick of about 40 cm (those of a free bar: 1, 2.76, 5.40, 8.93, …); the hand
# takes most of their ring away.
STICK = (
    Mode(480.0, 0.6, 0.05),
    Mode(1325.0, 0.9, 0.036),
    Mode(2590.0, 1.0, 0.028),
    Mode(4290.0, 0.9, 0.02),
    Mode(6410.0, 0.7, 0.014),
)


def stick(level: Level, chance: Chance, seconds: float = 0.06) -> Samples:
    """What the stick itself adds to any stroke, with a peak of 1: its own short ring, and the noise of the contact."""
    length = CONTACT[level]
    tone = ring(struck(STICK, chance, length, 0.03, 0.25), seconds)
    count = count_of(seconds)
    hiss = chance.noise(count, 1200.0, 1.6 / length, order=1)
    scrape = hiss * decay(count, 0.006 + 8 * length) * rise(count, 0.0002)
    return leveled(mix(leveled(tone, 1.0), scrape), 1.0)


# A rubber face on a wooden board: a few modes that the rubber kills at once. Its give makes the contact longer; the
# thing is small, so it sends out little below its own lowest mode.
PAD = (
    Mode(345.0, 0.6, 0.075),
    Mode(520.0, 0.9, 0.07),
    Mode(835.0, 1.0, 0.056),
    Mode(1290.0, 1.0, 0.045),
    Mode(1980.0, 1.0, 0.036),
    Mode(2870.0, 0.9, 0.028),
    Mode(4130.0, 0.8, 0.02),
)
PAD_LOWEST = 240.0
PAD_SECONDS = 0.1
PAD_CLICK = {Level.GHOST: 0.2, Level.TAP: 0.32, Level.ACCENT: 0.65}


def pad(level: Level, chance: Chance) -> Samples:
    """A short dead knock with the click of the stick on it."""
    board = ring(struck(PAD, chance, 1.2 * CONTACT[level], 0.02, 0.2), PAD_SECONDS)
    knock = leveled(band(board, PAD_LOWEST, None), 1.0)
    return mix(knock, PAD_CLICK[level] * stick(level, chance, PAD_SECONDS))


# The stick lies on the head and knocks on the rim: a wooden clack over the drum's shell.
CROSS_STICK = (
    Mode(385.0, 0.3, 0.09),
    Mode(1010.0, 0.9, 0.075),
    Mode(1640.0, 0.6, 0.06),
    Mode(2480.0, 1.0, 0.05),
    Mode(3710.0, 0.7, 0.035),
    Mode(5350.0, 0.4, 0.022),
)


def cross_stick(level: Level, chance: Chance) -> Samples:
    """A dry, woody clack."""
    clack = ring(struck(CROSS_STICK, chance, 0.9 * CONTACT[level], 0.012, 0.15), 0.13)
    return mix(leveled(band(clack, 300.0, None), 1.0), 0.35 * stick(level, chance))


def stick_on_stick(level: Level, chance: Chance) -> Samples:
    """Two sticks struck on each other in the air: both ring freely."""
    one = ring(struck(STICK, chance, 0.6 * CONTACT[level], 0.02, 0.2), 0.12)
    return mix(leveled(band(one, 700.0, None), 1.0), 0.5 * stick(level, chance, 0.12))


SWEEP_SECONDS = 0.22
SWEEP_TOP = {Level.GHOST: 5200.0, Level.TAP: 6500.0, Level.ACCENT: 8600.0}


def brush_sweep(level: Level, chance: Chance) -> Samples:
    """Wires drawn over a coated head: a breath of noise with a start that is just heard."""
    count = count_of(1.2 * SWEEP_SECONDS)
    return chance.noise(count, 900.0, SWEEP_TOP[level]) * decay(count, SWEEP_SECONDS) * rise(count, 0.0006)


# A bell of folded steel, held by its clamp: no mode is a whole multiple of another.
COWBELL = (
    Mode(617.0, 0.7, 0.34),
    Mode(921.0, 1.0, 0.3),
    Mode(1490.0, 0.5, 0.22),
    Mode(2130.0, 0.9, 0.2),
    Mode(2905.0, 0.7, 0.16),
    Mode(3980.0, 0.7, 0.13),
    Mode(5240.0, 0.5, 0.1),
    Mode(6870.0, 0.4, 0.07),
    Mode(8810.0, 0.3, 0.05),
)


def cowbell(level: Level, chance: Chance) -> Samples:
    """The shoulder of the stick on the bell's mouth."""
    bell = ring(struck(COWBELL, chance, 0.8 * CONTACT[level], 0.004, 0.2), 0.42)
    return mix(leveled(band(bell, 400.0, None), 1.0), 0.3 * stick(level, chance))


CLICK_HERTZ = {"high": 1870.0, "low": 1400.0}


def click(pitch: str) -> Samples:
    """A click that marks time: a small hard block of wood, higher for the first beat of a bar."""
    hertz = CLICK_HERTZ[pitch]
    return ring((Mode(hertz, 1.0, 0.05), Mode(2.57 * hertz, 0.45, 0.03), Mode(4.1 * hertz, 0.2, 0.016)), 0.06)
