"""The rudiment library against a second table, typed on its own in another form.

The table below spells every stroke out: no slashes, no groups, no beats. Read a line as a drummer
reads it aloud:

    R  L       one stroke, one unit long        R4     the same, held for four units
    R!         an accent                        [ll]R  grace notes, then the main note
    R~         a buzz                           x4     four units of silence

A unit is whatever the figure divides into evenly, so the table says nothing about note values and
the library may write a figure as often as it likes: compared are hands, accents, grace notes, and
the proportions of time.
"""

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path

import pytest

from wristwork.pattern import Pattern, read_course
from wristwork.pattern.model import Level
from wristwork.technique.strokes import Kind, Limb, strokes

ROLLS, DIDDLES, FLAMS, DRAGS = "rolls", "diddles", "flams", "drags"


@dataclass(frozen=True)
class Rudiment:
    family: str
    name: str
    figure: str
    changes_lead: bool

    @property
    def id(self) -> str:
        return re.sub(r"[^a-z0-9]+", "-", self.name.lower()).strip("-")


def alternating(family: str, name: str, figure: str) -> Rudiment:
    """Hand to hand: the second half is the first half with the hands changed over."""
    return Rudiment(family, name, figure, changes_lead=True)


def one_lead(family: str, name: str, figure: str) -> Rudiment:
    """The figure comes round on the hand it began with; only the right lead is written."""
    return Rudiment(family, name, figure, changes_lead=False)


TABLE = (
    # Rolls of single strokes.
    alternating(ROLLS, "Single stroke roll", "R L"),
    one_lead(ROLLS, "Single stroke four", "R L R L3"),
    alternating(ROLLS, "Single stroke seven", "R L R L R L R6  L R L R L R L6"),
    # Rolls of bounces.
    alternating(ROLLS, "Multiple bounce roll", "R~ L~"),
    alternating(ROLLS, "Triple stroke roll", "R R R L L L"),
    # Rolls of doubles. A unit is one of the two strokes of a double.
    alternating(ROLLS, "Double stroke open roll", "R R L L"),
    alternating(ROLLS, "Five stroke roll", "R R L L R!4  L L R R L!4"),
    one_lead(ROLLS, "Six stroke roll", "R!2 L L R R L!2"),
    one_lead(ROLLS, "Seven stroke roll", "R R L L R R L!2"),
    alternating(ROLLS, "Nine stroke roll", "R R L L R R L L R!8  L L R R L L R R L!8"),
    one_lead(ROLLS, "Ten stroke roll", "R R L L R R L L R!2 L!6"),
    one_lead(ROLLS, "Eleven stroke roll", "R R L L R R L L R R L!6"),
    alternating(ROLLS, "Thirteen stroke roll", "R R L L R R L L R R L L R!4  L L R R L L R R L L R R L!4"),
    one_lead(ROLLS, "Fifteen stroke roll", "R R L L R R L L R R L L R R L!2"),
    alternating(
        ROLLS,
        "Seventeen stroke roll",
        "R R L L R R L L R R L L R R L L R!8 x8  L L R R L L R R L L R R L L R R L!8 x8",
    ),
    # Diddles.
    alternating(DIDDLES, "Single paradiddle", "R! L R R  L! R L L"),
    alternating(DIDDLES, "Double paradiddle", "R! L R L R R  L! R L R L L"),
    alternating(DIDDLES, "Triple paradiddle", "R! L R L R L R R  L! R L R L R L L"),
    one_lead(DIDDLES, "Single paradiddle-diddle", "R! L R R L L"),
    # Flams.
    alternating(FLAMS, "Flam", "[l]R [r]L"),
    alternating(FLAMS, "Flam accent", "[l]R! L R  [r]L! R L"),
    alternating(FLAMS, "Flam tap", "[l]R! R  [r]L! L"),
    alternating(FLAMS, "Flamacue", "[l]R L! R L [l]R4  [r]L R! L R [r]L4"),
    alternating(FLAMS, "Flam paradiddle", "[l]R! L R R  [r]L! R L L"),
    alternating(FLAMS, "Single flammed mill", "[l]R! R L R  [r]L! L R L"),
    alternating(FLAMS, "Flam paradiddle-diddle", "[l]R! L R R L L  [r]L! R L L R R"),
    one_lead(FLAMS, "Pataflafla", "[l]R! L R [r]L!"),
    one_lead(FLAMS, "Swiss army triplet", "[l]R! R L"),
    alternating(FLAMS, "Inverted flam tap", "[l]R! L [r]L! R"),
    alternating(FLAMS, "Flam drag", "[l]R!2 L L R2  [r]L!2 R R L2"),
    # Drags.
    alternating(DRAGS, "Drag", "[ll]R [rr]L"),
    alternating(DRAGS, "Single drag tap", "[ll]R L!  [rr]L R!"),
    alternating(DRAGS, "Double drag tap", "[ll]R [ll]R L!  [rr]L [rr]L R!"),
    one_lead(DRAGS, "Lesson 25", "[ll]R L R!2"),
    alternating(DRAGS, "Single dragadiddle", "R! R L2 R2 R2  L! L R2 L2 L2"),
    alternating(DRAGS, "Drag paradiddle #1", "R!2 [ll]R L R R  L!2 [rr]L R L L"),
    alternating(DRAGS, "Drag paradiddle #2", "R!2 [ll]R2 [ll]R L R R  L!2 [rr]L2 [rr]L R L L"),
    alternating(DRAGS, "Single ratamacue", "[ll]R L R L!3  [rr]L R L R!3"),
    alternating(DRAGS, "Double ratamacue", "[ll]R3 [ll]R L R L!3  [rr]L3 [rr]L R L R!3"),
    alternating(DRAGS, "Triple ratamacue", "[ll]R3 [ll]R3 [ll]R L R L!3  [rr]L3 [rr]L3 [rr]L R L R!3"),
)

