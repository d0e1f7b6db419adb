"""One build of a course's site: from MkDocs's settings and pages to what is published."""

from __future__ import annotations

from collections.abc import Container, Iterator
from html import escape
from pathlib import Path

from markupsafe import Markup
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import AnchorLink
from mkdocs.utils.yaml import yaml_load

from wristwork.course.plan import PRACTICE_ANCHOR
from wristwork.course.safety.safe_practice import Topic
from wristwork.languages.say import say
from wristwork.paper.press import Paper
from wristwork.site.addresses import absolute
from wristwork.site.audio.sound_folder import FOLDER
from wristwork.site.audio.sounds import Tell
from wristwork.site.exercise.place_page import SiteName
from wristwork.site.exercise.places import Places
from wristwork.site.exercise.search import add_to_index, exercise_list
from wristwork.site.figure.figure import problem_box
from wristwork.site.film.clips import Clips
from wristwork.site.frontend.assets import asset_files, asset_root
from wristwork.site.frontend.head import LIST_PAGE, OWN_PAGE, head
from wristwork.site.markdown.page_figures import PageFigures
from wristwork.site.mkdocs.course_reading import Prepared, Reading
from wristwork.site.mkdocs.escaping import escape_meta
from wristwork.site.mkdocs.printing import course_papers, letterhead
from wristwork.site.mkdocs.site_files import Whole, site_files
from wristwork.site.overview.doorways import doorways
from wristwork.site.overview.home import Home, split_home
from wristwork.site.overview.made_pages import MADE, MadePage, fill_slots, part_pages
from wristwork.site.overview.waiting import waiting_pages
from wristwork.site.paper.papers import Papers
from wristwork.site.reading.lessons import PageSource, read_lesson
from wristwork.site.safety.safe_pages import finished
from wristwork.site.student.offline import Fingerprint, write_farewell, write_offline
from wristwork.site.week.practice_card import TITLE as CARD_TITLE
from wristwork.site.week.practice_card import PracticeCard, Topics
from wristwork.site.week.session_files import session_files
from wristwork.site.week.week_page import dressed_week, filled_week
from wristwork.store.publication import Publication
from wristwork.store.store import Store


