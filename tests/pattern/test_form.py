"""The form of a piece: pick-up, repeats, endings and signs for bars as before; played in full, drawn once."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from wristwork.course.exercise import Lesson, exercise_data
from wristwork.course.plan import PlannedExercise
from wristwork.course.schema import exercise_schema
from wristwork.drawing import diagram
from wristwork.drawing.layout import has_repeat_sign
from wristwork.drawing.score import read_score
from wristwork.drawing.words import words
from wristwork.languages.catalogues import language
from wristwork.languages.say import speaking
from wristwork.pattern import PatternError, read_course, read_one
from wristwork.pattern.form import Bars, Repeat, in_order
from wristwork.pattern.model import Pattern
from wristwork.sound.midi import midi_bytes
from wristwork.sound.preview import preview_times
from wristwork.sound.schedule import pass_beats, schedule
from wristwork.technique.strokes import as_written, strokes

SONG = """id: small-song
title: A small song
time: 2/4
pick-up: 1 beat
hands: RL | R>L RL | % | RR LL | R> . | L> .
repeats: bars 1 to 4
endings: bar 4 then bar 5
sections: A at bar 1
"""


def read(*lines: str) -> Pattern:
    return read_one("\n".join(("id: of-a-form", "title: Of a form", *lines)))


def bars_played(pattern: Pattern) -> str:
    """The numbers of the bars in the order in which they are played."""
    first, beats = 1 - pattern.bars_before_1, pattern.time.beats
    return " ".join(
        str(beat // beats + first)
        for passage in pattern.passages
        for beat in range(passage.start, passage.end)
        if beat % beats == 0 or beat == pattern.drawn.start
    )


@pytest.mark.parametrize(
    ("lines", "order"),
    [
        (["repeats: bars 1 to 2"], "1 2 1 2 3 4 5 6"),
        (["repeats: bars 2 to 3 three times"], "1 2 3 2 3 2 3 4 5 6"),
        (["repeats: bar 2 4 times, bars 5 to 6"], "1 2 2 2 2 3 4 5 6 5 6"),
        (["repeats: bars 1 to 3", "endings: bar 3 then bar 4"], "1 2 3 1 2 4 5 6"),
        (["repeats: bars 2 to 3 three times", "endings: bar 3 then bars 4 to 5"], "1 2 3 2 3 2 4 5 6"),
        (["repeats: bars 1 to 2", "endings: bar 2 then bar 3 then bar 4"], "1 2 1 3 1 4 5 6"),
    ],
)
def test_bars_are_played_in_the_order_of_the_form(lines, order):
    pattern = read("time: 1/4", "hands: R | L | R | L | R | L", *lines)
    assert bars_played(pattern) == order
    assert not pattern.loop
    assert [stroke.at for stroke in strokes(pattern)] == list(range(len(order.split())))


def test_a_pick_up_comes_before_bar_1_and_what_is_written_is_played_in_full():
    pattern = read_one(SONG)
    assert bars_played(pattern) == "0 1 2 3 4 1 2 3 5"
    assert pattern.played_beats == pass_beats(pattern) == 1 + 16
    assert pattern.words[0].at == 2
    played = strokes(pattern)
    assert [stroke.at for stroke in played if stroke.level == "accent"] == [1, 3, 7, 9, 11, 15]
    assert {stroke.written for stroke in played if stroke.at in (1, 9)} == {Fraction(2)}
    assert [onset.beat for onset in schedule(pattern, 60)] == [stroke.at for stroke in played]


def test_each_written_stroke_is_drawn_once_as_it_is_played_first():
    pattern = read_one(SONG)
    drawn = as_written(pattern)
    assert [stroke.at for stroke in drawn] == sorted({stroke.written for stroke in strokes(pattern)})
    lasts = [stroke.name for stroke in strokes(pattern) if stroke.written == Fraction(15, 2)]
    assert lasts == ["tap", "up"]  # of the left hand, whose accent is in the second ending
    assert [stroke.name for stroke in drawn if stroke.at == Fraction(15, 2)] == ["tap"]
    marks = set(re.findall(r'data-at="(\d+)/(\d+)"', diagram(pattern).html()))
    assert {Fraction(int(above), int(below)) for above, below in marks} <= {stroke.at for stroke in drawn}


def test_the_drawing_has_its_signs_and_leaves_out_what_is_before_the_pick_up():
    score = read_score(read_one(SONG))
    assert (score.cuts[0].start, score.cuts[-1].end) == (1, 12)
    assert [(cut.start, cut.end, cut.same) for cut in score.cuts if cut.same] == [(4, 6, 1)]
    assert score.repeat_starts == {2}
    assert [cut.end for cut in score.cuts if has_repeat_sign(score, cut)] == [10]
    assert re.findall(r">(1\.|2\.|A)<", diagram(score.pattern).svg()) == ["A", "1.", "2."]


def test_a_sign_stands_only_where_all_is_as_before():
    lines = ("time: 2/4", "hands: R L | %", "feet: R . | R R")
    assert [cut.same for cut in read_score(read(*lines)).cuts] == [0, 0, 0, 0]
    assert [cut.same for cut in read_score(read(*lines[:2], "feet: R .")).cuts] == [0, 0, 1]
    drums = read(*lines[:2], "place: bar 2 on floor tom")
    assert [cut.same for cut in read_score(drums).cuts] == [0, 0, 0, 0]


def test_two_bars_as_before_have_one_sign():
    pattern = read("time: 2/4", "hands: R L | L R | %% | RL RL")
    assert pattern.same == (Bars(2, 3),)
    assert [stroke.limb[0] for stroke in strokes(pattern)][:8] == ["r", "l", "l", "r"] * 2
    assert words(pattern).bars[2:4] == (("The same as bar 1.",), ("The same as bar 2.",))


def test_it_is_told_in_words():
    told = words(read_one(SONG)).text
    assert (
        "Played in order: a pick-up of 1 beat; bars 1 to 4 twice, ending with bar 4 the first time, then bar 5 the"
        in told
    )
    assert "Pick-up.\nBeat 2: right" in told
    assert "Bar 2.\nThe same as bar 1." in told


def test_it_is_told_in_another_language():
    with speaking(language("de")):
        told = words(read_one(SONG)).about
    assert "Takte 1 bis 4 zweimal" in told
    assert "Takt 4" in told


def test_a_loop_with_a_pick_up_comes_round_in_time():
    pattern = read("time: 3/4", "pick-up: 1", "loop: yes", "hands: RL | R L R | L R", "feet: . | R . .")
    assert (pattern.played_beats, pattern.cut_short) == (6, 1)
    assert max(stroke.at for stroke in strokes(pattern)) == 5
    assert preview_times(pattern, 60).clicks == 5


def test_data_says_where_each_stroke_is_drawn_and_keeps_to_the_schema():
    data = exercise_data(read_one(SONG), Lesson("week-01/#small-song"))
    assert list(Draft202012Validator(exercise_schema()).iter_errors(data)) == []
    assert (data["beats"], data["pickup"], data["passages"]) == (17, 1, [[1, 10], [2, 8], [10, 12]])
    assert [stroke["written"] for stroke in data["strokes"] if stroke["at"] == [9, 1]] == [[2, 1]]
    plain = exercise_data(read("hands: R L R L"), Lesson("week-01/#of-a-form"))
    assert not {"pickup", "passages", "written"} & {*plain, *plain["strokes"][0]}


def test_load_counts_what_is_played():
    planned = PlannedExercise.of(read("time: 2/4", "hands: R R | L L | L L", "repeats: bar 1 4 times"))
    assert (planned.right_per_beat, planned.left_per_beat) == (Fraction(8, 12), Fraction(4, 12))


def test_midi_counts_in_up_to_the_pick_up():
    assert midi_bytes(read_one(SONG)).startswith(b"MThd")


GROWN = """```pattern
{song}```

