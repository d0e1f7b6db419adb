"""What a pattern takes over of how it feels: its swing, and the click beside it."""

from __future__ import annotations

from wristwork.languages.say import say
from wristwork.pattern.click import click_problem
from wristwork.pattern.clicks import PracticeClick
from wristwork.pattern.draft import Draft
from wristwork.pattern.grown import Grown
from wristwork.pattern.model import Swing, TimeSignature
from wristwork.pattern.settings import STRAIGHT


def swing_of(draft: Draft, parent: Grown | None, time: TimeSignature) -> Swing | None:
    """How the pattern swings: as written, or as taken over; only beats of a half or a quarter note can."""
    if draft.feel is None:
        return parent.swing if parent is not None and _can_swing(time) else None
    if draft.feel == STRAIGHT:
        return None
    if not _can_swing(time):
        draft.report.add(
            draft.place_of("feel"),
            say("a swing in {time}", time=time),
            say("swing is for bars of halves and quarters: 4/4, 3/4 or 2/2"),
        )
    return draft.feel


def click_of(draft: Draft, parent: Grown | None, time: TimeSignature) -> PracticeClick | None:
    """The practice click as written, or as taken over where it fits the bars."""
    if draft.click is None:
        own = parent.click if parent else None
        return own if own is not None and click_problem(own, time) is None else None
    problem = click_problem(draft.click, time)
    if problem is not None:
        draft.report.add(draft.place_of("click"), *problem)
    return draft.click


def _can_swing(time: TimeSignature) -> bool:
    return time.lower <= 4
