"""A build before a week's day holds nothing of the week but its title and the day; one on the day holds all of it."""

from __future__ import annotations

import json
import re
from datetime import date
from pathlib import Path

import pytest

from tests.said import bracketed, unsaid
from tests.site.courses import WEEK_2, Course
from wristwork.languages.catalogues import language
from wristwork.languages.say import speaking
from wristwork.site.exercise.place_page import SiteName
from wristwork.site.overview.waiting import waiting_pages

BEFORE, AFTER = "1800700000", "1800900000"  # 23 and 25 January 2027
HOME = "# Home\n\n[Next](weeks/week-02.md#accented-paradiddle) and [more](weeks/week-02.md#some-heading)\n"
OLD = 'an-old-one: {title: "Old", lesson: "weeks/week-02.md", moved to: "the-other-way"}\n'


@pytest.fixture(scope="module")
def sites(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path, Course]:
    """The same course built on the day before and on the day."""
    plugins = ["search", {"wristwork": {"starts": "2027-01-11", "allow": {"title": "Short pages"}}}]
    course = Course(tmp_path_factory.mktemp("opening") / "course", plugins=plugins)
    course.write("docs/weeks/week-02.md", WEEK_2.replace("week: 2\n", "week: 2\nopens: 2027-01-25\n"))
    course.write("docs/index.md", HOME)
    course.write("addresses.yml", OLD)
    built = []
    for name, day in (("before", BEFORE), ("after", AFTER)):
        target = course.root.parent / name
        done = course.run("build", "--site-dir", str(target), SOURCE_DATE_EPOCH=day)
        assert done.returncode == 0, done.stderr
        assert "does not contain an anchor" not in done.stderr or name == "after"
        built.append(target)
    return built[0], built[1], course


SECRETS = (b"accented-paradiddle", b"Accented paradiddle", b"the-other-way", b"The other way", b"Turn the hands round")


def test_before_the_day_nothing_of_the_week_is_on_the_site(sites: tuple[Path, Path, Course]) -> None:
    before, after, _ = sites
    files = {path: path.read_bytes() for path in before.rglob("*") if path.is_file()}
    home = before / "index.html"
    for secret in SECRETS:
        holding = [path.relative_to(before) for path, content in files.items() if secret in content]
        # The tutor's own link on the home page holds the anchor that they typed.
        assert holding == ([home.relative_to(before)] if secret == b"accented-paradiddle" else [])
        assert any(secret in path.read_bytes() for path in after.rglob("*") if path.is_file())
    places = [path.relative_to(before).as_posix() for path in files]
    named = {place for place in places if "paradiddle" in place or "other-way" in place}
    assert named == {"x/accented-paradiddle/index.html", "x/the-other-way/index.html"}


def test_before_the_day_the_week_says_when(sites: tuple[Path, Path, Course]) -> None:
    before, after, _ = sites
    for page in ("weeks/week-02/index.html", "curriculum/index.html"):
        assert "pens on 25 January 2027" in (before / page).read_text(encoding="utf-8")
        assert "pens on 25 January 2027" not in (after / page).read_text(encoding="utf-8")
    assert "The paradiddle" in (before / "weeks/week-02/index.html").read_text(encoding="utf-8")
    assert "Opens on 25 January 2027" in (before / "course.ics").read_text(encoding="utf-8")


def test_on_the_day_it_is_there_and_the_record_was_written_before(sites: tuple[Path, Path, Course]) -> None:
    _, after, course = sites
    assert (after / "x/accented-paradiddle/index.html").is_file()
    assert "The other way" in (after / "x/an-old-one/index.html").read_text(encoding="utf-8")
    assert "accented-paradiddle" in (course.root / "addresses.yml").read_text(encoding="utf-8")


WAITING = ("accented-paradiddle", "the-other-way", "an-old-one")


def test_before_the_day_an_exercises_address_says_when_and_nothing_else(sites: tuple[Path, Path, Course]) -> None:
    before, after, _ = sites
    pages = {id_: (before / f"x/{id_}/index.html").read_text(encoding="utf-8") for id_ in WAITING}
    assert len(set(pages.values())) == 1
    page = pages["an-old-one"]
    assert "<h1 data-ww-waiting>Opens on 25 January 2027</h1>" in page
    assert '<meta name="robots" content="noindex">' in page
    assert re.findall(r'<a [^>]*href="([^"]+)"', page) == ["../../", "../../curriculum/", "../../"]
    for secret in ("The paradiddle", "week-02", "pattern", "an-old-one", "Old", "canonical", "og:"):
        assert secret not in page
    for id_ in WAITING:
        assert [path.name for path in (before / f"x/{id_}").iterdir()] == ["index.html"]
        assert "data-ww-waiting" not in (after / f"x/{id_}/index.html").read_text(encoding="utf-8")
    assert (after / "x/the-other-way/exercise.json").is_file()


def test_a_waiting_address_is_in_no_list(sites: tuple[Path, Path, Course]) -> None:
    before, _, _ = sites
    files = {path.relative_to(before).as_posix(): path.read_bytes() for path in before.rglob("*") if path.is_file()}
    for id_ in WAITING:
        assert {name for name, content in files.items() if f"x/{id_}".encode() in content} == set()
        # The tutor's own link on the home page holds the anchor that they typed.
        assert {name for name, content in files.items() if id_.encode() in content} <= {"index.html"}
    kept = json.loads(files["offline.json"])["files"]
    places = {address.split("/")[1] for address in kept if address.startswith("x/")}
    assert places == {"", "exercises.json", "slow-singles"}


def test_the_day_is_in_the_courses_own_words() -> None:
    day = {"an-id": date(2027, 1, 25)}
    with speaking(language("fr")):
        ((address, page),) = waiting_pages(day, SiteName("Loft", None, "fr"))
    assert address == "x/an-id/index.html"
    assert "25 janvier 2027" in page
    with bracketed():
        ((_, page),) = waiting_pages(day, SiteName("⟦Loft⟧", None))
    assert unsaid(re.sub(r"<[^>]+>", "", page)) == "·"


def test_the_week_is_checked_before_its_day(sites: tuple[Path, Path, Course]) -> None:
    _, _, course = sites
    page = course.root / "docs/weeks/week-02.md"
    good = page.read_text(encoding="utf-8")
    page.write_text(good.replace("R>LRR L>RLL", "R>LRR >RLL"), encoding="utf-8")
    done = course.run("build", "--site-dir", str(course.root.parent / "wrong"), SOURCE_DATE_EPOCH=BEFORE)
    page.write_text(good, encoding="utf-8")
    assert done.returncode != 0
    assert "docs/weeks/week-02.md:" in done.stderr
    assert not (course.root.parent / "wrong").exists()


def test_a_preview_shows_it(sites: tuple[Path, Path, Course]) -> None:
    _, _, course = sites
    course.preview()
    assert "Accented paradiddle" in (course.site / "weeks/week-02/index.html").read_text(encoding="utf-8")
