"""How the style sheets stand to one another: a class means one thing, and one style sheet says how that looks.

The theme's own styles lie in no layer, and would win over all that lie in one: so names alone keep things apart.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator

import pytest

from wristwork.site.frontend.assets import FOLDER

SHEETS = {path.name: path.read_text(encoding="utf-8") for path in sorted(FOLDER.rglob("*.css"))}
# What a style sheet's own page or part (the host) holds of what is at home in another sheet, and changes there.
GUESTS = {
    "checklist.css": {"ww-checklist": {"ww-buttons"}},
    "curriculum.css": {"ww-curriculum": {"ww-aim", "ww-number"}, "ww-as-table": {"ww-disclosure"}},
    "exercise.css": {"ww-exercise": {"ww-beats", "ww-controls", "ww-diagram", "ww-phrase"}},
    "place.css": {
        "ww-place-page": {"ww-code", "ww-controls", "ww-diagram", "ww-exercise", "ww-ladder", "ww-note", "ww-title"}
    },
    "player.css": {"ww-has-part": {"ww-cell"}},
    "sound-day.css": {"ww-sound-day": {"ww-buttons"}},
    "stand.css": {
        "ww-stand": {"ww-lights", "ww-pace", "ww-pace-key", "ww-play"},
        "ww-stand-sheet": {"ww-cell", "ww-diagram"},
    },
    "student.css": {"ww-now": {"ww-number"}, "ww-today-step": {"ww-title"}},
    "tokens.css": {"ww-exercise": {"ww-title"}},  # the letters of all headings
    "warm-up.css": {"ww-timer": {"ww-buttons"}},
}
_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
_HEAD = re.compile(r"([^{};]*)\{")
_CLASS = re.compile(r"\.(ww-[\w-]+)")
_TOLD_BESIDE = re.compile(r":(?:not|has)\((?:[^()]|\([^()]*\))*\)")


def selectors(css: str) -> Iterator[str]:
    """Each selector of a style sheet, one for each of a list."""
    for head in _HEAD.findall(_COMMENT.sub("", css)):
        if head.strip() and not head.strip().startswith(("@", "from", "to", "0%", "100%")):
            yield from (part.strip() for part in outside_brackets(head, ","))


def outside_brackets(text: str, between: str) -> list[str]:
    """The parts of a text between signs that stand in no brackets."""
    parts, depth = [""], 0
    for letter in text:
        depth += (letter in "([") - (letter in ")]")
        if letter in between and not depth:
            parts.append("")
        else:
            parts[-1] += letter
    return [part for part in parts if part.strip()]


def subjects(selector: str) -> set[str]:
    """Our classes among what a selector's last part says of that which is styled."""
    return set(_CLASS.findall(_TOLD_BESIDE.sub("", outside_brackets(selector, " >+~")[-1])))


def is_guest(styled: str, selector: str, sheet: str) -> bool:
    return any(styled in guests and host in _CLASS.findall(selector) for host, guests in GUESTS.get(sheet, {}).items())


def homes() -> dict[str, dict[str, list[str]]]:
    """class → style sheet → the selectors by which that sheet says how it looks, but for what it says as a host."""
    found: dict[str, dict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
    for sheet, css in SHEETS.items():
        for selector in selectors(css):
            for styled in subjects(selector):
                if not is_guest(styled, selector, sheet):
                    found[styled][sheet].append(selector)
    return found


HOMES = homes()


def test_every_class_is_at_home_in_one_style_sheet() -> None:
    several = {styled: dict(sheets) for styled, sheets in HOMES.items() if len(sheets) > 1}
    assert several == {}


@pytest.mark.parametrize("sheet", GUESTS)
def test_guests_are_at_home_elsewhere_and_changed_by_their_host(sheet: str) -> None:
    """A name that is no longer needed in the table would let a second meaning through."""
    for host, guests in GUESTS[sheet].items():
        changed = {
            styled
            for selector in selectors(SHEETS[sheet])
            if host in _CLASS.findall(selector)
            for styled in subjects(selector)
        }
        assert guests <= changed, host
        assert all(HOMES[guest] and sheet not in HOMES[guest] for guest in guests), host


def test_the_style_sheets_are_read_as_browsers_read_them() -> None:
    css = """/* .ww-no { } */ @media print { .ww-a > :is(.ww-b, .ww-c):not(.ww-d), .ww-e .ww-f::after { x: y; z: 1 } }
    @keyframes ww-go { from { x: y } 100% { x: z } } a.ww-g:has(> .ww-h)[title="a b"] { x: y }"""
    found = list(selectors(css))
    assert found == [".ww-a > :is(.ww-b, .ww-c):not(.ww-d)", ".ww-e .ww-f::after", 'a.ww-g:has(> .ww-h)[title="a b"]']
    assert [subjects(selector) for selector in found] == [{"ww-b", "ww-c"}, {"ww-f"}, {"ww-g"}]
