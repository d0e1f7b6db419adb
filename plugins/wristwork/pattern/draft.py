"""One fence → a draft: everything the fence itself says, before it grows out of another pattern."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import TypeVar

from wristwork.languages.say import say
from wristwork.page.problem import PATTERN, Problem
from wristwork.pattern.changes import Change, read_changes
from wristwork.pattern.chart import Written, read_dynamics, read_sections, read_tempos, read_words
from wristwork.pattern.claims import claimed_ids
from wristwork.pattern.click import read_click
from wristwork.pattern.clicks import PracticeClick
from wristwork.pattern.drum_line import DrumLine, read_drum_line
from wristwork.pattern.fences import Block
from wristwork.pattern.form_lines import (
    WrittenEndings,
    WrittenRepeat,
    read_endings,
    read_pick_up,
    read_repeats,
)
from wristwork.pattern.groups import WrittenLane, read_lane, read_left, read_right
from wristwork.pattern.lines import Entries, Entry, read_entries
from wristwork.pattern.model import DiagramRow, Manner, Place, PlacementRule, Swing, Tempo, TimeSignature
from wristwork.pattern.placement import read_rules
from wristwork.pattern.problems import Report
from wristwork.pattern.settings import (
    LONGEST_ID,
    RESERVED,
    SHORTEST_ID,
    Reader,
    id_from,
    read_feel,
    read_id,
    read_ids,
    read_line,
    read_motion,
    read_repeat,
    read_show,
    read_tempo,
    read_time,
    read_yes_no,
)
from wristwork.pattern.shared import TAKE, with_shared
from wristwork.pattern.text import Value
from wristwork.pattern.video import read_video
from wristwork.pattern.video_span import VideoSpan

T = TypeVar("T")
BAR_KEYS = ("repeats", "endings", "sections", "text", "dynamics", "tempos")
"""Keys of what stands at certain bars."""
_CAN_BE_NONE = ("feet", "place", "drums", "pick-up", *BAR_KEYS)
HAND_KEYS = ("hands", "right", "left")


@dataclass(frozen=True, slots=True)
class Draft:
    """What one fence says. A value that is not written (or not readable) is None.

    ``dropped`` holds the keys written as ``none``, ``unread`` those whose value has an error;
    ``entries`` all that was written, for their places; ``is_valid`` is false where the text has an error.
    """

    path: str
    block: Block
    entries: dict[str, Entry]
    report: Report = field(compare=False, repr=False)
    id: str | None = None
    id_from_title: bool = False
    title: str | None = None
    time: TimeSignature | None = None
    tempo: Tempo | None = None
    feel: Swing | None = None
    hands: WrittenLane | None = None
    right: WrittenLane | None = None
    left: WrittenLane | None = None
    feet: WrittenLane | None = None
    placement: tuple[PlacementRule, ...] | None = None
    drums: DrumLine | None = None
    repeat: int | None = None
    loop: bool | None = None
    pickup: int | None = None
    repeats: tuple[WrittenRepeat, ...] = ()
    endings: tuple[WrittenEndings, ...] = ()
    sections: tuple[Written, ...] = ()
    text: tuple[Written, ...] = ()
    dynamics: tuple[Written, ...] = ()
    tempos: tuple[Written, ...] = ()
    motion: Manner | None = None
    click: PracticeClick | None = None
    show: tuple[DiagramRow, ...] | None = None
    example: bool = False
    grows_from: str | None = None
    changes: tuple[Change, ...] = ()
    requires: tuple[Value, ...] = ()
    note: str | None = None
    video: VideoSpan | None = None
    dropped: frozenset[str] = frozenset()
    unread: frozenset[str] = frozenset()

    @property
    def is_valid(self) -> bool:
        return not self.report.problems

    @property
    def claims(self) -> frozenset[str]:
        """The ids that the text seems to give itself, where an error keeps the real one from being known."""
        return frozenset() if self.is_valid else claimed_ids(self.block.text)

    @property
    def problems(self) -> tuple[Problem, ...]:
        """What is wrong in it."""
        return tuple(self.report.problems)

    @property
    def lanes(self) -> tuple[WrittenLane, ...]:
        """The lanes that are written and readable, hands before feet."""
        return tuple(lane for lane in (self.hands, self.right, self.left, self.feet) if lane is not None)

    def place_of(self, *keys: str) -> Place:
        """Where the value of the first of these keys that is written stands; else the fence."""
        for key in keys:
            if key in self.entries:
                return self.entries[key].value.place()
        return self.block.place

    def problem(self, place: Place, found: str, remedy: str, kind: str = PATTERN) -> Problem:
        return self.report.problem(place, found, remedy, kind)


def read_draft(path: str, block: Block, library: Mapping[str, Draft] = MappingProxyType({})) -> Draft:
    """Read one fence; its errors are in the draft's report. ``library`` are the exercises that it may take, by id."""
    lines = {line.number: line for line in (block.fence, *block.lines)}
    report = Report(path, lines)
    if block.fault is not None:
        report.add(block.fault.place, block.fault.found, block.fault.remedy)
        return Draft(path, block, {}, report)
    if block.extra:
        report.add(
            block.fence.place(block.fence.text.rindex(block.extra)),
            say("'{typed}' after the word pattern", typed=block.extra),
            say("nothing stands there: settings go into lines of their own, as in title: …"),
        )
    entries = with_shared(read_entries(block.lines, report), library, report)
    draft = _read_values(path, block, entries, report)
    _check_whole(draft, entries.meant, report)
    report.named(draft.id or draft.title or _typed_id(draft))
    return draft


