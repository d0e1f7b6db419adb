"""What a build tells a tutor is said in the course's language, what is wrong in the settings too."""

from __future__ import annotations

import errno
import os
import re
import time
from collections.abc import Iterable
from pathlib import Path

import pytest
import yaml
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, PluginError
from mkdocs.structure.files import File, Files

from tests.said import bracketed, unsaid
from tests.site.courses import Course
from wristwork.course.addresses import Address
from wristwork.files import LinkRefused
from wristwork.languages.catalogues import language
from wristwork.languages.say import say, speaking, spoken
from wristwork.look.shades import EXAMPLE
from wristwork.page.page import read_page
from wristwork.page.problem import Problem
from wristwork.pattern.fences import find_blocks
from wristwork.site.audio.sound_folder import FOLDER as SOUNDS
from wristwork.site.audio.sounds import Sounds, _Progress
from wristwork.site.audio.takes import Takes
from wristwork.site.exercise.record import _lost, commit_first
from wristwork.site.frontend.look import HOUSE_LOOK
from wristwork.site.markdown.page_figures import PageFigures
from wristwork.site.mkdocs.config import WristworkConfig
from wristwork.site.mkdocs.course_reading import _UnreadExercise
from wristwork.site.mkdocs.disk import disk_trouble, mind_devices
from wristwork.site.mkdocs.library import read_library
from wristwork.site.mkdocs.looking import read_look
from wristwork.site.mkdocs.plugin import WristworkPlugin
from wristwork.site.mkdocs.privacy import leaked_notes, student_problems
from wristwork.site.mkdocs.settings_file import SettingsFile, bare_settings, read_settings
from wristwork.site.mkdocs.sources import read_sources
from wristwork.site.mkdocs.stage import Stage, StageError
from wristwork.site.mkdocs.theming import apply_look
from wristwork.site.mkdocs.written_language import written_language
from wristwork.site.overview.marks import mark_problems
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.reading.films import film_problems
from wristwork.site.reading.lessons import PageSource
from wristwork.site.reading.topic_pages import own_topics
from wristwork.sound.take.fit import Fit
from wristwork.store import turn
from wristwork.store.store import Store

# What is ours in wrong settings; of a plain type, as of score, MkDocs tells by itself.
WRONG: tuple[dict[str, object], ...] = (
    {"show": "cuont"},
    {"show": []},
    {"checks": "loud"},
    {"paper": "a5"},
    {"days": 8},
    {"starts": "2027-02-30"},
    {"starts": "1066-01-01"},
    {"look": "marble"},
    {"colours": "teal"},
    {"colours": None},
    {"colours": ["#111", "#222", "#333"]},
    {"counting": "1 and 2"},
    {"words": ["Week"]},
    {"words": {"Weks": "Rounds"}},
)
MARKS = (
    "<!-- wristwork: nonsense-of-mine -->",
    "<!-- wristwork: week -->",
    "<!-- wristwok: weeks -->",
    "<!-- wristwork weeks -->",
    "<!-- ww-weeks -->",
    "<!-- wristwork: sound-day -->",
    "words",
)
STUDIOS = (
    "look: marble\n",
    "colors: x\n",
    "nothing-of-ours: x\n",
    "a: [\n",
    "words\n",
    "font: nowhere.woff2\n",
    "font: studio.yml\n",
    "logo: nowhere.svg\n",
    "logo: logo.txt\n",
)
PATTERN = """\
```pattern
id: gears
title: Gears
tempo: 60 to 100 by 4
hands: R>LRR L>RLL R>LRR L>RLL
{more}```
"""
# What stays as it is: a key with its colon before what is wrong with it.
_SAME = re.compile(r"^\w[\w-]*:")


def left(problems: Iterable[Problem]) -> list[str]:
    """What nobody says of what these problems tell."""
    told = [text for problem in problems for text in (problem.found, problem.remedy, problem.subject or "")]
    assert told, "a wrong example that nothing is told of"
    return [rest for text in told if (rest := _SAME.sub("", unsaid(text)).strip())]


