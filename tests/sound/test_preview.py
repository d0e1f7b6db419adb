from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from statistics import mean

import numpy as np
import pytest
from hypothesis import given, settings

from tests.sound.made_patterns import pattern, patterns
from wristwork.pattern.model import Level
from wristwork.sound.encoding import decoded
from wristwork.sound.kit import Kit, KitVoice
from wristwork.sound.kit.samples import RATE, loudest_db
from wristwork.sound.kit.voices import level_db
from wristwork.sound.peaks import HIGHEST_DBTP, KNEE_DB, decibels, true_peak
from wristwork.sound.preview import LEAD_IN, LONGEST, preview, preview_starts, preview_times, previews
from wristwork.sound.schedule import schedule

KIT = Kit()
DELAY = 1105  # samples that encoder and decoder put in front
PARADIDDLE = pattern("R>LRR L>RLL R>LRR L>RLL", tempo="60 to 100")


def begins(wave):
    """Where a sound starts after at least 40 ms of (almost) nothing."""
    heard = np.flatnonzero(np.abs(wave) > 1e-7)
    return [int(heard[0]), *(int(b) for a, b in pairwise(heard) if b - a > 0.04 * RATE)]


def seconds_of(made, tempo):
    times = preview_times(made, tempo)
    return float(times.begins), times.passes, float(times.ends)


def test_one_bar_of_click_comes_first_then_whole_passes():
    starts = preview_starts(PARADIDDLE, 60)
    clicks = [start for start in starts if start.voice.instrument == "click"]
    assert [start.voice.level for start in clicks] == ["high", "low", "low", "low"]
    assert [start.sample for start in clicks] == [round((LEAD_IN + n) * RATE) for n in range(4)]
    assert len(starts) - 4 == 2 * 16
    assert starts[4].sample == round((LEAD_IN + 4) * RATE)


def test_compound_time_clicks_its_beats():
    made = pattern("RLR LRL", time="6/8", tempo="60")
    assert sum(start.voice.instrument == "click" for start in preview_starts(made, 60)) == 2


@pytest.mark.parametrize(
    ("hands", "time", "tempo", "passes"),
    [("R L R L", "4/4", 60, 2), ("R L R L", "4/4", 120, 4), ("R L R", "3/4", 60, 3), ("R", "1/4", 320, 43)],
)
def test_it_plays_for_eight_seconds_or_two_passes_whichever_is_longer(hands, time, tempo, passes):
    made = pattern(hands, time=time, tempo=str(tempo))
    begin, played, end = seconds_of(made, tempo)
    assert played == passes
    assert played * made.beats * 60 / tempo >= 8
    assert end == begin + played * made.beats * 60 / tempo + 1.5


def test_a_pass_holds_its_repeats():
    made = pattern("R L R L", time="4/4", tempo="60", repeat="3")
    assert seconds_of(made, 60)[1] == 2
    assert sum(start.voice.instrument != "click" for start in preview_starts(made, 60)) == 24


