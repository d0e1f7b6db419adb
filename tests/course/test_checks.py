"""The checks, each on a course with one fault planted in it, and on one without."""

from __future__ import annotations

import re

import pytest

from wristwork.course.checks import CHECKS, check_course
from wristwork.course.checks.load import LONGEST_TURN
from wristwork.course.course import read_teaching
from wristwork.course.prose import anchors, fences_without_text, prose_lines
from wristwork.course.techniques import techniques
from wristwork.course.weeks import read_allowances
from wristwork.page.page import read_page, read_pages
from wristwork.page.problem import Problem, open_problems
from wristwork.pattern import read_one

GOOD_WEEK = """\
---
week: {number}
title: Week {number}
aim: Get a little further.
minutes: 20
surface: practice pad
---

# Week {number}

Words about the week.

## First

Let the stick fall, and wait for it.

```pattern
id: first-{number}
title: First of {number}
tempo: 60 to 76 by 4
{needs}hands: RL RL RL RL
```

## Second

```pattern
id: second-{number}
title: Second of {number}
tempo: 60 to 76 by 4
requires: first-{number}
hands: RL RL RL RL
```

Now the other way about.
"""


def good_week(number):
    needs = f"requires: second-{number - 1}\n" if number > 1 else ""
    return GOOD_WEEK.format(number=number, needs=needs)


def good_course(weeks=4):
    return {f"docs/week-{number:02}.md": good_week(number) for number in range(1, weeks + 1)}


def check(pages, **more):
    course, problems = read_teaching(read_pages(pages), **more)
    assert not problems
    assert not course.text.problems
    return check_course(course)


def planted(number, *changes, pages=None):
    """The findings about a good course with some changes (old, new) in one week's page."""
    pages = dict(pages or good_course())
    path = f"docs/week-{number:02}.md"
    for old, new in changes:
        assert old in pages[path]
        pages[path] = pages[path].replace(old, new, 1)
    return check(pages)


def short(findings):
    return [(finding.kind, finding.where) for finding in findings]


def test_a_good_course_has_nothing_to_look_at():
    assert check(good_course()) == ()


def test_every_check_says_what_it_looks_for_and_why_its_limit():
    assert len({each.name for each in CHECKS}) == len(CHECKS)
    for each in CHECKS:
        assert re.fullmatch(r"[a-z]+(-[a-z]+)*", each.name)
        assert each.looks_for
        assert each.limit.endswith(".")


# --- order --------------------------------------------------------------------------------------------------------


def test_a_missing_week():
    pages = good_course()
    del pages["docs/week-03.md"]
    pages["docs/week-04.md"] = pages["docs/week-04.md"].replace("requires: second-3", "requires: second-2")
    (finding,) = check(pages)
    assert (finding.kind, finding.where) == ("weeks-in-order", "docs/week-04.md:2")
    assert finding.found == "week 3 is missing before week 4"


def test_several_missing_weeks():
    (finding,) = [each for each in planted(4, ("week: 4", "week: 8")) if each.kind == "weeks-in-order"]
    assert finding.found == "weeks 4 to 7 are missing before week 8"


def test_a_week_that_is_there_twice():
    findings = planted(4, ("week: 4", "week: 3"))
    assert ("weeks-in-order", "docs/week-04.md:2") in short(findings)
    assert "is there already, in docs/week-03.md" in findings[0].found


def test_weeks_out_of_order():
    pages = good_course()
    swapped = {path: pages[path] for path in ("docs/week-02.md", "docs/week-01.md", "docs/week-03.md")}
    (finding,) = check(swapped)
    assert (finding.kind, finding.where) == ("weeks-in-order", "docs/week-01.md:2")


def test_a_course_that_begins_late():
    pages = {"docs/week-02.md": good_week(2).replace("requires: second-1\n", "")}
    (finding,) = check(pages)
    assert finding.found == "the course begins with week 2"


