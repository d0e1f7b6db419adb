"""A tutor's colours, logo and styles reach all that a student sees: every kind of page, cards, pictures, the worker."""

from __future__ import annotations

import io
import json
import re
from collections import Counter
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Browser
from pypdf import PdfReader

from tests.accessibility import WCAG, violations
from tests.look.blocks import NAME, blocks
from tests.site.courses import Course
from wristwork.look.letters import FAMILY
from wristwork.look.palette import dyed
from wristwork.site.frontend import colours
from wristwork.site.frontend.assets import asset_root
from wristwork.site.frontend.look import HOUSE_LOOK, Look

MAIN, SECOND = "#7a2e1d", "#1d5c7a"
SVG = 'xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 40"'
LOGO = f'<svg {SVG}><rect width="40" height="40" fill="#12ff34"/></svg>'
MINE = dyed(colours.house(), MAIN, SECOND)
RETIRED = """old-one: {title: "Old one", lesson: "weeks/week-01.md", retired: "Gone for good."}\n"""
KINDS = {
    "week": "weeks/week-01/index.html",
    "exercise": "x/slow-singles/index.html",
    "gone": "x/old-one/index.html",
    "folder": "x/index.html",
    "lost": "404.html",
}


@pytest.fixture(scope="module")
def own(tmp_path_factory: pytest.TempPathFactory) -> Course:
    course = Course(
        tmp_path_factory.mktemp("own"),
        theme={"name": "material", "logo": "img/logo.svg", "favicon": "img/logo.svg"},
        extra_css=["own.css"],
        plugins=["search", {"wristwork": {"checks": "off", "colours": [MAIN, SECOND], "font": "blocks.woff2"}}],
    )
    (course.root / "blocks.woff2").write_bytes(blocks())
    course.write("docs/index.md", "# The loft\n\nOne **lead**.\n\n![Our room](img/room.jpg)\n\n![A pad](img/pad.jpg)\n")
    for name, size in (("room", (1200, 3000)), ("pad", (3000, 400))):
        Image.new("RGB", size, "#888").save(course.write(f"docs/img/{name}.jpg", ""), "JPEG")
    course.write("docs/img/logo.svg", LOGO)
    course.write("docs/own.css", ".ww-home { outline: 0 solid #000; }")
    course.write("addresses.yml", RETIRED)
    course.build()
    return course


def style_of(course: Course) -> Path:
    (style,) = course.site.glob("assets/wristwork/*/look.css")
    return style


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_page_has_the_styles_after_the_house_s(own: Course, kind: str) -> None:
    page = own.site / KINDS[kind]
    html = page.read_text(encoding="utf-8")
    linked = [href for href in re.findall(r'<link rel="stylesheet" href="([^"]+)"', html) if "stylesheets/" not in href]
    names = [href.rpartition("/")[2] for href in linked]
    house = "site.css" if kind in ("week", "lost") else "place.css"
    ours = [house, "look.css", "own.css"]
    assert [name for name in names if name in ours] == ours
    if kind != "lost":
        assert (page.parent / linked[names.index("look.css")]).resolve() == style_of(own)


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_page_has_the_logo_and_the_icon(own: Course, kind: str) -> None:
    html = (own.site / KINDS[kind]).read_text(encoding="utf-8")
    assert re.search(r'<img[^>]*src="[^"]*img/logo\.svg"', html)
    assert re.search(r'<link rel="icon"[^>]*href="[^"]*img/logo\.svg"', html)


def test_the_letters_are_on_pages_cards_and_papers(own: Course, browser: Browser) -> None:
    assert style_of(own).with_name("letters.woff2").read_bytes() == blocks()
    page = browser.new_page()
    page.goto((own.site / KINDS["exercise"]).as_uri())
    page.evaluate("document.fonts.ready")
    for title in (".ww-title", ".ww-home"):
        assert page.evaluate(f"getComputedStyle(document.querySelector('{title}')).fontFamily").startswith(
            f'"{FAMILY}"'
        )
    assert page.evaluate(f"document.fonts.check('16px \"{FAMILY}\"')")
    page.close()
    for paper in ("x/slow-singles/sheet.pdf", "weeks/week-01/week.pdf", "course.pdf"):
        first = PdfReader(own.site / paper).pages[0]
        assert any(NAME in font.get_object()["/BaseFont"] for font in first["/Resources"]["/Font"].values()), paper


