"""The handbook's page on demand says what the code does."""

from __future__ import annotations

import re
from dataclasses import fields
from pathlib import Path

import pytest

from wristwork.pattern import read_one
from wristwork.technique.demand import PARTS, WEIGHTS, Weights, demand

PAGE = (Path(__file__).parents[2] / "docs" / "handbook" / "demand.md").read_text(encoding="utf-8")
EXAMPLE = read_one("title: Accented paradiddle\nhands: R>LRR L>RLL")


def rows(heading):
    """The rows of the tables below a heading, by their first cell."""
    section = PAGE.split(f"## {heading}\n", 1)[1].split("\n## ", 1)[0]
    cells = [[cell.strip() for cell in line.strip("|").split("|")] for line in section.splitlines() if line[:1] == "|"]
    return {row[0]: row[1:] for row in cells if not set(row[0]) <= {"-"}}


def test_the_table_of_numbers_is_that_of_the_code():
    table = {name.strip("`"): float(row[0]) for name, row in rows("The numbers, and why").items() if name != "name"}
    assert table == {field.name: getattr(WEIGHTS, field.name) for field in fields(Weights)}


def test_every_number_has_a_reason_and_a_place_in_the_formula():
    table = rows("The numbers, and why")
    formula = PAGE.split("## From figures to a score", 1)[1].split("## The numbers", 1)[0]
    for field in fields(Weights):
        assert table[f"`{field.name}`"][1]
        assert f"`{field.name}`" in formula


def test_the_parts_are_those_of_the_code():
    assert [name for name in rows("From figures to a score") if name != "part"] == [name for name, _ in PARTS]


def test_the_worked_example_is_worked_out_right():
    found = demand(EXAMPLE, 120)
    table = rows("A worked example")
    hand = found.right_hand
    assert float(table["strokes a second"][1]) == hand.strokes_per_second
    assert float(table["fastest two"][1]) == hand.fastest_strokes_per_second
    assert float(table["motions a second"][1]) == hand.motions_per_second
    assert float(table["shortest lift"][1]) == hand.shortest_lift_s
    assert float(table["shortest stop"][1]) == hand.shortest_stop_s
    assert float(table["height changes a second"][1]) == hand.height_changes_per_second
    for name, load in found.parts:
        assert float(table[name][1]) == pytest.approx(load, abs=0.0005)
    assert f"Together {sum(load for _, load in found.parts):.3f}" in PAGE
    assert f"= {found.score}: grade {found.grade}" in PAGE


def test_the_bursts_of_the_example_are_worked_out_right():
    table = rows("A worked example")
    for name, gaps, seconds in (("three", 2, 0.375), ("five", 4, 1), ("eight", 7, 1.625)):
        worked = re.match(rf"{gaps} gaps in {seconds:g} s", table[f"fastest {name}"][0])
        assert worked
        assert float(table[f"fastest {name}"][1]) == pytest.approx(gaps / seconds, abs=0.0005)
    names = ("strokes a second", "fastest two", "fastest three", "fastest five", "fastest eight", "motions a second")
    weights = (0.3, 0.2, 0.15, 0.1, 0.1, 0.15)
    speed = sum(weight * float(table[name][1]) for weight, name in zip(weights, names, strict=True))
    assert f"= {speed:.3f} strokes a second" in PAGE
    # both hands are alike, so the part is the hand's own speed squared over the yardstick's
    part = dict(demand(EXAMPLE, 120).parts)["speed of the hands"]
    assert (speed / WEIGHTS.hand_yardstick) ** 2 == pytest.approx(part, abs=0.0005)


def test_the_other_tempo_of_the_example():
    slow = demand(EXAMPLE, 60)
    assert f"At 60 the same exercise has a score of {slow.score} and grade {slow.grade}" in PAGE
