"""Drawings held against files small enough to read; ``pytest tests/drawing --update-goldens`` writes them anew."""

import pytest

from wristwork.drawing import diagram, words
from wristwork.pattern import read_one

CASES = {
    "paradiddle": "hands: R>LRR L>RLL",
    "flam-and-rests": "time: 2/4\nhands: lR>.LR (rL)-R.",
    "kit": "time: 2/4\nhands: RLR Bz\nfeet: R .\nplace: right on hi-hat, left on snare",
    "tie-over-the-bar": "time: 2/4\nhands: R RL | -R/ R\nloop: no\nrepeat: 2",
}


@pytest.mark.parametrize("name", CASES)
def test_the_drawing_is_the_one_that_was_looked_at(name, golden):
    svg = diagram(read_one(f"title: The {name}\n{CASES[name]}")).svg()
    golden(f"{name}.svg", svg.replace("><", ">\n<"))


def test_a_row_of_small_drawings_is_the_one_that_was_looked_at(golden):
    pattern = read_one("title: One beat\ntime: 1/4\nhands: R>L")
    golden("one-beat.html", diagram(pattern).html().replace("><", ">\n<") + "\n")


@pytest.mark.parametrize("name", CASES)
def test_the_words_are_the_ones_that_were_read(name, golden):
    golden(f"{name}.txt", words(read_one(f"title: The {name}\n{CASES[name]}")).text + "\n")
