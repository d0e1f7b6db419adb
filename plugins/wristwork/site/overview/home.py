"""The home page: what this is, and the way to one's week."""

from __future__ import annotations

import re
from dataclasses import dataclass

from markupsafe import Markup, escape

from wristwork.languages.say import say
from wristwork.site.addresses import relative
from wristwork.site.frontend.head import OWN_PAGE
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.reading.lessons import LessonPage
from wristwork.site.templating import markup
from wristwork.site.week.dates import CALENDAR, this_week, week_days

# A picture that stands alone.
_PHOTO = r"<p><img [^>]*></p>"
_OPENING = re.compile(
    r"\s*<h1(?: id=\"(?P<id>[^\"]*)\")?[^>]*>(?P<title>.*?)</h1>\s*(?P<before>PHOTO)?\s*"
    r"(?:<p>(?P<lead>.*?)</p>)?\s*(?P<after>PHOTO)?".replace("PHOTO", _PHOTO),
    re.DOTALL,
)
_ANCHOR = "welcome"
_HEADER_LINK = re.compile(r'<a class="headerlink".*?</a>', re.DOTALL)


@dataclass(frozen=True, slots=True)
class Home:
    """What stands at the top of the home page, as markup; ``id`` is the anchor of its title, ``photo`` a picture."""

    id: str
    title: str
    lead: str
    photo: str = ""


def split_home(html: str, site_name: str) -> tuple[Home, str]:
    """The first heading, paragraph and picture of the home page's content, and the rest of it."""
    opening = _OPENING.match(html)
    if opening is None:
        return Home(_ANCHOR, escape(site_name), ""), html
    title = _HEADER_LINK.sub("", opening["title"])
    photo = (opening["before"] or opening["after"] or "").removeprefix("<p>").removesuffix("</p>")
    rest = html[opening.end() :]
    if opening["before"]:
        rest = f"{opening['after'] or ''}{rest}"
    return Home(opening["id"] or _ANCHOR, title, opening["lead"] or "", photo), rest


@dataclass(frozen=True, slots=True)
class _ListedWeek:
    """A week in the list; ``facts`` are its grade and minutes in words, ``days`` its dates."""

    number: int
    title: str
    href: str
    aim: str | None
    facts: str
    days: Markup


def week_list(site: CourseSite, url: str) -> Markup:
    """The weeks as a list of links, each with its aim; nothing for a course without weeks."""
    if not site.weeks:
        return Markup()
    own = site.pages.get(OWN_PAGE)
    now = this_week(site, relative(CALENDAR, url), relative(own.url, url) if own else None)
    return markup("overview/week_list.html", now=now, weeks=tuple(_week(site, page, url) for page in site.weeks))


def _week(site: CourseSite, page: LessonPage, url: str) -> _ListedWeek:
    week = page.week
    assert week is not None, "a week page is a week"
    facts = [
        say("Grade {grade}", grade=week.grade) if week.grade else "",
        say("{minutes} min a session", minutes=week.minutes) if week.minutes else "",
    ]
    return _ListedWeek(
        week.number,
        page.title,
        relative(page.url, url),
        week.aim,
        " · ".join(fact for fact in facts if fact),
        week_days(site.starts, week.number),
    )
