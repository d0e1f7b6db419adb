"""One alphabet: what is read, written and searched for has the same characters."""

from __future__ import annotations

import re
from pathlib import Path

from hypothesis import given

import wristwork
from tests.strategies import notes
from wristwork.pattern.alphabet import CHARACTERS
from wristwork.pattern.write import slot_text

SEARCH = next(Path(wristwork.__file__).parent.rglob("finding.js")).read_text(encoding="utf-8")


def test_the_search_field_takes_every_character_of_a_sticking():
    found = re.search(r"STICKING = /\^\[(.*?)\]\+\$/", SEARCH)
    assert found is not None
    looks_like_one = re.compile(f"[{found[1]}]+")
    assert [char for char in CHARACTERS if not looks_like_one.fullmatch(char)] == []


@given(notes())
def test_nothing_else_is_ever_written(note):
    assert set(slot_text(note)) <= CHARACTERS
