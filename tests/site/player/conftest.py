"""One browser for all player tests of a worker, and fresh pages of it."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.conftest import PATIENCE_MS
from tests.site.player import site
from tests.site.player.server import Served, serving

HERE = Path(__file__).parent


@pytest.fixture(scope="session")
def beeping(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """The exercises of :mod:`site`, with beeps."""
    root = tmp_path_factory.mktemp("beeping")
    site.write_site(root)
    site.write_sounds(root, site.beeps())
    with serving(root) as served:
        yield served


@pytest.fixture
def served(beeping: Served) -> Served:
    """The same, with nothing asked for and nothing broken yet."""
    for told in (beeping.asked, beeping.missing, beeping.broken):
        told.clear()
    return beeping


@pytest.fixture(scope="session")
def ticking(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """A page that can render, with sounds one sample long."""
    root = tmp_path_factory.mktemp("ticking")
    site.write_sounds(root, site.ticks())
    yield from rendering(browser, root)


@pytest.fixture(scope="session")
def ringing(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """The same, but an open hi-hat rings on."""
    root = tmp_path_factory.mktemp("ringing")
    site.write_sounds(root, site.ringing("open hi-hat", "accent", 3, 0.5))
    yield from rendering(browser, root)


@pytest.fixture(scope="session")
def kit(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """The same with the real kit."""
    root = tmp_path_factory.mktemp("kit")
    site.write_kit(root)
    yield from rendering(browser, root)


def rendering(browser: Browser, root: Path) -> Iterator[Page]:
    site.write_site(root)
    shutil.copy(HERE / "offline.js", root)
    with serving(root) as served:
        page = browser.new_page()
        page.goto(served.url)
        yield page
        page.close()


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A page that fails the test at any script error."""
    yield from phone_page(browser)


def phone_page(browser: Browser) -> Iterator[Page]:
    """A page of a phone's size in any browser."""
    page = browser.new_page(viewport={"width": 390, "height": 844})
    page.set_default_timeout(PATIENCE_MS)
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    yield page
    page.close()
    assert errors == []
