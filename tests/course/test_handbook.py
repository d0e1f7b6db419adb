"""The handbook and the seeds hold what they say: patterns that read, messages that the reader gives."""

import re
from pathlib import Path

import pytest
import yaml

from wristwork.course.checks import CHECKS, check_course
from wristwork.course.checks.load import LONGEST_TURN
from wristwork.course.checks.steepness import FASTEST_HAND, GRADES_APART, MOST_NEW, STEEPEST_RISE
from wristwork.course.course import read_teaching
from wristwork.course.load import GROWS_AT_MOST, MINUTES_FLOOR, STROKES_FLOOR
from wristwork.course.plan import SHORTEST_TURN
from wristwork.course.safety.exposure import PROTECTION_KINDS, SURFACES, read_protection
from wristwork.course.weeks import read_week
from wristwork.look.finished import LOOKS, finished_look
from wristwork.page.page import read_page, read_pages
from wristwork.pattern import read_course, read_one
from wristwork.pattern.changes import PLAIN
from wristwork.pattern.lines import KEYS
from wristwork.pattern.model import DiagramRow, Drum, Gap, Level, Note, Pattern
from wristwork.pattern.placement import WHO
from wristwork.pattern.write import lane_text
from wristwork.site.mkdocs.config import WristworkConfig
from wristwork.technique.strokes import Kind, strokes

ROOT = Path(__file__).parents[2]
HANDBOOK = ROOT / "docs" / "handbook"
SEEDS = sorted(path.parent for path in (ROOT / "seeds").glob("*/mkdocs.yml"))


def pages(folder: Path) -> dict[str, str]:
    """The pages under a folder, by their path from it."""
    found = sorted(folder.rglob("*.md"))
    return {path.relative_to(folder).as_posix(): path.read_text(encoding="utf-8") for path in found}


COURSE = read_course(pages(ROOT / "docs"))
TEXTS = {f"handbook/{name}": text for name, text in pages(HANDBOOK).items()}
FENCES = [fence for fence in COURSE.fences if fence.path.startswith("handbook/")]

# A page shown as source, and what stands right under it: the live pattern, or the message that it gives.
SHOWN = re.compile(
    r"^`{4}markdown\n(?P<source>.*?)\n`{4}$(?P<below>\n\n(?P<marks>`{3,})(?P<kind>\w+)\n(?P<body>.*?)\n(?P=marks)$)?",
    re.M | re.S,
)
SHOWN_BLOCKS = [(name, block) for name, text in TEXTS.items() for block in SHOWN.finditer(text)]
MESSAGES = [(name, block) for name, block in SHOWN_BLOCKS if block["kind"] == "text"]
LIVE = [(name, block) for name, block in SHOWN_BLOCKS if block["kind"] == "pattern"]


def test_every_pattern_of_the_handbook_reads():
    told = [*COURSE.problems, *COURSE.warnings]
    assert [str(problem) for problem in told if problem.path.startswith("handbook/")] == []
    assert [fence.path for fence in FENCES if fence.pattern is None] == []


def test_patterns_of_the_handbook_are_no_exercises():
    assert [fence.path for fence in FENCES if not fence.pattern.example] == []


@pytest.mark.parametrize("seed", SEEDS, ids=[seed.name for seed in SEEDS])
def test_every_pattern_of_a_seed_reads_and_is_an_exercise_with_an_id(seed):
    course = read_course(pages(seed / "docs"))
    assert [str(problem) for problem in (*course.problems, *course.warnings)] == []
    assert len(course.exercises) == len([fence for fence in course.fences if not fence.pattern.example]) > 0


@pytest.mark.parametrize(("name", "block"), LIVE, ids=[f"{name}:{block.start()}" for name, block in LIVE])
def test_source_shown_is_the_source_of_the_diagram_under_it(name, block):
    assert block["source"] == f"```pattern\n{block['body']}\n```"


def test_every_live_pattern_of_the_pages_on_the_language_shows_its_source():
    for page in ("patterns", "time", "drums", "growing"):
        live = [block for name, block in LIVE if name == f"handbook/{page}.md"]
        assert len(live) == len(COURSE.on_page(f"handbook/{page}.md")) > 0


@pytest.mark.parametrize(("name", "block"), MESSAGES, ids=[f"{name}:{block.start()}" for name, block in MESSAGES])
def test_messages_shown_are_given_by_the_reader(name, block):
    course = read_course({"docs/weeks/week-03.md": block["source"]})
    told = [str(problem) for problem in (*course.problems, *course.warnings)]
    assert "\n".join(told) == block["body"]


