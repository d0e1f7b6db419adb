"""What only a browser can tell: no text is cut or meets another, lines begin with their gutter, switches work."""

import re

import pytest

from tests.drawing.hard_cases import HARD_CASES
from tests.drawing.sheet import sheet
from wristwork.drawing import diagram
from wristwork.pattern import read_one
from wristwork.site.frontend.assets import asset_files, source

pytestmark = pytest.mark.browser


MEASURE = """() => {
  const found = { sideways: document.documentElement.scrollWidth - innerWidth, cut: [], met: [], small: [] };
  const name = (text) => `${text.textContent} in ${text.closest('figure').id}`;
  for (const figure of document.querySelectorAll('figure')) {
    const rows = new Map();
    for (const cell of figure.querySelectorAll('.ww-cell')) {
      const beat = cell.querySelector('.ww-beat'), box = beat.getBoundingClientRect();
      for (const text of beat.querySelectorAll('text')) {
        const rect = text.getBoundingClientRect();
        if (parseFloat(getComputedStyle(text).fontSize) < 12) found.small.push(name(text));
        if (rect.left < box.left - 0.2 || rect.right > box.right + 0.2) found.cut.push(name(text));
        if (rect.top < box.top - 4 || rect.bottom > box.bottom + 4) found.cut.push(name(text));
        const lane = text.closest('[class*=ww-row-]').getAttribute('class');
        const row = `${lane} ${box.top} ${text.getAttribute('y')}`;
        rows.set(row, [...(rows.get(row) ?? []), [rect, text]]);
      }
    }
    for (const row of rows.values()) {
      row.sort((a, b) => a[0].left - b[0].left);
      for (let i = 1; i < row.length; i++) {
        const [[before, one], [after, other]] = [row[i - 1], row[i]];
        if (after.left < before.right - 0.3) found.met.push(`${name(one)}: ${other.textContent}`);
      }
    }
  }
  return found;
}"""

GUTTERS = """() => [...document.querySelectorAll('.ww-cell')].map((cell) => {
  const beats = cell.closest('.ww-beats').getBoundingClientRect(), box = cell.getBoundingClientRect();
  const name = cell.querySelector('.ww-gutter .ww-hand');
  if (!name) return null;
  name.scrollIntoView({ block: 'center' });
  const rect = name.getBoundingClientRect();
  const top = document.elementFromPoint(rect.left + rect.width / 2, rect.top + rect.height / 2);
  const indent = parseFloat(getComputedStyle(cell.closest('.ww-beats')).paddingLeft);
  return { starts: Math.abs(cell.getBoundingClientRect().left - beats.left - indent) < 1, seen: top === name };
}).filter(Boolean)"""


@pytest.fixture(scope="module")
def page(browser):
    page = browser.new_page()
    page.set_content(sheet())
    yield page
    page.close()


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_no_text_of_the_hard_cases_is_cut_or_meets_another(page, width):
    page.set_viewport_size({"width": width, "height": 800})
    found = page.evaluate(MEASURE)
    assert page.locator("figure").count() == len(HARD_CASES)
    assert found == {"sideways": 0, "cut": [], "met": [], "small": []}


@pytest.mark.parametrize("width", [720, 1280])
def test_no_gutter_hangs_out_of_its_diagram_where_paper_would_cut_it(page, width):
    page.set_viewport_size({"width": width, "height": 800})
    left = """() => Math.min(...[...document.querySelectorAll('.ww-gutter text:not([display="none"])')].map((text) =>
      text.getBoundingClientRect().left - text.closest('.ww-beats').getBoundingClientRect().left))"""
    assert page.evaluate(left) >= 0


@pytest.mark.parametrize("width", [320, 720])
def test_a_gutter_is_seen_at_the_start_of_every_line_and_nowhere_else(page, width):
    page.set_viewport_size({"width": width, "height": 800})
    gutters = page.evaluate(GUTTERS)
    assert any(gutter["starts"] for gutter in gutters)
    assert [gutter["seen"] for gutter in gutters] == [gutter["starts"] for gutter in gutters]


EXERCISE = "title: Both\ntime: 2/4\nhands: lR>LRR B(L)RL\nfeet: R L"


def script(url: str) -> bytes:
    return asset_files()[url.rsplit("/", 1)[1]]


