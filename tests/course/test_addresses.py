"""The record of addresses: what is read, what is written, what a gone exercise has to say."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from wristwork.course.addresses import Address, hold_against, lines_of, read_record, record_text

ONE = Address("one-hand", "One hand", "weeks/week-01/")
TWO = Address("two-hands", "Two “hands”: both", "weeks/week-02/")


def record_of(*addresses):
    read, problems = read_record(record_text({address.id: address for address in addresses}))
    assert not problems
    return read


def course(*addresses):
    return {address.id: address for address in addresses}


def test_a_first_build_writes_every_id_on_a_line_of_its_own():
    outcome = hold_against(read_record("")[0], course(TWO, ONE))
    assert not outcome.problems
    lines = [line for line in record_text(outcome.addresses).splitlines() if not line.startswith("#")]
    assert lines == [
        'one-hand: {title: "One hand", lesson: "weeks/week-01/"}',
        'two-hands: {title: "Two “hands”: both", lesson: "weeks/week-02/"}',
    ]


TEXT = st.text(min_size=1, max_size=60).filter(lambda text: text.strip())


@given(TEXT, TEXT, st.one_of(st.none(), TEXT))
def test_any_title_survives_being_written_and_read(title, lesson, retired):
    address = Address("an-id", title, lesson, retired=retired)
    assert record_of(address).addresses == {"an-id": address}


def test_a_new_title_or_lesson_changes_the_record_and_is_no_error():
    renamed = Address("one-hand", "One hand, slowly", "weeks/week-03/")
    outcome = hold_against(record_of(ONE), course(renamed))
    assert not outcome.problems
    assert outcome.addresses == course(renamed)


def test_an_exercise_that_is_gone_must_say_where_it_went():
    (problem,) = hold_against(record_of(ONE, TWO), course(TWO)).problems
    assert problem.line == 5
    assert "'one-hand'" in problem.found
    assert "put it back" in problem.remedy
    assert 'moved to: "' in problem.remedy
    assert "retired:" in problem.remedy


def test_a_moved_address_forwards_to_the_end_of_its_way():
    moved = Address("one-hand", "One hand", "weeks/week-01/", moved_to="second")
    again = Address("second", "Second", "weeks/week-01/", moved_to="two-hands")
    outcome = hold_against(record_of(moved, again, TWO), course(TWO))
    assert not outcome.problems
    assert outcome.forwards == {"one-hand": "two-hands", "second": "two-hands"}
    assert outcome.addresses == course(moved, again, TWO)


def test_a_retired_address_keeps_its_line_for_readers():
    retired = Address("one-hand", "One hand", "weeks/week-01/", retired="It became part of week 5.")
    outcome = hold_against(record_of(retired), course(TWO))
    assert not outcome.problems
    assert outcome.retired == {"one-hand": "It became part of week 5."}


def test_ways_that_lead_nowhere_are_told():
    into_a_circle = [Address("aaa", "A", "x", moved_to="bbb"), Address("bbb", "B", "x", moved_to="ccc")]
    for moved, said in (
        ([*into_a_circle, Address("ccc", "C", "x", moved_to="bbb")], "in a circle: aaa → bbb → ccc → bbb"),
        ([Address("aaa", "A", "x", moved_to="bbb"), Address("bbb", "B", "x", moved_to="aaa")], "circle"),
        ([Address("aaa", "A", "x", moved_to="two-handz")], "not in the course"),
        ([Address("aaa", "A", "x", moved_to="bbb"), Address("bbb", "B", "x")], "gone as well"),
    ):
        assert said in hold_against(record_of(*moved), course(TWO)).problems[0].found


def test_an_exercise_that_came_back_must_lose_its_mark():
    (problem,) = hold_against(record_of(Address("one-hand", "One", "x", retired="Gone.")), course(ONE)).problems
    assert "take retired out" in problem.remedy


def test_unreadable_lines_are_told_with_their_number():
    text = 'one-hand: {title: "One", lesson: "x"}\n<<<<<<< ours\nother: {titel: "x"}\nthird: {title: 3}\nfourth {}\n'
    record, problems = read_record(text)
    assert list(record.addresses) == ["one-hand"]
    assert [problem.line for problem in problems] == [2, 3, 4, 5]
    assert "did you mean title?" in problems[1].found


def test_a_merge_that_left_an_id_twice_keeps_the_mark():
    text = record_text(course(Address("one-hand", "One", "x", retired="Gone."))) + record_text(course(ONE))
    record, problems = read_record(text)
    assert not problems
    assert record.addresses["one-hand"].retired == "Gone."


@given(st.text(max_size=200))
def test_any_text_is_read_without_an_exception(text):
    read_record(text)


def rewritten(text, *now):
    """The record's text after a build of a course that has these exercises."""
    record, problems = read_record(text)
    assert not problems
    return record_text(hold_against(record, course(*now)).addresses, record)


COMMENTED = """\
# Our loft's addresses.

# Frieda's favourite
one-hand: {title: "One hand", lesson: "weeks/week-01/"}  # never rename
# Went in the spring term.
zig-zag: {moved to: one-hand} # asked by mail
# That is all.
"""


