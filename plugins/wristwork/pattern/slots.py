"""Read the slots of one group: strokes with their marks, rests and held slots."""

from __future__ import annotations

import unicodedata
from functools import cache

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
                self._error(
                    start, "a bracket that is not closed", "close it after its strokes, without a space: R{LRL}"
                )
                return inside
            if self._peek() == PART_OPEN:
                self._error(self._index, "brackets inside brackets", "one pair is enough: R{LRL}")
                self._index += 1
                continue
            inside += self._slot()
        self._index += 1
        if len(inside) < 2 and not self._has_error:
            what = "one slot alone in brackets" if inside else "brackets with nothing in them"
            self._error(start, what, "they make several strokes share one slot: R{LRL}")
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
        if char in ">^":
            self._error(index, "an accent mark with no stroke before it", f"put the letter first: R{char} or L{char}")
        elif char == "/":
            self._error(index, "a slash with no stroke before it", "put the letter first: R/ or L/")
            while self._peek() and self._peek() in "/3":
                self._index += 1
        elif char == "z":
            self._error(index, "a buzz mark with no stroke before it", "put the letter first: Rz or Lz")
        elif char == "&":
            self._error(index, "an & with no stroke before it", "it joins the strokes of two hands: R&L>")
        elif char == PART_CLOSE:
            self._error(index, "a closing bracket with none open", "brackets hold strokes that share one slot: R{LRL}")
        elif char == ")":
            self._error(index, "a closing parenthesis with none open", "put one stroke in parentheses: (R)")
        elif char.isdecimal() and before == "/":
            self._error(index, f"a slash followed by {char}", "R/ is two strokes, R/3 is three, R// is four")
        elif not self._stray_reported:  # once for a word that is no group at all
            self._stray_reported = True
            self._error(
                index, f"{_name(char)} means nothing here", "strokes are R, L and B, a rest is ., a held slot is -"
            )

    def _stroke(self) -> Note | None:
        """One note, or two that an ``&`` joins."""
        start = self._index
        note = self._note()
        while self._peek() == "&":
            note = self._joined(note, start)
        if note is not None and self._hand is not None and note.sides != (self._hand,):
            what = "both hands" if note.is_both else f"the {note.sides[0]} hand"
            self._error(
                start, f"a stroke of {what} in the part of the {self._hand} hand", f"write x or {self._hand.letter}"
            )
            return None
        return note

    def _joined(self, first: Note | None, start: int) -> Note | None:
        """The note of both hands that the strokes on either side of an ``&`` make."""
        mark = self._index
        self._index += 1
        if not self._peek() or self._peek() not in self._starts:
            self._error(mark, "an & with no stroke after it", "it joins the strokes of two hands: R&L>")
            return None
        second = self._note()
        if first is None or second is None:
            return None
        problem = _unjoinable(first, second)
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
                self._error(index, "an accent in a ghost note", f"keep one of the two: {letter}{mark} or ({letter})")
            elif {mark, *marks} >= {">", "^"} and not reported:
                reported = True
                self._error(
                    index, "two accents on one stroke", f"keep one of the two: {letter}> or the strong {letter}^"
                )
            elif mark in marks and not reported:
                reported = True
                self._error(index, f"the mark {mark} twice on one stroke", _once(letter, mark))
            elif {mark, *marks} >= {"/", "z"} and not reported:
                reported = True
                self._error(index, "a buzz with a slash", f"keep one of the two: {letter}z or {letter}/")
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
            self._error(self._index, "more than one stroke in parentheses", "give each ghost note its own: (R)(L)")
            self._index += rest.index(")") + 1
        else:
            self._error(start, "a parenthesis that is not closed", "close it after the stroke: (R)")
        return False

    def _no_main(self, start: int, in_ghost: bool, graces: tuple[Side, ...]) -> None:
        """Say what is wrong with grace notes or a parenthesis that no stroke follows."""
        if graces and self._peek() == "(":
            self._error(start, "a grace note outside the parentheses of its note", "put it inside: (lR)")
            return
        if graces:
            if not self._orphan_reported:
                self._orphan_reported = True
                self._error(
                    self._index - len(graces),
                    "a lower-case letter with no capital after it",
                    f"capitals are strokes, mark accents with >: {_rewritten(self._chars)}",
                )
        elif in_ghost and self._peek() == "(":
            self._error(self._index, "parentheses inside parentheses", "one pair is enough: (R)")
            self._index = len(self._chars)
            return
        elif in_ghost:
            closed = self._peek() == ")"
            found = "parentheses with no stroke in them" if self._peek() else "a parenthesis that is not closed"
            self._error(start, found, "put one stroke in parentheses: (R)")
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
            self._error(first, "a grace note before both hands together", "B takes no grace notes")
        elif len(graces) > MOST_GRACES:
            self._error(first, f"{len(graces)} grace notes before one note", "one to three grace notes: lR, llR, rlrL")
        elif graces[-1] is sides[0]:
            other = sides[0].other.letter.lower()
            self._error(
                first + len(graces) - 1,
                "a last grace note of the main note's own hand",
                f"the other hand comes just before the main note: {letters[:-1]}{other}{sides[0].letter}",
            )


def _unjoinable(first: Note, second: Note) -> tuple[str, str] | None:
    """What keeps two strokes from being one note of both hands, and the remedy."""
    if first.is_both or second.is_both or first.sides == second.sides:
        return "an & that does not join a right and a left stroke", "one of each: R&L>"
    if first.graces or second.graces:
        return "a grace note before both hands together", "take the grace note out: one hand would have to play twice"
    if first.strokes != second.strokes:
        return "a slash for one of two hands that play together", "write the strokes one by one, in a finer group"
    return None


@cache
def _shared(sides: tuple[Side, ...], level: Level, graces: tuple[Side, ...], buzz: bool, strong: bool) -> Note:
    """One note for all that are alike: only a slash is ever asked again where it was typed."""
    return Note(sides, level, graces, buzz=buzz, strong=strong)


def _once(letter: str, mark: str) -> str:
    if mark == "/":
        return f"{letter}/ is two strokes, {letter}/3 is three, {letter}// is four"
    return f"once is enough: {letter}{mark}"


def _rewritten(chars: tuple[tuple[str, Place], ...]) -> str:
    """The group with every letter a stroke; capitals that seem to mean accents get their mark."""
    text = "".join(char for char, _ in chars)
    capitals_accent = any(char in "RLB" for char in text) and set(text) <= set("RLBrl.-")
    return "".join(
        f"{char}>" if capitals_accent and char in "RLB" else char.upper() if char in "rl" else char for char in text
    )


def _name(char: str) -> str:
    """A character as a reader of an error can recognise it."""
    if char.isprintable() and not unicodedata.combining(char):
        return f"'{char}'"
    return f"U+{ord(char):04X} ({unicodedata.name(char, 'no name').lower()})"
