"""A whole course: keys, ids, growing, changes, and how errors are told."""

from textwrap import dedent

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.strategies import pattern_texts
from wristwork.pattern import read_course, read_one
from wristwork.pattern.model import DiagramRow, Tempo
from wristwork.pattern.write import lane_text


def course(*fences, path="docs/week-01.md"):
    text = "\n\n".join(f"```pattern\n{dedent(fence).strip()}\n```" for fence in fences)
    return read_course({path: text})


def hands(read, name):
    return lane_text(read.exercises[name].pattern.hands)


def test_an_error_is_told_with_file_line_column_caret_and_remedy():
    page = "---\nweek: 3\n---\n\n# Week\n\n```pattern\nid: accented-paradiddle\ntitle: One\nhands: R>LRR >RLL\n```\n"
    (problem,) = read_course({"docs/week-03.md": page}).problems
    assert str(problem) == (
        "docs/week-03.md:10:14: pattern 'accented-paradiddle': an accent mark with no stroke before it\n"
        "    hands: R>LRR >RLL\n"
        "                 ^ put the letter first: R> or L>"
    )


def test_a_nested_error_counts_columns_of_the_file():
    page = "- Item\n\n\t```pattern\n\ttitle: One\n\thands: RL x\n\t```\n"
    (problem,) = read_course({"a.md": page}).problems
    assert (problem.line, problem.column) == (5, 12)
    assert str(problem).splitlines()[1:] == [
        "    hands: RL x",
        "              ^ strokes are R, L and B, a rest is ., a held slot is -",
    ]


def test_carets_stand_under_wide_letters_and_in_long_lines():
    (problem,) = course("title: One\nhands: " + "RL " * 100 + "x").problems
    shown, caret = str(problem).splitlines()[1:]
    assert shown[caret.index("^")] == "x"
    assert len(shown) < 120
    (wide,) = course("title: One\nhands: RL\nplace: 左手 on 鼓").problems[1:]
    assert str(wide).splitlines()[2].index("^") == len("    place: ") + 4 + len(" on ")


LINES = [
    ("title: One\nhand: RL", 3, 1, "an unknown key 'hand'", "did you mean hands:?"),
    ("title: One\nTitle: Two\nhands: RL", 3, 1, "an unknown key 'Title'", "did you mean title:?"),
    ("title: One\nhands: RL\nhands: RL", 4, 1, "the key hands a second time (it stands in line 3 already)", "keep one"),
    ("title: One\nhands: RL\nRLRL", 4, 1, "a line that is not key: value", "put hands: in front"),
    ("title: One\nhands: RL\nhello there", 4, 1, "a line that is not key: value", "write it as key: value"),
    ("title: One\nhands:", 3, 1, "nothing stands after hands:", "take out hands:"),
    ("title:\nhands: RL", 2, 1, "nothing stands after title:", "take out title:"),
    ("hands: RL", 1, 1, "no title", "title:"),
    ("title: One", 1, 1, "neither hands nor feet", "hands:"),
    ("title: One\nfeet: none", 3, 7, "no hands and no feet", "hands:"),
    ("title: One\nid: X_y\nhands: RL", 3, 5, "'X_y' is no id", "write x-y"),
    ("title: One\nid: ab\nhands: RL", 3, 5, "an id of 2 characters", "longer"),
    ("title: One\nid: a--b\nhands: RL", 3, 5, "'a--b' is no id", "a-b"),
    (f"title: One\nid: {'a' * 49}\nhands: RL", 3, 5, "an id of 49 characters", "shorter"),
    ("title: Oh\nhands: RL", 2, 8, "a title from which no id can be made", "id: my-exercise"),
    ("title: أهلا وسهلا\nhands: RL", 2, 8, "a title from which no id can be made", "id: my-exercise"),
    ("title: One\nhands: RL\ntime: 4", 4, 7, "'4' is no time signature", "4/4"),
    ("title: One\nhands: RL\ntime: 4/3", 4, 9, "3 as the lower number", "2, 4, 8 and 16"),
    ("title: One\nhands: RL\ntime: 0/4", 4, 7, "0 as the upper number", "1 to 32"),
    ("title: One\nhands: RL\ntempo: fast", 4, 8, "'fast' is no tempo", "60 to 100 by 4"),
    ("title: One\nhands: RL\ntempo: 60-100", 4, 8, "'60-100' is no tempo", "60 to 100"),
    ("title: One\nhands: RL\ntempo: 60 to 321", 4, 14, "a tempo of 321", "20 to 320"),
    ("title: One\nhands: RL\ntempo: 19", 4, 8, "a tempo of 19", "20 to 320"),
    ("title: One\nhands: RL\ntempo: 90 to 60", 4, 14, "a goal of 60 below the start of 90", "60 to 90"),
    ("title: One\nhands: RL\ntempo: 60 to 90 by 0", 4, 20, "a step of 0", "1 to 100"),
    ("title: One\nhands: RL\nrepeat: 17", 4, 9, "'17' is no number of times", "1 to 16"),
    ("title: One\nhands: RL\nrepeat: ²", 4, 9, "'²' is no number of times", "1 to 16"),
    ("title: One\nhands: RL\nloop: maybe", 4, 7, "neither yes nor no", "yes or no"),
    ("title: One\nhands: RL\nmotion: whipped", 4, 9, "no way to move", "write wrist or whip"),
    ("title: One\nhands: RL\nshow: counts, heights", 4, 7, "no row is called 'counts'", "did you mean count?"),
    ("title: One\nhands: RL\nplace: left in snare", 4, 8, "no placement rule", "WHO on WHERE"),
    ("title: One\nhands: RL\nplace: lefty on snare", 4, 8, "'lefty' is nobody", "did you mean left?"),
    ("title: One\nhands: RL\nplace: left on hihat", 4, 16, "no drum is called 'hihat'", "did you mean hi-hat?"),
    ("title: One\nhands: RL\nplace: left on ride then tom", 4, 26, "no drum is called 'tom'", "tom?"),
    ("title: One\nhands: RL\nplace: left on ride,", 4, 21, "a comma with no placement rule", "take out"),
    ("title: One\nhands: RL\nchange: accents off", 4, 1, "change: without from:", "from: its-id"),
    ("title: One\nhands: RL\nrequires: nobody", 4, 11, "'nobody' is not an exercise", "id"),
    ("title: One\nid: one\nhands: RL\nrequires: one", 5, 11, "requires itself", "requires:"),
    ("title: One\nhands: RL\nfrom: nobody", 4, 7, "'nobody' is not an exercise of this course (one → nobody)", "id"),
    ("example: yes\nid: one\nhands: RL", 3, 1, "id: in an example", "take out id:"),
    ("example: yes\nrequires: one\nhands: RL", 3, 1, "requires: in an example", "take out requires:"),
    ("title: a\x01b\nhands: RL\nid: one", 2, 9, "can't be shown (U+0001)", "take it out"),
]  # fmt: skip


