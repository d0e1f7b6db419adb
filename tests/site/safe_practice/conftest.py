"""The three standard pages in a plain shell, and a browser to open them in."""

import functools
import http.server
import threading

import markdown
import pytest

from wristwork.course.safety.safe_practice import Topic
from wristwork.site.frontend.assets import asset_files
from wristwork.site.safety.safe_pages import finished, standard_page

EXTENSIONS = ["admonition", "attr_list", "footnotes", "tables"]
SHELL = """<!doctype html><html lang="en" data-md-color-scheme="{scheme}"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1"><title>{title}</title>
<link rel="icon" href="data:,"><link rel="stylesheet" href="site.css"><link rel="stylesheet" href="safe.css">
<style>body {{ background: var(--ww-paper); color: var(--ww-ink); font: 16px/1.5 sans-serif; margin: 0; padding: 16px }}
a {{ color: var(--ww-link) }} code {{ overflow-wrap: anywhere }} pre {{ white-space: pre-wrap }}</style>
{scripts}</head><body><main>{content}</main></body></html>"""


class Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *args):
        pass


@pytest.fixture(scope="session")
def site(tmp_path_factory):
    """The three standard pages in a plain shell, light and dark, on a port of this machine."""
    folder = tmp_path_factory.mktemp("safe")
    for name, content in asset_files().items():
        target = folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
    names = ("sound-day", "warm-up", "checklist")
    scripts = "".join(f'<script type="module" src="{name}.js"></script>' for name in names)
    for topic in Topic:
        text = standard_page(topic).split("---\n", 2)[2]
        content = markdown.markdown(finished(topic, text), extensions=EXTENSIONS)
        for scheme in ("default", "slate"):
            html = SHELL.format(scheme=scheme, title=topic.page_title, scripts=scripts, content=content)
            (folder / f"{topic}-{scheme}.html").write_text(html, encoding="utf-8")
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Quiet, directory=folder))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()


@pytest.fixture
def page(browser):
    """A page that must not report an error."""
    context = browser.new_context(viewport={"width": 390, "height": 800})
    opened = context.new_page()
    errors = []
    opened.on("pageerror", lambda error: errors.append(str(error)))
    opened.on("console", lambda message: errors.append(message.text) if message.type == "error" else None)
    yield opened
    context.close()
    assert errors == []
