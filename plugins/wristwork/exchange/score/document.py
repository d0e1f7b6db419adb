"""The whole score: its head, its instruments, its bars."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import lcm
from xml.etree.ElementTree import Element, indent, tostring

from wristwork.drawing.score import Score, read_score
from wristwork.exchange.score.bar_lines import BarLines
from wristwork.exchange.score.directions import Direction, directions
from wristwork.exchange.score.elements import add
from wristwork.exchange.score.fields import fields
from wristwork.exchange.score.ink import Ink, read_ink
from wristwork.exchange.score.notes import NoteWriter
from wristwork.exchange.vocabulary import PART, QUARTER, instrument_id
from wristwork.pattern.model import Drum, Pattern

VERSION = "4.0"
_HEAD = (
    '<?xml version="1.0" encoding="UTF-8"?>\n'
    '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" '
    '"http://www.musicxml.org/dtds/partwise.dtd">\n'
)
_CHANNEL = 10


def score_bytes(pattern: Pattern) -> bytes:
    """A pattern as a score in MusicXML 4.0: the bars as they are written, with their repeats, at the starting tempo."""
    root = Element("score-partwise", version=VERSION)
    add(root, "movement-title", pattern.title or "Example")
    identification = add(root, "identification")
    add(add(identification, "encoding"), "software", "Wristwork")
    kept = add(identification, "miscellaneous")
    for name, said in fields(pattern):
        add(kept, "miscellaneous-field", said, name=name)
    score = read_score(replace(pattern, same=()))
    _part_list(root, score)
    part = add(root, "part", id=PART)
    _Bars(pattern, score).write(part)
    indent(root, space="")
    return f"{_HEAD}{tostring(root, encoding='unicode')}\n".encode()


def _part_list(root: Element, score: Score) -> None:
    """The drums as instruments of one part; a program counts the keys of MIDI from 1."""
    struck = {stroke.on for stroke in score.strokes} or {Drum.PAD}
    drums = [drum for drum in Drum if drum in struck]
    part = add(add(root, "part-list"), "score-part", id=PART)
    add(part, "part-name", "Drums")
    for drum in drums:
        add(add(part, "score-instrument", id=instrument_id(drum)), "instrument-name", drum.value)
    for drum in drums:
        instrument = add(part, "midi-instrument", id=instrument_id(drum))
        add(instrument, "midi-channel", _CHANNEL)
        add(instrument, "midi-unpitched", drum.row.key + 1)


@dataclass(frozen=True)
class _Bars:
    """Writes the bars of a score."""

    pattern: Pattern
    score: Score

    def write(self, part: Element) -> None:
        lines = BarLines(self.pattern, self.score)
        for number, (start, end) in enumerate(self._bounds, 1 - self.pattern.bars_before_1):
            bar = add(part, "measure", number=number)
            if number == 0:
                bar.set("implicit", "yes")
            lines.left(bar, number)
            self._attributes(bar, start)
            for voice, writer in enumerate(self._writers):
                if voice:
                    add(add(bar, "backup"), "duration", writer.duration(Fraction(end - start)))
                self._voice(bar, writer, start, end, with_directions=not voice)
            lines.right(bar, number)

    @cached_property
    def _bounds(self) -> list[tuple[int, int]]:
        """From which beat to which each bar goes: the first may be a pick-up, the last cut short."""
        drawn, beats = self.pattern.drawn, self.score.time.beats
        bars = range(drawn.start // beats * beats, drawn.end, beats)
        return [(max(start, drawn.start), min(start + beats, drawn.end)) for start in bars]

    @cached_property
    def _directions(self) -> list[Direction]:
        return directions(self.pattern)

    @cached_property
    def _inks(self) -> list[Ink]:
        of_hands, of_feet = self.pattern.hands is not None, self.score.line is None and self.pattern.feet is not None
        hands = [read_ink(cut.hands for cut in self.score.cuts)] if of_hands else []
        return [*hands, read_ink(cut.feet for cut in self.score.cuts)] if of_feet else hands

    @cached_property
    def _writers(self) -> Sequence[NoteWriter]:
        first = 1 if self.pattern.hands is not None else 2
        joint = self.score.line is not None
        return [
            NoteWriter(ink, first + number, self._beat, self._divisions, self.score.one_surface, joint)
            for number, ink in enumerate(self._inks)
        ]

    @property
    def _beat(self) -> Fraction:
        return self.score.time.beat

    @cached_property
    def _divisions(self) -> int:
        """The parts of a quarter of which everything is whole ones."""
        moments = [piece for ink in self._inks for each in ink.written for piece in (each.piece.at, each.piece.length)]
        moments += [direction.at for direction in self._directions]
        return lcm(*((moment * self._beat / QUARTER).denominator for moment in moments))

    @cached_property
    def _signs(self) -> dict[int, tuple[str, int]]:
        """By beat, the bars as before that a sign stands for from there on, or that no more do."""
        found: dict[int, tuple[str, int]] = {}
        for cut in read_score(self.pattern).cuts if self.pattern.same else ():
            if cut.same:
                found |= {cut.start: ("start", cut.same), cut.end: ("stop", cut.same)}
        return found

    def _attributes(self, bar: Element, start: int) -> None:
        is_first, sign = start == self.pattern.drawn.start, self._signs.get(start)
        if not is_first and sign is None:
            return
        attributes = add(bar, "attributes")
        if is_first:
            self._first_attributes(attributes)
        if sign is not None:
            kind, bars = sign
            add(add(attributes, "measure-style"), "measure-repeat", bars, type=kind)

    def _first_attributes(self, attributes: Element) -> None:
        add(attributes, "divisions", self._divisions)
        time = add(attributes, "time")
        add(time, "beats", self.score.time.upper)
        add(time, "beat-type", self.score.time.lower)
        clef = add(attributes, "clef")
        add(clef, "sign", "percussion")
        add(clef, "line", 2)
        if self.score.one_surface:
            add(add(attributes, "staff-details"), "staff-lines", 1)

    def _voice(self, bar: Element, writer: NoteWriter, start: int, end: int, with_directions: bool) -> None:
        written = [each for each in writer.ink.written if start <= each.piece.at < end]
        for each in written:
            for direction in self._standing_at(each.piece.at, each.piece.end) if with_directions else ():
                bar.append(direction.written(writer.duration(direction.at - each.piece.at)))
            writer.write(bar, each)

    def _standing_at(self, start: Fraction, end: Fraction) -> Iterator[Direction]:
        return (direction for direction in self._directions if start <= direction.at < end)
