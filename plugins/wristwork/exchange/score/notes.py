"""Notes, grace notes and rests as elements of a score."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from xml.etree.ElementTree import Element

from wristwork.drawing.voices import Chord, Hit, Rest
from wristwork.exchange.score.elements import add, element, within
from wristwork.exchange.score.ink import Ink
from wristwork.exchange.vocabulary import (
    FOOT_WORDS,
    HAND_LETTERS,
    HEADS,
    JOIN,
    PEDAL_LETTERS,
    PEDALS,
    QUARTER,
    TYPES,
    instrument_id,
    side_of,
    staff_place,
)
from wristwork.pattern.drums import Drum, Opening
from wristwork.pattern.model import Level, Note
from wristwork.pattern.values import Piece
from wristwork.pattern.write import slot_text
from wristwork.sound.midi import VELOCITIES

# A score tells the loudness of a note in per cent of that of a forte, which has this velocity in MIDI.
_FORTE = 90
_EIGHTH, _SIXTEENTH = 3, 4  # halvings of a whole note


@dataclass(frozen=True, slots=True)
class NoteWriter:
    """Writes the notes of one voice.

    ``beat`` is the length of a beat in whole notes, ``divisions`` are parts of a quarter. In a ``joint`` voice of
    hands and feet pedals have letters too.
    """

    ink: Ink
    voice: int
    beat: Fraction
    divisions: int
    one_line: bool
    joint: bool

    def write(self, bar: Element, written: Chord | Rest) -> None:
        """Write a rest, or a note with its grace notes, at the end of a bar."""
        if isinstance(written, Rest):
            self._rest(bar, written.piece)
            return
        for number, grace in enumerate(written.graces):
            self._grace(bar, written, number, grace)
        for number, (drum, hits) in enumerate(written.heads):
            self._head(bar, written, number, drum, hits)

    def duration(self, beats: Fraction) -> int:
        """So many beats in divisions."""
        return int(beats * self.beat / QUARTER * self.divisions)

    def _rest(self, bar: Element, piece: Piece) -> None:
        note = add(bar, "note")
        add(note, "rest")
        add(note, "duration", self.duration(piece.length))
        add(note, "voice", self.voice)
        self._value(note, piece)
        _notations(note, self._tuplets(piece))

    def _grace(self, bar: Element, chord: Chord, number: int, hit: Hit) -> None:
        drum, last = hit.stroke.on, len(chord.graces) - 1
        note = add(bar, "note", dynamics=_loudness(Level.GHOST))
        add(note, "grace", slash="no" if last else "yes")
        self._place(note, drum)
        add(note, "instrument", id=instrument_id(drum))
        add(note, "voice", self.voice)
        add(note, "type", TYPES[_SIXTEENTH if last else _EIGHTH])
        add(note, "stem", "up")
        add(note, "notehead", HEADS[drum.row.head])
        for level in (1, 2) if last else ():
            said = "begin" if number == 0 else "end" if number == last else "continue"
            add(note, "beam", said, number=level)
        notations = [] if number else [element("slur", type="start", number=1)]
        _notations(note, [*notations, *_opening(drum)])
        _lyric(note, 0, self._letter(hit))

    def _head(self, bar: Element, chord: Chord, number: int, drum: Drum, hits: tuple[Hit, ...]) -> None:
        played = _played(chord, hits)
        note = add(bar, "note", dynamics=_loudness(played.level))
        if number:
            add(note, "chord")
        self._place(note, drum)
        add(note, "duration", self.duration(chord.piece.length))
        ties = [kind for kind, is_tied in (("stop", chord.ties_back), ("start", chord.ties_on)) if is_tied]
        for kind in ties:
            if kind == "stop" or not self.ink.leads_to_release(chord):
                add(note, "tie", type=kind)
        add(note, "instrument", id=instrument_id(drum))
        add(note, "voice", self.voice)
        self._value(note, chord.piece)
        if chord.halvings > 0:
            add(note, "stem", "up" if self.voice == 1 else "down")
        head = add(note, "notehead", HEADS[drum.row.head])
        if played.level is Level.GHOST and not chord.ties_back:
            head.set("parentheses", "yes")
        for level, said in self.ink.beams_of(chord) if number == 0 else ():
            add(note, "beam", said, number=level)
        if self.ink.is_release(chord):
            ties.insert(0, "stop")
        notations = [element("tied", type=kind) for kind in ties]
        if number == 0:
            notations += [element("slur", type="stop", number=1)] if chord.graces else []
            notations += self._tuplets(chord.piece)
        _notations(note, [*notations, *self._marks(chord, drum, played)])
        _lyric(note, number, "" if chord.ties_back else self._sticking(chord, hits, played))

    def _marks(self, chord: Chord, drum: Drum, played: Note) -> Iterator[Element]:
        """Slashes and buzz; and where a note begins, how open a hi-hat is, and its accent."""
        if played.buzz:
            yield within("ornaments", element("tremolo", 0, type="unmeasured"))
        elif chord.slashes.count:
            number = chord.roll or 3
            more = [element("other-ornament", number)] if chord.slashes.three or chord.roll else []
            yield within("ornaments", element("tremolo", chord.slashes.count, type="single"), *more)
        if chord.ties_back:
            return
        yield from _opening(drum)
        if played.level is Level.ACCENT:
            accent = element("strong-accent", type="up") if played.strong else element("accent")
            yield within("articulations", accent)

    def _sticking(self, chord: Chord, hits: tuple[Hit, ...], played: Note) -> str:
        """The letter of a head; of a roll and of three strokes under a slash those of all, of both hands one for each.

        Where these are unlike, each has its marks, since the head can show those of one.
        """
        if chord.roll:
            return "".join(self._letter(hit) for hit in hits)
        if not played.is_both:
            is_three = chord.slashes.three and hits[0].stroke.limb.is_hand
            return self._letter(hits[0]) * (3 if is_three else 1)
        feet = "" if hits[0].stroke.limb.is_hand else "F"
        if played.left is None:
            return JOIN.join(f"{hand.sides[0].letter}{feet}" for hand in played.hands)
        return JOIN.join(f"{slot_text(replace(hand, strokes=1))}{feet}" for hand in played.hands)

    def _letter(self, hit: Hit) -> str:
        limb, drum = hit.stroke.limb, hit.stroke.on
        if limb in HAND_LETTERS:
            return HAND_LETTERS[limb]
        if PEDALS.get(drum) is limb:
            return PEDAL_LETTERS[drum] if self.joint else ""
        return FOOT_WORDS[limb]

    def _tuplets(self, piece: Piece) -> list[Element]:
        """The beginning or the end of a tuplet, where it has one at a note or rest."""
        first, last = self.ink.ends.get(piece.group, (None, None))
        ends = (("start", first), ("stop", last))
        bracket = "no" if piece.group in self.ink.covered else "yes"
        return [element("tuplet", type=kind, number=1, bracket=bracket) for kind, end in ends if end is piece]

    def _place(self, note: Element, drum: Drum) -> None:
        step, octave = staff_place(drum, self.one_line)
        unpitched = add(note, "unpitched")
        add(unpitched, "display-step", step)
        add(unpitched, "display-octave", octave)

    def _value(self, note: Element, piece: Piece) -> None:
        """The written value, and the tuplet that it is in."""
        add(note, "type", TYPES[piece.halvings])
        if piece.dotted:
            add(note, "dot")
        group = self.ink.groups[piece.group]
        if group.ratio is None:
            return
        base = piece._replace(value=group.base)
        changed = add(note, "time-modification")
        add(changed, "actual-notes", group.ratio.actual)
        add(changed, "normal-notes", group.ratio.normal)
        add(changed, "normal-type", TYPES[base.halvings])
        if base.dotted:
            add(changed, "normal-dot")


def _played(chord: Chord, hits: tuple[Hit, ...]) -> Note:
    """What of a note falls on one head: what one hand plays, or both; a tie's end has no strokes."""
    limbs = {hit.stroke.limb for hit in hits}
    return chord.note.of(side_of(limbs.pop())) if chord.note.is_both and len(limbs) == 1 else chord.note


def _notations(note: Element, notations: list[Element]) -> None:
    if notations:
        add(note, "notations").extend(notations)


def _loudness(level: Level) -> int:
    return round(100 * VELOCITIES[level] / _FORTE)


def _opening(drum: Drum) -> Iterator[Element]:
    """How far a hi-hat is open."""
    if drum.row.opening is Opening.OPEN:
        yield within("technical", element("open"))
    elif drum.row.opening is Opening.HALF:
        yield within("technical", element("other-technical", "half open"))


def _lyric(note: Element, number: int, letters: str) -> None:
    """Who strikes, as text under a note: every program shows it. The hands of a chord have a line each."""
    if letters:
        lyric = add(note, "lyric", number=number + 1, placement="below")
        add(lyric, "syllabic", "single")
        add(lyric, "text", letters)
