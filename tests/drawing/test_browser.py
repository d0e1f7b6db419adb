"""What only a browser can tell: no text is cut or meets another, lines begin with their gutter, switches work."""

import re

import pytest

from tests.drawing.hard_cases import HARD_CASES
from tests.drawing.sheet import sheet
from wristwork.drawing import diagram
from wristwork.pattern import read_one
from wristwork.site.frontend.assets import source

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
  return { starts: Math.abs(cell.getBoundingClientRect().left - beats.left - 44) < 1, seen: top === name };
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


@pytest.mark.parametrize("width", [320, 720])
def test_a_gutter_is_seen_at_the_start_of_every_line_and_nowhere_else(page, width):
    page.set_viewport_size({"width": width, "height": 800})
    gutters = page.evaluate(GUTTERS)
    assert any(gutter["starts"] for gutter in gutters)
    assert [gutter["seen"] for gutter in gutters] == [gutter["starts"] for gutter in gutters]


EXERCISE = "title: Both\ntime: 2/4\nhands: lR>LRR B(L)RL\nfeet: R L"


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
        f'<script type="module" src="diagram.js"></script></html>'
    )
    page.route("**/page.html", lambda route: route.fulfill(body=body, content_type="text/html; charset=utf-8"))
    page.route("**/diagram.js", lambda route: route.fulfill(path=source("diagram.js")))
    page.goto("http://drums.invalid/page.html")
    page.locator(".ww-view > summary").click()
    yield page
    context.close()


def letters(page) -> str:
    return " ".join(page.locator(".ww-beat .ww-row-sticking text").all_text_contents())


def top_of(page, selector: str) -> float:
    return page.locator(selector).first.bounding_box()["y"]


def test_a_left_handed_reader_sees_the_other_hands_everywhere(exercise):
    assert letters(exercise) == "L R L R R B (L) R L"
    right_lane = top_of(exercise, ".ww-beat .ww-row-heights.ww-lane-right")
    gutter = top_of(exercise, ".ww-gutter .ww-row-heights.ww-lane-right")
    exercise.get_by_label("Left-handed").check()
    assert letters(exercise) == "R L R L L B (R) L R"
    assert top_of(exercise, ".ww-beat .ww-row-heights.ww-lane-left") == pytest.approx(right_lane, abs=26)
    assert top_of(exercise, ".ww-beat .ww-row-heights.ww-lane-right") > right_lane + 40
    assert top_of(exercise, ".ww-gutter .ww-row-heights.ww-lane-right") == gutter
    assert exercise.locator('.ww-beat .ww-row-heights.ww-lane-right [data-limb="right hand"]').count() == 0
    words = exercise.locator(".ww-words li").first.text_content()
    assert words.startswith("Beat 1: right grace note on the snare, tap stroke, then left on the snare, accent")
    assert "right foot on the kick" in words


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
    height = exercise.locator(".ww-beat").first.bounding_box()["height"]
    letters_top = top_of(exercise, ".ww-beat .ww-row-sticking")
    notation = float(re.search(r"--ww-notation:([\d.]+)px", exercise.content())[1])
    exercise.get_by_label("Notation").uncheck()
    assert exercise.locator(".ww-beat").first.bounding_box()["height"] == pytest.approx(height - notation, abs=0.1)
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


@pytest.mark.parametrize(
    ("width", "lines"), [(700, ["1234"]), (600, ["12", "34"]), (350, ["12", "34"]), (300, [*"1234"])]
)
def test_a_bar_breaks_at_its_half_before_it_breaks_anywhere(browser, width, lines):
    page = browser.new_page(viewport={"width": width, "height": 900})
    drawn = diagram(read_one("title: One bar\nhands: R>LRR L>RLL R>LRR L>RLL"))
    style = f"{source('diagram.css').read_text()} body {{ margin: 0 }}"
    page.set_content(f'<style>{style}</style><div class="ww-diagram">{drawn.html()}</div>')
    by_line: dict[float, str] = {}
    for beat in page.locator(".ww-beat").all():
        top = beat.bounding_box()["y"]
        by_line[top] = by_line.get(top, "") + beat.locator(".ww-strong").text_content()
    assert list(by_line.values()) == lines
    page.close()
