"""MIDI files → pattern lines: our own, those that people play in, broken ones."""

import io
import random
from contextlib import suppress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from mido import Message, MetaMessage, MidiFile, MidiTrack

from wristwork.exchange.incoming import Asked, Unreadable, read_file
from wristwork.exchange.incoming.midi_file import MOST_BYTES
from wristwork.pattern import read_one
from wristwork.sound.midi import midi_bytes
from wristwork.technique.strokes import Kind, Limb, strokes

SNARE, KICK, HAT = 38, 36, 42


def midi(hits, *, ticks=480, meta=(), kind=0, channel=9):
    """A file of hits (quarter, key, velocity), with meta messages at quarters."""
    file = MidiFile(type=kind, ticks_per_beat=ticks)
    timed = [(at, message) for at, message in meta]
    timed += [(at, Message("note_on", channel=channel, note=key, velocity=force)) for at, key, force in hits]
    timed += [(at + 0.01, Message("note_on", channel=channel, note=key, velocity=0)) for at, key, _ in hits]
    tracks = (
        [timed] if kind == 0 else [[each for each in timed if each[1].is_meta], [e for e in timed if not e[1].is_meta]]
    )
    for messages in tracks:
        track, now = MidiTrack(), 0
        for at, message in sorted(messages, key=lambda each: each[0]):
            tick = round(at * ticks)
            track.append(message.copy(time=tick - now))
            now = tick
        file.tracks.append(track)
    written = io.BytesIO()
    file.save(file=written)
    return written.getvalue()


def read(data, lead=Limb.RIGHT_HAND, bars=None):
    return read_file(data, "a file", Asked(lead, bars))


def lines(data, **asked):
    return dict(read(data, **asked).lines)


def evenly(step, count, key=SNARE, force=80):
    return [(number * step, key, force) for number in range(count)]


@pytest.mark.parametrize(
    "text",
    [
        "hands: R>LRL RLR>L (R)L(R)L R>L RL RL RL",
        "hands: RLR LRL R>LR L>RL\nfeet: R L R L",
        "hands: lR>LRL rL>.R. RLRLRL RLRLR",
        "time: 6/8\nhands: R>LR LRL R-L RLRLRL",
        "hands: RL RL RL RL\nplace: right on hi-hat, left on high tom\nfeet: R R R R",
    ],
)
def test_our_own_file_says_when_on_what_and_how_loud(text):
    pattern = read_one(f"title: Own file\ntempo: 90\n{text}")
    again = read_one(read(midi_bytes(pattern)).text)
    told = [
        sorted((s.at, str(s.on), s.level, s.kind is Kind.GRACE) for s in strokes(each)) for each in (pattern, again)
    ]
    assert told[0] == told[1]
    assert (again.tempo.start, again.time, again.title) == (90, pattern.time, "Own file")


def test_what_a_person_plays_in_is_put_on_a_grid_and_the_error_is_told():
    played = random.Random(7)
    exact = evenly(0.25, 16) + [(4 + n / 3, SNARE, 80) for n in range(12)]
    hits = [(max(0.0, at + played.gauss(0, 0.012 / 0.6)), key, force) for at, key, force in exact]
    tempo = [(0, MetaMessage("set_tempo", tempo=600_000))]
    found = read(midi(hits, meta=tempo))
    assert dict(found.lines)["hands"] == "RLRL RLRL RLRL RLRL | RLR LRL RLR LRL"
    assert dict(found.lines)["tempo"] == "100"
    assert any(
        remark.startswith("quantised: 28 strokes, ") and "ms off on average" in remark for remark in found.remarks
    )


def test_a_stroke_a_little_before_the_beat_belongs_to_it():
    assert lines(midi([(0, SNARE, 80), (0.98, SNARE, 80), (2.01, SNARE, 80), (2.97, SNARE, 80)]))["hands"] == "R L R L"


def test_kick_and_hi_hat_pedal_are_feet_and_two_at_once_are_both_hands():
    hits = evenly(1, 4, KICK) + evenly(0.5, 8, HAT) + [(1, SNARE, 110), (3, SNARE, 110)]
    found = lines(midi(hits))
    assert found["feet"] == "R R R R"
    assert found["hands"] == "RL R&L>R LR R&L>R"
    assert found["drums"].startswith("hat, hat&snare hat")


def test_velocities_that_are_all_alike_are_taps_and_the_usual_one_is_a_tap():
    assert lines(midi(evenly(1, 4, force=127)))["hands"] == "R L R L"
    loud = [(0, SNARE, 127), *[(n, SNARE, 100) for n in (1, 2)], (3, SNARE, 40)]
    assert lines(midi(loud))["hands"] == "R> L R (L)"


