"""Files of other programs → pattern lines: scores in MusicXML and MIDI files, for the drums that are known here."""

from wristwork.exchange.incoming.reading import Asked, Written, read_file
from wristwork.exchange.incoming.unreadable import Unreadable

__all__ = ["Asked", "Unreadable", "Written", "read_file"]
