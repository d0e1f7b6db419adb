"""All that is told of a file that is read is said: nothing of it stays English where another language is spoken."""

from __future__ import annotations

import io

import pytest
from mido import MetaMessage, MidiFile

from tests.exchange.test_midi_in import BROKEN, SNARE, evenly, midi
from tests.exchange.test_reading import HOSTILE, attributes, note, part, rest, score
from tests.said import bracketed, unsaid
from wristwork.exchange.incoming import Asked, Unreadable, read_file
from wristwork.technique.strokes import Limb


def _direction(inside: str) -> str:
    return f"<direction><direction-type>{inside}</direction-type></direction>"


def _two_songs() -> bytes:
    file = MidiFile(file=io.BytesIO(midi(evenly(1, 4))))
    file.type = 2
    written = io.BytesIO()
    file.save(file=written)
    return written.getvalue()


def _two_tracks() -> bytes:
    file = MidiFile(file=io.BytesIO(midi([*evenly(1, 4), (1, 54, 80), (2, 54, 80)])))
    file.tracks += [*MidiFile(file=io.BytesIO(midi(evenly(1, 3, 60), channel=0))).tracks, file.tracks[-1]]
    file.type = 1
    written = io.BytesIO()
    file.save(file=written)
    return written.getvalue()


GRACE = note("snare", 0, before="<grace/>")
SWING = "<sound><swing><first>2</first><second>1</second></swing></sound>"
FLUTE = "<note><pitch><step>A</step><octave>5</octave></pitch><duration>2</duration></note>"
HEAD = attributes(4, "2/4")
SCORES = {
    "parts of others": score(
        part(HEAD + note("snare", 4) * 2),
        part(FLUTE, name="P2"),
        listed='<score-part id="P1"/><score-part id="P2"><part-name>Flute</part-name></score-part>',
    ),
    "jumps and unknown places": score(
        part(HEAD + note("snare", 4, place="C9") + note("snare", 4) + '<sound dacapo="yes" fine="yes"/>', FLUTE)
    ),
    "too many drums": score(
        part(HEAD + note("crash", 4) + note("snare", 4, chord=True) + note("floor", 4, chord=True) + note("snare", 4))
    ),
    "graces": score(part(HEAD + GRACE * 5 + note("snare", 4) + note("snare", 4) + GRACE)),
    "graces before both": score(part(HEAD + GRACE * 2 + note("snare", 4) + note("crash", 4, chord=True) + rest(4))),
    "grace of the same hand": score(
        part(
            HEAD
            + note("snare", 0, before="<grace/>", inside="<lyric><text>R</text></lyric>")
            + note("snare", 4, inside="<lyric><text>R</text></lyric>")
            + note("snare", 4)
        )
    ),
    "cue notes": score(part(HEAD + note("snare", 4, before="<cue/>") + note("snare", 4))),
    "signatures": score(part(HEAD + note("snare", 4) * 2, note("snare", 4) * 2, attributes(4, "3/4") + rest(12))),
    "long bars": score(part(HEAD + note("snare", 4) * 4, note("snare", 4) * 2)),
    "long songs": score(part(attributes(1, "2/4"), *[note("snare", 1) * 2] * 99)),
    "no rhythm": score(part(attributes(17, "2/4") + note("snare", 1) + note("snare", 16) + note("snare", 17))),
    "words and dynamics": score(
        part(
            HEAD
            + _direction(f"<words>{'Long words ' * 20}</words>")
            + _direction("<dynamics><sfz/></dynamics>")
            + _direction("<wedge type='crescendo'/>")
            + note("snare", 1)
            + "<direction><direction-type><words>off</words></direction-type><offset>0</offset></direction>"
            + note("snare", 3)
            + note("snare", 4)
        )
    ),
    "words at no moment": score(
        part(attributes(7, "2/4") + note("snare", 1) + _direction("<words>off</words>") + note("snare", 6) + rest(7))
    ),
    "swing beside triplets": score(
        part(attributes(6, "2/4") + f"<direction>{SWING}</direction>" + note("snare", 2) * 3 + note("snare", 3) * 2)
    ),
    "no such bars": score(part(HEAD + note("snare", 4) * 2)),
}
MIDI = {
    "tempos": midi(
        evenly(1, 6), meta=[(0, MetaMessage("set_tempo", tempo=400_000)), (3, MetaMessage("set_tempo", tempo=500_000))]
    ),
    "signatures": midi(evenly(1, 11), meta=[(8, MetaMessage("time_signature", numerator=3, denominator=4))]),
    "a signature of no pattern": midi(
        evenly(1, 4), meta=[(0, MetaMessage("time_signature", numerator=3, denominator=64))]
    ),
    "other channels, other keys, twice the same": _two_tracks(),
    "no channel of drums": midi(evenly(1, 4), channel=2),
    "songs of their own": _two_songs(),
    "years later": midi([(0, SNARE, 80), (40_000, SNARE, 80)]),
    "late": midi([(9, SNARE, 80), (10, SNARE, 80)]),
}


def _all_said(data: bytes, asked: Asked) -> bool:
    with bracketed():
        try:
            found = read_file(data, "", asked)
        except Unreadable as error:
            told = (error.what, error.remedy)
        else:
            told = found.remarks
    return [unsaid(each) for each in told] == [""] * len(told)


@pytest.mark.parametrize("data", [each for each, _ in (*HOSTILE.values(), *BROKEN.values())], ids=[*HOSTILE, *BROKEN])
def test_every_file_that_cannot_be_read(data):
    assert _all_said(data, Asked(Limb.RIGHT_HAND))


@pytest.mark.parametrize("data", [*SCORES.values(), *MIDI.values()], ids=[*SCORES, *(f"MIDI: {name}" for name in MIDI)])
@pytest.mark.parametrize("asked", [Asked(), Asked(Limb.RIGHT_HAND, (1, 1)), Asked(bars=(200, 201))])
def test_every_remark(data, asked):
    assert _all_said(data, asked)


def test_the_title_of_a_file_that_has_none():
    with bracketed():
        found = read_file(score(part(HEAD + note("snare", 4) * 2), title=""), "", Asked())
    assert unsaid(dict(found.lines)["title"]) == ""
