"""Weeks on a calendar: dates for the weeks of a course that has a first day, and the calendar file."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING

from wristwork.languages.say import say

if TYPE_CHECKING:
    from icalendar import Event

WEEK = timedelta(weeks=1)


@dataclass(frozen=True, slots=True)
class CalendarWeek:
    """What a calendar shows of one week; ``address`` is the full address of its page, if there is one."""

    number: int
    title: str
    aim: str | None
    address: str | None


def week_dates(starts: date, number: int) -> tuple[date, date]:
    """The first and the last day of a week, counted from 1."""
    first = starts + WEEK * (number - 1)
    return first, first + WEEK - timedelta(days=1)


def course_calendar(name: str, weeks: Sequence[CalendarWeek], starts: date, host: str) -> bytes:
    """The calendar file (RFC 5545): one all-day event for each week.

    ``host`` makes the events' ids unique in the world and must not change from build to build. The
    time stamp is the first day's, so that the file changes only when the course does.
    """
    # Only a course with dates needs the library, which is large.
    from icalendar import Calendar

    calendar = Calendar()
    calendar.add("prodid", "-//Wristwork//Course calendar//EN")
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("method", "PUBLISH")
    calendar.add("name", name)
    stamp = datetime.combine(starts, time(), UTC)
    for week in sorted(weeks, key=lambda week: week.number):
        calendar.add_component(_event(name, week, starts, host, stamp))
    return bytes(calendar.to_ical())


def _event(name: str, week: CalendarWeek, starts: date, host: str, stamp: datetime) -> Event:
    from icalendar import Event

    first, last = week_dates(starts, week.number)
    event = Event()
    event.add("uid", f"week-{week.number}@{host}")
    event.add("dtstamp", stamp)
    event.add("dtstart", first)
    event.add("dtend", last + timedelta(days=1))  # the end of an all-day event is the day after it
    event.add("summary", say("{course}: week {number}, {title}", course=name, number=week.number, title=week.title))
    event.add("transp", "TRANSPARENT")  # a week of practice does not make a day busy
    if week.aim:
        event.add("description", week.aim)
    if week.address:
        event.add("url", week.address)
    return event
