"""Takes for the tests: patterns as somebody plays them, in a room, with words around them."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import numpy as np

from wristwork.pattern import Pattern
from wristwork.sound.kit import Kit
from wristwork.sound.kit.samples import RATE
from wristwork.sound.mixing import mixed, sound_starts
from wristwork.sound.schedule import pass_seconds, schedule
from wristwork.sound.take.hits import Hits

KIT = Kit()


def take(
    made: Pattern, tempo: int, passes: int, before: float = 1.0, off: float = 0.0, left_out: float = 0.0, noise=0.003
):
    """So many passes after ``before`` seconds; strokes are ``off`` seconds off in the mean, some are left out."""
    chance = np.random.default_rng(1)
    starts = [
        replace(each, sample=max(0, each.sample + round(chance.normal(0, off) * RATE)))
        for each in sound_starts(schedule(made, tempo, passes), Fraction(before).limit_denominator(1000))
        if chance.random() >= left_out
    ]
    count = round((before + float(pass_seconds(made, tempo)) * passes + 0.5) * RATE)
    return mixed(starts, KIT, count) + chance.normal(0, noise, count).astype(np.float32)


def speech(seconds: float):
    """What sounds like somebody talking: syllables of a voice that goes up and down."""
    chance, count = np.random.default_rng(3), round(seconds * RATE)
    moments, syllables, at = np.arange(count) / RATE, np.zeros(count), 0
    while at < count:
        length = round(chance.uniform(0.08, 0.3) * RATE)
        part = syllables[at : at + length]
        part += np.hanning(length)[: len(part)] * chance.uniform(0.3, 1)
        at += length + round(chance.uniform(0, 0.2) * RATE)
    phase = 2 * np.pi * np.cumsum(120 + 20 * np.sin(2 * np.pi * 0.7 * moments)) / RATE
    return (0.1 * syllables * sum(np.sin(part * phase) / part for part in range(1, 12))).astype(np.float32)


def struck(made: Pattern, tempo: float, passes: int, before: float, off=None) -> Hits:
    """What would be heard of so many passes, each stroke so far off, without a recording."""
    start = made.tempo.start
    onsets = [each for each in schedule(made, start, passes) if each.stroke.ahead_ms is None]
    at = np.array([before + float(each.starts_s) * start / tempo for each in onsets])
    loud = np.array([{"ghost": -40.0, "tap": -30.0, "accent": -18.0}[each.stroke.level] for each in onsets])
    moved = at if off is None else at + np.resize(np.asarray(off), len(at))
    order = np.argsort(moved)
    return Hits(moved[order], loud[order])
