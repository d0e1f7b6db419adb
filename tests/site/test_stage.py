import os
from pathlib import Path

import pytest

from tests.site.courses import contents
from wristwork.site.mkdocs.stage import Stage


@pytest.fixture
def site(tmp_path: Path) -> Path:
    folder = tmp_path / "site"
    (folder / "week").mkdir(parents=True)
    (folder / "index.html").write_text("home")
    (folder / "week" / "index.html").write_text("week")
    return folder


def staged(site: Path, **files: str) -> Stage:
    stage = Stage(site)
    stage.open()
    for name, text in files.items():
        (stage.folder / name).write_text(text)
    return stage


def test_swap_puts_the_new_site_in_place_and_leaves_nothing_else(site: Path) -> None:
    staged(site, new="new").swap()
    assert contents(site).keys() == {"new"}
    assert [path.name for path in site.parent.iterdir()] == ["site"]


def test_swap_makes_a_first_site(tmp_path: Path) -> None:
    staged(tmp_path / "deep" / "site", new="new").swap()
    assert (tmp_path / "deep" / "site" / "new").read_text() == "new"


def test_an_unchanged_file_stays_the_file_it_was(site: Path) -> None:
    os.utime(site / "index.html", (1, 1))
    before = (site / "index.html").stat()
    staged(site, **{"index.html": "home", "other.html": "other"}).swap()
    after = (site / "index.html").stat()
    assert (after.st_ino, after.st_mtime) == (before.st_ino, before.st_mtime)


def test_a_changed_file_of_the_same_length_is_taken(site: Path) -> None:
    staged(site, **{"index.html": "HOME"}).swap()
    assert (site / "index.html").read_text() == "HOME"


def test_without_hard_links_an_unchanged_file_keeps_its_time(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise OSError

    monkeypatch.setattr(os, "link", refuse)
    os.utime(site / "index.html", (1, 1))
    staged(site, **{"index.html": "home"}).swap()
    assert (site / "index.html").stat().st_mtime == 1


def test_abandon_leaves_the_site_alone(site: Path) -> None:
    before = contents(site)
    stage = staged(site, new="new")
    stage.abandon()
    assert contents(site) == before
    assert not stage.folder.exists()


def test_open_clears_what_a_killed_build_left(site: Path) -> None:
    staged(site, half="half")
    assert list(staged(site).folder.iterdir()) == []


def test_open_brings_back_a_site_killed_between_the_two_renames(site: Path) -> None:
    before = contents(site)
    stage = staged(site, new="new")
    site.rename(site.with_name(".site.old"))
    stage = Stage(site)
    stage.open()
    assert contents(site) == before
    assert not site.with_name(".site.old").exists()


def test_hidden_entries_of_the_site_stay(site: Path) -> None:
    (site / ".git").mkdir()
    (site / ".git" / "HEAD").write_text("main")
    staged(site, new="new").swap()
    assert (site / ".git" / "HEAD").read_text() == "main"


def test_hidden_entries_come_over_even_after_a_kill_right_before_it(site: Path) -> None:
    old = site.with_name(".site.old")
    old.mkdir()
    (old / ".git").write_text("a work tree")
    (old / "stale.html").write_text("stale")
    Stage(site).open()
    assert (site / ".git").read_text() == "a work tree"
    assert not (site / "stale.html").exists()


def test_a_link_to_the_site_stays_a_link(site: Path) -> None:
    (site / "sitemap.xml").write_text("<urlset/>")
    link = site.with_name("link")
    link.symlink_to(site, target_is_directory=True)
    staged(link, new="new").swap()
    assert link.is_symlink()
    assert (site / "new").read_text() == "new"
