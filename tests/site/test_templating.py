"""Templates: lines are for their readers, every text is escaped, a value that is not given is an error."""

from __future__ import annotations

from html.parser import HTMLParser
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jinja2 import DictLoader, Environment, UndefinedError
from markupsafe import Markup

from wristwork.site import templating
from wristwork.site.templating import OneLine, markup

ROOMS = Path(templating.__file__).parent
TEMPLATES = [path.relative_to(ROOMS).as_posix() for path in ROOMS.rglob("*.html") if "theme" not in path.parts]

texts = st.text(alphabet="<>&\"'/ab\n {}%", max_size=12)


def one_line(template: str, **values: object) -> str:
    environment = Environment(loader=DictLoader({"it": template}), autoescape=True, extensions=[OneLine])
    return environment.get_template("it").render(values)


@pytest.mark.parametrize(
    ("template", "line"),
    [
        ("<ul>\n  <li>a</li>\n\n  <li>b</li>\n</ul>\n", "<ul><li>a</li><li>b</li></ul>"),
        ("<p>\n  one word\n  and another\n</p>", "<p>one word and another</p>"),
        ('<p class="a"\n   id="b">a</p>', '<p class="a" id="b">a</p>'),
        ("<p>\n  {{ word }}\n  {% if word %}\n    {{ word }}\n  {% endif %}\n</p>", "<p>aa</p>"),
        ("<p>{{ word }} <b>b</b> {{ word }}</p>", "<p>a <b>b</b> a</p>"),
    ],
)
def test_line_breaks_are_for_readers_and_part_no_more_than_words(template: str, line: str) -> None:
    assert one_line(template, word="a") == line


def test_line_breaks_of_a_value_stay() -> None:
    assert one_line("<pre>\n  {{ word }}\n</pre>", word="a\n  b") == "<pre>a\n  b</pre>"


class Reader(HTMLParser):
    """Elements and text of some HTML, as a browser would take them."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        self.text.append(data)


@given(texts, texts)
def test_texts_come_out_as_they_went_in(caption: str, cell: str) -> None:
    reader = Reader()
    reader.feed(markup("safety/facts_table.html", caption=caption, columns=[cell], rows=[(cell, cell)]))
    reader.close()
    rows = ["thead", "tr", "th", "tbody", "tr", "th", "td"]
    assert [tag for tag, _ in reader.elements] == ["div", "table", "caption", *rows]
    assert reader.elements[0][1]["aria-label"] == caption
    assert "".join(reader.text) == caption + 3 * cell


def test_only_markup_goes_in_as_it_is() -> None:
    made = markup("safety/sound_day.html", data="<b>", table=Markup("<b>in</b>"))
    assert "<b>in</b>" in made
    assert '="&lt;b&gt;"' in made


def test_a_value_that_is_not_given_stops_the_build() -> None:
    with pytest.raises(UndefinedError, match="data"):
        markup("safety/sound_day.html", table="")


@pytest.mark.parametrize("name", TEMPLATES)
def test_no_template_lets_a_text_in_unescaped(name: str) -> None:
    source = (ROOMS / name).read_text(encoding="utf-8")
    assert "safe" not in {word for mark in source.split("|")[1:] for word in mark.split()[:1]}
    assert "autoescape" not in source


@pytest.mark.parametrize("name", TEMPLATES)
def test_a_template_lies_beside_the_module_that_fills_it(name: str) -> None:
    others = [(ROOMS / other).read_text(encoding="utf-8") for other in TEMPLATES if other != name]
    shared = any(f'from "{name}" import' in other or f'extends "{name}"' in other for other in others)
    modules = (ROOMS / name).parent.glob("*.py")
    assert shared or any(f'"{name}"' in module.read_text(encoding="utf-8") for module in modules)
