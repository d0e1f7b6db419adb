"""The demand of exercises, worked out once and kept."""

from __future__ import annotations

import json
from dataclasses import asdict
from sys import intern

from wristwork.pattern.model import Pattern
from wristwork.site.figure.drawn import Drawings
from wristwork.store.cache import Cache, digest
from wristwork.technique.demand import Demand, HandDemand, demand


class KeptDemand:
    """Works out demand at the goal tempo, or finds it in the cache."""

    def __init__(self, cache: Cache, drawings: Drawings) -> None:
        self._cache = cache
        self._drawings = drawings

    def at_goal(self, pattern: Pattern) -> Demand:
        """The demand of a pattern at its goal tempo."""
        key = digest("demand", self._drawings.key_of(pattern))
        return _read(self._cache.text(".json", key, lambda: json.dumps(asdict(demand(pattern, pattern.tempo.goal)))))


def _read(text: str) -> Demand:
    """The demand that a kept text holds."""
    kept = json.loads(text)
    hands = {name: HandDemand(**kept[name]) for name in ("right_hand", "left_hand")}
    return Demand(**{**kept, **hands, "parts": tuple((intern(name), share) for name, share in kept["parts"])})
