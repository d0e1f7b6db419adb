"""Dealt strikes → the lines that say which drum each of them is on."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from wristwork.exchange.incoming.strikes import Strike
from wristwork.exchange.vocabulary import PEDALS
from wristwork.pattern.drum_line import drum_line_text
from wristwork.pattern.drums import Drum
from wristwork.pattern.model import BOTH, DrumPair, Lane, Note, Side
from wristwork.technique.strokes import Limb

_LIMBS = {Side.RIGHT: Limb.RIGHT_HAND, Side.LEFT: Limb.LEFT_HAND}
_WORDS = {Limb.RIGHT_HAND: "right", Limb.LEFT_HAND: "left", Limb.RIGHT_FOOT: "right foot", Limb.LEFT_FOOT: "left foot"}
Lines = list[tuple[str, str]]


def drum_lines(strikes: Sequence[Strike], lane: Lane | None, *, in_turn: bool) -> Lines:
    """The lines ``drums`` and ``place``.

    Where a hand changes drums, the line ``drums`` names each, or (``in_turn``) rules that take drums in turn.
    """
    used = {limb: [strike.on for strike in strikes if strike.limb is limb] for limb in Limb}
    hands = {drum for limb in _LIMBS.values() for drum in used[limb]}
    rules: list[str] = []
    lines: Lines = []
    has_feet = any(strike.is_foot for strike in strikes)
    if len(hands) == 1:
        (drum,) = hands
        if drum is not (Drum.SNARE if has_feet else Drum.PAD):
            rules.append(f"all on {drum}")
    elif hands and (in_turn or all(len(set(used[limb])) <= 1 for limb in _LIMBS.values())):
        rules += [f"{_WORDS[limb]} on {_in_turn(used[limb])}" for limb in _LIMBS.values() if used[limb]]
    elif hands and lane is not None:
        lines.append(("drums", drum_line_text(_pairs(strikes, lane), lane)))
    for limb in (Limb.RIGHT_FOOT, Limb.LEFT_FOOT):
        if any(PEDALS.get(drum) is not limb or drum is Drum.FOOT_SPLASH for drum in used[limb]):
            rules.append(f"{_WORDS[limb]} on {_in_turn(used[limb])}")
    rules += _grace_rules(strikes)
    return [*lines, ("place", ", ".join(rules))] if rules else lines


def _in_turn(drums: Sequence[Drum]) -> str:
    """Drums one after the other, as often as they come before they come again."""
    for length in range(1, len(drums) + 1):
        if all(drum is drums[number % length] for number, drum in enumerate(drums)):
            return " then ".join(drums[:length])
    return ""


def _pairs(strikes: Iterable[Strike], lane: Lane) -> tuple[DrumPair, ...]:
    """The drums of each note of the hands, right before left."""
    at: dict[tuple[Fraction, Limb], Drum] = {(s.at, s.limb): s.on for s in strikes if s.limb is not None}
    found: list[DrumPair] = []
    for event in lane.events:
        if isinstance(event.what, Note):
            drums = [at.get((event.at, _LIMBS[side])) for side in BOTH]
            right, left = drums[0] or drums[1], drums[1] or drums[0]
            if right and left:
                found.append((right, left))
    return tuple(found)


def _grace_rules(strikes: Sequence[Strike]) -> list[str]:
    """Where grace notes are on other drums than their main notes: all of that hand, in turn, hands before feet."""
    in_order = sorted((strike for strike in strikes if strike.graces), key=lambda strike: (strike.is_foot, strike.at))
    if all(grace.on is strike.on for strike in in_order for grace in strike.graces):
        return []
    rules = []
    for side, limbs in (("right", (Limb.RIGHT_HAND, Limb.RIGHT_FOOT)), ("left", (Limb.LEFT_HAND, Limb.LEFT_FOOT))):
        drums = [drum for strike in in_order for drum in [g.on for g in strike.graces if g.limb in limbs][:1]]
        if drums:
            rules.append(f"{side} grace notes on {_in_turn(drums)}")
    return rules
