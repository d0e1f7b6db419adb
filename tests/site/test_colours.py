"""The house's colours stand in one place, and reach what can't read a style sheet from there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from wristwork.site.frontend import assets, colours

SITE = assets.FOLDER.parent
# Drawings are checked by their own tests: an SVG file stands alone, and so does its style.
SOURCES = [
    path
    for path in sorted(SITE.rglob("*"))
    if path.suffix in (".css", ".py", ".html") and path.name not in ("tokens.css", "diagram.css")
]
HEX = re.compile(r"#[0-9a-f]{3,8}\b(?![\w-])", re.IGNORECASE)
PLAIN = re.compile(r"#(000|fff|0000|ffffff|ffffff..)$|#0004$", re.IGNORECASE)


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.relative_to(SITE).as_posix())
def test_no_colour_of_the_house_stands_outside_its_tokens(path: Path) -> None:
    found = HEX.findall(path.read_text(encoding="utf-8"))
    assert [colour for colour in found if not PLAIN.match(colour)] == []


@pytest.mark.parametrize("path", ["drawing/diagram.py", "site/assets/player/diagram.css"])
def test_drawings_that_stand_alone_repeat_the_tokens(path: str) -> None:
    known = set(HEX.findall(assets.source("tokens.css").read_text(encoding="utf-8")))
    found = HEX.findall((SITE.parent / path).read_text(encoding="utf-8"))
    assert found
    assert [colour for colour in found if colour not in known] == []


def test_every_scheme_has_every_colour_that_changes() -> None:
    assert colours.house().dark.keys() < colours.house().light.keys()
    assert colours.house().light["paper"] != colours.house().dark["paper"]


def test_pages_without_a_switch_are_dark_as_the_device_likes_it() -> None:
    style = assets.asset_files()["place.css"].decode()
    unchosen = re.escape(":root:not([data-md-color-scheme])")
    (block,) = re.findall(rf"prefers-color-scheme: dark\) \{{\s*{unchosen} \{{([^}}]*--ww-ink[^}}]*)\}}", style)
    assert dict(re.findall(r"--ww-(\w+): ([^;]+);", block)) == colours.house().dark
    assert style.index("dark)") < style.index("--ww-raised: var(--ww-paper)")


def test_a_page_without_styles_brings_its_colours() -> None:
    house = colours.house()
    paper, night = house.light["paper"], house.dark["paper"]
    assert colours.in_page(house, "paper") == (
        f":root{{--ww-paper:{paper};}}@media(prefers-color-scheme:dark){{:root{{--ww-paper:{night};}}}}"
    )
