"""A course goes from ``wristwork new`` to a machine that knows nothing but its repository, and is built there.

The steps of the starter's workflow are run as that machine would, but for what only it can do: fetching actions, and
publishing.
"""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest
import yaml

from tests.packaging.clean_python import CleanPython
from tests.packaging.conftest import ROOT
from tests.site.courses import Course

WORKFLOW = ".github/workflows/publish.yml"
# What the machine does for the steps that are not shell.
ELSEWHERE = {"actions/checkout", "actions/setup-python", "actions/cache", "actions/configure-pages"}
PUBLISHES = "actions/upload-pages-artifact"


def walk_of(page: str, words: str) -> str:
    """The block of a page that holds some words, without its margin."""
    text = (ROOT / page).read_text(encoding="utf-8")
    blocks = re.finditer(r"^( *)````markdown\n(.*?)\n\1````$", text, re.M | re.S)
    (found,) = [block for block in blocks if words in block[2]]
    return re.sub(f"^{found[1]}", "", found[2], flags=re.M)


def git(course: Path, *arguments: str) -> None:
    who = ("-c", "user.name=A tutor", "-c", "user.email=tutor@drums.example")
    subprocess.run(["git", "-C", str(course), *who, *arguments], check=True, capture_output=True)


@pytest.fixture(scope="session")
def tutors(installed: CleanPython, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The course of somebody who did what README and handbook say, with its repository."""
    course = tmp_path_factory.mktemp("tutor") / "my-course"
    assert installed.run("wristwork new my-course", cwd=course.parent).returncode == 0
    week_2 = course / "docs" / "weeks" / "week-02.md"
    week_2.write_text(f"{week_2.read_text()}\n{walk_of('README.md', 'first-paradiddle')}\n")
    (course / "docs/weeks/week-03.md").write_text(walk_of("docs/handbook/index.md", "week: 3"))
    lend_sound(course)
    done = installed.run("wristwork check && mkdocs build --strict", cwd=course, CI="")
    assert done.returncode == 0, done.stdout + done.stderr
    collect_sound(course)
    git(course, "init", "-q", "-b", "main")
    git(course, "add", "-A")
    git(course, "commit", "-q", "-m", "A course")
    return course


def lend_sound(course: Path) -> None:
    if Course.kept:
        Course.kept.lend(course)


def collect_sound(course: Path) -> None:
    if Course.kept:
        Course.kept.collect(course)


class Machine:
    """The machine that builds: a clone, and a Python that has Wristwork from such a clone alone."""

    def __init__(self, course: Path, python: CleanPython, folder: Path) -> None:
        self.clone = folder / "clone"
        self.python = python
        subprocess.run(["git", "clone", "-q", str(course), str(self.clone)], check=True)
        self.published: Path | None = None

    def work(self) -> str:
        """Do the steps of the build; what the failing one said, or nothing."""
        steps = yaml.safe_load((self.clone / WORKFLOW).read_text(encoding="utf-8"))["jobs"]["build"]["steps"]
        lend_sound(self.clone)
        for step in steps:
            if "run" in step:
                done = self.python.run(step["run"], cwd=self.clone, CI="true")
                if done.returncode:
                    return f"{step['run']}: {done.stdout}{done.stderr}"
            elif step["uses"].startswith(PUBLISHES):
                self.published = self.clone / step["with"]["path"]
            else:
                assert step["uses"].split("@")[0] in ELSEWHERE
        return ""


@pytest.fixture(scope="session")
def python(tmp_path_factory: pytest.TempPathFactory) -> CleanPython:
    return CleanPython(tmp_path_factory.mktemp("python"))


@pytest.fixture
def machine(tutors: Path, python: CleanPython, tmp_path: Path) -> Machine:
    return Machine(tutors, python, tmp_path)


def test_the_repository_alone_is_enough_to_build_and_publish_the_course(machine, tutors):
    assert machine.work() == ""
    assert (machine.published / "x" / "first-paradiddle" / "index.html").is_file()
    assert (machine.published / "x" / "slow-doubles" / "index.html").is_file()
    listed = {path.relative_to(machine.published) for path in machine.published.rglob("*.mp3")}
    assert listed == {path.relative_to(tutors / "site") for path in (tutors / "site").rglob("*.mp3")}
    assert listed


def test_it_stops_where_the_record_of_addresses_was_left_out(machine):
    (machine.clone / "addresses.yml").unlink()
    told = machine.work()
    assert told.startswith("mkdocs build --strict: ")
    assert "run mkdocs build" in told
    assert machine.published is None


def test_an_exercise_that_was_written_on_the_host_gets_its_address_and_is_published(tutors, python, tmp_path):
    host = tmp_path / "host.git"
    subprocess.run(["git", "clone", "-q", "--bare", str(tutors), str(host)], check=True)
    machine = Machine(host, python, tmp_path)
    page = machine.clone / "docs/weeks/week-03.md"
    new = "```pattern\nid: by-the-bus-stop\ntitle: By the bus stop\nrequires: slow-doubles\nhands: RRLL RRLL\n```\n"
    page.write_text(f"{page.read_text()}\n{new}\nShort and slow, while you wait.\n")
    git(machine.clone, "commit", "-q", "-a", "-m", "Written on the way")
    assert machine.work() == ""
    assert (machine.published / "x" / "by-the-bus-stop" / "index.html").is_file()
    record = subprocess.run(["git", "show", "HEAD:addresses.yml"], cwd=host, capture_output=True, text=True, check=True)
    assert "by-the-bus-stop: {" in record.stdout


@pytest.mark.parametrize("plugins", ["plugins:\n  - search\n", "plugins: []\n", ""], ids=["search", "none", "no line"])
def test_it_stops_where_the_settings_leave_wristwork_out(machine, plugins):
    settings = machine.clone / "mkdocs.yml"
    before, _ = settings.read_text().split("plugins:\n")
    settings.write_text(before + plugins)
    assert machine.work().startswith("wristwork check: ")
    assert machine.published is None
