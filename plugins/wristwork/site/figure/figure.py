"""An exercise on a page, as HTML: title, note, diagram, room for the player, words, links.

Every text that comes from a tutor is escaped here. Scripts find the parts by their classes, see the
names in the functions below.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from html import escape

from wristwork.drawing import tempo_mark
from wristwork.page.problem import Problem, printable
from wristwork.pattern.model import Pattern, Tempo


@dataclass(frozen=True, slots=True)
class Drawing:
    """What a page shows of a pattern, as markup: ``row`` is the diagram, which reflows, ``words`` the text version."""

    row: str
    words: str


@dataclass(frozen=True, slots=True)
class Link:
    """A link by its words and its address relative to the page."""

    words: str
    href: str

    @property
    def html(self) -> str:
        return f'<a href="{escape(self.href)}"><bdi>{escape(self.words)}</bdi></a>'


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What a figure links to, relative to its page.

    ``folder`` is the exercise's own place (empty on that very page), None for an example and where there is
    no site around it. ``version`` is that of the data there: a player plays no other. ``data`` is the exercise as
    JSON for a figure without a folder. ``sounds`` are its audio previews. ``message`` is how a message about it
    begins. ``demand`` is how much it asks, as markup. ``hearing`` is the page on looking after one's hearing;
    ``before`` and ``after`` are the places of the lesson's exercises around this one, for a page that holds no more
    than one.
    """

    folder: str | None = None
    version: str | None = None
    grows_from: Link | None = None
    needs: tuple[Link, ...] = ()
    leads_to: tuple[Link, ...] = ()
    sounds: tuple[Link, ...] = ()
    data: str | None = None
    message: str | None = None
    demand: str = ""
    hearing: str | None = None
    before: str | None = None
    after: str | None = None


NOWHERE = Surroundings()


def figure(pattern: Pattern, drawing: Drawing, around: Surroundings = NOWHERE, heading: str = "span") -> str:
    """The exercise or example as one ``<figure>``; ``heading`` is the element of its title."""
    return "".join(
        [
            f"<figure {_attributes(pattern, around)}>",
            _caption(pattern, heading),
            f'<div class="ww-diagram">{drawing.row}</div>',
            f'<div class="ww-controls">{_sounds(around.sounds)}</div>',
            f'<details class="ww-words"><summary>In words</summary>{drawing.words}</details>',
            around.demand,
            _links(around),
            _data(around.data),
            "</figure>",
        ]
    )


def problem_box(problems: Iterable[Problem]) -> str:
    """The figure's stand-in where a pattern is wrong: the same messages as in the terminal."""
    return f'<div class="ww-problem" role="alert">{"".join(map(_message, problems))}</div>'


def _message(problem: Problem) -> str:
    """One message: its words wrap on a narrow page, but the line with its caret must not."""
    excerpt = ""
    if problem.excerpt is not None:
        shown, lead = problem.excerpt.shown
        excerpt = f'<pre tabindex="0">{escape(shown)}\n{lead}^</pre>'
    return f"<p>{escape(problem.headline)}</p>{excerpt}<p>{escape(printable(problem.remedy))}</p>"


def waiting_box(name: str | None, grows_from: str | None) -> str:
    """The stand-in of a sound pattern that grows out of a wrong one."""
    assert grows_from is not None, "a pattern without errors waits only for the one it grows out of"
    words = f"{name or 'This pattern'} is drawn as soon as '{grows_from}', which it grows out of, is right."
    return f'<div class="ww-problem" role="alert"><p>{escape(words)}</p></div>'


def tempo_words(tempo: Tempo) -> str:
    """The tempo range in words: ``60 to 100 beats a minute``."""
    return f"{tempo_mark.tempo_words(tempo)} beats a minute"


def _attributes(pattern: Pattern, around: Surroundings) -> str:
    named: dict[str, str | None] = {"class": "ww-exercise ww-example" if pattern.id is None else "ww-exercise"}
    if pattern.id is not None:
        named["id"] = named["data-ww-id"] = pattern.id
        named["data-ww-src"] = None if around.folder is None else around.folder or "./"
        named["data-ww-version"] = around.version
        named["data-ww-tempos"] = f"{pattern.tempo.start} {pattern.tempo.goal}"
        named["data-ww-message"] = around.message
        named |= {"data-ww-before": around.before, "data-ww-next": around.after}
    elif not pattern.title:
        named["aria-label"] = "Example"
    named["data-ww-hearing"] = around.hearing
    return " ".join(f'{name}="{escape(value)}"' for name, value in named.items() if value)


def _caption(pattern: Pattern, heading: str) -> str:
    """Title, tempo and note; an example may have none of them."""
    parts = []
    if pattern.title:
        parts.append(f'<{heading} class="ww-title" dir="auto">{escape(pattern.title)}</{heading}>')
    if not pattern.example:
        parts.append(f'<span class="ww-tempo">{tempo_words(pattern.tempo)}</span>')
    if pattern.note:
        parts.append(f'<span class="ww-note" dir="auto">{escape(pattern.note)}</span>')
    return f"<figcaption>{''.join(parts)}</figcaption>" if parts else ""


def _sounds(sounds: tuple[Link, ...]) -> str:
    """Plain audio elements for where no script runs; the player puts them behind a key of its own."""
    rows = [
        f'<div class="ww-sound"><span>{escape(sound.words)}</span>'
        f'<audio controls preload="none" src="{escape(sound.href)}" aria-label="{escape(sound.words)}"></audio></div>'
        for sound in sounds
    ]
    return f'<div class="ww-audio">{"".join(rows)}</div>' if rows else ""


def _links(around: Surroundings) -> str:
    if around.folder is None and around.grows_from is None and not around.needs and not around.leads_to:
        return ""
    items = []
    if around.grows_from:
        items.append(f'<li class="ww-from">grows out of {around.grows_from.html}</li>')
    if around.needs:
        items.append(f'<li class="ww-needs">needs {", ".join(link.html for link in around.needs)}</li>')
    if around.leads_to:
        items.append(f'<li class="ww-leads-to">prepares for {", ".join(link.html for link in around.leads_to)}</li>')
    if around.folder is not None:
        folder = escape(around.folder)
        if folder:
            items.append(f'<li><a class="ww-place" href="{folder}">Lasting link</a></li>')
        items.append(f'<li><a href="{folder}pattern.mid" download>MIDI file</a></li>')
        items.append(f'<li><a href="{folder}diagram.svg">Diagram as a picture</a></li>')
    return f'<ul class="ww-links">{"".join(items)}</ul>'


def _data(data: str | None) -> str:
    if data is None:
        return ""
    # "<" in JSON stands only within strings, where this spelling means the same.
    safe = data.replace("<", "\\u003c")
    return f'<script type="application/json" class="ww-data">{safe}</script>'
