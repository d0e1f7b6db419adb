"""The kit that a course is played on."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from wristwork.sound.kit.voices import Sound, Voice


@dataclass(frozen=True, eq=False)
class Kit:
    """The made kit, with a tutor's ``own`` sounds in place of the made ones of their voices.

    A made sound is computed when it is first asked for; the digest needs none.
    """

    own: Mapping[Voice, tuple[Sound, ...]] = field(default_factory=dict)

    def sounds(self, voice: Voice) -> tuple[Sound, ...]:
        """The sounds that strokes of this voice take in turn."""
        if voice in self.own:
            return self.own[voice]
        # Imported when a sound is made: a build that finds everything in its cache waits for no synthesis libraries.
        from wristwork.sound.kit.made import made_sounds

        return made_sounds(voice)

    @cached_property
    def digest(self) -> str:
        """The same for kits with the same own sounds."""
        told = hashlib.sha256()
        for voice in sorted(self.own):
            for sound in self.own[voice]:
                told.update(f"{voice.place}\0{voice.level}\0{sound.gain!r}\0{len(sound.strike)}\0".encode())
                told.update(sound.strike.tobytes())
        return told.hexdigest()
