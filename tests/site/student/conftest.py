"""One course, published once below a path of its host, and fresh pages of one browser."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from tests.conftest import PATIENCE_MS
from tests.site.courses import Course
from tests.site.player.server import Served, serving

STARTS = "2027-01-11"
GONE = """\
old-way: {title: "The old way", lesson: "weeks/week-02.md", moved to: "the-other-way"}
too-early: {title: "Too early", lesson: "weeks/week-01.md", retired: "It comes back in a later course."}
"""
WEEK_3 = "---\nweek: 3\ntitle: Rest\nagain: [slow-singles]\n---\n\nRest a little.\n"


@dataclass
class Published:
    """A built course and where it is served."""

    course: Course
    url: str
    served: Served

    @property
    def neighbour(self) -> str:
        """The address of another course on the same host."""
        return f"{self.served.url}barn/"

    def here(self, link: str) -> str:
        """Where a link that was copied leads, on the machine of the tests."""
        said = str(self.course.settings["site_url"])
        assert link.startswith(said)
        return self.url + link[len(said) :]

    @property
    def scripts(self) -> str:
        """The address of the folder of scripts."""
        (folder,) = (path for path in (self.course.site / "assets/wristwork").iterdir() if len(path.name) == 10)
        return f"{self.url}assets/wristwork/{folder.name}/"


def make_course(root: Path, **settings: object) -> Course:
    plugins = ["search", {"wristwork": {"starts": STARTS, "checks": "off", **settings}}]
    course = Course(root / "course", plugins=plugins)
    course.write("docs/weeks/week-03.md", WEEK_3)
    return course


@pytest.fixture(scope="session")
def published(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Published]:
    root = tmp_path_factory.mktemp("published")
    course = make_course(root)
    course.write("addresses.yml", GONE)
    course.build()
    (root / "web").mkdir()
    for name in ("loft", "barn"):
        (root / "web" / name).symlink_to(course.site)
    with serving(root / "web") as served:
        yield Published(course, f"{served.url}loft/", served)


NewContext = Callable[..., BrowserContext]


@pytest.fixture
def new_context(browser: Browser) -> Iterator[NewContext]:
    """Makes contexts of a phone's size that fail the test at any script error."""
    made: list[BrowserContext] = []
    errors: list[str] = []

    def make(**settings: object) -> BrowserContext:
        settings = {"viewport": {"width": 390, "height": 844}, "service_workers": "block", **settings}
        context = browser.new_context(**settings)
        context.set_default_timeout(PATIENCE_MS)
        context.on("weberror", lambda error: errors.append(str(error.error)))
        made.append(context)
        return context

    yield make
    for context in made:
        context.close()
    assert errors == []


@pytest.fixture
def page(new_context: NewContext) -> Page:
    return new_context(permissions=["clipboard-read", "clipboard-write"]).new_page()


PATH = "/loft/"
# As a browser whose storage has come to its end: what is there can be read, and nothing more is kept.
FULL_STORAGE = """() => {
    const real = Storage.prototype.setItem;
    Storage.prototype.setItem = () => { throw new DOMException("no", "QuotaExceededError"); };
    window.makeRoom = () => { Storage.prototype.setItem = real; };
}"""


def own(name: str) -> str:
    """The key under which the course keeps something."""
    return f"ww:{PATH}:{name}"


def open_shares(page: Page) -> None:
    """Opens the ways to pass on of all exercises of a page."""
    keys = page.locator(".ww-acts > [aria-expanded]")
    keys.first.wait_for()
    for key in keys.all():
        key.click()


def clipboard(page: Page) -> str:
    return page.evaluate("navigator.clipboard.readText()")
