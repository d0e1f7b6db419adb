"""When strokes sound: the player's rendering against the exact times that Python works out."""

from __future__ import annotations

import json
from fractions import Fraction
from itertools import pairwise

import pytest
from playwright.sync_api import Page

from tests.site.player.site import ENDING, FLAMS, GROOVE, PARADIDDLE, RATE, exercise_json
from wristwork.pattern import read_one
from wristwork.pattern.model import Pattern
from wristwork.sound.schedule import (
    Bounce,
    beat_seconds,
    bounces,
    count_in_beats,
    counted_tempo,
    pass_seconds,
    schedule,
)
from wristwork.technique.strokes import Kind, Limb, as_written

pytestmark = pytest.mark.browser

HEIGHTS = {"ghost": 0.03125, "tap": 0.0625, "accent": 0.125}
CLICKS = {True: 0.0078125, False: 0.00390625}
# From the press to the first sound, and the room for grace notes before a first beat that no count-in precedes.
LEAD, ORNAMENT = Fraction(8, 100), Fraction(16, 100)
WISH = {"hands": "both", "swapHands": False, "swapFeet": False, "click": False, "loop": True, "climb": None}

ONE_PACE = {"pace": {"spans": [{"start": 0, "share": 1, "elapsed": 0}], "beats": 4}}

Onset = tuple[Fraction, float]


def render(page: Page, text: str, **options: object) -> list[Onset]:
    """What is heard, as (second, height)."""
    call = {"exercise": json.loads(exercise_json(text)), "wish": WISH, **options}
    found = page.evaluate("async (call) => (await import('/offline.js')).render(call)", call)
    return [(Fraction(sample, RATE), value) for sample, value in found]


def counted_in(pattern: Pattern, tempo: int) -> list[Onset]:
    time, beat = pattern.time, beat_seconds(counted_tempo(pattern, tempo))
    high = time.pulse_starts if time.pulses else {0}
    return [(LEAD + number * beat, CLICKS[number % time.beats in high]) for number in range(count_in_beats(pattern))]


def stroke_onsets(pattern: Pattern, tempo: int, start: Fraction, passes: int) -> list[Onset]:
    """Every stroke (and every bounce of a buzz) as the previews have it."""
    found: list[Onset] = []
    for onset in schedule(pattern, tempo, passes):
        height = HEIGHTS[onset.stroke.level.value] * 10 ** (onset.stroke.louder_db / 20)
        run = bounces(float(onset.lasts_s)) if onset.stroke.kind is Kind.BUZZ else (Bounce(0.0, 1.0),)
        found += [(start + onset.starts_s + Fraction(bounce.after), height * bounce.gain) for bounce in run]
    return found


def assert_heard(heard: list[Onset], expected: list[Onset]) -> None:
    """The same onsets, none more than one sample away; what falls on one sample adds up."""
    sums: dict[int, float] = {}
    for at, height in expected:
        sums[round(at * RATE)] = sums.get(round(at * RATE), 0.0) + height
    assert sum(value for _, value in heard) == pytest.approx(sum(sums.values()), rel=1e-4)
    assert len(heard) == len(sums)
    for (at, value), (sample, height) in zip(heard, sorted(sums.items()), strict=True):
        assert abs(at * RATE - sample) <= 1
        assert value == pytest.approx(height, rel=1e-4)


SWUNG = """id: swung
title: Swung
time: 4/4
feel: swing
hands: RL RLRL RLR RzL | lRL R-LR RLLRLL R^/L
dynamics: pp at bar 1 growing, f at beat 4 of bar 1, mp at bar 2
feet: R.L. . RL L
"""
SONG = """id: song
title: A song
time: 3/4
pick-up: 1
loop: yes
hands: lR | R>{LRL} R L | % | L RzL R | R> L> . | RL RL
repeats: bars 1 to 3
endings: bar 3 then bar 4
"""
TEMPOS = SONG.replace("time:", "tempo: 100\ntempos: 80 at bar 1, 150 at bar 2, 100 at bar 3\nfeel: swing\ntime:")
IN_SEVEN = """id: in-seven
title: In seven
time: 9/8 as 2+2+2+3
hands: RL RL RLRL RLR
"""