@pytest.fixture
def exercise(browser):
    drawn = diagram(read_one(EXERCISE))
    style = source("diagram.css").read_text()
    context = browser.new_context(viewport={"width": 800, "height": 600})
    page = context.new_page()
    body = (
        f'<!doctype html><html lang="en"><style>{style}</style><figure class="ww-exercise">'
        f'<div class="ww-diagram">{drawn.html()}</div>'
        f'<details class="ww-words" open><summary>In words</summary>{drawn.words.html}</details></figure>'
        f'<script type="module">import {{ diagramSwitches, startDiagrams }} from "./diagram.js"; startDiagrams();'
        f'document.querySelector(".ww-words").before(diagramSwitches(document.querySelector(".ww-diagram")));</script></html>'
    )
    page.route("**/page.html", lambda route: route.fulfill(body=body, content_type="text/html; charset=utf-8"))
    page.route("**/*.js", lambda route: route.fulfill(body=script(route.request.url), content_type="text/javascript"))
    page.goto("http://drums.invalid/page.html")
    yield page
    context.close()


def letters(page) -> str:
    return " ".join(page.locator(".ww-beat .ww-row-sticking text").all_text_contents())


def top_of(page, selector: str) -> float:
    return page.locator(selector).first.bounding_box()["y"]


def growth(page) -> float:
    """How much larger than by itself a diagram is drawn on the page."""
    return page.evaluate("""() => {
      const beat = document.querySelector('.ww-beat');
      return beat.getBoundingClientRect().width / beat.width.baseVal.value;
    }""")


def test_a_left_handed_reader_sees_the_other_hands_everywhere(exercise):
    assert letters(exercise) == "L R L R R B (L) R L"
    right_lane = top_of(exercise, ".ww-beat .ww-row-heights.ww-lane-right")
    gutter = top_of(exercise, ".ww-gutter .ww-row-heights.ww-lane-right")
    exercise.get_by_label("Left-handed").check()
    assert letters(exercise) == "R L R L L B (R) L R"
    assert top_of(exercise, ".ww-beat .ww-row-heights.ww-lane-left") == pytest.approx(
        right_lane, abs=26 * growth(exercise)
    )
    assert top_of(exercise, ".ww-beat .ww-row-heights.ww-lane-right") > right_lane + 40
    assert top_of(exercise, ".ww-gutter .ww-row-heights.ww-lane-right") == gutter
    assert exercise.locator('.ww-beat .ww-row-heights.ww-lane-right [data-limb="right hand"]').count() == 0
    words = exercise.locator(".ww-words li").first.text_content()
    assert words.startswith("Beat 1: right grace note on the snare, tap stroke, then left on the snare, accent")
    assert "right foot on the kick" in words


def test_the_only_lane_of_a_diagram_takes_the_name_of_the_hand_that_plays(exercise):
    drawn = diagram(read_one("title: One hand\ntime: 2/4\nhands: R R"))
    exercise.evaluate("(row) => { document.querySelector('.ww-diagram').innerHTML = row; }", drawn.html())
    lane = exercise.locator(".ww-beat .ww-row-heights").first
    top = lane.bounding_box()["y"]
    exercise.get_by_label("Left-handed").check()
    assert exercise.locator(".ww-gutter .ww-hand").first.text_content() == "left"
    assert lane.bounding_box()["y"] == top
    exercise.get_by_label("Counts").uncheck()
    assert lane.bounding_box()["y"] < top
    assert exercise.locator(".ww-cell").first.bounding_box()["height"] > lane.bounding_box()["height"]


def test_feet_are_swapped_apart_from_hands(exercise):
    exercise.get_by_label("Swap feet").check()
    assert letters(exercise) == "L R L R R B (L) R L"
    assert "left foot on the kick" in exercise.locator(".ww-words li").first.text_content()
    assert exercise.locator('[data-at="0/1"][data-limb="left foot"]').count() == 1


def test_swapping_back_and_forth_changes_nothing(exercise):
    before = exercise.locator("figure").inner_html()
    for _ in range(2):
        exercise.get_by_label("Left-handed").click()
        exercise.get_by_label("Swap feet").click()
    assert exercise.locator("figure").inner_html() == before


def test_the_choice_is_remembered_and_survives_a_reload(exercise):
    exercise.get_by_label("Left-handed").check()
    exercise.get_by_label("Stroke names").uncheck()
    exercise.reload()
    assert letters(exercise) == "R L R L L B (R) L R"
    assert exercise.evaluate("({ ...document.documentElement.dataset })") == {"wwHands": "swapped", "wwHide": "names"}
    assert not exercise.locator(".ww-beat .ww-row-names").first.is_visible()


def test_hidden_rows_close_up(exercise):
    height = exercise.locator(".ww-cell").first.bounding_box()["height"]
    letters_top = top_of(exercise, ".ww-beat .ww-row-sticking")
    notation = growth(exercise) * float(re.search(r"--ww-notation:([\d.]+)", exercise.content())[1])
    exercise.get_by_label("Notation").uncheck()
    assert exercise.locator(".ww-cell").first.bounding_box()["height"] == pytest.approx(height - notation, abs=0.1)
    assert letters_top - top_of(exercise, ".ww-beat .ww-row-sticking") > notation - 1
    exercise.get_by_label("Notation").check()
    assert top_of(exercise, ".ww-beat .ww-row-sticking") == letters_top


