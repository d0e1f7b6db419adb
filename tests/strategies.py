"""Random patterns that the language allows, as text and as values."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import assume
from hypothesis import strategies as st

from wristwork.pattern.model import BOTH, Gap, Group, Lane, Level, Note, Side, Slot, TimeSignature, together
from wristwork.pattern.values import takes_brackets
from wristwork.pattern.write import lane_text
from wristwork.pattern.written import unheld_slashes

SIDES = st.sampled_from(list(Side))
TIMES = st.sampled_from(
    [TimeSignature(7, 8, (2, 2, 3)), TimeSignature(5, 8, (3, 2)), TimeSignature(9, 16, (2, 3, 4))]
    + [
        TimeSignature(*each)
        for each in ((4, 4), (3, 4), (2, 4), (5, 4), (6, 8), (9, 8), (2, 2), (5, 8), (7, 8), (6, 16))
    ]
)


@st.composite
def notes(draw: st.DrawFn, slashes: bool = True) -> Note:
    """Any note that one slot can hold."""
    both = draw(st.integers(0, 9)) == 0
    sides = BOTH if both else (draw(SIDES),)
    graces: tuple[Side, ...] = ()
    if not both and draw(st.integers(0, 4)) == 0:
        before = draw(st.lists(SIDES, max_size=2))
        graces = (*before, sides[0].other)
    level = draw(st.sampled_from([Level.TAP, Level.TAP, Level.ACCENT, Level.GHOST]))
    buzz = draw(st.integers(0, 9)) == 0
    strokes = draw(st.sampled_from([1, 1, 1, 2, 3, 4])) if slashes and not buzz else 1
    strong = level is Level.ACCENT and draw(st.integers(0, 3)) == 0
    note = Note(sides, level, graces, strokes, buzz, strong)
    if both and draw(st.booleans()):
        right, left = note.hands
        other = draw(st.sampled_from(list(Level)))
        return together(
            right,
            replace(left, level=other, strong=strong and other is level, buzz=strokes == 1 and draw(st.booleans())),
        )
    return note


@st.composite
def parts(draw: st.DrawFn, beats: int, side: Side) -> Lane:
    """What one hand plays for so many beats, in groups of 1, 2, 3, 4 or 6 that any other such part joins."""
    groups = []
    for _ in range(beats):
        level = st.sampled_from([Level.TAP, Level.ACCENT, Level.GHOST])
        stroke = st.builds(lambda level: Note((side,), level), level)
        size = draw(st.sampled_from([1, 2, 3, 4, 6]))
        first = draw(st.one_of(stroke, st.just(Gap.REST)))
        rest = draw(st.lists(st.one_of(stroke, st.sampled_from(list(Gap))), min_size=size - 1, max_size=size - 1))
        groups.append(Group((first, *rest)))
    return Lane(tuple(groups))


@st.composite
def bracketed(draw: st.DrawFn, group: Group, time: TimeSignature) -> Group:
    """The group as it is, or with some of its slots in brackets where that can be written."""
    if draw(st.integers(0, 2)):
        return group
    left, parts = len(group.slots), []
    while left:
        parts.append(min(left, draw(st.sampled_from([1, 1, 2, 3, 3, 5]))))
        left -= parts[-1]
    in_parts = replace(group, parts=tuple(parts))
    return in_parts if 1 < len(parts) < len(group.slots) and takes_brackets(in_parts, time) else group


@st.composite
def lanes(draw: st.DrawFn, bars: int, time: TimeSignature, holds: bool = True) -> Lane:
    """A lane of whole bars. Where slots are held there are no slashes, so that every note can be drawn."""
    groups: list[Group] = []
    slot = st.one_of(notes(slashes=not holds), notes(slashes=not holds), st.just(Gap.REST))
    for _ in range(bars):
        left = time.beats
        while left:
            beats = draw(st.sampled_from([1, 1, 1, 1, 2, 3, 4]))
            beats = time.pulse_at(time.beats - left) if time.pulses else beats if beats <= left else 1
            size = draw(st.sampled_from([1, 2, 3, 4, 4, 5, 6, 8]))
            slots: list[Slot] = []
            for _ in range(size):
                held = holds and bool(groups or slots) and draw(st.integers(0, 5)) == 0
                slots.append(Gap.HOLD if held else draw(slot))
            groups.append(draw(bracketed(Group(tuple(slots), beats), time)))
            left -= beats
    lane = Lane(tuple(groups))
    assume(not unheld_slashes(lane, time))
    return lane


@st.composite
def pattern_texts(
    draw: st.DrawFn, feet: bool = True, place: bool = True, title: str = "Any pattern", form: bool = True
) -> str:
    """The inside of a fence that reads without an error; with ``form`` some have repeats, a pick-up or tempos."""
    time = draw(TIMES)
    lines = [f"title: {title}", f"time: {time}"]
    start = draw(st.integers(20, 200))
    lines.append(f"tempo: {start} to {draw(st.integers(start, 320))} by {draw(st.integers(1, 20))}")
    bars = draw(st.integers(1, 2))
    has_pickup = form and not time.pulses and time.beats > 1 and draw(st.integers(0, 5)) == 0
    before = f"{draw(st.sampled_from(['RL', 'R>', '.L', '(R)']))} | " if has_pickup else ""
    lines += ["pick-up: 1 beat"] if has_pickup else []
    lines.append(f"hands: {before}{lane_text(draw(lanes(bars, time, draw(st.booleans()))), time)}")
    if feet and draw(st.booleans()):
        lines.append(f"feet: {'R | ' if has_pickup else ''}{lane_text(draw(lanes(1, time)), time)}")
    if form and draw(st.integers(0, 5)) == 0:
        lines.append("tempos: 90 at bar 1, 300 at bar 2" if bars > 1 else "tempos: 90 at bar 1")
    if form and draw(st.integers(0, 4)) == 0:
        lines.append(draw(st.sampled_from(["repeats: bar 1", f"repeats: bars 1 to {bars} three times"])))
    if place and draw(st.booleans()):
        lines.append(draw(st.sampled_from(PLACES)))
    lines += draw(st.lists(st.sampled_from(CHARTS), max_size=3, unique=True))
    if time.lower <= 4 and draw(st.integers(0, 3)) == 0:
        lines.append(draw(st.sampled_from(["feel: swing", "feel: swing 7:4", "feel: swing sixteenths"])))
    if draw(st.integers(0, 4)) == 0:
        lines.append("motion: whip")
    if draw(st.integers(0, 4)) == 0:
        lines.append(draw(st.sampled_from(["click: beat 1, 2 bars on 1 off", "click: off-beats", "click: every beat"])))
    if draw(st.booleans()):
        lines.append("loop: no")
        lines.append(f"repeat: {1 if has_pickup else draw(st.integers(1, 3))}")
    return "\n".join(lines)


CHARTS = (
    "sections: A <&> at bar 1",
    'text: as "soft" as <this> & that at bar 1, then at beat 2',
    "dynamics: p at bar 1 growing, ff at beat 2, mf at 2&",
)
PLACES = (
    "place: beat 1 on crash then floor tom, 2& of bar 1 on open hi-hat, grace notes on high tom then rim",
    "place: right on ride, left bar 1 on stick on stick then brush sweep then half-open hi-hat, left foot on splash",
    "place: right on hi-hat, left on snare",
    "place: all on high tom then mid tom then floor tom, accents on crash",
    "place: left accents on ride bell then cowbell, right ghosts on rim shot",
    "place: taps on cross-stick, left foot on cowbell, right on open hi-hat",
)
