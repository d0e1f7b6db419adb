"""Pairs that a teacher would order without a second thought, each at the tempo at which it is begun.

A line: what is easier, at its tempo, and what is harder, at its own; and why.
"""

from __future__ import annotations

import pytest

from wristwork.pattern import read_one
from wristwork.technique.demand import demand

HATS = "place: right on hi-hat, left on snare"
ROCK = f"hands: RR BR RR BR\nfeet: R . R .\n{HATS}"
TRESILLO = f"hands: RR BR RR BR\nfeet: R . .R .\n{HATS}"


def hands(groups: str, *more: str) -> str:
    return "\n".join([f"hands: {groups}", *more])


SINGLES_8, SINGLES_16, TRIPLETS = "RL RL RL RL", "RLRL RLRL RLRL RLRL", "RLR LRL RLR LRL"
PARADIDDLE = "RLRR LRLL"
THREE_TWO = "right: RRR\nleft: LL\ntime: 1/4"
KIT = "place: accents on floor tom, taps on snare"
TWO = "place: right on floor tom, left on snare"
TOMS = "place: all on snare then high tom then floor tom"
PAIRS = [
    # new ways of playing lie above easy singles
    (hands("R R R R"), 60, hands("lR . rL ."), 60, "a first flam needs two heights at once"),
    (hands(SINGLES_8), 60, hands("lR . rL ."), 60, "singles in eighths are known when flams begin"),
    (hands(SINGLES_8), 80, hands("lR . rL ."), 60, "even a good deal faster"),
    (hands(SINGLES_16), 60, hands("lR . rL ."), 60, "sixteenths of singles too, at their first tempo"),
    (hands(SINGLES_8), 60, hands("llR . rrL ."), 60, "a first drag has two notes to place"),
    (hands("R>L RL R>L RL"), 60, hands("llR . rrL ."), 60, "accents in eighths come long before drags"),
    (hands("lR . rL ."), 60, hands("llR . rrL ."), 60, "one grace note before two"),
    (hands(SINGLES_8), 60, hands("Rz . Lz ."), 60, "a first buzz is pressed, not dropped"),
    (hands("R/ . L/ ."), 60, hands("Rz . Lz ."), 60, "an open double before a pressed roll"),
    (hands("Rz . Lz ."), 60, hands("RzLz RzLz RzLz RzLz"), 60, "a buzz with rests before buzzes without"),
    (hands(SINGLES_8), 60, hands("RLR over 2 LRL over 2"), 60, "eighths before threes over two beats"),
    (hands(TRIPLETS), 60, hands("RLR over 2 LRL over 2"), 60, "three in a beat before three over two"),
    (hands("B L B L"), 60, THREE_TWO, 60, "hands together before three against two"),
    (THREE_TWO, 60, "right: RRRR\nleft: LLL\ntime: 1/4", 60, "three against two before four against three"),
    # slower before faster, less before more
    (hands(SINGLES_16), 60, hands(SINGLES_16), 70, "the same, faster"),
    (hands(PARADIDDLE), 60, hands(PARADIDDLE), 66, "the same, faster"),
    (ROCK, 60, ROCK, 72, "the same, faster"),
    (hands("lR>LR rL>RL"), 50, hands("lR>LR rL>RL"), 60, "the same, faster"),
    (hands("R . R ."), 60, hands("R R R R"), 60, "half as many strokes"),
    (hands("R R R R"), 60, hands("RR RR RR RR"), 60, "quarters before eighths of one hand"),
    (hands(SINGLES_8), 60, hands(TRIPLETS), 60, "two in a beat before three"),
    (hands(TRIPLETS), 60, hands(SINGLES_16), 60, "three in a beat before four"),
    (hands(SINGLES_16), 60, hands("RLRLRL RLRLRL RLRLRL RLRLRL"), 60, "four in a beat before six"),
    (hands("RRLL RRLL"), 60, hands("RRLL RRLL"), 80, "the same, faster"),
    # stickings
    (hands(SINGLES_16), 60, hands("RRLL RRLL RRLL RRLL"), 60, "singles before doubles"),
    (hands("RRLL RRLL"), 60, hands(PARADIDDLE), 60, "doubles before paradiddles"),
    (hands(PARADIDDLE), 60, hands("R>LRR L>RLL"), 60, "plain before accented"),
    (hands("R>LRR L>RLL"), 60, hands("RLR>R LRL>L"), 60, "an accent before the double before one on it"),
    (hands("R>LRR L>RLL"), 60, hands("RLRR> LRLL>"), 60, "an accent on the last of a double comes late"),
    (hands("RLR LRL"), 60, hands("RLRLRR LRLRLL"), 60, "threes before sixes with a double"),
    (hands("RLRLRL RLRLRL"), 60, hands("RLRRLL RLRRLL"), 60, "singles before paradiddle-diddles"),
    (hands("RL RL"), 60, hands("RR LL"), 90, "eighths by turns before doubles a good deal faster"),
    # heights
    (hands("RRRR LLLL"), 60, hands("RRR>R LLL>L"), 60, "one level before two"),
    (hands("R>R> L>L>"), 60, hands("R>R L>L"), 60, "full strokes before downs and ups"),
    (hands("R>LRL R>LRL"), 60, hands("R>LRL RL>RL RLR>L RLRL>"), 60, "an accent in one place before one that walks"),
    (hands("R>LRL R>LRL"), 60, hands("R>(L)R(L) R>(L)R(L)"), 60, "two levels before three"),
    (hands("R>LR L>RL"), 60, hands("lR>LR rL>RL"), 60, "accents in three before flam accents"),
    (hands("R>RR L>LL"), 60, hands("R>RR L>LL"), 100, "the same stop, sooner"),
    # ornaments among other notes
    (hands("lR . rL ."), 60, hands("lR L rL R"), 60, "flams alone before flams with taps"),
    (hands("lR L rL R"), 60, hands("lRL rLR lRL rLR"), 60, "in quarters before eighths"),
    (hands("R>LRR L>RLL"), 60, hands("lR>LRR rL>RLL"), 60, "a paradiddle before a flam paradiddle"),
    (hands("lR>LR rL>RL"), 60, hands("llR>LR rrL>RL"), 60, "a flam before a drag in the same place"),
    (hands("lR>LR rL>RL"), 60, hands("lR>LR rL>RL lR>LR rL>RL"), 80, "the same, faster"),
    (hands("lR rL lR rL"), 60, hands("lRrLlRrL lRrLlRrL"), 60, "flams in quarters before flams in sixteenths"),
    (hands("RL R> LR L>"), 60, hands("R/L/ R> L/R/ L>"), 60, "slow fives before an open roll"),
    # hands and feet, drums
    (hands(SINGLES_8), 60, hands(SINGLES_8, "feet: R R R R"), 60, "hands alone before a foot in step"),
    (hands(SINGLES_8, "feet: R . R ."), 60, hands(SINGLES_8, "feet: R R R R"), 60, "a foot on two beats before four"),
    (hands(SINGLES_8, "feet: R R R R"), 60, hands(SINGLES_8, "feet: .R .R .R .R"), 60, "on the beat before off it"),
    (hands(SINGLES_8, "feet: R . R ."), 60, hands(SINGLES_8, "feet: R L R L"), 60, "one foot before two"),
    (hands("RR RR RR RR", "place: all on hi-hat"), 60, ROCK, 60, "a hat alone before a groove"),
    (ROCK, 60, TRESILLO, 60, "a kick on the beat before one that pushes"),
    (ROCK, 60, hands("RRRR BRRR RRRR BRRR", "feet: R . R .", HATS), 60, "eighths before sixteenths of one hand"),
    (ROCK, 60, hands("R.R(L) B.R(L) R(L)R. B.R(L)", "feet: R . R .", HATS), 60, "a groove before one with ghosts"),
    (hands(SINGLES_16), 60, hands(SINGLES_16, TOMS), 60, "one drum first"),
    (hands(SINGLES_8, TWO), 60, hands(SINGLES_8, TOMS), 60, "two places before a way round"),
    (hands("R>LRR L>RLL"), 60, hands("R>LRR L>RLL", KIT), 60, "the pad before the kit"),
    (hands("R>LRR L>RLL"), 60, hands("R>LRR L>RLL", "feet: R R"), 60, "hands before hands and feet"),
    (hands("RL RL RL RL"), 60, hands("RL RLR LR LRL"), 60, "one subdivision before two"),
    (hands("RL RL RLRL RLRL"), 60, hands("RL RLR RLRL RLR"), 60, "twice as many before threes between"),
    # far apart: whatever the way, a first lesson is easier than an advanced piece
    (hands("R . . ."), 50, hands(SINGLES_16), 120, "nothing before a lot"),
    (hands("lR . rL ."), 60, hands("lR>LRR rL>RLL"), 72, "a first flam before a flam paradiddle"),
    (hands("llR . rrL ."), 60, hands("R/L/R/L/ R>"), 80, "a first drag before a roll at a pace"),
    (hands("RLR over 2 LRL over 2"), 60, hands("RRLLRR LLRRLL RRLLRR LLRRLL"), 100, "quiet threes before fast doubles"),
    (hands("Rz . Lz ."), 60, hands("RLRR LRLL RLRR LRLL"), 120, "a slow buzz before a fast paradiddle"),
    (ROCK, 70, hands("lR>LRR rL>RLL", "feet: R R"), 70, "a first groove before flam paradiddles with a foot"),
]


def score(text: str, tempo: int) -> float:
    return demand(read_one(f"example: yes\n{text}"), tempo).score


def test_there_are_pairs_enough():
    assert len(PAIRS) >= 60


@pytest.mark.parametrize(("easy", "at", "hard", "faster", "why"), PAIRS)
def test_what_is_easier_scores_less(easy, at, hard, faster, why):
    assert score(easy, at) < score(hard, faster), why
