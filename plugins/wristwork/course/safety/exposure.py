"""How much sound a day of practice holds: dose, day level, allowed time, protection.

Levels are sound levels in dB, minutes are minutes, doses and shares are percent of what is
recommended for a working adult's day. The formulas are those of NIOSH, Publication 98-126 (1998);
every number they use stands in :mod:`wristwork.course.safety.facts`. The result is an estimate for
planning: not a measurement, not law, and not made for children.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from wristwork.course.safety import facts
from wristwork.languages.say import marked, say


class ExposureError(ValueError):
    """A level, a time, a protection or a surface that cannot be counted with; the message says what would do."""


class Weighting(StrEnum):
    """How a sound level meter weighs the frequencies: A as most do by default, C with more of the low sound."""

    A = "A"
    C = "C"


@dataclass(frozen=True, slots=True)
class ProtectionKind:
    """One way in which hearing protection states what it takes off, in dB.

    What counts is ``label × factor``, less ``less_from_a`` or ``less_from_c`` after the weighting of
    the level it is taken from, and never less than 0. ``words`` is how a tutor writes it, with
    ``#`` for the labelled number (none for no protection).
    """

    key: str
    title: str
    words: str
    factor: float
    less_from_a: float
    less_from_c: float

    @property
    def has_label(self) -> bool:
        """Does it take a number from a label or a fit test?"""
        return "#" in self.words


_NRR_LESS = facts.NRR_LESS_FROM_A.value
_SNR_LESS = facts.SNR_LESS.value

NO_PROTECTION = ProtectionKind("none", marked("No protection"), "none", 0, 0, 0)
EARMUFFS = ProtectionKind(
    "nrr-earmuffs", marked("Earmuffs, labelled NRR"), "NRR # earmuffs", facts.NRR_EARMUFFS.value, _NRR_LESS, 0
)
FOAM_PLUGS = ProtectionKind(
    "nrr-foam-plugs", marked("Foam plugs, labelled NRR"), "NRR # foam plugs", facts.NRR_FOAM_PLUGS.value, _NRR_LESS, 0
)
OTHER_PLUGS = ProtectionKind(
    "nrr-other-plugs",
    marked("Other plugs, labelled NRR"),
    "NRR # other plugs",
    facts.NRR_OTHER_PLUGS.value,
    _NRR_LESS,
    0,
)
LABELLED_SNR = ProtectionKind("snr", marked("Any protection, labelled SNR"), "SNR #", 1, _SNR_LESS, _SNR_LESS)
FIT_TESTED = ProtectionKind("fit-tested", marked("Fit-tested value"), "fit-tested #", 1, 0, 0)

PROTECTION_KINDS = (NO_PROTECTION, EARMUFFS, FOAM_PLUGS, OTHER_PLUGS, LABELLED_SNR, FIT_TESTED)


@dataclass(frozen=True, slots=True)
class Range:
    """Inclusive bounds of what is believed when somebody types it."""

    low: float
    high: float

    def __contains__(self, value: float) -> bool:
        return math.isfinite(value) and self.low <= value <= self.high


# Our own settings: outside them a number is a slip of the pen, not a level, a day or a label.
LEVELS = Range(40, 140)
MINUTES = Range(0, 24 * 60)
LABELS = Range(0, 50)


@dataclass(frozen=True, slots=True)
class Protection:
    """Hearing protection as worn: its kind and the number on its label (or of its fit test), in dB."""

    kind: ProtectionKind = NO_PROTECTION
    label: float = 0

    def __post_init__(self) -> None:
        if self.label not in LABELS:
            raise ExposureError(
                say(
                    "protection of {label} dB: a label or a fit test says {low} to {high} dB",
                    label=f"{self.label:g}",
                    low=f"{LABELS.low:g}",
                    high=f"{LABELS.high:g}",
                )
            )

    def attenuation(self, weighting: Weighting = Weighting.A) -> float:
        """What it counts for in dB, taken from a level of that weighting."""
        less = self.kind.less_from_a if weighting is Weighting.A else self.kind.less_from_c
        return max(0.0, self.label * self.kind.factor - less)

    def __str__(self) -> str:
        return self.kind.words.replace("#", f"{self.label:g}")


UNPROTECTED = Protection()


def read_protection(text: str) -> Protection:
    """Protection from words such as ``NRR 22 foam plugs``, ``SNR 25``, ``fit-tested 15``, ``none``."""
    typed = " ".join(text.split())
    for kind in PROTECTION_KINDS:
        found = re.fullmatch(re.escape(kind.words).replace(r"\#", r"(\d+(?:\.\d+)?)"), typed, re.IGNORECASE)
        if found:
            return Protection(kind, float(found[1]) if kind.has_label else 0)
    known = ", ".join(kind.words.replace("#", "20") for kind in PROTECTION_KINDS)
    raise ExposureError(say("protection {typed}: write it like one of {known}", typed=repr(text), known=known))


@dataclass(frozen=True, slots=True)
class Surface:
    """What is played on, with the range its level is guessed in, in dB(A).

    ``low`` and ``high`` are None where the level is that of the headphones and no guess holds.
    """

    name: str
    title: str
    low: float | None
    high: float | None

    @property
    def level(self) -> float | None:
        """The level to count with until somebody measures: the higher end of the guess."""
        return self.high

    @property
    def is_loud(self) -> bool:
        """Is this an acoustic kit, where ears are to be protected whatever the plan says?"""
        return self.high is not None and self.high > facts.QUIET_KIT_HIGH.value


PAD = Surface(marked("practice pad"), marked("Practice pad"), facts.PAD_LOW.value, facts.PAD_HIGH.value)
ELECTRONIC_KIT = Surface(marked("electronic kit"), marked("Mesh-head or electronic kit with headphones"), None, None)
QUIET_KIT = Surface(
    marked("quiet kit"),
    marked("Kit with low-volume heads and cymbals"),
    facts.QUIET_KIT_LOW.value,
    facts.QUIET_KIT_HIGH.value,
)
ACOUSTIC_KIT = Surface(
    marked("acoustic kit"),
    marked("Acoustic kit in a small room"),
    facts.ACOUSTIC_KIT_LOW.value,
    facts.ACOUSTIC_KIT_HIGH.value,
)

SURFACES = (PAD, ELECTRONIC_KIT, QUIET_KIT, ACOUSTIC_KIT)


def surface(name: str) -> Surface:
    """The surface of that name, as in a week's ``surface: acoustic kit`` (``pad`` is the practice pad).

    It may be said in English or in the language that is spoken.
    """
    typed = " ".join(name.lower().split())
    for known in SURFACES:
        if typed in (known.name, say(known.name).lower()) or (typed == "pad" and known is PAD):
            return known
    names = ", ".join(say(known.name) for known in SURFACES)
    raise ExposureError(say("surface {typed}: there are {known}", typed=repr(name), known=names))


@dataclass(frozen=True, slots=True)
class DayPart:
    """A part of the day: a level, how long, and what protects the ears."""

    level: float
    minutes: float
    protection: Protection = UNPROTECTED
    weighting: Weighting = Weighting.A

    def __post_init__(self) -> None:
        if self.level not in LEVELS:
            raise ExposureError(f"level of {self.level:g} dB: {LEVELS.low:g} to {LEVELS.high:g} dB can be counted with")
        if self.minutes not in MINUTES:
            raise ExposureError(f"{self.minutes:g} minutes: a part of a day has {MINUTES.low:g} to {MINUTES.high:g}")

    @property
    def level_at_the_ear(self) -> float:
        """The level counted, in dB: an unprotected level in dB(C) stands for dB(A), which errs on the safe side."""
        return protected_level(self.level, self.protection, self.weighting)


def allowed_minutes(level: float) -> float:
    """Minutes at ``level`` dB(A) that make up a full day's dose: ``480 / 2^((L − 85) / 3)``."""
    halvings = (level - facts.LIMIT_LEVEL.value) / facts.EXCHANGE_RATE.value
    return facts.LIMIT_MINUTES.value / 2**halvings


