"""Everything that commands write is said: in a language of brackets, no words stand outside of them."""

from __future__ import annotations

import re
import sys
from dataclasses import dataclass

import pytest

from tests.cli.slips import SLIPS, make_course
from tests.said import bracketed, unsaid
from wristwork.cli import course_files, studio
from wristwork.cli import main as commands
from wristwork.cli.check import check
from wristwork.cli.group import EXAMPLES, HELP, wristwork
from wristwork.cli.paint import Paint
from wristwork.languages.say import spoken

COURSE = {
    "mkdocs.yml": "site_name: Lindenhof\nsite_url: https://lindenhof.example/\nplugins:\n  - wristwork\n",
    "docs/index.md": "# Lindenhof\n",
    "docs/week-1.md": (
        "---\nweek: 1\ntitle: Eins\naim: Zwei.\nminutes: 20\n---\n\n# Eins\n\nHier.\n\n"
        "```pattern\nid: eins\ntitle: Eins\ntempo: 60 to 72 by 4\nhands: R L R L\n```\n\nDort.\n"
    ),
    "docs/week-2.md": "---\nweek: 2\nopens: 2099-01-01\n---\n\n# Zwei\n",
    "students/jo.md": "name: Jo\nhand: left\nweek: 1\nlevel: 1\nsurface: practice pad\n",
    "told/students/jo.md": "name: Jo\n\n2026-09-14 heard week 1: eins last at 66\n2026-09-15 said Jo\n",
    "told/students/kim.md": "name: Kim\n\n2026-09-14 heard week 1, 9 minutes in 3 days: eins last at 66\n",
    "told/students/bo.md": "name: Bo\n\n2026-09-14 asked Kim\n",
    "students/kim.md": "name: Kim\n\n2026-09-14 sent week 1: eins 60 to 72 for 5 minutes\n",
    "front/studio.yml": "name: Studio\ncourses: [..]\n",
    "bare/studio.yml": "name: Studio\n",
    "lost/studio.yml": "name: Studio\ncourses: [nowhere]\n",
    "paper.pdf": "no PDF",
    "site/index.html": "no page of a studio",
    "theirs/studio.yml": "name: Studio\ncourses: [..]\n",
    "theirs/site/index.html": "no page of a studio",
    "empty/mkdocs.yml": "site_name: Leer\n",
    "hollow/mkdocs.yml": "site_name: Leer\n",
    "hollow/docs/a.txt": "",
    "list/mkdocs.yml": "- a\n",
    "open/mkdocs.yml": "site_name: 'a\n",
    "day/mkdocs.yml": "site_name: 2001-99-99\n",
    "homeless/mkdocs.yml": "site_name: A\nplugins: [wristwork]\n",
    "homeless/docs/week-1.md": "---\nweek: 1\n---\n\n```pattern\nid: a\ntitle: A\nhands: R L\n```\n",
    "homeless/students/jo.md": "name: Jo\n",
}
MESSAGE = "My practice, week 1: 84 minutes in the last 14 days\nEins: clean at 66, 20 min\nQuestion: Wie?\n"
# Whole commands, most of them with something wrong.
TYPED = [
    "check", "check nowhere", "check empty", "check hollow", "check list", "check open", "check day", "chek", "sing",
    "check --jsn", "check --j", "check --json=3", "check a b", "check a b c", "-x", "--",
    "new", "new .", "new paper.pdf", "new x --name \x7f", "new x --language xx", "new x --language", "new paper.pdf/x",
    "new fresh", "new french --language fr",
    "add", "add rudiment", "add rudiment drag", "add rudiment drag --week x", "add dragg --week 1", "add zzzz --week 1",
    "add drag --week 9", "add drag --week 1", "add --list zzzz", "add --list dragg",
    "add week Drei", "add week --week 1", "add week --week 9999", "add week \x7f", "add week --opens x",
    "add student", "add student Jo", "add student Bo", "add student Bo --hand up",
    "send", "send Jo", "send Jo Kim", "send Jo --week 2", "send Jo --week 9", "send Jo --also x", "send Jo --also eims",
    "send Jo --without x", "send Jo --without eins", "send Jo --on x", "send Jo --folder homeless",
    "send Jo eins", "send eins", "send Jo Bo --week 2", "send Jo Bo", "people --folder told",
    "heard", "heard Jo ''", "heard Jo hello", "heard Kim message",
    "people", "people Jo", "people Kim --month 2026-08", "people --month x", "people --page", "people --folder nowhere",
    "people --folder bare",
    "try", "try R>L", "try R>LRR --feet R.L.", "try R --tempo",
    "print", "print x", "print eims", "print --week 9", "print --week x", "print --paper a5", "print --paper",
    "print eins --to paper.pdf", "print eins --week 1 --to x.pdf", "print eins --to paper.pdf/x", "print eins",
    "clip", "clip x", "clip eims", "clip eins x --to x.mp4",
    "read", "read nowhere.mid", "read x --bars x", "read x --hands up",
    "studio nowhere", "studio bare", "studio lost", "studio theirs", "studio front", "studio homeless --to site",
]  # fmt: skip
# What is typed, or is in files, stays as it is.
CODE = re.compile(
    r"https?://\S+|\S*/\S*|\S+\.(?:md|pdf|mp4|yml)\b|\d{4}-\d\d-\d\d.*"  # addresses, files, notes
    r"|\[[a-z-]+\]"  # names of checks
    r"|\b(?:cd \w+|mkdocs serve|mkdocs build|wristwork check|wristwork send (?:Jo )?--also|wristwork)\b"
    r"|\b(?:eins|eims|Eins|Jo|Kim|Bo|drag|Drag|Lindenhof)\b"
    r"|Not a directory|No such file or directory"  # what the system says
)

