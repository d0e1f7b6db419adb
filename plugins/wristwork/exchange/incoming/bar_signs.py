"""Repeat signs, endings and jumps at the bar lines of a score → the lines ``repeats`` and ``endings``."""

from __future__ import annotations

import re
from collections.abc import Sequence
from xml.etree.ElementTree import Element

from wristwork.exchange.incoming.strikes import Remarks, Where
from wristwork.exchange.incoming.xml_notes import decimal
from wristwork.languages.say import say
from wristwork.pattern.form import Bars, Repeat
from wristwork.pattern.form_lines import MOST_TIMES

_JUMPS = ("dacapo", "dalsegno", "tocoda", "fine", "segno", "coda")


def form_lines(bars: Sequence[Element], first: int, remarks: Remarks) -> list[tuple[str, str]]:
    """The lines for bars of which the first has this number."""
    found = _Repeats(first)
    for number, bar in enumerate(bars, first):
        found.bar(bar, number)
        for sound in bar.iter("sound"):
            for jump in set(_JUMPS) & set(sound.keys()):
                remarks.leave_out(say("a jump in the form ({jump})", jump=jump), Where(number))
    repeats = found.done()
    lines = []
    if repeats:
        lines.append(("repeats", ", ".join(_words(repeat) for repeat in repeats)))
    endings = [repeat.endings for repeat in repeats if repeat.endings]
    if endings:
        lines.append(("endings", ", ".join(" then ".join(map(str, each)) for each in endings)))
    return lines


def _words(repeat: Repeat) -> str:
    return f"{repeat.bars} {repeat.times} times" if repeat.times > 2 else str(repeat.bars)


class _Repeats:
    """Follows the bars and closes a repeat where its last sign or ending is."""

    def __init__(self, first: int) -> None:
        self._start = max(first, 1)
        self._times = 2
        self._turns = 0
        self._end = 0
        self._endings: list[Bars] = []
        self._opened: int | None = None
        self._found: list[Repeat] = []

    def bar(self, bar: Element, number: int) -> None:
        """What stands at the two ends of a bar."""
        lines = bar.findall("barline")
        starts = [line for line in lines if line.get("location") == "left"]
        ends = [line for line in lines if line.get("location") != "left"]
        if any(_repeat(line) == "forward" for line in starts):
            self._close()
            self._start = max(number, 1)
        opening = next(
            (each for line in starts for each in line.findall("ending") if each.get("type") == "start"), None
        )
        if opening is not None:
            self._opened = number
            self._turns += len(re.findall(r"\d+", opening.get("number", ""))) or 1
        elif self._endings and self._opened is None:
            self._close()
        closes = [each for line in ends for each in line.findall("ending") if each.get("type") != "start"]
        if closes and self._opened is not None:
            self._endings.append(Bars(self._opened, number))
            self._opened = None
        for line in ends:
            if _repeat(line) == "backward":
                self._backward(line, number, in_ending=bool(closes))

    def done(self) -> list[Repeat]:
        """All repeats."""
        self._close()
        return self._found

    def _backward(self, line: Element, number: int, *, in_ending: bool) -> None:
        sign = line.find("repeat")
        times = decimal(sign.get("times")) if sign is not None else None
        self._times = max(2, min(int(times), MOST_TIMES)) if times is not None else 2
        self._end = number
        if not in_ending:
            self._close()

    def _close(self) -> None:
        """The repeat that is open, if one is; what follows may be repeated from here on."""
        if len(self._endings) > 1:
            bars = Bars(self._start, self._endings[0].last)
            self._found.append(Repeat(bars, max(self._turns, len(self._endings)), tuple(self._endings)))
            self._start = self._endings[-1].last + 1
        elif self._end:
            self._found.append(Repeat(Bars(self._start, self._end), self._times))
            self._start = self._end + 1
        self._endings, self._end, self._turns, self._opened = [], 0, 0, None


def _repeat(line: Element) -> str:
    sign = line.find("repeat")
    return sign.get("direction", "") if sign is not None else ""
