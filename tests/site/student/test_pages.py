"""The student's pages for everyone: no width, colour scheme or way of reading shuts anyone out."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.accessibility import violations
from tests.site.student.conftest import NewContext, Published
from tests.site.student.test_practice_list import link_of

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("student")]

WIDTHS = (320, 390, 1280)


def todays_practice(page: Page, published: Published) -> str:
    return link_of(page, published, [{"id": "accented-paradiddle", "words": "Lead with the left, too."}])


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_pages_can_be_read_at_every_width_and_with_any_tool(
    new_context: NewContext, published: Published, scheme: str
) -> None:
    page = new_context(color_scheme=scheme).new_page()
    addresses = [f"{published.url}{name}" for name in ("practice/", "my-practice/", "", "x/old-way/?", "x/too-early/")]
    for address in (*addresses, todays_practice(page, published)):
        page.goto("about:blank")
        page.goto(address, wait_until="networkidle")
        if "#" in address:
            page.get_by_role("button", name="Next").click()
            page.locator(".ww-player").wait_for()
        for width in WIDTHS:
            page.set_viewport_size({"width": width, "height": 844})
            # The theme moves its side bars in and out of sight for a moment.
            page.wait_for_function("(width) => document.documentElement.scrollWidth <= width", arg=width)
        assert violations(page) == [], address


def test_the_whole_list_can_be_worked_from_the_keyboard(page: Page, published: Published) -> None:
    page.goto(todays_practice(page, published))
    page.get_by_role("button", name="Next").focus()
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.tagName") == "H2"
    page.locator(".ww-player").wait_for()
    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.textContent") == "Next":
            break
    page.keyboard.press("Space")
    assert page.evaluate("document.activeElement.textContent") == "Ease-off"


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_wrong_address_offers_what_comes_close_and_the_search(
    new_context: NewContext, published: Published, scheme: str
) -> None:
    page = new_context(color_scheme=scheme, reduced_motion="reduce").new_page()
    # A host shows this page wherever there is none.
    lost = (published.course.site / "404.html").read_text(encoding="utf-8")
    page.route("**/x/acented-paradidle/", lambda route: route.fulfill(status=404, body=lost, content_type="text/html"))
    page.set_viewport_size({"width": 390, "height": 664})
    page.goto(f"{published.url}x/acented-paradidle/")
    page.get_by_role("button", name="Search the course").click()
    expect(page.get_by_role("textbox", name="Search")).to_be_focused()
    page.keyboard.press("Escape")
    assert violations(page) == []
    page.get_by_role("link", name="Accented paradiddle").click()
    page.wait_for_url(f"{published.url}weeks/week-02/#accented-paradiddle")