# The name of a setting before what is wrong with it, which MkDocs says in its own words where it is none of ours.
SETTING = re.compile(r"^(?:days|starts|show):|^plugns: Unrecognised configuration name: plugns$|\bplugns\b")


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """A small course in which much can go wrong, whatever its settings say of its language."""
    for name, text in COURSE.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text, encoding="utf-8")
    monkeypatch.setattr(commands, "tongue_of", lambda typed: spoken())
    monkeypatch.setattr(course_files, "course_language", lambda *_: spoken())
    monkeypatch.setattr(studio, "studio_language", lambda *_: spoken())
    monkeypatch.setenv("COLUMNS", "1000")
    monkeypatch.setitem(HELP, "max_content_width", 1000)
    monkeypatch.chdir(tmp_path)
    return tmp_path


@dataclass(frozen=True)
class Keys:
    """What somebody types who is asked for a message."""

    buffer: object

    def isatty(self):
        return True

    def read(self, most):
        return b""


def left_of(text):
    """The words of an output that nobody says."""
    return re.findall(r"[^\W\d_]{2,}", CODE.sub("", unsaid(text)))


@pytest.mark.parametrize("typed", TYPED)
def test_no_word_of_an_answer_is_left_out(folder, monkeypatch, capsys, typed):
    monkeypatch.setattr(sys, "stdin", Keys(Keys(None)))
    words = [MESSAGE if word == "message" else "" if word == "''" else word for word in typed.split(" ")]
    with bracketed():
        commands.main(words)
    said = capsys.readouterr()
    assert left_of(said.err) == []
    if not typed.startswith("try "):  # letters of strokes
        assert left_of(said.out) == []


def test_no_word_of_a_picture_is_left_out(capsys, folder):
    with bracketed():
        assert commands.main(["try", "RLRR"]) == 0
    assert set(left_of(capsys.readouterr().out)) <= {"RLRR"}


def test_no_word_of_the_page_of_students_is_left_out(folder):
    with bracketed():
        assert commands.main(["people", "--page"]) == 0
    body = (folder / "students" / "people.html").read_text(encoding="utf-8").partition("</style>")[2]
    texts = re.sub(r"<[^>]*>", " ", body)
    assert left_of(texts) == ["Sep", "week", "to", "for", "minutes"]  # a month, a line of a student's file
    title = (folder / "students" / "people.html").read_text(encoding="utf-8").partition("<title>")[2]
    assert left_of(title.partition("</title>")[0]) == []


@pytest.mark.parametrize("name", ["", *EXAMPLES])
def test_no_word_of_the_help_is_left_out(folder, capsys, name):
    with bracketed():
        assert commands.main([*([name] if name else []), "--help"]) == 0
    out = capsys.readouterr().out.replace(EXAMPLES.get(name, " "), "")
    left = unsaid(out)
    kept = {"wristwork", "rudiment", "week", "student", "right", "left", "letter", "a", *wristwork.commands}
    assert set(re.findall(r"(?<![-\w])[a-z]+", left)) <= kept


@pytest.mark.parametrize(
    ("make", "where", "words"), [slip[:3] for slip in SLIPS], ids=[f"{slip[1]} {slip[2]}" for slip in SLIPS]
)
def test_no_word_of_what_a_check_finds_is_left_out(tmp_path, monkeypatch, make, where, words):
    monkeypatch.setattr(course_files, "course_language", lambda *_: spoken())
    make_course(tmp_path)
    make(tmp_path)
    with bracketed():
        files = course_files.read_files(tmp_path)
        for problem in (*files.problems, *files.findings):
            for text in (problem.found, problem.remedy):
                assert re.findall(r"[^\W\d_]{2,}", SETTING.sub("", unsaid(text))) == []


def test_no_word_around_it_is_left_out(folder, capsys):
    page = folder / "docs" / "week-1.md"
    page.write_text(page.read_text(encoding="utf-8").replace("minutes: 20", "minutes: 20\nallow:\n  pad: Ja."))
    with bracketed():
        check(folder, as_json=False, keep_addresses=False, paint=Paint.on(sys.stdout))
    assert "look" not in unsaid(capsys.readouterr().out)
