"""The four strokes, worked out: the table of the trade, and rules that hold for any pattern."""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given

from tests.strategies import pattern_texts
from wristwork.pattern import read_one
from wristwork.pattern.model import Drum, Level
from wristwork.technique.strokes import Height, Kind, Limb, hand_strokes, strokes


def read(hands, *more):
    return read_one("\n".join(["title: A title", *more, f"hands: {hands}"]))


def names(pattern, limb=None):
    """Stroke names in playing order, grace notes in brackets."""
    return " ".join(
        f"[{s.name}]" if s.kind is Kind.GRACE else str(s.name) for s in strokes(pattern) if limb in (None, s.limb)
    )


WORKED = {
    "R>LRR L>RLL": "down up tap tap down up tap tap",
    "R>LR>L L>RL>R": "full tap down up full tap down up",
    "R>LRLRLRR L>RLRLRLL": "down tap tap tap tap up tap tap down tap tap tap tap up tap tap",
    "R>L>R>L>": "full full full full",
    "RLRL": "tap tap tap tap",
    "R>RRR>": "down tap up full",
    "lR> rL>": "[up] down [up] down",
    "lR>LR rL>RL": "[tap] down up tap [tap] down up tap",
    # where nothing is accented, the main notes of flams and drags come from high
    "lR rL": "[up] down [up] down",
    "llR rrL": "[tap] [up] down [tap] [up] down",
    "lRL RLrLR": "[tap] down tap tap up [tap] down up",
    "(lR) (rL)": "[tap] tap [tap] tap",
    "lRL> RL": "[up] tap down tap tap",
    "lR/L": "[tap] down up tap",
    # diddles, buzzes, ghosts, both hands
    "R>/L/": "down up tap tap",
    "R>/": "down up",
    "(R)/ R>": "tap up down",
    "R>z Rz": "down up",
    "B> BB": "down down tap tap up up",
    "R> . R> -": "full full",
}


@pytest.mark.parametrize("hands", WORKED)
def test_worked_examples(hands):
    assert names(read(hands)) == WORKED[hands]


def test_a_drag_before_an_accent_of_its_hand():
    # left: ghost, ghost, accent, and round to the ghost again; right: accent, tap, and round
    assert names(read("llR> RL>")) == "[tap] [up] down up down"


def test_without_a_loop_the_last_stroke_of_each_hand_ends_low():
    assert names(read("R>LRR L>RLL", "loop: no")) == "down up tap tap down tap tap tap"
    assert names(read("R> R>", "loop: no")) == "full down"


def test_passes_without_a_loop_look_to_the_next_pass():
    pattern = read("R>R", "loop: no", "repeat: 3")
    assert names(pattern) == "down up down up down tap"
    assert [s.at for s in strokes(pattern)] == [Fraction(n, 2) for n in range(6)]
    assert names(read("R>R", "repeat: 3")) == "down up"


def test_feet_have_no_names():
    pattern = read("R>LRL", "feet: R", "place: none")
    foot = [s for s in strokes(pattern) if s.limb is Limb.RIGHT_FOOT]
    assert [(s.name, s.starts, s.on) for s in foot] == [(None, None, Drum.KICK)]


def test_a_slash_shares_the_whole_value_and_accents_its_first_stroke():
    pattern = read("R>/3-L.")
    diddled = [s for s in strokes(pattern) if s.limb is Limb.RIGHT_HAND]
    assert [(s.at, s.level, s.kind) for s in diddled] == [
        (Fraction(0), Level.ACCENT, Kind.DIDDLE),
        (Fraction(1, 6), Level.TAP, Kind.DIDDLE),
        (Fraction(1, 3), Level.TAP, Kind.DIDDLE),
    ]


def test_order_at_one_moment():
    pattern = read("rlR B", "feet: B B", "time: 2/4")
    assert [(str(s.at), s.limb.value, s.kind.value) for s in strokes(pattern)] == [
        ("0", "right hand", "grace"), ("0", "left hand", "grace"), ("0", "right hand", "main"),
        ("0", "right foot", "main"), ("0", "left foot", "main"),
        ("1", "right hand", "main"), ("1", "left hand", "main"),
        ("1", "right foot", "main"), ("1", "left foot", "main"),
    ]  # fmt: skip


AHEAD = [
    ("lR RL L", "", [(30, Fraction(1, 2))]),  # left before: the last L, a beat before the bar comes round
    ("RL lR RL", "", [(30, Fraction(1, 4))]),
    ("llR", "", [(100, Fraction(1, 2)), (50, Fraction(1, 2))]),  # only itself, a beat ago
    ("lrlR RL", "", [(150, Fraction(1, 4)), (100, Fraction(1, 4)), (50, Fraction(1, 4))]),
    ("lR RR", "loop: no", [(30, Fraction(1, 2))]),
    ("LR llR", "loop: no", [(100, Fraction(1, 2)), (50, Fraction(1, 2))]),
    ("L/ lR", "", [(30, Fraction(1, 4))]),
]


