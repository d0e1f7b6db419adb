"""The JSON Schema of `exercise.json`, out of the types that the data is made of."""

from __future__ import annotations

from typing import Any

from msgspec.json import schema

from wristwork.course.exercise_form import ExerciseForm


def exercise_schema() -> dict[str, Any]:
    """The schema as plain JSON values (JSON Schema, draft 2020-12)."""
    head = {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": "A Wristwork exercise"}
    return {**head, **schema(ExerciseForm)}
