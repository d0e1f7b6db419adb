"""Which pages of a course are its safe-practice pages, the tutor's own and the standard ones."""

from __future__ import annotations

from collections.abc import Iterable

from wristwork.course.safety.safe_practice import SafePracticeError, Topic, topic_of, topics_without_page
from wristwork.page.front_matter import shape
from wristwork.page.problem import FRONT_MATTER, Problem
from wristwork.site.reading.lessons import PageSource

KEY = "safe-practice"


def own_topics(sources: Iterable[PageSource]) -> tuple[dict[str, Topic], list[Problem]]:
    """The topics of the tutor's own pages by their ``src_uri``, and what is wrong with them."""
    topics: dict[str, Topic] = {}
    problems: list[Problem] = []
    for source in sources:
        front = source.page.front
        value = front.value(KEY)
        if value is None:
            continue
        try:
            topic = topic_of(shape(value) or front.typed(KEY) or "")
            topics_without_page([*((one, uri) for uri, one in topics.items()), (topic, source.path)])
        except SafePracticeError as error:
            problems.append(Problem(source.path, front.line(KEY), 0, error.found, error.remedy, FRONT_MATTER))
        else:
            topics[source.src_uri] = topic
    return topics, problems
