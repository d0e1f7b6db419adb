"""Which drum a stroke is on: rules for a moment, grace notes elsewhere, a line of drums under the hands."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.strategies import lanes
from wristwork.pattern import PatternError, read_course, read_one
from wristwork.pattern.drum_line import drum_line_text
from wristwork.pattern.drums import Drum
from wristwork.pattern.model import Note, TimeSignature, When
from wristwork.pattern.moments import read_when, split_words
from wristwork.pattern.write import lane_text
from wristwork.technique.strokes import Kind, strokes

HALF, QUARTER, THIRD = Fraction(1, 2), Fraction(1, 4), Fraction(1, 3)


def read(*lines):
    return read_one("\n".join(["example: yes", *lines]))


def drums(*lines):
    """The drums of the hands in playing order, grace notes in brackets."""
    played = [stroke for stroke in strokes(read(*lines)) if stroke.limb.is_hand]
    return [f"[{stroke.on}]" if stroke.kind is Kind.GRACE else str(stroke.on) for stroke in played]


def problem(*lines):
    with pytest.raises(PatternError) as error:
        read(*lines)
    (only,) = error.value.problems
    return only.found, only.remedy


@pytest.mark.parametrize(
    ("words", "when"),
    [
        ("", When()),
        ("beat 4", When(beats=(4,))),
        ("beats 2 and 4", When(beats=(2, 4))),
        ("beats 1 to 3", When(beats=(1, 2, 3))),
        ("2&", When(counts=((2, HALF),))),
        ("2 &", When(counts=((2, HALF),))),
        ("2& and 4e", When(counts=((2, HALF), (4, QUARTER)))),
        ("3trip", When(counts=((3, THIRD),))),
        ("1", When(counts=((1, Fraction(0)),))),
        ("bar 4", When(bars=(4,))),
        ("in bars 1 to 2 and 4", When(bars=(1, 2, 4))),
        ("2& of bar 2", When(bars=(2,), counts=((2, HALF),))),
        ("bar 2 beat 4", When(bars=(2,), beats=(4,))),
    ],
)
def test_moments_in_plain_words(words, when):
    assert read_when(split_words(words)) == when


@pytest.mark.parametrize("words", ["beat", "beats 2 and", "beat x", "2z", "beats 3 to 1", "bar 1 bar 2", "beat 2 2&"])
def test_words_that_mean_no_moment(words):
    assert read_when(split_words(words)) is None


@pytest.mark.parametrize(
    ("rule", "wanted"),
    [
        ("beat 4 on high tom", ["snare"] * 6 + ["high tom"] * 2),
        ("2& on ride", ["snare"] * 3 + ["ride"] + ["snare"] * 4),
        ("left beats 1 to 2 on ride", ["snare", "ride"] * 2 + ["snare"] * 4),
        ("beat 1 right on crash", ["crash"] + ["snare"] * 7),
        ("2 on rim shot", ["snare", "snare", "rim shot"] + ["snare"] * 5),
        ("beats 3 and 4 on mid tom then floor tom", ["snare"] * 4 + ["mid tom", "floor tom"] * 2),
    ],
)
def test_a_rule_speaks_at_its_moment(rule, wanted):
    assert drums("hands: RL RL RL RL", f"place: all on snare, {rule}") == wanted


def test_a_rule_for_a_bar():
    played = drums("time: 4/4", "hands: R R R R | R R R R", "place: all on ride, bar 2 on crash then floor tom")
    assert played == ["ride"] * 4 + ["crash", "floor tom"] * 2


def test_a_foot_has_moments_too():
    made = read("hands: R R R R", "feet: R R R R", "place: right foot beat 2 on cowbell")
    assert [str(s.on) for s in strokes(made) if not s.limb.is_hand] == ["kick", "cowbell", "kick", "kick"]


MOMENT = "write beat 4, 2& or bar 3, as in left beat 4 of bar 2 on high tom"


@pytest.mark.parametrize(
    ("rule", "says"),
    [
        ("beat x on snare", ("'beat x' is no moment that a rule can speak of", MOMENT)),
        ("beat 5 on snare", ("a rule for beat 5, where a bar of 4/4 has 4", "name a beat from 1 to 4")),
        ("left 7& on snare", ("a rule for beat 7, where a bar of 4/4 has 4", "name a beat from 1 to 4")),
        ("bar 2 on snare", ("a rule for bar 2, where the pattern has 1 bar", "name a bar from 1 to 1")),
    ],
)
def test_what_is_wrong_with_a_moment(rule, says):
    assert problem("hands: R L R L", f"place: {rule}") == says


def test_only_a_hand_has_grace_notes():
    found, _ = problem("hands: R L R L", "place: accents grace notes on snare")
    assert found == "'accents grace notes' is nobody that a rule can speak of"


def test_grace_notes_go_elsewhere():
    lines = ("hands: lR rL llR R", "place: all on snare, grace notes on floor tom then ride")
    assert drums(*lines) == ["[floor tom]", "snare", "[ride]", "snare", "[floor tom]", "[floor tom]", "snare", "snare"]


def test_grace_notes_of_one_hand():
    lines = ("hands: lR rL lR rL", "place: all on snare, left grace notes on rim")
    assert drums(*lines) == ["[rim]", "snare", "[snare]", "snare"] * 2


@pytest.mark.parametrize(
    ("hands", "row", "wanted"),
    [
        ("RL RL RL R", "snare, high mid, floor, crash",
         "snare,snare,high tom,mid tom,floor tom,floor tom,crash"),
        ("R.L- R R.L R", "high floor, ride", "high tom,floor tom,ride,high tom,floor tom,ride"),
        ("B B B B", "hat&snare, ride", "hi-hat,snare,ride,ride,hi-hat,snare,ride,ride"),
        ("RL RL RL RL", "., floor, ., . crash", "ride,snare,floor tom,floor tom,ride,snare,ride,crash"),
        ("RL RL | RL RL", "high, mid | floor low, kick",
         "high tom,high tom,mid tom,mid tom,floor tom,low tom,kick,kick"),
        ("lR rL R R", "high, floor, ., .", "[high tom],high tom,[floor tom],floor tom,ride,ride"),
    ],
)  # fmt: skip
def test_a_line_of_drums(hands, row, wanted):
    place = "place: right on ride, left on snare"
    time = "time: 2/4" if "|" in hands else "time: 4/4"
    assert ",".join(drums(time, f"hands: {hands}", f"drums: {row}", place)) == wanted


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("high mid floor", ("3 drums for the 2 strokes of group 1",
                            "one word for the whole group or for each of its strokes, and a comma after each group")),
        ("high, mid, floor", ("drums in 3 groups under hands in 4", "one comma for each space between the groups of "
                              "the hands, or a line that repeats whole")),
        ("high,", ("a comma with no drum beside it", "one word or several for each beat: high, mid mid")),
        ("hig", ("no drum is called 'hig'", "did you mean high?")),
        ("tambourine", ("no drum is called 'tambourine'", f"the words are {', '.join(d.row.short for d in Drum)}")),
        ("|", ("bar lines with no drum between them", "a word for each beat: high, mid | low, floor")),
        ("hat&snare&ride", ("'hat&snare&ride' names 3 drums", "two at most, right before left: hat&snare")),
    ],
)  # fmt: skip
def test_what_is_wrong_with_a_line_of_drums(row, says):
    assert problem("hands: RL RL RL RL", f"drums: {row}") == says


GROWN = """
```pattern
id: toms
title: Toms
hands: RL RL RL RL
drums: high, mid, low, floor
```

