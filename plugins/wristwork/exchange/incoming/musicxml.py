"""A score in MusicXML → what it says, for the bars of one time signature."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby
from math import ceil
from xml.etree.ElementTree import Element

from wristwork.exchange.incoming.bar_signs import form_lines
from wristwork.exchange.incoming.over_notes import Chart, Over
from wristwork.exchange.incoming.strikes import Heard, Remarks, Strike, Where
from wristwork.exchange.incoming.unreadable import Unreadable
from wristwork.exchange.incoming.xml_notes import Instrument, number_in
from wristwork.exchange.incoming.xml_part import Bar, PartReader
from wristwork.exchange.vocabulary import FIELD, QUARTER
from wristwork.languages.say import say, say_count
from wristwork.pattern.model import TimeSignature
from wristwork.pattern.settings import LOWER, MOST_UPPER, PULSES

_DRUM_CHANNEL = 10


def heard_score(root: Element, title: str, bars: tuple[int, int] | None, remarks: Remarks) -> Heard:
    """What the drums of a score say; ``bars`` are those that are wanted. Raises :class:`Unreadable`."""
    if root.tag == "score-timewise":
        raise Unreadable(say("a score that is ordered by bars (score-timewise)"), say("save it ordered by parts"))
    if root.tag != "score-partwise":
        found = say("XML that is no score (it begins with {tag})", tag=root.tag[:40])
        raise Unreadable(found, say("take a file in MusicXML or MIDI"))
    parts = list(_drum_parts(root, remarks))
    if not any(parts):
        raise Unreadable(say("a score with no part for drums"), say("take one with a percussion staff"))
    kept = _fields(root)
    whole = _Whole(parts, kept, remarks)
    chosen = whole.chosen(bars)
    names = (root.findtext("movement-title"), root.findtext("work/work-title"))
    said = [name for name in names if name and name.strip()]
    return replace(whole.heard(chosen), title=said[0] if said else title)


def _fields(root: Element) -> dict[str, str]:
    """What a file of ours keeps beside the notes."""
    found = root.iterfind("identification/miscellaneous/miscellaneous-field")
    return {
        each.get("name", "").removeprefix(FIELD): " ".join((each.text or "").split())
        for each in found
        if each.get("name", "").startswith(FIELD)
    }


def _drum_parts(root: Element, remarks: Remarks) -> Iterator[list[Bar]]:
    """The bars of every part that drums play; the others are left out."""
    listed = {part.get("id", ""): part for part in root.iterfind("part-list/score-part")}
    for part in root.findall("part"):
        about = listed.get(part.get("id", ""))
        if part.find("measure/note/unpitched") is not None or _is_drums(about):
            yield PartReader(_instruments(about), remarks).read(part)
        elif part.find("measure/note") is not None:
            name = (about.findtext("part-name") if about is not None else None) or part.get("id") or ""
            remarks.leave_out(say("the part '{name}', which is not for drums", name=" ".join(name.split())[:40]))


def _is_drums(about: Element | None) -> bool:
    channels = [] if about is None else [number_in(each, "midi-channel") for each in about.findall("midi-instrument")]
    return _DRUM_CHANNEL in channels


def _instruments(about: Element | None) -> Mapping[str, Instrument]:
    if about is None:
        return {}
    keys = {each.get("id", ""): number_in(each, "midi-unpitched") for each in about.findall("midi-instrument")}
    found = {}
    for each in about.findall("score-instrument"):
        name, key = each.get("id", ""), keys.get(each.get("id", ""))
        words = " ".join((each.findtext("instrument-name") or "").split())[:40]
        found[name] = Instrument(words, int(key) - 1 if key is not None else None)
    return found


@dataclass(frozen=True, slots=True)
class _Chosen:
    """Bars that are read, from ``first`` to ``last`` (both counted from 0), in one time signature.

    ``before`` are the beats of the first bar that stand before a pick-up.
    """

    first: int
    last: int
    time: TimeSignature
    before: Fraction = Fraction(0)

    def start(self, number: int) -> Fraction:
        """Where the notes of a bar begin, in beats from the start of the first; bars are counted from 0."""
        return number * self.time.beats + (self.before if number == 0 else Fraction(0))


class _Whole:
    """All bars of the parts of a score that drums play."""

    def __init__(self, parts: Sequence[list[Bar]], fields: Mapping[str, str], remarks: Remarks) -> None:
        self._parts = parts
        self._fields = fields
        self._remarks = remarks
        self._lead = max(parts, key=len)
        self._times = self._all_times()
        self._has_pickup = len(self._lead) > 1 and self._is_pickup(self._lead[0])

    def chosen(self, bars: tuple[int, int] | None) -> _Chosen:
        """The bars that are wanted, or the first that share a signature (a longer run goes before a shorter one)."""
        numbers = range(len(self._lead))
        if bars is not None:
            first, last = (bar - (0 if self._has_pickup else 1) for bar in bars)
            numbers = range(max(0, first), min(len(self._lead), last + 1))
            if not numbers:
                raise Unreadable(
                    say("no bars {first} to {last}", first=bars[0], last=bars[1]),
                    say_count("it has {count} bar", "it has {count} bars", len(self._lead)),
                )
        runs = [list(same) for _, same in groupby(numbers, key=lambda number: str(self._times[number]))]
        run = max(runs, key=len)
        for other in runs:
            if other is not run:
                first, last = self._number(other[0]), self._number(other[-1])
                self._remarks.leave_out(
                    say(
                        "bars {first} to {last} in {time} (read them with --bars {first}-{last})",
                        first=first,
                        last=last,
                        time=self._times[other[0]],
                    )
                )
        return _Chosen(run[0], run[-1], self._times[run[0]])

    def heard(self, chosen: _Chosen) -> Heard:
        """Everything in these bars; what stands over the notes is taken from the part that has most of them."""
        time, has_pickup = self._with_pulses(chosen.time), self._has_pickup and chosen.first == 0
        bars = self._lead[chosen.first : chosen.last + 1]
        pickup = ceil(_beats(bars[0].length, time)) if has_pickup else 0
        before = time.beats - _beats(bars[0].length, time) if has_pickup else Fraction(0)
        chosen = replace(chosen, time=time, before=before)
        strikes = [strike for part in self._parts for strike in self._strikes(part, chosen)]
        over = [
            Over(chosen.start(number) + _beats(at, time), element)
            for number, bar in enumerate(bars)
            for at, element in bar.over
        ]
        over.sort(key=lambda each: each.at)
        lines = [*Chart(over, time, pickup, self._remarks).lines(self._fields.get("tempo"))]
        lines += self._form([bar.element for bar in bars], 0 if has_pickup else 1)
        cut_short = self._cut_short(bars, time, pickup)
        return Heard("", time, len(bars), tuple(strikes), pickup, cut_short, tuple(self._with_fields(lines).items()))

    def _strikes(self, part: Sequence[Bar], chosen: _Chosen) -> Iterator[Strike]:
        """The strikes of a part in these bars, in beats from the start of the first."""
        time = chosen.time
        for number, bar in enumerate(part[chosen.first : chosen.last + 1]):
            for strike in bar.strikes:
                at = chosen.start(number) + _beats(strike.at, time)
                if at < (number + 1) * time.beats:
                    yield replace(strike, at=at, length=_beats(strike.length, time))
                else:
                    where = Where(self._number(chosen.first + number))
                    drum = say(str(strike.on))
                    what = say("{drum} beyond the end of a bar of {time}", drum=drum, time=time.signature)
                    self._remarks.leave_out(what, where)

    def _all_times(self) -> list[TimeSignature]:
        """The signature of every bar: the last one that was written."""
        found: list[TimeSignature] = []
        time = TimeSignature(4, 4)
        for bar in self._lead:
            for written in bar.element.iterfind("attributes/time"):
                time = _time(written) or time
            found.append(time)
        return found

    def _with_pulses(self, time: TimeSignature) -> TimeSignature:
        """A file of ours says how its bars are felt."""
        signature, _, groups = self._fields.get("time", "").partition(" as ")
        felt = tuple(int(group) for group in re.findall(r"\d", groups))
        is_felt = signature == time.signature and sum(felt) == time.upper and set(felt) <= set(PULSES)
        return TimeSignature(time.upper, time.lower, felt) if is_felt else time

    def _is_pickup(self, bar: Bar) -> bool:
        whole = Fraction(self._times[0].upper, self._times[0].lower) / QUARTER
        is_told = bar.element.get("implicit") == "yes" or bar.element.get("number") == "0"
        return is_told and 0 < bar.length < whole

    def _number(self, index: int) -> int:
        return index + (0 if self._has_pickup else 1)

    def _cut_short(self, bars: Sequence[Bar], time: TimeSignature, pickup: int) -> int:
        """By how many beats the last bar is shorter, as it is where a pick-up fills it when it comes round."""
        short = time.beats - ceil(_beats(bars[-1].length, time))
        return short if pickup and short == pickup else 0

    def _form(self, bars: Sequence[Element], first: int) -> Iterator[tuple[str, str]]:
        if self._fields.get("repeats") == "none":
            return
        yield from form_lines(bars, first, self._remarks)

    def _with_fields(self, lines: Sequence[tuple[str, str]]) -> dict[str, str]:
        """The lines, with what a file of ours says of them."""
        kept = {key: self._fields[key] for key in ("feel", "loop", "repeat", "motion") if key in self._fields}
        return {**dict(lines), **kept}


def _time(written: Element) -> TimeSignature | None:
    """A signature; one of added groups (3+2) is felt so."""
    beats, lower = written.findtext("beats") or "", number_in(written, "beat-type")
    groups = tuple(int(number) for number in re.findall(r"\d{1,3}", beats))
    if not groups or lower is None or int(lower) not in LOWER or not 1 <= sum(groups) <= MOST_UPPER:
        return None
    is_felt = len(groups) > 1 and int(lower) >= 8 and set(groups) <= set(PULSES)
    return TimeSignature(sum(groups), int(lower), groups if is_felt else ())


def _beats(quarters: Fraction, time: TimeSignature) -> Fraction:
    return quarters * QUARTER / time.beat
