"""The settings of a course as its file has them: what MkDocs makes of them, and what is wrong, each with its line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import yaml
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.plugins import get_plugins

from wristwork.languages.catalogues import SOURCE
from wristwork.languages.say import marked, say
from wristwork.look.shades import EXAMPLE
from wristwork.page.problem import SETTINGS, Problem
from wristwork.site.mkdocs.config import WristworkConfig
from wristwork.site.mkdocs.written_language import written_language
from wristwork.wording import misspelt, nearest

PLUGIN = "wristwork"
_REMEDIES = {
    "days": marked("write the sessions in a week, as in days: 5"),
    "starts": marked("write the day as in starts: 2027-01-11"),
    "show": marked("write some of the rows, with commas between them"),
    "checks": marked('write "warn" or "off"'),
    "paper": marked('write "a4", "letter" or "off"'),
    "score": marked("write true or false"),
    "clips": marked("write true or false"),
    "offline": marked("write true or false"),
    "font": marked("write the path of a WOFF2 file"),
    "studio": marked("write the path of the studio's file"),
    "library": marked("write the path of a folder"),
    "counting": marked('write one of these, in quotation marks, as in counting: "1 e & a"'),
    "words": marked('write the English words, a colon and yours, as in "Grade {grade}": "Level {grade}"'),
    "look": marked("write one of these names"),
}
# What a course can be read with even where another setting is wrong.
_NEEDED = ("site_name", "site_url", "docs_dir", "nav", "exclude_docs", "draft_docs", "not_in_nav")

# Settings may hold tags of other tools; only where things stand is asked here.
_Loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True)
class SettingsFile:
    """A course's ``mkdocs.yml``. Raises YAMLError where it cannot be read at all."""

    path: Path
    text: str

    @cached_property
    def _node(self) -> yaml.Node | None:
        return yaml.compose(self.text, _Loader)

    @property
    def has_settings(self) -> bool:
        """Is there a list of settings in it?"""
        return isinstance(self._node, yaml.MappingNode)

    def problem(self, line: int, found: str, remedy: str) -> Problem:
        return Problem(self.path.name, line, 0, found, remedy, SETTINGS)

    def line_of(self, *keys: str) -> int:
        """The line of a setting by the keys that lead to it, or of the last of them that is there; else 1."""
        line, node = 1, self._node
        for key in keys:
            found = next((pair for pair in _pairs(node) if pair[0].value == key), None)
            if found is None:
                break
            line, node = found[0].start_mark.line + 1, found[1]
        return line

    def line_with(self, words: str) -> int:
        """The first line that holds some words, 1 where none does."""
        lines = enumerate(self.text.splitlines(), start=1)
        return next((number for number, line in lines if words in line), 1)

    def no_such_day(self) -> tuple[int, str] | None:
        """The line and the text of a value that is written like a day and is none."""
        for node in _scalars(self._node):
            if node.tag == "tag:yaml.org,2002:timestamp":
                try:
                    yaml.SafeLoader("").construct_yaml_timestamp(node)
                except ValueError:
                    return node.start_mark.line + 1, node.value
        return None

    def twice(self) -> Iterator[Problem]:
        """Settings that stand there a second time: only the last one counts."""
        seen: dict[str, int] = {}
        for key, _ in self._node.value if isinstance(self._node, yaml.MappingNode) else ():
            line = key.start_mark.line + 1
            if key.value in seen:
                found = say(
                    "{key}: stands here a second time, and what line {line} says is lost",
                    key=key.value,
                    line=seen[key.value],
                )
                yield self.problem(line, found, say("make one of the two"))
            seen[key.value] = line


@dataclass(frozen=True, slots=True)
class Settings:
    """What a course is read with, and what is wrong in its settings."""

    config: MkDocsConfig
    own: WristworkConfig
    problems: tuple[Problem, ...]


def read_settings(file: SettingsFile) -> Settings:
    """The settings of a course, by MkDocs's own reading; without those that are wrong, which are told."""
    problems = [*file.twice()]
    config = MkDocsConfig(config_file_path=str(file.path.resolve()))
    with file.path.open("rb") as stream:
        config.load_file(stream)
    values = dict(config)
    names = dict(_plugins(values.get("plugins")))
    problems += _not_on(file, names)
    wrong = {key: list(_wrong_option(file, key, value)) for key, value in (names.get(PLUGIN) or {}).items()}
    problems += [problem for found in wrong.values() for problem in found]
    problems += _unknown_plugins(file, names)
    errors, warnings = config.validate()
    told = bool(problems)
    for key, error in [*errors, *warnings]:
        if key != "plugins" or not told:
            problems.append(file.problem(file.line_of(key), f"{key}: {_one_line(error)}", _remedy(key)))
    own = {key: value for key, value in (names.get(PLUGIN) or {}).items() if not wrong[key]}
    if errors or PLUGIN not in config.plugins:
        usable = {key: value for key, value in values.items() if key in _NEEDED and value is not None}
        wanted = {key: value for key, value in usable.items() if key == "docs_dir" or key not in dict(errors)}
        config = bare_settings(file.path.parent, file.path, wanted)
    return Settings(config, _own_settings(own), tuple(problems))


