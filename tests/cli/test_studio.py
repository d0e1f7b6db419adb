"""The front page of a studio, made by the command as a tutor types it."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.accessibility import violations
from tests.cli.conftest import run


@pytest.fixture
def studio(tmp_path: Path) -> Path:
    for name in ("beginners", "kit"):
        (tmp_path / name).mkdir()
        settings = f"site_name: The {name} <course>\nsite_url: https://loft.example/{name}/\nplugins: [!other x]\n"
        (tmp_path / name / "mkdocs.yml").write_text(settings, encoding="utf-8")
    (tmp_path / "studio.yml").write_text("name: Loft & Co\nlook: felt\ncourses: [beginners, kit]\n", encoding="utf-8")
    return tmp_path


@pytest.mark.browser
def test_the_page_leads_to_every_course_in_the_look_of_the_studio(studio: Path, browser: Browser) -> None:
    done = run("studio", studio)
    assert (done.code, done.err) == (0, "")
    page = browser.new_page(viewport={"width": 320, "height": 600})
    page.goto((studio / "site/index.html").as_uri())
    links = page.get_by_role("link")
    assert links.all_inner_texts() == ["The beginners <course>", "The kit <course>"]
    assert links.first.get_attribute("href") == "https://loft.example/beginners/"
    assert page.evaluate("getComputedStyle(document.body).getPropertyValue('--ww-paper').trim()") == "#f7fbf8"
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    assert violations(page) == []
    page.close()
    again = {path: path.read_bytes() for path in (studio / "site").rglob("*") if path.is_file()}
    assert run("studio", studio).code == 0
    assert again == {path: path.read_bytes() for path in (studio / "site").rglob("*") if path.is_file()}


@pytest.mark.parametrize(
    ("file", "text", "said"),
    [
        (
            "studio.yml",
            None,
            "studio.yml is not there: write a line such as courses: [beginners, kit] into such a file",
        ),
        ("studio.yml", "look: felt\n", "names no courses: write a line such as courses: [beginners, kit]"),
        ("studio.yml", "courses: [none]\n", "there is no course"),
        ("studio.yml", "look: marble\ncourses: [kit]\n", "studio.yml:1: look: Expected maple"),
        ("kit/mkdocs.yml", "site_name: Kit\n", "does not say where the course is published: write its site_url:"),
        ("kit/mkdocs.yml", "a: [", "can't be read: see wristwork check"),
        ("site/index.html", "<h1>Mine</h1>", "is there, and is no front page: name another folder with --to"),
    ],
)
def test_what_stands_in_the_way_is_told(studio: Path, file: str, text: str | None, said: str) -> None:
    (studio / "site").mkdir()
    if text is None:
        (studio / file).unlink()
    else:
        (studio / file).write_text(text, encoding="utf-8")
    done = run("studio", studio)
    assert done.code == 1
    assert said in done.err
    assert file != "site/index.html" or (studio / file).read_text(encoding="utf-8") == text