def protected_level(level: float, protection: Protection = UNPROTECTED, weighting: Weighting = Weighting.A) -> float:
    """The level in dB that counts once the protection is taken off ``level``."""
    return level - protection.attenuation(weighting)


def dose(parts: Iterable[DayPart]) -> float:
    """The day's dose in percent: ``100 · Σ Cᵢ / Tᵢ``."""
    return facts.FULL_DOSE.value * sum(
        part.minutes / allowed_minutes(part.level_at_the_ear) for part in _one_day(parts)
    )


def level_ex_8h(parts: Iterable[DayPart]) -> float | None:
    """The day as one level over 8 hours in dB(A), ``10·log10(Σ (Cᵢ/480)·10^(Lᵢ/10))``; None for a day without sound."""
    energy = sum(
        part.minutes / facts.LIMIT_MINUTES.value * 10 ** (part.level_at_the_ear / 10) for part in _one_day(parts)
    )
    return 10 * math.log10(energy) if energy > 0 else None


def minutes_left(parts: Iterable[DayPart], level: float) -> float:
    """Minutes at ``level`` dB(A) until the day's dose is full; 0 where it is."""
    left = 1 - dose(parts) / facts.FULL_DOSE.value
    return max(0.0, left) * allowed_minutes(level)


def sound_share(
    minutes: float, where: Surface, protection: Protection = UNPROTECTED, measured: float | None = None
) -> float | None:
    """Percent of a day's dose that ``minutes`` on that surface take.

    ``measured`` is the tutor's own level in dB(A) in place of the guess. None where the level is
    that of the headphones and nobody measured it.
    """
    level = where.level if measured is None else measured
    return None if level is None else dose([DayPart(level, minutes, protection)])


def _one_day(parts: Iterable[DayPart]) -> tuple[DayPart, ...]:
    day = tuple(parts)
    total = sum(part.minutes for part in day)
    if total > MINUTES.high:
        raise ExposureError(f"{total:g} minutes in all: a day has {MINUTES.high:g}")
    return day