@pytest.mark.parametrize(("hands", "more", "expected"), AHEAD, ids=[each[0] for each in AHEAD])
def test_how_far_ahead_a_grace_note_sounds(hands, more, expected):
    graces = [s for s in strokes(read(hands, more)) if s.kind is Kind.GRACE]
    assert [(s.ahead_ms, s.ahead_at_most) for s in graces] == expected
    assert all(s.level is Level.GHOST for s in graces)


PLACED = [
    ("RLRL", "", "pad pad pad pad"),
    ("RLRL", "place: left on snare", "snare snare snare snare"),
    ("RLRL", "feet: R", "snare snare snare snare"),
    ("RLRL", "place: right on hi-hat, left on snare", "hi-hat snare hi-hat snare"),
    ("R>LR>L", "place: accents on crash, right on ride", "ride snare ride snare"),
    ("R>LR>L", "place: right on ride, accents on crash", "crash snare crash snare"),
    ("RLRLRL", "place: all on high tom then mid tom", "high tom mid tom high tom mid tom high tom mid tom"),
    ("RRR>R", "place: right on ride then snare, accents on crash", "ride snare crash snare"),
    ("R/L/", "place: all on high tom then floor tom", "high tom high tom floor tom floor tom"),
    ("R>/L", "place: accents on crash, taps on ride", "crash crash ride"),
    ("BR", "place: all on high tom then floor tom", "high tom high tom floor tom"),
    ("BR", "place: right on ride then crash", "ride snare crash"),
    ("lRL", "place: left on snare then cowbell, right on ride", "ride ride snare"),
    ("R(L)", "place: LEFT  Ghosts ON Rim  Shot", "snare rim shot"),
    ("RL", "place: left on rimshot", "snare rim shot"),
    ("RL", "place: rightonride", "ride snare"),
]


@pytest.mark.parametrize(("hands", "more", "drums"), PLACED, ids=[f"{each[0]} {each[1]}" for each in PLACED])
def test_placement(hands, more, drums):
    told = [s.on.value for s in strokes(read(hands, more)) if s.limb.is_hand]
    assert " ".join(told) == drums


def test_feet_are_placed_by_their_own_rules():
    pattern = read("RL", "feet: B", "place: right foot on hi-hat, left foot on cowbell, all on ride")
    assert [s.on for s in strokes(pattern) if not s.limb.is_hand] == [Drum.HI_HAT_FOOT, Drum.COWBELL]
    assert [s.on for s in strokes(read("RL", "feet: B")) if not s.limb.is_hand] == [Drum.KICK, Drum.HI_HAT_FOOT]


def test_turns_start_afresh_in_each_pass():
    pattern = read("RLR", "place: all on high tom then floor tom", "loop: no", "repeat: 2")
    assert [s.on.value for s in strokes(pattern)] == ["high tom", "floor tom", "high tom"] * 2


@given(pattern_texts())
def test_every_hand_moves_without_a_jump(text):
    """Each stroke starts where the same hand's stroke before it ended, round the loop too."""
    pattern = read_one(text)
    made = strokes(pattern)
    span = pattern.played_beats * (1 if pattern.loop else pattern.repeat)
    for limb in (Limb.RIGHT_HAND, Limb.LEFT_HAND):
        chain = [s for s in made if s.limb is limb]
        for one, other in pairwise(chain):
            assert one.ends is other.starts
        if chain:
            assert chain[-1].ends is (chain[0].starts if pattern.loop else Height.LOW)
    for stroke in made:
        assert 0 <= stroke.at < span
        if stroke.limb.is_hand and stroke.starts is not (Height.HIGH if stroke.level is Level.ACCENT else Height.LOW):
            assert stroke.kind is not Kind.GRACE
            assert not any(s.level is Level.ACCENT for s in made if s.limb.is_hand)
        if stroke.kind is Kind.GRACE:
            assert 0 < stroke.ahead_at_most <= span
    assert list(made) == sorted(made, key=lambda s: s.at)


@given(pattern_texts())
def test_strokes_of_each_hand_can_be_counted_without_working_them_out(text: str) -> None:
    pattern = replace(read_one(text), repeat=1)
    worked_out = [stroke.limb for stroke in strokes(pattern)]
    assert hand_strokes(pattern) == (worked_out.count(Limb.RIGHT_HAND), worked_out.count(Limb.LEFT_HAND))