def settings_of(folder: Path, plugins: object, **more: object) -> SettingsFile:
    text = yaml.safe_dump({"site_name": "Loft", "theme": {"name": "material"}, **more, "plugins": plugins})
    (folder / "docs").mkdir(exist_ok=True)
    (folder / "mkdocs.yml").write_text(text, encoding="utf-8")
    return SettingsFile(folder / "mkdocs.yml", text)


@pytest.mark.parametrize("wrong", WRONG, ids=str)
def test_a_wrong_setting_is_said(tmp_path: Path, wrong: dict[str, object]) -> None:
    with bracketed():
        problems = read_settings(settings_of(tmp_path, [{"wristwork": wrong}])).problems
        assert left(problems) == []
        ((_, error),) = WristworkPlugin().load_config(wrong)[0]
        assert unsaid(str(error)) == ""


@pytest.mark.parametrize(
    "plugins",
    [
        ["wristwrk"],
        ["search"],
        ["wristwork", "serch"],
        ["wristwork", "thing-of-mine"],
        [{"wristwork": {"colors": "x"}}],
        [{"wristwork": {"nothing-of-ours": "x"}}],
    ],
    ids=str,
)
def test_a_wrong_list_of_plugins_is_said(tmp_path: Path, plugins: object) -> None:
    with bracketed():
        assert left(read_settings(settings_of(tmp_path, plugins)).problems) == []


def test_a_setting_that_stands_twice_is_said(tmp_path: Path) -> None:
    with bracketed():
        assert left(SettingsFile(tmp_path / "mkdocs.yml", "site_name: Loft\nsite_name: Loft\n").twice()) == []


def test_an_example_of_a_colour_is_in_the_remedy(tmp_path: Path) -> None:
    (problem,) = read_settings(settings_of(tmp_path, [{"wristwork": {"colours": "teal"}}])).problems
    assert problem.remedy == f'write one or two, as in colours: ["{EXAMPLE}"]'


@pytest.mark.parametrize("mark", MARKS)
def test_a_wrong_mark_is_said(mark: str) -> None:
    text = f"# Page\n\n{mark}\n" + ("\nsee <!-- wristwork: stop-rule -->\n\n<!-- open\n" if mark == "words" else "")
    safe = ["page.md"] if mark == "words" else []
    with bracketed():
        assert left(mark_problems([read_page("page.md", text)], safe)) == []


@pytest.mark.parametrize("text", [*STUDIOS, None], ids=str)
def test_a_wrong_studio_is_said(tmp_path: Path, text: str | None) -> None:
    config, own = config_of(tmp_path), WristworkConfig()
    own.load_dict({"studio": "studio.yml"})
    own.validate()
    if text is not None:
        (tmp_path / "studio.yml").write_text(text, encoding="utf-8")
    with bracketed():
        assert left(read_look(config, own).problems) == []


def test_wrong_looks_and_what_is_taken_instead_are_said(tmp_path: Path) -> None:
    config, own = config_of(tmp_path), WristworkConfig()
    (tmp_path / "docs" / "folder.svg").mkdir()
    (tmp_path / "docs" / "letters").write_bytes(b"none")
    own.load_dict({"colours": ["#ffff00", "#ffffcc"], "font": "nowhere.woff2"})
    own.validate()
    with bracketed():
        for logo, font in (("nowhere.svg", "nowhere.woff2"), ("folder.svg", "docs"), ("", "docs/letters")):
            config.theme["logo"], own.font = logo, font
            seen = read_look(config, own)
            assert left(seen.problems) == []
            assert [unsaid(note) for note in seen.notes] == ["", ""]


@pytest.mark.parametrize("library", ["nowhere", "file", "docs", "site"])
def test_a_wrong_library_is_said(tmp_path: Path, library: str) -> None:
    config = config_of(tmp_path)
    (tmp_path / "file").touch()
    (tmp_path / "site").mkdir()
    with bracketed():
        assert left(read_library(config, library, 1).problems) == []