@pytest.mark.parametrize("line", ["requires: second-4\nhands: RL RL RL RL", "from: second-4"])
def test_something_needed_before_it_is_taught(line):
    found = planted(2, ("requires: second-1\nhands: RL RL RL RL", line))
    assert short(found) == [("needed-before-taught", "docs/week-02.md:21")]
    assert "'second-4', which comes later (week 4)" in found[0].found


def test_something_needed_further_down_the_same_page():
    found = planted(2, ("requires: second-1", "requires: second-2"), ("requires: first-2", "requires: second-1"))
    assert short(found) == [("needed-before-taught", "docs/week-02.md:21")]


def test_an_exercise_taken_up_again_before_it_is_taught():
    found = planted(2, ("minutes: 20", "again: [second-3, second-2]\nminutes: 20"))
    assert [each.kind for each in found] == ["needed-before-taught"] * 2
    assert {each.line for each in found} == {5}


def test_an_exercise_taken_up_again_that_is_nowhere():
    (finding,) = planted(2, ("minutes: 20", "again: [secnd-1]\nminutes: 20"))
    assert (finding.kind, finding.line) == ("unknown-exercise", 5)
    assert finding.remedy == "did you mean second-1?"


def test_an_exercise_that_nothing_leads_to():
    (finding,) = planted(3, ("requires: second-2\n", ""))
    assert (finding.kind, finding.where, finding.exercise) == ("loose-exercise", "docs/week-03.md:18", "first-3")


# --- steepness ----------------------------------------------------------------------------------------------------


def test_a_rise_that_is_too_steep():
    found = planted(3, ("hands: RL RL RL RL", "hands: RLRR LRLL RLRR LRLL"), ("60 to 76 by 4", "60 to 120 by 4"))
    assert [each.kind for each in found] == ["steep-rise", "load", "load"]
    steep = found[0]
    assert steep.path == "docs/week-03.md"
    assert "from week 2 to week 3: from 7 ('first-2') to 52 ('first-3')" in steep.found


def test_a_gentle_rise_is_no_fault():
    assert planted(3, ("60 to 76 by 4", "60 to 92 by 4")) == ()


def test_what_comes_back_keeps_a_lighter_week_from_making_the_next_one_steep():
    pages = good_course()
    harder = "hands: RRLL RRLL RRLL RRLL"
    for number in (2, 4):
        path = f"docs/week-{number:02}.md"
        pages[path] = pages[path].replace("hands: RL RL RL RL", harder)
    assert "steep-rise" not in {each.kind for each in check(pages)}
    hard = dict(pages)
    for path in ("docs/week-02.md", "docs/week-04.md"):
        hard[path] = hard[path].replace("60 to 76", "60 to 100").replace("minutes: 20", "minutes: 20")
    assert "steep-rise" in {each.kind for each in check(hard)}
    hard["docs/week-03.md"] = hard["docs/week-03.md"].replace("minutes: 20", "minutes: 20\nagain: [first-2]")
    rises = [each for each in check(hard) if each.kind == "steep-rise"]
    assert [each.path for each in rises] == ["docs/week-02.md"]


def test_too_much_at_once():
    found = planted(3, ("hands: RL RL RL RL", "hands: R>L (R)L lRL BL"))
    (finding,) = [each for each in found if each.kind == "too-much-new"]
    assert finding.line == 2
    assert finding.found == "week 3 brings 4 new things: accents, ghost notes, flams, both hands together"


def test_what_is_known_is_not_new():
    pages = good_course()
    for number, hands in ((2, "R>L R>L R>L (R)L"), (3, "R>L (R)L lRL BL")):
        path = f"docs/week-{number:02}.md"
        pages[path] = pages[path].replace("hands: RL RL RL RL", f"hands: {hands}", 1)
    assert check(pages) == ()


