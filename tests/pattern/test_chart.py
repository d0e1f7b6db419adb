"""Sections, words and dynamics; strong accents."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from wristwork.course.exercise import Lesson, exercise_data
from wristwork.drawing import diagram
from wristwork.drawing.chart_marks import draw_hairpin
from wristwork.pattern import PatternError, read_one
from wristwork.pattern.model import Hairpin
from wristwork.pattern.write import lane_text
from wristwork.sound.midi import midi_bytes
from wristwork.sound.mixing import sound_starts
from wristwork.sound.schedule import schedule
from wristwork.technique.strokes import LOUDNESS_DB, STRONG_DB, strokes

BARS = "hands: R R R R | R R R R"


def read(*lines):
    return read_one("\n".join(["title: A chart", "id: a-chart", "time: 4/4", *lines]))


def problem(*lines):
    with pytest.raises(PatternError) as error:
        read(*lines)
    (only,) = error.value.problems
    return only.found, only.remedy


def test_what_stands_where():
    made = read(BARS, "text: fill at beat 4 of bar 2, go at 2& of bar 1", "sections: B at bar 2, A at bar 1")
    assert [(each.words, each.at, each.is_section) for each in made.words] == [
        ("A", 0, True), ("go", Fraction(3, 2), False), ("B", 4, True), ("fill", 7, False),
    ]  # fmt: skip


def test_dynamics_hold_until_the_next_or_lead_to_it():
    made = read(BARS, "dynamics: p at bar 1 growing, f at bar 2, mf at beat 3 of bar 2")
    assert [dynamic.hairpin for dynamic in made.dynamics] == [Hairpin.GROWING, None, None]
    p, f, mf = (LOUDNESS_DB[dynamic.loudness] for dynamic in made.dynamics)
    assert [stroke.louder_db for stroke in strokes(made)] == [p, p * 3 / 4, p / 2, p / 4, f, f, mf, mf]


def test_what_no_dynamic_covers_is_as_loud_as_ever():
    assert [stroke.louder_db for stroke in strokes(read(BARS, "dynamics: pp at bar 2"))] == [0] * 4 + [-12] * 4


def test_a_strong_accent_is_an_accent_struck_harder():
    made = read("hands: R^ R> lR^ R^/")
    assert {str(s.name) for s in strokes(read("hands: R^ R> R^ R>"))} == {"full"}
    assert lane_text(made.hands) == "R^ R> lR^ R^/"
    assert [s.louder_db for s in strokes(made) if s.louder_db] == [STRONG_DB] * 3


@pytest.mark.parametrize(
    ("typed", "found", "remedy"),
    [
        ("R>^ R R R", "two accents on one stroke", "keep one of the two: R> or the strong R^"),
        ("(R^) R R R", "an accent in a ghost note", "keep one of the two: R^ or (R)"),
        ("^R R R R", "an accent mark with no stroke before it", "put the letter first: R^ or L^"),
        ("R^^ R R R", "the mark ^ twice on one stroke", "once is enough: R^"),
    ],
)
def test_what_is_wrong_with_a_strong_accent(typed, found, remedy):
    assert problem(f"hands: {typed}") == (found, remedy)


def test_player_previews_and_midi_play_them():
    made = read("hands: R R^ R R | R R R R", "dynamics: p at bar 2")
    data = exercise_data(made, Lesson("week-01/#a-chart"))
    gains = [stroke.get("gain", 1) for stroke in data["strokes"]]
    assert gains == [1, 1.2589, 1, 1] + [0.3981] * 4
    assert [round(start.gain, 4) for start in sound_starts(schedule(made, 60), Fraction(0))] == gains
    plain = read("hands: R R> R R | R R R R")
    assert midi_bytes(made) != midi_bytes(plain)


@pytest.mark.parametrize(
    ("line", "found", "remedy"),
    [
        ("sections: A", "'A' is not a section at one moment", "write, say, A at bar 3, or beat 4 of bar 2"),
        ("sections: A at bars 1 and 2", "'A at bars 1 and 2' is not a section at one moment",
         "write, say, A at bar 3, or beat 4 of bar 2"),
        ("text: fill at bar 3", "'fill' at bar 3, where the pattern has 2 bars", "name a bar from 1 to 2"),
        ("text: fill at beat 5", "'fill' at beat 5, where a bar of 4/4 has 4", "name a beat from 1 to 4"),
        ("dynamics: loud at bar 1", "'loud' is no dynamic", "write one of pp, p, mp, mf, f, ff"),
        ("dynamics: p at bar 1 growing", "p growing to nothing", "say where it leads: p at bar 1 growing, f at bar 3"),
        ("dynamics: f at bar 1 growing, p at bar 2", "f growing to p",
         "from soft to loud is growing, the other way fading"),
    ],
)  # fmt: skip
def test_what_is_wrong_with_a_chart(line, found, remedy):
    assert problem(BARS, line) == (found, remedy)


def test_it_is_drawn_and_told():
    made = read(
        BARS, "sections: A at bar 1", "text: <fast> & light at bar 2", "dynamics: p at bar 1 growing, f at bar 2"
    )
    drawn = diagram(made)
    for told in (">A</text>", "&lt;fast&gt; &amp; light</text>", 'class="ww-dynamic"', "ww-hairpin"):
        assert told in drawn.html()
        assert told in drawn.svg()
    assert drawn.words.about.endswith(
        "Sections: A from bar 1. Over the notes: <fast> & light at bar 2. Dynamics: p at bar 1, growing; f at bar 2."
    )
    assert "articMarcato" not in drawn.html()


@pytest.mark.parametrize("key", ["text", "sections"])
def test_more_words_than_there_is_room_for_are_still_drawn(key):
    crowd = ", ".join(f"word {number} at bar 1" for number in range(20))
    squeezed = re.findall(r'textLength="([^"]+)"', diagram(read(BARS, f"{key}: {crowd}")).html())
    assert squeezed
    assert all(float(wide) > 0 for wide in squeezed)


@pytest.mark.parametrize(
    ("span", "is_drawn"),
    [((0, 100), True), ((0, 60), True), ((60, 120), True), ((85, 160), False), ((0, 15), False), ((120, 160), False)],
)
def test_no_stub_of_a_hairpin_stands_at_the_edge_of_a_line(span, is_drawn):
    assert bool(draw_hairpin(Hairpin.GROWING, (4, 96), span, 20)) is is_drawn


def test_a_short_hairpin_is_drawn_wherever_the_line_breaks():
    parts = [draw_hairpin(Hairpin.GROWING, (0, 30), span, 20) for span in ((0, 15), (15, 60))]
    assert all(parts)


def test_words_have_the_room_they_need():
    wide = diagram(read(BARS, "text: a long remark at bar 1, and another at beat 2"))
    plain = diagram(read(BARS))
    assert wide.layout.cuts[0].spacing.width > plain.layout.cuts[0].spacing.width + 50
