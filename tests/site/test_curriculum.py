"""The curriculum page: every week, every exercise, the chart with its table, the map; reached by pointer and keys."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page

from tests.accessibility import violations
from tests.site.courses import WEEK_1, WEEK_2, Course
from tests.site.player.server import serving
from wristwork.site.overview import parts
from wristwork.site.overview.curriculum_page import demand_by_week, week_overview, what_needs_what
from wristwork.site.overview.exercise_index import exercise_table
from wristwork.site.overview.made_pages import CURRICULUM, made_pages
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.reading.lessons import PageSource
from wristwork.store.store import Store

REST = """\
---
week: 3
title: Rest
again: [slow-singles]
---

Nothing new.
"""
HOSTILE = '"><script>alert(1)</script>'


def site(tmp_path: Path, **pages: str) -> CourseSite:
    texts = pages or {"week-01": WEEK_1, "week-02": WEEK_2, "week-03": REST}
    sources = [PageSource(f"{name}.md", f"docs/{name}.md", f"{name}/", text) for name, text in texts.items()]
    return CourseSite(sources, Store(tmp_path))


def items(html: str) -> list[str]:
    """The text of each week, its parts set apart by bars."""
    weeks = re.findall(r"<li><div>.*?</dl></li>", html)
    return ["|".join(part for part in re.split(r"<[^>]+>", week) if part.strip()) for week in weeks]


def test_every_week_tells_aim_grades_minutes_and_exercises(tmp_path: Path) -> None:
    html = week_overview(site(tmp_path), "curriculum/")
    assert items(html) == [
        "Week 1|First steps|Play two heights on purpose.|New|Slow singles|Grade|1|Practice|5 × 20 minutes",
        "Week 2|The paradiddle|Turn the hands round.|New|Accented paradiddle|The other way"
        "|Grade|2|Practice|5 × 25 minutes",
        "Week 3|Rest|Again|Slow singles|Grade|2",
    ]
    assert "3 weeks, 3 exercises, sessions of 20 to 25 minutes." in html
    assert "They are no exam’s grades." in html


def test_weeks_and_exercises_are_links(tmp_path: Path) -> None:
    html = week_overview(site(tmp_path), "curriculum/")
    assert re.findall(r'href="([^"]+)"', html) == [
        "../week-01/",
        "../week-01/#slow-singles",
        "../week-02/",
        "../week-02/#accented-paradiddle",
        "../week-02/#the-other-way",
        "../week-03/",
        "../week-01/#slow-singles",
    ]


def test_the_chart_and_its_table_say_the_same(tmp_path: Path) -> None:
    html = demand_by_week(site(tmp_path), "curriculum/")
    point = r'class="ww-point" href="([^"]+)" aria-label="(.+?): week (\d+), grade (\d+), (\d+) of 100"'
    names = re.findall(point, html)
    row = r'<tr><th scope="row"><a href="([^"]+)"><bdi>(.+?)</bdi></a></th><td>(\d+)</td><td>(\d+)</td><td>(\d+)</td>'
    table = [(href, title, week, grade, score) for href, title, week, score, grade in re.findall(row, html)]
    assert table == names
    assert [title for _, title, *_ in table] == ["Slow singles", "Accented paradiddle", "The other way"]


def test_the_map_leads_from_what_is_needed(tmp_path: Path) -> None:
    html = what_needs_what(site(tmp_path), "curriculum/")
    assert re.findall(r'class="ww-step" href="([^"]+)" aria-label="([^"]+)"', html) == [
        ("../week-01/#slow-singles", "Slow singles, week 1; leads to Accented paradiddle"),
        ("../week-02/#accented-paradiddle", "Accented paradiddle, week 2; needs Slow singles; leads to The other way"),
        ("../week-02/#the-other-way", "The other way, week 2; grows out of Accented paradiddle"),
    ]


def test_on_paper_a_list_says_what_stands_on_what(tmp_path: Path) -> None:
    html = what_needs_what(site(tmp_path), "curriculum/")
    on_paper = html[html.index('<ul class="ww-on-paper">') :]
    assert [re.sub(r"<[^>]+>", "", item) for item in re.findall(r"<li>(.*?)</li>", on_paper)] == [
        "Accented paradiddle on Slow singles",
        "The other way on Accented paradiddle",
    ]


def large(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CourseSite:
    """The same course, large by a smaller measure."""
    monkeypatch.setattr(parts, "MOST_EXERCISES", 2)
    return site(tmp_path)


def test_a_large_course_comes_in_parts_that_together_hold_every_exercise_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    course = large(tmp_path, monkeypatch)
    for made in (week_overview, demand_by_week):
        pages = [made(course, url).split("Again")[0] for url in ("curriculum/", "curriculum/part-2/")]
        taught = [set(re.findall(r"week-0[12]/#([a-z-]+)", page)) for page in pages]
        assert taught == [{"slow-singles"}, {"accented-paradiddle", "the-other-way"}]
    first, second = exercise_table(course, "exercises/"), exercise_table(course, "exercises/part-2/")
    assert (first.count("<tr data-ww-exercise"), second.count("<tr data-ww-exercise")) == (1, 2)
    links = re.findall(r'<a href="([^"]+)"( aria-current="page")?>(Weeks?[^<]+)</a>', second)
    assert links[:2] == [("../", "", "Week 1"), ("./", ' aria-current="page"', "Weeks 2 to 3")]


def test_the_map_of_a_part_tells_what_comes_from_another(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    html = what_needs_what(large(tmp_path, monkeypatch), "curriculum/part-2/")
    names = re.findall(r'class="ww-step" href="[^"]+" aria-label="([^"]+)"', html)
    assert names[0] == "Accented paradiddle, week 2; needs Slow singles; leads to The other way"
    assert html.count('class="ww-arc ') == 2
    told = re.sub(r"<[^>]+>", "", html[html.index('<div class="ww-elsewhere">') :])
    assert told == "What stands on exercises of other parts:Accented paradiddle on Slow singles (week 1)"


def test_the_parts_are_pages_out_of_the_way(course: Course, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(parts, "MOST_EXERCISES", 2)
    course.build(strict=True)
    for name in ("exercises", "curriculum"):
        page = course.page(f"{name}/part-2")
        assert f"<title>{name.capitalize()}, week 2 - Larkspur Drum Loft</title>" in page
        assert "the-other-way" in page
    index = (course.site / "search/search_index.json").read_text(encoding="utf-8")
    assert "exercises/" in index
    assert "part-2" not in index


def test_titles_never_become_markup(tmp_path: Path) -> None:
    head = f"---\nweek: 1\ntitle: '{HOSTILE}'\naim: '{HOSTILE}'\n---\n\n"
    one = f"```pattern\ntitle: {HOSTILE}\nid: it-is\nhands: RL RL RL RL\n```\n"
    other = f"```pattern\ntitle: {HOSTILE}\nid: it-grows\nfrom: it-is\n```\n"
    course = site(tmp_path, week=f"{head}{one}\n{other}")
    for made in (week_overview, demand_by_week, what_needs_what):
        assert "<script" not in made(course, "curriculum/")
    assert str(what_needs_what(course, "curriculum/")).count("&lt;script&gt;") >= 4  # a drawing and a list name both


def test_a_course_that_has_hardly_begun(tmp_path: Path) -> None:
    course = site(tmp_path, week="---\nweek: 1\n---\n\n# Reading\n")
    assert items(week_overview(course, "curriculum/")) == ["Week 1|Reading"]
    assert "no exercises" in demand_by_week(course, "curriculum/")
    assert "no exercises" in what_needs_what(course, "curriculum/")


def test_a_collection_without_weeks_has_no_curriculum() -> None:
    assert CURRICULUM in [page.src_uri for page in made_pages("Course", None, ())]
    assert CURRICULUM not in [page.src_uri for page in made_pages("Course", None, (), has_weeks=False)]


def test_it_stands_in_the_navigation_and_in_the_search(built: Course) -> None:
    assert 'href="../../curriculum/"' in built.page("weeks/week-01")
    assert '"location":"curriculum/"' in (built.site / "search/search_index.json").read_text()


def test_lessons_and_places_tell_how_much_an_exercise_asks_and_what_it_prepares_for(built: Course) -> None:
    lesson = built.page("weeks/week-01")
    figure = lesson[lesson.index("<figure") : lesson.index("</figure>")]
    assert '<dt>Leads on to</dt><dd><a href="../week-02/#accented-paradiddle">' in figure
    place = built.page("x/slow-singles")
    for html in (figure, place):
        said = re.sub(r"<[^>]+>", "", re.search(r'<div class="ww-demand">.*?</div>', html)[0])
        # Four notes to a beat, every other one right, 72 beats a minute.
        assert "How much it asks at 72 beats a minute" in said
        assert "right hand 2.4 strokes a second" in said
        assert "left hand 2.4 strokes a second" in said
        assert "no exam’s" in said
    assert re.search(r"<dt>Leads on to</dt>.*?Accented paradiddle", place, re.DOTALL)


@pytest.fixture(scope="module")
def page(browser: Browser, built: Course) -> Iterator[Page]:
    with serving(built.site) as served:
        page = browser.new_page(viewport={"width": 390, "height": 800})
        page.goto(f"{served.url}curriculum/", wait_until="networkidle")
        yield page
        page.close()


# Where a path begins, where it ends, and its middle, in pixels of the page.
ENDS = """path => [0, 1, 0.5].map((part) => {
  const point = path.getPointAtLength(part * path.getTotalLength()).matrixTransform(path.getScreenCTM());
  return [point.x, point.y];
})"""


def is_seen(name: Locator) -> bool:
    return name.evaluate("name => getComputedStyle(name).visibility") == "visible"


@pytest.mark.browser
@pytest.mark.xdist_group("browser")
class TestInABrowser:
    def test_a_point_tells_its_name_when_the_pointer_is_on_it(self, page: Page) -> None:
        names = page.locator(".ww-point .ww-name")
        page.mouse.move(0, 0)
        assert [is_seen(name) for name in names.all()] == [False, False, False]
        page.locator(".ww-point .ww-target").nth(1).hover()
        assert [is_seen(name) for name in names.all()] == [False, True, False]
        page.mouse.move(0, 0)

    def test_a_point_tells_its_name_when_the_keyboard_is_on_it(self, page: Page) -> None:
        page.locator(".ww-curriculum a").last.focus()
        names = page.locator(".ww-point .ww-name")
        for number in range(3):
            page.keyboard.press("Tab")
            assert [is_seen(name) for name in names.all()] == [place == number for place in range(3)]
        focused = "document.activeElement.getAttribute('aria-label')"
        assert page.evaluate(focused).startswith("The other way: week 2, grade ")

    def test_names_stay_inside_the_chart(self, page: Page) -> None:
        for width in (320, 390, 1280):
            page.set_viewport_size({"width": width, "height": 800})
            chart = page.locator(".ww-demand-chart").bounding_box()
            for point in page.locator(".ww-point").all():
                point.focus()
                box = point.locator(".ww-name").bounding_box()
                assert box["x"] >= 0
                assert box["x"] + box["width"] <= chart["x"] + chart["width"] + 1

    def test_the_way_that_leads_on_shows_when_an_exercise_is_pointed_at(self, page: Page) -> None:
        leads = page.locator(".ww-step .ww-leads").first
        assert not is_seen(leads)
        page.locator(".ww-step").first.focus()
        page.keyboard.press("Shift+Tab")
        page.keyboard.press("Tab")
        assert is_seen(leads)

    def test_bows_end_at_the_dots_whatever_the_width(self, page: Page) -> None:
        for width in (320, 1280):
            page.set_viewport_size({"width": width, "height": 800})
            dots = [dot.bounding_box() for dot in page.locator(".ww-step .ww-dot").all()]
            middles = [(dot["x"] + dot["width"] / 2, dot["y"] + dot["height"] / 2) for dot in dots]
            bow = page.locator(".ww-step .ww-grows").evaluate(ENDS)
            assert bow[0] == pytest.approx(middles[1], abs=1)
            assert bow[1] == pytest.approx(middles[2], abs=1)
            assert bow[2][0] >= 0

    @pytest.mark.parametrize("scheme", ["light", "dark"])
    def test_what_opens_has_no_accessibility_violation(self, page: Page, scheme: str) -> None:
        page.emulate_media(color_scheme=scheme)
        page.set_viewport_size({"width": 320, "height": 800})
        page.locator(".ww-as-table summary").click()
        page.locator(".ww-point").first.focus()
        assert page.evaluate("document.documentElement.scrollWidth") <= 320
        assert violations(page, "article") == []
        page.locator(".ww-as-table summary").click()

    def test_enter_follows_a_point_to_its_lesson(self, page: Page) -> None:
        page.locator(".ww-point").first.focus()
        page.keyboard.press("Enter")
        page.wait_for_url("**/weeks/week-01/#slow-singles")