def test_a_long_exercise_is_faded_at_forty_seconds():
    made = pattern(" ".join(["RLRL"] * 32), time="4/4", tempo="40")
    wave = preview(made, 40, KIT)
    assert len(wave) == LONGEST * RATE
    early, late = wave[36 * RATE : 37 * RATE], wave[-RATE // 2 :]
    assert np.abs(late).max() < 0.2 * np.abs(early).max()
    assert not wave[-1]


def test_a_bar_too_long_to_count_is_counted_in_by_its_last_beats():
    made = pattern(" ".join("RLRLRLRLRLRLRLRL"), time="16/4", tempo="20")
    times = preview_times(made, 20)
    assert times.clicks == 6
    assert times.ends <= LONGEST


def test_nothing_starts_hard():
    wave = preview(PARADIDDLE, 60, KIT)
    assert not wave[: round(LEAD_IN * RATE)].any()
    assert not wave[-1]


def test_every_onset_is_found_within_one_sample_of_the_score():
    # Slow enough that every sound is gone before the next starts.
    made = pattern("R>L (R)L> . R>.", time="4/4", tempo="60")
    start = LEAD_IN + 4
    expected = [LEAD_IN + n for n in range(4)] + [start + onset.starts_s for onset in schedule(made, 60, 2)]
    found = begins(preview(made, 60, KIT))
    assert len(found) == len(expected)
    assert all(abs(sample - at * RATE) <= 1 for sample, at in zip(found, expected, strict=True))


def test_onsets_keep_their_places_through_encoding():
    made = pattern("R>. R>. R>. R>.", time="4/4", tempo="60")
    wave = decoded(previews(made, KIT)["start.mp3"])[DELAY:]
    for onset in schedule(made, 60, 2):
        at = round((LEAD_IN + 4 + onset.starts_s) * RATE)
        around = np.abs(wave[at - 400 : at + 400])
        begin = int(np.argmax(around > 0.3 * around.max())) - 400
        assert abs(begin) < 20


def test_on_the_pad_levels_differ_as_they_should():
    made = pattern("R>.L. (R).L. R>.(L). R.L>.", tempo="60")
    wave = preview(made, 60, KIT)
    peaks = {level: [] for level in Level}
    for onset in schedule(made, 60, 2):
        at = round((LEAD_IN + 4 + onset.starts_s) * RATE)
        peaks[onset.stroke.level].append(float(np.abs(wave[at : at + 2000]).max()))
    accent, tap, ghost = (decibels(mean(peaks[level])) for level in (Level.ACCENT, Level.TAP, Level.GHOST))
    assert 8 <= accent - tap <= 12
    assert 6 <= tap - ghost <= 10


def test_one_file_where_both_tempos_are_the_same():
    assert list(previews(pattern("R L R L", tempo="72"), KIT)) == ["start.mp3"]


@pytest.mark.parametrize(
    ("hands", "lines"),
    [
        ("R . L . R .", {}),
        ("R>LRR L>RLL R>LRR L>RLL", {}),
        ("B>B>B>B> B>B>B>B>", {}),
        ("(R)(L)(R)(L) (R)(L)(R)(L)", {}),
        ("R>LRL R>LRL", {"place": "all on snare, accents on rim shot", "feet": "R L . ."}),
    ],
)
def test_a_tap_is_as_loud_in_every_preview(hands, lines):
    made = pattern(f"{hands} R .", tempo="60 to 90", **lines)
    heard = [
        tap_db(decoded(file), made, tempo) for file, tempo in zip(previews(made, KIT).values(), (60, 90), strict=True)
    ]
    there = level_db(KitVoice("pad" if not lines else "snare", "tap"))
    assert all(abs(level - there) <= 0.6 for level in heard)


def tap_db(wave, made, tempo):
    """The level of the pattern's last stroke, which stands alone, in its last pass."""
    times = preview_times(made, tempo)
    last = [onset.starts_s for onset in schedule(made, tempo, times.passes) if onset.stroke.limb.is_hand][-1]
    at = DELAY + round((times.begins + last) * RATE)
    return loudest_db(wave[at - 200 : at + 9000])


def test_the_same_exercise_gives_the_same_bytes():
    made = pattern("R L R L", tempo="200")
    assert previews(made, KIT) == previews(made, KIT)


def test_a_pattern_of_rests_still_counts_in():
    wave = decoded(previews(pattern(". . . .", tempo="60"), KIT)["start.mp3"])
    assert np.abs(wave).max() > 0.1


@settings(max_examples=12, deadline=None)
@given(patterns())
def test_no_preview_has_a_peak_above_its_bound(made):
    for file, tempo in zip(previews(made, KIT).values(), (made.tempo.start, made.tempo.goal), strict=False):
        wave = decoded(file)
        assert decibels(true_peak(wave)) <= HIGHEST_DBTP
        whole = Fraction(len(wave), RATE)
        assert preview_times(made, tempo).ends <= whole < LONGEST + Fraction(1, 10)


def test_a_pattern_of_accents_is_not_touched_by_the_safety_stage():
    for lines in ({}, {"place": "all on snare", "feet": "R . R ."}):
        made = pattern("R>L R>L R>L R>L", time="4/4", tempo="80", **lines)
        assert decibels(float(np.abs(preview(made, 80, KIT)).max())) <= KNEE_DB
