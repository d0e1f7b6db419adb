"""One build of a course at a time: the next one waits for its turn."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path

from filelock import FileLock, Timeout

from wristwork.files import refuse_link
from wristwork.languages.say import say, say_count

LONGEST_WAIT = 600.0  # seconds: a first build renders the audio of a whole course


class StillBuilding(Exception):
    """Another build of the course did not end in time."""


class Turn:
    """Held by one process at a time; ends with its process, however that ends."""

    def __init__(self, places: Iterable[Path]) -> None:
        """``places``: files that may be locked; the first that can be is."""
        self._places = tuple(places)
        self._lock: FileLock | None = None

    def take(self, tell: Callable[[str], None]) -> None:
        """Wait for the turn, and ``tell`` of it. Raises StillBuilding and LinkRefused.

        Where no file can be locked nothing is: then nothing can be kept there either.
        """
        for place in self._places:
            refuse_link(place)
            try:
                place.parent.mkdir(parents=True, exist_ok=True)
                self._lock = _locked(place, tell)
            except (OSError, NotImplementedError):
                continue
            return

    def end(self) -> None:
        """Let the next one build."""
        if self._lock is not None:
            self._lock.release()
            self._lock = None


def _locked(path: Path, tell: Callable[[str], None]) -> FileLock:
    # A preview builds in one thread and ends in another.
    lock = FileLock(path, thread_local=False)
    try:
        lock.acquire(timeout=0)
    except Timeout:
        tell(say("Another build of this course is at work: this one waits until it is done."))
        try:
            lock.acquire(timeout=LONGEST_WAIT)
        except Timeout:
            raise StillBuilding(
                say_count(
                    "another build of this course has been at work for {count} minute: end it (a preview that hangs, "
                    "perhaps), then build again",
                    "another build of this course has been at work for {count} minutes: end it (a preview that hangs, "
                    "perhaps), then build again",
                    round(LONGEST_WAIT / 60),
                )
            ) from None
    return lock
