"""Whole pages of ours in other languages say what the English ones say, in the same order."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.languages.catalogue import FOLDER, PACKAGE
from wristwork.page.page import read_page

CODES = sorted(path.stem for path in FOLDER.glob("*.po"))
ENGLISH = sorted(path for path in PACKAGE.glob("site/*/pages/**/*.md") if path.name.count(".") == 1)
FENCE = re.compile(r"^```.*?^```", re.MULTILINE | re.DOTALL)
ANCHOR = re.compile(r"\{ #([\w-]+) \}")


def told(text: str) -> dict[str, list[str]]:
    """What does not depend on the language: marks, sources, patterns without their words, figures, the outline."""
    fences = [re.sub(r"^(title|note|text): .*$", r"\1", fence, flags=re.MULTILINE) for fence in FENCE.findall(text)]
    prose = FENCE.sub("", text)
    return {
        "marks": re.findall(r"<!-- wristwork: .*? -->", prose),
        "sources": sorted(re.findall(r"\[\^[\w-]+\]", prose)),
        "patterns": fences,
        "figures": sorted(re.findall(r"\d+", re.sub(r"\[\^[\w-]+\]", "", prose).replace(",", "."))),
        "outline": re.findall(r"^(#+|\d\.|- |\|)", prose, flags=re.MULTILINE),
    }


def slug(heading: str) -> str:
    return re.sub(r"[^\w\s-]", "", heading.replace("’", "").lower()).strip().replace(" ", "-")


@pytest.mark.parametrize("code", CODES)
@pytest.mark.parametrize("english", ENGLISH, ids=lambda path: path.stem)
def test_a_page_says_the_same(english: Path, code: str) -> None:
    there = english.read_text(encoding="utf-8")
    here = english.with_suffix(f".{code}.md").read_text(encoding="utf-8")
    assert told(here) == told(there)
    front, english_front = (read_page(english.name, text).front.settings for text in (here, there))
    assert {**front, "title": ""} == {**english_front, "title": ""}


@pytest.mark.parametrize("code", CODES)
@pytest.mark.parametrize("english", ENGLISH, ids=lambda path: path.stem)
def test_links_to_a_heading_lead_there_in_every_language(english: Path, code: str) -> None:
    there = english.read_text(encoding="utf-8")
    here = english.with_suffix(f".{code}.md").read_text(encoding="utf-8")
    headings = re.findall(r"^##+ (.*)$", FENCE.sub("", there), flags=re.MULTILINE)
    assert ANCHOR.findall(here) == [slug(heading) for heading in headings]


def test_there_are_pages_to_compare():
    assert len(ENGLISH) == 8
