"""How exercises lie on what is played in the teacher's own videos: worked out once, kept by content."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import astuple, replace
from functools import cache
from pathlib import Path

from wristwork.languages.numbers import decimal
from wristwork.languages.say import marked, say
from wristwork.pattern.video_span import VideoSpan, clock
from wristwork.site.reading.course_site import Placed
from wristwork.sound.heard import heard
from wristwork.sound.take.fit import Fit
from wristwork.store.making import TAKE_MAKER, digest
from wristwork.store.store import Store

# What to say where no video can be listened to.
INSTALL = marked('Diagrams follow videos once videos can be listened to: pip install "wristwork[clip]"')


class Takes:
    """The fits of one build. ``docs`` is the folder of the pages, from which videos are named."""

    def __init__(self, docs: Path, store: Store) -> None:
        self._docs = docs
        self._store = store
        self._sum = cache(_sum)
        self._known: dict[str, Fit | None] = {}
        self._is_deaf = False

    def fit(self, placed: Placed) -> Fit | None:
        """How an exercise lies on its video, in seconds of the whole video; None where it doesn't, or nobody knows."""
        if placed.id not in self._known:
            self._known[placed.id] = self._fit(placed)
        return self._known[placed.id]

    def notes(self, exercises: Iterable[Placed]) -> Iterator[str]:
        """A line on each exercise with a video of the course's own: whether its diagram follows, and how closely."""
        told = []
        for placed in exercises:
            span = placed.pattern.video
            if span is not None and span.file is not None and (self._docs / span.file).is_file():
                fit = self.fit(placed)
                told.append(_told(placed, span, fit))
        yield from [say(INSTALL)] if self._is_deaf else told

    def _fit(self, placed: Placed) -> Fit | None:
        from wristwork.site.audio.codecs import NoCodecs

        span = placed.pattern.video
        path = self._docs / span.file if span is not None and span.file is not None else None
        if span is None or path is None or not path.is_file():
            return None
        key = digest("take", heard(placed.pattern), self._sum(path), f"{span.start} {span.end}", by=TAKE_MAKER)
        try:
            return self._store.value(key, lambda: _listened(placed, path, span), _fit_of)
        except NoCodecs:
            self._is_deaf = True
            return None


def _listened(placed: Placed, path: Path, span: VideoSpan) -> list[float] | None:
    """A fit as it is kept."""
    from wristwork.site.audio.film_sound import RATE, film_sound
    from wristwork.sound.take.fitting import fitted
    from wristwork.sound.take.hits import hits

    fit = fitted(placed.pattern, hits(film_sound(path, span.start, span.end), RATE))
    return None if fit is None else list(astuple(replace(fit, **_moved(fit, span.start))))


def _moved(fit: Fit, by: int) -> dict[str, float]:
    """Its moments, from the start of the whole video."""
    return {name: round(getattr(fit, name) + by, 4) for name in ("zero_s", "from_s", "to_s")}


def _fit_of(kept: list[float] | None) -> Fit | None:
    return None if kept is None else Fit(*(float(value) for value in kept))


def _told(placed: Placed, span: VideoSpan, fit: Fit | None) -> str:
    names = {"file": span.file, "time": clock(span.start), "exercise": placed.id}
    if fit is None:
        return say(
            "{file} at {time}: the diagram of {exercise} does not follow, for what is heard there does not fit its "
            "strokes",
            **names,
        )
    return say(
        "{file} at {time}: the diagram of {exercise} follows at {tempo} beats a minute; {share} % of its strokes were "
        "heard, {milliseconds} ms off in the mean",
        **names,
        tempo=decimal(fit.tempo, 1),
        share=f"{100 * fit.heard:.0f}",
        milliseconds=f"{fit.error_ms:.0f}",
    )


def _sum(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()
