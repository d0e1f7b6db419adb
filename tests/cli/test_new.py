"""``wristwork new``: a course from the starter, and never over anything."""

from __future__ import annotations

import errno
import os
import shutil
import sys
from pathlib import Path

import pytest
import yaml

from tests.cli.conftest import run
from wristwork.cli import seeds
from wristwork.cli.new import new
from wristwork.cli.paint import Paint
from wristwork.cli.trouble import Trouble


def test_a_new_course_is_there_and_well(course):
    assert (course / "docs" / "index.md").is_file()
    assert (course / ".gitignore").is_file()
    assert list((course / ".github" / "workflows").iterdir())
    done = run("check", course)
    assert (done.code, done.out) == (0, "All is well (2 weeks, 6 exercises).\n")


def test_it_says_what_to_do_next(tmp_path):
    done = run("new", "drum-lessons", cwd=tmp_path)
    assert done.err == ""
    assert done.out.startswith("A course of two weeks is in drum-lessons. From here:\n\n  cd drum-lessons ")
    for command in ("mkdocs serve", "wristwork check", "mkdocs build"):
        assert f"\n  {command} " in done.out
    (wheel,) = (tmp_path / "drum-lessons" / "tools").iterdir()
    assert done.out.endswith(
        f"\n\nrequirements.txt installs Wristwork 0.1.0 from tools/{wheel.name}, a copy of the one that runs here.\n"
        "Keep that file with your course: a machine that builds it for you can get the tool from nowhere else.\n"
    )
    requirements = (tmp_path / "drum-lessons" / "requirements.txt").read_text(encoding="utf-8")
    assert requirements.splitlines()[1:] == [f"./tools/{wheel.name}"]


@pytest.mark.parametrize(
    ("arguments", "name"),
    [
        (("drum-lessons",), "Drum lessons"),
        (("drums", "--name", 'The "Low" Room: drums'), 'The "Low" Room: drums'),
        (("drums", "--name", "Übungsraum"), "Übungsraum"),
    ],
)
def test_the_course_gets_a_name(tmp_path, arguments, name):
    assert run("new", *arguments, cwd=tmp_path).code == 0
    settings = yaml.safe_load((tmp_path / arguments[0] / "mkdocs.yml").read_text(encoding="utf-8"))
    assert settings["site_name"] == name


def test_folders_on_the_way_are_made_and_an_empty_one_is_filled(tmp_path):
    assert run("new", tmp_path / "a" / "b").code == 0
    empty = tmp_path / "empty"
    empty.mkdir()
    assert run("new", empty).code == 0
    assert (empty / "mkdocs.yml").is_file()


def test_nothing_is_overwritten(course, tmp_path):
    before = {path: path.read_bytes() for path in course.rglob("*") if path.is_file()}
    done = run("new", course)
    assert done.code == 1
    assert (
        done.err
        == f"wristwork: {course} is not empty: give the name of a new folder, since nothing is ever overwritten\n"
    )
    assert {path: path.read_bytes() for path in course.rglob("*") if path.is_file()} == before
    file = tmp_path / "file"
    file.write_text("mine")
    assert run("new", file).code == 1
    assert file.read_text() == "mine"


def test_a_place_that_can_not_be_written(tmp_path):
    (tmp_path / "file").write_text("mine")
    done = run("new", tmp_path / "file" / "course")
    assert done.code == 1
    assert done.err.count("\n") == 1
    assert done.err.startswith("wristwork: ")


def test_seeds_in_the_package_are_found_before_those_of_the_repository(tmp_path, monkeypatch):
    (tmp_path / "starter").mkdir()
    monkeypatch.setattr(seeds, "_IN_PACKAGE", tmp_path)
    assert seeds.seed_folder("starter") == tmp_path / "starter"
    assert seeds.seed_folder("rudiments").parent.name == "seeds"
    with pytest.raises(seeds.Trouble, match="the seed 'melodies' did not come with this installation"):
        seeds.seed_folder("melodies")


def test_a_name_that_cannot_be_shown_is_refused(tmp_path):
    done = run("new", tmp_path / "course", "--name", "Lindenhof\x7f")
    assert done.code == 1
    assert done.err.startswith("wristwork: a name with a character that can't be shown: type it again")
    assert not (tmp_path / "course").exists()


def test_a_folder_whose_name_is_no_text_gets_a_course(tmp_path):
    folder = os.fsencode(tmp_path) + b"/stra\xdfe-7"
    done = run("new", os.fsdecode(folder))
    assert (done.code, done.err) == (0, "")
    assert 'site_name: "Stra e 7"' in (Path(os.fsdecode(folder)) / "mkdocs.yml").read_text(encoding="utf-8")


@pytest.mark.parametrize("is_there", [True, False])
def test_a_full_disk_leaves_nothing_behind(tmp_path, monkeypatch, is_there):
    folder = tmp_path / "course"
    if is_there:
        folder.mkdir()
    copied = []
    copyfile = shutil.copyfile

    def copy(source, target, **more):
        copied.append(target)
        if len(copied) > 3:
            raise OSError(errno.ENOSPC, "No space left on device", str(target))
        return copyfile(source, target, **more)

    monkeypatch.setattr(shutil, "copyfile", copy)
    with pytest.raises(Trouble, match=r"course can't be written: No space left on device; nothing was left there"):
        new(folder, None, False, Paint.on(sys.stdout))
    assert folder.is_dir() == is_there
    assert not is_there or list(folder.iterdir()) == []
