"""Sheets, weeks and the book as they come from the press, read back."""

from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from pypdf import PdfReader

from tests.strategies import pattern_texts
from wristwork.course.plan import PlannedExercise, sessions
from wristwork.course.weeks import Week
from wristwork.paper.book import Book, Chapter, book_pdf
from wristwork.paper.press import Paper, PaperSize, Press
from wristwork.paper.sheet import Sheet, sheet_pdf
from wristwork.paper.week import WeekExercise, WeekPaper, week_pdf
from wristwork.pattern import read_one
from wristwork.pattern.model import Pattern

A4, LETTER = Paper(), Paper(PaperSize.LETTER)
ADDRESS = "https://loft.example/x/two-hands/"
HOSTILE = '#panic() $x$ *b* `c` [d] <e> @f \\ // /* " & <script>'


@pytest.fixture(scope="module")
def press() -> Press:
    return Press()


def exercise(name: str = "two-hands", title: str = "Two hands", more: str = "") -> Pattern:
    return read_one(
        f"id: {name}\ntitle: {title}\ntempo: 60 to 100 by 4\nnote: Low and even.\nhands: R>LRR L>RLL\n{more}"
    )


def read(pdf: bytes) -> PdfReader:
    return PdfReader(BytesIO(pdf))


def text(pdf: bytes) -> str:
    return "\n".join(page.extract_text() for page in read(pdf).pages)


def links(pdf: bytes) -> list[str]:
    found = (note.get_object() for page in read(pdf).pages for note in page.get("/Annots", []))
    return [note["/A"]["/URI"] for note in found if "/URI" in note.get("/A", {})]


def test_a_sheet_has_all_that_is_needed_at_the_stand(press: Press) -> None:
    pdf = sheet_pdf(press, Sheet(exercise(), "Week 3: Walks", ADDRESS), A4)
    said = text(pdf)
    for words in ("Week 3: Walks", "Two hands", "60 to 100 beats a minute", "Low and even.", "Stop at once at pain"):
        assert words in said
    assert all(f" {tempo}" in said or f"\n{tempo}" in said for tempo in range(60, 101, 4))
    assert links(pdf) == [f"{ADDRESS}?tempo=60"]
    assert len(read(pdf).pages) == 1


def test_papers_are_tagged_carry_their_fonts_and_have_no_date(press: Press) -> None:
    pdf = sheet_pdf(press, Sheet(exercise()), A4)
    root = read(pdf).trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert "/StructTreeRoot" in root
    assert "pdfuaid" in root["/Metadata"].get_data().decode()
    fonts = [font.get_object() for page in read(pdf).pages for font in page["/Resources"]["/Font"].values()]
    assert fonts
    for font in fonts:
        described = font["/DescendantFonts"][0]["/FontDescriptor"]
        assert {"/FontFile2", "/FontFile3"} & described.keys()
    assert pdf == sheet_pdf(Press(), Sheet(exercise()), A4)


@pytest.mark.parametrize(("paper", "size"), [(A4, (595, 842)), (LETTER, (612, 792))])
def test_paper_has_its_size(press: Press, paper: Paper, size: tuple[int, int]) -> None:
    box = read(sheet_pdf(press, Sheet(exercise()), paper)).pages[0].mediabox
    assert (round(box.width), round(box.height)) == size


def test_a_sheet_without_an_address_has_no_code(press: Press) -> None:
    pdf = sheet_pdf(press, Sheet(exercise()), A4)
    assert "camera" not in text(pdf)
    assert not links(pdf)


@pytest.mark.parametrize("title", [HOSTILE, "x" * 300, "שלום", "漢字のタイトル", "\u2028\u202e"])
def test_no_text_is_taken_for_markup(press: Press, title: str) -> None:
    pattern = exercise(title=title)
    pdf = sheet_pdf(press, Sheet(pattern, title), A4)
    if title == HOSTILE:
        assert " ".join(text(pdf).split()).count(title) >= 2


@given(pattern_texts())
@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_pattern_can_be_printed_on_any_paper(press: Press, written: str) -> None:
    pattern = read_one(written)
    for paper in (A4, Paper(PaperSize.LETTER, large=True)):
        assert read(sheet_pdf(press, Sheet(pattern), paper)).pages


def week(count: int, note: str = "Low and even.") -> WeekPaper:
    patterns = [exercise(f"exercise-{number}", f"Exercise {number}") for number in range(count)]
    planned = [PlannedExercise.of(pattern) for pattern in patterns]
    plan = sessions(Week("week.md", 3, "Walks", minutes=60), planned)
    exercises = tuple(WeekExercise(pattern, ADDRESS) for pattern in patterns)
    return WeekPaper("Week 3", "Walks", "Walk evenly.", ("5 sessions of 60 minutes",), plan, exercises, ADDRESS)


