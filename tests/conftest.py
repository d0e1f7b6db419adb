"""What tests of every part share: how random examples are drawn, and one real browser for each worker."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from playwright.sync_api import Browser, Playwright, expect, sync_playwright

# Builds behave as on a tutor's machine; a test of continuous integration says so itself.
os.environ.pop("CI", None)
# Commands speak the machine's language where there is no course: for tests it is English on every machine.
os.environ["LC_ALL"] = "C.UTF-8"

WHOLE_BROWSER = "/usr/bin/chromium"
WITHOUT_WINDOWS = "/usr/bin/chromium-headless-shell"
# Debian's browser; the one that is built without windows does the same in half the time.
# Without the last flag it looks for hosts that no test needs.
CHROMIUM = {
    "executable_path": WITHOUT_WINDOWS if Path(WITHOUT_WINDOWS).exists() else WHOLE_BROWSER,
    "args": ["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
}
# A busy machine with two cores may need this long for what takes a moment elsewhere; what is there is not waited for.
PATIENCE_MS = 20_000
expect.set_options(timeout=PATIENCE_MS)

# The same examples in every run, and no clock: a busy machine finds what a quiet one finds. To look for new ones, run
# with HYPOTHESIS_PROFILE=explore.
settings.register_profile("same", derandomize=True, deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("explore", deadline=None, suppress_health_check=[HealthCheck.too_slow], max_examples=1000)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "same"))


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    """Its plain interface can be opened only once in a process."""
    with sync_playwright() as opened:
        yield opened


@pytest.fixture(scope="session")
def browser(playwright: Playwright) -> Iterator[Browser]:
    """One browser for all."""
    launched = playwright.chromium.launch(**CHROMIUM)
    yield launched
    launched.close()


@pytest.fixture(scope="session")
def whole_browser(playwright: Playwright) -> Iterator[Browser]:
    """One that has a screen to fill."""
    launched = playwright.chromium.launch(**{**CHROMIUM, "executable_path": WHOLE_BROWSER})
    yield launched
    launched.close()
