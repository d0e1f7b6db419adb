"""A teacher's own videos: the span of an exercise beside its diagram, and whole videos with their marks."""

from __future__ import annotations

import base64
import functools
import http.server
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.accessibility import violations
from tests.films import write_film
from tests.site.courses import Course
from tests.sound.made_patterns import pattern
from tests.sound.take.played import take

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

LESSON = """\
---
title: Filmed
---

# Filmed

```pattern
id: filmed-one
title: Filmed <one> & more
hands: RLRL RLRL RLRL RLRL
video: videos/first lesson.webm at 0:01 to 0:02
```

```pattern
id: filmed-two
title: Filmed two
hands: RRLL RRLL RRLL RRLL
video: videos/first lesson.webm at 0:00
```

```pattern
id: played
title: Played
hands: R>LRR L>RLL R>LRR L>RLL
tempo: 60 to 100
video: videos/played.webm at 0:01 to 0:12
```

```pattern
id: not-played
title: Not played
hands: R>.R. L>.R. RRR. L>.RL
tempo: 60
video: videos/played.webm at 0:01 to 0:12
```

```pattern
id: elsewhere
title: Elsewhere
hands: RRLL RRLL RRLL RRLL
video: https://film.example/a?b=1&c=2 at 0:30
```
"""
ALL = "---\ntitle: All videos\n---\n\n# All videos\n\n<!-- wristwork: videos -->\n"
# Three seconds of a square that moves, as a browser records it.
RECORD = """async () => {
  const canvas = Object.assign(document.createElement("canvas"), { width: 64, height: 48 });
  const pen = canvas.getContext("2d");
  const recorder = new MediaRecorder(canvas.captureStream(25), { mimeType: "video/webm" });
  const parts = [];
  recorder.ondataavailable = ({ data }) => parts.push(data);
  const over = new Promise((done) => { recorder.onstop = done; });
  recorder.start();
  const start = performance.now();
  while (performance.now() - start < 3200) {
    pen.fillStyle = "#fff"; pen.fillRect(0, 0, 64, 48);
    pen.fillStyle = "#084"; pen.fillRect((performance.now() / 50) % 60, 10, 8, 8);
    await new Promise(requestAnimationFrame);
  }
  recorder.stop();
  await over;
  const bytes = new Uint8Array(await new Blob(parts).arrayBuffer());
  return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(""));
}"""


class _WithRanges(http.server.SimpleHTTPRequestHandler):
    """As hosts do: a browser only goes to a moment of a video that it may ask for in parts."""

    def log_message(self, *_: object) -> None:
        pass

    def do_GET(self) -> None:
        asked = self.headers.get("Range")
        path = Path(self.translate_path(self.path))
        if not asked or not path.is_file():
            super().do_GET()
            return
        content = path.read_bytes()
        first, _, last = asked.removeprefix("bytes=").partition("-")
        start, end = int(first), int(last or len(content) - 1)
        part = content[start : end + 1]
        self.send_response(206)
        self.send_header("Content-Type", "video/webm")
        self.send_header("Content-Range", f"bytes {start}-{start + len(part) - 1}/{len(content)}")
        self.send_header("Content-Length", str(len(part)))
        self.end_headers()
        self.wfile.write(part)


@pytest.fixture(scope="module")
def films(tmp_path_factory: pytest.TempPathFactory, browser: Browser) -> Iterator[tuple[Course, str]]:
    course = Course(tmp_path_factory.mktemp("films"))
    course.write("docs/filmed.md", LESSON)
    course.write("docs/all.md", ALL)
    page = browser.new_page()
    film = course.write("docs/videos/first lesson.webm", "")
    film.write_bytes(base64.b64decode(page.evaluate(RECORD)))
    page.close()
    # Begun half a second into the span, which begins at the first second, at 75 beats a minute.
    write_film(film.with_name("played.webm"), take(pattern("R>LRR L>RLL R>LRR L>RLL", tempo="60"), 75, 3, before=1.5))
    course.build()
    handler = functools.partial(_WithRanges, directory=str(course.site))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield course, f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
    yield context.new_page()
    context.close()


def test_without_scripts_a_browser_plays_the_span(films: tuple[Course, str]) -> None:
    course, _ = films
    assert 'src="../../videos/first%20lesson.webm#t=1,2"' in course.page("x/filmed-one/")
    assert 'src="../videos/first%20lesson.webm#t=0"' in course.page("filmed/")
    assert "first%20lesson" not in course.page("x/elsewhere/")
    assert 'href="https://film.example/a?b=1&amp;c=2"' in course.page("x/elsewhere/")
    assert ">See it played, from 0:30</a> (on film.example" in course.page("x/elsewhere/")


def test_the_span_goes_round_as_slowly_as_one_likes_and_alone(films: tuple[Course, str], page: Page) -> None:
    page.goto(f"{films[1]}x/filmed-one/")
    page.get_by_text("See it played (0:01)").click()
    video = page.locator(".ww-film video")
    page.get_by_label("Speed of the video").select_option("Half")
    assert video.evaluate("(video) => [video.playbackRate, video.preservesPitch]") == [0.5, True]
    page.get_by_label("Speed of the video").select_option("As filmed")
    video.evaluate("async (video) => { video.muted = true; window.places = []; await video.play(); }")
    page.evaluate(
        """() => document.querySelector(".ww-film video").addEventListener("timeupdate",
        ({ target }) => window.places.push(target.currentTime))"""
    )
    page.wait_for_function("window.places.some((place, at) => at > 0 && place < window.places[at - 1] - 0.5)")
    assert max(page.evaluate("window.places")) < 2.6
    page.get_by_role("button", name="Play Filmed").click()
    page.wait_for_function("document.querySelector('.ww-film video').paused")
    assert violations(page) == []


