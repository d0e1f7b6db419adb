"""Messages about exercises: what a chat makes of them must still be the same sticking."""

import re
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.strategies import pattern_texts
from wristwork.course.message import LONGEST_STICKING, chat_sticking, message_head, safe_words
from wristwork.pattern import read_one
from wristwork.pattern.write import lane_text

# Simple models of what chats and phones do with a text, each stricter than any of them.
PAIRS = [rf"(?<!\w){mark}(?=\S)(.+?)(?<=\S){mark}(?!\w)" for mark in (r"\*", "_", "~", "`")]
LOOSE_PAIRS = [
    r"\*\*(.+?)\*\*",
    "__(.+?)__",
    "~~(.+?)~~",
    r"\|\|(.+?)\|\|",
    "//(.+?)//",
    r"\*(.+?)\*",
    "_(.+?)_",
    "~(.+?)~",
]
LINE_STARTS = [r"(?m)^>+ ?", r"(?m)^#+ ", r"(?m)^[-*+•] ", r"(?m)^\d+[.)] "]
TYPOGRAPHY = [r"\.\.\.", "--", r"\((?:r|c|tm|l|b|y|n|k)\)", "->", "<-", "=>", r"\+-", "<3"]
FACES = [r"[:;=]-?[()/|DPp3*]", r"[8B]-?\)", r":\w+:", r">[.:_]+<", r"\([A-Za-z]\)", r"[Oo]_[Oo]"]
TAGS = [r"<[^>\n]+>", r"\[([bius])\].*?\[/\1\]", r"\[[^\]\n]*\]\([^)\n]*\)", r"&\w+;", r"\\(.)"]
LINKS = [r"\b\w+\.(?:lr|br|lb|bb|bl|rl)\b"]


def chat(rules: list[str]) -> Callable[[str], str]:
    def formatted(text: str) -> str:
        for rule in rules:
            text = re.sub(rule, lambda found: f"\N{BULLET}{found.groups() or ''}", text, flags=re.IGNORECASE)
        return text

    return formatted


CHATS = {
    "pairs at the edges of words": chat(PAIRS),
    "pairs anywhere": chat(LOOSE_PAIRS),
    "marks at the start of a line": chat(LINE_STARTS),
    "typographic replacement": chat(TYPOGRAPHY),
    "faces": chat(FACES),
    "tags": chat(TAGS),
    "addresses": chat(LINKS),
}
GHOSTS_AND_GAPS = """\
id: ghosts-and-gaps
title: Ghosts and gaps
hands: (R)(L)R>. R/L// B>-.. (B)...
feet: R--- L... R.R. ....
"""


@given(pattern=pattern_texts().map(read_one))
@settings(max_examples=50, deadline=None)
def test_a_sticking_survives_every_chat(pattern):
    head = message_head(pattern, "Week 3")
    sticking = head.split("\n")[1]
    assert {name: formatted(head).split("\n")[1] for name, formatted in CHATS.items()} == dict.fromkeys(CHATS, sticking)


@pytest.mark.parametrize("name", CHATS)
def test_the_models_bite_what_is_typed_in_a_page(name):
    """A model that changes nothing would prove nothing."""
    typed = "> *R* _L_ ~~R~~ ||(R)|| R//L// R... :) <b> RL.LR"
    assert CHATS[name](typed) != typed


def typed_again(text: str) -> str:
    """What a drummer would type who reads the message."""
    return text.replace("[", "(").replace("]", ")").replace("·", ".").replace("–", "-").replace("/4", "//")


@given(pattern=pattern_texts().map(read_one))
@settings(max_examples=50, deadline=None)
def test_no_stroke_is_lost_on_the_way(pattern):
    typed = lane_text(pattern.hands or pattern.feet, pattern.time, bar_lines=False)
    sent = typed_again(chat_sticking(pattern.hands or pattern.feet, pattern.time))
    if sent.endswith("…"):
        assert typed.startswith(sent.removesuffix(" …"))
    else:
        assert sent == typed


def test_a_message_reads_well():
    pattern = read_one("id: accented-paradiddle\ntitle: Accented paradiddle\nhands: R>LRR L>RLL R>LRR L>RLL\n")
    assert message_head(pattern, "Week 2").split("\n") == [
        "Week 2 · Accented paradiddle",
        "Play R>LRR L>RLL R>LRR L>RLL, right hand leads",
    ]


def test_ghosts_rests_and_slashes_have_signs_that_chats_leave_alone():
    assert chat_sticking(read_one(GHOSTS_AND_GAPS).hands) == "[R][L]R>· R/L/4 B>–·· [B]···"


@pytest.mark.parametrize(
    ("hands", "words"),
    [
        ("RLRL RLRL RLRL RLRL", "right hand leads"),
        (".LRL RLRL RLRL RLRL", "left hand leads"),
        ("BLRL RLRL RLRL RLRL", "both hands begin"),
    ],
)
def test_who_leads_is_said_in_words(hands, words):
    pattern = read_one(f"id: a-lead\ntitle: A lead\nhands: {hands}\n")
    assert message_head(pattern, "Week 1").endswith(f", {words}")


def test_feet_alone_lead_with_a_foot():
    assert message_head(read_one("id: feet\ntitle: Feet\nfeet: LRLR LRLR LRLR LRLR\n"), "Week 1").endswith(
        "left foot leads"
    )


def test_a_long_sticking_is_cut_between_groups():
    pattern = read_one("id: long\ntitle: Long\nhands: " + "R>LRR L>RLL R>LRR L>RLL " * 12 + "\n")
    sent = chat_sticking(pattern.hands)
    assert len(sent) <= LONGEST_STICKING + 2
    assert sent.endswith(("R>LRR …", "L>RLL …"))


@given(st.text(max_size=120))
def test_a_title_holds_nothing_that_sets_type_and_stays_on_its_line(title):
    safe = safe_words(title)
    assert not set(safe) & set("*_~`|<>\\\n\r")
    assert len(safe) <= 80
