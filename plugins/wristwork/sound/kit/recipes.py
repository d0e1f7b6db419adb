"""How each drum is made, and how finely its sound is kept: only as finely as it is heard, since phones fetch it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from scipy.signal import resample_poly

from wristwork.pattern.model import Drum, Level
from wristwork.sound.kit import blocks, drums, metal
from wristwork.sound.kit.chance import Chance
from wristwork.sound.kit.drums import Maker
from wristwork.sound.kit.heads import DrumHead
from wristwork.sound.kit.metal import Cymbal
from wristwork.sound.kit.samples import RATE, Samples, count_of
from wristwork.sound.kit.tables import Table, table


@dataclass(frozen=True, slots=True)
class Efforts:
    """How hard a level is struck, from 0 to 1."""

    accent: float
    tap: float
    ghost: float

    def of(self, level: Level) -> float:
        """The effort of a level."""
        return {Level.ACCENT: self.accent, Level.TAP: self.tap, Level.GHOST: self.ghost}[level]


# Where an ear tells a ghost note from a tap by its loudness alone, both take the same strikes; on a cymbal all levels
# do, and the shares of its rings make the difference.
THREE = Efforts(1.0, 0.5, 0.0)
TWO = Efforts(1.0, 0.25, 0.25)


@dataclass(frozen=True, slots=True)
class ClipFormat:
    """How a clip is kept: its rate in hertz, seconds at most, its highest peak as 2^``bits`` steps.

    It ``fades`` to nothing over the last share of its time.
    """

    rate: int
    seconds: float
    bits: int = 9
    fades: float = 0.2

    def at_its_rate(self, wave: Samples) -> Samples:
        """The wave, no longer than it may be, at the rate."""
        short = wave[: count_of(self.seconds)]
        if self.rate == RATE:
            return short
        resampled: Samples = resample_poly(short, *Fraction(self.rate, RATE).as_integer_ratio())
        return resampled


@dataclass(frozen=True, slots=True)
class Ring:
    """A part that all strokes on a place share: how it is made, and how large it is at an effort.

    ``drum``: the place whose part it is; a place that is seldom struck has those of one much like it.
    """

    drum: Drum
    name: str
    make: Callable[[Chance], Samples]
    share: Callable[[float], float]
    clip_format: ClipFormat


@dataclass(frozen=True, slots=True)
class Recipe:
    """How a place is made: a stroke's own part, and the rings.

    ``one_strike``: all levels take the same strikes. ``ring_turns``: the rings go either way round, which a ring that
    takes over from the strike can't. ``strike_share``: how large the own part is at an effort.
    """

    strike: Maker
    clip_format: ClipFormat
    efforts: Efforts = TWO
    rings: tuple[Ring, ...] = ()
    in_room: bool = True
    one_strike: bool = False
    ring_turns: bool = False
    strike_share: Callable[[float], float] = lambda _effort: 1.0

    def made_as(self, level: Level) -> Level:
        """The level whose strikes this level takes."""
        if self.one_strike:
            return Level.ACCENT
        return Level.TAP if self.efforts.of(level) == self.efforts.tap else level


CLEAR, BRIGHT, MIDDLE, DARK = RATE, 32_000, 24_000, 8_820
# A cymbal rings longer than a phone should have to fetch: over half of its file it goes smoothly.
RING_FADES, STRIKE_FADES = 0.5, 0.5
CLICK_FORMAT = ClipFormat(CLEAR, 0.06, 11)


def _tom(drum: Drum, head: DrumHead, fitted: Table) -> Recipe:
    def share(effort: float) -> float:
        return float(fitted.energies(effort)[head.band] ** 0.5)

    ring = Ring(drum, "ring", lambda _chance: drums.tom_ring(head), share, ClipFormat(DARK, drums.TOM_RING, 7))
    return Recipe(drums.tom(head, fitted), ClipFormat(MIDDLE, drums.TOM_STRIKE, 8), rings=(ring,))


def _low(drum: Drum, cymbal: Cymbal, share: Callable[[float], float] | None = None) -> Ring:
    clip_format = ClipFormat(DARK, 0.9 * cymbal.ring_seconds, 7, RING_FADES)
    return Ring(drum, "low", cymbal.ring(metal.LOW), share or cymbal.share(metal.LOW), clip_format)


def _high(drum: Drum, cymbal: Cymbal, share: Callable[[float], float] | None = None) -> Ring:
    clip_format = ClipFormat(BRIGHT, 0.5 * cymbal.ring_seconds, 7, RING_FADES)
    return Ring(drum, "high", cymbal.ring(metal.HIGH), share or cymbal.share(metal.HIGH), clip_format)


def _cymbal(drum: Drum, cymbal: Cymbal) -> Recipe:
    return _struck_metal(cymbal, _low(drum, cymbal), _high(drum, cymbal))


def _struck_metal(cymbal: Cymbal, *rings: Ring) -> Recipe:
    return Recipe(
        cymbal.strike,
        ClipFormat(BRIGHT, cymbal.strike_seconds, 7, STRIKE_FADES),
        THREE,
        rings,
        one_strike=True,
        ring_turns=True,
        strike_share=cymbal.share(metal.HIGH),
    )


RECIPES = {
    Drum.PAD: Recipe(blocks.pad, ClipFormat(CLEAR, blocks.PAD_SECONDS, 14), THREE, in_room=False),
    Drum.SNARE: Recipe(drums.snare, ClipFormat(BRIGHT, 0.45, 8), THREE),
    Drum.RIM_SHOT: Recipe(drums.rim_shot, ClipFormat(BRIGHT, 0.5, 9), one_strike=True),
    Drum.CROSS_STICK: Recipe(blocks.cross_stick, ClipFormat(BRIGHT, 0.2, 8), one_strike=True),
    Drum.HI_HAT: Recipe(metal.closed_hat, ClipFormat(BRIGHT, 0.25, 8), one_strike=True),
    Drum.OPEN_HI_HAT: _cymbal(Drum.OPEN_HI_HAT, metal.OPEN_HI_HAT),
    Drum.RIDE: _cymbal(Drum.RIDE, metal.RIDE),
    Drum.RIDE_BELL: _cymbal(Drum.RIDE_BELL, metal.RIDE_BELL),
    Drum.CRASH: _cymbal(Drum.CRASH, metal.CRASH),
    Drum.HIGH_TOM: _tom(Drum.HIGH_TOM, drums.HIGH_TOM, table("high tom")),
    Drum.MID_TOM: _tom(Drum.MID_TOM, drums.MID_TOM, table("mid tom")),
    Drum.FLOOR_TOM: _tom(Drum.FLOOR_TOM, drums.FLOOR_TOM, table("floor tom")),
    Drum.COWBELL: Recipe(metal.cowbell, ClipFormat(BRIGHT, 0.35, 8), one_strike=True),
    Drum.KICK: Recipe(drums.kick, ClipFormat(MIDDLE, 0.45)),
    Drum.HI_HAT_FOOT: Recipe(metal.foot_hat, ClipFormat(BRIGHT, 0.25, 8), one_strike=True),
    Drum.CHINA: _cymbal(Drum.CHINA, metal.CHINA),
    Drum.SPLASH: _cymbal(Drum.SPLASH, metal.SPLASH),
    Drum.SECOND_CRASH: _struck_metal(
        metal.SECOND_CRASH,
        _low(Drum.SECOND_CRASH, metal.SECOND_CRASH),
        _high(Drum.CRASH, metal.CRASH, metal.SECOND_CRASH.share(metal.HIGH)),
    ),
    Drum.HALF_OPEN_HI_HAT: Recipe(metal.half_open_hat, ClipFormat(BRIGHT, 0.41, 7, 0.6), one_strike=True),
    Drum.FOOT_SPLASH: _struck_metal(
        metal.FOOT_SPLASH,
        _low(Drum.OPEN_HI_HAT, metal.OPEN_HI_HAT, metal.FOOT_SPLASH.share(metal.LOW)),
        _high(Drum.OPEN_HI_HAT, metal.OPEN_HI_HAT, metal.FOOT_SPLASH.share(metal.HIGH)),
    ),
    Drum.LOW_TOM: _tom(Drum.LOW_TOM, drums.LOW_TOM, table("floor tom").moved(0.25)),
    Drum.RIM: Recipe(blocks.rim, ClipFormat(BRIGHT, 0.2, 8), one_strike=True),
    Drum.STICK_ON_STICK: Recipe(blocks.stick_on_stick, ClipFormat(BRIGHT, 0.08), one_strike=True),
    Drum.BRUSH_SWEEP: Recipe(drums.brush_sweep, ClipFormat(MIDDLE, drums.SWEEP_SECONDS, 6), one_strike=True),
}
