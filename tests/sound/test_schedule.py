from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings

from tests.sound.made_patterns import pattern, patterns
from wristwork.sound.schedule import (
    bounces,
    count_in_beats,
    counted_tempo,
    pass_seconds,
    preview_names,
    schedule,
)
from wristwork.sound.swing import even_pairs, swung
from wristwork.technique.strokes import Kind, strokes

F = Fraction


def times(made, tempo, passes=1):
    return [onset.starts_s for onset in schedule(made, tempo, passes)]


def test_four_sixteenths_at_sixty_are_a_quarter_of_a_second_apart():
    assert times(pattern("RLRL", time="1/4"), 60) == [0, F(1, 4), F(1, 2), F(3, 4)]


def test_a_compound_beat_is_one_beat_of_the_tempo():
    assert times(pattern("RLR LRL", time="6/8"), 90) == [F(2, 9) * n for n in range(6)]


def test_a_pass_holds_every_repeat_and_passes_follow_each_other():
    made = pattern("RL", time="1/4", repeat="3")
    assert times(made, 60, passes=2) == [F(n, 2) for n in range(12)]


def test_without_a_loop_passes_are_as_long_as_with_one():
    looped = pattern("R>L", time="1/4", repeat="2")
    once = pattern("R>L", time="1/4", repeat="2", loop="no")
    assert times(once, 60, 2) == times(looped, 60, 2)


BAR = "RLRL RLRL RLRL RLRL"


def test_a_pass_lasts_as_long_as_the_tempos_of_its_sections_say():
    assert pass_seconds(pattern(BAR, tempo="60 to 120"), 120) == 2
    faster = pattern(f"{BAR} | {BAR}", tempo="60", tempos="120 at bar 2")
    assert pass_seconds(faster, 60) == 4 + 2
    assert pass_seconds(faster, 30) == 8 + 4
    assert counted_tempo(faster, 60) == 60


def test_a_bar_is_counted_in_and_with_a_pick_up_all_that_lies_before_it():
    assert count_in_beats(pattern(BAR)) == 4
    assert count_in_beats(pattern("RL | R R R RL", time="4/4", **{"pick-up": "1"})) == 2 * 4 - 1


def test_there_is_one_preview_where_there_is_one_tempo():
    assert preview_names(pattern(BAR, tempo="60")) == ("start.mp3",)
    assert preview_names(pattern(BAR, tempo="60 to 61")) == ("start.mp3", "goal.mp3")


def test_a_flam_sounds_thirty_milliseconds_ahead():
    grace, main = schedule(pattern("lR", time="1/4"), 60)
    assert (grace.starts_s, main.starts_s) == (F(-30, 1000), 0)
    assert grace.lasts_s == F(30, 1000)


def test_the_strokes_of_a_drag_are_evenly_spaced():
    for tempo, spacing in ((40, 50), (60, 50), (120, 40)):
        assert times(pattern("llR", time="1/4"), tempo) == [F(-2 * spacing, 1000), F(-spacing, 1000), 0]


def test_an_ornament_is_squeezed_into_half_the_time_since_that_hands_stroke_before():
    # Sixteenths at 300: a left stands 0.05 s before the flam's main note, so 0.025 s are left for the grace note.
    made = pattern("RL lRL", time="2/4")
    grace = next(onset for onset in schedule(made, 300) if onset.stroke.kind is Kind.GRACE)
    before = next(onset for onset in schedule(made, 300) if onset.stroke.at == F(1, 2))
    assert F(1, 5) - grace.starts_s == F(30, 1000)
    tight = pattern("RLRL lRLRL", time="2/4")
    grace = next(onset for onset in schedule(tight, 300) if onset.stroke.kind is Kind.GRACE)
    assert F(1, 5) - grace.starts_s == F(25, 1000)
    assert before.starts_s == F(1, 10)


def test_a_squeezed_drag_keeps_its_proportions():
    made = pattern("RLRL llRLRL", time="2/4")
    first, second = (onset for onset in schedule(made, 200) if onset.stroke.kind is Kind.GRACE)
    main = F(3, 10)
    assert main - first.starts_s == F(3, 80)
    assert main - first.starts_s == 2 * (main - second.starts_s)


