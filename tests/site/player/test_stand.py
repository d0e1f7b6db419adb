"""On the music stand: one exercise over the whole screen."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.accessibility import violations
from tests.site.player.conftest import phone_page
from tests.site.player.driving import Driver
from tests.site.player.server import Served

pytestmark = pytest.mark.browser


@pytest.fixture
def page(whole_browser: Browser) -> Iterator[Page]:
    yield from phone_page(whole_browser)


@pytest.fixture
def stand(page: Page, served: Served) -> Locator:
    """The stand with the lesson's first exercise, opened by the keyboard."""
    page.goto(served.url)
    key = Driver(page).ready().setup.get_by_role("button", name="On the music stand")
    key.focus()
    page.keyboard.press("Enter")
    stand = page.get_by_role("dialog", name="On the music stand")
    expect(stand).to_be_visible()
    return stand


def title(stand: Locator) -> Locator:
    return stand.get_by_role("heading")


def test_it_fills_the_screen_and_plays_at_a_tempo(stand: Locator):
    page = stand.page
    box = stand.bounding_box()
    assert box == {"x": 0, "y": 0, "width": page.evaluate("innerWidth"), "height": page.evaluate("innerHeight")}
    expect(title(stand)).to_have_text("Accented paradiddle")
    play = stand.get_by_role("button", name="Play Accented paradiddle")
    expect(play).to_be_focused()
    stand.get_by_label("Tempo, beats a minute").fill("150")
    play.click()
    expect(stand.locator(".ww-diagram .ww-now").first).to_be_attached()
    expect(stand.locator(".ww-cursor")).to_be_attached()
    page.keyboard.press("+")
    expect(stand.get_by_label("Tempo, beats a minute")).to_have_value("151")
    expect(stand.locator(".ww-unseen")).to_have_text("151 beats a minute")
    page.keyboard.press("Space")
    expect(play).to_be_visible()


def test_the_diagram_is_as_large_as_fits(stand: Locator):
    for width, height in ((1280, 800), (390, 844), (844, 390), (320, 568)):
        fits_at(stand, width, height)


def fits_at(stand: Locator, width: int, height: int) -> None:
    page = stand.page
    page.set_viewport_size({"width": width, "height": height})
    # Sizes are followed when a frame is laid out.
    page.wait_for_function("(width) => innerWidth === width", arg=width)
    page.evaluate("() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")
    sheet = stand.locator(".ww-stand-sheet")
    zoom = float(sheet.evaluate("(sheet) => sheet.style.getPropertyValue('--ww-zoom')"))
    room = sheet.evaluate("(sheet) => [sheet.scrollWidth - sheet.clientWidth, sheet.scrollHeight - sheet.clientHeight]")
    assert room[0] <= 0
    assert zoom >= 1
    assert page.evaluate("document.querySelector('.ww-stand').scrollWidth") <= width
    if zoom > 1:
        assert room[1] <= 0 or lines_in_sight(sheet) >= (1 if height < 500 else 2)
        sheet.evaluate("(sheet, zoom) => sheet.style.setProperty('--ww-zoom', zoom * 1.1)", zoom)
        wider, taller = sheet.evaluate(
            "(sheet) => [sheet.scrollWidth > sheet.clientWidth, sheet.scrollHeight > sheet.clientHeight]"
        )
        assert wider or (taller and lines_in_sight(sheet) < 2)
    if width == 1280:
        assert zoom > 1.5
    small = stand.evaluate(
        """(stand) => [...stand.querySelectorAll("button, input")].filter((key) => key.checkVisibility())
        .filter((key) => Math.min(key.offsetWidth, key.offsetHeight) < 44).map((key) => key.outerHTML)"""
    )
    assert small == []


def lines_in_sight(sheet: Locator) -> float:
    """How many lines of the diagram the sheet has room for."""
    return sheet.evaluate(
        """(sheet) => { const cells = [...sheet.querySelectorAll(".ww-cell")];
        const tops = cells.map((cell) => cell.getBoundingClientRect());
        const second = tops.find(({ top }) => top > tops[0].top + 1);
        return sheet.clientHeight / (second ? second.top - tops[0].top : tops[0].height); }"""
    )


def test_a_pedal_turns_to_the_next_exercise_and_back(stand: Locator):
    page = stand.page
    for on, back in (("ArrowRight", "ArrowLeft"), ("ArrowDown", "ArrowUp"), ("PageDown", "PageUp")):
        page.keyboard.press("Enter")
        expect(stand.get_by_role("button", name="Stop Accented paradiddle")).to_be_visible()
        page.keyboard.press(on)
        expect(title(stand)).to_have_text("Flams and drags")
        expect(stand.get_by_role("button", name="Play Flams and drags")).to_be_focused()
        expect(stand.get_by_label("Tempo, beats a minute")).to_have_value("90")
        page.keyboard.press(back)
        expect(title(stand)).to_have_text("Accented paradiddle")
    page.keyboard.press("PageUp")
    expect(stand.locator(".ww-say")).to_have_text("This is the first exercise of the lesson.")
    for _ in range(4):
        page.keyboard.press("PageDown")
    expect(stand.locator(".ww-say")).to_have_text("This is the last exercise of the lesson.")
    expect(stand.get_by_text("4 of 4")).to_be_visible()
    expect(stand.get_by_role("button", name="Next exercise")).to_be_disabled()


