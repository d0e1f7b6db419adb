"""Catalogues in gettext's format, one file a language: ``de.po`` beside this module.

The source is English. A catalogue's messages are the English texts; what it lacks stays English.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from gettext import GNUTranslations, NullTranslations
from hashlib import sha256
from pathlib import Path

from babel import Locale, UnknownLocaleError
from babel.messages.catalog import Catalog, Message
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

SOURCE = "en"
_FOLDER = Path(__file__).parent
# English as it is written here: days before months.
_ENGLISH = "en_GB"
_SCRIPTS = (".js", "languages/names.py")
# By these every plural of every language is met.
_COUNTS = (*range(201), 1_000_000)


@dataclass(frozen=True)
class Language:
    """A language that a course speaks: its ``code`` as pages name it, and its words."""

    code: str
    words: NullTranslations = field(compare=False)
    scripts: Mapping[str, str | Mapping[str, str]] = field(compare=False)
    """What the scripts say, by the English text; where counts have forms, these by CLDR's names of plurals."""
    sum: str = ""
    """Shows whether any word is another; nothing for plain English."""
    counting: str | None = None
    """How beats are counted aloud, where that was chosen."""

    @property
    def locale(self) -> Locale:
        """How this language writes numbers and days."""
        return _locale(self.code) or Locale.parse(_ENGLISH)

    @property
    def from_near_to_far(self) -> tuple[str, ...]:
        """The codes by which words are looked for: ``de-AT``, then ``de``."""
        return _from_near_to_far(self.code)

    @property
    def is_source(self) -> bool:
        """Is it English, in which everything is written that no catalogue has?"""
        return self.code.partition("-")[0] == SOURCE


def known_languages() -> tuple[str, ...]:
    """The codes of the languages that have a catalogue, and English."""
    return tuple(sorted({SOURCE, *(path.stem for path in _FOLDER.glob("*.po"))}))


def has_catalogue(code: str) -> bool:
    """Whether a language, or the one that it is a kind of (``de`` for ``de-AT``), has words of its own."""
    return any(each in known_languages() for each in _from_near_to_far(code))


def language(code: str, own: Iterable[tuple[str, str]] = (), counting: str | None = None) -> Language:
    """The language of that code, with words of a tutor's ``own`` in the place of ours, each by the English text."""
    found = next((each for each in _from_near_to_far(code) if (_FOLDER / f"{each}.po").is_file()), None)
    own = tuple(own)
    if found is None and not own:
        return Language(code, NullTranslations(), {}, counting=counting)
    return replace(_spoken(code, found, own), counting=counting)


def direction(code: str) -> str:
    """Whether a language is written from left to right (``ltr``) or the other way (``rtl``)."""
    found = _locale(code)
    return found.text_direction if found else "ltr"


def messages() -> Iterator[Message]:
    """Every text that can be said in another way: what the German catalogue lists, which a test holds complete."""
    return (message for message in read_catalogue("de") if message.id)


@cache
def read_catalogue(code: str) -> Catalog:
    """A language's catalogue. Raises FileNotFoundError where there is none."""
    with (_FOLDER / f"{code}.po").open("rb") as file:
        return read_po(file, locale=code, abort_invalid=True)


@cache
def _spoken(code: str, found: str | None, own: tuple[tuple[str, str], ...]) -> Language:
    catalogue = _with_own(found, dict(own))
    compiled = io.BytesIO()
    write_mo(compiled, catalogue)
    content = compiled.getvalue()
    compiled.seek(0)
    words = GNUTranslations(compiled)
    plural: Callable[[int], int] = words.plural  # type: ignore[attr-defined]  # the rule, which gettext keeps there
    scripts = dict(_for_scripts(catalogue, plural))
    return Language(code, words, scripts, sha256(content).hexdigest()[:16])


def _with_own(found: str | None, own: Mapping[str, str]) -> Catalog:
    """A catalogue of what is said otherwise than in the source."""
    there = read_catalogue(found or "de")
    result = Catalog(locale=there.locale if found else Locale.parse(SOURCE))
    for message in there:
        if not message.id:
            continue
        said = _said(message, own, is_ours=found is not None)
        if said:
            result.add(message.id, said, message.locations, context=message.context)
    return result


def _forms(message: Message) -> tuple[str, ...]:
    """What a language says for each count."""
    return (message.string,) if isinstance(message.string, str) else tuple(message.string or ())


def _said(message: Message, own: Mapping[str, str], is_ours: bool) -> str | tuple[str, ...] | None:
    """What is said for a message; None where that is the English text."""
    if isinstance(message.id, str):
        return own.get(message.id) or (_forms(message)[0] if is_ours and not message.fuzzy else None)
    one, many = message.id
    theirs = _forms(message)
    forms = theirs if is_ours and all(theirs) else (one, many)
    last = len(forms) - 1
    said = tuple(own.get(many if number == last and last else one, form) for number, form in enumerate(forms))
    return said if said != (one, many) else None


def _for_scripts(catalogue: Catalog, plural: Callable[[int], int]) -> Iterator[tuple[str, str | Mapping[str, str]]]:
    rule = Locale.parse(str(catalogue.locale)).plural_form
    # The forms of a catalogue have numbers, those of a browser names: counts tell which is which.
    names = {rule(count): plural(count) for count in _COUNTS}
    for message in catalogue:
        if not message.id or not any(place.endswith(_SCRIPTS) for place, _ in message.locations):
            continue
        if isinstance(message.id, str):
            yield message.id, str(message.string)
        else:
            yield message.id[0], {name: _forms(message)[number] for name, number in names.items()}


def _from_near_to_far(code: str) -> tuple[str, ...]:
    """``de-AT``, then ``de``."""
    return (code, code.partition("-")[0]) if "-" in code else (code,)


@cache
def _locale(code: str) -> Locale | None:
    if code == SOURCE:
        return Locale.parse(_ENGLISH)
    try:
        return Locale.parse(code, sep="-")
    except (UnknownLocaleError, ValueError):
        return None
