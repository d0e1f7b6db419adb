from pathlib import Path

from hypothesis import given

from tests.strategies import pattern_texts
from wristwork.pattern import read_one
from wristwork.site.figure import kept_demand
from wristwork.site.figure.drawn import Drawings
from wristwork.site.figure.kept_demand import KeptDemand
from wristwork.store.cache import Cache
from wristwork.technique.demand import demand


@given(pattern_texts())
def test_what_is_kept_is_what_was_worked_out(tmp_path_factory, text: str) -> None:
    cache = Cache(tmp_path_factory.getbasetemp() / "demand")
    pattern = read_one(text)
    worked_out = demand(pattern, pattern.tempo.goal)
    for _ in range(2):
        assert KeptDemand(cache, Drawings(cache)).at_goal(pattern) == worked_out


def test_demand_is_worked_out_once(tmp_path: Path, monkeypatch) -> None:
    cache = Cache(tmp_path)
    pattern = read_one("title: Any\nhands: R>LRR L>RLL")
    kept = KeptDemand(cache, Drawings(cache)).at_goal(pattern)
    monkeypatch.setattr(kept_demand, "demand", None)
    assert KeptDemand(cache, Drawings(cache)).at_goal(pattern) == kept
