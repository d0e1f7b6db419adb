"""Moments in the words of a pattern: ``bar 3``, ``beat 4 of bar 2``, ``2& of bar 1``."""

from __future__ import annotations

from fractions import Fraction

from wristwork.pattern.model import TimeSignature

_SAID = {
    Fraction(1, 4): "e",
    Fraction(1, 2): "&",
    Fraction(3, 4): "a",
    Fraction(1, 3): "trip",
    Fraction(2, 3): "let",
}


def moment_words(at: Fraction, time: TimeSignature, pickup: int) -> str | None:
    """A moment, so many beats from the start of the first bar; None where there is no word for it."""
    bar, rest = divmod(at, time.beats)
    number = int(bar) + (0 if pickup else 1)
    if number < 1:
        return None
    beat, share = divmod(rest, 1)
    if not rest:
        return f"bar {number}"
    if not share:
        return f"beat {int(beat) + 1} of bar {number}"
    said = _SAID.get(share)
    return f"{int(beat) + 1}{said} of bar {number}" if said else None
