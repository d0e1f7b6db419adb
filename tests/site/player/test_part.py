"""A part of an exercise: looped bars, a start at a touched note, by a link, by finger, by keyboard."""

from __future__ import annotations

import json

import pytest
from playwright.sync_api import Page, expect

from tests.site.player.driving import Driver
from tests.site.player.server import Served
from tests.site.player.site import exercise_json

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("player")]

SONG = (
    "id: a-song\ntitle: A song\ntime: 2/4\ntempo: 60\npick-up: 1\nfeel: swing\nrepeats: bars 1 to 2\n"
    "endings: bar 2 then bar 3\ntempos: 90 at bar 4\nhands: R | lRL RLR | L> R | LL R | RL R"
)
PLAIN = "id: plain-one\ntitle: Plain\ntempo: 60\nhands: R>LRR L>RLL RL RLR | R L R L"
PARTS = """async ({data, pieces}) => {
    const {advance, readScore} = await import('/assets/wristwork/0123456789/player-schedule.js');
    const {arranged} = await import('/assets/wristwork/0123456789/player-arrange.js');
    const buzz = {spacing: 0.03, first_db: 0, drop_db: 6, fade_db: 6};
    const rules = {buzz, drag: {from: 60, to: 120, longer_than: 0.04, closes_to: 0.6}};
    const whole = {...readScore(data), ...rules};
    const played = (score, beats) => {
        const run = {anchors: [{beat: 0, time: 0, tempo: 60}], next: 0, climbsFrom: 0, pace: score.pace};
        const wish = {hands: "both", click: false, end: beats, climb: null};
        const {sounds} = advance(score, run, wish, 1e6);
        return sounds.map(({beat, time, place, level, key}) => ({beat, time, place, level, key}));
    };
    const part = arranged(whole, pieces);
    const again = played(part, 2 * part.written);
    return {whole: played(whole, whole.written), part: played(part, part.written), again, length: part.written,
        passages: part.passages, pickup: part.pickup};
}"""


def parted(page: Page, text: str, pieces: list) -> dict:
    return page.evaluate(PARTS, {"data": json.loads(exercise_json(text)), "pieces": pieces})


@pytest.mark.parametrize(
    ("text", "start", "end"), [(PLAIN, 4, 8), (PLAIN, 0, 4), (SONG, 1, 3), (SONG, 3, 9), (SONG, 7, 11)]
)
def test_a_part_sounds_as_it_does_within_the_whole(ticking: Page, text: str, start: int, end: int) -> None:
    found = parted(ticking, text, [[start, end]])
    inside = [each for each in found["whole"] if start <= each["beat"] < end]
    assert inside
    first = inside[0]["time"]
    expected = [(each["time"] - first, each["place"], each["level"], each["key"]) for each in inside]
    heard = [
        (each["time"] - found["part"][0]["time"], each["place"], each["level"], each["key"]) for each in found["part"]
    ]
    assert [each[1:] for each in heard] == [each[1:] for each in expected]
    assert [each[0] for each in heard] == pytest.approx([each[0] for each in expected], abs=1e-6)
    assert len(found["again"]) == 2 * len(found["part"])


@pytest.mark.parametrize(("text", "beat"), [(PLAIN, 3), (PLAIN, 4), (SONG, 3)])
def test_begun_elsewhere_it_is_the_whole_turned_round(ticking: Page, text: str, beat: int) -> None:
    length = parted(ticking, text, [[0, 1]])["whole"]
    end = json.loads(exercise_json(text))["beats"]
    found = parted(ticking, text, [[beat, end], [0, beat]])
    assert sorted(each["key"] for each in found["part"]) == sorted(each["key"] for each in length)
    assert found["length"] == end
    assert found["part"][0]["beat"] < 1


def test_the_drawing_of_a_part_is_known(ticking: Page) -> None:
    found = parted(ticking, SONG, [[3, 9]])
    assert sum(end - start for start, end in found["passages"]) == 6
    assert found["pickup"] == 0


def test_a_touched_note_offers_its_bar_and_the_rest(page: Page, served: Served) -> None:
    page.goto(f"{served.url}#accented-paradiddle")
    driver = Driver(page).ready()
    driver.figure.locator(".ww-beat").nth(1).click(position={"x": 30, "y": 60})
    offered = driver.figure.get_by_role("group", name="From the touched note")
    expect(offered).to_contain_text("From beat 2 of bar 1:")
    offered.get_by_role("button", name="Loop bar 1").click()
    expect(driver.words).to_contain_text("Only bar 1.")
    expect(offered).to_be_hidden()
    driver.figure.locator(".ww-beat").first.click(position={"x": 30, "y": 60})
    offered.get_by_role("button", name="The whole").click()
    expect(driver.words).not_to_contain_text("Only")
    driver.figure.locator(".ww-beat").nth(2).click(position={"x": 30, "y": 60})
    offered.get_by_role("button", name="Play").click()
    driver.is_in("playing")


def test_a_link_opens_bars_and_the_keyboard_chooses_them(page: Page, served: Served) -> None:
    page.goto(f"{served.url}?bars=2#ending")
    driver = Driver(page, "ending").ready()
    expect(driver.words).to_contain_text("Only bar 2.")
    expect(driver.figure.locator(".ww-has-part .ww-in-part")).not_to_have_count(0)
    bars = driver.setup.get_by_role("group", name="A part of it")
    expect(bars.get_by_label("From bar")).to_have_value("2")
    expect(bars.get_by_label("To bar")).to_have_value("2")
    bars.get_by_label("From bar").select_option("1")
    expect(driver.words).to_contain_text("Only bars 1 to 2.")
    bars.get_by_role("button", name="The whole").click()
    expect(driver.figure.locator(".ww-has-part")).to_have_count(0)


@pytest.mark.parametrize("code", ["0", "99", "2-1", "<b>", "1-"])
def test_bars_that_there_are_not_change_nothing(page: Page, served: Served, code: str) -> None:
    page.goto(f"{served.url}?bars={code}#ending")
    driver = Driver(page, "ending").ready()
    assert driver.words.inner_text() == ""
