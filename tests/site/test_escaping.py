"""Texts of the settings and of front matter are text on every page, whatever they hold."""

from __future__ import annotations

from html.parser import HTMLParser
from pathlib import Path

from tests.site.courses import WEEK_1, Course
from wristwork.site.mkdocs.escaping import escape_meta

HOSTILE = '"><script>harm</script>&amp; R<L'


class Reader(HTMLParser):
    """What a page says of itself, and whether a text became a tag."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.meta: dict[str, str] = {}
        self.within: list[str] = []
        self.texts: dict[str, list[str]] = {}
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        found = dict(attrs)
        if tag == "meta" and "name" in found:
            self.meta[found["name"]] = found["content"]
        self.within.append(tag)

    def handle_data(self, data):
        if data.strip():
            self.texts.setdefault(self.within[-1] if self.within else "", []).append(" ".join(data.split()))


def test_what_the_theme_prints_is_never_markup(tmp_path: Path) -> None:
    nav = [{"Home": "index.md"}, {HOSTILE: [{f"Own {HOSTILE}": "weeks/week-01.md"}, "weeks/week-02.md"]}]
    course = Course(tmp_path, site_name=HOSTILE, site_description=HOSTILE, site_author=HOSTILE, nav=nav)
    course.write("docs/weeks/week-01.md", WEEK_1.replace("---\n", f"---\ndescription: '{HOSTILE}'\n", 1))
    course.preview()
    for address in ("", "weeks/week-01", "weeks/week-02", "key"):
        html = course.page(address)
        page = Reader(html)
        assert "<script>harm" not in html
        assert page.meta["description"] == HOSTILE
        assert page.meta["author"] == HOSTILE
        assert page.texts["title"][0].endswith(HOSTILE)
    shown = [text for texts in Reader(course.page("weeks/week-02")).texts.values() for text in texts]
    assert f"Own {HOSTILE}" in shown
    assert HOSTILE in shown


def test_what_a_page_says_of_itself_in_a_list_is_not_printed() -> None:
    """A preview goes on when something is wrong; a list may hold one part so often that no memory would hold it."""
    bomb: object = ["x"]
    for _ in range(40):
        bomb = [bomb] * 9
    meta = {"title": bomb, "description": {"k": bomb}, "author": bomb, "icon": bomb, "tags": ["a"]}
    escape_meta(meta)
    assert meta == {"tags": ["a"]}
    meta = {"title": 'Two "<b>" & more', "author": "A & B"}
    escape_meta(meta)
    assert meta == {"title": 'Two "&lt;b&gt;" &amp; more', "author": "A &amp; B"}
