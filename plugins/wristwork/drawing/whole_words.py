"""A pattern as a whole in words: its time, its tempo, how often it is played, and in what order."""

from __future__ import annotations

from fractions import Fraction

from wristwork.drawing.tempo_mark import tempo_number, tempo_words
from wristwork.languages.lists import headed, one_by_one
from wristwork.languages.say import marked, say, say_count
from wristwork.pattern.model import Pattern, Swing, TimeSignature

_TIMES = {1: marked("once"), 2: marked("twice"), 3: marked("three times"), 4: marked("four times")}
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


def whole_words(pattern: Pattern) -> str:
    """All of that in a sentence or more."""
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
        bars = say("{bars} {times}", bars=repeat.bars.said, times=_times(repeat.times))
        endings = [f"{ending.said} {_turns(turns)}" for ending, turns in zip(repeat.endings, repeat.turns, strict=True)]
        told.append(
            say("{bars}, ending with {endings}", bars=bars, endings=say(", then ").join(endings)) if endings else bars
        )
    return " " + say("Played in order: {parts}.", parts=one_by_one(told)) if told else ""


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
        ", ".join(
            (
                say("{words} at {moment}", words=each.loudness, moment=_moment(each.at, pattern)),
                *([say(each.hairpin)] if each.hairpin else []),
            )
        )
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
    return "".join(f" {headed(title, one_by_one(found))}." for title, found in told if found)


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
