from __future__ import annotations

import errno
import json
import os
import stat
from pathlib import Path

import pytest

from wristwork.files import LinkRefused
from wristwork.store.making import digest
from wristwork.store.publication import Publication
from wristwork.store.store import Store

A, B = f"{digest('a')}.svg", f"{digest('b')}.mp3"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / ".wristwork" / "kept"


def never() -> bytes:
    pytest.fail("made again")


def kept(folder: Path, name: str = A, content: bytes = b"drawn") -> Path:
    """A store with one entry: where that is."""
    Store(folder).put(name, content)
    return only_file(folder)


def only_file(folder: Path) -> Path:
    (file,) = (path for path in folder.rglob("*") if path.is_file())
    return file


def test_a_thing_is_made_once(folder: Path) -> None:
    assert Store(folder).content(A, lambda: b"drawn") == b"drawn"
    assert Store(folder).content(A, never) == b"drawn"
    assert Store(folder).has(A)
    assert not Store(folder).has(B)


def test_texts_and_values_are_kept(folder: Path) -> None:
    store = Store(folder)
    assert store.text(A, lambda: "grüßt") == "grüßt"
    assert store.value(digest("v"), lambda: {"a": (1, 2)}, dict) == {"a": [1, 2]}
    later = Store(folder)
    assert later.text(A, lambda: pytest.fail("made again")) == "grüßt"
    assert later.value(digest("v"), lambda: pytest.fail("made again"), dict) == {"a": [1, 2]}


@pytest.mark.parametrize("damaged", [b"", b"dra", b"drawm", b"drawn and more", b"\0\0\0\0\0"])
@pytest.mark.parametrize("ending", ["html", "svg", "mid", "png", "mp3", "flac", "json"])
def test_what_is_damaged_is_made_anew_and_published_whole(folder: Path, damaged: bytes, ending: str) -> None:
    name = f"{digest('a')}.{ending}"
    kept(folder, name).write_bytes(damaged)
    assert not Store(folder).has(name)
    assert Store(folder).content(name, lambda: b"drawn") == b"drawn"
    kept(folder, name).write_bytes(damaged)
    Store(folder).place(name, folder.parent / "published", lambda: b"drawn")
    assert (folder.parent / "published").read_bytes() == b"drawn"
    assert only_file(folder).read_bytes() == b"drawn"


def test_a_published_file_that_somebody_changed_in_place_is_noticed(folder: Path, tmp_path: Path) -> None:
    """It is the very file that is kept."""
    Store(folder).place(A, tmp_path / "site", lambda: b"drawn")
    (tmp_path / "site").write_bytes(b"DRAWN")
    Store(folder).place(A, tmp_path / "next", lambda: b"drawn")
    assert (tmp_path / "next").read_bytes() == b"drawn"


def test_a_file_that_can_not_be_read_is_made_anew(folder: Path, monkeypatch) -> None:
    file = kept(folder)
    file.chmod(0)
    if os.access(file, os.R_OK):  # root reads everything
        monkeypatch.setattr("builtins.open", refusing(open, file))
    assert Store(folder).get(A) is None
    monkeypatch.undo()
    Store(folder).put(A, b"drawn")
    assert stat.S_IMODE(file.stat().st_mode) & 0o400
    assert Store(folder).get(A) == b"drawn"


def refusing(real, refused: Path):
    def open_(path, *arguments):
        if Path(path) == refused:
            raise PermissionError(errno.EACCES, "no")
        return real(path, *arguments)

    return open_


@pytest.mark.parametrize("told", ["[" * 100_000, "[]", "{}", "null", "{", '{"a": 3}', "\xff"])
def test_a_value_that_other_code_wrote_is_made_anew(folder: Path, told: str) -> None:
    key = digest("v")
    Store(folder).put(f"{key}.json", told.encode("latin-1"))

    def read(value: dict) -> int:
        return value["a"]["b"] + 1

    assert Store(folder).value(key, lambda: {"a": {"b": 1}}, read) == 2
    assert Store(folder).value(key, lambda: pytest.fail("made again"), read) == 2


def test_what_is_published_is_the_file_that_is_kept(folder: Path, tmp_path: Path) -> None:
    publication = Publication(Store(folder), tmp_path)
    publication.place("a", A, lambda: b"drawn")
    assert (tmp_path / "a").stat().st_ino == only_file(folder).stat().st_ino
    assert publication.sum("a")
    assert publication.sum("a") in only_file(folder).name
    assert publication.sum("b") is None


def test_the_digest_is_the_same_wherever_it_comes_from(folder: Path, tmp_path: Path, monkeypatch) -> None:
    sums = [Store(folder).place(A, tmp_path / "a", lambda: b"drawn"), Store(folder).place(A, tmp_path / "a", never)]
    monkeypatch.setattr(os, "link", refuse)
    sums.append(Store(folder).place(A, tmp_path / "a", never))
    assert len({*sums}) == 1
    assert (tmp_path / "a").read_bytes() == b"drawn"


