"""Finding in a text what was said there, in the spoken language."""

from __future__ import annotations

import re

from wristwork.languages.say import say

_NAME = re.compile(r"\\\{(\w+)\\\}")


def pattern_of(text: str, **parts: str) -> str:
    """What matches all that ``say(text, …)`` says, each value matching the pattern of its name."""
    said = re.escape(say(text))
    return _NAME.sub(lambda found: parts[found[1]], said)
