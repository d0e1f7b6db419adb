"""The tutor's page of all students: one file that a browser opens from the disk, and that asks for nothing."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from wristwork.languages.catalogues import direction
from wristwork.languages.say import say, spoken

_TEMPLATE = "people_page.html"


def people_page(students: Sequence[dict[str, Any]], day: str) -> str:
    """The page of some students, whose values are plain text. ``day`` says when it was made."""
    templates = Environment(
        loader=FileSystemLoader(Path(__file__).parent),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    code = spoken().code
    templates.globals.update(say=say, lang=code, dir=direction(code))
    return templates.get_template(_TEMPLATE).render(students=students, day=day)
