"""Draft → pattern: take over from the pattern it grows out of, change, and hold the lanes together."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeVar

from wristwork.languages.say import say, say_count
from wristwork.pattern.bars import check_bars, tell_time
from wristwork.pattern.changes import CannotChange, apply_change
from wristwork.pattern.chart import placed_dynamics, placed_tempos, placed_words
from wristwork.pattern.draft import HAND_KEYS, Draft
from wristwork.pattern.drum_line import DrumLineMismatch, fitted
from wristwork.pattern.feel import click_of, swing_of
from wristwork.pattern.form_lines import joined_repeats
from wristwork.pattern.grown import (
    Grown,
    check_inherited_bars,
    cut_short_of,
    first_given,
    keeps_bars,
    of_bars,
    pickup_of,
    same_of,
    with_pick_ups,
    words_of,
)
from wristwork.pattern.lengths import hands_of, held_together
from wristwork.pattern.model import (
    DrumPair,
    Lane,
    Manner,
    Note,
    Pattern,
    Tempo,
    TimeSignature,
)
from wristwork.pattern.parts import CannotJoin
from wristwork.pattern.pulses import in_pulses
from wristwork.pattern.swung_thirds import beside_triplets
from wristwork.pattern.whole import check_pattern

LANE_KEYS = frozenset({"time", *HAND_KEYS, "feet", "change"})
T = TypeVar("T")


def grow(draft: Draft, parent: Grown | None) -> tuple[Grown, Pattern] | None:
    """The pattern, or None with every error that can be told in the draft's report.

    ``parent`` is None where the draft grows out of nothing. A value that could not be read stops
    only what depends on it.
    """
    time = _time(draft, parent)
    if time is None:
        return None
    pickup = pickup_of(draft, parent, time)
    if pickup is None:
        return None
    cut_short = cut_short_of(draft, parent, pickup, time)
    draft = with_pick_ups(_in_pulses(draft, time), pickup, time)
    bars_fit = [
        _check_own_bars(draft, time, is_implied=draft.time is None and parent is None, first=0 if pickup else 1),
        check_inherited_bars(draft, parent, time),
    ]
    laneless = parent is None and not draft.lanes
    if draft.unread & LANE_KEYS or laneless or not all(bars_fit):
        return None
    lanes = _changed_lanes(draft, parent, time, pickup)
    repeats = joined_repeats(draft.repeats, draft.endings, draft.report)
    if lanes is None or repeats is None:
        return None
    hands, feet = lanes
    of_parent = parent if parent is not None and keeps_bars(draft, parent, hands, time, pickup) else None
    before_1 = 1 if pickup else 0
    words = placed_words(draft.sections, draft.text, time, before_1)
    try:
        drums = _drums(draft, parent, hands)
    except DrumLineMismatch as error:
        draft.report.add(error.place, error.found, error.remedy)
        return None
    tempo = first_given(draft.tempo, parent.tempo if parent else None, Tempo())
    grown = Grown(
        time=time,
        tempo=tempo,
        swing=swing_of(draft, parent, time),
        hands=hands,
        feet=feet,
        placement=_taken_over(draft, "place", draft.placement, parent.placement if parent else None),
        drums=drums,
        pickup=pickup,
        cut_short=cut_short,
        same=same_of(draft, of_parent),
        repeats=of_bars(draft, ("repeats", "endings"), repeats, of_parent.repeats if of_parent else ()),
        words=words_of(draft, words, of_parent),
        dynamics=of_bars(
            draft,
            ("dynamics",),
            placed_dynamics(draft.dynamics, time, before_1),
            of_parent.dynamics if of_parent else (),
        ),
        tempos=of_bars(
            draft,
            ("tempos",),
            placed_tempos(draft.tempos, tempo.goal, time, before_1),
            of_parent.tempos if of_parent else (),
        ),
        repeat=first_given(draft.repeat, parent.repeat if parent else None, 1),
        loop=first_given(draft.loop, parent.loop if parent else None, not pickup and not repeats),
        motion=first_given(draft.motion, parent.motion if parent else None, Manner.WRIST),
        click=click_of(draft, parent, time),
        show=draft.show or (parent.show if parent else None),
    )
    pattern = _pattern(draft, grown)
    return (grown, pattern) if pattern is not None and draft.is_valid else None


def check_alone(draft: Draft) -> None:
    """What can be told of a draft whose parent is wrong: its own lanes against its own time signature."""
    if draft.time is not None:
        _check_own_bars(_in_pulses(draft, draft.time), draft.time, is_implied=False)


def _in_pulses(draft: Draft, time: TimeSignature) -> Draft:
    """The draft with its groups as long as the pulses of a bar."""
    if not time.pulses:
        return draft
    hands, right, left, feet = (
        None if lane is None else in_pulses(lane, time) for lane in (draft.hands, draft.right, draft.left, draft.feet)
    )
    changes = tuple(
        replace(change, feet=in_pulses(change.feet, time)) if change.feet else change for change in draft.changes
    )
    return replace(draft, hands=hands, right=right, left=left, feet=feet, changes=changes)


def _time(draft: Draft, parent: Grown | None) -> TimeSignature | None:
    """The time signature: written, taken over, or told from the lanes; None where it can't be known."""
    if "time" in draft.unread:
        return None
    if draft.time is not None:
        return draft.time
    if parent is not None:
        return parent.time
    if draft.unread & {*HAND_KEYS, "feet"} or not draft.lanes:
        return None
    return tell_time(draft.lanes, draft.report)


