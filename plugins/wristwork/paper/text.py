"""A page's text for paper: the HTML that Markdown made of it, as blocks of plain values.

Words reach the typesetter as data, so nothing in them can be read as its markup. What paper can't do (forms, sound,
film, scripts) is left out; what nobody foresaw is kept as the text that is in it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from html import escape
from html.parser import HTMLParser
from typing import Any
from xml.etree.ElementTree import Element

Block = dict[str, Any]
"""Its ``kind``: heading, paragraph, list, terms, table, box, quote, code, picture, drawing, rule, comment."""
Inline = dict[str, Any]
"""Its ``kind``: text, strong, emphasis, code, link, picture, raised, lowered, struck, break."""

_COMMENT, _DRAWING = "comment", "svg"
_VOID = frozenset(
    ("area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr")
)
_LEFT_OUT = frozenset((
    "script", "style", "template", "noscript", "form", "button", "input", "select", "textarea", "output", "progress",
    "iframe", "object", "audio", "video", "canvas", "dialog", "math", "link", "meta", "title",
))  # fmt: skip
_HEADINGS = {f"h{level}": level for level in range(1, 7)}
_MARKS = {
    "strong": "strong", "b": "strong", "th": "strong", "em": "emphasis", "i": "emphasis", "cite": "emphasis",
    "var": "emphasis", "dfn": "emphasis", "code": "code", "kbd": "code", "samp": "code", "tt": "code",
    "sup": "raised", "sub": "lowered", "del": "struck", "s": "struck",
}  # fmt: skip
_BLOCKS = frozenset((
    *_HEADINGS, "p", "ul", "ol", "dl", "table", "blockquote", "pre", "hr", "div", "section", "article", "aside", "main",
    "header", "footer", "nav", "figure", "figcaption", "details", "center", "address", "fieldset", _DRAWING, _COMMENT,
))  # fmt: skip
# Links that only help on a screen: to a heading itself, and back from a note.
_ON_SCREEN = frozenset(("headerlink", "footnote-backref"))
_SPACES = re.compile(r"[ \t\r\n\f]+")


def read_text(html: str) -> list[Block]:
    """The blocks of some HTML."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    return list(_blocks(reader.root))


def without_title(blocks: list[Block]) -> list[Block]:
    """A page without its first heading, which the chapter has already."""
    first = next((number for number, block in enumerate(blocks) if block["kind"] != "comment"), None)
    if first is None or blocks[first]["kind"] != "heading" or blocks[first]["level"] != 1:
        return blocks
    return blocks[:first] + blocks[first + 1 :]


def all_blocks(blocks: Sequence[Block]) -> Iterator[Block]:
    """The blocks and those inside them."""
    for block in blocks:
        yield block
        if block["kind"] in ("box", "quote"):
            yield from all_blocks(block["inside"])
        elif block["kind"] == "list":
            for item in block["items"]:
                yield from all_blocks(item)
        elif block["kind"] == "terms":
            for item in block["items"]:
                yield from all_blocks(item["inside"])


