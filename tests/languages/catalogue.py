"""Every text of ours that can be said in another language; run as a module it brings the catalogues up to date.

``python -m tests.languages.catalogue`` adds what is new, drops what nobody says any more, and prints what each
language lacks. A new language begins as ``python -m tests.languages.catalogue it``.
"""

from __future__ import annotations

import io
import sys
from collections.abc import Iterator
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po, write_po

PACKAGE = Path(__file__).parents[2] / "plugins" / "wristwork"
FOLDER = PACKAGE / "languages"
_METHODS = [("**.py", "python"), ("**.html", "jinja2.ext:babel_extract"), ("**.js", "javascript")]
_CHANGING = tuple(
    f'"{name}'
    for name in ("POT-Creation", "PO-Revision", "Last-Translator", "Generated-By", "Report-Msgid", "Language-Team")
)
_OPTIONS = {"**.js": {"parse_template_string": True}}
_KEYWORDS = {
    **dict.fromkeys(("say", "ww_say", "say_html", "marked", "sayAround")),
    **dict.fromkeys(("say_count", "sayCount"), (1, 2)),
}


def found() -> Catalog:
    """Every text that the source marks, with the files that say it."""
    catalogue = Catalog(project="Wristwork", header_comment="# The words of a course.", fuzzy=False)
    for file, _, message, _, _ in extract_from_dir(PACKAGE, _METHODS, _OPTIONS, _KEYWORDS):
        catalogue.add(message, locations=[(Path(file).as_posix(), None)])
    return catalogue


def lacking(catalogue: Catalog) -> Iterator[str]:
    """What a language has no words for yet, in English."""
    for message in catalogue:
        said = (message.string,) if isinstance(message.id, str) else message.string or ("",)
        if message.id and not all(said):
            yield message.id if isinstance(message.id, str) else message.id[0]


def updated(code: str) -> Catalog:
    """A language's catalogue with all that the source says now."""
    path = FOLDER / f"{code}.po"
    catalogue = Catalog(locale=code, header_comment="# The words of a course.", fuzzy=False)
    if path.exists():
        with path.open("rb") as file:
            catalogue = read_po(file, locale=code)
    catalogue.update(found(), no_fuzzy_matching=True)
    catalogue.obsolete.clear()
    return catalogue


def text_of(catalogue: Catalog) -> bytes:
    """A catalogue as its file has it: no dates, no numbers of lines, the same bytes for the same words."""
    written = io.BytesIO()
    write_po(written, catalogue, width=100, omit_header=False, sort_output=True, include_lineno=False)
    lines = written.getvalue().decode().splitlines()
    return ("\n".join(line for line in lines if not line.startswith(_CHANGING)) + "\n").encode()


if __name__ == "__main__":
    for code in sorted({path.stem for path in FOLDER.glob("*.po")} | set(sys.argv[1:])):
        catalogue = updated(code)
        (FOLDER / f"{code}.po").write_bytes(text_of(catalogue))
        missing = list(lacking(catalogue))
        print(f"{code}: {len(catalogue)} texts, {len(missing)} of them without words yet")