LIBRARY = Path(__file__).parents[2] / "seeds" / "rudiments" / "docs"
PAGES = {path.name: path.read_text(encoding="utf-8") for path in sorted(LIBRARY.glob("*.md"))}
COURSE = read_course(PAGES)

SPELLED = re.compile(r"(?:\[(?P<graces>[rl]+)\])?(?P<letter>[RLx])(?P<marks>[!~]*)(?P<units>\d*)")
SIDES = {"R": Limb.RIGHT_HAND, "L": Limb.LEFT_HAND}

# Strokes a second in one hand. Rapid tapping of a single hand is limited to 5 to 7; a rebound comes on top.
FASTEST_MEAN = 7.0


@dataclass(frozen=True)
class Struck:
    """One main stroke: onset and length as shares of the whole figure."""

    at: Fraction
    length: Fraction
    hand: Limb
    accented: bool
    buzz: bool
    graces: tuple[Limb, ...]


def spelled(figure: str) -> tuple[Struck, ...]:
    """The strokes of a line of the table."""
    words = [SPELLED.fullmatch(word) for word in figure.split()]
    units = [int(word["units"] or 1) for word in words]
    found = []
    for index, word in enumerate(words):
        if word["letter"] == "x":
            continue
        found.append(
            Struck(
                at=Fraction(sum(units[:index]), sum(units)),
                length=Fraction(units[index], sum(units)),
                hand=SIDES[word["letter"]],
                accented="!" in word["marks"],
                buzz="~" in word["marks"],
                graces=tuple(SIDES[letter.upper()] for letter in word["graces"] or ""),
            )
        )
    return tuple(found)


def worked_out(pattern: Pattern) -> tuple[Struck, ...]:
    """The strokes that the library's text means, with grace notes gathered into their main note."""
    found = []
    graces: list[Limb] = []
    for stroke in strokes(pattern):
        if stroke.kind is Kind.GRACE:
            graces.append(stroke.limb)
            continue
        assert stroke.level is not Level.GHOST
        found.append(
            Struck(
                at=stroke.at / pattern.beats,
                length=stroke.length / pattern.beats,
                hand=stroke.limb,
                accented=stroke.level is Level.ACCENT,
                buzz=stroke.kind is Kind.BUZZ,
                graces=tuple(graces),
            )
        )
        graces = []
    return tuple(found)


def repeated(figure: tuple[Struck, ...], times: int) -> tuple[Struck, ...]:
    """The figure played several times over in the same span."""
    return tuple(
        replace(stroke, at=(stroke.at + turn) / times, length=stroke.length / times)
        for turn in range(times)
        for stroke in figure
    )


def mirrored(figure: tuple[Struck, ...]) -> tuple[Struck, ...]:
    """The figure with the hands changed over."""
    other = {Limb.RIGHT_HAND: Limb.LEFT_HAND, Limb.LEFT_HAND: Limb.RIGHT_HAND}
    return tuple(
        replace(stroke, hand=other[stroke.hand], graces=tuple(other[hand] for hand in stroke.graces))
        for stroke in figure
    )


