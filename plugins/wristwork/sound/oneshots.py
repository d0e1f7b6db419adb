"""The kit for the browser's player: one short lossless file for each clip, and a list of what is what.

The files hold exactly what the audio files are mixed from. No file has a sample of silence in front.
"""

from __future__ import annotations

import io
from typing import Any

import soundfile

from wristwork.sound.kit import Clip, Kit
from wristwork.sound.kit.voices import CHOKE_SECONDS, CHOKES, SOUNDS_FOR_TWO_HANDS, VOICES
from wristwork.sound.peaks import CEILING_DB, KNEE_DB
from wristwork.sound.schedule import BUZZ, DRAG_CLOSED_AT, DRAG_CLOSES_FROM, DRAG_CLOSES_TO
from wristwork.technique.strokes import FLAM_AHEAD_MS


def oneshots(kit: Kit) -> dict[str, bytes]:
    """The files of a kit, by name: FLAC, mono, 16 bits; what the pad and the click need comes first."""
    return {_file(clip): _flac(clip) for clip in _clips(kit)}


def manifest(kit: Kit) -> dict[str, Any]:
    """What a player has to know of the files, as plain values for JSON.

    - ``sounds``: place → level → sounds, each a list of ``[file, gain]`` to start together. ``click`` has the levels
      ``high`` and ``low``. Sounds are taken in turn; from ``two_hands`` of them on the right hand takes every other one
      from the first on, the left hand the rest.
    - ``files``: the names of all files.
    - ``chokes``: place → the places that fall silent, within ``choke_seconds``, when it is struck after them.
    - ``buzz``: the figures of :func:`wristwork.sound.schedule.bounces`.
    - ``drag``: how far the tempo closes an ornament of more than one grace note.
    - ``safety``: the figures of :func:`wristwork.sound.peaks.safe`.
    """
    sounds: dict[str, dict[str, list[list[list[str | float]]]]] = {}
    for voice in VOICES:
        sounds.setdefault(voice.instrument, {})[voice.level] = [
            [[_file(clip), float(f"{gain:.6g}")] for clip, gain in sound.parts] for sound in kit.sounds(voice)
        ]
    return {
        "sounds": sounds,
        "two_hands": SOUNDS_FOR_TWO_HANDS,
        "files": [_file(clip) for clip in _clips(kit)],
        "chokes": {drum.value: [choked.value for choked in all_choked] for drum, all_choked in CHOKES.items()},
        "choke_seconds": CHOKE_SECONDS,
        "buzz": BUZZ,
        "drag": {
            "longer_than": FLAM_AHEAD_MS / 1000,
            "from": DRAG_CLOSES_FROM,
            "to": DRAG_CLOSED_AT,
            "closes_to": float(DRAG_CLOSES_TO),
        },
        "safety": {"knee_db": KNEE_DB, "ceiling_db": CEILING_DB},
    }


def _clips(kit: Kit) -> list[Clip]:
    """Every clip once."""
    found = {clip.name: clip for voice in VOICES for sound in kit.sounds(voice) for clip, _ in sound.parts}
    return list(found.values())


def _file(clip: Clip) -> str:
    return f"{clip.name}.flac"


def _flac(clip: Clip) -> bytes:
    written = io.BytesIO()
    soundfile.write(written, clip.pcm, clip.rate, format="FLAC", subtype="PCM_16", compression_level=1.0)
    return written.getvalue()
