"""A course in another language: no English word of ours is met on it.

Every text of ours is given other words by the tutor's own setting, in Cyrillic letters, which the tutor's words and the
theme's have too. Whatever is left in Latin letters was said without asking which language is spoken.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from urllib.request import urlopen

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.site.courses import Course
from tests.site.player.server import Served, serving
from wristwork.languages.catalogues import messages
from wristwork.site.overview.made_pages import PAGES

WEEK = """\
---
week: {number}
title: Урок {number}
grade: 2
minutes: 20
aim: Играй ровно.
surface: acoustic kit
---

# Урок {number}

Пусть палочка падает.

<!-- wristwork: moving-strokes -->

```pattern
id: first-{number}
title: Ровно {number}
tempo: 60 to 100 by 4
hands: R>LRR L>RLL lR rL | R/L/ Rz(L) R.LR R{{LRL}}
feet: R L R L | R L R L
place: right on ride, left on snare
note: Ровно.
video: lesson.mp4 at 0:01 to 0:05
{more}```
"""
# What is the same in every language: letters of hands, feet and strokes, units, names of formats and of those who
# published a fact, signs of loudness.
_SAME = re.compile(
    r"https?://\S+|[\w.-]+\.example\S*|\b(?:MIDI|MusicXML|PDF|QR|NRR|SNR|NIOSH|HSE|WHO|ITU|SVG|EX|dB|ms|log10"
    r"|[RLBKHzxe]+|[A-Z]|pp|mp|mf|ff|trip|let|ta|la|li)\b"
)
_WORD = re.compile(r"[A-Za-z]{2,}")
_KEPT = re.compile(r"\{\w+\}|<[^>]*>|L_EX,8h")
_LETTERS = str.maketrans(
    {chr(latin): chr(latin - ord("a") + ord("а")) for latin in range(ord("a"), ord("z") + 1)}
    | {chr(latin): chr(latin - ord("A") + ord("А")) for latin in range(ord("A"), ord("Z") + 1)}
)
_SEEN = """() => {
    const seen = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
        const inside = walker.currentNode.parentElement;
        if (inside.closest("script, style, code, noscript, template, .md-footer, .ww-safe-links")) continue;
        if (inside.closest("nav") && !inside.closest(".md-nav--secondary")) continue;
        if (inside.closest(".ww-code span")) continue;
        seen.push(walker.currentNode.data);
    }
    for (const name of ["aria-label", "title", "placeholder", "alt", "aria-valuetext", "label"]) {
        for (const element of document.body.querySelectorAll(`[${name}]`)) seen.push(element.getAttribute(name));
    }
    return seen;
}"""
_OPEN = """() => {
    for (const details of document.querySelectorAll("details")) details.open = true;
    for (const fold of document.querySelectorAll('.ww-exercise [aria-expanded="false"]')) fold.click();
}"""


def cyrillic(text: str) -> str:
    """A text in other letters; values and tags stay as they are."""
    kept = _KEPT.findall(text)
    pieces = [piece.translate(_LETTERS) for piece in _KEPT.split(text)]
    return "".join(piece for pair in zip(pieces, [*kept, ""], strict=True) for piece in pair)


def all_cyrillic() -> dict[str, str]:
    texts = [text for message in messages() for text in ((message.id,) if isinstance(message.id, str) else message.id)]
    return {text: cyrillic(text) for text in texts}


@pytest.fixture(scope="module")
def foreign(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    course = Course(tmp_path_factory.mktemp("foreign"), site_name="Барабан", site_description="Курс")
    course.settings["theme"] = {"name": "material", "language": "ru"}
    own = {"checks": "off", "starts": "2027-01-11", "words": all_cyrillic()}
    course.settings["plugins"] = ["search", {"wristwork": own}]
    course.write("docs/weeks/week-01.md", WEEK.format(number=1, more=""))
    course.write("docs/weeks/week-02.md", WEEK.format(number=2, more="requires: first-1\nmotion: whip\n"))
    course.write("docs/index.md", "# Барабан\n\nКурс.\n")
    course.write("docs/lesson.mp4", "")
    course.build()
    with serving(course.site) as served:
        yield served


def english_on(page: Page, known: str = "") -> list[str]:
    """What is left of a page's words, as far as ``known`` does not hold them."""
    left = {}
    for text in page.evaluate(_SEEN):
        words = [word for word in _WORD.findall(_SAME.sub(" ", text)) if word not in known]
        if words:
            left[" ".join(text.split())] = words
    return sorted(left)


