"""Scores → pattern lines: our own come back as they were, other writers' as far as a pattern can say them."""

import io
import zipfile
from contextlib import suppress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.exchange.foreign import attributes, back, note, part, rest, score
from tests.exchange.known import known_patterns
from tests.strategies import pattern_texts
from wristwork.exchange.incoming import Asked, Unreadable, read_file
from wristwork.exchange.incoming.xml_tree import DEEPEST, MOST_BYTES
from wristwork.exchange.score import score_bytes
from wristwork.pattern import read_one
from wristwork.technique.strokes import Kind, Limb, strokes

RIGHT = Asked(Limb.RIGHT_HAND)


def played(pattern):
    """Time, drum, level and hand of every stroke, grace notes by themselves."""
    found = [(s.at, s.limb.value, s.on.value, s.level.value, s.kind is Kind.GRACE) for s in strokes(pattern)]
    return sorted(found)


def read(data, asked=RIGHT):
    return read_file(data, "a file", asked)


def lines(data, asked=RIGHT):
    return dict(read(data, asked).lines)


def test_what_people_have_comes_back_with_the_same_strokes():
    for name, pattern in known_patterns().items():
        written = read(score_bytes(pattern))
        assert played(read_one(written.text)) == played(pattern), name
        assert written.remarks == (), name


@settings(max_examples=120)
@given(pattern_texts(title="Any <&> \"'"))
def test_any_pattern_comes_back_with_the_same_strokes(text):
    pattern = read_one(text)
    assert played(read_one(read(score_bytes(pattern)).text)) == played(pattern)


def test_what_stands_beside_the_strokes_comes_back_too():
    text = (
        "title: Chart\ntime: 4/4\ntempo: 90 to 120 by 5\nfeel: swing\nrepeats: bars 1 to 2 three times\n"
        "endings: bar 2 then bar 3\nsections: A at bar 1, B at bar 3\ntext: <brushes> at 2& of bar 1\n"
        "dynamics: p at bar 1 growing, f at bar 3\ntempos: 90 at bar 1, 100 at bar 3\nmotion: whip\n"
        "hands: RL RL R L | R L R L | B> . . ."
    )
    before, after = read_one(text), read_one(read(score_bytes(read_one(text))).text)
    for name in (
        "title",
        "time",
        "tempo",
        "swing",
        "repeats",
        "words",
        "dynamics",
        "tempos",
        "motion",
        "loop",
        "hands",
    ):
        assert getattr(after, name) == getattr(before, name), name


def test_a_groove_in_two_voices_and_chords_becomes_hands_feet_and_drums():
    snare = note("snare", 2, chord=True, inside="<notations><articulations><accent/></articulations></notations>")
    up = note("hat", 2) + note("hat", 2) + snare + note("hat", 2) + note("hat", 2)
    down = note("kick", 2, voice=2) + "<forward><duration>2</duration></forward>" + note("kick", 4, voice=2)
    found = lines(score(part(attributes(2) + up + back(8) + down), title="Groove"))
    assert found["title"] == "Groove"
    assert found["hands"] == "R R&L> R L"
    assert found["feet"] == "R . R -"
    assert found["drums"] == "hat, hat&snare, hat, hat"


def test_hands_are_left_open_where_nobody_says_them():
    data = score(part(attributes(1, "2/4") + note("snare", 1) + note("snare", 1)))
    written = read(data, Asked())
    assert dict(written.lines)["hands"] == "x x"
    assert any("write R or L in place of each x" in remark for remark in written.remarks)
    assert lines(data, Asked(Limb.LEFT_HAND))["hands"] == "L R"


def test_both_drums_at_one_moment_are_both_hands_even_where_hands_are_left_open():
    bar = note("hat", 1) + note("snare", 1, chord=True) + note("hat", 1)
    assert lines(score(part(attributes(1, "2/4") + bar)), Asked())["hands"] == "B x"


LYRIC = "<lyric><text>{}</text></lyric>"
FINGERING = "<notations><technical><fingering>{}</fingering></technical></notations>"


@pytest.mark.parametrize("said", [LYRIC, FINGERING])
def test_a_sticking_stands_under_a_note_or_as_a_fingering(said):
    bar = "".join(note("snare", 1, inside=said.format(letter)) for letter in ("L", "l", "RH", "B"))
    assert lines(score(part(attributes(1) + bar)))["hands"] == "L L R B"


def test_other_hands_take_turns_from_those_that_are_said():
    bar = note("snare", 1, inside="<lyric><text>L</text></lyric>") + note("snare", 1) * 3
    assert lines(score(part(attributes(1) + bar)))["hands"] == "L R L R"


