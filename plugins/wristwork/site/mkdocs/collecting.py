"""The course out of the files that MkDocs has collected, for a build and for a check alike."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel

from wristwork.course.opening import closed_page, is_closed
from wristwork.site.mkdocs.course_reading import Prepared, Reading, missing_pages, read, shut
from wristwork.site.mkdocs.privacy import student_problems
from wristwork.site.mkdocs.sources import Shown, read_sources
from wristwork.store.store import Store


def collected(
    config: MkDocsConfig,
    prepared: Prepared,
    files: Files,
    store: Store,
    shown: Shown,
    previewing: bool,
    renders: bool,
    day: date | None = None,
) -> Reading:
    """Add to the files the pages that every course has, and read all of them. ``shown`` says how messages name one.

    Weeks that open after the ``day`` are read, and give their place to a page that says when; without a day all are
    open.
    """
    pages = documentation_pages(files, previewing)
    own = read_sources(pages, shown)
    missing = missing_pages(config, own)
    taken = {file.url for file in files}
    theirs = {file.dest_uri: shown(file) for file in files if file.abs_src_path is not None}
    made = [_made(config, page.src_uri, page.markdown) for page in missing.pages]
    made = [page for page in made if page.url not in taken]
    for page in made:
        files.append(page)
    if previewing:
        _empty(config, files, own.unread)
    ours = read_sources(made, shown)
    left_out = [file for file in files if file.is_documentation_page() and file.inclusion.is_excluded()]
    out = read_sources(left_out if not previewing else (), shown)
    private = student_problems(prepared.root, files, own, shown)
    sources = replace(own, pages=(*own.pages, *ours.pages), problems=(*own.problems, *private), left_out=out.pages)
    reading = read(prepared, missing, sources, store, renders, theirs)
    closed = {} if day is None else _closed(reading, day)
    if not closed:
        return reading
    for uri, text in closed.items():
        _put(config, files, uri, text)
    return shut(reading, prepared, sources, store, closed)


def _closed(reading: Reading, day: date) -> dict[str, str]:
    """What stands in the place of pages that are not open yet, by ``src_uri``."""
    weeks = ((page.src_uri, page.week) for page in reading.site.pages.values())
    return {uri: closed_page(week) for uri, week in weeks if week is not None and is_closed(week, day)}


def documentation_pages(files: Files, previewing: bool) -> list[File]:
    """The pages that a build publishes, or a preview shows."""
    inclusion = InclusionLevel.is_in_serve if previewing else InclusionLevel.is_included
    return list(files.documentation_pages(inclusion=inclusion))


def _empty(config: MkDocsConfig, files: Files, unread: tuple[str, ...]) -> None:
    """Put an empty page in the place of one that cannot be read, so that a preview can say so on it."""
    for uri in unread:
        _put(config, files, uri, "")


def _put(config: MkDocsConfig, files: Files, uri: str, content: str) -> None:
    """Put a page of our own in the place of a tutor's."""
    file = files.get_file_from_path(uri)
    if file is not None:
        files.remove(file)
        made = _made(config, uri, content)
        made.inclusion = file.inclusion
        files.append(made)


def _made(config: MkDocsConfig, uri: str, content: str) -> File:
    """A page that lies in no folder. MkDocs's own maker of such files works in a build only."""
    file = File(uri, src_dir=None, dest_dir=config.site_dir, use_directory_urls=config.use_directory_urls)
    file.generated_by = "wristwork"
    file.content_string = content
    return file
