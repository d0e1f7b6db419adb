"""A teacher's own videos: where an exercise is shown in one, and which exercises a video shows."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from urllib.parse import quote

from wristwork.course.checks.table import at_exercise
from wristwork.course.course import Exercise
from wristwork.languages.say import say
from wristwork.page.problem import PATTERN, Problem
from wristwork.pattern.model import Pattern
from wristwork.pattern.video_span import VideoSpan, clock
from wristwork.site.addresses import relative
from wristwork.site.figure.figure import Film
from wristwork.sound.take.fit import Fit
from wristwork.wording import nearest


def film_of(pattern: Pattern, url: str, fit: Fit | None = None) -> Film | None:
    """Where a pattern is shown, for the page at ``url``, and how it lies on what is played there."""
    span = pattern.video
    if span is None:
        return None
    if span.file is None:
        return Film(_words(span), span.url or "", span.start, span.end, span.host)
    # A fragment of time is what a browser without scripts plays.
    until = "" if span.end is None else f",{span.end}"
    href = f"{relative(quote(span.file), url)}#t={span.start}{until}"
    beats = None if fit is None else (fit.zero_s, fit.tempo, fit.from_s, fit.to_s)
    return Film(_words(span), href, span.start, span.end, beats=beats)


def _words(span: VideoSpan) -> str:
    if span.end is not None:
        return say("See it played ({time})", time=clock(span.end - span.start))
    return say("See it played, from {time}", time=clock(span.start)) if span.start else say("See it played")


def by_film(patterns: Iterable[Pattern]) -> Mapping[str, tuple[Pattern, ...]]:
    """The patterns of each of the course's own videos, in the order in which it shows them."""
    shown = [(pattern.video.file, pattern.video.start, pattern) for pattern in patterns if pattern.video is not None]
    found: dict[str, list[Pattern]] = {}
    for file, _, pattern in sorted((one for one in shown if one[0] is not None), key=lambda one: (one[0], one[1])):
        found.setdefault(str(file), []).append(pattern)
    return {file: tuple(patterns) for file, patterns in found.items()}


def film_problems(exercises: Iterable[Exercise], files: Collection[str]) -> Iterator[Problem]:
    """Videos that are named and not there; ``files`` are the course's, by their paths from the folder of the pages."""
    for exercise in exercises:
        span = exercise.pattern.video
        if span is None or span.file is None or span.file in files:
            continue
        near = nearest(span.file, [file for file in files if file.endswith(span.file[-4:])])
        remedy = (
            say("did you mean {near}?", near=near)
            if near
            else say("put the file into the folder of the pages, or mend its path")
        )
        yield at_exercise(PATTERN, exercise, say("the video '{file}' is not there", file=span.file), remedy, "video")