@pytest.mark.parametrize("count", [0, 1, 4, 9, 12])
def test_a_week_takes_one_page_or_two(press: Press, count: int) -> None:
    pdf = week_pdf(press, week(count), A4)
    said = text(pdf)
    assert len(read(pdf).pages) <= 2
    assert "Clean and easy?" in said
    assert "Notes" in said
    assert all(f"Exercise {number}" in said for number in range(count))
    assert all("Stop at once at pain" in page.extract_text() for page in read(pdf).pages)


def test_a_week_without_a_plan_has_its_exercises(press: Press) -> None:
    bare = WeekPaper("Week 3", "Walks", None, (), (), (WeekExercise(exercise()),))
    assert "Two hands" in text(week_pdf(press, bare, A4))


def chapter(uri: str, html: str, figures: tuple = (), number: int | None = None, title: str = "Chapter") -> Chapter:
    return Chapter(uri, title, html, figures, f"Week {number}" if number else "", "", number)


def book(*chapters: Chapter, **more: object) -> Book:
    return Book("The Loft", "A course of three weeks", chapters, "https://loft.example/", **more)


ONE = chapter(
    "weeks/one.md",
    '<h1 id="a">Ones</h1><p>Then <a href="two.md#threes">threes</a>, <a href="../about.md">about</a>, '
    '<a href="gone.md">gone</a>, <a href="https://a.example/">there</a>.</p><!--ww-figure 0-->',
    (exercise("ones", "Ones"),),
    1,
    "Ones",
)
TWO = chapter(
    "weeks/two.md",
    '<h2 id="deep">Deep</h2><h5>Deeper</h5><!--ww-figure 0-->',
    (exercise("threes", "Threes"),),
    2,
    "Threes",
)


def test_the_book_has_contents_numbers_bookmarks_and_indexes(press: Press) -> None:
    pdf = book_pdf(press, book(ONE, TWO), A4)
    pages = [page.extract_text() for page in read(pdf).pages]
    assert "The Loft" in pages[0]
    assert "2 weeks · 2 exercises" in pages[0]
    assert "1.1" in pages[1]
    assert "Threes" in pages[1]
    assert "Exercises by name" in pages[-1]
    assert "Exercises by sticking" in pages[-1]
    marks = [mark["/Title"] for mark in _flat(read(pdf).outline)]
    assert [mark for mark in marks if "Threes" in mark]
    assert "Contents" in marks


def _flat(outline: list) -> list:
    return [mark for entry in outline for mark in (_flat(entry) if isinstance(entry, list) else [entry])]


def test_links_lead_on_within_the_book_else_to_the_site_else_nowhere(press: Press) -> None:
    pdf = book_pdf(press, book(ONE, TWO, addresses={"about.md": "https://loft.example/about/"}), A4)
    said = " ".join(text(pdf).split())
    assert "threes (page 4)" in said
    assert "gone," in said
    assert {"https://loft.example/about/", "https://a.example/"} <= set(links(pdf))


def test_a_page_may_link_itself_say_an_id_twice_and_hold_an_exercise_twice(press: Press) -> None:
    html = '<h2 id="a">A</h2><h2 id="a">B</h2><p><a href="#a">up</a></p><!--ww-figure 0--><!--ww-figure 1-->'
    pdf = book_pdf(press, book(chapter("a.md", html, (exercise(), exercise()))), A4)
    assert text(pdf).count("Two hands") >= 2


PIXEL = bytes.fromhex(
    "89504e470d0a1a0a0000000d49484452000000010000000108060000001f15c4890000000d49444154789c6360606060000000050001a5f64540"
    "0000000049454e44ae426082"
)


def test_pictures_are_set_and_broken_ones_are_told_in_words(press: Press, tmp_path: Path) -> None:
    (tmp_path / "good.png").write_bytes(PIXEL)
    (tmp_path / "bad.png").write_bytes(b"no picture")
    html = '<p><img src="../{}" alt="A tidy pad"></p>'
    for name, shown in (("good.png", 1), ("bad.png", 0)):
        made = book(chapter("weeks/a.md", html.format(name)), picture=lambda path: tmp_path / path)
        pdf = book_pdf(press, made, A4)
        assert sum(len(page.images) for page in read(pdf).pages) == shown


def test_marks_are_filled_and_drawings_are_black(press: Press) -> None:
    svg = '<svg viewBox="0 0 40 40"><desc>A bead</desc><path fill="var(--ww-accent)" d="M0 0h40v40z"/></svg>'
    made = book(
        chapter("a.md", "<!-- wristwork: bead --><!-- other: bead -->"), mark=lambda name: svg * (name == "bead")
    )
    assert len(read(book_pdf(press, made, A4)).pages) >= 3


def test_large_print_takes_more_pages(press: Press) -> None:
    html = "<p>" + "Play low and flat until the sticking can't be heard. " * 60 + "</p>"
    plain = len(read(book_pdf(press, book(chapter("a.md", html)), A4)).pages)
    large = len(read(book_pdf(press, book(chapter("a.md", html)), Paper(large=True))).pages)
    assert large > plain
