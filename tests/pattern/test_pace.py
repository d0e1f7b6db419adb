"""Tempos of sections: stated at the goal, kept in proportion at every other tempo, heard wherever the form goes."""

from __future__ import annotations

import io
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from mido import MidiFile, tempo2bpm

from wristwork.course.exercise import Lesson, exercise_data
from wristwork.course.schema import exercise_schema
from wristwork.drawing import diagram
from wristwork.drawing.words import words
from wristwork.pattern import PatternError, read_course, read_one
from wristwork.pattern.model import Pattern
from wristwork.pattern.pace import pace
from wristwork.sound.midi import midi_bytes
from wristwork.sound.preview import preview_times
from wristwork.sound.schedule import pass_seconds, schedule
from wristwork.technique.demand import demand
from wristwork.technique.strokes import Kind

TWO_TEMPOS = """id: two-tempos
title: Two tempos
time: 2/4
tempo: 60 to 120
tempos: 60 at bar 2, 120 at bar 4
repeats: bars 1 to 2
endings: bar 2 then bar 3
hands: R L | R L | R L | RL lR
"""


def read(*lines: str) -> Pattern:
    return read_one("\n".join(("id: of-a-pace", "title: Of a pace", *lines)))


def test_the_tempo_is_the_one_that_stands_where_it_is_played():
    spans = pace(read_one(TWO_TEMPOS)).spans
    assert [(span.start, span.share) for span in spans] == [
        (0, 1), (2, Fraction(1, 2)), (4, 1), (6, Fraction(1, 2)), (8, 1),
    ]  # fmt: skip


@pytest.mark.parametrize("tempo", [60, 96, 120])
def test_every_section_is_played_in_proportion(tempo):
    pattern = read_one(TWO_TEMPOS)
    beat = Fraction(60, tempo)
    main = [onset.starts_s / beat for onset in schedule(pattern, tempo) if onset.stroke.kind is not Kind.GRACE]
    assert main == [0, 1, 2, 4, 6, 7, 8, 10, 12, Fraction(25, 2), 13]
    assert pass_seconds(pattern, tempo) == 14 * beat
    assert preview_times(pattern, tempo).clicks == 2


def test_grace_notes_keep_their_milliseconds():
    (grace,) = [onset for onset in schedule(read_one(TWO_TEMPOS), 100) if onset.stroke.kind is Kind.GRACE]
    assert grace.lasts_s == Fraction(30, 1000)
    assert grace.starts_s == 13 * Fraction(60, 100) - Fraction(30, 1000)


def test_midi_says_each_tempo_where_it_begins():
    file = MidiFile(file=io.BytesIO(midi_bytes(read_one(TWO_TEMPOS))))
    now, found = 0, []
    for message in file.tracks[0]:
        now += message.time
        if message.type == "set_tempo":
            found.append((now / file.ticks_per_beat, round(tempo2bpm(message.tempo))))
    assert found == [(0, 60), (4, 30), (6, 60), (8, 30), (10, 60)]


def test_it_is_drawn_and_told():
    pattern = read_one(TWO_TEMPOS)
    drawn = diagram(pattern).svg()
    assert ["= 60" in drawn, "= 120" in drawn] == [True, True]
    assert "Tempos: 60 from bar 2; 120 from bar 4." in words(pattern).text


def test_data_keeps_to_the_schema():
    data = exercise_data(read_one(TWO_TEMPOS), Lesson("week-01/#two-tempos"))
    assert list(Draft202012Validator(exercise_schema()).iter_errors(data)) == []
    assert data["paces"][1] == {"from": [2, 1], "share": [1, 2]}


def test_a_faster_section_asks_for_more():
    lines = ("time: 2/4", "tempo: 100", "loop: yes", "hands: RLRL RLRL | RLRL RLRL")
    assert demand(read(*lines, "tempos: 200 at bar 2"), 100).score > demand(read(*lines), 100).score


def test_one_that_grows_keeps_the_proportion():
    grown = "```pattern\nexample: yes\nfrom: two-tempos\ntempo: 80\n```\n"
    course = read_course({"page.md": f"```pattern\n{TWO_TEMPOS}```\n\n{grown}"})
    assert "Tempos: 40 from bar 2; 80 from bar 4." in words(course.fences[1].pattern).text


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("tempos: fast at bar 2", "'fast' is no tempo"),
        ("tempos: 500 at bar 2", "'500' is no tempo"),
        ("tempos: 90 at bar 9", "'90' at bar 9, where the pattern has 2 bars"),
        ("tempos: 90 at 2&", "a tempo that changes between two beats"),
    ],
)
def test_what_is_wrong_is_told(line, found):
    with pytest.raises(PatternError) as told:
        read("time: 2/4", "hands: R L | R L", line)
    assert told.value.problems[0].found == found


@given(st.lists(st.integers(30, 300), min_size=4, max_size=4), st.integers(30, 300))
def test_what_goes_by_is_the_sum_of_all_beats(tempos, tempo):
    marks = ", ".join(f"{each} at bar {number}" for number, each in enumerate(tempos, start=1))
    pattern = read("time: 1/4", f"tempo: {tempo}", "loop: yes", "hands: R | L | R | L", f"tempos: {marks}")
    own, total = pace(pattern), Fraction(0)
    for beat in range(8):
        assert own.elapsed(Fraction(beat)) == total
        total += Fraction(tempo, tempos[beat % 4])
