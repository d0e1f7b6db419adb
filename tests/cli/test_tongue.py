"""Commands speak the language of the course that they work on, and the machine's where there is none."""

from __future__ import annotations

import os

import pytest
import yaml

from tests.cli.conftest import run
from wristwork.cli import add, seeds
from wristwork.cli.main import main
from wristwork.cli.seeds import has_seed, seed_folder
from wristwork.cli.tongue import machine_language, tongue_of
from wristwork.languages.catalogues import language
from wristwork.languages.say import say, speaking, spoken
from wristwork.site.mkdocs.written_language import written_language

GERMAN = {"LC_ALL": "de_DE.UTF-8"}
ENGLISH = {"LC_ALL": "en_US.UTF-8"}


def german(text, **values):
    with speaking(language("de")):
        return say(text, **values)


def make(folder, settings, name="mkdocs.yml"):
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_text(settings, encoding="utf-8")
    return folder


@pytest.fixture
def lindenhof(tmp_path):
    """A German course with one page."""
    folder = make(tmp_path / "lindenhof", "site_name: Lindenhof\ntheme:\n  name: material\n  language: de\n")
    make(folder / "docs", "# Lindenhof\n", "index.md")
    return folder


def test_without_a_course_the_machine_decides(tmp_path):
    assert "hoch" in run("try", "R>L", cwd=tmp_path, **GERMAN).out
    assert "high" in run("try", "R>L", cwd=tmp_path, **ENGLISH).out


def test_the_course_comes_before_the_machine(lindenhof, tmp_path):
    assert "hoch" in run("try", "R>L", cwd=lindenhof, **ENGLISH).out
    make(tmp_path / "english", "site_name: Quillbank\n")
    assert "high" in run("try", "R>L", cwd=tmp_path / "english", **GERMAN).out


def test_help_is_in_it(lindenhof):
    done = run("check", "--help", cwd=lindenhof, **ENGLISH)
    assert done.code == 0
    assert done.out.startswith(f"{german('Usage:')} wristwork check [OPTIONS] [FOLDER]\n")
    for text in ("Options:", "For example:", "Show this message and exit.", "Write what is found as JSON."):
        assert german(text) in " ".join(done.out.split())
    done = run(cwd=lindenhof, **ENGLISH)
    assert german("Commands:") in done.out
    assert german("Show the version and exit.") in done.out


def test_help_that_a_terminal_cannot_show_is_shown_as_well_as_it_can(tmp_path):
    done = run("--help", cwd=tmp_path, encoding="ascii", **GERMAN)
    assert (done.code, done.err) == (0, "")


@pytest.mark.parametrize(
    ("arguments", "text", "values"),
    [
        (
            ("check", "--jso"),
            "no such option '{option}'. Did you mean '{near}'?",
            {"option": "--jso", "near": "--json"},
        ),
        (
            ("new",),
            "{missing} is missing: write, say, {example}",
            {"missing": "FOLDER", "example": "wristwork new my-course"},
        ),
        (
            ("chek",),
            "there is no command '{typed}': did you mean wristwork {near}?",
            {"typed": "chek", "near": "check"},
        ),
    ],
)
def test_mistyping_is_told_in_it(tmp_path, arguments, text, values):
    done = run(*arguments, cwd=tmp_path, **GERMAN)
    assert (done.code, done.out, done.err) == (2, "", f"wristwork: {german(text, **values)}\n")


def test_nothing_is_spoken_when_the_command_is_over(lindenhof, capsys):
    main(["check", str(lindenhof)])
    assert spoken().code == "en"


@pytest.mark.parametrize(
    "typed", [["check", "{}"], ["send", "Jo", "--folder", "{}"], ["send", "Jo", "--folder={}"], ["chek", "{}"]]
)
def test_the_course_is_found_in_what_was_typed(lindenhof, tmp_path, monkeypatch, typed):
    monkeypatch.chdir(tmp_path)
    assert tongue_of([each.format(lindenhof) for each in typed], {}).code == "de"


def test_the_folder_that_is_named_comes_before_the_one_that_is_here(lindenhof, tmp_path, monkeypatch):
    make(tmp_path / "ici", "theme: {name: material, language: fr}\n")
    monkeypatch.chdir(tmp_path / "ici")
    assert tongue_of(["check"], {}).code == "fr"
    assert tongue_of(["check", str(lindenhof)], {}).code == "de"
    assert tongue_of(["heard", "Jo", "a\0b" + "x" * 9000], {}).code == "fr"


def test_a_studio_has_a_language_of_its_own(tmp_path):
    folder = make(tmp_path / "studio", "name: Lindenhof\nlanguage: de\n", "studio.yml")
    assert tongue_of(["studio", str(folder)], {}).code == "de"
    make(folder, "name: Quillbank\n", "studio.yml")
    assert tongue_of(["studio", str(folder)], GERMAN).code == "en"