def test_papers_have_the_logo_on_its_ground_and_the_colour_in_a_line(own: Course, built: Course) -> None:
    for paper in ("x/slow-singles/sheet.pdf", "weeks/week-01/week.pdf", "course.pdf"):
        drawn = PdfReader(own.site / paper).pages[0].get_contents().get_data().decode("latin-1")
        red = "0.478431"  # of the colour, 7a in 255ths
        assert red in drawn, paper
        assert red not in PdfReader(built.site / paper).pages[0].get_contents().get_data().decode("latin-1")


@pytest.mark.parametrize("width", [320, 390, 800, 1280])
def test_a_photo_fits_at_the_top_of_the_home_page(own: Course, browser: Browser, width: int) -> None:
    page = browser.new_page(viewport={"width": width, "height": 800})
    page.goto((own.site / "index.html").as_uri())
    photo, ways = page.locator(".ww-hero__photo img"), page.locator(".ww-hero__ways")
    assert photo.get_attribute("alt") == "Our room"
    shown, links = photo.bounding_box(), ways.bounding_box()
    assert shown["x"] >= 0
    assert shown["x"] + shown["width"] <= width
    assert 100 < shown["height"] <= 800 * 0.6
    is_beside = shown["x"] >= links["x"] + links["width"] - 1
    assert is_beside if width == 1280 else shown["y"] >= links["y"] + links["height"]
    line = page.locator(".ww-hero__line").bounding_box()
    assert shown["y"] + shown["height"] <= line["y"]
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.close()


def test_browsers_and_home_screens_get_the_colours(own: Course) -> None:
    for kind in ("week", "exercise"):
        assert f'<meta name="theme-color" content="{MAIN}">' in (own.site / KINDS[kind]).read_text(encoding="utf-8")
    manifest = json.loads((own.site / "manifest.webmanifest").read_text(encoding="utf-8"))
    assert (manifest["theme_color"], manifest["background_color"]) == (MAIN, MINE.light["paper"])
    icon = style_of(own).with_name("icon.svg").read_text(encoding="utf-8")
    assert MAIN in icon
    assert colours.house().light["deep"] not in icon


def colours_in(icon: bytes) -> set[str]:
    """The colours of a picture but for those of its edges."""
    picture = Image.open(io.BytesIO(icon)).convert("RGB")
    pixels = picture.width * picture.height
    return {"#{:02x}{:02x}{:02x}".format(*colour) for count, colour in picture.getcolors(pixels) if count > pixels / 50}


def test_a_home_screen_shows_the_logo_on_its_ground_in_every_size(own: Course) -> None:
    manifest = json.loads((own.site / "manifest.webmanifest").read_text(encoding="utf-8"))
    head = (own.site / KINDS["exercise"]).read_text(encoding="utf-8")
    (touch,) = re.findall(r'<link rel="apple-touch-icon" href="([^"]+)"', head)
    places = [own.site / icon["src"] for icon in manifest["icons"]]
    for place in [*places, (own.site / KINDS["exercise"]).parent / touch]:
        assert colours_in(place.read_bytes()) == {MAIN, "#12ff34"}
    sizes = [Image.open(place).size for place in places]
    assert [f"{width}x{height}" for width, height in sizes] == [icon["sizes"] for icon in manifest["icons"]]


def test_without_a_logo_the_icons_have_the_colours_and_without_colours_they_are_the_house_s() -> None:
    dyed_look = Look(palette=MINE)
    icons = [content for name, content in dyed_look.files.items() if name.startswith(dyed_look.home_icons)]
    assert len(icons) == 4
    for icon in icons:
        assert {MAIN, MINE.light["glow"]} < colours_in(icon)
    assert HOUSE_LOOK.home_icons == f"{asset_root()}/icons"
    assert not HOUSE_LOOK.files


def test_where_there_is_no_signal_the_look_is_kept_and_the_page_that_says_so_has_it(own: Course) -> None:
    worker = (own.site / "worker.js").read_text(encoding="utf-8")
    assert colours.in_page(MINE, "paper", "ink", "link") in worker
    kept = json.loads((own.site / "offline/shell.json").read_text(encoding="utf-8"))["paths"]
    assert {style_of(own).relative_to(own.site).as_posix(), "img/logo.svg", "own.css"} <= set(kept)


