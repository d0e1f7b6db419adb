"""Every field of every stroke of a few patterns: what all else plays, draws and counts."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from wristwork.pattern import read_one
from wristwork.technique.strokes import Stroke, as_written, dynamic_db, hand_strokes, strokes

# Each pattern's strokes stand under its name in stroke_list.txt.
PATTERNS = {
    "ornaments": "hands: lR llR> rL>R (R)L",
    "several in a slot": "hands: R/ L>/ (R)/ Lz R>z R//",
    "two hands that differ": "hands: R&L> B^ R^L (R)&L B/",
    "hands and feet": "hands: R>L RL\nfeet: R L\nplace: right on hi-hat, left on snare, accents on crash",
    "once": "hands: lR>L R>\nloop: no\nrepeat: 2",
    "a form": (
        "time: 2/4\npick-up: 1\nrepeats: bars 1 to 2\nendings: bar 2 then bar 3\nhands: rL | RL R- | L> R | lR/ L"
    ),
    "dynamics": "time: 2/4\ndynamics: p at bar 1, pp at bar 2 growing, f at bar 3\nhands: RL R^L | RL RL | R L",
}


def pattern_of(name: str):
    return read_one(f"example: yes\n{PATTERNS[name]}")


def shown(stroke: Stroke) -> str:
    """What a stroke is, on a line; what is none or nothing is left out."""
    more = {
        "name": stroke.name,
        "ahead": stroke.ahead_ms and f"{stroke.ahead_ms} ms, at most {stroke.ahead_at_most}",
        "louder": stroke.louder_db and f"{stroke.louder_db:.2f} dB",
        "written": stroke.written,
    }
    said = "".join(f", {word} {value}" for word, value in more.items() if value is not None and value != 0.0)
    what = f"{stroke.at} {stroke.limb} {stroke.level} {stroke.kind} on {stroke.on}"
    return f"{what}, {stroke.length} long, event {stroke.event}{said}"


def listed(name: str) -> str:
    pattern = pattern_of(name)
    played, written = strokes(pattern), as_written(pattern)
    lines = [*map(shown, played), f"right and left: {hand_strokes(pattern)}"]
    return "\n".join([*lines, *(["as written:", *map(shown, written)] if written != played else [])])


def _expected() -> dict[str, str]:
    text = (Path(__file__).parent / "stroke_list.txt").read_text(encoding="utf-8")
    names, parts = re.findall(r"^# (.*)$", text, re.MULTILINE), re.split(r"^# .*\n", text, flags=re.MULTILINE)[1:]
    return {name: part.strip() for name, part in zip(names, parts, strict=True)}


@pytest.mark.parametrize("name", PATTERNS)
def test_every_field_of_every_stroke(name):
    assert listed(name) == _expected()[name]


def test_dynamics_go_from_one_to_the_next():
    """In decibels against f; before the first dynamic nothing is louder or softer."""
    pattern = pattern_of("dynamics")
    assert [dynamic_db(pattern, at) for at in (0, 1, 2, 3, 4, 5)] == [-8.0, -8.0, -12.0, -6.0, 0.0, 0.0]
    assert dynamic_db(read_one("example: yes\ndynamics: p at bar 2\nhands: RL RL RL RL | RL RL RL RL"), 3) == 0.0