def refuse(*_: object, **__: object) -> None:
    raise OSError(errno.EPERM, "Operation not permitted")


def test_publishing_over_a_file_leaves_what_is_linked_to_it_alone(folder: Path, tmp_path: Path, monkeypatch) -> None:
    (tmp_path / "other").write_bytes(b"somebody else's")
    for name in ("hard", "soft"):
        (tmp_path / name).unlink(missing_ok=True)
    os.link(tmp_path / "other", tmp_path / "hard")
    (tmp_path / "soft").symlink_to(tmp_path / "other")
    monkeypatch.setattr(os, "link", refuse)
    for name in ("hard", "soft"):
        Store(folder).place(A, tmp_path / name, lambda: b"drawn")
        assert (tmp_path / name).read_bytes() == b"drawn"
    assert (tmp_path / "other").read_bytes() == b"somebody else's"


def test_what_another_build_tidied_away_meanwhile_is_made_anew(folder: Path, tmp_path: Path) -> None:
    kept(folder)
    store = Store(folder)
    assert store.has(A)
    only_file(folder).unlink()
    store.place(A, tmp_path / "a", lambda: b"drawn")
    assert (tmp_path / "a").read_bytes() == b"drawn"


@pytest.mark.parametrize("error", [errno.ENOSPC, errno.EACCES, errno.EROFS, errno.EDQUOT])
def test_where_nothing_can_be_kept_everything_is_made_and_that_is_told_once(
    folder: Path, tmp_path: Path, monkeypatch, error: int
) -> None:
    def fail(*_: object, **__: object) -> None:
        raise OSError(error, os.strerror(error))

    told: list[str] = []
    monkeypatch.setattr("wristwork.store.store.write_whole", fail)
    store = Store(folder, told.append)
    assert store.content(A, lambda: b"drawn") == b"drawn"
    assert store.has(A)
    assert store.content(A, never) == b"drawn"
    store.place(B, tmp_path / "b", lambda: b"heard")
    assert (tmp_path / "b").read_bytes() == b"heard"
    store.sync()
    store.forget_unused()
    (line,) = told
    assert os.strerror(error) in line
    assert str(folder) in line


@pytest.mark.parametrize("part", [".wristwork", ".wristwork/kept", f".wristwork/kept/{A[:2]}"])
def test_a_file_where_a_folder_belongs_stops_nothing(folder: Path, tmp_path: Path, part: str) -> None:
    (tmp_path / part).parent.mkdir(parents=True, exist_ok=True)
    (tmp_path / part).write_text("a file")
    told: list[str] = []
    store = Store(folder, told.append)
    assert store.content(A, lambda: b"drawn") == b"drawn"
    store.forget_unused()
    assert len(told) == 1
    assert (tmp_path / part).read_text() == "a file"


@pytest.mark.parametrize("part", [".wristwork", ".wristwork/kept", ".wristwork/kept/ab"])
def test_a_link_is_refused(folder: Path, tmp_path: Path, part: str) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / part).parent.mkdir(parents=True, exist_ok=True)
    (tmp_path / part).symlink_to(tmp_path / "elsewhere", target_is_directory=True)
    with pytest.raises(LinkRefused, match="is a link"):
        Store(folder)


def test_only_what_has_the_name_of_an_entry_is_ever_deleted(folder: Path, tmp_path: Path) -> None:
    mine = kept(folder)
    shelf = mine.parent
    (tmp_path / "elsewhere").write_text("theirs")
    theirs = [
        shelf / "notes.txt",
        shelf / mine.name.upper(),
        shelf / f"{mine.name}.bak",
        folder / "notes.txt",
        folder / "zz" / mine.name,
        folder / "abc" / mine.name,
        shelf / "deeper" / mine.name,
    ]
    for path in theirs:
        path.parent.mkdir(exist_ok=True)
        path.write_text("theirs")
    link = shelf / mine.name.replace(A[:40], f"{A[:2]}{'0' * 38}")
    link.symlink_to(tmp_path / "elsewhere")
    Store(folder).forget_unused()
    assert not mine.exists()
    assert not link.is_symlink()
    assert all(path.read_text() == "theirs" for path in [*theirs, tmp_path / "elsewhere"])


def test_what_nothing_asked_for_is_forgotten_with_its_folder(folder: Path) -> None:
    Store(folder).put(A, b"drawn")
    Store(folder).put(B, b"heard")
    store = Store(folder)
    store.has(A)
    store.forget_unused()
    assert only_file(folder).name.startswith(A[:40])
    assert [path.name for path in folder.iterdir()] == [A[:2]]


def test_two_files_of_one_entry_are_one_after_the_next_build(folder: Path) -> None:
    """Two machines may make different bytes of the same thing."""
    Store(folder).put(A, b"one")
    Store(folder).put(A, b"another")
    store = Store(folder)
    assert store.get(A) in (b"one", b"another")
    store.forget_unused()
    assert only_file(folder).read_bytes() == store.get(A)