```pattern
id: other-hand
title: Other hand
from: toms
change: other hand leads
```

```pattern
id: no-drums
title: No drums
from: toms
drums: none
```
"""


def test_a_line_of_drums_is_taken_over_with_the_hands():
    exercises = read_course({"page.md": GROWN}).exercises
    on = {name: [str(s.on) for s in strokes(each.pattern)] for name, each in exercises.items()}
    assert on["other-hand"] == on["toms"] == ["high tom"] * 2 + ["mid tom"] * 2 + ["low tom"] * 2 + ["floor tom"] * 2
    assert on["no-drums"] == ["pad"] * 8


def test_a_line_of_drums_under_rests_leaves_nothing_to_take_over():
    rests = GROWN.replace("RL RL RL RL", ". . . .").replace("high, mid, low, floor", "snare")
    assert not read_course({"page.md": rests}).problems


@given(st.data(), lanes(1, TimeSignature(4, 4), holds=False))
def test_a_line_of_drums_reads_back_as_it_is_written(data, lane):
    count = sum(isinstance(slot, Note) for slot in lane.slots)
    pairs = st.one_of(st.none(), st.tuples(st.sampled_from(list(Drum)), st.sampled_from(list(Drum))))
    row = tuple(data.draw(st.lists(pairs, min_size=count, max_size=count)))
    if count:
        made = read("time: 4/4", f"hands: {lane_text(lane)}", f"drums: {drum_line_text(row, lane)}")
        assert made.drums == row
