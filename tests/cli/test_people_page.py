"""The tutor's page of all students, opened from the disk by a real browser."""

from __future__ import annotations

import pytest

from tests.accessibility import violations
from wristwork.cli.main import main

pytestmark = pytest.mark.browser
LONG = "2026-09-14 link https://drums.example/practice/#" + "A" * 300
STUDENTS = {
    "jo": f"name: Jo\nhand: left\n\n2026-09-14 sent week 1: slow-singles 60 to 72 for 5 minutes\n{LONG}\n",
    "long": f"name: {'Wolkenstein' * 12}\n\n2026-09-14 said {'x' * 200}\n",
    "rtl": "name: <b>דנה</b>\n\n2026-09-14 asked My wrist hurts\n",
    "broken": "hand: both\n",
    "five": "name: Five\n",
}


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_page_fits_a_phone_asks_for_nothing_and_can_be_read_by_everybody(tmp_path, browser, scheme):
    (tmp_path / "students").mkdir()
    for name, text in STUDENTS.items():
        (tmp_path / "students" / f"{name}.md").write_text(text, encoding="utf-8")
    assert main(["people", "--page", "--on", "2026-11-26", "--folder", str(tmp_path)]) == 1
    context = browser.new_context(viewport={"width": 320, "height": 600}, color_scheme=scheme)
    page = context.new_page()
    asked = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto((tmp_path / "students" / "people.html").as_uri())
    for summary in page.locator("summary").all():
        summary.click()
    assert page.evaluate("document.documentElement.scrollWidth") == 320
    assert violations(page) == []
    assert len(asked) == 1
    page.get_by_role("link", name="Jo", exact=True).click()
    assert page.get_by_role("heading", name="Jo", exact=True).is_visible()
    context.close()
