"""What the README and the handbook show to paste is pasted where they say, into a new course, and built strictly.

The page on errors is left out: what it shows is wrong on purpose, and its messages are held against the reader's.
"""

from __future__ import annotations

import io
import logging
import re
from collections.abc import Callable
from contextlib import nullcontext
from dataclasses import dataclass
from pathlib import Path

import pytest
import yaml
from mkdocs.commands.build import build
from mkdocs.config import load_config
from PIL import Image

from tests.cli.conftest import run
from tests.look.blocks import blocks
from tests.site.courses import Course
from tests.site.theme import theme_read_once

ROOT = Path(__file__).parents[2]
PAGES = {
    path.relative_to(ROOT).as_posix(): path.read_text(encoding="utf-8")
    for path in (ROOT / "README.md", *sorted((ROOT / "docs" / "handbook").glob("*.md")))
    if path.name != "errors.md"
}
BLOCK = re.compile(r"^(?P<margin> *)(?P<marks>`{3,})(?P<kind>\w+)\n(?P<body>.*?)\n(?P=margin)(?P=marks)$", re.M | re.S)
WEEK_1, WEEK_2, WEEK_3 = (f"docs/weeks/week-0{number}.md" for number in (1, 2, 3))


@dataclass(frozen=True)
class Snippet:
    """A fenced block of a page, without its margin."""

    page: str
    kind: str
    body: str

    @property
    def name(self) -> str:
        return f"{Path(self.page).stem}: {' '.join(self.body.split())[:40]}"


def snippets() -> list[Snippet]:
    return [
        Snippet(page, block["kind"], re.sub(f"^{block['margin']}", "", block["body"], flags=re.M))
        for page, text in PAGES.items()
        for block in BLOCK.finditer(text)
    ]


SNIPPETS = snippets()
TO_PASTE = [
    snippet for snippet in SNIPPETS if snippet.kind in ("markdown", "yaml") and "example: yes" not in snippet.body
]
EXAMPLES = [snippet.body for snippet in SNIPPETS if snippet.kind == "pattern"]


def the_one(page: str, words: str) -> Snippet:
    """The only block of a page that holds some words."""
    (found,) = [snippet for snippet in TO_PASTE if Path(snippet.page).stem == page and words in snippet.body]
    return found


THIRD_WEEK = the_one("index", "week: 3")


# Of the exercise that its examples grow out of, the page on growing says that it is one of the handbook's own course.
HAND_TO_HAND = """\
Words around it.

```pattern
id: hand-to-hand
title: Hand to hand
hands: RL RL RL RL
```
"""
LIBRARY = "plugins: [{wristwork: {library: ../shared}}]"


