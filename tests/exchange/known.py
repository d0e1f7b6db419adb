"""Patterns that people have: those of the demonstration course and its handbook, the rudiments, and the hard cases."""

from functools import cache
from pathlib import Path

from tests.drawing.hard_cases import HARD_CASES
from wristwork.pattern import read_course, read_one

ROOT = Path(__file__).parents[2]


@cache
def known_patterns():
    """Each with a name that tells where it stands."""
    pages = {
        str(path.relative_to(ROOT)): path.read_text(encoding="utf-8")
        for folder in ("docs", "seeds/rudiments/docs")
        for path in sorted((ROOT / folder).rglob("*.md"))
    }
    found = {f"hard: {name}": read_one(f"title: {name}\n{text}") for name, text in HARD_CASES.items()}
    for fence in read_course(pages).fences:
        if fence.pattern is not None:
            found[f"{fence.path}:{fence.place.line}"] = fence.pattern
    return found
