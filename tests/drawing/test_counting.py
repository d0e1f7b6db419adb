import pytest

from wristwork.drawing.counting import spoken
from wristwork.pattern.model import Gap, Group, TimeSignature

FOUR_FOUR, TWELVE_EIGHT = TimeSignature(4, 4), TimeSignature(12, 8)


@pytest.mark.parametrize(
    ("slots", "beats", "start", "time", "words"),
    [
        (1, 1, 0, FOUR_FOUR, "1"),
        (2, 1, 1, FOUR_FOUR, "2 &"),
        (3, 1, 0, FOUR_FOUR, "1 trip let"),
        (4, 1, 2, FOUR_FOUR, "3 e & a"),
        (5, 1, 0, FOUR_FOUR, "1 2 3 4 5"),
        (6, 1, 0, FOUR_FOUR, "1 ta la & ta la"),
        (8, 1, 0, FOUR_FOUR, "1 · e · & · a ·"),
        (9, 1, 5, FOUR_FOUR, "2 2 3 4 5 6 7 8 9"),
        (3, 1, 0, TWELVE_EIGHT, "1 la li"),
        (6, 1, 3, TWELVE_EIGHT, "4 ta la ta li ta"),
        (2, 1, 0, TWELVE_EIGHT, "1 &"),
        (1, 4, 4, FOUR_FOUR, "1"),
        (2, 4, 0, FOUR_FOUR, "1 3"),
        (3, 2, 0, FOUR_FOUR, "1 trip let"),
        (4, 2, 2, FOUR_FOUR, "3 & 4 &"),
        (6, 4, 0, FOUR_FOUR, "1 trip let 3 trip let"),
        (3, 3, 1, FOUR_FOUR, "2 3 4"),
    ],
)
def test_slots_are_counted_as_spoken(slots, beats, start, time, words):
    assert " ".join(spoken(Group((Gap.REST,) * slots, beats), start, time)) == words
