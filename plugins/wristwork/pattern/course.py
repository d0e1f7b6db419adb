"""Every pattern of a course: read from the text of its pages, grown out of one another."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from wristwork.languages.say import say
from wristwork.page.page import Page, read_pages
from wristwork.page.problem import ADDRESS, Problem
from wristwork.pattern.draft import Draft, read_draft
from wristwork.pattern.fences import Block, find_blocks, split_lines
from wristwork.pattern.grow import check_alone, grow
from wristwork.pattern.grown import Grown
from wristwork.pattern.model import Pattern, Place
from wristwork.pattern.problems import PatternError
from wristwork.pattern.settings import LONGEST_ID, id_from
from wristwork.pattern.text import SourceLine
from wristwork.wording import nearest


@dataclass(frozen=True, slots=True)
class Located:
    """A fence of the course: where it stands, and the pattern that it means (None where it is wrong).

    ``number`` counts the pattern fences of the page from 0; ``text`` is what stands between the fences.
    ``problems`` are this fence's own; a pattern that only fails because the one it grows out of is
    wrong has none, and no pattern either. ``name`` is its id or title, ``grows_from`` the id it grows out of,
    ``places`` where the values of its lines stand, by key.
    """

    path: str
    number: int
    place: Place
    text: str
    pattern: Pattern | None
    problems: tuple[Problem, ...]
    warnings: tuple[Problem, ...]
    name: str | None
    grows_from: str | None
    places: Mapping[str, Place]


@dataclass(frozen=True, slots=True)
class CourseText:
    """All pattern fences of a course, in the order of the pages given.

    ``claimed`` are the ids that text which cannot be read seems to give: nobody knows whether they are gone.
    """

    fences: tuple[Located, ...]
    claimed: frozenset[str] = frozenset()

    @property
    def problems(self) -> tuple[Problem, ...]:
        return tuple(problem for fence in self.fences for problem in fence.problems)

    @property
    def warnings(self) -> tuple[Problem, ...]:
        return tuple(warning for fence in self.fences for warning in fence.warnings)

    @property
    def exercises(self) -> dict[str, Located]:
        """The good exercises by id, in the order of the pages."""
        return {
            fence.pattern.id: fence
            for fence in self.fences
            if fence.pattern is not None and fence.pattern.id is not None
        }

    def on_page(self, path: str) -> tuple[Located, ...]:
        return tuple(fence for fence in self.fences if fence.path == path)


def read_course(texts: Mapping[str, str]) -> CourseText:
    """Read the patterns of a course: a mapping from the path shown in errors to the page's text."""
    return read_patterns(read_pages(texts))


def read_patterns(
    pages: Iterable[Page], claimed: frozenset[str] = frozenset(), library: Iterable[Page] = ()
) -> CourseText:
    """Read the patterns of a course's pages. ``claimed`` are ids that other pages may hold, which cannot be read.

    Exercises in the pages of the ``library`` may be taken and grown out of; they are none of the course's.
    """
    shared = _shared(library)
    drafts = _drafts(pages, shared)
    grower = _Grower([draft for _, draft in drafts], claimed, shared)
    return CourseText(grower.located([number for number, _ in drafts]), grower.claimed)


def _drafts(pages: Iterable[Page], shared: Mapping[str, Draft]) -> list[tuple[int, Draft]]:
    return [
        (number, read_draft(page.path, block, shared))
        for page in pages
        for number, block in enumerate(find_blocks(page.lines, page.front.length))
    ]


def _shared(library: Iterable[Page]) -> Mapping[str, Draft]:
    """The exercises of a library by id; what is wrong with one is told where it is taken."""
    drafts = [draft for _, draft in _drafts(library, {})]
    _Grower(drafts).grow_all()
    named = ((draft.id, draft) for draft in reversed(drafts) if not draft.example)
    return {name: draft for name, draft in named if name is not None}