@pytest.mark.parametrize(("fence", "line", "column", "found", "remedy"), LINES, ids=[each[3] for each in LINES])
def test_what_is_wrong_in_a_line(fence, line, column, found, remedy):
    problems = read_course({"a.md": f"```pattern\n{fence}\n```"}).problems
    told = {(p.line, p.column): p for p in problems}
    assert (line, column) in told, [str(p) for p in problems]
    assert found in told[line, column].found
    assert remedy in told[line, column].remedy


def test_an_indented_first_line_is_an_error():
    (problem,) = read_course({"a.md": "```pattern\n  hands: RL\ntitle: One\nfeet: R\n```"}).problems
    assert "no line above it" in problem.found


def test_words_after_the_fence_are_an_error():
    (problem,) = read_course({"a.md": "```pattern wide\ntitle: One\nhands: RL\n```"}).problems
    assert (problem.line, problem.column) == (1, 12)


def test_comments_blank_lines_and_values_that_carry_on():
    read = course("""
        # a comment: with a colon
        title: One

        hands: R>LRR
          # not part of the value
          L>RLL

          | RLRL
            LRLR
        """)
    assert not read.problems
    assert lane_text(read.exercises["one"].pattern.hands) == "R>LRR L>RLL RLRL LRLR"


def test_an_error_in_a_line_that_carries_on():
    (problem,) = read_course({"a.md": "```pattern\ntitle: One\nhands: RL\n   RL x\n```"}).problems
    assert (problem.line, problem.column) == (4, 7)


def test_values_that_are_not_written():
    pattern = read_one("title: One\nhands: RL")
    assert (pattern.tempo, pattern.repeat, pattern.loop, pattern.show) == (Tempo(60, 60, 4), 1, True, None)


def test_every_value_is_read():
    pattern = read_one(
        "title: One\nid: one-a\ntempo: 60 to 100 by 5\nhands: RL\nrepeat: 3\nloop: no\n"
        "show: names, count\nnote: Go easy."
    )
    assert (pattern.id, pattern.tempo, pattern.repeat, pattern.loop) == ("one-a", Tempo(60, 100, 5), 3, False)
    assert pattern.show == (DiagramRow.COUNT, DiagramRow.NAMES)
    assert pattern.note == "Go easy."


