"""What the courses of one test run share of what is kept: making it for each of them would take many minutes.

What is kept is named by all that goes into it, so what one course has made is right for any other.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

import pytest

from wristwork.store.store import Store

# The sounds, and the lists that name them.
_SOUND = (".mp3", ".flac", ".json")


class KeptStore:
    """A folder of kept files; workers may use the same one at the same time. Sound lies apart from all else in it."""

    def __init__(self, folder: Path) -> None:
        self._sound, self._else = folder / "sound", folder / "else"

    def lend(self, course: Path) -> None:
        """Give a course all the sound that there is."""
        _copy_sound(self._sound, course / ".wristwork" / "kept")

    def collect(self, course: Path) -> None:
        """Take the sound that a course has rendered."""
        _copy_sound(course / ".wristwork" / "kept", self._sound)

    @contextmanager
    def within_reach(self) -> Iterator[None]:
        """What a build of this process lacks in its own store it finds here; what it makes comes here too."""
        with pytest.MonkeyPatch.context() as patched:
            get, put = Store.get, Store.put

            def get_here_too(store: Store, name: str) -> bytes | None:
                content = get(store, name)
                if content is None:
                    content = self._content(name)
                    if content is not None:
                        put(store, name, content)
                return content

            def put_here_too(store: Store, name: str, content: bytes) -> None:
                put(store, name, content)
                if entry := store._entries.get(name):
                    source = Path(entry.path)
                    _copy(source, self._place(name) / source.name)

            patched.setattr(Store, "get", get_here_too)
            patched.setattr(Store, "put", put_here_too)
            yield

    def _content(self, name: str) -> bytes | None:
        key, _, ending = name.partition(".")
        for file in self._place(name).glob(f"{key}-*.{ending}"):
            return file.read_bytes()
        return None

    def _place(self, name: str) -> Path:
        return (self._sound if name.endswith(_SOUND) else self._else) / name[:2]


def _copy_sound(source: Path, target: Path) -> None:
    for shelf in _names(source):
        there = set(_names(target / shelf))
        for name in _names(source / shelf):
            if name.endswith(_SOUND) and name not in there:
                _copy(source / shelf / name, target / shelf / name)


def _names(folder: Path) -> list[str]:
    """What is in a folder; nothing where there is none that can be read."""
    with suppress(OSError):
        return os.listdir(folder)
    return []


def _copy(source: Path, target: Path) -> None:
    # Copied and not linked, for tests do harm to what they have.
    if target.exists() or not source.is_file():
        return
    target.parent.mkdir(parents=True, exist_ok=True)
    part = target.with_name(f"{target.name}.{os.getpid()}.part")
    shutil.copyfile(source, part)
    part.replace(target)