@pytest.mark.parametrize(
    "text",
    [PARADIDDLE, FLAMS, GROOVE, SWUNG, SWUNG.replace("swing", "swing sixteenths 5:3"), IN_SEVEN, SONG, TEMPOS],
    ids=["paradiddle", "flams", "groove", "swung", "swung-sixteenths", "in-nine", "song", "tempos"],
)
@pytest.mark.parametrize("tempo", [61, 137, 320])
def test_every_stroke_of_three_passes_is_where_the_score_says(ticking: Page, text: str, tempo: int):
    pattern = read_one(text)
    count_in = counted_in(pattern, tempo)
    start = LEAD + count_in_beats(pattern) * beat_seconds(counted_tempo(pattern, tempo))
    expected = count_in + stroke_onsets(pattern, tempo, start, passes=4)
    seconds = start + 3 * pass_seconds(pattern, tempo) / pattern.repeat - Fraction(1, 5)
    heard = render(ticking, text, tempo=tempo, seconds=float(seconds))
    assert_heard(heard, [onset for onset in expected if onset[0] < Fraction(round(seconds * RATE), RATE)])


def test_the_drawing_is_followed_wherever_the_form_goes(ticking: Page):
    data = json.loads(exercise_json(SONG))
    beats = [0, 0.5, 1, 9.5, 10, 15.75, 16, 19, 20.5]
    call = {"data": data, "beats": beats}
    drawn = ticking.evaluate(
        """async ({data, beats}) => {
          const {drawnAt, readScore} = await import('/assets/wristwork/0123456789/player-schedule.js');
          return beats.map((beat) => drawnAt(readScore(data), beat));
        }""",
        call,
    )
    assert drawn == [2, 2.5, 3, 11.5, 3, 8.75, 12, 15, 16.5]
    keys = {key for stroke in data["strokes"] for key in ["/".join(map(str, stroke.get("written", stroke["at"])))]}
    assert keys == {f"{stroke.at.numerator}/{stroke.at.denominator}" for stroke in as_written(read_one(SONG))}


def test_the_windows_in_which_it_is_given_out_change_nothing(ticking: Page):
    coarse = render(ticking, FLAMS, tempo=173, seconds=6, every=0.9)
    fine = render(ticking, FLAMS, tempo=173, seconds=6, every=0.0231)
    assert coarse == fine
    assert len(coarse) > 50


def test_without_a_count_in_grace_notes_before_the_first_beat_have_room(ticking: Page):
    text = FLAMS.replace("hands: lR>LrlR", "hands: llR>LrlR").replace("loop: yes", "")
    pattern = read_one(text)
    heard = render(ticking, text, tempo=90, seconds=2.5, countIn=False)
    expected = stroke_onsets(pattern, 90, LEAD + ORNAMENT, passes=1)
    assert_heard(heard, [onset for onset in expected if onset[0] < Fraction(5, 2)])


def test_a_pattern_that_does_not_loop_ends_after_its_repeats(ticking: Page):
    pattern = read_one(ENDING)
    heard = render(ticking, ENDING, tempo=120, seconds=12, wish={**WISH, "loop": False})
    start = LEAD + Fraction(pattern.time.beats * 60, 120)
    assert_heard(heard, counted_in(pattern, 120) + stroke_onsets(pattern, 120, start, passes=1))


def test_clicks_fall_on_every_beat_and_the_first_of_the_bar_is_high(ticking: Page):
    text = "id: compound\ntitle: Compound\ntime: 6/8\nhands: R-- L-- | R-- L--\ntempo: 60\n"
    wish = {**WISH, "click": True, "hands": "left foot"}
    heard = render(ticking, text, tempo=60, seconds=6.5, wish=wish)
    assert_heard(heard, [(LEAD + beat, CLICKS[beat % 2 == 0]) for beat in range(7)])


EVERY = {"beats": [], "offBeats": False, "into": 1, "swung": False, "on": 0, "off": 0}


