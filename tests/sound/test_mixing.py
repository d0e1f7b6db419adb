from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.sound.made_patterns import pattern, patterns
from wristwork.pattern.model import Drum, Level
from wristwork.sound.kit import Clip, Kit, KitVoice, Sound, voice_of
from wristwork.sound.kit.samples import RATE
from wristwork.sound.kit.voices import CHOKE_SECONDS, VOICES, sound_in_turn
from wristwork.sound.mixing import SoundStart, mixed, sound_starts
from wristwork.sound.schedule import bounces, schedule
from wristwork.technique.strokes import Kind

# Every sound of this kit is a single sample, so that a mix shows exactly where each hit starts.
POINT = Sound(((Clip("point", np.array([32767], np.int16)), 1.0),))
POINTS = Kit(dict.fromkeys(VOICES, (POINT,)))
KIT = Kit()
PAD = voice_of(Drum.PAD, Level.TAP)
OPEN = voice_of(Drum.OPEN_HI_HAT, Level.TAP)


def energy(wave, start, seconds):
    return float(np.sum(wave[start : start + round(seconds * RATE)].astype(float) ** 2))


def test_a_hit_sounds_from_exactly_its_sample_on():
    whole = mixed([SoundStart(1000, PAD)], KIT, 8000)
    sound = KIT.sounds(PAD)[0].samples
    assert not whole[:1000].any()
    assert np.array_equal(whole[1000 : 1000 + len(sound)], sound)


def test_repeated_hits_take_the_sounds_in_turn():
    starts = range(0, 6 * 5000, 5000)
    whole = mixed([SoundStart(start, PAD) for start in starts], KIT, 30000)
    heard = [whole[start : start + 4000].tobytes() for start in starts]
    assert len(set(heard[:4])) == 4
    assert heard[:2] == heard[4:]


def test_each_hand_takes_its_own_sounds_and_none_twice_running():
    hands = ["right", "right", "left", "left", "right", "left", "right"]
    whole = mixed([SoundStart(start * 5000, PAD, hand=hand) for start, hand in enumerate(hands)], KIT, 40000)
    heard = [whole[start * 5000 :][:4000].tobytes() for start in range(len(hands))]
    by_hand = {side: {wave for wave, hand in zip(heard, hands, strict=True) if hand == side} for side in hands}
    assert not by_hand["right"] & by_hand["left"]
    assert len(by_hand["right"]) == len(by_hand["left"]) == 2
    assert all(one != next_one for one, next_one in pairwise(heard))


@given(st.integers(1, 9), st.lists(st.sampled_from(["right", "left", None]), max_size=40))
def test_a_hand_never_takes_one_sound_twice_running_where_it_has_two(count, hands):
    counted: Counter[str | None] = Counter()
    last: dict[str | None, int] = {}
    for turn, hand in enumerate(hands):
        place = sound_in_turn(count, turn, counted[hand], hand)
        assert 0 <= place < count
        if count >= 4 and hand:
            assert place % 2 == (hand == "left")
            assert place != last.get(hand)
        counted[hand] += 1
        last[hand] = place


def test_each_voice_has_its_own_turn():
    snare = voice_of(Drum.SNARE, Level.TAP)
    alone = mixed([SoundStart(0, PAD), SoundStart(9000, PAD)], KIT, 12000)
    between = mixed([SoundStart(0, PAD), SoundStart(9000, PAD), SoundStart(4500, snare)], KIT, 12000)
    snare_only = mixed([SoundStart(4500, snare)], KIT, 12000)
    assert np.allclose(between - snare_only, alone, atol=1e-6)


def test_what_would_sound_after_the_end_is_left_out():
    whole = mixed([SoundStart(90, PAD), SoundStart(100, PAD), SoundStart(2000, PAD)], KIT, 100)
    assert len(whole) == 100
    assert whole[90:].any()


