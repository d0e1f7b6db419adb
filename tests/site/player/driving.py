"""What a student does with a player, and what can be seen and heard of it."""

from __future__ import annotations

from typing import Any

from playwright.sync_api import Locator, Page, expect

# Notes for every sound when it was given out and for when, and how many were taken back.
LISTEN = """
window.heard = [];
window.audio = null;
const start = AudioBufferSourceNode.prototype.start;
AudioBufferSourceNode.prototype.start = function (when, ...rest) {
  window.audio = this.context;
  window.heard.push({ when, now: this.context.currentTime, at: performance.now() });
  return start.call(this, when, ...rest);
};
const stop = AudioBufferSourceNode.prototype.stop;
AudioBufferSourceNode.prototype.stop = function (...rest) {
  window.taken = (window.taken ?? 0) + 1;
  window.heardBefore = window.heard.length;
  return stop.call(this, ...rest);
};
"""


class Driver:
    """One figure's player on a page."""

    def __init__(self, page: Page, exercise: str = "accented-paradiddle") -> None:
        self.page = page
        self.figure = page.locator(f"#{exercise}")
        self.root = self.figure.locator(".ww-player")
        self.play_key = self.figure.locator(".ww-play")
        self.tempo = self.figure.get_by_label("Tempo, beats a minute", exact=True)
        self.slider = self.figure.get_by_label("Tempo", exact=True)
        self.words = self.figure.locator(".ww-say")
        self.told = self.figure.locator(".ww-unseen")

    def ready(self) -> Driver:
        """Goes to the figure and waits until its exercise is there."""
        self.figure.scroll_into_view_if_needed()
        self.figure.evaluate(
            """async (figure) => { const here = document.querySelector("script[src]").src;
            const { playerOf } = await import(new URL("player-list.js", here));
            await playerOf(figure).load(); }"""
        )
        return self

    @property
    def setup(self) -> Locator:
        """What is behind "More", opened."""
        key = self.figure.get_by_role("button", name="More", exact=True)
        if key.get_attribute("aria-expanded") == "false":
            key.click()
        return self.figure.locator(".ww-more")

    def play(self) -> None:
        self.play_key.click()
        self.is_in("counting", "playing")

    def stop(self) -> None:
        self.play_key.click()
        self.is_in("stopped")

    def is_in(self, *states: str) -> None:
        selector = ", ".join(f"#{self.figure.get_attribute('id')} [data-ww-state={state}]" for state in states)
        expect(self.page.locator(selector)).to_be_attached()

    def set_tempo(self, tempo: int | str) -> None:
        self.tempo.fill(str(tempo))
        self.tempo.press("Enter")

    def listen_for_events(self) -> None:
        self.page.evaluate(
            """() => { window.events = [];
            for (const name of ["ww-tempo", "ww-state", "ww-played"])
              document.addEventListener(name, (event) => window.events.push([name, event.detail])); }"""
        )

    def events(self, name: str) -> list[dict[str, Any]]:
        return [detail for kind, detail in self.page.evaluate("window.events") if kind == name]


def heard(page: Page) -> list[dict[str, float]]:
    """Every sound that was given out so far."""
    return page.evaluate("window.heard")
