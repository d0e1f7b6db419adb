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
from wristwork.languages.say import marked, say, say_count
from wristwork.pattern.model import Drum, Gap, Lane, Level, Note, Pattern, Swing, TimeSignature
from wristwork.technique.strokes import Kind, Limb, Stroke

_TIMES = {1: marked("once"), 2: marked("twice"), 3: marked("three times"), 4: marked("four times")}
_COUNTS = (
    marked("no"), marked("one"), marked("two"), marked("three"), marked("four"), marked("five"), marked("six"),
    marked("seven"), marked("eight"), marked("nine"), marked("ten"), marked("eleven"), marked("twelve"),
)  # fmt: skip
_ORDER = (
    "", marked("first"), marked("second"), marked("third"), marked("fourth"), marked("fifth"), marked("sixth"),
    marked("seventh"), marked("eighth"),
)  # fmt: skip
_QUARTER = Fraction(1, 4)
_BEATS = {
    Fraction(1): marked("whole notes"),
    Fraction(1, 2): marked("half notes"),
    _QUARTER: marked("quarter notes"),
    Fraction(1, 8): marked("eighth notes"),
    Fraction(1, 16): marked("sixteenth notes"),
    Fraction(3, 2): marked("dotted whole notes"),
    Fraction(3, 4): marked("dotted half notes"),
    Fraction(3, 8): marked("dotted quarter notes"),
    Fraction(3, 16): marked("dotted eighth notes"),
    Fraction(3, 32): marked("dotted sixteenth notes"),
}


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
        return say("Bar {number}", number=index + self.first) if index + self.first else say("Pick-up")


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
    time = pattern.time
    times = _times(pattern.repeat)
    if not pattern.loop:
        played = say("played {times}", times=times)
    elif pattern.repeat == 1:
        played = say("played over and over")
    else:
        played = say("played {times}, and over again", times=times)
    signature = say("{time} time", time=time.signature)
    if time.pulses:
        signature = say("{time} time, counted in {groups}", time=time.signature, groups="+".join(map(str, time.pulses)))
    pace = say("{tempo} {beats} a minute", tempo=tempo_words(pattern.tempo), beats=beat_name(time))
    told = ", ".join([signature, pace, *_swing_words(pattern.swing), played])
    return f"{told}.{_form_words(pattern)}{_chart_words(pattern)}"


def _times(count: int) -> str:
    return say(_TIMES[count]) if count in _TIMES else say("{count} times", count=count)


def _form_words(pattern: Pattern) -> str:
    """The pick-up and the repeats."""
    told = []
    if pattern.pickup:
        told.append(say_count("a pick-up of {count} beat", "a pick-up of {count} beats", pattern.pickup))
    for repeat in pattern.repeats:
        bars = say("{bars} {times}", bars=repeat.bars, times=_times(repeat.times))
        endings = [f"{ending} {_turns(turns)}" for ending, turns in zip(repeat.endings, repeat.turns, strict=True)]
        told.append(
            say("{bars}, ending with {endings}", bars=bars, endings=say(", then ").join(endings)) if endings else bars
        )
    return f" {say('Played in order: {parts}.', parts='; '.join(told))}" if told else ""


def _turns(turns: tuple[int, ...]) -> str:
    """``the first time``, ``the first to the third time``."""
    first, last = say(_ORDER[turns[0]]), say(_ORDER[turns[-1]])
    if first == last:
        return say("the {first} time", first=first)
    return say("the {first} to the {last} time", first=first, last=last)


def _chart_words(pattern: Pattern) -> str:
    """Sections, words and dynamics, each with its moment."""
    sections = [
        say("{words} from {moment}", words=each.words, moment=_moment(each.at, pattern))
        for each in pattern.words
        if each.is_section
    ]
    words = [
        say("{words} at {moment}", words=each.words, moment=_moment(each.at, pattern))
        for each in pattern.words
        if not each.is_section
    ]
    dynamics = [
        say("{words} at {moment}", words=each.loudness, moment=_moment(each.at, pattern))
        + (f", {say(each.hairpin)}" if each.hairpin else "")
        for each in pattern.dynamics
    ]
    tempos = [
        say("{words} from {moment}", words=tempo_number(pattern, each), moment=_moment(each.at, pattern))
        for each in pattern.tempos
    ]
    told = (
        (say("Tempos"), tempos),
        (say("Sections"), sections),
        (say("Over the notes"), words),
        (say("Dynamics"), dynamics),
    )
    return "".join(f" {title}: {'; '.join(found)}." for title, found in told if found)


def _moment(at: Fraction, pattern: Pattern) -> str:
    """``bar 3``, ``beat 4 of bar 2``, ``just after beat 2 of bar 1``."""
    time = pattern.time
    bar, beat = int(at) // time.beats + 1 - pattern.bars_before_1, int(at) % time.beats + 1
    if at % time.beats == 0:
        return say("bar {bar}", bar=bar)
    if at.denominator > 1:
        return say("just after beat {beat} of bar {bar}", beat=beat, bar=bar)
    return say("beat {beat} of bar {bar}", beat=beat, bar=bar)


