import pytest

from wristwork.drawing.counting import counts
from wristwork.pattern import read_one


def said(lines: str, time: str = "4/4") -> str:
    """All that is counted, word by word."""
    return " ".join(count.word for count in counts(read_one(f"title: Counted\ntime: {time}\n{lines}")))


@pytest.mark.parametrize(
    ("hands", "time", "words"),
    [
        ("R R R R", "4/4", "1 2 3 4"),
        ("RL RLR RLRL RLRLR", "4/4", "1 & 2 trip let 3 e & a 4 2 3 4 5"),
        ("RLRLRL RLRLRLRL", "2/4", "1 ta la & ta la 2 · e · & · a ·"),
        ("R-.- ....", "2/4", "1 e & a 2 e & a"),
        ("RLRLRLRLR RLRLRLRLRLRL", "2/4", "1 2 3 4 5 6 7 8 9 2 2 3 4 5 6 7 8 9 10 11 12"),
        ("RLR RLRLRL RL R", "12/8", "1 la li 2 ta la ta li ta 3 & 4"),
    ],
)
def test_the_slots_of_a_beat_are_counted_as_spoken(hands, time, words):
    assert said(f"hands: {hands}", time) == words


@pytest.mark.parametrize(
    ("hands", "time", "words"),
    [
        ("R over 4", "4/4", "1 2 3 4"),
        ("RL over 4", "4/4", "1 2 3 4"),
        ("R RLR over 2 R", "4/4", "1 2 let 3 trip 4"),
        ("R R RLRL over 2", "4/4", "1 2 3 & 4 &"),
        ("RLRLRL over 4", "4/4", "1 let 2 trip 3 let 4 trip"),
        ("RLR over 4", "4/4", "1 2 trip 3 let 4"),
        ("RLRL over 3", "3/4", "1 a 2 & 3 e"),
        ("RLR over 3", "3/4", "1 2 3"),
        ("RLRLR over 4", "4/4", "1 · 2 · 3 · 4 ·"),
        ("RLRLRLRLRLR over 2", "2/4", "1 · · · · 2 · · · ·"),
        ("RLR over 2", "6/8", "1 li 2 la"),
    ],
)
def test_a_group_over_beats_keeps_their_numbers_and_has_its_slots_between(hands, time, words):
    assert said(f"hands: {hands}", time) == words


@pytest.mark.parametrize(
    ("hands", "feet", "words"),
    [
        ("R - R .", "R R R R", "1 2 3 4"),
        ("R R R R", "R RL R.R. R.L", "1 2 & 3 & 4 trip let"),
        ("RL RL RL RL", "R..R R... .R.R RLR", "1 e & a 2 & 3 e & a 4 &"),
        ("RLR R over 2 R", "R R R RLRL", "1 trip let 2 3 4 e & a"),
    ],
)
def test_where_only_the_feet_are_as_fine_the_count_is_theirs(hands, feet, words):
    assert said(f"hands: {hands}\nfeet: {feet}") == words


def test_feet_alone_are_counted_too():
    assert said("feet: R RL R RLRL") == "1 2 & 3 4 e & a"


def test_each_word_stands_where_it_is_said():
    pattern = read_one("title: Four over three\ntime: 3/4\nhands: RLRL over 3")
    assert [float(count.at) for count in counts(pattern)] == [0, 0.75, 1, 1.5, 2, 2.25]
    assert [count.word for count in counts(pattern) if count.on_beat] == ["1", "2", "3"]
