import pytest

from tests.site.courses import Course
from wristwork.site.mkdocs.navigation import LONGEST_SECTION, course_nav
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.reading.lessons import PageSource
from wristwork.store.store import Store


@pytest.fixture
def site(tmp_path) -> CourseSite:
    def page(uri: str, text: str) -> PageSource:
        return PageSource(uri, f"docs/{uri}", f"{uri.removesuffix('.md')}/", text)

    return CourseSite(
        [
            page("b.md", "---\nweek: 10\ntitle: Tenth\n---\n"),
            page("a.md", "---\nweek: 2\ntitle: Second & <last>\n---\n"),
            page("about.md", "# About"),
        ],
        Store(tmp_path),
    )


URIS = [
    "index.md",
    "about.md",
    "a.md",
    "b.md",
    "handbook/drums.md",
    "handbook/index.md",
    "exercises.md",
    "safe/posture.md",
]
MADE = ["index.md", "exercises.md", "key.md", "safe/posture.md"]


def test_weeks_come_in_order_then_what_helps_then_the_rest(site: CourseSite) -> None:
    assert course_nav(None, site, URIS, MADE) == [
        {"Home": "index.md"},
        {"Weeks": [{"2. Second &amp; &lt;last&gt;": "a.md"}, {"10. Tenth": "b.md"}]},
        "exercises.md",
        {"Safe": ["safe/posture.md"]},
        "about.md",
        {"Handbook": ["handbook/index.md", "handbook/drums.md"]},
    ]


def test_a_tutors_own_navigation_stays_and_gets_what_it_lacks(site: CourseSite) -> None:
    own = [{"Start": "index.md"}, {"The course": ["a.md", {"My own name": "b.md"}]}, {"Safe": ["safe/posture.md"]}]
    assert course_nav(own, site, URIS, MADE) == [
        {"Start": "index.md"},
        {"The course": [{"2. Second &amp; &lt;last&gt;": "a.md"}, {"My own name": "b.md"}]},
        {"Safe": ["safe/posture.md"]},
        "exercises.md",
    ]


def test_a_course_longer_than_a_year_prints_only_the_weeks_around_the_page(course: Course) -> None:
    for week in range(3, LONGEST_SECTION + 20):
        course.write(f"docs/weeks/week-{week:02}.md", f"---\nweek: {week}\ntitle: Title {week}\n---\n")
    course.build()
    middle = course.page("weeks/week-40")
    assert "40. Title 40" in middle
    assert "39. Title 39" in middle
    assert "1. First steps" not in middle
    assert middle.count("md-nav__link") < LONGEST_SECTION + 30
    first = course.page("weeks/week-01")
    assert "1. First steps" in first
    assert f"{LONGEST_SECTION + 19}. " not in first
