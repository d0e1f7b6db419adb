"""Bars that are counted in unlike groups."""

from __future__ import annotations

from fractions import Fraction

import pytest

from wristwork.course.exercise import Lesson, exercise_data
from wristwork.drawing import diagram
from wristwork.drawing.beams import runs
from wristwork.drawing.counting import counts
from wristwork.drawing.score import read_score
from wristwork.pattern import PatternError, read_course, read_one
from wristwork.pattern.write import lane_text
from wristwork.technique.strokes import strokes


def read(*lines):
    return read_one("\n".join(["example: yes", *lines]))


SEVEN = ("time: 7/8 as 2+2+3", "hands: RL RLRL RLR")


def test_a_group_fills_its_part_of_the_bar():
    at = [stroke.at for stroke in strokes(read(*SEVEN))]
    half = Fraction(1, 2)
    assert at == [0, 1, 2, 2 + half, 3, 3 + half, 4, 5, 6]


def test_it_is_written_as_it_was_typed():
    made = read("time: 7/8 as 2+2+3", "hands: RL RL RLR | RLRL over 4 RLR")
    assert lane_text(made.hands, made.time) == "RL RL RLR | RLRL over 4 RLR"


def test_a_beam_holds_a_group():
    score = read_score(read("time: 7/8 as 2+2+3", "hands: RL RL RLR"))
    assert [[len(run.chords) for run in runs(cut.hands)] for cut in score.cuts] == [[2], [2], [3]]
    even = read_score(read("time: 7/8", "hands: R L R L R L R"))
    assert all(len(run.chords) == 1 for cut in even.cuts for run in runs(cut.hands))


def test_the_counts_stand_out_where_a_group_begins():
    said = [(count.word, count.on_beat) for count in counts(read("time: 5/8 as 3+2", "hands: RLR RL"))]
    assert said == [("1", True), ("2", False), ("3", False), ("4", True), ("5", False)]


def test_a_note_over_the_edge_of_a_group_is_tied():
    made = read_score(read("time: 8/8 as 3+3+2", "hands: RL- -LR RL"))
    values = [[str(chord.piece.value) for chord in cut.hands.chords] for cut in made.cuts]
    assert values == [["1/8", "1/4"], ["1/8", "1/8", "1/8"], ["1/8", "1/8"]]


def test_words_and_data_tell_the_groups():
    made = read(*SEVEN)
    assert diagram(made).words.about.startswith("7/8 time, counted in 2+2+3, 60 eighth notes a minute")
    exercise = read_one("title: Seven\nid: seven\n" + "\n".join(SEVEN))
    data = exercise_data(exercise, Lesson("week-01/#seven"))
    assert (data["time"], data["pulses"]) == ([7, 8], [2, 2, 3])


def test_parts_and_feet_fill_the_groups_too():
    made = read("time: 7/8 as 2+2+3", "right: xx xx xxx", "left: .x .x ...", "feet: R. R. R..")
    assert lane_text(made.hands, made.time) == "RB RB RRR"
    assert [stroke.at for stroke in strokes(made) if not stroke.limb.is_hand] == [0, 2, 4]


@pytest.mark.parametrize(
    ("time", "found", "remedy"),
    [
        ("7/8 as 2+2", "groups that add up to 4, in a bar of 7", "let them add up to 7"),
        ("7/8 as 2 2 3", "'2 2 3' is no grouping", "add up the groups of a bar, as in 7/8 as 2+2+3"),
        ("7/8 as 1+6", "a group that is none of 2, 3, 4", "groups of 2, 3 or 4, as in 2+2+3"),
        ("5/4 as 3+2", "a grouping of 5/4", "bars of eighths or sixteenths have groups: 7/8 as 2+2+3"),
    ],
)
def test_what_is_wrong_with_a_grouping(time, found, remedy):
    with pytest.raises(PatternError) as error:
        read(f"time: {time}", "hands: RL RL RLR")
    (problem,) = error.value.problems
    assert (problem.found, problem.remedy) == (found, remedy)


def test_a_bar_that_is_not_full_says_so():
    with pytest.raises(PatternError, match=r"the last bar .bar 2. holds 2 beats, where 7/8 as 2.2.3 asks for 7"):
        read("time: 7/8 as 2+2+3", "hands: RL RL RLR RL")


GROWN = """
```pattern
id: seven
title: Seven
time: 7/8 as 2+2+3
hands: RL RL RLR
```

```pattern
id: other
title: Other
from: seven
change: other hand leads, add feet R. R. R..
```

```pattern
id: triplets
title: Triplets
from: seven
change: in triplets
```
"""


def test_what_grows_out_of_it_has_its_groups():
    read_pages = read_course({"page.md": GROWN})
    other = read_pages.exercises["other"].pattern
    assert lane_text(other.hands, other.time) == "LR LR LRL"
    assert [group.beats for group in other.feet.groups] == [2, 2, 3]
    assert [problem.found for problem in read_pages.problems] == [
        "in triplets in 7/8 as 2+2+3, whose groups are unlike"
    ]
