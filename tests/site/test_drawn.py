from pathlib import Path

from hypothesis import given

from tests.strategies import pattern_texts
from wristwork.pattern import read_one
from wristwork.site.figure import drawn
from wristwork.site.figure.drawn import Drawings
from wristwork.store.store import Store
from wristwork.technique.demand import demand


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
