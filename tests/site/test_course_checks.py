"""The checks on the whole course in a build: warnings, errors where it is strict, silenced with a reason."""

import json
import logging
import re
import shutil
from pathlib import Path

import pytest
from mkdocs.exceptions import Abort

from tests.course.test_checks import good_course
from tests.site.courses import WEEK_2, Course
from wristwork.course.checks import check_course
from wristwork.course.course import read_teaching
from wristwork.page.page import read_pages
from wristwork.page.problem import open_problems

NO_AIM = "docs/week-02.md:2: week 2 has no aim [no-aim]"


def settings(**own: object) -> dict[str, object]:
    return {"plugins": ["search", {"wristwork": own}]} if own else {"plugins": ["search", "wristwork"]}


@pytest.fixture
def faulty(tmp_path: Path) -> Course:
    """A good course but for its second week, which has lost its aim."""
    course = Course(tmp_path, **settings())
    shutil.rmtree(course.root / "docs" / "weeks")
    for path, text in good_course(2).items():
        course.write(path, text)
    rewrite(course, "aim: Get a little further.\n", "")
    return course


def rewrite(course: Course, old: str, new: str) -> None:
    """Change something in the second week's page."""
    text = (course.root / "docs/week-02.md").read_text()
    assert old in text
    course.write("docs/week-02.md", text.replace(old, new))


def told(caplog: pytest.LogCaptureFixture, level: int = logging.WARNING) -> list[str]:
    """What the build said at that level of the checks, by its first line."""
    lines = [record.getMessage().splitlines()[0] for record in caplog.records if record.levelno == level]
    return [line for line in lines if re.search(r"\[[a-z-]+\]$", line)]


def test_a_build_warns_and_publishes(faulty: Course, caplog: pytest.LogCaptureFixture) -> None:
    faulty.build()
    assert [line.split(": ", 1)[1] for line in told(caplog)] == [NO_AIM]
    assert (faulty.site / "week-02/index.html").exists()


def test_a_strict_build_fails(faulty: Course) -> None:
    with pytest.raises(Abort):
        faulty.build(strict=True)
    assert not faulty.site.exists()


def test_a_week_that_is_there_twice_is_told_once_and_in_our_words(course: Course) -> None:
    course.settings.update(settings(checks="warn"))
    twice = WEEK_2.replace("accented-paradiddle", "once-more").replace("id: the-other-way", "id: another-way")
    course.write("docs/weeks/week-03.md", twice.replace("title: The paradiddle", "title: Once more"))
    done = course.run()
    assert done.returncode == 0
    assert "week 2 is there already, in docs/weeks/week-02.md [weeks-in-order]" in done.stderr
    assert "DeprecationWarning" not in done.stderr
    assert "plugin.py" not in done.stderr
    plan = json.loads((course.site / "sessions/week-2.json").read_text())
    assert plan["page"] == "weeks/week-02/"


@pytest.mark.parametrize("off", ["off", False])
def test_checks_that_are_off_say_nothing(faulty: Course, off: object, caplog: pytest.LogCaptureFixture) -> None:
    faulty.settings.update(settings(checks=off))
    faulty.build(strict=True)
    assert told(caplog) == []


def test_what_the_settings_allow_is_only_mentioned(faulty: Course, caplog: pytest.LogCaptureFixture) -> None:
    faulty.settings.update(settings(checks="warn", allow={"no-aim week 2": "It hangs on the wall."}))
    with caplog.at_level(logging.INFO, "mkdocs"):
        faulty.build(strict=True)
    assert told(caplog) == []
    mentioned = [record.getMessage() for record in caplog.records if "[no-aim]" in record.getMessage()]
    assert [line for text in mentioned for line in text.splitlines()[1:]] == ["    allowed: It hangs on the wall."]


def test_what_a_page_allows(faulty: Course) -> None:
    rewrite(faulty, "week: 2\n", "week: 2\nallow:\n  no-aim: It hangs on the wall.\n")
    faulty.build(strict=True)


def test_an_allowance_without_a_reason_stops_the_build(faulty: Course, caplog: pytest.LogCaptureFixture) -> None:
    faulty.settings.update(settings(allow={"no-aim": ""}))
    with pytest.raises(Abort):
        faulty.build()
    assert re.search(r"mkdocs.yml:\d+: allow: no-aim has no reason", caplog.text)


@pytest.mark.parametrize(
    ("link", "says"),
    [("week-01.md#nothing", "does not contain an anchor '#nothing'"), ("../x/nobody/", "the link ../x/nobody/ leads")],
)
def test_links_to_exercises_that_are_not_there_are_warned_of(
    faulty: Course, link: str, says: str, caplog: pytest.LogCaptureFixture
) -> None:
    faulty.settings.update(settings(allow={"no-aim": "It hangs on the wall."}))
    faulty.write("docs/about.md", f"# About\n\n[There]({link})\n")
    faulty.build()
    assert [says in record.getMessage() for record in caplog.records if record.levelno == logging.WARNING] == [True]


def test_a_link_to_the_practice_card_is_right(faulty: Course) -> None:
    faulty.settings.update(settings(allow={"no-aim": "It hangs on the wall."}))
    faulty.write("docs/about.md", "# About\n\n[The plan](week-01.md#this-weeks-practice)\n")
    faulty.build(strict=True)


def test_the_demonstration_course_passes_with_nothing_silenced() -> None:
    docs = Path(__file__).parents[2] / "docs"
    pages = {path.relative_to(docs).as_posix(): path.read_text() for path in sorted(docs.rglob("*.md"))}
    course, problems = read_teaching(read_pages(pages))
    assert problems == ()
    findings = check_course(course, leave_out=("broken-link",))
    assert findings == open_problems(findings) == ()
