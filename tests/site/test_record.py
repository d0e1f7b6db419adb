"""Addresses that last, as a tutor meets them: build, rename, move, retire, build again."""

import os
import re
from pathlib import Path

import pytest

from tests.site.courses import WEEK_1, WEEK_2, WRONG, Course
from wristwork.site.exercise.record import in_continuous_integration

SLOW_SINGLES = 'slow-singles: {title: "Slow singles", lesson: "weeks/week-01.md"}'
THE_OTHER_WAY = 'the-other-way: {title: "The other way", lesson: "weeks/week-02.md"}'


def record(course: Course) -> str:
    return (course.root / "addresses.yml").read_text(encoding="utf-8")


def change_record(course: Course, old: str, new: str) -> None:
    assert old in record(course)
    course.write("addresses.yml", record(course).replace(old, new))


def without_the_other_way(course: Course) -> None:
    course.write("docs/weeks/week-02.md", WEEK_2[: WEEK_2.rindex("```pattern")])


def test_a_first_build_creates_the_record_and_the_next_leaves_it_alone(course: Course) -> None:
    course.build()
    assert {SLOW_SINGLES, THE_OTHER_WAY} < set(record(course).splitlines())
    before = (course.root / "addresses.yml").stat().st_mtime_ns
    course.build()
    assert (course.root / "addresses.yml").stat().st_mtime_ns == before


def test_neither_a_failing_build_nor_a_strictly_failing_one_writes_it(course: Course) -> None:
    course.write("docs/weeks/week-03.md", WRONG)
    assert course.run("build").returncode != 0
    course.write("docs/weeks/week-03.md", "---\nweek: 3\ntitle: More\n---\n\n[nowhere](nowhere.md)\n")
    assert course.run("build", "--strict").returncode != 0
    assert not (course.root / "addresses.yml").exists()


def test_a_preview_writes_nothing(course: Course) -> None:
    course.preview()
    assert (course.site / "x/slow-singles/index.html").exists()
    assert not (course.root / "addresses.yml").exists()


def test_a_strict_build_that_would_change_it_fails_where_what_it_writes_is_lost(course: Course) -> None:
    done = course.run("build", "--strict", CI="true")
    assert done.returncode != 0
    assert "run mkdocs build in the course's folder, then commit addresses.yml" in done.stderr
    assert not course.site.exists()
    assert course.run("build", "--strict").returncode == 0
    assert course.run("build", "--strict", CI="true").returncode == 0


@pytest.mark.parametrize(("value", "so"), [("true", True), ("1", True), ("", False), ("false", False), ("0", False)])
def test_what_counts_as_continuous_integration(value: str, so: bool) -> None:
    assert in_continuous_integration({"CI": value}) is so


def test_an_id_that_is_gone_fails_the_build_with_everything_else_that_is_wrong(course: Course) -> None:
    course.build()
    without_the_other_way(course)
    course.write("docs/weeks/week-03.md", WRONG)
    done = course.run()
    assert done.returncode != 0
    assert "2 things are wrong" in done.stderr
    line = record(course).splitlines().index(THE_OTHER_WAY) + 1
    assert f"addresses.yml:{line}:1: the exercise 'the-other-way' (The other way, last in" in done.stderr
    assert "docs/weeks/week-03.md:11:14" in done.stderr


def test_a_published_exercise_whose_pattern_breaks_is_not_told_as_gone(course: Course) -> None:
    course.build()
    course.write("docs/weeks/week-02.md", WEEK_2.replace("R>LRR L>RLL", "R>LRR >RLL", 1))
    done = course.run()
    assert done.returncode != 0
    assert "addresses.yml" not in done.stderr
    assert "1 thing is wrong" in done.stderr


def test_titles_weeks_and_order_may_change_and_addresses_do_not(course: Course) -> None:
    course.build()
    before = {path.name for path in (course.site / "x").iterdir()}
    moved = WEEK_2.replace("week: 2", "week: 5").replace("title: The other way", "title: Left hand first")
    (course.root / "docs/weeks/week-02.md").unlink()
    course.write("docs/weeks/week-05.md", moved)
    course.build()
    assert {path.name for path in (course.site / "x").iterdir()} == before
    assert 'the-other-way: {title: "Left hand first", lesson: "weeks/week-05.md"}' in record(course)