def test_what_is_kept_on_the_device_may_be_nonsense(exercise):
    exercise.evaluate("localStorage.setItem('ww.hide', 'walls names'), localStorage.setItem('ww.hands', '7')")
    exercise.reload()
    assert exercise.evaluate("({ ...document.documentElement.dataset })") == {"wwHide": "names"}


def test_other_switches_on_the_page_are_followed(exercise):
    exercise.evaluate("document.documentElement.dataset.wwHands = 'swapped'")
    exercise.wait_for_function("document.querySelector('[data-ww-switch=hands]').checked")
    assert letters(exercise) == "R L R L L B (R) L R"


FOUR_BARS = "time: 2/4\nhands: RL R>L RL RL RL RL RL RL"
SIXTEENTHS = "hands: R>LRR L>RLL R>LRR L>RLL"
EIGHTHS = "hands: R>L RL RR LL RL RL RL R>L"
LINES = """() => {
  const lines = new Map();
  for (const beat of document.querySelectorAll('.ww-beat')) {
    const { top, left, right } = beat.getBoundingClientRect();
    const line = lines.get(Math.round(top)) ?? { beats: '', left, right };
    const words = [...beat.querySelectorAll('.ww-strong')].map((word) => word.textContent).join('');
    lines.set(Math.round(top), { ...line, beats: line.beats + words, right });
  }
  return [...lines.values()];
}"""


@pytest.fixture
def lines_of(browser):
    """The lines into which a page of some width breaks a pattern: the beats on each, and its two ends."""
    pages = []

    def lines(text: str, width: int) -> list[dict]:
        page = browser.new_page(viewport={"width": width, "height": 900})
        pages.append(page)
        style = f"{source('diagram.css').read_text()} body {{ margin: 0 }}"
        drawn = diagram(read_one(f"title: Broken\n{text}"))
        page.set_content(f'<style>{style}</style><div class="ww-diagram">{drawn.html()}</div>')
        return page.evaluate(LINES)

    yield lines
    for page in pages:
        page.close()


@pytest.mark.parametrize(
    ("text", "width", "beats"),
    [
        (SIXTEENTHS, 700, ["1234"]),
        (SIXTEENTHS, 500, ["12", "34"]),
        (SIXTEENTHS, 350, ["12", "34"]),
        (SIXTEENTHS, 288, ["12", "34"]),  # what a phone 320 pixels wide has
        (SIXTEENTHS, 240, [*"1234"]),
        (FOUR_BARS, 700, ["12121212"]),
        (FOUR_BARS, 420, ["1212", "1212"]),
        (FOUR_BARS, 370, ["1212", "1212"]),
        (FOUR_BARS, 180, ["12", "12", "12", "12"]),
        (EIGHTHS, 358, ["1234", "1234"]),  # what a phone 390 pixels wide has for a diagram
    ],
)
def test_a_line_breaks_between_phrases_or_bars_or_halves_before_it_breaks_between_beats(lines_of, text, width, beats):
    assert [line["beats"] for line in lines_of(text, width)] == beats


@pytest.mark.parametrize(
    ("text", "width"),
    [(EIGHTHS, 288), (EIGHTHS, 358), (SIXTEENTHS, 288), (SIXTEENTHS, 358), (FOUR_BARS, 358), (SIXTEENTHS, 700)],
)
def test_lines_are_as_wide_as_the_page(lines_of, text, width):
    assert [line["right"] for line in lines_of(text, width)] == pytest.approx(
        [width] * len(lines_of(text, width)), abs=1
    )


MARK = """async (moments) => {
  const { Marker } = await import('/marks/player-marks.js');
  const marker = new Marker(document.querySelector('.ww-diagram'));
  return moments.map(([key, place]) => {
    marker.mark([{ key, limb: 'right foot' }], place);
    return [...document.querySelectorAll('.ww-now')].map((element) => element.dataset.at);
  });
}"""


def test_the_mark_of_a_foot_ends_with_its_note(exercise):
    drawn = diagram(read_one("title: A kick\ntime: 4/4\nhands: R R R R\nfeet: R. . . R"))
    exercise.evaluate("(row) => { document.querySelector('.ww-diagram').innerHTML = row; }", drawn.html())
    exercise.route("**/marks/*.js", lambda route: route.fulfill(path=source("player-marks.js")))
    exercise.route("**/base/elements.js", lambda route: route.fulfill(path=source("elements.js")))
    moments = [["0/1", 0], ["0/1", 0.49], ["0/1", 0.51], ["0/1", 2.9], ["3/1", 3.2], ["3/1", 0.1]]
    assert exercise.evaluate(MARK, moments) == [["0/1"], ["0/1"], [], [], ["3/1"], []]
