"""Lanes that are to end together: the two hands, and the hands and the feet."""

from __future__ import annotations

from wristwork.languages.say import say, say_count
from wristwork.pattern.draft import HAND_KEYS, Draft
from wristwork.pattern.grown import Grown
from wristwork.pattern.model import Lane, Place, Side, TimeSignature
from wristwork.pattern.parts import CannotJoin, joined, part_of
from wristwork.pattern.pick_up import lengthened


def hands_of(draft: Draft, parents: Lane | None, time: TimeSignature, head: int) -> Lane | None:
    """The hands before any change: written together, in parts, or taken over. Raises :class:`CannotJoin`.

    The first ``head`` beats, the bar of a pick-up, are not repeated.
    """
    if draft.hands is not None:
        return draft.hands.lane
    if draft.right is None and draft.left is None:
        return parents
    right, left = (
        written.lane if written is not None else part_of(parents, side) if parents is not None else None
        for side, written in ((Side.RIGHT, draft.right), (Side.LEFT, draft.left))
    )
    if right is None or left is None:
        return right or left
    longer, shorter = max(right.beats, left.beats), min(right.beats, left.beats)
    if not _come_together(longer, shorter, head):
        raise CannotJoin(
            say(
                "a right hand of {right} and a left hand of {left} that never end together",
                right=_bars(right, time),
                left=_bars(left, time),
            ),
            say("make one of them a whole number of times as long as the other"),
            0,
        )
    return joined(lengthened(right, longer, head), lengthened(left, longer, head))


def held_together(draft: Draft, grown: Grown) -> tuple[Lane | None, Lane | None] | None:
    """Both lanes as long as the longer one, or None with an error."""
    hands, feet = grown.hands, grown.feet
    if hands is None and feet is None:
        draft.report.add(
            draft.place_of("feet", "from"), say("no hands and no feet are left"), say("write hands: or feet:")
        )
        return None
    if hands is None or feet is None:
        return hands, feet
    longer, shorter = max(hands.beats, feet.beats), min(hands.beats, feet.beats)
    head = grown.time.beats if grown.pickup else 0
    if not _come_together(longer, shorter, head):
        draft.report.add(
            _lane_place(draft),
            say(
                "hands of {hands} and feet of {feet} never end together",
                hands=_bars(hands, grown.time),
                feet=_bars(feet, grown.time),
            ),
            say("make one lane a whole number of times as long as the other"),
        )
        return None
    return lengthened(hands, longer, head), lengthened(feet, longer, head)


def _come_together(longer: int, shorter: int, head: int) -> bool:
    """Is the longer of two lanes as long as the shorter, repeated from beat ``head`` on?"""
    return longer == shorter or (shorter > head and (longer - head) % (shorter - head) == 0)


def _bars(lane: Lane, time: TimeSignature) -> str:
    return say_count("{count} bar", "{count} bars", lane.beats // time.beats)


def _lane_place(draft: Draft) -> Place:
    """Where a mismatch of the lanes is mended first."""
    for change in draft.changes:
        if change.feet is not None:
            return change.place
    return draft.place_of("feet", *HAND_KEYS, "change", "from")
