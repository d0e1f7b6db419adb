"""``wristwork check``: what it says, to people and to machines, and its exit code."""

from __future__ import annotations

import json

import pytest

from tests.cli.conftest import run


def change(course, page, old, new):
    path = course / page
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def findings(course, *more):
    done = run("check", course, "--json", *more)
    assert done.err == ""
    data = json.loads(done.out)
    assert data["open"] == sum(finding["allowed"] is None for finding in data["findings"])
    assert done.code == (1 if data["open"] else 0)
    return data


def test_the_folder_one_is_in_is_checked_if_none_is_named(course):
    change(course, "docs/weeks/week-02.md", "aim: Play an accent and go straight back to quiet notes.\n", "")
    done = run("check", cwd=course)
    assert done.code == 1
    assert done.out.splitlines() == [
        "docs/weeks/week-02.md:2: week 2 has no aim [no-aim]",
        "    write what is different at the week's end, in a sentence: aim: …",
        "",
        "1 thing is to be looked at (2 weeks, 6 exercises).",
        "Know better? Write allow: at the top of the page, with the name in brackets and your reason.",
    ]


def test_a_finding_for_machines(course):
    change(course, "docs/weeks/week-02.md", "minutes: 18", "minutes: 40")
    data = findings(course)
    found = next(finding for finding in data["findings"] if finding["check"] == "load")
    assert found["page"].endswith("docs/weeks/week-02.md")
    assert (found["line"], found["week"], found["exercise"], found["allowed"]) == (5, 2, None, None)
    assert set(found) == {"check", "page", "line", "week", "exercise", "what", "remedy", "allowed", "column"}
    assert data["checks"] == "on"


def test_what_is_allowed_is_shown_with_its_reason_and_is_no_failure(course):
    aim = "aim: Play an accent and go straight back to quiet notes."
    change(course, "docs/weeks/week-02.md", aim, "allow:\n  no-aim: The students write it themselves.")
    done = run("check", cwd=course)
    assert done.code == 0
    assert done.out.splitlines() == [
        "Allowed:",
        "  docs/weeks/week-02.md:2: week 2 has no aim [no-aim]",
        "    because: The students write it themselves.",
        "",
        "All is well (2 weeks, 6 exercises, 1 allowed).",
    ]
    assert findings(course)["allowed"] == 1


def test_a_wrong_pattern_is_shown_with_its_place(course):
    change(course, "docs/weeks/week-01.md", "hands: RL RL RL RL", "hands: RL RQ RL RL")
    done = run("check", cwd=course)
    assert done.code == 1
    assert "docs/weeks/week-01.md:43:12: pattern 'taking-turns': 'Q' means nothing here" in done.out
    assert "    hands: RL RQ RL RL\n               ^" in done.out
    found = [finding for finding in findings(course)["findings"] if finding["check"] == "pattern"]
    assert [(finding["line"], finding["week"], finding["exercise"]) for finding in found] == [(43, 1, "taking-turns")]


def test_wrong_front_matter_is_a_finding(course):
    change(course, "docs/weeks/week-01.md", "minutes: 15", "minutes: a quarter")
    found = [finding for finding in findings(course)["findings"] if finding["check"] == "front-matter"]
    assert [(finding["line"], finding["week"]) for finding in found] == [(5, 1)]


def test_an_address_that_follows_a_title_is_a_finding(course):
    change(course, "docs/weeks/week-01.md", "id: one-at-a-time\n", "")
    assert "address" in {finding["check"] for finding in findings(course)["findings"]}


@pytest.mark.parametrize("off", ["off", '"off"', "false"])
def test_checks_can_be_turned_off(course, off):
    change(course, "docs/weeks/week-02.md", "aim: Play an accent and go straight back to quiet notes.\n", "")
    change(course, "mkdocs.yml", "      days: 5", f"      checks: {off}")
    done = run("check", cwd=course)
    assert done.code == 0
    assert done.out.startswith("The checks of the course are turned off in mkdocs.yml.\n")
    change(course, "docs/weeks/week-01.md", "hands: RL RL RL RL", "hands: RL RQ RL RL")
    assert findings(course)["checks"] == "off"
    assert run("check", course).code == 1


