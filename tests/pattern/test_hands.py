"""Both hands at once, each with its own level, in one line or in a line for each hand."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.strategies import parts
from wristwork.pattern import PatternError, read_course, read_one
from wristwork.pattern.model import Note, Side, events
from wristwork.pattern.parts import joined, part_of
from wristwork.pattern.write import lane_text
from wristwork.technique.strokes import Limb, strokes


def read(*lines):
    return read_one("\n".join(["example: yes", *lines]))


def hands(*lines):
    return lane_text(read(*lines).hands)


def problem(*lines):
    with pytest.raises(PatternError) as error:
        read(*lines)
    (only,) = error.value.problems
    return f"{only.line}:{only.column} {only.found} | {only.remedy}"


def test_each_hand_has_its_own_level():
    played = strokes(read("hands: R R&L> R R&L>"))
    assert {str(stroke.level) for stroke in played if stroke.limb is Limb.RIGHT_HAND} == {"tap"}
    assert [str(stroke.name) for stroke in played if stroke.limb is Limb.LEFT_HAND] == ["full", "full"]


@pytest.mark.parametrize(
    ("typed", "written"),
    [
        ("R&L", "B"),
        ("L&R", "B"),
        ("L>&R", "R&L>"),
        ("R>&L>", "B>"),
        ("(R)&L", "(R)&L"),
        ("(L)&(R)", "(B)"),
        ("R&L>z", "R&L>z"),
        ("Rz&Lz", "Bz"),
        ("R>/&(L)/", "R>/&(L)/"),
        ("R&L>RL>&R", "R&L>RR&L>"),
    ],
)
def test_what_an_ampersand_joins(typed, written):
    assert hands(f"hands: {typed} R R R") == f"{written} R R R"


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("&L", "an & with no stroke before it | it joins the strokes of two hands: R&L>"),
        ("R&", "an & with no stroke after it | it joins the strokes of two hands: R&L>"),
        ("R&.", "an & with no stroke after it | it joins the strokes of two hands: R&L>"),
        ("R&R", "an & that does not join a right and a left stroke | one of each: R&L>"),
        ("B&L", "an & that does not join a right and a left stroke | one of each: R&L>"),
        ("R&L&R", "an & that does not join a right and a left stroke | one of each: R&L>"),
        (
            "lR&L",
            "a grace note before both hands together | take the grace note out: one hand would have to play twice",
        ),
        ("R/&L", "a slash for one of two hands that play together | write the strokes one by one, in a finer group"),
    ],
)
def test_what_an_ampersand_can_not_join(typed, says):
    assert problem(f"hands: {typed} R R R").split(" ", 1)[1] == says


def test_a_rule_speaks_of_the_level_of_its_own_hand():
    played = strokes(read("hands: R&L> R>&L B B", "place: all on snare, accents on crash"))
    assert [str(s.on) for s in played if s.limb is Limb.RIGHT_HAND] == ["snare", "crash", "snare", "snare"]
    assert [str(s.on) for s in played if s.limb is Limb.LEFT_HAND] == ["crash", "snare", "snare", "snare"]


@pytest.mark.parametrize(
    ("right", "left", "together"),
    [
        ("xx xx xx xx", ". x> . x>", "RR R&L>R RR R&L>R"),
        ("R R R R | R R R R", "L . L .", "B R B R B R B R"),
        ("x x>x x x", ".(L)(x) xx x x", "R(L)(L) R>&LB B B"),
        ("RxR x x x", "LL L L L", "B-RLR- B B B"),
        ("x--- . . .", "xxxx . . .", "BLLL . . ."),
        ("x.x. . . .", ".... . . .", "R.R. . . ."),
        ("RRR over 2 R R", "L L L L", "B-RLR- over 2 B B"),
        ("lx x x x", ". . . .", "lR R R R"),
        ("xz . x x", ". x . .", "Rz L R R"),
        ("RRRRR over 4", "L L L L", "B---R L--R- L-R-- LR---"),
        ("RRRRRRR over 4", "LLLL over 4", "B---R-- LR---R- L-R---R L--R---"),
    ],
)
def test_a_line_for_each_hand_is_put_together_by_time(right, left, together):
    assert hands("time: 4/4", f"right: {right}", f"left: {left}") == together


def test_one_hand_alone_is_a_pattern():
    assert hands("left: x x> x x>") == "L L> L L>"


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        (["hands: R R R R", "left: L L L L"], "3:1 left: beside hands:, which holds both hands | write both hands in "
         "hands:, or each in a line of its own: right: and left:"),
        (["right: R L R R"], "2:10 a stroke of the left hand in the part of the right hand | write x or R"),
        (["left: L B L L"], "2:9 a stroke of both hands in the part of the left hand | write x or L"),
        (["right: xxxxx x x x", "left: xxxx x x x"], "2:8 two hands that would need 20 slots in one group, where it "
         "holds at most 12 | give the hands groups of which one divides the other, or nearly so: 2 and 3, 4 and 3, "
         "4 and 8; 5 against 4 can be counted over four beats: RRRRR over 4 in one hand, L L L L in the other"),
        (["right: x lx x x", "left: x x x x"], "2:10 a grace note where both hands play | take the grace note out: one "
         "hand would have to play twice"),
        (["right: x x/ x x", "left: . x . ."], "2:10 a slash of one hand where the other one plays too | write its "
         "strokes one by one, in a finer group"),
        (["right: x xz x x", "left: . .x . ."], "2:10 a buzz of the right hand that lasts on while the other hand "
         "plays or rests | let it end where the other hand's next stroke or rest begins, or write it in shorter notes"),
        (["time: 4/4", "right: x x x x x x x x", "left: x x x x x x x x x x x x"], "3:8 a right hand of 2 bars and a "
         "left hand of 3 bars that never end together | make one of them a whole number of times as long as the other"),
        (["right: x x x", "left: y x x"], "3:7 'y' means nothing here | "
         "strokes are R, L and B, a rest is ., a held slot is -"),
    ],
)  # fmt: skip
def test_what_keeps_two_lines_from_being_one(lines, says):
    assert problem(*lines) == says


GROWN = """
```pattern
id: first-beat
title: First beat
right: xx xx xx xx
left:  .  x> .  x>
```

