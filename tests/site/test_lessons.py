import pytest

from wristwork.page.problem import Problem
from wristwork.site.reading.lessons import LessonPage, PageSource, read_lesson
from wristwork.site.reading.topic_pages import own_topics


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
    page, (problem,) = lesson("---\ngrade: lots\n---\n")
    assert page.grade is None
    assert problem.found == "grade: expected a whole number from 1 to 10, found 'lots'"


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


# Nine lists of nine of the one before: a page of 300 letters that would take all memory to print.
BOMB = "a0: &a0 [x, x, x]\n" + "".join(f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]\n" for n in range(1, 40))


@pytest.mark.parametrize("week", ["week: 3\n", ""], ids=["week", "page"])
@pytest.mark.parametrize("value", ["*a39", "{k: *a39}", "[a]", "{a: b}"])
@pytest.mark.parametrize("key", ["title", "description", "author", "icon", "template", "standard-text", "grade"])
def test_a_list_where_a_line_takes_one_value_is_told_and_not_printed(key: str, value: str, week: str) -> None:
    page, problems = lesson(f"---\n{BOMB}{week}{key}: {value}\n---\n\n# Heading\n")
    (problem,) = problems
    assert page.title == "Heading"
    assert problem.line == 42 + bool(week)
    assert problem.found.startswith(f"{key}: expected ")
    assert problem.found.endswith("found a list of settings" if value[0] == "{" else "found a list")
    assert problem.remedy.startswith("write ")


@pytest.mark.parametrize("value", ["*a39", "{k: *a39}"])
@pytest.mark.parametrize("key", ["week", "aim", "minutes", "days", "again", "surface", "protection", "allow"])
def test_a_list_in_a_line_of_a_week_is_told_and_not_printed(key: str, value: str) -> None:
    week = "" if key == "week" else "week: 3\n"
    _, problems = lesson(f"---\n{BOMB}{week}{key}: {value}\n---\n\n# Heading\n")
    (problem,) = problems
    assert problem.line == 42 + bool(week)
    assert len(str(problem)) < 300
    assert problem.found.startswith(f"{key}: ")


@pytest.mark.parametrize("value", ["*a39", "{k: *a39}"])
def test_a_list_in_a_line_that_is_nobodys_is_none_of_our_business(value: str) -> None:
    assert lesson(f"---\n{BOMB}other: {value}\n---\n\n# Heading\n")[1] == []


@pytest.mark.parametrize("value", ["*a39", "{k: *a39}", "ears", "yes"])
def test_a_topic_that_there_is_not_is_told_in_a_line(value: str) -> None:
    text = f"---\n{BOMB}safe-practice: {value}\n---\n\n# Heading\n"
    topics, (problem,) = own_topics([PageSource("ears.md", "docs/ears.md", "ears/", text)])
    assert not topics
    assert problem.line == 42
    assert "write one of warm-up, posture, hearing" in problem.remedy
    assert len(str(problem)) < 300


@pytest.mark.parametrize("line", ["standard-text: yes", "standard-text: no", "standard-text: true", 'title: "[a]"'])
def test_a_line_of_any_page_that_is_right_is_not_told(line: str) -> None:
    assert lesson(f"---\n{line}\n---\n")[1] == []
