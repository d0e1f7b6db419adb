"""Made takes: what a microphone might hear of strokes on surfaces of their own making, and what was really played.

None of this is the course's kit: surfaces are sums of decaying tones and bands of noise, so that what finds strokes is
not tried on the sounds it comes with.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Samples = NDArray[np.float64]

RING_S = 0.5
LEVEL_S = 0.02
FULL = 0.05
WITHIN_S = 0.01
PHONE_HZ = (300.0, 3400.0)
# Decibels under an accent.
MEANT_DB = {"accent": 0.0, "tap": -10.0, "ghost": -17.0, "grace": -13.0}


@dataclass(frozen=True)
class Surface:
    """``modes``: hertz, gain, seconds to fall 60 dB; ``noises``: hertz from and to, gain, the same seconds.

    ``rise`` is in seconds.
    """

    modes: tuple[tuple[float, float, float], ...]
    noises: tuple[tuple[float, float, float, float], ...]
    rise: float


SURFACES = {
    "pad": Surface(
        ((310, 1, 0.05), (520, 0.8, 0.04), (860, 0.6, 0.03), (1450, 0.4, 0.02), (2300, 0.25, 0.012)),
        ((900, 9000, 0.9, 0.012),),
        0.0006,
    ),
    "table": Surface(
        (
            *((142, 0.6, 0.16), (233, 0.8, 0.2), (391, 1, 0.14), (612, 0.8, 0.1)),
            *((957, 0.7, 0.09), (1710, 0.5, 0.05), (2630, 0.35, 0.03)),
        ),
        ((1500, 10000, 0.6, 0.01),),
        0.0004,
    ),
    "cushion": Surface(
        ((95, 1, 0.08), (140, 0.9, 0.07), (210, 0.6, 0.05), (330, 0.35, 0.03), (560, 0.12, 0.02)),
        ((200, 1800, 0.35, 0.03),),
        0.003,
    ),
    "snare": Surface(
        ((186, 1, 0.35), (287, 0.5, 0.22), (335, 0.7, 0.25), (478, 0.4, 0.18), (640, 0.3, 0.14)),
        ((900, 11000, 0.8, 0.28), (2500, 11000, 0.5, 0.06)),
        0.0012,
    ),
}


@dataclass(frozen=True)
class Stroke:
    """A stroke that was played: when, in seconds, and how loud, in decibels under an accent."""

    time: float
    level: float
    is_right: bool


@dataclass(frozen=True)
class Room:
    """Where a take is heard: ``snr`` decibels of a tap over the noise, seconds of reverberation, a phone's narrow band.

    ``clicks`` are times and whether they are high, at ``click_db`` against an accent.
    """

    snr: float = 30.0
    reverb: float = 0.0
    is_phone: bool = False
    clicks: Sequence[tuple[float, bool]] = ()
    click_db: float = -6.0
    rate: int = 48_000


def take(rng: np.random.Generator, strokes: Iterable[Stroke], surface: Surface, room: Room) -> NDArray[np.float32]:
    """The samples that a microphone gives, from 0 s until shortly after the last stroke."""
    played = list(strokes)
    rate = room.rate
    count = int((max(stroke.time for stroke in played) + 0.8) * rate)
    sound = np.zeros(count + rate)
    for stroke in played:
        _add(sound, stroke.time * rate, _stroke(rng, stroke, surface, rate))
    for time, is_high in room.clicks:
        _add(sound, time * rate, 1.5 * 10 ** (room.click_db / 20) * _click(is_high, rate))
    if room.reverb:
        sound = _convolved(sound, _echoes(rng, room.reverb, rate))
    sound = sound[:count] + _pink(rng, count, rate) * 10 ** ((MEANT_DB["tap"] - room.snr) / 20)
    if room.is_phone:
        sound = _in_band(sound, *PHONE_HZ, rate, order=6)
    return (sound * FULL).astype(np.float32)


def _add(sound: Samples, at: float, part: Samples) -> None:
    """Between two samples a share of it goes to each."""
    whole = int(at)
    share = at - whole
    sound[whole : whole + len(part)] += (1 - share) * part
    sound[whole + 1 : whole + 1 + len(part)] += share * part


def _stroke(rng: np.random.Generator, stroke: Stroke, surface: Surface, rate: int) -> Samples:
    time = np.arange(int(rate * RING_S)) / rate
    detuned = (1.02 if stroke.is_right else 0.98) + rng.normal(0, 0.004)
    sound = np.zeros_like(time)
    for hertz, gain, t60 in surface.modes:
        own = gain * 10 ** (rng.normal(0, 0.8) / 20)
        sound += own * np.sin(2 * np.pi * hertz * detuned * time + rng.uniform(-0.4, 0.4)) * _fall(time, t60)
    brightness = max(0.25, 1 + 0.04 * stroke.level)  # softer strokes are duller
    for low, high, gain, t60 in surface.noises:
        noise = _in_band(rng.standard_normal(len(time)), low, min(high, rate * 0.45), rate, order=3)
        sound += brightness * gain * noise / np.sqrt(np.mean(noise**2)) * _fall(time, t60)
    risen = np.clip(time / surface.rise, 0, 1)
    sound *= risen * risen * (3 - 2 * risen)
    first = sound[: int(LEVEL_S * rate)]
    return sound / np.sqrt(np.mean(first**2)) * 10 ** (stroke.level / 20)


def _fall(time: Samples, t60: float) -> Samples:
    return 10 ** (-3 * time / t60)


def _in_band(sound: Samples, low: float, high: float, rate: int, order: int) -> Samples:
    """Butterworth slopes at both ends, without a change of phase."""
    spectrum = np.fft.rfft(sound)
    hertz = np.fft.rfftfreq(len(sound), 1 / rate)
    passed = 1 / (1 + (low / np.maximum(hertz, 1)) ** (2 * order)) / (1 + (hertz / high) ** (2 * order))
    return np.fft.irfft(spectrum * np.sqrt(passed), len(sound))


def _pink(rng: np.random.Generator, count: int, rate: int) -> Samples:
    spectrum = np.fft.rfft(rng.standard_normal(count))
    hertz = np.fft.rfftfreq(count, 1 / rate)
    noise = np.fft.irfft(spectrum / np.sqrt(np.maximum(hertz, 40)), count)
    return noise / np.sqrt(np.mean(noise**2))


def _echoes(rng: np.random.Generator, t60: float, rate: int) -> Samples:
    """The direct sound, a few early reflections, and a tail 6 dB under it."""
    time = np.arange(int(rate * t60)) / rate
    tail = rng.standard_normal(len(time)) * _fall(time, t60)
    tail[: int(0.012 * rate)] = 0
    tail *= 10 ** (-6 / 20) / np.sqrt(np.sum(tail**2))
    tail[0] = 1
    for _ in range(5):
        after = rng.uniform(0.002, 0.03)
        tail[int(after * rate)] += rng.choice([-1, 1]) * 0.85 * 0.8 / (0.8 + 343 * after)
    return tail


def _convolved(sound: Samples, response: Samples) -> Samples:
    size = len(sound) + len(response)
    return np.fft.irfft(np.fft.rfft(sound, size) * np.fft.rfft(response, size), size)[: len(sound)]


def _click(is_high: bool, rate: int) -> Samples:
    """The course's click as a loudspeaker gives it: its two pitches stand in the handbook's page on sound."""
    time = np.arange(int(0.06 * rate)) / rate
    hertz = 5150.0 if is_high else 4100.0
    sound = np.sin(2 * np.pi * hertz * time) * _fall(time, 0.05)
    sound += 0.5 * np.sin(2 * np.pi * 1.01 * hertz * time) * _fall(time, 0.04)
    return sound * np.clip(time / 0.0006, 0, 1)


def matched(found: Sequence[tuple[float, float]], strokes: Sequence[Stroke]) -> list[tuple[int, int]]:
    """Pairs of a found stroke (time, level) and a played one within 10 ms, once the device's own delay is taken off."""
    delay = _nearest_delay(found, strokes)
    pairs = []
    free = set(range(len(found)))
    for place, stroke in enumerate(strokes):
        near = [index for index in free if abs(found[index][0] - delay - stroke.time) < WITHIN_S]
        if near:
            best = min(near, key=lambda index: abs(found[index][0] - delay - stroke.time))
            free.remove(best)
            pairs.append((best, place))
    return pairs


def _nearest_delay(found: Sequence[tuple[float, float]], strokes: Sequence[Stroke]) -> float:
    apart = [min((time - stroke.time for time, _ in found), key=abs, default=0.0) for stroke in strokes]
    return float(np.median([delay for delay in apart if abs(delay) < WITHIN_S] or [0.0]))
