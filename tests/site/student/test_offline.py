"""No signal in the practice room: what is kept, how a new build comes in, how to be rid of it all."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from tests.site.courses import WEEK_1, Course, contents
from tests.site.player.server import serving
from tests.site.student.conftest import NewContext, Published, make_course, open_shares
from wristwork.site.frontend.assets import asset_files, asset_root, source

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("student")]

KEPT = """async () => {
    const names = await caches.keys();
    const open = await Promise.all(names.map((name) => caches.open(name)));
    const lists = await Promise.all(open.map(async (cache) => (await cache.keys()).map(({url}) => url)));
    return [names, lists.flat()];
}"""


def kept(page: Page) -> tuple[list[str], set[str]]:
    names, urls = page.evaluate(KEPT)
    return names, set(urls)


def until(page: Page, condition) -> None:
    for _ in range(300):
        if condition():
            return
        page.wait_for_timeout(100)
    raise AssertionError("It never came to that")


def visit_and_keep(page: Page, url: str, sign: str) -> None:
    """Visit a page and wait until what it needs is kept; ``sign`` ends the last address."""
    page.goto(url)
    page.evaluate("navigator.serviceWorker.ready.then(() => 1)")
    until(page, lambda: any(each.endswith(sign) for each in kept(page)[1]))


@pytest.fixture
def context(new_context: NewContext) -> BrowserContext:
    return new_context(service_workers="allow")


@pytest.fixture
def changing(tmp_path: Path) -> Iterator[Published]:
    """A course of one's own, to publish again."""
    course = make_course(tmp_path)
    course.build()
    (tmp_path / "web").mkdir()
    (tmp_path / "web" / "loft").symlink_to(course.site)
    with serving(tmp_path / "web") as served:
        yield Published(course, f"{served.url}loft/", served)


def test_the_week_that_was_opened_works_without_a_signal(context: BrowserContext, published: Published) -> None:
    page = context.new_page()
    visit_and_keep(page, f"{published.url}weeks/week-02/", "x/the-other-way/exercise.json")
    context.set_offline(True)
    for address, shows in (
        ("weeks/week-02/", ".ww-player"),
        ("x/the-other-way/?tempo=72", ".ww-player"),
        ("x/accented-paradiddle?tempo=72", ".ww-player"),
        ("", ".ww-weeks"),
        ("my-practice/", ".ww-log-table"),
        ("practice/", ".ww-list-add"),
    ):
        page.goto(f"{published.url}{address}")
        page.locator(shows).first.wait_for()
        # At once, and not when the worker's patience with a network that is gone has come to its end.
        assert page.evaluate("performance.getEntriesByType('navigation')[0].responseEnd") < 2000, address


def test_a_week_keeps_the_sounds_of_its_exercises_and_no_others(context: BrowserContext, published: Published) -> None:
    page = context.new_page()
    visit_and_keep(page, f"{published.url}weeks/week-02/", "click-low-1.flac")
    until(page, lambda: any(each.endswith("pad-accent-3.flac") for each in kept(page)[1]))
    sounds = {url.rsplit("/", 1)[1] for url in kept(page)[1] if url.endswith(".flac")}
    assert {name.split("-")[0] for name in sounds} == {"pad", "click"}


def test_a_page_that_is_not_kept_says_so_kindly(context: BrowserContext, published: Published) -> None:
    page = context.new_page()
    visit_and_keep(page, f"{published.url}weeks/week-02/", "x/the-other-way/exercise.json")
    context.set_offline(True)
    page.goto(f"{published.url}weeks/week-01/")
    expect(page.get_by_role("heading", name="Not on this device yet")).to_be_visible()
    page.get_by_role("link", name="The course’s first page").click()
    expect(page.locator(".ww-weeks")).to_be_visible()


def test_the_whole_course_is_kept_with_size_and_progress(context: BrowserContext, published: Published) -> None:
    page = context.new_page()
    visit_and_keep(page, f"{published.url}my-practice/", "course.json")
    expect(page.get_by_text("The whole course is")).to_contain_text("MB")
    page.get_by_role("button", name="Keep the whole course on this device").click()
    expect(page.get_by_text("The whole course is kept on this device.")).to_be_visible()
    context.set_offline(True)
    for address in ("weeks/week-01/", "weeks/week-03/", "x/slow-singles/", "key/", "x/slow-singles/pattern.mid"):
        status = page.evaluate("async (url) => (await fetch(url)).status", f"{published.url}{address}")
        assert status == 200, address


