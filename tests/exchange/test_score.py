"""Pattern → MusicXML: valid by the W3C's schema, and what is drawn is what is written."""

from xml.etree import ElementTree

import pytest
from hypothesis import given, settings

from tests.exchange.known import known_patterns
from tests.exchange.schema import mistakes
from tests.strategies import pattern_texts
from wristwork.exchange.score import score_bytes
from wristwork.pattern import read_one


def score(text):
    """The root of a pattern's score."""
    return ElementTree.fromstring(score_bytes(read_one(f"title: One\n{text}")))


def told(root, path):
    return [found.text for found in root.iterfind(f".//{path}")]


def notes(root):
    return root.findall(".//note")


def test_all_patterns_that_people_have_are_valid_scores():
    known = known_patterns()
    assert len(known) > 150
    wrong = {name: found for name, pattern in known.items() if (found := mistakes(score_bytes(pattern)))}
    assert wrong == {}


@settings(max_examples=60)
@given(pattern_texts(title="Any <&> \"'"))
def test_any_pattern_is_a_valid_score(text):
    assert mistakes(score_bytes(read_one(text))) == []


def test_the_schema_finds_what_is_wrong():
    made = score_bytes(read_one("title: One\nhands: RLRL"))
    assert mistakes(made.replace(b"<duration>1</duration>", b"", 1))
    assert mistakes(made.replace(b">percussion<", b">drums<"))


def test_the_same_pattern_makes_the_same_bytes():
    pattern = read_one("title: One\nhands: R>LRR L>RLL\nfeet: R L")
    assert score_bytes(pattern) == score_bytes(pattern)


def test_a_drum_has_its_place_its_head_and_its_key():
    root = score("hands: RR RR\nplace: right on hi-hat")
    first = notes(root)[0]
    assert [first.findtext(name) for name in ("unpitched/display-step", "unpitched/display-octave", "notehead")] == [
        "E", "4", "x",
    ]  # fmt: skip
    assert first.find("instrument").get("id") == root.find(".//score-instrument").get("id")
    assert told(root, "instrument-name") == ["hi-hat"]
    assert (told(root, "midi-unpitched"), told(root, "midi-channel")) == (["43"], ["10"])
    assert told(root, "staff-lines") == ["1"]


def test_hands_and_feet_have_a_voice_each_from_the_start_of_the_bar():
    root = score("hands: RL RL RL RL\nfeet: R . L .\nplace: right on hi-hat, left on snare")
    assert [note.findtext("voice") for note in notes(root)] == ["1"] * 8 + ["2"] * 4
    assert [root.findtext(".//backup/duration"), root.findtext(".//divisions")] == ["8", "2"]
    places = {note.findtext("unpitched/display-step") + note.findtext("unpitched/display-octave")
              for note in notes(root) if note.find("rest") is None}  # fmt: skip
    assert places == {"G5", "C5", "F4", "D4"}
    stems = {(note.findtext("voice"), note.findtext("stem")) for note in notes(root) if note.find("rest") is None}
    assert stems == {("1", "up"), ("2", "down")}


def test_levels_are_accents_and_parentheses():
    accent, strong, ghost, tap = notes(score("hands: R>L^(R)L"))
    assert accent.find(".//accent") is not None
    assert strong.find(".//strong-accent").get("type") == "up"
    assert ghost.find("notehead").get("parentheses") == "yes"
    assert [tap.find(".//articulations"), tap.find("notehead").get("parentheses")] == [None, None]
    assert [int(note.get("dynamics")) for note in (accent, tap, ghost)] == [124, 80, 40]


def test_letters_say_who_strikes():
    root = score("hands: R/3 L llR B\nplace: right on hi-hat, left on snare")
    assert told(root, "lyric/text") == ["RRR", "L", "L", "L", "R", "L", "R"]
    assert told(score("hands: BR&L>"), "lyric/text") == ["R+L", "R+L>"]


def test_feet_have_letters_where_another_foot_plays_or_where_all_is_one_line():
    assert told(score("hands: RL RL\nfeet: RL .\nplace: left foot on kick"), "lyric/text") == ["R", "L", "R", "L", "LF"]
    assert told(score("hands: R. L.\nfeet: .R .L"), "lyric/text") == ["R", "K", "L", "H"]


