"""The sound-day calculator in a real browser."""

import json
import random
import re

import pytest
from playwright.sync_api import Page, expect

from tests.site.safe_practice.form import fill, work_out
from wristwork.course.safety import exposure
from wristwork.course.safety.exposure import DayPart, Protection, Weighting
from wristwork.site.safety import sound_day

pytestmark = pytest.mark.browser


@pytest.fixture
def hearing(page, site) -> Page:
    page.goto(f"{site}/hearing-default.html")
    page.get_by_role("button", name="Work it out").wait_for()
    return page


def random_days(count):
    """Mixed days with every kind of protection and both weightings, the same on each run."""
    chance = random.Random(6)
    for _ in range(count):
        yield [
            DayPart(
                chance.randint(400, 1300) / 10,
                chance.randint(1, 300),
                Protection(chance.choice(exposure.PROTECTION_KINDS), chance.randint(0, 40)),
                chance.choice(list(Weighting)),
            )
            for _ in range(chance.randint(1, 4))
        ]


def test_the_script_counts_as_the_course_does(hearing):
    days = list(random_days(200))
    given = [
        [
            {
                "level": part.level,
                "minutes": part.minutes,
                "protection": part.protection.kind.key,
                "label": part.protection.label,
                "weighting": part.weighting.value,
            }
            for part in day
        ]
        for day in days
    ]
    got = hearing.evaluate(
        """async ([days, facts]) => {
            const count = await import("./sound-day-formulas.js");
            return days.map((day) => [count.dose(facts, day), count.dayLevel(facts, day)]);
        }""",
        [given, json.loads(sound_day.calculator_data())],
    )
    for day, (percent, level) in zip(days, got, strict=True):
        assert percent == pytest.approx(exposure.dose(day), rel=1e-9)
        assert level == pytest.approx(exposure.level_ex_8h(day), rel=1e-9)


def test_the_script_says_times_as_the_page_does(hearing):
    times = [0.04, 0.1, 1.488, 7.5, 9.99, 10, 47.6, 59.99, 60, 61, 119.9, 120, 151.2, 479.999, 480, 1439.9, 1440, 1e7]
    said = hearing.evaluate(
        """async ([times, facts]) => {
            const count = await import("./sound-day-formulas.js");
            return times.map((time) => count.sayMinutes(facts, time));
        }""",
        [times, json.loads(sound_day.calculator_data())],
    )
    assert said == [sound_day.say_minutes(time) for time in times]


def test_the_published_table_is_a_full_dose(hearing):
    for level, minutes in {85: 480, 88: 240, 91: 120, 94: 60, 97: 30, 100: 15, 103: 7.5}.items():
        fill(hearing, 1, level=level, minutes=minutes)
        assert work_out(hearing)[0] == pytest.approx(100)
        expect(hearing.locator(".ww-summary")).to_contain_text("100 %")


def test_a_mixed_day_worked_by_hand(hearing):
    # 60 min at 85 (a guess): 12.5 %. 45 min at 99 with foam plugs NRR 33: 99 - (33 × 0.5 - 7) = 89.5,
    # T = 480 / 2^1.5 = 169.706 min: 26.517 %. 30 min at 100 dB(C) with SNR 22: 100 - 18 = 82,
    # T = 960 min: 3.125 %. In all 42.142 %.
    fill(hearing, 1, minutes=60)
    hearing.get_by_role("button", name="Add a part").click()
    fill(hearing, 2, level=99, minutes=45, kind="nrr-foam-plugs", label=33)
    hearing.get_by_role("button", name="Add a part").click()
    fill(hearing, 3, level=100, weighting="C", minutes="30", kind="snr", label=22)
    percent, level = work_out(hearing)
    assert percent == pytest.approx(42.142, rel=1e-3)
    # 10 log10(0.125 · 10^8.5 + 0.09375 · 10^8.95 + 0.0625 · 10^8.2)
    assert level == pytest.approx(81.2366, abs=0.01)
    expect(hearing.locator(".ww-summary")).to_contain_text("42.1 % of a working adult’s day")
    expect(hearing.locator(".ww-day-bar-part")).to_have_count(3)
    expect(hearing.locator(".ww-day-bar title")).to_have_text(
        "A bar of 42.1 %, made of 3 parts, against a mark at 100 %."
    )
    shares = hearing.locator(".ww-shares li")
    expect(shares.nth(1)).to_have_text("45 min at 89.5 dB, protection counted for 9.5 dB: 26.5 %")
    # (1 - 0.42142) · 480 min at the pad
    expect(hearing.get_by_role("row", name="Practice pad, without protection")).to_contain_text("4 h 37 min")


def test_the_verdict_follows_the_dose(hearing):
    verdicts = {240: "at most half", 241: "more than half", 480: "more than half", 481: "more than the"}
    for minutes, says in verdicts.items():
        fill(hearing, 1, level=85, minutes=minutes)
        work_out(hearing)
        expect(hearing.locator(".ww-result > p").nth(1)).to_contain_text(says)
    expect(hearing.locator(".ww-result tbody td:last-child").first).to_have_text("none")


def test_guesses_are_the_higher_end_and_say_so(hearing):
    for name, level in (("practice pad", "85"), ("quiet kit", "90"), ("acoustic kit", "110")):
        part = fill(hearing, 1, surface=name, minutes=1)
        shown = part.get_by_label("Level in dB")
        expect(shown).to_have_value(level)
        expect(shown).to_have_accessible_description(re.compile("guess on the cautious side"))
        work_out(hearing)
        expect(hearing.locator(".ww-notes")).to_contain_text("guesses on the cautious side")
    fill(hearing, 1, level=93)
    work_out(hearing)
    expect(hearing.locator(".ww-notes")).not_to_contain_text("guesses")


