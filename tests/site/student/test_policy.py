"""The course under a strict content security policy, in a real browser."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.site.student.conftest import NewContext, Published
from wristwork.site.frontend.policy import policy

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("student")]

NOTICE = """
    window.refused = [];
    document.addEventListener("securitypolicyviolation", ({ violatedDirective, blockedURI, sample }) =>
        window.refused.push([violatedDirective, blockedURI, sample]));
"""
PAGES = (
    "",
    "weeks/week-02/",
    "x/accented-paradiddle/?tempo=72",
    "x/too-early/",
    "practice/",
    "my-practice/",
    "curriculum/",
    "exercises/",
    "key/",
    "safe-practice/warm-up/",
    "safe-practice/posture/",
    "safe-practice/hearing/",
    "404.html",
)


@pytest.fixture
def strict(published: Published) -> Iterator[Published]:
    published.served.headers["Content-Security-Policy"] = policy(published.course.site)
    yield published
    published.served.headers.clear()


def test_nothing_that_a_page_needs_is_refused(new_context: NewContext, strict: Published) -> None:
    page = new_context(service_workers="allow").new_page()
    page.add_init_script(NOTICE)
    for address in PAGES:
        page.goto(f"{strict.url}{address}", wait_until="networkidle")
        assert page.evaluate("window.refused") == [], address


def test_it_plays_searches_and_keeps(new_context: NewContext, strict: Published) -> None:
    page = new_context(service_workers="allow", viewport={"width": 1280, "height": 900}).new_page()
    page.add_init_script(NOTICE)
    page.goto(f"{strict.url}weeks/week-02/")
    page.evaluate("navigator.serviceWorker.ready.then(() => 1)")
    page.get_by_role("button", name="Play Accented paradiddle").click()
    expect(page.locator(".ww-player").first).to_have_attribute("data-ww-state", "playing")
    page.get_by_role("button", name="Stop Accented paradiddle").click()
    page.get_by_placeholder("Search").click()
    page.get_by_placeholder("Search").press_sequentially("paradiddle")
    expect(page.locator(".ww-found-status")).to_have_text("1 exercise by this name")
    expect(page.locator(".md-search-result__meta").last).to_contain_text("matching document")
    assert page.evaluate("window.refused") == []


def test_a_script_that_slipped_into_a_page_is_not_run(page: Page, strict: Published) -> None:
    page.add_init_script(NOTICE)
    page.goto(f"{strict.url}weeks/week-02/")
    page.evaluate("document.body.append(Object.assign(document.createElement('script'), {text: 'window.harm = 1'}))")
    assert page.evaluate("[window.harm, window.refused[0][0]]") == [None, "script-src-elem"]


def test_the_policy_is_one_line_of_a_command(published: Published, tmp_path: Path) -> None:
    command = [sys.executable, "-m", "wristwork.site.frontend.policy"]
    done = subprocess.run([*command, str(published.course.site)], capture_output=True, text=True, check=True)
    assert done.stdout == f"{policy(published.course.site)}\n"
    assert "'unsafe-eval'" not in done.stdout
    assert "script-src 'self' 'sha256-" in done.stdout
    nothing = subprocess.run([*command, str(tmp_path)], capture_output=True, text=True, check=False)
    assert (nothing.returncode, nothing.stdout) == (1, "")
    assert nothing.stderr == f"{tmp_path} holds no site: build one with mkdocs build, or name its folder\n"
