"""The course as a book: title page, contents, chapters with their text and exercises, indexes by name and sticking."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from posixpath import dirname, join, normpath
from typing import Any
from urllib.parse import unquote, urlsplit

from wristwork.course.safety.safe_practice import STOP_RULE
from wristwork.languages.say import say, say_count
from wristwork.paper.drawings import drawn_in_a_row
from wristwork.paper.parts import OPEN_THE_COURSE, Rows, Sticking, code_for, drawn_pattern, shown_address, sticking
from wristwork.paper.press import Paper, PaperError, Press
from wristwork.paper.text import Block, Inline, all_blocks, read_text, without_title
from wristwork.pattern.model import Pattern

_MARGINS = 40  # mm, inside and outside together
_SMALLER = 0.85  # diagrams beside their sheets
_MOST_GROUPS = 8  # of a sticking in the index
_FIGURE = re.compile(r"ww-figure (\d+)")
# Kinds of pictures that can be printed.
PICTURES = (".png", ".jpg", ".jpeg", ".gif", ".svg", ".webp")
_DEEPEST = 6


@dataclass(frozen=True, slots=True)
class Chapter:
    """A page of the course: ``html`` is its text, in which the comment ``ww-figure N`` stands for ``figures[N]``.

    ``uri`` is the page's path among the course's, by which other pages link to it. ``number`` is a week's.
    """

    uri: str
    title: str
    html: str
    figures: tuple[Pattern | None, ...] = ()
    eyebrow: str = ""
    aim: str = ""
    number: int | None = None


@dataclass(frozen=True, slots=True)
class Book:
    """What the book holds.

    ``addresses`` tell where the pages of the course stand on its site, by their paths; ``picture`` finds the file of a
    picture by its path among the pages; ``mark`` fills a mark with HTML.
    """

    title: str
    description: str
    chapters: tuple[Chapter, ...]
    address: str | None = None
    addresses: Mapping[str, str] = field(default_factory=dict)
    picture: Callable[[str], Path | None] = lambda path: None
    mark: Callable[[str], str] = lambda name: ""
    show: Rows = None


def book_pdf(press: Press, book: Book, paper: Paper) -> bytes:
    """The book as a PDF; where a picture can't be set, the words that stand for it do."""
    try:
        return _set(press, book, paper)
    except PaperError:
        return _set(press, replace(book, picture=_no_picture), paper)


def _no_picture(path: str) -> None:
    return None


def _set(press: Press, book: Book, paper: Paper) -> bytes:
    setter = _Setter(book, paper)
    chapters = [setter.chapter(chapter) for chapter in book.chapters]
    names = sorted(setter.exercises, key=lambda entry: entry[0].casefold())
    by_sticking = sorted(setter.exercises, key=lambda entry: (_letters(entry[2]), entry[2]))
    data = {
        "title": book.title,
        "description": book.description,
        "contains": _contains(book, len(names)),
        "contents-word": say("Contents"),
        "chapters": chapters,
        "index-word": say("Index"),
        "by-name": say("Exercises by name"),
        "by-sticking": say("Exercises by sticking"),
        "names": [(name, label) for name, label, _ in names],
        "stickings": [(text, label) for _, label, text in by_sticking],
        "code": code_for(book.address),
        "code-words": say(OPEN_THE_COURSE),
        "address": book.address,
        "shown-address": shown_address(book.address),
        "stop": say(STOP_RULE),
    }
    return press.pdf("book", data, paper, setter.pictures)


def _letters(groups: Sticking) -> str:
    """The hands of a sticking alone: accents and other marks don't part what is played by the same hands."""
    return " ".join("".join(char for text, _ in group for char in text if char.isalpha()) for group in groups)


def _contains(book: Book, exercises: int) -> str:
    weeks = sum(chapter.number is not None for chapter in book.chapters)
    told = (
        weeks and say_count("{count} week", "{count} weeks", weeks),
        exercises and say_count("{count} exercise", "{count} exercises", exercises),
    )
    return " · ".join(each for each in told if each)


class _Setter:
    """Makes chapters ready: numbers exercises, knows what every link leads to, gathers pictures."""

    def __init__(self, book: Book, paper: Paper) -> None:
        self._book = book
        self._paper = paper
        self._texts = {chapter.uri: read_text(chapter.html) for chapter in book.chapters}
        self._anchors = {chapter.uri: self._anchors_of(chapter) for chapter in book.chapters}
        self._labelled: set[str] = set()
        self.pictures: dict[str, Path | bytes] = {}
        self.exercises: list[tuple[str, str, Sticking]] = []

    def chapter(self, chapter: Chapter) -> dict[str, Any]:
        """A chapter as the template wants it."""
        return {
            "label": chapter.uri,
            "title": chapter.title,
            "eyebrow": chapter.eyebrow,
            "aim": chapter.aim,
            "blocks": list(_ChapterSetter(self, chapter).set(without_title(self._texts[chapter.uri]))),
        }

    def _anchors_of(self, chapter: Chapter) -> set[str]:
        headings = {block["id"] for block in all_blocks(self._texts[chapter.uri]) if block["kind"] == "heading"}
        return headings | {pattern.id for pattern in chapter.figures if pattern and pattern.id}

    def label(self, uri: str, anchor: str) -> str:
        """The label of an anchor where it stands for the first time, none where it stands again."""
        label = f"{uri}#{anchor}"
        if not anchor or label in self._labelled:
            return ""
        self._labelled.add(label)
        return label

    def target(self, typed: str, uri: str) -> tuple[str | None, str | None]:
        """What a link on the page ``uri`` leads to: a label in the book, or an address; neither if it leads nowhere."""
        parts = urlsplit(typed)
        if parts.scheme or parts.netloc:
            return None, typed if parts.scheme in ("http", "https", "mailto") else None
        path = normpath(join(dirname(uri), unquote(parts.path))) if parts.path else uri
        if path in self._anchors:
            held = unquote(parts.fragment) in self._anchors[path]
            return (f"{path}#{unquote(parts.fragment)}" if held else path), None
        address = self._book.addresses.get(path)
        return None, f"{address}#{parts.fragment}" if address and parts.fragment else address

    def picture(self, source: str, uri: str) -> str | None:
        """The name of a picture's file for the template; None where there is none that can be printed."""
        path = normpath(join(dirname(uri), unquote(urlsplit(source).path)))
        suffix = Path(path).suffix.lower()
        file = self._book.picture(path) if suffix in PICTURES and not urlsplit(source).scheme else None
        if file is None:
            return None
        name = f"picture-{len(self.pictures)}{suffix}"
        self.pictures[name] = file
        return name

    def filled(self, mark: str) -> list[Block]:
        """What a mark stands for."""
        return read_text(self._book.mark(mark))

    def figure(self, pattern: Pattern, chapter: Chapter, level: int, number: str) -> Block:
        """An exercise or an example."""
        drawn = drawn_pattern(pattern, self._paper, self._paper.room(_MARGINS), self._book.show, _SMALLER)
        label = self.label(chapter.uri, pattern.id or "")
        if label:
            self.exercises.append((drawn["title"], label, sticking(pattern, _MOST_GROUPS)))
        return {**drawn, "kind": "exercise", "label": label, "level": level, "number": number}


