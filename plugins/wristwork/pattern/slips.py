"""What is said of slots that are typed wrong: what was found, and what to write instead."""

from __future__ import annotations

import unicodedata
from typing import NamedTuple

from wristwork.languages.say import marked, say
from wristwork.pattern.alphabet import PART_CLOSE
from wristwork.pattern.model import Note, Place, Side

_JOINS = marked("it joins the strokes of two hands: R&L>")
_ONE_IN_PARENTHESES = marked("put one stroke in parentheses: (R)")
_SHARE_A_SLOT = marked("they make several strokes share one slot: R{LRL}")


class Slip(NamedTuple):
    """Two texts, to be said: what was found, and the remedy."""

    found: str
    remedy: str

    def said(self, **values: object) -> tuple[str, str]:
        """Both in the language that is spoken, with these values."""
        return say(self.found, **values), say(self.remedy, **values)


OPEN_BRACKET = Slip(
    marked("a bracket that is not closed"), marked("close it after its strokes, without a space: R{LRL}")
)
BRACKETS_INSIDE = Slip(marked("brackets inside brackets"), marked("one pair is enough: R{LRL}"))
ALONE_IN_BRACKETS = Slip(marked("one slot alone in brackets"), _SHARE_A_SLOT)
EMPTY_BRACKETS = Slip(marked("brackets with nothing in them"), _SHARE_A_SLOT)

OPEN_PARENTHESIS = Slip(marked("a parenthesis that is not closed"), marked("close it after the stroke: (R)"))
LONE_PARENTHESIS = Slip(marked("a parenthesis that is not closed"), _ONE_IN_PARENTHESES)
EMPTY_PARENTHESES = Slip(marked("parentheses with no stroke in them"), _ONE_IN_PARENTHESES)
PARENTHESES_INSIDE = Slip(marked("parentheses inside parentheses"), marked("one pair is enough: (R)"))
SEVERAL_IN_PARENTHESES = Slip(
    marked("more than one stroke in parentheses"), marked("give each ghost note its own: (R)(L)")
)

GRACE_OUTSIDE = Slip(marked("a grace note outside the parentheses of its note"), marked("put it inside: (lR)"))
GRACE_BEFORE_B = Slip(marked("a grace note before both hands together"), marked("B takes no grace notes"))
NOTHING_JOINED = Slip(marked("an & with no stroke after it"), _JOINS)
_ALIKE = Slip(marked("an & that does not join a right and a left stroke"), marked("one of each: R&L>"))
_GRACE_IN_JOINED = Slip(
    marked("a grace note before both hands together"),
    marked("take the grace note out: one hand would have to play twice"),
)
_SLASH_IN_JOINED = Slip(
    marked("a slash for one of two hands that play together"),
    marked("write the strokes one by one, in a finer group"),
)

GHOST_ACCENT = Slip(marked("an accent in a ghost note"), marked("keep one of the two: {letter}{mark} or ({letter})"))
TWO_ACCENTS = Slip(
    marked("two accents on one stroke"), marked("keep one of the two: {letter}> or the strong {letter}^")
)
SLASHED_BUZZ = Slip(marked("a buzz with a slash"), marked("keep one of the two: {letter}z or {letter}/"))
_TWO_SLASHES = Slip(
    marked("the mark {mark} twice on one stroke"),
    marked("{letter}/ is two strokes, {letter}/3 is three, {letter}// is four"),
)
_TWO_MARKS = Slip(marked("the mark {mark} twice on one stroke"), marked("once is enough: {letter}{mark}"))
_LATE_GRACE = Slip(
    marked("a last grace note of the main note's own hand"),
    marked("the other hand comes just before the main note: {strokes}"),
)
_NO_CAPITAL = Slip(
    marked("a lower-case letter with no capital after it"),
    marked("capitals are strokes, mark accents with >: {strokes}"),
)

