"""A week's practice card: what it says, and that it works by finger, by keyboard, on paper and with scripts off."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.site.courses import WEEK_1, WEEK_2, Course
from tests.site.player.server import serving
from wristwork.course.course import read_teaching
from wristwork.course.plan import MOVE_UP
from wristwork.course.safety.exposure import SURFACES
from wristwork.course.safety.safe_practice import LOCAL_LAW, PROTECT_YOUR_EARS, STOP_RULE, Topic
from wristwork.page.page import read_pages
from wristwork.pattern.model import Side
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.reading.lessons import LessonPage, PageSource
from wristwork.site.week.practice_card import PracticeCard
from wristwork.store.store import Store

HOSTILE = '"><script>alert(1)</script>'
SESSION = re.compile(r'<div class="ww-session">.*?</div>', re.DOTALL)


# The plan of the second week, which the card has to say.
PLAN = read_teaching(read_pages({"week-01.md": WEEK_1, "week-02.md": WEEK_2}))[0].plans["week-02.md"]


def card(tmp_path: Path, second_week: str = WEEK_2) -> PracticeCard:
    """The card of the second of two weeks."""
    texts = {"week-01": WEEK_1, "week-02": second_week}
    sources = [PageSource(f"{name}.md", f"docs/{name}.md", f"{name}/", text) for name, text in texts.items()]
    site = CourseSite(sources, Store(tmp_path / "cache"))
    assert site.problems == []
    page = site.pages["week-02.md"]
    topics = {topic: LessonPage(topic.src_uri, topic.src_uri, f"safe/{topic}/", topic.page_title) for topic in Topic}
    assert page.week is not None
    return PracticeCard(page, page.week, site, topics)


def with_settings(*lines: str) -> str:
    """The second week with more at its top."""
    return WEEK_2.replace("minutes: 25\n", "".join(f"{line}\n" for line in lines))


def words(html: str) -> str:
    """The text of some HTML, one space between any two words."""
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


def test_every_session_says_what_its_plan_says(tmp_path: Path) -> None:
    shown = SESSION.findall(card(tmp_path).html)
    assert len(shown) == len(PLAN) == 5
    for session, html in zip(PLAN, shown, strict=True):
        rows = re.findall(r"<tr class=.*?</tr>", html)
        minutes = [int(found) for row in rows for found in re.findall(r"<tr[^>]*><td>(\d+)</td>", row)]
        assert minutes == [part.minutes for part in session.parts]
        assert sum(minutes) == 25 == int(re.search(r"<tfoot><tr><td>(\d+)</td>", html)[1])
        tempos = [found for row in rows for found in re.findall(r"<td>(\d*)</td></tr>$", row)]
        assert tempos == [str(part.tempo or "") for part in session.parts]
        assert f"Session {session.number} of 5" in words(html)


def test_a_session_begins_with_the_warm_up_and_ends_by_easing_off(tmp_path: Path) -> None:
    for html in SESSION.findall(card(tmp_path).html):
        names = [words(name) for name in re.findall(r'<th scope="row">(.*?)</th>', html)]
        assert names[0].startswith("Warm-up")
        assert names[-2].startswith("Ease-off")
        assert names[-1] == "minutes in all"
    assert '<a href="../safe/warm-up/">Warm-up</a>' in card(tmp_path).html


def test_exercises_are_links_to_where_they_are_taught(tmp_path: Path) -> None:
    html = card(tmp_path, with_settings("minutes: 25", "again: [slow-singles]")).html
    assert '<a href="?tempo=60#accented-paradiddle" data-ww-tempo="60"><bdi>Accented paradiddle</bdi></a>' in html
    again = '<a href="../week-01/?tempo=72#slow-singles" data-ww-tempo="72"><bdi>Slow singles</bdi></a>'
    assert f"{again}<small>met in week 1</small>" in html


def test_the_strokes_of_each_hand_are_those_of_the_plan(tmp_path: Path) -> None:
    said = re.findall(r"right hand ([\d,]+), left hand ([\d,]+)\.", words(card(tmp_path).html))
    planned = [(session.strokes(Side.RIGHT), session.strokes(Side.LEFT)) for session in PLAN]
    assert [(int(right.replace(",", "")), int(left.replace(",", ""))) for right, left in said] == planned


def test_the_rule_for_moving_up_the_stop_rule_and_the_three_pages(tmp_path: Path) -> None:
    html = card(tmp_path).html
    assert MOVE_UP in html
    assert STOP_RULE in html
    links = re.search(r'<ul class="ww-safe-links">(.*?)</ul>', html)[1]
    assert re.findall(r'href="([^"]+)">([^<]+)<', links) == [
        ("../safe/warm-up/", "Warm-up"),
        ("../safe/posture/", "Posture and set-up"),
        ("../safe/hearing/", "Look after your hearing"),
    ]


@pytest.mark.parametrize("surface", [surface.name for surface in SURFACES])
def test_protect_your_ears_stands_on_every_week_at_an_acoustic_kit_and_on_no_other(
    tmp_path: Path, surface: str
) -> None:
    for protection in ("none", "SNR 30"):
        html = card(tmp_path, with_settings("minutes: 25", f"surface: {surface}", f"protection: {protection}")).html
        assert (PROTECT_YOUR_EARS in html) == (surface == "acoustic kit")


def test_a_loud_week_without_a_plan_still_says_protect_your_ears(tmp_path: Path) -> None:
    made = card(tmp_path, with_settings("surface: acoustic kit"))
    assert made.is_needed
    assert PROTECT_YOUR_EARS in made.html
    assert "ww-sessions" not in made.html
    assert not card(tmp_path, with_settings("surface: practice pad")).is_needed


def test_shares_of_sound_for_the_minutes_without_the_break(tmp_path: Path) -> None:
    html = card(tmp_path, with_settings("minutes: 28", "surface: acoustic kit", "protection: SNR 25")).html
    shares = re.findall(r"<dt>(.*?)</dt><dd>(.*?)</dd>", html)
    # 28 minutes less a break of 3: 100 * 25 / 480 at 85 dB(A), doubled with every 3 dB, rounded up.
    assert shares == [
        ("Practice pad", "6 %"),
        ("Quiet kit", "17 %"),
        ("Acoustic kit, no protection", "16.8 days’ worth"),
        ("Acoustic kit, with SNR 25", "14 %"),
    ]
    assert "Cautious guesses for 25 minutes of playing" in html
    assert re.findall(r'<div class="([^"]+)"><dt>([^<]+)<', html) == [
        ("ww-over", "Acoustic kit, no protection"),
        ("ww-here", "Acoustic kit, with SNR 25"),
    ]


def test_headphones_are_not_guessed_at(tmp_path: Path) -> None:
    html = card(tmp_path, with_settings("minutes: 20", "surface: electronic kit")).html
    assert "no guess holds" in html
    assert "ww-here" not in html


def test_nothing_in_a_title_becomes_markup(tmp_path: Path) -> None:
    html = card(tmp_path, WEEK_2.replace("title: Accented paradiddle", f"title: {HOSTILE}")).html
    assert "<script" not in html
    assert "&lt;script&gt;" in html


def test_a_week_page_has_the_card_grades_and_the_word_on_local_law(built: Course) -> None:
    html = built.page("weeks/week-02")
    assert html.index('class="ww-week-head"') < html.index('class="ww-practice"') < html.index("<figure")
    assert "<dt>Grade</dt><dd>2</dd>" in html
    assert "worked out" not in html
    assert f'<p class="ww-law">{LOCAL_LAW}</p>' in html
    assert html.count('href="#this-weeks-practice"') >= 1, "it stands in the table of contents"
    for topic in Topic:
        assert f'href="../../safe-practice/{topic}/">{topic.page_title}</a>' in html


@pytest.fixture(scope="module")
def url(built: Course) -> Iterator[str]:
    with serving(built.site) as served:
        yield f"{served.url}weeks/week-02/"


@pytest.fixture
def page(browser: Browser, url: str) -> Iterator[Page]:
    """The week's page on a phone, with scripts off: the card needs none."""
    context = browser.new_context(viewport={"width": 320, "height": 700}, java_script_enabled=False)
    page = context.new_page()
    page.goto(url)
    yield page
    context.close()


