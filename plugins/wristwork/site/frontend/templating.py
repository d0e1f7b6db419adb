"""The templates of pages that pass by the theme: every text that goes into them is escaped."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, Template

TEMPLATES = Path(__file__).parent / "templates"


@lru_cache(maxsize=8)
def template(name: str) -> Template:
    """The template of that file name, read once."""
    environment = Environment(loader=FileSystemLoader(TEMPLATES), autoescape=True, trim_blocks=True, lstrip_blocks=True)
    return environment.get_template(name)
