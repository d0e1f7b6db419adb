"""A course as it is read, for a build and for a check alike: its pages, its records, and all that is wrong with them.

What is prepared before any page is read and what is read are two values; nothing in them changes afterwards.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig

from wristwork.course.addresses import FILE_NAME
from wristwork.course.opening import opening_problems
from wristwork.course.page_order import nav_pages
from wristwork.course.safety.safe_practice import Topic
from wristwork.languages.say import say
from wristwork.page.problem import ADDRESS, FRONT_MATTER, MARK, PAGE, PATTERN, SETTINGS, SOUND, Problem, open_problems
from wristwork.pattern.claims import named_ids
from wristwork.site.audio.codecs import INSTALL, MISSING, has_codecs
from wristwork.site.audio.sounds import Sounds
from wristwork.site.audio.takes import Takes
from wristwork.site.exercise.record import AddressBook
from wristwork.site.frontend.look import HOUSE_LOOK, Look
from wristwork.site.mkdocs.config import WristworkConfig
from wristwork.site.mkdocs.course_checks import course_allowances, course_findings
from wristwork.site.mkdocs.library import read_library
from wristwork.site.mkdocs.looking import line_of, read_look
from wristwork.site.mkdocs.site_files import SITE_FILES
from wristwork.site.mkdocs.sources import Sources
from wristwork.site.overview.made_pages import MadePage, made_pages
from wristwork.site.overview.marks import mark_problems
from wristwork.site.reading.course_site import Choices, CourseSite
from wristwork.site.reading.films import film_problems
from wristwork.site.reading.paper_places import BOOK
from wristwork.site.reading.topic_pages import own_topics
from wristwork.site.student.offline import LISTS, WORKER
from wristwork.store.store import Store

# What no text consists of.
_BLANK = " \t\n\x00\ufeff"
# What every site holds, at its root.
OURS = (WORKER, BOOK, *(file.address for file in SITE_FILES))
# What is said first: a cause before what may follow from it.
_ORDER = (PAGE, SETTINGS, FRONT_MATTER, PATTERN, MARK, SOUND, ADDRESS)


@dataclass(frozen=True, slots=True)
class Prepared:
    """What is known before a page is read: the course's folder, the tutor's choices, what is wrong in the settings.

    ``notes`` are what a build says of the look. ``docs`` is the folder of the pages.
    """

    root: Path
    own: WristworkConfig
    choices: Choices
    problems: tuple[Problem, ...]
    look: Look = HOUSE_LOOK
    notes: tuple[str, ...] = ()
    docs: Path = Path()


@dataclass(frozen=True, slots=True)
class Missing:
    """The pages that every course has and this one does not, and each safe-practice page's topic by ``src_uri``."""

    pages: tuple[MadePage, ...]
    topics: Mapping[str, Topic]
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class Reading:
    """A course that is read. ``problems`` stop a build, causes first; ``findings`` warn.

    They tell of all of it; of the ``closed`` pages (by ``src_uri``) the site holds only when they open. ``waiting`` are
    the ids that lead to exercises of such pages, with the day.
    """

    site: CourseSite
    sounds: Sounds
    takes: Takes
    book: AddressBook
    topics: Mapping[str, Topic]
    problems: tuple[Problem, ...]
    findings: tuple[Problem, ...]
    closed: frozenset[str] = frozenset()
    waiting: Mapping[str, date] = field(default_factory=dict)
    notes: tuple[str, ...] = ()
    """What a build and a check say of the course where nothing is wrong."""

    def on_page(self, path: str) -> tuple[Problem, ...]:
        """What is wrong with a page beside its patterns, which say it themselves."""
        told = [*self.problems, *open_problems(self.findings)]
        beside = (PAGE, FRONT_MATTER, MARK, "unknown-line")
        return tuple(problem for problem in told if problem.path == path and problem.kind in beside)


def prepare(config: MkDocsConfig, own: WristworkConfig, root: Path, previewing: bool = False) -> Prepared:
    """What the settings say of the course in the folder ``root``."""
    allow, problems = course_allowances(own, config)
    # A preview changes from minute to minute, and shares its address with every other.
    keeps_offline = own.offline and not previewing
    order = tuple(nav_pages(config.nav))
    # A preview waits for nothing that takes so long.
    has_clips = own.clips and not previewing and has_codecs()
    has_paper = own.paper is not None
    choices = Choices(own.show, own.days, order, own.starts, allow, keeps_offline, has_paper, own.score, has_clips)
    seen = read_look(config, own)
    library = read_library(config, own.library, line_of(config, "library:"))
    choices = replace(choices, library=library.pages)
    told = (*problems, *seen.problems, *library.problems, *_clip_problems(config, own))
    return Prepared(root, own, choices, told, seen.look, seen.notes, docs=Path(config.docs_dir))


def _clip_problems(config: MkDocsConfig, own: WristworkConfig) -> Iterator[Problem]:
    if own.clips and not has_codecs():
        file = Path(config.config_file_path or "mkdocs.yml").name
        yield Problem(file, line_of(config, "clips:"), 0, say(MISSING), say(INSTALL), SETTINGS)


def missing_pages(config: MkDocsConfig, sources: Sources) -> Missing:
    """The pages that every course has and these sources do not."""
    topics, problems = own_topics(sources.pages)
    missing = [topic for topic in Topic if topic not in topics.values()]
    has_weeks = any("week" in source.page.front.settings for source in sources.pages)
    pages = made_pages(config.site_name, config.site_description, missing, has_weeks)
    return Missing(tuple(pages), {**topics, **{topic.src_uri: topic for topic in missing}}, tuple(problems))