def made(name: str) -> str:
    return (Path(str(PAGES)) / name).read_text(encoding="utf-8")


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(service_workers="block")
    yield context.new_page()
    context.close()


@pytest.mark.browser
@pytest.mark.parametrize(
    ("address", "known"),
    [
        ("", ""),
        ("weeks/week-01/", ""),
        ("weeks/week-02/", ""),
        ("x/first-1/", ""),
        ("curriculum/", "curriculum.md"),
        ("exercises/", "exercises.md"),
        ("my-practice/", "my-practice.md"),
        ("practice/", "practice.md"),
        ("404.html", ""),
    ],
)
def test_no_english_word_of_ours_is_met(page: Page, foreign: Served, address: str, known: str) -> None:
    page.goto(f"{foreign.url}{address}", wait_until="networkidle")
    page.evaluate(_OPEN)
    page.wait_for_load_state("networkidle")
    assert english_on(page, made(known) if known else "") == []


@pytest.mark.parametrize("folder", ["x/", "weeks/"])
def test_nor_where_an_address_was_shortened(foreign: Served, folder: str) -> None:
    """These pages lead on at once: they are read before a browser does."""
    with urlopen(f"{foreign.url}{folder}") as answer:
        html = answer.read().decode()
    told = re.findall(r"<(?:title|h1)>(.*?)</(?:title|h1)>", html)
    assert len(told) == 2
    assert not re.search("[A-Za-z]", "".join(told)), told


@pytest.mark.browser
@pytest.mark.parametrize("behind", ["Watch the hands", "Listen to me", "On the music stand"])
def test_nor_behind_more(page: Page, foreign: Served, behind: str) -> None:
    page.goto(f"{foreign.url}x/first-1/", wait_until="networkidle")
    page.get_by_role("button", name=cyrillic("More")).click()
    page.get_by_role("button", name=cyrillic(behind), exact=True).click()
    page.wait_for_load_state("networkidle")
    if behind == "Watch the hands":
        a_stroke = re.compile("|".join(cyrillic(name) for name in ("full", "down", "tap", "up")))
        expect(page.locator('[data-ww-hand="right hand"] figcaption')).to_contain_text(a_stroke)
        page.get_by_role("button", name=cyrillic("Next stroke")).click()
        expect(page.locator(".ww-watch [aria-live]").last).to_contain_text(cyrillic("starts"))
    assert english_on(page) == []


def german(course: Course, **own: object) -> Course:
    course.settings["theme"] = {"name": "material", "language": "de"}
    course.settings["plugins"] = ["search", {"wristwork": {"checks": "off", **own}}]
    return course


def test_a_german_course_speaks_and_counts_german(course: Course) -> None:
    german(course).build()
    week = (course.site / "weeks/week-02/index.html").read_text()
    assert "Üben in dieser Woche" in week
    assert ">+</text>" in week
    place = (course.site / "x/accented-paradiddle/index.html").read_text()
    assert '<html lang="de">' in place
    assert "rechts, Akzent, Down Stroke; e: links" in place
    assert "Play" not in place
    warm_up = (course.site / "safe-practice/warm-up/index.html").read_text()
    assert "Hör sofort auf bei Schmerz" in warm_up
    assert "ww-in-english" not in warm_up
    (words,) = course.site.glob("assets/wristwork/*/words.js")
    assert '"Stop":"' not in words.read_text()
    assert '"{title} abspielen"' in words.read_text()
    assert 'QUARTERS = ["e", "+", "e"]' in words.read_text()


