"""What stands over and under the notes of a score → the lines of a chart: sections, words, dynamics, tempos, feel."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple
from xml.etree.ElementTree import Element

from wristwork.exchange.incoming.moments import moment_words
from wristwork.exchange.incoming.strikes import Remarks
from wristwork.exchange.incoming.xml_notes import decimal, number_in
from wristwork.exchange.vocabulary import QUARTER
from wristwork.languages.say import say
from wristwork.pattern.chart import LONGEST_SECTION, LONGEST_WORDS
from wristwork.pattern.model import Loudness, TimeSignature
from wristwork.pattern.settings import FASTEST, SLOWEST

_HAIRPINS = {"crescendo": "growing", "diminuendo": "fading"}
_USUAL_TEMPO = 60


class Over(NamedTuple):
    """An element and when it speaks, in beats from the start of the first bar."""

    at: Fraction
    element: Element


@dataclass(frozen=True, slots=True)
class Chart:
    """Reads what stands over the notes of bars with this signature and pick-up."""

    over: Sequence[Over]
    time: TimeSignature
    pickup: int
    remarks: Remarks

    def lines(self, written_tempo: str | None) -> Iterator[tuple[str, str]]:
        """All lines; ``written_tempo`` is what a file of ours says of tempo, goal and step."""
        yield from self._tempos(written_tempo)
        feel = self._feel()
        if feel:
            yield "feel", feel
        for key, tag, longest in (("sections", "rehearsal", LONGEST_SECTION), ("text", "words", LONGEST_WORDS)):
            said = [self._at(at, self._short(text, longest)) for at, text in self._words(tag)]
            if any(said):
                yield key, ", ".join(each for each in said if each)
        dynamics = list(self._dynamics())
        if dynamics:
            yield "dynamics", ", ".join(dynamics)

    def _at(self, at: Fraction, what: str) -> str:
        """``A at bar 1``; nothing where no moment of a pattern is meant, which is noted."""
        moment = moment_words(at, self.time, self.pickup)
        if moment is None or not what:
            self.remarks.leave_out(say("'{what}' at a moment that has no name in a pattern", what=what))
            return ""
        return f"{what} at {moment}"

    def _short(self, text: str, longest: int) -> str:
        words = " ".join(text.replace(",", ";").split())
        if len(words) > longest:
            self.remarks.tell(say("cut short: {words}", words=words))
        return words[:longest].strip()

    def _words(self, tag: str) -> Iterator[tuple[Fraction, str]]:
        for at, element in self.over:
            if element.find("sound/swing") is not None:
                continue  # how it swings, in words
            for found in element.iterfind(f"direction-type/{tag}"):
                if (found.text or "").strip():
                    yield at, found.text or ""

    def _tempos(self, written: str | None) -> Iterator[tuple[str, str]]:
        found = [(at, tempo) for at, element in self.over if (tempo := self._tempo(element)) is not None]
        start = found[0][1] if found else Fraction(_USUAL_TEMPO)
        first, goal = self._first_tempo(written, start)
        if written or found:
            yield "tempo", written or str(first)
        later = [(at, tempo) for at, tempo in found if at > found[0][0] or tempo != start]
        if written and later and start != first:  # a piece that begins with a tempo of a section
            later = found
        if later:
            said = [self._at(at, str(_within(tempo / first * goal))) for at, tempo in later]
            yield "tempos", ", ".join(each for each in said if each)

    def _first_tempo(self, written: str | None, start: Fraction) -> tuple[int, int]:
        numbers = [int(word) for word in (written or "").split() if word.isdecimal()]
        if len(numbers) >= 2:
            return numbers[0], numbers[1]
        first = _within(start)
        return first, first

    def _tempo(self, element: Element) -> Fraction | None:
        """Beats a minute; a score's sound counts quarters."""
        sound = element if element.tag == "sound" else element.find("sound")
        quarters = decimal(sound.get("tempo")) if sound is not None else None
        return quarters * QUARTER / self.time.beat if quarters else None

    def _feel(self) -> str:
        for _, element in self.over:
            swing = element.find("swing") if element.tag == "sound" else element.find("sound/swing")
            first, second = number_in(swing, "first"), number_in(swing, "second")
            if swing is not None and first and second and swing.find("straight") is None:
                unit = " sixteenths" if swing.findtext("swing-type") == "16th" else ""
                return f"swing{unit} {first}:{second}"
        return ""

    def _dynamics(self) -> Iterator[str]:
        wedges = {
            at: _HAIRPINS[wedge.get("type", "")]
            for at, element in self.over
            for wedge in element.iterfind("direction-type/wedge")
            if wedge.get("type") in _HAIRPINS
        }
        for at, element in self.over:
            for sign in element.iterfind("direction-type/dynamics/*"):
                if sign.tag not in list(Loudness):
                    self.remarks.leave_out(say("the dynamic {sign}", sign=sign.tag))
                    continue
                said = self._at(at, sign.tag)
                hairpin = wedges.pop(at, "")
                if said:
                    yield f"{said} {hairpin}".rstrip()
        for _ in wedges:
            self.remarks.leave_out(say("a hairpin that begins at no dynamic"))


def _within(tempo: Fraction) -> int:
    return max(SLOWEST, min(FASTEST, round(tempo)))
