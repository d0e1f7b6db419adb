"""Every exercise's own place, ``x/<id>/``: a light page, the data, the picture, the card, the MIDI file."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import lru_cache, partial
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, Template
from markupsafe import Markup

from wristwork.course.exercise import exercise_data, json_bytes
from wristwork.drawing.card import HEIGHT, WIDTH, Card, CardPress
from wristwork.site.addresses import absolute, relative
from wristwork.site.assets import asset_root, scripts
from wristwork.site.cache import Cache, digest
from wristwork.site.course_site import CourseSite, Exercise
from wristwork.site.drawn import picture
from wristwork.site.figure import Link, tempo_words
from wristwork.site.ledger import Ledger
from wristwork.sound.midi import midi_bytes

# What a link preview shows of a description.
LONGEST_DESCRIPTION = 200


@dataclass(frozen=True, slots=True)
class SiteName:
    """What the site is called, where it is published (None where the course does not say), its language."""

    name: str
    url: str | None
    language: str = "en"


@dataclass(frozen=True, slots=True)
class Made:
    """A file of an exercise: its name in the exercise's folder, what it is made from, and how."""

    name: str
    key: str
    make: Callable[[], bytes]

    @property
    def suffix(self) -> str:
        return Path(self.name).suffix


class Places:
    """Makes the files of every exercise's own place."""

    def __init__(self, site: CourseSite, name: SiteName, cache: Cache) -> None:
        self._site = site
        self._name = name
        self._cache = cache
        self._press: CardPress | None = None

    def write(self, site_dir: Path, ledger: Ledger) -> None:
        """Write every exercise's files below the site's folder.

        They do not pass through the site generator: it would hold all of them in memory until it writes.
        """
        for exercise in self._site.exercises.values():
            folder = site_dir / exercise.folder
            folder.mkdir(parents=True, exist_ok=True)
            ledger.place(
                site_dir, f"{exercise.folder}index.html", self._page_key(exercise), partial(self._html, exercise)
            )
            for made in self._made(exercise):
                self._cache.keep(made.suffix, made.key)
                kept = partial(self._cache.file, made.suffix, made.key, made.make)
                ledger.place(site_dir, f"{exercise.folder}{made.name}", made.key, kept)

    def _made(self, exercise: Exercise) -> tuple[Made, ...]:
        """The files that are made once and kept in the cache."""
        pattern, key, lesson = exercise.pattern, exercise.key, exercise.lesson
        return (
            Made(
                "exercise.json",
                digest("data", key, repr(lesson)),
                lambda: json_bytes(exercise_data(pattern, lesson)),
            ),
            Made("diagram.svg", digest("picture", key), lambda: picture(pattern).encode()),
            Made("pattern.mid", digest("midi", key), lambda: midi_bytes(pattern)),
            Made("card.png", digest("card", key, exercise.page.name, self._name.name), lambda: self._card(exercise)),
        )

    def _page_key(self, exercise: Exercise) -> str:
        """Everything that stands on the exercise's own page."""
        lesson = (exercise.lesson, exercise.page.title)
        return digest(
            "page", exercise.key, repr(lesson), repr(self._relations(exercise)), repr(self._name), asset_root()
        )

    def _html(self, exercise: Exercise) -> bytes:
        return self.page(exercise).encode()

    def page(self, exercise: Exercise) -> str:
        """The exercise's own page: works with scripts off, needs no theme."""
        figure = self._site.own_figure(exercise)
        url = absolute(exercise.folder, self._name.url)
        description = describe(exercise)
        return _template().render(
            lang=self._name.language,
            page_title=" · ".join(dict.fromkeys([exercise.title, exercise.page.name, self._name.name])),
            title=exercise.title,
            description=description,
            site_name=self._name.name,
            url=url,
            card={
                "url": f"{url}card.png",
                "width": WIDTH,
                "height": HEIGHT,
                "alt": f"{exercise.title}: {exercise.sticking[:LONGEST_DESCRIPTION]}",
            },
            audio=None,
            home=relative("", exercise.folder),
            assets=relative(asset_root(), exercise.folder),
            scripts=Markup(scripts(figure, "../../")),
            figure=Markup(figure),
            lesson=Link(lesson_words(exercise), relative(exercise.address, exercise.folder)),
            relations=self._relations(exercise),
        )

    def _relations(self, exercise: Exercise) -> list[tuple[str, list[Link]]]:
        """What an exercise has to do with others, as links to their own places."""

        def places(found: Iterable[Exercise]) -> list[Link]:
            return [Link(one.title, relative(one.folder, exercise.folder)) for one in found]

        def named(names: Iterable[str]) -> list[Link]:
            return places(self._site.exercises[name] for name in names if name in self._site.exercises)

        return [
            ("Taught in", [Link(lesson_words(exercise), relative(exercise.address, exercise.folder))]),
            ("Grows out of", named([exercise.pattern.grows_from or ""])),
            ("Needs first", named(exercise.pattern.requires)),
            ("Leads on to", places(self._site.leads_to.get(exercise.id, []))),
        ]

    def _card(self, exercise: Exercise) -> bytes:
        if self._press is None:
            self._press = CardPress()
        card = Card(
            title=exercise.title,
            eyebrow=exercise.page.name,
            sticking=exercise.sticking,
            tempo=tempo_words(exercise.pattern.tempo),
            site=self._name.name,
            diagram=picture(exercise.pattern),
        )
        return self._press.png(card)


def describe(exercise: Exercise) -> str:
    """The exercise in a sentence or two, for link previews and search engines."""
    sentences = [f"{lesson_words(exercise)}.", f"{exercise.sticking}.", f"{tempo_words(exercise.pattern.tempo)}."]
    if exercise.pattern.note:
        sentences.insert(1, exercise.pattern.note)
    whole = " ".join(sentences)
    return whole if len(whole) <= LONGEST_DESCRIPTION else whole[: LONGEST_DESCRIPTION - 1].rstrip() + "…"


def lesson_words(exercise: Exercise) -> str:
    """The lesson by week and title."""
    page = exercise.page
    return page.title if page.week is None else f"{page.name}: {page.title}"


@lru_cache(maxsize=1)
def _template() -> Template:
    folder = Path(__file__).parent / "templates"
    environment = Environment(loader=FileSystemLoader(folder), autoescape=True, trim_blocks=True, lstrip_blocks=True)
    return environment.get_template("exercise.html")