def test_what_was_never_finished_is_forgotten_after_an_hour(folder: Path) -> None:
    part = kept(folder).with_name(f"{A[:40]}.123.part")
    part.write_bytes(b"half")
    Store(folder).forget_unused()
    assert part.exists(), "it may belong to a build that runs"
    os.utime(part, (0, 0))
    Store(folder).forget_unused()
    assert not part.exists()


def test_what_can_not_be_read_as_an_entry_is_none(folder: Path) -> None:
    file = kept(folder)
    for harm in (Path.mkdir, os.mkfifo, lambda path: path.symlink_to("/dev/zero")):
        file.unlink()
        harm(file)
        assert Store(folder).get(A) is None
        file.rmdir() if file.is_dir() else file.unlink()
        file.touch()


def test_values_have_one_text(folder: Path) -> None:
    Store(folder).value(digest("v"), lambda: {"b": 1, "a": [1, 2]}, dict)
    assert only_file(folder).read_text() == '{"a":[1,2],"b":1}'
    assert json.loads(only_file(folder).read_text()) == {"a": [1, 2], "b": 1}


def test_what_one_object_put_it_finds_again(folder: Path) -> None:
    store = Store(folder)
    store.put(A, b"drawn")
    assert store.get(A) == b"drawn"
    assert store.has(A)


def test_what_is_damaged_after_it_was_found_good_is_noticed_when_it_is_wanted(folder: Path) -> None:
    kept(folder)
    store = Store(folder)
    assert store.get(A) == b"drawn"
    only_file(folder).write_bytes(b"dr")
    assert store.get(A) is None
    assert not [path for path in folder.rglob("*") if path.is_file()]
    assert not store.has(A)


@pytest.mark.parametrize(
    "ask", [lambda store: store.has(A), lambda store: store.get(A), lambda store: store.put(A, b"drawn")]
)
def test_whatever_was_asked_for_is_not_forgotten(folder: Path, ask) -> None:
    kept(folder)
    store = Store(folder)
    ask(store)
    store.forget_unused()
    assert Store(folder).get(A) == b"drawn"


def test_a_link_that_is_named_like_something_kept_is_nothing_kept(folder: Path, tmp_path: Path) -> None:
    file = kept(folder)
    (tmp_path / "theirs").write_bytes(b"drawn")
    file.unlink()
    file.symlink_to(tmp_path / "theirs")
    assert not Store(folder).has(A)
    store = Store(folder)
    assert store.content(A, lambda: b"drawn") == b"drawn"
    assert (tmp_path / "theirs").read_bytes() == b"drawn"


def test_a_file_that_became_a_link_meanwhile_is_not_read(folder: Path, tmp_path: Path) -> None:
    file = kept(folder)
    store = Store(folder)
    (tmp_path / "longer").write_bytes(b"drawn and more")
    file.unlink()
    file.symlink_to(tmp_path / "longer")
    assert store.get(A) is None
    assert (tmp_path / "longer").exists()


def test_only_what_is_new_is_held_for_certain_and_once(folder: Path, monkeypatch) -> None:
    synced: list[list[str]] = []
    monkeypatch.setattr("wristwork.store.store.sync_all", lambda paths: synced.append(list(paths)))
    kept(folder, B)
    store = Store(folder)
    store.get(B)
    store.put(A, b"drawn")
    store.sync()
    store.sync()
    assert [[Path(path).name[:40] for path in paths] for paths in synced] == [[A[:40]], []]


def test_a_disk_that_holds_nothing_for_certain_fails_no_build(folder: Path, monkeypatch) -> None:
    monkeypatch.setattr("wristwork.store.store.sync_all", refuse)
    store = Store(folder)
    store.put(A, b"drawn")
    store.sync()


def test_files_are_written_without_waiting_for_the_disk_one_by_one(folder: Path, monkeypatch) -> None:
    asked: list[bool] = []
    monkeypatch.setattr(
        "wristwork.store.store.write_whole", lambda path, content, synced=True: asked.append(synced) or refuse()
    )
    Store(folder).put(A, b"drawn")
    assert asked == [False]


def test_where_nothing_can_be_kept_it_is_said_once_with_what_to_do(folder: Path, monkeypatch) -> None:
    monkeypatch.setattr("wristwork.store.store.write_whole", refuse)
    told: list[str] = []
    store = Store(folder, told.append)
    store.put(A, b"drawn")
    store.put(B, b"played")
    assert told == [
        f"Nothing can be kept in {folder} (Operation not permitted): this build makes everything anew. Delete that "
        "folder, or make it writable."
    ]
    assert (store.get(A), store.get(B)) == (b"drawn", b"played")


def test_a_value_that_has_no_such_part_is_made_anew(folder: Path) -> None:
    key = digest("v")
    Store(folder).put(f"{key}.json", b"3")
    assert Store(folder).value(key, lambda: {"a": 1}, lambda value: value.get("a")) == 1
