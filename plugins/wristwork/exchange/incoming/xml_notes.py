"""One note element of a score → what it says: drum, who plays, level, slashes."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from xml.etree.ElementTree import Element

from wristwork.exchange.incoming.drums import drum_at, drum_of_key, drum_of_name
from wristwork.exchange.vocabulary import FOOT_WORDS, JOIN, LIMBS, PEDAL_LETTERS, PEDALS, QUARTER, TYPES
from wristwork.languages.say import say
from wristwork.pattern.drums import Drum
from wristwork.pattern.model import Level
from wristwork.technique.strokes import Limb

_HALVINGS = {name: halvings for halvings, name in TYPES.items()}
_HAND = {"R": Limb.RIGHT_HAND, "L": Limb.LEFT_HAND, "RH": Limb.RIGHT_HAND, "LH": Limb.LEFT_HAND}
_PEDAL_LIMBS = {letter: PEDALS[drum] for drum, letter in PEDAL_LETTERS.items()}
_BOTH = {"B": (Limb.RIGHT_HAND, Limb.LEFT_HAND)}
_MARKED = re.compile(r"(\()?([RL])(F)?(\))?([>^]*)(z)?")
_NUMBER = re.compile(r"[+-]?[0-9]{1,12}(?:\.[0-9]{0,12})?")
_MOST_SLASHES = 8
_EIGHTH = Fraction(1, 8)


@dataclass(frozen=True, slots=True)
class Hand:
    """Who strikes, and how, where that is told for each hand by itself."""

    limb: Limb
    level: Level | None = None
    strong: bool = False
    buzz: bool = False


@dataclass(frozen=True, slots=True)
class Instrument:
    """What a part says of one of its instruments: its name, and its key in MIDI counted from 0."""

    name: str
    key: int | None


def number_in(element: Element | None, path: str) -> Fraction | None:
    """The number in a child, None where there is none."""
    return decimal(element.findtext(path) if element is not None else None)


def decimal(text: str | None) -> Fraction | None:
    """A decimal number of a sensible length (none with an exponent, which could be of any size), or None."""
    plain = (text or "").strip()
    return Fraction(plain) if _NUMBER.fullmatch(plain) else None


def place_of(note: Element) -> tuple[str | None, str | None]:
    """Where a note stands on the staff, as it is written."""
    return note.findtext("unpitched/display-step"), note.findtext("unpitched/display-octave")


def drum_in(note: Element, instruments: Mapping[str, Instrument], *, alone: bool) -> tuple[Drum | None, str]:
    """The drum of a note, and what it is called where it is none that is known.

    Signs over it say how far a hi-hat is open. The only instrument of a part plays notes that name none if they are
    ``alone``, all at one place of the staff.
    """
    named = note.find("instrument")
    instrument = instruments.get(named.get("id", "") if named is not None else "")
    if instrument is None and len(instruments) == 1 and (alone or _placed(note) is None):
        instrument = next(iter(instruments.values()))
    if instrument is not None:
        drum = drum_of_name(instrument.name) or (drum_of_key(instrument.key) if instrument.key is not None else None)
        if drum is not None:
            return _opened(drum, note), instrument.name
    if note.find("pitch") is not None:
        return drum_of_key(_pitch(note)), instrument.name if instrument else say("a note of a pitch that is no drum's")
    drum = _placed(note) if instrument is None or instrument.key is None else None
    name = instrument.name if instrument is not None else say("a drum whose place on the staff is not known")
    return _opened(drum, note) if drum else None, name


def _opened(drum: Drum, note: Element) -> Drum:
    """A hi-hat as far open as the sign over its note says."""
    if drum is Drum.HI_HAT and note.find("notations/technical/open") is not None:
        return Drum.OPEN_HI_HAT
    if drum is Drum.HI_HAT and note.find("notations/technical/half-muted") is not None:
        return Drum.HALF_OPEN_HI_HAT
    return drum


def _pitch(note: Element) -> int:
    octave, alter = number_in(note, "pitch/octave") or Fraction(0), number_in(note, "pitch/alter") or Fraction(0)
    steps = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
    return int(12 * (octave + 1) + steps.get(note.findtext("pitch/step") or "", 0) + alter)


def _placed(note: Element) -> Drum | None:
    octave = number_in(note, "unpitched/display-octave")
    step = note.findtext("unpitched/display-step")
    if step is None or octave is None:
        return None
    return drum_at(step, int(octave), (note.findtext("notehead") or "normal").strip())


def letters_in(note: Element) -> str:
    """The sticking that stands at a note: in a line of text under it, or as a fingering."""
    texts = [*note.iterfind("lyric/text"), *note.iterfind("notations/technical/fingering")]
    for text in texts:
        letters = "".join((text.text or "").split())
        if hands_of(letters):
            return letters
    return ""


def hands_of(letters: str) -> tuple[Hand, ...]:
    """Who plays what such letters stand at; nothing where they are no sticking."""
    upper = letters.upper()
    if upper in _BOTH:
        return tuple(map(Hand, _BOTH[upper]))
    limb = _HAND.get(upper) or _PEDAL_LIMBS.get(upper) or LIMBS.get(upper)
    if limb is not None:
        return (Hand(limb),)
    if len(upper) > 1 and set(upper) <= {"R", "L"}:
        return tuple(Hand(LIMBS[letter]) for letter in upper)
    parts = letters.split(JOIN)
    if all(part.upper() in LIMBS for part in parts):
        return tuple(Hand(LIMBS[part.upper()]) for part in parts)
    hands = tuple(_marked(part) for part in parts)
    return tuple(hand for hand in hands if hand) if len(hands) == 2 and all(hands) else ()


def _marked(text: str) -> Hand | None:
    """``L>``, ``(RF)``: a letter with marks of its own."""
    match = _MARKED.fullmatch(text)
    if match is None:
        return None
    ghost, letter, foot, _, accent, buzz = match.groups()
    limb = next(limb for limb, word in FOOT_WORDS.items() if word == f"{letter}F") if foot else LIMBS[letter]
    level = Level.GHOST if ghost else Level.ACCENT if accent else Level.TAP
    return Hand(limb, level, "^" in accent, bool(buzz))


def level_in(note: Element) -> tuple[Level, bool]:
    """How loud a note is, and whether its accent is a strong one."""
    if note.find("notations/articulations/strong-accent") is not None:
        return Level.ACCENT, True
    if note.find("notations/articulations/accent") is not None:
        return Level.ACCENT, False
    head = note.find("notehead")
    ghost = head is not None and head.get("parentheses") == "yes"
    return (Level.GHOST if ghost else Level.TAP), False


def strokes_in(note: Element) -> int:
    """How many strokes the slashes through a stem mean: 1 where there are none, 0 for a buzz."""
    tremolo = note.find("notations/ornaments/tremolo")
    if tremolo is None or tremolo.get("type") in ("start", "stop"):
        return 1
    slashes = int(number_in(note, "notations/ornaments/tremolo") or 0)
    value = _value(note)
    if tremolo.get("type") == "unmeasured" or not 1 <= slashes <= _MOST_SLASHES or value is None:
        return 0
    if slashes == 1 and note.findtext("notations/ornaments/other-ornament") == "3":
        return 3
    shortest = min(_EIGHTH, value / (3 if note.find("dot") is not None else 2)) / 2 ** (slashes - 1)
    return max(1, int(value / shortest))


def written_length(note: Element) -> Fraction | None:
    """The length in quarters that a note's value says, in the tuplet that it is in; None where it says none."""
    value, actual = _value(note), number_in(note, "time-modification/actual-notes")
    normal = number_in(note, "time-modification/normal-notes")
    if value is None or (actual is None) is not (normal is None) or actual == 0:
        return None
    return value / QUARTER * normal / actual if actual and normal else value / QUARTER


def _value(note: Element) -> Fraction | None:
    """The written value in whole notes, with its dots."""
    halvings = _HALVINGS.get((note.findtext("type") or "").strip())
    if halvings is None:
        return None
    plain = Fraction(2) / 2 ** (halvings + 1)
    return plain * (2 - Fraction(1, 2 ** len(note.findall("dot"))))
