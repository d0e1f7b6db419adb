"""A week's front matter: what is read, and what is said where it can't be meant."""

from __future__ import annotations

import pytest

from wristwork.course.safety.exposure import PAD, UNPROTECTED
from wristwork.course.weeks import read_allowances, read_week
from wristwork.page.page import read_page

FULL = """\
---
week: 3
title: Paradiddles
aim: Play one sticking
  that changes the lead.
grade: 3
minutes: 25
days: 4
again: [walking-accent, hand-to-hand]
surface: practice pad
protection: SNR 25
allow:
  steep-rise: The groove is known from the lessons.
  hand-speed flam-tap: For two bars only.
  minutes-fit week 3: The lesson is long.
---

# Paradiddles
"""


def read(front, path="week-03.md", **more):
    return read_week(read_page(path, f"---\n{front}\n---\n\n# A week\n"), **more)


def problems(front):
    week, found = read(front)
    return week, [(problem.line, problem.found) for problem in found]


def test_all_of_it():
    week, found = read_week(read_page("docs/week-03.md", FULL))
    assert found == ()
    assert (week.number, week.title, week.grade, week.minutes, week.days) == (3, "Paradiddles", 3, 25, 4)
    assert week.aim == "Play one sticking that changes the lead."
    assert week.again == ("walking-accent", "hand-to-hand")
    assert week.surface is PAD
    assert week.protection.label == 25
    assert [(each.check, each.only, each.reason) for each in week.allow] == [
        ("steep-rise", None, "The groove is known from the lessons."),
        ("hand-speed", "flam-tap", "For two bars only."),
        ("minutes-fit", "week 3", "The lesson is long."),
    ]
    assert week.line_of("minutes") == 7
    assert week.line_of("level") == 2  # no such key: the week's number


def test_what_a_page_does_not_say():
    week, found = read("week: 3", days=6)
    assert found == ()
    assert (week.title, week.aim, week.grade, week.minutes, week.days) == ("A week", None, None, None, 6)
    assert week.again == week.allow == ()
    assert week.surface is None
    assert week.protection is UNPROTECTED


def test_a_page_without_a_week_is_none():
    assert read_week(read_page("index.md", "# Home\n")) == (None, ())
    assert read("title: Home") == (None, ())


@pytest.mark.parametrize(
    ("front", "line", "words"),
    [
        ("week: three", 2, "week: expected a whole number from 1 to 999, found 'three'"),
        ("week: 3\ngrade: 11", 3, "grade: expected a whole number from 1 to 10, found 11"),
        ("week: 3\nminutes: 4", 3, "minutes: expected a whole number from 5 to 240, found 4"),
        ("week: 3\nminutes: 20 minutes", 3, "minutes: expected a whole number from 5 to 240, found '20 minutes'"),
        ("week: 3\ndays: 8", 3, "days: expected a whole number from 1 to 7, found 8"),
        ("week: 3\ndays: yes", 3, "days: expected a whole number from 1 to 7, found yes"),
        ("week: 3\nagain: 7", 3, "again: expected ids of exercises, found 7"),
        ("week: 3\naim: a\nallow: steep-rise", 4, "allow: expected checks, each with a reason, found 'steep-rise'"),
        ("week: 3\nallow:\n  steep-rise:", 3, "allow: steep-rise has no reason"),
        ("week: 3\nallow:\n  steep-rise: true", 3, "allow: steep-rise has no reason"),
    ],
)
def test_what_cannot_be_meant_is_said_with_its_line(front, line, words):
    _, found = problems(front)
    assert found == [(line, words)]


def test_the_rest_of_a_week_is_read_where_one_line_is_wrong():
    week, found = problems("week: 3\nminutes: none of your business\ngrade: 2")
    assert len(found) == 1
    assert (week.number, week.minutes, week.grade) == (3, None, 2)


@pytest.mark.parametrize("line", ["surface: a table", "protection: SNR many"])
def test_a_surface_or_protection_that_nobody_knows(line):
    week, found = problems(f"week: 3\n{line}")
    assert week.surface is None
    assert [number for number, _ in found] == [3]


def test_front_matter_that_is_no_yaml():
    week, found = problems("week: 3\naim: one: two")
    assert week is None
    assert found[0][0] == 3
    assert found[0][1].startswith("aim: a text that holds a colon")


def test_front_matter_that_is_no_list_of_settings():
    assert problems("week three")[1] == [(2, "front matter that is no list of settings: week three")]


def test_windows_lines_and_a_byte_order_mark():
    text = "\ufeff" + FULL.replace("\n", "\r\n")
    week, found = read_week(read_page("week-03.md", text))
    assert found == ()
    assert (week.number, week.title) == (3, "Paradiddles")


def test_allowances_as_a_list():
    week, found = problems("week: 3\nallow:\n  - steep-rise: Because.\n  - no-aim: None needed.")
    assert found == []
    assert [each.check for each in week.allow] == ["steep-rise", "no-aim"]


def test_allowances_of_the_whole_course():
    allowed, found = read_allowances({"loose-exercise": "A library is no path."}, "mkdocs.yml", 9)
    assert found == ()
    assert [(each.check, each.only, each.path, each.line) for each in allowed] == [
        ("loose-exercise", None, "mkdocs.yml", 9)
    ]
    assert read_allowances(None, "mkdocs.yml", 1) == ((), ())


def test_again_as_one_text():
    week, _ = read("week: 3\nagain: first-one, second-one, first-one")
    assert week.again == ("first-one", "second-one")
