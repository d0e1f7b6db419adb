"""What comes back without being asked for: a short look at an earlier exercise in each session, spaced ever wider.

What was practised once and then left is forgotten; coming back to it after a while, and after longer each time, keeps
it with little effort. For what is learnt by heart that is well shown (Cepeda, Pashler, Vul, Wixted and Rohrer,
*Psychological Bulletin* 132, 2006, a review of verbal recall). That it holds for hands, and the numbers of weeks, are
our own assumptions.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

# Weeks from one time to the next: after the first teaching, after the first return, and from then on.
GAPS = (2, 3, 5)
# With more weeks between, an exercise has to be learnt anew rather than remembered. Our own setting.
LONGEST_UNSEEN = 6


@dataclass(frozen=True, slots=True)
class RevisedWeek:
    """A week as revision sees it.

    ``taught`` are the ids that are new in it; ``met`` those that its sessions hold already; ``refreshed`` those that
    are played along with these, because an exercise of the week stands on them. ``room`` is how many sessions
    have time for a look back.
    """

    number: int
    taught: tuple[str, ...]
    met: frozenset[str]
    refreshed: frozenset[str]
    room: int


@dataclass(frozen=True, slots=True)
class Return:
    """An exercise that comes back, for the ``times``-th time (from 1)."""

    id: str
    times: int


@dataclass(frozen=True, slots=True)
class Revision:
    """For each week in order what comes back in it, one exercise to a session; and in which weeks each one was met."""

    returns: tuple[tuple[Return, ...], ...]
    seen: dict[str, tuple[int, ...]]


def revision(weeks: Iterable[RevisedWeek]) -> Revision:
    """What comes back when: what is most overdue first, of two alike what was taught first."""
    seen: dict[str, list[int]] = {}
    times: dict[str, int] = {}
    returns: list[tuple[Return, ...]] = []
    for week in weeks:
        at_hand = week.met | week.refreshed
        waiting = [name for name in seen if name not in at_hand]
        overdue = {name: _overdue(week.number - seen[name][-1], times.get(name, 0)) for name in waiting}
        due = sorted((name for name in waiting if overdue[name] >= 1), key=lambda name: -overdue[name])
        back = due[: week.room]
        for name in back:
            times[name] = times.get(name, 0) + 1
        returns.append(tuple(Return(name, times[name]) for name in back))
        for name in (*back, *(name for name in seen if name in at_hand)):
            seen[name].append(week.number)
        for name in week.taught:
            seen.setdefault(name, [week.number])
    return Revision(tuple(returns), {name: tuple(numbers) for name, numbers in seen.items()})


def _overdue(weeks: int, times: int) -> Fraction:
    """How long ago an exercise was met, as a share of the time after which it is due."""
    return Fraction(weeks, GAPS[min(times, len(GAPS) - 1)])


def longest_gap(numbers: Sequence[int], last: int) -> tuple[int, int]:
    """The longest stretch between weeks in which an exercise was met, up to the last week: its first and last week."""
    ends = [*numbers[1:], last]
    return max(zip(numbers, ends, strict=True), key=lambda stretch: stretch[1] - stretch[0])
