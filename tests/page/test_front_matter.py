"""One rule for front matter: what the site generator takes for it, we take for it."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from mkdocs.utils.meta import get_data

from wristwork.page.front_matter import FrontMatter, front_matter

_PARTS = (
    "---", "---", "--- ", "...", "--", "----", " ---", "week: 3", "title: A: B", "title: 'open", 'aim: "both"', "a: 1",
    "a: 2", "A-b_c: x", "    more", "\tmore", "  two", "- item", "# Heading", "```pattern", "```", "", "", " ", "words",
    "date: 2026-02-30", "title: 2001-99-99", "again: [a, b]", "again: [a", "allow:", "  load: why", "key:value", "é: ü",
    "? x", "x: &a 1", "y: *a", "y: *b", "<b>: &amp;", "yes: no", "1: 2", "null", "{}", "[]: 1", "{a: b}: c",
    "week: 08", "!tag x: y", "\x0b", "\x85", "\u2028", "<<: {k: v}",
)  # fmt: skip
_lines = st.lists(st.one_of(st.sampled_from(_PARTS), st.text("<>&\"':-#{}[]*!|%@` \tab1", max_size=12)), max_size=9)
_texts = st.tuples(st.sampled_from(["", "---\n", "---\n", "--- \t\n", "\n"]), _lines, st.sampled_from(["", "\n"])).map(
    lambda parts: parts[0] + "\n".join(parts[1]) + parts[2]
)


def _read(text: str) -> tuple[str, dict]:
    found = front_matter(text)
    if not isinstance(found, FrontMatter):
        return text, {}
    body = "\n".join(text.split("\n")[found.length :])
    return body, {key: setting.value for key, setting in found.settings.items()}


@given(_texts)
@example("---\n---\n")
@example("---\n\n---\n")
@example("---\nweek: 3\n---")
@example("---\nweek: 3\n...\ntext")
@example("Title: One\n    two\ntitle: three\n\n\n# Heading")
@example("Title: One")
@example("---\na: 1\n---\n\n\n\nText")
def test_the_generators_rule_is_ours(text: str) -> None:
    assert _read(text) == get_data(text)


@pytest.mark.parametrize("text", ["---\ntitle: x\ndate: 2026-02-30\n---\n", "---\na: 1\ntitle: 2001-99-99\n---\n"])
def test_a_day_that_is_none_is_told_with_its_line(text: str) -> None:
    found = front_matter(text)
    assert not isinstance(found, FrontMatter)
    assert found.line == 3