class _Grower:
    """Grows every draft once, parents before children."""

    def __init__(
        self,
        drafts: list[Draft],
        claimed: frozenset[str] = frozenset(),
        shared: Mapping[str, Draft] = MappingProxyType({}),
    ) -> None:
        """``shared`` are drafts of other pages by id, out of which these may grow, too."""
        self._shared = shared
        self._drafts = drafts
        self._by_id: dict[str, Draft] = {}
        self._examples = {id_from(draft.title) for draft in drafts if draft.example and draft.title}
        self._grown: dict[int, tuple[Grown, Pattern] | None] = {}
        # Ids that a tutor typed come first: one made from a title gives way to them.
        for draft in sorted(drafts, key=lambda draft: draft.id_from_title):
            if draft.id is not None and not draft.example:
                self._register(draft, draft.id)
        self.claimed = claimed.union(*(draft.claims for draft in drafts))

    def _register(self, draft: Draft, name: str) -> None:
        first = self._by_id.setdefault(name, draft)
        if first is draft:
            return
        where = f"{first.path}:{first.block.place.line}"
        taken = say("the id '{id}' is taken by the pattern in {place}", id=name, place=where)
        if draft.id_from_title:
            draft.report.add(draft.place_of("title"), taken, say("write an id of its own: id: another-name"))
        else:
            other = f"{name[: LONGEST_ID - 2]}-2"
            draft.report.add(draft.place_of("id"), taken, say("choose another, such as {name}", name=other))

    def located(self, numbers: list[int]) -> tuple[Located, ...]:
        for draft in self._drafts:
            self._check_requires(draft)
        self.grow_all()
        return tuple(self._locate(draft, number) for draft, number in zip(self._drafts, numbers, strict=True))

    def grow_all(self) -> None:
        """Grow every draft; what is wrong with one goes to its report."""
        for draft in self._drafts:
            self._grow(draft)

    def _locate(self, draft: Draft, number: int) -> Located:
        grown = self._grown[id(draft)]
        problems = tuple(sorted(draft.report.problems, key=lambda problem: (problem.line, problem.column)))
        return Located(
            path=draft.path,
            number=number,
            place=draft.block.place,
            text=draft.block.text,
            pattern=None if grown is None or problems else self._known(grown[1]),
            problems=problems,
            warnings=tuple(self._warnings(draft)),
            name=draft.report.pattern,
            grows_from=draft.grows_from,
            places={key: entry.value.place() for key, entry in draft.entries.items()},
        )

    def _known(self, pattern: Pattern) -> Pattern:
        """A pattern that names no shared exercise as its source: readers of this course know of none."""
        return pattern if pattern.grows_from in self._by_id else replace(pattern, grows_from=None)

    def _warnings(self, draft: Draft) -> Iterable[Problem]:
        if draft.id_from_title and draft.id is not None and self._by_id.get(draft.id) is draft:
            yield draft.problem(
                draft.place_of("title"),
                say("no id: its address follows the title, and breaks when the title changes"),
                say("add id: {id} (or the id it had, if it was published before)", id=draft.id),
                ADDRESS,
            )

    def _grow(self, draft: Draft) -> None:
        """Grow a draft, and before it all that it grows out of."""
        way: list[Draft] = []
        steps: dict[int, int] = {}
        step: Draft | None = draft
        while step is not None and id(step) not in self._grown:
            self._grown[id(step)] = None  # what comes round to a step of this way finds nothing grown
            steps[id(step)] = len(way)
            way.append(step)
            step = self._source(step.grows_from) if step.grows_from is not None else None
        if step is not None and id(step) in steps:
            self._tell_circle(way[steps[id(step)] :])
        for each in reversed(way):
            self._grown[id(each)] = self._grow_one(each)

    def _grow_one(self, draft: Draft) -> tuple[Grown, Pattern] | None:
        """Grow a draft whose source is grown already, where it could be."""
        if draft.grows_from is None:
            return grow(draft, None)
        source = self._source(draft.grows_from)
        if source is None:
            self._tell_missing(draft, draft.grows_from)
        grown = self._grown[id(source)] if source is not None else None
        if grown is None:
            check_alone(draft)
            return None
        return grow(draft, grown[0])

    def _source(self, name: str) -> Draft | None:
        """What grows under a name: the course's own exercise before a shared one."""
        return self._by_id.get(name) or self._shared.get(name)

    def _tell_missing(self, draft: Draft, name: str) -> None:
        if name in self.claimed:
            return  # it is there, with an error of its own
        remedy = self._meant(name)
        if name in self._examples:
            found = say("'{id}' is an example, and nothing grows out of an example", id=name)
            remedy = say("take example: yes out of it and give it an id, or copy its lines")
        elif draft.id is not None:
            found = say("'{id}' is not an exercise of this course ({own} → {id})", id=name, own=draft.id)
        else:
            found = say("'{id}' is not an exercise of this course (this pattern → {id})", id=name)
        draft.report.add(draft.place_of("from"), found, remedy)

    def _meant(self, name: str) -> str:
        """The remedy for an id that no exercise has."""
        near = nearest(name, self._by_id)
        return say("did you mean {near}?", near=near) if near else say("name the id of an exercise that is there")

    def _tell_circle(self, circle: list[Draft]) -> None:
        """Say once, at the first of them in the course, which patterns grow out of each other."""
        first = min(circle, key=self._drafts.index)
        turn = circle.index(first)
        steps = " → ".join(draft.id or "" for draft in [*circle[turn:], *circle[:turn], first])
        first.report.add(
            first.place_of("from"),
            say("a circle of exercises that grow out of each other: {steps}", steps=steps),
            say("break it at one of them"),
        )

    def _check_requires(self, draft: Draft) -> None:
        for part in draft.requires:
            if part.text not in self._by_id and part.text not in self.claimed:
                found = say("'{id}' is not an exercise of this course", id=part.text)
                draft.report.add(part.place(), found, self._meant(part.text))


def read_one(text: str, path: str = "pattern") -> Pattern:
    """The pattern that the inside of one fence means (``from`` is not available).

    Raises :class:`wristwork.pattern.problems.PatternError` with all that is wrong; lines are
    counted from the first line of the text.
    """
    lines = tuple(SourceLine(number, 0, line) for number, line in enumerate(split_lines(text), start=1))
    block = Block("", SourceLine(1, 0, ""), lines, 0, len(lines))
    located = _Grower([read_draft(path, block)]).located([0])[0]
    if located.pattern is None:
        raise PatternError(located.problems)
    return located.pattern
