"""The bytes of a Standard MIDI File → what is struck on drums and when, as it is recorded, and its tempos and bars."""

from __future__ import annotations

import io
import struct
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate
from typing import NamedTuple

from mido import Message, MetaMessage, MidiFile
from mido.midifiles.meta import KeySignatureError

from wristwork.exchange.incoming.drums import drum_of_key
from wristwork.exchange.incoming.strikes import Remarks
from wristwork.exchange.incoming.unreadable import Unreadable
from wristwork.languages.say import say, say_count
from wristwork.pattern.drums import Drum
from wristwork.pattern.model import TimeSignature
from wristwork.pattern.settings import LOWER, MOST_UPPER

MOST_BYTES = 4 * 1024 * 1024
DRUMS = 9  # channel 10, counted from 0
_USUAL_TEMPO = 500_000  # microseconds a quarter, where a file says nothing
_BROKEN = (EOFError, OSError, ValueError, IndexError, KeyError, TypeError, OverflowError, struct.error,
           KeySignatureError)  # fmt: skip


class Hit(NamedTuple):
    """A drum that is struck, ``at`` quarters from the start, so hard (1 to 127)."""

    at: Fraction
    on: Drum
    velocity: int


class TempoChange(NamedTuple):
    """From ``at`` quarters on, a quarter lasts so many microseconds; ``seconds`` have gone by until there."""

    at: Fraction
    microseconds: int
    seconds: float


@dataclass(frozen=True)
class Recorded:
    """What a file holds. ``times`` are its signatures and where (in quarters) each begins."""

    title: str
    tick: Fraction
    hits: tuple[Hit, ...]
    tempos: tuple[TempoChange, ...]
    times: tuple[tuple[Fraction, TimeSignature], ...]

    def seconds(self, at: Fraction) -> float:
        """When something sounds, in seconds from the start."""
        tempo = self.tempo_at(at)
        return tempo.seconds + float(at - tempo.at) * tempo.microseconds / 1e6

    def tempo_at(self, at: Fraction) -> TempoChange:
        """The tempo at a moment."""
        return self.tempos[max(0, bisect_right(self.tempos, at, key=lambda tempo: tempo.at) - 1)]


def recorded(data: bytes, title: str, remarks: Remarks) -> Recorded:
    """Read a file of format 0 or 1. Raises :class:`Unreadable`."""
    if len(data) > MOST_BYTES:
        found = say("more than {most} MB of MIDI", most=MOST_BYTES // 1024 // 1024)
        raise Unreadable(found, say("save a part of it by itself"))
    try:
        file = MidiFile(file=io.BytesIO(data), clip=True, charset="latin-1")
    except _BROKEN as error:
        raise Unreadable(say("a broken MIDI file"), say("save it again")) from error
    if file.ticks_per_beat <= 0:
        raise Unreadable(say("a MIDI file that counts frames of film, not beats"), say("save it with beats"))
    if file.type == 2:
        remarks.leave_out(say("all tracks but the first, which are songs of their own (format 2)"))
    tracks = file.tracks[:1] if file.type == 2 else file.tracks
    tick = Fraction(1, file.ticks_per_beat)
    timed = sorted(((ticks * tick, message) for track in tracks for ticks, message in _timed(track)), key=_moment)
    name = next((track.name for track in tracks if track.name.strip()), "")
    return Recorded(
        name or title,
        tick,
        tuple(_hits(timed, remarks)),
        tuple(_tempos(timed)),
        tuple(_times(timed, remarks)),
    )


_Timed = tuple[Fraction, Message | MetaMessage]


def _moment(timed: _Timed) -> Fraction:
    return timed[0]


def _timed(track: Sequence[Message | MetaMessage]) -> Iterator[tuple[int, Message | MetaMessage]]:
    return zip(accumulate(message.time for message in track), track, strict=True)


def _hits(timed: Sequence[_Timed], remarks: Remarks) -> Iterator[Hit]:
    struck = [(at, message) for at, message in timed if message.type == "note_on" and message.velocity > 0]
    on_drums = [(at, message) for at, message in struck if message.channel == DRUMS]
    if struck and not on_drums:
        remarks.tell(say("nothing on channel 10, which is that of drums: all channels are read as drums"))
        on_drums = struck
    if others := len(struck) - len(on_drums):
        remarks.leave_out(
            say_count(
                "{count} note on channels that are not for drums",
                "{count} notes on channels that are not for drums",
                others,
            )
        )
    for at, message in on_drums:
        drum = drum_of_key(message.note)
        if drum is None:
            remarks.leave_out(say("key {key}, which is no drum that is known here", key=message.note))
        else:
            yield Hit(at, drum, message.velocity)


def _tempos(timed: Sequence[_Timed]) -> Iterator[TempoChange]:
    before = TempoChange(Fraction(0), _USUAL_TEMPO, 0.0)
    yield before
    for at, message in timed:
        if message.type == "set_tempo" and message.tempo > 0:
            seconds = before.seconds + float(at - before.at) * before.microseconds / 1e6
            before = TempoChange(at, message.tempo, seconds)
            yield before


def _times(timed: Sequence[_Timed], remarks: Remarks) -> Iterator[tuple[Fraction, TimeSignature]]:
    found = [(Fraction(0), TimeSignature(4, 4))]
    for at, message in timed:
        if message.type != "time_signature":
            continue
        time = TimeSignature(message.numerator, message.denominator)
        if time.lower not in LOWER or not 1 <= time.upper <= MOST_UPPER:
            remarks.leave_out(say("the time signature {time}", time=time))
        elif time != found[-1][1]:
            found = [each for each in found if each[0] < at] + [(at, time)]
    return iter(found)
