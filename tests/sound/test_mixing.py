from __future__ import annotations

from fractions import Fraction

import numpy as np
from hypothesis import given, settings

from tests.sound.made_patterns import pattern, patterns
from wristwork.pattern.model import Drum, Level
from wristwork.sound.kit import Kit, Sound, Voice, voice_of
from wristwork.sound.kit.samples import RATE
from wristwork.sound.kit.voices import CHOKE_SECONDS, VOICES
from wristwork.sound.mixing import Hit, hits, mixed
from wristwork.sound.schedule import bounces, schedule
from wristwork.technique.strokes import Kind

# Every sound of this kit is a single sample, so that a mix shows exactly where each hit starts.
POINTS = Kit({voice: (Sound(np.array([32767], np.int16), 1.0),) for voice in VOICES})
KIT = Kit()
PAD = voice_of(Drum.PAD, Level.TAP)
OPEN = voice_of(Drum.OPEN_HI_HAT, Level.TAP)


def energy(wave, start, seconds):
    return float(np.sum(wave[start : start + round(seconds * RATE)].astype(float) ** 2))


def test_a_hit_sounds_from_exactly_its_sample_on():
    whole = mixed([Hit(1000, PAD)], KIT, 8000)
    sound = KIT.sounds(PAD)[0].samples
    assert not whole[:1000].any()
    assert np.array_equal(whole[1000 : 1000 + len(sound)], sound)


def test_repeated_hits_take_the_sounds_in_turn():
    starts = range(0, 6 * 5000, 5000)
    whole = mixed([Hit(start, PAD) for start in starts], KIT, 30000)
    heard = [whole[start : start + 4000].tobytes() for start in starts]
    assert len(set(heard[:3])) == 3
    assert heard[:3] == heard[3:]


def test_each_voice_has_its_own_turn():
    snare = voice_of(Drum.SNARE, Level.TAP)
    alone = mixed([Hit(0, PAD), Hit(9000, PAD)], KIT, 12000)
    between = mixed([Hit(0, PAD), Hit(9000, PAD), Hit(4500, snare)], KIT, 12000)
    snare_only = mixed([Hit(4500, snare)], KIT, 12000)
    assert np.allclose(between - snare_only, alone, atol=1e-6)


def test_what_would_sound_after_the_end_is_left_out():
    whole = mixed([Hit(90, PAD), Hit(100, PAD), Hit(2000, PAD)], KIT, 100)
    assert len(whole) == 100
    assert whole[90:].any()


def test_a_closed_or_foot_hi_hat_ends_the_open_one():
    ringing = energy(mixed([Hit(0, OPEN)], KIT, RATE), 10000, 0.3)
    for closer in (Drum.HI_HAT, Drum.HI_HAT_FOOT):
        closed = Hit(5000, voice_of(closer, Level.TAP))
        both = mixed([Hit(0, OPEN), closed], KIT, RATE) - mixed([closed], KIT, RATE)
        silent_from = 5000 + round(CHOKE_SECONDS * RATE)
        assert energy(both, 0, 0.1) > 0
        assert energy(both, silent_from, 0.3) < 1e-9 < 1e-3 * ringing


def test_strokes_at_one_moment_and_other_drums_choke_nothing():
    alone = mixed([Hit(0, OPEN)], KIT, RATE)
    for other in (Hit(0, voice_of(Drum.HI_HAT_FOOT, Level.TAP)), Hit(5000, voice_of(Drum.SNARE, Level.TAP))):
        both = mixed([Hit(0, OPEN), other], KIT, RATE) - mixed([other], KIT, RATE)
        assert np.allclose(both, alone, atol=1e-6)


def test_the_foot_hi_hat_is_short_by_itself():
    foot = mixed([Hit(0, voice_of(Drum.HI_HAT_FOOT, Level.ACCENT))], KIT, RATE)
    assert energy(foot, round(0.12 * RATE), 0.5) < 1e-6 * energy(foot, 0, 0.12)


def test_a_buzz_is_a_run_of_hits_that_fade():
    (onset,) = schedule(pattern("Rz", time="1/4"), 60)
    run = list(hits([onset], Fraction(1)))
    assert [hit.sample for hit in run] == [RATE + round(bounce.after * RATE) for bounce in bounces(1.0)]
    assert run[0].gain == 1
    assert run[-1].gain < 0.3
    assert run[-1].sample < 2 * RATE


@settings(max_examples=50, deadline=None)
@given(patterns())
def test_onsets_in_the_mix_are_those_of_the_schedule_to_the_sample(made):
    onsets = [onset for onset in schedule(made, made.tempo.goal, 1) if onset.stroke.kind is not Kind.BUZZ]
    count = 2 * RATE + round(float(made.beats * made.repeat * 60 / made.tempo.goal) * RATE)
    whole = mixed(list(hits(onsets, Fraction(1))), POINTS, count)
    expected = {(1 + onset.at) * RATE for onset in onsets}
    found = np.flatnonzero(whole)
    assert all(min(abs(sample - at) for at in expected) <= 0.5 for sample in found)
    assert {int(sample) for sample in found} == {round(at) for at in expected}


@settings(max_examples=25, deadline=None)
@given(patterns())
def test_any_pattern_on_the_real_kit_is_finite_and_bounded(made):
    played = list(hits(schedule(made, made.tempo.goal, 2), Fraction(1)))
    whole = mixed(played, KIT, 4 * RATE)
    assert np.isfinite(whole).all()
    assert 0 <= np.abs(whole).max() < 16


def test_the_click_has_one_sound_a_pitch():
    assert len(KIT.sounds(Voice("click", "high"))) == 1
