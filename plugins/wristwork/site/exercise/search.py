"""Make every exercise findable, by its title and by its sticking as typed.

The theme's search index is a list of places with a title and a text each. Figures are not in it (diagrams
would swamp it), so each exercise gets an entry of its own that leads to it in its lesson. That index holds
words; for stickings there is a list of all exercises, which ``search.js`` looks through.
"""

from __future__ import annotations

import json
from html import escape
from pathlib import Path

from wristwork.site.reading.course_site import CourseSite, Placed


def add_to_index(index: Path, site: CourseSite) -> None:
    """Add the exercises to the index file; without one there is no search to serve."""
    if not index.exists() or not site.exercises:
        return
    data = json.loads(index.read_text(encoding="utf-8"))
    data["docs"] += [entry(placed) for placed in site.exercises.values()]
    index.write_text(json.dumps(data, separators=(",", ":")), encoding="utf-8")


def exercise_list(site: CourseSite) -> bytes:
    """Every exercise in a line: what ``x/exercises.json`` holds."""
    listed = [
        {
            "id": placed.id,
            "title": placed.title,
            "sticking": placed.sticking,
            "lesson": placed.address,
            "where": placed.page.name,
        }
        for placed in site.exercises.values()
    ]
    return json.dumps(listed, ensure_ascii=False, separators=(",", ":")).encode()


def entry(placed: Placed) -> dict[str, str]:
    """One exercise as an entry of the index; title and text are HTML there."""
    note = f"<p>{escape(placed.pattern.note, quote=False)}</p>" if placed.pattern.note else ""
    return {
        "location": placed.address,
        "title": escape(placed.title, quote=False),
        "text": f"<p>{escape(placed.sticking, quote=False)}</p>{note}",
    }
