"""Which pages of a course are its safe-practice pages, the tutor's own and the standard ones."""

from __future__ import annotations

from collections.abc import Iterable

from wristwork.course.safety.safe_practice import SafePracticeError, Topic, topic_of, topics_without_page
from wristwork.course.weeks import WeekProblem, read_front_matter
from wristwork.site.reading.lessons import PageSource

KEY = "safe-practice"


def own_topics(sources: Iterable[PageSource]) -> tuple[dict[str, Topic], list[WeekProblem]]:
    """The topics of the tutor's own pages by their ``src_uri``, and what is wrong with them."""
    topics: dict[str, Topic] = {}
    problems: list[WeekProblem] = []
    for source in sources:
        front, _ = read_front_matter(source.path, source.text) if KEY in source.text else (None, ())
        value = front.values.get(KEY) if front else None
        if front is None or value is None:
            continue
        try:
            topic = topic_of(value)
            topics_without_page([*((one, uri) for uri, one in topics.items()), (topic, source.path)])
        except SafePracticeError as error:
            found = str(error).removeprefix(f"{source.path}: ")
            problems.append(WeekProblem(source.path, front.lines.get(KEY, 1), found, "write one page for each topic"))
        else:
            topics[source.src_uri] = topic
    return topics, problems
