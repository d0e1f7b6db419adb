"""The lines of a pattern: ``key: value``, with comments, blank lines and values that carry on."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass

from wristwork.languages.say import say
from wristwork.pattern.alphabet import CHARACTERS
from wristwork.pattern.model import Place
from wristwork.pattern.problems import Report
from wristwork.pattern.text import SourceLine, Value, value_of
from wristwork.wording import nearest

KEYS = (
    "id", "title", "time", "tempo", "feel", "hands", "right", "left", "feet", "place", "drums", "repeat", "loop",
    "pick-up", "repeats", "endings", "sections", "text", "dynamics", "tempos", "motion", "click", "show", "example",
    "from", "change", "requires", "note", "video", "take",
)  # fmt: skip


# Values in which any character may stand, those that set the direction of writing too.
FREE_TEXT = ("title", "note", "text")


@dataclass(frozen=True, slots=True)
class Entry:
    """One key with its value."""

    key: str
    place: Place
    value: Value


@dataclass(frozen=True, slots=True)
class Entries:
    """The entries of a pattern by key.

    ``spoiled`` holds the keys whose value can't be used, ``meant`` those that a mistyped line probably
    stands for: nothing is to be said of them a second time.
    """

    by_key: dict[str, Entry]
    spoiled: frozenset[str]
    meant: frozenset[str]


def read_entries(lines: Iterable[SourceLine], report: Report) -> Entries:
    """The entries of a pattern; what is wrong goes to the report."""
    entries: dict[str, Entry] = {}
    meant: set[str] = set()
    last: str | None = None
    is_first, is_reported = True, False
    for line in lines:
        visible = line.text.strip()
        if not visible or visible.startswith("#"):
            continue
        indented = line.text[0].isspace()
        key, colon, _ = visible.partition(":")
        is_key = bool(colon) and key in KEYS
        if indented and (is_first or is_key) and not is_reported:
            is_reported = True
            found = say("the key {key} in an indented line", key=key)
            if is_first:
                found = say("an indented line with no line above it to carry on")
            remedy = say("begin a line with its key at the margin, as in hands: RLRL")
            report.add(line.place(len(line.text) - len(line.text.lstrip())), found, remedy)
        if indented and not is_first and not is_key:
            if last is not None:
                entries[last] = _carried_on(entries[last], value_of(line, 0))
        else:
            last = _read_entry(line, entries, meant, report)
        is_first = False
    spoiled = frozenset(entry.key for entry in entries.values() if not _is_usable(entry, report))
    return Entries(entries, spoiled, frozenset(meant))


def _carried_on(entry: Entry, more: Value) -> Entry:
    value = entry.value.joined(more) if entry.value.text else more
    return Entry(entry.key, entry.place, value)


def _read_entry(line: SourceLine, entries: dict[str, Entry], meant: set[str], report: Report) -> str | None:
    """Read one line into ``entries``; its key, or None where the line can't be used."""
    name, colon, _ = line.text.partition(":")
    key = name.strip()
    place = line.place(len(line.text) - len(line.text.lstrip()))
    if not colon:
        meant |= _keys_of_bare_line(line.text)
        report.add(place, say("a line that is not key: value"), _remedy_for_bare_line(line.text))
    elif key not in KEYS:
        near = nearest(key.lower(), KEYS)
        meant |= {near} if near else set()
        remedy = say("did you mean {near}:?", near=near) if near else say("the keys are {keys}", keys=", ".join(KEYS))
        report.add(place, say("an unknown key '{key}'", key=key), remedy)
    elif key in entries:
        report.add(
            place,
            say(
                "the key {key} a second time (it stands in line {line} already)",
                key=key,
                line=entries[key].place.line,
            ),
            say("keep one of the two lines; an indented line carries on the one above it"),
        )
    else:
        entries[key] = Entry(key, place, value_of(line, len(name) + 1))
        return key
    return None


def _is_sticking(text: str) -> bool:
    return set(text) <= CHARACTERS | {" ", "\t"}


def _keys_of_bare_line(text: str) -> set[str]:
    """The keys that a line without a colon may stand for."""
    if _is_sticking(text):
        return {"hands", "right", "left", "feet"}
    word = re.split(r"\W", text.strip(), maxsplit=1)[0].lower()
    near = nearest(word, KEYS)
    return {near} if near else set()


def _remedy_for_bare_line(text: str) -> str:
    if _is_sticking(text):
        return say("put hands: in front of it, or indent it to carry on the line above")
    return say("write it as key: value, as in hands: RLRL")


def _is_usable(entry: Entry, report: Report) -> bool:
    """Whether there is a value, without characters that no page can show or that nobody can see."""
    if not entry.value.text:
        report.add(
            entry.place,
            say("nothing stands after {key}:", key=entry.key),
            say("write its value, or take out {key}:", key=entry.key),
        )
        return False
    if entry.value.text.isascii() and entry.value.text.isprintable():
        return True
    for index, char in enumerate(entry.value.text):
        if not _is_shown(char):
            found = say("a character that can't be shown (U+{code})", code=f"{ord(char):04X}")
            report.add(entry.value.place(index), found, say("take it out"))
            return False
        if entry.key not in FREE_TEXT and unicodedata.category(char) == "Cf":
            name = unicodedata.name(char).lower()
            found = say("an invisible character, U+{code} ({name})", code=f"{ord(char):04X}", name=name)
            report.add(entry.value.place(index), found, say("take it out"))
            return False
    return True


def _is_shown(char: str) -> bool:
    """False for control characters and code points that are no characters."""
    code = ord(char)
    shown = char == "\t" or 0x20 <= code <= 0x7E or 0xA0 <= code <= 0xD7FF or 0xE000 <= code <= 0xFFFD
    return (shown or code >= 0x10000) and code & 0xFFFE != 0xFFFE
