"""Papers on the site: where they are, who leads to them, what they hold of the course."""

from io import BytesIO
from pathlib import Path

from pypdf import PdfReader

from tests.site.courses import Course
from wristwork.course.safety.safe_practice import Topic


def said(path: Path) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(BytesIO(path.read_bytes())).pages)


def test_every_exercise_week_and_course_has_its_paper(built: Course) -> None:
    places = [place for place in (built.site / "x").iterdir() if (place / "exercise.json").exists()]
    assert places
    for place in places:
        assert (place / "sheet.pdf").read_bytes()[:4] == b"%PDF"
        assert 'href="sheet.pdf"' in (place / "index.html").read_text()
    weeks = [path for path in (built.site / "weeks").rglob("index.html") if path.parent.name != "weeks"]
    assert weeks
    for page in weeks:
        assert "Notes" in said(page.with_name("week.pdf"))
        assert 'href="week.pdf"' in page.read_text()
    assert 'href="../course.pdf"' in (built.site / "curriculum" / "index.html").read_text()


def test_the_book_holds_the_key_safe_practice_and_every_week(built: Course) -> None:
    book = said(built.site / "course.pdf")
    assert "How to read the diagrams" in book
    assert all(topic.page_title in book for topic in Topic)
    assert "Week 1" in book
    assert "Exercises by sticking" in book


def test_no_device_keeps_papers(built: Course) -> None:
    kept = "".join(path.read_text() for path in [built.site / "offline.json", *(built.site / "offline").iterdir()])
    assert "exercise.json" in kept
    assert ".pdf" not in kept


def test_a_course_may_go_without(course: Course) -> None:
    course.settings["plugins"] = ["search", {"wristwork": {"checks": "off", "paper": "off"}}]
    course.build()
    assert not list(course.site.rglob("*.pdf"))
    assert ".pdf" not in "".join(path.read_text() for path in course.site.rglob("index.html"))
