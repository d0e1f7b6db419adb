"""The texts of a cut, before they have their places: counts, sticking letters, stroke names, drum names."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from wristwork.drawing.counting import group_counts
from wristwork.drawing.lettering import BEAT, GRACE_LETTER, LETTER, NARROW_LETTER, SMALL, width
from wristwork.drawing.linear import FOOT_LETTERS
from wristwork.drawing.score import Cut, Score
from wristwork.drawing.spacing import Extent
from wristwork.drawing.voices import Hit, Struck, Voice
from wristwork.languages.say import say
from wristwork.pattern.alphabet import BUZZ
from wristwork.pattern.model import Drum, Level, Note
from wristwork.technique.strokes import Limb

NARROW_SLOTS = 9
"""Beats of so many slots may have smaller letters, and initials for the names of the strokes."""


class Label(NamedTuple):
    """A text at a moment (beats from the start of its cut), ``shift`` pixels from that column.

    ``marks`` are attributes that tell which stroke it belongs to; ``part`` numbers what belongs together
    and so may move together.
    """

    text: str
    cut_beat: float
    shift: float
    width: float
    css: str = ""
    marks: str = ""
    part: int = 0

    @property
    def extent(self) -> Extent:
        """What it reaches of its column."""
        return Extent(self.cut_beat, self.width / 2 - self.shift, self.width / 2 + self.shift)


@dataclass(frozen=True, slots=True)
class CutLabels:
    """All the texts of one cut, row by row; names and drums by hand.

    ``stays_on`` is the drum that a hand goes on with: it is told where a line begins with this cut.
    """

    count: list[Label]
    sticking: list[Label]
    names: Mapping[Limb, list[Label]] = field(default_factory=dict)
    drums: Mapping[Limb, list[Label]] = field(default_factory=dict)
    stays_on: Mapping[Limb, Drum] = field(default_factory=dict)


HANDS = (Limb.RIGHT_HAND, Limb.LEFT_HAND)


def read_labels(score: Score) -> list[CutLabels]:
    """The texts of every cut."""
    counts = _counts(score)
    drum_labels, staying = _drums(score), _staying(score)
    with_hands = score.pattern.hands is not None
    return [
        CutLabels(
            counts[number],
            _sticking(cut, with_hands),
            {limb: _names(cut.hands, limb, full=True) for limb in HANDS},
            {limb: drum_labels[limb][number] for limb in HANDS},
            staying[number],
        )
        for number, cut in enumerate(score.cuts)
    ]


def _counts(score: Score) -> list[list[Label]]:
    dealt: list[list[Label]] = [[] for _ in score.cuts]
    number = 0
    for start, counted in group_counts(score.counted):
        if not score.pattern.drawn.start <= start < score.pattern.drawn.end:
            continue
        while start >= score.cuts[number].end:
            number += 1
        before = start - score.cuts[number].start
        for at, word, on_beat in counted:
            if score.cuts[number].same and at.denominator > 1:
                continue
            size, css = (BEAT, "ww-strong") if on_beat else (SMALL, "")
            dealt[number].append(Label(word, before + float(at), 0, width(word, size, on_beat), css))
    return dealt


def letter_size(cut: Cut) -> int:
    """Font size of the sticking letters of a cut."""
    return NARROW_LETTER if cut.slots >= NARROW_SLOTS else LETTER


def _sticking(cut: Cut, with_hands: bool) -> list[Label]:
    voice = cut.hands if with_hands else cut.feet
    size = letter_size(cut)
    return [label for part, struck in enumerate(voice.struck) for label in _letters(struck, size, part, with_hands)]


def _letters(struck: Struck, size: int, part: int, with_hands: bool) -> Iterator[Label]:
    """The letters of a note; beside hands, a foot has the letter of its pedal."""
    cut_beat, note, graces, main, other = struck
    if note.left is not None and other is not None:
        yield from _two_letters(struck, other, size, part)
        return
    opening, closing = ("(", ")") if note.level is Level.GHOST else ("", "")
    for hit in graces:
        letter = opening + hit.stroke.limb[0].upper()
        shift = hit.shift - (width(opening, GRACE_LETTER) / 2 if opening else 0)
        opening = ""
        yield Label(letter, cut_beat, shift, width(letter, GRACE_LETTER), "ww-grace", hit.marks, part)
    accented = note.level is Level.ACCENT
    pedal = FOOT_LETTERS.get((main.stroke.limb, main.stroke.on)) if with_hands else None
    text = opening + (pedal or ("B" if note.is_both else note.sides[0].letter)) + closing
    shift = width(closing, size) / 2 if closing and not opening else 0
    css = "ww-accent" if accented else ""
    yield Label(text, cut_beat, shift, width(text, size, accented), css, main.marks, part)


def _two_letters(struck: Struck, left: Hit, size: int, part: int) -> Iterator[Label]:
    """Both letters side by side, for hands that play at once and not alike.

    A buzz of one of them is told here: the z on the stem that they share may belong to either.
    """
    both_alike = len({hand.buzz for hand in struck.note.hands}) == 1
    letters = [_letter(hand, size, "" if both_alike or not hand.buzz else BUZZ) for hand in struck.note.hands]
    x = -sum(wide for _, wide, _ in letters) / 2
    for (text, wide, css), hit in zip(letters, (struck.main, left), strict=True):
        yield Label(text, struck.cut_beat, x + wide / 2, wide, css, hit.marks, part)
        x += wide


def _letter(hand: Note, size: int, mark: str) -> tuple[str, float, str]:
    """The letter of one hand as its level is written, with a mark behind it, its width and its class."""
    text = (f"({hand.sides[0].letter})" if hand.level is Level.GHOST else hand.sides[0].letter) + mark
    accented = hand.level is Level.ACCENT
    return text, width(text, size, accented), "ww-accent" if accented else ""


def _names(voice: Voice, limb: Limb, full: bool) -> list[Label]:
    labels: list[Label] = []
    for stroke, _, cut_beat, shift, marks in voice.hits.get(limb, ()):
        name = say(str(stroke.name)) if full else say(str(stroke.name))[0].upper()
        accented = stroke.level is Level.ACCENT
        css = "ww-accent" if accented else ""
        labels.append(Label(name, cut_beat, shift, width(name, SMALL, accented), css, marks, stroke.event))
    return labels


def initials(cut: Cut) -> dict[Limb, list[Label]]:
    """The names of the strokes by their first letters, for where there is no room."""
    return {limb: _names(cut.hands, limb, full=False) for limb in HANDS}


def parts(labels: Sequence[Label]) -> list[list[Label]]:
    """Labels that belong together (a drag's, a diddle's), in lists."""
    found: list[list[Label]] = []
    for label in labels:
        if found and found[-1][0].part == label.part:
            found[-1].append(label)
        else:
            found.append([label])
    return found


def _drums(score: Score) -> dict[Limb, list[list[Label]]]:
    """For each hand and cut, the name of a drum at each stroke that changes to it."""
    drum: dict[Limb, Drum | None] = dict.fromkeys(HANDS, Drum.PAD if score.one_surface else None)
    found: dict[Limb, list[list[Label]]] = {limb: [] for limb in HANDS}
    for cut in score.cuts:
        for limb in HANDS:
            labels: list[Label] = []
            for stroke, _, cut_beat, shift, _ in cut.hands.hits.get(limb, ()):
                if stroke.on is not drum[limb]:
                    drum[limb] = stroke.on
                    name = say(stroke.on)
                    labels.append(Label(name, cut_beat, shift, width(name, SMALL)))
            found[limb].append(labels)
    return found


def _staying(score: Score) -> list[dict[Limb, Drum]]:
    """For each cut the drums that its hands go on with.

    A line may begin with any cut, and then nobody has to look for the drum on the line before. A hand whose next
    stroke is elsewhere has the name of that drum there.
    """
    found: list[dict[Limb, Drum]] = [{} for _ in score.cuts]
    if score.one_surface:
        return found
    for limb in HANDS:
        played = [[hit.stroke.on for hit in cut.hands.hits.get(limb, ())] for cut in score.cuts]
        coming: list[Drum | None] = [None]
        for drums in reversed(played):
            coming.append(drums[0] if drums else coming[-1])
        last: Drum | None = None
        for staying, drums, ahead in zip(found, played, coming[:0:-1], strict=True):
            if last is not None and ahead is last:
                staying[limb] = last
            last = drums[-1] if drums else last
    return found


def feet_need_letters(score: Score) -> bool:
    """Can the drum not tell which foot plays (both feet on one drum, or the other foot's pedal)?"""
    usual = {(Limb.RIGHT_FOOT, Drum.KICK), (Limb.LEFT_FOOT, Drum.HI_HAT_FOOT), (Limb.LEFT_FOOT, Drum.FOOT_SPLASH)}
    return any((stroke.limb, stroke.on) not in usual for stroke in score.strokes if not stroke.limb.is_hand)


def foot_letters(cut: Cut) -> list[Label]:
    """Small letters for the feet, for where :func:`feet_need_letters`."""
    labels = []
    for part, (cut_beat, note, _, main, _) in enumerate(cut.feet.struck):
        letter = "B" if note.is_both else note.sides[0].letter
        labels.append(Label(letter, cut_beat, 0, width(letter, SMALL), "", main.marks, part))
    return labels