@pytest.mark.parametrize(
    ("clicks", "heard_at"),
    [
        ({}, {0: "high", 1: "low", 2: "low", 3: "low", 4: "high", 5: "low", 6: "low", 7: "low"}),
        ({"beats": [2, 4]}, {1: "low", 3: "low", 5: "low", 7: "low"}),
        ({"beats": [1]}, {0: "high", 4: "high"}),
        ({"offBeats": True}, {beat + 0.5: "low" for beat in range(8)}),
        ({"offBeats": True, "swung": True}, {beat + 2 / 3: "low" for beat in range(8)}),
        ({"beats": [1], "on": 1, "off": 1}, {0: "high"}),
        ({"on": 1, "off": 1}, {0: "high", 1: "low", 2: "low", 3: "low"}),
        ({"beats": [1], "into": 2}, {0: "high", 4: "high", **{beat + 0.5: "soft" for beat in range(8)}}),
        ({"beats": [3], "into": 3}, {2: "low", 6: "low", **{b + k / 3: "soft" for b in range(8) for k in (1, 2)}}),
        ({"beats": [3], "into": 2, "swung": True}, {2: "low", 6: "low", **{b + 2 / 3: "soft" for b in range(8)}}),
    ],
)
@pytest.mark.parametrize("pickup", [0, 1])
def test_a_practice_click_sounds_where_it_is_asked_for(ticking: Page, clicks: dict, heard_at: dict, pickup: int):
    """In whatever windows it is given out; a count-in has every beat."""
    given = ticking.evaluate(
        """async ({clicks, pickup}) => {
          const {advance} = await import('/assets/wristwork/0123456789/player-schedule.js');
          const score = {bar: 4, accented: new Set([0]), pickup, pass: 8, written: 8, strokes: []};
          const pace = {spans: [{start: 0, share: 1, elapsed: 0}], beats: 8};
          const wish = {click: true, clicks, end: 8 + pickup, climb: null};
          const found = [];
          for (const window of [0.37, 100]) {
            let run = {anchors: [{beat: -2, time: 0, tempo: 60}], next: -2, climbsFrom: 0, pace};
            const sounds = [];
            for (let until = window; run.next < wish.end; until += window) {
              const step = advance(score, run, wish, until);
              run = step.run;
              sounds.push(...step.sounds.map(({beat, time, level, gain}) => [beat, time, gain < 1 ? "soft" : level]));
            }
            found.push(sounds);
          }
          return found;
        }""",
        {"clicks": {**EVERY, **clicks}, "pickup": pickup},
    )
    fine, coarse = given
    assert sorted(fine) == sorted(coarse)
    assert [beat for beat, _, _ in coarse if beat < 0] == [-2, -1]
    assert all(time == pytest.approx(beat + 2) for beat, time, _ in coarse)
    found = {round(beat - pickup, 6): level for beat, _, level in coarse if beat >= pickup}
    assert found == {round(beat, 6): level for beat, level in heard_at.items()}


def test_a_link_carries_a_click_and_nothing_else(ticking: Page):
    codes = ["all", "2.4", "1", "off", "all-3", "1-s2-2on2off", "3-4-4on1off"]
    bad = ["", "5", "0", "2.9", "all-1", "all-7", "1-17on1off", "<script>", "all-3-", "2..4", None]
    read = ticking.evaluate(
        """async (codes) => {
          const {clicksCode, readClicks} = await import('/assets/wristwork/0123456789/player-clicks.js');
          return codes.map((code) => readClicks(code, 4)).map((clicks) => clicks && clicksCode(clicks));
        }""",
        [*codes, *bad],
    )
    assert read == [*codes, *[None] * len(bad)]


@pytest.mark.parametrize("swapped", [False, True])
@pytest.mark.parametrize("hand", [Limb.RIGHT_HAND, Limb.LEFT_HAND])
def test_one_hand_only_is_one_hand_of_this_reader(ticking: Page, hand: Limb, swapped: bool):
    pattern = read_one(PARADIDDLE)
    written = hand if not swapped else next(limb for limb in (Limb.RIGHT_HAND, Limb.LEFT_HAND) if limb is not hand)
    wish = {**WISH, "hands": hand.value, "swapHands": swapped}
    heard = render(ticking, PARADIDDLE, tempo=120, seconds=4, wish=wish)
    start = LEAD + 2
    alone = [
        (start + onset.starts_s, HEIGHTS[onset.stroke.level.value])
        for onset in schedule(pattern, 120)
        if onset.stroke.limb is written
    ]
    assert_heard(heard, counted_in(pattern, 120) + [onset for onset in alone if onset[0] < 4])


