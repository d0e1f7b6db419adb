"""Weeks with dates, for a course that says when it starts; without a start nothing here is used."""

from __future__ import annotations

import re
from datetime import date
from urllib.parse import urlsplit

from markupsafe import Markup

from wristwork.course.calendar import CalendarWeek, course_calendar, week_dates
from wristwork.days import day_words
from wristwork.languages.numbers import day_of_year
from wristwork.languages.say import say
from wristwork.site.addresses import absolute
from wristwork.site.exercise.place_page import SiteName
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.templating import markup

CALENDAR = "course.ics"


def days_words(first: date, last: date) -> str:
    """The days from one to another: ``11 to 17 January 2027``. `dates.js` says them in the same way."""
    end = day_words(last)
    if first.year != last.year:
        return say("{start} to {end}", start=day_words(first), end=end)
    if first.month != last.month:
        return say("{start} to {end}", start=day_of_year(first), end=end)
    return say("{day} to {end}", day=first.day, end=end)


def week_days_words(starts: date | None, number: int) -> str:
    """The days of a week in words; empty without a start."""
    return "" if starts is None else days_words(*week_dates(starts, number))


def week_days(starts: date | None, number: int) -> Markup:
    """The days of a week, which a script can set to the student's own; empty without a start."""
    if starts is None:
        return Markup()
    first, last = week_dates(starts, number)
    return markup("week/days.html", first=first, number=number, starts=starts, words=days_words(first, last))


def this_week(site: CourseSite, calendar: str, own_page: str | None) -> Markup:
    """Room for this week on the home page: a script knows the day. Empty without a start.

    ``calendar`` and ``own_page`` (where students set a start of their own) are addresses relative to the page.
    """
    if site.starts is None:
        return Markup()
    begins = day_words(site.starts)
    return markup("week/this_week.html", starts=site.starts, begins=begins, calendar=calendar, own_page=own_page)


def calendar_file(site: CourseSite, name: SiteName) -> bytes | None:
    """The course's weeks for a calendar; None without a start."""
    if site.starts is None:
        return None
    weeks = [
        CalendarWeek(page.week.number, page.title, page.week.aim, absolute(page.url, name.url))
        for page in site.weeks
        if page.week is not None
    ]
    return course_calendar(name.name, weeks, site.starts, _namespace(name))


def _namespace(name: SiteName) -> str:
    """What makes the events' ids unique in the world: the site's host, with its path for a host of many courses."""
    parts = urlsplit(name.url or "")
    host = parts.hostname or "wristwork.invalid"
    path = _plain(parts.path if name.url else name.name)
    return f"{path}.{host}" if path else host


def _plain(text: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")
