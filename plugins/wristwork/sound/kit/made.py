"""The made kit: every voice's sounds, each made when it is first asked for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from wristwork.pattern.model import Drum, Level
from wristwork.sound.kit import blocks, cymbals, drums
from wristwork.sound.kit.chance import Chance
from wristwork.sound.kit.samples import Pcm, Samples, fade_out, gain_of, peak, rounded
from wristwork.sound.kit.voices import CLICK, Sound, Voice, peak_of, voice_of

VARIANTS = 3

VARIANT_SPREAD_DB = 0.5

StrikeMaker = Callable[[Level, Chance], Samples]
WashMaker = Callable[[Chance], Samples]


@dataclass(frozen=True, slots=True)
class Recipe:
    """How a place is made: its strike, its wash, and the wash's peak against the strike's in decibels."""

    strike: StrikeMaker
    wash: WashMaker | None = None
    wash_db: float = 0.0


RECIPES = {
    Drum.PAD: Recipe(blocks.pad),
    Drum.SNARE: Recipe(drums.snare),
    Drum.RIM_SHOT: Recipe(drums.rim_shot),
    Drum.CROSS_STICK: Recipe(blocks.cross_stick),
    Drum.HI_HAT: Recipe(cymbals.closed_hat),
    Drum.OPEN_HI_HAT: Recipe(cymbals.open_hat_strike, cymbals.open_hat_wash, -5.0),
    Drum.RIDE: Recipe(cymbals.ride_strike, cymbals.ride_wash, -11.0),
    Drum.RIDE_BELL: Recipe(cymbals.bell_strike, cymbals.bell_wash, -4.0),
    Drum.CRASH: Recipe(cymbals.crash_strike, cymbals.crash_wash, -4.0),
    Drum.HIGH_TOM: Recipe(drums.tom(drums.HIGH_TOM)),
    Drum.MID_TOM: Recipe(drums.tom(drums.MID_TOM)),
    Drum.FLOOR_TOM: Recipe(drums.tom(drums.FLOOR_TOM)),
    Drum.COWBELL: Recipe(blocks.cowbell),
    Drum.KICK: Recipe(drums.kick),
    Drum.HI_HAT_FOOT: Recipe(cymbals.foot_hat),
    Drum.CHINA: Recipe(cymbals.crash_strike, cymbals.crash_wash, -2.5),
    Drum.SPLASH: Recipe(cymbals.splash_strike),
    Drum.SECOND_CRASH: Recipe(cymbals.crash_strike, cymbals.crash_wash, -5.0),
    Drum.HALF_OPEN_HI_HAT: Recipe(cymbals.half_open_hat),
    Drum.FOOT_SPLASH: Recipe(cymbals.splashed_hat),
    Drum.LOW_TOM: Recipe(drums.tom(drums.LOW_TOM)),
    Drum.RIM: Recipe(drums.rim),
    Drum.STICK_ON_STICK: Recipe(blocks.stick_on_stick),
    Drum.BRUSH_SWEEP: Recipe(blocks.brush_sweep),
}
FADE_SECONDS = 0.005  # no sound ends in a step


@cache
def made_sounds(voice: Voice) -> tuple[Sound, ...]:
    """The made sounds of a voice: the same numbers every time, on every machine."""
    if voice.place == CLICK:
        return (Sound(rounded(blocks.click(voice.level))[0], peak_of(voice)),)
    drum, level = Drum(voice.place), Level(voice.level)
    return tuple(_made(drum, level, Chance(f"{drum} {level} {number}")) for number in range(1, VARIANTS + 1))


def _made(drum: Drum, level: Level, chance: Chance) -> Sound:
    recipe = RECIPES[drum]
    strike, _ = rounded(fade_out(recipe.strike(level, chance), FADE_SECONDS))
    target = peak_of(voice_of(drum, level)) * gain_of(chance.between(-VARIANT_SPREAD_DB, VARIANT_SPREAD_DB))
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
