"""Why front matter cannot be read: the slip that a tutor made, not the place where YAML gave up."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain
from unicodedata import category

import yaml

from wristwork.languages.say import say
from wristwork.page.front_matter import Endless, Unread
from wristwork.page.settings import LINES, is_setting
from wristwork.wording import misspelt

_SETTING = re.compile(r"(?P<indent> *)(?P<key>[^\s:'\"#\-\[{][^:#]*?) *:(?P<gap>[ \t]*)(?P<value>.*)")
_QUOTES = "\"'"
_ENDS = re.compile(r"(?:[ \t]+#.*|[ \t]*)")
# No plain text begins with these in YAML.
_SIGNS = "@`%&*!|>,]}"


@dataclass(frozen=True, slots=True)
class Cause:
    """One line of a page, what is wrong with it and what to write instead."""

    line: int
    found: str
    remedy: str


def not_closed(line: int) -> Cause:
    """Front matter that goes on below its last line."""
    found = say("front matter that is not closed below this line")
    return Cause(line, found, say("put a line of --- below line {line}", line=line))


def cause(unread: Unread) -> Cause:
    """What keeps front matter from being read. Lines count from the page's first, a line of dashes."""
    if isinstance(unread.error, Endless):
        endless = say("front matter that cannot be read: its lines take over each other (<<) without end")
        return Cause(unread.line, endless, say("write each of them out"))
    if not isinstance(unread.error, yaml.YAMLError):
        return _no_such_day(unread)
    found = next(chain(_controls(unread.lines), _slips(unread)), None)
    if found is not None:
        return found
    reason = getattr(unread.error, "problem", None) or getattr(unread.error, "reason", None)
    why = (
        say("front matter that cannot be read: {reason}", reason=reason)
        if reason
        else say("front matter that cannot be read: it is not YAML")
    )
    return Cause(unread.line, why, say("put a text that holds a colon or begins with a sign in quotes"))


def _no_such_day(unread: Unread) -> Cause:
    match = _SETTING.match(unread.lines[unread.line - 2])
    if match is None or not isinstance(unread.error, ValueError):
        why = say("front matter that cannot be read: {reason}", reason=unread.error)
        return Cause(unread.line, why, say("put the text in quotes"))
    key, value = match["key"], match["value"].strip()
    return Cause(
        unread.line,
        say("{key}: {value} is written like a date or a time, and there is none such", key=key, value=value),
        say(
            'write one that there is; or, if it is a text, put it in quotes: {key}: "{value}"',
            key=key,
            value=value,
        ),
    )


def _slips(unread: Unread) -> Iterator[Cause]:
    """What is wrong in the lines, from the first to the one where YAML gave up."""
    inside: _Inside | None = None
    plain = False  # does the setting above have a text that an indented line would carry on?
    begun = False
    for number, line in enumerate(unread.lines, start=2):
        if number > unread.line and number > 2:
            return
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        if "\t" in line[: len(line) - len(line.lstrip())]:
            found = say("a tab before the text, where front matter takes blanks only")
            yield Cause(number, found, say("put blanks there"))
        indent = len(line) - len(line.lstrip(" "))
        if not begun and indent and _stands_out_below(unread.lines[number - 1 :], indent):
            yield _indented(number, line)
        begun = True
        if inside is not None and (indent > inside.indent or line[indent:].startswith("-")):
            if not inside.is_text and (match := _SETTING.match(line.replace("- ", "  ", 1))):
                yield from _in_value(unread, number, match)
            continue
        match = _SETTING.match(line)
        if match is None:
            yield from _no_setting(unread, number, line)
            continue
        if indent and plain:
            yield _indented(number, line)
        yield from _in_value(unread, number, match)
        value = match["value"].strip()
        plain = bool(value) and value[0] not in "|>#"
        inside = None if plain else _Inside(indent, is_text=value[:1] in ("|", ">"))


@dataclass(frozen=True, slots=True)
class _Inside:
    """The lines below a setting that belong to it: they stand further in than it does."""

    indent: int
    is_text: bool


