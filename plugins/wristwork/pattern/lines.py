"""The lines of a pattern: ``key: value``, with comments, blank lines and values that carry on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

from wristwork.pattern.model import Place
from wristwork.pattern.problems import Report
from wristwork.pattern.text import SourceLine, Value, value_of

KEYS = (
    "id", "title", "time", "tempo", "hands", "feet", "place", "repeat", "loop", "show", "example", "from",
    "change", "requires", "note",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Entry:
    """One key with its value."""

    key: str
    place: Place
    value: Value


def read_entries(lines: Iterable[SourceLine], report: Report) -> dict[str, Entry]:
    """The entries of a pattern by key; what is wrong goes to the report."""
    entries: dict[str, Entry] = {}
    last: str | None = None
    seen_any = False
    for line in lines:
        visible = line.text.strip()
        if not visible or visible.startswith("#"):
            continue
        if line.text[0].isspace():
            if last is not None:
                entries[last] = _carried_on(entries[last], value_of(line, 0))
            elif not seen_any:
                report.add(
                    line.place(len(line.text) - len(line.text.lstrip())),
                    "an indented line with no line above it to carry on",
                    "begin a line with its key at the margin, as in hands: RLRL",
                )
        else:
            last = _read_entry(line, entries, report)
        seen_any = True
    for entry in entries.values():
        _check_characters(entry, report)
        if not entry.value.text:
            report.add(entry.place, f"nothing stands after {entry.key}:", f"write its value, or take out {entry.key}:")
    return entries


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word that looks most like this one, if any comes near."""
    close = get_close_matches(word, list(known), n=1, cutoff=0.6)
    return close[0] if close else None


def _carried_on(entry: Entry, more: Value) -> Entry:
    value = entry.value.joined(more) if entry.value.text else more
    return Entry(entry.key, entry.place, value)


def _read_entry(line: SourceLine, entries: dict[str, Entry], report: Report) -> str | None:
    """Read one line into ``entries``; its key, or None where the line can't be used."""
    name, colon, _ = line.text.partition(":")
    key = name.strip()
    place = line.place(0)
    if not colon:
        report.add(place, "a line that is not key: value", _remedy_for_bare_line(line.text))
    elif key not in KEYS:
        near = nearest(key.lower(), KEYS)
        remedy = f"did you mean {near}:?" if near else f"the keys are {', '.join(KEYS)}"
        report.add(place, f"an unknown key '{key}'", remedy)
    elif key in entries:
        report.add(
            place,
            f"the key {key} a second time (it stands in line {entries[key].place.line} already)",
            "keep one of the two lines; an indented line carries on the one above it",
        )
    else:
        entries[key] = Entry(key, place, value_of(line, len(name) + 1))
        return key
    return None


def _remedy_for_bare_line(text: str) -> str:
    if set(text) <= set("RLBrl>/z().-|3 \t"):
        return "put hands: in front of it, or indent it to carry on the line above"
    return "write it as key: value, as in hands: RLRL"


def _check_characters(entry: Entry, report: Report) -> None:
    """Refuse what no page can show: control characters and code points that are no characters."""
    for index, char in enumerate(entry.value.text):
        code = ord(char)
        shown = char == "\t" or 0x20 <= code <= 0x7E or 0xA0 <= code <= 0xD7FF or 0xE000 <= code <= 0xFFFD
        if not (shown or code >= 0x10000) or code & 0xFFFE == 0xFFFE:
            report.add(entry.value.place(index), f"a character that can't be shown (U+{code:04X})", "take it out")
            return