def test_a_climb_steps_up_at_the_start_of_a_pass_and_stays_at_the_top(ticking: Page):
    text = "id: two-beats\ntitle: Two beats\nhands: RL RL\n"
    wish = {**WISH, "climb": {"every": 2, "by": 30, "top": 220}}
    heard = render(ticking, text, tempo=150, seconds=7.5, wish=wish)
    beats = [Fraction(60, 150)] * 2 + [
        Fraction(60, tempo) for tempo in (150, 180, 210, 220, 220, 220) for _ in range(4)
    ]
    onsets, at = [], LEAD
    for number, beat in enumerate(beats):
        onsets += [(at, CLICKS[number == 0])] if number < 2 else [(at, HEIGHTS["tap"]), (at + beat / 2, HEIGHTS["tap"])]
        at += beat
    assert_heard(heard, [onset for onset in onsets if onset[0] < Fraction(15, 2)])


def test_a_change_of_tempo_takes_hold_at_once_and_loses_no_stroke(ticking: Page):
    text = "id: singles\ntitle: Singles\nhands: RLRL RLRL RLRL RLRL\n"
    changes = [[2.5, WISH, 200], [4.0, WISH, 77]]
    heard = render(ticking, text, tempo=240, seconds=7, every=0.05, changes=changes)
    strokes = [at for at, value in heard if value == HEIGHTS["tap"]]
    gaps = [later - sooner for sooner, later in pairwise(strokes)]
    assert all(gap > 0 for gap in gaps)
    for tempo, start, end in ((240, 1.1, 2.5), (200, 2.7, 4.0), (77, 4.4, 7)):
        inside = [(at, gap) for at, gap in zip(strokes, gaps, strict=False) if start < at < end - 0.2]
        assert inside
        for number, (at, _) in enumerate(inside):
            assert abs(at - inside[0][0] - number * Fraction(15, tempo)) * RATE <= 1
    # The one gap in which a change falls lies between the old length and the new one.
    odd = [gap for gap in gaps if all(abs(gap - Fraction(15, tempo)) * RATE > 2 for tempo in (240, 200, 77))]
    assert len(odd) <= 2
    assert all(Fraction(15, 240) < gap < Fraction(15, 77) for gap in odd)


def test_a_change_never_tears_a_grace_note_from_its_main_note(ticking: Page):
    text = "id: drags\ntitle: Drags\nhands: llR rrL llR rrL\n"
    changes = [[2.31 + 0.037 * number, WISH, 100 + number % 2] for number in range(80)]
    heard = render(ticking, text, tempo=100, seconds=7, every=0.037, changes=changes)
    kinds = [value for at, value in heard if at > Fraction(5, 2)]
    assert kinds[kinds.index(HEIGHTS["tap"]) + 1 :][:18] == [HEIGHTS["ghost"], HEIGHTS["ghost"], HEIGHTS["tap"]] * 6
    mains = [at for at, value in heard if value == HEIGHTS["tap"]]
    assert all(Fraction(60, 102) < later - sooner < Fraction(60, 99) for sooner, later in pairwise(mains))


def test_windows_and_tempos_are_pure_arithmetic(ticking: Page):
    call = {
        "exercise": json.loads(exercise_json(PARADIDDLE)),
        "wish": WISH,
        "tempo": 60,
        "until": 12,
        "changes": [[6.2, 90]],
    }
    given = ticking.evaluate("async (call) => (await import('/offline.js')).giveOut(call)", call)
    first, second = given["anchors"]
    assert first == {"beat": -4, "time": 1, "tempo": 60}
    assert second["time"] == pytest.approx(1 + (second["beat"] + 4))
    for sound in given["sounds"]:
        anchor = second if sound["beat"] >= second["beat"] else first
        assert sound["time"] == pytest.approx(anchor["time"] + (sound["beat"] - anchor["beat"]) * 60 / anchor["tempo"])
    strokes = [sound for sound in given["sounds"] if sound["kind"] == "main"]
    assert [sound["beat"] * 4 for sound in strokes] == list(range(len(strokes)))
    taps = [sound["turn"] for sound in strokes if sound["level"] == "tap"]
    assert taps == list(range(len(taps)))


