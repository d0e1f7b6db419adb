"""Strokes in time and a kit → one waveform."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from wristwork.pattern.model import Drum
from wristwork.sound.kit import Kit, KitVoice, voice_of
from wristwork.sound.kit.samples import RATE, gain_of
from wristwork.sound.kit.voices import CHOKE_SECONDS, CHOKES, sound_in_turn
from wristwork.sound.schedule import Onset, bounces
from wristwork.technique.strokes import Kind

Waveform = NDArray[np.float32]

_CHOKE_SAMPLES = round(CHOKE_SECONDS * RATE)
_CHOKERS = {
    choked.value: {drum.value for drum, all_choked in CHOKES.items() if choked in all_choked}
    for choked in Drum
    if any(choked in all_choked for all_choked in CHOKES.values())
}


@dataclass(frozen=True, slots=True)
class SoundStart:
    """One sound to start: at which sample, of which voice, how loud (a factor), with which hand if it is one."""

    sample: int
    voice: KitVoice
    gain: float = 1.0
    hand: str | None = None


def sample_at(seconds: Fraction) -> int:
    """The sample nearest to a moment."""
    return round(seconds * RATE)


def sound_starts(onsets: Iterable[Onset], start: Fraction) -> Iterator[SoundStart]:
    """The sounds of strokes whose first beat is at ``start`` seconds; a buzz is a run of them."""
    for onset in onsets:
        voice = voice_of(onset.stroke.on, onset.stroke.level)
        gain = gain_of(onset.stroke.louder_db)
        hand = onset.stroke.limb.split()[0] if onset.stroke.limb.is_hand else None
        if onset.stroke.kind is Kind.BUZZ:
            first = start + onset.starts_s
            for bounce in bounces(float(onset.lasts_s)):
                yield SoundStart(sample_at(first + Fraction(bounce.after)), voice, bounce.gain * gain, hand)
        else:
            yield SoundStart(sample_at(start + onset.starts_s), voice, gain, hand)


def mixed(played: Sequence[SoundStart], kit: Kit, count: int) -> Waveform:
    """``count`` samples in which every one sounds, from exactly its own sample on.

    A voice's sounds are taken in turn, by each hand its own. What a later one chokes dies within
    :data:`CHOKE_SECONDS`. What would sound after the end is left out.
    """
    whole = np.zeros(count, np.float32)
    turn: Counter[KitVoice] = Counter()
    hand_turn: Counter[tuple[KitVoice, str | None]] = Counter()
    for each in sorted(played, key=lambda each: each.sample):
        sounds = kit.sounds(each.voice)
        struck = each.voice, each.hand
        wave = sounds[sound_in_turn(len(sounds), turn[each.voice], hand_turn[struck], each.hand)].samples
        turn[each.voice] += 1
        hand_turn[struck] += 1
        if each.voice.instrument in _CHOKERS:
            wave = _choked(wave, each, played)
        wave = wave[: max(0, count - each.sample)]
        whole[each.sample : each.sample + len(wave)] += wave * np.float32(each.gain)
    return whole


def _choked(wave: Waveform, each: SoundStart, played: Sequence[SoundStart]) -> Waveform:
    """The sound up to the first later one that chokes it."""
    chokers = _CHOKERS[each.voice.instrument]
    later = [other.sample for other in played if other.sample > each.sample and other.voice.instrument in chokers]
    if not later:
        return wave
    stop = min(later) - each.sample
    ended = wave[: stop + _CHOKE_SAMPLES].copy()
    ended[stop:] *= np.linspace(1.0, 0.0, _CHOKE_SAMPLES, dtype=np.float32)[: max(0, len(ended) - stop)] ** 2
    return ended
