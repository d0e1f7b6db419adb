"""What stands on the pages of a built site."""

import json
import re

import pytest

from tests.site.courses import Course


def test_a_week_tells_its_aim_grade_and_minutes(built: Course) -> None:
    html = built.page("weeks/week-01")
    head = html[html.index('<header class="ww-week-head">') : html.index("Let the stick fall.")]
    assert "Week 1" in head
    assert "First steps</h1>" in head
    assert "Play two heights on purpose." in head
    assert "<dt>Grade</dt><dd>1</dd>" in head
    assert "<dt>A session</dt><dd>20 minutes</dd>" in head


def test_a_week_without_a_heading_gets_one(built: Course) -> None:
    assert built.page("weeks/week-02").count("<h1") == 1
    assert '<h1 dir="auto">The paradiddle</h1>' in built.page("weeks/week-02")


def test_a_week_links_its_neighbours(built: Course) -> None:
    first, second = built.page("weeks/week-01"), built.page("weeks/week-02")
    assert 'class="ww-after" rel="next" href="../week-02/"' in first
    assert "ww-before" not in first
    assert 'class="ww-before" rel="prev" href="../week-01/"' in second


def test_a_figure_has_what_scripts_look_for(built: Course) -> None:
    html = built.page("weeks/week-02")
    figure = html[html.index("<figure") : html.index("</figure>")]
    assert figure.startswith(
        '<figure class="ww-exercise" id="accented-paradiddle" data-ww-id="accented-paradiddle" '
        'data-ww-src="../../x/accented-paradiddle/"'
    )
    for part in ("ww-title", "ww-diagram", "ww-controls", "ww-acts", "ww-disclosure ww-about", "ww-words", "ww-links"):
        assert f'class="{part}"' in figure
    assert 'data-at="1/4"' in figure
    assert '<a class="ww-place" href="../../x/accented-paradiddle/">Lasting link</a>' in figure
    assert '<dt>Needs first</dt><dd><a href="../week-01/#slow-singles">' in figure


def test_a_figure_links_what_it_grows_out_of(built: Course) -> None:
    assert '<dt>Grows out of</dt><dd><a href="./#accented-paradiddle">' in built.page("weeks/week-02")


def test_an_example_carries_its_data_and_has_no_address(built: Course) -> None:
    html = built.page("key")
    assert "data-ww-id" not in html
    data = re.findall(r'<script type="application/json" class="ww-data">(.*?)</script>', html)
    assert len(data) == html.count('<figure class="ww-exercise')
    assert json.loads(data[0])["tempo"] == {"start": 60, "goal": 100, "step": 4}


def test_the_index_lists_every_exercise_in_the_order_of_teaching(built: Course) -> None:
    html = built.page("exercises")
    assert re.findall(r'<th scope="row"><a href="([^"]+)">', html) == [
        "../weeks/week-01/#slow-singles",
        "../weeks/week-02/#accented-paradiddle",
        "../weeks/week-02/#the-other-way",
    ]
    assert "<code>R&gt;LRR L&gt;RLL R&gt;LRR L&gt;RLL</code>" in html
    assert re.findall(r'<td data-ww-name="(Week|Grade)">([^<]*)<', html) == [
        *(("Week", "1"), ("Grade", "2")),
        *(("Week", "2"), ("Grade", "6")),
        *(("Week", "2"), ("Grade", "6")),
    ]


def test_the_home_page_leads_to_every_week(built: Course) -> None:
    html = built.page("")
    assert re.findall(r'<ol class="ww-weeks">.*?</ol>', html, re.DOTALL)[0].count("<li>") == 2
    assert "Turn the hands round." in html
    assert "A course for a loft full of pads" in html


def test_a_tutors_own_pages_go_first(course: Course) -> None:
    course.write("docs/index.md", "# My own welcome\n\nMy own words.\n\n## More\n\nMore words.")
    course.write("docs/key.md", "# My own key")
    course.write("docs/exercises/index.md", "# My own list\n\n<!-- wristwork: exercises -->")
    course.build()
    home = course.page("")
    assert '<h1 id="my-own-welcome">My own welcome</h1>' in home
    assert "<p>My own words.</p>" in home
    assert home.count("My own words.") == 1
    assert "My own key" in course.page("key")
    assert "<table" in course.page("exercises")


