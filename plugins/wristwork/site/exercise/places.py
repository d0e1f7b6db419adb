"""Every exercise's own place, ``x/<id>/``: its page, its data, the picture, the card, the MIDI file, the score."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from wristwork.course.exercise import exercise_data, json_bytes
from wristwork.drawing.card import Card, CardPress
from wristwork.drawing.dyeing import in_colours
from wristwork.drawing.whole_words import tempo_range
from wristwork.languages.say import say
from wristwork.pattern.model import Pattern
from wristwork.site.exercise.place_page import PlacePages, SiteName
from wristwork.site.film.clips import Clips
from wristwork.site.reading.course_site import CourseSite, Placed
from wristwork.site.reading.place_files import CLIP, SCORE
from wristwork.store.making import digest
from wristwork.store.publication import Publication


@dataclass(frozen=True, slots=True)
class Made:
    """A file of an exercise: its name in the exercise's folder, what it is made from, and how."""

    name: str
    key: str
    make: Callable[[], bytes]

    @property
    def kept_as(self) -> str:
        """Its name in the store."""
        return f"{self.key}{Path(self.name).suffix}"


class Places:
    """Makes the files of every exercise's own place."""

    def __init__(self, site: CourseSite, name: SiteName, clips: Clips | None = None) -> None:
        """``clips`` makes films, where the course has them."""
        self._site = site
        self._name = name
        self._pages = PlacePages(site, name)
        self._press: CardPress | None = None
        self._clips = clips

    def write(self, publication: Publication) -> None:
        """Write every exercise's files below the site's folder.

        They do not pass through the site generator: it would hold all of them in memory until it writes.
        """
        for placed in self._site.exercises.values():
            (publication.folder / placed.folder).mkdir(parents=True, exist_ok=True)
            for made in self._made(placed):
                publication.place(f"{placed.folder}{made.name}", made.kept_as, made.make)

    def _made(self, placed: Placed) -> tuple[Made, ...]:
        pattern, key, lesson = placed.pattern, placed.key, placed.lesson
        data = digest("data", key, repr(lesson))
        look = self._name.look
        card = digest("card", key, placed.page.name, self._name.name, repr(look))
        score = (Made(SCORE, digest("score", key), lambda: _score(pattern)),) if self._site.has_scores else ()
        clips = self._clips
        clip = (Made(CLIP, clips.key(placed), lambda: clips.film(placed)),) if clips else ()
        return (
            Made("index.html", self._pages.key(placed), lambda: self._pages.html(placed).encode()),
            Made("exercise.json", data, lambda: _data(placed)),
            Made("diagram.svg", digest("picture", key, repr(look.palette)), lambda: self._picture(placed)),
            Made("pattern.mid", digest("midi", key), lambda: _midi(pattern)),
            Made("card.png", card, lambda: self._card(placed)),
            *score,
            *clip,
        )

    def _picture(self, placed: Placed) -> bytes:
        return self._in_colours(self._site.picture(placed)).encode()

    def _in_colours(self, svg: str) -> str:
        palette = self._name.look.palette
        return in_colours(svg, palette.light) if palette else svg

    def _card(self, placed: Placed) -> bytes:
        if self._press is None:
            self._press = CardPress(self._name.look.letters)
        drawn = self._site.on_card(placed)
        look = self._name.look
        card = Card(
            title=placed.title,
            eyebrow=placed.page.name,
            sticking=placed.sticking,
            tempo=tempo_range(placed.pattern),
            site=self._name.name,
            diagram=self._in_colours(drawn.svg),
            part=_part(drawn.bars, placed.pattern.full_bars),
            colours=look.palette.light if look.palette else {},
            logo=look.drawn.content if look.drawn else None,
        )
        return self._press.png(card)


def _part(shown: int, bars: int) -> str:
    """Which bars a card shows, where it has no room for all."""
    if shown == bars:
        return ""
    return (
        say("bar 1 of {bars}", bars=bars) if shown == 1 else say("bars 1 to {shown} of {bars}", shown=shown, bars=bars)
    )


def _data(placed: Placed) -> bytes:
    return json_bytes({**exercise_data(placed.pattern, placed.lesson), "version": placed.version})


def _midi(pattern: Pattern) -> bytes:
    from wristwork.sound.midi import midi_bytes  # only a file that is made anew needs the library behind it

    return midi_bytes(pattern)


def _score(pattern: Pattern) -> bytes:
    from wristwork.exchange.score import score_bytes  # and so here

    return score_bytes(pattern)
