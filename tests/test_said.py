"""The language of brackets shows what is said and what is not."""

from __future__ import annotations

from tests.said import bracketed, unsaid
from wristwork.languages.say import say, say_count


def test_what_is_said_is_gone_with_its_values():
    with bracketed():
        outer = say("Week {number}, {title}", number=3, title=say("Grade {grade}", grade=2))
        assert unsaid(outer) == ""
        assert unsaid(say_count("{count} week", "{count} weeks", 2)) == ""


def test_what_nobody_says_is_left():
    with bracketed():
        assert unsaid(f"{say('Weeks')} and more") == "and more"
