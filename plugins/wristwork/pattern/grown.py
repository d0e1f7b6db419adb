"""What a pattern hands on to those that grow out of it, and what of it stands at certain bars."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TypeVar

from wristwork.languages.say import say, say_count
from wristwork.pattern.chart import in_time_order
from wristwork.pattern.clicks import PracticeClick
from wristwork.pattern.draft import Draft
from wristwork.pattern.form import Bars, Repeat
from wristwork.pattern.model import (
    DiagramRow,
    DrumPair,
    Dynamic,
    Lane,
    Manner,
    PlacementRule,
    Swing,
    Tempo,
    TempoAt,
    TimeSignature,
    WordsAt,
)
from wristwork.pattern.pick_up import is_cut_short, with_pick_up

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Grown:
    """What a pattern hands on to those that grow out of it: its values after its own changes."""

    time: TimeSignature
    tempo: Tempo
    swing: Swing | None
    hands: Lane | None
    feet: Lane | None
    placement: tuple[PlacementRule, ...] | None
    drums: tuple[DrumPair | None, ...] | None
    pickup: int
    cut_short: int
    same: tuple[Bars, ...]
    repeats: tuple[Repeat, ...]
    words: tuple[WordsAt, ...]
    dynamics: tuple[Dynamic, ...]
    tempos: tuple[TempoAt, ...]
    repeat: int
    loop: bool
    motion: Manner
    click: PracticeClick | None
    show: tuple[DiagramRow, ...] | None


def first_given(*values: T | None) -> T:
    """The first value that is there."""
    return next(value for value in values if value is not None)


def pickup_of(draft: Draft, parent: Grown | None, time: TimeSignature) -> int | None:
    """The beats of the pick-up, 0 where there is none; None with an error."""
    inherited = 0 if parent is None or "pick-up" in draft.dropped else parent.pickup
    pickup = inherited if draft.pickup is None else draft.pickup
    taken = parent is not None and pickup != parent.pickup and not (draft.hands or (draft.right and draft.left))
    problem = None
    if pickup >= time.beats:
        found = say_count(
            "a pick-up of {count} beat in {time}", "a pick-up of {count} beats in {time}", pickup, time=time
        )
        problem = found, say("it is shorter than a bar")
    elif pickup and time.pulses:
        found = say("a pick-up in {time}, whose groups are unlike", time=time)
        problem = found, say("write the first bar out, with rests")
    elif pickup and draft.time is None and parent is None:
        problem = say("a pick-up without a time signature"), say("write it: time: 4/4")
    elif taken:
        problem = say("another pick-up than that of the hands taken over"), say("write hands: here too")
    if problem is not None and "pick-up" not in draft.unread:
        draft.report.add(draft.place_of("pick-up", "time", "from"), *problem)
    return None if problem is not None or "pick-up" in draft.unread else pickup


def cut_short_of(draft: Draft, parent: Grown | None, pickup: int, time: TimeSignature) -> int:
    """The beats that the last bar lacks, where it lacks those of the pick-up."""
    own = bool(pickup) and any(is_cut_short(lane, pickup, time) for lane in draft.lanes)
    taken = parent is not None and not (draft.hands or (draft.right and draft.left)) and parent.cut_short > 0
    return pickup if own or taken else 0


def with_pick_ups(draft: Draft, pickup: int, time: TimeSignature) -> Draft:
    """The draft with a whole bar for the pick-up of each of its lanes."""
    if not pickup:
        return draft
    hands, right, left, feet = (
        None if lane is None else with_pick_up(lane, pickup, time, draft.report)
        for lane in (draft.hands, draft.right, draft.left, draft.feet)
    )
    changes = tuple(
        replace(change, feet=with_pick_up(change.feet, pickup, time, draft.report)) if change.feet else change
        for change in draft.changes
    )
    return replace(draft, hands=hands, right=right, left=left, feet=feet, changes=changes)


def keeps_bars(draft: Draft, parent: Grown, hands: Lane | None, time: TimeSignature, pickup: int) -> bool:
    """Are the bars still those of the parent, so that what stands at a bar there stands at it here?"""
    if draft.hands or draft.right or draft.left or (time, pickup) != (parent.time, parent.pickup):
        return False
    return hands is None or parent.hands is None or hands.beats == parent.hands.beats


def of_bars(draft: Draft, keys: tuple[str, ...], own: tuple[T, ...], parents: tuple[T, ...]) -> tuple[T, ...]:
    """What is written here at certain bars, else what is taken over."""
    return own if any(key in draft.entries for key in keys) else parents


def words_of(draft: Draft, own: tuple[WordsAt, ...], parent: Grown | None) -> tuple[WordsAt, ...]:
    """Sections and words: of each kind those written here, else those taken over."""
    taken = [
        each
        for each in (parent.words if parent else ())
        if ("sections" if each.is_section else "text") not in draft.entries
    ]
    return in_time_order((*own, *taken))


def same_of(draft: Draft, parent: Grown | None) -> tuple[Bars, ...]:
    """The bars in place of which a line of the pattern has a sign."""
    if parent is not None and not draft.changes:
        return parent.same
    return tuple(sorted({bars for lane in draft.lanes for bars in lane.same}))


def check_inherited_bars(draft: Draft, parent: Grown | None, time: TimeSignature) -> bool:
    """Whether a lane taken over fills the bars of a time signature written here."""
    if parent is None or draft.time is None:
        return True
    all_fit = True
    own_hands = draft.hands or (draft.right and draft.left)
    misfits = {"hands": _hands_misfit, "feet": _feet_misfit}
    for key, own, lane in (("hands", own_hands, parent.hands), ("feet", draft.feet, parent.feet)):
        if own is None and key not in draft.entries and lane is not None:
            beat = 0
            fits = lane.beats % time.beats == 0
            for group in lane.groups:
                fits = fits and beat % time.beats + group.beats <= time.beats
                beat += group.beats
            if not fits:
                draft.report.add(
                    draft.place_of("time"),
                    misfits[key](draft.grows_from, lane.beats, time),
                    say("write {key}: here, or keep the time signature {time}", key=key, time=parent.time),
                )
                all_fit = False
    return all_fit


def _hands_misfit(name: str | None, beats: int, time: TimeSignature) -> str:
    return say_count(
        "the hands taken over from '{id}' ({count} beat) do not fill bars of {time}",
        "the hands taken over from '{id}' ({count} beats) do not fill bars of {time}",
        beats,
        id=name,
        time=time,
    )


def _feet_misfit(name: str | None, beats: int, time: TimeSignature) -> str:
    return say_count(
        "the feet taken over from '{id}' ({count} beat) do not fill bars of {time}",
        "the feet taken over from '{id}' ({count} beats) do not fill bars of {time}",
        beats,
        id=name,
        time=time,
    )