def test_a_course_that_is_kept_whole_stays_whole_when_it_grows(context: BrowserContext, changing: Published) -> None:
    page = context.new_page()
    visit_and_keep(page, f"{changing.url}my-practice/", "course.json")
    page.get_by_role("button", name="Keep the whole course on this device").click()
    expect(page.get_by_text("The whole course is kept on this device.")).to_be_visible()
    changing.course.write("docs/weeks/week-04.md", "---\nweek: 4\ntitle: New\n---\n\nA week that came later.\n")
    changing.course.build()
    page.goto(f"{changing.url}my-practice/")
    until(page, lambda: any(each.endswith("weeks/week-04/") for each in kept(page)[1]) and len(kept(page)[0]) == 1)
    context.set_offline(True)
    page.goto(f"{changing.url}weeks/week-04/")
    expect(page.get_by_text("A week that came later.")).to_be_visible()


def test_a_new_build_comes_in_without_a_word_and_old_caches_go(context: BrowserContext, changing: Published) -> None:
    page = context.new_page()
    visit_and_keep(page, f"{changing.url}weeks/week-01/", "x/slow-singles/exercise.json")
    page.evaluate("caches.open('another course').then(() => 1)")
    before = kept(page)[0]
    changing.course.write("docs/weeks/week-01.md", WEEK_1.replace("Let the stick fall.", "Let it fall, and wait."))
    changing.course.build()
    page.goto(f"{changing.url}weeks/week-01/")
    expect(page.get_by_text("Let it fall, and wait.")).to_be_visible()
    ours = lambda: [name for name in kept(page)[0] if name.startswith("ww:")]  # noqa: E731
    until(page, lambda: len(ours()) == 1 and ours() != [name for name in before if name.startswith("ww:")])
    assert "another course" in kept(page)[0]
    assert page.locator(".ww-newer").count() == 0
    context.set_offline(True)
    page.goto(f"{changing.url}weeks/week-01/")
    expect(page.get_by_text("Let it fall, and wait.")).to_be_visible()


def test_an_open_page_of_an_older_build_asks_and_never_while_it_plays(
    context: BrowserContext, changing: Published
) -> None:
    page = context.new_page()
    visit_and_keep(page, f"{changing.url}weeks/week-01/", "x/slow-singles/exercise.json")
    state = """(state) => document.querySelector(".ww-exercise").dispatchEvent(
        new CustomEvent("ww-state", {bubbles: true, detail: {id: "slow-singles", state}}))"""
    page.evaluate(state, "playing")
    old, new = asset_root(), "assets/wristwork/0123456789"
    republish_with_other_scripts(changing.course, old, new)
    page.evaluate("navigator.serviceWorker.getRegistration().then((one) => one.update()).then(() => 1)")
    until(page, lambda: page.evaluate("navigator.serviceWorker.getRegistration().then((one) => one.waiting !== null)"))
    page.wait_for_timeout(300)
    assert page.locator(".ww-newer").count() == 0
    page.evaluate(state, "stopped")
    expect(page.get_by_text("This course has changed since you opened it.")).to_be_visible()
    page.get_by_role("button", name="Show the new version").click()
    page.wait_for_function(f"[...document.scripts].some(({{src}}) => src.includes('{new}'))")
    until(page, lambda: all(old not in url for url in kept(page)[1]))