def test_allowances_in_the_settings(course):
    change(course, "docs/weeks/week-02.md", "aim: Play an accent and go straight back to quiet notes.\n", "")
    allow = "      allow:\n        no-aim: The aims hang on the wall."
    change(course, "mkdocs.yml", "      days: 5", f"      days: 5\n{allow}")
    data = findings(course)
    assert [finding["allowed"] for finding in data["findings"]] == ["The aims hang on the wall."]
    change(course, "mkdocs.yml", "no-aim: The aims hang on the wall.", "no-aim:")
    assert {finding["check"] for finding in findings(course)["findings"]} == {"settings"}


def test_pages_of_a_nav_are_in_its_order(course):
    nav = "nav:\n  - index.md\n  - Weeks:\n      - weeks/week-02.md\n      - One: weeks/week-01.md\n"
    (course / "mkdocs.yml").write_text((course / "mkdocs.yml").read_text() + nav)
    found = [finding for finding in findings(course)["findings"] if finding["check"] == "weeks-in-order"]
    assert [finding["what"] for finding in found] == ["week 1 comes after week 2 in the order of the pages"]


def test_pages_without_numbers_in_their_names_are_in_the_order_of_their_weeks(course):
    weeks = course / "docs" / "weeks"
    (weeks / "week-01.md").rename(weeks / "let-it-bounce.md")
    (weeks / "week-02.md").rename(weeks / "accents.md")
    assert "weeks-in-order" not in {finding["check"] for finding in findings(course)["findings"]}


def test_pages_with_numbers_in_their_names_are_in_the_order_of_their_names(course):
    weeks = course / "docs" / "weeks"
    (weeks / "week-01.md").rename(weeks / "week-10.md")
    (weeks / "week-02.md").rename(weeks / "week-9.md")
    assert "weeks-in-order" in {finding["check"] for finding in findings(course)["findings"]}


def test_links_to_pages_that_every_course_gets_are_right(course):
    page = course / "docs" / "weeks" / "week-01.md"
    page.write_text(page.read_text() + "\nSee the [key](../key.md), or [nothing](../nothing.md).\n")
    found = [finding for finding in findings(course)["findings"] if finding["check"] == "broken-link"]
    assert [finding["what"] for finding in found] == ["the link ../nothing.md leads nowhere"]


def test_settings_with_tags_of_other_tools(course):
    settings = course / "mkdocs.yml"
    tagged = "extra:\n  a: !ENV NOTHING\n  b: !!python/name:os.getcwd\n"
    settings.write_text(settings.read_text() + tagged)
    assert run("check", course).code == 0


def test_a_bare_folder_of_pages(course):
    assert run("check", course / "docs").code == 0


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda folder: None, "there are no pages in {folder}: go to your course's folder, or wristwork new my-course"),
        (lambda folder: (folder / "mkdocs.yml").write_text("a: ["), "{folder}/mkdocs.yml:1 can't be read"),
        (
            lambda folder: (folder / "mkdocs.yml").write_text("a: 1\nb:\n  - starts: 2027-02-30\n"),
            "{folder}/mkdocs.yml:3 can't be read: 2027-02-30 is written like a date and is no day",
        ),
        (lambda folder: (folder / "mkdocs.yml").write_text("just words"), "{folder}/mkdocs.yml is no list of settings"),
        (lambda folder: (folder / "mkdocs.yml").write_text("site_name: a"), "there is no folder {folder}/docs"),
    ],
)
def test_what_is_no_course_is_said_in_one_line(tmp_path, make, words):
    make(tmp_path)
    done = run("check", tmp_path)
    assert (done.code, done.out) == (1, "")
    assert done.err.startswith(f"wristwork: {words.format(folder=tmp_path.as_posix())}")
    assert done.err.count("\n") == 1


def test_a_folder_without_settings_and_pages_of_its_own_is_no_course(tmp_path):
    (tmp_path / "kit" / "docs").mkdir(parents=True)
    (tmp_path / "kit" / "docs" / "index.md").write_text("# Kit\n", encoding="utf-8")
    done = run("check", cwd=tmp_path)
    assert done.code == 1
    assert "there are no pages in" in done.err
