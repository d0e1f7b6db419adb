"""Files that are there whole or not at all, and files that can be read to their end."""

from __future__ import annotations

import errno
import os
import shutil
import stat
from collections.abc import Iterable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from wristwork.languages.say import say

# The ending of a file that is being written; one that an interrupted build left behind keeps it.
PART = ".part"

# Letters of a file's name in the name of its part, which has to stay within what systems allow.
_NAME_KEPT = 40
# A disk takes many orders to write at once far faster than one after the other.
_SYNCS_AT_ONCE = 16


class LinkRefused(Exception):
    """A link stands where files are put and deleted: they would be somebody else's."""

    def __init__(self, path: Path) -> None:
        super().__init__(
            say(
                "{path} is a link, and what is kept there is replaced and deleted: take the link away, and the folder "
                "is made anew",
                path=path,
            )
        )


def refuse_link(path: Path) -> None:
    """Raise :class:`LinkRefused` where a path is a link, to wherever it leads."""
    if path.is_symlink():
        raise LinkRefused(path)


def write_whole(path: Path, content: bytes, synced: bool = True) -> None:
    """Write a file, and its folder where there is none, so that whatever happens on the way nobody sees half of it.

    An existing file keeps its permissions; a link is replaced by a file. ``synced``: not even where the power goes.
    Raises OSError.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f"{path.name[:_NAME_KEPT]}.{os.getpid()}{PART}")
    part.unlink(missing_ok=True)
    try:
        with open(part, "xb") as file:  # never into a file or through a link that somebody has put there
            file.write(content)
            if synced:
                file.flush()
                os.fsync(file.fileno())
        if path.exists() and not path.is_symlink():
            shutil.copymode(path, part)
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)


def sync_all(paths: Iterable[str | Path]) -> None:
    """Have the disk hold these files for certain. Raises OSError."""
    with ThreadPoolExecutor(_SYNCS_AT_ONCE) as pool:
        for _ in pool.map(_sync, paths):
            pass


def _sync(path: str | Path) -> None:
    # Windows only syncs what is open for writing.
    with open(path, "rb+" if os.name == "nt" else "rb") as file:
        os.fsync(file.fileno())


def read_plain(path: Path, at_most: int | None = None) -> bytes:
    """The content of a plain file, or of one that a link leads to.

    Raises OSError, for a pipe or a device as well: reading one may never end; and for more than ``at_most`` bytes.
    """
    status = path.stat()
    if stat.S_ISDIR(status.st_mode):
        raise IsADirectoryError(errno.EISDIR, say("it is a folder"), os.fspath(path))
    if not stat.S_ISREG(status.st_mode):
        raise OSError(errno.EINVAL, say("it is no plain file"), os.fspath(path))
    if at_most is not None and status.st_size > at_most:
        why = say("it is larger than {megabytes} MB", megabytes=at_most // 1_000_000)
        raise OSError(errno.EFBIG, why, os.fspath(path))
    return path.read_bytes()