@pytest.mark.parametrize(
    ("settings", "code"),
    [
        ("theme:\n  name: material\n  language: de\n", "de"),
        ("theme:\n  # ours\n\n  name: material\n  language: 'de' # German\nplugins: [\n", "de"),
        ("theme: {name: material, language: de}\nsite_name: 'open\n", "de"),
        ("theme:\r\n  language: de-AT\r\n", "de-AT"),
        ("theme: material\nextra:\n  language: de\n", None),
        ("plugins:\n  - search:\n      language: de\n", None),
        ("", None),
    ],
)
def test_settings_are_read_even_where_they_are_broken(tmp_path, settings, code):
    path = tmp_path / "mkdocs.yml"
    path.write_bytes(settings.encode())
    found = written_language(path)
    assert (found and found.code) == code


@pytest.mark.parametrize(
    ("environment", "code"),
    [
        ({}, "en"),
        ({"LANG": "de_DE.UTF-8"}, "de-DE"),
        ({"LANG": "de"}, "de"),
        ({"LANG": "de_AT@euro"}, "de-AT"),
        ({"LANG": "de_DE", "LC_MESSAGES": "fr_FR"}, "fr-FR"),
        ({"LANG": "de_DE", "LC_MESSAGES": "fr_FR", "LC_ALL": "es_ES"}, "es-ES"),
        ({"LANG": "de_DE", "LC_ALL": ""}, "de-DE"),
        ({"LANG": "de_DE", "LC_ALL": "C"}, "en"),
        ({"LANG": "de_DE", "LC_ALL": "C.UTF-8"}, "en"),
        ({"LANG": "POSIX"}, "en"),
        ({"LANG": "en_US.UTF-8"}, "en"),
        ({"LANG": "fi_FI.UTF-8"}, "en"),
    ],
)
def test_the_machine_says_its_language_in_its_environment(environment, code):
    assert machine_language(environment).code == code


@pytest.fixture
def in_german(tmp_path, monkeypatch):
    """Seeds of which some are in German, too."""
    there = tmp_path / "seeds"
    for name, title in (("starter", "Low Room"), ("starter-de", "Trommelschule")):
        make(there / name, f"site_name: X\nsite_description: {title}\n")
        make(there / name, "site/\n", ".gitignore")
    make(there / "rudiments" / "docs", section("Drag", "drag") + section("Flam", "flam"), "a.md")
    make(there / "rudiments-de" / "docs", section("Schleifer", "drag") + section("Vorschlag", "flam"), "a.md")
    monkeypatch.setattr(seeds, "_IN_PACKAGE", there)
    monkeypatch.setattr(seeds, "_IN_REPOSITORY", there)
    return there


def section(title, name):
    return f"## {title}\n\n```pattern\nid: {name}\ntitle: {title}\nhands: R L R L\n```\n\n"


def test_a_seed_is_taken_in_its_language_or_in_english(in_german):
    assert seed_folder("starter", "de").name == "starter-de"
    assert seed_folder("starter", "de-AT").name == "starter-de"
    assert seed_folder("starter", "fr").name == "starter"
    assert seed_folder("starter", "en").name == "starter"
    assert [has_seed("starter", code) for code in ("de-CH", "en", "fr")] == [True, True, False]


@pytest.mark.parametrize(
    ("language", "environment", "description", "is_told"),
    [
        ("de", {}, "Trommelschule", False),
        (None, GERMAN, "Trommelschule", False),
        ("en", GERMAN, "Low Room", False),
        (None, {}, "Low Room", False),
        ("fr", {}, "Low Room", True),
        (None, {"LC_ALL": "fr_FR"}, "Low Room", True),
    ],
)
def test_a_new_course_is_in_the_language_that_is_asked_for(
    in_german, tmp_path, monkeypatch, capsys, language, environment, description, is_told
):
    for name, value in environment.items():
        monkeypatch.setitem(os.environ, name, value)
    monkeypatch.chdir(tmp_path)
    asked = ["--language", language] if language else []
    assert main(["new", "mine", *asked]) == 0
    assert yaml.safe_load((tmp_path / "mine" / "mkdocs.yml").read_text())["site_description"] == description
    with speaking(tongue_of(["new", "mine", *asked])):
        told = say("There is no course to begin with in this language yet: this one is written in English.")
    assert (told in capsys.readouterr().out) == is_told


def test_a_language_that_there_is_not_is_told_with_those_that_there_are(tmp_path):
    done = run("new", tmp_path / "mine", "--language", "xx")
    assert (done.code, done.out) == (1, "")
    assert done.err == "wristwork: there is no language 'xx': the languages are de, en, es, fr\n"
    assert not (tmp_path / "mine").exists()


@pytest.mark.parametrize("typed", ["drag", "Schleifer", "SCHLEIFER", "Drag"])
def test_a_rudiment_is_found_by_its_name_in_either_language(in_german, lindenhof, typed):
    make(lindenhof / "docs", "---\nweek: 1\n---\n\n# Eins\n", "week-1.md")
    assert main(["add", "rudiment", typed, "--week", "1", "--folder", str(lindenhof)]) == 0
    assert (lindenhof / "docs" / "week-1.md").read_text().endswith(section("Schleifer", "drag").rstrip() + "\n")


def test_the_library_is_listed_in_the_language(in_german, lindenhof, capsys):
    assert main(["add", "--list", "vor", "--folder", str(lindenhof)]) == 0
    assert capsys.readouterr().out == "flam  Vorschlag\n"
    with speaking(language("de")), pytest.raises(add.Trouble, match="flam"):
        add._find("Vorschlagg", add.library("de"))
