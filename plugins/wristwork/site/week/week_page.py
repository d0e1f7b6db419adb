"""A week's page: what the week is for at its head, then its practice card; the way on at its foot.

Like figures they wait outside while the page's text is worked on and indexed: marks stand in their places.
"""

from __future__ import annotations

import re
from html import escape

from wristwork.course.grades import own_grade
from wristwork.course.safety.safe_practice import LOCAL_LAW
from wristwork.course.weeks import Week
from wristwork.site.addresses import relative
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.reading.lessons import LessonPage
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
    opening = f'<header class="ww-week-head"><p class="ww-eyebrow">Week {week.number}</p>'
    head = f"{_head(page, week, site)}{card.html if card.is_needed else ''}"
    return html.replace(_OPENING, opening, 1).replace(_HEAD, head, 1).replace(_FOOT, _foot(page, site), 1)


def _head(page: LessonPage, week: Week, site: CourseSite) -> str:
    """What follows the heading."""
    facts = []
    if days := week_days(site.starts, week.number):
        facts.append(("Dates", days))
    if week.grade:
        facts.append(("Grade", str(week.grade)))
    if own := own_grade(site.course, week):
        facts.append(("Grade worked out", f"{own} <small>no exam’s grade</small>"))
    if week.minutes:
        facts.append(("A session", f"{week.minutes} minutes"))
    if count := len(site.exercises_on(page)):
        facts.append(("Exercises", str(count)))
    listed = "".join(f"<div><dt>{name}</dt><dd>{value}</dd></div>" for name, value in facts)
    aim = f'<p class="ww-aim" dir="auto">{escape(week.aim)}</p>' if week.aim else ""
    return f"{aim}{f'<dl>{listed}</dl>' if listed else ''}</header>"


def _foot(page: LessonPage, site: CourseSite) -> str:
    """Links to the weeks before and after, and what comes before any plan of ours."""
    before, after = site.weeks_around(page)
    links = [
        f'<a class="ww-{side}" rel="{rel}" href="{escape(relative(other.url, page.url))}">'
        f'<span>{other.name}</span><strong dir="auto">{escape(other.title)}</strong></a>'
        for other, side, rel in ((before, "before", "prev"), (after, "after", "next"))
        if other is not None
    ]
    ways = f'<nav class="ww-week-foot" aria-label="Other weeks">{"".join(links)}</nav>' if links else ""
    return f'{ways}<p class="ww-law">{LOCAL_LAW}</p>'
