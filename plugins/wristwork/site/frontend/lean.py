"""Scripts and styles as they are published: without comments and indentation, which are for readers of the source."""

from __future__ import annotations

import re

# A comment that has its lines to itself. One that shares a line with code stays: telling it from a text that only
# looks like it would take a parser.
_COMMENT = re.compile(r"^[ \t]*(?://.*|/\*(?:[^*]|\*(?!/))*\*/[ \t]*)\n", re.MULTILINE)
_BLANK = re.compile(r"\n{2,}")
_INDENTATION = re.compile(r"^[ \t]+", re.MULTILINE)
LEAN_SUFFIXES = (".css", ".js")


def lean(name: str, content: bytes) -> bytes:
    """The content of the asset ``name``, shorter where it is a script or a style sheet, with the same meaning."""
    if not name.endswith(LEAN_SUFFIXES):
        return content
    return _BLANK.sub("\n", _INDENTATION.sub("", _COMMENT.sub("", content.decode()))).encode()