def test_triplets_and_tuplets_over_several_beats_are_groups():
    bar = note("snare", 2) * 3 + note("snare", 4) * 3 + rest(6)
    assert lines(score(part(attributes(6) + bar)))["hands"] == "RLR LRL over 2 ."


def test_grace_notes_slashes_ties_and_ghosts():
    slash = "<type>quarter</type><notations><ornaments><tremolo type='single'>1</tremolo></ornaments></notations>"
    bar = (
        note("snare", 0, before="<grace/>") + note("snare", 4)
        + note("snare", 4, inside=slash)
        + note("snare", 4, inside="<tie type='start'/>") + note("snare", 2, inside="<tie type='stop'/>")
        + note("snare", 2, inside="<notehead parentheses='yes'>normal</notehead>")
    )  # fmt: skip
    assert lines(score(part(attributes(4) + bar)))["hands"] == "lR L/ R -(L)"


def test_a_roll_without_letters_is_doubles_that_change_hands():
    roll = "<type>quarter</type><notations><ornaments><tremolo type='single'>3</tremolo></ornaments></notations>"
    bar = note("snare", 2, inside=f"{roll}<lyric><text>R</text></lyric>") + note("snare", 2) + rest(4)
    assert lines(score(part(attributes(2) + bar)))["hands"] == "R/L/R/L/ R . ."


def test_instruments_go_before_places_and_keys_before_nothing():
    listed = (
        '<score-part id="P1"><part-name>Kit</part-name>'
        '<score-instrument id="a"><instrument-name>Pedal Hi-Hat</instrument-name></score-instrument>'
        '<score-instrument id="b"><instrument-name>x1</instrument-name></score-instrument>'
        '<score-instrument id="c"><instrument-name>Tambourine</instrument-name></score-instrument>'
        '<midi-instrument id="b"><midi-unpitched>50</midi-unpitched></midi-instrument></score-part>'
    )
    # Tambourine is none of our drums, but here it stands where a snare does.
    bar = note("snare", 1, instrument="a") + note("snare", 1, instrument="b") + note("snare", 1, instrument="c")
    found = read(score(part(attributes(1, "3/4") + bar), listed=listed))
    assert dict(found.lines)["feet"] == "L . ."
    assert dict(found.lines)["place"] == "right on crash, left on snare"


def test_a_sign_says_how_far_a_hi_hat_is_open():
    signs = ("<open/>", "<half-muted/>", "<stopped/>", "")
    bar = "".join(note("hat", 1, inside=f"<notations><technical>{sign}</technical></notations>") for sign in signs)
    assert lines(score(part(attributes(1) + bar)))["drums"] == "open, half, hat, hat"


def test_the_only_instrument_of_a_part_plays_what_stands_at_one_place_alone():
    listed = (
        '<score-part id="P1"><part-name>Kit</part-name>'
        '<score-instrument id="a"><instrument-name>Snare</instrument-name></score-instrument></score-part>'
    )
    one = part(attributes(1, "2/4") + note("kick", 1) * 2)
    assert "feet" not in lines(score(one, listed=listed))
    several = part(attributes(1, "2/4") + note("kick", 1) + note("snare", 1))
    assert lines(score(several, listed=listed))["feet"] == "R ."


def test_rounded_durations_of_tuplets_are_taken_for_what_is_written():
    changed = "<time-modification><actual-notes>7</actual-notes><normal-notes>4</normal-notes></time-modification>"
    septuplet = "".join(
        note("snare", each, inside=f"<type>16th</type>{changed}") for each in (69, 68, 69, 68, 69, 68, 69)
    )
    assert lines(score(part(attributes(480, "2/4") + septuplet + note("snare", 480))))["hands"] == "RLRLRLR L"


def test_a_rhythm_that_no_group_holds_is_put_on_a_grid_and_the_error_is_told():
    odd = note("snare", 1) + note("snare", 16) + note("snare", 17)
    found = read(score(part(attributes(17, "2/4") + odd)))
    assert dict(found.lines)["hands"] == "RL.......... R"
    told = "a rhythm that no group of slots holds (bar 1, beat 1): all is put on a grid, 0.025 beats off at most"
    assert told in found.remarks


def test_of_a_long_song_the_first_bars_are_read_and_the_rest_is_listed():
    data = score(part(attributes(1, "2/4"), *[note("snare", 1) * 2] * 99))
    assert any("all after the first 64 bars" in remark for remark in read(data).remarks)
    assert lines(data, Asked(Limb.RIGHT_HAND, (65, 66)))["hands"] == "R L | R L"


