"""Draw a pattern and work out its demand once, and keep both."""

from __future__ import annotations

from dataclasses import asdict, fields
from sys import intern
from typing import Any

from markupsafe import Markup

from wristwork.drawing import diagram
from wristwork.drawing.card_diagram import CardDiagram, card_diagram
from wristwork.pattern.model import DiagramRow, Pattern
from wristwork.pattern.write import lane_text
from wristwork.site.figure.figure import Drawing
from wristwork.store.making import digest
from wristwork.store.store import Store
from wristwork.technique.demand import Demand, HandDemand, demand

# Stands between the two texts of a kept drawing; no markup holds it.
_BETWEEN = "\x1e"

# All that is said of a pattern but its lanes; what the changes made of it stands in the lanes.
_SAID = [field.name for field in fields(Pattern) if field.name not in ("hands", "feet", "show", "changes")]

Rows = tuple[DiagramRow, ...] | None


def draw(pattern: Pattern, show: Rows = None) -> Drawing:
    """The reflowing row and the words of a pattern; ``show`` are the rows where it does not say."""
    drawn = diagram(pattern, show)
    return Drawing(Markup(drawn.html()), Markup(drawn.words.html))


class Drawings:
    """Drawings of a course's patterns, with its choice of rows; ``key`` is the pattern's :meth:`key_of`."""

    def __init__(self, store: Store, show: Rows = None) -> None:
        self._store = store
        self._show = show

    def key_of(self, pattern: Pattern) -> str:
        """A name for all that can be seen or heard of a pattern: what is made from it is kept by this."""
        lanes = (lane_text(lane) if lane else "" for lane in (pattern.hands, pattern.feet))
        said = (repr(getattr(pattern, name)) for name in _SAID)
        return digest(*lanes, *said, repr(pattern.show or self._show))

    def on_page(self, pattern: Pattern, key: str) -> Drawing:
        """What a page shows of a pattern."""

        def make() -> str:
            drawing = draw(pattern, self._show)
            return drawing.row + _BETWEEN + drawing.words

        row, _, words = self._store.text(f"{digest('drawing', key)}.html", make).partition(_BETWEEN)
        return Drawing(Markup(row), Markup(words))

    def demand(self, pattern: Pattern) -> Demand:
        """The demand of a pattern at its goal tempo."""
        key = digest("demand", self.key_of(pattern))
        return self._store.value(key, lambda: asdict(demand(pattern, pattern.tempo.goal)), _demand)

    def picture(self, pattern: Pattern) -> str:
        """The diagram as one stand-alone SVG file."""
        return diagram(pattern, self._show).svg()

    def on_card(self, pattern: Pattern) -> CardDiagram:
        """The diagram as a link preview shows it."""
        return card_diagram(pattern, self._show)


def _demand(kept: dict[str, Any]) -> Demand:
    """The demand that a kept value tells."""
    hands = {name: HandDemand(**kept[name]) for name in ("right_hand", "left_hand")}
    return Demand(**{**kept, **hands, "parts": tuple((intern(name), share) for name, share in kept["parts"])})


def sticking(pattern: Pattern) -> str:
    """The groups of the hands (of the feet where there are no hands), as typed."""
    lane = pattern.leading_lane
    return lane_text(lane, pattern.time, bar_lines=False)
