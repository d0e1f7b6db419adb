"""Builds, as a tutor runs them: what they leave behind when they succeed, fail, or are killed."""

import json
import signal
import subprocess
import time
from pathlib import Path

import pytest
from mkdocs.exceptions import Abort

from tests.site.courses import WRONG, Course, contents

# A plugin that does harm at a chosen moment of the build.
SABOTEUR = """\
import os, signal
from mkdocs.plugins import event_priority

@event_priority(-100)
def on_post_page(output, page, config):
    written = [name for _, _, names in os.walk(config.site_dir) for name in names if name == "index.html"]
    if page.file.src_uri == "weeks/week-02.md" and written:
        {harm}
    return output
"""


@pytest.fixture
def published(course: Course) -> dict[str, str]:
    """A course that has been published once, and then given a new week."""
    course.build()
    before = contents(course.site)
    course.write("docs/weeks/week-03.md", "---\nweek: 3\ntitle: More\n---\n\n# More\n")
    return before


def sabotaged(course: Course, harm: str) -> None:
    course.write("saboteur.py", SABOTEUR.format(harm=harm))
    course.settings["hooks"] = ["saboteur.py"]


def neighbours(course: Course) -> set[str]:
    return {path.name for path in course.root.iterdir()}


def test_a_good_build_succeeds_and_leaves_only_the_site_and_the_record_of_addresses(course: Course) -> None:
    done = course.run("build", "--strict")
    assert done.returncode == 0, done.stderr
    assert (course.site / "weeks" / "week-01" / "index.html").exists()
    assert neighbours(course) == {"docs", "mkdocs.yml", "site", ".wristwork", "addresses.yml"}


def test_a_wrong_pattern_fails_the_build_lists_every_error_and_spares_the_site(
    course: Course, published: dict[str, str]
) -> None:
    course.write("docs/weeks/week-03.md", WRONG)
    course.write("docs/weeks/week-04.md", WRONG.replace("wrong-one", "also-wrong").replace("week: 3", "week: soon"))
    done = course.run()
    assert done.returncode != 0
    assert "Traceback" not in done.stderr
    assert "docs/weeks/week-03.md:11:14: pattern 'wrong-one': an accent mark with no stroke before it" in done.stderr
    assert "docs/weeks/week-04.md:11:14: pattern 'also-wrong'" in done.stderr
    assert "docs/weeks/week-04.md:2: week: expected a whole number from 1 to 999, found 'soon'" in done.stderr
    assert contents(course.site) == published
    assert neighbours(course) == {"docs", "mkdocs.yml", "site", ".wristwork", "addresses.yml"}


def test_a_plugin_that_fails_after_the_first_page_spares_the_site(course: Course, published: dict[str, str]) -> None:
    sabotaged(course, "raise RuntimeError('a plugin of another author')")
    done = course.run()
    assert done.returncode != 0
    assert "a plugin of another author" in done.stderr
    assert contents(course.site) == published
    assert not course.site.with_name(".site.new").exists()


def test_a_build_that_only_strictness_fails_spares_the_site(course: Course, published: dict[str, str]) -> None:
    course.write("docs/weeks/week-03.md", "---\nweek: 3\ntitle: More\n---\n\n[nowhere](nowhere.md)\n")
    assert course.run("build", "--strict").returncode != 0
    assert contents(course.site) == published
    assert course.run("build").returncode == 0
    assert contents(course.site) != published


def test_a_build_killed_half_way_spares_the_site_and_the_next_one_cleans_up(
    course: Course, published: dict[str, str]
) -> None:
    sabotaged(course, "os.kill(os.getpid(), signal.SIGKILL)")
    assert course.run().returncode == -signal.SIGKILL
    assert contents(course.site) == published
    assert course.site.with_name(".site.new").exists()
    del course.settings["hooks"]
    assert course.run().returncode == 0
    assert "weeks/week-03/index.html" in contents(course.site)
    assert not course.site.with_name(".site.new").exists()


def test_an_interrupted_build_spares_the_site(course: Course, published: dict[str, str]) -> None:
    sabotaged(course, "os.kill(os.getpid(), signal.SIGINT)")
    assert course.run().returncode != 0
    assert contents(course.site) == published
    assert not course.site.with_name(".site.new").exists()


def test_files_that_did_not_change_are_not_written_again(course: Course, published: dict[str, str]) -> None:
    first = {name: (course.site / name).stat().st_mtime_ns for name in published}
    course.build()
    assert contents(course.site) != published
    for name, digest in contents(course.site).items():
        if published.get(name) == digest:
            assert (course.site / name).stat().st_mtime_ns == first[name], name
    assert (course.site / "x/slow-singles/card.png").stat().st_mtime_ns == first["x/slow-singles/card.png"]


def test_another_site_folder_may_be_named(course: Course, tmp_path: Path) -> None:
    elsewhere = tmp_path / "public" / "course"
    assert course.run("build", "--site-dir", str(elsewhere)).returncode == 0
    assert (elsewhere / "index.html").exists()
    assert not course.site.exists()


def test_what_comes_after_the_build_finds_the_site_folder(course: Course) -> None:
    """Publishing commands read the settings once the build is done."""
    from mkdocs.commands.build import build
    from mkdocs.config import load_config

    course.save_settings()
    config = load_config(str(course.root / "mkdocs.yml"))
    build(config)
    assert Path(config.site_dir) == course.site
    assert (course.site / "index.html").exists()