@pytest.mark.parametrize(
    ("hands", "tempo", "what"),
    [
        ("RLRL RLRL", 212, "7.1 motions a second of the right hand"),
        ("RRRR RRRR", 108, "7.2 strokes in a row a second of the right hand"),
        ("RRLL RRLL", 304, "10.1 strokes a second of the right hand"),
    ],
)
def test_a_goal_past_the_facts_about_hands(hands, tempo, what):
    found = planted(1, ("60 to 76 by 4", f"60 to {tempo}"), ("hands: RL RL RL RL", f"hands: {hands}"))
    speed = [each for each in found if each.kind == "hand-speed"]
    assert what in speed[0].found
    assert speed[0].line == 20  # the tempo's


@pytest.mark.parametrize(("hands", "tempo"), [("RLRL RLRL", 208), ("RRRR RRRR", 104), ("RRLL RRLL", 300)])
def test_a_goal_that_hands_have_reached(hands, tempo):
    found = planted(1, ("60 to 76 by 4", f"60 to {tempo}"), ("hands: RL RL RL RL", f"hands: {hands}"))
    assert "hand-speed" not in {each.kind for each in found}


def test_a_grade_that_is_far_from_the_one_worked_out():
    (finding,) = planted(2, ("minutes: 20", "grade: 3\nminutes: 20"))
    assert (finding.kind, finding.line) == ("grade", 5)
    assert finding.found == "week 2 says grade 3, and its exercises come to grade 1"
    assert planted(2, ("minutes: 20", "grade: 2\nminutes: 20")) == ()


# --- load ---------------------------------------------------------------------------------------------------------


def test_minutes_that_grow_too_fast():
    (finding,) = planted(3, ("minutes: 20", "minutes: 27"))
    assert (finding.kind, finding.line, finding.path) == ("load", 5, "docs/week-03.md")
    assert finding.found == "minutes a session grow by 35 % from week 2 to week 3 (20 to 27)"
    assert planted(3, ("minutes: 20", "minutes: 26")) == ()


def test_a_week_that_does_not_say_its_minutes():
    (finding,) = planted(3, ("minutes: 20\n", ""))
    assert (finding.kind, finding.where) == ("minutes-fit", "docs/week-03.md:2")


def test_a_course_without_plans_is_not_asked_for_them():
    assert check({path: text.replace("minutes: 20\n", "") for path, text in good_course().items()}) == ()


def test_minutes_that_are_too_few():
    pages = good_course(1)
    (finding,) = planted(1, ("minutes: 20", "minutes: 6"), pages=pages)
    assert finding.found == "a session of 6 minutes leaves 3 for 2 exercises"


def test_minutes_that_are_too_many():
    pages = good_course(1)
    (finding,) = planted(1, ("minutes: 20", "minutes: 60"), pages=pages)
    assert (finding.kind, finding.line) == ("minutes-fit", 5)
    assert str(LONGEST_TURN) in finding.remedy


def test_a_loud_week_without_protection():
    (finding,) = planted(4, ("surface: practice pad", "surface: acoustic kit"))
    assert (finding.kind, finding.where) == ("sound-share", "docs/week-04.md:6")
    assert "acoustic kit without protection" in finding.found
    protected = "surface: acoustic kit\nprotection: fit-tested 25"
    assert planted(4, ("surface: practice pad", protected)) == ()
    weakly = planted(4, ("surface: practice pad", "surface: acoustic kit\nprotection: SNR 10"))
    assert "with SNR 10" in weakly[0].found


# --- pages --------------------------------------------------------------------------------------------------------


def test_a_week_with_no_aim():
    (finding,) = planted(2, ("aim: Get a little further.\n", ""))
    assert (finding.kind, finding.where) == ("no-aim", "docs/week-02.md:2")


def test_an_exercise_with_no_text():
    (finding,) = planted(2, ("Now the other way about.", ""))
    assert (finding.kind, finding.exercise, finding.line) == ("no-text", "second-2", 28)
    (finding,) = planted(2, ("Let the stick fall, and wait for it.", "<!-- to be written -->"))
    assert finding.exercise == "first-2"


