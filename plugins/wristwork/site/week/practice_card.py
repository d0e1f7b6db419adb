"""A week's practice card: its sessions, one shown at a time, what they come to, and what keeps hands and ears well.

Works with scripts off: each session is behind a choice of its number, which the style sheet alone follows.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property
from html import escape

from wristwork.course.plan import (
    FULL_WARM_UP,
    MOVE_UP,
    PRACTICE_ANCHOR,
    SHORT_WARM_UP,
    Activity,
    Part,
    Session,
)
from wristwork.course.safety.day_sound import MODEST_PROTECTION, SoundShare, sound_shares
from wristwork.course.safety.exposure import ELECTRONIC_KIT, NO_PROTECTION
from wristwork.course.safety.safe_practice import PROTECT_YOUR_EARS, STOP_RULE, Topic
from wristwork.course.weeks import Week
from wristwork.pattern.model import Side
from wristwork.site.addresses import relative
from wristwork.site.figure.demand_details import side_marked
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.reading.lessons import LessonPage
from wristwork.site.week.practice_sheet import week_sheet
from wristwork.wording import counted

TITLE = "This week’s practice"

# The pages on safe practice, the tutor's own or the standard ones, by their topic.
Topics = Mapping[Topic, LessonPage]

_LATER_PARTS = {
    Activity.BREAK: "sticks down, stand up, move",
    Activity.EASE_OFF: "softer and slower, then let go",
    Activity.OWN_CHOICE: "what you like to play",
}


class PracticeCard:
    """The card of one week as HTML; ``topics`` are what it links to for safe practice."""

    def __init__(self, page: LessonPage, week: Week, site: CourseSite, topics: Topics) -> None:
        self._page = page
        self._week = week
        self._site = site
        self._topics = topics
        self._is_loud = week.surface is not None and week.surface.is_loud

    @property
    def is_needed(self) -> bool:
        """Is there a plan, or something to be said of the week's surface?"""
        return self._week.minutes is not None or self._is_loud

    @cached_property
    def _sessions(self) -> Sequence[Session]:
        return self._site.course.plans[self._page.path]

    @property
    def html(self) -> str:
        return (
            f'<section class="ww-practice" aria-labelledby="{PRACTICE_ANCHOR}">'
            f'<h2 id="{PRACTICE_ANCHOR}">{TITLE}</h2>'
            f"{self._ears()}{self._plan()}{self._sound()}{self._care()}</section>"
        )

    def _plan(self) -> str:
        if not self._sessions:
            return ""
        count, minutes = len(self._sessions), self._sessions[0].minutes
        lead = f"{counted(count, 'session')} of {minutes} minutes, on any days you like. A missed day breaks nothing."
        choices = "".join(map(self._session, self._sessions))
        return (
            f'<p class="ww-lead">{lead}</p>'
            f'<fieldset class="ww-sessions"><legend>Session</legend>{choices}</fieldset>'
            f'{week_sheet(self._sessions)}<p class="ww-rule">{MOVE_UP}</p>'
        )

    def _session(self, session: Session) -> str:
        """The choice of a session, then the session itself."""
        name = f"ww-session-{session.number}"
        chosen = " checked" if session.number == 1 else ""
        of = f'<span class="ww-unseen"> of {session.of}</span>'
        rows = "".join(map(self._part, session.parts))
        return (
            f'<input type="radio" name="ww-session" id="{name}"{chosen}>'
            f'<label for="{name}"><span class="ww-unseen">Session </span>{session.number}{of}</label>'
            '<div class="ww-session"><table class="ww-plan">'
            f"<caption>Session {session.number} of {session.of}</caption>"
            '<thead><tr><th scope="col">Minutes</th><th scope="col">What to play</th>'
            '<th scope="col">Tempo</th></tr></thead>'
            f"<tbody>{rows}</tbody>"
            f'<tfoot><tr><td>{session.minutes}</td><th scope="row">minutes in all</th><td></td></tr></tfoot></table>'
            f"{_strokes(session)}</div>"
        )

    def _part(self, part: Part) -> str:
        tempo = f"{part.tempo}" if part.tempo else ""
        return (
            f'<tr class="ww-{part.activity.name.lower().replace("_", "-")}"><td>{part.minutes}</td>'
            f'<th scope="row">{self._what(part)}</th><td>{tempo}</td></tr>'
        )

    def _what(self, part: Part) -> str:
        """What a part is, linked to where it is explained, with a word on it."""
        if part.activity is Activity.EXERCISE:
            (placed,) = self._site.named([part.exercise])
            link = self._site.link(placed, self._page.url)
            href = f"#{placed.id}" if placed.page is self._page else link.href
            said = f"<small>met in {_where(placed.page)}</small>" if part.again else ""
            return f'<a href="{escape(href)}"><bdi>{escape(placed.title)}</bdi></a>{said}'
        name = part.activity.value.capitalize()
        if part.activity is Activity.WARM_UP:
            return f"{self._topic_link(Topic.WARM_UP, name)}<small>{_which_warm_up(part.minutes)}</small>"
        return f"{name}<small>{_LATER_PARTS[part.activity]}</small>"

    def _topic_link(self, topic: Topic, words: str) -> str:
        page = self._topics.get(topic)
        return f'<a href="{escape(relative(page.url, self._page.url))}">{words}</a>' if page else words

    def _ears(self) -> str:
        return f'<p class="ww-ears">{PROTECT_YOUR_EARS}</p>' if self._is_loud else ""

    def _sound(self) -> str:
        """A session's share of a day's sound on each surface."""
        if not self._sessions:
            return ""
        minutes = max(session.playing_minutes for session in self._sessions)
        tiles = "".join(map(self._tile, sound_shares(minutes, self._week.protection)))
        headphones = (
            "<p>With headphones the level is theirs, and no guess holds: keep it low.</p>"
            if self._week.surface is ELECTRONIC_KIT
            else ""
        )
        return (
            f"<h3>How much of a day’s sound a session takes</h3>{headphones}"
            f'<dl class="ww-shares">{tiles}</dl>'
            f'<p class="ww-aside">Cautious guesses for {minutes} minutes of playing, counted as for a working adult’s '
            "day. Nobody measured them, and they are not made for children as they are.</p>"
        )

    def _tile(self, share: SoundShare) -> str:
        is_worn = share.is_protected == (self._week.protection.kind is not NO_PROTECTION)
        is_here = share.surface is self._week.surface and (is_worn or not share.surface.is_loud)
        marks = [mark for mark, holds in (("ww-here", is_here), ("ww-over", share.is_too_much)) if holds]
        classes = f' class="{" ".join(marks)}"' if marks else ""
        return f"<div{classes}><dt>{_surface_words(share)}</dt><dd>{share.words}</dd></div>"

    def _care(self) -> str:
        links = "".join(f"<li>{self._topic_link(topic, topic.page_title)}</li>" for topic in Topic)
        return f'<p class="ww-stop">{STOP_RULE}</p><ul class="ww-safe-links">{links}</ul>'


def _where(page: LessonPage) -> str:
    return escape(page.title) if page.number is None else f"week {page.number}"


def _which_warm_up(minutes: int) -> str:
    return {FULL_WARM_UP: "the full one", SHORT_WARM_UP: "its first steps"}.get(minutes, "the short one")


def _surface_words(share: SoundShare) -> str:
    name = share.surface.name.capitalize()
    if not share.is_protected:
        return f"{name}, no protection" if share.surface.is_loud else name
    if share.protection is MODEST_PROTECTION:
        return f"{name}, protection that takes off {MODEST_PROTECTION.label:g} dB"
    return f"{name}, with {escape(str(share.protection))}"


def _strokes(session: Session) -> str:
    """The day's strokes of each hand."""
    counts = [(side, session.strokes(side)) for side in (Side.RIGHT, Side.LEFT)]
    if not any(count for _, count in counts):
        return ""
    said = ", ".join(side_marked(f"{side.value} hand {count:,}") for side, count in counts)
    return f'<p class="ww-aside">Strokes, if you never pause: {said}.</p>'