def test_two_builds_on_two_days_give_the_same_bytes(course: Course, tmp_path: Path) -> None:
    # MkDocs reads the day from here; nothing else in a build may know it.
    for day, name in (("1000000000", "first"), ("1900000000", "second")):
        done = course.run("build", "--site-dir", str(tmp_path / name), SOURCE_DATE_EPOCH=day)
        assert done.returncode == 0, done.stderr
    assert contents(tmp_path / "first") == contents(tmp_path / "second")
    assert "sitemap.xml.gz" in contents(tmp_path / "first")


def test_two_builds_under_two_clocks_give_the_same_bytes(course: Course, tmp_path: Path) -> None:
    course.write(
        "clock/sitecustomize.py",
        "import os, time\nshift = float(os.environ['CLOCK_SHIFT'])\nreal = time.time\n"
        "time.time = lambda: real() + shift\n"
        "import datetime\nclass Shifted(datetime.datetime):\n    @classmethod\n    def now(cls, tz=None):\n"
        "        return cls.fromtimestamp(real() + shift, tz)\ndatetime.datetime = Shifted\n",
    )
    for days, name in (("0", "first"), ("400", "second")):
        shift = str(int(days) * 86400)
        done = course.run(
            "build", "--site-dir", str(tmp_path / name), PYTHONPATH=str(course.root / "clock"), CLOCK_SHIFT=shift
        )
        assert done.returncode == 0, done.stderr
    assert contents(tmp_path / "first") == contents(tmp_path / "second")


def test_a_preview_shows_the_error_in_the_page_and_the_rest_works(course: Course) -> None:
    course.write("docs/weeks/week-03.md", WRONG + "\n```pattern\nfrom: wrong-one\nid: child\ntitle: Child\n```\n")
    with served(course) as get:
        page = get("weeks/week-03/")
        assert "an accent mark with no stroke before it" in page
        assert 'class="ww-problem"' in page
        assert "grows out of, is right" in page
        assert 'id="accented-paradiddle"' in get("weeks/week-02/")
        assert json.loads(get("x/accented-paradiddle/exercise.json"))["week"] == 2


def test_an_exercise_that_a_snippet_brings_in_is_refused(course: Course) -> None:
    course.settings["markdown_extensions"] = [{"pymdownx.snippets": {"base_path": [str(course.root)]}}]
    course.write("part.md", "```pattern\nid: from-afar\ntitle: From afar\nhands: RLRL\n```\n")
    course.write("docs/weeks/week-03.md", '# Three\n\n--8<-- "part.md"\n')
    with pytest.raises(Abort):
        course.build()
    course.write("part.md", "```pattern\nexample: yes\nhands: RLRL\n```\n")
    course.build()
    assert "ww-example" in course.page("weeks/week-03")


def test_files_are_not_searched_for_text_that_is_right(course: Course, monkeypatch) -> None:
    """The tool's own warm-up brings figures that stand in no file: to look for each took longer the larger a course."""
    sought: list[object] = []
    monkeypatch.setattr("wristwork.site.mkdocs.plugin.find_included", lambda *what: sought.append(what))
    course.build()
    assert sought == []


def test_an_error_in_included_text_points_to_its_own_line(course: Course) -> None:
    course.settings["markdown_extensions"] = [{"pymdownx.snippets": {"base_path": [str(course.root)]}}]
    course.write("part.md", "Words.\n\n```pattern\nexample: yes\nhands: RLRX\n```\n")
    course.write("docs/weeks/week-03.md", '# Three\n\n- In a list\n\n    --8<-- "part.md"\n')
    done = course.run("build")
    assert done.returncode == 1
    assert "part.md:5:11: pattern: 'X' means nothing here" in done.stderr


def test_a_preview_says_on_a_page_what_is_wrong_at_its_head(course: Course) -> None:
    course.settings["plugins"] = ["search", "wristwork"]
    course.write("docs/weeks/week-03.md", "---\nweek: 3\nsurfce: <b>practice pad\n---\n\n# Three\n")
    course.write("docs/weeks/week-04.md", "---\nweek: vier\n---\n\n# Four\n")
    (course.root / "docs/weeks/week-05.md").write_bytes("---\nweek: 5\n---\n\n# Fünf\n".encode("latin-1"))
    course.preview()
    assert "the line surfce: says nothing to Wristwork" in course.page("weeks/week-03")
    assert "week: expected a whole number from 1 to 999, found &#39;vier&#39;" in course.page("weeks/week-04")
    assert "a page that is not written in UTF-8: the byte FC" in course.page("weeks/week-05")


def test_another_encoding_is_told_before_all_that_follows_from_it(course: Course) -> None:
    week = (course.root / "docs/weeks/week-01.md").read_text(encoding="utf-8")
    (course.root / "docs/weeks/week-01.md").write_bytes(f"{week}\nGröße\n".encode("latin-1"))
    done = course.run("build")
    assert done.returncode == 1
    assert "1 thing is wrong in the course" in done.stderr
    assert "docs/weeks/week-01.md:23: a page that is not written in UTF-8" in done.stderr


class served:
    """A running preview; entering it gives a function that fetches a page."""

    def __init__(self, course: Course) -> None:
        self._course = course

    def __enter__(self):
        import socket
        import urllib.request

        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        # At the root, so that addresses are plain.
        self._course.settings["site_url"] = ""
        self._process = subprocess.Popen(
            self._course.command("serve", "--dev-addr", f"127.0.0.1:{port}"),
            cwd=self._course.root,
            env=self._course.environment(),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )

        def get(address: str) -> str:
            for _ in range(600):
                try:
                    with urllib.request.urlopen(f"http://127.0.0.1:{port}/{address}", timeout=5) as answer:
                        return answer.read().decode()
                except OSError:
                    time.sleep(0.1)
            raise AssertionError(f"no answer for {address}")

        return get

    def __exit__(self, *_: object) -> None:
        self._process.terminate()
        self._process.wait(30)
