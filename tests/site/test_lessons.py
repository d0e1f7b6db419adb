import pytest

from wristwork.page.problem import Problem
from wristwork.site.reading.lessons import LessonPage, PageSource, read_lesson


def lesson(text: str, uri: str = "weeks/week-03.md") -> tuple[LessonPage, list[Problem]]:
    page, problems = read_lesson(PageSource(uri, f"docs/{uri}", f"{uri.removesuffix('.md')}/", text), days=5)
    return page, list(problems)


def test_front_matter_says_what_the_week_is() -> None:
    page, problems = lesson(
        "---\nweek: 3\ntitle: Doubles\ngrade: 2\nminutes: 20\naim: Two notes\n  from one.\n---\n\nText."
    )
    assert problems == []
    assert page.week is not None
    assert (page.number, page.title, page.grade) == (3, "Doubles", 2)
    assert (page.week.minutes, page.week.aim) == (20, "Two notes from one.")
    assert (page.name, page.full_name) == ("Week 3", "Week 3: Doubles")


@pytest.mark.parametrize(
    ("text", "title"),
    [
        ("---\ntitle: From the *top*\n---\n# Heading\n", "From the *top*"),
        ("Words.\n\n# A **bold** heading {#anchor}\n", "A bold heading"),
        ("No heading at all.", "Week 03"),
        ("---\ntitle: 2027\n---\n", "2027"),
    ],
)
def test_title(text: str, title: str) -> None:
    assert lesson(text)[0].title == title


def test_a_page_of_no_week_goes_by_its_title() -> None:
    page, _ = lesson("Words.", "about/index.md")
    assert (page.number, page.title, page.name, page.full_name) == (None, "About", "About", "About")


def test_a_page_of_no_week_may_have_a_grade() -> None:
    assert lesson("---\ngrade: 4\n---\n")[0].grade == 4
    assert lesson("---\ngrade: lots\n---\n")[0].grade is None


def test_what_is_wrong_is_told_with_its_line() -> None:
    _, problems = lesson("---\ntitle: T\nweek: three\n---\n")
    assert [(p.path, p.line, p.found) for p in problems] == [
        ("docs/weeks/week-03.md", 3, "week: expected a whole number from 1 to 999, found 'three'")
    ]


def test_the_home_page_is_the_root() -> None:
    assert read_lesson(PageSource("index.md", "docs/index.md", "./", "# Home"), days=5)[0].url == ""


def test_a_comment_in_front_matter_is_no_heading() -> None:
    page, problems = lesson("---\n# a note to myself\nweek: 2\n---\n\n# The *paradiddle* {#two}\n\nWords.\n")
    assert problems == []
    assert page.title == "The paradiddle"
    assert page.week is not None
    assert page.week.title == "The paradiddle"