@pytest.mark.browser
@pytest.mark.xdist_group("browser")
class TestInABrowser:
    def test_one_session_shows_and_a_finger_brings_another(self, page: Page) -> None:
        visible = page.locator(".ww-plan:visible caption")
        assert visible.all_inner_texts() == ["Session 1 of 5"]
        page.locator(".ww-sessions label").nth(3).click()
        assert visible.all_inner_texts() == ["Session 4 of 5"]

    def test_the_sessions_are_choices_with_names_that_the_arrow_keys_reach(self, page: Page) -> None:
        first = page.get_by_role("radio", name="Session 1 of 5")
        assert first.is_checked()
        first.focus()
        page.keyboard.press("ArrowRight")
        assert page.get_by_role("radio", name="Session 2 of 5").is_checked()
        assert page.locator(".ww-plan:visible caption").all_inner_texts() == ["Session 2 of 5"]
        outline = "label => getComputedStyle(label).outlineStyle"
        assert page.locator(".ww-sessions label").nth(1).evaluate(outline) == "solid"

    def test_nothing_scrolls_sideways_and_fingers_find_the_numbers(self, page: Page) -> None:
        assert page.evaluate("document.documentElement.scrollWidth") <= 320
        for label in page.locator(".ww-sessions label").all():
            box = label.bounding_box()
            assert box["width"] >= 24
            assert box["height"] >= 24

    def test_a_screen_reader_finds_a_table_with_headings(self, page: Page) -> None:
        table = page.get_by_role("table", name="Session 1 of 5")
        assert [head.inner_text() for head in table.get_by_role("columnheader").all()] == [
            "Minutes",
            "What to play",
            "Tempo",
        ]
        assert table.get_by_role("rowheader").first.inner_text().startswith("Warm-up")

    def test_paper_shows_the_whole_week_as_one_table(self, page: Page) -> None:
        sheet = page.locator(".ww-sheet")
        assert not sheet.is_visible()
        page.emulate_media(media="print")
        assert sheet.is_visible()
        assert not page.locator(".ww-sessions").is_visible()
        rows = [row.all_inner_texts() for row in (r.locator("th, td") for r in sheet.locator("tr").all())]
        assert rows[0] == ["Minutes", "Beats a minute in session", "1", "2", "3", "4", "5"]
        assert rows[2] == ["9", "Accented paradiddle", "60", "68", "76", "88", "100"]
        assert sheet.locator(".ww-ticks i").count() == 5

    def test_a_left_handed_reader_finds_the_hands_exchanged(self, browser: Browser, url: str) -> None:
        context = browser.new_context()
        context.add_init_script("localStorage.setItem('ww.hands', 'swapped')")
        page = context.new_page()
        page.goto(url, wait_until="networkidle")
        strokes = page.locator(".ww-session:visible .ww-aside").inner_text()
        assert re.search(r"left hand [\d,]+, right hand [\d,]+", strokes)
        context.close()
