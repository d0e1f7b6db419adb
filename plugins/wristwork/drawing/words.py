"""The diagram in words, beat by beat, for ears and for readers who want to check what they see."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from wristwork.drawing.score import read_score
from wristwork.drawing.svg import escape
from wristwork.drawing.tempo_mark import tempo_words
from wristwork.pattern.model import Drum, Event, Gap, Group, Lane, Level, Note, Pattern, TimeSignature, events
from wristwork.technique.strokes import Kind, Limb, Stroke

_TIMES = {2: "twice", 3: "three times", 4: "four times"}
_STROKES = {2: "two strokes", 3: "three strokes", 4: "four strokes"}


@dataclass(frozen=True, slots=True)
class Words:
    """What is told: a sentence about the whole, then one line for each beat, bar by bar."""

    about: str
    bars: tuple[tuple[str, ...], ...]

    @property
    def text(self) -> str:
        """All of it as lines of plain text."""
        lines = [self.about]
        for number, beats in enumerate(self.bars, start=1):
            if len(self.bars) > 1:
                lines.append(f"Bar {number}.")
            lines += beats
        return "\n".join(lines)

    @property
    def html(self) -> str:
        """All of it as a paragraph and lists."""
        return f"<p>{escape(self.about)}</p>" + "".join(self._bar_html(n) for n in range(len(self.bars)))

    def _bar_html(self, number: int) -> str:
        items = "".join(f"<li>{escape(line)}</li>" for line in self.bars[number])
        heading = f"<p>Bar {number + 1}</p>" if len(self.bars) > 1 else ""
        return f"{heading}<ul>{items}</ul>"


def words(pattern: Pattern) -> Words:
    """A pattern in words."""
    teller = _Teller(pattern)
    bars: list[list[str]] = [[] for _ in range(pattern.bars)]
    for start, line in teller.beats():
        bars[start // pattern.time.beats].append(line)
    return Words(_about(pattern), tuple(tuple(lines) for lines in bars))


def _about(pattern: Pattern) -> str:
    time, tempo = pattern.time, pattern.tempo
    parts = [f"{time.upper}/{time.lower} time", f"{tempo_words(tempo)} {_beat_name(time)} a minute"]
    if pattern.repeat > 1:
        parts.append(f"played {_TIMES.get(pattern.repeat, f'{pattern.repeat} times')}")
    parts.append("round and round" if pattern.loop else "not round and round: it ends")
    return ", ".join(parts) + "."


_BEAT_NAMES = {1: "whole notes", 2: "half notes", 4: "quarter notes", 8: "eighth notes", 16: "sixteenth notes"}


def _beat_name(time: TimeSignature) -> str:
    value = time.beat
    if value.numerator == 3:
        return f"dotted {_BEAT_NAMES[value.denominator // 2]}"
    return _BEAT_NAMES[value.denominator]


@dataclass(slots=True)
class _Teller:
    """Goes through a pattern and remembers which drum each limb was on."""

    pattern: Pattern
    drums: dict[Limb, Drum] = field(default_factory=dict)

    def beats(self) -> Iterator[tuple[int, str]]:
        """The first beat (from 0) and the line of each cut."""
        score = read_score(self.pattern)
        if score.one_surface:
            self.drums = dict.fromkeys(Limb, Drum.PAD)
        by_event: dict[tuple[bool, int], list[Stroke]] = {}
        for stroke in score.strokes:
            by_event.setdefault((stroke.limb.is_hand, stroke.event), []).append(stroke)
        told: dict[bool, dict[int, list[str]]] = {True: {}, False: {}}
        for is_hand, lane in ((True, self.pattern.hands), (False, self.pattern.feet)):
            if lane:
                told[is_hand] = self._lane(lane, is_hand, by_event)
        for cut in score.cuts:
            name = _beats_name(cut.start, cut.end, self.pattern.time)
            sentences = []
            for is_hand, opening in ((True, ""), (False, "Feet: ")):
                found = [part for beat in range(cut.start, cut.end) for part in told[is_hand].get(beat, [])]
                if found:
                    alone = not self.pattern.hands
                    sentences.append(("" if alone else opening) + "; ".join(found))
            yield cut.start, f"{name}: {'. '.join(sentences)}."

    def _lane(self, lane: Lane, is_hand: bool, by_event: dict[tuple[bool, int], list[Stroke]]) -> dict[int, list[str]]:
        told: dict[int, list[str]] = {}
        numbers = _event_numbers(lane)
        lane_events = events(lane)
        start = index = 0
        for group in lane.groups:
            told[start] = []
            for slot in group.slots:
                number = numbers[index]
                index += 1
                if slot is Gap.HOLD:
                    told[start].append("held")
                elif slot is Gap.REST:
                    told[start].append("rest")
                else:
                    told[start].append(self._note(lane_events[number], by_event[is_hand, number]))
            start += group.beats
        return {beat: _merged(parts) for beat, parts in told.items()}

    def _note(self, event: Event, played: list[Stroke]) -> str:
        note = event.what
        assert isinstance(note, Note), "a slot that is no gap is a note"
        parts = [self._grace(stroke) for stroke in played if stroke.kind is Kind.GRACE]
        limbs = list(dict.fromkeys(stroke.limb for stroke in played if stroke.kind is not Kind.GRACE))
        mains = [self._main(note, [s for s in played if s.limb is limb and s.kind is not Kind.GRACE]) for limb in limbs]
        joined = " and ".join(mains)
        return ", ".join([*parts, f"both at once, {joined}" if len(mains) > 1 else joined])

    def _grace(self, stroke: Stroke) -> str:
        return f"{self._who(stroke)}, grace note, {stroke.name} stroke, then" if stroke.name else f"{self._who(stroke)}, grace note, then"

    def _main(self, note: Note, played: list[Stroke]) -> str:
        first = played[0]
        parts = [self._who(first)]
        if note.level is not Level.TAP:
            parts.append(str(note.level))
        if note.buzz:
            parts.append("buzz")
        if len(played) > 1:
            parts.append(_STROKES[len(played)])
        names = [str(stroke.name) for stroke in played if stroke.name]
        if names:
            parts.append(", ".join(names[:-1]) + (" and " if names[:-1] else "") + f"{names[-1]} stroke")
        return ", ".join(parts)

    def _who(self, stroke: Stroke) -> str:
        who = str(stroke.limb.split()[0]) if stroke.limb.is_hand else str(stroke.limb)
        if self.drums.get(stroke.limb) is stroke.on:
            return who
        self.drums[stroke.limb] = stroke.on
        return f"{who} on {stroke.on}"


def _event_numbers(lane: Lane) -> list[int]:
    """For each slot, the number of the event it begins or goes on with."""
    number = -1
    numbers = []
    for slot in lane.slots:
        if slot is not Gap.HOLD or number < 0:
            number += 1
        numbers.append(number)
    return numbers


def _merged(parts: list[str]) -> list[str]:
    """Rests and holds that follow each other are told together."""
    merged: list[str] = []
    for part in parts:
        merged.append(part)
    return merged


def _beats_name(start: int, end: int, time: TimeSignature) -> str:
    first, last = start % time.beats + 1, (end - 1) % time.beats + 1
    if first == last:
        return f"Beat {first}"
    return f"Beats {first} {'and' if last == first + 1 else 'to'} {last}"


_ = Group