@pytest.mark.parametrize(
    ("anchors", "time", "seconds"),
    [
        ([(-4, 1, 60)], 4.5, 0),
        ([(-4, 1, 60)], 7, 2),
        ([(-4, 1, 60), (-4, 5, 60)], 9.5, 0.5),  # the sounds came late, and a bar more was counted
        ([(-4, 1, 120), (2, 4, 60)], 10, 7),
        ([(0, 1, 60)], 3, 2),
        ([(-4, 1, 60), (0, 6, 60)], 7, 1),  # a stall between count-in and pattern
    ],
)
def test_how_long_it_played_is_told_by_the_clock_of_the_sound(
    ticking: Page, anchors: list[tuple[int, int, int]], time: float, seconds: float
):
    run = {"anchors": [{"beat": beat, "time": at, "tempo": tempo} for beat, at, tempo in anchors], **ONE_PACE}
    asked = "async (call) => (await import('/assets/wristwork/0123456789/player-schedule.js')).playedFor(...call)"
    assert ticking.evaluate(asked, [run, time]) == pytest.approx(seconds)


def values_at(page: Page, text: str, seconds: list[float], **options: object) -> list[float]:
    call = {"exercise": json.loads(exercise_json(text)), "wish": WISH, "tempo": 60, "seconds": 8, **options}
    return page.evaluate("async ([at, call]) => (await import('/offline.js')).valuesAt(at, call)", [seconds, call])


HATS = """\
id: hats
title: Hats
hands: R>.R. ....
place: right on hi-hat, right accents on open hi-hat
"""


def test_a_closed_hi_hat_silences_the_open_one(ringing: Page):
    start = 2.08  # after two beats of count-in
    moments = [start + 0.1, start + 0.49, start + 0.55, start + 1.5, start + 2.1, start + 2.6]
    heard = values_at(ringing, HATS, moments)
    assert heard == pytest.approx([0.5, 0.5, 0, 0, 0.5, 0], abs=0.005)


def test_a_change_lets_ring_what_no_longer_comes_to_be_silenced(ringing: Page):
    # At 20 beats a minute instead of 60 the closed stroke comes a second later.
    moments = [2.18, 2.6, 3.0, 3.55, 4.0]
    heard = values_at(ringing, HATS, moments, changes=[[2.2, WISH, 20]])
    assert heard == pytest.approx([0.5, 0.5, 0.5, 0, 0], abs=0.005)


def test_one_hand_alone_chokes_nothing_of_the_other(ringing: Page):
    text = HATS.replace("R>.R.", "R>.L.").replace("right on hi-hat", "left on hi-hat")
    moments = [2.5, 2.7, 3.5]
    assert values_at(ringing, text, moments) == pytest.approx([0.5, 0, 0], abs=0.005)
    alone = {**WISH, "hands": "right hand"}
    assert values_at(ringing, text, moments, wish=alone) == pytest.approx([0.5] * 3, abs=0.005)


@pytest.mark.parametrize("place", ["pad", "snare", "ride", "kick", "floor tom"])
@pytest.mark.xdist_group("kit")
def test_the_sounds_of_the_kit_start_where_they_are_given_out(kit: Page, place: str):
    """Files have rates of their own: what a browser makes of them still starts on time."""
    lane = "feet: R>... ...." if place == "kick" else f"hands: R>... ....\nplace: all on {place}"
    text = f"id: one-stroke\ntitle: One stroke\n{lane}\n"
    call = {"exercise": json.loads(exercise_json(text)), "wish": WISH, "tempo": 60, "seconds": 2, "countIn": False}
    peak, begins = kit.evaluate("async (call) => (await import('/offline.js')).peakAndStart(call)", call)
    assert 0.05 < peak < 1
    assert 0 <= Fraction(begins, RATE) - (LEAD + ORNAMENT) < Fraction(2, 1000)
