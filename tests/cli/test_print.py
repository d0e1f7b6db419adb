"""``wristwork print``: sheets, weeks and the book as files."""

from pathlib import Path

import pytest
from pypdf import PdfReader

from tests.cli.conftest import run


def said(path: Path) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(path).pages)


def test_a_course_is_printed(course: Path, tmp_path: Path) -> None:
    done = run("print", "--week", "1", "--book", "--to", tmp_path / "out", cwd=course)
    assert done.code == 0, done.err
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == ["course.pdf", "week-1.pdf"]
    assert "Contents" in said(tmp_path / "out" / "course.pdf")
    assert not (course / ".wristwork").exists()


def test_a_sticking_is_printed_outside_any_course(tmp_path: Path) -> None:
    said_of_it = ("--title", "For Jo", "--tempo", "60 to 80 by 4", "--to", "jo.pdf")
    done = run("print", "--for", "R>LRR L>RLL", *said_of_it, cwd=tmp_path)
    assert (done.code, done.out) == (0, "Printed jo.pdf\n")
    assert "For Jo" in said(tmp_path / "jo.pdf")
    assert "76" in said(tmp_path / "jo.pdf")


def test_the_other_hand_leads_for_left_handed_readers(tmp_path: Path) -> None:
    for name, more in (("right.pdf", ()), ("left.pdf", ("--left-handed", "--large", "--paper", "letter"))):
        assert run("print", "--for", "RRRL RRRL", "--to", name, *more, cwd=tmp_path).code == 0
    counts = {name: said(tmp_path / name).count("R\n") for name in ("right.pdf", "left.pdf")}
    assert counts["right.pdf"] != counts["left.pdf"]


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (
            (),
            "nothing says what is to be printed: name an exercise by its id, or say --week 3, --book or --for "
            "'R>LRR L>RLL'",
        ),
        (("no-such-one",), "there is no exercise 'no-such-one' in this course: its id is the last part of its address"),
        (
            ("--week", "9"),
            "there is no week 9 in this course: the weeks are 1, 2; a new one begins with wristwork add week",
        ),
        (("--week", "first"), "'first' is no week's number"),
        (("--for", "R>Q"), "'Q' means nothing here"),
        (("--week", "1", "--book", "--to", "a.pdf"), "a.pdf is one file, and several papers are asked for"),
        (("--week", "1", "--to", "mkdocs.yml/x.pdf"), "can't be written"),
    ],
)
def test_what_can_not_be_printed_is_told_in_a_line(course: Path, arguments: tuple, told: str) -> None:
    done = run("print", *arguments, cwd=course)
    assert done.code != 0
    assert told in done.err
    assert len(done.err.strip().splitlines()) == 1


def test_no_file_of_another_kind_is_replaced(course: Path) -> None:
    (course / "notes.pdf").write_text("mine")
    done = run("print", "--week", "1", "--to", "notes.pdf", cwd=course)
    assert "notes.pdf is there, and it is no PDF" in done.err
    assert (course / "notes.pdf").read_text() == "mine"


def test_a_language_of_a_country_is_one_for_the_typesetter_too(tmp_path):
    done = run("print", "--for", "R L R L", cwd=tmp_path, LC_ALL="de_AT.UTF-8")
    assert (done.code, done.err) == (0, "")
