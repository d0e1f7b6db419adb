"""One record for what is wrong: how it reads, and that it cannot act on a terminal."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from wristwork.page.problem import PATTERN, Excerpt, Problem, printable

_acting = st.text('ab<>&"\x1b\x07\x7f\x9b\r\u202e\u2028\ud800é', max_size=12)


@given(_acting, _acting, _acting)
def test_nothing_in_a_problem_acts_on_a_terminal(path: str, found: str, remedy: str) -> None:
    problem = Problem(path, 1, 2, found, remedy, "load", excerpt=Excerpt(found, 1))
    for line in str(problem).split("\n"):
        assert not set(line) & set("\x1b\x07\x7f\x9b\r\u202e\u2028\ud800")


def test_what_acts_shows_as_its_number() -> None:
    assert printable("a\x1b[31mb\u202e") == "a\\x1b[31mb\\u202e"
    assert printable("größer ≥ 👍🏽") == "größer ≥ 👍🏽"


def test_only_a_check_is_named_in_brackets() -> None:
    assert Problem("a.md", 3, 0, "it is so", "do that", "load").headline == "a.md:3: it is so [load]"
    assert (
        Problem("a.md", 3, 4, "it is so", "do that", PATTERN, "pattern 'x'").headline
        == "a.md:3:4: pattern 'x': it is so"
    )
    assert Problem("a.yml", 0, 0, "it is so", "do that", "address").headline == "a.yml: it is so"
