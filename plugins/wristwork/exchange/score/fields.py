"""Lines of a pattern that the notes of a score don't hold, kept in its fields for other people's data."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from wristwork.exchange.vocabulary import FIELD
from wristwork.pattern.model import Manner, Pattern, Swing, Tempo

SIXTEENTH = Fraction(1, 16)


def fields(pattern: Pattern) -> Iterator[tuple[str, str]]:
    """The name of each field and what it holds, as the line of this name does."""
    yield f"{FIELD}tempo", _tempo(pattern.tempo)
    yield f"{FIELD}time", str(pattern.time)
    yield f"{FIELD}loop", "yes" if pattern.loop else "no"
    if not pattern.repeats:  # where the whole goes round, its end has a sign that is none of these
        yield f"{FIELD}repeats", "none"
    if pattern.repeat > 1:
        yield f"{FIELD}repeat", str(pattern.repeat)
    if pattern.swing is not None:
        yield f"{FIELD}feel", feel_line(pattern.swing)
    if pattern.motion is not Manner.WRIST:
        yield f"{FIELD}motion", pattern.motion.value


def feel_line(swing: Swing) -> str:
    """How it swings, as the line ``feel`` says it."""
    unit = " sixteenths" if swing.unit == SIXTEENTH else ""
    return f"swing{unit} {swing.ratio[0]}:{swing.ratio[1]}" if swing.ratio else f"swing{unit}"


def _tempo(tempo: Tempo) -> str:
    return f"{tempo.start} to {tempo.goal} by {tempo.step}"