def republish_with_other_scripts(course: Course, old: str, new: str) -> None:
    """What a build with a newer version of the tool leaves: another folder of scripts, and a list that names it."""
    (course.site / old).rename(course.site / new)
    lists = (course.site / "offline.json", *(course.site / "offline").iterdir())
    for file in (*course.site.rglob("*.html"), *lists, course.site / "manifest.webmanifest"):
        file.write_text(file.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")
    build = json_build(course)
    for file in (*lists, course.site / "worker.js"):
        file.write_text(file.read_text(encoding="utf-8").replace(build, "abcdefabcdef"), encoding="utf-8")


def json_build(course: Course) -> str:
    text = (course.site / "worker.js").read_text(encoding="utf-8")
    return text.split('const BUILD = "')[1].split('"')[0]


def test_a_course_that_wants_no_worker_takes_an_earlier_one_away(context: BrowserContext, changing: Published) -> None:
    page = context.new_page()
    visit_and_keep(page, f"{changing.url}weeks/week-01/", "x/slow-singles/exercise.json")
    changing.course.settings["plugins"] = ["search", {"wristwork": {"offline": False, "checks": "off"}}]
    changing.course.build()
    page.goto(f"{changing.url}weeks/week-01/")
    gone = "navigator.serviceWorker.getRegistrations().then((all) => all.length === 0)"
    until(page, lambda: page.evaluate(gone) and not kept(page)[0])
    page.goto(f"{changing.url}weeks/week-01/")
    page.wait_for_timeout(600)
    assert page.evaluate(gone)


def test_a_worker_whose_store_is_broken_locks_nobody_out(context: BrowserContext, changing: Published) -> None:
    worker = changing.course.site / "worker.js"
    harm = "caches.open = () => Promise.reject(new Error('broken')); caches.match = caches.open;\n"
    healthy = worker.read_text(encoding="utf-8")
    worker.write_text(healthy.replace("async function answer(", f"{harm}async function answer("), encoding="utf-8")
    # It installs before it breaks.
    worker.write_text(worker.read_text().replace(harm, "").replace("event.respondWith(", f"{harm}event.respondWith("))
    page = context.new_page()
    page.goto(f"{changing.url}weeks/week-01/")
    page.evaluate("navigator.serviceWorker.ready.then(() => 1)")
    until(page, lambda: page.evaluate("navigator.serviceWorker.controller !== null"))
    page.goto(f"{changing.url}weeks/week-02/")
    expect(page.locator(".ww-player").first).to_be_visible()


def test_no_request_leaves_the_site_or_tells_what_the_student_does(
    context: BrowserContext, published: Published
) -> None:
    requests = []
    context.on("request", lambda request: requests.append(request))
    page = context.new_page()
    visit_and_keep(page, f"{published.url}x/accented-paradiddle/?tempo=72", "x/the-other-way/exercise.json")
    page.get_by_role("button", name="Clean at").click()
    open_shares(page)
    page.get_by_role("button", name="Put on a list").click()
    for address in ("practice/", "my-practice/", ""):
        page.goto(f"{published.url}{address}")
        page.wait_for_load_state("networkidle")
    assert {request.url.split("/loft/")[0] + "/" for request in requests} == {published.served.url}
    assert {request.method for request in requests} == {"GET"}
    assert not any("?" in request.url and "tempo=" not in request.url for request in requests)
    assert page.evaluate("document.cookie") == ""


def test_a_preview_registers_no_worker(course: Course) -> None:
    course.preview()
    assert "data-offline" not in course.page("")
    assert "unregister" in (course.site / "worker.js").read_text(encoding="utf-8")
    assert not (course.site / "offline.json").exists()


def read_list(course: Course, name: str) -> dict:
    return json.loads((course.site / name).read_text(encoding="utf-8"))


def test_the_lists_are_the_same_from_build_to_build_and_name_only_what_is_there(published: Published, tmp_path) -> None:
    site = published.course.site
    whole = read_list(published.course, "offline.json")["files"]
    for address, (_, size) in whole.items():
        file = site / address if not address.endswith("/") and address else site / address / "index.html"
        assert file.stat().st_size == size
    assert read_list(published.course, "offline/size.json")["bytes"] == sum(size for _, size in whole.values())
    for name in ("shell", "week-1", "week-2", "week-3"):
        part = read_list(published.course, f"offline/{name}.json")
        assert part["files"].items() <= whole.items()
        assert set(part["paths"]) <= set(part["files"])
    other = make_course(tmp_path)
    shutil.copy(published.course.root / "addresses.yml", other.root)
    other.build()
    assert contents(other.site) == contents(site)


def test_a_page_asks_for_the_list_of_its_week_once_and_never_for_that_of_all_files(
    context: BrowserContext, published: Published
) -> None:
    asked = published.served.asked
    asked.clear()
    page = context.new_page()
    page.clock.set_fixed_time(datetime(2027, 1, 3))
    visit_and_keep(page, f"{published.url}weeks/week-02/", "offline/week-2.json")
    for address in ("x/the-other-way/", "weeks/week-02/", "x/accented-paradiddle/", "my-practice/", "key/"):
        page.goto(f"{published.url}{address}")
        page.wait_for_timeout(600)
    lists = [path.removeprefix("/loft/") for path in asked if "offline" in path and path.endswith(".json")]
    # The first week for pages that belong to none: the course has not begun.
    assert sorted(lists) == ["offline/shell.json", "offline/size.json", "offline/week-1.json", "offline/week-2.json"]


def test_the_site_can_be_put_on_the_home_screen(context: BrowserContext, published: Published) -> None:
    page = context.new_page()
    visit_and_keep(page, published.url, "course.json")
    found = context.new_cdp_session(page).send("Page.getAppManifest")
    assert found["errors"] == []
    assert found["url"] == f"{published.url}manifest.webmanifest"
    installable = context.new_cdp_session(page).send("Page.getInstallabilityErrors")["installabilityErrors"]
    assert [error["errorId"] for error in installable if error["errorId"] != "in-incognito"] == []


def test_what_all_this_adds_to_a_lesson_page_is_at_most_20_kilobytes() -> None:
    import gzip

    mine = ("share", "sharing", "copying", "list-draft", "site", "store", "log", "log-marks", "log-store", "dates")
    mine += ("offline", "keeping", "this-week")
    scripts = sum(len(gzip.compress(asset_files()[f"{name}.js"])) for name in mine)
    styles = sum(len(gzip.compress(source(f"{name}.css").read_bytes())) for name in ("share", "offline", "student"))
    assert scripts + styles <= 20_000
