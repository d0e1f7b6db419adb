"""The home page: what this is, and the way to one's week."""

from __future__ import annotations

import re
from dataclasses import dataclass
from html import escape

from wristwork.site.addresses import relative
from wristwork.site.frontend.head import OWN_PAGE
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.week.dates import CALENDAR, this_week, week_days

_OPENING = re.compile(
    r"\s*<h1(?: id=\"(?P<id>[^\"]*)\")?[^>]*>(?P<title>.*?)</h1>\s*(?:<p>(?P<lead>.*?)</p>)?", re.DOTALL
)
_ANCHOR = "welcome"
_HEADER_LINK = re.compile(r'<a class="headerlink".*?</a>', re.DOTALL)


@dataclass(frozen=True, slots=True)
class Home:
    """What stands at the top of the home page, as markup; ``id`` is the anchor of its title."""

    id: str
    title: str
    lead: str


def split_home(html: str, site_name: str) -> tuple[Home, str]:
    """The first heading and paragraph of the home page's content, and the rest of it."""
    opening = _OPENING.match(html)
    if opening is None:
        return Home(_ANCHOR, escape(site_name), ""), html
    title = _HEADER_LINK.sub("", opening["title"])
    return Home(opening["id"] or _ANCHOR, title, opening["lead"] or ""), html[opening.end() :]


def week_list(site: CourseSite, url: str) -> str:
    """The weeks as a list of links, each with its aim."""
    items = []
    for page in site.weeks:
        week = page.week
        assert week is not None, "a week page is a week"
        facts = [f"Grade {week.grade}" if week.grade else "", f"{week.minutes} min a session" if week.minutes else ""]
        small = " · ".join(fact for fact in facts if fact)
        aim = f'<span class="ww-aim" dir="auto">{escape(week.aim)}</span>' if week.aim else ""
        items.append(
            f'<li><a href="{escape(relative(page.url, url))}">'
            f'<span class="ww-number"><span class="ww-unit">Week </span>{week.number}</span>'
            f'<strong dir="auto">{escape(page.title)}</strong>{aim}'
            f"<small>{small}</small>{week_days(site.starts, week.number)}</a></li>"
        )
    own = site.pages.get(OWN_PAGE)
    now = this_week(site, relative(CALENDAR, url), relative(own.url, url) if own else None)
    return f'{now}<ol class="ww-weeks">{"".join(items)}</ol>' if items else ""
