"""The MkDocs plugin ``wristwork``: hooks, translated into calls. The work is done elsewhere."""

from __future__ import annotations

import logging
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal, cast
from urllib.parse import urlsplit

from jinja2 import Environment
from mkdocs.config.base import ConfigErrors, ConfigWarnings
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, PluginError
from mkdocs.plugins import BasePlugin, event_priority, get_plugin_logger
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils import CountHandler
from mkdocs.utils.templates import TemplateContext

from wristwork.course.addresses import FILE_NAME
from wristwork.days import today
from wristwork.files import LinkRefused, refuse_link
from wristwork.languages.catalogues import SOURCE, language
from wristwork.languages.say import say, say_count, speak, speaking, spoken
from wristwork.paper.press import PaperError
from wristwork.site.addresses import relative
from wristwork.site.exercise.record import commit_first, in_continuous_integration
from wristwork.site.frontend.assets import links
from wristwork.site.markdown.extension import NEEDED_EXTENSIONS, Figures, OwnText
from wristwork.site.markdown.included import find_included
from wristwork.site.markdown.page_figures import PageFigures
from wristwork.site.mkdocs import steady
from wristwork.site.mkdocs.builder import Builder
from wristwork.site.mkdocs.collecting import collected, documentation_pages
from wristwork.site.mkdocs.config import WristworkConfig
from wristwork.site.mkdocs.course_checks import AnyAnchor, mind_anchors
from wristwork.site.mkdocs.course_reading import Reading, prepare
from wristwork.site.mkdocs.disk import disk_trouble, mind_devices
from wristwork.site.mkdocs.escaping import escape_settings, escape_titles
from wristwork.site.mkdocs.looking import read_look, theme_language, unknown_language
from wristwork.site.mkdocs.navigation import course_nav, near
from wristwork.site.mkdocs.privacy import leaked_notes
from wristwork.site.mkdocs.sources import course_folder, shown_path
from wristwork.site.mkdocs.speech import course_language
from wristwork.site.mkdocs.stage import Stage, StageError
from wristwork.site.mkdocs.theming import apply_look, mended
from wristwork.site.mkdocs.written_language import written_language
from wristwork.store.store import STORE, WORK, Store
from wristwork.store.turn import StillBuilding, Turn

if TYPE_CHECKING:  # a build serves nothing
    from mkdocs.livereload import LiveReloadServer

log = get_plugin_logger(__name__)
FIRST, LATE, VERY_LAST = 100, -50, -1000