class _Headings(HTMLParser):
    """A page's headings by their ids, and what its table of contents says of them."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.found: dict[str, str] = {}
        self.listed: dict[str, str] = {}
        self._navs: list[bool] = []
        self._open: tuple[str, dict[str, str], str] | None = None
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if tag == "nav":
            self._navs.append("md-nav--secondary" in (given.get("class") or ""))
        target = given.get("href") or ""
        if tag == "a" and any(self._navs) and target.startswith("#"):
            self._open = (tag, self.listed, target[1:])
        elif re.fullmatch("h[1-6]", tag) and given.get("id"):
            self._open = (tag, self.found, str(given["id"]))
        else:
            return
        self._open[1][self._open[2]] = ""

    def handle_data(self, data: str) -> None:
        if self._open:
            _, texts, name = self._open
            texts[name] = " ".join(f"{texts[name]} {data}".split())

    def handle_endtag(self, tag: str) -> None:
        if tag == "nav":
            self._navs.pop()
        if self._open and tag == self._open[0]:
            self._open = None


def listed(course: Course) -> set[str]:
    """What the tables of contents of all pages say, which is what the headings say."""
    texts: set[str] = set()
    for file in course.site.rglob("*.html"):
        page = _Headings(file.read_text(encoding="utf-8"))
        assert page.listed == {name: page.found[name] for name in page.listed}
        texts.update(page.listed.values())
    return texts


@pytest.mark.parametrize(("tongue", "same"), [("de", set()), ("fr", {"Sources"}), ("es", set())])
def test_every_table_of_contents_speaks_the_language(
    built: Course, course: Course, tongue: str, same: set[str]
) -> None:
    german(course).settings["theme"] = {"name": "material", "language": tongue}
    course.build()
    texts = listed(course)
    assert texts & listed(built) == {"Slow singles", *same}  # a tutor's own heading, and a word that both have
    assert len(texts) > 20


def test_own_words_and_a_way_of_counting_come_first(course: Course) -> None:
    german(course, words={"Grade {grade}": "Level {grade}"}, counting="1-ta-te-ta").build()
    week = (course.site / "weeks/week-02/index.html").read_text()
    assert "Level 2" in (course.site / "index.html").read_text()
    assert ">te</text>" in week
    assert ">+</text>" not in week


@pytest.mark.parametrize(
    ("own", "told"),
    [
        ({"words": {"Grad {grade}": "Level {grade}"}}, "nothing says 'Grad {grade}': did you mean 'Grade {grade}'?"),
        ({"words": ["Level"]}, "Expected words with what to say instead, each in quotation marks"),
        ({"counting": "1 bla"}, "Expected 1 e & a, 1 e + e, 1 ta te ta, found '1 bla'"),
    ],
)
def test_wrong_words_and_ways_of_counting_are_told(course: Course, own: dict[str, object], told: str) -> None:
    course.settings["plugins"] = ["search", {"wristwork": own}]
    course.save_settings()
    done = course.run()
    assert done.returncode != 0
    assert told in done.stderr


def test_a_language_without_words_says_so_on_the_pages_of_safe_practice(course: Course) -> None:
    course.settings["theme"] = {"name": "material", "language": "fi"}
    course.build()
    posture = (course.site / "safe-practice/posture/index.html").read_text()
    assert '<p lang="en" class="ww-in-english">' in posture


def test_a_page_from_right_to_left_says_so(course: Course) -> None:
    course.settings["theme"] = {"name": "material", "language": "he"}
    course.build()
    assert '<html lang="he" dir="rtl">' in (course.site / "x/slow-singles/index.html").read_text()


def test_an_english_course_after_a_german_one_is_english(course: Course, tmp_path: Path) -> None:
    german(course).build()
    after = Course(tmp_path / "after")
    after.takes_all = False  # what it makes itself is what counts
    after.build()
    assert "This week’s practice" in (after.site / "weeks/week-02/index.html").read_text()