def test_a_soft_hit_just_before_another_is_a_grace_note_and_a_fast_one_is_none():
    flam = [(0, SNARE, 80), (0.96, SNARE, 30), (1, SNARE, 80), (2, SNARE, 80), (2.125, SNARE, 80), (3, SNARE, 80)]
    assert lines(midi(flam))["hands"] == "R rL RL...... R"


@pytest.mark.parametrize("kind", [0, 1])
def test_both_formats_tempos_and_signatures(kind):
    meta = [(0, MetaMessage("track_name", name="Waltz")),
            (0, MetaMessage("time_signature", numerator=3, denominator=4)),
            (0, MetaMessage("set_tempo", tempo=400_000)), (3, MetaMessage("set_tempo", tempo=500_000))]  # fmt: skip
    found = read(midi(evenly(1, 6), meta=meta, kind=kind))
    assert dict(found.lines) | {"id": ""} == {
        "id": "", "title": "Waltz", "time": "3/4", "hands": "R L R | L R L", "tempo": "150", "place": "all on snare",
    }  # fmt: skip
    assert "left out: changes of the tempo" in found.remarks


def test_bars_of_another_signature_are_listed_and_can_be_asked_for():
    meta = [(0, MetaMessage("time_signature", numerator=4, denominator=4)),
            (8, MetaMessage("time_signature", numerator=3, denominator=4))]  # fmt: skip
    data = midi(evenly(1, 11), meta=meta)
    assert any("3 strokes in bars of 3/4" in remark for remark in read(data).remarks)
    assert lines(data, bars=(3, 3))["time"] == "3/4"
    assert lines(data, bars=(2, 2))["hands"] == "R L R L"


def test_other_channels_and_unknown_keys_are_listed():
    piano = MidiFile(file=io.BytesIO(midi(evenly(1, 3, 60), channel=0)))
    drums = MidiFile(file=io.BytesIO(midi([*evenly(1, 4), (1, 54, 80), (2, 54, 80)])))
    drums.tracks += piano.tracks
    drums.type = 1
    written = io.BytesIO()
    drums.save(file=written)
    remarks = "\n".join(read(written.getvalue()).remarks)
    assert "left out: 3 notes on channels that are not for drums" in remarks
    assert "left out: key 54, which is no drum that is known here (2 times)" in remarks


def test_a_file_without_channel_10_is_read_as_drums_and_says_so():
    found = read(midi(evenly(1, 4), channel=2))
    assert dict(found.lines)["hands"] == "R L R L"
    assert any("all channels are read as drums" in remark for remark in found.remarks)


def test_running_status_is_read():
    events = b"".join(bytes([delta, SNARE, force]) for delta, force in ((0, 80), (96, 0), (0, 80), (96, 0)))
    track = b"\x00\x99" + events[1:] + b"\x00\xff\x2f\x00"
    data = b"MThd\x00\x00\x00\x06\x00\x00\x00\x01\x00\x60MTrk" + len(track).to_bytes(4, "big") + track
    assert lines(data)["hands"] == "R L . ."


def test_a_stroke_years_later_is_listed_and_not_waited_for():
    found = read(midi([(0, SNARE, 80), (40_000, SNARE, 80)]))
    assert any("all after the first 64 bars" in remark for remark in found.remarks)


GOOD = midi(evenly(0.5, 8), meta=[(0, MetaMessage("set_tempo", tempo=500_000))])
BROKEN = {
    "only a name": (b"MThd", "a broken MIDI file"),
    "half a file": (GOOD[: len(GOOD) // 2], "a broken MIDI file"),
    "a track longer than the file": (GOOD.replace(b"MTrk\x00\x00", b"MTrk\x7f\xff"), "a broken MIDI file"),
    "frames of film": (GOOD[:12] + b"\xe7\x28" + GOOD[14:], "counts frames of film"),
    "no ticks at all": (GOOD[:12] + b"\x00\x00" + GOOD[14:], "counts frames of film"),
    "too much": (GOOD + b"\x00" * MOST_BYTES, "MB of MIDI"),
    "nothing struck": (midi([]), "no strokes on drums"),
}


@pytest.mark.parametrize(("data", "said"), BROKEN.values(), ids=BROKEN)
def test_a_broken_file_gets_one_line(data, said):
    with pytest.raises(Unreadable, match=said):
        read(data)


@settings(max_examples=200)
@given(st.binary(max_size=12), st.integers(0, len(GOOD)), st.integers(0, 12))
def test_a_file_with_junk_in_it_is_read_or_refused_and_nothing_else(junk, at, gone):
    with suppress(Unreadable):
        read(GOOD[:at] + junk + GOOD[at + gone :])