def test_an_id_made_from_the_title_is_warned_about():
    read = course("title: Más Rápido, 2!\nhands: RL")
    assert list(read.exercises) == ["mas-rapido-2"]
    (warning,) = read.warnings
    assert "address follows the title" in warning.found
    assert "id: mas-rapido-2" in warning.remedy


def test_an_id_taken_twice_names_the_first_place():
    read = read_course({
        "docs/a.md": "```pattern\nid: same\ntitle: One\nhands: RL\n```",
        "docs/b.md": "text\n\n```pattern\ntitle: Same\nhands: RL\n```\n\n"
                     "```pattern\nid: same\ntitle: Two\nhands: RL\n```",
    })  # fmt: skip
    assert [(p.where, p.found) for p in read.problems] == [
        ("docs/b.md:4:8", "the id 'same' is taken by the pattern in docs/a.md:1"),
        ("docs/b.md:9:5", "the id 'same' is taken by the pattern in docs/a.md:1"),
    ]


PARENT = """
    id: parent
    title: Parent
    tempo: 70 to 90 by 5
    time: 4/4
    hands: R>LRR L>RLL R>LRR L>RLL
    feet: R . L .
    place: left on snare
    repeat: 2
    loop: no
    show: count
    """


def test_what_is_taken_over():
    read = course(PARENT, "id: child\ntitle: Child\nfrom: parent")
    parent, child = read.exercises["parent"].pattern, read.exercises["child"].pattern
    for name in ("time", "tempo", "hands", "feet", "placement", "repeat", "loop", "show"):
        assert getattr(child, name) == getattr(parent, name), name
    assert (child.title, child.note, child.requires) == ("Child", None, ())


def test_what_is_written_wins_and_none_drops():
    read = course(
        PARENT, "id: child\ntitle: Child\nfrom: parent\ntempo: 50\nloop: yes\nfeet: none\nplace: None\nhands: R L R L"
    )
    child = read.exercises["child"].pattern
    assert (child.tempo.start, child.loop, child.feet, child.placement) == (50, True, None, None)
    assert lane_text(child.hands) == "R L R L"


def test_a_grandchild_takes_over_what_the_changes_made():
    read = course(
        "id: grandchild\ntitle: C\nfrom: child\nchange: flam the accents",
        PARENT,
        "id: child\ntitle: B\nfrom: parent\nchange: accent 4",
    )
    assert hands(read, "child") == "RLRR> LRLL RLRR LRLL"
    assert hands(read, "grandchild") == "RLRlR> LRLL RLRR LRLL"


CHANGES = [
    ("R>LRR L>RLL", "other hand leads", "L>RLL R>LRR"),
    ("lR>LB (rL)R/Rz", "other hand leads", "rL>RB (lR)L/Lz"),
    ("R>LRR L>RLL", "start on 3", "RRL>R LLR>L"),
    ("R-LR", "start on 2", ".LRR"),
    ("R--L", "start on 2", ".-LR"),
    ("RLR over 2 LRL over 2", "start on 2", "LRL over 2 RLR over 2"),
    ("R>LRR L>RLL", "accent 1 4", "R>LRR> LRLL"),
    ("RL(R)(R) RLRL", "accent 3", "RLR>(R) RLRL"),
    ("R>L(R)z L>R/L", "accents off", "RLRz LR/L"),
    ("RLRL RLRL", "in eighths", "RL RL RL RL"),
    ("RL RL", "in sixteenths", "RLRL RLRL"),
    ("RLRL RL R L", "in triplets", "RLR LRL RLR LRL RLR LRL RLR LRL"),
    ("RLRL RLRL", "in sextuplets", "RLRLRL RLRLRL RLRLRL RLRLRL"),
    ("R>L(R)Lz lRR/B", "diddle the taps", "R>L/(R)Lz lR/R/B/"),
    ("R>L> lR>B> LR", "flam the accents", "lR>rL> lR>B> LR"),
    ("R>LRR L>RLL", "accents off, accent 2, other hand leads", "LR>LL RLRR"),
]  # fmt: skip


@pytest.mark.parametrize(("before", "change", "after"), CHANGES, ids=[each[1] for each in CHANGES])
def test_a_change(before, change, after):
    read = course(f"id: one\ntitle: One\nhands: {before}", f"id: two\ntitle: Two\nfrom: one\nchange: {change}")
    assert not read.problems, str(read.problems[0])
    assert hands(read, "two") == after