def test_the_page_on_errors_shows_messages():
    assert len(MESSAGES) >= 15


def slots_shown() -> list[Note | Gap]:
    """Every written slot of the live patterns on the page about writing."""
    shown = [fence.pattern for fence in COURSE.on_page("handbook/patterns.md")]
    return [slot for pattern in shown for lane in (pattern.hands, pattern.feet) if lane for slot in lane.slots]


@pytest.mark.parametrize(
    ("mark", "shows"),
    {
        "rest": lambda slot: slot is Gap.REST,
        "held slot": lambda slot: slot is Gap.HOLD,
        "both hands": lambda slot: isinstance(slot, Note) and slot.is_both,
        "hands that differ": lambda slot: isinstance(slot, Note) and slot.left is not None,
        "accent": lambda slot: isinstance(slot, Note) and slot.level is Level.ACCENT,
        "strong accent": lambda slot: isinstance(slot, Note) and slot.strong,
        "ghost": lambda slot: isinstance(slot, Note) and slot.level is Level.GHOST,
        "flam": lambda slot: isinstance(slot, Note) and len(slot.graces) == 1,
        "drag": lambda slot: isinstance(slot, Note) and len(slot.graces) == 2,
        "ruff": lambda slot: isinstance(slot, Note) and len(slot.graces) == 3,
        "two strokes": lambda slot: isinstance(slot, Note) and slot.strokes == 2,
        "three strokes": lambda slot: isinstance(slot, Note) and slot.strokes == 3,
        "four strokes": lambda slot: isinstance(slot, Note) and slot.strokes == 4,
        "buzz": lambda slot: isinstance(slot, Note) and slot.buzz,
    }.items(),
)
def test_every_mark_has_a_live_example(mark, shows):
    assert any(shows(slot) for slot in slots_shown()), mark


@pytest.mark.parametrize(
    ("page", "words"),
    [
        ("patterns", [*KEYS, *DiagramRow]),
        ("drums", [*Drum, "all", "accents", "taps", "ghosts", "right foot", "left foot"]),
    ],
)
def test_every_word_of_the_language_stands_on_its_page(page, words):
    spans = re.findall(r"`([^`\n]+)`", TEXTS[f"handbook/{page}.md"])
    named = {word.strip() for span in spans for word in span.split(",")}
    assert [word for word in words if word not in named] == []


def test_the_table_of_short_words_is_the_drums_own():
    rows = re.findall(r"^\| `([^`]+)` \| ([a-z -]+) \|$", TEXTS["handbook/drums.md"], re.M)
    assert dict(rows).items() >= {drum.row.short: drum.value for drum in Drum}.items()


def test_every_who_is_made_of_words_that_the_page_names():
    named = set(re.findall(r"[a-z]+", TEXTS["handbook/drums.md"]))
    assert [who for who in WHO if not set(who.split()) <= named] == []


def test_every_change_has_a_live_example():
    shown = {change for fence in COURSE.on_page("handbook/growing.md") for change in fence.pattern.changes}
    assert [change for change in PLAIN if change not in shown and change not in ("in eighths", "in sextuplets")] == []
    assert {change.rsplit(" ", 1)[0] for change in shown} >= {"start on", "accent 1 4"}
    assert any(change.startswith("add feet") for change in shown)


def test_the_exercise_that_the_examples_grow_out_of_is_as_the_page_says():
    assert "`RL RL RL RL`" in TEXTS["handbook/growing.md"]
    assert lane_text(COURSE.exercises["hand-to-hand"].pattern.hands) == "RL RL RL RL"


ROW_OF_NAMES = re.compile(r"^\| `(?P<hands>[^`]+)` \| (?P<names>(?:[\[\]·]|full|down|tap|up| )+) \|$", re.M)
NAMED = ROW_OF_NAMES.findall(TEXTS["handbook/strokes.md"])


def spoken_names(pattern: Pattern) -> list[str]:
    """The names of the strokes in order, those of grace notes in brackets."""
    return [f"[{stroke.name}]" if stroke.kind is Kind.GRACE else str(stroke.name) for stroke in strokes(pattern)]


@pytest.mark.parametrize(("hands", "names"), NAMED)
def test_table_of_stroke_names_is_what_the_strokes_are(hands, names):
    assert spoken_names(read_one(f"title: t\nid: abc\nhands: {hands}")) == names.replace("·", " ").split()


