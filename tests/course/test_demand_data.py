"""An exercise's demand as its data file holds it."""

from msgspec import to_builtins

from wristwork.course.demand_data import demand_data
from wristwork.pattern import read_one


def read(hands, tempo="60"):
    return read_one(f"title: A title\ntempo: {tempo}\nhands: {hands}")


def test_data_has_plain_keys_at_the_goal_and_at_the_start():
    data = to_builtins(demand_data(read("R>LRR L>RLL", "60 to 120")))
    hand = {
        "strokes_per_second",
        "fastest_strokes_per_second",
        "motions_per_second",
        "shortest_lift_s",
        "shortest_stop_s",
        "height_changes_per_second",
        "drum_changes_per_second",
    }
    figures = {"tempo", "right_hand", "left_hand", "limbs", "score", "grade"}
    assert set(data) == figures | {"at_start"}
    assert set(data["at_start"]) == figures
    assert set(data["right_hand"]) == set(data["at_start"]["left_hand"]) == hand
    assert (data["tempo"], data["at_start"]["tempo"]) == (120, 60)
    assert (data["right_hand"]["shortest_lift_s"], data["at_start"]["right_hand"]["shortest_lift_s"]) == (0.375, 0.75)
    assert data["at_start"]["right_hand"]["strokes_per_second"] == 2


def test_data_says_null_for_none():
    data = to_builtins(demand_data(read("R R R R")))
    assert data["right_hand"]["shortest_lift_s"] is None
    assert data["left_hand"]["fastest_strokes_per_second"] is None
    assert data["left_hand"]["strokes_per_second"] == 0
