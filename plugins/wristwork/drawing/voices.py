"""Lane → voice: the written notes and rests of the hands, or of the feet, cut by cut."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import NamedTuple, TypeVar

from wristwork.drawing.rolls import SLASHES, Roll, read_rolls
from wristwork.drawing.staff_positions import STAFF_POSITIONS
from wristwork.drawing.svg import fraction, num
from wristwork.pattern.model import Drum, Event, Lane, Level, Note, TimeSignature, events
from wristwork.pattern.values import GroupValue, Piece, group_values, rest_pieces, silences
from wristwork.pattern.written import BARE, Slashes, WrittenNote, note_pieces, written_notes
from wristwork.technique.strokes import Kind, Limb, Stroke

GRACE_FIRST = 12.5  # pixels from a head back to its last grace note
GRACE_GHOST = 3.5  # so much further from a head in parentheses
GRACE_STEP = 9.5  # from grace note to grace note
WHOLE, HALF, QUARTER = 0, 1, 2  # halvings of a whole note

Item = TypeVar("Item")


class Hit(NamedTuple):
    """A stroke as it is drawn.

    ``cut_beat`` is when, in beats from the start of the cut it falls in, ``shift`` the pixels from that column
    (negative for a grace note). ``marks`` are attributes by which a playing cursor finds what is drawn for it.
    """

    stroke: Stroke
    cut_number: int
    cut_beat: float
    shift: float
    marks: str


class Chord(NamedTuple):
    """One written note, with a head for each drum struck at that moment.

    ``cut_beat`` is when it begins, in beats from the start of its cut. ``halvings`` of a whole note make its value
    without a dot, and ``flags`` is how many flags or beams that has. ``heads`` go from the lowest place on the staff to
    the highest, each with the hits that fall on it. The continuation of a tied note has ``ties_back``
    and no hits. ``note`` says what this written note is, where the strokes of a slash are written out too.
    ``roll`` is how many strokes a roll has that begins here.
    """

    piece: Piece
    cut_beat: float
    halvings: int
    flags: int
    note: Note
    slashes: Slashes
    heads: tuple[tuple[Drum, tuple[Hit, ...]], ...]
    graces: tuple[Hit, ...]
    ties_back: bool
    ties_on: bool
    roll: int = 0


class Rest(NamedTuple):
    """One written rest, ``cut_beat`` beats from the start of its cut."""

    piece: Piece
    cut_beat: float


class Struck(NamedTuple):
    """What has a letter of its own: the grace notes and the first main stroke of a note, ``cut_beat`` into its cut.

    ``other`` is the stroke of the left hand (or foot) where both play.
    """

    cut_beat: float
    note: Note
    graces: tuple[Hit, ...]
    main: Hit
    other: Hit | None = None


@dataclass(frozen=True, slots=True)
class Voice:
    """What one lane has in one cut, and how its groups are written (by their numbers in the lane)."""

    struck: tuple[Struck, ...]
    chords: tuple[Chord, ...]
    rests: tuple[Rest, ...]
    groups: dict[int, GroupValue]
    hits: dict[Limb, list[Hit]]


EMPTY = Voice((), (), (), {}, {})


def read_voices(lane: Lane | None, time: TimeSignature, played: list[Stroke], bounds: list[int]) -> list[Voice]:
    """What a lane has in each cut; ``bounds`` are the beats at which cuts begin, and the end."""
    if lane is None:
        return [EMPTY for _ in bounds[1:]]
    lane_events = events(lane)
    groups = group_values(lane, time, lane_events)
    hits = _hits(played, lane_events, bounds)
    struck, chords = _notes(lane_events, groups, time, hits, bounds)
    rests: list[list[Rest]] = [[] for _ in bounds[1:]]
    for silence in silences(lane_events):
        for piece in rest_pieces(silence, groups):
            cut, cut_beat = _in_cut(piece.at, bounds)
            rests[cut].append(Rest(piece, cut_beat))
    in_cuts = deal(((group.start, (number, group)) for number, group in enumerate(groups)), bounds)
    by_cut = deal(((hit.cut_number, hit) for hit in hits), range(len(bounds)))
    return [
        Voice(tuple(struck[cut]), tuple(chords[cut]), tuple(rests[cut]), dict(in_cuts[cut]), _by_limb(by_cut[cut]))
        for cut in range(len(bounds) - 1)
    ]


def _notes(
    lane_events: Sequence[Event], groups: Sequence[GroupValue], time: TimeSignature, hits: list[Hit], bounds: list[int]
) -> tuple[list[list[Struck]], list[list[Chord]]]:
    """What has letters, and the written notes, by cut."""
    by_event: dict[int, list[Hit]] = {}
    for hit in hits:
        by_event.setdefault(hit.stroke.event, []).append(hit)
    struck: list[list[Struck]] = [[] for _ in bounds[1:]]
    chords: list[list[Chord]] = [[] for _ in bounds[1:]]
    rolls = read_rolls(lane_events, groups, time)
    rolled = -1
    for number, event in enumerate(lane_events):
        if event.what is None:
            continue
        for part in _parts(event.what, by_event[number], written_notes(event, groups, time)):
            main = part.main[0]
            other = None
            if len(part.main) > 1:
                other = next((hit for hit in part.main if hit.stroke.limb is not main.stroke.limb), None)
            struck[main.cut_number].append(Struck(main.cut_beat, part.note, part.graces, main, other))
            if number > rolled:
                roll = rolls.get(number)
                if roll and _on_one_drum(inside := _roll_hits(roll, by_event)):
                    rolled = roll.last
                    part = _roll_part(roll, part, inside, lane_events, groups, time)
                for cut, chord in _chords(part, bounds):
                    chords[cut].append(chord)
    return struck, chords


def deal(items: Iterable[tuple[int | Fraction, Item]], bounds: Sequence[int]) -> list[list[Item]]:
    """Items with their beats, in time order, dealt to the cuts they begin in."""
    dealt: list[list[Item]] = [[] for _ in bounds[1:]]
    number, end = 0, bounds[1]
    for at, item in items:
        while at >= end:
            number += 1
            end = bounds[number + 1]
        dealt[number].append(item)
    return dealt


def _in_cut(at: Fraction, bounds: list[int]) -> tuple[int, float]:
    """The cut that a moment falls in, and the moment in beats from its start."""
    # A float of so small a fraction never lies on the other side of a whole number.
    above, below = at.as_integer_ratio()
    beats = above / below
    cut = bisect_right(bounds, beats) - 1
    return cut, beats - bounds[cut]


def _hits(played: Iterable[Stroke], lane_events: Sequence[Event], bounds: list[int]) -> list[Hit]:
    """Strokes as they are drawn, in playing order."""
    hits: list[Hit] = []
    graces: dict[int, int] = {}
    for stroke in played:
        shift = 0.0
        note = lane_events[stroke.event].what
        if stroke.kind is Kind.GRACE and note is not None:
            index = graces.get(stroke.event, 0)
            graces[stroke.event] = index + 1
            shift = _grace_shift(note, index)
        hits.append(Hit(stroke, *_in_cut(stroke.at, bounds), shift, _marks(stroke)))
    return hits


def _grace_shift(note: Note, index: int) -> float:
    """Pixels from the column of a note to its grace note of this index."""
    parenthesis = GRACE_GHOST if note.level is Level.GHOST else 0
    return -(GRACE_FIRST + parenthesis + (len(note.graces) - 1 - index) * GRACE_STEP)


def _marks(stroke: Stroke) -> str:
    """When a stroke is, and whose; of a hand its name, of a foot how many beats it lasts (it may long be silent)."""
    more = f'data-stroke="{stroke.name}"' if stroke.name else f'data-lasts="{num(float(stroke.length))}"'
    return f' data-at="{fraction(stroke.at)}" data-limb="{stroke.limb}" {more}'


def _from_below(drums: Iterable[Drum]) -> list[Drum]:
    return sorted(drums, key=lambda drum: STAFF_POSITIONS[drum].step)


def _by_limb(hits: Iterable[Hit]) -> dict[Limb, list[Hit]]:
    found: dict[Limb, list[Hit]] = {}
    for hit in hits:
        found.setdefault(hit.stroke.limb, []).append(hit)
    return found


class _Part(NamedTuple):
    """A written note with the hits that fall on it; ``roll`` is the number of a roll."""

    note: Note
    written: WrittenNote
    graces: tuple[Hit, ...]
    main: tuple[Hit, ...]
    roll: int = 0


def _parts(note: Note, hits: Sequence[Hit], written: Sequence[WrittenNote]) -> Iterator[_Part]:
    """The written notes of one event."""
    count = len(note.graces)
    graces, main = tuple(hits[:count]), tuple(hits[count:])
    if len(written) == 1:
        yield _Part(note, written[0], graces, main)
        return
    for each in written:
        here = tuple(hit for hit in main if hit.stroke.at == each.pieces[0].at)
        yield _Part(_one_stroke(note, each.first), each, graces if each.first == 0 else (), here)


def _one_stroke(note: Note, number: int) -> Note:
    """A stroke of a slash as a note of its own; only the first has the accent and the grace notes."""
    if number == 0:
        return note.each(lambda hand: replace(hand, strokes=1))
    return note.each(_later_stroke)


def _later_stroke(hand: Note) -> Note:
    level = Level.GHOST if hand.level is Level.GHOST else Level.TAP
    return replace(hand, strokes=1, level=level, graces=())


def _roll_hits(roll: Roll, by_event: dict[int, list[Hit]]) -> tuple[Hit, ...]:
    """All main strokes of a roll, the release as the last one."""
    inside = [hit for number in range(roll.first, roll.last + 2) for hit in by_event[number]]
    return tuple(hit for hit in inside if hit.stroke.kind is not Kind.GRACE)


def _on_one_drum(hits: Sequence[Hit]) -> bool:
    return len({hit.stroke.on for hit in hits}) == 1


def _roll_part(
    roll: Roll,
    first: _Part,
    hits: tuple[Hit, ...],
    lane_events: Sequence[Event],
    groups: Sequence[GroupValue],
    time: TimeSignature,
) -> _Part:
    """A roll as one note that is tied to its release."""
    start = lane_events[roll.first]
    whole = Event(start.at, lane_events[roll.last].end - start.at, start.what, start.group, start.slot)
    return _Part(first.note, WrittenNote(note_pieces(whole, groups, time)), first.graces, hits[:-1], roll.number)


def _chords(part: _Part, bounds: list[int]) -> Iterator[tuple[int, Chord]]:
    """The values of one written note, one or several tied to each other, each with its cut."""
    note, written, graces, main, roll = part
    drums = [main[0].stroke.on] if len(note.sides) == 1 else _from_below(dict.fromkeys(hit.stroke.on for hit in main))
    if len(drums) == 1:
        heads: tuple[tuple[Drum, tuple[Hit, ...]], ...] = ((drums[0], main),)
    else:
        heads = tuple((drum, tuple(hit for hit in main if hit.stroke.on is drum)) for drum in drums)
    last = len(written.pieces) - 1
    slashes = written.slashes
    for number, piece in enumerate(written.pieces):
        cut, cut_beat = _in_cut(piece.at, bounds)
        halvings = piece.halvings
        flags = max(0, halvings - QUARTER)
        on = number < last or roll > 0
        if roll:
            slashes = Slashes(SLASHES - flags) if flags < SLASHES else BARE
        if number == 0:
            yield cut, Chord(piece, cut_beat, halvings, flags, note, slashes, heads, graces, False, on, roll)
        else:
            silent = tuple((drum, ()) for drum in drums)
            yield cut, Chord(piece, cut_beat, halvings, flags, note, slashes, silent, (), True, on)