def _check_own_bars(draft: Draft, time: TimeSignature, *, is_implied: bool, first: int = 1) -> bool:
    fit = [check_bars(lane, time, draft.report, is_implied=is_implied, first=first) for lane in draft.lanes]
    return all(fit)


def _taken_over(draft: Draft, key: str, own: T | None, parents: T | None) -> T | None:
    return None if key in draft.dropped else own if own is not None else parents


def _changed_lanes(
    draft: Draft, parent: Grown | None, time: TimeSignature, pickup: int
) -> tuple[Lane | None, Lane | None] | None:
    """The lanes after the changes, left to right, or None with an error."""
    try:
        hands = hands_of(draft, parent.hands if parent else None, time, time.beats if pickup else 0)
    except CannotJoin as error:
        written = draft.right or draft.left
        place = written.place_of_beat(error.beat) if written else draft.block.place
        draft.report.add(place, error.found, error.remedy)
        return None
    feet = _taken_over(draft, "feet", draft.feet.lane if draft.feet else None, parent.feet if parent else None)
    bars_fit = True
    for change in draft.changes:
        if change.feet is not None:
            bars_fit &= check_bars(change.feet, time, draft.report)
            feet = change.feet.lane
            continue
        try:
            hands = apply_change(change, hands, time, has_pickup=pickup > 0)
        except CannotChange as error:
            draft.report.add(change.place, error.found, error.remedy)
            return None
    return (hands, feet) if bars_fit else None


def _pattern(draft: Draft, grown: Grown) -> Pattern | None:
    together = held_together(draft, grown)
    if together is None:
        return None
    hands, feet = together
    if grown.swing is not None:
        hands, feet = beside_triplets(hands, feet, grown.swing, grown.time, grown.placement, grown.drums)
    pattern = Pattern(
        title=draft.title,
        time=grown.time,
        hands=hands,
        feet=feet,
        id=None if draft.example else draft.id,
        tempo=grown.tempo,
        placement=grown.placement,
        swing=grown.swing,
        words=grown.words,
        dynamics=grown.dynamics,
        tempos=grown.tempos,
        pickup=grown.pickup,
        cut_short=grown.cut_short,
        repeats=grown.repeats,
        same=grown.same,
        drums=grown.drums,
        repeat=grown.repeat,
        loop=grown.loop,
        motion=grown.motion,
        click=grown.click,
        show=grown.show,
        example=draft.example,
        grows_from=draft.grows_from,
        changes=tuple(change.text for change in draft.changes),
        requires=tuple(part.text for part in draft.requires),
        note=draft.note,
        video=draft.video,
    )
    check_pattern(draft, pattern)
    return pattern


def _drums(draft: Draft, parent: Grown | None, hands: Lane | None) -> tuple[DrumPair | None, ...] | None:
    """The drums of the strokes: from the line written here, or taken over. Raises :class:`DrumLineMismatch`."""
    if draft.drums is not None:
        if hands is None:
            raise DrumLineMismatch(
                say("drums without hands"), say("write hands:, or place: for the feet"), draft.drums.place
            )
        return fitted(draft.drums, hands)
    taken = _taken_over(draft, "drums", None, parent.drums if parent else None)
    if not taken or draft.hands is not None or hands is None:
        return None  # other hands than those that the line stood under, or hands that only rest
    strokes = sum(isinstance(slot, Note) for slot in hands.slots)
    if strokes % len(taken):
        raise DrumLineMismatch(
            say_count(
                "the drums of {count} stroke taken over from '{id}', where there are {strokes} now",
                "the drums of {count} strokes taken over from '{id}', where there are {strokes} now",
                len(taken),
                id=draft.grows_from,
                strokes=strokes,
            ),
            say("write drums: here, or drums: none"),
            draft.place_of("change", *HAND_KEYS, "from"),
        )
    return taken
