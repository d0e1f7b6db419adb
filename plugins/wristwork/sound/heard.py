"""All that can be heard of a pattern, as one text: what its previews are kept by."""

from __future__ import annotations

import json

from wristwork.pattern.model import Pattern
from wristwork.pattern.pace import pace
from wristwork.technique.strokes import strokes


def heard(pattern: Pattern) -> str:
    """The same for patterns whose previews are the same on any kit."""
    told: list[object] = [
        pattern.tempo.start,
        pattern.tempo.goal,
        pattern.time.beats,
        pattern.played_beats,
        pattern.repeat,
        pattern.loop,
    ]
    sounding = [
        (
            str(s.at),
            s.level,
            s.kind,
            s.on,
            s.limb.is_hand and s.limb,  # each hand takes sounds of its own
            str(s.length),
            s.ahead_ms,
            str(s.ahead_at_most),
            *([s.louder_db] if s.louder_db else []),
        )
        for s in strokes(pattern)
    ]
    if pattern.tempos:
        told.append([[str(span.start), str(span.share)] for span in pace(pattern).spans])
    if pattern.time.pulses:
        told.append(str(pattern.time))
    if pattern.pickup:
        told.append(f"after {pattern.pickup}")
    if pattern.swing is not None:
        told += [str(pattern.swing.unit), pattern.swing.ratio or "by tempo", str(pattern.time)]
    return json.dumps([told, sounding])
