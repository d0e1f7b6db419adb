"""The diagram in words, beat by beat and with the count, for ears and for readers who check what they see."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import count

from wristwork.drawing.counting import group_words
from wristwork.drawing.score import Score, read_score
from wristwork.drawing.svg import escape
from wristwork.drawing.tempo_mark import tempo_number, tempo_words
from wristwork.pattern.model import Drum, Gap, Lane, Level, Note, Pattern, Swing, TimeSignature
from wristwork.technique.strokes import Kind, Limb, Stroke
from wristwork.wording import counted

_TIMES = {1: "once", 2: "twice", 3: "three times", 4: "four times"}
_COUNTS = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip
_ORDER = ("", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")
_QUARTER = Fraction(1, 4)
_BEATS = {1: "whole notes", 2: "half notes", 4: "quarter notes", 8: "eighth notes", 16: "sixteenth notes"}


@dataclass(frozen=True, slots=True)
class Words:
    """What is told: a sentence about the whole, then one line for each beat, bar by bar."""

    about: str
    bars: tuple[tuple[str, ...], ...]
    first: int = 1
    """The number of the first bar: 0 where it is a pick-up."""

    @property
    def text(self) -> str:
        """All of it as lines of plain text."""
        lines = [self.about]
        for number, beats in enumerate(self.bars):
            if len(self.bars) > 1:
                lines.append(f"{self._name(number)}.")
            lines += beats
        return "\n".join(lines)

    @property
    def html(self) -> str:
        """All of it as paragraphs and lists."""
        bars = [self._bar_html(number) for number in range(len(self.bars))]
        return f"<p>{escape(self.about)}</p>{''.join(bars)}"

    def _bar_html(self, number: int) -> str:
        items = "".join(f"<li>{escape(line)}</li>" for line in self.bars[number])
        heading = f"<p>{self._name(number)}</p>" if len(self.bars) > 1 else ""
        return f"{heading}<ul>{items}</ul>"

    def _name(self, index: int) -> str:
        return f"Bar {index + self.first}" if index + self.first else "Pick-up"


def words(pattern: Pattern) -> Words:
    """A pattern in words."""
    return tell(read_score(pattern))


def tell(score: Score) -> Words:
    """A score in words."""
    bars: list[list[str]] = [[] for _ in range(score.pattern.bars)]
    for start, line in _Teller(score).beats():
        bars[start // score.time.beats].append(line)
    return Words(_about(score.pattern), tuple(tuple(lines) for lines in bars), 1 - score.pattern.bars_before_1)


def _about(pattern: Pattern) -> str:
    time, tempo = pattern.time, pattern.tempo
    times = _TIMES.get(pattern.repeat, f"{pattern.repeat} times")
    if pattern.loop:
        played = "played over and over" if pattern.repeat == 1 else f"played {times}, and over again"
    else:
        played = f"played {times}"
    in_groups = f", counted in {'+'.join(map(str, time.pulses))}" if time.pulses else ""
    pace = f"{tempo_words(tempo)} {beat_name(time)} a minute{_swing_words(pattern.swing)}"
    return f"{time.signature} time{in_groups}, {pace}, {played}.{_form_words(pattern)}{_chart_words(pattern)}"


def _form_words(pattern: Pattern) -> str:
    """The pick-up and the repeats."""
    told = [f"a pick-up of {counted(pattern.pickup, 'beat')}"] if pattern.pickup else []
    for repeat in pattern.repeats:
        times = _TIMES.get(repeat.times, f"{repeat.times} times")
        endings = [f"{ending} {_turns(turns)}" for ending, turns in zip(repeat.endings, repeat.turns, strict=True)]
        told.append(f"{repeat.bars} {times}" + (f", ending with {', then '.join(endings)}" if endings else ""))
    return f" Played in order: {'; '.join(told)}." if told else ""


def _turns(turns: tuple[int, ...]) -> str:
    """``the first time``, ``the first to the third time``."""
    first, last = _ORDER[turns[0]], _ORDER[turns[-1]]
    return f"the {first} time" if first == last else f"the {first} to the {last} time"


def _chart_words(pattern: Pattern) -> str:
    """Sections, words and dynamics, each with its moment."""
    sections = [f"{each.words} from {_moment(each.at, pattern)}" for each in pattern.words if each.is_section]
    words = [f"{each.words} at {_moment(each.at, pattern)}" for each in pattern.words if not each.is_section]
    dynamics = [
        f"{each.loudness} at {_moment(each.at, pattern)}{f', {each.hairpin}' if each.hairpin else ''}"
        for each in pattern.dynamics
    ]
    tempos = [f"{tempo_number(pattern, each)} from {_moment(each.at, pattern)}" for each in pattern.tempos]
    told = (("Tempos", tempos), ("Sections", sections), ("Over the notes", words), ("Dynamics", dynamics))
    return "".join(f" {title}: {'; '.join(found)}." for title, found in told if found)


def _moment(at: Fraction, pattern: Pattern) -> str:
    """``bar 3``, ``beat 4 of bar 2``, ``just after beat 2 of bar 1``."""
    time = pattern.time
    bar, beat = int(at) // time.beats + 1 - pattern.bars_before_1, int(at) % time.beats + 1
    if at % time.beats == 0:
        return f"bar {bar}"
    return f"{'just after ' if at.denominator > 1 else ''}beat {beat} of bar {bar}"


def _swing_words(swing: Swing | None) -> str:
    if swing is None:
        return ""
    notes = "sixteenth notes" if swing.unit == Fraction(1, 16) else "eighth notes"
    ratio = f" {swing.ratio[0]} to {swing.ratio[1]}" if swing.ratio else ""
    return f", {notes} swing{ratio}"


def tempo_range(pattern: Pattern) -> str:
    """The tempos: ``60 to 100 beats a minute``, or what a beat is where it is no quarter note."""
    beats = "beats" if pattern.time.beat == _QUARTER else beat_name(pattern.time)
    return f"{tempo_words(pattern.tempo)} {beats} a minute"


def beat_name(time: TimeSignature) -> str:
    """What the tempo counts: ``quarter notes``, ``dotted quarter notes``."""
    beat = time.beat
    return f"dotted {_BEATS[beat.denominator // 2]}" if beat.numerator == 3 else _BEATS[beat.denominator]


_HELD, _REST = "held", "rest"


@dataclass(frozen=True, slots=True)
class _ToldGroup:
    """What is told of each slot of a group, and how each is counted where that has words.

    Only the first slot is ever told to be held, and of rests in a row only the first: what follows has its count, or
    the number of its slot.
    """

    slots: tuple[str, ...]
    counts: tuple[str, ...]
    beats: int

    def told(self, names_beat: bool) -> str:
        """The slots with their counts; the number of the beat where the line does not name just that beat."""
        if not self.counts and len(self.slots) > 1:
            beats = "the beat" if self.beats == 1 else f"{_COUNTS[self.beats]} beats"
            is_full = _HELD not in self.slots and _REST not in self.slots
            told = self.slots if is_full else [self.slots[0], *self._later(map(str, count(2)))]
            return f"{_COUNTS[len(self.slots)]} evenly in {beats}: {'; '.join(told)}"
        opening = f"{self.counts[0]}: {self.slots[0]}" if names_beat and self.counts else self.slots[0]
        return "; ".join([opening, *self._later(self.counts[1:])])

    def _later(self, counts: Iterable[str]) -> list[str]:
        """What begins after the first slot, each with its count."""
        return [
            f"{count}: {slot}"
            for count, before, slot in zip(counts, self.slots, self.slots[1:], strict=False)
            if slot != _HELD and not before == slot == _REST
        ]


@dataclass(slots=True)
class _Teller:
    """Goes through a score in time and remembers which drum each limb was on."""

    score: Score
    drums: dict[Limb, Drum] = field(default_factory=dict)

    def beats(self) -> Iterator[tuple[int, str]]:
        """The first beat (from 0) and the line of each cut."""
        pattern = self.score.pattern
        if self.score.one_surface:
            self.drums = dict.fromkeys(Limb, Drum.PAD)
        hands = self._lane(pattern.hands, True) if pattern.hands else {}
        feet = self._lane(pattern.feet, False) if pattern.feet else {}
        for cut in self.score.cuts:
            if cut.same:
                bar = self.score.time.beats
                for start in range(cut.start, cut.end, bar):
                    like = (start - cut.beats) // bar + 1 - pattern.bars_before_1
                    yield start, f"The same as bar {like}."
                continue
            sentences = []
            for opening, told in (("", hands), ("Feet: " if pattern.hands else "", feet)):
                groups = [told[number] for number in range(cut.start, cut.end) if number in told]
                if groups:
                    found = [group.told(names_beat=len(groups) > 1) for group in groups]
                    sentences.append(f"{opening}{'; '.join(found)}.")
            yield cut.start, f"{_beats_name(cut.start, cut.end, self.score.time)}: {' '.join(sentences)}"

    def _lane(self, lane: Lane, of_hands: bool) -> dict[int, _ToldGroup]:
        """What is told of each group, by the beat it begins on."""
        by_event: dict[int, list[Stroke]] = {}
        for stroke in self.score.strokes:
            if stroke.limb.is_hand is of_hands:
                by_event.setdefault(stroke.event, []).append(stroke)
        told: dict[int, _ToldGroup] = {}
        start, event = 0, -1
        time = self.score.time
        for group in lane.groups:
            slots = []
            for slot in group.slots:
                if slot is not Gap.HOLD or event < 0:
                    event += 1
                if isinstance(slot, Note):
                    slots.append(self._note(slot, by_event[event]))
                else:
                    slots.append(_HELD if slot is Gap.HOLD else _REST)
            counts = group_words(group, start % time.beats, time)
            told[start] = _ToldGroup(tuple(slots), counts, group.beats)
            start += group.beats
        return told

    def _note(self, note: Note, played: Sequence[Stroke]) -> str:
        graces = [f"{self._who(stroke, ' grace note')}{_stroke_name([stroke])}, then " for stroke in played
                  if stroke.kind is Kind.GRACE]  # fmt: skip
        main = [stroke for stroke in played if stroke.kind is not Kind.GRACE]
        limbs = list(dict.fromkeys(stroke.limb for stroke in main))
        parts = [
            self._main(hand, [stroke for stroke in main if stroke.limb is limb])
            for hand, limb in zip(note.hands, limbs, strict=True)
        ]
        together = f"together {' and '.join(parts)}" if len(parts) > 1 else parts[0]
        return "".join(graces) + together

    def _main(self, note: Note, played: Sequence[Stroke]) -> str:
        """What one hand (or foot) plays of a note."""
        level = "" if note.level is Level.TAP else f", {'strong ' if note.strong else ''}{note.level}"
        buzz = ", buzz" if note.buzz else ""
        return f"{self._who(played[0])}{level}{buzz}{_stroke_name(played)}"

    def _who(self, stroke: Stroke, what: str = "") -> str:
        """The limb, and the drum where it is another than before."""
        who = (stroke.limb.split()[0] if stroke.limb.is_hand else str(stroke.limb)) + what
        if self.drums.get(stroke.limb) is stroke.on:
            return who
        self.drums[stroke.limb] = stroke.on
        return f"{who} on the {stroke.on.said}"


def _stroke_name(played: Sequence[Stroke]) -> str:
    """``, down stroke`` or ``, two strokes: down, tap``; feet have no names."""
    names = [str(stroke.name) for stroke in played if stroke.name]
    if len(played) == 1:
        return f", {names[0]} stroke" if names else ""
    return f", {_COUNTS[len(played)]} strokes" + (f": {', '.join(names)}" if names else "")


def _beats_name(start: int, end: int, time: TimeSignature) -> str:
    first, last = start % time.beats + 1, (end - 1) % time.beats + 1
    if first == last:
        return f"Beat {first}"
    return f"Beats {first} {'and' if last == first + 1 else 'to'} {last}"
