"""The index of all exercises: a table in the order of teaching, which a script can sort in other ways."""

from __future__ import annotations

from dataclasses import dataclass, replace

from markupsafe import Markup

from wristwork.languages.say import marked, say
from wristwork.pattern.write import cut_between_groups
from wristwork.site.addresses import relative
from wristwork.site.figure.figure import Link
from wristwork.site.overview.parts import exercises_at, part_at, part_links
from wristwork.site.reading.course_site import CourseSite, Placed
from wristwork.site.templating import markup

ADDRESS = "exercises/"
_LONGEST_STICKING = 64


@dataclass(frozen=True, slots=True)
class _IndexColumn:
    """A heading, and how the script compares its cells: as words, as numbers, or not at all."""

    name: str
    sorts: str = ""


_COLUMNS = (
    _IndexColumn(marked("Exercise"), "words"),
    _IndexColumn(marked("Week"), "number"),
    _IndexColumn(marked("Grade"), "number"),
    _IndexColumn(marked("Sticking")),
    _IndexColumn(marked("Needs"), "number"),
)


@dataclass(frozen=True, slots=True)
class _IndexRow:
    """An exercise in the table; its grade is that of its own strokes at the goal."""

    id: str
    title: Link
    week: int | None
    grade: int | None
    sticking: str
    needs: tuple[Link, ...]


def exercise_table(site: CourseSite, url: str) -> Markup:
    """The table for the page at ``url``, of its part of a large course; a sentence where there is nothing to list."""
    if not site.exercises:
        return Markup("<p>{}</p>").format(say("This course has no exercises yet."))
    part = part_at(site, url)
    links = part_links(site, url, ADDRESS)
    return markup(
        "overview/exercise_index.html",
        part_links=links,
        which=say("Exercises of {part}", part=part.within) if links else say("All exercises"),
        columns=tuple(replace(column, name=say(column.name)) for column in _COLUMNS),
        rows=tuple(_row(site, placed, url) for placed in exercises_at(site, url)),
    )


def _row(site: CourseSite, placed: Placed, url: str) -> _IndexRow:
    return _IndexRow(
        placed.id,
        Link(placed.title, relative(placed.address, url)),
        placed.page.number,
        placed.exercise.at_goal.grade,
        cut_between_groups(placed.sticking, _LONGEST_STICKING),
        tuple(site.link(needed, url) for needed in site.named(placed.pattern.requires)),
    )
