"""Listen to me in the page: a microphone that hears a made take, and what is said when it can hear nothing."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

import numpy as np
import pytest
import soundfile
from playwright.sync_api import Locator, Page, Playwright, expect

from tests.accessibility import violations
from tests.conftest import CHROMIUM, WHOLE_BROWSER
from tests.site.player.driving import Driver
from tests.site.player.played import FAULTS, Fault, asked, played
from tests.site.player.server import Served
from tests.site.player.takes import SURFACES, Room, take

pytestmark = pytest.mark.browser

TEMPO = 100
BAR_S = 4 * 60 / TEMPO
RATE = 48_000


def recording(folder: Path, fault: Fault, snr: float = 30.0) -> Path:
    """A take of the accented paradiddle for a microphone that starts with the count-in: a bar later it begins.

    A busy machine counts in late, and whoever begins a beat early seems to lead with the other hand. So no fault of a
    hand is planted here.
    """
    rng = np.random.default_rng(8)
    strokes = played(rng, asked("paradiddle", TEMPO, 8), fault, jitter=0.006, uneven_db=0.8, offset=BAR_S)
    file = folder / "take.wav"
    soundfile.write(file, take(rng, strokes, SURFACES["pad"], Room(snr=snr, rate=RATE)) * 2, RATE)
    return file


@contextmanager
def listening(playwright: Playwright, served: Served, args: Sequence[str], allow: bool = True) -> Iterator[Page]:
    """The lesson on a phone in a browser that has a microphone of its own."""
    settings = [*CHROMIUM["args"], "--use-fake-device-for-media-stream", *args]
    browser = playwright.chromium.launch(executable_path=WHOLE_BROWSER, args=settings)
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, permissions=["microphone"] if allow else [], base_url=served.url
    )
    page = context.new_page()
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.goto(served.url)
    yield page
    browser.close()
    assert errors == []


def opened(page: Page) -> Locator:
    driver = Driver(page).ready()
    driver.set_tempo(TEMPO)
    driver.setup.get_by_role("button", name="Listen to me").click()
    section = page.get_by_role("region", name="Listen to me: Accented paradiddle")
    expect(section).to_be_focused()
    return section


def test_it_says_what_is_to_be_heard_in_the_take(playwright: Playwright, served: Served, tmp_path: Path) -> None:
    file = recording(tmp_path, FAULTS["loud up strokes"])
    with listening(playwright, served, [f"--use-file-for-fake-audio-capture={file}%noloop"]) as page:
        page.evaluate("document.addEventListener('ww-listened', ({ detail }) => { window.listened = detail; })")
        section = opened(page)
        section.get_by_role("button", name="Start listening").click()
        expect(section.get_by_text("Listening. Play after the count-in. Nothing is kept or sent.")).to_be_visible()
        expect(page.locator(".ww-heard").first).to_be_attached()
        expect(section.locator(".ww-listen-said")).to_have_text(
            "The up strokes are louder than the taps. Strike low first, and lift afterwards.", timeout=40_000
        )
        section.get_by_text("The numbers").click()
        expect(section.get_by_role("row", name="Strokes heard")).to_contain_text(re.compile(r"\d+ of \d+"))
        assert page.locator(".ww-heard:not(.ww-missed)").count() >= 7
        assert page.evaluate("window.listened.tempo") == TEMPO
        assert abs(page.evaluate("window.listened.accents") - 10) <= 2
        section.get_by_role("button", name="Stop listening").click()
        expect(section.get_by_role("button", name="Start listening")).to_be_visible()
        section.get_by_role("button", name="Close").click()
        expect(page.locator(".ww-heard")).to_have_count(0)


def test_the_strokes_are_left_to_the_player_and_the_click_to_the_lights(playwright: Playwright, served: Served) -> None:
    with listening(playwright, served, []) as page:
        section = opened(page)
        page.evaluate(
            """() => { window.started = []; const start = AudioBufferSourceNode.prototype.start;
            AudioBufferSourceNode.prototype.start = function (...args) {
              window.started.push(args[0]); return start.apply(this, args); }; }"""
        )
        section.get_by_role("button", name="Start listening").click()
        page.wait_for_function("document.querySelector('[data-ww-state=playing]')")
        page.wait_for_timeout(600)
        assert page.evaluate("window.started.length") == 4, "the count-in, and nothing after it"
        page.evaluate("Object.defineProperty(document, 'hidden', { value: true, configurable: true })")
        page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
        expect(section.get_by_role("button", name="Start listening")).to_be_visible()


def test_without_leave_to_listen_it_says_where_to_give_it(playwright: Playwright, served: Served) -> None:
    with listening(playwright, served, ["--deny-permission-prompts"], allow=False) as page:
        section = opened(page)
        section.get_by_role("button", name="Start listening").click()
        expect(section.locator(".ww-listen-said")).to_contain_text("The microphone was not allowed.")
        expect(section.get_by_role("button", name="Start listening")).to_be_visible()
        assert violations(page) == []


def test_an_electronic_pad_tells_its_strokes(page: Page, served: Served) -> None:
    page.add_init_script(
        """const pad = new EventTarget();
        navigator.requestMIDIAccess = async () => ({ inputs: new Map([["pad", pad]]) });
        window.strike = (velocity) => pad.dispatchEvent(
          Object.assign(new Event("midimessage"), { data: [0x99, 38, velocity] }));"""
    )
    page.goto(served.url)
    section = opened(page)
    section.get_by_label("Listen by").select_option("Electronic pad (MIDI)")
    section.get_by_role("button", name="Start listening").click()
    expect(section.get_by_text("Listening.")).to_be_visible()
    page.wait_for_function("document.querySelector('[data-ww-state=playing]')")
    page.evaluate(
        """async () => { const accents = [1, 0, 0, 0];
        const start = performance.now();
        for (let index = 0; index < 32; index += 1) {
          while (performance.now() < start + index * 150) await new Promise((done) => setTimeout(done, 1));
          window.strike(accents[index % 4] ? 120 : 60);
        } }"""
    )
    expect(page.locator(".ww-heard").first).to_be_attached()
