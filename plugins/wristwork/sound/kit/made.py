"""The made kit: every voice's sounds, each made when it is first asked for.

A sound is made as the browser gets it, at a rate and in steps no finer than is heard, so that the audio files and the
player have one sound.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache, partial
from typing import TypeVar

import numpy as np

from wristwork.pattern.model import Drum, Level
from wristwork.sound.kit import blocks
from wristwork.sound.kit.chance import Chance
from wristwork.sound.kit.recipes import CLICK_FORMAT, RECIPES, ClipFormat, Recipe
from wristwork.sound.kit.room import in_room
from wristwork.sound.kit.samples import RATE, Samples, count_of, fade_out, gain_of, loudest_db, peak, stepped
from wristwork.sound.kit.texture import Blow
from wristwork.sound.kit.voices import CLICK, PCM_SCALE, Clip, KitVoice, Sound, level_db, rounded

Part = tuple[Clip, float]
Parts = list[tuple[Part, float]]
T = TypeVar("T")

VARIANTS = 4

# How the hands differ: the right one strikes so much of the radius further out, and its sounds are so much brighter
# than the middle; the left one as much the other way.
HAND_PLACE = 0.02
HAND_BRIGHTER = 0.02

# Which way round the rings of a cymbal go in each variant: no two strokes in a row add up to a tone.
RING_SIGNS = ((1, 1), (1, -1), (-1, 1), (-1, -1))

TRIAL_TILT = 0.4
TRIAL_BALANCE = 0.05
MOST_TRIALS = 6
MOST_STEP = 5  # in trials
NEAR_ENOUGH = 0.002


@cache
def made_sounds(voice: KitVoice) -> tuple[Sound, ...]:
    """The made sounds of a voice, right hand and left hand in turn: the same every time, on every machine."""
    if voice.instrument == CLICK:
        click = _clip(f"click-{voice.level}-1", blocks.click(voice.level), CLICK_FORMAT)
        return (_at_level(voice, [(click, 1.0)]),)
    drum, level = Drum(voice.instrument), Level(voice.level)
    effort = RECIPES[drum].efforts.of(level)
    strikes = _strikes(drum, RECIPES[drum].made_as(level))
    if not RECIPES[drum].ring_turns:
        return tuple(_at_level(voice, _parts(drum, effort, strike)) for strike in strikes)
    return tuple(_at_level(voice, parts) for parts in _balanced(drum, effort, strikes))


def _parts(drum: Drum, effort: float, strike: Part, variant: int = 0, balance: float = 0.0) -> Parts:
    """A strike and the rings, each at its share; ``balance`` makes the rings larger, the lower ones smaller."""
    recipe = RECIPES[drum]
    parts = [(strike, recipe.strike_share(effort))]
    for number, ring in enumerate(recipe.rings):
        sign = RING_SIGNS[variant][number] if recipe.ring_turns else 1
        parts.append((_ring(ring.drum, ring.name), sign * ring.share(effort) * (1 + balance * (2 * number - 1))))
    return parts


def _balanced(drum: Drum, effort: float, strikes: tuple[Part, ...]) -> Iterator[Parts]:
    """The strikes with the rings of a cymbal, which make most of its brightness, in the balance of each hand."""

    def sound(variant: int, balance: float) -> tuple[Parts, float]:
        parts = _parts(drum, effort, strikes[variant], variant, balance)
        return parts, brightness(_together(parts).samples)

    middle = _middle([sound(variant, 0.0)[1] for variant in range(VARIANTS)])
    for variant in range(VARIANTS):
        yield _as_bright(partial(sound, variant), middle * (1 + _side(variant) * HAND_BRIGHTER), TRIAL_BALANCE)


def _together(parts: Parts) -> Sound:
    return Sound(tuple((clip, gain * share) for (clip, gain), share in parts))


def _at_level(voice: KitVoice, parts: Parts) -> Sound:
    """The parts, each at its share, together as loud as their voice is."""
    unscaled = _together(parts)
    scale = gain_of(level_db(voice) - loudest_db(unscaled.samples))
    return Sound(tuple((clip, rounded(gain * scale)) for clip, gain in unscaled.parts))


@cache
def _strikes(drum: Drum, level: Level) -> tuple[Part, ...]:
    """The strikes that this level and all that share its effort take."""
    recipe = RECIPES[drum]
    effort = recipe.efforts.of(level)

    def strike(number: int, tilt: float) -> tuple[Part, float]:
        stretch = 2 * number / (VARIANTS - 1) - 1
        blow = Blow(effort, _side(number) * HAND_PLACE, tilt, stretch)
        wave = recipe.strike(blow, Chance(f"{drum} {level} {number}"))
        part = _clip(f"{drum.value.replace(' ', '-')}-{level}-{number + 1}", _heard(recipe, wave), recipe.clip_format)
        heard = [(part, 1.0)] if recipe.ring_turns else _parts(drum, effort, part)
        return part, brightness(_together(heard).samples)

    middle = _middle([strike(number, 0.0)[1] for number in range(VARIANTS)])
    aims = [middle * (1 + _side(number) * HAND_BRIGHTER) for number in range(VARIANTS)]
    return tuple(_as_bright(partial(strike, number), aim, TRIAL_TILT) for number, aim in enumerate(aims))


def _side(variant: int) -> int:
    """1 for the right hand, -1 for the left one."""
    return 1 if variant % 2 == 0 else -1


def _middle(found: list[float]) -> float:
    """The brightness about which the sounds of a voice lie, in hertz."""
    return float(np.exp(np.mean(np.log(found))))


def _as_bright(make: Callable[[float], tuple[T, float]], hertz: float, trial: float) -> T:
    """What ``make`` makes of the number with which it is as bright as it should be, found by the secant rule."""
    (found, bright), before, number = make(0.0), 0.0, trial
    for _ in range(MOST_TRIALS):
        if abs(bright / hertz - 1) < NEAR_ENOUGH:
            break
        was = bright
        found, bright = make(number)
        slope = np.log(bright / was) / (number - before)
        step = float(np.clip(np.log(hertz / bright) / slope, -MOST_STEP * trial, MOST_STEP * trial)) if slope else trial
        before, number = number, number + step
    return found


def brightness(wave: Samples) -> float:
    """The middle of a sound's spectrum: the mean frequency in hertz, weighted by energy."""
    energy = np.abs(np.fft.rfft(wave)) ** 2
    return float((np.fft.rfftfreq(len(wave), 1 / RATE) * energy).sum() / energy.sum())


@cache
def _ring(drum: Drum, part: str) -> Part:
    ring = next(ring for ring in RECIPES[drum].rings if ring.name == part)
    name = f"{drum.value.replace(' ', '-')}-{part}"
    return _clip(name, _heard(RECIPES[drum], ring.make(Chance(name))), ring.clip_format)


def _heard(recipe: Recipe, wave: Samples) -> Samples:
    return in_room(wave) if recipe.in_room else wave


def _clip(name: str, wave: Samples, kept_as: ClipFormat) -> Part:
    """The wave as a clip, and the gain at which that is as large as the wave."""
    kept = kept_as.at_its_rate(fade_out(wave[: count_of(kept_as.seconds)], kept_as.fades * kept_as.seconds))
    return Clip(name, stepped(kept, kept_as.bits), kept_as.rate), peak(kept) * PCM_SCALE / (2**kept_as.bits - 1)
