"""An exercise as a message for a chat: short lines that chats leave as they are.

Chats and phones turn some characters into something else. So that a sticking survives, a message holds
none of ``* _ ~ ` ( ) .`` in it, and no two hyphens, slashes or bars in a row:

====================  ===========  ==========================================================
in a page             in a chat    because
====================  ===========  ==========================================================
``(R)`` a ghost       ``[R]``      ``(R)`` becomes a trade-mark sign, ``(L)`` or ``B)`` a face
``.`` a rest          ``·``        three become one sign, ``R.LR`` becomes a link
``-`` held            ``–``        two become one dash
``R//`` four strokes  ``R/4``      two slashes set italics
====================  ===========  ==========================================================

Every line begins with a word of ours or the link, so that no ``>``, ``#``, ``-`` or ``1.`` stands at a
line's start. In a title, which is the tutor's, marks that set type are traded for ones that look alike.
"""

from __future__ import annotations

from wristwork.languages.say import say
from wristwork.pattern.model import Gap, Lane, Pattern, Side, TimeSignature
from wristwork.pattern.write import cut_between_groups, lane_text

# What a title may hold and a chat would set type with; each has a twin that means nothing to a chat.
_TITLE = str.maketrans({"*": "∗", "_": " ", "~": "∼", "`": "’", "|": "¦", "<": "‹", ">": "›", "\\": "∖"})
_STICKING = str.maketrans({"(": "[", ")": "]", ".": "·", "-": "–"})
LONGEST_STICKING = 96
LONGEST_TITLE = 80


def message_head(pattern: Pattern, lesson: str) -> str:
    """The first two lines: where it is from and its title, the sticking and who leads.

    The tempo and the link follow in the browser, which knows where the player stands. ``lesson`` says
    where it is from and begins with a word of ours: ``Week 3``, ``From Rolls``.
    """
    title = f"{safe_words(lesson)} · {safe_words(pattern.title or pattern.id or '')}"
    lane = pattern.leading_lane
    who = leading(lane, is_feet=pattern.hands is None)
    played = say("Play {sticking}, {leading}", sticking=chat_sticking(lane, pattern.time), leading=who)
    return f"{title}\n{played}"


def chat_sticking(lane: Lane, time: TimeSignature | None = None) -> str:
    """The groups of a lane as a chat leaves them, cut between two groups where they are many."""
    typed = lane_text(lane, time, bar_lines=False)
    return cut_between_groups(typed.replace("//", "/4").translate(_STICKING), LONGEST_STICKING)


def leading(lane: Lane, is_feet: bool = False) -> str:
    """Who plays the first stroke, in words: ``right hand leads``."""
    first = next((slot for group in lane.groups for slot in group.slots if not isinstance(slot, Gap)), None)
    if first is None:
        return say("nothing but rests")
    if first.is_both:
        return say("both feet begin") if is_feet else say("both hands begin")
    is_right = first.sides[0] is Side.RIGHT
    if is_feet:
        return say("right foot leads") if is_right else say("left foot leads")
    return say("right hand leads") if is_right else say("left hand leads")


def safe_words(text: str) -> str:
    """A tutor's words on one line, with nothing in them that a chat sets type with."""
    words = " ".join(text.split()).translate(_TITLE)
    return words if len(words) <= LONGEST_TITLE else words[: LONGEST_TITLE - 1].rstrip() + "…"
