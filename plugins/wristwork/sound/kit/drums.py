"""Drums with heads: snare drum, rim shot, toms, kick; and what is struck or swept on the snare drum."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from wristwork.sound.kit.chance import Chance
from wristwork.sound.kit.heads import DrumHead
from wristwork.sound.kit.samples import Samples, count_of, decay, fade_out, mix, push
from wristwork.sound.kit.tables import Table, bands, table
from wristwork.sound.kit.texture import Blow, Grain, texture

Maker = Callable[[Blow, Chance], Samples]

HIGH_TOM = DrumHead(137.0, 1.3, 0.45, 0.13, 0.045, 0.27, 1.5, 5.2, 1.9)
MID_TOM = DrumHead(112.0, 1.6, 0.45, 0.13, 0.045, 0.27, 1.5, 6.2, 1.9)
LOW_TOM = DrumHead(95.0, 1.75, 0.45, 0.13, 0.045, 0.27, 1.5, 6.8, 1.9)
FLOOR_TOM = DrumHead(80.0, 1.9, 0.45, 0.13, 0.045, 0.27, 1.5, 7.5, 1.9)
SNARE = DrumHead(186.0, 0.42, 0.95, 0.05, 0.03, 0.3, 0.5, 4.0, 1.65, 0.004)
# The same drum, struck nearer to its middle; the rim stops the stick at once.
RIM_SHOT = replace(SNARE, t60=0.42, upper=0.7, struck=0.24, push=0.0006)
KICK = DrumHead(60.0, 0.42, 0.8, 0.55, 0.03, 0.1, 3.0, 5.0, 1.8, 0.02)

TOM_STRIKE = 0.4
TOM_HANDS_OVER = 0.18  # from here on the ring that all strokes share takes over
TOM_RING = 1.6


def struck(head: DrumHead, fitted: Table, grain: Grain, seconds: float) -> Maker:
    """A head with modes up to where they lie too close to be told apart, and a texture above."""
    dense = int(np.argmin(np.abs(np.log2(bands() / (head.highest * head.hertz))))) + 1

    def make(blow: Blow, chance: Chance) -> Samples:
        above = texture(fitted, blow, grain, chance, seconds, slice(dense, None))
        return mix(head.sound(fitted, blow, chance, seconds), *above)

    return make


def tom(head: DrumHead, fitted: Table) -> Maker:
    """A tom's strike, without the end of its ring."""
    whole = struck(head, fitted, Grain("tom"), TOM_STRIKE)

    def make(blow: Blow, chance: Chance) -> Samples:
        return fade_out(whole(blow, chance), TOM_STRIKE - TOM_HANDS_OVER)

    return make


def tom_ring(head: DrumHead) -> Samples:
    """What rings on of a tom once the stroke is over, at an energy of 1."""
    return head.ring(TOM_RING, TOM_HANDS_OVER, TOM_STRIKE)


# Wires lie against the head at every effort: accents make them no brighter.
snare = struck(SNARE, table("snare").steady(0.1), Grain("snare"), 0.55)
rim_shot = struck(RIM_SHOT, table("rim shot"), Grain("rim shot", 0.15, 4), 0.55)
# The knock of the beater has to reach a phone's loudspeaker.
kick = struck(KICK, table("kick").raised(450.0, 6500.0, 7.0), Grain("kick"), 0.5)

SWEEP_SECONDS = 0.28


def brush_sweep(blow: Blow, chance: Chance) -> Samples:
    """The wires of a brush drawn over the head: a hiss that swells and goes, with the drum hardly in it."""
    count = count_of(SWEEP_SECONDS)
    top = 6500.0 + 2500.0 * blow.effort + 3000.0 * blow.tilt
    hiss = chance.noise(count, 900.0, top, order=1)
    return hiss * push(count, 0.06) * decay(count, 0.55)
