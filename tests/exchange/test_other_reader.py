"""A general-purpose library of other people reads our scores: without a warning, and to the same notes."""

import json
import subprocess
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from tests.exchange.known import known_patterns
from wristwork.drawing.score import read_score
from wristwork.exchange.score import score_bytes
from wristwork.exchange.vocabulary import staff_place

READER = Path(__file__).with_name("reader.mjs")


def drawn(pattern):
    """The notes that are drawn: grace note or not, beginning and length in quarters, place on the staff, drum."""
    score = read_score(replace(pattern, same=()))
    quarters, found = 4 * pattern.time.beat, []

    def note(is_grace, at, length, drum):
        step, octave = staff_place(drum, score.one_surface)
        found.append(
            [is_grace, (at - pattern.drawn.start) * quarters, length * quarters, f"{step}{octave}", drum.value]
        )

    for cut in score.cuts:
        for chord in (*cut.hands.chords, *cut.feet.chords):
            for grace in chord.graces:
                note(True, chord.piece.at, Fraction(0), grace.stroke.on)
            for drum, _ in chord.heads:
                note(False, chord.piece.at, chord.piece.length, drum)
    return sorted(found)


def test_another_reader_finds_the_notes_that_are_drawn_and_nothing_wrong(tmp_path):
    patterns = dict(enumerate(known_patterns().values()))
    for number, pattern in patterns.items():
        (tmp_path / f"{number}.musicxml").write_bytes(score_bytes(pattern))
    run = subprocess.run(["node", READER, tmp_path], capture_output=True, check=True, timeout=60)
    answer = json.loads(run.stdout)
    assert answer["warnings"] == 0
    for number, pattern in patterns.items():
        read = answer["read"][f"{number}.musicxml"]
        notes = [
            [is_grace, Fraction(at, read["divisions"]), Fraction(length, read["divisions"]), place, drum]
            for is_grace, at, length, place, drum in read["notes"]
        ]
        assert sorted(notes) == drawn(pattern)
        assert read["wrong"] == []
