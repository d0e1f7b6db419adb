"""Watch the hands: they are where the sound is, they go stroke by stroke, and words say what moves."""

from __future__ import annotations

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.accessibility import violations
from tests.site.player.driving import Driver
from tests.site.player.server import Served
from tests.site.player.site import SCRIPTS
from wristwork.site.safety.drawings import hand
from wristwork.site.safety.drawings.shapes import Point, limb

pytestmark = pytest.mark.browser

FRAME_S = 1 / 60

# Each sound of a hand in 60 seconds against the heights of its bead then and a frame before and after.
AGREEMENT = """
async ([scripts, ids, tempos]) => {
  const [schedule, strokes, motion] = await Promise.all(
    ["player-schedule", "hand-strokes", "hand-motion"].map((name) => import(`/${scripts}/${name}.js`)));
  const rules = await (await fetch("/assets/wristwork/sounds/sounds.json")).json();
  const heights = [];
  for (const id of ids) for (const tempo of tempos) for (const manner of ["wrist", "whip"]) {
    const exercise = await (await fetch(`/x/${id}/exercise.json`)).json();
    const score = { ...schedule.readScore(exercise), buzz: rules.buzz, drag: rules.drag };
    const round = strokes.roundOf(score, tempo, false, true);
    const moved = Object.fromEntries(Object.entries(round.hands).map(
      ([hand, hits]) => [hand, hits.length && motion.motionOf(hits, round.period, manner)]));
    const run = schedule.startRun(score, 0, tempo, false);
    const wish = { hands: "both", swapHands: false, swapFeet: false, click: false, end: Infinity, climb: null };
    for (const { time, limb, kind } of schedule.advance(score, run, wish, 60).sounds) {
      if (limb.endsWith("hand") && kind !== "bounce") heights.push(motion.valueAt(moved[limb].bead, time));
    }
  }
  return heights;
}
"""


def test_for_a_minute_the_bead_is_on_the_head_whenever_its_hand_sounds(page: Page, served: Served) -> None:
    page.goto(served.url)
    ids = ["accented-paradiddle", "flams-and-drags", "first-groove", "ending"]
    heights = page.evaluate(AGREEMENT, [SCRIPTS, ids, [40, 97, 200]])
    assert len(heights) > 5000
    # At its fastest the bead falls 450 cm/s: a thousandth of a centimetre is two millionths of a second.
    assert max(abs(height) for height in heights) < 1e-3


def opened(page: Page, served: Served, exercise: str = "accented-paradiddle") -> Locator:
    page.goto(served.url)
    driver = Driver(page, exercise).ready()
    figure = driver.figure
    key = driver.setup.get_by_role("button", name="Watch the hands")
    key.focus()
    page.keyboard.press("Enter")
    watch = figure.get_by_role("region", name="The hands")
    expect(watch).to_be_focused()
    expect(watch.locator(".ww-hand-word").first).not_to_be_empty()
    return watch


def test_stroke_by_stroke_with_keys_and_without_movement(page: Page, served: Served) -> None:
    page.emulate_media(reduced_motion="reduce")
    watch = opened(page, served)
    told = watch.locator(".ww-watch-told")
    page.keyboard.press("ArrowRight")
    expect(told).to_have_text("1 of 16: right hand, down stroke, starts high, ends low.")
    page.keyboard.press("ArrowRight")
    expect(told).to_have_text("2 of 16: left hand, up stroke, starts low, ends high.")
    watch.get_by_role("button", name="Stroke before").click()
    expect(told).to_contain_text("1 of 16")
    page.keyboard.press("ArrowLeft")
    expect(told).to_contain_text("16 of 16")
    watch.get_by_label("Hands", exact=True).select_option("left hand")
    expect(watch.locator('[data-ww-hand="right hand"]')).to_be_hidden()
    watch.get_by_role("button", name="Next stroke").click()
    expect(told).to_contain_text("of 8: left hand")


def test_the_hands_move_with_the_sound_in_slow_motion_too(page: Page, served: Served) -> None:
    watch = opened(page, served)
    bead = watch.locator('[data-ww-hand="right hand"] .ww-hand-bead')
    before = bead.get_attribute("transform")
    driver = Driver(page)
    slow = watch.get_by_role("button", name="Slow motion")
    slow.click()
    expect(slow).to_have_attribute("aria-pressed", "true")
    driver.is_in("playing")
    expect(driver.tempo).to_have_value("20")
    expect(bead).not_to_have_attribute("transform", before or "")
    slow.click()
    expect(slow).to_have_attribute("aria-pressed", "false")
    expect(driver.tempo).to_have_value("60")
    driver.play()
    driver.is_in("playing")
    standing = bead.get_attribute("transform")
    expect(bead).not_to_have_attribute("transform", standing or "")
    driver.stop()


def test_in_slow_motion_the_sound_is_that_of_the_tempo_only_slower(page: Page, served: Served) -> None:
    """Grace notes and buzzes, too: the hands are shown as they move at the tempo, and are heard as they touch."""
    page.goto(served.url)
    times = page.evaluate(
        """async (scripts) => {
          const schedule = await import(`/${scripts}/player-schedule.js`);
          const rules = await (await fetch("/assets/wristwork/sounds/sounds.json")).json();
          const exercise = await (await fetch("/x/flams-and-drags/exercise.json")).json();
          const score = { ...schedule.readScore(exercise), buzz: rules.buzz, drag: rules.drag };
          const wish = { hands: "both", swapHands: false, swapFeet: false, click: false, end: score.pass, climb: null };
          const played = (tempo, stretch) => schedule.advance(
            { ...score, stretch }, schedule.startRun(score, 0, tempo, false), wish, 60).sounds.map(({ time }) => time);
          return [played(90, 1), played(22.5, 4)];
        }""",
        SCRIPTS,
    )
    assert times[1] == pytest.approx([4 * time for time in times[0]], abs=1e-9)


