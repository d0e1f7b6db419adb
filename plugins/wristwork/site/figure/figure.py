"""An exercise on a page, as HTML: title, note, diagram, room for the player, words, links.

Every text that comes from a tutor is escaped by the templates. Scripts find the parts by the classes there.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from markupsafe import Markup

from wristwork.drawing.whole_words import tempo_range
from wristwork.languages.say import say
from wristwork.page.problem import Problem, printable
from wristwork.pattern.model import Pattern
from wristwork.site.templating import markup

_NOTHING = Markup()


@dataclass(frozen=True, slots=True)
class Drawing:
    """What a page shows of a pattern, as markup: ``row`` is the diagram, which reflows, ``words`` the text version."""

    row: Markup
    words: Markup


@dataclass(frozen=True, slots=True)
class Link:
    """A link by its words and its address relative to the page."""

    words: str
    href: str


@dataclass(frozen=True, slots=True)
class Film:
    """Where an exercise is shown in a video: what to call it, its address with the span, and seconds from and to.

    A video elsewhere has a ``host``: it is a link that somebody presses, and nothing of it is loaded before.
    ``beats`` is how the diagram follows, where it does: when in the video a pass begins (seconds), beats a minute, and
    from when to when it is played.
    """

    words: str
    href: str
    start: int = 0
    end: int | None = None
    host: str = ""
    beats: tuple[float, float, float, float] | None = None


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What a figure links to, relative to its page.

    ``folder`` is the exercise's own place (empty on that very page), None for an example and where there is
    no site around it. ``lesson`` is where it is taught, for its own page. ``version`` is that of the data there: a
    player plays no other. ``data`` is the exercise as JSON for a figure without a folder. ``sounds`` are its audio
    previews. ``message`` is how a message about it begins. ``demand`` is how much it asks, as markup. ``hearing`` is
    the page on looking after one's hearing, ``sheet`` the exercise on paper, ``grade`` its own; with ``has_score``
    there is a file for programs that read scores beside the others, with ``has_clip`` a short film. ``film`` is where
    the tutor shows it. ``before`` and ``after`` are the places of the lesson's exercises around this one, for a page
    that holds no more than one.
    """

    folder: str | None = None
    lesson: Link | None = None
    version: str | None = None
    grows_from: Link | None = None
    needs: tuple[Link, ...] = ()
    leads_to: tuple[Link, ...] = ()
    sounds: tuple[Link, ...] = ()
    data: str | None = None
    message: str | None = None
    demand: Markup = _NOTHING
    hearing: str | None = None
    sheet: str | None = None
    grade: int | None = None
    has_score: bool = False
    has_clip: bool = False
    film: Film | None = None
    before: str | None = None
    after: str | None = None


NOWHERE = Surroundings()


@dataclass(frozen=True, slots=True)
class _Relation:
    """What an exercise has to do with others; ``kind`` is the class of its line."""

    kind: str
    words: str
    links: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class _Message:
    """What is wrong, as three paragraphs; the line with its caret must not wrap on a narrow page."""

    headline: str
    excerpt: str = ""
    remedy: str = ""


def figure(pattern: Pattern, drawing: Drawing, around: Surroundings = NOWHERE, heading: str = "span") -> Markup:
    """The exercise or example as one ``<figure>``; ``heading`` is the element of its title."""
    return markup(
        "figure/figure.html",
        attributes=_attributes(pattern, around),
        heading=heading,
        title=pattern.title,
        tempo="" if pattern.example else tempo_range(pattern),
        note=pattern.note,
        drawing=drawing,
        around=around,
        relations=tuple(_relations(around)),
        data=None if around.data is None else _in_script(around.data),
    )


def problem_box(problems: Iterable[Problem]) -> Markup:
    """The figure's stand-in where a pattern is wrong: the same messages as in the terminal."""
    return markup("figure/problems.html", messages=tuple(map(_message, problems)))


def _message(problem: Problem) -> _Message:
    remedy = printable(problem.remedy)
    if problem.excerpt is None:
        return _Message(problem.headline, remedy=remedy)
    shown, lead = problem.excerpt.shown
    return _Message(problem.headline, f"{shown}\n{lead}^", remedy)


def waiting_box(name: str | None, grows_from: str | None) -> Markup:
    """The stand-in of a sound pattern that grows out of a wrong one."""
    assert grows_from is not None, "a pattern without errors waits only for the one it grows out of"
    told = {"name": name or say("This pattern"), "other": grows_from}
    words = say("{name} is drawn as soon as '{other}', which it grows out of, is right.", **told)
    return markup("figure/problems.html", messages=(_Message(words),))


def _attributes(pattern: Pattern, around: Surroundings) -> dict[str, str]:
    named: dict[str, str | None] = {"class": "ww-exercise ww-example" if pattern.id is None else "ww-exercise"}
    if pattern.id is not None:
        named["id"] = named["data-ww-id"] = pattern.id
        named["data-ww-src"] = None if around.folder is None else around.folder or "./"
        named["data-ww-version"] = around.version
        named["data-ww-message"] = around.message
        named |= {"data-ww-before": around.before, "data-ww-next": around.after}
    elif not pattern.title:
        named["aria-label"] = say("Example")
    named["data-ww-tempos"] = f"{pattern.tempo.start} {pattern.tempo.goal}"
    named["data-ww-bar"] = str(pattern.time.beats)
    named["data-ww-hearing"] = around.hearing
    return {name: value for name, value in named.items() if value}


def _relations(around: Surroundings) -> Iterator[_Relation]:
    if around.lesson:
        yield _Relation("ww-taught-in", say("Taught in"), (around.lesson,))
    if around.grows_from:
        yield _Relation("ww-from", say("Grows out of"), (around.grows_from,))
    if around.needs:
        yield _Relation("ww-needs", say("Needs first"), around.needs)
    if around.leads_to:
        yield _Relation("ww-leads-to", say("Leads on to"), around.leads_to)


def _in_script(data: str) -> Markup:
    """JSON that nothing in it can end the script element of: "<" stands only within strings, and is spelt out."""
    return Markup(data.replace("<", "\\u003c"))
