"""An example's data: what a player reads of it. It stands in the page, since an example has no place of its own."""

from __future__ import annotations

from dataclasses import replace

from wristwork.course.exercise import Lesson, exercise_data, json_bytes
from wristwork.pattern.model import Pattern

# What no player reads of an exercise and of its strokes.
_UNPLAYED = frozenset(
    ("schema", "since_1", "id", "title", "lesson", "week", "grade", "from", "requires", "words", "dynamics", "demand")
)
_UNPLAYED_OF_STROKES = frozenset({"starts", "ends"})


def example_data(pattern: Pattern) -> str:
    """What a player needs to play an example, as in ``exercise.json``."""
    exercise = exercise_data(replace(pattern, id="example", title="Example"), Lesson(""))
    data = {name: value for name, value in exercise.items() if name not in _UNPLAYED}
    data["strokes"] = [
        {name: value for name, value in stroke.items() if name not in _UNPLAYED_OF_STROKES}
        for stroke in exercise["strokes"]
    ]
    return json_bytes(data).decode().rstrip()
