"""The staff of one cut: lines, heads, stems, beams, flags, rests, ties and all that hangs on them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from wristwork.drawing import glyphs
from wristwork.drawing.bar_lines import bar_end, repeat_start, same_sign
from wristwork.drawing.beams import Run, beam_parts
from wristwork.drawing.glyphs import SPACE
from wristwork.drawing.layout import CutLayout, Layout, end_words, has_repeat_sign, time_width
from wristwork.drawing.marks import (
    MarkHeights,
    draw_accent,
    draw_open,
    draw_slur,
    draw_tuplets,
    is_strong,
    ledger,
    small_three,
    tuplets,
)
from wristwork.drawing.noteheads import GRACE_SIZE, STEM_WIDTH, PlacedChord, PlacedHead
from wristwork.drawing.shape import ACCENT_BELOW, BEAM, BEAM_STEP, Staff, accented_below, stem_taken
from wristwork.drawing.staff_positions import STAFF_POSITIONS, head_glyph, head_shape
from wristwork.drawing.svg import num, path, rect
from wristwork.drawing.ties import Tie, draw_ties
from wristwork.drawing.voices import HALF, QUARTER, WHOLE, Hit
from wristwork.pattern.drums import Opening
from wristwork.pattern.values import Piece
from wristwork.technique.strokes import Kind

OVERLAP = 1  # lines run on under the next cut, so that no seam shows
_STUB = 8.0
_PARENTHESIS_CLEAR = 0.2
_GRACE_STEM = 17.0
_SLUR_BELOW = 5.0
_GRACE_BEAM, _GRACE_BEAM_STEP = 2.6, 4.0
_FLAG_NAMES = {1: "flag8th", 2: "flag16th", 3: "flag32nd", 4: "flag64th", 5: "flag128th"}
_REST_NAMES = {
    -1: "restDoubleWhole",
    0: "restWhole",
    1: "restHalf",
    2: "restQuarter",
    3: "rest8th",
    4: "rest16th",
    5: "rest32nd",
    6: "rest64th",
    7: "rest128th",
}
_TIME_X = 4.0
_TIMES_ABOVE = 5.0


@dataclass(slots=True)
class _Ink:
    """What is drawn, gathered by how it is painted."""

    lines: list[str] = field(default_factory=list)
    solid: list[str] = field(default_factory=list)
    accents: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def __str__(self) -> str:
        return (
            path("".join(self.lines), ' class="ww-lines"')
            + path("".join(self.solid))
            + path("".join(self.accents), ' class="ww-accent"')
            + "".join(self.notes)
        )


def engrave(layout: Layout, number: int, above: MarkHeights, below: MarkHeights, ties: Sequence[Tie]) -> str:
    """The staff of a cut, its middle line at y 0; ``ties`` are those of the whole pattern."""
    cut = layout.cuts[number]
    ink = _Ink()
    staff = layout.staff
    length = cut.spacing.width + (0 if cut.is_last else OVERLAP)
    ink.lines.append("".join(f"M0 {line}h{length}" for line in staff.lines))
    if cut.is_first:
        ink.solid.append(_time_signature(layout))
    for chord in (*cut.hands, *cut.feet):
        _draw_chord(ink, chord, cut.column(chord.chord), staff)
    for up, placed, found in ((True, cut.hands, cut.hand_runs), (False, cut.feet, cut.foot_runs)):
        if not placed:
            continue
        _draw_beams(ink, cut, placed, found, up, staff)
        heights = above if up else below
        ink.solid.append(draw_tuplets(tuplets(cut, up), heights.number, up))
        ink.solid.append(draw_ties(ties, up, layout.offsets[number], cut))
        for chord in placed:
            _draw_marks(ink, chord, cut.column(chord.chord) + chord.heads[0].x, heights)
    ink.solid.append(_rests(cut, staff))
    if cut.cut.start in layout.score.repeat_starts:
        ink.solid.append(repeat_start(staff.bar_reach))
    if cut.cut.same:
        ink.solid.append(same_sign(cut, layout.score.time.beats, staff.bar_reach))
    if cut.cut.ends_bar or cut.is_last:
        ink.solid.append(_bar_end(layout, cut))
    return str(ink) + _times(layout, cut)


def _draw_marks(ink: _Ink, placed: PlacedChord, x: float, heights: MarkHeights) -> None:
    if placed.accented:
        ink.accents.append(draw_accent(x, heights.accent, is_strong(placed)))
    elif placed.chord.note.left is not None and accented_below(placed.chord):
        ink.accents.append(draw_accent(x, placed.heads[0].y + ACCENT_BELOW, is_strong(placed)))
    if placed.opening is not Opening.NONE:
        ink.solid.append(draw_open(x, heights.open, placed.opening))


def nested(content: str, hits: Iterable[Hit]) -> str:
    """Marks around an element, one inside the other where strokes share it."""
    for hit in hits:
        content = f"<g{hit.marks}>{content}</g>"
    return content


def _draw_chord(ink: _Ink, placed: PlacedChord, x: float, staff: Staff) -> None:
    for head in placed.heads:
        _draw_head(ink, placed, head, x, staff)
    if placed.has_stem:
        ink.solid.append(_stem(placed, x, staff))
    count = placed.chord.flags
    if count and not placed.beamed:
        end = staff.up_end if placed.up else staff.down_end
        ink.solid.append(glyphs.glyph(f"{_FLAG_NAMES[count]}{'Up' if placed.up else 'Down'}", x + placed.stem, end))
    if placed.chord.slashes.count or placed.chord.note.has_buzz:
        _draw_slashes(ink, placed, x, staff)
    if placed.chord.graces:
        _draw_graces(ink, placed, x, staff)


def _draw_head(ink: _Ink, placed: PlacedChord, head: PlacedHead, x: float, staff: Staff) -> None:
    middle, half = x + head.x, head.shape.half_width * SPACE
    data = glyphs.glyph(head.glyph, middle, head.y)
    if placed.is_ghost:
        for first, last in placed.parentheses:
            if first is head:
                data += glyphs.glyph("noteheadParenthesisLeft", middle - half - _PARENTHESIS_CLEAR, head.y)
            if last is head:
                data += glyphs.glyph("noteheadParenthesisRight", middle + half + _PARENTHESIS_CLEAR, head.y)
    firsts: Sequence[Hit] = head.hits
    if len(firsts) > 1:
        firsts = [hit for hit in firsts if hit.stroke.at == placed.chord.piece.at]
    if firsts:
        ink.notes.append(nested(path(data, firsts[0].marks), firsts[1:]))
    else:
        ink.solid.append(data)
    if placed.chord.piece.dotted:
        on_line = staff.one_line or head.step % 2 == 0
        right = max(other.x + other.shape.half_width * SPACE for other in placed.heads)
        ink.solid.append(glyphs.glyph("augmentationDot", x + right + 4, head.y - (SPACE / 2 if on_line else 0)))
    if not staff.one_line:
        for step in range(6, abs(head.step) + 1, 2):
            ink.lines.append(ledger(middle, -step * SPACE / 2 if head.step > 0 else step * SPACE / 2, half))


def _stem(placed: PlacedChord, x: float, staff: Staff) -> str:
    """From the farthest head to the end; nearer heads hang on it."""
    if placed.up:
        far, end = placed.heads[0], staff.up_end
        start = far.y + far.shape.stem[1] * SPACE
    else:
        far, end = placed.heads[-1], staff.down_end
        start = far.y + far.shape.stem_down[1] * SPACE
    return rect(x + placed.stem - STEM_WIDTH / 2, min(start, end), STEM_WIDTH, abs(start - end))


def _draw_slashes(ink: _Ink, placed: PlacedChord, x: float, staff: Staff) -> None:
    """Slashes, or the z of a buzz, between the beams and the head."""
    chord = placed.chord
    count = chord.slashes.count
    sign = -1 if placed.up else 1
    near = placed.heads[-1 if placed.up else 0].y
    stem_x = x + placed.stem if placed.has_stem else x
    if placed.has_stem:
        end = staff.up_end if placed.up else staff.down_end
        taken = end - sign * stem_taken(chord, placed.beamed)
        room = (taken, near + sign * SPACE)
        y = sum(room) / 2
        if not chord.flags:
            y = near + sign * min(abs(y - near), 17)
        y = _between_heads(placed) or y
    else:
        y = near + sign * (1.5 * SPACE + (count - 1) * BEAM_STEP / 2)
    if chord.note.has_buzz:
        ink.solid.append(glyphs.glyph("buzzRoll", stem_x, y))
        return
    data = "".join(
        glyphs.glyph("tremolo1", stem_x, y + (index - (count - 1) / 2) * BEAM_STEP) for index in range(count)
    )
    if chord.slashes.three:
        data += small_three(stem_x - SPACE - 2, y - 2)
    later = [hit for head in placed.heads for hit in head.hits if hit.stroke.at > chord.piece.at]
    if later:
        ink.notes.append(nested(path(data, later[0].marks), later[1:]))
    else:
        ink.solid.append(data)


def _between_heads(placed: PlacedChord) -> float | None:
    """Where the z of the farther one of two heads stands: on the stem between them, if there is room."""
    far, near = placed.heads[0 if placed.up else -1], placed.heads[-1 if placed.up else 0]
    buzzing = [any(hit.stroke.kind is Kind.BUZZ for hit in head.hits) for head in (far, near)]
    return (far.y + near.y) / 2 if buzzing == [True, False] and abs(far.y - near.y) >= 2 * SPACE else None


def _draw_graces(ink: _Ink, placed: PlacedChord, x: float, staff: Staff) -> None:
    graces = placed.chord.graces
    head = placed.heads[0]
    size = GRACE_SIZE * SPACE
    ys = [staff.y(hit.stroke.on) for hit in graces]
    top = min(ys) - _GRACE_STEM
    stems = []
    for hit, y in zip(graces, ys, strict=True):
        middle = x + head.x + hit.shift
        family = STAFF_POSITIONS[hit.stroke.on].head
        shape = head_shape(family, QUARTER)
        glyph = glyphs.glyph(head_glyph(family, QUARTER), middle, y, GRACE_SIZE)
        ink.notes.append(path(glyph, f' class="ww-grace"{hit.marks}'))
        stem_x = middle + shape.stem[0] * size if placed.has_stem else middle + 0.535 * size
        stems.append(stem_x)
        start = y + min(0, shape.stem[1] * size)
        ink.solid.append(rect(stem_x - 0.45, top, 0.9, start - top))
    slur = max(head.y, *ys) + _SLUR_BELOW
    ink.solid.append(draw_slur(x + head.x + graces[0].shift, x + head.x - 1, slur))
    if len(graces) == 1:
        ink.solid.append(glyphs.glyph("flag8thUp", stems[0], top, GRACE_SIZE))
        ink.solid.append(glyphs.glyph("graceNoteSlashStemUp", stems[0] + 0.6, top + 5.2, 0.75))
        return
    for level in range(2):
        y = top + level * _GRACE_BEAM_STEP
        ink.solid.append(rect(stems[0] - 0.45, y, stems[-1] - stems[0] + 0.9, _GRACE_BEAM))


def _draw_beams(
    ink: _Ink, cut: CutLayout, placed: Sequence[PlacedChord], found: Sequence[Run], up: bool, staff: Staff
) -> None:
    by_chord = {id(chord.chord): chord for chord in placed}
    for run in found:
        if not run.beamed:
            continue
        stems = [cut.column(chord) + by_chord[id(chord)].stem for chord in run.chords]
        for part in beam_parts(run):
            left, right = stems[part.first], stems[part.last]
            if part.points > 0:
                right = left + min(_STUB, 0.45 * (stems[part.first + 1] - left))
            elif part.points < 0:
                left = right - min(_STUB, 0.45 * (right - stems[part.last - 1]))
            inward = (part.level - 1) * BEAM_STEP
            y = staff.up_end + inward if up else staff.down_end - inward - BEAM
            ink.solid.append(rect(left - STEM_WIDTH / 2, y, right - left + STEM_WIDTH, BEAM))


def _rests(cut: CutLayout, staff: Staff) -> str:
    """Rests of both voices; where both are silent for the same value, one rest stands for both."""
    hands, feet = cut.cut.hands.rests, cut.cut.feet.rests
    shared = {(rest.cut_beat, rest.piece.value) for rest in hands} & {
        (rest.cut_beat, rest.piece.value) for rest in feet
    }
    drawn = []
    for is_hands, voice in ((True, cut.cut.hands), (False, cut.cut.feet)):
        for rest in voice.rests:
            is_shared = (rest.cut_beat, rest.piece.value) in shared
            if is_shared and not is_hands:
                continue
            height = 0 if is_shared else staff.rest_y(is_hands)
            drawn.append(_rest(rest.piece, cut.spacing.x(rest.cut_beat), height, staff))
    return "".join(drawn)


def _rest(rest: Piece, x: float, y: float, staff: Staff) -> str:
    """A whole rest hangs from the line above the middle, or from the only one there is."""
    line = y - SPACE if rest.halvings == WHOLE and not staff.one_line else y
    drawn = glyphs.glyph(_REST_NAMES[rest.halvings], x, line)
    if rest.halvings in (WHOLE, HALF) and abs(line) > 2 * SPACE:
        drawn += _rest_line(x, line)
    if rest.dotted:
        drawn += glyphs.glyph("augmentationDot", x + 8, y - SPACE / 2)
    return drawn


def _rest_line(x: float, y: float) -> str:
    """The short line that a whole or half rest needs outside the staff."""
    return rect(x - 8, y - 0.5, 16, 1)


def _time_signature(layout: Layout) -> str:
    time = layout.score.time
    middle = _TIME_X + time_width(layout.score) / 2
    drawn = []
    for number, y in ((time.upper, -SPACE), (time.lower, SPACE)):
        digits = str(number)
        first = middle - (len(digits) - 1) * 6.5
        drawn += [glyphs.glyph(f"timeSig{digit}", first + index * 13, y) for index, digit in enumerate(digits)]
    return "".join(drawn)


def _times(layout: Layout, cut: CutLayout) -> str:
    """How often what ends here is played, above the repeat sign."""
    words = end_words(layout.score, cut.cut)
    y = -layout.staff.bar_reach - _TIMES_ABOVE
    return f'<text class="ww-end" x="{cut.spacing.width}" y="{num(y)}">{words}</text>' if words else ""


def _bar_end(layout: Layout, cut: CutLayout) -> str:
    """A bar line; a repeat sign or a final line where it ends."""
    leads_back = has_repeat_sign(layout.score, cut.cut)
    return bar_end(cut.spacing.width, layout.staff.bar_reach, cut.is_last or leads_back, leads_back)