def test_a_whole_video_has_marks_in_its_order_that_play_and_open(films: tuple[Course, str], page: Page) -> None:
    page.goto(f"{films[1]}all/")
    section = page.get_by_role("region", name="First lesson")
    assert section.locator("li").all_inner_texts() == ["0:00 Filmed two", "0:01 Filmed <one> & more"]
    section.locator("video").evaluate("(video) => { video.muted = true; }")
    section.get_by_role("link", name="0:01", exact=True).click()
    page.wait_for_function("document.querySelector('video').currentTime >= 1")
    section.get_by_role("link", name="Filmed <one> & more").click()
    expect(page).to_have_url(f"{films[1]}filmed/#filmed-one")


def test_nothing_of_a_video_is_fetched_before_it_is_opened(films: tuple[Course, str], page: Page) -> None:
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(f"{films[1]}filmed/", wait_until="networkidle")
    assert [url for url in asked if "lesson.webm" in url or "film.example" in url] == []


def test_a_video_that_is_not_there_stops_the_build_and_names_the_nearest(course: Course) -> None:
    course.write("docs/filmed.md", LESSON.replace("first lesson", "frist lesson"))
    course.write("docs/videos/first lesson.webm", "film")
    ran = course.run("build", "--strict")
    told = ran.stdout + ran.stderr
    assert ran.returncode != 0
    assert "filmed.md:11" in told
    assert "the video 'videos/frist lesson.webm' is not there" in told
    assert "did you mean videos/first lesson.webm?" in told


def test_devices_keep_no_videos(films: tuple[Course, str]) -> None:
    course, _ = films
    assert "lesson.webm" not in (course.site / "offline.json").read_text(encoding="utf-8")


def test_a_build_and_a_check_say_what_follows_and_how_closely(films: tuple[Course, str]) -> None:
    course, _ = films
    follows = "videos/played.webm at 0:01: the diagram of played follows at 75.0 beats a minute; 100 % of its strokes"
    check = [sys.executable, "-m", "wristwork.cli.main", "check", str(course.root)]
    checked = subprocess.run(check, capture_output=True, text=True, encoding="utf-8", check=False)
    for told in (course.run("build"), checked):
        said = " ".join((told.stdout + told.stderr).split())
        assert told.returncode == 0, said
        assert follows in said
        assert "the diagram of not-played does not follow" in said
        assert "the diagram of filmed-one does not follow" in said
    zero, tempo, start, end = (float(part) for part in _beats(course.page("x/played/")))
    assert zero == pytest.approx(1.5, abs=0.012)
    assert tempo == pytest.approx(75, rel=0.002)
    assert start == pytest.approx(zero, abs=0.012)
    assert end == pytest.approx(1.5 + 11.75 * 0.8, abs=0.05) or end <= 12
    assert 'data-ww-beats="' in course.page("filmed/")
    assert "data-ww-beats" not in course.page("x/not-played/") + course.page("x/filmed-one/")


def _beats(html: str) -> list[str]:
    return html.partition('data-ww-beats="')[2].partition('"')[0].split()


MARKED = "[...new Set([...document.querySelectorAll('.ww-diagram .ww-now')].map((each) => each.dataset.at))]"
GO_TO = """(video, to) => new Promise((done) => {
  video.addEventListener("seeked", () => requestAnimationFrame(done), { once: true });
  video.currentTime = to;
})"""


def test_the_diagram_follows_the_video_wherever_it_is(films: tuple[Course, str], page: Page) -> None:
    page.goto(f"{films[1]}x/played/")
    page.get_by_text("See it played (0:11)").click()
    video = page.locator(".ww-film video")
    page.get_by_label("Speed of the video").select_option("A quarter")
    video.evaluate("async (video) => { video.muted = true; await video.play(); video.currentTime = 1.6; }")
    page.wait_for_function(f"{MARKED}.length > 0")
    cursor = page.locator(".ww-diagram .ww-cursor")
    before = cursor.get_attribute("transform")
    page.wait_for_function(f"document.querySelector('.ww-cursor').getAttribute('transform') !== '{before}'")
    video.evaluate("(video) => video.pause()")
    # In the second round, beats of 0.8 s, strokes of 0.2 s.
    for beat, stroke in ((0, "0/1"), (1.25, "5/4"), (3.75, "15/4")):
        video.evaluate(GO_TO, 1.5 + (4 + beat) * 0.8 + 0.1)
        assert page.evaluate(MARKED) == [stroke]
    video.evaluate(GO_TO, 1.2)
    assert page.evaluate(MARKED) == []
    expect(cursor).to_have_count(0)


def test_the_player_takes_the_mark_over(films: tuple[Course, str], page: Page) -> None:
    page.goto(f"{films[1]}x/played/")
    page.get_by_text("See it played (0:11)").click()
    page.locator(".ww-film video").evaluate("async (video) => { video.muted = true; await video.play(); }")
    page.wait_for_function(f"{MARKED}.length > 0")
    page.get_by_role("button", name="Play Played").click()
    page.wait_for_function("document.querySelector('.ww-film video').paused")
    expect(page.locator(".ww-diagram .ww-cursor")).to_have_count(0)
