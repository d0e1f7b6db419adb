"""Placement: which drum each stroke is on."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import NamedTuple

from wristwork.languages.say import say
from wristwork.pattern.drums import WITH_THE_FOOT
from wristwork.pattern.groups import DASHES
from wristwork.pattern.model import Drum, Level, Note, Pattern, PlacementRule, Side, When
from wristwork.pattern.moments import EXAMPLE, mentions_a_moment, read_when, split_words
from wristwork.pattern.problems import Report, all_read
from wristwork.pattern.text import Value
from wristwork.wording import nearest

_LEVELS = {"accents": Level.ACCENT, "taps": Level.TAP, "ghosts": Level.GHOST}
_SIDES = {"right": Side.RIGHT, "left": Side.LEFT}


def _speakers() -> dict[str, tuple[Side | None, bool, Level | None]]:
    """Every WHO, by its words: the side, whether it is a foot, the level."""
    who: dict[str, tuple[Side | None, bool, Level | None]] = {"all": (None, False, None)}
    who |= {word: (None, False, level) for word, level in _LEVELS.items()}
    for name, side in _SIDES.items():
        who[name] = (side, False, None)
        who |= {f"{name} {word}": (side, False, level) for word, level in _LEVELS.items()}
        who[f"{name} foot"] = (side, True, None)
    return who


WHO = _speakers()
# Letter case and spaces do not matter, so names are looked up without either.
_WHO_BY_LETTERS = {words.replace(" ", ""): words for words in WHO}
_DRUM_BY_LETTERS = {drum.value.replace(" ", ""): drum for drum in Drum}
# What else drummers call a drum: an error answers such a word with the name that is read.
_CALLED = {word.replace(" ", ""): drum for drum in Drum for word in (*drum.row.near, drum.row.short)}


def read_rules(value: Value, report: Report) -> tuple[PlacementRule, ...] | None:
    """The rules, later ones last, or None with an error."""
    return all_read(_read_rule(part, report) for part in value.split(","))


def _letters(text: str) -> str:
    return "".join("-" if char in DASHES else char for char in "".join(text.lower().split()))


def _read_rule(part: Value, report: Report) -> PlacementRule | None:
    if not part.text:
        report.add(
            part.place(), say("a comma with no placement rule"), say("take out the comma, or write WHO on WHERE")
        )
        return None
    on = re.search(r"(?:^|(?<=\s))on(?=\s|$)", part.text, re.IGNORECASE)
    if on is None:
        return _read_run_together(part, report)
    who = part.cut(0, on.start())
    where = part.cut(on.end(), len(part.text))
    speaks = _read_speaker(who.text)
    if speaks is None:
        report.add(who.place() if who.text else part.place(), *_nobody(who.text))
    drums = _read_drums(where, report)
    if speaks is None or drums is None:
        return None
    return replace(_rule(speaks.who, drums), when=speaks.when, graces=speaks.graces, typed_at=part.place())


class _Speaker(NamedTuple):
    """Who a rule speaks of, and when."""

    who: str
    when: When
    graces: bool


def _read_speaker(text: str) -> _Speaker | None:
    """``left accents``, ``beat 4 of bar 2``, ``right foot bar 4``, ``left grace notes``; None for anything else."""
    words = split_words("".join("-" if char in DASHES else char for char in text))
    if not words:
        return None
    for count in range(len(words), -1, -1):
        for first, last in ((words[:count], words[count:]), (words[len(words) - count :], words[: len(words) - count])):
            who = "".join(first)
            graces = who.endswith("gracenotes")
            hand = _WHO_BY_LETTERS.get(who.removesuffix("gracenotes") or "all")
            when = read_when(last)
            if hand is not None and when is not None and not (graces and _speaks_of_no_grace(hand)):
                return _Speaker(hand, when, graces)
    return None


def _speaks_of_no_grace(words: str) -> bool:
    """Grace notes are always of one hand, or of either, and of one level."""
    return words not in ("all", "right", "left")


def _nobody(text: str) -> tuple[str, str]:
    """What is wrong with words that say neither who nor when, and the remedy."""
    words = text.lower()
    if mentions_a_moment(words):
        return say("'{text}' is no moment that a rule can speak of", text=text), say(EXAMPLE)
    without_hand = re.sub(r"\s+hands?\b", "", words)
    near = without_hand if without_hand in WHO else nearest(words, WHO)
    found = say("'{text}' is nobody that a rule can speak of", text=text)
    return found, say("did you mean {near}?", near=near) if near else say("write one of {who}", who=", ".join(WHO))


def _read_run_together(part: Value, report: Report) -> PlacementRule | None:
    """A rule typed without any space, as in ``lefton snare``."""
    letters = _letters(part.text)
    for key, words in _WHO_BY_LETTERS.items():
        if letters.startswith(f"{key}on"):
            drums = [_DRUM_BY_LETTERS.get(name) for name in letters[len(key) + 2 :].split("then")]
            known = tuple(drum for drum in drums if drum is not None)
            if len(known) == len(drums):
                return _rule(words, known)
    remedy = say("write WHO on WHERE, as in left on snare")
    if letters.startswith("then"):
        remedy = say("no comma before then: left on snare then ride")
    report.add(part.place(), say("'{text}' is no placement rule", text=part.text), remedy)
    return None


def _rule(words: str, drums: tuple[Drum, ...]) -> PlacementRule:
    side, foot, level = WHO[words]
    if foot:
        drums = tuple(WITH_THE_FOOT.get(drum, drum) for drum in drums)
    return PlacementRule(side, foot, level, drums)


def _read_drums(where: Value, report: Report) -> tuple[Drum, ...] | None:
    return all_read(_read_drum(where.cut(start, end), where, report) for start, end in _between_thens(where.text))


def _read_drum(name: Value, where: Value, report: Report) -> Drum | None:
    drum = drum_named(name.text)
    if drum is None:
        report.add(name.place() if name.text else where.place(), *_no_drum(name.text))
    return drum


def drum_named(name: str) -> Drum | None:
    """The drum of this name, whatever its letter case and blanks."""
    return _DRUM_BY_LETTERS.get(_letters(name))


def called(name: str) -> Drum | None:
    """The drum that drummers call so too, though no rule reads the word."""
    return _CALLED.get(_letters(name))


def _no_drum(name: str) -> tuple[str, str]:
    """What is wrong with a name that is no drum's, and the remedy."""
    if not name:
        return say("no drum named"), say("say where, as in right on snare")
    found = say("no drum is called '{name}'", name=name)
    if ";" in name or re.search(r"\s(?:on|and)\s", name, re.IGNORECASE):
        return found, say("separate rules by commas: right on hi-hat, left on snare")
    if re.search(r"\sthan\s", name, re.IGNORECASE):
        return found, say("drums in turn are joined by then: snare then ride")
    near = called(name) or nearest(name.lower(), [drum.value for drum in Drum])
    if near:
        return found, say("did you mean {near}?", near=near)
    return found, say("the drums are {drums}", drums=", ".join(Drum))


