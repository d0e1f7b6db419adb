"""The JSON Schema of `exercise.json`, made from the same vocabulary as the data."""

from __future__ import annotations

from typing import Any

from wristwork.course.exercise import SCHEMA
from wristwork.pattern.click import MOST_BARS
from wristwork.pattern.model import Drum, Hairpin, Level, Loudness, Manner
from wristwork.pattern.settings import (
    FASTEST,
    LONGEST_ID,
    LONGEST_STEP,
    LOWER,
    MOST_REPEATS,
    MOST_UPPER,
    PULSES,
    SHORTEST_ID,
    SLOWEST,
)
from wristwork.technique.strokes import Height, Kind, Limb, StrokeName

_ID = {
    "type": "string",
    "pattern": "^[a-z0-9]+(-[a-z0-9]+)*$",
    "minLength": SHORTEST_ID,
    "maxLength": LONGEST_ID,
}
_TEMPO = {"type": "integer", "minimum": SLOWEST, "maximum": FASTEST}
_FRACTION = {
    "description": "An exact fraction in lowest terms: numerator, denominator.",
    "type": "array",
    "prefixItems": [{"type": "integer", "minimum": 0}, {"type": "integer", "minimum": 1}],
    "minItems": 2,
    "maxItems": 2,
}
_MOMENT = {"$ref": "#/$defs/fraction"}


