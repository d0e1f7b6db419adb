"""The kit that a course is played on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from wristwork.sound.kit.voices import KitVoice, Sound


@dataclass(frozen=True, eq=False)
class Kit:
    """The made kit, with ``given`` sounds in place of the made ones of their voices: a tutor's own, or all as kept.

    A made sound is computed when it is first asked for.
    """

    given: Mapping[KitVoice, tuple[Sound, ...]] = field(default_factory=dict)

    def sounds(self, voice: KitVoice) -> tuple[Sound, ...]:
        """The sounds that strokes of this voice take in turn."""
        if voice in self.given:
            return self.given[voice]
        # Imported when a sound is made: a build that finds everything in its cache waits for no synthesis libraries.
        from wristwork.sound.kit.made import made_sounds

        return made_sounds(voice)
