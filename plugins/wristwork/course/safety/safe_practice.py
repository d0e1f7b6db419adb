"""The three safe-practice pages every course has, and the words that none of them may lack.

The stop rule, the cautions and the referral stand here once; pages, practice cards and the player
use these very words. They inform: they do not diagnose, treat or promise.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum

from wristwork.languages.say import marked, say
from wristwork.page.front_matter import Shape


class SafePracticeError(ValueError):
    """A page says it is a safe-practice page of a kind that there is not, or that is there already."""

    def __init__(self, found: str, remedy: str, path: str | None = None) -> None:
        super().__init__(f"{path}: {found}; {remedy}" if path else f"{found}; {remedy}")
        self.found = found
        self.remedy = remedy


class Topic(StrEnum):
    """The three pages, by the word a tutor writes: ``safe-practice: warm-up``."""

    WARM_UP = "warm-up"
    POSTURE = "posture"
    HEARING = "hearing"

    @property
    def page_title(self) -> str:
        """What the page is called in the navigation."""
        return say(_TITLES[self])

    @property
    def src_uri(self) -> str:
        """Where the tool's own page stands in the course, as the path of its Markdown file."""
        return f"safe-practice/{self}.md"


_TITLES = {
    Topic.WARM_UP: marked("Warm-up"),
    Topic.POSTURE: marked("Posture and set-up"),
    Topic.HEARING: marked("Look after your hearing"),
}

STOP_RULE = marked(
    "Stop at once at pain, numbness, tingling, weakness or a burning feeling. "
    "Do not play through it, and see a doctor or physiotherapist if it returns or lasts."
)
PROTECT_YOUR_EARS = marked(
    "Protect your ears: at an acoustic kit a whole day’s sound dose can be reached within minutes. Wear protection "
    "that fits, the whole time."
)
HEARING_SIGNS = marked(
    "Warning signs are ringing, muffled hearing, and having to raise your voice to be heard at arm’s length. "
    "If ringing lasts, see a doctor or audiologist. Sudden hearing loss is an emergency: get medical help at once."
)
INFORMS_ONLY = marked("This page informs. It does not diagnose or treat, and it promises nothing.")
REFERRAL = marked(
    "For pain, ask a doctor or physiotherapist. For your hearing, ask an audiologist. They are licensed to help; a "
    "drum course is not."
)
LOCAL_LAW = marked(
    "Where minors are taught, and where teaching or playing is work, local law and the venue’s rules come first."
)


@dataclass(frozen=True, slots=True)
class Notice:
    """Words that must stand on a page: ``text`` exactly, under ``title`` in a box of that ``kind``."""

    kind: str
    title: str
    text: str

    @property
    def markdown(self) -> str:
        """The notice as a boxed block of Markdown."""
        title, text = say(self.title), say(self.text)
        return f'!!! {self.kind} "{title}"\n\n    {text}\n'


STOP_NOTICE = Notice("danger", marked("When to stop"), STOP_RULE)
SIGNS_NOTICE = Notice("warning", marked("Warning signs"), HEARING_SIGNS)
INFORMS_NOTICE = Notice("info", marked("What this page is"), INFORMS_ONLY)
REFERRAL_NOTICE = Notice("info", marked("Who can help"), REFERRAL)
LAW_NOTICE = Notice("info", marked("Minors and work"), LOCAL_LAW)

REQUIRED: Mapping[Topic, tuple[Notice, ...]] = {
    Topic.WARM_UP: (STOP_NOTICE, INFORMS_NOTICE, REFERRAL_NOTICE, LAW_NOTICE),
    Topic.POSTURE: (STOP_NOTICE, INFORMS_NOTICE, REFERRAL_NOTICE, LAW_NOTICE),
    Topic.HEARING: (STOP_NOTICE, SIGNS_NOTICE, INFORMS_NOTICE, REFERRAL_NOTICE, LAW_NOTICE),
}

POSTURE_CHECK_LIST: tuple[str, ...] = (
    marked("The thighs slope gently down."),
    marked("Both feet rest flat."),
    marked("I sit upright and breathe freely."),
    marked("The shoulders are low, also when I play faster."),
    marked("The elbows hang near the body."),
    marked("Forearm and hand make one line."),
    marked("The pad is where my forearms are level or slope slightly down."),
    marked("I reach everything without leaning."),
    marked("The grip lets the stick rebound."),
    marked("Nothing hurts, tingles, burns or goes numb."),
)

# Letters of a wrong topic that a message shows.
_LONGEST_SHOWN = 60

CLOSING_HEADING = marked("Cautions, and who can help")
# Stands first in a section, in so many words, where the section is what teachers and therapists usually say.
ADVICE_LABEL = marked("Usual advice of teachers and therapists")


def topic_of(name: str) -> Topic:
    """The topic that front matter names under ``safe-practice`` (a list names none)."""
    for topic in Topic:
        if name == topic.value:
            return topic
    known = ", ".join(topic.value for topic in Topic)
    shown = say(name) if isinstance(name, Shape) else name[:_LONGEST_SHOWN]
    raise SafePracticeError(
        say("safe-practice: {name} is none of the three pages", name=repr(shown)),
        say("write one of {names}", names=known),
    )


def topics_without_page(own_pages: Iterable[tuple[Topic, str]]) -> tuple[Topic, ...]:
    """The topics for which the tool's standard page is to be published.

    ``own_pages`` are the tutor's pages as (topic, path). Two pages for one topic are an error.
    """
    first: dict[Topic, str] = {}
    for topic, path in own_pages:
        if topic in first:
            raise SafePracticeError(
                say("safe-practice: {topic} is already {path}", topic=topic, path=first[topic]),
                say("take the line out of one of the two pages"),
                path,
            )
        first[topic] = path
    return tuple(topic for topic in Topic if topic not in first)


def missing(topic: Topic, text: str) -> tuple[Notice, ...]:
    """The notices whose words a page's Markdown does not hold.

    They may stand there in English or in the language that is spoken. Emphasis, quote marks, line breaks and letter
    case do not matter; words in comments and in code do not count, for nobody reads them.
    """
    held = _plain(_unread(text))

    def is_held(notice: Notice) -> bool:
        return _plain(notice.text) in held or _plain(say(notice.text)) in held

    return tuple(notice for notice in REQUIRED[topic] if not is_held(notice))


def closing(topic: Topic, text: str) -> str:
    """What is added at the end of a page that holds ``text``: the missing notices, or nothing."""
    lacking = missing(topic, text)
    if not lacking:
        return ""
    heading = say(CLOSING_HEADING)
    return "\n".join([f"## {heading}\n", *(notice.markdown for notice in lacking)])


def completed(topic: Topic, text: str) -> str:
    """The page with what it lacks added after its own words, which stay as they are."""
    addition = closing(topic, text)
    return f"{text.rstrip()}\n\n{addition}" if addition else text


def _unread(text: str) -> str:
    """The Markdown without what a reader does not see as prose: comments and fenced code."""
    without_comments = re.sub(r"<!--.*?(-->|\Z)", " ", text, flags=re.DOTALL)
    fence = r"^[ \t]*(?P<mark>`{3,}|~{3,}).*?(^[ \t]*(?P=mark)[`~]*[ \t]*$|\Z)"
    return re.sub(fence, " ", without_comments, flags=re.DOTALL | re.MULTILINE)


def _plain(text: str) -> str:
    """Words only: markup, quote marks, curly apostrophes and spacing made equal."""
    straight = text.replace("’", "'")
    without_marks = re.sub(r"^[ \t]*>|[*_]", "", straight, flags=re.MULTILINE)
    return " ".join(without_marks.casefold().split())