def test_comments_stay_with_what_they_are_about():
    assert rewritten(COMMENTED, ONE) == COMMENTED
    new = Address("mid-way", "Mid way", "weeks/week-01/")
    slowly = Address("one-hand", "One hand, slowly", "weeks/week-01/")
    assert rewritten(COMMENTED, slowly, new) == (
        "# Our loft's addresses.\n\n"
        'mid-way: {title: "Mid way", lesson: "weeks/week-01/"}\n'
        "# Frieda's favourite\n"
        'one-hand: {title: "One hand, slowly", lesson: "weeks/week-01/"}  # never rename\n'
        "# Went in the spring term.\n"
        "zig-zag: {moved to: one-hand} # asked by mail\n"
        "# That is all.\n"
    )


def test_a_record_of_comments_alone_keeps_them():
    assert rewritten("# To come.\n", ONE) == "# To come.\n" + lines_of([ONE]) + "\n"


def test_our_own_head_stays_above_a_comment_and_all():
    text = record_text(course(ONE)).replace("one-hand", "# mine\none-hand")
    new = Address("an-id", "An id", "x")
    assert rewritten(text, ONE, new) == text.replace("# mine", f"{lines_of([new])}\n# mine")


def test_ends_of_lines_stay_as_they_are():
    text = COMMENTED.replace("\n", "\r\n")
    written = rewritten(text, ONE, TWO)
    assert written.count("\r\n") == written.count("\n") == COMMENTED.count("\n") + 1


def test_a_line_without_title_or_lesson_is_written_as_it_was_read():
    text = "old-one: {moved to: one-hand}\n"
    assert text in rewritten(text, ONE, TWO)
    assert lines_of([Address("old-one", "old-one", "", moved_to="one-hand")]) == (
        'old-one: {title: "old-one", moved to: "one-hand"}'
    )


ROUGH = st.text(alphabet="<>&\"'{}[]:,#*!|%@`\\ \t\x07\u2028\xa0äa1-\ud7ff\U0001f941", min_size=1, max_size=12)
ROUGH_TEXT = ROUGH.filter(lambda text: text.strip())
IDS = st.sampled_from(["aaa", "bbb", "ccc", "1e5", "0x1f", "2001-01-01", "true", "null"])
ADDRESSES = st.builds(
    Address,
    IDS,
    ROUGH_TEXT,
    st.one_of(st.just(""), ROUGH_TEXT),
    moved_to=st.one_of(st.none(), IDS),
    retired=st.none(),
)
COMMENTS = st.lists(st.one_of(st.just(""), ROUGH.map(lambda text: f"#{text.strip()}")), max_size=2)


@given(st.lists(st.tuples(COMMENTS, ADDRESSES, st.one_of(st.just(""), st.just("  # note"))), max_size=5), st.data())
def test_what_is_written_is_read_again_with_every_comment(entries, data):
    text = "".join("".join(f"{c}\n" for c in above) + lines_of([each]) + f"{end}\n" for above, each, end in entries)
    record, problems = read_record(text)
    assert not problems
    outcome = hold_against(record, course(*data.draw(st.lists(ADDRESSES.filter(lambda a: not a.moved_to), max_size=3))))
    written = record_text(outcome.addresses, record)
    again, problems = read_record(written)
    assert not problems
    assert again.addresses == outcome.addresses
    assert record_text(outcome.addresses, again) == written
    for above, _, _ in entries:
        assert all(comment in written for comment in above)
    distinct = {each.id for _, each, _ in entries}
    if len(distinct) == len(entries):
        assert written.count("  # note") >= sum(bool(end) for _, _, end in entries)


@pytest.mark.parametrize(
    "entry",
    [
        "{title: 2026-02-30}",
        "{title: 2001-99-99}",
        "{title: " + "[" * 4000,
        "{" * 9000,
        "{title: &a [" + "x, " * 9 + "], lesson: [" + "*a, " * 9 + "]}",
        "{title: !!binary x}",
        "{title: " + "9" * 5000 + "}",
        "{? [a]: b}",
        "{? {a: b}: c}",
        '{title: "' + "x" * 20_000 + '"}',
        "{title: !!python/object:os.system x}",
    ],
)
def test_a_hostile_line_is_told(entry):
    record, (problem,) = read_record(f"an-id: {entry}\n")
    assert not record.addresses
    assert problem.line == 1
    assert len(str(problem)) < 400


@pytest.mark.parametrize("length", [2, 49, 300])
def test_an_id_that_no_exercise_can_have_had_is_told(length):
    (problem,) = read_record(f'{"a" * length}: {{retired: "Gone."}}\n')[1]
    assert f"an id of {length} characters" in problem.found
    assert (problem.line, problem.remedy) == (1, "take the line out")


@pytest.mark.parametrize("name", ["con", "nul", "com1", "lpt9"])
def test_an_id_that_is_no_folder_everywhere_is_told(name):
    record, (problem,) = read_record(f'an-id: {{title: "A"}}\n{name}: {{retired: "Gone."}}\n')
    assert list(record.addresses) == ["an-id"]
    assert problem.line == 2
    assert f"an id called '{name}'" in problem.found
    assert problem.remedy == "take the line out"


@given(st.text(alphabet="abc-: {}[]\"',#&*!%|>\n\t?0129.\\é", max_size=80))
def test_any_entry_is_read_without_an_exception(text):
    assume("\n" not in text)
    read_record(f"an-id: {{{text}}}\n")
