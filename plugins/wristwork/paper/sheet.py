"""An exercise's sheet: diagram, note, tempos to tick, a code with the tempo, room to write."""

from __future__ import annotations

from dataclasses import dataclass

from wristwork.course.safety.safe_practice import STOP_RULE
from wristwork.drawing.whole_words import tempo_range
from wristwork.languages.say import marked, say
from wristwork.paper.ladder import tempo_ladder
from wristwork.paper.parts import (
    OPEN_THE_PAGE,
    ROOM_TO_WRITE,
    Rows,
    code_for,
    drawn_pattern,
    shown_address,
    with_tempo,
)
from wristwork.paper.press import Paper, Press
from wristwork.pattern.model import Pattern

_MARGINS = 36  # mm, left and right together
TICK = marked("Tick a tempo when it was clean and easy")


@dataclass(frozen=True, slots=True)
class Sheet:
    """What a sheet is of: ``eyebrow`` says where it is taught, ``address`` is its own page on the site."""

    pattern: Pattern
    eyebrow: str = ""
    address: str | None = None
    show: Rows = None


def sheet_pdf(press: Press, sheet: Sheet, paper: Paper) -> bytes:
    """The sheet as a PDF."""
    pattern = sheet.pattern
    address = with_tempo(sheet.address, pattern.tempo.start)
    is_climbed = pattern.tempo.start != pattern.tempo.goal or pattern.id is not None
    drawn = drawn_pattern(pattern, paper, paper.room(_MARGINS), sheet.show)
    data = {
        **drawn,
        "title": pattern.title or say("Exercise"),
        "eyebrow": sheet.eyebrow,
        "tempo": tempo_range(pattern) if is_climbed else "",
        "ladder": tempo_ladder(pattern.tempo) if is_climbed else (),
        "ladder-words": say(TICK),
        "code": code_for(address),
        "code-words": say(OPEN_THE_PAGE),
        "address": address,
        "shown-address": shown_address(address),
        "stop": say(STOP_RULE),
        "room-words": say(ROOM_TO_WRITE),
    }
    return press.pdf("sheet", data, paper)
