"""Drawings, sounds and what else was made once, kept by content in a folder beside the pages.

The folder only ever saves work. A file's name holds what it was made from (see :mod:`wristwork.store.making`), its
length and a digest of its content: what is damaged is noticed when it is wanted, and made anew. Where nothing can be
kept, everything is made for this build alone. Files appear whole or not at all, and only files with such names
are ever deleted.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeVar

from wristwork.files import PART, refuse_link, sync_all, write_whole
from wristwork.languages.say import say

T = TypeVar("T")

# The folder of a course for what is made anew at any time, and where in it a store lies.
WORK = ".wristwork"
STORE = "kept"

ABANDONED_AFTER = 3600.0  # seconds after which a file that was never finished is nobody's any more

_SHELF = re.compile(r"[0-9a-f]{2}")
_FILE = re.compile(r"(?P<key>[0-9a-f]{40})-(?P<length>[0-9]{1,12})-(?P<sum>[0-9a-f]{32})(?P<suffix>\.[a-z0-9]{1,8})")
_PART = re.compile(rf"[0-9a-f]{{40}}\.[0-9]+{re.escape(PART)}")


@dataclass(frozen=True, slots=True)
class _KeptFile:
    path: str
    length: int
    sum: str


class Store:
    """What is kept in one folder. An entry's name is a key (see :func:`~wristwork.store.making.digest`) and an ending.

    ``tell`` is told once if nothing can be kept. Raises LinkRefused where the folder, or the one it is in, is a link.
    """

    def __init__(self, folder: Path, tell: Callable[[str], None] = lambda _: None) -> None:
        for path in (folder.parent, folder, *_shelf_paths(folder)):
            refuse_link(path)
        self._folder = folder
        self._tell = tell
        self._entries = {f"{key}{suffix}": entry for key, suffix, entry in _listed(folder)}
        self._found_good: set[str] = set()
        self._new: set[str] = set()
        self._used: set[str] = set()
        # What could not be kept, for this build alone.
        self._loose: dict[str, bytes] | None = None

    def has(self, name: str) -> bool:
        """Whether an entry is there, and whole."""
        self._used.add(name)
        return name in self._found_good or self.get(name) is not None

    def get(self, name: str) -> bytes | None:
        """What an entry holds; None where there is none, or a damaged one."""
        self._used.add(name)
        if self._loose is not None and name in self._loose:
            return self._loose[name]
        entry = self._entries.get(name)
        content = _content(entry) if entry else None
        if content is None:
            self._drop(name)
        else:
            self._found_good.add(name)
        return content

    def put(self, name: str, content: bytes) -> None:
        """Keep something, as far as that is possible."""
        self._used.add(name)
        if self._loose is None:
            try:
                self._entries[name] = self._written(name, content)
            except OSError as error:
                self._tell(
                    say(
                        "Nothing can be kept in {folder} ({reason}): this build makes everything anew. Delete that "
                        "folder, or make it writable.",
                        folder=self._folder,
                        reason=error.strerror or error,
                    )
                )
                self._loose = {}
            else:
                self._found_good.add(name)
                self._new.add(name)
                return
        self._loose[name] = content

    def content(self, name: str, make: Callable[[], bytes]) -> bytes:
        """What an entry holds; ``make`` is called only if it is not there."""
        content = self.get(name)
        if content is None:
            content = make()
            self.put(name, content)
        return content

    def text(self, name: str, make: Callable[[], str]) -> str:
        """:meth:`content` for a text."""
        return self.content(name, lambda: make().encode()).decode()

    def value(self, key: str, make: Callable[[], Any], read: Callable[[Any], T]) -> T:
        """A value that is kept as JSON: ``make`` gives what JSON can hold, ``read`` makes the value of it."""
        name = f"{key}.json"
        content = self.get(name)
        if content is not None:
            # It is whole, but whoever wrote it need not have been this code.
            with suppress(ValueError, TypeError, LookupError, AttributeError, RecursionError):
                return read(json.loads(content))
        made = json_text(make())
        self.put(name, made.encode())
        return read(json.loads(made))

    def place(self, name: str, target: Path, make: Callable[[], bytes]) -> str:
        """Put an entry's file, made if it is not there, at ``target``, whose folder is there: a digest of it.

        It is the very same file as far as the disk allows, so that publishing what did not change costs nothing.
        Raises OSError where the target can't be written.
        """
        content = None if self.has(name) else make()
        if content is not None:
            self.put(name, content)
        if target.is_symlink() or target.exists():
            target.unlink()  # never into a file that is somebody else's as well
        entry = self._entries.get(name)
        if entry is not None:
            with suppress(OSError):  # another disk, one without hard links, or another build tidied up
                os.link(entry.path, target)
                return entry.sum
        if content is None:
            content = self.get(name)
        if content is None:
            content = make()
        target.write_bytes(content)
        return _sum(content)

    def sync(self) -> None:
        """Have the disk hold what is new for certain, as far as that is possible."""
        with suppress(OSError):
            sync_all(self._entries[name].path for name in self._new if name in self._entries)
        self._new.clear()

    def forget_unused(self) -> None:
        """Delete what nothing asked for since this object was made, and what an interrupted build left half written."""
        used = {self._entries[name].path for name in self._used if name in self._entries}
        long_ago = time.time() - ABANDONED_AFTER
        for shelf in _shelf_paths(self._folder):
            with suppress(OSError):
                for file in list(os.scandir(shelf)):
                    unused = _FILE.fullmatch(file.name) and file.path not in used
                    if unused or (_PART.fullmatch(file.name) and file.stat(follow_symlinks=False).st_mtime < long_ago):
                        os.unlink(file.path)
                os.rmdir(shelf)  # where nothing is left in it

    def _drop(self, name: str) -> None:
        entry = self._entries.pop(name, None)
        self._found_good.discard(name)
        if entry is not None:
            with suppress(OSError):
                os.unlink(entry.path)

    def _written(self, name: str, content: bytes) -> _KeptFile:
        self._drop(name)  # it may hold something else, under a name of its own
        key, _, ending = name.partition(".")
        sum_ = _sum(content)
        path = self._folder / key[:2] / f"{key}-{len(content)}-{sum_}.{ending}"
        write_whole(path, content, synced=False)
        return _KeptFile(os.fspath(path), len(content), sum_)


def json_text(value: object) -> str:
    """How a value is kept."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"))


def _listed(folder: Path) -> Iterator[tuple[str, str, _KeptFile]]:
    for shelf in _shelf_paths(folder):
        with suppress(OSError), os.scandir(shelf) as files:
            for file in files:
                match = _FILE.fullmatch(file.name)
                if match and file.is_file(follow_symlinks=False):
                    yield match["key"], match["suffix"], _KeptFile(file.path, int(match["length"]), match["sum"])


def _shelf_paths(folder: Path) -> list[Path]:
    """Where the store's own folders are."""
    with suppress(OSError):
        return [path for path in folder.iterdir() if _SHELF.fullmatch(path.name)]
    return []


def _content(entry: _KeptFile) -> bytes | None:
    try:
        if os.stat(entry.path, follow_symlinks=False).st_size != entry.length:
            return None
        with open(entry.path, "rb") as file:
            content = file.read()
    except OSError:
        return None
    return content if len(content) == entry.length and _sum(content) == entry.sum else None


def _sum(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()[:32]