def bare_settings(folder: Path, file: Path | None = None, values: Mapping[str, Any] | None = None) -> MkDocsConfig:
    """Settings for a folder of pages that has none, or none that can be used but for the language."""
    config = MkDocsConfig(config_file_path=str(file.resolve()) if file else None)
    asked = written_language(file)
    theme = {"name": "material", "language": asked.code if asked else SOURCE}
    config.load_dict({"site_name": "Course", "docs_dir": str(folder.resolve()), "theme": theme, "plugins": []})
    if file is not None:
        given = dict(values or {})
        config.load_dict({**given, "docs_dir": str(folder.resolve() / str(given.get("docs_dir") or "docs"))})
    config.validate()
    return config


def _own_settings(options: Mapping[str, Any]) -> WristworkConfig:
    own = WristworkConfig()
    own.load_dict(dict(options))
    own.validate()
    return own


def _pairs(node: yaml.Node | None) -> Iterator[tuple[yaml.Node, yaml.Node | None]]:
    """Keys with their values, of a mapping or of a list of mappings and words."""
    if isinstance(node, yaml.MappingNode):
        yield from node.value
    for each in node.value if isinstance(node, yaml.SequenceNode) else ():
        if isinstance(each, yaml.MappingNode):
            yield from each.value
        elif isinstance(each, yaml.ScalarNode):
            yield each, None


def _scalars(node: yaml.Node | None) -> Iterator[yaml.ScalarNode]:
    """Every plain value in settings, however deep."""
    if isinstance(node, yaml.ScalarNode):
        yield node
    for each in node.value if isinstance(node, (yaml.MappingNode, yaml.SequenceNode)) else ():
        for part in each if isinstance(each, tuple) else (each,):
            yield from _scalars(part)


def _plugins(plugins: object) -> Iterator[tuple[str, dict[str, Any]]]:
    """The plugins that are switched on, each with its options."""
    entries: Iterable[object] = plugins if isinstance(plugins, list) else [plugins]
    for entry in entries:
        for name, options in entry.items() if isinstance(entry, dict) else [(entry, None)]:
            if isinstance(name, str):
                yield name, options if isinstance(options, dict) else {}


def _not_on(file: SettingsFile, names: Iterable[str]) -> Iterator[Problem]:
    if PLUGIN in names:
        return
    near = next((name for name in names if misspelt(name, [PLUGIN])), None)
    if near is not None:
        found, remedy = say("there is no plugin '{name}'", name=near), say("write {name}", name=PLUGIN)
        yield file.problem(file.line_of("plugins", near), found, remedy)
        return
    found = say("the plugin wristwork is not switched on: a build makes a site without exercises from these pages")
    yield file.problem(file.line_of("plugins"), found, say("write - wristwork in the list under plugins:"))


def _unknown_plugins(file: SettingsFile, names: Iterable[str]) -> Iterator[Problem]:
    installed = get_plugins()
    for name in names:
        known = name in installed or any(each.endswith(f"/{name}") for each in installed)
        if not known and not misspelt(name, [PLUGIN]):
            near = nearest(name, installed, cutoff=0.8)
            found = say("the plugin '{name}' is not installed", name=name)
            remedy = say("did you mean {near}?", near=near) if near else say("install it, or take it out")
            yield file.problem(file.line_of("plugins", name), found, remedy)


def _wrong_option(file: SettingsFile, key: str, value: object) -> Iterator[Problem]:
    """What is wrong with one option of our plugin."""
    line = file.line_of("plugins", PLUGIN, key)
    own = WristworkConfig()
    own.load_dict({key: value})
    errors, warnings = own.validate()
    if warnings:
        near = misspelt(key, own.keys()) or nearest(key, own.keys())
        known = ", ".join(sorted(name for name in WristworkConfig() if name))
        remedy = (
            say("did you mean {near}?", near=near)
            if near and near != key
            else say("the settings are {settings}", settings=known)
        )
        yield file.problem(line, say("an unknown setting '{key}' of wristwork", key=key), remedy)
    for _, error in errors:
        yield file.problem(line, f"{key}: {error}", _own_remedy(key))


def _own_remedy(key: str) -> str:
    if key == "colours":
        return say('write one or two, as in colours: ["{example}"]', example=EXAMPLE)
    remedy = _REMEDIES.get(key)
    return _remedy(key) if remedy is None else say(remedy)


def _remedy(key: str) -> str:
    return say("correct the line {key}:, or take it out", key=key)


def _one_line(error: object) -> str:
    return "; ".join(line.strip() for line in str(error).splitlines() if line.strip())
