"""Scripts and styles as they are published: without the comments, which are for those who read the source."""

from __future__ import annotations

import re

# A comment that has its lines to itself. One that shares a line with code stays: telling it from a text that only
# looks like it would take a parser.
_COMMENT = re.compile(r"^[ \t]*(?://.*|/\*(?:[^*]|\*(?!/))*\*/[ \t]*)\n", re.MULTILINE)
_BLANK = re.compile(r"\n{2,}")
LEAN_SUFFIXES = (".css", ".js")


def lean(name: str, content: bytes) -> bytes:
    """The content of the asset ``name``, shorter where it is a script or a style sheet, with the same meaning."""
    if not name.endswith(LEAN_SUFFIXES):
        return content
    return _BLANK.sub("\n", _COMMENT.sub("", content.decode())).encode()
