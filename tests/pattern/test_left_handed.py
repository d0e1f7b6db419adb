"""The same music for somebody who leads with the left hand."""

from collections import Counter

from hypothesis import given

from tests.strategies import pattern_texts
from wristwork.pattern import read_one
from wristwork.pattern.changes import left_handed
from wristwork.technique.strokes import Limb, strokes

OTHER = {Limb.RIGHT_HAND: Limb.LEFT_HAND, Limb.LEFT_HAND: Limb.RIGHT_HAND}


@given(pattern_texts())
def test_hands_change_and_all_else_stays(text: str) -> None:
    pattern = read_one(text)
    expected = Counter(stroke._replace(limb=OTHER.get(stroke.limb, stroke.limb)) for stroke in strokes(pattern))
    assert Counter(strokes(left_handed(pattern))) == expected


@given(pattern_texts())
def test_changed_twice_it_is_what_it_was(text: str) -> None:
    pattern = read_one(text)
    assert strokes(left_handed(left_handed(pattern))) == strokes(pattern)