def _typed_id(draft: Draft) -> str | None:
    entry = draft.entries.get("id")
    return entry.value.text if entry else None


class _Values:
    """Reads the values of a fence and notes the keys of those with an error."""

    def __init__(self, entries: Entries, report: Report) -> None:
        self._entries = entries
        self._report = report
        self.unread = {*entries.spoiled, *entries.meant}
        by_key = entries.by_key
        self.dropped = frozenset(
            key for key in _CAN_BE_NONE if key in by_key and by_key[key].value.text.lower() == "none"
        )

    def read(self, key: str, reader: Reader[T]) -> T | None:
        """The value of a key, or None where it is not written, written as ``none``, or has an error."""
        entry = self._entries.by_key.get(key)
        if entry is None or key in self._entries.spoiled or key in self.dropped:
            return None
        value = reader(entry.value, self._report)
        if value is None:
            self.unread.add(key)
        return value


def _read_values(path: str, block: Block, read_lines: Entries, report: Report) -> Draft:
    """The draft of a fence's entries; a value with an error is left out and its key noted as unread."""
    entries = read_lines.by_key
    values = _Values(read_lines, report)
    read = values.read
    example = bool(read("example", read_yes_no))
    title = read("title", read_line)
    typed_id = read("id", read_id)
    from_title = "id" not in entries and not example and title is not None
    draft = Draft(
        path=path,
        block=block,
        entries=entries,
        report=report,
        id=_id_of(title) if from_title and title is not None else typed_id,
        id_from_title=from_title,
        title=title,
        time=read("time", read_time),
        tempo=read("tempo", read_tempo),
        feel=read("feel", read_feel),
        hands=read("hands", read_lane),
        right=read("right", read_right),
        left=read("left", read_left),
        feet=read("feet", read_lane),
        placement=read("place", read_rules),
        drums=read("drums", read_drum_line),
        repeat=read("repeat", read_repeat),
        loop=read("loop", read_yes_no),
        pickup=read("pick-up", read_pick_up),
        repeats=read("repeats", read_repeats) or (),
        endings=read("endings", read_endings) or (),
        sections=read("sections", read_sections) or (),
        text=read("text", read_words) or (),
        dynamics=read("dynamics", read_dynamics) or (),
        tempos=read("tempos", read_tempos) or (),
        motion=read("motion", read_motion),
        click=read("click", read_click),
        show=read("show", read_show),
        example=example,
        grows_from=read("from", read_id),
        changes=read("change", read_changes) or (),
        requires=read("requires", read_ids) or (),
        note=read("note", read_line),
        video=read("video", read_video),
        dropped=values.dropped,
    )
    return replace(draft, unread=frozenset(values.unread))


def _id_of(title: str) -> str | None:
    """The id that a title makes, None where that would be too short or too long."""
    made = id_from(title)
    return made if SHORTEST_ID <= len(made) <= LONGEST_ID and made not in RESERVED else None


def _check_whole(draft: Draft, meant: frozenset[str], report: Report) -> None:
    """What must stand in every pattern, and what must not stand together.

    ``meant`` are the keys that a mistyped line probably stands for.
    """
    fence, entries = draft.block.place, draft.entries
    if draft.example:
        for key in ("id", "requires"):
            if key in entries:
                report.add(
                    entries[key].place,
                    say("{key}: in an example, which is no exercise", key=key),
                    say("take out {key}:, or example: yes", key=key),
                )
    elif "title" not in {*entries, *meant}:
        report.add(fence, say("no title"), say("add a line such as title: Accented paradiddle"))
    elif draft.id_from_title and draft.id is None:
        report.add(
            draft.place_of("title"),
            say("a title from which no id can be made"),
            say(
                "write one, of {fewest} to {most} lower-case letters, digits and hyphens: id: my-exercise",
                fewest=SHORTEST_ID,
                most=LONGEST_ID,
            ),
        )
    if not {*HAND_KEYS, "feet", "from"} & {*entries, *meant}:
        report.add(fence, say("neither hands nor feet"), say("add a line such as hands: RLRL RLRL RLRL RLRL"))
    elif "feet" in draft.dropped and not {*HAND_KEYS, "from"} & {*entries, *meant}:
        report.add(draft.place_of("feet"), say("no hands and no feet"), say("write hands: or groups for the feet"))
    parts = [entries[key] for key in ("right", "left") if key in entries]
    if "hands" in entries and parts:
        report.add(
            parts[0].place,
            say("{key}: beside hands:, which holds both hands", key=parts[0].key),
            say("write both hands in hands:, or each in a line of its own: right: and left:"),
        )
    if "change" in entries and not {"from", TAKE} & entries.keys():
        report.add(
            entries["change"].place,
            say("change: without from:"),
            say("name the exercise that this one grows out of: from: its-id"),
        )
    own = draft.id
    for part in draft.requires:
        if own is not None and part.text == own:
            report.add(part.place(), say("an exercise that requires itself"), say("take it out of requires:"))
