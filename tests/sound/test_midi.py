from __future__ import annotations

import io
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from mido import MidiFile

from tests.sound.made_patterns import pattern, patterns
from wristwork.pattern.model import Drum
from wristwork.sound.midi import KEYS, MOST_TICKS, midi_bytes, quarters, ticks_for
from wristwork.sound.schedule import pass_beats, schedule

GOLDEN = Path(__file__).parent / "flam_and_feet.mid.hex"


def read(made):
    return MidiFile(file=io.BytesIO(midi_bytes(made)), charset="utf-8")


def timed(file):
    """(quarters from the start, message) of the one track."""
    now = 0
    found = []
    for message in file.tracks[0]:
        now += message.time
        found.append((Fraction(now, file.ticks_per_beat), message))
    return found


def notes(made):
    return [(at, m.note, m.velocity) for at, m in timed(read(made)) if m.type == "note_on"]


def meta(made, kind):
    return next(m for m in read(made).tracks[0] if m.type == kind)


def hex_lines(text):
    return bytes.fromhex("".join(line.split("#")[0] for line in text.splitlines()))


def test_the_bytes_are_those_of_the_commented_file():
    made = pattern("lR> (L)", feet="R .", time="2/4", tempo="60 to 90", title="Flam and foot")
    assert midi_bytes(made) == hex_lines(GOLDEN.read_text(encoding="utf-8"))


def test_an_empty_bar_comes_first():
    assert notes(pattern("R L R L", time="4/4"))[0][0] == 4
    assert notes(pattern("RLR LRL", time="6/8"))[0][0] == 3


def test_the_grace_note_before_beat_one_stands_in_the_empty_bar():
    (grace, _, soft), (main, _, loud) = notes(pattern("lR>", time="1/4", tempo="60"))
    assert main == 1
    assert main - grace == pytest.approx(0.030, abs=0.001)
    assert soft < loud


@pytest.mark.parametrize(
    ("time", "hands", "tempo", "quarters_a_minute"),
    [("4/4", "R L R L", 60, 60), ("6/8", "RLR LRL", 60, 90), ("2/2", "R L", 60, 120), ("3/8", "R L R", 70, 35)],
)
def test_the_tempo_is_in_quarters(time, hands, tempo, quarters_a_minute):
    made = pattern(hands, time=time, tempo=str(tempo))
    assert meta(made, "set_tempo").tempo == round(60_000_000 / quarters_a_minute)


def test_the_time_signature_is_told_with_its_beat():
    told = meta(pattern("RLR LRL", time="6/8"), "time_signature")
    assert (told.numerator, told.denominator, told.clocks_per_click) == (6, 8, 36)


def test_the_keys_are_those_of_general_midi_and_every_drum_has_one():
    assert set(KEYS) == set(Drum)
    made = pattern("RL", time="1/4", feet="R", place="right on ride bell, left on floor tom")
    assert [key for _, key, _ in notes(made)] == [53, 36, 43]
    assert all(m.channel == 9 for _, m in timed(read(made)) if not m.is_meta)


def test_louder_strokes_are_faster_and_a_rim_shot_is_louder_than_a_snare_stroke():
    ghost, tap, accent = (velocity for _, _, velocity in notes(pattern("(R)RR>", time="1/4")))
    assert ghost < tap < accent
    made = pattern("RL", time="1/4", place="right on snare, left on rim shot")
    (_, snare_key, snare), (_, rim_key, rim) = notes(made)
    assert snare_key == rim_key == 38
    assert rim > snare
    loudest = pattern("R>", time="1/4", place="all on rim shot")
    assert notes(loudest)[0][2] <= 127


def test_all_repeats_are_in_the_file_and_it_ends_with_its_last_bar():
    made = pattern("R L", time="2/4", repeat="3")
    assert [at for at, _, _ in notes(made)] == [2, 3, 4, 5, 6, 7]
    assert timed(read(made))[-1][0] == 8


@pytest.mark.parametrize("parts", range(1, 13))
def test_every_slot_of_every_group_is_on_an_exact_tick(parts):
    made = pattern("R" * parts + " " + "RL" * 2, time="2/4")
    assert [at for at, _, _ in notes(made)][:parts] == [2 + Fraction(slot, parts) for slot in range(parts)]


def test_a_stretched_group_of_diddles_is_exact():
    made = pattern("R/L/R/ over 2", time="2/4")
    assert [at - 2 for at, _, _ in notes(made)] == [Fraction(n, 3) for n in range(6)]


def test_the_grid_is_the_usual_one_where_it_can_be_and_never_more_than_the_format_holds():
    assert ticks_for([1, 4, 3]) == 960
    assert ticks_for([7]) == 6720
    assert ticks_for([7, 9]) == 20160
    assert ticks_for([7, 11]) % 77 == 0
    assert ticks_for([7, 9, 11, 5, 8]) <= MOST_TICKS
    assert ticks_for([64, 7, 9, 11, 5]) <= MOST_TICKS


def test_titles_in_any_script_are_kept():
    made = pattern("R", time="1/4", title="Übung № 1 — 練習")
    assert meta(made, "track_name").name == "Übung № 1 — 練習"


def test_an_example_without_title_has_a_file_too():
    made = pattern("R", time="1/4")
    assert meta(type(made)(None, made.time, made.hands, None), "track_name").name == "Example"


@settings(max_examples=60, deadline=None)
@given(patterns())
def test_any_pattern_reads_back_as_its_schedule(made):
    file = read(made)
    onsets = schedule(made, made.tempo.start)
    beat = quarters(made.time)
    bar = beat * made.time.beats
    found = [(at, m.note) for at, m in timed(file) if m.type == "note_on"]
    half_a_tick = Fraction(1, 2 * file.ticks_per_beat)
    expected = [(bar + onset.beat * beat, KEYS[onset.stroke.on]) for onset in onsets]
    assert [key for _, key in found] == [key for _, key in expected]
    assert all(abs(a - b) <= half_a_tick for (a, _), (b, _) in zip(found, expected, strict=True))
    assert timed(file)[-1][0] == bar + pass_beats(made) * beat


@settings(max_examples=60, deadline=None)
@given(patterns())
def test_every_note_ends_and_none_reaches_into_the_next_of_its_key(made):
    sounding: dict[int, list[Fraction]] = {}
    for at, message in timed(read(made)):
        if message.type == "note_on":
            held = sounding.setdefault(message.note, [])
            assert all(start == at for start in held), "a note was still held when its key was struck again"
            held.append(at)
        elif message.type == "note_off":
            assert sounding[message.note].pop() < at
    assert not any(sounding.values())
