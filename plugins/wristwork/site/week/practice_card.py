"""A week's practice card: its sessions, one shown at a time, what they come to, and what keeps hands and ears well.

Works with scripts off: each session is behind a choice of its number, which the style sheet alone follows.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, partial

from markupsafe import Markup

from wristwork.course.plan import (
    FULL_WARM_UP,
    MOVE_UP,
    PRACTICE_ANCHOR,
    SHORT_WARM_UP,
    Activity,
    Session,
    SessionPart,
    activity_name,
)
from wristwork.course.safety.day_sound import MODEST_PROTECTION, SoundShare, sound_shares
from wristwork.course.safety.exposure import ELECTRONIC_KIT, NO_PROTECTION
from wristwork.course.safety.safe_practice import PROTECT_YOUR_EARS, STOP_RULE, Topic
from wristwork.course.weeks import Week
from wristwork.languages.say import marked, say, say_count
from wristwork.pattern.model import Side
from wristwork.site.addresses import relative
from wristwork.site.figure.demand_details import hand_strokes_words
from wristwork.site.frontend.head import LIST_PAGE
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.reading.lessons import LessonPage
from wristwork.site.reading.paper_places import week_paper
from wristwork.site.templating import markup
from wristwork.site.week.practice_sheet import week_sheet

TITLE = marked("This week’s practice")

# The pages on safe practice, the tutor's own or the standard ones, by their topic.
Topics = Mapping[Topic, LessonPage]

_LATER_PARTS = {
    Activity.BREAK: marked("sticks down, stand up, move"),
    Activity.EASE_OFF: marked("softer and slower, then let go"),
    Activity.OWN_CHOICE: marked("what you like to play"),
}


@dataclass(frozen=True, slots=True)
class _CardRow:
    """A part of a session, as its table shows it.

    ``kind`` is the part's class. A title is the tutor's own words; ``href`` leads to where the part is explained.
    """

    kind: str
    minutes: int
    tempo: int | None
    name: str
    is_title: bool = False
    href: str | None = None
    remark: str = ""


@dataclass(frozen=True, slots=True)
class _ShownSession:
    """A session with its rows, and the strokes of each hand in words."""

    number: int
    of: int
    minutes: int
    rows: tuple[_CardRow, ...]
    strokes: Markup


@dataclass(frozen=True, slots=True)
class _Share:
    """A session's share of a day's sound on one surface, which ``within`` names in the middle of a sentence."""

    surface: str
    within: str
    words: str
    classes: str


@dataclass(frozen=True, slots=True)
class _SafeLink:
    """A page on safe practice; without an address where the course has none."""

    words: str
    href: str | None


# The class of the share that is the week's own.
_HERE = "ww-here"


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
    def html(self) -> Markup:
        return markup(
            "week/practice_card.html",
            anchor=PRACTICE_ANCHOR,
            title=say(TITLE),
            first=next((placed.id for placed in self._site.exercises_on(self._page)), None),
            ears=say(PROTECT_YOUR_EARS) if self._is_loud else "",
            sessions=tuple(map(self._session, self._sessions)),
            stop=say(STOP_RULE),
            safe_links=tuple(_SafeLink(topic.page_title, self._topic_address(topic)) for topic in Topic),
            **(self._plan() if self._sessions else {}),
        )

    def _plan(self) -> dict[str, object]:
        """What is said of all sessions together."""
        playing = max(session.playing_minutes for session in self._sessions)
        shares = tuple(map(self._share, sound_shares(playing, self._week.protection)))
        return {
            "length": say_count(
                "{count} session of {minutes} minutes",
                "{count} sessions of {minutes} minutes",
                len(self._sessions),
                minutes=self._sessions[0].minutes,
            ),
            "sheet": week_sheet(self._sessions),
            "rule": say(MOVE_UP),
            "week": self._week.number,
            "run": self._run_page,
            "paper": relative(week_paper(self._page), self._page.url) if self._site.has_papers else None,
            "has_headphones": self._week.surface is ELECTRONIC_KIT,
            "shares": shares,
            "sound": next((_sound_line(share) for share in shares if _HERE in share.classes), ""),
            "playing_minutes": playing,
        }

    @property
    def _run_page(self) -> str | None:
        """Where a session is gone through step by step."""
        page = self._site.pages.get(LIST_PAGE)
        return relative(page.url, self._page.url) if page else None

    def _session(self, session: Session) -> _ShownSession:
        rows = tuple(map(self._row, session.parts))
        return _ShownSession(session.number, session.of, session.minutes, rows, _strokes(session))

    def _row(self, played: SessionPart) -> _CardRow:
        """A part, linked to where it is explained, with a word on it."""
        activity = played.activity
        row = partial(_CardRow, activity.name.lower().replace("_", "-"), played.minutes, played.tempo)
        if activity is Activity.EXERCISE:
            (placed,) = self._site.named([played.exercise])
            place = "" if placed.page is self._page else relative(placed.page.url, self._page.url)
            href = f"{place}?tempo={played.tempo}#{placed.id}"
            return row(
                placed.title, True, href, say("met in {where}", where=_where(placed.page)) if played.again else ""
            )
        name = activity_name(activity)
        if activity is Activity.WARM_UP:
            return row(name, href=self._warm_up, remark=_which_warm_up(played.minutes))
        return row(name, remark=say(_LATER_PARTS[activity]))

    @property
    def _warm_up(self) -> str | None:
        """The page on warming up, for what this week knows."""
        address = self._topic_address(Topic.WARM_UP)
        return address and f"{address}?week={self._week.number}"

    def _topic_address(self, topic: Topic) -> str | None:
        page = self._topics.get(topic)
        return relative(page.url, self._page.url) if page else None

    def _share(self, share: SoundShare) -> _Share:
        """A session's share of a day's sound, marked where it is this week's or too much."""
        is_worn = share.is_protected == (self._week.protection.kind is not NO_PROTECTION)
        is_here = share.surface is self._week.surface and (is_worn or not share.surface.is_loud)
        marks = [mark for mark, holds in ((_HERE, is_here), ("ww-over", share.is_too_much)) if holds]
        words = _surface_words(share)
        return _Share(words[:1].upper() + words[1:], words, share.words, " ".join(marks))


def _sound_line(share: _Share) -> str:
    """What a session takes on the week's own surface, in a line."""
    if share.words.endswith("%"):
        return say("A session’s sound ({surface}): {share} of a day’s.", surface=share.within, share=share.words)
    return say("A session’s sound ({surface}): {share}.", surface=share.within, share=share.words)


def _where(page: LessonPage) -> str:
    return page.title if page.number is None else say("week {number}", number=page.number)


def _which_warm_up(minutes: int) -> str:
    return {FULL_WARM_UP: say("the full one"), SHORT_WARM_UP: say("its first steps")}.get(minutes, say("the short one"))


def _surface_words(share: SoundShare) -> str:
    name = say(share.surface.name)
    if not share.is_protected:
        return say("{surface}, no protection", surface=name) if share.surface.is_loud else name
    if share.protection is MODEST_PROTECTION:
        level = f"{MODEST_PROTECTION.label:g}"
        return say("{surface}, protection that takes off {level} dB", surface=name, level=level)
    return say("{surface}, with {protection}", surface=name, protection=share.protection)


def _strokes(session: Session) -> Markup:
    """The day's strokes of each hand; empty where there are none."""
    counts = [(side, session.strokes(side)) for side in (Side.RIGHT, Side.LEFT)]
    if not any(count for _, count in counts):
        return Markup()
    return Markup(", ").join(hand_strokes_words(side, count) for side, count in counts)