def exercise_schema() -> dict[str, Any]:
    """The schema as plain JSON values (JSON Schema, draft 2020-12)."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A Wristwork exercise",
        "$defs": {"id": _ID, "fraction": _FRACTION, "stroke": _stroke(), "hand": _hand(), "demand": _demand()},
        **_object(
            _exercise(),
            optional=(
                "buzzes",
                "click",
                "dynamics",
                "motion",
                "paces",
                "passages",
                "pickup",
                "pulses",
                "swing",
                "version",
                "words",
            ),
        ),
    }


def _exercise() -> dict[str, Any]:
    """What an exercise has, in the order of :func:`wristwork.course.exercise.exercise_data`."""
    return {
        "schema": {"const": SCHEMA},
        "since_1": {
            "description": "Keys of this exercise and its strokes that change what is heard and that a reader of "
            "version 1 does not know (of `on`: not all drums). Where there are none, it plays the exercise as it "
            "always did.",
            "type": "array",
            "items": {"type": "string"},
        },
        "id": {"$ref": "#/$defs/id"},
        "title": {"type": "string", "minLength": 1},
        "lesson": {"type": "string", "description": "Address of the lesson within the site, with its anchor."},
        "version": {"type": "string", "description": "Of drawing and data: what a page shows and plays has one."},
        "week": {"type": ["integer", "null"]},
        "grade": {"type": ["integer", "null"]},
        "from": {"anyOf": [{"$ref": "#/$defs/id"}, {"type": "null"}]},
        "requires": {"type": "array", "items": {"$ref": "#/$defs/id"}},
        "time": {
            "type": "array",
            "prefixItems": [{"type": "integer", "minimum": 1, "maximum": MOST_UPPER}, {"enum": list(LOWER)}],
            "minItems": 2,
            "maxItems": 2,
        },
        "tempo": {
            "description": "Beats a minute, and the step from one tempo to the next.",
            **_object(
                {
                    "start": _TEMPO,
                    "goal": _TEMPO,
                    "step": {"type": "integer", "minimum": 1, "maximum": LONGEST_STEP},
                }
            ),
        },
        "beats": {"type": "integer", "minimum": 1, "description": "Beats of one pass of the bars, as they are played."},
        "loop": {"type": "boolean"},
        "motion": {"enum": list(Manner), "description": "How the hands are shown to move; left out for wrist."},
        "repeat": {"type": "integer", "minimum": 1, "maximum": MOST_REPEATS},
        "strokes": {"type": "array", "items": {"$ref": "#/$defs/stroke"}},
        "swing": {
            "description": "Of two notes that fill `pair` beats the first takes this share; null: as the tempo has it. "
            "The pairs in `even`, counted from 0, are played as they are written.",
            **_object(
                {
                    "pair": {"$ref": "#/$defs/fraction"},
                    "share": {"anyOf": [{"$ref": "#/$defs/fraction"}, {"type": "null"}]},
                    "even": {"type": "array", "items": {"type": "integer", "minimum": 0}},
                }
            ),
        },
        "click": {
            "description": "The practice click: the beats of a bar on which it sounds (none: all of them), or halfway "
            "between them; into how many parts of a beat it sounds, softer, the second of two late where it is swung; "
            "for how many bars it sounds and is then silent (0: always). Left out: on every beat.",
            **_object(
                {
                    "beats": {"type": "array", "items": {"type": "integer", "minimum": 1}},
                    "offBeats": {"type": "boolean"},
                    "into": {"type": "integer", "minimum": 1, "maximum": 6},
                    "swung": {"type": "boolean"},
                    "on": {"type": "integer", "minimum": 0, "maximum": MOST_BARS},
                    "off": {"type": "integer", "minimum": 0, "maximum": MOST_BARS},
                }
            ),
        },
        "pickup": {
            "description": "Beats of the pick-up, with which a pass begins; left out where there is none.",
            "type": "integer",
            "minimum": 1,
        },
        "paces": {
            "description": "From which beat of a pass on the tempo is which share of the exercise's; left out where it "
            "stays the same.",
            "type": "array",
            "items": _object({"from": {"$ref": "#/$defs/fraction"}, "share": {"$ref": "#/$defs/fraction"}}),
            "minItems": 1,
        },
        "passages": {
            "description": "What is played of the bars that are drawn in one pass, in order: from beat to beat. "
            "Left out where that is all.",
            "type": "array",
            "items": {"type": "array", "items": {"type": "integer", "minimum": 0}, "minItems": 2, "maxItems": 2},
            "minItems": 1,
        },
        "pulses": {
            "description": "The unlike groups of beats in which a bar is counted; left out where beats are alike.",
            "type": "array",
            "items": {"enum": list(PULSES)},
            "minItems": 2,
        },
        "buzzes": {
            "description": "Beats that each buzz fills, in the order of the strokes; left out where none is.",
            "type": "array",
            "items": {"$ref": "#/$defs/fraction"},
            "minItems": 1,
        },
        "words": {
            "description": "Words over the notes and letters of sections; `at` counts beats of the written bars.",
            "type": "array",
            "items": _object({"at": _MOMENT, "words": {"type": "string"}, "section": {"type": "boolean"}}),
            "minItems": 1,
        },
        "dynamics": {
            "description": "How loud passages are; strokes have it in their `gain`. `hairpin` leads to the next one.",
            "type": "array",
            "items": _object(
                {"at": _MOMENT, "loudness": {"enum": list(Loudness)}, "hairpin": {"enum": [*Hairpin, None]}}
            ),
            "minItems": 1,
        },
        "demand": {"$ref": "#/$defs/demand"},
    }


def _object(properties: dict[str, Any], optional: tuple[str, ...] = ()) -> dict[str, Any]:
    return {
        "type": "object",
        "properties": properties,
        "required": [name for name in properties if name not in optional],
        "additionalProperties": False,
    }


def _stroke() -> dict[str, Any]:
    height = {"enum": [*Height, None]}
    stroke = _object(
        {
            "at": {"$ref": "#/$defs/fraction", "description": "Beats from the start of the pattern."},
            "limb": {"enum": list(Limb)},
            "level": {"enum": list(Level)},
            "kind": {"enum": list(Kind)},
            "stroke": {"enum": [*StrokeName, None]},
            "starts": height,
            "ends": height,
            "on": {"enum": list(Drum)},
            "written": {
                "$ref": "#/$defs/fraction",
                "description": "Where it is drawn, in beats of the written bars; left out where that is `at`.",
            },
            "gain": {
                "type": "number",
                "exclusiveMinimum": 0,
                "description": "How many times as loud as its level alone says; left out for once.",
            },
            "ahead_ms": {"type": "integer", "minimum": 1, "description": "Milliseconds before the main note."},
            "ahead_at_most": {
                "$ref": "#/$defs/fraction",
                "description": "Beats; the whole ornament is squeezed so that it starts no further ahead than this.",
            },
        },
        optional=("gain", "written", "ahead_ms", "ahead_at_most"),
    )
    stroke["dependentRequired"] = {"ahead_ms": ["ahead_at_most"], "ahead_at_most": ["ahead_ms"]}
    return stroke


def _hand() -> dict[str, Any]:
    number = {"type": "number", "minimum": 0}
    return _object(
        {
            "strokes_per_second": number,
            "fastest_strokes_per_second": {"type": ["number", "null"], "minimum": 0},
            "motions_per_second": number,
            "shortest_lift_s": {
                "type": ["number", "null"],
                "description": "Seconds; null where there is no up stroke.",
            },
            "shortest_stop_s": {
                "type": ["number", "null"],
                "description": "Seconds; null where there is no down stroke.",
            },
            "height_changes_per_second": number,
            "drum_changes_per_second": number,
        }
    )


def _demand() -> dict[str, Any]:
    figures = {
        "tempo": _TEMPO,
        "right_hand": {"$ref": "#/$defs/hand"},
        "left_hand": {"$ref": "#/$defs/hand"},
        "limbs": {"type": "integer", "minimum": 0, "maximum": 4},
        "score": {"type": "number", "minimum": 0, "maximum": 100},
        "grade": {"type": "integer", "minimum": 1, "maximum": 10},
    }
    return _object({**figures, "at_start": _object(figures)})
