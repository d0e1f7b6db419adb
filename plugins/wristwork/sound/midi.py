"""Strokes → a Standard MIDI File.

One track, channel 10, General MIDI level 1 percussion keys. An empty bar stands first, so that a
grace note before beat 1 has somewhere to be. A buzz is one note that fills its value: the file says
what is written, and there is no key for a bouncing stick.
"""

from __future__ import annotations

import io
from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, lcm
from operator import itemgetter

from mido import Message, MetaMessage, MidiFile, MidiTrack

from wristwork.pattern.model import Drum, Level, Pattern, TimeSignature
from wristwork.pattern.pace import pace
from wristwork.sound.schedule import Onset, count_in_beats, pass_beats, schedule

CHANNEL = 9  # channel 10, counted from 0
KEYS = {drum: drum.row.key for drum in Drum}
VELOCITY_A_DB = 3
VELOCITIES = {Level.GHOST: 36, Level.TAP: 72, Level.ACCENT: 112}

# Ticks in a quarter note. 960 is exact for most patterns and what most programs expect; the format holds at most
# 32767. Where no such number is exact (sevenths against elevenths) the finest common grid of 1 to 12 slots is used.
USUAL_TICKS = 960
MOST_TICKS = 0x7FFF
FINEST_TICKS = lcm(*range(1, 13))


def midi_bytes(pattern: Pattern) -> bytes:
    """The whole pattern, all its repeats, at its starting tempo, as the bytes of a Standard MIDI File (format 0)."""
    onsets = schedule(pattern, pattern.tempo.start)
    grid = _Grid.of(pattern, onsets)
    file = MidiFile(type=0, ticks_per_beat=grid.ticks, charset="utf-8")
    file.tracks.append(_track(pattern, onsets, grid))
    written = io.BytesIO()
    file.save(file=written)
    return written.getvalue()


@dataclass(frozen=True, slots=True)
class _Grid:
    """``ticks`` to a quarter note; ``beat`` is the length of a beat in quarters."""

    ticks: int
    beat: Fraction

    @classmethod
    def of(cls, pattern: Pattern, onsets: tuple[Onset, ...]) -> _Grid:
        beat = quarters(pattern.time)
        lengths = [beat * pattern.time.beats]
        lengths += [beat * length for onset in onsets for length in (onset.stroke.at, onset.stroke.length)]
        return cls(ticks_for(length.denominator for length in lengths), beat)

    def tick(self, beats: Fraction) -> int:
        """The nearest tick to a moment ``beats`` after the start; only grace notes and the oddest groups round."""
        return round(beats * self.beat * self.ticks)


def quarters(time: TimeSignature) -> Fraction:
    """Length of a beat in quarter notes."""
    return 4 * time.beat


def ticks_for(denominators: Iterable[int]) -> int:
    """The ticks to a quarter that put every one of these parts of a quarter on a whole tick, where there are such."""
    needed = lcm(*set(denominators))
    if lcm(needed, USUAL_TICKS) <= MOST_TICKS:
        return lcm(needed, USUAL_TICKS)
    if needed <= MOST_TICKS:
        return needed * min(ceil(USUAL_TICKS / needed), MOST_TICKS // needed)
    return FINEST_TICKS


def velocity(onset: Onset) -> int:
    """How hard the key is struck, 1 to 127; drums that share a key tell themselves apart by it."""
    struck = VELOCITIES[onset.stroke.level] + onset.stroke.on.row.harder
    return max(1, min(127, struck + round(VELOCITY_A_DB * onset.stroke.louder_db)))


def _track(pattern: Pattern, onsets: tuple[Onset, ...], grid: _Grid) -> MidiTrack:
    track = MidiTrack([MetaMessage("track_name", name=pattern.title or "Example"), _time_signature(pattern.time)])
    bar = Fraction(count_in_beats(pattern))
    now = 0
    for tick, message in sorted([*_tempos(pattern, grid, bar), *_messages(onsets, grid, bar)], key=itemgetter(0)):
        track.append(message.copy(time=tick - now))
        now = tick
    end = grid.tick(bar + pass_beats(pattern))
    track.append(MetaMessage("end_of_track", time=end - now))
    return track


def _tempos(pattern: Pattern, grid: _Grid, bar: Fraction) -> Iterator[tuple[int, MetaMessage]]:
    """The tempo of the start, from the count-in on, and each that follows it."""
    passes = [number * pattern.played_beats for number in range(pattern.repeat)]
    spans = [(first + span.start, span.share) for first in passes for span in pace(pattern).spans]
    for number, (start, share) in enumerate(spans):
        if number and share == spans[number - 1][1]:
            continue
        tempo = round(60_000_000 / (pattern.tempo.start * share * grid.beat))
        yield grid.tick(bar + start) if number else 0, MetaMessage("set_tempo", tempo=tempo)


def _time_signature(time: TimeSignature) -> MetaMessage:
    """The signature, with one metronome click to a beat (a quarter is 24 MIDI clocks)."""
    return MetaMessage(
        "time_signature",
        numerator=time.upper,
        denominator=time.lower,
        clocks_per_click=round(24 * quarters(time)),
        notated_32nd_notes_per_beat=8,
    )


def _messages(onsets: tuple[Onset, ...], grid: _Grid, bar: Fraction) -> list[tuple[int, Message]]:
    """Note on and note off in order of time, at one tick the offs first.

    A note lasts as long as its stroke's value, but never into the next note of its key.
    """
    starts: dict[int, list[int]] = defaultdict(list)
    for onset in onsets:
        starts[KEYS[onset.stroke.on]].append(grid.tick(bar + onset.beat))
    ons: list[tuple[int, Message]] = []
    offs: list[tuple[int, Message]] = []
    for onset in onsets:
        key = KEYS[onset.stroke.on]
        start = grid.tick(bar + onset.beat)
        after = bisect_right(starts[key], start)
        end = min([max(start + 1, grid.tick(bar + onset.beat + onset.beats)), *starts[key][after : after + 1]])
        ons.append((start, Message("note_on", channel=CHANNEL, note=key, velocity=velocity(onset))))
        offs.append((end, Message("note_off", channel=CHANNEL, note=key, velocity=0)))
    return sorted([*offs, *ons], key=lambda timed: timed[0])