def test_changes_in_compound_time():
    read = course(
        "id: one\ntitle: One\ntime: 6/8\nhands: RLRLRL RLRLRL",
        "id: two\ntitle: Two\nfrom: one\nchange: in eighths",
        "id: three\ntitle: Three\nfrom: one\nchange: in triplets",
    )
    assert hands(read, "two") == "RLR LRL RLR LRL"
    (problem,) = read.problems
    assert "compound time 6/8" in problem.found


def test_add_feet_replaces_the_feet():
    read = course(PARENT, "id: two\ntitle: Two\nfrom: parent\nchange: add feet R R R R, accents off")
    assert lane_text(read.exercises["two"].pattern.feet) == "R R R R"
    assert read.exercises["parent"].pattern.feet != read.exercises["two"].pattern.feet


BAD_CHANGES = [
    ("accent 9", 9, "an accent on slot 9, where bar 1 has 8 slots"),
    ("accent 0", 9, "an accent on slot 0"),
    ("accent 2", 9, "slot 2, which is a held slot in bar 1"),
    ("accent 4", 9, "slot 4, which is a rest in bar 1"),
    ("accent", 9, "does not say which slots"),
    ("accent 1, 3", 19, "'3' is no change"),
    ("start on 9", 9, "start on 9, where the hands have 8 slots"),
    ("start on", 9, "does not say on which slot"),
    ("other hand lead", 9, "an unknown change 'other hand lead'"),
    ("accents off, flame the accents", 22, "an unknown change"),
    ("add feet", 9, "add feet without groups"),
    ("add feet R x", 20, "'x' means nothing here"),
    ("add feet R R R", 22, "the last bar (bar 2) holds 1 beat"),
]  # fmt: skip


@pytest.mark.parametrize(("change", "column", "found"), BAD_CHANGES, ids=[each[0] for each in BAD_CHANGES])
def test_a_change_that_can_not_be_made(change, column, found):
    read = course("id: one\ntitle: One\nhands: R-R. LRLR", f"id: two\ntitle: Two\nfrom: one\nchange: {change}")
    problem = read.problems[0]
    assert found in problem.found
    assert (problem.line, problem.column) == (11, column)


def test_start_on_needs_groups_all_alike():
    read = course("id: one\ntitle: One\nhands: RL RLRL", "id: two\ntitle: Two\nfrom: one\nchange: start on 2")
    assert "not all alike" in read.problems[0].found


def test_only_the_pattern_that_is_wrong_is_told():
    read = course(
        "id: one\ntitle: One\nhands: RLRx",
        "id: two\ntitle: Two\nfrom: one\nchange: accents off",
        "id: three\ntitle: Three\nfrom: two\ntempo: 10",
    )
    assert [p.exercise for p in read.problems] == ["one", "three"]
    assert not read.exercises


def test_every_error_of_a_fence_is_told_in_one_run():
    read = course("""
        title: One
        tempo: 500
        hands: RLRL RLRL RLRL RLRL | RLRL
        place: left on drum
        """)
    assert [(p.line, p.column) for p in read.problems] == [(3, 8), (4, 30), (5, 16)]
    read = course(
        "id: one\ntitle: One\nhands: RLRL RLRL",
        "id: two\ntitle: Two\nfrom: one\nloop: maybe\nchange: accent 9",
        "id: three\ntitle: Three\nfrom: nobody\ntime: 3/4\nhands: RL RL",
    )
    assert [(p.line, p.column) for p in read.problems] == [(11, 7), (12, 9), (18, 7), (20, 8)]


def test_what_depends_on_an_id_that_an_error_hides_is_not_told():
    for parent in ("title: One\nid: one\nhands: RLx", "title: One\nID: one\nhands: RL"):
        read = course(parent, "id: two\ntitle: Two\nfrom: one", "id: three\ntitle: Three\nhands: R\nrequires: one")
        assert [p.exercise for p in read.problems] == [read.fences[0].name]
    read = read_course({"a.md": "```pattern\nid: one\nhands: RL\n\n```pattern\ntitle: Two\nfrom: one\n```"})
    assert ["not closed" in p.found for p in read.problems] == [True]


def test_one_slip_is_told_once():
    for fence in (
        "titel: One\nhands: RL",
        "title: One\nhands R L",
        "title: One\nfet: R L R L\ntime: 4/4",
        "title：E\nhands: R",
    ):
        assert len(read_course({"a.md": f"```pattern\n{fence}\n```"}).problems) == 1, fence
    assert (
        len(
            course(
                "id: aaa\ntitle: A\nhands: R R R R R", "id: bbb\ntitle: B\nfrom: aaa\ntime: 3/4\nhands: R X R"
            ).problems
        )
        == 1
    )


