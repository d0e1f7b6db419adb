"""Passing an exercise on, and what its link opens."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.site.courses import SETTINGS, Course
from tests.site.student.conftest import NewContext, Published, clipboard, open_shares

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("student")]

SITE = SETTINGS["site_url"]
PLACE = "x/accented-paradiddle/"
# 1.6 megabits a second with the delay of a phone's network.
SLOW = {"offline": False, "latency": 150, "downloadThroughput": 200_000, "uploadThroughput": 90_000}


def at_tempo(page: Page, published: Published, tempo: int) -> None:
    page.goto(f"{published.url}{PLACE}?tempo={tempo}")
    expect(page.get_by_role("button", name=f"Clean at {tempo}")).to_be_visible()
    open_shares(page)


def test_the_tempo_goes_along_with_the_link(page: Page, published: Published) -> None:
    at_tempo(page, published, 72)
    page.get_by_role("button", name="Copy link").click()
    expect(page.get_by_text("Link copied.")).to_be_visible()
    assert clipboard(page) == f"{SITE}{PLACE}?tempo=72"


def test_a_page_at_another_address_says_where_its_links_lead(page: Page, published: Published) -> None:
    at_tempo(page, published, 72)
    for name in ("Copy link", "Copy as a message"):
        page.get_by_role("button", name=name).click()
        expect(page.get_by_text(f"It leads to {SITE}, where the course is published")).to_be_visible()
    page.goto(f"{published.url}my-practice/")
    page.get_by_role("button", name="Copy a link that shows this table").click()
    expect(page.get_by_text(f"It leads to {SITE}, where the course is published")).to_be_visible()
    assert clipboard(page).startswith(f"{SITE}my-practice/#")


def test_where_the_course_is_published_nothing_more_is_said(page: Page, published: Published) -> None:
    page.route(f"{SITE}**", lambda route: route.fulfill(response=route.fetch(url=published.here(route.request.url))))
    page.goto(f"{SITE}{PLACE}?tempo=72")
    open_shares(page)
    page.evaluate("navigator.clipboard.writeText = async (text) => { window.copied = text; }")
    page.get_by_role("button", name="Copy link").click()
    expect(page.locator(".ww-share [role=status]")).to_have_text("Link copied.")
    assert page.evaluate("window.copied") == f"{SITE}{PLACE}?tempo=72"


def test_a_preview_hands_out_the_published_address(course: Course) -> None:
    course.preview()
    assert f'data-site="{SITE}"' in course.page("")
    assert f'href="{SITE}{PLACE}"' in course.page(PLACE)


def test_a_message_is_four_short_lines(page: Page, published: Published) -> None:
    at_tempo(page, published, 76)
    page.get_by_role("button", name="Copy as a message").click()
    expect(page.get_by_text("Message copied.")).to_be_visible()
    assert clipboard(page).split("\n") == [
        "Week 2 · Accented paradiddle",
        "Play R>LRR L>RLL R>LRR L>RLL, right hand leads",
        "Start at 76 beats a minute",
        f"{SITE}{PLACE}?tempo=76",
    ]


def test_a_message_names_the_hands_that_the_reader_sees(page: Page, published: Published) -> None:
    at_tempo(page, published, 72)
    page.get_by_role("button", name="Copy as a message").click()
    usual = clipboard(page).splitlines()[1]
    page.evaluate("document.documentElement.dataset.wwHands = 'swapped'")
    page.get_by_role("button", name="Copy as a message").click()
    swapped = clipboard(page).splitlines()[1]
    assert (usual, swapped) == (
        "Play R>LRR L>RLL R>LRR L>RLL, right hand leads",
        "Play L>RLL R>LRR L>RLL R>LRR, left hand leads (left-handed)",
    )


@pytest.mark.parametrize("width", ["wide", "narrow"])
def test_rows_that_are_all_hidden_come_back_with_a_press_in_their_place(
    page: Page, published: Published, width: str
) -> None:
    if width == "narrow":
        page.set_viewport_size({"width": 320, "height": 568})
    page.goto(f"{published.url}{PLACE}")
    page.get_by_role("button", name="More", exact=True).click()
    rows = page.get_by_role("group", name="Rows of the diagram").get_by_role("checkbox")
    expect(rows.first).to_be_visible()
    for row in rows.all():
        expect(page.get_by_role("button", name="Show them again")).to_have_count(0)
        row.uncheck()
    if width == "narrow":
        page.get_by_role("button", name="More", exact=True).click()
    page.get_by_role("button", name="Show them again").click()
    expect(page.get_by_role("button", name="Show them again")).to_have_count(0)
    expect(page.locator(".ww-beat .ww-row-sticking").first).to_be_visible()
    assert page.locator("[data-ww-switch^=row]").evaluate_all("(boxes) => boxes.every((box) => box.checked)")


@pytest.mark.parametrize(("device", "other"), [("light", "dark"), ("dark", "light")])
def test_a_scheme_chosen_by_hand_holds_on_an_exercises_own_page(
    new_context: NewContext, published: Published, device: str, other: str
) -> None:
    page = new_context(color_scheme=device).new_page()
    page.goto(f"{published.url}weeks/week-02/")
    colour = "getComputedStyle(document.body).getPropertyValue('--ww-paper')"
    page.get_by_title(f"Switch to {other} colours").click()
    page.wait_for_function(
        "(scheme) => document.body.dataset.mdColorScheme === scheme", arg="slate" if other == "dark" else "default"
    )
    chosen = page.evaluate(colour)
    page.goto(f"{published.url}{PLACE}")
    assert page.evaluate(colour) == chosen
    other_page = new_context(color_scheme=device).new_page()
    other_page.goto(f"{published.url}{PLACE}")
    assert other_page.evaluate(colour) != chosen


def test_on_a_lesson_page_each_exercise_has_its_own_link(page: Page, published: Published) -> None:
    page.goto(f"{published.url}weeks/week-02/")
    open_shares(page)
    rows = page.get_by_role("group", name=re.compile("^Pass on:"))
    expect(rows).to_have_count(2)
    rows.nth(1).get_by_role("button", name="Copy link").click()
    expect(rows.nth(1).get_by_text("Link copied.")).to_be_visible()
    assert clipboard(page).startswith(f"{SITE}x/the-other-way/?tempo=")


def test_a_clipboard_that_refuses_leaves_the_text_to_copy_by_hand(page: Page, published: Published) -> None:
    page.add_init_script(
        "navigator.clipboard.writeText = () => Promise.reject(new DOMException('no', 'NotAllowedError'))"
    )
    at_tempo(page, published, 80)
    page.get_by_role("button", name="Copy link").click()
    expect(page.get_by_text("This browser did not copy it.")).to_be_visible()
    selected = page.evaluate("document.activeElement.value.slice(document.activeElement.selectionStart)")
    assert selected == f"{SITE}{PLACE}?tempo=80"


def test_the_phones_own_share_sheet_gets_the_message_and_the_link(page: Page, published: Published) -> None:
    page.add_init_script("navigator.share = async (data) => { window.shared = data; }")
    at_tempo(page, published, 72)
    page.get_by_role("button", name="Share …").click()
    shared = page.evaluate("window.shared")
    assert shared["url"] == f"{SITE}{PLACE}?tempo=72"
    assert shared["text"].endswith("Start at 72 beats a minute")
    assert shared["title"] == "Accented paradiddle"


def test_a_share_sheet_that_is_closed_is_no_failure(page: Page, published: Published) -> None:
    page.add_init_script("navigator.share = () => Promise.reject(new DOMException('closed', 'AbortError'))")
    at_tempo(page, published, 72)
    page.get_by_role("button", name="Share …").click()
    expect(page.get_by_text("Sharing did not work here.")).to_have_count(0)


def test_with_scripts_off_the_link_shows_the_exercise(new_context: NewContext, published: Published) -> None:
    page = new_context(java_script_enabled=False).new_page()
    page.goto(f"{published.url}{PLACE}?tempo=72")
    expect(page.locator(".ww-diagram svg").first).to_be_visible()
    expect(page.get_by_role("heading", name="Accented paradiddle")).to_be_visible()
    expect(page.locator(".ww-code svg")).to_be_visible()
    page.get_by_role("link", name="Week 2: The paradiddle").first.click()
    assert "weeks/week-02/" in page.url


def test_the_link_opens_light_and_shows_the_diagram_before_any_script(
    new_context: NewContext, published: Published
) -> None:
    """What 1.6 Mbit/s brings in half a second; the seconds themselves are measured in the bench."""
    page = new_context().new_page()
    page.context.new_cdp_session(page).send("Network.emulateNetworkConditions", SLOW)
    page.goto(f"{published.url}{PLACE}?tempo=72", wait_until="load")
    page.locator(".ww-player").wait_for()
    sizes, scripts, shown = page.evaluate("""() => {
      const files = performance.getEntriesByType("resource").filter((file) => /\\.(js|css)$/.test(file.name));
      const all = [...performance.getEntriesByType("navigation"), ...files];
      return [
        all.reduce((sum, file) => sum + file.encodedBodySize, 0),
        files.filter((file) => file.name.endsWith(".js")).map((file) => file.responseEnd),
        performance.getEntriesByName("first-contentful-paint")[0].startTime,
      ];
    }""")
    assert sizes < 100_000
    assert shown < max(scripts)


@pytest.mark.parametrize("scripts", [True, False])
def test_a_moved_address_forwards(new_context: NewContext, published: Published, scripts: bool) -> None:
    page = new_context(java_script_enabled=scripts).new_page()
    page.goto(f"{published.url}x/old-way/?tempo=72")
    page.wait_for_url("**/x/the-other-way/**")
    expect(page.get_by_role("heading", name="The other way")).to_be_visible()
    if scripts:
        assert page.url.endswith("?tempo=72")


def test_a_retired_address_says_so_and_leads_to_the_course(page: Page, published: Published) -> None:
    page.goto(f"{published.url}x/too-early/")
    expect(page.get_by_text("It comes back in a later course.")).to_be_visible()
    page.get_by_role("link", name="Go to the course").click()
    page.wait_for_url(published.url)


def test_the_printed_sheet_has_the_diagram_a_ladder_to_tick_and_the_code(page: Page, published: Published) -> None:
    page.goto(f"{published.url}{PLACE}")
    page.emulate_media(media="print")
    for part in (".ww-diagram svg", ".ww-ladder", ".ww-code svg"):
        assert page.locator(part).first.is_visible(), part
    assert page.locator(".ww-ladder li").all_inner_texts() == [str(tempo) for tempo in range(60, 101, 4)]
    for part in (".ww-player", ".ww-acts", ".ww-about"):
        assert not page.locator(part).first.is_visible(), part