def test_a_closed_or_foot_hi_hat_ends_the_open_one():
    ringing = energy(mixed([SoundStart(0, OPEN)], KIT, RATE), 10000, 0.3)
    for closer in (Drum.HI_HAT, Drum.HI_HAT_FOOT):
        closed = SoundStart(5000, voice_of(closer, Level.TAP))
        both = mixed([SoundStart(0, OPEN), closed], KIT, RATE) - mixed([closed], KIT, RATE)
        silent_from = 5000 + round(CHOKE_SECONDS * RATE)
        assert energy(both, 0, 0.1) > 0
        assert energy(both, silent_from, 0.3) < 1e-9 < 1e-3 * ringing


def test_strokes_at_one_moment_and_other_drums_choke_nothing():
    alone = mixed([SoundStart(0, OPEN)], KIT, RATE)
    for other in (
        SoundStart(0, voice_of(Drum.HI_HAT_FOOT, Level.TAP)),
        SoundStart(5000, voice_of(Drum.SNARE, Level.TAP)),
    ):
        both = mixed([SoundStart(0, OPEN), other], KIT, RATE) - mixed([other], KIT, RATE)
        assert np.allclose(both, alone, atol=1e-6)


def test_the_foot_hi_hat_is_short_by_itself():
    foot = mixed([SoundStart(0, voice_of(Drum.HI_HAT_FOOT, Level.ACCENT))], KIT, RATE)
    assert energy(foot, round(0.25 * RATE), 0.5) < 1e-4 * energy(foot, 0, 0.25)


def test_a_buzz_is_a_run_of_soft_hits_of_one_hand():
    (onset,) = schedule(pattern("Rz", time="1/4"), 60)
    run = list(sound_starts([onset], Fraction(1)))
    assert [start.sample for start in run] == [RATE + round(bounce.after * RATE) for bounce in bounces(1.0)]
    assert {start.hand for start in run} == {"right"}
    assert all(0.2 < start.gain < 0.5 for start in run)


@pytest.mark.parametrize("drum", ["pad", "snare"])
def test_buzzes_knit_into_a_roll(drum):
    made = pattern("RzLz RzLz RzLz RzLz", time="4/4", tempo="80", place=f"all on {drum}")
    whole = mixed(list(sound_starts(schedule(made, 80, 2), Fraction(0))), KIT, 6 * RATE).astype(float)
    # The level at each moment of a stroke, over all strokes after the first ones: what comes back with each stroke.
    length = round(0.375 * RATE)
    strokes = whole[2 * length : 14 * length].reshape(12, length) ** 2
    moments = strokes.mean(axis=0)[: length // 882 * 882].reshape(-1, 882).mean(axis=1)
    level = 10 * np.log10(moments)
    assert level.max() - level.min() < 4.5
    assert abs(level[:5].mean() - level[-5:].mean()) < 3


@settings(max_examples=50, deadline=None)
@given(patterns())
def test_onsets_in_the_mix_are_those_of_the_schedule_to_the_sample(made):
    onsets = [onset for onset in schedule(made, made.tempo.goal, 1) if onset.stroke.kind is not Kind.BUZZ]
    count = 2 * RATE + round(float(made.beats * made.repeat * 60 / made.tempo.goal) * RATE)
    whole = mixed(list(sound_starts(onsets, Fraction(1))), POINTS, count)
    expected = {(1 + onset.starts_s) * RATE for onset in onsets}
    found = np.flatnonzero(whole)
    assert all(min(abs(sample - at) for at in expected) <= 0.5 for sample in found)
    assert {int(sample) for sample in found} == {round(at) for at in expected}


@settings(max_examples=25, deadline=None)
@given(patterns())
def test_any_pattern_on_the_real_kit_is_finite_and_bounded(made):
    played = list(sound_starts(schedule(made, made.tempo.goal, 2), Fraction(1)))
    whole = mixed(played, KIT, 4 * RATE)
    assert np.isfinite(whole).all()
    assert 0 <= np.abs(whole).max() < 16


def test_the_click_has_one_sound_a_pitch():
    assert len(KIT.sounds(KitVoice("click", "high"))) == 1
