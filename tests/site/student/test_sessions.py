"""A session of the plan, gone through step by step; what is done, taken back, and where to go on."""

from __future__ import annotations

import json
import re
from datetime import datetime

import pytest
from playwright.sync_api import Page, expect

from tests.site.student.conftest import FULL_STORAGE, Published, clipboard, own

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("student")]

DAY = datetime(2027, 1, 20, 18, 0)


def test_the_plan_is_there_as_data(published: Published) -> None:
    plan = json.loads((published.course.site / "sessions/week-2.json").read_text())
    assert (plan["week"], plan["page"], len(plan["sessions"])) == (2, "weeks/week-02/", 5)
    first = plan["sessions"][0]
    assert [part["kind"] for part in first] == ["warm-up", "exercise", "exercise", "ease-off"]
    assert sum(part["minutes"] for part in first) == 25
    assert {"id": "accented-paradiddle", "kind": "exercise", "minutes": 9, "tempo": 60} in first
    assert not (published.course.site / "sessions/week-3.json").exists()  # it has no minutes


def chosen(page: Page, session: int) -> None:
    page.locator(f"label[for=ww-session-{session}]").click()


def finished(page: Page, published: Published, week: int = 1, session: int = 1) -> None:
    page.goto(f"{published.url}practice/#week-{week}-session-{session}")
    for _ in range(9):
        page.locator(".ww-today-next").click()
        if page.get_by_text("Well done.").is_visible():
            return


def test_a_session_is_gone_through_at_its_tempos_and_ends_with_what_was_done(page: Page, published: Published) -> None:
    page.clock.set_fixed_time(DAY)
    page.goto(f"{published.url}weeks/week-02/")
    chosen(page, 4)
    page.get_by_role("link", name="Start session 4").click()
    expect(page.get_by_role("heading", name="Week 2, session 4")).to_be_visible()
    expect(page.get_by_text("Step 1 of 4, 25 minutes left")).to_be_visible()
    page.get_by_role("button", name="Next").click()
    expect(page.get_by_text("Step 2 of 4, 20 minutes left")).to_be_visible()
    expect(page.get_by_text("beats a minute, 9 minutes.")).to_be_visible()
    page.get_by_role("button", name=re.compile("Clean at")).click()
    page.evaluate(
        """document.querySelector(".ww-exercise").dispatchEvent(new CustomEvent("ww-played",
            {bubbles: true, detail: {id: "accented-paradiddle", seconds: 185, tempo: 84}}))"""
    )
    page.get_by_role("button", name="Next").click()
    page.get_by_role("button", name="Next").click()
    page.get_by_role("button", name="Finish").click()
    expect(page.get_by_role("heading", name="Well done.")).to_be_focused()
    expect(page.get_by_text(re.compile(r"Accented paradiddle: 3 minutes, clean at \d+"))).to_be_visible()
    expect(page.get_by_text("The other way: not played here")).to_be_visible()
    expect(page.get_by_label("Session 4 of week 2 is done")).to_be_checked()
    expect(page.get_by_role("link", name="Next time: week 2, session 1")).to_be_visible()
    page.get_by_role("button", name="Back", exact=True).click()
    expect(page.get_by_role("heading", name="Ease-off")).to_be_focused()


def test_the_steps_of_the_warm_up_add_up_to_its_clock(page: Page, published: Published) -> None:
    page.goto(f"{published.url}practice/#week-1-session-1")
    expect(page.get_by_role("timer")).to_have_text("5:00")
    steps = page.locator(".ww-today-step ol > li")
    expect(steps).to_have_text([re.compile(r" \(2:30\)\. ")] * 2)


def test_what_is_ticked_today_is_done_at_the_end_though_nothing_was_played(page: Page, published: Published) -> None:
    page.clock.set_fixed_time(DAY)
    page.goto(f"{published.url}practice/#week-1-session-1")
    page.locator(".ww-today-next").click()
    page.get_by_label("Done", exact=True).check()
    for _ in range(2):
        page.locator(".ww-today-next").click()
    expect(page.get_by_text("Slow singles: done", exact=True)).to_be_visible()
    page.clock.set_fixed_time(DAY.replace(day=21))
    page.goto("about:blank")
    finished(page, published)
    expect(page.get_by_text("Slow singles: not played here")).to_be_visible()


def test_a_session_that_there_is_not_is_told(page: Page, published: Published) -> None:
    for address in ("week-9-session-1", "week-1-session-7"):
        page.goto(f"{published.url}practice/#{address}")
        expect(page.get_by_role("alert")).to_contain_text("There is no session")
        page.goto("about:blank")


def test_a_plan_that_can_not_be_reached_is_told(page: Page, published: Published) -> None:
    page.route("**/sessions/*.json", lambda route: route.abort())
    page.goto(f"{published.url}practice/#week-1-session-1")
    expect(page.get_by_role("alert")).to_contain_text("The plan can’t be reached")


