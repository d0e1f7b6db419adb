"""An exercise's own page, ``x/<id>/``: light, of no theme, whole with scripts off."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from wristwork.drawing.card import HEIGHT, WIDTH
from wristwork.drawing.whole_words import tempo_range
from wristwork.paper.ladder import tempo_ladder
from wristwork.paper.qr import qr_code
from wristwork.site.addresses import absolute, breakable, relative
from wristwork.site.frontend.assets import asset_root, scripts
from wristwork.site.frontend.dress import dressed
from wristwork.site.frontend.head import head
from wristwork.site.frontend.look import HOUSE_LOOK, Look
from wristwork.site.reading.course_site import CourseSite, Placed
from wristwork.site.templating import whole_page
from wristwork.store.making import digest

# What a link preview shows of a description.
LONGEST_DESCRIPTION = 200


@dataclass(frozen=True, slots=True)
class SiteName:
    """What the site is called, where it is published (None where the course does not say), its language, its look."""

    name: str
    url: str | None
    language: str = "en"
    look: Look = HOUSE_LOOK


class PlacePages:
    """Writes the exercises' own pages."""

    def __init__(self, site: CourseSite, name: SiteName) -> None:
        self._site = site
        self._name = name

    def key(self, placed: Placed) -> str:
        """Everything that stands on the page."""
        own = self._site.own_surroundings(placed)
        around = (placed.lesson, placed.page.full_name, self._name, own)
        return digest("page", placed.key, repr(around), asset_root(), self._head(placed))

    def _head(self, placed: Placed) -> Markup:
        return head(self._site, placed.folder, self._name.url, self._name.look, placed.page.number)

    def html(self, placed: Placed) -> str:
        """The page."""
        figure = self._site.own_figure(placed)
        url = absolute(placed.folder, self._name.url)
        return whole_page(
            "exercise/place_page.html",
            lang=self._name.language,
            page_title=" · ".join(dict.fromkeys([placed.title, placed.page.name, self._name.name])),
            title=placed.title,
            description=describe(placed),
            site_name=self._name.name,
            url=url,
            card={"url": f"{url}card.png", "width": WIDTH, "height": HEIGHT, "alt": _card_words(placed)},
            audio=[f"{url}{name}" for name in self._site.heard(placed)],
            home=relative("", placed.folder),
            **dressed(self._name.look, placed.folder),
            scripts=scripts(figure, relative("", placed.folder)),
            figure=figure,
            ladder=tempo_ladder(placed.pattern.tempo),
            code=Markup(qr_code(url)) if url else None,
            url_words=breakable(url or ""),
            lesson=self._site.own_surroundings(placed).lesson,
            head=self._head(placed),
        )


def describe(placed: Placed) -> str:
    """The exercise in a sentence or two, for link previews and search engines."""
    note = [placed.pattern.note] if placed.pattern.note else []
    played = [f"{placed.sticking}.", f"{tempo_range(placed.pattern)}."]
    return _cut(" ".join([f"{placed.page.full_name}.", *note, *played]))


def _card_words(placed: Placed) -> str:
    return _cut(f"{placed.title}: {placed.sticking}")


def _cut(text: str) -> str:
    return text if len(text) <= LONGEST_DESCRIPTION else f"{text[: LONGEST_DESCRIPTION - 1].rstrip()}…"
