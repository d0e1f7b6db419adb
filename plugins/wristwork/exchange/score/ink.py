"""What stands at each note of a voice beside itself: beams and tuplets, as they are drawn."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from wristwork.drawing.beams import BeamPart, beam_parts, runs
from wristwork.drawing.voices import Chord, Rest, Voice
from wristwork.pattern.values import GroupValue, Piece


@dataclass(frozen=True, slots=True)
class Ink:
    """A voice from start to end: its notes and rests in time order, its groups, beams by the notes they join."""

    written: tuple[Chord | Rest, ...]
    groups: Mapping[int, GroupValue]
    beams: Mapping[int, Sequence[tuple[int, str]]]
    ends: Mapping[int, tuple[Piece, Piece]] = field(default_factory=dict)
    """The first and the last note or rest of each tuplet, by the number of its group."""

    covered: frozenset[int] = frozenset()
    """The tuplets whose beam says where they begin and end, so that they need no bracket."""
    rolls: frozenset[int] = frozenset()
    """The last written value of each roll."""
    releases: frozenset[int] = frozenset()
    """The notes that end a roll: it is drawn as tied to them, and they sound all the same."""

    def beams_of(self, chord: Chord) -> Sequence[tuple[int, str]]:
        """The level of each beam at a note, and whether it begins there, goes on, ends or is a stub."""
        return self.beams.get(id(chord), ())

    def leads_to_release(self, chord: Chord) -> bool:
        """Is this the last value of a roll?"""
        return id(chord) in self.rolls

    def is_release(self, chord: Chord) -> bool:
        """Does this note end a roll?"""
        return id(chord) in self.releases


def read_ink(voices: Iterable[Voice]) -> Ink:
    """Join what the cuts have of one voice."""
    written: list[Chord | Rest] = []
    groups: dict[int, GroupValue] = {}
    beams: dict[int, list[tuple[int, str]]] = defaultdict(list)
    covered: set[int] = set()
    for voice in voices:
        written += sorted([*voice.chords, *voice.rests], key=lambda each: each.piece.at)
        groups |= voice.groups
        for run in runs(voice):
            covered |= set(run.groups) if run.covers else set()
            for part in beam_parts(run) if run.beamed else ():
                for index, said in _beam_words(part):
                    beams[id(run.chords[index])].append((part.level, said))
    chords = [each for each in written if isinstance(each, Chord)]
    released = [(roll, after) for roll, after in pairwise(chords) if roll.ties_on and not after.ties_back]
    rolls, releases = frozenset(id(roll) for roll, _ in released), frozenset(id(after) for _, after in released)
    ends = _tuplet_ends(written, groups)
    return Ink(tuple(written), groups, beams, ends, frozenset(covered), rolls, releases)


def _beam_words(part: BeamPart) -> Iterator[tuple[int, str]]:
    if part.points:
        yield part.first, "forward hook" if part.points > 0 else "backward hook"
        return
    yield part.first, "begin"
    for index in range(part.first + 1, part.last):
        yield index, "continue"
    yield part.last, "end"


def _tuplet_ends(written: Iterable[Chord | Rest], groups: Mapping[int, GroupValue]) -> dict[int, tuple[Piece, Piece]]:
    ends: dict[int, tuple[Piece, Piece]] = {}
    for each in written:
        piece = each.piece
        if groups[piece.group].ratio is not None:
            ends[piece.group] = (ends[piece.group][0] if piece.group in ends else piece, piece)
    return ends
