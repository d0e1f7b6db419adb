"""The built site in a real browser: sizes, colours, accessibility, search, sorting, print."""

from __future__ import annotations

import functools
import http.server
import re
import threading
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, expect

from tests.accessibility import violations
from tests.conftest import CHROMIUM
from tests.site.courses import Course
from wristwork.pattern.model import Drum

# One group: the browser starts once, whatever the number of workers.
pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

PAGES = ("", "weeks/week-02/", "key/", "curriculum/", "exercises/", "x/accented-paradiddle/", "safe-practice/posture/")
WIDTHS = (320, 390, 1280)
SCHEMES = ("light", "dark")


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        pass


@pytest.fixture(scope="session")
def address(built: Course) -> Iterator[str]:
    handler = functools.partial(_Quiet, directory=str(built.site))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    yield context
    context.close()


def visit(context: BrowserContext, url: str) -> Page:
    page = context.new_page()
    page.goto(url, wait_until="networkidle")
    return page


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("path", PAGES, ids=[path.strip("/") or "home" for path in PAGES])
def test_pages_have_no_accessibility_violation_and_nothing_overflows(
    browser: Browser, address: str, path: str, scheme: str
) -> None:
    # Without motion nothing is looked at half way through a transition.
    context = browser.new_context(color_scheme=scheme, reduced_motion="reduce")
    page = visit(context, address + path)
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate("document.documentElement.scrollWidth") <= width, f"{width} px"
    for width in (320, 1280):
        page.set_viewport_size({"width": width, "height": 900})
        assert violations(page) == [], f"{width} px"
    context.close()


@pytest.mark.parametrize("path", PAGES, ids=[path.strip("/") or "home" for path in PAGES])
def test_pages_ask_no_other_host_and_no_script_fails(context: BrowserContext, address: str, path: str) -> None:
    asked: list[str] = []
    failed: list[str] = []
    page = context.new_page()
    page.on("request", lambda request: asked.append(request.url))
    page.on("pageerror", lambda error: failed.append(str(error)))
    page.on("response", lambda answer: failed.append(answer.url) if answer.status >= 400 else None)
    page.goto(address + path, wait_until="networkidle")
    assert [url for url in asked if not url.startswith((address, "data:"))] == []
    assert failed == []
    assert context.cookies() == []


def test_search_finds_an_exercise_by_its_sticking_and_by_its_title(context: BrowserContext, address: str) -> None:
    page = visit(context, address)
    for typed in ("R>", "R>LRR", "R>LRR L>RLL", "LRR|L>RLL", "rlrr", "r>l rr l>r ll", "R L R R", "Accented para"):
        page.click('input[name="query"]')
        page.fill('input[name="query"]', typed)
        found = page.locator('.md-search-result__link[href*="#accented-paradiddle"]:visible').first
        found.wait_for()
        assert "Accented paradiddle" in found.inner_text()
    page.click('input[name="query"]')
    page.fill('input[name="query"]', "R>R>R>R>")
    page.get_by_text("No exercise has this sticking.", exact=True).wait_for()
    assert page.locator(".md-search-result__link:visible").count() == 0
    page.fill('input[name="query"]', "R>LRRL>RRL")
    page.get_by_text("No exercise has this sticking. Close to it:").wait_for()
    assert page.locator('.md-search-result__link[href*="#accented-paradiddle"]:visible').count() == 1


def test_the_index_is_sorted_by_what_is_asked_for(context: BrowserContext, address: str) -> None:
    page = visit(context, address + "exercises/")

    def titles() -> list[str]:
        return page.locator(".ww-index tbody th").all_inner_texts()

    taught = ["Slow singles", "Accented paradiddle", "The other way"]
    assert titles() == taught
    page.get_by_role("button", name="Exercise").click()
    assert titles() == ["Accented paradiddle", "Slow singles", "The other way"]
    page.get_by_role("button", name="Exercise").press("Enter")
    assert titles() == ["The other way", "Slow singles", "Accented paradiddle"]
    page.get_by_role("button", name="Week").click()
    assert titles()[0] == "Slow singles"
    page.get_by_role("button", name="Needs").click()
    assert titles()[-1] == "Accented paradiddle"
    assert page.locator('[aria-sort="ascending"]').inner_text() == "Needs"


