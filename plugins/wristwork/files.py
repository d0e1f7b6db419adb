"""Files that are there whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path

# The ending of a file that is being written; one that an interrupted build left behind keeps it.
PART = ".part"


def write_whole(path: Path, content: bytes) -> None:
    """Write a file, and its folder where there is none, so that whatever happens on the way nobody sees half of it."""
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f"{path.name}.{os.getpid()}{PART}")
    try:
        part.write_bytes(content)
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)