def test_what_is_no_drum_is_listed_and_nothing_is_dropped_in_silence():
    listed = (
        '<score-part id="P1"><part-name>Drums</part-name></score-part>'
        '<score-part id="P2"><part-name>Flute</part-name></score-part>'
    )
    odd = note("snare", 1, place="C9") + note("snare", 1)
    flute = "<note><pitch><step>A</step><octave>5</octave></pitch><duration>2</duration></note>"
    jump = '<direction><direction-type><words>D.C.</words></direction-type><sound dacapo="yes"/></direction>'
    data = score(part(attributes(1, "2/4") + odd + jump), part(flute, name="P2"), listed=listed)
    remarks = "\n".join(read(data).remarks)
    for said in ("the part 'Flute', which is not for drums", "a jump in the form (dacapo)", "whose place on the staff"):
        assert said in remarks


def test_three_drums_at_once_are_two_hands_and_one_that_is_listed():
    bar = note("crash", 1) + note("snare", 1, chord=True) + note("floor", 1, chord=True) + note("snare", 1)
    written = read(score(part(attributes(1, "2/4") + bar)))
    assert dict(written.lines)["hands"].startswith("B")
    assert any("beside what hands and feet play already" in remark for remark in written.remarks)


def test_repeats_and_endings_of_other_writers():
    bar = note("snare", 1) * 2
    forward = '<barline location="left"><repeat direction="forward"/></barline>'
    first = '<barline location="left"><ending number="1, 2" type="start"/></barline>'
    back_1 = '<barline location="right"><ending number="1, 2" type="stop"/><repeat direction="backward"/></barline>'
    second = '<barline location="left"><ending number="3" type="start"/></barline>'
    end = '<barline location="right"><ending number="3" type="discontinue"/></barline>'
    bars = (attributes(1, "2/4") + bar, forward + bar, first + bar + back_1, second + bar + end, bar)
    found = lines(score(part(*bars)))
    assert (found["repeats"], found["endings"]) == ("bars 2 to 3 3 times", "bar 3 then bar 4")


def test_a_pick_up_that_is_no_whole_beat_begins_with_a_rest():
    bars = f'<measure number="0" implicit="yes">{attributes(2, "2/4")}{note("snare", 1)}</measure>'
    whole = f'<part id="P1">{bars}<measure number="1">{note("snare", 2) * 2}</measure></part>'
    found = lines(score(whole))
    assert (found["pick-up"], found["hands"]) == ("1 beat", ".R | L R")


def test_bars_of_other_signatures_are_listed_and_can_be_asked_for():
    data = score(part(attributes(1, "2/4") + note("snare", 1) * 2, note("snare", 1) * 2,
                      attributes(1, "3/4") + note("snare", 1) * 3))  # fmt: skip
    written = read(data)
    assert dict(written.lines)["time"] == "2/4"
    assert any("bars 3 to 3 in 3/4 (read them with --bars 3-3)" in remark for remark in written.remarks)
    assert lines(data, Asked(Limb.RIGHT_HAND, (3, 3)))["hands"] == "R L R"


def test_tempo_swing_and_groups_of_a_bar():
    sound = '<direction><direction-type><words>Swing</words></direction-type><sound tempo="120"><swing>'
    sound += "<first>3</first><second>2</second><swing-type>16th</swing-type></swing></sound></direction>"
    found = lines(score(part(attributes(1, "2/4") + sound + note("snare", 1) * 2)))
    assert (found["tempo"], found["feel"]) == ("120", "swing sixteenths 3:2")
    felt = attributes(2, "7/8").replace(">7<", ">2+2+3<")
    assert lines(score(part(felt + note("snare", 1) * 7)))["time"] == "7/8 as 2+2+3"


def zipped(files, folder="META-INF/container.xml", of="score.xml"):
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        if folder:
            archive.writestr(folder, f'<container><rootfiles><rootfile full-path="{of}"/></rootfiles></container>')
        for name, data in files.items():
            archive.writestr(name, data)
    return packed.getvalue()


SIMPLE = score(part(attributes(1, "2/4") + note("snare", 1) * 2))


def test_a_compressed_score_is_unpacked():
    assert lines(zipped({"other.xml": b"<no/>", "score.xml": SIMPLE}))["hands"] == "R L"
    assert lines(zipped({"a.musicxml": SIMPLE}, folder=None))["hands"] == "R L"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "iso-8859-1"])
