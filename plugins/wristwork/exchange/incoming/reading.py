"""A file, whatever it is → pattern lines and what is told beside them."""

from __future__ import annotations

import re
from collections.abc import Callable
from copy import deepcopy
from dataclasses import dataclass, replace

from wristwork.exchange.incoming.lines import PatternLines, pattern_lines
from wristwork.exchange.incoming.midi import heard_midi
from wristwork.exchange.incoming.musicxml import heard_score
from wristwork.exchange.incoming.quantising import snapped
from wristwork.exchange.incoming.strikes import Heard, Remarks
from wristwork.exchange.incoming.unreadable import NoSuchRhythm, Unreadable
from wristwork.exchange.incoming.xml_tree import read_tree, unpacked
from wristwork.exchange.vocabulary import PEDALS
from wristwork.languages.numbers import decimal
from wristwork.languages.say import say
from wristwork.technique.strokes import Limb

_PAIR = re.compile(r"(\(?[RL]\)?[>^]*z?&\(?[RL]\)?)|[RL]")
OPEN_HAND = "x"


@dataclass(frozen=True, slots=True)
class Asked:
    """What is wanted of a file: the hand that begins where it says none (None: leave them open), and which bars."""

    lead: Limb | None = None
    bars: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class Written:
    """The lines of a pattern by their keys, and what is told beside them."""

    lines: tuple[tuple[str, str], ...]
    remarks: tuple[str, ...]

    @property
    def text(self) -> str:
        """The inside of a fence."""
        return "\n".join(f"{key}: {value}" for key, value in self.lines)


def read_file(data: bytes, name: str, asked: Asked) -> Written:
    """What a file of this name holds, as pattern lines. Raises :class:`Unreadable`."""
    remarks = Remarks()
    heard = _reader(data)(data, name, asked, remarks)
    of_hands = [strike for strike in heard.strikes if not strike.is_foot and (strike.limb or strike.on not in PEDALS)]
    has_hands = any(strike.limb is not None for strike in of_hands)
    found, remarks = _lines(heard, asked.lead or Limb.RIGHT_HAND, remarks)
    lines = dict(found.lines)
    if of_hands and not has_hands and asked.lead is None:
        lines["hands"] = _PAIR.sub(lambda match: match[1] or OPEN_HAND, lines["hands"])
        remarks.tell(
            say("no hands in the file: write R or L in place of each {letter}, or say --hands right", letter=OPEN_HAND)
        )
    elif any(strike.limb is None for strike in of_hands):
        remarks.tell(say("hands that the file does not say take turns"))
    return Written(tuple(lines.items()), remarks.lines)


def _lines(heard: Heard, lead: Limb, remarks: Remarks) -> tuple[PatternLines, Remarks]:
    """The lines, and all that is told; a rhythm that no pattern has is put on a grid."""
    tried = deepcopy(remarks)
    try:
        return pattern_lines(heard, lead, tried), tried
    except NoSuchRhythm as error:
        strikes, worst = snapped(heard.strikes)
        found = pattern_lines(replace(heard, strikes=tuple(strikes), is_exact=False), lead, remarks)
        remarks.tell(
            say(
                "{what}: all is put on a grid, {beats} beats off at most",
                what=error.what,
                beats=decimal(float(worst), 3),
            )
        )
        return found, remarks


_Reader = Callable[[bytes, str, Asked, Remarks], Heard]


def _reader(data: bytes) -> _Reader:
    """Who reads a file that begins like this."""
    if data.startswith(b"MThd"):
        return _midi
    if data.startswith(b"PK"):
        return _compressed
    if data.lstrip(b"\xef\xbb\xbf\xff\xfe\x00 \t\r\n").startswith(b"<"):
        return _score
    raise Unreadable(say("neither MusicXML nor MIDI"), say("take a file that ends in .musicxml, .mxl, .xml or .mid"))


def _score(data: bytes, name: str, asked: Asked, remarks: Remarks) -> Heard:
    return heard_score(read_tree(data), name, asked.bars, remarks)


def _compressed(data: bytes, name: str, asked: Asked, remarks: Remarks) -> Heard:
    return _score(unpacked(data), name, asked, remarks)


def _midi(data: bytes, name: str, asked: Asked, remarks: Remarks) -> Heard:
    return heard_midi(data, name, asked.bars, remarks)
