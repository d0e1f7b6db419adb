"""A week's page: what the week is for at its head, then its practice card; the way on at its foot."""

from __future__ import annotations

import re
from html import escape

from wristwork.course.grades import own_grade
from wristwork.course.safe_practice import LOCAL_LAW
from wristwork.course.weeks import Week
from wristwork.site.addresses import relative
from wristwork.site.course_site import CourseSite
from wristwork.site.dates import week_days
from wristwork.site.lessons import LessonPage
from wristwork.site.practice_card import PracticeCard, Topics

_HEADING = re.compile(r"\s*<h1[^>]*>.*?</h1>", re.DOTALL)


def dressed_week(html: str, page: LessonPage, week: Week, site: CourseSite, topics: Topics) -> str:
    """The week's content between its head and its foot; ``topics`` are the pages on safe practice."""
    heading = _HEADING.match(html)
    title = heading[0].strip() if heading else f'<h1 dir="auto">{escape(page.title)}</h1>'
    rest = html[heading.end() :] if heading else html
    card = PracticeCard(page, week, site, topics)
    return f"{_head(page, week, title, site)}{card.html if card.is_needed else ''}{rest}{_foot(page, site)}"


def _head(page: LessonPage, week: Week, title: str, site: CourseSite) -> str:
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
    return (
        f'<header class="ww-week-head"><p class="ww-eyebrow">Week {week.number}</p>{title}{aim}'
        f"{f'<dl>{listed}</dl>' if listed else ''}</header>"
    )


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
