"""What is wrong with fences, groups, bars, changes, charts, forms and growing is said in the course's language."""

from __future__ import annotations

from collections.abc import Iterator
from gettext import NullTranslations
from pathlib import Path

import pytest
from babel.messages.extract import extract_from_file

import wristwork.pattern
from tests.pattern import test_chart, test_click, test_course, test_form, test_lanes, test_places
from tests.said import bracketed, unsaid
from wristwork.languages.catalogues import Language
from wristwork.languages.say import speaking
from wristwork.page.problem import Problem
from wristwork.pattern.course import read_course

MODULES = (
    "bars", "changes", "chart", "click", "course", "draft", "drum_line", "feel", "fences", "form", "form_lines",
    "groups", "grow", "grown", "lengths", "stretches",
)  # fmt: skip
SOURCE = "id: one\ntitle: One\n"
GROWS = "id: two\ntitle: Two\nfrom: one\n"


def rows(test):
    """What a test is given, one after the other."""
    return next(mark.args[1] for mark in test.pytestmark if mark.name == "parametrize")


def fenced(*texts: str) -> str:
    return "\n\n".join(f"```pattern\n{text}\n```" for text in texts)


def alone(*lines: str) -> str:
    return fenced("\n".join(["example: yes", *lines]))


def grown(source: str, *lines: str) -> str:
    return fenced(SOURCE + source, GROWS + "\n".join(lines))


# Those of the tables of single lines that modules named above find.
OF_A_FENCE = (
    "no title", "neither hands", "no hands", "no id can be made", "without from", "not an exercise", "requires",
    "in an example",
)  # fmt: skip
OF_A_LANE = ("over", "second time", "comment", "group", "held slot")
TABLES = [
    *(fenced(row[0]) for row in test_course.LINES if any(words in row[3] for words in OF_A_FENCE)),
    *(grown("hands: R-R. LRLR", f"change: {row[0]}") for row in test_course.BAD_CHANGES if " x" not in row[0]),
    *(grown("hands: R L R L", row[0].partition("\n")[2]) for row in test_course.REMEDIES if row[0].startswith("from")),
    *(alone(f"hands: {row[0]}") for row in test_lanes.SLOT_ERRORS if any(words in row[2] for words in OF_A_LANE)),
    *(alone(f"hands: {groups}", more) for groups, more, *_ in test_lanes.BAR_ERRORS),
    *(
        alone(test_chart.BARS, row[0])
        for row in rows(test_chart.test_what_is_wrong_with_a_chart)
        if "text:" not in row[0]
    ),
    *(
        alone(f"time: {time}", f"click: {text}", f"hands: {test_click.HANDS[time]}")
        for text, time, _ in rows(test_click.test_what_is_none_is_told_with_its_place_and_remedy)
    ),
    *(
        alone("time: 2/4", "hands: R L | R L | R L | R L", row[0])
        for row in rows(test_form.test_what_is_wrong_is_told_with_its_remedy)
        if row[2] and "bar line" not in row[1]
    ),
    *(
        alone("time: 2/4", *row[0])
        for row in rows(test_form.test_signs_and_pick_ups_that_make_no_sense_are_told)
        if row[1]
    ),
    *(
        alone("hands: RL RL RL RL", f"drums: {row[0]}")
        for row in rows(test_places.test_what_is_wrong_with_a_line_of_drums)
    ),
]
PICKED_UP = "time: 4/4\npick-up: 1 beat\nhands: R | R L R L | R L R"
GOOD = fenced("id: good-one\ntitle: Good\nhands: RLRL")
MORE = [
    alone("hands: R L R L R L R L R"),
    alone("time: 4/4", "hands: R L | R L R L"),
    *(grown("hands: RL RL RL RL", f"change: {change}") for change in ("accents off, ,in eighths", "accents")),
    *(grown("time: 6/8\nhands: RLR LRL", f"change: in {value}") for value in ("triplets", "sextuplets")),
    *(grown(f"hands: {hands}", "change: in eighths") for hands in ("RLR over 2 R L", "R{LR} R R R", "R " * 67 + "RL")),
    *(
        grown(f"time: {time}", "change: in eighths")
        for time in ("3/16\nhands: R L R", "7/8 as 2+2+3\nhands: RL RL RLR")
    ),
    grown("hands: RL RLRL", "change: start on 2"),
    grown("feet: R L R L", "change: accents off"),
    grown(PICKED_UP, "change: in eighths"),
    *(alone(test_chart.BARS, line) for line in ("text: fill", "dynamics: p", "tempos: 120", "tempos: 999 at bar 2")),
    *(alone(test_chart.BARS, f"{key}: {'x' * 40} at bar 1") for key in ("text", "sections", "dynamics", "tempos")),
    alone(test_chart.BARS, "text: A at bar 1 B at bar 2"),
    *(alone("time: 4/8", "hands: R L R L", f"click: {between}") for between in ("eighths", "every beat, eighths")),
    alone("time: 6/8", "hands: RLR LRL", "click: swung eighths"),
    alone("time: 3/16", "hands: R L R", "click: sixteenths"),
    alone("time: 6/8", "hands: RLR LRL", "feel: swing"),
    alone("from: nobody"),
    alone("title: An example", "hands: R L") + "\n\n" + fenced("title: Two\nfrom: an-example"),
    fenced("id: one\ntitle: One\nfrom: two", "id: two\ntitle: Two\nfrom: one"),
    fenced("id: one\ntitle: One\nhands: RL", "id: one\ntitle: Two\nhands: RL"),
    fenced("id: one-two\ntitle: One\nhands: RL", "title: One two\nhands: RL"),
    alone("hands: R L", "left: x x"),
    fenced("title: One\nhands: RL").replace("pattern", "pattern title: Two", 1),
    fenced("title: One\nhands: RL").replace("pattern", "patern"),
    fenced("title: One\nhands: RL").replace("```", "``", 1),
    f"<!-- a note\n\n{GOOD}\n<!-- another -->\n",
    f"```text\nabout\n\n{GOOD}",
    GOOD.removesuffix("```"),
    "- x\n\n    ```pattern\n    title: A\n   hands: RL\n    ```",
    alone("time: 2/4", "hands: R L | R L", "repeats: bars 1 and 2"),
    alone("time: 2/4", "hands: R L | R L | R L", "repeats: bars 1 to 2, bar 2"),
    alone("time: 4/4", "hands: " + "R " * 160, "repeats: bars 1 to 40 8 times"),
    alone("feet: R L R L", "drums: snare"),
    grown("hands: R L R L\ndrums: snare, kick, snare, kick", "left: x . . ."),
    alone("time: 7/8 as 2+2+3", "pick-up: 1 beat", "hands: RL RL RLR"),
    alone("pick-up: 1 beat", "hands: R R L R L"),
    grown("time: 4/4\nhands: R L R L", "pick-up: 1 beat"),
    *(grown(f"time: 4/4\n{limbs}: R L R L", "time: 3/4") for limbs in ("hands", "feet")),
    alone("time: 2/4", "right: x x x x", "left: x x x x x x"),
    alone("time: 2/4", "hands: R L R L R L", "feet: R L R L"),
    grown("feet: R L R L", "feet: none"),
]
# What is found is told here, its remedy elsewhere.
OUT_OF_REACH = [alone("time: 4/4", test_chart.BARS, f"text: fill at {moment}") for moment in ("bar 3", "beat 5")]


