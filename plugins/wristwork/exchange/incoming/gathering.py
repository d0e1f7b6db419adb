"""Strokes that are written one by one → fewer strikes with slashes, where a slash means the same."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

from wristwork.exchange.incoming.strikes import Strike
from wristwork.technique.strokes import Limb

_COUNTS = (4, 3, 2)


def gathered(strikes: Iterable[Strike]) -> list[Strike]:
    """Even strokes of one limb that follow each other on one drum, as many as a slash can mean, in one."""
    every = list(strikes)
    found: list[Strike] = []
    for limb in Limb:
        left = [strike for strike in every if strike.limb is limb]
        while left:
            count = next((count for count in _COUNTS if _is_one(left[:count], count)), 1)
            first = left[0]
            one = replace(first, length=first.length * count, strokes=count) if count > 1 else first
            found.append(one)
            left = left[count:]
    return sorted(found, key=lambda strike: strike.at)


def _is_one(strikes: Sequence[Strike], count: int) -> bool:
    """Do these strokes say what one with slashes says?"""
    if len(strikes) < count or strikes[0].strokes > 1 or strikes[0].buzz:
        return False
    follow = all(here.end == there.at for here, there in pairwise(strikes))
    whole = replace(strikes[0], length=strikes[0].length * count, strokes=count)
    return follow and whole.apart() == tuple(strikes)
