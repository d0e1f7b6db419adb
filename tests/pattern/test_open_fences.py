"""Fences that are open, misspelt or hidden: told where they stand, hiding no other, and in no time."""

from __future__ import annotations

import time

import pytest

from wristwork.pattern.course import read_course
from wristwork.pattern.fences import find_blocks, split_lines

GOOD = "```pattern\nid: good-one\ntitle: Good\nhands: RLRL\n```\n"


def told(text: str) -> list[tuple[int, str]]:
    return [(problem.line, problem.found) for problem in read_course({"a.md": text}).problems]


@pytest.mark.parametrize("word", ["Pattern", "patern", "PATTERN", "patterns"])
def test_a_misspelt_fence_alone_on_its_page_is_told(word: str) -> None:
    text = GOOD.replace("pattern", word)
    assert told(f"# Page\n\n{text}") == [(3, f"a fence called '{word}'")]


def test_another_fence_left_open_hides_no_pattern() -> None:
    course = read_course({"a.md": f"```text\nabout\n\n{GOOD}"})
    assert [(p.line, p.found) for p in course.problems] == [
        (1, "a fence that is not closed before line 4, where a pattern begins")
    ]
    assert list(course.exercises) == ["good-one"]


def test_a_comment_left_open_hides_no_pattern() -> None:
    course = read_course({"a.md": f"<!-- a note\n\n{GOOD}\n<!-- another -->\n"})
    assert [(p.line, p.found) for p in course.problems] == [
        (1, "a comment that is not closed before the pattern in line 3")
    ]
    assert list(course.exercises) == ["good-one"]


@pytest.mark.parametrize("text", [f"````text\n{GOOD}````\n", f"~~~text\n{GOOD}~~~\n", f"<!--\n{GOOD}-->\n"])
def test_a_pattern_that_is_only_shown_is_left_alone(text: str) -> None:
    course = read_course({"a.md": text})
    assert course.fences == ()


def test_what_an_open_fence_seems_to_name_is_claimed() -> None:
    course = read_course({"a.md": "```pattern\nid: lost-one\ntitle: Lost one\nhands: RL\n"})
    assert "lost-one" in course.claimed


@pytest.mark.parametrize("line", ["```text", "    ```text", "```pattern", "- ```text", "````text", "<!--"])
def test_thousands_of_open_fences_take_no_time(line: str) -> None:
    lines = split_lines(f"{line}\nid: x\n" * 4000)
    start = time.perf_counter()
    find_blocks(lines)
    assert time.perf_counter() - start < 2


@pytest.mark.parametrize("name", ["con", "nul", "com1", "aux", "lpt9"])
def test_names_that_windows_keeps_for_itself_are_no_ids(name: str) -> None:
    assert told(f"```pattern\nid: {name}\ntitle: A\nhands: RL\n```")[0][1].startswith(f"an id called '{name}'")


@pytest.mark.parametrize("repeat", ["0000099999", "17", "0", "00000000000000001", "²"])
def test_a_repeat_beyond_the_limit(repeat: str) -> None:
    found = told(f"```pattern\nid: one-id\ntitle: A\nhands: RL RL\nrepeat: {repeat}\n```")
    assert found == [(5, f"'{repeat}' is no number of times")]
