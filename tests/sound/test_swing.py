"""Swing: which strokes move, how far, and what says so."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given

from tests.sound.made_patterns import pattern, patterns
from wristwork.course.exercise import Lesson, exercise_data
from wristwork.drawing import diagram
from wristwork.drawing.counting import counts
from wristwork.pattern import PatternError, read_course
from wristwork.pattern.write import lane_text
from wristwork.sound.schedule import schedule
from wristwork.technique.strokes import Kind, Limb, strokes


def beats(hands, tempo=120, **lines):
    return [onset.beat for onset in schedule(pattern(hands, **lines), tempo)]


def parts(*shares):
    return [Fraction(share) for share in shares]


def test_the_second_of_two_eighths_comes_late():
    assert beats("RL RL", feel="swing") == parts("0", "2/3", "1", "5/3")
    assert beats("RL RL") == parts("0", "1/2", "1", "3/2")


@pytest.mark.parametrize(("tempo", "share"), [(60, "2/3"), (200, "2/3"), (240, "3/5"), (300, "1/2"), (320, "1/2")])
def test_the_faster_the_more_even(tempo, share):
    assert beats("RL", tempo, feel="swing", time="1/4")[1] == Fraction(share)


@pytest.mark.parametrize("tempo", range(200, 301, 20))
def test_the_short_note_keeps_a_tenth_of_a_second(tempo):
    first, second = schedule(pattern("RL", feel="swing", time="1/4"), tempo)
    assert second.lasts_s == Fraction(1, 10)
    assert first.lasts_s + second.lasts_s == Fraction(60, tempo)


def test_a_written_ratio_holds_at_every_tempo():
    assert {beats("RL", tempo, feel="swing 3:2", time="1/4")[1] for tempo in (40, 120, 320)} == {Fraction(3, 5)}


def test_triplets_stay_and_sixteenths_follow_their_eighths():
    assert beats("RLR RLRL", feel="swing") == parts("0", "1/3", "2/3", "1", "4/3", "5/3", "11/6")


def test_a_beat_of_sextuplets_is_played_as_it_is_written():
    sixths = parts(*(f"{number}/6" for number in range(6)))
    assert beats("RLRLRL RL", feel="swing") == [*sixths, *parts("1", "5/3")]
    assert beats("RLLRLL RL", feel="swing") == [*sixths, *parts("1", "5/3")]


def test_thirds_of_one_hand_are_never_overtaken_by_its_own_halves():
    assert beats("R.LRR. RL", feel="swing 3:1") == parts("0", "1/3", "1/2", "2/3", "1", "7/4")


@pytest.mark.parametrize("feel", ["swing", "swing 3:1", "swing 3:2"])
@pytest.mark.parametrize("tempo", [60, 220])
@pytest.mark.parametrize(
    "lines",
    [
        {"right": "xx", "left": "xxx"},
        {"right": "xxx", "left": "xx"},
        {"hands": "RL", "feet": "RLR"},
        {"hands": "RLR", "feet": "RL"},
    ],
)
def test_a_swung_eighth_falls_on_the_third_note_of_a_triplet_beside_it(feel, tempo, lines):
    lines = {"hands": None, **lines}
    assert beats(tempo=tempo, feel=feel, time="1/4", **lines) == parts("0", "0", "1/3", "2/3", "2/3")


def test_the_drawing_shows_it_there():
    made = pattern(None, feel="swing", right="xx", left="xxx", time="1/4")
    assert lane_text(made.hands) == "BLB"
    assert [count.word for count in counts(made)] == ["1", "trip", "let"]


@pytest.mark.parametrize("time", ["1/4", "1/2"])
def test_moments_that_a_rule_speaks_of_stay(time):
    lines = {"right": "xx", "left": "xxx", "place": "1& on ride" if time == "1/4" else "all on pad"}
    made = pattern(None, feel="swing", time=time, **lines)
    assert Fraction(1, 2) in {stroke.at for stroke in strokes(made)}


def test_hands_and_feet_that_both_swing_stay_as_they_are_written():
    made = pattern("RL", feel="swing", feet="RL", time="1/4")
    assert (lane_text(made.hands), lane_text(made.feet)) == ("RL", "RL")


@given(patterns())
def test_a_hand_plays_in_the_order_written(made):
    onsets = [
        onset for onset in schedule(replace(made, repeat=1), made.tempo.start) if onset.stroke.kind is not Kind.GRACE
    ]
    for limb in Limb:
        played = sorted((onset for onset in onsets if onset.stroke.limb is limb), key=lambda onset: onset.stroke.at)
        assert all(one.beat < other.beat for one, other in pairwise(played) if one.stroke.at < other.stroke.at)


def test_sixteenths_may_swing_themselves():
    assert beats("RLRL", 60, feel="swing sixteenths", time="1/4") == parts("0", "1/3", "1/2", "5/6")


def test_eighths_in_halves_swing_within_their_quarter():
    assert beats("RLRL", 60, feel="swing 2:1", time="1/2") == parts("0", "1/3", "1/2", "5/6")


def test_words_picture_and_data_tell_it():
    made = pattern("RL RL", feel="swing")
    assert "eighth notes swing, played over and over" in diagram(made).words.about
    assert ">swing</text>" in diagram(made).html()
    assert ">swing 3:2</text>" in diagram(pattern("RL RL", feel="swing 3:2")).svg()
    data = exercise_data(made, Lesson("week-01/#an-exercise"))
    assert data["swing"] == {"pair": [1, 1], "share": None, "even": []}
    assert [stroke["at"] for stroke in data["strokes"]] == [[0, 1], [1, 2], [1, 1], [3, 2]]


@pytest.mark.parametrize(
    ("feel", "time", "found"),
    [
        ("swung", "4/4", "'swung' is no feel"),
        ("swing 1:2", "4/4", "a swing of 1 to 2"),
        ("swing 5:1", "4/4", "a swing of 5 to 1"),
        ("swing", "6/8", "a swing in 6/8"),
    ],
)
def test_what_can_not_swing(feel, time, found):
    with pytest.raises(PatternError) as error:
        pattern("RLR RLR" if time == "6/8" else "R R R R", feel=feel, time=time)
    (problem,) = error.value.problems
    assert problem.found == found


def test_a_feel_is_taken_over_and_can_be_left():
    page = "```pattern\nid: one\ntitle: One\nfeel: swing\nhands: RL RL\n```\n"
    page += "```pattern\nid: two\ntitle: Two\nfrom: one\nchange: other hand leads\n```\n"
    page += "```pattern\nid: three\ntitle: Three\nfrom: one\nfeel: straight\n```\n"
    found = read_course({"page.md": page}).exercises
    assert found["two"].pattern.swing == found["one"].pattern.swing != found["three"].pattern.swing is None
