"""The seeds in other languages: the same course and the same library, said in the words of that language.

``seeds/starter-de`` is ``seeds/starter`` in German, and so on: whatever lies beside the English seeds is held against
them.
"""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest
import yaml

from tests.cli.conftest import run
from wristwork.cli.seeds import BUILT
from wristwork.course.addresses import FILE_NAME
from wristwork.course.checks import check_course
from wristwork.course.course import read_teaching
from wristwork.course.safety import safe_practice
from wristwork.course.safety.safe_practice import Topic
from wristwork.languages.catalogues import known_languages, language
from wristwork.languages.say import speaking
from wristwork.page.page import read_pages
from wristwork.pattern import read_course

SEEDS = Path(__file__).parents[2] / "seeds"
NAMES = ("starter", "rudiments")
SPOKEN = sorted({path.parent.name.partition("-")[2] for path in SEEDS.glob("*-*/mkdocs.yml")})

# What is a tutor's to say within a fence; every other line is the pattern.
SAID_IN_FENCES = ("title", "note", "text")
SAID_IN_FRONT_MATTER = ("title", "aim")
LONGEST_NOTE = 100
# The only measure of the safe-practice pages of the starter that is a word in English.
FIFTEEN_MINUTES = {"de": "fünfzehn Minuten", "es": "quince minutos", "fr": "quinze minutes"}

FENCE = re.compile(r"^```pattern\n(?P<body>.*?)\n```$", re.MULTILINE | re.DOTALL)
FRONT_MATTER = re.compile(r"\A---\n(?P<body>.*?)\n---\n", re.DOTALL)
NO_PROSE = re.compile(r"<!--.*?-->|`[^`]+`|\]\([^)]*\)|\[\^[^\]]+\]", re.DOTALL)
# Words that no other language of ours has.
ENGLISH = re.compile(r"\b(?:and|from|of|that|the|their|these|this|which|with|your)\b", re.IGNORECASE)

every_seed = pytest.mark.parametrize(
    ("name", "code"),
    [(name, code) for code in SPOKEN for name in NAMES],
    ids=[f"{name}-{code}" for code in SPOKEN for name in NAMES],
)
every_language = pytest.mark.parametrize("code", SPOKEN)


def files(seed: str) -> dict[str, str]:
    """The files of a seed, by their path from it, without what a build left there."""
    folder = SEEDS / seed
    return {
        path.relative_to(folder).as_posix(): path.read_text(encoding="utf-8")
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not BUILT & set(path.relative_to(folder).parts)
    }


def pages(seed: str) -> dict[str, str]:
    """The pages of a seed, by their path from its pages' folder."""
    return {path.removeprefix("docs/"): text for path, text in files(seed).items() if path.startswith("docs/")}


def both(name: str, code: str) -> list[tuple[str, str, str]]:
    """Each page with its text in English and in a language."""
    theirs = pages(f"{name}-{code}")
    return [(path, text, theirs[path]) for path, text in pages(name).items()]


def unsaid_lines(block: str, said: tuple[str, ...]) -> list[str]:
    """The lines of a block of keys, those of a tutor's words with their key alone."""
    return [re.sub(rf"^({'|'.join(said)}): .*", r"\1", line) for line in block.splitlines()]


def fences(text: str) -> list[list[str]]:
    return [unsaid_lines(found["body"], SAID_IN_FENCES) for found in FENCE.finditer(text)]


def front_matter(text: str) -> list[str]:
    found = FRONT_MATTER.match(text)
    return unsaid_lines(found["body"], SAID_IN_FRONT_MATTER) if found else []


def outline(text: str) -> list[int]:
    """How deep each heading stands, with a 0 for each pattern between them."""
    marks = re.findall(r"^(#+)(?= )|^(```pattern)$", text, re.MULTILINE)
    return [len(heading) for heading, _ in marks]


def values(text: str, keys: tuple[str, ...]) -> list[str]:
    return re.findall(rf"^[ -]*(?:{'|'.join(keys)}): (.*)$", text, re.MULTILINE)


def paragraphs(path: str, text: str) -> list[str]:
    """What somebody reads in a file: its prose, without code, addresses and marks."""
    if path.endswith(".md"):
        front = FRONT_MATTER.match(text)
        said = values(front["body"], SAID_IN_FRONT_MATTER) if front else []
        said += [value for found in FENCE.finditer(text) for value in values(found["body"], SAID_IN_FENCES)]
        body = FENCE.sub("", FRONT_MATTER.sub("", text))
        said += re.split(r"\n\s*\n|\n(?=\s*(?:-|\d+\.) )", body)
    else:
        said = [line.strip(" #") for line in text.splitlines() if line.strip().startswith("#")]
        said += values(text, ("name", "site_name", "site_description")) if path != FILE_NAME else []
    return [plain for block in said if (plain := " ".join(NO_PROSE.sub(" ", block).split()).lstrip("# "))]