@pytest.mark.parametrize(
    ("link", "check_name"),
    [
        ("week-09.md", "broken-link"),
        ("week-01.md#no-such-exercise", "broken-link"),
        ("#no-such-heading", "broken-link"),
        ("pictures/none.png", "broken-link"),
        ("../x/no-such-exercise/", "unknown-place"),
        ("../x/no-such-exercise/#no-such-exercise", "unknown-place"),
    ],
)
def test_a_link_that_leads_nowhere(link, check_name):
    pages = good_course()
    pages["docs/week-02.md"] += f"\nSee [there]({link}).\n"
    (finding,) = check(pages, files=frozenset({"docs/pictures/one.png"}))
    assert (finding.kind, finding.where) == (check_name, "docs/week-02.md:37")
    assert link in finding.found


@pytest.mark.parametrize(
    "link",
    [
        "week-01.md",
        "week-01.md#second-1",
        "week-01.md#first",
        "#second",
        "#second-2",
        "#this-weeks-practice",
        "../x/first-1/",
        "pictures/one.png",
        "https://elsewhere.example/",
        "mailto:tutor@boathouse.example",
        "key.md",
    ],
)
def test_a_link_that_leads_somewhere(link):
    pages = good_course()
    pages["docs/week-02.md"] += f"\nSee [there]({link}), but not `[here](nowhere.md)`.\n"
    assert check(pages, files=frozenset({"docs/pictures/one.png", "docs/key.md"})) == ()


def test_a_link_to_a_wrong_exercise_names_the_near_one():
    pages = good_course()
    pages["docs/week-02.md"] += "\n[there](week-01.md#secnd-1)\n"
    (finding,) = check(pages)
    assert finding.remedy.endswith("did you mean #second-1?")


@pytest.mark.parametrize(
    ("link", "near"),
    [
        ("week-03.png", None),
        ("week-03.mp4", None),
        ("week-03.pdf", None),
        ("pictures/week-01.jpg", "docs/pictures/week-01.PNG"),
        ("films/lesson.mov", "docs/films/lesson.mp4"),
        ("week-3.md", "docs/week-03.md"),
    ],
)
def test_only_a_file_of_the_same_kind_was_meant(link, near):
    pages = good_course()
    pages["docs/week-02.md"] += f"\n[there]({link})\n"
    (finding,) = check(pages, files=frozenset({"docs/pictures/week-01.PNG", "docs/films/lesson.mp4"}))
    assert finding.remedy == f"there is no docs/{link}" + (f"; did you mean {near}?" if near else "")


# --- allowing -----------------------------------------------------------------------------------------------------


def test_a_check_is_silenced_with_a_reason_that_stays_in_the_report():
    allowed = 'minutes: 27\nallow:\n  load: "The holidays begin."'
    (finding,) = planted(3, ("minutes: 20", allowed))
    assert finding.allowed == "The holidays begin."
    assert open_problems([finding]) == ()
    assert str(finding).endswith("allowed: The holidays begin.")


def test_an_allowance_holds_for_its_own_page_only():
    pages = good_course()
    pages["docs/week-02.md"] = pages["docs/week-02.md"].replace("minutes: 20", "minutes: 20\nallow:\n  load: Holidays.")
    (finding,) = planted(3, ("minutes: 20", "minutes: 27"), pages=pages)
    assert finding.allowed is None


def test_an_allowance_can_be_narrowed_to_an_exercise_or_a_week():
    loose = ("requires: second-2\n", "")
    for name in ("loose-exercise first-3", "loose-exercise week 3", "loose-exercise"):
        (finding,) = planted(3, loose, ("minutes: 20", f"minutes: 20\nallow:\n  {name}: It stands alone."))
        assert finding.allowed == "It stands alone."
    for name in ("loose-exercise second-3", "loose-exercise week 2"):
        (finding,) = planted(3, loose, ("minutes: 20", f"minutes: 20\nallow:\n  {name}: It stands alone."))
        assert finding.allowed is None


