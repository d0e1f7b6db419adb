"""What is wrong with marks in comments: every name that there is stands here, whoever puts something in its place."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator

from wristwork.course.prose import comments, open_comment
from wristwork.page.marks import WORD, mark
from wristwork.page.page import Page
from wristwork.page.problem import MARK, Problem
from wristwork.site.overview.made_pages import SLOTS
from wristwork.site.safety.safe_pages import BLOCKS
from wristwork.wording import misspelt, nearest

_COMMENT = re.compile(r"\s*(?P<word>[\w-]+)\s*(?P<colon>:?)\s*(?P<name>[^\n]*?)\s*")
# Marks that the tool itself puts into pages on their way, and how lists were asked for at first.
_OWN = "ww-"


def mark_problems(pages: Iterable[Page], safe: Collection[str]) -> Iterator[Problem]:
    """Marks that name nothing, or nothing that can stand there; ``safe`` are the paths of safe-practice pages."""
    for page in pages:
        for line, inside, is_alone in comments(page):
            told = _wrong(inside, is_alone, page.path in safe)
            if told is not None:
                yield Problem(page.path, line, 0, *told, MARK)
        if (line_of := open_comment(page)) is not None:
            yield Problem(page.path, line_of, 0, "a comment that is not closed", "end it with -->", MARK)


def _wrong(inside: str, is_alone: bool, is_safe: bool) -> tuple[str, str] | None:
    """What is wrong with a comment and what to write, None where it is a good mark or a comment like any other."""
    parts = _COMMENT.fullmatch(inside)
    if parts is None:
        return None
    word, name = parts["word"], parts["name"]
    if word.startswith(_OWN):
        right = name if name in {*SLOTS, *BLOCKS} else "weeks"
        return f"a comment '{word}', which marks nothing", f"write {mark(right)}"
    if word != WORD:
        is_meant = parts["colon"] and misspelt(word, [WORD])
        return (f"a comment '{word}:', which marks nothing", f"write {mark(name)}") if is_meant else None
    known = {*SLOTS, *BLOCKS} if is_safe else set(SLOTS)
    if name in BLOCKS and not is_safe:
        return f"'{name}' marks something that only a safe-practice page holds", "take the comment out"
    if name not in known:
        near = nearest(name, known)
        remedy = f"write {mark(near)}" if near else f"the marks are {', '.join(sorted(known))}"
        return f"nothing is marked by '{name}'", remedy
    if not parts["colon"]:
        return f"a mark without its colon: {name}", f"write {mark(name)}"
    if name in BLOCKS and not is_alone:
        return f"the mark '{name}' in a line with other words", "give it a line of its own"
    return None