def test_pages_that_can_t_be_read_are_said(tmp_path: Path) -> None:
    library = tmp_path / "library"
    library.mkdir()
    (library / "bytes.md").write_bytes(b"\xff\xfe\xff")
    (library / "link.md").symlink_to(library / "bytes.md")
    pages = []
    for name, content in (("a.md", b"caf\xe9"), ("b.md", "a".encode("utf-16")), ("c.md", "a".encode("utf-32"))):
        (tmp_path / name).write_bytes(content)
        pages.append(File(name, str(tmp_path), str(tmp_path / "site"), True))
    config = config_of(tmp_path)
    with bracketed():
        assert left(read_library(config, "library", 1).problems) == []
        assert left(read_sources([*pages, gone(tmp_path)], lambda file: file.src_uri).problems) == []


def gone(folder: Path) -> File:
    return File("gone.md", str(folder), str(folder / "site"), True)


def test_what_was_published_and_is_not_read_is_said() -> None:
    with bracketed():
        places = (_UnreadExercise("page.md", 1, is_left_out) for is_left_out in (True, False))
        assert left(place.problem("flam-tap") for place in places) == []
        assert left([commit_first()]) == []
        for count in (1, 2):
            lines = _lost([Address(f"old-{number}", "Old", "page.md", None, "Gone.") for number in range(count)])
            assert unsaid(lines.partition("\n    old-")[0].removeprefix("addresses.yml: ")) == ""


def test_notes_on_the_site_are_said(tmp_path: Path) -> None:
    course, note = Course(tmp_path), "2026-09-14 A note that is long enough to be found."
    notes = course.write("students/jo.md", f"name: Jo\n\n{note}\n2026-09-14 sent week 1: gears 60 to 72\n")
    course.write("site/page.md", note)
    course.write("docs/taken.md", '--8<-- "students/jo.md"\n')
    course.write("docs/notes.md", notes.read_text(encoding="utf-8"))
    (tmp_path / "docs" / "link.md").symlink_to(notes)
    files = [File(name, str(tmp_path / "docs"), str(course.site), True) for name in ("taken.md", "notes.md", "link.md")]
    sources = read_sources(files, lambda file: file.src_uri)
    with bracketed():
        assert left(leaked_notes(tmp_path, course.site)) == []
        found = [*student_problems(tmp_path, files, sources, lambda file: file.src_uri)]
        assert {problem.path for problem in found} == {"taken.md", "notes.md", "link.md"}
        assert left(found) == []


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EACCES, errno.ENOTDIR, errno.EIO])
def test_what_a_disk_does_is_said(number: int) -> None:
    with bracketed():
        assert unsaid(disk_trouble(OSError(number, os.strerror(number), "a/file")) or "nothing") == ""


@pytest.mark.parametrize("count", [1, 2])
def test_how_much_is_wrong_is_said(count: int) -> None:
    with bracketed(), pytest.raises(PluginError) as told:
        WristworkPlugin()._stop_at([""] * count)
    assert unsaid(str(told.value)) == ""


def test_a_build_that_a_disk_stops_says_so_in_the_course_s_language() -> None:
    with bracketed(), pytest.raises(Abort) as told:
        WristworkPlugin().on_build_error(error=OSError(errno.ENOSPC, "full"))
    assert unsaid(str(told.value)) == ""


def test_a_store_that_keeps_nothing_and_a_turn_that_does_not_come_are_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[str] = []
    monkeypatch.setattr(turn, "LONGEST_WAIT", 0.1)
    with bracketed():
        store = Store(tmp_path / "kept", told.append)
        (tmp_path / "kept").touch()
        store.put("name", b"content")
        first, second = turn.Turn([tmp_path / "lock"]), turn.Turn([tmp_path / "lock"])
        first.take(told.append)
        with pytest.raises(turn.StillBuilding) as waited:
            second.take(told.append)
        first.end()
    assert [unsaid(line) for line in (*told, str(waited.value))] == ["", "", ""]


def test_another_theme_is_said(tmp_path: Path, caplog: pytest.LogCaptureFixture) -> None:
    config = config_of(tmp_path)
    config.theme.name = "mkdocs"
    with bracketed():
        apply_look(config, HOUSE_LOOK)
    assert [unsaid(record.getMessage().removeprefix("wristwork: ")) for record in caplog.records] == [""]


