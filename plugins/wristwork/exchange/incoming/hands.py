"""Strikes → who plays each: what a file says, and worked out what it leaves open.

Two hands at one moment share its drums; alone they take turns. Feet play what pedals play.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import groupby

from wristwork.exchange.incoming.strikes import Grace, Remarks, Strike, Where
from wristwork.exchange.vocabulary import PEDALS
from wristwork.languages.say import say
from wristwork.pattern.drums import Family
from wristwork.pattern.model import TimeSignature
from wristwork.technique.strokes import Limb

OTHER = {
    Limb.RIGHT_HAND: Limb.LEFT_HAND,
    Limb.LEFT_HAND: Limb.RIGHT_HAND,
    Limb.RIGHT_FOOT: Limb.LEFT_FOOT,
    Limb.LEFT_FOOT: Limb.RIGHT_FOOT,
}
MOST_GRACES = 3


def where(at: Fraction, time: TimeSignature, pickup: int) -> Where:
    """The bar and the beat of a moment."""
    bar, beat = divmod(at, time.beats)
    return Where(int(bar) + (0 if pickup else 1), int(beat) + 1)


class Dealer:
    """Deals strikes to hands and feet; ``lead`` is the hand that begins where nothing is said."""

    def __init__(self, lead: Limb, time: TimeSignature, pickup: int, remarks: Remarks) -> None:
        self._next = lead
        self._lead = lead
        self._time, self._pickup = time, pickup
        self._remarks = remarks

    def dealt(self, strikes: Iterable[Strike]) -> list[Strike]:
        """All strikes with their limbs, in time order, each limb with one at a time."""
        found: list[Strike] = []
        with_feet = (self._with_foot(strike) for strike in strikes)
        for at, same in groupby(sorted(with_feet, key=lambda strike: strike.at), key=lambda strike: strike.at):
            together = list(same)
            feet = self._one_each([strike for strike in together if strike.is_foot], at)
            hands = self._hands([strike for strike in together if not strike.is_foot], at)
            found += [self._with_graces(strike, alone=len(side) == 1) for side in (hands, feet) for strike in side]
        return found

    def _with_foot(self, strike: Strike) -> Strike:
        return replace(strike, limb=PEDALS[strike.on]) if strike.limb is None and strike.on in PEDALS else strike

    def _hands(self, strikes: Sequence[Strike], at: Fraction) -> list[Strike]:
        known = self._one_each([strike for strike in strikes if strike.limb is not None], at)
        free = [limb for limb in (self._lead, OTHER[self._lead]) if all(strike.limb is not limb for strike in known)]
        # Of two at once the hand that leads has the cymbal, as on most kits.
        left = sorted((s for s in strikes if s.limb is None), key=lambda s: (s.on.row.family is not Family.METAL, s.on))
        if len(strikes) == 1 and left:
            free = [self._next]
        elif left and len(strikes) > 1:
            self._remarks.tell(say("two drums at one moment: which hand has which is worked out"))
        dealt = [replace(strike, limb=limb) for strike, limb in zip(left, free, strict=False)]
        self._too_many(left[len(free) :], at)
        hands = [*known, *dealt]
        if len(hands) == 1 and hands[0].limb is not None:
            self._next = OTHER[hands[0].limb]
        elif hands:
            self._next = self._lead
        return hands

    def _one_each(self, strikes: Sequence[Strike], at: Fraction) -> list[Strike]:
        """One strike for each limb; what it can't play beside that is left out."""
        found: dict[Limb | None, Strike] = {}
        for strike in strikes:
            if strike.limb in found:
                self._too_many([strike], at)
            else:
                found[strike.limb] = strike
        return list(found.values())

    def _too_many(self, strikes: Iterable[Strike], at: Fraction) -> None:
        for strike in strikes:
            what = say("{drum} beside what hands and feet play already", drum=say(str(strike.on)))
            self._remarks.leave_out(what, self._where(at))

    def _where(self, at: Fraction) -> Where:
        return where(at, self._time, self._pickup)

    def _with_graces(self, strike: Strike, alone: bool) -> Strike:
        """The grace notes with their hands; the last is of the other hand than the main note."""
        if not strike.graces or strike.limb is None:
            return strike
        if not alone:
            for _ in strike.graces:
                self._remarks.leave_out(say("a grace note before both hands together"), self._where(strike.at))
            return replace(strike, graces=())
        for _ in strike.graces[MOST_GRACES:]:
            what = say("a grace note beyond {most} before one note", most=MOST_GRACES)
            self._remarks.leave_out(what, self._where(strike.at))
        kept = strike.graces[-MOST_GRACES:]
        other = OTHER[strike.limb]
        if kept[-1].limb is strike.limb:
            self._remarks.tell(say("a grace note of its main note's hand is written for the other hand"))
            kept = (*kept[:-1], replace(kept[-1], limb=None))
        # Two are a double of the other hand, three alternate.
        usual = (other, strike.limb, other) if len(kept) == MOST_GRACES else (other,) * len(kept)
        graces = tuple(
            Grace(grace.on, _same_kind(grace.limb or PEDALS.get(grace.on), strike.limb) or limb)
            for grace, limb in zip(kept, usual, strict=True)
        )
        return replace(strike, graces=graces)


def _same_kind(limb: Limb | None, main: Limb) -> Limb | None:
    return limb if limb is not None and limb.is_hand == main.is_hand else None
