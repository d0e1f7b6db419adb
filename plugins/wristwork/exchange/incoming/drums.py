"""Which drum a file means: by its name, by its key among the percussion of General MIDI, by its place on the staff."""

from __future__ import annotations

import re

from wristwork.exchange.vocabulary import HEADS, MIDDLE_LINE, STEPS
from wristwork.pattern.drums import Drum
from wristwork.pattern.placement import called, drum_named

# Keys of General MIDI level 1 (percussion) beside those that drums are written with here.
_MORE_KEYS = {
    31: Drum.STICK_ON_STICK, 35: Drum.KICK, 40: Drum.SNARE, 41: Drum.FLOOR_TOM, 48: Drum.MID_TOM, 59: Drum.RIDE,
}  # fmt: skip
KEY_DRUMS = {drum.row.key: drum for drum in reversed(Drum)} | _MORE_KEYS

# Words in the names that programs give instruments, the telling ones first: all of a row have to be there.
_WORDS: tuple[tuple[Drum, str], ...] = (
    (Drum.CROSS_STICK, r"cross.?stick|side.?stick|rim ?click"),
    (Drum.RIM_SHOT, r"rim ?shot"),
    (Drum.STICK_ON_STICK, r"stick (?:click|shot)|sticks\b"),
    (Drum.HI_HAT_FOOT, r"(?:pedal|foot).*hi.?hat|hi.?hat.*(?:pedal|foot)"),
    (Drum.HALF_OPEN_HI_HAT, r"half.*hi.?hat|hi.?hat.*half"),
    (Drum.OPEN_HI_HAT, r"open.*hi.?hat|hi.?hat.*open"),
    (Drum.HI_HAT, r"hi.?hats?\b|high.?hat"),
    (Drum.RIDE_BELL, r"ride.*bell|bell.*ride"),
    (Drum.RIDE, r"\bride\b"),
    (Drum.CHINA, r"china|chinese"),
    (Drum.SPLASH, r"splash"),
    (Drum.SECOND_CRASH, r"crash.*2|second crash"),
    (Drum.CRASH, r"crash"),
    (Drum.COWBELL, r"cow ?bell"),
    (Drum.KICK, r"bass drum|kick"),
    (Drum.SNARE, r"snare"),
    (Drum.FLOOR_TOM, r"floor.*tom|tom.*floor"),
    (Drum.HIGH_TOM, r"\bhi(?:gh)?\b.*tom|small tom"),
    (Drum.MID_TOM, r"\bmid.*tom|middle.*tom"),
    (Drum.LOW_TOM, r"\blow.*tom"),
)


def drum_of_name(name: str) -> Drum | None:
    """The drum that an instrument's name means."""
    words = " ".join(name.lower().replace("_", " ").split())
    found = drum_named(words) or called(words)
    return found or next((drum for drum, pattern in _WORDS if re.search(pattern, words)), None)


def drum_of_key(key: int) -> Drum | None:
    """The drum of a key, counted from 0."""
    return KEY_DRUMS.get(key)


def drum_at(step: str, octave: int, head: str) -> Drum | None:
    """The drum that stands at a place of a percussion staff (named as in a treble clef) with this head."""
    return _PLACES.get((step, octave, head))


def _places() -> dict[tuple[str, int, str], Drum]:
    found: dict[tuple[str, int, str], Drum] = {}
    for drum in Drum:
        octave, step = divmod(MIDDLE_LINE + drum.row.step, 7)
        if drum is not Drum.PAD:
            found.setdefault((STEPS[step], octave, HEADS[drum.row.head]), drum)
    return found


_PLACES = _places()