def test_pages_work_with_scripts_off(browser: Browser, address: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address + "x/accented-paradiddle/")
    assert page.locator("h1").inner_text() == "Accented paradiddle"
    assert page.locator(".ww-diagram svg").count() > 3
    page.get_by_text("About this exercise").click()
    expect(page.get_by_text("Beat 1: right, accent, down stroke")).to_be_visible()
    page.get_by_role("link", name="Slow singles").click()
    assert page.url.endswith("/x/slow-singles/")
    page.goto(address + "exercises/")
    assert page.locator(".ww-index tbody tr").count() == 3
    context.close()


def test_an_address_with_an_anchor_shows_the_exercise(context: BrowserContext, address: str) -> None:
    page = visit(context, address + "weeks/week-02/#the-other-way")
    box = page.locator("#the-other-way").bounding_box()
    assert box is not None
    assert 48 < box["y"] < 700


def test_a_lesson_prints_its_diagram_and_text_black_on_white(context: BrowserContext, address: str) -> None:
    page = visit(context, address + "weeks/week-02/")
    page.emulate_media(media="print", color_scheme="dark")
    assert not page.locator(".ww-week-foot").is_visible()
    for selector in (".md-header", ".md-sidebar--primary", ".md-footer", ".ww-controls", ".ww-acts", ".ww-about"):
        assert not page.locator(selector).first.is_visible(), selector
    expect(page.locator(".ww-diagram svg").first).to_be_visible()
    expect(page.get_by_text("A sticking that turns itself round.")).to_be_visible()
    style = "(element) => [getComputedStyle(element).color, getComputedStyle(element).backgroundColor]"
    assert page.locator(".ww-title").first.evaluate(style)[0] == "rgb(0, 0, 0)"
    assert page.locator("body").evaluate(style)[1] == "rgb(255, 255, 255)"


def test_an_address_that_is_wrong_is_told_with_a_way_on(built: Course) -> None:
    page = (built.site / "404.html").read_text(encoding="utf-8")
    assert "This page is not here" in page
    assert 'role="dialog" aria-label="Search"' in page
    assert re.search(r'src="/loft/assets/wristwork/[^"]+/search\.js"', page)


def test_the_home_page_takes_a_student_to_their_week(context: BrowserContext, address: str) -> None:
    page = visit(context, address)
    page.get_by_role("link", name="Go to your week").click()
    page.get_by_role("link", name="Week 2 The paradiddle").click()
    assert page.url.endswith("/weeks/week-02/")
    expect(page.get_by_text("Turn the hands round.")).to_be_visible()


@pytest.mark.parametrize("path", ["weeks/week-02/", "safe-practice/warm-up/", "key/", "x/accented-paradiddle/"])
def test_a_diagram_has_its_room_and_keeps_its_marks_when_hands_are_swapped(
    context: BrowserContext, address: str, path: str
) -> None:
    page = visit(context, address + path)
    page.evaluate(
        """() => new Promise((done) => { document.addEventListener("ww-swapped", () => done(), { once: true });
        document.documentElement.dataset.wwHands = "swapped"; })"""
    )
    for diagram in page.locator(".ww-diagram").all():
        box, last = diagram.bounding_box(), diagram.locator(".ww-beat").last.bounding_box()
        assert box is not None
        assert last is not None
        assert last["y"] + last["height"] <= box["y"] + box["height"] + 1
        assert set(diagram.locator(".ww-gutter .ww-side").all_text_contents()) <= {"high", "low", "feet", *Drum}


def test_with_letters_twice_the_usual_size_no_page_is_wider_than_a_phone(playwright: Playwright, address: str) -> None:
    settings = [*CHROMIUM["args"], "--blink-settings=defaultFontSize=32"]
    browser = playwright.chromium.launch(**{**CHROMIUM, "args": settings})
    context = browser.new_context(viewport={"width": 390, "height": 844}, reduced_motion="reduce")
    for path in PAGES:
        page = visit(context, address + path)
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, path
        small = """[...document.querySelectorAll("main :is(p, li, td, th, button, .ww-diagram text)")]
            .filter((element) => element.checkVisibility() && element.textContent.trim())
            .map((element) => element.getBoundingClientRect().height).filter((height) => height > 0)"""
        assert min(page.evaluate(small), default=32) >= 14, path
    browser.close()
