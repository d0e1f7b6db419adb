"""The table of the drums holds together."""

from __future__ import annotations

import pytest

from wristwork.pattern import PatternError, read_one
from wristwork.pattern.drums import Drum, Opening
from wristwork.technique.strokes import strokes


def test_every_word_for_a_drum_means_one_drum():
    words = [word for drum in Drum for word in {drum.value, drum.row.short, *drum.row.near}]
    assert sorted(words) == sorted(set(words))


def test_no_two_drums_look_alike():
    seen = [(drum.row.step, drum.row.head, drum.row.opening) for drum in Drum if drum is not Drum.PAD]
    assert len(seen) == len(set(seen))


def test_drums_on_one_key_differ_in_how_hard_it_is_struck():
    struck = [(drum.row.key, drum.row.harder) for drum in Drum]
    assert len(struck) == len(set(struck))
    assert all(35 <= drum.row.key <= 81 for drum in Drum)
    assert all(1 <= level + drum.row.harder <= 127 for drum in Drum for level in (36, 112))


def test_what_is_silenced_is_a_drum_that_rings():
    for drum in Drum:
        assert all(Drum(name).row.opening is not Opening.NONE for name in drum.row.silences)


@pytest.mark.parametrize(
    ("typed", "name"),
    [("rim click", "cross-stick"), ("bass drum", "kick"), ("hats", "hi-hat"), ("ride cymbal", "ride"),
     ("side stick", "cross-stick"), ("Rack Tom", "high tom"), ("brush swirl", "brush sweep"), ("snarre", "snare")],
)  # fmt: skip
def test_other_words_for_a_drum_are_answered_with_its_name(typed, name):
    with pytest.raises(PatternError) as error:
        read_one(f"example: yes\nhands: R L R L\nplace: all on {typed}")
    (problem,) = error.value.problems
    assert problem.found == f"no drum is called '{typed}'"
    assert problem.remedy == f"did you mean {name}?"


@pytest.mark.parametrize("drum", list(Drum))
def test_every_drum_can_be_named(drum):
    made = read_one(f"example: yes\nhands: R L R L\nplace: all on {drum.value.upper()}")
    assert {stroke.on for stroke in strokes(made)} == {drum}


def test_a_foot_works_the_hi_hat_with_its_pedal():
    made = read_one(
        "example: yes\nhands: R L R L\nfeet: L L L L\nplace: left foot on hi-hat then splash then open hi-hat"
    )
    feet = [stroke.on for stroke in strokes(made) if not stroke.limb.is_hand]
    assert feet == [Drum.HI_HAT_FOOT, Drum.FOOT_SPLASH, Drum.OPEN_HI_HAT, Drum.HI_HAT_FOOT]
