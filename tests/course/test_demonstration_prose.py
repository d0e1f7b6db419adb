"""The prose of the demonstration course: every lesson complete, nothing said twice."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml

from wristwork.pattern import read_course

WEEKS = Path(__file__).parents[2] / "docs" / "weeks"
PAGES = {page.name: page.read_text(encoding="utf-8") for page in sorted(WEEKS.glob("week-*.md"))}

# What every lesson says, in these words, so that a student finds it at a glance.
LABELS = ("The usual mistake.", "The cure.", "How to know.")
# What is meant to come back, in the same words: when to stop (the rule of the safe-practice pages).
STOP_RULE = "stop at once at pain numbness tingling weakness or a burning feeling"
STOP_RULE_GOES_ON = "do not play through it and see a doctor or physiotherapist if it returns or lasts"
COMES_BACK = (STOP_RULE, STOP_RULE_GOES_ON)
SHORTEST_SENTENCE = 4
LONGEST_SHARED_RUN = 7

_FRONT_MATTER = re.compile(r"\A---\n(?P<matter>.*?)\n---\n(?P<body>.*)\Z", re.DOTALL)
_FENCE = re.compile(r"^```.*?^```$", re.DOTALL | re.MULTILINE)
_SECTION = re.compile(r"^## ", re.MULTILINE)
_LINK = re.compile(r"\[([^\]]*)\]\(([^)]*)\)")
_SENTENCE_END = re.compile(r"(?<=[.!?])[\"')]*\s+")


def front_matter(text: str) -> dict[str, object]:
    found = _FRONT_MATTER.match(text)
    assert found is not None, "a week page starts with front matter"
    matter: dict[str, object] = yaml.safe_load(found["matter"])
    return matter


def body(text: str) -> str:
    found = _FRONT_MATTER.match(text)
    return found["body"] if found else text


def sections(text: str) -> list[str]:
    """The parts of a page under its second-level headings, fences and all."""
    return _SECTION.split(body(text))[1:]


def prose(text: str) -> str:
    """What a student reads as sentences: no front matter, fences, headings, labels or markup."""
    plain = _FENCE.sub("", body(text))
    plain = re.sub(r"^#.*$", "", plain, flags=re.MULTILINE)
    plain = _LINK.sub(r"\1", plain)
    for label in LABELS:
        plain = plain.replace(f"**{label}**", "\n\n")
    return plain


def normalised(sentence: str) -> str:
    return " ".join(re.findall(r"[a-z0-9]+", sentence.lower().replace("'", "").replace("’", "")))


def sentences(text: str) -> Iterator[str]:
    for paragraph in re.split(r"\n\s*\n", prose(text)):
        for sentence in _SENTENCE_END.split(" ".join(paragraph.split())):
            words = normalised(sentence)
            if len(words.split()) >= SHORTEST_SENTENCE:
                yield words


def repeated_sentences(pages: dict[str, str]) -> dict[str, list[str]]:
    where: dict[str, list[str]] = defaultdict(list)
    for name, text in pages.items():
        for sentence in sentences(text):
            where[sentence].append(name)
    return {sentence: names for sentence, names in where.items() if len(names) > 1 and sentence not in COMES_BACK}


def shared_runs(pages: dict[str, str], length: int) -> dict[str, list[str]]:
    """Runs of ``length`` words that stand in more than one sentence."""
    where: dict[str, list[str]] = defaultdict(list)
    for name, text in pages.items():
        for sentence in sentences(text):
            words = sentence.replace(STOP_RULE, "").replace(STOP_RULE_GOES_ON, "").split()
            for run in {" ".join(words[i : i + length]) for i in range(len(words) - length + 1)}:
                where[run].append(name)
    return {run: names for run, names in where.items() if len(names) > 1}


def test_a_sentence_said_twice_is_found_whatever_its_case_and_markup() -> None:
    first = "---\nweek: 1\n---\n**How to know.** The stick *stays* low, and still.\n"
    second = "---\nweek: 2\n---\nBegin. The stick stays\nlow and still! End.\n"
    assert repeated_sentences({"a": first, "b": second}) == {"the stick stays low and still": ["a", "b"]}
    assert shared_runs({"a": first, "b": second}, 4)


def test_there_are_twelve_weeks_in_order() -> None:
    assert [front_matter(text)["week"] for text in PAGES.values()] == list(range(1, 13))


@pytest.mark.parametrize("name", PAGES)
def test_every_week_says_what_it_is_for(name: str) -> None:
    matter = front_matter(PAGES[name])
    aim = matter["aim"]
    assert isinstance(aim, str)
    assert aim.endswith(".")
    assert 5 <= len(aim.split()) <= 25
    for key in ("title", "grade", "minutes", "days", "surface"):
        assert matter.get(key), f"{name} does not say its {key}"


@pytest.mark.parametrize("name", PAGES)
def test_every_exercise_names_a_mistake_its_cure_and_how_to_know(name: str) -> None:
    with_exercise = [section for section in sections(PAGES[name]) if "```pattern" in section]
    assert len(with_exercise) == PAGES[name].count("```pattern"), "each exercise has a section of its own"
    for section in with_exercise:
        heading = section.splitlines()[0]
        after_pattern = " ".join(_FENCE.split(section)[-1].split())
        found = re.fullmatch("(.*)" + "".join(rf"\*\*{re.escape(label)}\*\*(.*)" for label in LABELS), after_pattern)
        assert found is not None, f"{heading}: expected, in this order: {', '.join(LABELS)}"
        how_it_moves, mistake, cure, how_to_know = (len(said.split()) for said in found.groups())
        assert how_it_moves >= 30, heading
        assert min(mistake, cure, how_to_know) >= 8, heading


def test_no_sentence_stands_twice() -> None:
    assert repeated_sentences(PAGES) == {}


def test_no_sentence_is_another_one_in_disguise() -> None:
    assert shared_runs(PAGES, LONGEST_SHARED_RUN + 1) == {}


def test_week_one_sends_the_student_to_all_three_safe_practice_pages() -> None:
    targets = {target for _, target in _LINK.findall(PAGES["week-01.md"])}
    assert {f"../safe-practice/{page}.md" for page in ("warm-up", "posture", "hearing")} <= targets


@pytest.mark.parametrize("name", [name for name, text in PAGES.items() if "kit" in str(front_matter(text)["surface"])])
def test_a_week_on_the_kit_protects_the_ears(name: str) -> None:
    assert re.search(r"ear protection|protect your ears", " ".join(prose(PAGES[name]).split()))
    assert "../safe-practice/hearing.md" in PAGES[name]


def test_the_weeks_that_rise_say_when_to_stop() -> None:
    with_rule = {name for name, text in PAGES.items() if STOP_RULE in normalised(" ".join(prose(text).split()))}
    assert {"week-06.md", "week-09.md", "week-11.md", "week-12.md"} <= with_rule


def test_every_pattern_is_read_without_a_fault_and_has_a_note() -> None:
    course = read_course(PAGES)
    assert [str(problem) for problem in (*course.problems, *course.warnings)] == []
    assert [id for id, fence in course.exercises.items() if not fence.pattern or not fence.pattern.note] == []


def test_every_link_to_an_exercise_finds_it() -> None:
    course = read_course(PAGES)
    homes = {id: fence.path for id, fence in course.exercises.items()}
    for name, text in PAGES.items():
        for _, target in _LINK.findall(text):
            page, _, anchor = target.partition("#")
            if anchor:
                assert homes.get(anchor) == (page.partition("?")[0] or name), f"{name}: {target}"


def test_an_exercise_is_named_by_the_title_its_link_leads_to() -> None:
    titles = {id: fence.pattern.title for id, fence in read_course(PAGES).exercises.items() if fence.pattern}
    named = [(words, target.partition("#")[2]) for text in PAGES.values() for words, target in _LINK.findall(text)]
    for words, anchor in named:
        if anchor and words[:1].isupper():
            assert " ".join(words.split()) == titles[anchor]


def test_a_heading_leaves_the_anchor_to_the_exercise() -> None:
    ids = set(read_course(PAGES).exercises)
    for name, text in PAGES.items():
        for section in sections(text):
            slug = re.sub(r"[^a-z0-9]+", "-", section.splitlines()[0].lower()).strip("-")
            assert slug not in ids, f"{name}: {slug}"
