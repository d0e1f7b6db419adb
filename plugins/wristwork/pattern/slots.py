"""Read the slots of one group: strokes with their marks, rests and held slots."""

from __future__ import annotations

from functools import cache

from wristwork.pattern import slips
from wristwork.pattern.alphabet import GAPS, GRACES, MARKS, OPEN, OWN_STROKE, PART_CLOSE, PART_OPEN, STROKES
from wristwork.pattern.model import Gap, Group, Level, Note, Place, Side, Slot, together
from wristwork.pattern.problems import Report

MOST_GRACES = 3
_STARTS = "".join((*STROKES, *GRACES, OPEN))


class SlotReader:
    """Reads one group, character by character; errors go to the report and reading goes on.

    With a ``hand`` the group is of that hand's own part, in which ``x`` is a stroke of it too.
    """

    def __init__(self, chars: tuple[tuple[str, Place], ...], report: Report, hand: Side | None = None) -> None:
        self._chars = chars
        self._report = report
        self._hand = hand
        self._sides = STROKES if hand is None else {**STROKES, OWN_STROKE: (hand,)}
        self._starts = _STARTS if hand is None else _STARTS + OWN_STROKE
        self._index = 0
        self._orphan_reported = False
        self._stray_reported = False
        self._has_error = self._note_has_error = False

    def read(self) -> Group | None:
        """The group, or None where one of its slots has an error."""
        parts: list[list[Slot]] = []
        while self._index < len(self._chars):
            if self._peek() == PART_OPEN:
                parts.append(self._part())
            else:
                parts.append(self._slot())
        if self._has_error:
            return None
        counts = tuple(map(len, parts))
        slots = tuple(slot for part in parts for slot in part)
        return Group(slots, parts=counts if max(counts) > 1 and len(counts) > 1 else ())

    def _slot(self) -> list[Slot]:
        """The one slot that begins here, or none with an error."""
        char = self._peek()
        if char in GAPS:
            self._index += 1
            return [Gap(char)]
        if char in self._starts:
            note = self._stroke()
            return [] if note is None else [note]
        self._stray(char)
        return []

    def _part(self) -> list[Slot]:
        """The slots in a pair of brackets, which share one slot."""
        start = self._index
        self._index += 1
        inside: list[Slot] = []
        while self._peek() != PART_CLOSE:
            if not self._peek():
                self._error(start, *slips.OPEN_BRACKET.said())
                return inside
            if self._peek() == PART_OPEN:
                self._error(self._index, *slips.BRACKETS_INSIDE.said())
                self._index += 1
                continue
            inside += self._slot()
        self._index += 1
        if len(inside) < 2 and not self._has_error:
            slip = slips.ALONE_IN_BRACKETS if inside else slips.EMPTY_BRACKETS
            self._error(start, *slip.said())
        return inside

    def _peek(self, ahead: int = 0) -> str:
        index = self._index + ahead
        return self._chars[index][0] if index < len(self._chars) else ""

    def _place(self, index: int) -> Place:
        return self._chars[index][1]

    def _error(self, index: int, found: str, remedy: str) -> None:
        self._report.add(self._place(index), found, remedy)
        self._has_error = self._note_has_error = True

    def _stray(self, char: str) -> None:
        """A character that starts no slot."""
        index = self._index
        self._index += 1
        before = self._chars[index - 1][0] if index else ""
        problem = slips.stray(char, before)
        if problem is not None:
            self._error(index, *problem)
            while char == "/" and self._peek() and self._peek() in "/3":
                self._index += 1
        elif not self._stray_reported:  # once for a word that is no group at all
            self._stray_reported = True
            self._error(index, *slips.meaningless(char))

    def _stroke(self) -> Note | None:
        """One note, or two that an ``&`` joins."""
        start = self._index
        note = self._note()
        while self._peek() == "&":
            note = self._joined(note, start)
        if note is not None and self._hand is not None and note.sides != (self._hand,):
            self._error(start, *slips.of_another_hand(note, self._hand))
            return None
        return note

    def _joined(self, first: Note | None, start: int) -> Note | None:
        """The note of both hands that the strokes on either side of an ``&`` make."""
        mark = self._index
        self._index += 1
        if not self._peek() or self._peek() not in self._starts:
            self._error(mark, *slips.NOTHING_JOINED.said())
            return None
        second = self._note()
        if first is None or second is None:
            return None
        problem = slips.unjoinable(first, second)
        if problem is not None:
            self._error(start, *problem)
            return None
        return together(*sorted((first, second), key=lambda note: note.sides[0] is Side.LEFT))

    def _note(self) -> Note | None:
        start = self._index
        self._note_has_error = False
        in_ghost = self._peek() == "("
        if in_ghost:
            self._index += 1
        graces, graces_at = self._graces()
        main_index = self._index
        sides = self._sides.get(self._peek())
        if sides is None:
            self._no_main(start, in_ghost, graces)
            return None
        self._index += 1
        if in_ghost:
            marks = self._marks(main_index, ghost=True)
            if not self._close(start):
                return None
            self._marks(main_index, ghost=True, marks=marks)
        else:
            marks = self._marks(main_index, ghost=False)
        self._check_graces(graces, graces_at, sides)
        if self._note_has_error:
            return None
        strong = "^" in marks
        level = Level.GHOST if in_ghost else Level.ACCENT if strong or ">" in marks else Level.TAP
        if "/" not in marks:
            return _shared(sides, level, graces, "z" in marks, strong)
        strokes = int(marks["/"])
        return Note(sides, level, graces, strokes, strong=strong, typed_at=self._place(main_index))

    def _graces(self) -> tuple[tuple[Side, ...], int]:
        first = self._index
        while self._peek() and self._peek() in "rl":
            self._index += 1
        return tuple(GRACES[char] for char, _ in self._chars[first : self._index]), first

    def _marks(self, main_index: int, *, ghost: bool, marks: dict[str, str] | None = None) -> dict[str, str]:
        """The marks after a stroke: each once, with the number of strokes for a slash."""
        marks = {} if marks is None else marks
        reported = False
        while self._peek() and self._peek() in MARKS:
            index, mark = self._index, self._peek()
            self._index += 1
            letter = self._chars[main_index][0]
            strokes = self._slash_strokes() if mark == "/" else ""
            if mark in ">^" and ghost:
                self._error(index, *slips.GHOST_ACCENT.said(letter=letter, mark=mark))
            elif {mark, *marks} >= {">", "^"} and not reported:
                reported = True
                self._error(index, *slips.TWO_ACCENTS.said(letter=letter))
            elif mark in marks and not reported:
                reported = True
                self._error(index, *slips.twice(letter, mark))
            elif {mark, *marks} >= {"/", "z"} and not reported:
                reported = True
                self._error(index, *slips.SLASHED_BUZZ.said(letter=letter))
            marks.setdefault(mark, strokes)
        return marks

    def _slash_strokes(self) -> str:
        """How many strokes the slash just read means: 2, 3 or 4."""
        if self._peek() == "/":
            self._index += 1
            return "4"
        if self._peek() == "3":
            self._index += 1
            return "3"
        return "2"

    def _close(self, start: int) -> bool:
        """Read the closing parenthesis of a ghost."""
        if self._peek() == ")":
            self._index += 1
            return True
        rest = "".join(char for char, _ in self._chars[self._index :])
        if ")" in rest and rest.index(")") < (rest + "(").index("("):
            self._error(self._index, *slips.SEVERAL_IN_PARENTHESES.said())
            self._index += rest.index(")") + 1
        else:
            self._error(start, *slips.OPEN_PARENTHESIS.said())
        return False

    def _no_main(self, start: int, in_ghost: bool, graces: tuple[Side, ...]) -> None:
        """Say what is wrong with grace notes or a parenthesis that no stroke follows."""
        if graces and self._peek() == "(":
            self._error(start, *slips.GRACE_OUTSIDE.said())
            return
        if graces:
            if not self._orphan_reported:
                self._orphan_reported = True
                self._error(self._index - len(graces), *slips.no_capital(self._chars))
        elif in_ghost and self._peek() == "(":
            self._error(self._index, *slips.PARENTHESES_INSIDE.said())
            self._index = len(self._chars)
            return
        elif in_ghost:
            closed = self._peek() == ")"
            slip = slips.EMPTY_PARENTHESES if self._peek() else slips.LONE_PARENTHESIS
            self._error(start, *slip.said())
            if closed:
                self._index += 1
                return
            if self._peek() and self._peek(1) == ")":
                self._index += 2
                return
        if in_ghost and self._peek() == ")":
            self._index += 1
        else:
            # Marks left over belong to the letter that was just complained about.
            while self._peek() and self._peek() in MARKS:
                self._index += 1

    def _check_graces(self, graces: tuple[Side, ...], first: int, sides: tuple[Side, ...]) -> None:
        if not graces:
            return
        letters = "".join(char for char, _ in self._chars[first : first + len(graces)])
        if len(sides) == 2:
            self._error(first, *slips.GRACE_BEFORE_B.said())
        elif len(graces) > MOST_GRACES:
            self._error(first, *slips.too_many_graces(len(graces)))
        elif graces[-1] is sides[0]:
            self._error(first + len(graces) - 1, *slips.late_grace(letters, sides[0]))


@cache
def _shared(sides: tuple[Side, ...], level: Level, graces: tuple[Side, ...], buzz: bool, strong: bool) -> Note:
    """One note for all that are alike: only a slash is ever asked again where it was typed."""
    return Note(sides, level, graces, buzz=buzz, strong=strong)
