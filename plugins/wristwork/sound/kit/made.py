"""The made kit: every voice's sounds, each made when it is first asked for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from wristwork.pattern.model import Drum, Level
from wristwork.sound.kit import blocks, cymbals, drums
from wristwork.sound.kit.chance import Chance
from wristwork.sound.kit.samples import Pcm, Samples, fade_out, gain_of, peak, rounded
from wristwork.sound.kit.voices import CLICK, CLICK_LEVELS, Sound, Voice

VARIANTS = 3

# Peaks against the accent's, in decibels: an accent stands well out of the taps, a ghost note stays under them.
LEVEL_DB = {Level.ACCENT: 0.0, Level.TAP: -10.5, Level.GHOST: -16.5}
VARIANT_SPREAD_DB = 0.5

StrikeMaker = Callable[[Level, Chance], Samples]
WashMaker = Callable[[Chance], Samples]


@dataclass(frozen=True, slots=True)
class Recipe:
    """How a place is made: its strike, the peak of its accent in the mix (dB below full scale), its wash.

    ``wash_db`` is the wash's peak against the strike's.
    """

    strike: StrikeMaker
    peak_db: float
    wash: WashMaker | None = None
    wash_db: float = 0.0


RECIPES = {
    Drum.PAD: Recipe(blocks.pad, -3.0),
    Drum.SNARE: Recipe(drums.snare, -3.0),
    Drum.RIM_SHOT: Recipe(drums.rim_shot, -1.0),
    Drum.CROSS_STICK: Recipe(blocks.cross_stick, -8.0),
    Drum.HI_HAT: Recipe(cymbals.closed_hat, -8.0),
    Drum.OPEN_HI_HAT: Recipe(cymbals.open_hat_strike, -9.0, cymbals.open_hat_wash, -5.0),
    Drum.RIDE: Recipe(cymbals.ride_strike, -9.0, cymbals.ride_wash, -11.0),
    Drum.RIDE_BELL: Recipe(cymbals.bell_strike, -10.0, cymbals.bell_wash, -4.0),
    Drum.CRASH: Recipe(cymbals.crash_strike, -6.0, cymbals.crash_wash, -4.0),
    Drum.HIGH_TOM: Recipe(drums.tom(drums.HIGH_TOM), -3.0),
    Drum.MID_TOM: Recipe(drums.tom(drums.MID_TOM), -3.0),
    Drum.FLOOR_TOM: Recipe(drums.tom(drums.FLOOR_TOM), -3.0),
    Drum.COWBELL: Recipe(blocks.cowbell, -9.0),
    Drum.KICK: Recipe(drums.kick, -1.0),
    Drum.HI_HAT_FOOT: Recipe(cymbals.foot_hat, -8.0),
}
CLICK_PEAK_DB = -9.0
FADE_SECONDS = 0.005  # no sound ends in a step


@cache
def made_sounds(voice: Voice) -> tuple[Sound, ...]:
    """The made sounds of a voice: the same numbers every time, on every machine."""
    if voice.place == CLICK:
        pcm, _ = rounded(blocks.click(voice.level))
        quieter = -3.0 * CLICK_LEVELS.index(voice.level)
        return (Sound(pcm, gain_of(CLICK_PEAK_DB + quieter)),)
    drum, level = Drum(voice.place), Level(voice.level)
    return tuple(_made(drum, level, Chance(f"{drum} {level} {number}")) for number in range(1, VARIANTS + 1))


def _made(drum: Drum, level: Level, chance: Chance) -> Sound:
    recipe = RECIPES[drum]
    strike, _ = rounded(fade_out(recipe.strike(level, chance), FADE_SECONDS))
    target = gain_of(recipe.peak_db + LEVEL_DB[level] + chance.between(-VARIANT_SPREAD_DB, VARIANT_SPREAD_DB))
    wash = _wash(drum)
    if wash is None:
        return Sound(strike, target)
    unscaled = Sound(strike, 1.0, wash, gain_of(recipe.wash_db))
    scale = target / peak(unscaled.samples)
    return Sound(strike, scale, wash, gain_of(recipe.wash_db) * scale)


@cache
def _wash(drum: Drum) -> Pcm | None:
    make = RECIPES[drum].wash
    return None if make is None else rounded(fade_out(make(Chance(f"{drum} wash")), 0.3))[0]
