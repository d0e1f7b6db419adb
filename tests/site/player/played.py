"""What was asked of a player and what they played: with known jitter, drift and faults, or without any."""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from tests.site.player.takes import MEANT_DB, Stroke

# Capitals are accents; a sixteenth each.
PATTERNS = {
    "singles": "rlrlrlrl",
    "accents": "RlrlLrlr",
    "doubles": "rrllrrll",
    "paradiddle": "RlrrLrll",
    "moving accent": "RlrlrLrlrlRlrlrL",
}
START_S = 0.6
SLOTS_A_BEAT = 4


@dataclass(frozen=True)
class Asked:
    """A stroke that is asked for, as the scripts know it."""

    time: float
    limb: str
    level: str
    name: str
    key: str
    isSecond: bool
    kind: str = "main"
    place: str = "pad"
    isOptional: bool = False

    @property
    def is_right(self) -> bool:
        return self.limb == "right hand"


@dataclass(frozen=True)
class Fault:
    """What goes wrong, and what is to be said of it: the kind, and the hand where it is one."""

    kind: str
    side: str | None = None
    decibels: Callable[[Asked], float] = lambda _: 0.0
    seconds: Callable[[Asked], float] = lambda _: 0.0
    is_missed: Callable[[Asked, int], bool] = lambda _, __: False
    faster: float = 0.0
    patterns: Sequence[str] = tuple(PATTERNS)


FAULTS: Mapping[str, Fault] = {
    "right hand louder": Fault("loud hand", "right", decibels=lambda stroke: 4.0 * stroke.is_right),
    "left hand louder": Fault("loud hand", "left", decibels=lambda stroke: 4.0 * (not stroke.is_right)),
    "right hand late": Fault("late hand", "right", seconds=lambda stroke: 0.022 * stroke.is_right),
    "left hand late": Fault("late hand", "left", seconds=lambda stroke: 0.022 * (not stroke.is_right)),
    "left strokes missing": Fault(
        "missed", "left", is_missed=lambda stroke, index: not stroke.is_right and index % 3 == 1
    ),
    "accents as soft as taps": Fault(
        "accents",
        decibels=lambda stroke: -7.0 * (stroke.level == "accent"),
        patterns=("accents", "paradiddle", "moving accent"),
    ),
    "loud up strokes": Fault(
        "loud ups",
        decibels=lambda stroke: 5.0 * (stroke.name == "up"),
        patterns=("accents", "paradiddle", "moving accent"),
    ),
    "second of a double soft": Fault(
        "soft seconds", decibels=lambda stroke: -5.0 * stroke.isSecond, patterns=("doubles", "paradiddle")
    ),
    "second of a double late": Fault(
        "seconds in time", seconds=lambda stroke: 0.024 * stroke.isSecond, patterns=("doubles", "paradiddle")
    ),
    "too fast": Fault("drift", faster=0.03),
    "taps now loud, now soft": Fault(
        "uneven taps",
        # By chance, and the same in every run.
        decibels=lambda stroke: -8.0 * (stroke.level == "tap") * (random.Random(stroke.time).random() < 0.5),
    ),
}
CLEAN = Fault("")


def asked(pattern: str, tempo: float, bars: int) -> list[Asked]:
    """So many bars of four of a pattern, from :data:`START_S` on."""
    letters = PATTERNS[pattern]
    count = len(letters)
    strokes = []
    for index in range(bars * 4 * SLOTS_A_BEAT):
        letter = letters[index % count]
        side = letter.lower()
        after = next(letters[(index + step) % count] for step in range(1, count + 1)
                     if letters[(index + step) % count].lower() == side)  # fmt: skip
        names = ("full", "down") if letter.isupper() else ("up", "tap")
        strokes.append(
            Asked(
                time=START_S + index * 60 / tempo / SLOTS_A_BEAT,
                limb="right hand" if side == "r" else "left hand",
                level="accent" if letter.isupper() else "tap",
                name=names[not after.isupper()],
                key=f"{index % count}/{SLOTS_A_BEAT}",
                isSecond=index > 0 and letters[(index - 1) % count].lower() == side,
            )
        )
    return strokes


def played(
    rng: np.random.Generator, strokes: Sequence[Asked], fault: Fault, *, jitter: float, uneven_db: float, offset: float
) -> list[Stroke]:
    """The strokes with ``jitter`` (seconds) and ``uneven_db`` as standard deviations, ``offset`` seconds later."""
    found = []
    for index, stroke in enumerate(strokes):
        if fault.is_missed(stroke, index):
            continue
        time = START_S + (stroke.time - START_S) * (1 - fault.faster) + offset
        late = rng.normal(0, jitter) + fault.seconds(stroke)
        level = MEANT_DB[stroke.level] + rng.normal(0, uneven_db) + fault.decibels(stroke)
        found.append(Stroke(time + late, level, stroke.is_right))
    return sorted(found, key=lambda stroke: stroke.time)


def as_heard(strokes: Sequence[Stroke], zero_db: float = -30.0) -> list[dict[str, float]]:
    """The strokes as the finder would tell of them if it made no mistake."""
    return [{"time": stroke.time, "level": stroke.level + zero_db} for stroke in strokes]


def as_asked(strokes: Sequence[Asked]) -> list[dict[str, Any]]:
    return [replace(stroke).__dict__ for stroke in strokes]
