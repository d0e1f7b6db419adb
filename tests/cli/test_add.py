"""``wristwork add``: a rudiment into a week's page, once, and nothing else changed."""

from __future__ import annotations

import subprocess
import sys
from datetime import date

import pytest

from tests.cli.conftest import run
from wristwork.cli.add import library
from wristwork.cli.main import main
from wristwork.course.weeks import read_week
from wristwork.page.page import read_page
from wristwork.pattern import read_course


def test_a_rudiment_stands_at_the_end_of_its_page(course):
    page = course / "docs" / "weeks" / "week-02.md"
    before = page.read_bytes()
    done = run("add", "rudiment", "flam-accent", "--week", "2", cwd=course)
    assert (done.code, done.err) == (0, "")
    assert done.out.startswith("Added Flam accent at the end of docs/weeks/week-02.md.\n")
    after = page.read_bytes()
    assert after.startswith(before)
    added = after[len(before) :].decode()
    assert added.startswith("\n## Flam accent\n\n```pattern\nid: flam-accent\n")
    assert added.endswith(".\n")
    read = read_course({path.name: path.read_text(encoding="utf-8") for path in sorted(page.parent.glob("*.md"))})
    assert "flam-accent" in read.exercises
    assert not read.problems


@pytest.mark.parametrize("typed", [("Flam accent",), ("flam", "accent"), ("rudiment", "FLAM-ACCENT"), ("Lesson 25",)])
def test_names_are_taken_as_they_come(course, typed):
    done = run("add", *typed, "--week", "1", "--folder", course)
    assert done.code == 0


def test_never_twice(course):
    run("add", "rudiment", "drag", "--week", "1", cwd=course)
    before = {path: path.read_bytes() for path in course.rglob("*.md")}
    for week in ("1", "2"):
        done = run("add", "rudiment", "drag", "--week", week, cwd=course)
        assert done.code == 1
        assert done.err.startswith("wristwork: 'drag' is in the course already, in docs/weeks/week-01.md:")
    assert {path: path.read_bytes() for path in course.rglob("*.md")} == before


def test_not_even_where_the_first_one_has_an_error(course):
    page = course / "docs" / "weeks" / "week-01.md"
    page.write_text(page.read_text() + "\n```pattern\nid: drag\ntitle: Drag\nhands: Q\n```\n")
    assert run("add", "rudiment", "drag", "--week", "2", cwd=course).code == 1


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("flam-acent", "--week", "2"), "no rudiment is called 'flam-acent': did you mean flam-accent?"),
        (
            ("drag", "--week", "9"),
            "there is no week 9 in docs (there are weeks 1, 2): begin a page with the lines ---, week: 9, ---, or let "
            "wristwork add week --week 9 make one",
        ),
    ],
)
def test_what_is_not_there_is_said_in_one_line(course, arguments, words):
    done = run("add", "rudiment", *arguments, cwd=course)
    assert (done.code, done.out) == (1, "")
    assert done.err.startswith(f"wristwork: {words}")
    assert done.err.count("\n") == 1


def test_a_name_must_be_given(course):
    done = run("add", "rudiment", "--week", "2", cwd=course)
    assert (
        done.err
        == "wristwork: nothing says which rudiment: give its name, as in wristwork add rudiment flam-accent --week 3\n"
    )


def test_what_is_meant_is_asked_before_the_week(course):
    done = run("add", "flam-acent", cwd=course)
    assert done.err == "wristwork: no rudiment is called 'flam-acent': did you mean flam-accent?\n"
    done = run("add", "studnet", "Jo", cwd=course)
    assert done.err == "wristwork: nothing is added as 'studnet': did you mean wristwork add student?\n"


def test_a_page_keeps_its_line_ends(course):
    page = course / "docs" / "weeks" / "week-01.md"
    page.write_bytes(page.read_bytes().rstrip().replace(b"\n", b"\r\n"))
    assert run("add", "rudiment", "drag", "--week", "1", cwd=course).code == 0
    assert b"\n" not in page.read_bytes().replace(b"\r\n", b"")
    assert b"\r\n\r\n## Drag\r\n" in page.read_bytes()