class WristworkPlugin(BasePlugin[WristworkConfig]):
    """Publishes a drum course."""

    def __init__(self) -> None:
        self._previewing = False
        self._dirty = False
        self._turn: Turn | None = None
        self._stage: Stage | None = None
        self._builder: Builder | None = None
        self._figures: dict[str, PageFigures] = {}
        self._page = ""

    def load_config(
        self, options: dict[str, Any], config_file_path: str | None = None
    ) -> tuple[ConfigErrors, ConfigWarnings]:
        """Read our settings; what is wrong with them is said in the course's language, which nobody has read yet."""
        errors, warnings = super().load_config(options, config_file_path)
        if not errors:
            return errors, warnings
        with speaking(written_language(config_file_path) or spoken()):
            return super().load_config(options, config_file_path)

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Learn whether this is a preview, where a wrong pattern stops nothing."""
        self._previewing = command == "serve"
        self._dirty = dirty

    # First, so that whoever remembers the site folder remembers the stage.
    @event_priority(FIRST)
    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Build on a stage, speak the course's language, read fences, look like ourselves."""
        speak(course_language(config, self.config))
        # Other plugins ask the theme for its words soon.
        for problem in unknown_language(config):
            raise PluginError(str(problem))
        config.theme["language"] = theme_language(config)
        with _told():
            self._turn = _turn(config)
            self._turn.take(log.info)
            if not self._previewing and not self._dirty:
                self._open_stage(config)
        for name in NEEDED_EXTENSIONS:
            if name not in config.markdown_extensions:
                config.markdown_extensions.append(name)
        config.mdx_configs["wristwork"] = {"figures": self._current_figures}
        apply_look(config, read_look(config, self.config).look)
        mind_anchors(config, self.config)
        return config

    # Late, so that pages which other plugins make are read too.
    @event_priority(LATE)
    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Read the course and add what is made from it."""
        mind_devices(files)
        with _told():
            store = Store(course_folder(config) / WORK / STORE, log.info)
        prepared = prepare(config, self.config, course_folder(config), self._previewing)
        for note in prepared.notes:
            log.info(note)
        shown = partial(shown_path, config=config)
        renders = not self._previewing
        day = None if self._previewing else today()
        reading = collected(config, prepared, files, store, shown, self._previewing, renders, day)
        if self._stage is not None:
            for lost in reading.book.lost_since(self._stage.site):
                log.warning(lost)
        for note in reading.notes:
            log.info(note)
        self._tell(reading, is_strict=config.strict)
        builder = self._builder = Builder(config, prepared, reading, store, log.info, self._previewing)
        pages = documentation_pages(files, self._previewing)
        for uri, content in builder.files():
            files.append(File.generated(config, uri, content=content))
        included = partial(find_included, course_folder(config), config.site_dir)
        self._figures = {uri: PageFigures(builder.site, page, included) for uri, page in builder.site.pages.items()}
        for part, figures in builder.part_pages():
            not_in_nav = InclusionLevel.NOT_IN_NAV
            files.append(File.generated(config, part.src_uri, content=part.markdown, inclusion=not_in_nav))
            self._figures[part.src_uri] = figures
        config.nav = course_nav(config.nav, builder.site, [file.src_uri for file in pages], builder.common)
        return files

    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, files: Files) -> Navigation:
        """Make titles safe to print."""
        escape_titles(nav)
        return nav

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Note which page Markdown is about to work on."""
        self._page = page.file.src_uri
        return self._builder.prepared(markdown, page) if self._builder else markdown

    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Dress a week's page, and tell MkDocs of the anchors that figures bring."""
        figures = self._figures.get(page.file.src_uri)
        if figures is not None:
            page.present_anchor_ids = (page.present_anchor_ids or set()) | set(figures.ids)
        if self._builder and page.file.src_uri in self._builder.closed:
            page.present_anchor_ids = AnyAnchor()
        return self._builder.dressed(html, page) if self._builder else html

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:
        """All pages are read: stop if something came up on the way, forget the day, make settings safe to print."""
        escape_settings(config)
        env.globals["ww_say"] = say
        late = [problem for figures in self._figures.values() for problem in figures.problems]
        self._stop_at(late)
        steady.forget_build_day(file.page for file in files.documentation_pages() if file.page is not None)
        return env

    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """Give the theme's templates what they show of the course."""
        shown = self._builder.context() if self._builder else {}
        return cast(TemplateContext, {**context, "ww": shown, "nav": near(nav, page)})

    def on_post_template(self, output_content: str, *, template_name: str, config: MkDocsConfig) -> str:
        """Keep the day of the build out of the sitemap, and the exercises' places in it; dress the page that is not."""
        if template_name == "404.html":
            # A host shows it at any address: what it links has to start at the root.
            base = f"{urlsplit(config.site_url or '').path.rstrip('/')}/"
            return mended(output_content).replace("</head>", f"{links(output_content, base)}</head>", 1)
        if template_name != "sitemap.xml":
            return output_content
        sitemap = steady.without_day(output_content)
        return self._builder.with_places(sitemap) if self._builder else sitemap

    @event_priority(LATE)
    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Put the figures in, and link the styles and scripts that this page needs."""
        if self._builder is None:
            return output
        figures = self._figures.get(page.file.src_uri)
        html = self._builder.filled(figures.fill(output) if figures else output, page)
        head = self._builder.head(page) + links(html, relative("", page.url))
        return mended(html).replace("</head>", f"{head}</head>", 1)

    def on_serve(self, server: LiveReloadServer, *, config: MkDocsConfig, builder: object) -> LiveReloadServer:
        """Follow changes to the tutor's own sounds."""
        for folder in self._builder.watched if self._builder else ():
            server.watch(str(folder))
        return server

    # After every other plugin has had its chance to fail.
    @event_priority(VERY_LAST)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Make exercises findable, then put the new site in place of the old one."""
        if self._builder is not None:
            self._publish(config, self._builder)

    def _publish(self, config: MkDocsConfig, builder: Builder) -> None:
        can_play = any(figures.can_play for figures in self._figures.values())
        with _told():
            builder.finish(Path(config.site_dir), can_play)
        if not self._previewing:
            self._stop_at([*leaked_notes(course_folder(config), Path(config.site_dir))])
        if _strictly_failing(config):
            return
        if self._stage is not None:
            self._stage.swap()
            builder.published()
            config.site_dir = str(self._stage.site)
            self._stage = None
        if not self._previewing:
            self._keep_addresses(builder)
        self._end_turn()

    def on_build_error(self, *, error: Exception) -> None:
        """Leave the last good site alone, and say in a line what the disk says."""
        said = disk_trouble(error)  # in the course's language, which ends with the build
        self.on_shutdown()
        if said:
            raise Abort(said)

    def on_shutdown(self) -> None:
        """Drop a stage that no swap has emptied: the build failed or was interrupted."""
        if self._stage is not None:
            self._stage.abandon()
            self._stage = None
        self._end_turn()

    def _end_turn(self) -> None:
        speak(language(SOURCE))
        if self._turn is not None:
            self._turn.end()
            self._turn = None

    def _open_stage(self, config: MkDocsConfig) -> None:
        stage = Stage(Path(config.site_dir))
        stage.open()
        self._stage = stage
        config.site_dir = str(stage.folder)

    def _keep_addresses(self, builder: Builder) -> None:
        """The site is published, so its addresses last from now on."""
        try:
            builder.book.write()
        except OSError as error:
            log.warning(
                say(
                    "{file} can't be written ({reason}): make the course's folder writable, and build again",
                    file=FILE_NAME,
                    reason=error,
                )
            )

    def _current_figures(self, lines: list[str]) -> Figures:
        """The figures of the page whose lines Markdown has before it; any other text is read by itself."""
        return self._figures.get(self._page) or OwnText(lines)

    def _tell(self, reading: Reading, is_strict: bool) -> None:
        for finding in reading.findings:
            log.log(logging.INFO if finding.allowed else logging.WARNING, str(finding))
        self._stop_at(reading.problems)
        if not reading.problems and is_strict and in_continuous_integration() and reading.book.is_out_of_date:
            self._stop_at([commit_first()])

    def _stop_at(self, problems: Sequence[object]) -> None:
        """All that is wrong, at once: the build ends here, a preview goes on."""
        if not problems:
            return
        if self._previewing:
            for problem in problems:
                log.error(str(problem))
            return
        count = say_count(
            "{count} thing is wrong in the course:", "{count} things are wrong in the course:", len(problems)
        )
        raise PluginError("\n\n".join([count, *map(str, problems)]))


def _turn(config: MkDocsConfig) -> Turn:
    """The turn of a course's builds: locked in the folder for such things, else beside the site."""
    work = course_folder(config) / WORK
    refuse_link(work)
    site = Path(config.site_dir)
    return Turn((work / "lock", site.with_name(f".{site.name}.lock")))


@contextmanager
def _told() -> Iterator[None]:
    """What stands in the way of a build ends it with a line."""
    try:
        yield
    except (LinkRefused, StageError, StillBuilding) as error:
        raise PluginError(str(error)) from error
    except PaperError as error:
        told = say("a paper can't be set ({reason}): build with paper: off, and tell us of the page", reason=error)
        raise PluginError(told) from error


def _strictly_failing(config: MkDocsConfig) -> bool:
    """Whether MkDocs is about to fail this build for its warnings, which it counts after the last hook."""
    handlers = logging.getLogger("mkdocs").handlers
    return config.strict and any(isinstance(one, CountHandler) and one.get_counts() for one in handlers)
