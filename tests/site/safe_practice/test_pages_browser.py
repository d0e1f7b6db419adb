"""The pages as a whole in a real browser: check list, paper, accessibility, size, drawings, privacy."""

import pytest
from playwright.sync_api import expect

from tests.accessibility import WCAG, violations
from tests.site.safe_practice.form import fill, work_out
from wristwork.course.safety.safe_practice import Topic

pytestmark = pytest.mark.browser


def test_without_scripts_there_is_the_table(browser, site):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{site}/hearing-default.html")
    expect(page.locator(".ww-sound-day table")).to_be_visible()
    expect(page.locator(".ww-sound-day")).to_contain_text("2 h 31 min")
    expect(page.locator("form")).to_have_count(0)
    page.goto(f"{site}/warm-up-default.html")
    expect(page.get_by_text("Follow the list below with a clock in view.")).to_be_visible()
    context.close()


def test_the_check_list_remembers_its_ticks(page, site):
    page.goto(f"{site}/posture-default.html")
    first, last = page.get_by_label("The thighs slope gently down."), page.get_by_label("Nothing hurts")
    first.check()
    last.focus()
    page.keyboard.press("Space")
    page.reload()
    expect(first).to_be_checked()
    expect(last).to_be_checked()
    expect(page.get_by_label("Both feet rest flat.")).not_to_be_checked()
    page.get_by_role("button", name="Untick all").click()
    page.reload()
    expect(first).not_to_be_checked()


def test_a_damaged_memory_does_no_harm(page, site):
    page.goto(f"{site}/posture-default.html")
    page.evaluate("localStorage.setItem('ww.checklist.posture', '{not json')")
    page.reload()
    expect(page.get_by_label("Both feet rest flat.")).not_to_be_checked()


def test_paper_gets_the_list_and_no_controls(page, site):
    page.goto(f"{site}/posture-default.html")
    page.get_by_label("Both feet rest flat.").check()
    page.emulate_media(media="print")
    expect(page.get_by_role("button", name="Untick all")).to_be_hidden()
    expect(page.get_by_label("Both feet rest flat.")).to_be_visible()


@pytest.mark.parametrize("scheme", ["default", "slate"])
@pytest.mark.parametrize("topic", Topic)
def test_the_pages_are_accessible_and_fit(page, site, topic, scheme):
    page.set_viewport_size({"width": 320, "height": 640})
    page.goto(f"{site}/{topic}-{scheme}.html")
    if topic is Topic.HEARING:
        fill(page, 1, minutes="x")
        page.get_by_role("button", name="Add a part").click()
        fill(page, 2, minutes=30, kind="snr", label=20)
        page.get_by_role("button", name="Work it out").click()
        fill(page, 1, minutes=30)
        page.get_by_role("button", name="Work it out").click()
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    assert violations(page, only=WCAG) == []


@pytest.mark.parametrize("topic", [Topic.WARM_UP, Topic.POSTURE])
def test_letters_in_drawings_can_be_read_at_320_pixels(page, site, topic):
    page.set_viewport_size({"width": 320, "height": 640})
    page.goto(f"{site}/{topic}-default.html")
    sizes = page.evaluate(
        """[...document.querySelectorAll(".ww-drawing text")].map((text) => {
            const drawing = text.ownerSVGElement;
            const scale = drawing.getBoundingClientRect().width / drawing.viewBox.baseVal.width;
            return parseFloat(getComputedStyle(text).fontSize) * scale;
        })"""
    )
    assert sizes
    assert min(sizes) >= 12


def test_words_in_drawings_stay_inside(page, site):
    for topic in (Topic.WARM_UP, Topic.POSTURE):
        page.goto(f"{site}/{topic}-default.html")
        outside = page.evaluate(
            """[...document.querySelectorAll(".ww-drawing text")].filter((text) => {
                const [words, all] = [text.getBoundingClientRect(), text.ownerSVGElement.getBoundingClientRect()];
                const across = words.left < all.left || words.right > all.right;
                return across || words.top < all.top || words.bottom > all.bottom;
            }).map((text) => text.textContent)"""
        )
        assert outside == []


def test_nothing_leaves_the_page(page, site):
    asked = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(f"{site}/hearing-default.html")
    fill(page, 1, minutes=60)
    work_out(page)
    assert asked
    assert all(url.startswith((site, "data:")) for url in asked)
