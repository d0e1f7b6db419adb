"""What has to be worked out in two languages comes to the same: one table of cases for both.

The cases are made here, Python's results are what is published, and the scripts are asked in a real browser.
DEVELOPERS.md lists all such things.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.site.player.server import serving
from wristwork.course.calendar import week_dates
from wristwork.course.exercise import Lesson, exercise_data, json_bytes
from wristwork.pattern import read_one
from wristwork.pattern.model import Level, Manner, TimeSignature
from wristwork.pattern.settings import LOWER, MOST_UPPER
from wristwork.site.film.hands import hit_of, with_rebounds
from wristwork.site.frontend.assets import asset_files
from wristwork.site.week.dates import days_words
from wristwork.sound.schedule import pass_seconds, schedule
from wristwork.technique.motion.arm import pose
from wristwork.technique.motion.paths import Impact, motion

pytestmark = pytest.mark.browser

CODE = "assets/wristwork/0123456789"


@pytest.fixture(scope="module")
def page(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """An empty page beside the published scripts."""
    root = tmp_path_factory.mktemp("twice")
    (root / CODE).mkdir(parents=True)
    for name, content in asset_files().items():
        if name.endswith(".js"):
            (root / CODE / name).write_bytes(content)
    (root / "index.html").write_text("<!doctype html><title>Twice</title>")
    with serving(root) as served:
        page = browser.new_page()
        page.goto(served.url)
        yield page
        page.close()


def ask(page: Page, script: str, expression: str, cases: object) -> object:
    call = f"async (cases) => {{ const made = await import('/{CODE}/{script}'); return cases.map({expression}); }}"
    return page.evaluate(call, cases)


def test_the_beats_of_a_bar(page: Page) -> None:
    """3/8 has three, 6/8 two, and 9/8 in unlike groups nine."""
    times = [TimeSignature(upper, lower) for lower in LOWER for upper in range(1, MOST_UPPER + 1)]
    times += [TimeSignature(9, 8, (2, 2, 2, 3)), TimeSignature(7, 8, (2, 2, 3)), TimeSignature(6, 8, (2, 4))]
    usual = {"beats": 1, "repeat": 1, "loop": True, "strokes": []}
    cases = [
        {**usual, "time": [time.upper, time.lower], **({"pulses": list(time.pulses)} if time.pulses else {})}
        for time in times
    ]
    assert ask(page, "player-schedule.js", "(one) => made.readScore(one).bar", cases) == [time.beats for time in times]


STARTS = (date(2027, 1, 11), date(2026, 12, 28), date(2028, 2, 23), date(2027, 3, 22))


def test_the_days_of_a_week_and_the_week_of_a_day(page: Page) -> None:
    """Ends of months, of years, of winter time; leap days."""
    cases = [(start, number) for start in STARTS for number in (1, 2, 5, 10, 53)]
    asked = [[start.isoformat(), number] for start, number in cases]
    words = ask(page, "dates.js", "([start, number]) => made.daysWords(made.readDay(start), number)", asked)
    assert words == [days_words(*week_dates(start, number)) for start, number in cases]
    days = [(start, start + timedelta(days=days)) for start in STARTS for days in (-8, -1, 0, 6, 7, 75, 300)]
    asked = json.loads(json.dumps([[start.isoformat(), day.isoformat()] for start, day in days]))
    weeks = ask(page, "dates.js", "([start, day]) => made.weekOf(made.readDay(start), day)", asked)
    assert weeks == [(day - start).days // 7 + 1 for start, day in days]


# Of one hand: an accent between taps; a double; flam and drag; a buzz; one so quick that heights shrink.
HANDS: tuple[tuple[list[Impact], float | None], ...] = (
    ([Impact(0.0, Level.ACCENT), Impact(0.5, Level.TAP), Impact(0.75, Level.TAP)], 1.0),
    ([Impact(0.25, Level.TAP), Impact(0.35, Level.TAP, is_rebound=True)], 0.5),
    ([Impact(-0.03, Level.GHOST, is_rebound=True), Impact(0.5, Level.ACCENT), Impact(0.97, Level.GHOST)], 1.05),
    ([Impact(0.0, Level.ACCENT, buzz=0.2), Impact(0.5, Level.GHOST), Impact(1.0, Level.TAP, buzz=0.9)], 1.4),
    ([Impact(0.0, Level.ACCENT), Impact(0.09, Level.ACCENT), Impact(0.18, Level.TAP)], 0.3),
    ([Impact(0.0, Level.TAP), Impact(0.7, Level.ACCENT)], None),
)


def test_the_motion_of_a_hand(page: Page) -> None:
    """Angles and places of forearm, hand and stick, to a millionth of a centimetre."""
    cases, poses = [], []
    for impacts, period in HANDS:
        for manner in Manner:
            told = [{"at": one.at, "level": one.level, "rebound": one.is_rebound, "buzz": one.buzz} for one in impacts]
            moved = motion(impacts, period, manner)
            for number in range(-20, 80):
                cases.append([told, period, manner, number / 37])
                stance = pose(moved, number / 37)
                poses.append([*stance[:3], *stance.wrist, *stance.grip, *stance.bead])
    asked = "([hits, period, manner, at]) => made.poseAt(made.motionOf(hits, period, manner), at)"
    flat = f"(one) => Object.values(({asked})(one)).flat()"
    answers = ask(page, "hand-motion.js", flat, cases)
    for answer, expected in zip(answers, poses, strict=True):
        assert answer == pytest.approx(expected, abs=1e-6)


ROUND = """({ exercise, tempo }) => {
    const score = { ...made.schedule.readScore(exercise), buzz: {}, drag: {} };
    return made.roundOf(score, tempo, false, true).hits.map((hit) => [hit.at, hit.limb, hit.name, hit.rebound]);
}"""


@pytest.mark.parametrize(
    ("hands", "tempo"),
    [
        ("RRLL RRLL RRLL RRLL", 140),
        ("RRLL RRLL RRLL RRLL", 50),
        ("R>LRR L>RLL R>LRR L>RLL", 160),
        ("R/L/R/L/ R>--- L/R/L/R/ L>---", 90),
        ("RRR> LLL> R/3L/3 RL", 120),
        ("lR> R rL> L", 100),
    ],
)
def test_which_strokes_rebound(page: Page, hands: str, tempo: int) -> None:
    """Of a pattern that comes again and again, its second pass in a film against the player's round."""
    pattern = read_one(f"title: Rebounds\ntempo: {tempo}\nhands: {hands}")
    exercise = json.loads(json_bytes(exercise_data(pattern, Lesson("week-01/#rebounds"))))
    call = f"""async (given) => {{
        const schedule = await import('/{CODE}/player-schedule.js');
        const made = {{ ...(await import('/{CODE}/hand-strokes.js')), schedule }};
        return ({ROUND})(given);
    }}"""
    answer = page.evaluate(call, {"exercise": exercise, "tempo": tempo})
    period = float(pass_seconds(pattern, tempo))
    onsets = [onset for onset in schedule(pattern, tempo, 3) if onset.stroke.limb.is_hand]
    marked = with_rebounds(sorted((hit_of(onset, 0.0) for onset in onsets), key=lambda hit: hit.at))
    second = marked[len(marked) // 3 : 2 * len(marked) // 3]
    told = [(hit.at - period, str(hit.limb), str(hit.name), hit.is_rebound) for hit in second]
    assert [tuple(each[1:]) for each in answer] == [each[1:] for each in told]
    assert [each[0] for each in answer] == pytest.approx([each[0] for each in told], abs=1e-6)


def test_the_scripts_that_work_something_out_again_are_listed() -> None:
    told = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
    for name in (
        "player-schedule.js",
        "limits.js",
        "dates.js",
        "sound-day-formulas.js",
        "finding.js",
        "hand-motion.js",
        "hand-strokes.js",
    ):
        assert f"`{name}`" in told


LISTED = [
    {"id": id_, "title": title, "sticking": sticking, "lesson": "", "where": ""}
    for id_, title, sticking in (
        ("accented-paradiddle", "Accented paradiddle", "R>LRR L>RLL R>LRR L>RLL"),
        ("para", "Paradiddle", "RLRR LRLL | RLRR LRLL"),
        ("low-taps", "Low taps", "R R R R | L L L L"),
        ("ghosts", "Ghosts & <marks>", "R>(L)R(L) R>(L)R(L)"),
        ("single-drags", "Single drags", "llR> . rrL> ."),
        ("twin", "Roll away", "RRLL"),
    )
]


@pytest.mark.parametrize(
    ("typed", "first", "others"),
    [
        ("rlrr", "para", {"accented-paradiddle"}),
        ("RLRR", "para", {"accented-paradiddle"}),
        ("R L R R", "para", {"accented-paradiddle"}),
        ("r>l rr l>r ll", "accented-paradiddle", set()),
        ("R>LRR L>RLL", "accented-paradiddle", set()),
        ("R>L", "accented-paradiddle", set()),
        ("rlrl rlrl", "ghosts", set()),
        ("R>(L)", "ghosts", set()),
        ("llR", "single-drags", set()),
        ("rrll", "twin", set()),
        ("rrrr", "low-taps", set()),
        ("accented-para", "accented-paradiddle", set()),
        ("para", "para", {"accented-paradiddle"}),
        ("twin", "twin", set()),
        ("<marks>", "ghosts", set()),
    ],
)
def test_what_is_typed_finds_exercises_by_sticking_title_and_id(
    page: Page, typed: str, first: str, others: set[str]
) -> None:
    (answer,) = ask(page, "finding.js", f"(all) => made.find(all, {json.dumps(typed)})", [LISTED])
    found = [one["id"] for one in answer["found"]]
    assert set(found) >= {first, *others}
    assert not answer["near"]
    if answer["bySticking"]:
        assert found[0] == first


@pytest.mark.parametrize(
    ("typed", "near"),
    [("rlrrlrrl", {"para", "accented-paradiddle"}), ("paradidle", {"para", "accented-paradiddle"}), ("xyzzy", set())],
)
def test_where_nothing_is_found_what_comes_close_is_named(page: Page, typed: str, near: set[str]) -> None:
    (answer,) = ask(page, "finding.js", f"(all) => made.find(all, {json.dumps(typed)})", [LISTED])
    assert answer["found"] == []
    assert {one["id"] for one in answer["near"]} == near
