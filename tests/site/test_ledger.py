import os
from collections.abc import Callable
from pathlib import Path

import pytest

from wristwork.store.ledger import Ledger


class Site:
    """A last site and a folder for the next one."""

    def __init__(self, root: Path) -> None:
        self.file, self.last = root / "ledger.json", root / "site"
        self.last.mkdir()
        self.made: list[str] = []
        self.built = 0

    def build(self, root: Path, swapped: Callable[[Path], None] = lambda folder: None, **files: str) -> Path:
        """Place files (name=key) and make the folder the last site; ``swapped`` may do something to it before."""
        folder = root / f"new-{self.built}"
        self.built += 1
        folder.mkdir()
        ledger = Ledger(self.file, self.last)
        for name, key in files.items():
            ledger.place(folder, name, key, lambda key=key: self._make(key))
        swapped(folder)
        for old in self.last.iterdir():
            old.unlink()
        self.last.rmdir()
        folder.rename(self.last)
        ledger.save()
        return self.last

    def _make(self, key: str) -> bytes:
        self.made.append(key)
        return f"made from {key}".encode()


@pytest.fixture
def site(tmp_path: Path) -> Site:
    site = Site(tmp_path)
    site.build(tmp_path, a="one", b="two")
    site.made.clear()
    return site


def test_an_unchanged_file_is_linked_and_not_made(site: Site, tmp_path: Path) -> None:
    before = (site.last / "a").stat()
    site.build(tmp_path, a="one", b="three")
    assert site.made == ["three"]
    assert ((site.last / "a").stat().st_ino, (site.last / "b").read_text()) == (before.st_ino, "made from three")


def test_a_file_that_became_an_older_one_is_linked_the_next_time(site: Site, tmp_path: Path) -> None:
    """The swap keeps the file that was there where only the key is new."""

    def swap_back(folder: Path) -> None:
        os.utime(folder / "a", ns=(1, 1))

    site.build(tmp_path, swap_back, a="other")
    site.made.clear()
    site.build(tmp_path, a="other")
    assert site.made == []


def test_a_file_that_someone_changed_is_made_again(site: Site, tmp_path: Path) -> None:
    (site.last / "a").write_text("tampered")
    site.build(tmp_path, a="one")
    assert site.made == ["one"]
    assert (site.last / "a").read_text() == "made from one"


def test_a_file_that_is_gone_is_made_again(site: Site, tmp_path: Path) -> None:
    (site.last / "a").unlink()
    site.build(tmp_path, a="one")
    assert site.made == ["one"]


@pytest.mark.parametrize(
    "damage",
    [
        "",
        "[]",
        "{}",
        '{"site": 1}',
        '{"site": "SITE", "files": 3}',
        '{"site": "SITE", "files": {"a": ["one", 1, 1]}}',
        "\x00",
    ],
)
def test_a_damaged_ledger_knows_nothing(site: Site, tmp_path: Path, damage: str) -> None:
    site.file.write_text(damage.replace("SITE", str(site.last)))
    site.build(tmp_path, a="one")
    assert site.made == ["one"]


def test_the_ledger_of_another_site_knows_nothing(site: Site, tmp_path: Path) -> None:
    other = tmp_path / "other"
    other.mkdir()
    Ledger(site.file, other).place(other, "a", "one", lambda: site._make("one"))
    assert site.made == ["one"]


def test_without_hard_links_a_file_is_made(site: Site, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise OSError

    monkeypatch.setattr(os, "link", refuse)
    site.build(tmp_path, a="one")
    assert site.made == ["one"]


def test_a_kept_file_is_copied(tmp_path: Path) -> None:
    kept = tmp_path / "kept"
    kept.write_text("kept")
    (tmp_path / "site").mkdir()
    Ledger(tmp_path / "ledger.json", tmp_path / "none").place(tmp_path / "site", "a", "key", lambda: kept)
    assert (tmp_path / "site" / "a").read_text() == "kept"
    assert (tmp_path / "site" / "a").stat().st_ino != kept.stat().st_ino
