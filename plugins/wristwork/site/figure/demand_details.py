"""An exercise's demand beside its diagram: plain bars, each with its words."""

from __future__ import annotations

import re
from dataclasses import dataclass

from markupsafe import Markup, escape

from wristwork.drawing.charts import demand_bars
from wristwork.site.templating import markup
from wristwork.technique.demand import Demand

_HAND = re.compile(r"\b(right|left)(?= hand\b)")


@dataclass(frozen=True, slots=True)
class _DemandBar:
    """A bar in words, as long as ``width`` percent."""

    words: Markup
    width: str


def demand_details(demand: Demand) -> Markup:
    """The bars of a demand at its tempo, each with its words."""
    bars = tuple(_DemandBar(side_marked(bar.words), f"{bar.percent:.3g}") for bar in demand_bars(demand))
    return markup("figure/demand_details.html", tempo=demand.tempo, bars=bars)


def side_marked(words: str) -> Markup:
    """Words with each hand's side marked, so that a reader's left-handed switch can change it."""
    return Markup(_HAND.sub(r'<span class="ww-named-hand">\1</span>', str(escape(words))))
