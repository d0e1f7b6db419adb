"""An exercise's demand beside its diagram: plain bars, each with its words."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup, escape

from wristwork.drawing.demand_bars import demand_bars
from wristwork.languages.numbers import number
from wristwork.languages.say import say
from wristwork.pattern.model import Side
from wristwork.site.templating import markup
from wristwork.technique.demand import Demand


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
    """Words with each hand marked, so that a reader's left-handed switch can change it."""
    marked = str(escape(words))
    for hand in (say("right hand"), say("left hand")):
        marked = marked.replace(str(escape(hand)), str(_named(hand)))
    return Markup(marked)


def hand_words(side: Side) -> Markup:
    """``right hand``, marked as :func:`side_marked` does."""
    return _named(say("right hand") if side is Side.RIGHT else say("left hand"))


def hand_strokes_words(side: Side, count: int) -> Markup:
    """``right hand 1,200``, marked as :func:`side_marked` does."""
    return Markup("{} {}").format(hand_words(side), number(count))


def _named(hand: str) -> Markup:
    return Markup('<span class="ww-named-hand">{}</span>').format(hand)
