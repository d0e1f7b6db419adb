"""A pattern drawn with letters and lines: count, sticking, a lane of stick heights for each hand, feet.

```
count    1    e    &    a
sticks   R>   L    R    R

right   ─╮              ╭─  high
         │╭────╮╭──╮╭───╯   low
         ╰╯    ╰╯  ╰╯
        down   tap  up
```
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from wristwork.cli.paint import Paint
from wristwork.drawing.counting import counts
from wristwork.languages.say import say
from wristwork.pattern.model import Event, Lane, Level, Pattern, events
from wristwork.technique.strokes import Height, Kind, Limb, Stroke, StrokeName, as_written

_MARGIN, _END = 10, 6  # columns before and behind the lanes, more where a language's words are longer
_WIDE, _NARROW = 5, 4  # columns of main strokes and of grace notes: the longest names are down and tap
_HANDS = (Limb.RIGHT_HAND, Limb.LEFT_HAND)
_FEET = {Limb.RIGHT_FOOT: "R", Limb.LEFT_FOOT: "L"}
_LETTERS = {Limb.RIGHT_HAND: "R", Limb.LEFT_HAND: "L"}


@dataclass(frozen=True, slots=True)
class Column:
    """One moment: ``order`` is negative for grace notes. ``strokes`` are those of all limbs."""

    at: Fraction
    order: int
    count: str
    strokes: tuple[Stroke, ...]
    rests: bool

    @property
    def width(self) -> int:
        longest = max((len(_said(stroke)) for stroke in self.by_hand), default=0)
        return max(_NARROW if self.order < 0 else _WIDE, len(self.sticking) + 1, longest + 1)

    @property
    def by_hand(self) -> tuple[Stroke, ...]:
        """What the hands play, right before left."""
        return tuple(stroke for stroke in self.strokes if stroke.limb in _HANDS)

    @property
    def sticking(self) -> str:
        """The strokes of the hands as they are typed; a rest is a dot."""
        if len(self.by_hand) < 2:
            alone = "".join(_typed(stroke, _LETTERS[stroke.limb]) for stroke in self.by_hand)
            return alone or ("." if self.rests else "")
        right, left = self.by_hand
        if (right.level, right.kind) == (left.level, left.kind):
            return _typed(right, "B")
        return f"{_typed(right, 'R')}&{_typed(left, 'L')}"

    def of(self, limb: Limb) -> Stroke | None:
        return next((stroke for stroke in self.strokes if stroke.limb is limb), None)


@dataclass(frozen=True, slots=True)
class Frame:
    """The words around the lanes, as they are said."""

    count: str
    sticks: str
    hands: Mapping[Limb, str]
    feet: str
    high: str
    low: str

    @property
    def margin(self) -> int:
        return max(_MARGIN, *(len(word) + 2 for word in (self.count, self.sticks, self.feet, *self.hands.values())))

    @property
    def end(self) -> int:
        return max(_END, len(self.high) + 2, len(self.low) + 2)

    def line(self, label: str, cells: Sequence[str], paint: Paint, end: str = "") -> str:
        """A line of the picture: its label, what is in it, and a word at its end."""
        tail = f"  {paint.styled('quiet', end)}" if end else ""
        return (paint.styled("quiet", f"{label:<{self.margin - 1}}") + " " + "".join(cells) + tail).rstrip()


def picture(pattern: Pattern, paint: Paint, width: int) -> Iterator[str]:
    """The lines of the picture, in rows of whole beats that fit into ``width`` letters."""
    columns = _columns(pattern)
    hands = [hand for hand in _HANDS if any(column.of(hand) for column in columns)]
    lanes = {hand: _lane(hand, columns) for hand in hands}
    frame = _frame()
    for first, last in _rows(columns, width - frame.margin - frame.end):
        yield from _row(columns, first, last, lanes, frame, paint)


def _frame() -> Frame:
    hands = {Limb.RIGHT_HAND: say("right"), Limb.LEFT_HAND: say("left")}
    return Frame(say("count"), say("sticks"), hands, say("feet"), say("high"), say("low"))


def _columns(pattern: Pattern) -> list[Column]:
    """The moments of one pass: strokes, and where a slot begins with none."""
    said = {count.at: count.word for count in counts(pattern)}
    rests = {
        event.at for lane in (pattern.hands, pattern.feet) for event in _events(lane) if event.what is None
    } | said.keys()
    played = as_written(pattern)
    moments: dict[tuple[Fraction, int], list[Stroke]] = {(at, 0): [] for at in rests}
    waiting: list[Stroke] = []
    for stroke in played:
        if stroke.kind is Kind.GRACE:
            waiting.append(stroke)
            continue
        for place, grace in enumerate(waiting):
            moments[grace.at, place - len(waiting)] = [grace]
        waiting = []
        moments.setdefault((stroke.at, 0), []).append(stroke)
    return [
        Column(at, order, said.get(at, "") if order == 0 else "", tuple(moments[at, order]), at in rests)
        for at, order in sorted(moments)
        if pattern.drawn.start <= at < pattern.drawn.end
    ]


def _events(lane: Lane | None) -> Sequence[Event]:
    return events(lane) if lane is not None else ()


def _rows(columns: Sequence[Column], width: int) -> Iterator[tuple[int, int]]:
    """Where each row of the picture begins and ends: it is cut before a beat, or anywhere if one beat is too wide."""
    first = 0
    while first < len(columns):
        last, used, cut = first, 0, 0
        while last < len(columns) and used + columns[last].width <= max(width, _WIDE):
            used += columns[last].width
            last += 1
            if last == len(columns) or _begins_beat(columns, last):
                cut = last
        yield first, cut or last
        first = cut or last


def _begins_beat(columns: Sequence[Column], index: int) -> bool:
    """Does a beat begin here? Its grace notes belong to it."""
    column = columns[index]
    if index and columns[index - 1].at == column.at:
        return False
    return column.at.denominator == 1


def _row(
    columns: Sequence[Column],
    first: int,
    last: int,
    lanes: dict[Limb, list[tuple[str, str, str]]],
    frame: Frame,
    paint: Paint,
) -> Iterator[str]:
    shown = columns[first:last]
    yield frame.line(frame.count, [_count(column, paint) for column in shown], paint)
    yield frame.line(frame.sticks, [_sticking(column, paint) for column in shown], paint)
    yield ""
    for hand, cells in lanes.items():
        rows = zip(*cells[first:last], strict=True)
        ends = (frame.high, frame.low, "")
        for label, row, end in zip((frame.hands[hand], "", ""), rows, ends, strict=True):
            yield frame.line(label, ["".join(row)], paint, end)
        yield frame.line("", [_name(column.of(hand), column.width, paint) for column in shown], paint)
        yield ""
    if any(column.of(foot) for column in columns for foot in _FEET):
        yield frame.line(frame.feet, [_feet(column) for column in shown], paint)
        yield ""


def _count(column: Column, paint: Paint) -> str:
    style = "strong" if column.count.isdigit() and column.at.denominator == 1 else "quiet"
    return paint.styled(style, f" {column.count:<{column.width - 1}}")


def _sticking(column: Column, paint: Paint) -> str:
    text = column.sticking
    lead = "" if text.startswith("(") else " "
    cell = f"{lead}{text:<{column.width - len(lead)}}"
    return paint.styled("accent", cell) if any(each.level is Level.ACCENT for each in column.by_hand) else cell


def _typed(stroke: Stroke, letter: str) -> str:
    """A stroke as it is typed."""
    if stroke.kind is Kind.GRACE:
        return letter.lower()
    text = f"({letter})" if stroke.level is Level.GHOST else letter
    return text + (">" if stroke.level is Level.ACCENT else "") + ("z" if stroke.kind is Kind.BUZZ else "")


def _name(stroke: Stroke | None, width: int, paint: Paint) -> str:
    falls_far = stroke is not None and stroke.name in (StrokeName.DOWN, StrokeName.FULL)
    return paint.styled("accent" if falls_far else "strong", f"{_said(stroke):<{width}}")


def _said(stroke: Stroke | None) -> str:
    return say(stroke.name.value) if stroke is not None and stroke.name is not None else ""


def _feet(column: Column) -> str:
    letters = [letter for foot, letter in _FEET.items() if column.of(foot) is not None]
    return f" {'B' if len(letters) == 2 else ''.join(letters):<{column.width - 1}}"


def _lane(hand: Limb, columns: Sequence[Column]) -> list[tuple[str, str, str]]:
    """For each column the three cells of a hand's lane: at high, at low, at the head."""
    played = [stroke for column in columns if (stroke := column.of(hand)) is not None]
    # The stick waits where its first stroke starts; in a loop that is where the last one has left it.
    height = played[0].starts
    cells: list[tuple[str, str, str]] = []
    for column in columns:
        stroke = column.of(hand)
        if stroke is None:
            cells.append(_resting(height, column.width))
        else:
            cells.append(_stroke(stroke, column.width))
            height = stroke.ends
    return cells


def _resting(height: Height | None, width: int) -> tuple[str, str, str]:
    line, blank = "─" * width, " " * width
    return (line, blank, blank) if height is Height.HIGH else (blank, line, blank)


def _stroke(stroke: Stroke, width: int) -> tuple[str, str, str]:
    """Down from where the stroke starts, and up to where it ends."""
    falls = ("╮", "│", "╰") if stroke.starts is Height.HIGH else (" ", "╮", "╰")
    rises = ("╭", "│", "╯") if stroke.ends is Height.HIGH else (" ", "╭", "╯")
    into = ("─", " ", " ") if stroke.starts is Height.HIGH else (" ", "─", " ")
    rest = width - 3
    out = ("─" * rest, " " * rest, " " * rest) if stroke.ends is Height.HIGH else (" " * rest, "─" * rest, " " * rest)
    high, low, head = (
        before + fall + rise + after for before, fall, rise, after in zip(into, falls, rises, out, strict=True)
    )
    return high, low, head
