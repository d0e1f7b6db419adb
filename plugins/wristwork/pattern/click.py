"""Read a practice click: on which beats it sounds, what stands between them, and bars in which it is silent.

````
click: 2 and 4
click: off-beats
click: every beat, triplets
click: beat 1, 2 bars on 2 off
````
"""

from __future__ import annotations

import re
from dataclasses import replace

from wristwork.pattern.clicks import Between, PracticeClick
from wristwork.pattern.model import TimeSignature
from wristwork.pattern.problems import Report
from wristwork.pattern.text import Value
from wristwork.wording import nearest

MOST_BARS = 16
_BEATS = re.compile(r"(?:beats? )?(\d{1,2}(?:(?: and |,? ?)\d{1,2})*)", re.IGNORECASE)
_BARS = re.compile(r"(\d{1,2}) bars? on(?:,? (\d{1,2})(?: bars?)? off)?", re.IGNORECASE)
_WORDS = ("every beat", "off-beats", "eighths", "triplets", "sixteenths", "swung eighths", "2 and 4", "2 bars on 2 off")


def read_click(value: Value, report: Report) -> PracticeClick | None:
    """A practice click, or None with an error."""
    click = PracticeClick()
    where: str | None = None
    for part in _parts(value):
        words = " ".join(part.text.lower().split())
        if words in ("every beat", "off-beats", "off beats") or _BEATS.fullmatch(words):
            if where is not None:
                report.add(part.place(), f"'{part.text}' beside '{where}'", "say once on which beats the click sounds")
                return None
            where = part.text
            beats = () if words[0] in "eo" else tuple(sorted({int(each) for each in re.findall(r"\d+", words)}))
            click = replace(click, beats=beats, off_beats=words.startswith("off"))
        elif words in list(Between):
            click = replace(click, between=Between(words))
        elif bars := _BARS.fullmatch(words):
            on, off = int(bars[1]), int(bars[2] or bars[1])
            if not (1 <= on <= MOST_BARS and 1 <= off <= MOST_BARS):
                report.add(part.place(), f"'{part.text}'", f"1 to {MOST_BARS} bars, as in 2 bars on 2 off")
                return None
            click = replace(click, on=on, off=off)
        else:
            near = nearest(words, _WORDS)
            remedy = f"did you mean {near}?" if near else f"write, say, {', '.join(_WORDS)}"
            report.add(part.place(), f"a click that is none: '{part.text}'", remedy)
            return None
    return click


def _parts(value: Value) -> list[Value]:
    """The parts between commas; beats that are listed with commas are one of them."""
    if _BEATS.fullmatch(" ".join(value.text.lower().split())):
        return [value]
    return list(value.split(","))


def click_problem(click: PracticeClick, time: TimeSignature) -> tuple[str, str] | None:
    """What of a click does not fit the bars: what was found, and the remedy."""
    beyond = [beat for beat in click.beats if not 1 <= beat <= time.beats]
    if beyond:
        return f"beat {beyond[0]} in bars of {time.beats}", f"the beats are 1 to {time.beats}"
    if click.between is not Between.NOTHING and parts_of_a_beat(click.between, time) == 0:
        return f"{click.between} between the beats of {time}", "leave them out, or write the pattern in another time"
    return None


def parts_of_a_beat(between: Between, time: TimeSignature) -> int:
    """Into how many parts the click divides a beat: 1 for none, 0 where the beat has no such parts."""
    if between is Between.NOTHING:
        return 1
    if between is Between.TRIPLETS:
        return 0 if time.compound or time.pulses else 3
    if between is Between.SWUNG:
        return 0 if time.compound or time.pulses else 2
    parts = time.beat * (8 if between is Between.EIGHTHS else 16)
    return int(parts) if parts.denominator == 1 and parts > 1 else 0
