"""Every exercise's own place in a built site."""

import json
import re
import xml.etree.ElementTree as ElementTree
from html import unescape
from io import BytesIO

import jsonschema
import pytest
from PIL import Image

from tests.site.courses import Course

PLACE = "x/accented-paradiddle"


def meta(html: str, name: str) -> str | None:
    found = re.search(rf'<meta (?:name|property)="{name}" content="([^"]*)">', html)
    return unescape(found[1]) if found else None


def test_a_place_holds_everything(built: Course) -> None:
    names = {path.name for path in (built.site / PLACE).iterdir()}
    assert names >= {"index.html", "exercise.json", "diagram.svg", "card.png", "pattern.mid", "score.musicxml"}


def test_the_data_keeps_to_the_published_schema(built: Course) -> None:
    schema = json.loads((built.site / "schema/exercise.json").read_text())
    for file in sorted(built.site.glob("x/*/exercise.json")):
        jsonschema.validate(json.loads(file.read_text(encoding="utf-8")), schema)
    data = json.loads((built.site / PLACE / "exercise.json").read_text())
    assert (data["lesson"], data["week"], data["grade"]) == ("weeks/week-02/#accented-paradiddle", 2, 2)


def test_the_head_says_where_it_is_and_what_a_preview_shows(built: Course) -> None:
    html = built.page(PLACE)
    address = f"https://larkspur.example/loft/{PLACE}/"
    assert f'<link rel="canonical" href="{address}">' in html
    assert meta(html, "og:url") == address
    assert meta(html, "og:title") == "Accented paradiddle"
    assert meta(html, "og:image") == f"{address}card.png"
    assert (meta(html, "og:image:width"), meta(html, "og:image:height")) == ("1200", "630")
    assert meta(html, "og:image:alt") == "Accented paradiddle: R>LRR L>RLL R>LRR L>RLL"
    assert meta(html, "description") == meta(html, "og:description")
    assert meta(html, "description") == ("Week 2: The paradiddle. R>LRR L>RLL R>LRR L>RLL. 60 to 100 beats a minute.")


def test_the_page_links_its_lesson_and_its_relations(built: Course) -> None:
    html = built.page(PLACE)
    assert '<a href="../../weeks/week-02/#accented-paradiddle"><bdi>Week 2: The paradiddle</bdi></a>' in html
    assert '<dt>Needs first</dt><dd><a href="../slow-singles/">' in html
    assert '<dt>Leads on to</dt><dd><a href="../the-other-way/">' in html
    assert '<dt>Grows out of</dt><dd><a href="../accented-paradiddle/">' in built.page("x/the-other-way")
    assert "<h1" in html


def test_the_card_is_a_picture_of_the_right_size(built: Course) -> None:
    with Image.open(BytesIO((built.site / PLACE / "card.png").read_bytes())) as card:
        assert (card.format, card.size) == ("PNG", (1200, 630))


def test_the_picture_is_well_formed_and_tells_itself(built: Course) -> None:
    root = ElementTree.fromstring((built.site / PLACE / "diagram.svg").read_text(encoding="utf-8"))
    title, description = (root.find(f"{{http://www.w3.org/2000/svg}}{name}") for name in ("title", "desc"))
    assert title is not None
    assert title.text == "Accented paradiddle"
    assert description is not None
    assert "Beat 1: right, accent, down stroke" in (description.text or "")


def test_every_link_of_a_place_leads_somewhere(built: Course) -> None:
    for page in built.site.glob("x/*/index.html"):
        for address in re.findall(r'(?:href|src)="([^"#?]+)', page.read_text(encoding="utf-8")):
            if not address.startswith("https:"):
                target = (page.parent / address).resolve()
                assert target.exists(), f"{page}: {address}"
                assert target.is_file() or (target / "index.html").exists()


def test_places_are_in_the_sitemap(built: Course) -> None:
    assert f"<loc>https://larkspur.example/loft/{PLACE}/</loc>" in (built.site / "sitemap.xml").read_text()


def test_without_an_address_of_the_site_nothing_claims_one(course: Course) -> None:
    del course.settings["site_url"]
    course.build()
    html = course.page(PLACE)
    assert "canonical" not in html
    assert "og:" not in html
    assert meta(html, "description") is not None


def test_without_directory_addresses_links_still_lead_somewhere(course: Course) -> None:
    course.settings["use_directory_urls"] = False
    course.build()
    data = json.loads((course.site / PLACE / "exercise.json").read_text())
    assert data["lesson"] == "weeks/week-02.html#accented-paradiddle"
    assert 'href="../../weeks/week-02.html#accented-paradiddle"' in course.page(PLACE)
    lesson = (course.site / "weeks/week-02.html").read_text()
    assert 'data-ww-src="../x/accented-paradiddle/"' in lesson


@pytest.mark.parametrize(
    "title",
    [
        "<script>alert(1)</script>",
        "\"quotes\" & 'more'",
        "שלום, פרדידל",
        "x" * 3000,
        "a very long title of many words " * 60,
        "</figure></title><img src=x onerror=alert(1)>",
        "#panic(1) $x$ *b* `c` {{ config }} {% raw %} <!--ww-figure 0--> ]]>",
        "\u202e\u2066\ufeff\u0301",
    ],
    ids=[
        "markup",
        "quotes",
        "right to left",
        "one long word",
        "many words",
        "closing tags",
        "other languages",
        "marks",
    ],
)
def test_a_hostile_title_is_only_text(course: Course, title: str) -> None:
    quoted = json.dumps(title)
    course.write(
        "docs/weeks/week-01.md",
        f"---\nweek: 1\ntitle: {quoted}\naim: {quoted}\n---\n\n```pattern\nid: any-id\ntitle: {title}\n"
        f"note: {title}\nhands: RLRL RLRL RLRL RLRL\nrequires: other-id\n```\n\n"
        "```pattern\nid: other-id\ntitle: Other\nhands: RLRL\n```\n",
    )
    course.write("docs/weeks/week-02.md", "# Two")
    course.build()
    for address in ("weeks/week-01", "x/any-id", "exercises", "key", ""):
        html = course.page(address)
        assert "<script>alert" not in html
        assert "<img" not in html
        assert html.count("</title>") - html.count("<svg") <= 1
    own = course.page("x/any-id")
    assert own.count("<figure") == own.count("</figure>") == 1
    with Image.open(course.site / "x/any-id/card.png") as card:
        assert card.size == (1200, 630)
    ElementTree.fromstring((course.site / "x/any-id/diagram.svg").read_text(encoding="utf-8"))


def test_a_score_is_beside_the_other_files_and_pages_lead_to_it(built: Course) -> None:
    score = ElementTree.fromstring((built.site / PLACE / "score.musicxml").read_bytes())
    assert score.findtext("movement-title") == "Accented paradiddle"
    assert 'href="score.musicxml" download' in (built.site / PLACE / "index.html").read_text()
    assert "musicxml" not in (built.site / "offline.json").read_text()


def test_a_course_may_go_without_scores(course: Course) -> None:
    course.settings["plugins"] = ["search", {"wristwork": {"checks": "off", "paper": "off", "score": False}}]
    course.build()
    assert not list(course.site.rglob("*.musicxml"))
    assert "musicxml" not in "".join(path.read_text() for path in course.site.rglob("index.html"))
