"""The previews of an exercise: a bar of click, then the pattern, at its first and at its last tempo."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

import numpy as np

from wristwork.pattern.model import Pattern
from wristwork.sound.encoding import decoded, encoded
from wristwork.sound.kit import Kit, KitVoice
from wristwork.sound.kit.voices import CLICK
from wristwork.sound.mixing import SoundStart, Waveform, mixed, sample_at, sound_starts
from wristwork.sound.peaks import HIGHEST_DBTP, decibels, safe, true_peak
from wristwork.sound.schedule import beat_seconds, count_in_beats, counted_tempo, pass_seconds, preview_names, schedule

# All in seconds. The silence before the first click is there so that nothing starts hard.
LEAD_IN = Fraction(1, 20)
SHORTEST_PLAYED = Fraction(8)
LEAST_PASSES = 2
LONGEST = Fraction(40)
LONGEST_COUNT_IN = LONGEST / 2
RING_OUT = Fraction(3, 2)
CUT_FADE = Fraction(3)
LEAST_FADE = Fraction(1, 20)

RETRY_STEP_DB = 0.4


@dataclass(frozen=True, slots=True)
class PreviewTimes:
    """When what happens in a preview, in seconds from its start.

    ``clicks`` clicks, one a beat, from :data:`LEAD_IN` on; ``passes`` passes from ``begins`` on; silence at ``ends``,
    after a fade that starts at ``fades``.
    """

    tempo: int
    clicks: int
    begins: Fraction
    passes: int
    fades: Fraction
    ends: Fraction


def preview_times(pattern: Pattern, tempo: int) -> PreviewTimes:
    """Whole passes for 8 seconds, at least two, with time to ring out; or as much as 40 seconds hold."""
    beat = beat_seconds(counted_tempo(pattern, tempo))
    # A bar that takes longer to count than half the preview is counted in by its last beats.
    clicks = min(count_in_beats(pattern), int(LONGEST_COUNT_IN / beat))
    begins = LEAD_IN + clicks * beat
    one_pass = pass_seconds(pattern, tempo)
    passes = max(LEAST_PASSES, ceil(SHORTEST_PLAYED / one_pass))
    played = begins + passes * one_pass
    if played > LONGEST:
        return PreviewTimes(tempo, clicks, begins, min(passes, ceil(LONGEST / one_pass)), LONGEST - CUT_FADE, LONGEST)
    ends = min(played + RING_OUT, LONGEST)
    return PreviewTimes(tempo, clicks, begins, passes, min(played, ends - LEAST_FADE), ends)


def preview_starts(pattern: Pattern, tempo: int) -> tuple[SoundStart, ...]:
    """Every click and stroke of a preview; those after its end as well."""
    times = preview_times(pattern, tempo)
    beat, time = beat_seconds(counted_tempo(pattern, tempo)), pattern.time
    accented = time.pulse_starts if time.pulses else {0}
    count_in = [
        SoundStart(
            sample_at(LEAD_IN + number * beat), KitVoice(CLICK, "high" if number % time.beats in accented else "low")
        )
        for number in range(times.clicks)
    ]
    return (*count_in, *sound_starts(schedule(pattern, tempo, times.passes), times.begins))


def preview(pattern: Pattern, tempo: int, kit: Kit) -> Waveform:
    """A preview at 44.1 kHz, mono, as loud as the kit is; sums may go above full scale."""
    times = preview_times(pattern, tempo)
    count = sample_at(times.ends)
    whole = mixed(preview_starts(pattern, tempo), kit, count)
    fading = count - sample_at(times.fades)
    whole[count - fading :] *= (0.5 + 0.5 * np.cos(np.linspace(0.0, np.pi, fading))).astype(np.float32)
    return whole


def preview_tempos(pattern: Pattern) -> dict[str, int]:
    """The preview files of a pattern and the tempo of each: one file where the tempos are the same."""
    return dict(zip(preview_names(pattern), (pattern.tempo.start, pattern.tempo.goal), strict=False))


def previews(pattern: Pattern, kit: Kit) -> dict[str, bytes]:
    """The preview files of a pattern, as MP3: as loud as the kit is, with no true peak above -1 dBTP."""
    return {name: _encoded(preview(pattern, tempo, kit)) for name, tempo in preview_tempos(pattern).items()}


def _encoded(wave: Waveform) -> bytes:
    """The wave as MP3. Encoding moves peaks a little, each time otherwise: what is decoded must keep the bound."""
    lower_db = 0.0
    while True:
        file = encoded(safe(wave, lower_db))
        if decibels(true_peak(decoded(file))) <= HIGHEST_DBTP:
            return file
        lower_db += RETRY_STEP_DB