def problems(text: str) -> Iterator[Problem]:
    read = read_course({"a.md": text})
    yield from read.problems
    yield from read.warnings


@pytest.mark.parametrize("text", [*TABLES, *MORE])
def test_all_that_is_wrong_is_said(text):
    with bracketed():
        told = [(unsaid(each.found), unsaid(each.remedy)) for each in problems(text)]
    assert set(told) == {("", "")}


@pytest.mark.parametrize("text", OUT_OF_REACH)
def test_what_stands_out_of_reach_is_said(text):
    with bracketed():
        assert [unsaid(each.found) for each in problems(text)] == [""]


class _Heard(NullTranslations):
    """English that remembers what was said."""

    def __init__(self) -> None:
        super().__init__()
        self.texts: set[str] = set()

    def gettext(self, message: str) -> str:
        self.texts.add(message)
        return message

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        self.texts.add(msgid1)
        return msgid1 if n == 1 else msgid2


def texts_of(module: str) -> set[str]:
    path = Path(wristwork.pattern.__file__).with_name(f"{module}.py")
    found = extract_from_file("python", path, {"say": None, "marked": None, "say_count": (1, 2)})
    return {message if isinstance(message, str) else message[0] for _, message, _, _ in found}


def test_every_text_is_met():
    heard = _Heard()
    with speaking(Language("en", heard, {}, "heard")):
        for text in [*TABLES, *MORE, *OUT_OF_REACH]:
            list(problems(text))
    unmet = {module: sorted(texts_of(module) - heard.texts) for module in MODULES}
    assert {module: texts for module, texts in unmet.items() if texts} == {}
