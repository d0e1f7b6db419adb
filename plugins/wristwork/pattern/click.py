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

from wristwork.languages.say import marked, say
from wristwork.pattern.clicks import Between, PracticeClick
from wristwork.pattern.model import TimeSignature
from wristwork.pattern.problems import Report
from wristwork.pattern.text import Value
from wristwork.wording import nearest

MOST_BARS = 16
_BEATS = re.compile(r"(?:beats? )?(\d{1,2}(?:(?: and |,? ?)\d{1,2})*)", re.IGNORECASE)
_BARS = re.compile(r"(\d{1,2}) bars? on(?:,? (\d{1,2})(?: bars?)? off)?", re.IGNORECASE)
_UNDIVIDED = {
    Between.EIGHTHS: marked("eighths between the beats of {time}"),
    Between.SWUNG: marked("swung eighths between the beats of {time}"),
    Between.TRIPLETS: marked("triplets between the beats of {time}"),
    Between.SIXTEENTHS: marked("sixteenths between the beats of {time}"),
}
_WORDS = ("every beat", "off-beats", "eighths", "triplets", "sixteenths", "swung eighths", "2 and 4", "2 bars on 2 off")


def read_click(value: Value, report: Report) -> PracticeClick | None:
    """A practice click, or None with an error."""
    click = PracticeClick()
    where: str | None = None
    for part in _parts(value):
        words = " ".join(part.text.lower().split())
        if words in ("every beat", "off-beats", "off beats") or _BEATS.fullmatch(words):
            if where is not None:
                report.add(
                    part.place(),
                    say("'{typed}' beside '{before}'", typed=part.text, before=where),
                    say("say once on which beats the click sounds"),
                )
                return None
            where = part.text
            beats = () if words[0] in "eo" else tuple(sorted({int(each) for each in re.findall(r"\d+", words)}))
            click = replace(click, beats=beats, off_beats=words.startswith("off"))
        elif words in list(Between):
            click = replace(click, between=Between(words))
        elif bars := _BARS.fullmatch(words):
            on, off = int(bars[1]), int(bars[2] or bars[1])
            if not (1 <= on <= MOST_BARS and 1 <= off <= MOST_BARS):
                remedy = say("1 to {bars} bars, as in 2 bars on 2 off", bars=MOST_BARS)
                report.add(part.place(), say("'{typed}'", typed=part.text), remedy)
                return None
            click = replace(click, on=on, off=off)
        else:
            near = nearest(words, _WORDS)
            known = ", ".join(_WORDS)
            remedy = say("did you mean {near}?", near=near) if near else say("write, say, {example}", example=known)
            report.add(part.place(), say("a click that is none: '{typed}'", typed=part.text), remedy)
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
        return (
            say("beat {beat} in bars of {beats}", beat=beyond[0], beats=time.beats),
            say("the beats are 1 to {beats}", beats=time.beats),
        )
    if click.between is not Between.NOTHING and parts_of_a_beat(click.between, time) == 0:
        return (
            say(_UNDIVIDED[click.between], time=time),
            say("leave them out, or write the pattern in another time"),
        )
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
