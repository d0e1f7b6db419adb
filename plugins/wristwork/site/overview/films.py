"""All videos of the course, whole, with a mark for each exercise that they show."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import PurePosixPath
from urllib.parse import quote

from markupsafe import Markup

from wristwork.pattern.video_span import clock
from wristwork.site.addresses import relative
from wristwork.site.figure.figure import Link
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.reading.films import by_film
from wristwork.site.templating import markup


@dataclass(frozen=True, slots=True)
class _Chapter:
    """An exercise in a video, from ``start`` seconds on."""

    start: int
    time: str
    exercise: Link


@dataclass(frozen=True, slots=True)
class _WholeFilm:
    name: str
    href: str
    chapters: tuple[_Chapter, ...]


def all_films(site: CourseSite, url: str) -> Markup:
    """Every video that exercises are shown in, for the page at ``url``."""
    films = [
        _WholeFilm(
            PurePosixPath(file).stem.replace("-", " ").capitalize(),
            relative(quote(file), url),
            tuple(
                _Chapter(pattern.video.start, clock(pattern.video.start), site.link(site.exercises[pattern.id], url))
                for pattern in patterns
                if pattern.video is not None and pattern.id is not None
            ),
        )
        for file, patterns in by_film(placed.pattern for placed in site.exercises.values()).items()
    ]
    return markup("overview/films.html", films=films)