```pattern
example: yes
from: small-song
{lines}
```
"""


@pytest.mark.parametrize(
    ("lines", "order", "sections"),
    [
        ("change: other hand leads", "0 1 2 3 4 1 2 3 5", 1),
        ("repeats: none", "0 1 2 3 4 5", 1),
        ("sections: none", "0 1 2 3 4 1 2 3 5", 0),
        ("hands: R | L L", "0 1", 0),
        ("pick-up: none\nhands: R R | L L", "1 2", 0),
    ],
)
def test_what_stands_at_a_bar_is_taken_over_while_the_bars_are(lines, order, sections):
    course = read_course({"page.md": GROWN.format(song=SONG, lines=lines)})
    assert [problem.found for problem in course.problems] == []
    grown = course.fences[1].pattern
    assert bars_played(grown) == order
    assert len(grown.words) == sections


@pytest.mark.parametrize(
    ("lines", "found", "remedy"),
    [
        ("repeats: bars 1", "'bars 1 and 2' is no repeat", ""),
        (
            "repeats: bars 1 to 9",
            "a repeat that goes up to bar 9, where the pattern has 4 bars",
            "name bars from 1 to 4",
        ),
        ("repeats: bars 1 to 2 9 times", "a repeat of 9 times", "twice to 8 times"),
        (
            "repeats: bars 1 to 3, bars 2 to 4",
            "a repeat of bars 2 to 4 that begins within the one before it",
            "let it begin after bar 3, or write its bars out",
        ),
        ("endings: bar 2", "'bar 2' are no endings", "name the first and the second: bar 4 then bar 5"),
        (
            "endings: bar 2 then bar 3",
            "a first ending (bar 2) that ends no repeat",
            "repeat the bars up to its end: repeats: bars 1 to 2",
        ),
        (
            "repeats: bars 1 to 2\nendings: bar 2 then bar 4",
            "an ending (bar 4) that does not follow bar 2",
            "the next ending begins with bar 3",
        ),
        (
            "repeats: bars 1 to 2\nendings: bars 1 to 2 then bar 3",
            "a first ending (bars 1 to 2) that is the whole repeat",
            "let the repeat begin before its first ending",
        ),
        (
            "pick-up: 1 beat",
            "2 beats before the first bar line, where the pick-up has 1",
            "put the first bar line after 1 beat",
        ),
        ("pick-up: 2 beats", "a pick-up of 2 beats in 2/4", "it is shorter than a bar"),
        ("pick-up: none of them", "'none of them' is no pick-up", "say how many beats it has: pick-up: 1 beat"),
    ],
)
def test_what_is_wrong_is_told_with_its_remedy(lines, found, remedy):
    if not remedy:
        lines, remedy = "repeats: bars 1 and 2", "name the bars: bars 1 to 4, or bars 5 to 8 three times"
    with pytest.raises(PatternError) as told:
        read("time: 2/4", "hands: R L | R L | R L | R L", lines)
    assert (told.value.problems[0].found, told.value.problems[0].remedy) == (found, remedy)


@pytest.mark.parametrize(
    ("lines", "found"),
    [
        (["hands: R L | % R"], "a % beside other groups, where it stands for a whole bar"),
        (["hands: R L | R %"], "a % beside other groups, where it stands for a whole bar"),
        (["hands: % | R L"], "a sign for 1 bar as before, with no such bars before it"),
        (["hands: R L | %%"], "a sign for 2 bars as before, with no such bars before it"),
        (
            ["pick-up: 1", "loop: yes", "hands: R | R L"],
            "a pick-up and a whole last bar, which don't come round in time",
        ),
        (["repeats: bar 1 8 times", "repeat: 16", "hands: R L | R L | R L | R L"], None),
    ],
)
def test_signs_and_pick_ups_that_make_no_sense_are_told(lines, found):
    if found is None:
        assert read("time: 2/4", *lines).played_beats == 22
        return
    with pytest.raises(PatternError) as told:
        read("time: 2/4", *lines)
    assert told.value.problems[0].found == found


@given(st.integers(1, 4), st.integers(1, 3), st.integers(2, 5), st.integers(0, 3), st.integers(0, 2))
def test_all_that_is_written_is_played_and_nothing_else(before, body, times, endings, after):
    first = Bars(before + 1, before + body)
    own = tuple(Bars(before + body + number, before + body + number) for number in range(1, endings + 1))
    own = own if endings >= 2 else ()
    repeat = Repeat(Bars(first.first, own[0].last) if own else first, max(times, len(own)), own)
    bars = repeat.last + after
    played = [beat for passage in in_order(0, bars * 3, [repeat], 3, 1) for beat in range(*passage)]
    assert set(played) == set(range(bars * 3))
    assert played.count((first.first - 1) * 3) == repeat.times
    assert all(
        played.count((ending.first - 1) * 3) == len(turns) for ending, turns in zip(own, repeat.turns, strict=True)
    )


def test_a_card_shows_bar_1_with_the_pick_up_before_it():
    drawn = diagram(read_one(SONG))
    places = re.findall(r'data-at="(\d+)/(\d+)"', drawn.svg(bars=1))
    assert {int(above) // int(below) for above, below in places} == {1, 2, 3}