def test_cards_and_pictures_are_in_the_colours(own: Course) -> None:
    folder = own.site / "x/slow-singles"
    picture = (folder / "diagram.svg").read_text(encoding="utf-8")
    assert MINE.light["ink"] in picture
    assert colours.house().light["ink"] not in picture
    card = Image.open(io.BytesIO((folder / "card.png").read_bytes())).convert("RGB")
    points = ((x, y) for x in range(0, 1200, 3) for y in range(0, 630, 3))
    seen = Counter("#{:02x}{:02x}{:02x}".format(*card.getpixel(point)) for point in points)
    assert {colour for colour, _ in seen.most_common(4)} >= {MAIN, MINE.light["paper"]}
    assert seen["#12ff34"] > 80  # the logo
    assert not seen.keys() & {colours.house().light[name] for name in ("water", "paper", "ink")}


def test_on_paper_letters_are_black_again(own: Course, browser: Browser) -> None:
    page = browser.new_page()
    page.emulate_media(media="print", color_scheme="dark")
    page.goto((own.site / KINDS["exercise"]).as_uri())
    assert page.evaluate("getComputedStyle(document.body).getPropertyValue('--ww-ink').trim()") == "#000"
    page.close()


@pytest.mark.browser
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_browser_shows_the_colours_and_everybody_can_read_them(own: Course, browser: Browser, scheme: str) -> None:
    paper = (MINE.dark if scheme == "dark" else MINE.light)["paper"]
    page = browser.new_page(color_scheme=scheme, viewport={"width": 320, "height": 700})
    for kind in ("exercise", "week"):
        page.goto((own.site / KINDS[kind]).as_uri())
        assert page.evaluate("getComputedStyle(document.body).getPropertyValue('--ww-paper').trim()") == paper
        assert page.evaluate("document.documentElement.scrollWidth") <= 320
        assert [told for told in violations(page, only=WCAG) if told.startswith("color-contrast")] == []
    page.close()


def test_a_course_that_says_nothing_has_no_style_of_its_own(built: Course) -> None:
    assert list(built.site.glob("assets/wristwork/*/look.css")) == []
    assert 'class="ww-logo"' not in (built.site / KINDS["exercise"]).read_text(encoding="utf-8")


def test_a_colour_that_can_t_be_read_is_told_and_a_logo_that_is_not_there_stops_the_build(course: Course) -> None:
    course.settings["plugins"] = [
        "search",
        {"wristwork": {"checks": "off", "colours": "#fc0", "paper": False, "font": "nowhere.woff2"}},
    ]
    course.settings["theme"] = {"name": "material", "logo": "img/nowhere.svg"}
    course.save_settings()
    done = course.run("build")
    assert "colours: #ffcc00 under white letters has a contrast of 1.5 to 1" in done.stderr
    assert "#91730c is taken, the nearest shade that has it" in done.stderr
    assert done.returncode == 1
    assert "mkdocs.yml:13: the font nowhere.woff2 is not there\n    put the file there, or correct font:" in done.stderr
    assert "mkdocs.yml:6: the logo img/nowhere.svg is not among the pages\n    put the picture there" in done.stderr


@pytest.mark.parametrize(("name", "content"), [("logo.png", LOGO), ("logo.svg", "a drum, drawn"), ("logo.jpg", "")])
def test_a_logo_that_is_no_picture_is_told(course: Course, name: str, content: str) -> None:
    course.settings["theme"] = {"name": "material", "logo": f"img/{name}"}
    course.save_settings()
    course.write(f"docs/img/{name}", content)
    done = course.run("build")
    assert done.returncode == 1
    told = f"mkdocs.yml:6: the logo img/{name} holds no such picture\n    save the picture again, as SVG or PNG"
    assert told in done.stderr
    assert "Traceback" not in done.stderr


def test_a_language_that_the_theme_has_not_is_told(course: Course) -> None:
    course.settings["theme"] = {"name": "material", "language": "deutsch"}
    course.save_settings()
    done = course.run("build")
    assert done.returncode == 1
    assert "mkdocs.yml:6: 'deutsch' is no language of the theme\n    write its code, as in language: de" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_kind_of_a_language_has_the_words_of_the_theme_s_own(course: Course) -> None:
    course.settings["theme"] = {"name": "material", "language": "de-AT"}
    course.save_settings()
    done = course.run("build")
    assert done.returncode == 0, done.stderr
    html = (course.site / KINDS["week"]).read_text(encoding="utf-8")
    assert "Üben in dieser Woche" in html
    assert "Zum Inhalt" in html
