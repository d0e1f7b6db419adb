"""Catalogues hold what the source says, and hold it right."""

from __future__ import annotations

import re
from string import Formatter

import pytest

from tests.languages.catalogue import FOLDER, found, lacking, text_of, updated
from wristwork.languages.catalogues import read_catalogue

CODES = sorted(path.stem for path in FOLDER.glob("*.po"))
NAME = re.compile(r"\{\w+\}")
TAG = re.compile(r"</?\w+[^>]*>")


@pytest.mark.parametrize("code", CODES)
def test_a_catalogue_is_what_the_source_says_now(code):
    """`python -m tests.languages.catalogue` brings it up to date."""
    assert (FOLDER / f"{code}.po").read_bytes() == text_of(updated(code))


@pytest.mark.parametrize("code", CODES)
def test_a_language_lacks_no_words(code):
    assert list(lacking(read_catalogue(code))) == []


def forms(code):
    for message in read_catalogue(code):
        if message.id:
            texts = (message.id,) if isinstance(message.id, str) else message.id
            said = (message.string,) if isinstance(message.string, str) else message.string
            for form in said:
                yield texts, form


@pytest.mark.parametrize("code", CODES)
def test_values_and_marks_are_the_same_as_in_english(code):
    for texts, form in forms(code):
        assert set(NAME.findall(form)) <= {name for text in texts for name in NAME.findall(text)}, form
        assert set(NAME.findall(form)) >= set.intersection(*(set(NAME.findall(text)) for text in texts)), form
        assert TAG.findall(form) == TAG.findall(texts[-1]), form


def fields(text):
    return {(name, kind, how) for _, name, kind, how in Formatter().parse(text) if name is not None}


@pytest.mark.parametrize("code", CODES)
def test_every_text_can_be_said_with_the_values_of_the_english_one(code):
    """Of braces as Python reads them, and what it reads in them is never more than a name."""
    for texts, form in forms(code):
        wanted = set.union(*map(fields, texts))
        assert fields(form) <= wanted, form
        if all(
            not (kind or how) for _, kind, how in wanted
        ):  # others are examples of what is typed, and stay as they are
            form.format(**{name: "x" for name, _, _ in wanted})


@pytest.mark.parametrize("code", CODES)
def test_a_text_begins_and_ends_with_a_blank_where_the_english_one_does(code):
    for texts, form in forms(code):
        assert (form[:1].isspace(), form[-1:].isspace()) == (texts[-1][:1].isspace(), texts[-1][-1:].isspace()), form


def test_nothing_is_said_with_a_text_that_is_put_together():
    """A catalogue can't list it: every text is a whole one, with names in braces for what changes."""
    texts = [message.id if isinstance(message.id, str) else message.id[0] for message in found() if message.id]
    assert [
        text for text in texts if "${" in text or (not re.search(r"[^\W\d_]", NAME.sub("", text)) and len(text) > 30)
    ] == []
