"""Changes: how one exercise grows out of another."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from math import lcm

from wristwork.languages.say import marked, say, say_count
from wristwork.pattern.groups import WrittenLane, read_lane
from wristwork.pattern.model import Gap, Group, Lane, Level, Note, Pattern, Place, Side, Slot, TimeSignature, together
from wristwork.pattern.problems import Report, all_read
from wristwork.pattern.text import Value
from wristwork.wording import nearest

# A regrouping that needs more bars than a pattern may have stops here, before it is built.
MOST_BARS = 64

PLAIN = (
    "other hand leads", "accents off", "in eighths", "in sixteenths", "in triplets", "in sextuplets",
    "diddle the taps", "flam the accents",
)  # fmt: skip
KNOWN = (*PLAIN, "start on N", "accent 1 4", "add feet GROUPS")
_SLOTS_A_QUARTER = {"in eighths": 2, "in sixteenths": 4}
_SLOTS_A_BEAT = {"in triplets": 3, "in sextuplets": 6}
_IN_COMPOUND_TIME = {
    "in triplets": marked("triplets in the compound time {time}"),
    "in sextuplets": marked("sextuplets in the compound time {time}"),
}


@dataclass(frozen=True, slots=True)
class Change:
    """One change as written: its name, its numbers, or the feet that it adds."""

    name: str
    text: str
    place: Place
    numbers: tuple[int, ...] = ()
    feet: WrittenLane | None = None


class CannotChange(Exception):
    """Raised where a change does not fit the pattern: what was found, and the remedy."""

    def __init__(self, found: str, remedy: str) -> None:
        super().__init__(found)
        self.found = found
        self.remedy = remedy


def read_changes(value: Value, report: Report) -> tuple[Change, ...] | None:
    """The changes in order, or None with an error."""
    return all_read(_read_change(part, report) for part in value.split(","))


def _read_change(part: Value, report: Report) -> Change | None:
    words = " ".join(part.text.lower().split())
    if words in PLAIN:
        return Change(words, part.text, part.place())
    feet = re.match(r"add\s+feet(?:\s+|$)", part.text, re.IGNORECASE)
    if feet:
        return _read_add_feet(part, feet.end(), report)
    numbered = re.fullmatch(r"(start on|accent)((?: \d{1,4})+)", words)
    if numbered:
        numbers = tuple(int(number) for number in numbered[2].split())
        if numbered[1] == "accent" or len(numbers) == 1:
            return Change(numbered[1], part.text, part.place(), numbers)
    report.add(part.place(), *_unknown(words))
    return None


def _read_add_feet(part: Value, start: int, report: Report) -> Change | None:
    groups = part.cut(start, len(part.text))
    if not groups.text:
        report.add(part.place(), say("add feet without groups"), say("say what they play: add feet R L R L"))
        return None
    lane = read_lane(groups, report)
    return None if lane is None else Change("add feet", part.text, part.place(), feet=lane)


_BY_COMMAS = marked("separate changes by commas: accents off, in triplets")


def _unknown(words: str) -> tuple[str, str]:
    if not words:
        return say("a comma with no change"), say("take out the comma, or write a change")
    if ";" in words or sum(words.count(name) for name in PLAIN) > 1:
        return say("'{typed}' is more than one change", typed=words), say(_BY_COMMAS)
    if re.match(r"add feet\s*:", words):
        return say("add feet with a colon"), say("write the groups right after it: add feet R L R L")
    no_change = say("'{typed}' is no change", typed=words)
    if words.isdecimal():
        return no_change, say("the slots of one accent change stand together: accent 1 4")
    if any(name in words for name in PLAIN):
        return no_change, say(_BY_COMMAS)
    if words.startswith("accent"):
        return say("'{typed}' does not say which slots", typed=words), say("number them in each bar: accent 1 4")
    if words.startswith("start"):
        return say("'{typed}' does not say on which slot", typed=words), say("give its number: start on 3")
    near = nearest(words, KNOWN, cutoff=0.85)
    known = ", ".join(KNOWN)
    remedy = say("did you mean {near}?", near=near) if near else say("the changes are {changes}", changes=known)
    return say("an unknown change '{typed}'", typed=words), remedy


def apply_change(change: Change, hands: Lane | None, time: TimeSignature, *, has_pickup: bool = False) -> Lane:
    """The hands after a change (``add feet`` is not one of these). Raises :class:`CannotChange`."""
    if hands is None:
        raise CannotChange(
            say("a change to the hands of a pattern that has none"), say("write hands: or take the change out")
        )
    if has_pickup and change.name not in _NOTE_CHANGES:
        raise CannotChange(say("{change}, in hands with a pick-up", change=change.name), say("write the hands anew"))
    if change.name == "accent":
        return _accent(hands, time, change.numbers)
    if change.name == "start on":
        return _start_on(hands, change.numbers[0])
    if change.name in _SLOTS_A_QUARTER:
        return _regroup(hands, time, _SLOTS_A_QUARTER[change.name] * 4 * time.beat, change.name)
    if change.name in _SLOTS_A_BEAT:
        if time.compound:
            raise CannotChange(
                say(_IN_COMPOUND_TIME[change.name], time=time),
                say("use in eighths or in sixteenths, or a simple time"),
            )
        return _regroup(hands, time, Fraction(_SLOTS_A_BEAT[change.name]), change.name)
    return _map_notes(hands, _NOTE_CHANGES[change.name])


def _map_notes(lane: Lane, change: Callable[[Note], Note]) -> Lane:
    return Lane(
        tuple(
            replace(group, slots=tuple(change(slot) if isinstance(slot, Note) else slot for slot in group.slots))
            for group in lane.groups
        )
    )


def left_handed(pattern: Pattern) -> Pattern:
    """The pattern with right and left hand changed, on the drums on which it was; the feet stay."""
    rules = pattern.placement
    if rules is not None:
        rules = tuple(replace(rule, side=rule.side.other) if rule.side and not rule.foot else rule for rule in rules)
    drums = pattern.drums
    if drums is not None:
        drums = tuple(pair and (pair[1], pair[0]) for pair in drums)
    hands = pattern.hands and _map_notes(pattern.hands, _other_hand)
    return replace(pattern, hands=hands, placement=rules, drums=drums)


def _other_hand(note: Note) -> Note:
    if note.is_both:
        right, left = note.hands
        return together(replace(left, sides=(Side.RIGHT,)), replace(right, sides=(Side.LEFT,)))
    return replace(note, sides=(note.sides[0].other,), graces=tuple(side.other for side in note.graces))


def _as_tap(note: Note) -> Note:
    return note.each(lambda hand: replace(hand, level=Level.TAP, strong=False))


def _diddle_tap(note: Note) -> Note:
    # Two hands that differ stay as they are: a slash is always for both.
    plain = note.left is None and note.level is Level.TAP and note.strokes == 1 and not note.buzz
    return replace(note, strokes=2) if plain else note


def _flam_accent(note: Note) -> Note:
    if note.level is not Level.ACCENT or note.graces or note.is_both:
        return note
    grace: Side = note.sides[0].other
    return replace(note, graces=(grace,))


_NOTE_CHANGES: dict[str, Callable[[Note], Note]] = {
    "other hand leads": _other_hand,
    "accents off": _as_tap,
    "diddle the taps": _diddle_tap,
    "flam the accents": _flam_accent,
}


def _accent(lane: Lane, time: TimeSignature, numbers: tuple[int, ...]) -> Lane:
    """Accents on the numbered slots of each bar and nowhere else; other ghosts stay."""
    groups: list[Group] = []
    beat = slot_number = 0
    for group in lane.groups:
        if beat % time.beats == 0:
            _need_slots(numbers, slot_number if beat else None, beat // time.beats)
            slot_number = 0
        slots: list[Slot] = []
        for slot in group.slots:
            slot_number += 1
            slots.append(_accented(slot, slot_number in numbers, slot_number, beat // time.beats + 1))
        groups.append(replace(group, slots=tuple(slots)))
        beat += group.beats
    _need_slots(numbers, slot_number, beat // time.beats)
    return Lane(tuple(groups))


def _need_slots(numbers: tuple[int, ...], count: int | None, bar: int) -> None:
    """Complain where the bar just ended has no slot of one of these numbers."""
    missing = [number for number in numbers if count is not None and not 1 <= number <= count]
    if missing:
        raise CannotChange(
            say_count(
                "an accent on slot {slot}, where bar {bar} has {count} slot",
                "an accent on slot {slot}, where bar {bar} has {count} slots",
                count or 0,
                slot=missing[0],
                bar=bar,
            ),
            say("number the slots from 1 to {slots}", slots=count),
        )


def _accented(slot: Slot, wanted: bool, number: int, bar: int) -> Slot:
    if isinstance(slot, Note):
        return slot.each(lambda hand: replace(hand, level=_accented_level(hand, wanted), strong=hand.strong and wanted))
    if wanted:
        if slot is Gap.REST:
            found = say("an accent on slot {slot}, which is a rest in bar {bar}", slot=number, bar=bar)
        else:
            found = say("an accent on slot {slot}, which is a held slot in bar {bar}", slot=number, bar=bar)
        raise CannotChange(found, say("accents go on strokes: choose another slot"))
    return slot


def _accented_level(hand: Note, wanted: bool) -> Level:
    return Level.ACCENT if wanted else Level.GHOST if hand.level is Level.GHOST else Level.TAP


def _start_on(lane: Lane, number: int) -> Lane:
    shapes = {(len(group.slots), group.beats) for group in lane.groups}
    if len(shapes) > 1 or any(group.parts for group in lane.groups):
        raise CannotChange(
            say("start on, in hands whose groups are not all alike"),
            say("give every group as many slots and beats, and no brackets"),
        )
    slots = lane.slots
    if not 1 <= number <= len(slots):
        found = say_count(
            "start on {slot}, where the hands have {count} slot",
            "start on {slot}, where the hands have {count} slots",
            len(slots),
            slot=number,
        )
        raise CannotChange(found, say("1 to {slots}", slots=len(slots)))
    turned = slots[number - 1 :] + slots[: number - 1]
    if turned[0] is Gap.HOLD:  # nothing is left before it to hold
        turned = (Gap.REST, *turned[1:])
    size, beats = shapes.pop()
    return _grouped(turned, size, beats)


def _grouped(slots: tuple[Slot, ...], size: int, beats: int) -> Lane:
    return Lane(tuple(Group(slots[start : start + size], beats) for start in range(0, len(slots), size)))


def _regroup(lane: Lane, time: TimeSignature, slots_a_beat: Fraction, name: str) -> Lane:
    """The slots in the same order, so many to a beat, repeated whole until they fill whole bars."""
    if time.pulses:
        raise CannotChange(
            say("{change} in {time}, whose groups are unlike", change=name, time=time), say("write the hands anew")
        )
    if any(group.beats > 1 for group in lane.groups):
        raise CannotChange(
            say("{change}, in hands with a group over several beats", change=name),
            say("write the hands anew without over"),
        )
    if any(group.parts for group in lane.groups):
        raise CannotChange(
            say("{change}, in hands with brackets", change=name), say("write the hands anew without them")
        )
    beats = slots_a_beat.denominator  # the fewest beats that hold a whole number of slots
    size = slots_a_beat.numerator
    if time.beats % beats or size > 12:
        raise CannotChange(
            say("{change} in {time}, where they do not fill the bar", change=name, time=time),
            say("choose another note value, or another time signature"),
        )
    slots = lane.slots
    a_bar = size * time.beats // beats
    needed = lcm(len(slots), a_bar)
    if needed // a_bar > MOST_BARS:
        raise CannotChange(
            say(
                "{change}: the {slots} slots would fill whole bars only after {bars} bars",
                change=name,
                slots=len(slots),
                bars=needed // a_bar,
            ),
            say("a pattern has at most {bars} bars: write the hands anew", bars=MOST_BARS),
        )
    return _grouped(slots * (needed // len(slots)), size, beats)
