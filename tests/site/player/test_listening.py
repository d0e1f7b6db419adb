"""Finding strokes in a sound, setting them against what was asked, and what is said of it: without a device."""

from __future__ import annotations

import base64
import re
from collections.abc import Iterator
from itertools import pairwise

import numpy as np
import pytest
from playwright.sync_api import Browser, Page

from tests.site.player import site
from tests.site.player.played import CLEAN, FAULTS, PATTERNS, Fault, as_asked, as_heard, asked, played
from tests.site.player.server import Served
from tests.site.player.takes import MEANT_DB, SURFACES, Room, Stroke, matched, take
from wristwork.site.frontend.assets import source
from wristwork.sound.kit.blocks import CLICK_HERTZ

pytestmark = pytest.mark.browser

MODULES = ("stroke-finder", "heard-fit", "judgement", "advice", "listen-asked", "player-schedule")
FIND = """([text, rate]) => {
  const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const samples = new Float32Array(bytes.buffer);
  const found = [];
  const finder = new window.ww.StrokeFinder(rate, (stroke) => found.push(stroke));
  for (let at = 0; at < samples.length; at += 128) finder.hear(samples.subarray(at, at + 128));
  return { found, condition: finder.condition() };
}"""
JUDGE = """([asked, heard]) => {
  const { fitHeard, judge, advise } = window.ww;
  const fit = fitHeard(asked, heard);
  const judgement = fit && judge(asked, heard, fit);
  return judgement && { ...judgement, advice: advise(judgement), offset: fit.offset };
}"""


@pytest.fixture(scope="module")
def scripts(browser: Browser, beeping: Served) -> Iterator[Page]:
    """A page with the scripts that listen, as ``window.ww``."""
    page = browser.new_page()
    page.goto(beeping.url)
    page.evaluate(
        """async ([base, names]) => {
          const modules = await Promise.all(names.map((name) => import(`/${base}/${name}.js`)));
          window.ww = Object.assign({}, ...modules);
        }""",
        [site.SCRIPTS, MODULES],
    )
    yield page
    page.close()


def find(scripts: Page, samples: np.ndarray, rate: int = 48_000) -> tuple[list[dict[str, float]], dict[str, float]]:
    told = scripts.evaluate(FIND, [base64.b64encode(samples.tobytes()).decode(), rate])
    return told["found"], told["condition"]


def judged(scripts: Page, fault: Fault, pattern: str, tempo: float, seed: int, **more: float) -> dict[str, object]:
    rng = np.random.default_rng(seed)
    strokes = asked(pattern, tempo, 2 if tempo < 80 else 4)
    usual = {"jitter": 0.008, "uneven_db": 1.0, "offset": 0.09}
    heard = as_heard(played(rng, strokes, fault, **{**usual, **more}))
    return scripts.evaluate(JUDGE, [as_asked(strokes), heard])


def test_the_clicks_that_are_left_out_are_those_of_the_course() -> None:
    text = source("stroke-finder.js").read_text(encoding="utf-8")
    (pitches,) = re.findall(r"CLICKS_HZ = \[([^\]]+)\]", text)
    assert sorted(map(float, pitches.split(","))) == sorted(CLICK_HERTZ.values())


@pytest.mark.parametrize("rate", [44_100, 48_000])
def test_strokes_are_found_when_they_fall_and_as_loud_as_they_are(scripts: Page, rate: int) -> None:
    late, loud, wrong = [], [], 0
    for seed, surface in enumerate(SURFACES):
        rng = np.random.default_rng(11 + seed)
        strokes = played(rng, asked("paradiddle", 100, 2), CLEAN, jitter=0.008, uneven_db=1, offset=0)
        told, _ = find(scripts, take(rng, strokes, SURFACES[surface], Room(snr=20, reverb=0.3, rate=rate)), rate)
        found = [(one["time"], one["level"]) for one in told]
        pairs = matched(found, strokes)
        wrong += len(found) + len(strokes) - 2 * len(pairs)
        for differences, apart in (
            (late, [found[at][0] - strokes[of].time for at, of in pairs]),
            (loud, [found[at][1] - strokes[of].level for at, of in pairs]),
        ):
            differences.extend(np.abs(np.array(apart) - np.median(apart)))
    assert wrong <= 2, "of 256 strokes, echoes and all"
    assert np.median(late) < 0.001
    assert np.percentile(late, 95) < 0.003
    assert np.median(loud) < 1


def test_a_click_from_a_loudspeaker_is_no_stroke(scripts: Page) -> None:
    rng = np.random.default_rng(4)
    strokes = played(rng, asked("singles", 90, 2), CLEAN, jitter=0.005, uneven_db=1, offset=0.02)
    clicks = [(0.6 + beat * 60 / 90, beat % 4 == 0) for beat in range(9)]
    found, _ = find(scripts, take(rng, strokes, SURFACES["pad"], Room(clicks=clicks, click_db=-6)))
    assert len(found) == len(strokes)


def test_flams_are_two_strokes_and_nothing_is_found_in_a_quiet_room(scripts: Page) -> None:
    rng = np.random.default_rng(9)
    flams = [
        stroke
        for beat in range(8)
        for stroke in (
            Stroke(1 + beat * 0.5 - 0.03, MEANT_DB["grace"], is_right=False),
            Stroke(1 + beat * 0.5, 0.0, is_right=True),
        )
    ]
    found, _ = find(scripts, take(rng, flams, SURFACES["pad"], Room()))
    assert len(found) == len(flams)
    silence = (rng.standard_normal(48_000 * 10) * 1e-4).astype(np.float32)
    assert find(scripts, silence)[0] == []


