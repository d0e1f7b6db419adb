"""The warm-up as a page shows it: the list of steps as Markdown, and the place of the timer."""

from __future__ import annotations

import json
from typing import Any

from markupsafe import Markup

from wristwork.course.safety import warm_up
from wristwork.course.safety.warm_up import Routine, Step
from wristwork.languages.say import say
from wristwork.site.templating import markup


def timer() -> Markup:
    """The place where the script builds the timer, as HTML on one line."""
    routines = [
        {
            "key": routine.key,
            "title": say(routine.title),
            "minutes": routine.minutes,
            "steps": [{**step_data(step), "seconds": seconds} for step, seconds in routine.timed_steps],
        }
        for routine in warm_up.ROUTINES
    ]
    data = json.dumps(routines, ensure_ascii=False, separators=(",", ":"))
    return markup("safety/warm_up_timer.html", data=data)


def step_data(step: Step) -> dict[str, Any]:
    """A step as scripts read it: what it needs, and what stands in its place where that is not known yet."""
    data: dict[str, Any] = {
        "name": say(step.name),
        "do": say(step.do),
        "feel": say(step.feel),
        "letters": step.pattern.letters if step.pattern else "",
        "needs": step.needs,
    }
    return {**data, "instead": step_data(step.instead)} if step.instead else data


def steps() -> str:
    """Both warm-ups as Markdown: how long each step lasts, then each step with its pattern."""
    return f"{_durations()}\n\n" + "\n\n".join(_step(step) for step in warm_up.all_steps())


def ease_off_steps() -> str:
    """The ease-off as Markdown, step by step."""
    return "\n\n".join(_step(step, _length(warm_up.EASE_OFF, step)) for step, _ in warm_up.EASE_OFF.timed_steps)


def _durations() -> str:
    short, full = warm_up.SHORT, warm_up.FULL
    rows = [_row(say(step.name), _length(short, step), _length(full, step)) for step in warm_up.all_steps()]
    total = _row(say("In all"), _minutes(short.minutes), _minutes(full.minutes))
    head = _row(say("Step"), say("Short"), say("Full"))
    return "\n".join([head, "| --- | --- | --- |", *rows, total])


def _step(step: Step, length: str = "") -> str:
    name = f"{say(step.name)} ({length})" if length else say(step.name)
    feel = say("What to feel:")
    parts = [f"### {name}", say(step.do), f"*{feel}* {say(step.feel)}"]
    if step.pattern:
        parts.append(step.pattern.fence)
    return "\n\n".join(parts)


def _length(routine: Routine, wanted: Step) -> str:
    """How long the step lasts in that routine: ``1 min``, ``1½ min``, or a dash where it is left out."""
    for step, seconds in routine.timed_steps:
        if step is wanted:
            minutes, rest = divmod(seconds, 60)
            return _minutes(f"{minutes or ''}{'½' if rest else ''}")
    return "–"


def _row(*cells: str) -> str:
    return f"| {' | '.join(cells)} |"


def _minutes(count: int | str) -> str:
    return say("{minutes} min", minutes=count)