def test_a_moved_address_forwards_with_canonical_refresh_and_link(course: Course) -> None:
    course.build()
    without_the_other_way(course)
    change_record(course, THE_OTHER_WAY, THE_OTHER_WAY[:-1] + ', moved to: "accented-paradiddle"}')
    course.build()
    page = course.page("x/the-other-way")
    assert '<link rel="canonical" href="https://larkspur.example/loft/x/accented-paradiddle/">' in page
    assert '<meta http-equiv="refresh" content="0; url=../accented-paradiddle/">' in page
    assert re.search(r'<a [^>]*href="../accented-paradiddle/"><bdi>Accented paradiddle</bdi></a>', page)
    assert 'moved to: "accented-paradiddle"' in record(course)


def test_a_retired_address_says_so_and_links_the_course(course: Course) -> None:
    course.build()
    without_the_other_way(course)
    change_record(course, THE_OTHER_WAY, THE_OTHER_WAY[:-1] + ', retired: "It was <too> hard so early."}')
    course.build()
    page = course.page("x/the-other-way")
    assert "It was &lt;too&gt; hard so early." in page
    assert '<a href="../../">Go to the course</a>' in page
    assert "refresh" not in page


@pytest.mark.parametrize("damage", [b"\xff\xfe\x00", b"<<<<<<< ours\n", b"slow-singles: {title: 3}\n"])
def test_a_damaged_record_is_told_by_line_and_never_overwritten(course: Course, damage: bytes) -> None:
    file = Path(course.root / "addresses.yml")
    file.write_bytes(damage)
    done = course.run()
    assert done.returncode != 0
    assert "addresses.yml:1:1: " in done.stderr
    assert "Traceback" not in done.stderr
    assert file.read_bytes() == damage


def test_what_two_tutors_merge_reads_as_both(course: Course) -> None:
    """Git keeps the lines of both sides; order does not matter, and two lines of one id do not either."""
    course.build()
    merged = record(course).splitlines()
    course.write("addresses.yml", "\n".join([*reversed(merged), THE_OTHER_WAY]) + "\n")
    course.build()
    assert course.run("build", "--strict", CI="true").returncode == 0


def test_where_the_record_is_gone_the_last_site_tells_what_gets_lost(course: Course) -> None:
    course.build()
    without_the_other_way(course)
    change_record(course, THE_OTHER_WAY, THE_OTHER_WAY[:-1] + ', moved to: "accented-paradiddle"}')
    course.write(
        "addresses.yml", record(course) + 'too-fast: {title: "Too <fast>", retired: "Next & \\"last\\" year."}\n'
    )
    course.build()
    (course.root / "addresses.yml").unlink()
    (course.site / "x" / "mine").mkdir()
    (course.site / "x" / "mine" / "index.html").write_text("somebody else's")
    done = course.run("build", "--strict")
    assert done.returncode != 0
    lines = (
        '    the-other-way: {title: "The other way", moved to: "accented-paradiddle"}\n'
        '    too-fast: {title: "Too <fast>", retired: "Next & \\"last\\" year."}\n'
    )
    assert "the file is gone, and with it where 2 addresses of the last site would lead" in done.stderr
    assert lines in done.stderr.replace("        ", "    ")
    assert not (course.root / "addresses.yml").exists()
    course.write("addresses.yml", lines.replace("    ", ""))
    done = course.run("build", "--strict")
    assert done.returncode == 0, done.stderr
    assert "../accented-paradiddle/" in course.page("x/the-other-way")
    assert "Next &amp; &#34;last&#34; year." in course.page("x/too-fast")


def test_a_comment_in_the_record_outlives_a_new_exercise(course: Course) -> None:
    course.build()
    change_record(course, SLOW_SINGLES, f"# Frieda's favourite\n{SLOW_SINGLES}  # never rename")
    course.write("docs/weeks/week-01.md", WEEK_1.replace("title: Slow singles", "title: Slow, slow singles"))
    course.build()
    line = SLOW_SINGLES.replace('"Slow singles"', '"Slow, slow singles"')
    assert f"# Frieda's favourite\n{line}  # never rename\n" in record(course)


@pytest.mark.parametrize("harm", ["fifo", "device", "folder"])
def test_a_record_that_is_no_file_hangs_nothing(course: Course, harm: str) -> None:
    place = course.root / "addresses.yml"
    {"fifo": os.mkfifo, "folder": os.mkdir, "device": lambda path: os.symlink("/dev/zero", path)}[harm](place)
    done = course.run()
    assert done.returncode != 0
    assert "addresses.yml:1:1: cannot be read: it is" in done.stderr
    assert "Traceback" not in done.stderr
