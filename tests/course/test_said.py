"""All that is told of a course is said: nothing of it stays English where another language is spoken."""

from __future__ import annotations

from datetime import date

import pytest

from tests.course.test_addresses import ONE, TWO, course, record_of
from tests.course.test_check_words import CASES, FILES
from tests.course.test_checks import check
from tests.course.test_opening import exercise, week
from tests.said import bracketed, unsaid
from wristwork.course.addresses import Address, hold_against, read_record
from wristwork.course.course import read_teaching
from wristwork.course.opening import closed_page, opening_problems
from wristwork.course.safety import safe_practice
from wristwork.course.safety.exposure import ExposureError, read_protection, surface
from wristwork.course.techniques import _TOLD_BY
from wristwork.course.weeks import read_allowances, read_week
from wristwork.languages.say import say
from wristwork.page.front_matter import shape
from wristwork.page.page import read_page, read_pages

WRONG_LINES = (
    "week: three", "week:", "grade: 11", "grade: [3]", "minutes: 4", "minutes: {a: 1}", "days: yes", "again: 7",
    "again: {a: 1}", "again: [[a]]", "allow: steep-rise", "allow: [a, b]", "allow:\n  steep-rise:",
    "title: [A]", "title: {a: b}", "description: [A]", "look-back: perhaps", "look-back: [yes]",
    "standard-text: {a: b}", "opens: soon", "opens: 2027-1-5", "opens: [2027-01-25]", "opens: {a: b}",
    "surface: a table", "surface: [pad]", "protection: SNR many", "protection: SNR 99", "protection: {SNR: 3}",
)  # fmt: skip
GONE = (
    (ONE, TWO),
    (Address("one-hand", "One hand", ""),),
    (Address("aaa", "A", "x", moved_to="bbb"), Address("bbb", "B", "x", moved_to="aaa")),
    (Address("aaa", "A", "x", moved_to="two-handz"),),
    (Address("aaa", "A", "x", moved_to="nothing-like-it"),),
    (Address("aaa", "A", "x", moved_to="bbb"), Address("bbb", "B", "x")),
    (Address("two-hands", "Two", "x", retired="Gone."),),
    (Address("two-hands", "Two", "x", moved_to="one-hand"),),
)
WRONG_ADDRESSES = (
    "<<<<<<< ours", 'other: {titel: "x"}', 'other: {qqqqqq: "x"}', "third: {title: 3}", "fourth {}",
    "fifth: {title: [}", "sixth: {2026-02-30}", "seventh: {a", 'eighth: {moved to: one-hand, retired: "x"}',
    "a: {}", "con: {}", f"nn: {{title: {'x' * 20_000}}}",
)  # fmt: skip


def all_said(problems) -> bool:
    problems = tuple(problems)
    assert problems
    return [unsaid(text) for each in problems for text in (each.found, each.remedy)] == [""] * 2 * len(problems)


@pytest.mark.parametrize("name", CASES)
def test_every_finding_of_a_check(name):
    with bracketed():
        assert all_said(check(CASES[name], **({"files": FILES} if name in ("links", "places") else {})))


def test_the_names_of_techniques():
    with bracketed():
        assert [unsaid(say(name)) for name in _TOLD_BY] == [""] * len(_TOLD_BY)


@pytest.mark.parametrize("line", WRONG_LINES)
def test_every_wrong_line_of_a_week(line):
    head = "" if line.startswith("week") else "week: 3\n"
    with bracketed():
        assert all_said(read_week(read_page("a.md", f"---\n{head}{line}\n---\n\nText.\n"))[1])
        assert all_said(read_allowances(5, "mkdocs.yml", 1)[1])


def test_the_name_of_a_week_without_a_title():
    with bracketed():
        found, _ = read_week(read_page("a.md", "---\nweek: 3\n---\n\nText.\n"))
        assert unsaid(found.title) == ""


@pytest.mark.parametrize("line", WRONG_ADDRESSES)
def test_every_wrong_address(line):
    with bracketed():
        assert all_said(read_record(line)[1])


@pytest.mark.parametrize("gone", GONE)
def test_every_address_that_leads_nowhere(gone):
    with bracketed():
        assert all_said(hold_against(record_of(*gone), course(TWO)).problems)


def test_what_leans_on_a_closed_week():
    later = week(3, "2027-01-25", exercise("later-one"))
    needing = exercise("needing-one", "hands: RLRL", "requires: later-one")
    page = f"# A page\n\n{exercise('another-one', 'hands: RLRL', 'requires: later-one')}\n"
    texts = {"a.md": later, "b.md": week(4, None, needing, "again: [later-one]\n"), "c.md": page}
    taught, _ = read_teaching(read_pages(texts))
    with bracketed():
        assert all_said(opening_problems(taught))


def test_the_page_of_a_closed_week():
    closed, _ = read_week(read_page("a.md", week(3, "2027-01-25")))
    assert closed.opens == date(2027, 1, 25)
    with bracketed():
        assert unsaid(closed_page(closed).partition("\n---\n")[2]) == ""


@pytest.mark.parametrize(("read", "typed"), [(read_protection, "plugs"), (read_protection, "SNR 99"), (surface, "sea")])
def test_what_no_ears_or_surface_have(read, typed):
    with bracketed(), pytest.raises(ExposureError) as told:
        read(typed)
    assert unsaid(str(told.value)) == ""


@pytest.mark.parametrize("value", ["ears", shape([1]), shape({})])
def test_a_topic_that_there_is_not(value):
    with bracketed(), pytest.raises(safe_practice.SafePracticeError) as told:
        safe_practice.topic_of(value)
    assert (unsaid(told.value.found), unsaid(told.value.remedy)) == ("", "")


def test_a_topic_that_is_there_twice():
    topic = safe_practice.Topic.HEARING
    with bracketed(), pytest.raises(safe_practice.SafePracticeError) as told:
        safe_practice.topics_without_page([(topic, "a.md"), (topic, "b.md")])
    assert (unsaid(told.value.found), unsaid(told.value.remedy)) == ("", "")