class Tutor:
    """Somebody with a new course who pastes what they read."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder / "my-course"
        assert run("new", self.folder).code == 0

    def read(self, path: str) -> str:
        return (self.folder / path).read_text(encoding="utf-8")

    def write(self, path: str, text: str) -> None:
        (self.folder / path).write_text(text, encoding="utf-8")

    def add(self, path: str, text: str) -> None:
        """Paste at the end of a page that is there."""
        self.write(path, f"{self.read(path)}\n{text}\n")

    def change_top(self, path: str, lines: str) -> None:
        """Paste lines of front matter over those of the same names."""
        _, top, rest = self.read(path).split("---\n", 2)
        merged = {**yaml.safe_load(top), **yaml.safe_load(lines)}
        self.write(path, f"---\n{yaml.safe_dump(merged, sort_keys=False)}---\n{rest}")

    def set(self, lines: str) -> None:
        """Paste settings over those of the same names."""
        merged = {**yaml.safe_load(self.read("mkdocs.yml")), **yaml.safe_load(lines)}
        self.write("mkdocs.yml", yaml.safe_dump(merged, sort_keys=False))

    def build_strictly(self) -> None:
        """A strict build of everything but the audio files, which take long and depend on no page's words."""
        with theme_read_once(), Course.kept.within_reach() if Course.kept else nullcontext():
            config = load_config(str(self.folder / "mkdocs.yml"), strict=True)
            config.plugins.on_startup(command="serve", dirty=False)
            try:
                build(config, serve_url="http://127.0.0.1:8000/")
            finally:
                config.plugins.on_shutdown()

    def put(self, path: str, content: bytes) -> None:
        """A file that a pasted line names."""
        (self.folder / path).parent.mkdir(exist_ok=True)
        (self.folder / path).write_bytes(content)

    def dress(self, lines: str) -> None:
        """Paste settings of the theme, and put the pictures there that they name."""
        for picture in ("logo", "icon"):
            self.put(f"docs/img/{picture}.svg", b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"/>')
        self.set(lines)

    def take(self, settings: str, lines: str) -> None:
        """Paste settings that name a library, put it there, and take an exercise out of it."""
        self.put("../shared/hands.md", HAND_TO_HAND.encode())
        self.set(settings)
        fence = lines if "```" in lines else f"```pattern\n{lines}\n```"
        self.add("docs/index.md", f"Words around it.\n\n{fence}")

    def show(self, line: str, name: str) -> None:
        """Paste a picture onto the first page, and put it there."""
        picture = io.BytesIO()
        Image.new("RGB", (60, 40)).save(picture, "JPEG")
        self.put(f"docs/img/{name}.jpg", picture.getvalue())
        self.add("docs/index.md", line)


Paste = Callable[[Tutor, str], None]
WARM_UP = "docs/safe-practice/warm-up.md"

# What goes together is built together; what lets checks pass stays by itself.
LESSONS: dict[Snippet, Paste] = {
    the_one("README", "first-paradiddle"): lambda tutor, text: tutor.add(WEEK_2, text),
    THIRD_WEEK: lambda tutor, text: None,  # every tutor here has pasted it
    the_one("patterns", "accented-paradiddle"): lambda tutor, text: tutor.add("docs/index.md", text),
    the_one("weeks", "again:"): lambda tutor, text: tutor.change_top(WEEK_3, text.strip("-")),
    the_one("weeks", "doubles-to-accents"): lambda tutor, text: tutor.add(WEEK_3, text),
    the_one("weeks", "safe-practice: warm-up"): lambda tutor, text: tutor.change_top(WARM_UP, text.strip("-")),
    the_one("weeks", "<!-- wristwork"): lambda tutor, text: tutor.add(WARM_UP, text),
    the_one("strokes", "<!-- wristwork"): lambda tutor, text: tutor.add(WEEK_3, text),
    the_one("publishing", "site_url"): lambda tutor, text: tutor.set(text),
    the_one("sharing", "moved to"): lambda tutor, text: tutor.write("addresses.yml", f"{text}\n"),
    the_one("phone", "doubles-by-turns"): lambda tutor, text: tutor.add(WEEK_3, text),
    the_one("paper", "paper: letter"): lambda tutor, text: tutor.set(text),
    the_one("files", "score: false"): lambda tutor, text: tutor.set(text),
    the_one("make-it-yours", "colours:"): lambda tutor, text: tutor.set(text),
    the_one("make-it-yours", "logo:"): lambda tutor, text: tutor.dress(text),
    the_one("make-it-yours", "two-sticks"): lambda tutor, text: tutor.show(text, "two-sticks"),
    the_one("make-it-yours", "img/room.jpg"): lambda tutor, text: tutor.show(text, "room"),
    the_one("sharing", "offline:"): lambda tutor, text: tutor.set(text),
}
SETTINGS: dict[Snippet, Paste] = {
    the_one("weeks", "starts:"): lambda tutor, text: tutor.set(text),
    the_one("checks", 'checks: "off"'): lambda tutor, text: tutor.set(text),
    the_one("make-it-yours", "look:"): lambda tutor, text: tutor.set(text),
    the_one("several-courses", "library:"): lambda tutor, text: tutor.take(text, "take: hand-to-hand"),
    the_one("several-courses", "tempo:"): lambda tutor, text: tutor.take(LIBRARY, text),
    the_one("several-courses", "take: hand-to-hand\n```"): lambda tutor, text: tutor.take(LIBRARY, text),
    the_one("several-courses", "studio:"): lambda tutor, text: (
        tutor.put("../studio.yml", b"look: felt"),
        tutor.set(text),
    ),
    the_one("make-it-yours", "font:"): lambda tutor, text: (
        tutor.put("fonts/our-letters.woff2", blocks()),
        tutor.set(text),
    ),
    the_one("make-it-yours", "extra_css:"): lambda tutor, text: (tutor.put("docs/own.css", b""), tutor.set(text)),
    the_one("language", "language: de"): lambda tutor, text: tutor.set(text),
    the_one("language", "words:"): lambda tutor, text: tutor.set(text),
    the_one("language", "counting:"): lambda tutor, text: tutor.set(text),
    the_one("sharing", "clips:"): lambda tutor, text: tutor.set(text),
    the_one("sharing", "starts:"): lambda tutor, text: tutor.set(text),
    the_one("checks", "allow:"): lambda tutor, text: tutor.change_top(WEEK_3, text),
}


@pytest.fixture
def tutor(tmp_path: Path) -> Tutor:
    tutor = Tutor(tmp_path)
    tutor.write(WEEK_3, f"{THIRD_WEEK.body}\n")
    return tutor


@pytest.fixture
def told(caplog: pytest.LogCaptureFixture) -> Callable[[], list[str]]:
    """What a build warned of."""
    caplog.set_level(logging.WARNING, "mkdocs")
    return lambda: caplog.messages


def test_every_snippet_has_its_place():
    assert {snippet.name for snippet in TO_PASTE} == {snippet.name for snippet in (*LESSONS, *SETTINGS)}


def test_lessons_pasted_where_the_pages_say_build_strictly(tutor, told):
    for snippet, paste in LESSONS.items():
        paste(tutor, snippet.body)
    tutor.build_strictly()
    assert told() == []


@pytest.mark.parametrize("snippet", SETTINGS, ids=[snippet.name for snippet in SETTINGS])
def test_settings_pasted_where_the_pages_say_build_strictly(tutor, told, snippet):
    SETTINGS[snippet](tutor, snippet.body)
    tutor.build_strictly()
    assert told() == []


def test_every_example_of_the_handbook_builds_in_any_course(tutor, told):
    tutor.add("docs/index.md", HAND_TO_HAND)
    for body in EXAMPLES:
        tutor.add("docs/index.md", f"```pattern\n{body}\n```")
    tutor.build_strictly()
    assert told() == []
    assert len(EXAMPLES) > 40


def test_every_example_becomes_an_exercise_as_the_handbook_says(tutor, told):
    """Without its line ``example: yes`` and with a title and an id."""
    tutor.add("docs/index.md", HAND_TO_HAND)
    for number, body in enumerate(EXAMPLES):
        taken = re.sub(r"^(example|title):.*\n", "", body, flags=re.M)
        own = f"id: number-{number}\ntitle: Number {number}"
        tutor.add("docs/index.md", f"Words around it.\n\n```pattern\n{own}\n{taken}\n```")
    # Some show a mark at a tempo that nobody could hold for long.
    tutor.set("plugins: [{wristwork: {allow: {hand-speed: Marks to look at.}}}]")
    tutor.build_strictly()
    assert told() == []


def test_a_rudiment_is_added_with_the_changes_that_the_handbook_names(tutor, told):
    text = PAGES["docs/handbook/index.md"]
    (command,) = re.findall(r"^wristwork (add rudiment .*)$", text, re.M)
    tempo, requires = re.search(r"`(tempo: [^`]*)` and\s+`(requires: [^`]*)`", text).groups()
    assert run(*command.split(), cwd=tutor.folder).code == 0
    before, added = tutor.read(WEEK_3).rsplit("```pattern\n", 1)
    changed = re.sub(r"^tempo: .*$", f"{tempo}\n{requires}", added, flags=re.M)
    tutor.write(WEEK_3, f"{before}```pattern\n{changed}")
    tutor.build_strictly()
    assert told() == []


def test_stickings_to_try_are_read(tutor):
    tries = [re.findall(r"wristwork try '([^']*)'", text) for text in PAGES.values()]
    for sticking in {one for found in tries for one in found}:
        assert run("try", sticking).code == 0
