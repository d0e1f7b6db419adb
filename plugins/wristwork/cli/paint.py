"""Colour and box lines, where the terminal shows them."""

from __future__ import annotations

import os
import re
from dataclasses import dataclass
from typing import TextIO

from wristwork.page.problem import printable

_STYLES = {"strong": "1", "quiet": "2", "good": "32", "wrong": "31", "accent": "33"}
_CODE = re.compile("(\x1b\\[(?:0|1|2|31|32|33)m)")  # the styles above, and no other
# For a terminal that can't show them.
_PLAIN = str.maketrans({"╮": ".", "╭": ".", "╰": "'", "╯": "'", "│": "|", "─": "-", "·": ".", "…": "...", "→": "->"})


@dataclass(frozen=True, slots=True)
class Paint:
    """Writes to a stream: styles only where it is a terminal and nobody has set ``NO_COLOR``."""

    stream: TextIO
    colours: bool
    boxes: bool

    @classmethod
    def on(cls, stream: TextIO) -> Paint:
        """The paint that suits a stream."""
        colours = stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
        return cls(stream, colours, _can_show(stream, "╮╭╰╯│─·…"))

    def styled(self, style: str, text: str) -> str:
        """The text in a style, or as it is."""
        return f"\x1b[{_STYLES[style]}m{text}\x1b[0m" if self.colours and text.strip() else text

    def line(self, text: str = "") -> None:
        """Write a line; what would act on the stream, or what it can't show, becomes something that it can show."""
        safe = "".join(part if _CODE.fullmatch(part) else printable(part) for part in _CODE.split(text))
        shown = safe if self.boxes else safe.translate(_PLAIN)
        encoding = self.stream.encoding or "utf-8"
        print(shown.encode(encoding, "replace").decode(encoding), file=self.stream)


def _can_show(stream: TextIO, characters: str) -> bool:
    try:
        characters.encode(stream.encoding or "utf-8")
    except (UnicodeEncodeError, LookupError):
        return False
    return True
