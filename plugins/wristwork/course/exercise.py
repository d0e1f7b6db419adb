"""The exercise as data: what `x/<id>/exercise.json` holds."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from msgspec import UNSET, UnsetType
from msgspec.json import decode, encode

from wristwork.course.demand_data import demand_data
from wristwork.course.exercise_form import (
    SCHEMA,
    ClickForm,
    DynamicForm,
    ExerciseForm,
    PaceForm,
    StrokeForm,
    SwingForm,
    TempoSpan,
    WordsForm,
    ratio,
)
from wristwork.pattern.click import parts_of_a_beat
from wristwork.pattern.clicks import Between, PracticeClick
from wristwork.pattern.model import Drum, Manner, Pattern, TimeSignature
from wristwork.pattern.pace import pace
from wristwork.sound.swing import even_pairs, pair_beats
from wristwork.technique.strokes import Kind, Stroke, strokes

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
    drums = ["on"] if any(stroke.on in _DRUMS_SINCE_1 for stroke in played) else []
    data: dict[str, Any] = decode(
        encode(
            ExerciseForm(
                schema=SCHEMA,
                since_1=(),
                id=pattern.id,
                title=pattern.title,
                lesson=lesson.address,
                week=lesson.week,
                grade=lesson.grade,
                grows_from=pattern.grows_from,
                requires=tuple(pattern.requires),
                time=(pattern.time.upper, pattern.time.lower),
                tempo=TempoSpan(pattern.tempo.start, pattern.tempo.goal, pattern.tempo.step),
                beats=pattern.played_beats,
                loop=pattern.loop,
                motion=UNSET if pattern.motion is Manner.WRIST else pattern.motion,
                repeat=pattern.repeat,
                strokes=tuple(map(_stroke, played)),
                swing=_swing(pattern, played),
                click=_click(pattern.click, pattern.time),
                pickup=pattern.pickup or UNSET,
                paces=_paces(pattern),
                passages=tuple(pattern.passages) if pattern.pickup or pattern.repeats else UNSET,
                pulses=tuple(pattern.time.pulses or ()) or UNSET,
                # A buzz fills its value, which no other stroke's sound needs to know: so it stands beside the strokes.
                buzzes=tuple(ratio(stroke.length) for stroke in played if stroke.kind is Kind.BUZZ) or UNSET,
                words=tuple(WordsForm(ratio(each.at), each.words, each.is_section) for each in pattern.words) or UNSET,
                dynamics=tuple(DynamicForm(ratio(each.at), each.loudness, each.hairpin) for each in pattern.dynamics)
                or UNSET,
                demand=demand_data(pattern),
            )
        )
    )
    keys = {*data, *(key for stroke in data["strokes"] for key in stroke)}
    return {**data, "since_1": [*drums, *(key for key in _HEARD_SINCE_1 if key in keys)]}


def _swing(pattern: Pattern, played: Sequence[Stroke]) -> SwingForm | UnsetType:
    if pattern.swing is None:
        return UNSET
    share = Fraction(pattern.swing.ratio[0], sum(pattern.swing.ratio)) if pattern.swing.ratio else None
    pair = ratio(pair_beats(pattern, pattern.swing))
    return SwingForm(pair, ratio(share) if share else None, tuple(sorted(even_pairs(pattern, played))))


def _click(click: PracticeClick | None, time: TimeSignature) -> ClickForm | UnsetType:
    if click is None:
        return UNSET
    return ClickForm(
        beats=tuple(click.beats),
        off_beats=click.off_beats,
        into=parts_of_a_beat(click.between, time),
        swung=click.between is Between.SWUNG,
        on=click.on,
        off=click.off,
    )


def _paces(pattern: Pattern) -> tuple[PaceForm, ...] | UnsetType:
    spans = pace(pattern).spans if pattern.tempos else ()
    return tuple(PaceForm(ratio(span.start), ratio(span.share)) for span in spans) or UNSET


def _stroke(stroke: Stroke) -> StrokeForm:
    return StrokeForm(
        at=ratio(stroke.at),
        limb=stroke.limb,
        level=stroke.level,
        kind=stroke.kind,
        stroke=stroke.name,
        starts=stroke.starts,
        ends=stroke.ends,
        on=stroke.on,
        written=UNSET if stroke.written in (None, stroke.at) else _ratio(stroke.written),
        gain=round(10 ** (stroke.louder_db / 20), 4) if stroke.louder_db else UNSET,
        ahead_ms=UNSET if stroke.ahead_ms is None else stroke.ahead_ms,
        ahead_at_most=_ratio(stroke.ahead_at_most),
    )


def _ratio(value: Fraction | None) -> tuple[int, int] | UnsetType:
    return UNSET if value is None else ratio(value)


def json_bytes(data: Mapping[str, Any]) -> bytes:
    """JSON that is the same from build to build: UTF-8, keys sorted, one line feed at the end."""
    return (json.dumps(data, ensure_ascii=False, sort_keys=True, separators=(",", ":")) + "\n").encode()
