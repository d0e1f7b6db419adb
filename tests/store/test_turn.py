from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from threading import Thread

import pytest
from filelock import FileLock, Timeout

from wristwork.files import LinkRefused
from wristwork.store import turn as module
from wristwork.store.turn import StillBuilding, Turn

HOLDING = """
import sys, pathlib
from wristwork.store.turn import Turn
turn = Turn([pathlib.Path(sys.argv[1])])
turn.take(lambda told: None)
print("taken", flush=True)
sys.stdin.readline()
"""


class Holder:
    """Another process that has its turn until it is told to end, or ended."""

    def __init__(self, place: Path) -> None:
        pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE}
        self.process = subprocess.Popen([sys.executable, "-c", HOLDING, str(place)], text=True, **pipes)
        assert self.process.stdout.readline() == "taken\n"

    def end(self) -> None:
        self.process.kill()
        self.process.communicate()


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path / ".wristwork" / "lock"


@pytest.fixture
def holder(place: Path):
    other = Holder(place)
    yield other
    other.end()


def test_one_after_the_other_without_a_word(place: Path) -> None:
    told: list[str] = []
    for _ in range(2):
        turn = Turn([place])
        turn.take(told.append)
        turn.end()
        turn.end()
    assert told == []


def test_a_second_build_says_that_it_waits_and_gives_up_in_the_end(place: Path, holder, monkeypatch) -> None:
    monkeypatch.setattr(module, "LONGEST_WAIT", 0.2)
    told: list[str] = []
    with pytest.raises(StillBuilding, match="another build of this course has been at work"):
        Turn([place]).take(told.append)
    assert told == ["Another build of this course is at work: this one waits until it is done."]


def test_a_build_that_is_killed_holds_nobody_up(place: Path, holder: Holder) -> None:
    holder.end()
    told: list[str] = []
    Turn([place]).take(told.append)
    assert told == []


def test_a_second_build_goes_on_once_the_first_is_done(place: Path, holder: Holder) -> None:
    turn = Turn([place])
    turn.take(lambda _: holder.end())
    turn.end()


def test_a_link_is_neither_followed_nor_emptied(place: Path, tmp_path: Path) -> None:
    (tmp_path / "theirs").write_text("theirs")
    place.parent.mkdir()
    place.symlink_to(tmp_path / "theirs")
    with pytest.raises(LinkRefused):
        Turn([place]).take(lambda _: None)
    assert (tmp_path / "theirs").read_text() == "theirs"


def test_where_the_first_place_is_none_the_second_is_locked(tmp_path: Path, monkeypatch) -> None:
    (tmp_path / "file").write_text("a file")
    places = [tmp_path / "file" / "lock", tmp_path / ".site.lock"]
    other = Holder(places[1])
    monkeypatch.setattr(module, "LONGEST_WAIT", 0.1)
    try:
        with pytest.raises(StillBuilding):
            Turn(places).take(lambda _: None)
    finally:
        other.end()


def test_where_nothing_can_be_locked_builds_go_on(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("a file")
    turn = Turn([tmp_path / "file" / "lock"])
    turn.take(lambda _: pytest.fail("nobody is at work"))
    turn.end()


def test_a_pipe_in_its_place_hangs_nothing(place: Path) -> None:
    place.parent.mkdir()
    os.mkfifo(place)
    Turn([place]).take(lambda _: None)


def test_folders_that_are_not_there_are_made(tmp_path: Path) -> None:
    place = tmp_path / "a" / "b" / "c" / "lock"
    turn = Turn([place])
    turn.take(lambda _: None)
    assert place.exists()
    turn.end()


def test_a_turn_that_one_thread_took_another_ends(place: Path) -> None:
    turn = Turn([place])
    turn.take(lambda _: None)
    other = Thread(target=turn.end)
    other.start()
    other.join()
    holder = Holder(place)
    holder.end()


def test_it_asks_at_once_and_then_waits_for_ten_minutes(place: Path, monkeypatch) -> None:
    asked: list[float] = []

    def acquire(self: FileLock, timeout: float) -> None:
        asked.append(timeout)
        raise Timeout(str(place))

    monkeypatch.setattr(FileLock, "acquire", acquire)
    with pytest.raises(StillBuilding) as told:
        Turn([place]).take(lambda _: None)
    assert asked == [0, 600]
    assert str(told.value) == (
        "another build of this course has been at work for 10 minutes: end it (a preview that hangs, perhaps), then "
        "build again"
    )
