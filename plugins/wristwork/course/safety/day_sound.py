"""How much of a day's sound a session takes, surface by surface, as a week's practice card tells it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from wristwork.course.safety import exposure, facts
from wristwork.course.safety.exposure import FIT_TESTED, NO_PROTECTION, Protection, Surface
from wristwork.languages.numbers import number
from wristwork.languages.say import say

# Counted with where a week states no protection: about what the best foam plugs come to by NIOSH's rule for
# labels. Our own cautious setting.
MODEST_PROTECTION = Protection(FIT_TESTED, 10)
# From here on a share is told in days.
_IN_DAYS_FROM = 2 * facts.FULL_DOSE.value


@dataclass(frozen=True, slots=True)
class SoundShare:
    """A session's share of a day's dose in percent, on a surface with what is worn."""

    surface: Surface
    protection: Protection
    percent: float

    @property
    def is_protected(self) -> bool:
        return self.protection.kind is not NO_PROTECTION

    @property
    def is_too_much(self) -> bool:
        """Is it more than a whole day's dose?"""
        return self.percent > facts.FULL_DOSE.value

    @property
    def words(self) -> str:
        """The share, rounded up: ``under 1 %``, ``13 %``, ``140 %, more than a day’s``, ``13.5 days’ worth``."""
        if self.percent < 1:
            return say("under 1 %")
        # The tiny subtraction keeps a share that lies a hair above a whole number from being told as one more.
        if self.percent < _IN_DAYS_FROM:
            percent = math.ceil(self.percent - 1e-9)
            if self.is_too_much:
                return say("{percent} %, more than a day’s", percent=percent)
            return say("{percent} %", percent=percent)
        return say("{days} days’ worth", days=number(math.ceil(self.percent / 10 - 1e-9) / 10))


def sound_shares(minutes: float, worn: Protection) -> tuple[SoundShare, ...]:
    """Pad, quiet kit and acoustic kit without protection, then the acoustic kit with it.

    ``minutes`` are those in which there is sound, ``worn`` is the week's protection.
    """
    protection = MODEST_PROTECTION if worn.kind is NO_PROTECTION else worn
    bare = [(surface, exposure.UNPROTECTED) for surface in (exposure.PAD, exposure.QUIET_KIT, exposure.ACOUSTIC_KIT)]
    return tuple(
        SoundShare(surface, protected, exposure.sound_share(minutes, surface, protected) or 0)
        for surface, protected in [*bare, (exposure.ACOUSTIC_KIT, protection)]
    )
