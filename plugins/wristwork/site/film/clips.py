"""The films of a course's exercises, with all that a course says of their look and sound."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import TYPE_CHECKING

from wristwork.drawing.card import reads_right_to_left
from wristwork.languages.say import say
from wristwork.site.addresses import absolute
from wristwork.site.film.layout import SQUARE, FilmWords, Shape
from wristwork.site.frontend import colours
from wristwork.site.frontend.look import Look
from wristwork.site.reading.course_site import Placed
from wristwork.store.making import Maker, digest

if TYPE_CHECKING:
    from wristwork.sound.kit import Kit

# Beside our own code these make a film.
FILM_MAKER = Maker(("",), ("av", "numpy", "typst"))


class Clips:
    """Makes films of exercises.

    ``url`` is where the course is published (None where it does not say); ``kit`` gives the drum kit, which takes
    seconds, and ``kit_key`` says which one it is.
    """

    def __init__(self, name: str, url: str | None, look: Look, kit: Callable[[], Kit], kit_key: str) -> None:
        self._name = name
        self._url = url
        self._look = look
        self._made_kit = kit
        self._kit_key = kit_key

    def key(self, placed: Placed, shape: Shape = SQUARE) -> str:
        """A name for the film by all that goes into it."""
        return digest("clip", placed.key, repr(self._words(placed)), repr(self._look), repr(shape), self._kit_key,
                      by=FILM_MAKER)  # fmt: skip

    def film(self, placed: Placed, shape: Shape = SQUARE) -> bytes:
        """The film as an MP4 file."""
        from wristwork.site.film.clip import clip  # with what makes sound and pictures, which most builds do without

        light = {**colours.house().light, **self._look.colours.light}
        return clip(placed.pattern, self._words(placed), self._kit, light, self._look.letters, shape)

    @cached_property
    def _kit(self) -> Kit:
        return self._made_kit()

    def _words(self, placed: Placed) -> FilmWords:
        address = absolute(placed.folder, self._url) or ""
        return FilmWords(
            placed.title,
            placed.page.full_name,
            say("{tempo} beats a minute", tempo=placed.pattern.tempo.start),
            self._name,
            address.partition("://")[2].rstrip("/"),
            reads_right_to_left(placed.title),
        )