def test_the_strokes_of_a_slash_share_the_slot_evenly():
    assert times(pattern("R/3L", time="1/4"), 60) == [0, F(1, 6), F(1, 3), F(1, 2)]


def test_hands_and_feet_together_keep_the_playing_order():
    made = pattern("BR", feet="R", time="1/4")
    assert [onset.stroke.limb.value for onset in schedule(made, 60)] == [
        "right hand",
        "left hand",
        "right foot",
        "right hand",
    ]


@pytest.mark.parametrize("length", [0.04, 0.09, 0.25, 1.0, 3.0])
def test_a_buzz_fills_its_slot_with_even_bounces(length):
    run = bounces(length)
    gaps = [b.after - a.after for a, b in pairwise(run)]
    assert run[0].after == 0
    assert all(1 > a.gain > b.gain > 0.2 for a, b in pairwise(run))
    assert all(0.009 < gap < 0.021 for gap in gaps)
    assert max(gaps) == pytest.approx(min(gaps))
    assert run[-1].after + gaps[0] == pytest.approx(length)
    assert run[0].gain < 2**0.5 * run[-1].gain


def test_a_drag_closes_with_the_tempo_and_a_flam_does_not():
    def ahead(graces, tempo):
        made = pattern(f"R - {graces}R -", time="4/4")
        (grace, *_) = (onset for onset in schedule(made, tempo) if onset.stroke.kind is Kind.GRACE)
        return grace.lasts_s

    assert [ahead("ll", tempo) for tempo in (40, 60, 90, 120, 200)] == [
        F(1, 10),
        F(1, 10),
        F(9, 100),
        F(8, 100),
        F(8, 100),
    ]
    assert {ahead("l", tempo) for tempo in (40, 120, 200)} == {F(3, 100)}


@settings(max_examples=60, deadline=None)
@given(patterns())
def test_every_stroke_of_every_pass_sounds_where_it_is_written(made):
    tempo = made.tempo.start
    onsets = schedule(made, tempo, 2)
    written = strokes(made)
    even = even_pairs(made, written)
    rounds = 2 * (made.repeat if made.loop else 1)
    assert len(onsets) == rounds * len(written)
    assert [onset.starts_s for onset in onsets] == sorted(onset.starts_s for onset in onsets)
    span = F(60, tempo) * made.beats * made.repeat
    for onset in onsets:
        meant = swung(onset.stroke.at, made, tempo, even)  # the same as written, unless it swings
        assert meant == onset.stroke.at or made.swing is not None
        from_written = (onset.starts_s - meant * F(60, tempo)) % (span / (made.repeat if made.loop else 1))
        if onset.stroke.kind is Kind.GRACE:
            ahead = -from_written % (span / (made.repeat if made.loop else 1))
            assert 0 < ahead <= min(F(onset.stroke.ahead_ms, 1000), onset.stroke.ahead_at_most * F(60, tempo))
        else:
            assert from_written == 0


@pytest.mark.parametrize(
    ("hands", "lengths"),
    [("RLRL", [F(1, 4)] * 4), ("R-L. R---", [F(1, 2), F(1, 4), F(1)]), ("lR---", [F(30, 1000), F(1)])],
)
def test_a_stroke_fills_its_slot_and_a_grace_note_the_time_up_to_its_main_note(hands, lengths):
    made = pattern(hands, time=f"{len(hands.split())}/4")
    assert [onset.lasts_s for onset in schedule(made, 60)] == lengths


@pytest.mark.parametrize(("length", "count"), [(0.001, 2), (0.024, 2), (0.0299, 2), (0.0301, 3), (0.12, 10)])
def test_a_buzz_has_as_many_bounces_as_fit_to_the_nearest_whole_number(length, count):
    assert len(bounces(length)) == count


def test_the_bounces_of_a_buzz_are_softer_than_a_stroke_by_decibels():
    first, second, *_, last = bounces(0.12)
    assert first.gain == pytest.approx(0.42170, abs=1e-5)  # 7.5 dB
    assert second.gain == pytest.approx(0.37154, abs=1e-5)  # 8.5 dB and a tenth of 1 dB
    assert last.gain == pytest.approx(0.33884, abs=1e-5)  # 8.5 dB and nine tenths of 1 dB