def test_what_is_no_file_and_what_is_in_the_way_is_said(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.md")
    (tmp_path / "taken").touch()
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "letter.txt").touch()
    (tmp_path / "link").symlink_to(tmp_path / "full")
    (tmp_path / ".away.new").symlink_to(tmp_path / "full")
    with bracketed():
        with pytest.raises(PluginError) as told:
            mind_devices(Files([File("pipe.md", str(tmp_path), str(tmp_path / "site"), True)]))
        assert unsaid(str(told.value)) == ""
        with pytest.raises(StageError) as stopped:
            Stage(tmp_path / "taken").open()
        assert unsaid(str(stopped.value)) == ""
        with pytest.raises(StageError) as refused:
            Stage(tmp_path / "link")
        assert unsaid(str(refused.value)) == ""
        with pytest.raises(LinkRefused) as linked:
            Stage(tmp_path / "away").open()
        assert unsaid(str(linked.value)) == ""


def test_how_far_a_rendering_is_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    told: list[str] = []
    monkeypatch.setattr(time, "monotonic", iter(range(0, 100, 10)).__next__)
    with bracketed():
        progress = _Progress(told.append)
        for done in (0, 1, 2):
            progress(done, 2)
    assert [unsaid(line) for line in told] == ["", "", ""]


def test_a_wrong_sound_that_was_kept_is_told_in_the_language_of_the_day(tmp_path: Path) -> None:
    """Kept are the words too: in another language they are others."""
    course, store = Course(tmp_path), Store(tmp_path / "kept")
    course.write(f"{SOUNDS}/drum.wav", "no sound")
    before = Sounds(tmp_path, store, renders=False).problems
    assert Sounds(tmp_path, store, renders=False).problems == before
    asked: list[str] = []
    with speaking(language("de")):
        store.value = lambda key, make, read: asked.append(key) or []  # type: ignore[method-assign]
        Sounds(tmp_path, store, renders=False)
    Sounds(tmp_path, store, renders=False)
    assert len(set(asked)) == 2


def test_the_folder_of_sounds_is_said(tmp_path: Path) -> None:
    course, store = Course(tmp_path), Store(tmp_path / "kept")
    course.write(f"{SOUNDS}/inside/more.wav", "")
    os.mkfifo(tmp_path / SOUNDS / "pipe.wav")
    with bracketed():
        assert left(Sounds(tmp_path, store, renders=False).problems) == []
        course.write(f"other/{SOUNDS}", "")
        assert left(Sounds(tmp_path / "other", store, renders=False).problems) == []


def test_what_is_heard_in_videos_is_said(tmp_path: Path) -> None:
    (tmp_path / "lesson.mp4").touch()
    text = PATTERN.format(more="video: lesson.mp4 at 0:01 to 0:05\n")
    site = CourseSite([PageSource("page.md", "page.md", "page/", text)], Store(tmp_path / "kept"))
    placed = site.exercises["gears"]
    with bracketed():
        for fit in (None, Fit(1.0, 80.0, 1.0, 4.0, 12.0, 0.9)):
            takes = Takes(tmp_path, Store(tmp_path / "kept"))
            takes._known[placed.id] = fit
            assert [unsaid(line) for line in takes.notes([placed])] == [""]
        assert left(film_problems([placed.exercise], [])) == []
        assert left(film_problems([placed.exercise], ["lessons.mp4"])) == []


def test_exercises_of_other_files_and_topics_are_said(tmp_path: Path) -> None:
    site = CourseSite([PageSource("page.md", "page.md", "page/", "# Page\n")], Store(tmp_path / "kept"))
    figures = PageFigures(site, site.pages["page.md"])
    (block,) = find_blocks(PATTERN.format(more="").splitlines(), 0)
    safe = [
        PageSource(f"{number}.md", f"{number}.md", f"{number}/", f"---\nsafe-practice: {topic}\n---\n")
        for number, topic in enumerate(("hearing", "hearing", "ears"))
    ]
    with bracketed():
        figures.html(block)
        assert left(figures.problems) == []
        assert left(own_topics(safe)[1]) == []


def config_of(folder: Path) -> MkDocsConfig:
    (folder / "docs").mkdir(exist_ok=True)
    (folder / "mkdocs.yml").write_text("site_name: Loft\n", encoding="utf-8")
    return bare_settings(folder, folder / "mkdocs.yml")


