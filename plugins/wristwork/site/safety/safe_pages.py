"""The Markdown of the safe-practice pages: blocks filled in, missing notices and sources added.

A page asks for a block by a comment on a line of its own, ``<!-- wristwork: sound-day -->``: the
calculator, the timer, a table made from the facts, a drawing, or the steps of the warm-up.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from importlib import resources

from markupsafe import Markup

from wristwork.course.safety import facts, safe_practice
from wristwork.course.safety.safe_practice import Topic
from wristwork.languages.pages import has_spoken_page, spoken_page
from wristwork.languages.say import marked, say
from wristwork.page.marks import MARK
from wristwork.pattern.model import Side
from wristwork.site.safety import sound_day, warm_up_timer
from wristwork.site.safety.drawings import kit, posture, strokes
from wristwork.site.safety.drawings.strokes import Picture
from wristwork.site.templating import markup

SOURCES_HEADING = marked("Sources")

_MARKER = re.compile(rf"^{MARK.pattern}[ \t]*$", re.MULTILINE)
_REFERENCE = re.compile(r"\[\^([\w-]+)\](?!:)")
_FRONT_MATTER = re.compile(r"\A---\n.*?\n---\n+", re.DOTALL)
_TITLE = re.compile(r"\A# .*\n+")


def _figures(pictures: tuple[Picture, ...]) -> Markup:
    """Pictures in a row that wraps, each with its caption."""
    return markup("safety/drawings.html", pictures=pictures)


def _kits() -> Markup:
    return _figures(
        (
            Picture(kit.kit_from_above(Side.RIGHT), say("Right-handed kit")),
            Picture(kit.kit_from_above(Side.LEFT), say("Left-handed kit")),
        )
    )


def _check_list() -> Markup:
    return markup("safety/check_list.html", items=tuple(map(say, safe_practice.POSTURE_CHECK_LIST)))


# Said in English, for whoever goes on reads that.
_IN_ENGLISH = "This page has not been put into the language of this course yet. It stands here in English."
_PAGES = resources.files("wristwork.site.safety") / "pages"

Block = Callable[[], str]

BLOCKS: Mapping[str, Block] = {
    "sound-day": sound_day.calculator,
    "allowed-times": sound_day.allowed_times,
    "surface-levels": sound_day.surface_levels,
    "protection-rule": sound_day.protection_rule,
    "formulas": sound_day.formulas,
    "warm-up-timer": warm_up_timer.timer,
    "four-positions": lambda: _figures(strokes.four_positions()),
    "four-strokes": lambda: _figures(strokes.four_strokes()),
    "wrists": lambda: _figures(strokes.wrists()),
    "posture-side": lambda: _figures((Picture(posture.side_view(), say("At the drum, from the side")),)),
    "pad-from-above": lambda: _figures((Picture(kit.pad_from_above(), say("At the pad, from above")),)),
    "kit-from-above": _kits,
    "posture-check-list": _check_list,
    "advice": lambda: f"{say(safe_practice.ADVICE_LABEL)}\n{{ .ww-usual-advice }}",
    "stop-rule": lambda: safe_practice.STOP_NOTICE.markdown,
    "hearing-signs": lambda: safe_practice.SIGNS_NOTICE.markdown,
    "warm-up-steps": warm_up_timer.steps,
    "ease-off-steps": warm_up_timer.ease_off_steps,
}


def standard_page(topic: Topic) -> str:
    """The tool's own page as a tutor would write it: front matter, then Markdown for :func:`finished`."""
    text = spoken_page(_PAGES, topic.src_uri)
    return text if has_spoken_page(_PAGES, topic.src_uri) else _in_english(text)


def _in_english(text: str) -> str:
    """An English page in a course of another language: it says so, and is marked for screen readers."""
    head = _FRONT_MATTER.match(text)
    front, body = (head[0], text[head.end() :]) if head else ("", text)
    title = _TITLE.match(body)
    heading, rest = (title[0], body[title.end() :]) if title else ("", body)
    return f'{front}{heading}<p lang="en" class="ww-in-english">{_IN_ENGLISH}</p>\n\n{rest}'


def finished(topic: Topic, text: str, standard_text: bool = False) -> str:
    """The Markdown of a safe-practice page, without its front matter, made ready to be converted.

    ``text`` is the tutor's page or the tool's own. ``standard_text`` adds the tool's text after the
    tutor's (front matter ``standard-text: yes``). At the end stand the notices that were missing,
    and the sources that the page refers to. A marker for a block that there is not raises
    :class:`SafePracticeError`.
    """
    body = text
    if standard_text:
        body = f"{text.rstrip()}\n\n{_TITLE.sub('', _FRONT_MATTER.sub('', standard_page(topic)))}"
    return _with_sources(safe_practice.completed(topic, _filled(body)))


def _filled(text: str) -> str:
    """The text with every marker replaced by its block; others are filled in later, or told of by who reads pages."""
    return _MARKER.sub(lambda found: BLOCKS[found["name"]]() if found["name"] in BLOCKS else found[0], text)


def _source(entry: facts.Source) -> str:
    return say("{source} says: {words}", source=f"[{entry.title}]({entry.url})", words=say(entry.says))


def _with_sources(text: str) -> str:
    """The text with a list of the sources that it refers to and does not define itself."""
    used = set(_REFERENCE.findall(text))
    wanted = [entry for entry in facts.SOURCES if entry.key in used and f"[^{entry.key}]:" not in text]
    if not wanted:
        return text
    notes = "\n".join(f"[^{entry.key}]: {_source(entry)}" for entry in wanted)
    return f"{text.rstrip()}\n\n## {say(SOURCES_HEADING)}\n\n{notes}\n"