def second_half_first(figure: tuple[Struck, ...]) -> tuple[Struck, ...]:
    """The figure begun in its middle."""
    turned = (replace(stroke, at=(stroke.at + Fraction(1, 2)) % 1) for stroke in figure)
    return tuple(sorted(turned, key=lambda stroke: stroke.at))


def text_after(pattern_id: str) -> str:
    """The prose between this rudiment's fence and the next heading."""
    fence = COURSE.exercises[pattern_id]
    lines = PAGES[fence.path].splitlines()[fence.place.line :]
    prose = lines[lines.index("```") + 1 :]
    headings = [index for index, line in enumerate(prose) if line.startswith("#")]
    return " ".join(prose[: headings[0] if headings else None]).strip()


every_rudiment = pytest.mark.parametrize("rudiment", TABLE, ids=[rudiment.id for rudiment in TABLE])


def test_the_library_reads_without_a_problem():
    assert [str(problem) for problem in COURSE.problems] == []
    assert [str(warning) for warning in COURSE.warnings] == []


def test_there_are_forty_in_four_families():
    assert len(TABLE) == 40
    by_family = [(fence.path.removesuffix(".md"), name) for name, fence in COURSE.exercises.items()]
    assert sorted(by_family) == sorted((rudiment.family, rudiment.id) for rudiment in TABLE)


@pytest.mark.parametrize("family", [ROLLS, DIDDLES, FLAMS, DRAGS])
def test_each_family_stands_in_the_order_of_the_list(family):
    on_page = [fence.pattern.id for fence in COURSE.on_page(f"{family}.md")]
    assert on_page == [rudiment.id for rudiment in TABLE if rudiment.family == family]


@every_rudiment
def test_title_is_the_trade_name(rudiment):
    assert COURSE.exercises[rudiment.id].pattern.title == rudiment.name


@every_rudiment
def test_strokes_agree_with_the_second_table(rudiment):
    figure = spelled(rudiment.figure)
    library = worked_out(COURSE.exercises[rudiment.id].pattern)
    assert len(library) % len(figure) == 0
    assert library == repeated(figure, len(library) // len(figure))


@every_rudiment
def test_both_leads_are_written_where_the_lead_changes(rudiment):
    # The library plays this figure whole (the test above), so what holds for it holds there.
    figure = spelled(rudiment.figure)
    assert (mirrored(second_half_first(figure)) == figure) is rudiment.changes_lead


COUNTED = {
    "single-stroke-four": 4,
    "five-stroke-roll": 5,
    "six-stroke-roll": 6,
    "single-stroke-seven": 7,
    "seven-stroke-roll": 7,
    "nine-stroke-roll": 9,
    "ten-stroke-roll": 10,
    "eleven-stroke-roll": 11,
    "thirteen-stroke-roll": 13,
    "fifteen-stroke-roll": 15,
    "seventeen-stroke-roll": 17,
}


@pytest.mark.parametrize("name", COUNTED)
def test_counted_rolls_have_the_strokes_of_their_name(name):
    rudiment = next(rudiment for rudiment in TABLE if rudiment.id == name)
    halves = 2 if rudiment.changes_lead else 1
    assert len(spelled(rudiment.figure)) == COUNTED[name] * halves


@every_rudiment
def test_tempo_climbs_by_whole_steps_to_a_goal_that_hands_can_play(rudiment):
    pattern = COURSE.exercises[rudiment.id].pattern
    tempo = pattern.tempo
    assert tempo.start < tempo.goal
    assert (tempo.goal - tempo.start) % tempo.step == 0
    played = strokes(pattern)
    for hand in SIDES.values():
        in_hand = sum(1 for stroke in played if stroke.limb is hand)
        assert in_hand * tempo.goal / 60 / pattern.beats <= FASTEST_MEAN


@every_rudiment
def test_says_what_it_trains_and_how_it_goes(rudiment):
    note = COURSE.exercises[rudiment.id].pattern.note
    assert note.startswith("Trains ")
    assert note.endswith(".")
    assert len(note) <= 90
    assert 1 <= len(re.findall(r"[.!?](?=\s|$)", text_after(rudiment.id))) <= 4


def test_no_sentence_stands_twice():
    sentences = [
        sentence
        for rudiment in TABLE
        for sentence in (
            COURSE.exercises[rudiment.id].pattern.note,
            *re.split(r"(?<=[.!?])\s+", text_after(rudiment.id)),
        )
    ]
    assert len(sentences) == len(set(sentences))
