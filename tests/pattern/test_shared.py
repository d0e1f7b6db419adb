"""Exercises of a library: taken as they are, with lines of one's own, and told where they are wrong or gone."""

from __future__ import annotations

import pytest

from wristwork.page.page import read_pages
from wristwork.pattern.claims import claimed_ids
from wristwork.pattern.course import CourseText, read_patterns

LIBRARY = """\
# Hands

```pattern
id: gears
title: Gears <of> "two"
tempo: 60 to 100 by 4
hands: R>LRR
  L>RLL
note: Turn them & turn them.
requires: nothing-here
```

```pattern
title: Grown gears
from: gears
change: other hand leads
```

```pattern
id: wrong-one
title: Wrong
hands: R>Q
```
"""


def read(*fences: str, library: str = LIBRARY) -> CourseText:
    text = "# Week\n\n" + "\n\n".join(f"```pattern\n{fence}\n```" for fence in fences)
    return read_patterns(read_pages({"docs/week.md": text}), library=read_pages({"../shared/hands.md": library}))


def test_an_exercise_is_taken_whole_and_what_it_requires_is_left_there() -> None:
    course = read("take: gears")
    assert course.problems == course.warnings == ()
    (exercise,) = course.exercises.values()
    pattern = exercise.pattern
    assert (pattern.id, pattern.title, pattern.tempo.goal, pattern.requires) == ("gears", 'Gears <of> "two"', 100, ())
    assert (pattern.note, exercise.path) == ("Turn them & turn them.", "docs/week.md")
    assert exercise.text == "take: gears"
    written = read("id: by-hand\ntitle: Gears\nhands: R>LRR L>RLL", "take: gears").exercises
    assert written["by-hand"].pattern.hands == pattern.hands


def test_lines_of_one_s_own_come_in_place_of_the_shared_ones() -> None:
    ours = "take: gears\nid: our-gears\ntitle: Our gears\ntempo: 50 to 60 by 2"
    course = read(ours, "hands: R>RRR L>LLL\ntake: gears")
    assert course.problems == ()
    ours, right = course.exercises.values()
    assert (ours.pattern.id, ours.pattern.title, ours.pattern.tempo.start) == ("our-gears", "Our gears", 50)
    assert ours.pattern.note == right.pattern.note == "Turn them & turn them."
    assert ours.pattern.hands != right.pattern.hands


def test_the_id_lasts_where_the_library_makes_it_from_a_title() -> None:
    course = read("take: grown-gears")
    assert (course.problems, course.warnings) == ((), ())
    assert course.exercises["grown-gears"].pattern.grows_from is None


def test_a_course_s_own_exercise_grows_out_of_a_shared_one() -> None:
    course = read("id: ours\ntitle: Ours\nfrom: gears\nchange: other hand leads", "take: gears")
    assert course.problems == ()
    assert course.exercises["ours"].pattern.grows_from == "gears"
    assert course.exercises["ours"].pattern.hands == read("take: grown-gears").exercises["grown-gears"].pattern.hands


@pytest.mark.parametrize(
    ("fence", "said"),
    [
        (
            "take: gear",
            "'gear' is not in the library\n    take: gear\n          ^ did you mean gears?",
        ),
        ("take: sixteen", "put it back there, or write the exercise here"),
        (
            "take: wrong-one",
            "the shared exercise 'wrong-one' can't be read: ../shared/hands.md:22:10: pattern 'wrong-one'",
        ),
        ("take: gears\nfrom: gears", "docs/week.md:5:1: pattern: from: beside take:"),
        (
            "take: gears\nchange: other hand leads",
            "take it as it is, and let another pattern grow out of it: from: gears",
        ),
        ("take:", "nothing stands after take:"),
        ("take: gears\ntempo: 400", "docs/week.md:5:8: pattern 'gears': a tempo of 400 beats a minute"),
        ("take: gears\ntime: 7/8", "docs/week.md:"),
    ],
)
def test_what_can_t_be_taken_is_told_once_with_its_place(fence: str, said: str) -> None:
    (problem,) = read(fence).problems
    assert said in str(problem)


def test_a_course_without_a_library_is_told_where_to_name_one() -> None:
    (problem,) = read("take: gears", library="").problems
    assert "this course has none" in problem.found
    assert "library: ../shared" in problem.remedy


def test_an_address_that_was_taken_is_kept_while_the_library_is_gone() -> None:
    assert "gears" in read("take: gears", library="").claimed
    assert claimed_ids("```pattern\ntake: gears\n```") == {"gears"}


def test_what_is_wrong_in_the_library_and_not_taken_stops_nothing() -> None:
    assert read("take: gears").problems == ()
