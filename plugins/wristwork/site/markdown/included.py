"""Where text stands that another file brought into a page, so that errors in it point there."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from wristwork.pattern.fences import split_lines

# Files that hold text a page could take in; a larger one is none that somebody typed.
_SUFFIXES = (".md", ".markdown", ".txt", ".inc", "")
_LARGEST = 300_000  # bytes


@dataclass(frozen=True, slots=True)
class Included:
    """A file by its path from the course's folder, its text, and the line (from 1) at which some lines begin."""

    path: str
    text: str
    line: int


def find_included(root: Path, site_dir: str, wanted: Sequence[str]) -> Included | None:
    """The first file of a course that holds these lines one below the other, however they are indented."""
    plain = [_plain(line) for line in wanted]
    for path in _texts(root, site_dir):
        try:
            text = path.read_text(encoding="utf-8-sig")
        except (OSError, UnicodeDecodeError):
            continue
        lines = [_plain(line) for line in split_lines(text)]
        for number in range(len(lines) - len(plain) + 1):
            if lines[number] == plain[0] and lines[number : number + len(plain)] == plain:
                return Included(path.relative_to(root).as_posix(), text, number + 1)
    return None


def _texts(root: Path, site_dir: str) -> Iterator[Path]:
    for folder, folders, names in os.walk(root):
        inside = [name for name in folders if not name.startswith((".", "__"))]
        folders[:] = sorted(name for name in inside if os.path.join(folder, name) != site_dir)
        for name in sorted(names):
            path = Path(folder, name)
            if path.suffix in _SUFFIXES and path.is_file() and path.stat().st_size <= _LARGEST:
                yield path


def _plain(line: str) -> str:
    return " ".join(line.split())
