"""Weeks on a calendar: with a start they have dates, without one nothing speaks of dates."""

from datetime import date, timedelta

import pytest
from icalendar import Calendar

from tests.site.courses import Course
from wristwork.site.week.dates import days_words

START = date(2027, 1, 11)


@pytest.fixture(scope="module")
def dated(tmp_path_factory: pytest.TempPathFactory) -> Course:
    plugins = ["search", {"wristwork": {"starts": START.isoformat()}}]
    course = Course(tmp_path_factory.mktemp("dated"), plugins=plugins)
    course.build()
    return course


@pytest.mark.parametrize(
    ("first", "words"),
    [
        (date(2027, 1, 11), "11 to 17 January 2027"),
        (date(2027, 1, 27), "27 January to 2 February 2027"),
        (date(2026, 12, 28), "28 December 2026 to 3 January 2027"),
    ],
)
def test_days_in_words(first: date, words: str) -> None:
    assert days_words(first, first + timedelta(days=6)) == words


def test_the_calendar_holds_every_week_as_an_all_day_event(dated: Course) -> None:
    calendar = Calendar.from_ical((dated.site / "course.ics").read_bytes())
    events = list(calendar.walk("VEVENT"))
    assert [event.decoded("dtstart") for event in events] == [START, START + timedelta(weeks=1)]
    assert [event.decoded("dtend") - event.decoded("dtstart") for event in events] == [timedelta(days=7)] * 2
    assert [str(event["uid"]) for event in events] == ["week-1@loft.larkspur.example", "week-2@loft.larkspur.example"]
    assert str(events[1]["url"]) == "https://larkspur.example/loft/weeks/week-02/"
    assert str(events[1]["summary"]) == "Larkspur Drum Loft: week 2, The paradiddle"


def test_lines_of_the_calendar_are_as_short_as_the_standard_wants(dated: Course) -> None:
    content = (dated.site / "course.ics").read_bytes()
    assert content.endswith(b"END:VCALENDAR\r\n")
    assert all(len(line) <= 75 for line in content.split(b"\r\n"))


def test_week_pages_and_the_home_page_have_dates(dated: Course) -> None:
    assert ">18 to 24 January 2027</time>" in dated.page("weeks/week-02")
    home = dated.page("")
    assert "Week 1 begins on 11 January 2027." in home
    assert 'href="course.ics"' in home


def test_without_a_start_nothing_speaks_of_dates(built: Course) -> None:
    assert not (built.site / "course.ics").exists()
    for page in ("", "weeks/week-01", "my-practice", "practice"):
        assert "ww-days" not in built.page(page)
        assert "data-ww-starts" not in built.page(page)
        assert "course.ics" not in built.page(page)


NO_DATE, NO_YEAR = "Expected a date like 2027-01-11", "Expected a year from 1970 to 2199"


@pytest.mark.parametrize(
    ("value", "said"),
    [
        ("2027-13-01", NO_DATE),
        ("soon", NO_DATE),
        ("11.1.2027", NO_DATE),
        ("9999-12-31", NO_YEAR),
        ("0001-01-01", NO_YEAR),
    ],
)
def test_a_date_that_is_none_stops_the_build_and_says_what_to_write(course: Course, value: str, said: str) -> None:
    course.settings["plugins"] = ["search", {"wristwork": {"starts": value}}]
    done = course.run()
    assert done.returncode != 0
    assert said in done.stderr
    assert "Traceback" not in done.stderr