class _ChapterSetter:
    """Sets the blocks of one chapter, from top to bottom."""

    def __init__(self, whole: _Setter, chapter: Chapter) -> None:
        self._whole = whole
        self._chapter = chapter
        self._level = 1
        self._count = 0

    def set(self, blocks: Sequence[Block]) -> Iterator[Block]:
        """The blocks with figures, marks, links and pictures in their places."""
        drawings: list[Block] = []
        for block in blocks:
            if block["kind"] == "drawing":
                drawings.append(block)
                continue
            if drawings:
                yield drawn_in_a_row(drawings)
                drawings = []
            yield from self._set(block)
        if drawings:
            yield drawn_in_a_row(drawings)

    def _set(self, block: Block) -> Iterator[Block]:
        kind = block["kind"]
        if kind == "comment":
            yield from self._comment(block["text"])
        elif kind == "heading":
            self._level = min(max(2, block["level"]), self._level + 1)
            label = self._whole.label(self._chapter.uri, block["id"])
            yield {**block, "level": self._level, "label": label, "inside": self._words(block["inside"])}
        elif kind == "paragraph":
            yield from self._paragraph(block["inside"])
        elif kind == "list":
            yield {**block, "items": [list(self.set(item)) for item in block["items"]]}
        elif kind == "terms":
            terms = ((item["term"], item["inside"]) for item in block["items"])
            items = [{"term": self._words(term), "inside": list(self.set(inside))} for term, inside in terms]
            yield {**block, "items": items}
        elif kind == "table":
            rows = [[self._words(cell) for cell in row] for row in block["rows"]]
            yield {**block, "head": [self._words(cell) for cell in block["head"]], "rows": rows}
        elif kind == "box":
            yield {**block, "title": self._words(block["title"]), "inside": list(self.set(block["inside"]))}
        elif kind == "quote":
            yield {**block, "inside": list(self.set(block["inside"]))}
        else:
            yield block

    def _comment(self, text: str) -> Iterator[Block]:
        found = _FIGURE.fullmatch(text)
        if found:
            pattern = self._chapter.figures[int(found[1])]
            if pattern is not None:
                yield self._figure(pattern)
            return
        word, _, name = text.partition(":")
        if word.strip() == "wristwork":
            yield from self.set(self._whole.filled(name.strip()))

    def _figure(self, pattern: Pattern) -> Block:
        number = ""
        if pattern.id is not None:
            self._count += 1
            week = self._chapter.number
            number = str(self._count) if week is None else f"{week}.{self._count}"
        return self._whole.figure(pattern, self._chapter, min(self._level + 1, _DEEPEST), number)

    def _paragraph(self, inside: Sequence[Inline]) -> Iterator[Block]:
        """A paragraph; a picture that is alone in one is set by itself."""
        if len(inside) == 1 and inside[0]["kind"] == "picture":
            name = self._whole.picture(inside[0]["source"], self._chapter.uri)
            if name is not None:
                yield {"kind": "picture", "file": name, "words": _named(inside[0]), "width": 0.8}
            return
        words = self._words(inside)
        if words:
            yield {"kind": "paragraph", "inside": words}

    def _words(self, pieces: Sequence[Inline]) -> list[Inline]:
        return [made for piece in pieces for made in self._piece(piece)]

    def _piece(self, piece: Inline) -> Iterator[Inline]:
        if piece["kind"] == "picture":
            name = self._whole.picture(piece["source"], self._chapter.uri)
            words = _named(piece)
            yield {"kind": "picture", "file": name, "words": words} if name else {"kind": "text", "text": words}
        elif piece["kind"] == "link":
            yield from self._link(piece)
        elif "inside" in piece:
            yield {**piece, "inside": self._words(piece["inside"])}
        else:
            yield piece

    def _link(self, piece: Inline) -> Iterator[Inline]:
        inside = self._words(piece["inside"])
        label, address = self._whole.target(piece["to"], self._chapter.uri)
        if label is not None:
            is_far = label.partition("#")[0] != self._chapter.uri
            yield {"kind": "place", "to": label, "far": is_far, "inside": inside}
        elif address is not None:
            yield {"kind": "link", "to": address, "inside": inside}
        else:
            yield from inside


def _named(piece: Inline) -> str:
    return piece["words"] or say("A picture.")
