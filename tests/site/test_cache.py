from pathlib import Path

import pytest

from wristwork.store import cache as module
from wristwork.store.cache import Cache, digest


def test_a_thing_is_made_once(tmp_path: Path) -> None:
    made: list[int] = []

    def make() -> str:
        made.append(1)
        return "drawn"

    for _ in range(2):
        assert Cache(tmp_path).text(".html", digest("a"), make) == "drawn"
    assert made == [1]


def test_other_parts_make_another_name() -> None:
    assert len({digest("a", "b"), digest("ab"), digest("a", "b", ""), digest("b", "a")}) == 4


def test_other_code_makes_another_name(monkeypatch: pytest.MonkeyPatch) -> None:
    before = digest("a")
    monkeypatch.setattr(module, "_code_digest", lambda: "other code")
    assert digest("a") != before


def test_what_nothing_asked_for_is_forgotten(tmp_path: Path) -> None:
    first = Cache(tmp_path)
    kept, dropped = (first.file(".bin", digest(name), lambda: b"x") for name in ("kept", "dropped"))
    (kept.parent / f"{kept.name}.123.part").write_bytes(b"half")
    second = Cache(tmp_path)
    second.keep(".bin", digest("kept"))
    second.forget_unused()
    assert kept.exists()
    assert not dropped.exists()
    assert not (kept.parent / f"{kept.name}.123.part").exists()