def read(
    prepared: Prepared, missing: Missing, sources: Sources, store: Store, renders: bool, files: Mapping[str, str]
) -> Reading:
    """Read all pages of a course. ``files`` says how messages name the tutor's, by the address they are to have."""
    sounds, takes = Sounds(prepared.root, store, renders), Takes(prepared.docs, store)
    unread = _unread(sources)
    blank = {source.src_uri: source.path for source in sources.pages if not source.page.text.strip(_BLANK)}
    gone = AddressBook.published_in(prepared.root, {*sources.unread, *blank})
    left_out = frozenset(name for name, place in unread.items() if place.is_left_out)
    site = CourseSite(
        sources.pages,
        store,
        prepared.choices,
        sounds.names,
        _hearing(missing.topics),
        sources.claimed | left_out | gone.keys(),
        takes.fit,
    )
    text = site.course.text
    told = {*site.exercises, *(fence.name for fence in text.fences), *(text.claimed - left_out)}
    book = AddressBook(prepared.root, site, frozenset(unread) - told)
    places = {*site.exercises, *book.forwards, *book.retired}
    problems = [
        *prepared.problems,
        *sources.problems,
        *(_emptied(blank[uri]) for uri in sorted({*gone.values()} & {*blank} - {*sources.unread})),
        *_lost(files, places),
        *missing.problems,
        *(unread[name].problem(name) for name in sorted(book.unread)),
        *site.problems,
        *opening_problems(site.course),
        *film_problems((placed.exercise for placed in site.exercises.values()), files),
        *mark_problems((source.page for source in sources.pages), _paths(missing.topics, site)),
        *sounds.problems,
        *book.problems,
    ]
    ordered = _causes_first(problems)
    findings = (*site.warnings, *course_findings(site.course, prepared.own, has_problems=bool(ordered)))
    notes = tuple(takes.notes(site.exercises.values()))
    return Reading(site, sounds, takes, book, missing.topics, ordered, findings, notes=notes)


def shut(reading: Reading, prepared: Prepared, sources: Sources, store: Store, closed: Mapping[str, str]) -> Reading:
    """The course as it is on the site while some pages are closed: their text in place of the tutor's."""
    pages = [
        replace(source, text=closed[source.src_uri]) if source.src_uri in closed else source for source in sources.pages
    ]
    hearing, fit = _hearing(reading.topics), reading.takes.fit
    site = CourseSite(pages, store, prepared.choices, reading.sounds.names, hearing, sources.claimed, fit)
    book = reading.book.leading_to(site.exercises)
    return replace(reading, site=site, book=book, closed=frozenset(closed), waiting=_waiting(reading, closed))


def _waiting(reading: Reading, closed: Container[str]) -> dict[str, date]:
    """The ids of exercises on closed pages, and those that moved there, with the day on which they open."""
    taught = {placed.id: placed.page for placed in reading.site.exercises.values() if placed.page.src_uri in closed}
    days = {id_: page.week.opens for id_, page in taught.items() if page.week and page.week.opens}
    return {**days, **{id_: days[end] for id_, end in reading.book.forwards.items() if end in days}}


def _hearing(topics: Mapping[str, Topic]) -> str | None:
    """The page on looking after one's hearing."""
    return next((uri for uri, topic in topics.items() if topic is Topic.HEARING), None)


@dataclass(frozen=True, slots=True)
class _UnreadExercise:
    """Where a text names an id without being read as an exercise."""

    path: str
    line: int
    is_left_out: bool

    def problem(self, name: str) -> Problem:
        """What to say where that id was published."""
        if self.is_left_out:
            found = say(
                "the exercise '{name}', which was published, stands in a page that exclude_docs leaves out", name=name
            )
            remedy = say(
                "take the page out of exclude_docs; or, if it is to go, say in {file} where it went and take it out "
                "here",
                file=FILE_NAME,
            )
        else:
            found = say(
                "the exercise '{name}', which was published, stands here and is not read: in a comment or a fence",
                name=name,
            )
            remedy = say(
                "close the comment or fence above it; or, if it is to go, say in {file} where it went and take it out "
                "here",
                file=FILE_NAME,
            )
        return Problem(self.path, self.line, 0, found, remedy, PATTERN)


def _unread(sources: Sources) -> dict[str, _UnreadExercise]:
    """Where ids are named, in pages that are left out and anywhere in the others."""
    found: dict[str, _UnreadExercise] = {}
    for is_left_out, pages in ((False, sources.pages), (True, sources.left_out)):
        for source in pages:
            for name, line in named_ids(source.page.lines):
                found.setdefault(name, _UnreadExercise(source.path, line, is_left_out))
    return found


def _emptied(path: str) -> Problem:
    """What to say of a page without a word, in which exercises were published."""
    found = say("an empty page, where exercises were published")
    remedy = say("put its text back, or say in {file} where they went", file=FILE_NAME)
    return Problem(path, 1, 0, found, remedy, PAGE)


def _lost(files: Mapping[str, str], places: Container[str]) -> Iterator[Problem]:
    """Files of the tutor's that the site could not hold, for the tool writes files of these names itself."""
    found = say("stands at an address that Wristwork writes itself, so it would be lost")
    for address, path in files.items():
        parts = address.split("/")
        is_place = parts[0] == "x" and len(parts) > 1 and (parts[1] in places or parts[1] == "exercises.json")
        if is_place or address in OURS or address.startswith(("assets/wristwork/", LISTS)):
            yield Problem(path, 0, 0, found, say("give it another name or folder"), PAGE)


def _paths(topics: Iterable[str], site: CourseSite) -> frozenset[str]:
    """The paths of the safe-practice pages."""
    return frozenset(site.pages[uri].path for uri in topics if uri in site.pages)


def _causes_first(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """In the order of what comes from what; for one thing in the order of the pages."""
    return tuple(sorted(problems, key=lambda problem: _ORDER.index(problem.kind)))
