"""The student's own log, on their device and nowhere else."""

from __future__ import annotations

import json
from datetime import datetime
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.site.student.conftest import NewContext, Published, clipboard

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("student")]

WEEK_2 = datetime(2027, 1, 20, 18, 0)


@pytest.fixture
def student(page: Page, published: Published) -> Page:
    """A student in week 2 who has practised."""
    page.clock.set_fixed_time(WEEK_2)
    page.goto(f"{published.url}x/accented-paradiddle/?tempo=76")
    page.get_by_role("button", name="Clean at 76").click()
    page.get_by_label("Done").check()
    page.evaluate(
        """document.querySelector(".ww-exercise").dispatchEvent(new CustomEvent("ww-played",
            {bubbles: true, detail: {id: "accented-paradiddle", seconds: 185, tempo: 76}}))"""
    )
    page.goto(f"{published.url}my-practice/")
    expect(page.get_by_role("row", name="Accented paradiddle")).to_be_visible()
    return page


def row(page: Page, title: str) -> list[str]:
    return page.get_by_role("row", name=title).locator("td").all_inner_texts()[:3]


def test_the_page_shows_this_weeks_exercises_with_marks_tempos_and_minutes(student: Page) -> None:
    expect(student.get_by_label("I am in")).to_have_value("2")
    assert row(student, "Accented paradiddle") == ["yes", "76", "3"]
    assert row(student, "The other way") == ["no", "not yet", "0"]
    expect(student.get_by_role("img", name="One day: 76")).to_be_visible()
    expect(student.get_by_text("3 minutes in the last 14 days")).to_be_visible()


def test_the_highest_clean_tempo_stays(student: Page, published: Published) -> None:
    student.goto(f"{published.url}x/accented-paradiddle/?tempo=64")
    student.get_by_role("button", name="Clean at 64").click()
    expect(student.get_by_text("Best so far: 76")).to_be_visible()


def test_a_message_to_the_tutor_reads_like_one(student: Page) -> None:
    student.get_by_label("A question").fill("Should the left hand be lower?")
    student.get_by_role("button", name="Copy as a message").click()
    expect(student.get_by_text("Message copied.")).to_be_visible()
    assert clipboard(student).split("\n") == [
        "My practice, week 2: 3 minutes in the last 14 days",
        "Accented paradiddle: clean at 76, 3 min, done",
        "Question: Should the left hand be lower?",
    ]


def test_a_link_shows_the_tutor_the_same_table_and_leaves_nothing(
    student: Page, published: Published, new_context: NewContext
) -> None:
    student.get_by_label("A question").fill("<img src=x onerror=alert(1)>")
    student.get_by_role("button", name="Copy a link that shows this table").click()
    expect(student.get_by_text("Link copied.")).to_be_visible()
    tutor = new_context().new_page()
    tutor.goto(clipboard(student))
    expect(tutor.get_by_role("heading", name="Week 2", exact=True)).to_be_visible()
    assert row(tutor, "Accented paradiddle") == ["yes", "76", "3"]
    expect(tutor.locator("blockquote")).to_have_text("<img src=x onerror=alert(1)>")
    assert tutor.locator("blockquote img").count() == 0
    kept = tutor.evaluate("Object.keys(localStorage).filter((key) => key.startsWith('ww.'))")
    assert kept == []


def test_a_damaged_report_says_so(page: Page, published: Published) -> None:
    page.goto(f"{published.url}my-practice/#AQYpQ6kFDgAAAAAAAAAA")
    expect(page.get_by_role("alert")).to_contain_text("This link holds no practice that can be read.")


def test_the_log_moves_to_another_device_as_a_file(
    student: Page, published: Published, new_context: NewContext, tmp_path: Path
) -> None:
    with student.expect_download() as started:
        student.get_by_role("button", name="Save as a file").click()
    file = tmp_path / started.value.suggested_filename
    started.value.save_as(file)
    assert file.name == "my-practice-2027-01-20.json"
    assert json.loads(file.read_text())["clean"] == {"accented-paradiddle": {"2027-01-20": 76}}
    other = new_context().new_page()
    other.clock.set_fixed_time(WEEK_2)
    other.goto(f"{published.url}my-practice/")
    other.get_by_label("A saved log").set_input_files(file)
    expect(other.get_by_text("The log in the file is now in this one.")).to_be_visible()
    assert row(other, "Accented paradiddle") == ["yes", "76", "3"]


@pytest.mark.parametrize("content", ["", "no json", "[]", "null", '{"clean": {}}'])
def test_a_file_that_is_no_log_changes_nothing(student: Page, tmp_path: Path, content: str) -> None:
    file = tmp_path / "other.json"
    file.write_text(content)
    student.get_by_label("A saved log").set_input_files(file)
    expect(student.get_by_text("That file is no saved log.")).to_be_visible()
    assert row(student, "Accented paradiddle") == ["yes", "76", "3"]


def test_one_button_deletes_everything(student: Page) -> None:
    student.on("dialog", lambda dialog: dialog.accept())
    student.get_by_role("button", name="Delete everything").click()
    expect(student.get_by_text("Everything is deleted.")).to_be_visible()
    assert row(student, "Accented paradiddle") == ["no", "not yet", "0"]
    assert student.evaluate("localStorage.getItem('ww.log')") is None


def test_the_browser_is_asked_to_keep_the_log(student: Page) -> None:
    student.evaluate("navigator.storage.persist = async () => false")
    student.get_by_role("button", name="Keep it for good").click()
    expect(student.get_by_text("This browser does not promise it.")).to_be_visible()


# Dates: the course begins on 11 January 2027.


def test_the_home_page_shows_this_week(page: Page, published: Published) -> None:
    page.clock.set_fixed_time(WEEK_2)
    page.goto(published.url)
    expect(page.locator(".ww-this-week")).to_contain_text("This week: Week 2, The paradiddle (18 to 24 January 2027)")
    assert page.locator(".ww-now strong").all_inner_texts() == ["The paradiddle"]


@pytest.mark.parametrize(
    ("day", "words"),
    [
        (datetime(2027, 1, 3), "Week 1 begins soon: 11 to 17 January 2027."),
        (datetime(2027, 1, 11, 0, 5), "This week: Week 1"),
        (datetime(2027, 1, 17, 23, 55), "This week: Week 1"),
        (datetime(2027, 6, 1), "All weeks of this course are over."),
    ],
)
def test_before_and_after_the_weeks(page: Page, published: Published, day: datetime, words: str) -> None:
    page.clock.set_fixed_time(day)
    page.goto(published.url)
    expect(page.locator(".ww-this-week")).to_contain_text(words)


def test_a_student_who_joined_later_has_dates_of_their_own(page: Page, published: Published) -> None:
    page.clock.set_fixed_time(WEEK_2)
    page.goto(f"{published.url}my-practice/")
    page.get_by_label("My week 1 began on").fill("2027-01-18")
    expect(page.get_by_label("I am in")).to_have_value("1")
    page.goto(f"{published.url}weeks/week-02/")
    expect(page.locator(".ww-week-head time")).to_have_text("25 to 31 January 2027")
    page.goto(f"{published.url}my-practice/")
    page.get_by_label("My week 1 began on").fill("")
    page.goto(f"{published.url}weeks/week-02/")
    expect(page.locator(".ww-week-head time")).to_have_text("18 to 24 January 2027")
