"""The made kit: every voice's sounds, each made when it is first asked for.

A sound is made as the browser gets it, at a rate and in steps no finer than is heard, so that the audio files and the
player have one sound.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np

from wristwork.pattern.model import Drum, Level
from wristwork.sound.kit import blocks
from wristwork.sound.kit.chance import Chance
from wristwork.sound.kit.drums import Maker
from wristwork.sound.kit.recipes import CLICK_CUT, RECIPES, Cut, Recipe, Ring
from wristwork.sound.kit.room import in_room
from wristwork.sound.kit.samples import RATE, Samples, count_of, fade_out, gain_of, loudest_db, peak, stepped
from wristwork.sound.kit.texture import Blow
from wristwork.sound.kit.voices import CLICK, PCM_SCALE, Clip, Sound, Voice, level_db

Part = tuple[Clip, float]

VARIANTS = 4

# How the hands differ: the right one strikes so much of the radius further out, and its sounds are so much brighter
# than the middle; the left one as much the other way.
HAND_PLACE = 0.02
HAND_BRIGHTER = 0.02

# Which way round the rings of a cymbal go in each variant: no two strokes in a row add up to a tone.
RING_SIGNS = ((1, 1), (1, -1), (-1, 1), (-1, -1))

TRIAL_TILT = 0.4
MOST_TILT = 2.0
FADE_SHARE = 0.2  # no sound ends in a step


@cache
def made_sounds(voice: Voice) -> tuple[Sound, ...]:
    """The made sounds of a voice, right hand and left hand in turn: the same every time, on every machine."""
    if voice.place == CLICK:
        return (_at_level(voice, [(_clip(f"click-{voice.level}-1", blocks.click(voice.level), CLICK_CUT), 1.0)]),)
    drum, level = Drum(voice.place), Level(voice.level)
    recipe = RECIPES[drum]
    effort = recipe.efforts.of(level)
    rings = [(_ring(drum, ring), ring.share(effort)) for ring in recipe.rings]
    found = []
    for strike, signs in zip(_strikes(drum, recipe.made_as(level)), RING_SIGNS, strict=True):
        shares = [share * (sign if recipe.ring_turns else 1) for sign, (_, share) in zip(signs, rings, strict=False)]
        parts = [(strike, recipe.strike_share(effort)), *zip((ring for ring, _ in rings), shares, strict=True)]
        found.append(_at_level(voice, parts))
    return tuple(found)


def _at_level(voice: Voice, parts: list[tuple[Part, float]]) -> Sound:
    """The parts, each at its share, together as loud as their voice is."""
    unscaled = Sound(tuple((clip, gain * share) for (clip, gain), share in parts))
    scale = gain_of(level_db(voice) - loudest_db(unscaled.samples))
    return Sound(tuple((clip, float(gain * scale)) for clip, gain in unscaled.parts))


@cache
def _strikes(drum: Drum, level: Level) -> tuple[Part, ...]:
    """The strikes that this level and all that share its effort take."""
    recipe = RECIPES[drum]
    middle = _middle(drum, level)
    stem = f"{drum.value.replace(' ', '-')}-{level}"
    found = []
    for number in range(VARIANTS):
        side = 1 if number % 2 == 0 else -1
        chance_name = f"{drum} {level} {number}"
        stretch = 2 * number / (VARIANTS - 1) - 1
        blow = Blow(recipe.efforts.of(level), side * HAND_PLACE, stretch=stretch)
        wave = _as_bright(recipe.strike, blow, chance_name, middle * (1 + side * HAND_BRIGHTER))
        found.append(_clip(f"{stem}-{number + 1}", _heard(recipe, wave), recipe.cut))
    return tuple(found)


def _middle(drum: Drum, level: Level) -> float:
    """The brightness about which a drum's strikes lie, in hertz."""
    recipe = RECIPES[drum]
    blow = Blow(recipe.efforts.of(level))
    made = [recipe.strike(blow, Chance(f"{drum} {level} {number}")) for number in range(VARIANTS)]
    return float(np.exp(np.mean([np.log(brightness(wave)) for wave in made])))


def _as_bright(make: Maker, blow: Blow, chance_name: str, hertz: float) -> Samples:
    """The stroke with its tilt set so that it is as bright as it should be."""
    level, tilted = (
        np.log(brightness(make(replace(blow, tilt=tilt), Chance(chance_name)))) for tilt in (0.0, TRIAL_TILT)
    )
    tilt = float(np.clip(TRIAL_TILT * (np.log(hertz) - level) / (tilted - level), -MOST_TILT, MOST_TILT))
    return make(replace(blow, tilt=tilt), Chance(chance_name))


def brightness(wave: Samples) -> float:
    """The middle of a sound's spectrum: the mean frequency in hertz, weighted by energy."""
    energy = np.abs(np.fft.rfft(wave)) ** 2
    return float((np.fft.rfftfreq(len(wave), 1 / RATE) * energy).sum() / energy.sum())


@cache
def _ring(drum: Drum, ring: Ring) -> Part:
    name = f"{drum.value.replace(' ', '-')}-{ring.name}"
    return _clip(name, _heard(RECIPES[drum], ring.make(Chance(name))), ring.cut)


def _heard(recipe: Recipe, wave: Samples) -> Samples:
    return in_room(wave) if recipe.in_room else wave


def _clip(name: str, wave: Samples, cut: Cut) -> Part:
    """The wave as a clip, and the gain at which that is as large as the wave."""
    kept = cut.at_its_rate(fade_out(wave[: count_of(cut.seconds)], FADE_SHARE * cut.seconds))
    return Clip(name, stepped(kept, cut.bits), cut.rate), peak(kept) * PCM_SCALE / (2**cut.bits - 1)
