"""Lists over the whole course in parts, each on a page of its own: no phone draws thousands of rows at once."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from wristwork.languages.say import say
from wristwork.site.addresses import relative
from wristwork.site.reading.course_site import CourseSite, Placed
from wristwork.site.reading.lessons import LessonPage
from wristwork.site.templating import markup

# With so many a page is there within a second on a middling phone.
MOST_EXERCISES = 300
_NUMBER_IN_ADDRESS = re.compile(r"part-(\d+)/$")


@dataclass(frozen=True, slots=True)
class ListPart:
    """Lessons that follow one another, ``number`` from 1; a course that is not large is one part."""

    number: int
    lessons: tuple[LessonPage, ...]

    @property
    def name(self) -> str:
        """The weeks that it holds."""
        weeks = [page.number for page in self.lessons if page.number is not None]
        if not weeks:
            return say("In no week")
        if len(weeks) == 1:
            return say("Week {number}", number=weeks[0])
        return say("Weeks {first} to {last}", first=weeks[0], last=weeks[-1])

    @property
    def within(self) -> str:
        """The same within a sentence."""
        weeks = [page.number for page in self.lessons if page.number is not None]
        if not weeks:
            return say("no week")
        if len(weeks) == 1:
            return say("week {number}", number=weeks[0])
        return say("weeks {first} to {last}", first=weeks[0], last=weeks[-1])


def parts(site: CourseSite) -> tuple[ListPart, ...]:
    """The course cut between lessons: the weeks by their number, then what belongs to none."""
    others = [page for page in site.pages.values() if not page.week and site.exercises_on(page)]
    sizes = [(page, len(site.exercises_on(page))) for page in (*site.weeks, *others)]
    return tuple(ListPart(number, lessons) for number, lessons in enumerate(_cut(sizes), 1)) or (ListPart(1, ()),)


def _cut(sizes: Sequence[tuple[LessonPage, int]]) -> Iterator[tuple[LessonPage, ...]]:
    held: list[LessonPage] = []
    count = 0
    for page, size in sizes:
        if held and count + size > MOST_EXERCISES:
            yield tuple(held)
            held, count = [], 0
        held.append(page)
        count += size
    if held:
        yield tuple(held)


def part_at(site: CourseSite, url: str) -> ListPart:
    """The part that the page at ``url`` shows: the first on a page that names none."""
    named = _NUMBER_IN_ADDRESS.search(url)
    all_ = parts(site)
    return all_[min(int(named[1]), len(all_)) - 1] if named else all_[0]


def exercises_at(site: CourseSite, url: str) -> list[Placed]:
    """The exercises of the part that the page at ``url`` shows, in the order of the course."""
    if len(parts(site)) == 1:
        return list(site.exercises.values())
    return [placed for page in part_at(site, url).lessons for placed in site.exercises_on(page)]


@dataclass(frozen=True, slots=True)
class _PartLink:
    """A link to a part."""

    name: str
    href: str
    is_here: bool


def part_links(site: CourseSite, url: str, first: str) -> Markup:
    """Links to all parts, of which ``first`` is the address of the first; nothing for a course of one part."""
    all_ = parts(site)
    if len(all_) == 1:
        return Markup()
    here = part_at(site, url)
    ways = tuple(_PartLink(part.name, _address(part, url, first), part == here) for part in all_)
    return markup("overview/parts.html", ways=ways)


def _address(part: ListPart, url: str, first: str) -> str:
    return relative(first if part.number == 1 else f"{first}part-{part.number}/", url)