def test_a_score_in_any_encoding_that_it_declares(encoding):
    named = score(part(attributes(1, "2/4") + note("snare", 1) * 2), title="Für Ärmel").decode()
    declared = named.replace("UTF-8", encoding.removesuffix("-sig").upper())
    assert lines(declared.encode(encoding))["title"] == "Für Ärmel"


BOMB = (
    b'<?xml version="1.0"?><!DOCTYPE s [<!ENTITY a "aaaaaaaaaa">'
    + b"".join(b'<!ENTITY %c "%s">' % (98 + n, b"&%c;" % (97 + n) * 10) for n in range(9))
    + b"]><s>&j;</s>"
)
HOSTILE = {
    "a bomb of entities": (BOMB, "XML that declares entities"),
    "an entity that names a file": (
        b'<!DOCTYPE s [<!ENTITY x SYSTEM "file:///etc/passwd">]><s>&x;</s>', "XML that declares entities"),
    "a parameter entity": (
        b'<!DOCTYPE s [<!ENTITY % x SYSTEM "http://example.com/x"> %x;]><s/>', "XML that declares entities"),
    "an entity that nobody declared": (b"<score-partwise>&nothing;</score-partwise>", "broken XML in line 1"),
    "elements inside elements": (b"<a>" * (DEEPEST + 1), f"elements more than {DEEPEST} deep"),
    "more than a score holds": (b"<a>" + b" " * MOST_BYTES, "MB of score"),
    "a small file that unpacks to a large one": (zipped({"score.xml": b"<a>" + b" " * MOST_BYTES}), "MB of score"),
    "a broken zip": (b"PK\x03\x04 and no more", "a compressed file that can't be unpacked"),
    "a zip with no score": (zipped({"readme.txt": b"hello"}, folder=None), "a compressed file with no score in it"),
    "half a score": (SIMPLE[: len(SIMPLE) // 2], "broken XML in line"),
    "an unknown encoding": (b'<?xml version="1.0" encoding="klingon"?><a/>', "XML in an encoding"),
    "bytes that are no utf-8": (b"<a>\xff\xfe\xfd</a>", "broken XML in line 1"),
    "a picture": (b"\x89PNG\r\n\x1a\n" + bytes(range(256)), "neither MusicXML nor MIDI"),
    "nothing": (b"", "neither MusicXML nor MIDI"),
    "a web page": (b"<!DOCTYPE html><html><body/></html>", "XML that is no score (it begins with html)"),
    "bars before parts": (b"<score-timewise/>", "ordered by bars"),
    "no parts": (b"<score-partwise/>", "a score with no part for drums"),
    "a bar of nothing": (b"<score-partwise><part id='a'/></score-partwise>", "a score with no part for drums"),
    "no notes": (score(part(attributes() + note("snare", 1, place="C9"))), "no strokes on drums that are known here"),
}  # fmt: skip


@pytest.mark.parametrize(("data", "said"), HOSTILE.values(), ids=HOSTILE)
def test_a_hostile_or_broken_file_gets_one_line(data, said):
    with pytest.raises(Unreadable) as error:
        read(data)
    assert said in str(error.value)
    assert "\n" not in str(error.value)


@settings(max_examples=150)
@given(st.binary(max_size=60), st.integers(0, len(SIMPLE)), st.integers(0, 40))
def test_a_score_with_junk_in_it_is_read_or_refused_and_nothing_else(junk, at, gone):
    with suppress(Unreadable):
        read(SIMPLE[:at] + junk + SIMPLE[at + gone :])


def test_slashes_without_end_are_no_work_without_end():
    slash = "<type>quarter</type><notations><ornaments><tremolo>999999999999</tremolo></ornaments></notations>"
    assert lines(score(part(attributes(1, "2/4") + note("snare", 1, inside=slash) * 2)))["hands"] == "Rz Lz"


WORDS = st.sampled_from(
    ["0", "1e999999999", "-1", "1", "2", "999999999999", "1/0", "nan", "1e309", "", "x", "quarter", "B", "²", "٣"]
)


@settings(max_examples=150)
@given(WORDS, st.sampled_from(
    ["divisions", "beats", "beat-type", "duration", "display-step", "display-octave", "voice"]))  # fmt: skip
def test_any_value_of_an_element_is_read_or_refused_and_nothing_else(word, tag):
    text = SIMPLE.decode()
    first, opening, rest_ = text.partition(f"<{tag}>")
    _, closing, after = rest_.partition(f"</{tag}>")
    with suppress(Unreadable):
        read(f"{first}{opening}{word}{closing}{after}".encode())
