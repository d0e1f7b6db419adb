"""A week's page: what the week is for at its head, then its practice card; the way on at its foot.

Like figures they wait outside while the page's text is worked on and indexed: marks stand in their places.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import escape

from wristwork.course.grades import own_grade
from wristwork.course.safety.safe_practice import LOCAL_LAW
from wristwork.course.weeks import Week
from wristwork.languages.say import say, say_count
from wristwork.site.addresses import relative
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.reading.lessons import LessonPage
from wristwork.site.templating import markup
from wristwork.site.week.dates import week_days
from wristwork.site.week.practice_card import PracticeCard

_HEADING = re.compile(r"\s*<h1[^>]*>.*?</h1>", re.DOTALL)

_OPENING, _HEAD, _FOOT = (f"<!--ww-week {part}-->" for part in ("opening", "head", "foot"))


def dressed_week(html: str, page: LessonPage) -> str:
    """The week's content with its heading, between the marks for what :func:`filled_week` puts around it."""
    heading = _HEADING.match(html)
    title = heading[0].strip() if heading else f'<h1 dir="auto">{escape(page.title)}</h1>'
    rest = html[heading.end() :] if heading else html
    return f"{_OPENING}{title}{_HEAD}{rest}{_FOOT}"


def filled_week(html: str, page: LessonPage, week: Week, site: CourseSite, card: PracticeCard) -> str:
    """The finished page with the week's head, practice card and foot."""
    opening = f'<header class="ww-week-head"><p class="ww-eyebrow">{escape(page.name)}</p>'
    head = markup("week/week_head.html", aim=week.aim, facts=tuple(_facts(page, week, site)))
    foot = markup("week/week_foot.html", ways=tuple(_ways(page, site)), law=say(LOCAL_LAW))
    plan = card.html if card.is_needed else ""
    return html.replace(_OPENING, opening, 1).replace(_HEAD, f"{head}{plan}", 1).replace(_FOOT, foot, 1)


@dataclass(frozen=True, slots=True)
class _WeekFact:
    """One thing to know of a week, with a word on it."""

    name: str
    value: str
    remark: str = ""


@dataclass(frozen=True, slots=True)
class _OtherWeek:
    """A link to the week before or after."""

    side: str
    rel: str
    href: str
    name: str
    title: str


def _facts(page: LessonPage, week: Week, site: CourseSite) -> Iterator[_WeekFact]:
    if days := week_days(site.starts, week.number):
        yield _WeekFact(say("Dates"), days)
    if week.grade:
        yield _WeekFact(say("Grade"), str(week.grade))
    elif own := own_grade(site.course, week):
        yield _WeekFact(say("Grade"), str(own))
    if week.minutes:
        yield _WeekFact(say("A session"), say_count("{count} minute", "{count} minutes", week.minutes))
    if count := len(site.exercises_on(page)):
        yield _WeekFact(say("Exercises"), str(count))


def _ways(page: LessonPage, site: CourseSite) -> Iterator[_OtherWeek]:
    before, after = site.weeks_around(page)
    for other, side, rel in ((before, "before", "prev"), (after, "after", "next")):
        if other is not None:
            yield _OtherWeek(side, rel, relative(other.url, page.url), other.name, other.title)
