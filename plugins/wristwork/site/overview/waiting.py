"""What stands at the address of an exercise before its week opens: the day, and nothing of the exercise."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date

from wristwork.days import day_words
from wristwork.languages.say import say
from wristwork.site.addresses import relative
from wristwork.site.exercise.place_page import SiteName
from wristwork.site.frontend.dress import dressed
from wristwork.site.overview import curriculum_page
from wristwork.site.templating import whole_page


def waiting_pages(waiting: Mapping[str, date], name: SiteName) -> Iterator[tuple[str, str]]:
    """A page, as (address, HTML), for each id that leads to an exercise on a later day."""
    for id_, day in waiting.items():
        here = f"x/{id_}/"
        html = whole_page(
            "overview/waiting.html",
            lang=name.language,
            site_name=name.name,
            title=say("Opens on {day}", day=day_words(day)),
            home=relative("", here),
            **dressed(name.look, here),
            weeks=relative(curriculum_page.ADDRESS, here),
        )
        yield f"{here}index.html", html
