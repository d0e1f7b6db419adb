"""A course that was written for the first version builds strictly today, at the same addresses, and means the same."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.site.courses import Course
from wristwork.pattern.course import read_course
from wristwork.technique.strokes import Stroke, strokes

FIRST = Path(__file__).parent / "first_course"


def stroke_words(stroke: Stroke) -> str:
    limb = "".join(word[0] for word in stroke.limb.split())
    kind = "" if stroke.kind == "main" else stroke.kind[0]
    return f"{stroke.at}:{limb}{stroke.level[0]}{kind}{(stroke.name or '-')[0]}@{stroke.on.value}"


def test_its_patterns_mean_what_they_meant() -> None:
    docs = FIRST / "docs"
    pages = {path.relative_to(docs).as_posix(): path.read_text(encoding="utf-8") for path in sorted(docs.rglob("*.md"))}
    read = read_course(pages)
    assert read.problems == ()
    said = []
    for name, fence in read.exercises.items():
        assert fence.pattern is not None
        tempo, loop = fence.pattern.tempo, fence.pattern.loop
        told = " ".join(map(stroke_words, strokes(fence.pattern)))
        said.append(f"{name} {tempo.start} {tempo.goal} {tempo.step} {loop} | {told}")
    meant = (FIRST / "meaning.txt").read_text(encoding="utf-8").splitlines()
    assert said == [line for line in meant if not line.startswith("#")]


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = tmp_path_factory.mktemp("first") / "course"
    shutil.copytree(FIRST, root)
    if Course.kept:
        Course.kept.lend(root)
    command = [sys.executable, "-m", "mkdocs", "build", "--strict"]
    done = subprocess.run(command, cwd=root, env=Course.environment(), capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    if Course.kept:
        Course.kept.collect(root)
    return root


def test_its_addresses_last(built: Path) -> None:
    ids = {path.parent.name for path in (built / "site" / "x").glob("*/index.html")}
    assert ids == {
        "hand-to-hand", "low-water", "first-wave", "wave-in-three", "backwash", "jetty", "jig", "long-planks",
        "gulls", "storm",
    }  # fmt: skip
    assert "../low-water/" in (built / "site/x/gulls/index.html").read_text(encoding="utf-8")
    assert "It comes back in the next course." in (built / "site/x/storm/index.html").read_text(encoding="utf-8")


def test_its_record_keeps_what_stood_in_it(built: Path) -> None:
    before = (FIRST / "addresses.yml").read_text(encoding="utf-8").splitlines()
    after = (built / "addresses.yml").read_text(encoding="utf-8").splitlines()
    assert [line for line in before if line not in after] == []


def test_its_weeks_and_pages_are_there(built: Path) -> None:
    site = built / "site"
    assert "6 to 12 January 2025" in (site / "weeks/week-01/index.html").read_text(encoding="utf-8")
    assert "Shake the rain" in (site / "before-you-play/index.html").read_text(encoding="utf-8")
    assert (site / "course.ics").is_file()
