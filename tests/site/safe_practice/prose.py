"""Reading the safe-practice pages as a checker does: sentence by sentence, number by number."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from wristwork.course.safety import facts, safe_practice

_REFERENCE = re.compile(r"\[\^([\w-]+)\]")
_NUMBER_WORDS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "ten": 10}
_UNITS = {
    "dB(A)": "dB(A)",
    "dB(C)": "dB(C)",
    "dB": "dB",
    "hours": "h",
    "minutes": "min",
    "min": "min",
    "days": "days",
    "percent": "%",
    "%": "%",
    "drummers": "drummers",
    "percussionists": "percussionists",
}
_QUANTITY = re.compile(
    r"(?:\bNRR (?P<label>\d[\d.]*\d|\d))"
    r"|(?<![\w.])(?P<value>\d+(?:\.\d+)?|" + "|".join(_NUMBER_WORDS) + r")\b"
    r"(?:\s+(?P<unit>dB\(A\)|dB\(C\)|dB\b|hours|minutes|min\b|days|percent\b|%|drummers|percussionists))?"
)


@dataclass(frozen=True)
class Sentence:
    text: str
    sources: tuple[str, ...]
    is_advice: bool


def sentences(markdown: str) -> Iterator[Sentence]:
    """Every sentence of a finished page outside notices, headings, sources, code and made blocks."""
    advised_at: int | None = None
    level = 1
    for paragraph in _paragraphs(markdown):
        heading = re.match(r"(#+) ", paragraph)
        if heading:
            level = len(heading[1])
            if advised_at is not None and level <= advised_at:
                advised_at = None
        elif paragraph.startswith(safe_practice.ADVICE_LABEL):
            advised_at = level
        else:
            yield from (_sentence(text, advised_at is not None) for text in _split(paragraph))


def _paragraphs(markdown: str) -> Iterator[str]:
    without = re.sub(r"^```.*?^```$", "", markdown, flags=re.DOTALL | re.MULTILINE)
    without = re.sub(r"^\[\^[\w-]+\]:.*$", "", without, flags=re.MULTILINE)
    for block in re.split(r"\n\s*\n", without):
        text = block.strip()
        if re.match(r"</?(div|dl)\b|!!! |<!-- wristwork:", text) or not text:
            continue
        if text.startswith("|"):
            rows = text.splitlines()[2:]
            yield from (cell.strip() for row in rows for cell in row.strip("|").split("|") if cell.strip())
        elif re.match(r"(- |\d+\. )", text):
            for item in re.split(r"^(?:- |\d+\. )", text, flags=re.MULTILINE)[1:]:
                yield " ".join(item.split())
        else:
            yield " ".join(text.split())


def _split(paragraph: str) -> list[str]:
    # A reference stands after the full stop it belongs to: move it inside, then split at full stops.
    inside = re.sub(r"([.!?])((?:\s?\[\^[\w-]+\])+)", r"\2\1", paragraph)
    return [part for part in re.split(r"(?<=[.!?])(?:\*\*)?\s+(?=[A-Z*“])", inside) if part]


def _sentence(text: str, is_advice: bool) -> Sentence:
    plain = re.sub(r"\s+(?=[.!?]$)", "", _REFERENCE.sub("", text).strip())
    return Sentence(plain, tuple(_REFERENCE.findall(text)), is_advice)


def is_notice(text: str) -> bool:
    """Is this a sentence of the words that every page must hold?"""
    return any(text in notice.text for notices in safe_practice.REQUIRED.values() for notice in notices)


def quantities(text: str) -> Iterator[tuple[float, str]]:
    """Numbers with their units; "80 and 85 dB(A)" is two, a number far from any unit is none."""
    waiting: list[tuple[int, float]] = []
    for found in _QUANTITY.finditer(text):
        if found["label"]:
            yield float(found["label"]), "dB"
            continue
        value = float(_NUMBER_WORDS.get(found["value"], found["value"]))
        unit = _UNITS.get(found["unit"] or "")
        if unit is None:
            waiting.append((found.end(), value))
            continue
        for end, earlier in waiting:
            if re.fullmatch(r"\s*(and|to|–)\s*", text[end : found.start()]):
                yield earlier, unit
        waiting.clear()
        yield value, unit


def known_quantities() -> set[tuple[float, str]]:
    """Every number of the facts table."""
    return {(figure.value, figure.unit) for figure in facts.FIGURES}