def test_what_is_done_is_remembered_and_the_way_goes_on(page: Page, published: Published) -> None:
    page.clock.set_fixed_time(DAY)
    page.goto(published.url)
    expect(page.get_by_role("link", name="Go to your week")).to_be_visible()
    assert page.get_by_role("link", name="Continue").count() == 0
    finished(page, published)
    page.goto(published.url)
    page.get_by_role("link", name="Continue: week 1, session 2").click()
    expect(page.get_by_role("heading", name="Week 1, session 2")).to_be_visible()
    page.goto(f"{published.url}weeks/week-01/")
    expect(page.locator("#ww-session-2")).to_be_checked()
    expect(page.locator("label[for=ww-session-1]")).to_contain_text(", done")
    for number in (2, 3, 4, 5):
        chosen(page, number)
        page.get_by_role("button", name="I have done it").locator("visible=true").click()
    expect(page.get_by_role("button", name="Done on 20 January 2027").locator("visible=true")).to_have_count(1)
    page.goto(published.url)
    expect(page.get_by_role("link", name="Continue: week 2, session 1")).to_be_visible()


def test_exercises_that_are_clean_fill_the_line_at_the_top(page: Page, published: Published) -> None:
    page.goto(f"{published.url}x/slow-singles/")
    page.get_by_role("button", name="Clean at").click()
    page.goto(published.url)
    expect(page.get_by_text("1 of 3 exercises clean.")).to_be_visible()
    filled = page.locator(".ww-hero__filled")
    assert filled.get_attribute("stroke-dasharray") == "0.333 2"


def test_a_tempo_in_the_plan_sets_the_player(page: Page, published: Published) -> None:
    page.goto(f"{published.url}weeks/week-02/")
    chosen(page, 5)
    link = page.locator(".ww-plan a", has_text="Accented paradiddle").locator("visible=true")
    assert link.get_attribute("href") == "?tempo=100#accented-paradiddle"
    link.click()
    expect(page.get_by_role("button", name="Clean at 100")).to_be_visible()


def test_clean_is_explained_once_and_can_be_taken_back(page: Page, published: Published) -> None:
    page.goto(f"{published.url}x/slow-singles/?tempo=64")
    expect(page.get_by_text("Clean: a minute, even, easy")).to_be_visible()
    page.get_by_role("button", name="Clean at 64").click()
    expect(page.get_by_text("Clean: a minute, even, easy")).to_be_hidden()
    expect(page.get_by_text("Best so far: 64")).to_be_visible()
    page.get_by_role("button", name="Take back 64").click()
    expect(page.get_by_text("Best so far")).to_be_hidden()
    expect(page.get_by_role("button", name="Take back")).to_be_hidden()


def test_done_carries_its_day(page: Page, published: Published) -> None:
    page.clock.set_fixed_time(DAY)
    page.goto(f"{published.url}x/slow-singles/")
    page.get_by_label("Done").check()
    expect(page.get_by_text("Done on 20 January 2027")).to_be_visible()


def test_minutes_without_the_player_and_a_name_for_the_message(page: Page, published: Published) -> None:
    page.clock.set_fixed_time(DAY)
    page.goto(f"{published.url}my-practice/")
    page.get_by_text("I practised without the player").click()
    page.get_by_label("Minutes", exact=True).fill("12")
    page.get_by_label("Of what").select_option("slow-singles")
    page.get_by_role("button", name="Add", exact=True).click()
    expect(page.get_by_text("12 minutes added to today.")).to_be_visible()
    expect(page.get_by_text("12 minutes in the last 14 days")).to_be_visible()
    page.get_by_label("My name").fill("Jo <b>")
    page.get_by_role("button", name="Copy as a message").click()
    expect(page.get_by_text("Message copied.")).to_be_visible()
    assert clipboard(page).startswith("Jo  b, my practice, week 1: 12 minutes")
    page.get_by_role("button", name="Copy a link that shows this table").click()
    expect(page.get_by_text("Link copied.")).to_be_visible()
    page.reload()
    expect(page.get_by_label("My name")).to_have_value("Jo <b>")
    page.on("dialog", lambda dialog: dialog.accept())
    page.get_by_role("button", name="Delete everything").click()
    expect(page.get_by_label("My name")).to_have_value("")


def test_my_practice_shows_what_was_played_and_what_is_next(page: Page, published: Published) -> None:
    finished(page, published, week=2)
    page.goto(f"{published.url}my-practice/")
    expect(page.get_by_label("I am in")).to_have_value("2")
    expect(page.get_by_text("Done: session 1 of 5.")).to_be_visible()
    expect(page.get_by_role("link", name="Start session 2")).to_be_visible()
    expect(page.get_by_role("row", name="Accented paradiddle")).to_be_visible()
    expect(page.get_by_role("row", name="The other way")).to_be_hidden()
    page.get_by_text("The rest of week 2").click()
    expect(page.get_by_role("row", name="The other way")).to_be_visible()


def test_where_nothing_can_be_kept_a_session_still_runs_and_says_so(page: Page, published: Published) -> None:
    page.goto(published.url)
    page.evaluate(FULL_STORAGE)
    page.add_init_script(f"({FULL_STORAGE})()")
    finished(page, published)
    expect(page.get_by_text("This browser keeps nothing for this page")).to_be_visible()
    assert page.evaluate("(key) => localStorage.getItem(key)", own("log")) is None
