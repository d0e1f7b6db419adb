"""The ids that a text seems to give to exercises, whether it can be read as patterns or not."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from wristwork.pattern.settings import id_from

# One that is taken from a library has that id here, too.
_ID = re.compile(
    r"^[ \t>]*(?:id|take)[ \t]*[:=：]?[ \t]*([a-z0-9]+(?:-[a-z0-9]+)*)[ \t]*$", re.IGNORECASE | re.MULTILINE
)
# Whatever stands there: where it is no id, the one that a message tells the tutor to write.
_MEANT = re.compile(r"^[ \t>]*id[ \t]*[:=：][ \t]*(\S.*)$", re.IGNORECASE | re.MULTILINE)
_TITLE = re.compile(r"^[ \t>]*title[ \t]*[:=：]?[ \t]*(\S.*)$", re.IGNORECASE | re.MULTILINE)


def claimed_ids(text: str) -> frozenset[str]:
    """The ids that lines of a text name, or that its titles make."""
    meant = [*_MEANT.findall(text), *_TITLE.findall(text)]
    return frozenset([*_ID.findall(text), *(id_from(words) for words in meant)])


def named_ids(lines: Sequence[str]) -> Iterator[tuple[str, int]]:
    """The ids that lines of a text name, each with its line (from 1)."""
    for number, line in enumerate(lines, start=1):
        named = _ID.match(line) if "id" in line or "take" in line else None
        if named:
            yield named[1], number