def test_what_is_clipped_and_what_is_lost_in_noise_is_told(scripts: Page) -> None:
    rng = np.random.default_rng(2)
    strokes = played(rng, asked("singles", 90, 1), CLEAN, jitter=0.005, uneven_db=1, offset=0)
    sound = take(rng, strokes, SURFACES["snare"], Room())
    _, loud = find(scripts, np.clip(sound * 60, -1, 1))
    _, usual = find(scripts, sound)
    assert loud["clipped"] > 0.0005 > usual["clipped"]
    situation = {"hears": True, "asked": 16, "isMidi": False, "clipped": 0}
    say = "(situation) => window.ww.cannotJudge(situation)"
    near = [{"over": 20}] * 16
    assert scripts.evaluate(say, {**situation, "strokes": near}) == ""
    assert "further away" in scripts.evaluate(say, {**situation, "strokes": near, "clipped": loud["clipped"]})
    assert "too loud" in scripts.evaluate(say, {**situation, "strokes": [{"over": 5}] * 16})
    assert "Hardly a stroke" in scripts.evaluate(say, {**situation, "strokes": near[:2]})
    assert "no sound" in scripts.evaluate(say, {**situation, "strokes": [], "hears": False})


@pytest.mark.parametrize("name", FAULTS)
def test_a_planted_fault_is_what_is_named(scripts: Page, name: str) -> None:
    fault = FAULTS[name]
    for pattern in fault.patterns:
        for tempo in (70, 120):
            found = judged(scripts, fault, pattern, tempo, seed=3)
            first = found["faults"][0]
            assert first["kind"] == fault.kind, (pattern, tempo, first)
            assert fault.side in (None, first.get("side")), (pattern, tempo, first)
            assert not found["advice"]["isPraise"]


@pytest.mark.parametrize("pattern", PATTERNS)
def test_a_clean_take_is_blamed_for_nothing_and_called_clean(scripts: Page, pattern: str) -> None:
    for seed in range(6):
        found = judged(scripts, CLEAN, pattern, (60, 90, 130)[seed % 3], seed=seed)
        assert found["faults"] == [], (pattern, seed)
        assert found["isClean"]
        assert found["advice"]["isPraise"]


def test_uneven_strokes_are_not_clean_and_that_is_said(scripts: Page) -> None:
    found = judged(scripts, CLEAN, "singles", 60, seed=1, jitter=0.04)
    assert not found["isClean"]
    assert "unevenly" in found["advice"]["words"]


@pytest.mark.parametrize("offset", [-0.05, 0.0, 0.2, 0.5])
def test_a_devices_delay_is_found_by_itself(scripts: Page, offset: float) -> None:
    found = judged(scripts, CLEAN, "paradiddle", 100, seed=5, offset=offset)
    assert found["missed"] == 0
    assert abs(found["offset"] - offset) < 0.03


def test_something_else_altogether_is_not_judged(scripts: Page) -> None:
    strokes = asked("paradiddle", 100, 2)
    heard = [{"time": 1 + index * 0.9, "level": -30} for index in range(4)]
    assert scripts.evaluate(JUDGE, [as_asked(strokes), heard]) is None


@pytest.mark.parametrize(
    ("key", "words"),
    [
        ("0/1", "1"),
        ("5/4", "2 e"),
        ("7/2", "4 &"),
        ("9/1", "2"),
        ("2/3", "1, its last third"),
        ("1/6", ""),
        ("3/8", ""),
    ],
)
def test_a_place_is_counted_where_it_has_a_plain_word(scripts: Page, key: str, words: str) -> None:
    counted = "async ([base, key]) => (await import(`/${base}/listen.js`)).countOf(key, 4)"
    assert scripts.evaluate(counted, [site.SCRIPTS, key]) == words


@pytest.mark.parametrize("exercise", ["accented-paradiddle", "flams-and-drags", "first-groove", "ending"])
def test_what_is_asked_is_what_is_played(scripts: Page, exercise: str) -> None:
    strokes, seconds = scripts.evaluate(
        """async (id) => {
          const { readScore, askedFor } = window.ww;
          const exercise = await (await fetch(`/x/${id}/exercise.json`)).json();
          const rules = await (await fetch("/assets/wristwork/sounds/sounds.json")).json();
          const score = { ...readScore(exercise), buzz: rules.buzz, drag: rules.drag };
          const { strokes, seconds } = askedFor(score, 60, 2, { swapHands: false, swapFeet: false });
          return [strokes, seconds];
        }""",
        exercise,
    )
    times = [stroke["time"] for stroke in strokes]
    assert times == sorted(times)
    assert all(later - sooner >= 0.012 for sooner, later in pairwise(times))
    assert 0 < seconds - times[-1] < seconds
    if exercise == "accented-paradiddle":
        assert (len(strokes), seconds) == (32, 8)
        assert [stroke["isSecond"] for stroke in strokes[:8]] == [False, False, False, True] * 2
    if exercise == "first-groove":
        assert all(stroke["isOptional"] for stroke in strokes if stroke["limb"].endswith("foot"))
        assert any(stroke["limb"] == "both hands" for stroke in strokes)
