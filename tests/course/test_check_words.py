"""What each check says, word for word: a tutor has nothing else to go by."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.course.test_checks import check, good_course, good_week
from wristwork.course.checks import CHECKS

WEEK_3 = "docs/week-03.md"


def told(pages, **more) -> str:
    """Every finding in two lines: where, what, which check; what to do."""
    return "\n".join(f"{one.where}: {one.found} [{one.kind}]\n    {one.remedy}" for one in check(pages, **more))


def changed(*changes: tuple[str, str], path: str = WEEK_3, weeks: int = 4) -> dict[str, str]:
    pages = good_course(weeks)
    for old, new in changes:
        assert old in pages[path]
        pages[path] = pages[path].replace(old, new, 1)
    return pages


def without(*numbers: int) -> dict[str, str]:
    return {path: text for path, text in good_course().items() if int(path[10:12]) not in numbers}


def linked(*targets: str) -> dict[str, str]:
    """A good course with a page beside the weeks that holds these links."""
    lines = "\n".join(f"[here]({target})" for target in targets)
    return {**good_course(), "docs/more/about.md": f"# About\n\n## A heading\n\n{lines}\n"}


FILES = frozenset({"docs/pictures/one.png", "docs/key.md"})

# Courses with something wrong in them. What is said of each stands under its name in check_words.txt.
CASES = {
    "missing weeks": {
        **without(2, 3, 4),
        "docs/week-04.md": good_week(4).replace("requires: second-3\n", "requires: second-1\n"),
    },
    "late": {"docs/week-02.md": good_week(2).replace("requires: second-1\n", "")},
    "twice": changed(("week: 3", "week: 2")),
    "order": {p: good_course()[p] for p in ("docs/week-02.md", "docs/week-01.md", "docs/week-03.md")},
    "needed later": changed(("requires: second-2\nhands", "requires: second-4\nhands")),
    "needed below": changed(("requires: second-2", "requires: second-3"), ("requires: first-3", "requires: second-2")),
    "again": changed(("minutes: 20", "minutes: 20\nagain: [second-4, first-3, frst-1, nothing-like-it]")),
    "loose": changed(("requires: second-2\n", "")),
    "steep": changed(("hands: RL RL RL RL", "hands: RLRR LRLL RLRR LRLL"), ("60 to 76 by 4", "60 to 120 by 4")),
    "new": changed(("hands: RL RL RL RL", "hands: R>L (R)L lRL BL")),
    "speed": changed(("60 to 76 by 4", "60 to 304"), ("hands: RL RL RL RL", "hands: LLRR LLRR")),
    "row": changed(("60 to 76 by 4", "60 to 108"), ("hands: RL RL RL RL", "hands: LLLL LLLL")),
    "motions": changed(("60 to 76 by 4", "60 to 212"), ("hands: RL RL RL RL", "hands: LRLR LRLR")),
    "grade": changed(("minutes: 20", "minutes: 20\ngrade: 4")),
    "load": changed(("minutes: 20", "minutes: 30")),
    "no minutes": changed(("minutes: 20\n", "")),
    "few minutes": changed(("minutes: 20", "minutes: 6"), weeks=3),
    "many minutes": changed(("minutes: 20", "minutes: 60"), path="docs/week-01.md", weeks=1),
    "loud": changed(("surface: practice pad", "surface: acoustic kit"), weeks=3),
    "loud worn": changed(("surface: practice pad", "surface: acoustic kit\nprotection: SNR 10"), weeks=3),
    "aim": changed(("aim: Get a little further.\n", "")),
    "text": changed(("Now the other way about.", "")),
    "line": changed(("minutes: 20", "minuts: 20"), weeks=1, path="docs/week-01.md"),
    "line 2": {
        **good_course(1),
        "docs/about.md": "---\ntitel: About\nweeks: 3\ntags: [a]\nauthor: Jo\nminuts: 3\n---\n\nText.\n",
    },
    "links": linked(
        "../week-01.md#frst-1",
        "../week-01.md#second-2",
        "#a-headng",
        "#qqqqqqq",
        "#fn:one",
        "#fnref:one",
        "#__tab",
        "../week-9.md",
        "../wek-01.md",
        "../week-01.md#this-weeks-practice",
        "#this-weeks-practice",
        "pictures/one.png",
        "../pictures/one.png",
        "../pictures/on.png",
        "../key.md",
        "../folder/",
        "zzzzzz.md",
        "../week-01.md?x=1#first",
        "qqqq/rrrr.zip",
    ),
    "places": linked(
        "../x/frst-1/",
        "x/zzzzzzzzzzzz/",
        "https://a.example/x/none-at-all/",
        "../x/first-1/",
        "../x/first-1/index.html",
        "x/none-at-all/exercise.json",
    ),
    "allow": changed(
        (
            "minutes: 20",
            "minutes: 20\nallow:\n  steepness: Because.\n  no-aims: Because.\n  zzz: Because.\n"
            "  no-aim no-such-one: Because.\n  no-aim week 9: Because.",
        )
    ),
}


def _expected() -> dict[str, str]:
    text = (Path(__file__).parent / "check_words.txt").read_text(encoding="utf-8")
    names, told_of = re.findall(r"^# (.*)$", text, re.MULTILINE), re.split(r"^# .*\n", text, flags=re.MULTILINE)[1:]
    return {name: part.strip() for name, part in zip(names, told_of, strict=True)}


EXPECTED = _expected()


def test_every_course_has_its_words():
    assert CASES.keys() == EXPECTED.keys()


@pytest.mark.parametrize("name", CASES)
def test_what_is_wrong_is_told_with_its_place_and_remedy(name):
    files = {"files": FILES} if name in ("links", "places") else {}
    assert _without_scores(told(CASES[name], **files)) == EXPECTED[name]


def _without_scores(text: str) -> str:
    """Scores move with the handbook's weights; the names of all checks are known."""
    text = text.replace(f"the checks are {', '.join(check.name for check in CHECKS)}", "the checks are NAMES")
    text = re.sub(r"demand rises by \d+ points", "demand rises by N points", text)
    return re.sub(r"(from|to) \d+ \('", r"\1 N ('", text)


def test_of_files_that_nobody_has_listed_nothing_is_said():
    assert told(linked("../pictures/none.png", "../folder/")) == ""
    assert told(linked("none.md"))