def test_every_rudiment_can_be_added_alone():
    entries = library()
    assert len(entries) == 40
    for name, entry in entries.items():
        read = read_course({"page.md": f"# A page\n\n{entry.section}\n"})
        assert list(read.exercises) == [name]
        assert not read.problems
        assert entry.section.startswith(f"## {entry.title}")


# In a process of its own, whose files may only have so many bytes: what a full disk does.
FULL = """
import resource, signal, sys
from wristwork.cli.main import main
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[1]), int(sys.argv[1])))
sys.exit(main(sys.argv[2:]))
"""


def test_on_a_full_disk_the_page_stays_whole(course):
    page = course / "docs" / "weeks" / "week-02.md"
    before = page.read_bytes()
    limit = str(len(before) + 20)
    command = [sys.executable, "-B", "-c", FULL, limit, "add", "drag", "--week", "2"]
    done = subprocess.run(command, cwd=course, capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert "week-02.md can't be written (File too large): nothing was changed" in done.stderr
    assert "Traceback" not in done.stderr
    assert page.read_bytes() == before
    assert [path.name for path in page.parent.iterdir() if "part" in path.name] == []


def test_a_page_keeps_its_permissions(course):
    page = course / "docs" / "weeks" / "week-02.md"
    page.chmod(0o640)
    assert run("add", "drag", "--week", "2", cwd=course).code == 0
    assert page.stat().st_mode & 0o777 == 0o640


def test_the_library_is_listed_and_searched(tmp_path):
    done = run("add", "rudiment", "--list", cwd=tmp_path)
    assert (done.code, len(done.out.splitlines())) == (0, 40)
    done = run("add", "rudiment", "--list", "tap", "FLAM", cwd=tmp_path)
    assert [line.split()[0] for line in done.out.splitlines()] == ["flam-tap", "inverted-flam-tap"]
    done = run("add", "rudiment", "--list", "parradiddle", cwd=tmp_path)
    assert (done.code, done.out) == (1, "")
    assert done.err.startswith("wristwork: no rudiment has 'parradiddle' in its name: did you mean ")


@pytest.mark.parametrize("title", ["Doubles", 'Doubles: the "second" note', "Yes", "null", "Für <Elise> & co", "3", ""])
def test_a_week_is_added_beside_the_others_with_the_next_number(course, title):
    done = run("add", "week", *title.split(), "--opens", "2027-01-25", cwd=course)
    assert (done.code, done.err) == (0, "")
    assert done.out.startswith("Added week 3: docs/weeks/week-03.md\n")
    page = course / "docs" / "weeks" / "week-03.md"
    week, problems = read_week(read_page("week-03.md", page.read_text(encoding="utf-8")))
    assert problems == ()
    assert (week.number, week.title, week.minutes) == (3, title or "Week 3", 18)
    assert week.opens == date(2027, 1, 25)


def test_a_week_takes_its_name_from_the_last_one_and_overwrites_nothing(course, capsys):
    folder = course / "docs" / "weeks"
    (folder / "week-02.md").rename(folder / "w2 low.md")
    assert main(["add", "week", "--week", "7", "--folder", str(course)]) == 0
    assert (folder / "w7 low.md").is_file()
    before = {path: path.read_bytes() for path in folder.iterdir()}
    (folder / "w8 low.md").write_text("# Something else\n", encoding="utf-8")
    for arguments, words in ((["--week", "7"], "week 7 is there already, in "), ([], "w8 low.md is there already")):
        assert main(["add", "week", *arguments, "--folder", str(course)]) == 1
        assert words in capsys.readouterr().err
    assert {path: path.read_bytes() for path in before} == before


def test_a_course_that_lists_its_pages_is_told_where_the_new_one_belongs(course):
    settings = course / "mkdocs.yml"
    nav = "nav:\n  - index.md\n  - weeks/week-01.md\n  - weeks/week-02.md\n"
    settings.write_text(settings.read_text(encoding="utf-8") + nav, encoding="utf-8")
    assert run("add", "week", cwd=course).out.endswith("nav: put weeks/week-03.md there, where it belongs.\n")