def test_the_page_on_strokes_has_its_table():
    assert len(NAMED) == 11


ROWS = re.compile(r"^\| `(?P<name>[a-z-]+)` \| .*? \| (?P<limit>.*) \|$", re.M)
CHECK_ROWS = dict(ROWS.findall(TEXTS["handbook/checks.md"]))


def test_the_table_of_checks_holds_every_check_and_no_other():
    assert list(CHECK_ROWS) == [check.name for check in CHECKS]


@pytest.mark.parametrize(
    ("check", "limits"),
    [
        ("steep-rise", [f"{STEEPEST_RISE} points"]),
        ("too-much-new", [f"{MOST_NEW}"]),
        ("hand-speed", [f"{FASTEST_HAND} motions a second"]),
        ("grade", [f"{GRADES_APART} apart"]),
        ("load", [f"{GROWS_AT_MOST:.0%}".replace("%", " %"), f"{MINUTES_FLOOR} minutes", f"{STROKES_FLOOR:,}"]),
        ("minutes-fit", [f"{SHORTEST_TURN} to {LONGEST_TURN} minutes"]),
    ],
)
def test_limits_in_the_table_are_those_that_are_checked(check, limits):
    assert [limit for limit in limits if limit not in CHECK_ROWS[check]] == []


def test_every_setting_of_a_week_is_read_as_the_page_says():
    page = TEXTS["handbook/weeks.md"]
    keys = ROWS.findall(page.split("## The course's own settings")[0])
    week, problems = read_week(read_page("week.md", SHOWN.search(page)["source"] + "\n"))
    assert problems == ()
    assert {"week", "title", "grade", "minutes", "days", "aim", "again", "surface"} <= week.front.settings.keys()
    assert {name for name, _ in keys} == {*week.front.settings, "protection", "look-back", "opens", "allow"}
    words = re.findall(r"`([^`\n]+)`", page)
    assert [surface.name for surface in SURFACES if surface.name not in words] == []
    kinds = {read_protection(word).kind for word in words if re.match(r"SNR|NRR|fit-tested|none", word)}
    assert kinds == set(PROTECTION_KINDS)


def test_settings_shown_are_settings_of_the_plugin():
    shown = re.search(r"```yaml\n(.*?)\n```", TEXTS["handbook/weeks.md"], re.S)[1]
    settings = yaml.safe_load(shown)["plugins"][1]["wristwork"]
    config = WristworkConfig()
    config.load_dict(settings)
    assert config.validate() == ([], [])
    table = ROWS.findall(TEXTS["handbook/weeks.md"].split("## The course's own settings")[1])
    assert {name for name, _ in table} == settings.keys()


def test_the_page_on_looks_shows_every_finished_look_in_its_colours():
    rows = re.findall(r"^- `([a-z]+)` <svg.*$", TEXTS["handbook/make-it-yours.md"], re.M)
    assert rows == list(LOOKS)
    for name in LOOKS:
        (row,) = re.findall(rf"^- `{name}` .*$", TEXTS["handbook/make-it-yours.md"], re.M)
        light = finished_look(name).light
        assert re.findall(r'fill="(#[0-9a-f]{6})"', row) == [light["deep"], light["accent"]]


def starter_pages() -> dict[str, str]:
    return pages(ROOT / "seeds" / "starter" / "docs")


def test_the_starter_passes_its_own_checks():
    course, problems = read_teaching(read_pages(starter_pages()))
    assert problems == ()
    assert [str(finding) for finding in check_course(course)] == []


def test_the_week_of_the_five_minute_walk_fits_the_starter():
    walk = [block["source"] for name, block in SHOWN_BLOCKS if name == "handbook/index.md"]
    week = next(source for source in walk if "week: 3" in source)
    course, problems = read_teaching(read_pages({**starter_pages(), "weeks/week-03.md": week}))
    assert problems == ()
    assert course.text.problems == ()
    assert [str(finding) for finding in check_course(course)] == []
    assert len(course.weeks) == 3


LINK = re.compile(r"\]\((?P<target>[^)\s#]+\.md)(?:#[\w-]+)?\)")


@pytest.mark.parametrize("name", TEXTS)
def test_links_lead_to_pages_that_exist(name):
    folder = (ROOT / "docs" / name).parent
    assert [target for target in LINK.findall(TEXTS[name]) if not (folder / target).is_file()] == []
