"""Read where an exercise is shown in a teacher's own video: a file of the course and a span, or an address elsewhere.

````
video: videos/lesson-3.mp4 at 3:46 to 4:12
video: videos/lesson-3.mp4 at 3:46
video: https://film.example/lesson-3 at 3:46
````
"""

from __future__ import annotations

import re
from pathlib import PurePosixPath
from urllib.parse import urlsplit

from wristwork.languages.say import say
from wristwork.pattern.problems import Report
from wristwork.pattern.text import Value
from wristwork.pattern.video_span import VideoSpan

# What browsers play from a page without anything else.
FORMATS = (".mp4", ".m4v", ".webm", ".mov", ".ogv")
EXAMPLE = "videos/lesson.mp4 at 3:46 to 4:12"
LONGEST_S = 12 * 60 * 60
_TIME = r"(?:\d{1,2}:)?\d{1,3}:\d{2}|\d{1,5}"
_SPAN = re.compile(rf"(?P<where>.*?)(?:\s+(?:at|from)\s+(?P<start>{_TIME})(?:\s+to\s+(?P<end>{_TIME}))?)?", re.DOTALL)
_LOOKS_LIKE_TIMES = re.compile(r"\s(?:at|from)\s+\S*$|\s(?:at|from)\s.*\sto\s", re.IGNORECASE)


def read_video(value: Value, report: Report) -> VideoSpan | None:
    """Where it is shown, or None with an error."""
    found = _SPAN.fullmatch(value.text)
    problem = _times_problem(value.text) if found is None or found["start"] is None else None
    if found is None or problem is not None:
        none = say("a video that is none: '{text}'", text=value.text)
        report.add(value.place(), problem or none, say("write, say, {example}", example=EXAMPLE))
        return None
    where, start = found["where"].strip(), _seconds(found["start"] or "0")
    end = _seconds(found["end"]) if found["end"] else None
    problem, remedy = _problem(where, start, end)
    if problem:
        report.add(value.place(), problem, remedy)
        return None
    is_link = "://" in where
    return VideoSpan(None if is_link else where, where if is_link else None, start, end)


def _times_problem(text: str) -> str | None:
    return say("times that can't be read") if _LOOKS_LIKE_TIMES.search(text) else None


def _problem(where: str, start: int, end: int | None) -> tuple[str, str]:
    """What is wrong, and the remedy; empty where nothing is."""
    if end is not None and end <= start:
        return say("an end that is not after the start"), say(
            "write the earlier time first: {example}", example=EXAMPLE
        )
    if max(start, end or 0) > LONGEST_S:
        return say("a time beyond twelve hours"), say("minutes and seconds, as in {example}", example=EXAMPLE)
    if "://" in where:
        parts = urlsplit(where)
        is_link = parts.scheme == "https" and bool(parts.hostname) and not re.search(r"\s", where)
        if is_link:
            return "", ""
        return say("'{text}' is no address", text=where), say("an address begins with https://")
    if not where or where.startswith("/") or "\\" in where or ".." in PurePosixPath(where).parts:
        found = say("'{path}' is no file of the course", path=where)
        return found, say("write its path from the folder of the pages: {example}", example=EXAMPLE)
    if PurePosixPath(where).suffix.lower() not in FORMATS:
        found = say("'{path}' is no video that browsers play", path=where)
        return found, say("save it as .mp4, or as one of {formats}", formats=", ".join(FORMATS[1:]))
    return "", ""


def _seconds(text: str) -> int:
    """The seconds of ``226``, ``3:46`` or ``1:03:46``."""
    seconds = 0
    for part in text.split(":"):
        seconds = 60 * seconds + int(part)
    return seconds