def test_headphones_are_not_guessed(hearing):
    part = fill(hearing, 1, surface="electronic kit", minutes=30)
    expect(part.get_by_label("Level in dB")).to_have_value("")
    hearing.get_by_role("button", name="Work it out").click()
    expect(hearing.locator(".ww-summary")).to_have_count(0)
    expect(part.get_by_label("Level in dB")).to_have_accessible_description(re.compile("there is no guess"))


def test_protection_says_what_to_doubt(hearing):
    for kind, note in (("snr", "belongs to a level in dB(C)"), ("nrr-other-plugs", "hard on flat plugs")):
        fill(hearing, 1, minutes=30, kind=kind, label=20)
        work_out(hearing)
        expect(hearing.locator(".ww-notes")).to_contain_text(note)
        expect(hearing.locator(".ww-notes")).to_contain_text("no measurement, no law, and not made for children")


DIGITS = "must be a number in digits"
BAD = {
    "Level in dB": {
        "": "The level is missing",
        "loud": DIGITS,
        "-85": DIGITS,
        "1e2": DIGITS,
        "39.9": "must be 40 to 140",
        "200": "must be 40 to 140",
    },
    "Minutes": {
        "": "The time is missing",
        "ten": DIGITS,
        "-5": DIGITS,
        "1,000": DIGITS,
        "0": "must be above 0, up to 1440",
        "1441": "must be above 0, up to 1440",
    },
    "Number on its label": {
        "": "The number on the label is missing",
        "SNR 20": DIGITS,
        "51": "must be 0 to 50",
    },
}


@pytest.mark.parametrize("field", BAD)
def test_bad_input_is_told_at_its_field_and_nothing_is_computed(hearing, field):
    part = fill(hearing, 1, minutes=30, kind="snr", label=20)
    wrong = part.get_by_label(field)
    good = wrong.input_value()
    for typed, message in BAD[field].items():
        wrong.fill(good)
        work_out(hearing)
        wrong.fill(typed)
        hearing.get_by_role("button", name="Work it out").click()
        expect(hearing.locator(".ww-summary")).to_have_count(0)
        expect(wrong).to_have_attribute("aria-invalid", "true")
        expect(wrong).to_have_accessible_description(re.compile(re.escape(message)))
        expect(wrong).to_be_focused()
        expect(part.locator("[aria-invalid]")).to_have_count(1)
        expect(hearing.get_by_role("status")).to_contain_text("Nothing is worked out yet")


def test_a_mended_field_computes_again(hearing):
    fill(hearing, 1, minutes="x")
    hearing.get_by_role("button", name="Work it out").click()
    minutes = hearing.get_by_label("Minutes")
    minutes.fill("30")
    minutes.press("Enter")
    expect(minutes).not_to_have_attribute("aria-invalid", "true")
    expect(hearing.locator(".ww-summary")).to_contain_text("6.3 %")


def test_a_day_has_24_hours(hearing):
    fill(hearing, 1, level=50, minutes=1000)
    hearing.get_by_role("button", name="Add a part").click()
    fill(hearing, 2, level=50, minutes=441)
    hearing.get_by_role("button", name="Work it out").click()
    second = hearing.get_by_role("group", name="Part 2").get_by_label("Minutes")
    expect(second).to_have_accessible_description(re.compile("With this the day has 1441 minutes; a day has 1440"))
    expect(hearing.locator(".ww-summary")).to_have_count(0)


def test_a_removed_part_counts_no_more(hearing):
    fill(hearing, 1, minutes=60)
    expect(hearing.get_by_role("button", name="Remove part 1")).to_be_hidden()
    hearing.get_by_role("button", name="Add a part").click()
    fill(hearing, 2, surface="acoustic kit", minutes=60)
    work_out(hearing)
    hearing.get_by_role("button", name="Remove part 2").click()
    work_out(hearing)
    expect(hearing.locator(".ww-summary")).to_contain_text("12.5 %")


@pytest.mark.parametrize("change", ["another part", "a removed part", "a typed letter", "a picked surface"])
def test_a_result_that_no_longer_fits_is_taken_away(hearing, change):
    hearing.get_by_role("button", name="Add a part").click()
    fill(hearing, 1, minutes=60)
    fill(hearing, 2, minutes=60)
    work_out(hearing)
    if change == "another part":
        hearing.get_by_role("button", name="Add a part").click()
    elif change == "a removed part":
        hearing.get_by_role("button", name="Remove part 1").click()
    elif change == "a typed letter":
        hearing.get_by_label("Minutes").first.press("1")
    else:
        fill(hearing, 2, surface="quiet kit")
    expect(hearing.get_by_role("status")).to_be_empty()


def test_the_keyboard_is_enough(hearing):
    hearing.get_by_label("What you play or hear").focus()
    for key in ("ArrowDown", "ArrowDown", "Tab", "Tab", "Tab"):
        hearing.keyboard.press(key)
    hearing.keyboard.type("60")
    hearing.keyboard.press("Enter")
    # 60 min at 90 dB(A): 60 / (480 / 2^(5/3)) = 39.7 %
    expect(hearing.locator(".ww-summary")).to_contain_text("39.7 %")
