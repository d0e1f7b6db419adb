"""The front matter of a page, by the rule of the site generator that publishes it.

That rule, in its own words: three dashes in the very first line, then YAML up to the next line of three dashes or
three dots. Where that YAML is no list of settings, or cannot be read, all of it is text of the page. A page without
dashes may begin with lines of ``key: value``, up to the first that is none: these are settings too, each a text.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

import yaml

from wristwork.languages.say import marked

# The longest first line of settings is found by the same expressions that the generator uses.
_YAML = re.compile(r"^-{3}[ \t]*\n(?P<yaml>.*?\n)(?:\.{3}|-{3})[ \t]*\n", re.DOTALL)
_BARE = re.compile(r"^[ ]{0,3}(?P<key>[A-Za-z0-9_-]+):\s*(?P<value>.*)")
_MORE = re.compile(r"^([ ]{4}|\t)(\s*)(?P<value>.*)")
# A setting that takes over others (``<<``) copies all of them: lists that name each other would never end.
_MOST_VALUES = 10_000
_MERGE = "tag:yaml.org,2002:merge"
_Loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True, slots=True)
class Setting:
    """One line of front matter: its value as YAML reads it, its text as typed (None for a list), its line."""

    value: Any
    typed: str | None
    line: int


class Shape(StrEnum):
    """What a value is that is none: readers are told :func:`say` of it."""

    LIST = marked("a list")
    SETTINGS = marked("a list of settings")


def shape(value: object) -> Shape | None:
    """What a value is that is no text, number, date or yes and no: a list of some kind; None where it is one.

    A short list may be endless in words, for YAML lets one part of it stand for another: it is never shown.
    """
    if isinstance(value, dict):
        return Shape.SETTINGS
    return Shape.LIST if isinstance(value, (list, tuple, set)) else None


@dataclass(frozen=True, slots=True)
class FrontMatter:
    """The settings at the head of a page by key; ``length`` counts the lines of the page that they take."""

    settings: Mapping[Any, Setting] = field(default_factory=dict)
    length: int = 0
    has_dashes: bool = True

    def value(self, key: str) -> object:
        """The value of a setting, None where it is not there."""
        setting = self.settings.get(key)
        return None if setting is None else setting.value

    def typed(self, key: str) -> str | None:
        """The text of a setting as typed, None where it is not there, empty or a list."""
        setting = self.settings.get(key)
        return None if setting is None or setting.value is None else setting.typed

    def line(self, key: str) -> int:
        """The line of a setting in the page, 1 where it is not there."""
        return self.settings[key].line if key in self.settings else 1


class Endless(yaml.YAMLError):
    """Settings that take over each other, over and over."""


@dataclass(frozen=True, slots=True)
class Unread:
    """What stands between the dashes and cannot be read: its lines, and the error with the line it was met in."""

    lines: tuple[str, ...]
    error: Exception
    line: int


def front_matter(text: str) -> FrontMatter | Unread:
    """The front matter of a page's text with plain line ends, or what keeps it from being read."""
    found = _YAML.match(text)
    if found is None:
        return _bare_settings(text)
    loader = _Loader(found["yaml"])
    node: yaml.MappingNode | None = None
    try:
        node = loader.get_single_node()
        _stop_endless(node)
        values = loader.construct_document(node) if node is not None else None
    except Exception as error:  # what the generator does: a day that is not in the calendar is no YAMLError
        return Unread(tuple(found["yaml"].split("\n")[:-1]), error, _line_of(error, node, found["yaml"]))
    if not isinstance(values, dict):
        return FrontMatter()
    places = _places(node)
    settings = {key: Setting(value, *places.get(str(key), (None, 2))) for key, value in values.items()}
    rest = text[found.end() :]
    blank = len(rest) - len(rest.lstrip("\n"))
    return FrontMatter(settings, text.count("\n", 0, found.end() + blank))


def _stop_endless(node: yaml.Node | None) -> None:
    """Raise :class:`Endless` where settings take over others and so would be copied too often."""
    copies: dict[int, int] = {}
    takes_over = False

    def count(one: yaml.Node) -> int:
        nonlocal takes_over
        if id(one) not in copies and isinstance(one, yaml.CollectionNode):
            copies[id(one)] = 1  # one that holds itself is counted once
            parts = [part for pair in one.value for part in pair] if isinstance(one, yaml.MappingNode) else one.value
            copies[id(one)] += sum(map(count, parts))
        takes_over = takes_over or one.tag == _MERGE
        return copies.get(id(one), 1)

    if node is not None and count(node) > _MOST_VALUES and takes_over:
        raise Endless


def _bare_settings(text: str) -> FrontMatter:
    """Settings without dashes around them."""
    lines = text.split("\n")
    settings: dict[Any, Setting] = {}
    key, length = "", 0
    for length, line in enumerate(lines):
        if not line.strip():
            length += 1
            break
        if first := _BARE.match(line):
            key, value = first["key"].lower(), first["value"].strip()
            before = settings.get(key)
            whole = value if before is None else f"{before.value} {value}"
            settings[key] = Setting(whole, whole, before.line if before else length + 1)
        elif key and (more := _MORE.match(line)):
            whole = f"{settings[key].value} {more['value'].strip()}"
            settings[key] = Setting(whole, whole, settings[key].line)
        else:
            break
    else:
        length = len(lines)
    while length < len(lines) and not lines[length]:
        length += 1
    return FrontMatter(settings, length, has_dashes=False)


def _places(node: yaml.MappingNode) -> dict[str, tuple[str | None, int]]:
    """The text and the line of each setting; the text begins below the line of dashes, and YAML counts from 0."""
    return {
        str(key.value): (value.value if isinstance(value, yaml.ScalarNode) else None, key.start_mark.line + 2)
        for key, value in node.value
    }


def _line_of(error: Exception, node: yaml.Node | None, text: str) -> int:
    """The line of the page in which an error was met."""
    mark = getattr(error, "problem_mark", None)
    if mark is not None:
        return min(mark.line, text.count("\n") - 1) + 2
    for key, value in node.value if isinstance(node, yaml.MappingNode) else ():
        try:
            yaml.SafeLoader("").construct_document(value)
        except Exception:  # the one that failed within the whole
            return key.start_mark.line + 2
    return 2
