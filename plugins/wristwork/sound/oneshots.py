"""The kit as files: one short lossless file for each clip, and a list of what is what.

The browser's player plays them, and whoever renders reads the kit back from them: making it takes seconds. The files
hold exactly what the audio files are mixed from. No file has a sample of silence in front.
"""

from __future__ import annotations

import io
from collections.abc import Mapping
from pathlib import PurePath
from typing import Any

import soundfile

from wristwork.sound.kit import Clip, Kit, KitVoice, Sound
from wristwork.sound.kit.voices import CHOKE_SECONDS, CHOKES, SOUNDS_FOR_TWO_HANDS, VOICES, rounded
from wristwork.sound.peaks import CEILING_DB, KNEE_DB
from wristwork.sound.schedule import BUZZ, DRAG_CLOSED_AT, DRAG_CLOSES_FROM, DRAG_CLOSES_TO
from wristwork.technique.strokes import FLAM_AHEAD_MS

_FLAC_MARK = b"fLaC"
_FLAC_LAST = 0x80  # in the first byte of a block: none comes after it


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
            [[_file(clip), rounded(gain)] for clip, gain in sound.parts] for sound in kit.sounds(voice)
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


def kit_of(manifest: Mapping[str, Any], files: Mapping[str, bytes]) -> Kit:
    """The kit whose :func:`manifest` and :func:`oneshots` these are, sample by sample and gain by gain."""
    clips = {name: _read(name, content) for name, content in files.items()}

    def sound(parts: list[tuple[str, float]]) -> Sound:
        return Sound(tuple((clips[file], gain) for file, gain in parts))

    return Kit(
        {
            KitVoice(instrument, level): tuple(map(sound, sounds))
            for instrument, levels in manifest["sounds"].items()
            for level, sounds in levels.items()
        }
    )


def _clips(kit: Kit) -> list[Clip]:
    """Every clip once."""
    found = {clip.name: clip for voice in VOICES for sound in kit.sounds(voice) for clip, _ in sound.parts}
    return list(found.values())


def _file(clip: Clip) -> str:
    return f"{clip.name}.flac"


def _flac(clip: Clip) -> bytes:
    written = io.BytesIO()
    soundfile.write(written, clip.pcm, clip.rate, format="FLAC", subtype="PCM_16", compression_level=1.0)
    return _bare(written.getvalue())


def _bare(flac: bytes) -> bytes:
    """The file with its first block (rate, bits, length) and its sound, without the writer's name and other blocks.

    Source of the layout: RFC 9639, sections 8.1 and 8.2.
    """
    blocks = [len(_FLAC_MARK)]
    while not flac[blocks[-1]] & _FLAC_LAST:
        blocks.append(_after_block(flac, blocks[-1]))
    first = flac[blocks[0] : _after_block(flac, blocks[0])]
    return _FLAC_MARK + bytes([first[0] | _FLAC_LAST]) + first[1:] + flac[_after_block(flac, blocks[-1]) :]


def _after_block(flac: bytes, start: int) -> int:
    return start + 4 + int.from_bytes(flac[start + 1 : start + 4], "big")


def _read(name: str, content: bytes) -> Clip:
    pcm, rate = soundfile.read(io.BytesIO(content), dtype="int16")
    return Clip(PurePath(name).stem, pcm, rate)
