"""The files of a course's site beside its pages, one row for each: where it stands, and what makes it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from wristwork.course.exercise import json_bytes
from wristwork.course.schema import exercise_schema
from wristwork.site.exercise.place_page import SiteName
from wristwork.site.exercise.record import AddressBook
from wristwork.site.frontend.head import MANIFEST
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.student.pages import COURSE, course_data, manifest
from wristwork.site.week.dates import CALENDAR, calendar_file


@dataclass(frozen=True, slots=True)
class Whole:
    """All that a file of the site can be made from."""

    site: CourseSite
    name: SiteName
    description: str | None
    book: AddressBook


@dataclass(frozen=True, slots=True)
class SiteFile:
    """``make`` gives the bytes, or None where this course has no such file. No page or file of a tutor's may have
    the address."""

    address: str
    make: Callable[[Whole], bytes | None]


SITE_FILES = (
    SiteFile("schema/exercise.json", lambda whole: json_bytes(exercise_schema())),
    SiteFile(CALENDAR, lambda whole: calendar_file(whole.site, whole.name)),
    SiteFile(COURSE, lambda whole: course_data(whole.site, whole.name, whole.book)),
    SiteFile(MANIFEST, lambda whole: manifest(whole.site, whole.name, whole.description)),
)


def site_files(whole: Whole) -> Iterator[tuple[str, bytes]]:
    """Every file by its address."""
    for file in SITE_FILES:
        content = file.make(whole)
        if content is not None:
            yield file.address, content
