"""An exercise's demand beside its diagram: plain bars, each with its words."""

from __future__ import annotations

import re
from html import escape

from wristwork.drawing.charts import demand_bars
from wristwork.technique.demand import Demand

_HAND = re.compile(r"\b(right|left)(?= hand\b)")


def demand_details(demand: Demand) -> str:
    """The bars of a demand at its tempo, closed until a reader wants them."""
    bars = "".join(
        f"<li><span>{side_marked(escape(bar.words))}</span>"
        f'<span class="ww-bar"><i style="width:{bar.percent:.3g}%"></i></span></li>'
        for bar in demand_bars(demand)
    )
    return (
        '<details class="ww-demand"><summary>How much it asks</summary>'
        f"<p>At {demand.tempo} beats a minute. The grade goes from 1 to 10; it is worked out from the strokes, and it "
        f'is no exam’s grade.</p><ul class="ww-bars">{bars}</ul></details>'
    )


def side_marked(words: str) -> str:
    """Words with each hand's side marked, so that a reader's left-handed switch can change it."""
    return _HAND.sub(r'<span class="ww-named-hand">\1</span>', words)
