"""How the slots of a beat are counted aloud."""

from __future__ import annotations

from math import gcd

from wristwork.pattern.model import Group, TimeSignature

# By the slots of one beat; the beat's own number comes first.
SPOKEN: dict[int, tuple[str, ...]] = {
    1: (),
    2: ("&",),
    3: ("trip", "let"),
    4: ("e", "&", "a"),
    6: ("ta", "la", "&", "ta", "la"),
    8: ("·", "e", "·", "&", "·", "a", "·"),
}
SPOKEN_COMPOUND: dict[int, tuple[str, ...]] = {
    **SPOKEN,
    3: ("la", "li"),
    6: ("ta", "la", "ta", "li", "ta"),
}


def spoken(group: Group, start: int, time: TimeSignature) -> tuple[str, ...]:
    """One word for each slot of a group that begins on beat ``start`` (from 0, bars run on).

    A group over several beats is counted in as many parts as begin both with a slot and on a beat. What
    has no word of its own is the number of the slot within its part.
    """
    slots, beats = len(group.slots), group.beats
    parts = gcd(slots, beats)
    words: list[str] = []
    for beat in range(start, start + beats, beats // parts):
        words += [str(beat % time.beats + 1), *_after_the_number(slots // parts, time)]
    return tuple(words)


def _after_the_number(slots: int, time: TimeSignature) -> tuple[str, ...]:
    table = SPOKEN_COMPOUND if time.compound else SPOKEN
    if slots in table:
        return table[slots]
    return tuple(str(number) for number in range(2, slots + 1))