class _Reader(HTMLParser):
    """Reads HTML into elements. A comment is an element with its text; a drawing one with its whole source."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.root = Element("div")
        self._open = [self.root]
        self._drawn: list[str] = []
        self._depth = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == _DRAWING:
            self._depth += 1
        if self._depth:
            self._drawn.append(self.get_starttag_text() or "")
            return
        element = Element(tag, {name: value or "" for name, value in attrs})
        self._open[-1].append(element)
        if tag not in _VOID:
            self._open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if self._depth:
            self._drawn.append(self.get_starttag_text() or "")
            return
        self.handle_starttag(tag, attrs)
        if tag not in _VOID:
            self.handle_endtag(tag)

    def handle_endtag(self, tag: str) -> None:
        if self._depth:
            self._drawn.append(f"</{tag}>")
            self._depth -= tag == _DRAWING
            if not self._depth:
                self._leaf(_DRAWING, "".join(self._drawn))
                self._drawn = []
            return
        for index in range(len(self._open) - 1, 0, -1):
            if self._open[index].tag == tag:
                del self._open[index:]
                return

    def handle_data(self, data: str) -> None:
        if self._depth:
            self._drawn.append(escape(data))
            return
        element = self._open[-1]
        if len(element):
            element[-1].tail = (element[-1].tail or "") + data
        else:
            element.text = (element.text or "") + data

    def handle_comment(self, data: str) -> None:
        if not self._depth:
            self._leaf(_COMMENT, data.strip())

    def _leaf(self, tag: str, text: str) -> None:
        element = Element(tag)
        element.text = text
        self._open[-1].append(element)


def _blocks(element: Element) -> Iterator[Block]:
    """The blocks of what is inside an element; words between them are paragraphs."""
    held: list[Inline] = []
    for part in _parts(element):
        if isinstance(part, str) or part.tag not in _BLOCKS:
            held += _inline(part)
            continue
        yield from _paragraph(held)
        held = []
        yield from _block(part)
    yield from _paragraph(held)


def _parts(element: Element) -> Iterator[str | Element]:
    """The words and elements inside an element, in order, without what paper leaves out."""
    if element.text:
        yield element.text
    for child in element:
        if child.tag not in _LEFT_OUT and "hidden" not in child.attrib:
            yield child
        if child.tail:
            yield child.tail


def _paragraph(inside: Iterable[Inline]) -> Iterator[Block]:
    words = _trimmed(list(inside))
    if words:
        yield {"kind": "paragraph", "inside": words}


def _block(element: Element) -> Iterator[Block]:
    tag, css = element.tag, element.get("class", "").split()
    if tag in _HEADINGS:
        yield {"kind": "heading", "level": _HEADINGS[tag], "id": element.get("id", ""), "inside": _words(element)}
    elif tag == "p":
        yield from _blocks(element)
    elif tag in ("ul", "ol"):
        yield from _list(element)
    elif tag == "dl":
        yield {"kind": "terms", "items": _terms(element)}
    elif tag == "table":
        yield from _table(element)
    elif tag == "blockquote":
        yield {"kind": "quote", "inside": list(_blocks(element))}
    elif tag == "pre":
        yield {"kind": "code", "text": "".join(element.itertext()).strip("\n")}
    elif tag == "hr":
        yield {"kind": "rule"}
    elif tag == _DRAWING:
        yield {"kind": "drawing", "svg": element.text, "caption": ""}
    elif tag == "figure" and (drawing := element.find(_DRAWING)) is not None:
        caption = element.find("figcaption")
        words = "" if caption is None else "".join(caption.itertext())
        yield {"kind": "drawing", "svg": drawing.text, "caption": words}
    elif tag == _COMMENT:
        yield {"kind": "comment", "text": element.text}
    elif "admonition" in css or tag == "details":
        yield _box(element, css)
    elif "tabbed-set" in css:
        yield from _tabs(element)
    else:
        yield from _blocks(element)


def _list(element: Element) -> Iterator[Block]:
    items = [list(_blocks(item)) for item in element if item.tag == "li"]
    if items:
        start = element.get("start", "1")
        number = int(start) if start.isdecimal() else 1
        yield {"kind": "list", "ordered": element.tag == "ol", "start": number, "items": items}


def _terms(element: Element) -> list[dict[str, Any]]:
    items: list[dict[str, Any]] = []
    for part in element.iter():
        if part.tag == "dt":
            items.append({"term": _words(part), "inside": []})
        elif part.tag == "dd" and items:
            items[-1]["inside"] += _blocks(part)
    return items


def _table(element: Element) -> Iterator[Block]:
    rows = list(element.iter("tr"))
    cells = [[(cell.tag, _words(cell)) for cell in row if cell.tag in ("th", "td")] for row in rows]
    columns = max(map(len, cells), default=0)
    if not columns:
        return
    filled = [[words for _, words in row] + [[]] * (columns - len(row)) for row in cells]
    has_head = all(tag == "th" for tag, _ in cells[0])
    caption = element.find("caption")
    if caption is not None:
        yield from _paragraph(_words(caption))
    head = filled[0] if has_head else []
    yield {"kind": "table", "columns": columns, "head": head, "rows": filled[1:] if has_head else filled}


def _box(element: Element, css: list[str]) -> Block:
    """A boxed note: its title, and what it says."""
    title: list[Inline] = []
    rest = Element("div")
    rest.text = element.text
    for child in element:
        if child.tag == "summary" or "admonition-title" in child.get("class", "").split():
            title = _words(child)
        else:
            rest.append(child)
    name = next((word for word in css if word != "admonition"), "note")
    return {"kind": "box", "name": name, "title": title, "inside": list(_blocks(rest))}


def _tabs(element: Element) -> Iterator[Block]:
    """Tabs one below the other, each under its name."""
    names = [_words(label) for label in element.iter("label")]
    contents = [part for part in element.iter("div") if "tabbed-block" in part.get("class", "").split()]
    for name, content in zip(names, contents, strict=False):
        yield {"kind": "paragraph", "inside": [{"kind": "strong", "inside": name}]}
        yield from _blocks(content)


def _words(element: Element) -> list[Inline]:
    """What is inside an element that holds words, whatever else is in it."""
    return _trimmed([piece for part in _parts(element) for piece in _inline(part)])


def _inline(part: str | Element) -> Iterator[Inline]:
    if isinstance(part, str):
        text = _SPACES.sub(" ", part)
        if text:
            yield {"kind": "text", "text": text}
        return
    tag = part.tag
    if tag in (_COMMENT, _DRAWING) or _ON_SCREEN.intersection(part.get("class", "").split()):
        return
    if tag == "br":
        yield {"kind": "break"}
    elif tag == "img":
        yield {"kind": "picture", "source": part.get("src", ""), "words": part.get("alt", "")}
    elif tag == "a" and part.get("href"):
        yield {"kind": "link", "to": part.get("href"), "inside": _inside(part)}
    elif tag in _MARKS:
        yield {"kind": _MARKS[tag], "inside": _inside(part)}
    else:
        yield from _inside(part)


def _inside(element: Element) -> list[Inline]:
    return [piece for part in _parts(element) for piece in _inline(part)]


def _trimmed(words: list[Inline]) -> list[Inline]:
    """Without spaces and breaks at the ends; nothing where there is nothing else."""
    while words and _is_blank(words[0]):
        words = words[1:]
    while words and _is_blank(words[-1]):
        words = words[:-1]
    return words


def _is_blank(piece: Inline) -> bool:
    return piece["kind"] == "break" or (piece["kind"] == "text" and not piece["text"].strip())
