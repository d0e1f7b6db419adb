"""Where papers are on the site."""

from __future__ import annotations

from wristwork.site.reading.lessons import LessonPage

# An exercise on paper, in its own place; a week, beside its page; the course.
SHEET, WEEK, BOOK = "sheet.pdf", "week.pdf", "course.pdf"


def week_paper(page: LessonPage) -> str:
    """The address of a week on paper."""
    folder = page.url.removesuffix(".html").removesuffix("/")
    return f"{folder}/{WEEK}" if folder else WEEK