def test_every_id_of_a_list_is_looked_up():
    read = course("title: One\nhands: R\nrequires: zzz, A_a, , yyy")
    assert [p.column for p in read.problems] == [11, 16, 21, 23]


def test_long_chains_and_long_circles_are_followed():
    chain = [f"id: step-{n}\ntitle: S\nfrom: step-{n + 1}" for n in range(900)]
    read = course(*chain, "id: step-900\ntitle: S\nhands: RL")
    assert not read.problems
    assert lane_text(read.exercises["step-0"].pattern.hands) == "RL"
    (circle,) = course(*chain, "id: step-900\ntitle: S\nfrom: step-0").problems
    assert circle.exercise == "step-0"


def test_an_id_made_from_a_title_gives_way_to_one_that_is_typed():
    read = course("title: Same\nhands: R", "id: same\ntitle: Other\nhands: L")
    (problem,) = read.problems
    assert "another-name" in problem.remedy
    assert not read.warnings
    assert list(read.exercises) == ["same"]


REMEDIES = [
    ("place: right hand on snare", "did you mean right?"),
    ("place: right on snare; left on kick", "separate rules by commas"),
    ("place: right on snare and left on kick", "separate rules by commas"),
    ("place: right on snare than ride", "joined by then"),
    ("place: right on snare, then ride", "no comma before then"),
    ("place: right on", "say where"),
    ("requires: aaa bbb", "separate ids by commas: aaa, bbb"),
    ("show: count notation", "separate rows by commas: count, notation"),
    ("from: aaa\nchange: accents off; in triplets", "separate changes by commas"),
    ("from: aaa\nchange: in triplets in sixteenths", "separate changes by commas"),
    ("from: aaa\nchange: diddle the accents", "the changes are other hand leads"),
    ("from: aaa\nchange: add feet: R L", "add feet R L"),
    ("id: a\u2011bc", "write a-bc"),
    ("id: a two", "write a-two"),
    ("tempo: 60\u200b", "take it out"),
]  # fmt: skip


@pytest.mark.parametrize(("lines", "remedy"), REMEDIES, ids=[each[0] for each in REMEDIES])
def test_a_remedy_mends(lines, remedy):
    read = course("id: aaa\ntitle: A\nhands: R L R L", f"title: A title\nhands: R L R L\n{lines}")
    (problem,) = read.problems
    assert remedy in problem.remedy


def test_a_circle_names_every_step_once():
    read = course(
        "id: aaa\ntitle: A\nfrom: ccc",
        "id: bbb\ntitle: B\nfrom: aaa",
        "id: ccc\ntitle: C\nfrom: bbb",
        "id: ddd\ntitle: D\nfrom: bbb",
    )
    (problem,) = read.problems
    assert problem.exercise == "aaa"
    assert "aaa → ccc → bbb → aaa" in problem.found


def test_nothing_grows_out_of_an_example():
    read = course("example: yes\ntitle: Sample\nhands: RL", "id: two\ntitle: Two\nfrom: sample")
    assert "'sample' is an example" in read.problems[0].found


def test_a_time_signature_that_the_lane_taken_over_does_not_fill():
    read = course(PARENT, "id: two\ntitle: Two\nfrom: parent\ntime: 3/4")
    problem = read.problems[0]
    assert "taken over from 'parent'" in problem.found
    assert problem.line == 18


@given(pattern_texts())
def test_patterns_of_the_language_read_without_an_error(text):
    pattern = read_one(text)
    assert pattern.beats % pattern.time.beats == 0
    assert pattern.feet is None or pattern.feet.beats == pattern.beats


@given(pattern_texts(), st.integers(0, 400), st.sampled_from(list("RLBrl(/z>)|.-ox:,#\n\t 35é\u200f\x00<&\"'")))
def test_a_damaged_pattern_never_raises_and_its_errors_stand_in_the_text(text, at, char):
    at %= len(text) + 1
    damaged = text[:at] + char + text[at:]
    page = f"```pattern\n{damaged}\n```"
    lines = page.split("\n")
    for problem in read_course({"a.md": page}).problems:
        assert 1 <= problem.line <= len(lines)
        assert 1 <= problem.column <= len(lines[problem.line - 1]) + 1
        assert problem.remedy
        assert str(problem)


@given(st.text(max_size=300))
def test_any_text_never_raises(text):
    read_course(
        {"a.md": text, "b.md": f"```pattern\n{text}\n```", "c.md": f"```pattern\nhands: {text}\ntitle: {text}\n```"}
    )
