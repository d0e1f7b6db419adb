"""What stands over and under the notes of a score: tempos, words, sections, dynamics, and when."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple
from xml.etree.ElementTree import Element

from wristwork.exchange.score.elements import add, element, within
from wristwork.exchange.score.fields import SIXTEENTH, feel_line
from wristwork.exchange.vocabulary import QUARTER, TYPES
from wristwork.pattern.model import Hairpin, Pattern, WordsAt
from wristwork.pattern.values import Piece
from wristwork.sound.swing import first_share, pair_beats

_WEDGES = {Hairpin.GROWING: "crescendo", Hairpin.FADING: "diminuendo"}
_COARSEST = 12  # parts of a pair of notes by which a swing that follows the tempo is told


class Direction(NamedTuple):
    """Something over (or under) the notes, ``at`` beats from the start of the written bars."""

    at: Fraction
    placement: str
    shown: Element
    sound: Element | None = None

    def written(self, offset: int) -> Element:
        """The element, so many divisions after what it stands before."""
        made = element("direction", placement=self.placement)
        made.append(within("direction-type", self.shown))
        if offset:
            add(made, "offset", offset)
        if self.sound is not None:
            made.append(self.sound)
        return made


def directions(pattern: Pattern) -> list[Direction]:
    """All of a pattern, in order of time."""
    found = [*_tempos(pattern), *_swing(pattern), *map(_words, pattern.words), *_dynamics(pattern)]
    return sorted(found, key=lambda each: each.at)


def _tempos(pattern: Pattern) -> Iterator[Direction]:
    """The tempo of the start, at which the whole begins to be practised, and those of the sections beside it."""
    start = Fraction(pattern.drawn.start)
    if not any(mark.at == start for mark in pattern.tempos):
        yield _tempo(pattern, start, Fraction(pattern.tempo.start))
    for mark in pattern.tempos:
        yield _tempo(pattern, mark.at, mark.share * pattern.tempo.start)


def _tempo(pattern: Pattern, at: Fraction, tempo: Fraction) -> Direction:
    beat = Piece(Fraction(0), Fraction(1), pattern.time.beat, 0)
    mark = element("metronome")
    add(mark, "beat-unit", TYPES[beat.halvings])
    if beat.dotted:
        add(mark, "beat-unit-dot")
    add(mark, "per-minute", round(tempo))
    sound = element("sound", tempo=_plain(tempo * pattern.time.beat / QUARTER))
    return Direction(at, "above", mark, sound)


def _swing(pattern: Pattern) -> Iterator[Direction]:
    if pattern.swing is None:
        return
    swing = pattern.swing
    share = first_share(swing, pair_beats(pattern, swing), pattern.tempo.start).limit_denominator(_COARSEST)
    first, whole = share.as_integer_ratio()
    ratio = element("swing")
    add(ratio, "first", first)
    add(ratio, "second", whole - first)
    add(ratio, "swing-type", "16th" if swing.unit == SIXTEENTH else "eighth")
    words = element("words", feel_line(swing))
    yield Direction(Fraction(pattern.drawn.start), "above", words, within("sound", ratio))


def _words(words: WordsAt) -> Direction:
    return Direction(words.at, "above", element("rehearsal" if words.is_section else "words", words.words))


def _dynamics(pattern: Pattern) -> Iterator[Direction]:
    for dynamic in pattern.dynamics:
        yield Direction(dynamic.at, "below", within("dynamics", element(dynamic.loudness.value)))
    for dynamic, after in pairwise(pattern.dynamics):
        if dynamic.hairpin is not None:
            yield Direction(dynamic.at, "below", element("wedge", type=_WEDGES[dynamic.hairpin], number=1))
            yield Direction(after.at, "below", element("wedge", type="stop", number=1))


def _plain(number: Fraction) -> str:
    """A number as a decimal, whole where it is."""
    return f"{float(number):.4f}".rstrip("0").rstrip(".")
