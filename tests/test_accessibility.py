"""The rules of accessibility find what is planted, and all that they find when they tell everything."""

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.accessibility import WCAG, violations

PLANTED = """<!doctype html><html lang="en"><title>A page</title><main><h1>A page</h1>
<img src="data:,"><img src="data:,"><p style="color: #aaa; background: #fff">Pale words</p><input></main></html>"""


@pytest.mark.browser
def test_what_is_planted_is_found(browser):
    page = browser.new_page()
    page.set_content(PLANTED)
    rules = [told.split(":")[0] for told in violations(page)]
    assert sorted(rules) == ["color-contrast", "image-alt", "image-alt", "label"]
    everything = Axe().run(page).response["violations"]
    assert sorted(rules) == sorted(one["id"] for one in everything for _ in one["nodes"])
    assert sorted(told.split(":")[0] for told in violations(page, "p", WCAG)) == ["color-contrast"]
    page.close()
