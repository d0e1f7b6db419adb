"""What must hold of a whole pattern: its size, its slashes, and the moments that its lines speak of."""

from __future__ import annotations

from wristwork.languages.say import marked, say
from wristwork.pattern.changes import MOST_BARS
from wristwork.pattern.chart import leads_nowhere, misplaced
from wristwork.pattern.draft import HAND_KEYS, Draft
from wristwork.pattern.form_lines import misformed
from wristwork.pattern.groups import WrittenLane
from wristwork.pattern.model import Lane, Pattern, Place, TimeSignature
from wristwork.pattern.moments import unreachable
from wristwork.pattern.values import takes_brackets
from wristwork.pattern.written import unheld_slashes

MOST_SLOTS = 4096  # 64 bars of common time, twelve slots a beat, and room for the feet


def check_pattern(draft: Draft, pattern: Pattern) -> None:
    """Report what is wrong with a pattern as a whole in the report of its draft."""
    _check_moments(draft, pattern)
    if _check_size(draft, pattern):
        own_hands = draft.hands or draft.right or draft.left
        for key, lane, written in (("hands", pattern.hands, own_hands), ("feet", pattern.feet, draft.feet)):
            if lane is not None and _check_brackets(draft, key, lane, written, pattern.time):
                _check_slashes(draft, key, lane, written, pattern.time)


def _check_moments(draft: Draft, pattern: Pattern) -> None:
    """Rules written here must speak of beats and bars that there are."""
    for rule in draft.placement or ():
        problem = unreachable(rule.when, pattern.time, pattern.full_bars)
        if problem is not None:
            draft.report.add(rule.typed_at or draft.place_of("place"), *problem)
    for place, found, remedy in misplaced(pattern, (*draft.sections, *draft.text, *draft.dynamics, *draft.tempos)):
        draft.report.add(place, found, remedy)
    problem = misformed(pattern)
    if problem is not None:
        draft.report.add(draft.place_of("repeats", "pick-up", "repeat", "loop", "from"), *problem)
    if any(mark.at.denominator > 1 for mark in pattern.tempos):
        draft.report.add(
            draft.place_of("tempos"),
            say("a tempo that changes between two beats"),
            say("let it change at a beat: 120 at bar 5"),
        )
    astray = leads_nowhere(pattern.dynamics)
    if astray is not None:
        draft.report.add(draft.place_of("dynamics"), *astray)


def _check_size(draft: Draft, pattern: Pattern) -> bool:
    """Whether the pattern is small enough to be drawn and played; else it is reported."""
    slots = sum(len(lane.slots) for lane in (pattern.hands, pattern.feet) if lane)
    place = draft.place_of(*HAND_KEYS, "feet", "change", "from")
    if pattern.bars > MOST_BARS:
        draft.report.add(
            place,
            say("a pattern of {bars} bars", bars=pattern.bars),
            say("{most} bars is the most: split it into several patterns", most=MOST_BARS),
        )
    elif slots > MOST_SLOTS:
        draft.report.add(
            place,
            say("a pattern of {slots} slots", slots=slots),
            say("{most} is the most: split it into several patterns", most=MOST_SLOTS),
        )
    return pattern.bars <= MOST_BARS and slots <= MOST_SLOTS


def _check_brackets(draft: Draft, key: str, lane: Lane, written: WrittenLane | None, time: TimeSignature) -> bool:
    """Do all tuplets in brackets stand in groups that are none themselves? Each written one that does not is told."""
    reported: set[Place] = set()
    beat = 0
    for group in lane.groups:
        if group.parts and not takes_brackets(group, time):
            place = written.place_of_beat(beat) if written is not None else draft.place_of("change", "from")
            if place not in reported:
                reported.add(place)
                found = say(
                    "brackets in a group of {parts}, which in {time} is a tuplet itself",
                    parts=len(group.parts),
                    time=time,
                )
                remedy = say("write the beat in two or four, with brackets for each finer part: {RL}{RLR}")
                if time.compound:
                    remedy = say("write the beat in three or six, with brackets for each finer part: RL{RLR}")
                draft.report.add(place, found, remedy)
        beat += group.beats
    return not reported


_NO_SINGLE_VALUE = (
    marked("a slash on a note that no single note value can hold"),
    marked("shorten the note, or write its strokes one by one"),
)
_THREE_IN_A_LONG_NOTE = (
    marked("three strokes in a note longer than a quarter, which no slash can say"),
    marked("write them as a group, over as many beats: RRR over 2"),
)


def _check_slashes(draft: Draft, key: str, lane: Lane, written: WrittenLane | None, time: TimeSignature) -> None:
    """A slash needs a single note value to be drawn on, by which a reader plays as many strokes as are meant."""
    reported: set[Place] = set()
    for event, three in ((unheld.event, unheld.three) for unheld in unheld_slashes(lane, time)):
        typed = event.what.typed_at if event.what and (written is not None or _added_here(draft, key)) else None
        place = typed or draft.place_of("change", "from")
        if place not in reported:
            reported.add(place)
            found, remedy = _THREE_IN_A_LONG_NOTE if three else _NO_SINGLE_VALUE
            draft.report.add(place, say(found), say(remedy))


def _added_here(draft: Draft, key: str) -> bool:
    return key == "feet" and any(change.feet is not None for change in draft.changes)
