"""Which pages of a course are its safe-practice pages, the tutor's own and the standard ones."""

from __future__ import annotations

from collections.abc import Iterable

from mkdocs.utils.meta import get_data

from wristwork.course.safe_practice import SafePracticeError, Topic, topic_of, topics_without_page
from wristwork.site.lessons import PageProblem, line_of

KEY = "safe-practice"


def own_topics(pages: Iterable[tuple[str, str, str]]) -> tuple[dict[str, Topic], list[PageProblem]]:
    """The tutor's pages as (src_uri, path, text) → their topics by src_uri, and what is wrong with them."""
    topics: dict[str, Topic] = {}
    problems: list[PageProblem] = []
    for src_uri, path, text in pages:
        value = get_data(text)[1].get(KEY) if KEY in text else None
        if value is None:
            continue
        try:
            topic = topic_of(value)
            topics_without_page([*((one, uri) for uri, one in topics.items()), (topic, path)])
        except SafePracticeError as error:
            found = str(error).removeprefix(f"{path}: ")
            problems.append(PageProblem(path, line_of(KEY, text), found, "write one page for each topic"))
        else:
            topics[src_uri] = topic
    return topics, problems
