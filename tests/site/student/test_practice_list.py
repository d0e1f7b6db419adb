"""A practice list: put together by the tutor, opened by the student."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.site.student.conftest import FULL_STORAGE, NewContext, Published, clipboard, open_shares

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("student")]

# The theme keeps its colours there, too, and does not expect to fail: only what is ours throws.
BROKEN_STORAGE = """
    for (const name of ["getItem", "setItem", "removeItem"]) {
        const real = Storage.prototype[name];
        Storage.prototype[name] = function (key, ...rest) {
            if (key.startsWith("ww")) throw new DOMException("no", "QuotaExceededError");
            return real.call(this, key, ...rest);
        };
    }
"""
MARKUP = "<img src=x onerror=\"document.title='harm'\"> & slow"


def link_of(page: Page, published: Published, items: list[dict[str, object]]) -> str:
    """The link that holds these items."""
    page.goto(f"{published.url}schema/exercise.json")
    usual = {"from": 60, "to": 80, "unit": "minutes", "amount": 5, "words": ""}
    text = page.evaluate(
        "async ([base, items]) => (await import(base + 'list-codec.js')).encodeList(items)",
        [published.scripts, [{**usual, **item} for item in items]],
    )
    return f"{published.url}practice/#{text}"


def test_from_two_pages_to_a_link_to_todays_practice(page: Page, published: Published) -> None:
    page.goto(f"{published.url}x/slow-singles/?tempo=64")
    expect(page.get_by_role("button", name="Clean at 64")).to_be_visible()
    open_shares(page)
    page.get_by_role("button", name="Put on a list").click()
    page.goto(f"{published.url}weeks/week-02/")
    open_shares(page)
    page.get_by_role("button", name="Put on a list").first.click()
    page.get_by_role("link", name="Go to the list").click()
    titles = page.locator(".ww-list-items legend bdi")
    expect(titles).to_have_text(["Slow singles", "Accented paradiddle"])
    page.get_by_role("button", name="Up: Accented paradiddle").click()
    expect(titles).to_have_text(["Accented paradiddle", "Slow singles"])
    page.get_by_label("A word to the student").nth(1).fill(MARKUP)
    page.get_by_label("Minutes or passes").nth(1).select_option("passes")
    page.get_by_role("button", name="Copy link").click()
    expect(page.get_by_text("Link copied.")).to_be_visible()
    link = published.here(clipboard(page))
    assert link.startswith(f"{published.url}practice/#")

    student = page.context.new_page()
    student.goto(link)
    expect(student.get_by_text("Step 1 of 4")).to_be_visible()
    expect(student.get_by_role("heading", name="Warm-up")).to_be_visible()
    student.get_by_role("button", name="Next").click()
    expect(student.get_by_role("heading", name="Accented paradiddle")).to_be_focused()
    expect(student.locator(".ww-diagram svg").first).to_be_visible()
    student.get_by_role("button", name="Next").click()
    expect(student.get_by_text("From 64 to 72 beats a minute, 5 passes.")).to_be_visible()
    expect(student.get_by_role("button", name="Clean at 64")).to_be_visible()
    expect(student.locator("blockquote")).to_have_text(MARKUP)
    assert student.locator("blockquote img").count() == 0
    assert "harm" not in student.title()
    student.get_by_role("button", name="Next").click()
    expect(student.get_by_role("heading", name="Ease-off")).to_be_visible()
    student.get_by_role("button", name="Finish").click()
    expect(student.get_by_role("heading", name="Well done.")).to_be_focused()
    answer = student.get_by_role("link", name="Tell your tutor how it went")
    assert answer.get_attribute("href").endswith("/my-practice/")
    expect(student.get_by_text("Slow singles: not played here")).to_be_visible()
    expect(student.get_by_role("button", name="Finish")).to_be_hidden()


def test_a_number_that_was_typed_stays_and_is_what_is_sent(page: Page, published: Published) -> None:
    page.goto(f"{published.url}practice/")
    page.get_by_label("Add", exact=True).select_option("slow-singles")
    page.get_by_role("button", name="Add to the list").click()
    for name, typed in (("First tempo", "70"), ("Last tempo", "80"), ("How much", "12")):
        field = page.get_by_label(name)
        field.fill(typed)
        field.press("Tab")
        expect(field).to_have_value(typed)
    page.reload()
    expect(page.get_by_label("First tempo")).to_have_value("70")


def test_moving_and_taking_out_never_lose_the_keyboard(page: Page, published: Published) -> None:
    page.goto(f"{published.url}practice/")
    for name in ("slow-singles", "accented-paradiddle", "the-other-way"):
        page.get_by_label("Add", exact=True).select_option(name)
        page.get_by_role("button", name="Add to the list").click()
    focused = "document.activeElement.getAttribute('aria-label') ?? document.activeElement.tagName"
    page.get_by_role("button", name="Down: Slow singles").focus()
    for after in ("Down: Slow singles", "Up: Slow singles"):
        page.keyboard.press("Enter")
        assert page.evaluate(focused) == after
    page.get_by_role("button", name="Take out: Slow singles").focus()
    for after in ("Take out: The other way", "Take out: Accented paradiddle", "SELECT"):
        page.keyboard.press("Enter")
        assert page.evaluate(focused) == after


def test_no_stretch_of_playing_is_longer_than_25_minutes(page: Page, published: Published) -> None:
    link = link_of(page, published, [{"id": "slow-singles", "amount": 18}, {"id": "the-other-way", "amount": 20}])
    page.goto(link)
    page.get_by_text("The whole practice").click()
    steps = page.locator(".ww-today-all li").all_inner_texts()
    assert steps == [
        "Warm-up, 5 minutes",
        "Slow singles, 18 minutes",
        "A break, 3 minutes",
        "The other way, 20 minutes",
        "Ease-off, 2 minutes",
    ]


def test_the_timer_goes_with_the_playing_and_only_says_when_time_is_over(page: Page, published: Published) -> None:
    page.clock.install()
    page.goto(link_of(page, published, [{"id": "slow-singles", "amount": 1}]))
    page.get_by_role("button", name="Next").click()
    page.get_by_role("button", name="Start the clock").click()
    page.clock.run_for(30_000)
    expect(page.get_by_role("timer")).to_have_text("0:30")
    page.clock.run_for(31_000)
    expect(page.get_by_text("Time. Finish in peace, then go on.")).to_be_visible()


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda text: text[: len(text) // 2], "The link was damaged on its way: of 2 exercises one could be read."),
        (lambda text: "<script>alert(1)</script>", "This link holds no practice list that can be read."),
        (lambda text: "%E0%A4%A", "This link holds no practice list that can be read."),
        (lambda text: "Ag" + text[2:], "made by a newer version of the site"),
        (lambda text: "A" * 100_000, "This link holds no practice list that can be read."),
    ],
)
def test_a_bad_link_says_what_could_be_read_and_the_page_works(
    page: Page, published: Published, change, words: str
) -> None:
    items = [{"id": "slow-singles"}, {"id": "the-other-way", "words": "A word that makes it long enough to be cut"}]
    address, text = link_of(page, published, items).split("#")
    page.goto("about:blank")
    page.goto(f"{address}#{change(text)}")
    expect(page.get_by_role("alert")).to_contain_text(words)
    expect(page.get_by_role("button", name=re.compile("Next|Put a list together"))).to_be_visible()


@pytest.mark.parametrize("room", ["practice/", "my-practice/"])
def test_a_room_says_that_the_course_can_not_be_reached(page: Page, published: Published, room: str) -> None:
    page.route("**/course.json", lambda route: route.abort())
    page.goto(f"{published.url}{room}")
    expect(page.get_by_role("alert")).to_contain_text("The course can’t be reached")


@pytest.mark.parametrize("name", ["constructor", "has-own-property", "to-string"])
def test_an_id_that_the_course_has_not_is_told(page: Page, published: Published, name: str) -> None:
    page.goto(link_of(page, published, [{"id": name}, {"id": "slow-singles"}]))
    expect(page.get_by_role("alert")).to_have_text("One exercise on it is not in this course.")
    expect(page.get_by_text("Step 1 of 3")).to_be_visible()


def test_a_moved_exercise_is_found_where_it_is_now(page: Page, published: Published) -> None:
    page.goto(link_of(page, published, [{"id": "old-way"}]))
    page.get_by_role("button", name="Next").click()
    expect(page.get_by_role("heading", name="The other way")).to_be_visible()


def test_on_paper_the_whole_practice_is_there(page: Page, published: Published) -> None:
    items = [{"id": "slow-singles", "words": MARKUP}, {"id": "the-other-way", "amount": 3}]
    page.goto(link_of(page, published, items))
    expect(page.get_by_text("Step 1 of 4")).to_be_visible()
    page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    page.emulate_media(media="print")
    steps = page.locator(".ww-today-sheet > li")
    expect(steps.locator("> p > strong")).to_have_text(["Warm-up", "Slow singles", "The other way", "Ease-off"])
    expect(steps.nth(1)).to_contain_text("From 60 to 80 beats a minute, 5 minutes.")
    expect(steps.nth(1).locator("blockquote")).to_have_text(MARKUP)
    expect(steps.nth(2)).to_be_visible()
    for part in (".ww-today-step", ".ww-today-where", ".ww-today-ways"):
        expect(page.locator(part)).to_be_hidden()
    page.emulate_media(media="screen")
    page.evaluate("window.dispatchEvent(new Event('afterprint'))")
    expect(steps).to_have_count(0)


def test_the_letters_that_are_left_are_told_when_they_are_few(page: Page, published: Published) -> None:
    page.goto(f"{published.url}practice/")
    page.get_by_label("Add", exact=True).select_option("slow-singles")
    page.get_by_role("button", name="Add to the list").click()
    left = page.locator(".ww-list-left")
    expect(left).to_have_text("1 of at most 24 exercises.")
    told = page.locator(".ww-list-left + [role=status]")
    expect(told).to_be_empty()
    page.get_by_label("A word to the student").fill("手" * 420)
    expect(left).to_contain_text(re.compile(r"\d+ of \d+ letters of the link are left"))
    expect(told).to_have_text("Fewer than 300 letters of the link are left.")
    page.get_by_label("A word to the student").fill("Slowly.")
    expect(left).to_have_text("1 of at most 24 exercises.")
    expect(told).to_be_empty()


def test_a_link_that_is_too_long_is_not_copied(page: Page, published: Published) -> None:
    page.goto(f"{published.url}practice/")
    for _ in range(4):
        page.get_by_label("Add", exact=True).select_option("slow-singles")
        page.get_by_role("button", name="Add to the list").click()
    for area in page.get_by_label("A word to the student").all():
        area.fill("手" * 400)
    expect(page.get_by_text("letters too long for some chats")).to_be_visible()
    expect(page.get_by_role("button", name="Copy link")).to_be_disabled()


def test_with_storage_full_the_list_keeps_what_was_put_on_it(new_context: NewContext, published: Published) -> None:
    page = new_context().new_page()
    page.goto(f"{published.url}weeks/week-02/")
    open_shares(page)
    put = page.get_by_role("button", name="Put on a list")
    put.nth(0).click()
    expect(page.get_by_text("It is on your list, the first one.")).to_be_visible()
    page.evaluate(FULL_STORAGE)
    put.nth(1).click()
    expect(page.get_by_text("This browser keeps nothing for this page")).to_be_visible()
    page.evaluate("window.makeRoom()")
    put.nth(1).click()
    expect(page.get_by_text("It is on your list, with 2 more.")).to_be_visible()


def test_with_storage_that_throws_everything_goes_on_and_it_is_said(
    new_context: NewContext, published: Published
) -> None:
    page = new_context(permissions=["clipboard-read", "clipboard-write"]).new_page()
    page.add_init_script(BROKEN_STORAGE)
    page.goto(f"{published.url}x/slow-singles/")
    open_shares(page)
    page.get_by_role("button", name="Put on a list").click()
    expect(page.get_by_text("This browser keeps nothing for this page")).to_be_visible()
    page.get_by_role("button", name="Clean at").click()
    expect(page.get_by_text("Best so far: 60")).to_be_visible()
    page.goto(f"{published.url}practice/")
    page.get_by_label("Add", exact=True).select_option("slow-singles")
    page.get_by_role("button", name="Add to the list").click()
    page.get_by_role("button", name="Copy link").click()
    page.goto(published.here(clipboard(page)))
    page.reload()
    expect(page.get_by_text("Step 1 of 3")).to_be_visible()
    page.goto(f"{published.url}my-practice/")
    expect(page.get_by_role("heading", name="Where my log lives")).to_be_visible()


def add(page: Page, *names: str) -> None:
    for name in names:
        page.get_by_label("Add", exact=True).select_option(name)
        page.get_by_role("button", name="Add to the list").click()


def test_exercises_to_choose_from_stand_in_the_order_of_the_weeks(page: Page, published: Published) -> None:
    page.goto(f"{published.url}practice/")
    expect(page.locator("optgroup").first).to_be_attached()
    groups = page.locator("optgroup").evaluate_all("(groups) => groups.map((group) => group.label)")
    weeks = [label for label in groups if label.startswith("Week")]
    assert groups[: len(weeks)] == weeks == sorted(weeks)
    assert len(weeks) > 1


def test_each_student_has_a_list_of_their_own_and_none_is_lost(page: Page, published: Published) -> None:
    page.goto(f"{published.url}practice/")
    titles = page.locator(".ww-list-items legend bdi")
    which = page.get_by_label("Which list")
    expect(which).to_be_hidden()
    add(page, "slow-singles")
    page.get_by_label("Name, for you alone").fill("Jo <Tuesday> & co")
    page.get_by_role("button", name="New list").click()
    expect(page.get_by_label("Name, for you alone")).to_be_focused()
    expect(titles).to_have_count(0)
    add(page, "the-other-way")
    assert which.locator("option").all_inner_texts() == ["Jo <Tuesday> & co", "List 2"]
    page.reload()
    expect(titles).to_have_text(["The other way"])
    which.select_option(label="Jo <Tuesday> & co")
    expect(titles).to_have_text(["Slow singles"])
    page.get_by_role("button", name="Delete this list").click()
    expect(page.get_by_text("“Jo <Tuesday> & co” is deleted.")).to_be_visible()
    expect(page.get_by_role("button", name="Bring it back")).to_be_focused()
    expect(titles).to_have_text(["The other way"])
    page.keyboard.press("Enter")
    expect(titles).to_have_text(["Slow singles"])
    expect(page.get_by_label("Name, for you alone")).to_have_value("Jo <Tuesday> & co")
    page.goto(f"{published.url}x/accented-paradiddle/")
    open_shares(page)
    page.get_by_role("button", name="Put on a list").click()
    expect(page.get_by_text("It is on your list “Jo <Tuesday> & co”, with 1 more.")).to_be_visible()


def test_a_list_that_came_by_link_takes_no_other_ones_place(page: Page, published: Published) -> None:
    link = link_of(page, published, [{"id": "the-other-way"}])
    page.goto(f"{published.url}practice/")
    add(page, "slow-singles")
    for _ in range(2):
        page.goto(link)
        page.get_by_role("button", name="Change this list").click()
        expect(page.locator(".ww-list-items legend bdi")).to_have_text(["The other way"])
        assert page.get_by_label("Which list").locator("option").all_inner_texts() == ["List 1", "List 2"]
    page.get_by_label("Which list").select_option("List 1")
    expect(page.locator(".ww-list-items legend bdi")).to_have_text(["Slow singles"])


def test_a_warm_up_of_ones_own_goes_with_the_link(page: Page, published: Published) -> None:
    page.goto(f"{published.url}practice/")
    add(page, "slow-singles")
    page.get_by_label("Minutes of warm-up").fill("8")
    page.get_by_label("A warm-up of your own").fill(MARKUP)
    page.get_by_role("button", name="Copy link").click()
    page.get_by_label("Name, for you alone").fill("Robin")
    link = published.here(clipboard(page))
    page.get_by_role("button", name="Copy link").click()
    assert published.here(clipboard(page)) == link, "a link carries no name"
    page.goto(link)
    expect(page.locator("blockquote")).to_have_text(MARKUP)
    expect(page.locator(".ww-session-stop")).to_contain_text("Stop at once")
    page.get_by_text("The whole practice").click()
    expect(page.locator(".ww-today-all li").first).to_have_text("Warm-up, 8 minutes")
