"""Placement: which drum each stroke is on."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from wristwork.pattern.drums import WITH_THE_FOOT
from wristwork.pattern.groups import DASHES
from wristwork.pattern.model import Drum, Level, Note, Pattern, PlacementRule, Side
from wristwork.pattern.problems import Report
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
    before = len(report.problems)
    rules = [_read_rule(part, report) for part in value.split(",")]
    if len(report.problems) > before:
        return None
    return tuple(rule for rule in rules if rule is not None)


def _letters(text: str) -> str:
    return "".join("-" if char in DASHES else char for char in "".join(text.lower().split()))


def _read_rule(part: Value, report: Report) -> PlacementRule | None:
    if not part.text:
        report.add(part.place(), "a comma with no placement rule", "take out the comma, or write WHO on WHERE")
        return None
    on = re.search(r"(?:^|(?<=\s))on(?=\s|$)", part.text, re.IGNORECASE)
    if on is None:
        return _read_run_together(part, report)
    who = part.cut(0, on.start())
    where = part.cut(on.end(), len(part.text))
    words = _WHO_BY_LETTERS.get(_letters(who.text))
    if words is None:
        without_hand = re.sub(r"\s+hands?\b", "", who.text.lower())
        near = without_hand if without_hand in WHO else nearest(who.text.lower(), WHO)
        remedy = f"did you mean {near}?" if near else f"write one of {', '.join(WHO)}"
        report.add(
            who.place() if who.text else part.place(), f"'{who.text}' is nobody that a rule can speak of", remedy
        )
    drums = _read_drums(where, report)
    if words is None or drums is None:
        return None
    return _rule(words, drums)


def _read_run_together(part: Value, report: Report) -> PlacementRule | None:
    """A rule typed without any space, as in ``lefton snare``."""
    letters = _letters(part.text)
    for key, words in _WHO_BY_LETTERS.items():
        if letters.startswith(f"{key}on"):
            drums = [_DRUM_BY_LETTERS.get(name) for name in letters[len(key) + 2 :].split("then")]
            known = tuple(drum for drum in drums if drum is not None)
            if len(known) == len(drums):
                return _rule(words, known)
    remedy = "write WHO on WHERE, as in left on snare"
    if letters.startswith("then"):
        remedy = "no comma before then: left on snare then ride"
    report.add(part.place(), f"'{part.text}' is no placement rule", remedy)
    return None


def _rule(words: str, drums: tuple[Drum, ...]) -> PlacementRule:
    side, foot, level = WHO[words]
    if foot:
        drums = tuple(WITH_THE_FOOT.get(drum, drum) for drum in drums)
    return PlacementRule(side, foot, level, drums)


def _read_drums(where: Value, report: Report) -> tuple[Drum, ...] | None:
    drums: list[Drum] = []
    before = len(report.problems)
    for start, end in _between_thens(where.text):
        name = where.cut(start, end)
        drum = _DRUM_BY_LETTERS.get(_letters(name.text))
        if drum is None:
            report.add(name.place() if name.text else where.place(), *_no_drum(name.text))
        else:
            drums.append(drum)
    return tuple(drums) if len(report.problems) == before else None


def _no_drum(name: str) -> tuple[str, str]:
    """What is wrong with a name that is no drum's, and the remedy."""
    if not name:
        return "no drum named", "say where, as in right on snare"
    found = f"no drum is called '{name}'"
    if ";" in name or re.search(r"\s(?:on|and)\s", name, re.IGNORECASE):
        return found, "separate rules by commas: right on hi-hat, left on snare"
    if re.search(r"\sthan\s", name, re.IGNORECASE):
        return found, "drums in turn are joined by then: snare then ride"
    near = _CALLED.get(_letters(name)) or nearest(name.lower(), [drum.value for drum in Drum])
    return found, f"did you mean {near}?" if near else f"the drums are {', '.join(Drum)}"


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

    def place(self, note: Note, is_feet: bool) -> dict[Side, Drum]:
        """The drum of each hand (or foot) of this slot; its grace notes go there too."""
        drums = {side: self._unruled(side, is_feet) for side in note.sides}
        for number, rule in enumerate(self.pattern.place or ()):
            if rule.foot is not is_feet:
                continue
            sides = [side for side in note.sides if rule.side in (None, side)]
            if rule.level is not None:
                sides = [side for side in sides if note.of(side).level is rule.level]
            if sides:
                # A turn is spent even where a later rule wins.
                turn = self._turns.get(number, 0)
                self._turns[number] = turn + 1
                drums |= {side: rule.drums[turn % len(rule.drums)] for side in sides}
        return drums

    def _unruled(self, side: Side, is_feet: bool) -> Drum:
        if is_feet:
            return Drum.KICK if side is Side.RIGHT else Drum.HI_HAT_FOOT
        alone = self.pattern.feet is None and self.pattern.place is None
        return Drum.PAD if alone else Drum.SNARE