def test_there_are_seeds_in_other_languages():
    assert SPOKEN
    assert set(SPOKEN) <= set(known_languages())
    assert {path.parent.name for path in SEEDS.glob("*/mkdocs.yml")} == {
        *NAMES,
        *(f"{name}-{code}" for name in NAMES for code in SPOKEN),
    }


@every_seed
def test_files_are_those_of_the_english_seed(name, code):
    assert sorted(files(f"{name}-{code}")) == sorted(files(name))


@every_seed
def test_patterns_are_those_of_the_english_seed(name, code):
    for path, english, said in both(name, code):
        assert fences(said) == fences(english), path
        assert front_matter(said) == front_matter(english), path


@every_seed
def test_headings_comments_and_links_are_those_of_the_english_seed(name, code):
    for path, english, said in both(name, code):
        assert outline(said) == outline(english), path
        for kept in (r"<!--.*?-->", r"\]\(([^)]*)\)", r"^!!! \w+", r"\[\^[\w-]+\]"):
            assert re.findall(kept, said, re.MULTILINE) == re.findall(kept, english, re.MULTILINE), path


@every_seed
def test_it_reads_without_a_problem(name, code):
    course = read_course(pages(f"{name}-{code}"))
    assert [str(problem) for problem in (*course.problems, *course.warnings)] == []
    assert list(course.exercises) == list(read_course(pages(name)).exercises)


@every_language
def test_the_starter_passes_its_own_checks(code):
    course, problems = read_teaching(read_pages(pages(f"starter-{code}")))
    assert problems == ()
    assert [str(finding) for finding in check_course(course)] == []


@every_seed
def test_the_site_speaks_the_language_and_has_the_same_settings(name, code):
    english, said = (yaml.safe_load(files(seed)["mkdocs.yml"]) for seed in (name, f"{name}-{code}"))
    assert said["theme"] == {**english["theme"], "language": code}
    for key in ("site_name", "site_description"):
        assert said[key] != english[key]
    for settings in (english, said):
        nav = settings.pop("nav", [])
        settings["order"] = [path for entry in nav for path in entry.values()]
        for key in ("theme", "site_name", "site_description"):
            del settings[key]
    assert said == english


@every_language
def test_the_workflow_does_the_same(code):
    path = ".github/workflows/publish.yml"

    def steps(text: str) -> list[str]:
        """The lines that a machine reads, with the words in them for people left out."""
        lines = [line for line in text.splitlines() if not line.strip().startswith("#")]
        return [re.sub(r'(name[:=] ?|-m ")(?!github-pages|url)("[^"]*"|[^"\n]*)', r"\1", line) for line in lines]

    assert steps(files(f"starter-{code}")[path]) == steps(files("starter")[path])


@every_language
def test_safe_practice_has_the_same_numbers_and_notices(code):
    by_path = {path: (english, said) for path, english, said in both("starter", code)}
    for topic in Topic:
        english, said = by_path[topic.src_uri]
        numbers = [Counter(re.findall(r"\d+", text)) for text in (english, said)]
        assert numbers[0] == numbers[1], topic
        lacking = [notice.title for notice in safe_practice.missing(topic, english)]
        with speaking(language(code)):
            assert [notice.title for notice in safe_practice.missing(topic, said)] == lacking, topic
    english, said = (" ".join(text.split()) for text in by_path[Topic.HEARING.src_uri])
    assert english.count("fifteen minutes") == said.count(FIFTEEN_MINUTES[code]) == 1


@every_language
def test_the_record_of_addresses_is_the_librarys(code):
    english, said = (yaml.safe_load(files(seed)[FILE_NAME]) for seed in ("rudiments", f"rudiments-{code}"))
    exercises = read_course(pages(f"rudiments-{code}")).exercises
    assert said == {name: {**entry, "title": exercises[name].pattern.title} for name, entry in english.items()}


@every_language
def test_notes_of_rudiments_are_short_and_no_sentence_stands_twice(code):
    notes = [located.pattern.note for located in read_course(pages(f"rudiments-{code}")).exercises.values()]
    assert [note for note in notes if not note.endswith(".") or len(note) > LONGEST_NOTE] == []
    said = [block for path, text in pages(f"rudiments-{code}").items() for block in paragraphs(path, text)]
    sentences = [sentence for block in said for sentence in re.split(r"(?<=[.!?])\s+", block) if sentence.endswith(".")]
    assert [sentence for sentence, times in Counter(sentences).items() if times > 1] == []


@every_seed
def test_no_english_is_left(name, code):
    english = {
        block for path, text in files(name).items() for block in paragraphs(path, text) if len(block.split()) > 2
    }
    if name == "rudiments":
        # The names of rudiments are the trade's, in many languages.
        english -= {located.pattern.title for located in read_course(pages(name)).exercises.values()}
    assert english
    for path, text in files(f"{name}-{code}").items():
        said = paragraphs(path, text)
        assert [block for block in said if block in english] == [], path
        assert [found[0] for block in said if (found := ENGLISH.search(block))] == [], path


@every_language
def test_the_starter_is_well_for_the_command(code):
    done = run("check", SEEDS / f"starter-{code}")
    assert done.code == 0, done.out + done.err
