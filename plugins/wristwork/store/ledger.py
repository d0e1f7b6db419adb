"""What each published file was made from, so that an unchanged one is linked from the last site and not written.

Writing thousands of small files costs far more than making them. The ledger is kept beside the cache
and only ever saves work: a file whose size or time is not as remembered is written again.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from pathlib import Path
from shutil import copyfile

from wristwork.files import write_whole


class Ledger:
    """Places files of one site; ``last`` is the folder of the last good site."""

    def __init__(self, file: Path, last: Path) -> None:
        self._file = file
        self._last = last
        self._before = _read(file, last)
        self._now: dict[str, str] = {}

    def place(self, folder: Path, address: str, key: str, make: Callable[[], bytes | Path]) -> None:
        """Put the file made from ``key`` at an address below ``folder``.

        ``make`` gives its bytes, or a file that holds them.
        """
        target = folder / address
        if not self._linked(target, address, key):
            content = make()
            if isinstance(content, Path):
                copyfile(content, target)
            else:
                target.write_bytes(content)
        self._now[address] = key

    def key(self, address: str) -> str | None:
        """What the file at an address was made from; None for a file that was not placed."""
        return self._now.get(address)

    def save(self) -> None:
        """Remember what was placed; to be called once the site is in its place: a file may have become an older one."""
        files = {address: f"{key} {_stamp(self._last / address)}" for address, key in self._now.items()}
        text = json.dumps({"site": str(self._last), "files": files}, separators=(",", ":"))
        write_whole(self._file, text.encode())

    def _linked(self, target: Path, address: str, key: str) -> bool:
        known = self._before.get(address, "")
        if not known.startswith(key):
            return False
        old = self._last / address
        try:
            if known != f"{key} {_stamp(old)}":
                return False
            os.link(old, target)
        except OSError:
            return False
        return True


def _stamp(path: Path) -> str:
    """What shows that a file is still the one that was written."""
    status = os.stat(path)
    return f"{status.st_size} {status.st_mtime_ns}"


def _read(file: Path, last: Path) -> dict[str, str]:
    try:
        data = json.loads(file.read_bytes())
        files = data["files"] if data["site"] == str(last) else {}
    except (OSError, ValueError, KeyError, TypeError):  # none yet, or damaged: then nothing is known
        return {}
    # Another version of the tool may have written something else for a file.
    return {name: known for name, known in files.items() if isinstance(known, str)} if isinstance(files, dict) else {}
