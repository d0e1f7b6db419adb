import json
from dataclasses import fields, replace
from pathlib import Path

import pytest
from hypothesis import given

from tests.strategies import pattern_texts
from wristwork.course.exercise import Lesson, exercise_data
from wristwork.drawing.words import tempo_range
from wristwork.pattern import read_one
from wristwork.pattern.model import Pattern
from wristwork.site.figure import drawn
from wristwork.site.figure.drawn import Drawings
from wristwork.site.reading.example_data import example_data
from wristwork.store.store import Store
from wristwork.technique.demand import demand


def test_an_example_is_played_as_an_exercise_is() -> None:
    """All that an example does without is what no player reads: who it is, where it is taught, heights."""
    text = (
        "title: Any\ntime: 2/4\npick-up: 1\ntempos: 90 at bar 1\nfeel: swing\ndynamics: p at bar 1\nrepeats: bar 1\n"
        "hands: R | lR^z RL"
    )
    whole = exercise_data(read_one(f"id: any-one\n{text}"), Lesson(""))
    example = json.loads(example_data(read_one(f"example: yes\n{text}")))
    assert example.items() <= {**whole, "strokes": example["strokes"]}.items()
    left_out = {"schema", "since_1", "id", "title", "lesson", "week", "grade", "from", "requires", "dynamics", "demand"}
    assert whole.keys() - example.keys() == left_out
    for stroke, lean in zip(whole["strokes"], example["strokes"], strict=True):
        assert stroke == {**stroke, **lean}
        assert stroke.keys() - lean.keys() == {"starts", "ends"}


@given(pattern_texts())
def test_what_is_kept_is_what_was_worked_out(tmp_path_factory, text: str) -> None:
    folder = tmp_path_factory.getbasetemp() / "demand"
    pattern = read_one(text)
    worked_out = demand(pattern, pattern.tempo.goal)
    for _ in range(2):
        assert Drawings(Store(folder)).demand(pattern) == worked_out


def test_demand_is_worked_out_once(tmp_path: Path, monkeypatch) -> None:
    pattern = read_one("title: Any\nhands: R>LRR L>RLL")
    kept = Drawings(Store(tmp_path)).demand(pattern)
    monkeypatch.setattr(drawn, "demand", None)
    assert Drawings(Store(tmp_path)).demand(pattern) == kept


LANES = ("hands", "feet")
UNSEEN = ("changes",)  # what they made of the pattern stands in its lanes


@pytest.mark.parametrize("name", [field.name for field in fields(Pattern) if field.name not in (*LANES, *UNSEEN)])
def test_whatever_is_said_of_a_pattern_makes_another_key(tmp_path: Path, name: str) -> None:
    drawings = Drawings(Store(tmp_path))
    pattern = read_one("title: Any\nhands: R>LRR L>RLL")
    assert drawings.key_of(replace(pattern, **{name: "something else"})) != drawings.key_of(pattern)


@pytest.mark.parametrize("more", ["hands: R>LRR L>RLR", "hands: R>LRR L>RLL\nfeet: R L"])
def test_whatever_is_played_makes_another_key(tmp_path: Path, more: str) -> None:
    drawings = Drawings(Store(tmp_path))
    pattern = read_one("title: Any\nhands: R>LRR L>RLL")
    assert drawings.key_of(read_one(f"title: Any\n{more}")) != drawings.key_of(pattern)


@pytest.mark.parametrize(
    ("time", "hands", "says"),
    [
        ("4/4", "R R R R", "60 to 100 beats a minute"),
        ("7/8 as 2+2+3", "RL RL RLR", "60 to 100 eighth notes a minute"),
        ("6/8", "RLR LRL", "60 to 100 dotted quarter notes a minute"),
        ("2/2", "RL RL", "60 to 100 half notes a minute"),
    ],
)
def test_a_tempo_says_what_it_counts(time, hands, says):
    assert tempo_range(read_one(f"example: yes\ntempo: 60 to 100\ntime: {time}\nhands: {hands}")) == says