def _controls(lines: tuple[str, ...]) -> Iterator[Cause]:
    for number, line in enumerate(lines, start=2):
        control = next((char for char in line if category(char) == "Cc" and char not in "\t\x85"), None)
        if control is not None:
            found = say("a character that can't be shown (U+{code})", code=f"{ord(control):04X}")
            yield Cause(number, found, say("take it out"))


def _stands_out_below(lines: tuple[str, ...], indent: int) -> bool:
    return any(line.strip() and len(line) - len(line.lstrip(" ")) < indent for line in lines)


def _indented(number: int, line: str) -> Cause:
    found = say("an indented line: {line}", line=line.strip()[:60])
    return Cause(number, found, say("begin it at the margin, like the others"))


def _no_setting(unread: Unread, number: int, line: str) -> Iterator[Cause]:
    """A line that is no ``key: value``: of text that follows a front matter left open, or a colon forgotten."""
    words = line.strip()
    word = words.split()[0].strip(_QUOTES)
    near = word if word in LINES else misspelt(word, LINES)
    if line[:1] in "-[{?\"'" and not words.startswith(("- -", "--")):
        return
    above = unread.lines[: number - 2]
    if near and len(words.split()) > 1:
        remedy = say("write {key}: {value}", key=near, value=words.split(maxsplit=1)[1])
        yield Cause(number, say("no colon after {word}", word=word), remedy)
    elif above and not above[-1].strip():
        last = max((place for place, each in enumerate(above, start=2) if each.strip()), default=1)
        yield not_closed(last)
    else:
        found = say("a line that is no setting: {line}", line=words[:60])
        yield Cause(number, found, say("write lines such as week: 3, then ---"))


def _in_value(unread: Unread, number: int, setting: re.Match[str]) -> Iterator[Cause]:
    key, gap, value = setting["key"], setting["gap"], setting["value"].strip()
    if not value:
        return
    quoted = value.replace('"', "'")
    if not gap and is_setting(key):
        found = say("no blank after the colon of {key}", key=key)
        yield Cause(number, found, say("write {key}: {value}", key=key, value=value))
    elif value[0] in _QUOTES:
        yield from _in_quotes(number, key, value)
    elif value[0] in "[{":
        if number == _opened_at(unread):
            close = "]" if value[0] == "[" else "}"
            found = say("{key}: a list that is not closed or not well formed", key=key)
            yield Cause(number, found, say("end it with {sign}", sign=close))
    elif value[0] in _SIGNS:
        if number == unread.line:
            found = say(
                "{key}: a text that begins with {sign}, which means something else in front matter",
                key=key,
                sign=value[0],
            )
            yield Cause(number, found, say('put it in quotes: {key}: "{value}"', key=key, value=quoted))
    elif re.search(r":(?:[ \t]|$)", value):
        found = say("{key}: a text that holds a colon", key=key)
        yield Cause(number, found, say('put it in quotes: {key}: "{value}"', key=key, value=quoted))


def _in_quotes(number: int, key: str, value: str) -> Iterator[Cause]:
    quote = value[0]
    inside = r"(?:[^']|'')*" if quote == "'" else r'(?:[^"\\]|\\.)*'
    closed = re.match(f"{quote}{inside}{quote}", value)
    if closed is None:
        found = say("{key}: a text whose quotation mark is not closed", key=key)
        yield Cause(number, found, say("end it with {sign}, or leave out both", sign=quote))
    elif not _ENDS.fullmatch(value[closed.end() :]):
        other = "'" if quote == '"' else '"'
        remedy = say(
            "put the whole text in the other quotation marks: {key}: {value}",
            key=key,
            value=f"{other}{value.replace(other, quote)}{other}",
        )
        yield Cause(number, say("{key}: words after the closing quotation mark", key=key), remedy)


def _opened_at(unread: Unread) -> int:
    """The line in which the list begins that YAML was in when it gave up; else the line of the error."""
    mark = getattr(unread.error, "context_mark", None)
    inside = "flow" in (getattr(unread.error, "context", None) or "")
    return mark.line + 2 if mark is not None and inside else unread.line
