"""How soon the page that a message's link opens is of use. Run it: python tests/bench/bench_link.py"""

from __future__ import annotations

import statistics
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.conftest import CHROMIUM
from tests.site.courses import Course
from tests.site.player.server import serving

RUNS = 7
MBIT = 125_000  # bytes a second


def seconds(browser: Browser, url: str, latency: int) -> tuple[float, float]:
    """When the diagram is first seen and when the player is there, on a fresh phone with nothing kept."""
    context = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
    page = context.new_page()
    slow = {"offline": False, "latency": latency, "downloadThroughput": 1.6 * MBIT, "uploadThroughput": 0.75 * MBIT}
    context.new_cdp_session(page).send("Network.emulateNetworkConditions", slow)
    page.goto(url, wait_until="commit")
    page.locator(".ww-player").wait_for()
    usable = page.evaluate("performance.now()")
    seen = page.evaluate("performance.getEntriesByName('first-contentful-paint')[0].startTime")
    context.close()
    return seen / 1000, usable / 1000


def main() -> None:
    """Print the medians for three kinds of mobile network at 1.6 Mbit/s."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        course = Course(Path(folder))
        course.build()
        browser = playwright.chromium.launch(**CHROMIUM)
        with serving(course.site) as served:
            url = f"{served.url}x/slow-singles/?tempo=72"
            for latency in (20, 60, 150):
                runs = [seconds(browser, url, latency) for _ in range(RUNS)]
                seen, usable = (statistics.median(each) for each in zip(*runs, strict=True))
                print(
                    f"1.6 Mbit/s, {latency} ms of latency: diagram {seen:.2f} s, usable {usable:.2f} s "
                    f"(medians of {RUNS})"
                )
        browser.close()


if __name__ == "__main__":
    main()
