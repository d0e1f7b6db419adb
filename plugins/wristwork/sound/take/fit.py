"""How a pattern lies on what was played, as a value: whoever only reads it needs no library for it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fit:
    """How a pattern lies on a take.

    A pass begins ``zero_s`` seconds into the recording, at ``tempo`` beats a minute, and is played from ``from_s`` to
    ``to_s``. ``error_ms`` is how far off strokes are in the mean (root of squares), ``heard`` the share of the
    pattern's strokes that were heard there.
    """

    zero_s: float
    tempo: float
    from_s: float
    to_s: float
    error_ms: float
    heard: float