def test_arrows_stay_with_who_types_a_tempo(stand: Locator):
    field = stand.get_by_label("Tempo, beats a minute")
    field.press("ArrowUp")
    expect(title(stand)).to_have_text("Accented paradiddle")
    expect(field).to_have_value("61")


@pytest.mark.parametrize("way", ["Escape", "button"])
def test_leaving_is_easy_and_brings_the_diagram_back(stand: Locator, way: str):
    page = stand.page
    page.keyboard.press("Enter")
    page.keyboard.press("PageDown")
    expect(title(stand)).to_have_text("Flams and drags")
    if way == "Escape":
        page.keyboard.press("Escape")
    else:
        stand.get_by_role("button", name="Leave").click()
    expect(stand).to_have_count(0)
    page.wait_for_function("!document.fullscreenElement")
    assert page.locator(".ww-exercise > .ww-diagram").count() == 4
    expect(page.locator("#flams-and-drags").get_by_role("button", name="Play Flams and drags")).to_be_focused()


def test_on_its_own_page_an_exercise_leads_to_the_next_one_without_leaving(page: Page, served: Served):
    page.goto(f"{served.url}x/accented-paradiddle/#stand")
    stand = page.get_by_role("dialog", name="On the music stand")
    expect(title(stand)).to_have_text("Accented paradiddle")
    page.keyboard.press("PageDown")
    expect(title(stand)).to_have_text("Flams and drags")
    assert page.url == f"{served.url}x/accented-paradiddle/#stand"
    page.keyboard.press("Enter")
    expect(stand.get_by_role("button", name="Stop Flams and drags")).to_be_visible()
    page.keyboard.press("PageUp")
    expect(title(stand)).to_have_text("Accented paradiddle")
    page.keyboard.press("Escape")
    expect(page.locator("figure.ww-exercise")).to_have_count(1)


def test_without_a_signal_the_next_exercise_is_said_to_be_out_of_reach(page: Page, served: Served):
    page.goto(f"{served.url}x/accented-paradiddle/#stand")
    stand = page.get_by_role("dialog", name="On the music stand")
    expect(title(stand)).to_have_text("Accented paradiddle")
    page.context.set_offline(True)
    page.keyboard.press("PageDown")
    expect(stand.locator(".ww-say")).to_have_text("The next exercise can’t be reached without a signal.")


def test_the_way_back_closes_the_stand_and_stays_on_the_page(stand: Locator):
    page = stand.page
    address = page.url
    page.go_back()
    expect(stand).to_have_count(0)
    assert page.url == address


def test_the_beats_are_seen_however_the_phone_is_held(stand: Locator):
    for size in ({"width": 390, "height": 844}, {"width": 844, "height": 390}, {"width": 320, "height": 568}):
        stand.page.set_viewport_size(size)
        expect(stand.locator(".ww-lights")).to_be_visible()


def test_the_screen_stays_on_while_the_stand_is_open(page: Page, served: Served):
    page.add_init_script(
        """window.locks = []; Object.defineProperty(navigator, "wakeLock", { value: { request: async () => {
        const lock = { released: false, release: async () => { lock.released = true; } };
        window.locks.push(lock); return lock; } } });"""
    )
    page.goto(f"{served.url}x/accented-paradiddle/#stand")
    expect(page.get_by_role("dialog", name="On the music stand")).to_be_visible()
    page.wait_for_function("window.locks.length === 1 && !window.locks[0].released")
    page.keyboard.press("Escape")
    page.wait_for_function("window.locks[0].released")


def test_a_long_diagram_follows_what_is_played(stand: Locator):
    page = stand.page
    page.set_viewport_size({"width": 320, "height": 568})
    stand.get_by_label("Tempo, beats a minute").fill("200")
    stand.get_by_role("button", name=re.compile("^Play")).click()
    expect(stand.locator(".ww-cursor")).to_be_attached()
    page.wait_for_function("document.querySelector('.ww-stand-sheet').scrollTop > 50")
    page.wait_for_function("document.querySelector('.ww-stand-sheet').scrollTop < 50")


@pytest.mark.parametrize("scheme", ["default", "slate"])
def test_axe_finds_nothing(stand: Locator, scheme: str):
    page = stand.page
    page.evaluate("(scheme) => { document.documentElement.dataset.mdColorScheme = scheme; }", scheme)
    assert violations(page) == []
