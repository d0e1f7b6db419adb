"""The diagram in words, beat by beat and with the count, for ears and for readers who check what they see."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import count

from wristwork.drawing.counting import group_words
from wristwork.drawing.score import Score, read_score
from wristwork.drawing.svg import escape
from wristwork.drawing.whole_words import whole_words
from wristwork.languages.lists import headed, one_by_one
from wristwork.languages.say import marked, say
from wristwork.pattern.model import Drum, Gap, Lane, Level, Note, Pattern, TimeSignature
from wristwork.technique.strokes import Kind, Limb, Stroke

_COUNTS = (
    marked("no"), marked("one"), marked("two"), marked("three"), marked("four"), marked("five"), marked("six"),
    marked("seven"), marked("eight"), marked("nine"), marked("ten"), marked("eleven"), marked("twelve"),
)  # fmt: skip


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
    return Words(whole_words(score.pattern), tuple(tuple(lines) for lines in bars), 1 - score.pattern.bars_before_1)


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
            parts = {"count": say(_COUNTS[len(self.slots)]), "slots": one_by_one(told)}
            if self.beats == 1:
                return say("{count} evenly in the beat: {slots}", **parts)
            return say("{count} evenly in {beats} beats: {slots}", beats=say(_COUNTS[self.beats]), **parts)
        opening = headed(self.counts[0], self._first) if names_beat and self.counts else self._first
        return one_by_one([opening, *self._later(self.counts[1:])])

    @property
    def _first(self) -> str:
        return _said(self.slots[0])

    def _later(self, counts: Iterable[str]) -> list[str]:
        """What begins after the first slot, each with its count."""
        return [
            headed(count, _said(slot))
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
            for opening, told in (("", hands), (say("Feet:") + " " if pattern.hands else "", feet)):
                groups = [told[number] for number in range(cut.start, cut.end) if number in told]
                if groups:
                    found = [group.told(names_beat=len(groups) > 1) for group in groups]
                    sentences.append(f"{opening}{one_by_one(found)}.")
            yield cut.start, headed(_beats_name(cut.start, cut.end, self.score.time), " ".join(sentences))

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
        level = "" if note.level is Level.TAP else ", " + (say("strong accent") if note.strong else say(note.level))
        buzz = ", " + say("buzz") if note.buzz else ""
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
        return ", " + say("{name} stroke", name=names[0]) if names else ""
    told = say("{count} strokes", count=say(_COUNTS[len(played)]))
    return ", " + (headed(told, ", ".join(names)) if names else told)


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