GERMAN = "site_name: Schule\ntheme:\n  name: material\n  language: de\n"


@pytest.mark.parametrize(
    ("text", "code"),
    [
        (GERMAN, "de"),
        ("theme: {name: material, language: de-AT}\n", "de-AT"),
        ("theme:\n  language: !ENV [NO_SUCH_VARIABLE_OF_OURS, fr]\n", "fr"),
        (f"{GERMAN}markdown_extensions:\n  - x: {{f: !!python/name:no.such.thing , g: !relative $docs_dir}}\n", "de"),
        (f"{GERMAN}plugins:\n  - wristwork:\n      starts: 2027-02-30\n", "de"),
        # No YAML at all.
        (f"nav: [\n{GERMAN}", "de"),
        (f"nav:\n\t- x\n{GERMAN}plugins:\n  - i18n:\n      language: fr\n", "de"),
        ('theme: {name: material, language: "es"}\nnav: [\n', "es"),
        ("theme:\n  # which is\n\n  'language': [\n  language: 'de' # ours\n", "de"),
        # Nothing is said.
        ("site_name: Loft\n", None),
        ("theme: material\n", None),
        ("theme:\n  language: no\n", None),
        ("nav: [\nplugins:\n  language: de\n", None),
        ("theme:\n  name: material\nextra:\n  language: de\n a: b: c\n", None),
        ("theme:\n  # language: de\n  a: [\n", None),
        ("words\n", None),
        ("", None),
    ],
)
def test_the_language_is_known_before_the_settings_are_read(tmp_path: Path, text: str, code: str | None) -> None:
    (tmp_path / "mkdocs.yml").write_text(text, encoding="utf-8")
    for place in (tmp_path, tmp_path / "mkdocs.yml", str(tmp_path)):
        found = written_language(place)
        assert (found.code if found else None) == code


def test_settings_that_take_over_others_have_their_language(tmp_path: Path) -> None:
    (tmp_path / "all.yml").write_text(GERMAN, encoding="utf-8")
    settings = tmp_path / "mkdocs.yml"
    settings.write_text("INHERIT: all.yml\ntheme:\n  name: material\n", encoding="utf-8")
    assert written_language(settings) == language("de")
    settings.write_text("INHERIT: all.yml\ntheme:\n  language: fr\n", encoding="utf-8")
    assert written_language(settings) == language("fr")
    settings.write_text("INHERIT: mkdocs.yml\n", encoding="utf-8")
    assert written_language(settings) is None


def test_where_nothing_can_be_read_no_language_is_known(tmp_path: Path) -> None:
    assert written_language(None) is None
    assert written_language(tmp_path) is None
    assert written_language(tmp_path / "nowhere.yml") is None


def test_a_tutors_own_words_are_spoken_as_far_as_they_can_be(tmp_path: Path) -> None:
    words = {"Weeks": "Runden", "Grade {grade}": "Stufe", "nothing of ours": "x", "Home": 3}
    file = settings_of(tmp_path, ["search", {"wristwork": {"words": words, "counting": "1 ta te ta"}}])
    found = written_language(file.path)
    assert found is not None
    assert (found.code, found.counting) == ("en", "1 ta te ta")
    with speaking(found):
        assert (say("Weeks"), say("Grade {grade}", grade=2), say("Home")) == ("Runden", "Grade 2", "Home")


# German words are there for this one already.
UNKNOWN = {"words": {"nothing-of-ours-at-all": "x"}}


def test_a_build_tells_of_wrong_settings_in_the_course_s_language(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    course = Course(tmp_path, theme={"name": "material", "language": "de"})
    course.settings["plugins"] = [{"wristwork": UNKNOWN}]
    text = "nothing says '{text}': write the English words that the site would have"
    with speaking(language("de")):
        german = say(text, text="nothing-of-ours-at-all")
    assert german != text.format(text="nothing-of-ours-at-all"), "there are German words for it"
    with pytest.raises(Abort):
        course.build()
    assert german in caplog.text
    assert spoken().code == "en"
