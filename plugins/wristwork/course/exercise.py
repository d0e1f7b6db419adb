"""The exercise as data: what `x/<id>/exercise.json` holds."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from wristwork.course.demand_data import demand_data
from wristwork.pattern.click import parts_of_a_beat
from wristwork.pattern.clicks import Between, PracticeClick
from wristwork.pattern.model import Drum, Manner, Pattern, TimeSignature
from wristwork.pattern.pace import pace
from wristwork.sound.swing import even_pairs, pair_beats
from wristwork.technique.strokes import Kind, Stroke, strokes

SCHEMA = 2
# What came after version 1 and changes what is heard, by the keys of an exercise or of its strokes.
_DRUMS_SINCE_1 = frozenset(
    {
        Drum.CHINA, Drum.SPLASH, Drum.SECOND_CRASH, Drum.HALF_OPEN_HI_HAT, Drum.FOOT_SPLASH, Drum.LOW_TOM, Drum.RIM,
        Drum.STICK_ON_STICK, Drum.BRUSH_SWEEP,
    }
)  # fmt: skip
_HEARD_SINCE_1 = ("gain", "paces", "passages", "pickup", "pulses", "swing")


@dataclass(frozen=True, slots=True)
class Lesson:
    """Where an exercise is taught.

    ``address`` is the lesson page's address in the site with the exercise's anchor, as in
    ``week-03/#accented-paradiddle``; ``week`` and ``grade`` come from the page, None where it has none.
    """

    address: str
    week: int | None = None
    grade: int | None = None


def exercise_data(pattern: Pattern, lesson: Lesson) -> dict[str, Any]:
    """The exercise as plain JSON values. The pattern must be an exercise, with id and title."""
    if pattern.id is None or pattern.title is None:
        raise ValueError("an example is no exercise: it has no id and no data")
    played = strokes(pattern)
    data: dict[str, Any] = {
        "schema": SCHEMA,
        "id": pattern.id,
        "title": pattern.title,
        "lesson": lesson.address,
        "week": lesson.week,
        "grade": lesson.grade,
        "from": pattern.grows_from,
        "requires": list(pattern.requires),
        "time": [pattern.time.upper, pattern.time.lower],
        "tempo": {"start": pattern.tempo.start, "goal": pattern.tempo.goal, "step": pattern.tempo.step},
        "beats": pattern.played_beats,
        "loop": pattern.loop,
        "repeat": pattern.repeat,
        "strokes": [stroke_data(stroke) for stroke in played],
        "demand": demand_data(pattern),
    }
    if pattern.swing is not None:
        share = Fraction(pattern.swing.ratio[0], sum(pattern.swing.ratio)) if pattern.swing.ratio else None
        pair = pair_beats(pattern, pattern.swing)
        data["swing"] = {
            "pair": _fraction(pair),
            "share": _fraction(share) if share else None,
            "even": sorted(even_pairs(pattern, played)),
        }
    if pattern.motion is not Manner.WRIST:
        data["motion"] = pattern.motion.value
    if pattern.click is not None:
        data["click"] = _click(pattern.click, pattern.time)
    if pattern.pickup:
        data["pickup"] = pattern.pickup
    if pattern.pickup or pattern.repeats:
        data["passages"] = [list(passage) for passage in pattern.passages]
    if pattern.tempos:
        spans = pace(pattern).spans
        data["paces"] = [{"from": _fraction(span.start), "share": _fraction(span.share)} for span in spans]
    if pattern.time.pulses:
        data["pulses"] = list(pattern.time.pulses)
    # A buzz fills its value, which no other stroke's sound needs to know: so it stands beside the strokes.
    buzzes = [_fraction(stroke.length) for stroke in played if stroke.kind is Kind.BUZZ]
    if buzzes:
        data["buzzes"] = buzzes
    data |= _chart(pattern)
    keys = {*data, *(key for stroke in data["strokes"] for key in stroke)}
    drums = ["on"] if any(stroke.on in _DRUMS_SINCE_1 for stroke in played) else []
    return {**data, "since_1": [*drums, *(key for key in _HEARD_SINCE_1 if key in keys)]}


def _click(click: PracticeClick, time: TimeSignature) -> dict[str, Any]:
    """A practice click: ``into`` is how many parts of a beat sound."""
    return {
        "beats": list(click.beats),
        "offBeats": click.off_beats,
        "into": parts_of_a_beat(click.between, time),
        "swung": click.between is Between.SWUNG,
        "on": click.on,
        "off": click.off,
    }


def _chart(pattern: Pattern) -> dict[str, Any]:
    """What stands over and under the notes, as far as there is any; moments are beats of the written bars."""
    words = [{"at": _fraction(each.at), "words": each.words, "section": each.is_section} for each in pattern.words]
    dynamics = [
        {"at": _fraction(each.at), "loudness": each.loudness.value, "hairpin": each.hairpin and each.hairpin.value}
        for each in pattern.dynamics
    ]
    return {key: told for key, told in (("words", words), ("dynamics", dynamics)) if told}


def stroke_data(stroke: Stroke) -> dict[str, Any]:
    """One stroke as plain JSON values."""
    data: dict[str, Any] = {
        "at": _fraction(stroke.at),
        "limb": stroke.limb.value,
        "level": stroke.level.value,
        "kind": stroke.kind.value,
        "stroke": stroke.name.value if stroke.name else None,
        "starts": stroke.starts.value if stroke.starts else None,
        "ends": stroke.ends.value if stroke.ends else None,
        "on": stroke.on.value,
    }
    if stroke.written not in (None, stroke.at):
        data["written"] = _fraction(stroke.written)
    if stroke.louder_db:
        data["gain"] = round(10 ** (stroke.louder_db / 20), 4)
    if stroke.ahead_ms is not None and stroke.ahead_at_most is not None:
        data["ahead_ms"] = stroke.ahead_ms
        data["ahead_at_most"] = _fraction(stroke.ahead_at_most)
    return data


def _fraction(value: Fraction) -> list[int]:
    return [value.numerator, value.denominator]


def json_bytes(data: Mapping[str, Any]) -> bytes:
    """JSON that is the same from build to build: UTF-8, keys sorted, one line feed at the end."""
    return (json.dumps(data, ensure_ascii=False, sort_keys=True, separators=(",", ":")) + "\n").encode()
