"""Why front matter cannot be read: the slip itself, in its own line."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wristwork.page.page import read_page

# Read as it stands, the last line is a list of more than a million million settings.
ENDLESS = (
    "---\na0: &a0 {k: 1}\n" + "".join(f"a{n}: &a{n} {{<<: [*a{n - 1}, *a{n - 1}]}}\n" for n in range(1, 41)) + "---\n"
)


# A page, and of what is wrong in it: the line, what is found, what is to be written instead.
SLIPS = [
    ("---\nweek: 3\naim: one: two\n---\n", 3, "a text that holds a colon", 'aim: "one: two"'),
    ("---\nweek: 3\n  title: X\n---\n", 3, "an indented line", "at the margin"),
    ("---\n week: 3\ntitle: x\n---\n", 2, "an indented line", "at the margin"),
    ("---\nweek: 3\n\ttitle: X\n---\n", 3, "a tab before the text", "blanks"),
    ('---\nweek: 3\ntitle: "Rolls\naim: "Play"\n---\n', 3, "quotation mark is not closed", "end it with"),
    ('---\nweek: 3\ntitle: "Rolls\naim: Play\n---\n# H\n', 3, "quotation mark is not closed", "end it with"),
    ('---\nweek: 1\ntitle: "A" and B\n---\n', 3, "after the closing quotation mark", "title: '\"A\" and B'"),
    ("---\nweek:3\ntitle: X\n---\n", 2, "no blank after the colon of week", "write week: 3"),
    ("---\nweek:3\n---\n", 2, "no list of settings: week:3", "write week: 3"),
    ("---\nweek 3\ntitle: X\n---\n", 2, "no colon after week", "write week: 3"),
    ("---\nWeek 3\n---\n", 2, "no list of settings: Week 3", "write week: 3"),
    ("---\nweek: 3\ntitle: X\n\n# Heading\n\ntext\n", 3, "not closed below this line", "--- below line 3"),
    ("---\nweek: 3\ntitle: X\n\n# H\n\nA b c: more\n\n---\nx\n", 3, "not closed below this line", "below line 3"),
    ("---\nweek: 3\n--\n\n# H\n", 3, "'--' below settings", "write ---"),
    ("--\nweek: 3\n---\n# H", 1, "'--' above settings", "write ---"),
    ("\n---\nweek: 3\n---\n", 2, "below a blank line", "in the first line"),
    ("week: 3\ntitle: X\n\n# H", 1, "without a line of --- above", "above and one below"),
    ("---\nweek: 1\ntitle: X\n---", 4, "ends with the last characters", "empty line below"),
    ("---\ndate: 2026-02-30\n---\n", 2, "date: 2026-02-30 is written like a date", 'date: "2026-02-30"'),
    ("---\nweek: 1\ntitle: 2001-99-99\n---\n", 3, "title: 2001-99-99 is written like", '"2001-99-99"'),
    ("---\nweek: 1\naim: *bold* text\n---\n", 3, "begins with *", 'aim: "*bold* text"'),
    ("---\nweek: 1\naim: @home\n---\n", 3, "begins with @", 'aim: "@home"'),
    ("---\nweek: 1\nagain: [a, b\naim: x\n---\n", 3, "again: a list that is not closed", "]"),
    ("---\nweek: 1\naim: \x1b[31m\n---\n", 3, "can't be shown (U+001B)", "take it out"),
    (ENDLESS, 2, "take over each other (<<) without end", "write each of them out"),
    ("---\nweek: 1\nallow:\n  load: The: x\n---\n", 4, "load: a text that holds a colon", '"The: x"'),
]  # fmt: skip


@pytest.mark.parametrize(("text", "line", "found", "remedy"), SLIPS)
def test_the_slip_is_told_in_its_line(text: str, line: int, found: str, remedy: str) -> None:
    (problem,) = read_page("docs/week.md", text).problems
    assert problem.line == line
    assert found in problem.found
    assert remedy in problem.remedy
    assert str(problem).isprintable() or "\n" in str(problem)


@pytest.mark.parametrize(
    "text",
    [
        "---\n\nWelcome\n\n---\n\nMore\n",
        "---\n\nWelcome\n\n```pattern\nid: x\n```\n\n---\n",
        "# Heading\n\n---\n\nweek: 3\n",
        "---\nweek: 3\naim: it's *good*\ntags: [a, b]\n---\n",
        '---\nweek: 3\naim: "He said: go"\nallow:\n  load: "a: b"\n---\n',
        "---\ntitle: |\n  A: b\n  c\n---\n",
        "Note: a page that begins like this\n\nText\n",
    ],
)
def test_what_is_right_is_left_alone(text: str) -> None:
    assert read_page("docs/index.md", text).problems == ()


@given(st.text("-\n\t :#>\"'[]{}wek3&<*@|", max_size=40))
def test_any_text_is_a_page(text: str) -> None:
    page = read_page("a.md", f"---\nweek: 3\n{text}\n---\n")
    assert all(1 <= problem.line <= len(page.lines) for problem in page.problems)
