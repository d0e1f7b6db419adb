import pytest

from wristwork.drawing.beams import beam_parts, runs
from wristwork.drawing.score import read_score
from wristwork.pattern import read_one


def beams(hands: str, time: str = "4/4") -> list[list[tuple[int, int, int, int]]]:
    """For each beat's beams: level, first and last note, where a stub points."""
    score = read_score(read_one(f"title: Beams\ntime: {time}\nhands: {hands}"))
    found = []
    for cut in score.cuts:
        for run in runs(cut.hands):
            if run.beamed:
                parts = beam_parts(run)
                found.append([(part.level, part.first, part.last, part.points) for part in parts])
    return found


@pytest.mark.parametrize(
    ("hands", "time", "parts"),
    [
        ("RLRL R R R", "4/4", [[(1, 0, 3, 0), (2, 0, 3, 0)]]),
        ("R-LR R R R", "4/4", [[(1, 0, 2, 0), (2, 1, 2, 0)]]),
        ("RL-R R R R", "4/4", [[(1, 0, 2, 0), (2, 0, 0, 1), (2, 2, 2, -1)]]),
        ("R--L R R R", "4/4", [[(1, 0, 1, 0), (2, 1, 1, -1)]]),
        ("RL-- R R R", "4/4", [[(1, 0, 1, 0), (2, 0, 0, 1)]]),
        ("R..L R R R", "4/4", [[(1, 0, 1, 0), (2, 0, 1, 0)]]),
        ("RLRLRLRL R R R", "4/4", [[(1, 0, 7, 0), (2, 0, 3, 0), (2, 4, 7, 0), (3, 0, 3, 0), (3, 4, 7, 0)]]),
        ("RLRLRL R", "6/8", [[(1, 0, 5, 0), (2, 0, 5, 0)]]),
        ("R-LR-- R", "6/8", [[(1, 0, 2, 0), (2, 1, 1, 1)]]),
        ("R--LR- R", "6/8", [[(1, 0, 2, 0), (2, 1, 1, -1)]]),
        ("R-L R R R", "4/4", []),
        ("RLRL over 2 R R", "4/4", [[(1, 0, 1, 0)], [(1, 0, 1, 0)]]),
        ("RLRLR over 2 R R", "4/4", [[(1, 0, 4, 0)]]),
        ("R{LRL} R R R", "4/4", [[(1, 0, 3, 0), (2, 1, 3, 0)]]),
        ("{LRL}R R R R", "4/4", [[(1, 0, 3, 0), (2, 0, 2, 0)]]),
        ("{LRL}{RLR} R R R", "4/4", [[(1, 0, 5, 0), (2, 0, 2, 0), (2, 3, 5, 0)]]),
        ("R{L-L} R R R", "4/4", [[(1, 0, 2, 0), (2, 2, 2, -1)]]),
        ("RLR{LRL} R R R", "4/4", [[(1, 0, 5, 0), (2, 0, 1, 0), (2, 2, 5, 0), (3, 3, 5, 0)]]),
        ("RLRLRLRLRLRL R R R", "4/4", [[(level, 0, 11, 0) for level in (1, 2, 3)]]),
        (
            "RLRLRLRLRLRL R",
            "6/8",
            [[(1, 0, 11, 0), *((level, first, first + 3, 0) for level in (2, 3) for first in (0, 4, 8))]],
        ),
        ("{R-L}{RLR} R R R", "4/4", [[(1, 0, 4, 0), (2, 1, 1, -1), (2, 2, 4, 0)]]),
        ("R {LRL}{RLR} R R", "4/4", [[(1, 0, 5, 0), (2, 0, 2, 0), (2, 3, 5, 0)]]),
        ("R{R-LR-} R R R", "4/4", [[(1, 0, 3, 0), (2, 1, 3, 0), (3, 2, 2, 1)]]),
        ("R R{R--LR--} R R", "4/4", [[(1, 0, 3, 0), (2, 1, 3, 0), (3, 2, 2, -1)]]),
        ("RLR LRL RLRL R", "4/4", [[(1, 0, 2, 0)], [(1, 0, 2, 0)], [(1, 0, 3, 0), (2, 0, 3, 0)]]),
        (
            "RLRL.RL- R R R",
            "4/4",
            [[(1, 0, 5, 0), (2, 0, 3, 0), (2, 4, 5, 0), (3, 0, 3, 0), (3, 4, 4, 1)]],
        ),
        (
            "R R RLRLRLRL R",
            "4/4",
            [[(1, 0, 7, 0), (2, 0, 3, 0), (2, 4, 7, 0), (3, 0, 3, 0), (3, 4, 7, 0)]],
        ),
        (
            "R R-LR-R-R R R",
            "4/4",
            [[(1, 0, 4, 0), (2, 0, 2, 0), (2, 3, 4, 0), (3, 1, 1, 1), (3, 4, 4, -1)]],
        ),
        ("{RLRLR}{LR} R R R", "4/4", [[(1, 0, 6, 0), (2, 0, 4, 0), (2, 5, 6, 0), (3, 0, 4, 0)]]),
    ],
)
def test_beams_join_the_notes_of_a_beat_and_stubs_point_into_it(hands, time, parts):
    assert beams(hands, time) == parts


@pytest.mark.parametrize(
    ("hands", "covers"), [("RLR R R R", True), ("R.L R R R", True), (".LR R R R", False), ("R-L R R R", False)]
)
def test_a_tuplet_is_covered_where_one_beam_holds_all_of_it(hands, covers):
    score = read_score(read_one(f"title: Tuplets\nhands: {hands}"))
    assert [run.covers for run in runs(score.cuts[0].hands)] == [covers]


def test_runs_start_where_their_beats_do_counted_from_the_start_of_their_cut():
    bars = " | ".join(["RLRL RLRL RLRL RLRL"] * 4)
    score = read_score(read_one(f"title: Beams\nhands: {bars}"))
    assert len(score.cuts) > 1
    for cut in score.cuts:
        starts = [run.starts for run in runs(cut.hands)]
        assert starts == list(range(len(starts)))


@pytest.mark.parametrize(
    ("hands", "covers"),
    [("RLR R R R", True), ("RL. R R R", False), (".RL R R R", False), ("R.. R R R", False), ("R.L R R R", True)],
)
def test_a_beam_covers_its_group_where_no_rest_stands_at_an_end(hands, covers):
    score = read_score(read_one(f"title: Beams\nhands: {hands}"))
    assert runs(score.cuts[0].hands)[0].covers is covers
