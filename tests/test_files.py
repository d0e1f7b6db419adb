from pathlib import Path

import pytest

from wristwork.files import write_whole


def test_a_failure_half_way_leaves_what_was_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "there").write_bytes(b"before")

    def fail(*_: object) -> None:
        raise OSError("disk full")

    monkeypatch.setattr(Path, "replace", fail)
    for name in ("there", "new"):
        with pytest.raises(OSError, match="disk full"):
            write_whole(tmp_path / name, b"after")
    assert list(tmp_path.iterdir()) == [tmp_path / "there"]
    assert (tmp_path / "there").read_bytes() == b"before"


def test_a_folder_that_is_not_there_is_made(tmp_path: Path) -> None:
    write_whole(tmp_path / "a" / "b" / "file", b"content")
    assert (tmp_path / "a" / "b" / "file").read_bytes() == b"content"
    assert [path.name for path in (tmp_path / "a" / "b").iterdir()] == ["file"]
