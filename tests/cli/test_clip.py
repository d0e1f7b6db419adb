"""``wristwork clip``."""

from __future__ import annotations

from pathlib import Path

from tests.cli.conftest import run
from tests.site.courses import Course


def test_a_clip_is_a_file_of_its_own(tmp_path: Path) -> None:
    course = Course(tmp_path / "course")
    course.save_settings()
    done = run("clip", "slow-singles", "--to", tmp_path / "one.mp4", "--folder", course.root)
    assert (done.code, done.err) == (0, "")
    assert (tmp_path / "one.mp4").read_bytes()[4:8] == b"ftyp"
    assert str(tmp_path / "one.mp4") in done.out


def test_wrong_asks_are_answered(tmp_path: Path) -> None:
    course = Course(tmp_path)
    course.save_settings()
    done = run("clip", "slow-single", "--folder", course.root)
    assert done.code != 0
    assert "there is no exercise 'slow-single' in this course: did you mean slow-singles?" in done.err
    two = run("clip", "slow-singles", "accented-paradiddle", "--to", tmp_path / "a.mp4", "--folder", course.root)
    assert "several clips are asked for: name a folder, as in --to clips" in two.err
