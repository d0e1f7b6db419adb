"""The exercise as data: held against its schema, and against the example of the design."""

import json
from fractions import Fraction

import pytest
from hypothesis import given, settings
from jsonschema import Draft202012Validator

from tests.strategies import pattern_texts
from wristwork.course.exercise import Lesson, exercise_data, json_bytes
from wristwork.course.schema import exercise_schema
from wristwork.pattern import read_one

VALIDATOR = Draft202012Validator(exercise_schema())


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
        "schema": 1, "id": "accented-paradiddle", "title": "Accented paradiddle", "lesson": "week-03/#an-id", "week": 3,
        "grade": 2, "from": None, "requires": [], "time": [4, 4], "tempo": {"start": 60, "goal": 100, "step": 4},
        "beats": 4, "loop": True, "repeat": 1,
    }  # fmt: skip
    assert data["strokes"][:2] == [
        {"at": [0, 1], "limb": "right hand", "level": "accent", "kind": "main", "stroke": "down", "starts": "high",
         "ends": "low", "on": "pad"},
        {"at": [1, 4], "limb": "left hand", "level": "tap", "kind": "main", "stroke": "up", "starts": "low",
         "ends": "high", "on": "pad"},
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
