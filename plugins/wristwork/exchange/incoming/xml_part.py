"""The bars of a part → strikes, with what stands over them, in quarters from the start of each bar."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from xml.etree.ElementTree import Element

from wristwork.exchange.incoming.strikes import Grace, Remarks, Strike, Where
from wristwork.exchange.incoming.xml_notes import (
    Hand,
    Instrument,
    drum_in,
    hands_of,
    letters_in,
    level_in,
    number_in,
    place_of,
    strokes_in,
    written_length,
)
from wristwork.languages.say import say
from wristwork.pattern.drums import Drum
from wristwork.pattern.model import Level
from wristwork.technique.strokes import Limb

_MOST_SLASHED = 4
_MOST_DIVISIONS = 10_000_000


@dataclass(slots=True)
class Bar:
    """A bar as it is written: ``at`` is in quarters from its start; ``length`` how far its notes and rests reach."""

    element: Element
    strikes: list[Strike] = field(default_factory=list)
    over: list[tuple[Fraction, Element]] = field(default_factory=list)
    length: Fraction = Fraction(0)


@dataclass(slots=True)
class _Written:
    """A note as far as it has been read: a tie may still lengthen it, and add strokes to those of its slashes."""

    strike: Strike
    letters: tuple[Hand, ...]
    roll: bool
    strokes: int
    bar: Bar
    ties_on: bool


class PartReader:
    """Reads a part bar by bar."""

    def __init__(self, instruments: Mapping[str, Instrument], remarks: Remarks) -> None:
        self._instruments = instruments
        self._remarks = remarks
        self._alone = False
        self._divisions = Fraction(1)
        self._at = self._chord_at = Fraction(0)
        self._graces: dict[str, list[Grace]] = {}
        self._written: list[_Written] = []

    def read(self, part: Element) -> list[Bar]:
        """All bars."""
        self._alone = len({place_of(note) for note in part.iterfind("measure/note") if note.find("rest") is None}) == 1
        bars = [self._bar(element, number) for number, element in enumerate(part.findall("measure"), 1)]
        for written in self._written:
            written.bar.strikes += _strikes(written)
        for waiting in self._graces.values():
            for _ in waiting:
                self._remarks.leave_out(say("a grace note with no note after it"))
        return bars

    def _bar(self, element: Element, number: int) -> Bar:
        bar = Bar(element)
        self._at = self._chord_at = Fraction(0)
        for child in element:
            if child.tag == "note":
                self._note(child, bar, number)
            elif child.tag == "attributes":
                divisions = number_in(child, "divisions")
                if divisions is not None and 0 < divisions <= _MOST_DIVISIONS:
                    self._divisions = divisions
            elif child.tag == "backup":
                self._at = max(Fraction(0), self._at - self._length(child))
            elif child.tag == "forward":
                self._at += self._length(child)
            elif child.tag in ("direction", "sound"):
                offset = number_in(child, "offset") or Fraction(0)
                bar.over.append((self._at + offset / self._divisions, child))
            bar.length = max(bar.length, self._at)
        return bar

    def _length(self, element: Element) -> Fraction:
        duration = max(Fraction(0), number_in(element, "duration") or Fraction(0))
        exact = written_length(element) if element.tag == "note" and duration else None
        if exact is None:
            return duration / self._divisions
        # Where a tuplet's notes are no whole divisions, writers round what they last.
        parts = exact * self._divisions
        return exact if parts.denominator > 1 and abs(parts - duration) < 1 else duration / self._divisions

    def _note(self, note: Element, bar: Bar, number: int) -> None:
        if note.find("cue") is not None:
            self._remarks.leave_out(say("a cue note"), Where(number))
            return
        voice = note.findtext("voice") or "1"
        is_grace, length = note.find("grace") is not None, self._length(note)
        at = self._chord_at if note.find("chord") is not None else self._at
        if not is_grace and note.find("chord") is None:
            self._chord_at, self._at = self._at, self._at + length
        if note.find("rest") is not None:
            return
        drum, name = drum_in(note, self._instruments, alone=self._alone)
        if drum is None:
            self._remarks.leave_out(say("'{name}', which is no drum that is known here", name=name), Where(number))
        elif is_grace:
            limbs = hands_of(letters_in(note))
            self._graces.setdefault(voice, []).append(Grace(drum, limbs[0].limb if limbs else None))
        elif length > 0:
            self._sounding(note, drum, at, length, bar, voice)

    def _sounding(self, note: Element, drum: Drum, at: Fraction, length: Fraction, bar: Bar, voice: str) -> None:
        ties = {tie.get("type") for tie in note.findall("tie")}
        strokes = strokes_in(note)
        if "stop" in ties:
            open_tie = next((each for each in reversed(self._written) if each.ties_on and each.strike.on is drum), None)
            if open_tie is not None:
                open_tie.strike = replace(open_tie.strike, length=open_tie.strike.length + length)
                open_tie.strokes += strokes if open_tie.strokes > 1 else 0
                open_tie.ties_on = "start" in ties
                return
        level, strong = level_in(note)
        letters = letters_in(note)
        graces = tuple(self._graces.pop(voice, ()))
        strike = Strike(at, length, drum, None, level, strong, 1, strokes == 0, graces)
        is_roll = strokes > 1 and len(letters) > 1 and set(letters.upper()) <= {"R", "L"}
        self._written.append(_Written(strike, hands_of(letters), is_roll, max(1, strokes), bar, "start" in ties))


def _strikes(written: _Written) -> Iterator[Strike]:
    """The strikes of a note: one, two where both hands strike, or a roll's doubles."""
    strike, letters = written.strike, written.letters
    limbs = [hand.limb for hand in letters]
    if written.roll and len(set(limbs)) == 1:
        yield replace(strike, limb=limbs[0], strokes=min(len(limbs), _MOST_SLASHED))
    elif written.roll:
        yield from _doubles(strike, limbs)
    elif written.strokes > _MOST_SLASHED:
        yield from _doubles(strike, _taking_turns(limbs[0] if limbs else None, written.strokes))
    elif not letters:
        yield replace(strike, strokes=written.strokes)
    for hand in letters if not written.roll and written.strokes <= _MOST_SLASHED else ():
        own = replace(strike, limb=hand.limb, strokes=written.strokes)
        if hand.level is not None:
            own = replace(own, level=hand.level, strong=hand.strong, buzz=hand.buzz)
        yield own


def _taking_turns(first: Limb | None, strokes: int) -> list[Limb | None]:
    """Double strokes of one hand after the other, as far as a hand is said at all."""
    if first is None or not first.is_hand:
        return [first] * strokes
    other = Limb.LEFT_HAND if first is Limb.RIGHT_HAND else Limb.RIGHT_HAND
    return [first if number // 2 % 2 == 0 else other for number in range(strokes)]


def _doubles(strike: Strike, limbs: Sequence[Limb | None]) -> Iterator[Strike]:
    """A roll: strokes of one hand after another, two and two; only the first has the accent and the grace notes."""
    share = strike.length / len(limbs)
    calm = replace(strike, level=min(strike.level, Level.TAP, key=list(Level).index), strong=False, graces=())
    for number in range(0, len(limbs), 2):
        strokes = min(2, len(limbs) - number)
        whole = replace(strike if number == 0 else calm, at=strike.at + number * share, length=share * strokes)
        if len(set(limbs[number : number + 2])) == 1:
            yield replace(whole, limb=limbs[number], strokes=strokes)
        else:
            each = replace(whole, strokes=2).apart()
            yield from (replace(one, limb=limb) for one, limb in zip(each, limbs[number:], strict=False))