@pytest.mark.parametrize("settings", [{"show": ["count", "sticking"]}], ids=["count and sticking"])
def test_the_courses_choice_of_rows_holds_where_a_pattern_makes_none(course: Course, settings: dict) -> None:
    course.settings["plugins"] = ["search", {"wristwork": settings}]
    course.write(
        "docs/weeks/week-01.md",
        "# One\n\n```pattern\nid: all-rows\ntitle: All rows\nhands: RLRL\nshow: notation, heights\n```\n"
        "\n```pattern\nid: few-rows\ntitle: Few rows\nhands: RLRL\n```\n",
    )
    course.write("docs/weeks/week-02.md", "# Two")
    course.build()
    html = course.page("weeks/week-01")
    all_rows, few_rows = (
        html[html.index('id="all-rows"') : html.index('id="few-rows"')],
        html[html.index('id="few-rows"') :],
    )
    assert "ww-row-notation" in all_rows
    assert "ww-row-sticking" not in all_rows
    assert "ww-row-notation" not in few_rows
    assert "ww-row-sticking" in few_rows


def test_every_course_has_its_safe_practice_pages(built: Course) -> None:
    for topic in ("warm-up", "posture", "hearing"):
        assert "Stop at once at pain" in built.page(f"safe-practice/{topic}")


def test_a_tutors_own_safe_practice_page_is_used_and_completed(course: Course) -> None:
    course.write("docs/before.md", "---\ntitle: Before you play\nsafe-practice: warm-up\n---\n\nShake out your hands.")
    course.build()
    html = course.page("before")
    assert "Shake out your hands." in html
    assert "Stop at once at pain" in html
    assert not (course.site / "safe-practice" / "warm-up").exists()
    assert (course.site / "safe-practice" / "posture").exists()


def test_a_topic_that_there_is_not_fails_the_build_with_its_line(course: Course) -> None:
    course.write("docs/before.md", "---\ntitle: Before\nsafe-practice: yoga\n---\n\nShake.")
    done = course.run()
    assert done.returncode != 0
    assert "docs/before.md:3: safe-practice: 'yoga' is none of the three pages" in done.stderr


def test_links_to_an_exercise_in_its_lesson_are_known(course: Course) -> None:
    course.settings["validation"] = {"anchors": "warn"}
    course.write("docs/about.md", "# About\n\n[here](weeks/week-02.md#accented-paradiddle)")
    assert course.run("build", "--strict").returncode == 0
    course.write("docs/about.md", "# About\n\n[here](weeks/week-02.md#not-there)")
    assert course.run("build", "--strict").returncode != 0


def test_the_search_index_leads_to_every_exercise(built: Course) -> None:
    docs = json.loads((built.site / "search" / "search_index.json").read_text())["docs"]
    entry = next(doc for doc in docs if doc["location"] == "weeks/week-02/#accented-paradiddle")
    assert entry == {
        "location": "weeks/week-02/#accented-paradiddle",
        "title": "Accented paradiddle",
        "text": "<p>R&gt;LRR L&gt;RLL R&gt;LRR L&gt;RLL</p>",
    }


def test_diagrams_do_not_swamp_the_search_index(built: Course) -> None:
    assert "data-at" not in (built.site / "search" / "search_index.json").read_text()


def test_pages_ask_only_for_what_they_need(built: Course) -> None:
    assert "player.js" in built.page("weeks/week-01")
    assert "player.js" not in built.page("")
    assert "index.js" in built.page("exercises")
    assert "index.js" not in built.page("weeks/week-01")
    assert "sound-day.js" in built.page("safe-practice/hearing")


def test_a_page_names_no_other_host(built: Course) -> None:
    for page in built.site.rglob("*.html"):
        for address in re.findall(
            r'<(?:link|script|img|iframe|audio|source)[^>]+(?:href|src)="(https?:[^"]+)', page.read_text()
        ):
            assert address.startswith("https://larkspur.example/"), f"{page}: {address}"


def test_another_theme_gets_a_warning_and_a_site(course: Course) -> None:
    course.settings["theme"] = {"name": "mkdocs"}
    done = course.run()
    assert done.returncode == 0, done.stderr
    assert "made for the theme 'material'" in done.stderr
    assert 'id="accented-paradiddle"' in course.page("weeks/week-02")


@pytest.mark.parametrize(("folder", "leads"), [("x", "../exercises/"), ("weeks", "../curriculum/")])
def test_a_shortened_address_leads_to_a_list(built: Course, folder: str, leads: str) -> None:
    html = built.page(folder)
    assert f'<meta http-equiv="refresh" content="0; url={leads}">' in html
    assert f'<a href="{leads}">' in html
    assert (built.site / folder / leads / "index.html").exists()


def test_a_tutors_own_page_of_the_weeks_stays(course: Course) -> None:
    course.write("docs/weeks/index.md", "# Our weeks\n\nMine.\n")
    course.build()
    assert "Mine." in course.page("weeks")
