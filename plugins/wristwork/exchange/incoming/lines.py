"""What was heard → the lines of a pattern, tried out before they are handed on."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from wristwork.exchange.incoming.gathering import gathered
from wristwork.exchange.incoming.hands import Dealer, where
from wristwork.exchange.incoming.lanes import CannotFit, Fitter, placed_notes
from wristwork.exchange.incoming.places import drum_lines
from wristwork.exchange.incoming.strikes import Heard, Remarks, Strike, Where
from wristwork.exchange.incoming.unreadable import NoSuchRhythm, Unreadable
from wristwork.languages.say import marked, say
from wristwork.pattern import read_one
from wristwork.pattern.changes import MOST_BARS
from wristwork.pattern.model import Lane, Pattern
from wristwork.pattern.problems import PatternError
from wristwork.pattern.settings import LONGEST_ID, RESERVED, SHORTEST_ID, id_from
from wristwork.pattern.write import lane_text
from wristwork.technique.strokes import Limb, as_written

Lines = list[tuple[str, str]]
_LONGEST_TITLE, _NAMELESS = 80, marked("From a file")
# Left out one after the other where a line can't be read back.
_DISPENSABLE = (
    "text",
    "sections",
    "dynamics",
    "tempos",
    "endings",
    "repeats",
    "feel",
    "motion",
    "repeat",
    "loop",
    "tempo",
)


@dataclass(frozen=True, slots=True)
class PatternLines:
    """The lines of a pattern, and the pattern that they mean while every hand is worked out."""

    lines: tuple[tuple[str, str], ...]
    pattern: Pattern

    @property
    def text(self) -> str:
        """The inside of a fence."""
        return "\n".join(f"{key}: {value}" for key, value in self.lines)


def pattern_lines(heard: Heard, lead: Limb, remarks: Remarks) -> PatternLines:
    """The lines that say what was heard. Raises :class:`Unreadable` where nothing can be written."""
    if heard.bars > MOST_BARS:
        remarks.leave_out(
            say(
                "all after the first {most} bars, which are the most of a pattern (read it with --bars)",
                most=MOST_BARS,
            )
        )
        end = MOST_BARS * heard.time.beats
        strikes = tuple(strike for strike in heard.strikes if strike.at < end)
        heard = replace(heard, bars=MOST_BARS, strikes=strikes, cut_short=0)
    dealt = Dealer(lead, heard.time, heard.pickup, remarks).dealt(heard.strikes)
    if not dealt and (heard.strikes or remarks.left_out):
        raise Unreadable(say("no strokes on drums that are known here"), say("look at what was left out"))
    further = dict(heard.lines)
    try:
        return _first_that_agrees(heard, dealt, further, remarks)
    except NoSuchRhythm:
        if "feel" not in further:
            raise
    # Beside triplets an eighth that swings would be another one than is written.
    del further["feel"]
    remarks.leave_out(say("the swing, which would move notes beside triplets"))
    return _first_that_agrees(heard, dealt, further, remarks)


def _first_that_agrees(
    heard: Heard, dealt: Sequence[Strike], further: dict[str, str], remarks: Remarks
) -> PatternLines:
    """The plainest way of writing that holds the very strokes that were heard. Raises :class:`Unreadable`."""
    beat: int | None = None
    for way in _WAYS:
        for in_turn in (False, True):
            try:
                found = _tried(_Draft(heard, dealt, way, in_turn), further, remarks)
            except CannotFit as error:
                beat = error.beat
            except PatternError:
                continue
            else:
                if _agrees(found.pattern, dealt):
                    return found
    found_at = where(Fraction(beat), heard.time, heard.pickup) if beat is not None else None
    raise NoSuchRhythm(_no_group(found_at), say("take a part without it with --bars"))


def _no_group(at: Where | None) -> str:
    if at is None:
        return say("a rhythm that no group of slots holds")
    return say("a rhythm that no group of slots holds (bar {bar}, beat {beat})", bar=at.bar, beat=at.beat)


@dataclass(frozen=True, slots=True)
class _Way:
    """How notes are put into slots: each stroke of a slash by itself, strokes gathered under slashes, as long as they
    are written, in groups of several beats."""

    apart: bool = False
    gathered: bool = False
    with_lengths: bool = True
    wide: bool = False


# The plainest first.
_WAYS = (
    _Way(),
    _Way(apart=True),
    _Way(gathered=True),
    _Way(wide=True),
    _Way(gathered=True, wide=True),
    _Way(with_lengths=False),
    _Way(apart=True, with_lengths=False),
    _Way(gathered=True, with_lengths=False),
    _Way(gathered=True, with_lengths=False, wide=True),
)


@dataclass(frozen=True, slots=True)
class _Draft:
    """One way to write what was heard."""

    heard: Heard
    dealt: Sequence[Strike]
    way: _Way
    in_turn: bool

    def lines(self) -> Lines:
        """Lanes and drums. Raises :class:`CannotFit`."""
        hands, feet = self._lane(is_feet=False), self._lane(is_feet=True)
        found: Lines = []
        if hands is not None:
            found.append(("hands", self._text(hands)))
        if feet is not None:
            found.append(("feet", self._text(feet)))
        return [*found, *drum_lines(self.dealt, hands, in_turn=self.in_turn or self.heard.pickup > 0)]

    def _lane(self, *, is_feet: bool) -> Lane | None:
        strikes = [strike for strike in self.dealt if strike.is_foot is is_feet]
        if not strikes and (is_feet or self.dealt):
            return None
        heard = self.heard
        notes = placed_notes(gathered(strikes) if self.way.gathered else strikes, apart=self.way.apart)
        exact = heard.is_exact and self.way.with_lengths
        fitter = Fitter(notes, heard.time, with_lengths=exact, wide=self.way.wide)
        first = heard.time.beats - heard.pickup if heard.pickup else 0
        return fitter.lane(first, heard.bars * heard.time.beats - heard.cut_short)

    def _text(self, lane: Lane) -> str:
        if not self.heard.pickup:
            return lane_text(lane, self.heard.time)
        before, beats = [], 0
        for group in lane.groups:
            if beats >= self.heard.pickup:
                break
            before.append(group)
            beats += group.beats
        after = Lane(lane.groups[len(before) :])
        return f"{lane_text(Lane(tuple(before)))} | {lane_text(after, self.heard.time)}".rstrip(" |")


def _tried(draft: _Draft, further: dict[str, str], remarks: Remarks) -> PatternLines:
    """The lines with as many of the further ones as can be read. Raises :class:`PatternError`."""
    lanes = draft.lines()
    while True:
        lines = [*_head(draft.heard), *lanes, *further.items()]
        try:
            return PatternLines(tuple(lines), read_one("\n".join(f"{key}: {value}" for key, value in lines)))
        except PatternError as error:
            wrong = _line_of(error, lines)
            if wrong not in _DISPENSABLE:
                raise
            remarks.leave_out(f"{wrong}: {further.pop(wrong)} ({error.problems[0].found})")
            if wrong == "repeats":
                further.pop("endings", None)


def _line_of(error: PatternError, lines: Sequence[tuple[str, str]]) -> str:
    number = error.problems[0].line
    return lines[number - 1][0] if 1 <= number <= len(lines) else ""


def _head(heard: Heard) -> Lines:
    showable = "".join(char if char.isprintable() else " " for char in heard.title)
    title = " ".join(showable.split())[:_LONGEST_TITLE].strip() or say(_NAMELESS)
    name = re.sub("-+", "-", id_from(title))[:LONGEST_ID].strip("-")
    if len(name) < SHORTEST_ID or name in RESERVED:
        name = f"from-{name or 'a-file'}"
    lines = [("id", name), ("title", title), ("time", str(heard.time))]
    return [*lines, ("pick-up", f"{heard.pickup} beat{'s' if heard.pickup > 1 else ''}")] if heard.pickup else lines


def _agrees(pattern: Pattern, dealt: Iterable[Strike]) -> bool:
    """Does the pattern hold the very strokes that were heard? A check of all that stands above."""
    heard = sorted(
        (single.at, str(single.limb), str(single.on), str(single.level))
        for strike in dealt
        for single in replace(strike, graces=()).apart()
    )
    written = sorted(
        (stroke.at, str(stroke.limb), str(stroke.on), str(stroke.level))
        for stroke in as_written(pattern)
        if stroke.ahead_ms is None
    )
    return heard == written