def _between_thens(text: str) -> list[tuple[int, int]]:
    """Where the names stand between the words ``then``."""
    spans: list[tuple[int, int]] = []
    start = 0
    for then in re.finditer(r"(?:^|(?<=\s))then(?=\s|$)", text, re.IGNORECASE):
        spans.append((start, then.start()))
        start = then.end()
    return [*spans, (start, len(text))]


@dataclass(slots=True)
class Placer:
    """Finds the drum of each slot of one written pass, in time order: hands first, then feet.

    Drums joined by ``then`` take turns, so a placer is good for one pass.
    """

    pattern: Pattern
    _turns: dict[int, int] = field(default_factory=dict)
    _notes: int = 0

    def drums_of(self, note: Note, is_feet: bool, at: Fraction) -> dict[Side, Drum]:
        """The drum of each hand (or foot) of the slot that begins ``at`` beats into the pass."""
        drums = {side: self._unruled(side, is_feet) for side in note.sides}
        for number, rule in enumerate(self.pattern.placement or ()):
            if (
                rule.foot is not is_feet
                or rule.graces
                or not rule.when.holds(self.pattern.since_bar_1(at), self.pattern.time)
            ):
                continue
            sides = [side for side in note.sides if rule.side in (None, side)]
            if rule.level is not None:
                sides = [side for side in sides if note.of(side).level is rule.level]
            if sides:
                # A turn is spent even where a later rule wins.
                drum = self._turn(number, rule)
                drums |= dict.fromkeys(sides, drum)
        return drums if is_feet else self._named(drums)

    def graces(self, note: Note, main: Drum, at: Fraction) -> list[Drum]:
        """The drum of each grace note of a slot: its main note's, unless a rule says otherwise."""
        drums = [main] * len(note.graces)
        for number, rule in enumerate(self.pattern.placement or ()):
            spoken = [grace for grace, side in enumerate(note.graces) if rule.side in (None, side)]
            if rule.graces and spoken and rule.when.holds(self.pattern.since_bar_1(at), self.pattern.time):
                drum = self._turn(number, rule)
                drums = [drum if grace in spoken else before for grace, before in enumerate(drums)]
        return drums

    def _turn(self, number: int, rule: PlacementRule) -> Drum:
        turn = self._turns.get(number, 0)
        self._turns[number] = turn + 1
        return rule.drums[turn % len(rule.drums)]

    def _named(self, drums: dict[Side, Drum]) -> dict[Side, Drum]:
        """What the line of drums says of the next note of the hands, before all rules."""
        if not self.pattern.drums:
            return drums
        pair = self.pattern.drums[self._notes % len(self.pattern.drums)]
        self._notes += 1
        return drums if pair is None else {side: pair[side is Side.LEFT] for side in drums}

    def _unruled(self, side: Side, is_feet: bool) -> Drum:
        if is_feet:
            return Drum.KICK if side is Side.RIGHT else Drum.HI_HAT_FOOT
        alone = self.pattern.feet is None and self.pattern.placement is None and self.pattern.drums is None
        return Drum.PAD if alone else Drum.SNARE
