"""A device that met the page of an exercise before its day sees the exercise on the day."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Route, expect

from tests.site.courses import WEEK_2
from tests.site.player.server import serving
from tests.site.student.conftest import NewContext, make_course
from tests.site.student.test_offline import kept, until, visit_and_keep

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("student")]

BEFORE, AFTER = "1800700000", "1800900000"  # 23 and 25 January 2027
PLACE = "x/the-other-way/"


def test_a_waiting_page_is_never_kept_and_gives_way_on_the_day(
    new_context: NewContext, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    course = make_course(tmp_path)
    course.write("docs/weeks/week-02.md", WEEK_2.replace("week: 2\n", "week: 2\nopens: 2027-01-25\n"))
    monkeypatch.setenv("SOURCE_DATE_EPOCH", BEFORE)
    course.build()
    old = (course.site / PLACE / "index.html").read_text(encoding="utf-8")
    (tmp_path / "web").mkdir()
    (tmp_path / "web" / "loft").symlink_to(course.site)
    with serving(tmp_path / "web") as served:
        place = f"{served.url}loft/{PLACE}"
        context = new_context(service_workers="allow")
        page = context.new_page()
        visit_and_keep(page, f"{served.url}loft/weeks/week-01/", "x/slow-singles/exercise.json")
        page.goto(place)
        expect(page.get_by_role("heading", name="Opens on 25 January 2027")).to_be_visible()
        wide = page.evaluate("document.documentElement.scrollWidth > innerWidth")
        assert not wide
        page.get_by_role("link", name="All weeks").click()
        page.wait_for_url("**/curriculum/")
        until(page, lambda: any(each.endswith("/curriculum/") for each in kept(page)[1]))
        assert not [each for each in kept(page)[1] if "the-other-way" in each]

        monkeypatch.setenv("SOURCE_DATE_EPOCH", AFTER)
        course.build()
        page.goto(place)
        page.locator(".ww-player").first.wait_for()
        until(page, lambda: place in kept(page)[1])
        context.set_offline(True)
        page.goto(place)
        page.locator(".ww-player").first.wait_for()

        # A browser's own store, or one on the way, may have kept the page too long.
        page = new_context().new_page()
        given: list[Route] = []

        def too_long(route: Route) -> None:
            given.append(route)
            if len(given) == 1:
                route.fulfill(body=old, content_type="text/html")
            else:
                route.continue_()

        page.route(place, too_long)
        page.goto(place)
        page.locator(".ww-player").first.wait_for()
