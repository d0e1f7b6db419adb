"""What was drawn once is kept by content, in a folder outside the pages.

An entry's name is a digest of everything that went into it, so an entry is never stale: other
input (or other code) makes another name.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

import wristwork
from wristwork.files import write_whole

_CODE = (".py", ".typ", ".html", ".ttf")


class Cache:
    """A folder of files named by what they were made from; safe to kill at any moment."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._used: set[str] = set()

    def keep(self, suffix: str, key: str) -> Path:
        """Where the file made from ``key`` is or would be; it outlives this build."""
        name = f"{key[:2]}/{key}{suffix}"
        self._used.add(name)
        return self.folder / name

    def file(self, suffix: str, key: str, make: Callable[[], bytes]) -> Path:
        """The file made from ``key`` (see :func:`digest`); ``make`` is called only if it is not there yet."""
        path = self.keep(suffix, key)
        if not path.exists():
            write_whole(path, make())
        return path

    def text(self, suffix: str, key: str, make: Callable[[], str]) -> str:
        """Like :meth:`file`, for a text: what the file holds."""
        return self.file(suffix, key, lambda: make().encode()).read_text(encoding="utf-8")

    def forget_unused(self) -> None:
        """Remove the entries that nothing asked for since this object was made."""
        for folder in sorted(self.folder.glob("??")):
            for name in os.listdir(folder):
                if f"{folder.name}/{name}" not in self._used:
                    (folder / name).unlink(missing_ok=True)


def digest(*parts: str) -> str:
    """A name for what is made from these parts by the code as it is."""
    sum_ = hashlib.sha256(_code_digest().encode())
    for part in parts:
        sum_.update(f"{len(part)}:{part}".encode())
    return sum_.hexdigest()[:40]


@lru_cache(maxsize=1)
def _code_digest() -> str:
    """The digest of all that draws and writes: what other code makes is another thing."""
    package = Path(wristwork.__file__).parent
    sum_ = hashlib.sha256()
    for path in sorted(path for suffix in _CODE for path in package.rglob(f"*{suffix}")):
        sum_.update(path.relative_to(package).as_posix().encode())
        sum_.update(path.read_bytes())
    return sum_.hexdigest()
