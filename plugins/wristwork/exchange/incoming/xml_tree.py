"""Bytes → the tree of an XML document, from whom it may come.

Nothing is fetched, and a document that declares entities (which grow without end, or name other files) is refused.
A compressed score is unpacked in memory, to a size that a score has.
"""

from __future__ import annotations

import io
import zipfile
import zlib
from xml.etree.ElementTree import Element, TreeBuilder
from xml.parsers import expat

from wristwork.exchange.incoming.unreadable import Unreadable
from wristwork.languages.say import say

MOST_BYTES = 32 * 1024 * 1024
DEEPEST = 64
_CONTAINER = "META-INF/container.xml"
_BROKEN_ZIP = (zipfile.BadZipFile, zlib.error, EOFError, OSError, RuntimeError, NotImplementedError, ValueError)


def read_tree(data: bytes) -> Element:
    """The root of a document. Raises :class:`Unreadable`."""
    return _Reader().read(_limited(data))


def unpacked(data: bytes) -> bytes:
    """The score in a compressed one (.mxl). Raises :class:`Unreadable`."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            return _member(archive, _score_name(archive))
    except _BROKEN_ZIP as error:
        raise Unreadable(
            say("a compressed file that can't be unpacked"), say("save it again, or uncompressed")
        ) from error


def _score_name(archive: zipfile.ZipFile) -> str:
    names = [each.filename for each in archive.infolist()]
    if _CONTAINER in names:
        for file in read_tree(_member(archive, _CONTAINER)).iter():
            if _plain(file.tag) == "rootfile" and file.get("full-path") in names:
                return str(file.get("full-path"))
    scores = [name for name in names if name.endswith((".musicxml", ".xml")) and not name.startswith("META-INF/")]
    if not scores:
        raise Unreadable(say("a compressed file with no score in it"), say("save the score as .musicxml"))
    return scores[0]


def _member(archive: zipfile.ZipFile, name: str) -> bytes:
    with archive.open(name) as file:
        return _limited(file.read(MOST_BYTES + 1))


def _limited(data: bytes) -> bytes:
    if len(data) > MOST_BYTES:
        found = say("more than {most} MB of score", most=MOST_BYTES // 1024 // 1024)
        raise Unreadable(found, say("save a part of it by itself"))
    return data


def _plain(tag: str) -> str:
    """A name without its namespace."""
    return tag.rpartition(":")[2]


class _Reader:
    """Builds a tree out of what the parser meets."""

    def __init__(self) -> None:
        self._builder = TreeBuilder()
        self._depth = 0
        self._parser = expat.ParserCreate()
        self._parser.buffer_text = True
        self._parser.StartElementHandler = self._start
        self._parser.EndElementHandler = self._end
        self._parser.CharacterDataHandler = self._builder.data
        self._parser.EntityDeclHandler = self._entity

    def read(self, data: bytes) -> Element:
        try:
            self._parser.Parse(data, True)
            return self._builder.close()
        except expat.ExpatError as error:
            reason = expat.ErrorString(error.code)
            found = say("broken XML in line {line} ({reason})", line=error.lineno, reason=reason)
            raise Unreadable(found, say("save the score again")) from error
        except (ValueError, LookupError) as error:  # an encoding that nobody knows
            raise Unreadable(say("XML in an encoding that can't be read"), say("save the score in UTF-8")) from error

    def _start(self, tag: str, attributes: dict[str, str]) -> None:
        self._depth += 1
        if self._depth > DEEPEST:
            raise Unreadable(say("elements more than {most} deep", most=DEEPEST), say("this is no score"))
        self._builder.start(_plain(tag), attributes)

    def _end(self, tag: str) -> None:
        self._depth -= 1
        self._builder.end(_plain(tag))

    def _entity(self, *_: object) -> None:
        raise Unreadable(
            say("XML that declares entities"), say("no score needs them: save it again with another program")
        )
