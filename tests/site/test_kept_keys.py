from pathlib import Path

import pytest

from wristwork.store.kept_keys import KeptKeys


def never() -> str:
    pytest.fail("worked out again")


def test_a_key_is_worked_out_once(tmp_path: Path) -> None:
    first = KeptKeys(tmp_path / "keys.json")
    assert first.key("one", lambda: "a") == "a"
    assert first.key("one", never) == "a"
    first.save()
    later = KeptKeys(tmp_path / "keys.json")
    assert later.key("one", never) == "a"
    assert later.key("two", lambda: "b") == "b"


def test_what_nobody_asked_for_is_forgotten(tmp_path: Path) -> None:
    first = KeptKeys(tmp_path / "keys.json")
    first.key("one", lambda: "a")
    first.key("two", lambda: "b")
    first.save()
    second = KeptKeys(tmp_path / "keys.json")
    second.key("two", never)
    second.save()
    assert (tmp_path / "keys.json").read_text() == '{"two":"b"}'


@pytest.mark.parametrize("damaged", ["", "{", "[]", '{"one": null}'])
def test_a_damaged_file_only_costs_the_work(tmp_path: Path, damaged: str) -> None:
    (tmp_path / "keys.json").write_text(damaged)
    assert KeptKeys(tmp_path / "keys.json").key("one", lambda: "a") == "a"
