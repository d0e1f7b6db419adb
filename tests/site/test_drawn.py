import json
from dataclasses import fields, replace
from pathlib import Path

import pytest
from hypothesis import given
from markupsafe import Markup

from tests.strategies import pattern_texts
from wristwork.course.exercise import Lesson, exercise_data
from wristwork.drawing import diagram
from wristwork.drawing.card_diagram import card_diagram
from wristwork.drawing.whole_words import tempo_range
from wristwork.pattern import read_one
from wristwork.pattern.model import DiagramRow, Pattern
from wristwork.site.figure import drawn
from wristwork.site.figure.drawn import Drawings, draw, sticking
from wristwork.site.reading.example_data import example_data
from wristwork.store.making import digest
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


def test_a_key_is_made_of_the_lanes_of_all_that_is_said_and_of_the_rows(tmp_path: Path) -> None:
    """Worked out once more here, so that nothing of it can be left out unseen."""
    pattern = read_one("title: Any\nhands: R>LRR L>RLL\nfeet: R L")
    said = [getattr(pattern, each.name) for each in fields(Pattern) if each.name not in (*LANES, *UNSEEN, "show")]
    names = [repr(value) for value in said]
    rows = (DiagramRow.STICKING,)
    for show in (None, rows):
        expected = digest("R>LRR L>RLL", "R L", *names, repr(show))
        assert Drawings(Store(tmp_path), show).key_of(pattern) == expected
    own = replace(pattern, show=(DiagramRow.COUNT,))
    assert Drawings(Store(tmp_path), rows).key_of(own) == digest("R>LRR L>RLL", "R L", *names, repr(own.show))


def test_a_drawing_is_made_once_and_comes_back_whole(tmp_path: Path, monkeypatch) -> None:
    pattern = read_one("title: Any <one> & more\nhands: R>LRR L>RLL")
    drawings = Drawings(Store(tmp_path))
    key = drawings.key_of(pattern)
    made = drawings.on_page(pattern, key)
    assert made == draw(pattern)
    assert made.row.startswith("<div")
    assert "<li>" in made.words
    assert made.row != made.words
    monkeypatch.setattr(drawn, "draw", None)
    again = Drawings(Store(tmp_path)).on_page(pattern, key)
    assert again == made
    assert [type(again.row), type(again.words)] == [Markup, Markup]
    with pytest.raises(TypeError):
        Drawings(Store(tmp_path)).on_page(pattern, "another-key")


def test_the_courses_rows_hold_where_a_pattern_names_none(tmp_path: Path) -> None:
    pattern = read_one("title: Any\nhands: R>LRR L>RLL")
    rows = (DiagramRow.STICKING,)
    few, all_ = Drawings(Store(tmp_path), rows), Drawings(Store(tmp_path))
    assert few.picture(pattern) == diagram(pattern, rows).svg() != all_.picture(pattern)
    assert all_.picture(pattern) == diagram(pattern, None).svg()
    assert few.on_card(pattern) == card_diagram(pattern, rows) != all_.on_card(pattern)
    assert few.on_page(pattern, few.key_of(pattern)) == draw(pattern, rows) != draw(pattern)


def test_demand_is_that_at_the_goal_and_is_kept_apart_from_drawings(tmp_path: Path) -> None:
    pattern = read_one("title: Any\ntempo: 60 to 150\nhands: R>LRR L>RLL")
    drawings = Drawings(Store(tmp_path))
    drawings.on_page(pattern, drawings.key_of(pattern))
    kept = drawings.demand(pattern)
    assert kept == demand(pattern, 150) != demand(pattern, 60)
    again = Drawings(Store(tmp_path)).demand(pattern)
    assert [name for name, _ in again.parts] == [name for name, _ in kept.parts]


@pytest.mark.parametrize(
    ("hands", "feet", "says"),
    [("R>LRR L>RLL | RRLL RRLL", None, "R>LRR L>RLL RRLL RRLL"), (None, "R . L .", "R · L ·")],
)
def test_a_sticking_is_the_hands_or_else_the_feet_as_typed(hands: str | None, feet: str | None, says: str) -> None:
    lines = ["title: Any", "time: 2/4" if hands else "time: 4/4"]
    lines += [f"{name}: {lane}" for name, lane in (("hands", hands), ("feet", feet)) if lane]
    assert sticking(read_one("\n".join(lines))).replace("·", ".") == says.replace("·", ".")


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
