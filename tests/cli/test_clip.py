"""``wristwork clip``."""

from __future__ import annotations

from pathlib import Path

import av

from tests.cli.conftest import run
from tests.site.courses import Course


def test_an_upright_clip_is_a_file_of_its_own_as_high_as_a_phone(tmp_path: Path) -> None:
    course = Course(tmp_path / "course")
    course.save_settings()
    done = run("clip", "slow-singles", "--upright", "--to", tmp_path / "one.mp4", "--folder", course.root)
    assert (done.code, done.err) == (0, "")
    with av.open(tmp_path / "one.mp4") as film:
        assert (film.streams.video[0].width, film.streams.video[0].height) == (720, 1280)
    assert str(tmp_path / "one.mp4") in done.out


def test_wrong_asks_are_answered(tmp_path: Path) -> None:
    course = Course(tmp_path)
    course.save_settings()
    done = run("clip", "slow-single", "--folder", course.root)
    assert done.code != 0
    assert "there is no exercise 'slow-single' in this course: did you mean slow-singles?" in done.err
    two = run("clip", "slow-singles", "accented-paradiddle", "--to", tmp_path / "a.mp4", "--folder", course.root)
    assert "several clips are asked for: name a folder, as in --to clips" in two.err
