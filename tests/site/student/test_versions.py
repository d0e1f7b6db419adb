"""One page, one version: what is heard is what is drawn, whatever was published meanwhile."""

from __future__ import annotations

import json
import re

import pytest
from playwright.sync_api import Page, Route, expect

from tests.site.student.conftest import Published

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("student")]

PLACE = "x/accented-paradiddle/"


def data(published: Published) -> dict[str, object]:
    return json.loads((published.course.site / PLACE / "exercise.json").read_text(encoding="utf-8"))


def test_page_lesson_and_data_carry_one_version(published: Published) -> None:
    version = f'data-ww-version="{data(published)["version"]}"'
    assert version in published.course.page(PLACE)
    assert version in published.course.page("weeks/week-02")


def test_an_older_page_does_not_play_newer_data_and_says_so(page: Page, published: Published) -> None:
    newer = {**data(published), "version": "0123456789", "tempo": {"start": 140, "goal": 180, "step": 4}}
    page.route("**/exercise.json", lambda route: route.fulfill(json=newer))
    page.goto(f"{published.url}{PLACE}")
    page.get_by_role("button", name="Play Accented paradiddle").click()
    expect(page.locator(".ww-say")).to_contain_text("This exercise has changed since this page was made.")
    expect(page.locator(".ww-player")).to_have_attribute("data-ww-state", "stopped")
    expect(page.get_by_label("Tempo, beats a minute")).to_have_value("60")


def test_older_data_that_a_browser_has_kept_is_asked_for_once_more(page: Page, published: Published) -> None:
    answers = [{**data(published), "version": "0123456789"}, data(published)]

    def answer(route: Route) -> None:
        route.fulfill(json=answers.pop(0))

    page.route("**/x/accented-paradiddle/exercise.json", answer)
    page.goto(f"{published.url}{PLACE}?tempo=72")
    page.get_by_role("button", name="Play Accented paradiddle").click()
    expect(page.locator(".ww-player")).to_have_attribute("data-ww-state", re.compile("counting|playing"))
    assert answers == []
