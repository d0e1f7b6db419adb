"""What is wrong with marks in comments: every name that there is stands here, whoever puts something in its place."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator

from wristwork.course.prose import comments, open_comment
from wristwork.languages.say import say
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
            found, remedy = say("a comment that is not closed"), say("end it with -->")
            yield Problem(page.path, line_of, 0, found, remedy, MARK)


def _wrong(inside: str, is_alone: bool, is_safe: bool) -> tuple[str, str] | None:
    """What is wrong with a comment and what to write, None where it is a good mark or a comment like any other."""
    parts = _COMMENT.fullmatch(inside)
    if parts is None:
        return None
    word, name = parts["word"], parts["name"]
    if word.startswith(_OWN):
        right = name if name in {*SLOTS, *BLOCKS} else "weeks"
        return say("a comment '{word}', which marks nothing", word=word), _write(right)
    if word != WORD:
        is_meant = parts["colon"] and misspelt(word, [WORD])
        return (say("a comment '{word}:', which marks nothing", word=word), _write(name)) if is_meant else None
    known = {*SLOTS, *BLOCKS} if is_safe else set(SLOTS)
    if name in BLOCKS and not is_safe:
        found = say("'{name}' marks something that only a safe-practice page holds", name=name)
        return found, say("take the comment out")
    if name not in known:
        near = nearest(name, known)
        remedy = _write(near) if near else say("the marks are {marks}", marks=", ".join(sorted(known)))
        return say("nothing is marked by '{name}'", name=name), remedy
    if not parts["colon"]:
        return say("a mark without its colon: {name}", name=name), _write(name)
    if name in BLOCKS and not is_alone:
        return say("the mark '{name}' in a line with other words", name=name), say("give it a line of its own")
    return None


def _write(name: str) -> str:
    return say("write {mark}", mark=mark(name))
