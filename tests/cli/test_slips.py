"""A course broken in many ways: the first thing told is the cause, in its line, and nothing only follows from it."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from tests.cli.slips import SLIPS, Make, make_course
from wristwork.cli.check import check
from wristwork.cli.course_files import read_files
from wristwork.cli.paint import Paint
from wristwork.page.problem import Problem, open_problems


def told(folder: Path) -> list[Problem]:
    files = read_files(folder)
    return [*files.problems, *open_problems(files.findings)]


def printed(folder: Path) -> str:
    stream = io.StringIO()
    check(folder, as_json=False, keep_addresses=False, paint=Paint(stream, colours=False, boxes=True))
    return stream.getvalue()


def test_the_course_has_no_slip_in_it(tmp_path: Path) -> None:
    make_course(tmp_path)
    assert told(tmp_path) == []


@pytest.mark.parametrize(
    ("make", "where", "words", "count"), SLIPS, ids=[f"{where} {words}" for _, where, words, _ in SLIPS]
)
def test_the_cause_is_told_and_nothing_that_follows_from_it(
    tmp_path: Path, make: Make, where: str, words: str, count: int
) -> None:
    make_course(tmp_path)
    make(tmp_path)
    found = [str(problem).replace(f"{tmp_path.as_posix()}/", "") for problem in told(tmp_path)]
    assert len(found) == count
    for text in found[:1]:
        assert text.startswith(f"{where}:")
        assert words in text
    assert not set(printed(tmp_path)) & {"\x1b", "\x7f", "\r"}


def test_a_check_writes_nothing_into_a_course(tmp_path: Path) -> None:
    make_course(tmp_path)
    before = sorted(tmp_path.rglob("*"))
    told(tmp_path)
    assert sorted(tmp_path.rglob("*")) == before


def test_the_checks_wait_while_something_cannot_be_read(tmp_path: Path) -> None:
    make_course(tmp_path)
    page = tmp_path / "docs/weeks/week-01.md"
    page.write_text(page.read_text().replace("week: 1", "week: eins"))
    assert "The checks of the course wait until all of it can be read." in printed(tmp_path)
