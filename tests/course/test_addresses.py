"""The record of addresses: what is read, what is written, what a gone exercise has to say."""

from hypothesis import given
from hypothesis import strategies as st

from wristwork.course.addresses import Address, hold_against, read_record, record_text

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
    for moved, said in (
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
