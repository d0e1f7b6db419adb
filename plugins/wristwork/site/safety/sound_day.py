"""The sound-day calculator and the tables beside it, as HTML on one line each.

The calculator's script reads every number from the ``data-ww-sound-day`` attribute, which is made
here from the facts table: the numbers live once. Without scripts the table inside is what is read.
"""

from __future__ import annotations

import json
import math
from collections.abc import Sequence

from markupsafe import Markup

from wristwork.course.safety import exposure, facts
from wristwork.course.safety.exposure import Protection, Surface
from wristwork.languages.numbers import number
from wristwork.languages.say import say
from wristwork.site.templating import markup

# What the table without scripts shows beside "without protection".
_COUNTED_PROTECTION = (10, 20)


def say_minutes(minutes: float) -> str:
    """A time in words, rounded down: below ten minutes to a tenth, else to the minute."""
    # The tiny addition keeps 7.5 from becoming 7.4 where the float lies a hair below.
    minutes += 1e-9
    if minutes >= exposure.MINUTES.high:
        return say("24 h")
    if minutes < 10:
        return say("{minutes} min", minutes=number(math.floor(minutes * 10) / 10))
    whole = math.floor(minutes)
    hours, rest = divmod(whole, 60)
    if not hours:
        return say("{minutes} min", minutes=whole)
    return say("{hours} h {rest} min", hours=hours, rest=rest) if rest else say("{hours} h", hours=hours)


def calculator_data() -> str:
    """What the script counts with, as JSON: limits, formulas' constants, surfaces, kinds of protection."""
    data = {
        "limitLevel": facts.LIMIT_LEVEL.value,
        "limitMinutes": facts.LIMIT_MINUTES.value,
        "exchangeRate": facts.EXCHANGE_RATE.value,
        "fullDose": facts.FULL_DOSE.value,
        "halfDose": facts.HALF_A_DAY.value,
        "levels": [exposure.LEVELS.low, exposure.LEVELS.high],
        "minutes": [exposure.MINUTES.low, exposure.MINUTES.high],
        "labels": [exposure.LABELS.low, exposure.LABELS.high],
        "surfaces": [_surface_data(surface) for surface in exposure.SURFACES],
        "protection": [
            {
                "key": kind.key,
                "title": say(kind.title),
                "hasLabel": kind.has_label,
                "factor": kind.factor,
                "lessFromA": kind.less_from_a,
                "lessFromC": kind.less_from_c,
            }
            for kind in exposure.PROTECTION_KINDS
        ],
    }
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))


def calculator() -> Markup:
    """The place where the script builds the form, holding the table that serves without it."""
    return markup("safety/sound_day.html", data=calculator_data(), table=_surface_times())


def allowed_times() -> Markup:
    """The published table of levels and times."""
    rows = [(f"{level:g} dB(A)", say_minutes(minutes)) for level, minutes in facts.PUBLISHED_TIMES]
    caption = say("Each of these alone makes up the whole dose of a working adult’s day (NIOSH 1998)")
    return _table(caption, (say("Level"), say("Time")), rows)


def surface_levels() -> Markup:
    """What each surface is taken to be until somebody measures."""
    rows = [(say(surface.title), _guess(surface), _counted(surface)) for surface in exposure.SURFACES]
    return _table(
        say("Starting guesses, not measurements"),
        (say("Surface"), say("Guessed level"), say("Counted as")),
        rows,
    )


def protection_rule() -> Markup:
    """How each kind of labelled protection is counted."""
    rows = [
        (say(kind.title), _says_factor(kind), _says_less(kind.less_from_a), _says_less(kind.less_from_c))
        for kind in exposure.PROTECTION_KINDS
        if kind.has_label
    ]
    columns = (say("Protection"), say("Of the number"), say("Less, from dB(A)"), say("Less, from dB(C)"))
    return _table(say("What protection is counted for, never below 0"), columns, rows)


def formulas() -> Markup:
    """The formulas with the very constants that are used."""
    minutes, level = f"{facts.LIMIT_MINUTES.value:g}", f"{facts.LIMIT_LEVEL.value:g}"
    step, full = f"{facts.EXCHANGE_RATE.value:g}", f"{facts.FULL_DOSE.value:g}"
    lines = (
        (say("Allowed time in minutes at level L"), f"T = {minutes} / 2^((L − {level}) / {step})"),
        (say("Dose in percent, for parts of C minutes each"), f"D = {full} · Σ C / T"),
        (say("The day as one level"), f"L_EX,8h = 10 · log10( Σ (C / {minutes}) · 10^(L / 10) )"),
    )
    return markup("safety/formulas.html", lines=lines)


def _surface_data(surface: Surface) -> dict[str, object]:
    return {"name": surface.name, "title": say(surface.title), "level": surface.level}


def _surface_times() -> Markup:
    worn = (say("Protection that counts for {counted} dB", counted=counted) for counted in _COUNTED_PROTECTION)
    columns = (say("Surface"), say("Counted as"), say("Without protection"), *worn)
    rows = [
        (say(surface.title), _counted(surface), *_times(surface.level))
        for surface in exposure.SURFACES
        if surface.level is not None
    ]
    return _table(say("Time in which each surface alone makes up a whole day’s dose"), columns, rows)


def _times(level: float) -> tuple[str, ...]:
    worn = [Protection()] + [Protection(exposure.FIT_TESTED, counted) for counted in _COUNTED_PROTECTION]
    return tuple(
        say_minutes(exposure.allowed_minutes(exposure.protected_level(level, protection))) for protection in worn
    )


def _guess(surface: Surface) -> str:
    if surface.low is None:
        return say("as the headphones")
    return say("{low} to {high} dB(A)", low=f"{surface.low:g}", high=f"{surface.high:g}")


def _counted(surface: Surface) -> str:
    return say("no guess: measure") if surface.level is None else f"{surface.level:g} dB(A)"


def _says_factor(kind: exposure.ProtectionKind) -> str:
    return say("all of it") if kind.factor == 1 else f"× {number(kind.factor)}"


def _says_less(less: float) -> str:
    return say("{less} dB", less=f"{less:g}") if less else say("none")


def _table(caption: str, columns: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> Markup:
    """A table with a caption; the first cell of each row is its heading.

    It may scroll sideways on a narrow screen, so the keyboard must be able to reach it.
    """
    return markup("safety/facts_table.html", caption=caption, columns=columns, rows=rows)