```pattern
id: second-beat
title: Second beat
from: first-beat
left:  .  x> .x x>
```

```pattern
id: third-beat
title: Third beat
from: first-beat
change: other hand leads
```

```pattern
id: fourth-beat
title: Fourth beat
from: first-beat
change: accents off
```
"""


@pytest.mark.parametrize(
    ("name", "written"),
    [
        ("second-beat", "RR R&L>R RB R&L>R"),
        ("third-beat", "LL R>&LL LL R>&LL"),
        ("fourth-beat", "RR BR RR BR"),
    ],
)
def test_a_pattern_grows_out_of_parts(name, written):
    assert lane_text(read_course({"page.md": GROWN}).exercises[name].pattern.hands) == written


@given(st.data(), st.integers(1, 4))
def test_parts_put_together_are_played_as_written(data, beats):
    lanes = {side: data.draw(parts(beats, side)) for side in Side}
    made = joined(lanes[Side.RIGHT], lanes[Side.LEFT])
    for side, lane in lanes.items():
        wanted = [(event.at, event.what) for event in events(lane) if event.what]
        got = [(event.at, event.what.of(side)) for event in events(made) if event.what and side in event.what.sides]
        again = [(event.at, event.what) for event in events(part_of(made, side)) if event.what]
        assert got == again == wanted
    assert made.beats == beats


@given(st.data(), st.integers(1, 3))
def test_a_lane_taken_apart_is_put_together_as_it_was_heard(data, beats):
    made = joined(*(data.draw(parts(beats, side)) for side in Side))
    again = joined(*(part_of(made, side) for side in Side))
    assert heard(again) == heard(made)
    assert read(f"time: {beats}/4", f"hands: {lane_text(made)}").hands == made


def heard(lane) -> list[tuple[Fraction, Note]]:
    return [(event.at, event.what) for event in events(lane) if event.what]
