"""What several papers hold: a drawn pattern, a code, the words around them."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any
from urllib.parse import urlsplit

from wristwork.drawing.card import sticking_runs
from wristwork.drawing.diagram import diagram
from wristwork.drawing.printed import printed_lines
from wristwork.drawing.whole_words import tempo_range
from wristwork.languages.say import marked
from wristwork.paper.press import Paper
from wristwork.paper.qr import qr_code
from wristwork.pattern.model import DiagramRow, Pattern
from wristwork.pattern.write import lane_text

OPEN_THE_PAGE = marked("Point a phone’s camera at the code to open this page:")
OPEN_THE_COURSE = marked("Point a phone’s camera at the code to open the course:")
ROOM_TO_WRITE = marked("Notes")
# Light squares around a code; the paper around it is light too.
_BORDER = 2

# Groups, each in pieces: a text, and how it is set.
Sticking = list[list[tuple[str, str]]]
Rows = Collection[DiagramRow] | None


def drawn_pattern(
    pattern: Pattern, paper: Paper, room: float, show: Rows = None, scale: float = 1.0, most: int | None = None
) -> dict[str, Any]:
    """A pattern with its diagram as lines that fit into ``room`` points, and told in words for screen readers.

    ``scale`` is how much larger than usual it is drawn, ``most`` how many lines there may be.
    """
    return {
        "title": pattern.title or "",
        "tempo": "" if pattern.example else tempo_range(pattern),
        "note": pattern.note or "",
        "lines": printed_lines(pattern, room, show, scale * paper.enlarged, most),
        "words": diagram(pattern, show).words.text,
    }


def sticking(pattern: Pattern, most: int = 16) -> Sticking:
    """The groups of the leading lane as pieces that are set alike; ``most`` of them, and a sign that it goes on."""
    groups = lane_text(pattern.leading_lane, pattern.time, bar_lines=False).split()
    shown = [sticking_runs(group) for group in groups[:most]]
    return [*shown, [("…", "plain")]] if len(groups) > most else shown


def code_for(address: str | None) -> str | None:
    """The code of an address; none without one."""
    return None if address is None else qr_code(address, _BORDER)


def with_tempo(address: str | None, tempo: int) -> str | None:
    """The address of an exercise's own page, at which the player stands at a tempo."""
    return None if address is None else f"{address}?tempo={tempo}"


def shown_address(address: str | None) -> str:
    """An address as it is read out: without what every address begins with."""
    if address is None:
        return ""
    parts = urlsplit(address)
    return address.removeprefix(f"{parts.scheme}://").rstrip("/")
