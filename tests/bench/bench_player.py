"""What the player weighs, how soon it sounds, whether a note is late. Run it: python tests/bench/bench_player.py"""

from __future__ import annotations

import gzip
import json
import statistics
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.conftest import CHROMIUM
from tests.site.player import site
from tests.site.player.driving import LISTEN, Driver, heard
from tests.site.player.server import Served, serving

from wristwork.site.frontend.lean import lean
from wristwork.sound.kit import Kit
from wristwork.sound.oneshots import manifest

FULL_KIT = """\
id: round-the-kit
title: Round the kit
tempo: 80
hands: R>L(R)L R>LRL R>LRL R>LRL | R>LRL R>LRL R>LRL R>LRL
feet: R . R L | R . R L
place: right on hi-hat, left on snare, right accents on crash then open hi-hat then ride then ride bell then
  high tom then mid tom then floor tom then cowbell, left taps on snare then rim shot then cross-stick
"""
SLOW_NETWORK = {"offline": False, "latency": 150, "downloadThroughput": 200_000, "uploadThroughput": 200_000}
RUNS = 5

# From pressing play to when the first click sounds, in milliseconds.
FIRST_CLICK = """async (id) => {
  window.heard.length = 0;
  const pressed = performance.now();
  document.querySelector(`#${id} .ww-play`).click();
  while (!window.heard.length) await new Promise((resolve) => setTimeout(resolve, 1));
  const { when, now, at } = window.heard[0];
  return at - pressed + (when - now) * 1000;
}"""


def bench_weight() -> None:
    files = sorted(path for path in (site.ASSETS / "player").iterdir() if path.name.startswith(("player", "stand")))
    weights = {path.name: len(gzip.compress(lean(path.name, path.read_bytes()), 9)) for path in files}
    first = sum(weight for name, weight in weights.items() if not name.startswith("stand"))
    print(f"scripts and styles, gzipped one by one: {sum(weights.values()) / 1000:.1f} kB in {len(weights)} files")
    print(f"  of these with the page {first / 1000:.1f} kB, the music stand when it is opened the rest")


def bench_sounds(root: Path) -> None:
    listed = manifest(Kit())
    for text in (site.PARADIDDLE, FULL_KIT):
        exercise = json.loads(site.exercise_json(text))
        voices = {(stroke["on"], stroke["level"]) for stroke in exercise["strokes"]} | {
            ("click", "high"),
            ("click", "low"),
        }
        files = {name for place, level in voices for sound in listed["sounds"][place][level] for name, _ in sound}
        size = sum((root / site.SOUNDS / file).stat().st_size for file in files)
        print(f"sounds of '{exercise['title']}': {size / 1000:.0f} kB in {len(files)} files")


def bench_first_click(browser: Browser, served: Served, exercise: str) -> None:
    warm: list[float] = []
    cold: list[float] = []
    counted: list[bool] = []
    for _ in range(RUNS):
        page = opened(browser, served, slow=True)
        player = Driver(page, exercise).ready()
        cold.append(page.evaluate(FIRST_CLICK, exercise))
        player.is_in("playing")
        counted.append(counted_once(page))
        player.stop()
        page.wait_for_timeout(200)
        warm.append(page.evaluate(FIRST_CLICK, exercise))
        page.close()
    print(f"'{exercise}', press to first click, sounds there: median {statistics.median(warm):.0f} ms, "
          f"worst {max(warm):.0f} ms (n = {RUNS})")  # fmt: skip
    print(f"  at 1.6 Mbit/s with 150 ms of latency, nothing cached: median {statistics.median(cold):.0f} ms, "
          f"worst {max(cold):.0f} ms; all sounds there when the count-in ends: {sum(counted)} of {RUNS}")  # fmt: skip


def counted_once(page: Page, bar: int = 4) -> bool:
    """Did strokes sound with the click that follows one bar of count-in, or was another bar counted?"""
    whens = sorted(sound["when"] for sound in heard(page))
    return len([when for when in whens if abs(when - whens[bar]) < 0.001]) > 1


def bench_late(browser: Browser, served: Served) -> None:
    page = opened(browser, served)
    player = Driver(page, "round-the-kit").ready()
    player.set_tempo(160)
    player.play()
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": 4})
    page.evaluate(
        """async () => { const end = performance.now() + 60000;
        while (performance.now() < end) {
          await new Promise(requestAnimationFrame);
          scrollTo(0, 600 + 600 * Math.sin(performance.now() / 300));
        } }"""
    )
    sounds = heard(page)
    ahead = [sound["when"] - sound["now"] for sound in sounds]
    late = sum(1 for time in ahead if time < 0)
    print(f"60 s of a full kit at 160, scrolling, CPU throttled 4 times: {late} of {len(sounds)} sounds late; "
          f"the closest was given out {1000 * min(ahead):.0f} ms ahead")  # fmt: skip


def opened(browser: Browser, served: Served, slow: bool = False) -> Page:
    page = browser.new_context().new_page()
    page.add_init_script(LISTEN)
    if slow:
        page.context.new_cdp_session(page).send("Network.enable")
        page.context.new_cdp_session(page).send("Network.emulateNetworkConditions", SLOW_NETWORK)
    page.goto(served.url)
    return page


def main() -> None:
    root = Path(tempfile.mkdtemp(prefix="player-"))
    site.write_site(root, (site.PARADIDDLE, FULL_KIT))
    site.write_kit(root)
    bench_weight()
    bench_sounds(root)
    with serving(root) as served, sync_playwright() as playwright:
        browser = playwright.chromium.launch(**CHROMIUM)
        for exercise in ("accented-paradiddle", "round-the-kit"):
            bench_first_click(browser, served, exercise)
        bench_late(browser, served)
        browser.close()


if __name__ == "__main__":
    main()
