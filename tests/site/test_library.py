"""Several courses take exercises from one folder beside them."""

from __future__ import annotations

from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

from tests.cli.conftest import run
from tests.site.courses import Course
from wristwork.site.mkdocs.builder import Builder

SHARED = "```pattern\nid: gears\ntitle: Gears\ntempo: 60 to 100 by 4\nhands: R>LRR L>RLL R>LRR L>RLL\n```\n"
WEEK = """\
---
week: 3
title: Gears
grade: 2
minutes: 20
aim: Turn them.
---

Turn.

```pattern
take: gears
tempo: 60 to 80 by 4
```
"""


def taking(folder: Path) -> Course:
    course = Course(folder / "loft", plugins=["search", {"wristwork": {"checks": "off", "library": "../shared"}}])
    course.write("docs/weeks/week-03.md", WEEK)
    course.write("../shared/deep/hands.md", SHARED)
    course.save_settings()
    return course


def test_a_taken_exercise_has_an_address_of_the_course_s_own(tmp_path: Path) -> None:
    course = taking(tmp_path)
    course.build(strict=True)
    place = (course.site / "x/gears/index.html").read_text(encoding="utf-8")
    assert "Week 3" in place
    assert 'id="gears"' in (course.site / "weeks/week-03/index.html").read_text(encoding="utf-8")
    assert "weeks/week-03.md" in (course.root / "addresses.yml").read_text(encoding="utf-8").split("gears:")[1]
    assert "shared" not in "".join(path.as_posix() for path in course.site.rglob("*hands*"))
    before = (course.site / "x/gears/card.png").read_bytes()
    course.write("../shared/deep/hands.md", SHARED.replace("R>LRR L>RLL", "R>RLL L>LRR"))
    course.build(strict=True)
    assert (course.site / "x/gears/card.png").read_bytes() != before


@pytest.mark.parametrize(
    ("library", "said"),
    [
        ("../nowhere", "mkdocs.yml:10: the library ../nowhere is not there\n    make the folder, or correct library:"),
        ("../shared/deep/hands.md", "the library ../shared/deep/hands.md is no folder"),
        ("docs/weeks", "the library docs/weeks and the course's pages lie in each other"),
        ("..", "the library .. and the course's pages lie in each other"),
        ("site", "the library site and the site lie in each other"),
    ],
)
def test_a_folder_that_can_be_no_library_is_told(tmp_path: Path, library: str, said: str) -> None:
    course = taking(tmp_path)
    course.site.mkdir()
    course.settings["plugins"][1]["wristwork"]["library"] = library
    course.save_settings()
    assert said in check(course)


def test_links_and_other_encodings_are_told_and_hidden_files_are_left_alone(tmp_path: Path) -> None:
    course = taking(tmp_path)
    shared = tmp_path / "shared"
    (tmp_path / "secret.md").write_text(SHARED)
    (shared / "linked.md").symlink_to(tmp_path / "secret.md")
    (shared / "folder").symlink_to(tmp_path)
    (shared / "utf-16.md").write_text("Schläge", encoding="utf-16")
    (shared / ".hidden.md").write_bytes(b"\xff")
    said = check(course)
    assert "../shared/linked.md: a link, and a library follows none" in said
    assert "../shared/folder: a link" in said
    assert "../shared/utf-16.md: can't be read: it is not written in UTF-8" in said
    assert "hidden" not in said
    assert "secret" not in said


def test_what_is_gone_from_the_library_stops_the_build_and_keeps_the_site(tmp_path: Path) -> None:
    course = taking(tmp_path)
    course.write("../shared/deep/hands.md", SHARED.replace("gears", "wheels"))
    said = check(course)
    assert "docs/weeks/week-03.md:12:7: pattern: 'gears' is not in the library" in said


def test_a_preview_follows_the_library(tmp_path: Path) -> None:
    course = taking(tmp_path)
    builder = course_builder(course)
    assert (tmp_path / "shared").resolve() in [folder.resolve() for folder in builder.watched]


def course_builder(course: Course) -> Builder:
    config = load_config(str(course.root / "mkdocs.yml"))
    config.plugins.on_startup(command="serve", dirty=False)
    build(config, serve_url="http://127.0.0.1:8000/")
    return config.plugins["wristwork"]._builder


def check(course: Course) -> str:
    done = run("check", "loft", cwd=course.root.parent)
    return done.out + done.err
