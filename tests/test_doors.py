"""The worked examples of DEVELOPERS.md, carried out on a copy of the package: what they add is there and works."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
STEP = re.compile(
    r"(?:New file `(?P<new>[^`]+)`|In `(?P<file>[^`]+)`, instead of `(?P<old>[^`\n]+)`)"
    r":\n\n```\w+\n(?P<text>.*?)\n```",
    re.S,
)
# What is asked of the changed package, in a process of its own, and nothing is rendered for it.
ASKED = {
    "check": """
from tests.course.test_checks import GOOD_WEEK
from wristwork.course.checks import check_course
from wristwork.course.course import read_teaching
from wristwork.page.page import read_pages
pages = {"week-01.md": GOOD_WEEK.format(number=1, needs="").replace("minutes: 20", "minutes: 90")}
course, _ = read_teaching(read_pages(pages))
print(*[f"{found.path}:{found.line}" for found in check_course(course) if found.kind == "week-hour"])
""",
    "page": """
from wristwork.site.overview.made_pages import made_pages
print(*[page.src_uri for page in made_pages("Loft", None, ()) if "wristwork: exercises" in page.markdown])
""",
    "file": """
import types
from wristwork.site.mkdocs.course_reading import OURS
from wristwork.site.mkdocs.site_files import SITE_FILES
placed = types.SimpleNamespace(id="singles", sticking="RLRL")
whole = types.SimpleNamespace(site=types.SimpleNamespace(exercises={"singles": placed}))
(made,) = [file.make(whole) for file in SITE_FILES if file.address == "stickings.txt"]
print("stickings.txt" in OURS, made.decode(), end="")
""",
    "look": """
from wristwork.look.finished import LOOKS, finished_look
from wristwork.look.palette import weak_pairs
from wristwork.site.mkdocs.config import WristworkConfig
config = WristworkConfig()
config.load_dict({"look": "copper"})
print(config.validate(), finished_look(config.look).light["deep"], list(weak_pairs(finished_look("copper"))))
""",
    "drum": """
from wristwork.drawing import diagram, words
from wristwork.pattern import read_one
from wristwork.sound.kit import Kit, KitVoice
from wristwork.sound.midi import midi_bytes
pattern = read_one("id: abc\\ntitle: Abc\\nhands: R>LRL\\nplace: all on wood block\\n")
print(len(Kit().sounds(KitVoice("wood block", "tap"))), bytes([0x99, 76]) in midi_bytes(pattern))
print("wood block" in str(words(pattern)), "<svg" in diagram(pattern).html())
""",
}


def named_in_the_table() -> list[str]:
    """The modules and folders that the table of additions names."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    _, table, _ = re.split(r"^\| what is added .*\n|^\*A check:", text, flags=re.M)
    return sorted(set(re.findall(r"`((?:course|site|pattern|sound|look)/[^`]+)`", table)))


def steps() -> list[re.Match[str]]:
    return list(STEP.finditer((ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")))


@pytest.fixture(scope="session")
def extended(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the package with all that the examples add."""
    folder = tmp_path_factory.mktemp("extended")
    package = folder / "wristwork"
    shutil.copytree(ROOT / "plugins" / "wristwork", package, ignore=shutil.ignore_patterns("__pycache__"))
    for step in steps():
        if step["new"]:
            assert not (package / step["new"]).exists()
            (package / step["new"]).write_text(f"{step['text']}\n", encoding="utf-8")
        else:
            text = (package / step["file"]).read_text(encoding="utf-8")
            assert text.count(step["old"]) == 1, step["old"]
            (package / step["file"]).write_text(text.replace(step["old"], step["text"]), encoding="utf-8")
    return folder


def asked(folder: Path, what: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", ASKED[what]],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": f"{folder}{os.pathsep}{ROOT}"},
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )


def test_the_page_has_an_example_for_each():
    assert {step["new"] for step in steps() if step["new"]} == {
        "course/checks/long_weeks.py",
        "site/overview/pages/words.md",
        "site/exercise/sticking_list.py",
        "look/finished/copper.css",
    }
    assert len(steps()) == 13


@pytest.mark.parametrize(
    ("what", "answer"),
    [
        ("check", "week-01.md:5\n"),
        ("page", "exercises.md words.md\n"),
        ("file", "True singles: RLRL\n"),
        ("look", "([], []) #2f3a45 []\n"),
        ("drum", "4 True\nTrue True\n"),
    ],
)
def test_what_the_example_adds_is_there_and_works(extended: Path, what: str, answer: str) -> None:
    done = asked(extended, what)
    assert (done.stdout, done.stderr) == (answer, "")


@pytest.mark.parametrize("path", named_in_the_table())
def test_what_the_table_names_is_there(path: str) -> None:
    assert (ROOT / "plugins" / "wristwork" / path).exists()


def test_what_holds_for_every_drum_and_look_holds_for_those_of_the_examples(extended: Path) -> None:
    held = [
        "tests/pattern/test_drums.py",
        "tests/look/test_palette.py",
        "tests/languages/test_say.py::test_every_name_that_is_said_is_listed",
    ]
    done = subprocess.run(
        [
            sys.executable,
            "-m",
            "pytest",
            "-q",
            "-p",
            "no:cacheprovider",
            "-p",
            "no:xdist",
            "--rootdir",
            str(ROOT),
            *held,
        ],
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": f"{extended}{os.pathsep}{ROOT}"},
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    assert done.returncode == 0, done.stdout
