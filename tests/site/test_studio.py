"""The look of several courses stands in one file beside them."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.look.blocks import blocks
from tests.site.courses import Course
from wristwork.look.finished import finished_look
from wristwork.look.palette import dyed
from wristwork.site.frontend import colours
from wristwork.site.mkdocs.config import WristworkConfig
from wristwork.site.mkdocs.looking import Seen, read_look
from wristwork.site.mkdocs.settings_file import bare_settings

LOGO = b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M0 0h9v9z"/></svg>'
STUDIO = 'colours: ["#7a2e1d", "#1d5c7a"]\nfont: letters.woff2\nlogo: img/logo.svg\n'


def studio(folder: Path, text: str = STUDIO) -> Path:
    (folder / "img").mkdir()
    (folder / "img" / "logo.svg").write_bytes(LOGO)
    (folder / "letters.woff2").write_bytes(blocks())
    (folder / "studio.yml").write_text(text, encoding="utf-8")
    course = folder / "loft"
    course.mkdir()
    (course / "mkdocs.yml").write_text("site_name: Loft\nplugins:\n  - wristwork:\n      studio: ../studio.yml\n")
    return course


def seen(course: Path, **own: object) -> Seen:
    settings = WristworkConfig()
    settings.load_dict({"studio": "../studio.yml", **own})
    assert settings.validate() == ([], [])
    return read_look(bare_settings(course, course / "mkdocs.yml"), settings)


def test_a_course_has_the_look_of_its_studio(tmp_path: Path) -> None:
    course = Course(tmp_path / "loft")
    course.settings["plugins"] = ["search", {"wristwork": {"checks": "off", "studio": "../studio.yml"}}]
    course.root.mkdir(exist_ok=True)
    for name, content in (("logo.svg", LOGO), ("letters.woff2", blocks())):
        (tmp_path / name).write_bytes(content)
    (tmp_path / "studio.yml").write_text(STUDIO.replace("img/", ""), encoding="utf-8")
    course.build(strict=True)
    (logo,) = course.site.glob("assets/wristwork/*/logo.svg")
    assert logo.read_bytes() == LOGO
    (style,) = course.site.glob("assets/wristwork/*/look.css")
    assert dyed(colours.house(), "#7a2e1d", "#1d5c7a").light["paper"] in style.read_text(encoding="utf-8")
    for page in ("weeks/week-01/index.html", "x/slow-singles/index.html"):
        assert logo.relative_to(course.site).as_posix() in (course.site / page).read_text(encoding="utf-8")


def test_what_a_course_says_itself_counts_more(tmp_path: Path) -> None:
    course = studio(tmp_path)
    assert seen(course).look.palette == dyed(colours.house(), "#7a2e1d", "#1d5c7a")
    assert seen(course, look="felt").look.palette == finished_look("felt")
    assert seen(course, colours=["#2f3a45"]).look.palette == dyed(colours.house(), "#2f3a45", "#2f3a45")
    assert seen(course).look.letters is not None


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("look: marble\n", "../studio.yml:1: look: Expected maple, felt, lacquer, found 'marble'\n    correct look:"),
        ("\ncolors: x\n", "../studio.yml:2: colors: an unknown setting of a studio\n    did you mean colours?"),
        ("colours: #7a2e1d\n", "../studio.yml:1: colours: Expected a colour, found nothing: a # begins a comment"),
        ("a: [\n", "../studio.yml:2: lines that are no settings"),
        ("words\n", "../studio.yml:1: no list of settings\n    write lines as in look: maple"),
        ("font: nowhere.woff2\n", "../studio.yml: the font nowhere.woff2 is not there"),
        ("logo: nowhere.svg\n", "../studio.yml: the logo nowhere.svg can't be read: No such file or directory"),
        ("logo: logo.txt\n", "../studio.yml: the logo logo.txt is none of .svg, .png"),
    ],
)
def test_what_is_wrong_in_the_file_is_told_with_its_place(tmp_path: Path, text: str, said: str) -> None:
    (problem,) = seen(studio(tmp_path, text)).problems
    assert str(problem).startswith(said)


@pytest.mark.parametrize(("named", "said"), [("../none.yml", "is not there"), ("..", "can't be read: it is a folder")])
def test_a_file_that_is_not_there_is_told_where_it_is_named(tmp_path: Path, named: str, said: str) -> None:
    course = studio(tmp_path)
    (problem,) = seen(course, studio=named).problems
    assert (problem.where, problem.found) == ("mkdocs.yml:4", f"the studio's file {named} {said}")


def test_an_empty_file_is_no_look(tmp_path: Path) -> None:
    assert seen(studio(tmp_path, "")) == Seen(seen(tmp_path / "loft").look)