def _swing_words(swing: Swing | None) -> list[str]:
    if swing is None:
        return []
    told = say("sixteenth notes swing") if swing.unit == Fraction(1, 16) else say("eighth notes swing")
    if not swing.ratio:
        return [told]
    first, second = swing.ratio
    return [say("{notes} {first} to {second}", notes=told, first=first, second=second)]


def tempo_range(pattern: Pattern) -> str:
    """The tempos: ``60 to 100 beats a minute``, or what a beat is where it is no quarter note."""
    if pattern.time.beat == _QUARTER:
        return say("{tempo} beats a minute", tempo=tempo_words(pattern.tempo))
    return say("{tempo} {beats} a minute", tempo=tempo_words(pattern.tempo), beats=beat_name(pattern.time))


def beat_name(time: TimeSignature) -> str:
    """What the tempo counts: ``quarter notes``, ``dotted quarter notes``."""
    return say(_BEATS[time.beat])


_HELD, _REST = marked("held"), marked("rest")


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
            is_full = _HELD not in self.slots and _REST not in self.slots
            told = self.slots if is_full else [self._first, *self._later(map(str, count(2)))]
            parts = {"count": say(_COUNTS[len(self.slots)]), "slots": "; ".join(told)}
            if self.beats == 1:
                return say("{count} evenly in the beat: {slots}", **parts)
            return say("{count} evenly in {beats} beats: {slots}", beats=say(_COUNTS[self.beats]), **parts)
        opening = f"{self.counts[0]}: {self._first}" if names_beat and self.counts else self._first
        return "; ".join([opening, *self._later(self.counts[1:])])

    @property
    def _first(self) -> str:
        return _said(self.slots[0])

    def _later(self, counts: Iterable[str]) -> list[str]:
        """What begins after the first slot, each with its count."""
        return [
            f"{count}: {_said(slot)}"
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
                    yield start, say("The same as bar {bar}.", bar=like)
                continue
            sentences = []
            for opening, told in (("", hands), (f"{say('Feet:')} " if pattern.hands else "", feet)):
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
        graces = [
            say("{who}{name}, then ", who=self._who(stroke, is_grace=True), name=_stroke_name([stroke]))
            for stroke in played
            if stroke.kind is Kind.GRACE
        ]
        main = [stroke for stroke in played if stroke.kind is not Kind.GRACE]
        limbs = list(dict.fromkeys(stroke.limb for stroke in main))
        parts = [
            self._main(hand, [stroke for stroke in main if stroke.limb is limb])
            for hand, limb in zip(note.hands, limbs, strict=True)
        ]
        together = say("together {parts}", parts=say(" and ").join(parts)) if len(parts) > 1 else parts[0]
        return "".join(graces) + together

    def _main(self, note: Note, played: Sequence[Stroke]) -> str:
        """What one hand (or foot) plays of a note."""
        level = "" if note.level is Level.TAP else f", {say('strong accent') if note.strong else say(note.level)}"
        buzz = f", {say('buzz')}" if note.buzz else ""
        return f"{self._who(played[0])}{level}{buzz}{_stroke_name(played)}"

    def _who(self, stroke: Stroke, is_grace: bool = False) -> str:
        """The limb, and the drum where it is another than before."""
        who = say(stroke.limb.split()[0] if stroke.limb.is_hand else str(stroke.limb))
        if is_grace:
            who = say("{who} grace note", who=who)
        if self.drums.get(stroke.limb) is stroke.on:
            return who
        self.drums[stroke.limb] = stroke.on
        return say("{who} on the {drum}", who=who, drum=say(stroke.on.said))


def _stroke_name(played: Sequence[Stroke]) -> str:
    """``, down stroke`` or ``, two strokes: down, tap``; feet have no names."""
    names = [say(str(stroke.name)) for stroke in played if stroke.name]
    if len(played) == 1:
        return f", {say('{name} stroke', name=names[0])}" if names else ""
    told = say("{count} strokes", count=say(_COUNTS[len(played)]))
    return f", {told}: {', '.join(names)}" if names else f", {told}"


def _beats_name(start: int, end: int, time: TimeSignature) -> str:
    first, last = start % time.beats + 1, (end - 1) % time.beats + 1
    if first == last:
        return say("Beat {beat}", beat=first)
    if last == first + 1:
        return say("Beats {first} and {last}", first=first, last=last)
    return say("Beats {first} to {last}", first=first, last=last)


def _said(slot: str) -> str:
    """What is told of a slot, which is finished but where nothing begins in it."""
    return say(slot) if slot in (_HELD, _REST) else slot
