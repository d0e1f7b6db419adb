"""Pattern → strokes: what each hand does, from which height to which.

A stroke starts at the height its own loudness needs and ends at the height the same hand's next
stroke needs. Grace notes, diddles and buzzes are strokes of the chain like any other. Where nothing is
accented, the main notes of flams and drags are what comes from high.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from wristwork.pattern.form import Passage
from wristwork.pattern.model import Drum, Event, Level, Loudness, Note, Pattern, Side, events
from wristwork.pattern.placement import Placer

# Milliseconds before the main note. A flam's grace note sounds about 30 ms ahead; in a drag 45 to
# 60 ms lie between one stroke and the next.
FLAM_AHEAD_MS = 30
DRAG_SPACING_MS = 50


# How much louder than other accents a strong one is, and how loud passages are against one with no dynamic.
STRONG_DB = 2.0
LOUDNESS_DB = {
    Loudness.PP: -12.0, Loudness.P: -8.0, Loudness.MP: -5.0, Loudness.MF: -2.5, Loudness.F: 0.0, Loudness.FF: 2.0,
}  # fmt: skip


def dynamic_db(pattern: Pattern, at: Fraction) -> float:
    """How much louder (in decibels) the dynamics make a moment, ``at`` beats from the start."""
    past = [dynamic for dynamic in pattern.dynamics if dynamic.at <= at]
    if not past:
        return 0.0
    here = past[-1]
    if here.hairpin is None:
        return LOUDNESS_DB[here.loudness]
    there = pattern.dynamics[len(past)]
    share = float((at - here.at) / (there.at - here.at))
    return (1 - share) * LOUDNESS_DB[here.loudness] + share * LOUDNESS_DB[there.loudness]


class Limb(StrEnum):
    """Four limbs, in the order in which strokes at one moment are listed."""

    RIGHT_HAND = "right hand"
    LEFT_HAND = "left hand"
    RIGHT_FOOT = "right foot"
    LEFT_FOOT = "left foot"

    @property
    def is_hand(self) -> bool:
        return self in _BOTH_HANDS


_BOTH_HANDS = frozenset({Limb.RIGHT_HAND, Limb.LEFT_HAND})


class Kind(StrEnum):
    """What a stroke is part of."""

    MAIN = "main"
    GRACE = "grace"
    DIDDLE = "diddle"
    BUZZ = "buzz"


class Height(StrEnum):
    """The two classes of stick height."""

    HIGH = "high"
    LOW = "low"


class StrokeName(StrEnum):
    """The four strokes, by where the stick starts and where it ends."""

    FULL = "full"
    DOWN = "down"
    TAP = "tap"
    UP = "up"

    @property
    def starts(self) -> Height:
        return Height.HIGH if self in (StrokeName.FULL, StrokeName.DOWN) else Height.LOW

    @property
    def ends(self) -> Height:
        return Height.HIGH if self in (StrokeName.FULL, StrokeName.UP) else Height.LOW


_NAMES = {(name.starts, name.ends): name for name in StrokeName}
_ORDER = {limb: number for number, limb in enumerate(Limb)}
_STARTS = {Level.GHOST: Height.LOW, Level.TAP: Height.LOW, Level.ACCENT: Height.HIGH}
_HANDS = {Side.RIGHT: Limb.RIGHT_HAND, Side.LEFT: Limb.LEFT_HAND}
_FEET = {Side.RIGHT: Limb.RIGHT_FOOT, Side.LEFT: Limb.LEFT_FOOT}


class Stroke(NamedTuple):
    """One stroke of one limb.

    ``at`` counts beats from the start of the pattern; a grace note has the ``at`` of its main note
    and sounds ``ahead_ms`` milliseconds before it, where the whole ornament is squeezed so that its
    first grace note is at most ``ahead_at_most`` beats ahead. ``name`` is None for feet.
    ``length`` is the time in beats that the stroke fills (0 for a grace note). ``event`` numbers the event
    of the stroke's lane (see :func:`wristwork.pattern.model.events`, one written pass) that it belongs to.
    Where repeats make it another moment, ``written`` is where it stands in the written bars.
    """

    at: Fraction
    limb: Limb
    level: Level
    kind: Kind
    on: Drum
    length: Fraction
    event: int
    name: StrokeName | None = None
    ahead_ms: int | None = None
    ahead_at_most: Fraction | None = None
    louder_db: float = 0.0
    written: Fraction | None = None

    @property
    def starts(self) -> Height | None:
        return self.name.starts if self.name else None

    @property
    def ends(self) -> Height | None:
        return self.name.ends if self.name else None


# Its diagram, its words, its sound, its data and its demand all ask for the strokes of the same pattern.
@lru_cache(maxsize=256)
def strokes(pattern: Pattern) -> tuple[Stroke, ...]:
    """The strokes of a pattern in playing order.

    One pass with all repeats of its bars when the pattern loops, all passes of ``repeat`` when it does not. Ordered by
    ``at``; at one moment grace notes first as written, then right hand, left hand, right foot,
    left foot.
    """
    passes = 1 if pattern.loop else pattern.repeat
    written = _one_pass(pattern)
    if pattern.dynamics:
        written = [stroke._replace(louder_db=stroke.louder_db + dynamic_db(pattern, stroke.at)) for stroke in written]
    if pattern.pickup or pattern.repeats:
        written = _in_order(written, pattern.passages)
    laid = list(written)
    for number in range(1, passes):
        laid += [stroke._replace(at=stroke.at + number * pattern.played_beats) for stroke in written]
    named = _with_names(laid, Fraction(pattern.played_beats * passes), pattern.loop)
    return tuple(sorted(named, key=_playing_order))


def _in_order(written: list[Stroke], passages: Sequence[Passage]) -> list[Stroke]:
    """The strokes of the written bars as they are played, passage after passage; none lasts on into the next one."""
    played: list[Stroke] = []
    start = 0
    for passage in passages:
        for stroke in written:
            if passage.start <= stroke.at < passage.end:
                length = min(stroke.length, passage.end - stroke.at)
                at = stroke.at - passage.start + start
                played.append(stroke._replace(at=at, length=length, written=stroke.at))
        start += passage.end - passage.start
    return played


def as_written(pattern: Pattern) -> tuple[Stroke, ...]:
    """The strokes of the written bars, as they are when they are played first; ``at`` is where they stand."""
    if pattern.loop and not (pattern.pickup or pattern.repeats or pattern.cut_short):
        return strokes(pattern)
    first: dict[int, Fraction] = {}
    found: list[Stroke] = []
    played_beats = pattern.played_beats
    for stroke in strokes(pattern):
        if stroke.at >= played_beats:
            continue
        if stroke.written is None:
            found.append(stroke)
        elif first.setdefault(int(stroke.written), stroke.at - stroke.written) == stroke.at - stroke.written:
            found.append(stroke._replace(at=stroke.written, written=None))
    return tuple(found)


def hand_strokes(pattern: Pattern) -> tuple[int, int]:
    """How many strokes the right and the left hand play in one pass, grace notes and all."""
    if pattern.repeats:
        limbs = [stroke.limb for stroke in strokes(pattern) if stroke.at < pattern.played_beats]
        return limbs.count(Limb.RIGHT_HAND), limbs.count(Limb.LEFT_HAND)
    counts = dict.fromkeys(Side, 0)
    for slot in pattern.hands.slots if pattern.hands else ():
        if isinstance(slot, Note):
            for side in slot.graces:
                counts[side] += 1
            for side in slot.sides:
                counts[side] += slot.strokes
    return counts[Side.RIGHT], counts[Side.LEFT]


def _playing_order(stroke: Stroke) -> tuple[float, int]:
    # sorted() is stable, so grace notes keep the order in which they were written. Floats of fractions so small keep
    # their order, and are compared at once.
    above, below = stroke.at.as_integer_ratio()
    return above / below, -1 if stroke.kind is Kind.GRACE else _ORDER[stroke.limb]


def _one_pass(pattern: Pattern) -> list[Stroke]:
    """One pass of the written bars: hands before feet, each limb in time order, grace notes before their main note."""
    placer = Placer(pattern)
    laid: list[Stroke] = []
    for lane, is_feet in ((pattern.hands, False), (pattern.feet, True)):
        for index, event in enumerate(events(lane) if lane else ()):
            if event.what is not None:
                laid += _event_strokes(event, event.what, index, is_feet, placer)
    return laid


def _event_strokes(event: Event, note: Note, index: int, is_feet: bool, placer: Placer) -> list[Stroke]:
    limbs = _FEET if is_feet else _HANDS
    drums = placer.drums_of(note, is_feet, event.at)
    grace_drums = placer.graces(note, drums[note.sides[0]], event.at) if note.graces else []
    laid = [
        Stroke(event.at, limbs[side], Level.GHOST, Kind.GRACE, on, Fraction(0), index, ahead_ms=ahead)
        for side, on, ahead in zip(note.graces, grace_drums, _aheads(len(note.graces)), strict=True)
    ]
    share = event.length if note.strokes == 1 else event.length / note.strokes
    for side in note.sides:
        hand = note if note.left is None else note.of(side)
        kind = Kind.BUZZ if hand.buzz else Kind.DIDDLE if hand.strokes > 1 else Kind.MAIN
        first = Stroke(event.at, limbs[side], hand.level, kind, drums[side], share, index)
        laid.append(first._replace(louder_db=STRONG_DB) if hand.strong else first)
        for number in range(1, hand.strokes):
            level = Level.GHOST if hand.level is Level.GHOST else Level.TAP
            laid.append(Stroke(event.at + number * share, limbs[side], level, kind, drums[side], share, index))
    return laid


def _aheads(graces: int) -> tuple[int, ...]:
    """Milliseconds before the main note for each of the grace notes, first one first."""
    if graces == 1:
        return (FLAM_AHEAD_MS,)
    return tuple(DRAG_SPACING_MS * number for number in range(graces, 0, -1))


def _with_names(laid: list[Stroke], span: Fraction, loop: bool) -> list[Stroke]:
    """Name the strokes of each hand and give each ornament its room; the order stays."""
    named = list(laid)
    starts = _start_heights(laid)
    room: dict[tuple[bool, Fraction], Fraction] = {}
    for limb in Limb:
        chain = [index for index, stroke in enumerate(laid) if stroke.limb is limb]  # in time order, as they are laid
        for link, index in enumerate(chain):
            stroke = laid[index]
            if limb.is_hand:
                is_last = link + 1 == len(chain)
                after = Height.LOW if is_last and not loop else starts[chain[(link + 1) % len(chain)]]
                named[index] = stroke._replace(name=_NAMES[starts[index], after])
            if _opens_ornament(laid, index):
                before = laid[chain[link - 1]] if link > 0 or loop else None
                room[limb.is_hand, stroke.at] = _room_after(before, stroke, span)
    return [
        stroke._replace(ahead_at_most=room[stroke.limb.is_hand, stroke.at]) if stroke.kind is Kind.GRACE else stroke
        for stroke in named
    ]


def _start_heights(laid: list[Stroke]) -> list[Height]:
    """The height from which each stroke starts, in the order in which they are laid."""
    heights = [_STARTS[stroke.level] for stroke in laid]
    if not any(stroke.level is Level.ACCENT and stroke.limb in _BOTH_HANDS for stroke in laid):
        for index in range(1, len(laid)):
            if _ends_ornament(laid, index) and laid[index].level is not Level.GHOST:
                heights[index] = Height.HIGH
    return heights


def _ends_ornament(laid: list[Stroke], index: int) -> bool:
    """Is this the main note of a flam or a drag?"""
    before, stroke = laid[index - 1], laid[index]
    return before.kind is Kind.GRACE and stroke.kind is not Kind.GRACE and before.at == stroke.at


def _opens_ornament(laid: list[Stroke], index: int) -> bool:
    """Is this the first grace note before its main note? (``laid`` keeps an ornament together.)"""
    if laid[index].kind is not Kind.GRACE:
        return False
    return index == 0 or laid[index - 1].kind is not Kind.GRACE or laid[index - 1].at != laid[index].at


def _room_after(before: Stroke | None, stroke: Stroke, span: Fraction) -> Fraction:
    """How far ahead an ornament may start: half the time since its first hand's stroke before, in beats."""
    if before is None:
        return Fraction(1, 2)
    elapsed = stroke.at - before.at
    return (elapsed if elapsed > 0 else elapsed + span) / 2
