"""Patterns that a teacher wrote: each reads without a word of complaint, and is what is said under it."""

from __future__ import annotations

import re
from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from wristwork.course.exercise import Lesson, exercise_data
from wristwork.course.schema import exercise_schema
from wristwork.drawing import diagram
from wristwork.drawing.score import read_score
from wristwork.pattern import read_course, read_one
from wristwork.pattern.write import lane_text
from wristwork.sound.midi import midi_bytes
from wristwork.technique.strokes import Kind, strokes

PAGE = (Path(__file__).parent / "teachers_book.md").read_text(encoding="utf-8")
BOOK = re.findall(r"```pattern\n(.*?)```\n(.*?)\n(?:\n|$)", PAGE, re.DOTALL)
TITLES = [text.split("\n", 1)[0].removeprefix("title: ") for text, _ in BOOK]
PATTERNS = [read_one(f"example: yes\n{text}") for text, _ in BOOK]
SCHEMA = Draft202012Validator(exercise_schema())
each_pattern = pytest.mark.parametrize("pattern", PATTERNS, ids=TITLES)


def test_nothing_is_said_against_any():
    read = read_course({"book.md": PAGE})
    assert len(BOOK) == len(read.fences) == len(set(TITLES)) == 72
    assert read.problems == ()


@pytest.mark.parametrize(("pattern", "told"), list(zip(PATTERNS, (told for _, told in BOOK), strict=True)), ids=TITLES)
def test_what_is_played_is_what_the_teacher_meant(pattern, told):
    counted: Counter[str] = Counter()
    for stroke in strokes(pattern):
        name = f"{stroke.limb.removesuffix(' hand')} {stroke.on}"
        counted[f"({name})" if stroke.kind is Kind.GRACE else name] += 1
    wanted = re.findall(r"(\()?([a-z -]+) (\d+)\)?", told)
    assert counted == {f"({name.strip()})" if grace else name.strip(): int(count) for grace, name, count in wanted}


@each_pattern
def test_what_is_drawn_fills_its_bars(pattern):
    score = read_score(pattern)
    for voices in ([cut.hands for cut in score.cuts], [cut.feet for cut in score.cuts]):
        written = [each.piece.length for voice in voices for each in (*voice.chords, *voice.rests)]
        signs = sum(cut.beats for cut in score.cuts if cut.same)
        full = pattern.drawn.end - pattern.drawn.start - signs
        assert sum(written, Fraction(0)) in ({full} if written else {0})


@each_pattern
def test_it_is_drawn_told_and_played(pattern):
    drawn = diagram(pattern)
    assert drawn.svg().startswith("<svg")
    assert len(drawn.words.bars) == pattern.bars
    assert midi_bytes(pattern).startswith(b"MThd")


@pytest.mark.parametrize("text", [text for text, _ in BOOK], ids=TITLES)
def test_its_data_keeps_to_the_schema(text):
    data = exercise_data(read_one(f"id: of-the-book\n{text}"), Lesson("week-01/#of-the-book"))
    assert list(SCHEMA.iter_errors(data)) == []


@each_pattern
def test_its_hands_are_written_as_they_can_be_typed(pattern):
    for key, lane in (("hands", pattern.hands), ("feet", pattern.feet)):
        if lane is not None:
            text = lane_text(lane, pattern.time)
            assert getattr(read_one(f"example: yes\ntime: {pattern.time}\n{key}: {text}"), key) == lane
