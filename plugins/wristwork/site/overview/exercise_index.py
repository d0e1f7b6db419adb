"""The index of all exercises: a table in the order of teaching, which a script can sort in other ways."""

from __future__ import annotations

from html import escape

from wristwork.pattern.write import cut_between_groups
from wristwork.site.addresses import relative
from wristwork.site.overview.parts import exercises_at, part_at, part_links
from wristwork.site.reading.course_site import CourseSite, Placed

ADDRESS = "exercises/"
# Heading, and how its cells compare: as words or as numbers.
_COLUMNS = (("Exercise", "words"), ("Week", "number"), ("Grade", "number"), ("Sticking", ""), ("Needs", "number"))
_LONGEST_STICKING = 64


def exercise_table(site: CourseSite, url: str) -> str:
    """The table for the page at ``url``, of its part of a large course; a sentence where there is nothing to list."""
    if not site.exercises:
        return "<p>This course has no exercises yet.</p>"
    heads = "".join(f'<th scope="col"{f" data-ww-sort={kind}" if kind else ""}>{name}</th>' for name, kind in _COLUMNS)
    part = part_at(site, url)
    rows = "".join(_row(site, placed, url) for placed in exercises_at(site, url))
    links = part_links(site, url, ADDRESS)
    which = f"Exercises of {part.name[0].lower()}{part.name[1:]}" if links else "All exercises"
    return (
        f'{links}<div class="ww-index"><table class="ww-table">'
        f"<caption>{which}, in the order in which they are taught</caption>"
        f"<thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table></div>{links}"
    )


def _row(site: CourseSite, placed: Placed, url: str) -> str:
    page = placed.page
    sticking = cut_between_groups(placed.sticking, _LONGEST_STICKING)
    needed = [site.link(needed, url).html for needed in site.named(placed.pattern.requires)]
    title = f'<a href="{escape(relative(placed.address, url))}"><bdi>{escape(placed.title)}</bdi></a>'
    return (
        f'<tr><th scope="row">{title}</th>'
        f"{_cell('Week', str(page.number or ''))}{_cell('Grade', str(page.grade or ''))}"
        f'<td data-ww-name="Sticking"><code>{escape(sticking)}</code></td>'
        f'<td data-ww-name="Needs" data-ww-value="{len(needed)}">{", ".join(needed)}</td></tr>'
    )


def _cell(name: str, words: str) -> str:
    return f'<td data-ww-name="{name}">{escape(words)}</td>'