def test_the_page_stays_on_the_hands_while_it_plays(page: Page, served: Served) -> None:
    page.emulate_media(reduced_motion="reduce")
    page.set_viewport_size({"width": 390, "height": 664})
    watch = opened(page, served)
    before = watch.bounding_box()
    driver = Driver(page)
    driver.play()
    expect(driver.figure.locator(".ww-cursor")).to_be_attached()
    assert watch.bounding_box() == before
    player = driver.root.bounding_box()
    for hand_picture in watch.locator("svg:visible").all():
        box = hand_picture.bounding_box()
        assert box
        assert player
        assert box["y"] >= 0
        assert box["y"] + box["height"] <= player["y"]
    driver.stop()


def test_a_left_handed_reader_sees_the_left_hand_begin(page: Page, served: Served) -> None:
    page.emulate_media(reduced_motion="reduce")
    watch = opened(page, served)
    page.evaluate("document.documentElement.dataset.wwHands = 'swapped'")
    watch.focus()
    page.keyboard.press("ArrowRight")
    expect(watch.locator(".ww-watch-told")).to_contain_text("left hand, down stroke")


def test_closing_gives_the_page_back(page: Page, served: Served) -> None:
    watch = opened(page, served, "flams-and-drags")
    assert violations(page, ".ww-watch") == []
    watch.get_by_role("button", name="Close").click()
    expect(page.locator(".ww-watch")).to_have_count(0)
    assert page.evaluate("document.activeElement.closest('.ww-player') !== null")


def test_the_hand_is_the_one_of_the_still_drawings(page: Page, served: Served) -> None:
    page.goto(served.url)
    shapes = page.evaluate(f"import('/{SCRIPTS}/hand-shapes.js').then((made) => ({{...made}}))")
    middle, ahead = Point(0, 0), hand.STICK_AHEAD
    taper, neck, tip = Point(ahead * 0.4, 0), Point(ahead - 7, 0), Point(ahead, 0)
    front = limb(taper, 3.6, neck, 1.9) + limb(neck, 2.2, tip, 3.2)
    assert shapes == {
        "FOREARM": limb(middle, hand.ELBOW_RADIUS, Point(140, 0), hand.WRIST_RADIUS),
        "PALM": hand.PALM,
        "THUMB": hand.THUMB,
        "FINGERS": hand.FIRST_FINGER + "".join(hand.FINGERTIPS),
        "CREASES": hand.THUMB_NAIL + hand.KNUCKLE,
        "STICK": limb(Point(-hand.STICK_BEHIND, 0), 3.9, taper, 3.6) + front,
        "STICK_AHEAD": limb(Point(-12, 0), 3.9, taper, 3.6) + front,
    }


def test_while_it_plays_the_page_stays_with_the_hands(page: Page, served: Served) -> None:
    page.set_viewport_size({"width": 390, "height": 664})
    watch = opened(page, served)
    watch.evaluate("(watch) => watch.scrollIntoView()")
    before = page.evaluate("scrollY")
    driver = Driver(page, "accented-paradiddle")
    driver.play()
    driver.is_in("playing")
    lights = driver.figure.locator(".ww-lights .ww-now")
    for beat in ("2", "1", "2"):
        expect(lights).to_have_text(beat)
    assert page.evaluate("scrollY") == before


def test_over_the_drums_a_bead_is_where_its_stroke_sounds_and_goes_there_in_time(page: Page, served: Served) -> None:
    page.goto(served.url)
    apart, between = page.evaluate(
        """async (scripts) => {
          const [schedule, strokes, above] = await Promise.all(
            ["player-schedule", "hand-strokes", "hands-above"].map((name) => import(`/${scripts}/${name}.js`)));
          const rules = await (await fetch("/assets/wristwork/sounds/sounds.json")).json();
          const exercise = await (await fetch("/x/first-groove/exercise.json")).json();
          const score = { ...schedule.readScore(exercise), buzz: rules.buzz, drag: rules.drag };
          const round = strokes.roundOf(score, 90, false, true);
          if (!above.travels(round)) throw new Error("it travels");
          const touches = [{ at: 0, x: 0, y: 0 }, { at: 1, x: 100, y: 10 }, { at: 1.5, x: 100, y: 10 }];
          const places = touches.map((touch) => above.placeAt(touches, 2, touch.at + 4));
          const steps = Array.from({ length: 200 }, (_, n) => above.placeAt(touches, 2, n / 100));
          const widest = Math.max(...steps.slice(1).map(({ x }, n) => Math.abs(x - steps[n].x)));
          return [Math.max(...places.map(({ x, y }, n) => Math.hypot(x - touches[n].x, y - touches[n].y))), widest];
        }""",
        SCRIPTS,
    )
    assert apart < 1e-9
    assert between < 100 * 1.9 / 50  # no jump: a lift of the least jerk is at most 1.9 times as fast as its mean


@pytest.mark.parametrize(("exercise", "is_shown"), [("first-groove", True), ("accented-paradiddle", False)])
def test_the_kit_from_above_is_there_where_a_pattern_travels(
    page: Page, served: Served, exercise: str, is_shown: bool
) -> None:
    watch = opened(page, served, exercise)
    above = watch.locator(".ww-above")
    assert above.is_visible() == is_shown
    if is_shown:
        assert set(above.locator(".ww-above-name").all_text_contents()) == {"snare", "hi-hat"}
        page.keyboard.press("ArrowRight")
        expect(watch.locator(".ww-watch-told")).to_contain_text("on the")
        box = above.bounding_box()
        assert box is not None
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= 390
