"""The front page of a studio: its courses, each with a link, in the studio's look."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from wristwork.languages.say import spoken
from wristwork.site.frontend.assets import asset_files, asset_root
from wristwork.site.frontend.dress import dressed
from wristwork.site.frontend.look import Look
from wristwork.site.templating import whole_page

INDEX = "index.html"
# By this a page is known as one that may be made anew.
MARK = '<meta name="generator" content="wristwork studio">'
# Of all that pages of a course need: colours, letters, the icon.
_NEEDED = ("place.css", "icon.svg", "fonts/")


@dataclass(frozen=True, slots=True)
class StudioCourse:
    """A course as the front page names it; ``address`` is where it is published."""

    name: str
    description: str
    address: str


def studio_page(name: str, courses: Sequence[StudioCourse], look: Look) -> Iterator[tuple[str, bytes]]:
    """The files of the page, by their addresses."""
    yield (
        INDEX,
        whole_page(
            "overview/studio_page.html", title=name, lang=spoken().code, courses=courses, **dressed(look, "")
        ).encode(),
    )
    for address, content in asset_files().items():
        if address.startswith(_NEEDED):
            yield f"{asset_root()}/{address}", content
    yield from look.files.items()
