"""The student's own log, on their device and nowhere else."""

from __future__ import annotations

import json
from datetime import datetime
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.site.student.conftest import FULL_STORAGE, NewContext, Published, clipboard, open_shares, own

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
    cells = page.get_by_role("row", name=title).locator("td")
    cells.first.wait_for()
    return cells.all_inner_texts()[:3]


def test_the_page_shows_this_weeks_exercises_with_marks_tempos_and_minutes(student: Page) -> None:
    expect(student.get_by_label("I am in")).to_have_value("2")
    assert row(student, "Accented paradiddle") == ["20 January 2027", "76", "3"]
    assert row(student, "The other way") == ["not yet", "not yet", "0"]
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
        "Accented paradiddle: clean at 76, 3 min, done on 20 January 2027",
        "Question: Should the left hand be lower?",
    ]


def test_what_was_heard_goes_into_the_message_if_the_student_wants_it(student: Page, published: Published) -> None:
    expect(student.get_by_label("With what was heard")).to_have_count(0)
    student.goto(f"{published.url}x/accented-paradiddle/")
    expect(student.get_by_role("button", name="Clean at")).to_be_visible()
    for detail in ({"spread": "<b>"}, {"accents": 8, "louder": -2}, {"tempo": 10_000}):
        heard = {"id": "accented-paradiddle", "tempo": 76, "spread": 9, "accents": None, "louder": None, **detail}
        student.evaluate("(detail) => document.dispatchEvent(new CustomEvent('ww-listened', { detail }))", heard)
    student.goto(f"{published.url}my-practice/")
    line = "Accented paradiddle: clean at 76, 3 min, done on 20 January 2027"
    student.get_by_role("button", name="Copy as a message").click()
    expect(student.get_by_text("Message copied.")).to_be_visible()
    assert clipboard(student).split("\n")[1] == line
    expect(student.get_by_text("Accented paradiddle: heard at 76, within 9 ms")).to_be_visible()
    student.get_by_label("With what was heard").check()
    student.get_by_role("button", name="Copy as a message").click()
    student.wait_for_function("async () => (await navigator.clipboard.readText()).includes('heard')")
    assert clipboard(student).split("\n")[1] == (
        f"{line}, heard at 76, within 9 ms, accents 8 dB over taps, left hand 2 dB louder"
    )


def test_a_link_shows_the_tutor_the_same_table_and_leaves_nothing(
    student: Page, published: Published, new_context: NewContext
) -> None:
    student.get_by_label("A question").fill("<img src=x onerror=alert(1)>")
    student.get_by_role("button", name="Copy a link that shows this table").click()
    expect(student.get_by_text("Link copied.")).to_be_visible()
    tutor = new_context().new_page()
    tutor.goto(published.here(clipboard(student)))
    expect(tutor.get_by_role("heading", name="Week 2", exact=True)).to_be_visible()
    assert row(tutor, "Accented paradiddle") == ["20 January 2027", "76", "3"]
    expect(tutor.locator("blockquote")).to_have_text("<img src=x onerror=alert(1)>")
    assert tutor.locator("blockquote img").count() == 0
    kept = tutor.evaluate("Object.keys(localStorage).filter((key) => key.startsWith('ww'))")
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
    assert row(other, "Accented paradiddle") == ["20 January 2027", "76", "3"]


@pytest.mark.parametrize("content", ["", "no json", "[]", "null", '{"clean": {}}'])
def test_a_file_that_is_no_log_changes_nothing(student: Page, tmp_path: Path, content: str) -> None:
    file = tmp_path / "other.json"
    file.write_text(content)
    student.get_by_label("A saved log").set_input_files(file)
    expect(student.get_by_text("That file is no saved log.")).to_be_visible()
    assert row(student, "Accented paradiddle") == ["20 January 2027", "76", "3"]


def kept(page: Page) -> dict[str, object]:
    """All that is kept by the site's own keys."""
    mine = "Object.entries(localStorage).filter(([key]) => key.startsWith('ww')).map(([key, text]) => [key, text])"
    return {key: json.loads(text) for key, text in page.evaluate(mine)}


def test_one_button_deletes_everything(student: Page, published: Published) -> None:
    student.goto(f"{published.url}x/slow-singles/")
    open_shares(student)
    student.get_by_role("button", name="Put on a list").click()
    student.goto(f"{published.url}safe-practice/posture/")
    student.get_by_role("checkbox").first.check()
    student.goto(f"{published.url}my-practice/")
    student.get_by_label("My week 1 began on").fill("2027-01-18")
    assert set(kept(student)) == {own(name) for name in ("log", "list", "starts", "checklist.posture")}
    student.on("dialog", lambda dialog: dialog.accept())
    student.get_by_role("button", name="Delete everything").click()
    expect(student.get_by_text("Everything is deleted.")).to_be_visible()
    assert row(student, "Accented paradiddle") == ["not yet", "not yet", "0"]
    assert kept(student) == {}


