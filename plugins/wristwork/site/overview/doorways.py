"""Pages for the folders that an address is made of: who shortens an exercise's or a week's address lands somewhere."""

from __future__ import annotations

from collections.abc import Iterator

from wristwork.languages.say import say
from wristwork.site.addresses import relative
from wristwork.site.exercise.place_page import SiteName
from wristwork.site.frontend.dress import dressed
from wristwork.site.overview import curriculum_page, exercise_index
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.templating import whole_page


def doorways(site: CourseSite, name: SiteName) -> Iterator[tuple[str, str]]:
    """A page, as (address, HTML), for each folder of exercises or weeks that has none of its own."""
    taken = {page.url for page in site.pages.values()}
    leads = {"x/": (exercise_index.ADDRESS, say("All exercises"))}
    leads |= dict.fromkeys(_week_folders(site), (curriculum_page.ADDRESS, say("All weeks")))
    for folder, (target, title) in leads.items():
        if folder not in taken:
            yield f"{folder}index.html", _doorway(name, folder, target, title)


def _week_folders(site: CourseSite) -> set[str]:
    """The folders in which the weeks' pages lie, the course's own root apart."""
    inside = {week.url.rstrip("/").rpartition("/")[0] for week in site.weeks}
    return {f"{folder}/" for folder in inside if folder}


def _doorway(name: SiteName, here: str, target: str, title: str) -> str:
    return whole_page(
        "overview/doorway.html",
        lang=name.language,
        site_name=name.name,
        title=title,
        home=relative("", here),
        **dressed(name.look, here),
        target=relative(target, here),
    )
