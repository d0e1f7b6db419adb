"""``wristwork read``: another program's file as a pattern."""

from __future__ import annotations

from pathlib import Path

from wristwork.cli.paint import Paint
from wristwork.cli.trouble import Trouble
from wristwork.exchange.incoming import Asked, Unreadable, read_file
from wristwork.exchange.incoming.xml_tree import MOST_BYTES
from wristwork.languages.say import say
from wristwork.page.problem import printable
from wristwork.technique.strokes import Limb

_HANDS = {"right": Limb.RIGHT_HAND, "left": Limb.LEFT_HAND}


def read_in(path: Path, hands: str | None, bars: tuple[int, int] | None, paint: Paint, errors: Paint) -> int:
    """Write a file's pattern to the screen, and what is told of it beside it."""
    asked = Asked(_HANDS[hands] if hands else None, bars)
    try:
        written = read_file(_content(path), path.stem, asked)
    except Unreadable as error:
        raise Trouble(f"{path}: {error.what}", error.remedy) from error
    for line in ("```pattern", *written.text.splitlines(), "```"):
        paint.line(printable(line))
    for remark in written.remarks:
        errors.line(f"wristwork: {printable(remark)}")
    return 0


def _content(path: Path) -> bytes:
    try:
        with path.open("rb") as file:
            return file.read(MOST_BYTES + 1)
    except OSError as error:
        found = say("{file} can't be read", file=path)
        raise Trouble(found, error.strerror or say("look at its permissions")) from error