class Builder:
    """Holds what one build knows; made anew for each build of a preview."""

    def __init__(
        self,
        config: MkDocsConfig,
        prepared: Prepared,
        reading: Reading,
        store: Store,
        tell: Tell,
        previewing: bool = False,
    ) -> None:
        """``tell`` is told of what takes its time. In a preview a page shows what is wrong with it."""
        self.site = reading.site
        self.book = reading.book
        self.closed = reading.closed
        self._reading = reading
        self._boxes = previewing
        self._root = prepared.root
        self._shared = [prepared.root / named for named in (prepared.own.library, prepared.own.studio) if named]
        self._keeps_offline = prepared.choices.keeps_offline
        self._tell = tell
        self._store = store
        self._days = prepared.own.days
        self._name = SiteName(
            config.site_name,
            published_address(config, previewing),
            config.theme.get("language") or "en",
            prepared.look,
        )
        self._description = config.site_description
        self._has_theme = config.theme.name == "material"
        self._home: Home | None = None
        self._topics = reading.topics
        self._sounds = reading.sounds
        clips = Clips(self._name.name, self._name.url, self._name.look, self._sounds.kit, self._sounds.kit_key)
        self._places = Places(self.site, self._name, clips if self.site.has_clips else None)
        self._papers: Papers | None = None
        if prepared.own.paper is not None:
            paper = Paper(prepared.own.paper, language=self._name.language, head=letterhead(prepared.look))
            self._papers = course_papers(config, self.site, self._name, reading.topics, paper)

    @property
    def common(self) -> list[str]:
        """The pages that every course has, the tutor's own among them, in the order of the navigation."""
        topics = sorted(self._topics, key=lambda uri: list(Topic).index(self._topics[uri]))
        return [*MADE, *topics]

    def part_pages(self) -> Iterator[tuple[MadePage, PageFigures]]:
        """Further pages of what a large course has in parts, each with its figures, of which it has none."""
        for made in part_pages(self.site):
            source = PageSource(made.src_uri, made.src_uri, made.src_uri, made.markdown)
            lesson, _ = read_lesson(source, self._days)
            yield made, PageFigures(self.site, lesson)

    @property
    def watched(self) -> list[Path]:
        """The folders and files beside the pages that a preview follows, as far as they are there."""
        return [folder for folder in (self._root / FOLDER, *self._shared) if folder.exists()]

    def files(self) -> Iterator[tuple[str, bytes]]:
        """What every course's site holds beside its pages, by its address."""
        for name, content in asset_files().items():
            yield f"{asset_root()}/{name}", content
        yield from self._name.look.files.items()
        yield from session_files(self.site)
        yield from site_files(Whole(self.site, self._name, self._description, self.book))

    def prepared(self, markdown: str, page: Page) -> str:
        """The page's Markdown before it is converted; what it says of itself becomes safe to print."""
        escape_meta(page.meta)
        if page.is_homepage and self._has_theme:
            page.meta.setdefault("template", "home.html")
        topic = self._topics.get(page.file.src_uri)
        if topic is None:
            return markdown
        return finished(topic, markdown, standard_text=page.meta.get("standard-text") in (True, "yes"))

    def dressed(self, html: str, page: Page) -> str:
        """The page's content with what the tool adds around it."""
        lesson = self.site.pages.get(page.file.src_uri)
        wrong = self._reading.on_page(lesson.path) if lesson is not None and self._boxes else ()
        box = problem_box(wrong) if wrong else ""
        return f"{box}{self._dressed(html, page)}"

    def _dressed(self, html: str, page: Page) -> str:
        if page.is_homepage and page.meta.get("template") == "home.html":
            self._home, html = split_home(html, self._name.name)
            return html
        lesson = self.site.pages.get(page.file.src_uri)
        if lesson is None or lesson.week is None:
            return html
        if PracticeCard(lesson, lesson.week, self.site, self._topic_pages).is_needed:
            _list_card(page)
        return dressed_week(html, lesson)

    @property
    def _topic_pages(self) -> Topics:
        """The page on each topic of safe practice."""
        return {topic: self.site.pages[uri] for uri, topic in self._topics.items() if uri in self.site.pages}

    def context(self) -> dict[str, object]:
        """What the theme's templates show of the course."""
        return {"home": self._home, "weeks": self.site.weeks, "has_exercises": bool(self.site.exercises)}

    def filled(self, html: str, page: Page) -> str:
        """The finished page with all that is made from the course in its place."""
        lesson = self.site.pages.get(page.file.src_uri)
        if lesson is not None and lesson.week is not None:
            card = PracticeCard(lesson, lesson.week, self.site, self._topic_pages)
            html = filled_week(html, lesson, lesson.week, self.site, card)
        return fill_slots(html, self.site, page.url)

    def head(self, page: Page) -> Markup:
        """What the head of every page holds."""
        lesson = self.site.pages.get(page.file.src_uri)
        return head(self.site, page.url, self._name.url, self._name.look, lesson.number if lesson else None)

    def with_places(self, sitemap: str) -> str:
        """The sitemap with the exercises' own places."""
        if self._name.url is None:
            return sitemap
        places = (absolute(exercise.folder, self._name.url) for exercise in self.site.exercises.values())
        entries = "".join(f"    <url>\n         <loc>{escape(place or '')}</loc>\n    </url>\n" for place in places)
        return sitemap.replace("</urlset>", f"{entries}</urlset>")

    def finish(self, site_dir: Path, can_play: bool) -> None:
        """Give every exercise its place and make all findable. ``can_play``: is there anything to play on the pages?"""
        publication = Publication(self._store, site_dir)
        self._sounds.render(self.site.exercises.values(), self._tell)
        self._places.write(publication)
        if self._papers is not None:
            self._papers.write(publication)
        self._sounds.write(publication, self.site.exercises.values())
        if can_play or self.site.exercises:
            self._sounds.write_kit(publication)
        waiting = dict(waiting_pages(self._reading.waiting, self._name))
        for address, html in (*self.book.pages(self._name), *doorways(self.site, self._name), *waiting.items()):
            (site_dir / address).parent.mkdir(parents=True, exist_ok=True)
            (site_dir / address).write_text(html, encoding="utf-8")
        (site_dir / "x").mkdir(exist_ok=True)
        (site_dir / "x" / "exercises.json").write_bytes(exercise_list(self.site))
        add_to_index(site_dir / "search" / "search_index.json", self.site)
        self._write_worker(site_dir, publication.sum, waiting)

    def _write_worker(self, site_dir: Path, known: Fingerprint, waiting: Container[str]) -> None:
        """Last, for it names every file of the site but the ``waiting`` pages."""
        if not self._keeps_offline:
            write_farewell(site_dir)
            return
        shell = ("index.md", LIST_PAGE, OWN_PAGE, Topic.WARM_UP.src_uri)
        pages = [self.site.pages[uri].url for uri in shell if uri in self.site.pages]
        write_offline(site_dir, self.site, self._name.look, pages, known, waiting)

    def published(self) -> None:
        """The site is in its place: drop what it did not need."""
        self._store.sync()
        self._store.forget_unused()


def _list_card(page: Page) -> None:
    """Put a week's practice card into its page's table of contents, and make it a place that links may lead to."""
    items = page.toc.items
    beside = items[0].children if items and items[0].level == 1 else items
    beside.insert(0, AnchorLink(say(CARD_TITLE), PRACTICE_ANCHOR, 2))
    page.present_anchor_ids = (page.present_anchor_ids or set()) | {PRACTICE_ANCHOR}


def published_address(config: MkDocsConfig, previewing: bool) -> str | None:
    """Where the course says it is published; a preview puts its own address into the settings."""
    if not previewing or config.config_file_path is None:
        return config.site_url
    with open(config.config_file_path, "rb") as file:
        said = yaml_load(file).get("site_url")
    return str(said) if said else None