def test_doubles_have_slashes_a_buzz_has_none_that_are_measured():
    double, triple, buzz = (note.find(".//tremolo") for note in notes(score("time: 3/4\nhands: R/ L/3 Rz")))
    assert [double.text, double.get("type")] == ["1", "single"]
    assert [triple.text, score("hands: R/3").findtext(".//other-ornament")] == ["1", "3"]
    assert [buzz.text, buzz.get("type")] == ["0", "unmeasured"]


def test_a_roll_is_one_note_that_tells_all_its_strokes_and_sounds_apart_from_its_release():
    root = score("hands: R/L/R/L/ R>---")
    assert told(root, "lyric/text") == ["RRLLRRLL", "R"]
    assert told(root, "other-ornament") == ["9"]
    assert [tie.get("type") for tie in root.iterfind(".//tied")] == ["start", "stop"]
    assert root.findall(".//tie") == []


def test_one_grace_note_has_a_slash_and_several_have_beams():
    flam, drag = score("hands: lR.."), score("hands: llR..")
    assert [note.find("grace").get("slash") for note in notes(flam)[:1]] == ["yes"]
    assert [note.find("grace").get("slash") for note in notes(drag)[:2]] == ["no", "no"]
    assert told(drag, "beam[@number='2']")[:2] == ["begin", "end"]


def test_a_tuplet_says_how_many_are_in_the_time_of_how_many():
    root = score("hands: RLR L-R RL RL\nplace: right on snare")
    assert told(root, "actual-notes") == ["3"] * 5
    assert told(root, "normal-notes") == ["2"] * 5
    brackets = [(each.get("type"), each.get("bracket")) for each in root.iterfind(".//tuplet")]
    assert brackets == [("start", "no"), ("stop", "no"), ("start", "yes"), ("stop", "yes")]


def test_a_note_over_a_bar_line_is_tied():
    root = score("time: 2/4\nhands: R L- | -R L")
    assert [tie.get("type") for tie in root.iterfind(".//tie")] == ["start", "stop"]


def test_repeats_endings_and_a_pick_up():
    text = "time: 4/4\npick-up: 1 beat\nhands: R | RLRL RL R L | R L R L | R L R"
    root = score(f"{text}\nrepeats: bars 1 to 2\nendings: bar 2 then bar 3")
    assert [bar.get("number") for bar in root.iterfind(".//measure")] == ["0", "1", "2", "3"]
    assert root.find(".//measure").get("implicit") == "yes"
    assert [(each.get("number"), each.get("type")) for each in root.iterfind(".//ending")] == [
        ("1", "start"), ("1", "stop"), ("2", "start"), ("2", "discontinue"),
    ]  # fmt: skip
    assert [each.get("direction") for each in root.iterfind(".//repeat")] == ["forward", "backward"]


def test_bars_as_before_are_written_out_under_their_sign():
    root = score("hands: RLRL RL R L | % | R L R L")
    assert [len(bar.findall("note")) for bar in root.iterfind(".//measure")] == [8, 8, 4]
    assert [(each.get("type"), each.text) for each in root.iterfind(".//measure-repeat")] == [
        ("start", "1"),
        ("stop", "1"),
    ]


def test_tempo_swing_sections_words_and_dynamics_stand_over_and_under_the_notes():
    root = score(
        "time: 4/4\ntempo: 90 to 120\nfeel: swing 3:2\nsections: A at bar 1\ntext: <brushes> at beat 2\n"
        "dynamics: p at bar 1 growing, f at 3&\nhands: RL RL R L"
    )
    assert [root.findtext(".//beat-unit"), root.findtext(".//per-minute")] == ["quarter", "90"]
    assert root.find(".//sound[@tempo]").get("tempo") == "90"
    assert [root.findtext(f".//swing/{each}") for each in ("first", "second", "swing-type")] == ["3", "2", "eighth"]
    assert told(root, "rehearsal") == ["A"]
    assert "<brushes>" in told(root, "words")
    assert [each.get("type") for each in root.iterfind(".//wedge")] == ["crescendo", "stop"]
    later = [each for each in root.iterfind(".//direction") if each.find("offset") is not None]
    assert [each.findtext("offset") for each in later] == ["1", "1"], "half a beat after the third quarter"


@pytest.mark.parametrize(("time", "unit", "tempo"), [("6/8", "quarter", "90"), ("2/2", "half", "120")])
def test_the_tempo_counts_beats_and_sounds_in_quarters(time, unit, tempo):
    root = score(f"time: {time}\ntempo: 60\nhands: RL RL")
    assert [root.findtext(".//beat-unit"), root.find(".//sound").get("tempo")] == [unit, tempo]
