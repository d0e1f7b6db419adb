"""What tests of every part share: one real browser for each worker."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, expect, sync_playwright

# Debian's browser. Without the last flag it looks for hosts that no test needs.
CHROMIUM = {
    "executable_path": "/usr/bin/chromium",
    "args": ["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
}
# A busy machine with two cores may need this long for what takes a moment elsewhere; what is there is not waited for.
PATIENCE_MS = 20_000
expect.set_options(timeout=PATIENCE_MS)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One browser for all: Playwright's plain interface can be opened only once in a process."""
    with sync_playwright() as playwright:
        launched = playwright.chromium.launch(**CHROMIUM)
        yield launched
        launched.close()
