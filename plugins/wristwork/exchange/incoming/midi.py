"""A MIDI file → what it says: quantised, with grace notes and levels told from time and velocity."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from wristwork.exchange.incoming.midi_file import Hit, Recorded, recorded
from wristwork.exchange.incoming.quantising import Beats, OnGrid, on_grids
from wristwork.exchange.incoming.strikes import Grace, Heard, Remarks, Strike
from wristwork.exchange.incoming.unreadable import Unreadable
from wristwork.exchange.vocabulary import QUARTER
from wristwork.languages.say import say, say_count
from wristwork.pattern.model import Level, TimeSignature
from wristwork.pattern.settings import FASTEST, SLOWEST

# A softer hit so shortly before another of its drum is a grace note: those of a drag are 50 ms apart.
_GRACE_S = 0.06
_GRACE_SOFTER = 8
_MOST_GRACES = 3
# Between the velocities that ghost notes, taps and accents are written with here.
_GHOST_BELOW, _ACCENT_FROM = 54, 92
_EVEN = 16  # velocities no further apart are all of one level


def heard_midi(data: bytes, title: str, bars: tuple[int, int] | None, remarks: Remarks) -> Heard:
    """What the drums of a MIDI file play, in the bars that are wanted. Raises :class:`Unreadable`."""
    file = recorded(data, title, remarks)
    if not file.hits:
        raise Unreadable(
            say("no strokes on drums that are known here"), say("look at the channel and the keys of its notes")
        )
    run = _chosen(file, bars, remarks)
    inside = [hit for hit in file.hits if run.start <= hit.at + file.tick and (run.end is None or hit.at < run.end)]
    if not inside:
        raise Unreadable(say("no strokes in these bars"), say("name other bars with --bars"))
    time, tempo = run.time, _tempo(file, inside[0].at, run.time)
    quarters = time.beat / QUARTER
    mains = _with_graces(inside, file)
    beats = Beats(
        file.tick / quarters,
        lambda at: file.tempo_at(run.start + at * quarters).microseconds / 1e6 * float(quarters),
        time.compound,
    )
    timed = [((main.hit.at - run.start) / quarters, main.hit) for main in mains]
    placed = [max(each, each._replace(at=Fraction(0)), key=lambda one: one.at) for each in on_grids(timed, beats)]
    _tell_error(placed, remarks)
    if len({microseconds for _, microseconds, _ in file.tempos[1:]}) > 1:
        remarks.leave_out(say("changes of the tempo"))
    empty = int(placed[0].at // time.beats)
    if empty:
        remarks.tell(
            say_count("left out: {count} empty bar at the start", "left out: {count} empty bars at the start", empty)
        )
    strikes = list(_once(_strikes(placed, mains, empty * time.beats), remarks))
    last = max(strike.at for strike in strikes)
    return Heard(file.title, time, int(last // time.beats) + 1, tuple(strikes), lines=(("tempo", str(tempo)),),
                 is_exact=False)  # fmt: skip


class _Run(NamedTuple):
    """Bars of one signature: from where to where, in quarters."""

    start: Fraction
    end: Fraction | None
    time: TimeSignature


def _chosen(file: Recorded, bars: tuple[int, int] | None, remarks: Remarks) -> _Run:
    """The bars that are wanted; without a wish those of the signature in which most is struck."""
    starts = [at for at, _ in file.times]
    runs = [_Run(at, end, time) for (at, time), end in zip(file.times, [*starts[1:], None], strict=True)]
    if bars is not None:
        return _wanted(runs, bars)
    struck = [sum(run.start <= hit.at and (run.end is None or hit.at < run.end) for hit in file.hits) for run in runs]
    chosen = runs[struck.index(max(struck))]
    for run, count in zip(runs, struck, strict=True):
        if run is not chosen and count:
            remarks.leave_out(
                say_count(
                    "{count} stroke in bars of {time} (name them with --bars)",
                    "{count} strokes in bars of {time} (name them with --bars)",
                    count,
                    time=run.time,
                )
            )
    return chosen


def _wanted(runs: Sequence[_Run], bars: tuple[int, int]) -> _Run:
    first, last = bars
    number = 1
    for run in runs:
        bar = Fraction(run.time.upper, run.time.lower) / QUARTER
        count = -(-(run.end - run.start) // bar) if run.end is not None else None
        if count is None or first < number + count:
            start = run.start + max(0, first - number) * bar
            end = run.start + (last + 1 - number) * bar
            return _Run(start, end if run.end is None else min(end, run.end), run.time)
        number += int(count)
    raise Unreadable(
        say("no bars {first} to {last}", first=first, last=last),
        say_count("it has {count} bar", "it has {count} bars", number - 1),
    )


def _tempo(file: Recorded, at: Fraction, time: TimeSignature) -> int:
    quarters = Fraction(60_000_000, file.tempo_at(at).microseconds)
    return max(SLOWEST, min(FASTEST, round(quarters * QUARTER / time.beat)))


class _Main(NamedTuple):
    """A hit with the grace notes before it."""

    hit: Hit
    graces: tuple[Grace, ...]


def _with_graces(hits: Sequence[Hit], file: Recorded) -> list[_Main]:
    """Softer hits shortly before another of the same drum, as grace notes of that."""
    found: list[_Main] = []
    for drum in dict.fromkeys(hit.on for hit in hits):
        waiting: list[Hit] = []
        for hit in (each for each in hits if each.on is drum):
            if waiting and file.seconds(hit.at) - file.seconds(waiting[-1].at) > _GRACE_S:
                found += _cluster(waiting)
                waiting = []
            waiting.append(hit)
        found += _cluster(waiting)
    return sorted(found, key=lambda main: main.hit.at)


def _cluster(hits: Sequence[Hit]) -> Iterator[_Main]:
    """Hits of one drum close together: grace notes and their main note, or each by itself."""
    *before, main = hits
    if len(before) <= _MOST_GRACES and all(hit.velocity + _GRACE_SOFTER <= main.velocity for hit in before):
        yield _Main(main, tuple(Grace(hit.on) for hit in before))
    else:
        yield from (_Main(hit, ()) for hit in hits)


def _strikes(placed: Iterable[OnGrid], mains: Sequence[_Main], before: int) -> Iterator[Strike]:
    levels = _Levels([main.hit for main in mains])
    for each, main in zip(placed, mains, strict=True):
        level = levels.of(each.hit)
        yield Strike(each.at - before, Fraction(0), each.hit.on, None, level, graces=main.graces)


def _once(strikes: Iterable[Strike], remarks: Remarks) -> Iterator[Strike]:
    """Strikes of one drum at one moment, as two tracks may have them, are one."""
    seen: set[tuple[Fraction, str]] = set()
    for strike in strikes:
        if (strike.at, strike.on) in seen:
            remarks.leave_out(say("a second {drum} at the same moment", drum=say(str(strike.on))))
        else:
            seen.add((strike.at, strike.on))
            yield strike


class _Levels:
    """Tells ghost notes, taps and accents by velocity."""

    def __init__(self, hits: Sequence[Hit]) -> None:
        forces = sorted(_force(hit) for hit in hits)
        self._all_alike = forces[-1] - forces[0] <= _EVEN
        taps = [force for force in forces if _GHOST_BELOW <= force < _ACCENT_FROM]
        # Where nothing would be a tap, what is struck most is one.
        usual = max(set(forces), key=lambda force: (forces.count(force), -force))
        self._shift = 0 if taps else usual - (_GHOST_BELOW + _ACCENT_FROM) // 2

    def of(self, hit: Hit) -> Level:
        """The level of a hit."""
        force = _force(hit) - self._shift
        if self._all_alike or _GHOST_BELOW <= force < _ACCENT_FROM:
            return Level.TAP
        return Level.GHOST if force < _GHOST_BELOW else Level.ACCENT


def _force(hit: Hit) -> int:
    """How hard a hit is, by itself: some drums are told apart from others of their key by being struck harder."""
    return hit.velocity - hit.on.row.harder


def _tell_error(placed: Sequence[OnGrid], remarks: Remarks) -> None:
    off = [abs(each.off_s) * 1000 for each in placed]
    remarks.tell(
        say_count(
            "quantised: {count} stroke, {average} ms off on average, {most} at most",
            "quantised: {count} strokes, {average} ms off on average, {most} at most",
            len(off),
            average=f"{sum(off) / len(off):.0f}",
            most=f"{max(off):.0f}",
        )
    )
