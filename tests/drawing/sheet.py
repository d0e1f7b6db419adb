"""``python -m tests.drawing.sheet OUT.html``: all hard cases on one page, to be looked at."""

from __future__ import annotations

import sys
from html import escape
from pathlib import Path

from tests.drawing.hard_cases import HARD_CASES
from wristwork.drawing import diagram, words
from wristwork.pattern import Pattern, read_one
from wristwork.site.frontend.assets import source

_PAGE_STYLE = """
body { background: var(--ww-raised); color: var(--ww-ink); font-family: var(--ww-sans); margin: 16px }
h2 { font-size: 15px; margin: 28px 0 6px }
pre { color: var(--ww-quiet); font-size: 12px; margin: 4px 0 0; white-space: pre-wrap }
"""


def read_case(name: str) -> Pattern:
    """The pattern of a hard case, its name as its title."""
    return read_one(f"title: {name[0].upper()}{name[1:]}\n{HARD_CASES[name]}")


def sheet(scheme: str = "default") -> str:
    """The page as HTML, in the ``default`` (light) or ``slate`` (dark) colours."""
    style = source("tokens.css").read_text() + source("diagram.css").read_text() + _PAGE_STYLE
    figures = []
    for number, name in enumerate(HARD_CASES, start=1):
        pattern = read_case(name)
        figures.append(
            f'<figure class="ww-case" id="case-{number}" style="margin:0"><h2>{number}. {escape(name)}</h2>'
            f'<div class="ww-diagram">{diagram(pattern).html()}</div><pre>{escape(HARD_CASES[name])}</pre>'
            f'<details class="ww-words"><summary>In words</summary>{words(pattern).html}</details></figure>'
        )
    return (
        f'<!doctype html><html lang="en" data-md-color-scheme="{scheme}"><meta charset="utf-8">'
        f'<meta name="viewport" content="width=device-width"><title>Hard cases</title><style>{style}</style>'
        f"<body>{''.join(figures)}</body></html>"
    )


if __name__ == "__main__":
    Path(sys.argv[1]).write_text(sheet(*sys.argv[2:3]), encoding="utf-8")
