"""An exercise as a film for a message."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

import numpy as np

from wristwork.look.letters import Letters
from wristwork.pattern.model import Pattern
from wristwork.site.film.encoding import decoded, mp4
from wristwork.site.film.layout import SQUARE, FilmWords, Shape
from wristwork.site.film.pictures import Pictures
from wristwork.site.film.press import FilmPress
from wristwork.site.film.timing import FRAMES_PER_SECOND, LEAD_IN, FilmTimes, film_times
from wristwork.sound.kit import Kit, KitVoice
from wristwork.sound.kit.voices import CLICK
from wristwork.sound.mixing import SoundStart, Waveform, mixed, sample_at, sound_starts
from wristwork.sound.peaks import safe
from wristwork.sound.schedule import beat_seconds, counted_tempo, schedule

_FADE = Fraction(3, 5)  # seconds, where the music is cut


def clip(
    pattern: Pattern,
    words: FilmWords,
    kit: Kit,
    colours: Mapping[str, str],
    letters: Letters | None = None,
    shape: Shape = SQUARE,
) -> bytes:
    """The film as an MP4 file. Raises :class:`~wristwork.site.audio.codecs.NoCodecs` where nothing can make it."""
    times = film_times(pattern)
    press = FilmPress(colours, decoded, letters)
    pictures = Pictures(pattern, words, times, shape, press, dict(colours))
    return mp4(iter(pictures), film_sound(pattern, times, kit), FRAMES_PER_SECOND)


def film_sound(pattern: Pattern, times: FilmTimes, kit: Kit) -> Waveform:
    """What is heard, at 44.1 kHz: the clicks, then the strokes until the address comes, which ring out below it."""
    beat, time = beat_seconds(counted_tempo(pattern, times.tempo)), pattern.time
    accented = time.pulse_starts if time.pulses else {0}
    clicks = [
        SoundStart(
            sample_at(LEAD_IN + number * beat), KitVoice(CLICK, "high" if number % time.beats in accented else "low")
        )
        for number in range(times.clicks)
    ]
    last = sample_at(times.closes)
    played = [
        start
        for start in sound_starts(schedule(pattern, times.tempo, times.passes), times.begins)
        if start.sample < last
    ]
    count = sample_at(times.ends)
    wave = mixed((*clicks, *played), kit, count)
    fading = sample_at(times.ends - times.closes) if times.is_whole else sample_at(_FADE)
    from_ = last if times.is_whole else last - fading
    wave[from_ : from_ + fading] *= np.linspace(1.0, 0.0, fading, dtype=np.float32) ** 2
    wave[from_ + fading :] = 0
    return safe(wave)
