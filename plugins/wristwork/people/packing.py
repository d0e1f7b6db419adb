"""Values packed into an address, as `pack.js` of the site packs them.

Bytes: version, number of pieces, then for each piece its length, two bytes of check (CRC-16/CCITT-FALSE), its content.
Numbers are seven bits a byte, lowest first; a text is its length and its UTF-8. All of it is written in base64url.
"""

from __future__ import annotations

import binascii
import re
from base64 import urlsafe_b64decode, urlsafe_b64encode
from collections.abc import Iterable
from dataclasses import dataclass

_LETTERS = re.compile(r"[\w-]*", re.ASCII)
_LONGEST = 8000
_MOST_PIECES = 200
_MOST_SHIFT = 28


class Damaged(Exception):
    """There is less than was announced, or it is no text."""


class Reader:
    """Takes values out of bytes. Raises :class:`Damaged` where there is no more."""

    def __init__(self, content: bytes) -> None:
        self._content = content
        self._at = 0

    @property
    def is_over(self) -> bool:
        return self._at >= len(self._content)

    def take(self, count: int) -> bytes:
        if self._at + count > len(self._content):
            raise Damaged
        self._at += count
        return self._content[self._at - count : self._at]

    def number(self) -> int:
        value = 0
        for shift in range(0, _MOST_SHIFT, 7):
            (byte,) = self.take(1)
            value |= (byte & 127) << shift
            if byte < 128:
                return value
        raise Damaged

    def text(self) -> str:
        try:
            return self.take(self.number()).decode()
        except UnicodeDecodeError as error:
            raise Damaged from error


@dataclass(frozen=True, slots=True)
class Unpacked:
    """What an address holds: None for a damaged piece, fewer pieces than ``announced`` where the rest is missing."""

    version: int | None
    announced: int
    pieces: tuple[bytes | None, ...]


def number(value: int) -> bytes:
    """A number as bytes."""
    written = bytearray()
    while value > 127:
        written.append(value & 127 | 128)
        value >>= 7
    return bytes([*written, value])


def text(words: str) -> bytes:
    """A text as bytes."""
    encoded = words.encode()
    return number(len(encoded)) + encoded


def pack(version: int, pieces: Iterable[bytes]) -> str:
    """The letters of an address that hold these pieces."""
    checked = [number(len(piece)) + _check(piece).to_bytes(2) + piece for piece in pieces]
    whole = number(version) + number(len(checked)) + b"".join(checked)
    return urlsafe_b64encode(whole).decode().rstrip("=")


def unpack(letters: str) -> Unpacked:
    """What some letters hold, whatever they are."""
    version: int | None = None
    announced = 0
    pieces: list[bytes | None] = []
    try:
        reader = Reader(_bytes(letters))
        first = reader.number()
        announced = min(reader.number(), _MOST_PIECES)
        version = first
        while len(pieces) < announced:
            length, check = reader.number(), int.from_bytes(reader.take(2))
            piece = reader.take(length)
            pieces.append(piece if _check(piece) == check else None)
    except Damaged:
        pass  # what was read so far is what there is
    return Unpacked(version, announced, tuple(pieces))


def _bytes(letters: str) -> bytes:
    found = _LETTERS.match(letters[:_LONGEST])
    start = found[0] if found else ""
    # One letter alone holds no byte: the link was cut there.
    whole = start[:-1] if len(start) % 4 == 1 else start
    try:
        return urlsafe_b64decode(whole + "=" * (-len(whole) % 4))
    except binascii.Error:
        return b""


def _check(content: bytes) -> int:
    return binascii.crc_hqx(content, 0xFFFF)
