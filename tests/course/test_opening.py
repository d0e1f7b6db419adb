"""Weeks that open on a day: how it is written, and what may not lean on them."""

from __future__ import annotations

from datetime import date

import pytest

from wristwork.course.course import read_teaching
from wristwork.course.opening import closed_page, is_closed, opening_problems
from wristwork.course.weeks import read_week
from wristwork.page.page import read_page, read_pages

DAY = date(2027, 1, 25)


def week(number, opens, body="", lines=""):
    head = f"opens: {opens}\n" if opens else ""
    return f"---\nweek: {number}\ntitle: Week\n{head}{lines}---\n\nWords.\n\n{body}\n"


def exercise(name, *lines):
    own = lines or ("hands: RLRL RLRL",)
    return "\n".join(["```pattern", f"id: {name}", f"title: {name}", *own, "```"])


def told(**pages):
    course, problems = read_teaching(read_pages({f"{name}.md": text for name, text in pages.items()}))
    assert problems == ()
    return [problem.headline for problem in opening_problems(course)]


def test_a_week_is_closed_up_to_its_day():
    read, problems = read_week(read_page("a.md", week(3, "2027-01-25")))
    assert (read.opens, problems) == (DAY, ())
    assert is_closed(read, date(2027, 1, 24))
    assert not is_closed(read, DAY)
    assert not is_closed(None, DAY)


@pytest.mark.parametrize("typed", ["soon", "25.1.2027", "2027-1-25", "[2027-01-25]", "2027-01-25 08:00:00"])
def test_what_is_no_day_is_told(typed):
    read, (problem,) = read_week(read_page("a.md", week(3, typed)))
    assert read.opens is None
    assert problem.headline.startswith("a.md:4: opens: expected a day, found ")
    assert problem.remedy == "write the year, the month and the day, as in opens: 2027-01-25"


@pytest.mark.parametrize("title", ["Plain", 'A "quoted": <b>&amp; one', "Zwölf # Schläge", "it's [not] {a} list"])
def test_the_page_of_a_closed_week_says_when_and_nothing_else(title):
    quoted = '"' + title.replace('"', '\\"') + '"'
    text = (
        f"---\nweek: 3\ntitle: {quoted}\naim: Secret\nminutes: 20\nopens: 2027-01-25\n---\n\n{exercise('secret-one')}\n"
    )
    read, _ = read_week(read_page("a.md", text))
    page = closed_page(read)
    closed, problems = read_week(read_page("a.md", page))
    assert problems == ()
    assert (closed.number, closed.title, closed.aim, closed.minutes) == (3, title, "Opens on 25 January 2027.", None)
    assert "This week opens on 25 January 2027." in page
    assert "ecret" not in page


def test_what_is_open_may_not_stand_on_what_is_closed():
    later = week(3, "2027-01-25", exercise("later-one"))
    for opens in (None, "2027-01-24"):
        where = 9 if opens is None else 10
        grown = week(4, opens, exercise("grown-one", "from: later-one", "change: other hand leads"))
        assert told(a=later, b=grown) == [
            f"b.md:{where + 2}: from: 'later-one' is of week 3, which opens on 25 January 2027, after this"
        ]
    needing = exercise("needing-one", "hands: RLRL", "requires: later-one")
    assert told(a=later, b=week(4, None, needing)) == [
        "b.md:12: requires: 'later-one' is of week 3, which opens on 25 January 2027, after this"
    ]
    assert told(a=later, b=week(4, None, lines="again: [later-one]\n")) == [
        "b.md:4: again: 'later-one' is of week 3, which opens on 25 January 2027, after this"
    ]
    assert told(a=later, b=f"# A page\n\n{needing}\n")[0].startswith("b.md:7: requires: 'later-one'")


def test_what_opens_with_it_or_after_it_may():
    later = week(
        3,
        "2027-01-25",
        exercise("later-one") + "\n\n" + exercise("more", "from: later-one", "change: other hand leads"),
    )
    needing = exercise("needing-one", "hands: RLRL", "requires: later-one")
    assert told(a=later, b=week(4, "2027-01-25", needing), c=week(5, "2028-01-01", lines="again: [later-one]\n")) == []
    assert told(a=week(1, None, exercise("later-one")), b=week(4, None, needing)) == []
