"""The exercise as data: held against its schema, and against the example of the design."""

import json
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from jsonschema import Draft202012Validator

from tests.strategies import pattern_texts
from wristwork.course.exercise import Lesson, exercise_data, json_bytes
from wristwork.course.schema import exercise_schema
from wristwork.pattern import read_one

VALIDATOR = Draft202012Validator(exercise_schema())
# What version 1 promised, as far as a reader that passes over what it does not know relies on it.
VERSION_1 = Draft202012Validator(json.loads(Path(__file__).with_name("exercise_schema_1.json").read_text("utf-8")))


def data_of(text, lesson=None):
    return exercise_data(read_one(text), lesson or Lesson("week-03/#an-id", 3, 2))


def test_the_schema_is_one():
    Draft202012Validator.check_schema(exercise_schema())


@given(pattern_texts())
@settings(max_examples=60, deadline=None)
def test_any_exercise_holds_against_the_schema_and_keeps_its_order(text):
    data = json.loads(json_bytes(data_of(text)))
    VALIDATOR.validate(data)
    limbs = ["right hand", "left hand", "right foot", "left foot"]
    places = [
        (Fraction(*stroke["at"]), -1 if stroke["kind"] == "grace" else limbs.index(stroke["limb"]))
        for stroke in data["strokes"]
    ]
    assert places == sorted(places)
    assert all(stroke["stroke"] is None for stroke in data["strokes"] if "foot" in stroke["limb"])


def test_an_exercise_as_the_design_shows_it():
    data = data_of(
        "id: accented-paradiddle\ntitle: Accented paradiddle\ntempo: 60 to 100 by 4\nhands: R>LRR L>RLL R>LRR L>RLL"
    )
    assert {key: data[key] for key in data if key not in ("strokes", "demand")} == {
        "schema": 2, "since_1": [], "id": "accented-paradiddle", "title": "Accented paradiddle",
        "lesson": "week-03/#an-id", "week": 3,
        "grade": 2, "from": None, "requires": [], "time": [4, 4], "tempo": {"start": 60, "goal": 100, "step": 4},
        "beats": 4, "loop": True, "repeat": 1,
    }  # fmt: skip
    assert data["strokes"][:2] == [
        {"at": [0, 1], "limb": "right hand", "level": "accent", "kind": "main", "stroke": "down", "starts": "high",
         "ends": "low", "on": "pad"},
        {"at": [1, 4], "limb": "left hand", "level": "tap", "kind": "main", "stroke": "up", "starts": "low",
         "ends": "high", "on": "pad"},
    ]  # fmt: skip


@given(pattern_texts())
@settings(max_examples=40, deadline=None)
def test_a_reader_of_version_1_finds_all_that_it_knew(text):
    data = json.loads(json_bytes(data_of(text)))
    VERSION_1.validate({**data, "schema": 1})


def test_a_reader_of_version_1_is_told_what_it_does_not_know():
    plain = "title: Any\ntime: 4/4\nhands: R>LRR L>RLL RL RL"
    assert (data_of(plain)["schema"], data_of(plain)["since_1"]) == (2, [])
    assert data_of(f"{plain}\ntext: brushes at beat 2\nmotion: whip")["since_1"] == []
    assert data_of(f"{plain}\nfeel: swing")["since_1"] == ["swing"]
    assert data_of(f"{plain}\ndynamics: p at bar 1\nrepeats: bar 1\ntempos: 60 at bar 1")["since_1"] == [
        "gain", "paces", "passages",
    ]  # fmt: skip
    assert data_of("title: Any\ntime: 4/4\npick-up: 1 beat\nhands: R | R L R")["since_1"] == ["passages", "pickup"]
    assert data_of(f"{plain}\nplace: right on china, left on snare")["since_1"] == ["on"]
    assert data_of("title: Any\ntime: 7/8 as 2+2+3\nhands: RL RL RLR")["since_1"] == ["pulses"]


def test_words_sections_and_dynamics_are_in_the_data():
    chart = "sections: A at bar 1\ntext: soft at 2&\ndynamics: p at bar 1 growing, f at 3"
    data = data_of(f"title: Any\ntime: 4/4\nhands: RL RL RL RL\n{chart}")
    assert data["words"] == [
        {"at": [0, 1], "words": "A", "section": True}, {"at": [3, 2], "words": "soft", "section": False},
    ]  # fmt: skip
    assert data["dynamics"] == [
        {"at": [0, 1], "loudness": "p", "hairpin": "growing"}, {"at": [2, 1], "loudness": "f", "hairpin": None},
    ]  # fmt: skip


def test_a_grace_note_says_how_far_ahead_it_sounds():
    first = data_of("title: Flams\nhands: lR RL")["strokes"][0]
    assert (first["kind"], first["level"], first["at"]) == ("grace", "ghost", [0, 1])
    assert (first["ahead_ms"], first["ahead_at_most"]) == (30, [1, 4])


def test_buzzes_say_what_they_fill():
    assert data_of("title: Buzzes\nhands: Rz.Lz- LRLR")["buzzes"] == [[1, 4], [1, 2]]
    assert "buzzes" not in data_of("title: None\nhands: RL")


def test_the_whip_is_in_the_data_and_the_wrist_goes_without_saying():
    text = "title: One\nhands: R>LRR"
    assert data_of(f"{text}\nmotion: Whip")["motion"] == "whip"
    assert data_of(f"{text}\nmotion: wrist") == data_of(text)


def test_passes_are_in_the_data_only_without_a_loop():
    assert len(data_of("title: A title\nhands: RL\nrepeat: 3")["strokes"]) == 2
    data = data_of("title: A title\nhands: RL\nrepeat: 3\nloop: no")
    assert (len(data["strokes"]), data["beats"], data["repeat"]) == (6, 1, 3)


def test_json_is_the_same_from_build_to_build():
    data = data_of("title: Größe\nhands: RL")
    assert json_bytes(data) == json_bytes(dict(reversed(data.items())))
    assert "Größe" in json_bytes(data).decode()


def test_an_example_is_no_exercise():
    with pytest.raises(ValueError, match="an example is no exercise"):
        exercise_data(read_one("example: yes\nhands: RL"), Lesson("x/"))