# A browser keeps one store for all courses of a host.


def test_two_courses_on_one_host_neither_share_nor_delete_each_others_log(student: Page, published: Published) -> None:
    before = kept(student)
    student.goto(f"{published.neighbour}my-practice/")
    assert row(student, "Accented paradiddle") == ["not yet", "not yet", "0"]
    student.on("dialog", lambda dialog: dialog.accept())
    student.get_by_role("button", name="Delete everything").click()
    expect(student.get_by_text("Everything is deleted.")).to_be_visible()
    assert kept(student) == before


DAY = "2027-01-20"
FORMER = {
    "ww.log": {
        "wristwork": 1,
        "played": {DAY: {"accented-paradiddle": 185, "old-way": 60, "a-neighbours": 600, "-": 30}},
        "clean": {"accented-paradiddle": {DAY: 76}, "a-neighbours": {DAY: 90}},
        "done": {"too-early": DAY, "a-neighbours": DAY},
        "week": None,
        "question": "",
    },
    "ww.list": [
        {"id": name, "from": 60, "to": 70, "unit": "minutes", "amount": 5, "words": ""}
        for name in ("slow-singles", "a-neighbours")
    ],
    "ww.starts": "2027-01-11",
}
LEFT = {
    "wristwork": 1,
    "played": {DAY: {"a-neighbours": 600}},
    "clean": {"a-neighbours": {DAY: 90}},
    "done": {"a-neighbours": DAY},
    "sessions": {},
    "heard": {},
    "week": None,
    "question": "",
}


def with_former(page: Page, published: Published, former: dict[str, object]) -> None:
    """A browser from the time when keys had no path."""
    page.clock.set_fixed_time(WEEK_2)
    page.goto(f"{published.url}schema/exercise.json")
    texts = {key: json.dumps(value) for key, value in former.items()}
    page.evaluate("(texts) => Object.entries(texts).forEach(([key, text]) => localStorage.setItem(key, text))", texts)


def test_a_log_from_before_is_taken_over_and_a_neighbours_part_stays(page: Page, published: Published) -> None:
    with_former(page, published, FORMER)
    page.goto(f"{published.url}x/accented-paradiddle/")
    expect(page.get_by_text("Best so far: 76")).to_be_visible()
    page.goto(f"{published.url}my-practice/")
    assert row(page, "Accented paradiddle") == ["not yet", "76", "3"]
    found = kept(page)
    assert found[own("log")]["played"] == {DAY: {"accented-paradiddle": 185, "old-way": 60, "-": 30}}
    assert found[own("log")]["done"] == {"too-early": DAY}
    assert [item["id"] for item in found[own("list")]] == ["slow-singles"]
    assert found["ww.log"] == LEFT
    assert [item["id"] for item in found["ww.list"]] == ["a-neighbours"]
    page.on("dialog", lambda dialog: dialog.accept())
    page.get_by_role("button", name="Delete everything").click()
    expect(page.get_by_text("0 minutes in the last 14 days")).to_be_visible()
    page.reload()
    expect(page.get_by_text("0 minutes in the last 14 days")).to_be_visible()
    assert kept(page)["ww.log"] == LEFT


def test_a_log_of_this_course_alone_leaves_nothing_under_the_former_keys(page: Page, published: Published) -> None:
    log = {**FORMER["ww.log"], **{"played": {}, "done": {}, "clean": {"accented-paradiddle": {DAY: 76}}}}
    with_former(page, published, {"ww.log": log, "ww.starts": "2027-01-18", "ww.checklist.posture": ["Feet flat"]})
    page.goto(f"{published.url}my-practice/")
    expect(page.get_by_label("My week 1 began on")).to_have_value("2027-01-18")
    assert set(kept(page)) == {own(name) for name in ("log", "starts", "checklist.posture")}


def test_with_storage_full_no_tick_undoes_another(student: Page, published: Published) -> None:
    student.goto(f"{published.url}weeks/week-02/")
    first, second = (student.get_by_label("Done").nth(place) for place in (0, 1))
    expect(first).to_be_checked()
    student.evaluate(FULL_STORAGE)
    first.uncheck()
    expect(student.get_by_text("This browser keeps nothing for this page")).to_be_visible()
    second.check()
    expect(first).not_to_be_checked()
    expect(second).to_be_checked()
    student.evaluate("window.makeRoom()")
    student.get_by_role("button", name="Clean at").first.click()
    assert set(kept(student)[own("log")]["done"]) == {"the-other-way"}


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