_BARE_ACCENT = Slip(
    marked("an accent mark with no stroke before it"), marked("put the letter first: R{mark} or L{mark}")
)
_STRAY = {
    ">": _BARE_ACCENT,
    "^": _BARE_ACCENT,
    "/": Slip(marked("a slash with no stroke before it"), marked("put the letter first: R/ or L/")),
    "z": Slip(marked("a buzz mark with no stroke before it"), marked("put the letter first: Rz or Lz")),
    "&": Slip(marked("an & with no stroke before it"), _JOINS),
    PART_CLOSE: Slip(
        marked("a closing bracket with none open"), marked("brackets hold strokes that share one slot: R{LRL}")
    ),
    ")": Slip(marked("a closing parenthesis with none open"), _ONE_IN_PARENTHESES),
}
_SLASH_AND_NUMBER = Slip(marked("a slash followed by {number}"), marked("R/ is two strokes, R/3 is three, R// is four"))

# By the hand whose part it is: a stroke of both hands in it, and one of the other hand.
_OF_BOTH = {
    Side.RIGHT: marked("a stroke of both hands in the part of the right hand"),
    Side.LEFT: marked("a stroke of both hands in the part of the left hand"),
}
_OF_THE_OTHER = {
    Side.RIGHT: marked("a stroke of the left hand in the part of the right hand"),
    Side.LEFT: marked("a stroke of the right hand in the part of the left hand"),
}


def stray(char: str, before: str) -> tuple[str, str] | None:
    """What is wrong with a mark that no stroke stands before; None where a character is no mark at all."""
    if char in _STRAY:
        slip = _STRAY[char]
        return slip.said(mark=char) if slip is _BARE_ACCENT else slip.said()
    return _SLASH_AND_NUMBER.said(number=char) if char.isdecimal() and before == "/" else None


def meaningless(char: str) -> tuple[str, str]:
    """What is wrong with a character that means nothing, named so that a reader can recognise it."""
    if char.isprintable() and not unicodedata.combining(char):
        found = say("'{character}' means nothing here", character=char)
    else:
        name = unicodedata.name(char, "").lower() or say("no name")
        found = say("U+{code} ({name}) means nothing here", code=f"{ord(char):04X}", name=name)
    return found, say("strokes are R, L and B, a rest is ., a held slot is -")


def of_another_hand(note: Note, hand: Side) -> tuple[str, str]:
    """What is wrong with a stroke that is not of the hand whose part it stands in."""
    found = say((_OF_BOTH if note.is_both else _OF_THE_OTHER)[hand])
    return found, say("write x or {letter}", letter=hand.letter)


def twice(letter: str, mark: str) -> tuple[str, str]:
    """What is wrong with a mark that stands twice on a stroke."""
    return (_TWO_SLASHES if mark == "/" else _TWO_MARKS).said(letter=letter, mark=mark)


def unjoinable(first: Note, second: Note) -> tuple[str, str] | None:
    """What keeps two strokes from being one note of both hands, and the remedy."""
    if first.is_both or second.is_both or first.sides == second.sides:
        return _ALIKE.said()
    if first.graces or second.graces:
        return _GRACE_IN_JOINED.said()
    return _SLASH_IN_JOINED.said() if first.strokes != second.strokes else None


def too_many_graces(count: int) -> tuple[str, str]:
    """What is wrong with more grace notes than there can be."""
    return say("{count} grace notes before one note", count=count), say("one to three grace notes: lR, llR, rlrL")


def late_grace(letters: str, side: Side) -> tuple[str, str]:
    """What is wrong with grace notes of which the last is of the main note's own hand."""
    return _LATE_GRACE.said(strokes=f"{letters[:-1]}{side.other.letter.lower()}{side.letter}")


def no_capital(chars: tuple[tuple[str, Place], ...]) -> tuple[str, str]:
    """What is wrong with a group in which grace notes stand before no stroke."""
    return _NO_CAPITAL.said(strokes=_rewritten(chars))


def _rewritten(chars: tuple[tuple[str, Place], ...]) -> str:
    """The group with every letter a stroke; capitals that seem to mean accents get their mark."""
    text = "".join(char for char, _ in chars)
    capitals_accent = any(char in "RLB" for char in text) and set(text) <= set("RLBrl.-")
    return "".join(
        f"{char}>" if capitals_accent and char in "RLB" else char.upper() if char in "rl" else char for char in text
    )
