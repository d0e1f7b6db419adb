"""What a student does with a practice click."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.site.player.driving import Driver
from tests.site.player.server import Served

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("player")]


def places(driver: Driver) -> list[str]:
    """Where it sounds, what is between, in which bars: as the lists show it."""
    lists = driver.setup.locator(".ww-clicks:not(.ww-bars) select")
    lists.first.wait_for()
    return [each.input_value() for each in lists.all()]


def test_a_click_is_chosen_carried_by_the_link_and_given_back(page: Page, served: Served) -> None:
    page.goto(f"{served.url}?click=2.4-2on2off#accented-paradiddle")
    driver = Driver(page).ready()
    assert places(driver) == ["2.4", "", "2on2off"]
    driver.setup.locator(".ww-clicks:not(.ww-bars) select").nth(0).select_option("off")
    driver.setup.locator(".ww-clicks:not(.ww-bars) select").nth(1).select_option("3")
    assert places(driver) == ["off", "3", "2on2off"]
    driver.setup.get_by_role("button", name="As the exercise has it").click()
    assert places(driver) == ["all", "", ""]
    expect(driver.setup.get_by_role("button", name="As the exercise has it")).to_be_hidden()


def test_a_link_in_a_lesson_sets_the_click_and_the_tempo(page: Page, served: Served) -> None:
    page.goto(f"{served.url}")
    driver = Driver(page).ready()
    page.evaluate(
        """() => { const link = document.createElement("a");
            link.textContent = "click on 1";
            link.href = "?click=1-1on1off&tempo=72#accented-paradiddle";
            document.body.prepend(link); window.same = true; }"""
    )
    page.get_by_role("link", name="click on 1").click()
    assert page.evaluate("window.same")
    expect(driver.tempo).to_have_value("72")
    assert places(driver) == ["1", "", "1on1off"]