def test_an_allowance_in_the_course_settings_holds_everywhere():
    allow, _ = read_allowances({"no-aim": "The aims are in the calendar."}, "mkdocs.yml", 12)
    pages = {path: text.replace("aim: Get a little further.\n", "") for path, text in good_course().items()}
    findings = check(pages, allow=allow)
    assert len(findings) == 4
    assert open_problems(findings) == ()


def test_an_allowance_for_no_check():
    (finding,) = planted(3, ("minutes: 20", "minutes: 20\nallow:\n  steepness: Because."))
    assert (finding.kind, finding.line) == ("allow", 6)
    assert "there is no check called 'steepness'" in finding.found


def test_checks_can_be_left_to_somebody_else():
    pages = good_course()
    pages["docs/week-02.md"] += "\n[there](nowhere.md)\n"
    course, _ = read_teaching(read_pages(pages))
    assert check_course(course, leave_out={"broken-link"}) == ()


def test_a_finding_as_a_record_and_as_text():
    (finding,) = planted(3, ("minutes: 20", "minutes: 27"))
    assert finding == Problem("docs/week-03.md", 5, 0, finding.found, finding.remedy, "load")
    assert str(finding).splitlines()[0] == f"docs/week-03.md:5: {finding.found} [load]"


def test_findings_come_in_the_order_of_the_pages():
    pages = {path: text.replace("aim: Get a little further.\n", "") for path, text in good_course().items()}
    assert [finding.path for finding in check(pages)] == [f"docs/week-0{number}.md" for number in range(1, 5)]


def test_a_collection_without_weeks_has_no_order_to_check():
    page = "# Library\n\nWords.\n\n```pattern\nid: one-of-them\ntitle: One of them\nhands: RLRL\n```\n"
    assert check({"docs/library.md": page}) == ()


# --- what stands around a pattern ---------------------------------------------------------------------------------


def test_prose_is_found_between_fences_headings_and_comments():
    page = "---\ntitle: Words\n---\n# Heading\n\n<!-- words\nmore -->\n\n```python\nwords = 1\n```\n\nReal words.\n"
    assert [line.number for line in prose_lines(read_page("a.md", page)) if line.is_prose] == [13]


def test_text_above_or_below_a_fence_belongs_to_it():
    fence = "```pattern\nhands: RL\n```\n"
    page = f"# One\n\n{fence}\nWords.\n\n{fence}\n# Two\n\n{fence}\n{fence}\nWords.\n\n# Three\n\n{fence}"
    assert fences_without_text(read_page("a.md", page)) == {2, 4}


def test_anchors_are_those_that_markdown_makes():
    page = "# The *first* one, again\n\n## Ça va?\n\n## Ça va?\n\n## Named {#own-name}\n"
    assert anchors(prose_lines(read_page("a.md", page))) >= {"the-first-one-again", "ca-va", "ca-va_1", "own-name"}


@pytest.mark.parametrize(
    ("lines", "held"),
    [
        ("hands: RL RL RL RL", ()),
        ("hands: R>L (R)L lRL llRL", ("accents", "ghost notes", "flams", "drags")),
        ("hands: R/L/ B", ("diddles", "both hands together")),
        ("hands: R/3 Rz", ("three and four strokes to a slash", "buzz strokes")),
        ("hands: RLR LRL\nfeet: R L", ("the right foot", "the left foot", "triplets")),
        ("hands: RLRLRL RLRLRL", ("sextuplets",)),
        ("hands: RLRLR LRLRL", ("fives, sevens and nines",)),
        ("hands: RLR over 2", ("groups over several beats",)),
        ("hands: RLR LRL\ntime: 6/8", ("compound time",)),
        ("hands: RL RL\nplace: all on snare then high tom then floor tom", ("moving between drums",)),
        ("hands: RL RL\ndrums: snare, high", ("moving between drums",)),
        ("hands: RL RL\nplace: right on hi-hat, left on snare", ()),
    ],
)
def test_techniques_are_told_from_the_pattern(lines, held):
    assert techniques(read_one(f"title: Any title\n{lines}")) == held
