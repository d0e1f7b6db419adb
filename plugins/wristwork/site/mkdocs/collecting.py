"""The course out of the files that MkDocs has collected, for a build and for a check alike."""

from __future__ import annotations

from dataclasses import replace

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel

from wristwork.site.mkdocs.course_reading import Prepared, Reading, missing_pages, read
from wristwork.site.mkdocs.privacy import student_problems
from wristwork.site.mkdocs.sources import Shown, read_sources
from wristwork.store.store import Store


def collected(
    config: MkDocsConfig, prepared: Prepared, files: Files, store: Store, shown: Shown, previewing: bool, renders: bool
) -> Reading:
    """Add to the files the pages that every course has, and read all of them. ``shown`` says how messages name one."""
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
    return read(prepared, missing, sources, store, renders, theirs)


def documentation_pages(files: Files, previewing: bool) -> list[File]:
    """The pages that a build publishes, or a preview shows."""
    inclusion = InclusionLevel.is_in_serve if previewing else InclusionLevel.is_included
    return list(files.documentation_pages(inclusion=inclusion))


def _empty(config: MkDocsConfig, files: Files, unread: tuple[str, ...]) -> None:
    """Put an empty page in the place of one that cannot be read, so that a preview can say so on it."""
    for uri in unread:
        file = files.get_file_from_path(uri)
        if file is not None:
            files.remove(file)
            files.append(_made(config, uri, ""))


def _made(config: MkDocsConfig, uri: str, content: str) -> File:
    """A page that lies in no folder. MkDocs's own maker of such files works in a build only."""
    file = File(uri, src_dir=None, dest_dir=config.site_dir, use_directory_urls=config.use_directory_urls)
    file.generated_by = "wristwork"
    file.content_string = content
    return file
