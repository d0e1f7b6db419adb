"""Which pages a course gets, and which words no page may lack."""

import pytest

from wristwork.course.safety import safe_practice, warm_up
from wristwork.course.safety.safe_practice import REQUIRED, SafePracticeError, Topic
from wristwork.page.front_matter import Shape

ALL_NOTICES = [(topic, notice) for topic in Topic for notice in REQUIRED[topic]]


def test_the_three_pages():
    assert [topic.value for topic in Topic] == ["warm-up", "posture", "hearing"]
    assert [topic.page_title for topic in Topic] == ["Warm-up", "Posture and set-up", "Look after your hearing"]


def test_a_topic_is_read_from_front_matter():
    assert safe_practice.topic_of("posture") is Topic.POSTURE


@pytest.mark.parametrize("value", ["Posture", "ears", "", "3", "yes", "a list", "x" * 9999])
def test_a_topic_that_there_is_not_names_the_three(value):
    with pytest.raises(SafePracticeError, match="write one of warm-up, posture, hearing") as told:
        safe_practice.topic_of(value)
    assert len(str(told.value)) < 200


@pytest.mark.parametrize("shape", Shape)
def test_a_list_of_topics_is_called_one(shape):
    with pytest.raises(SafePracticeError, match=f"safe-practice: '{shape.value}' is none of the three pages"):
        safe_practice.topic_of(shape)


def test_standard_pages_fill_the_gaps():
    assert safe_practice.topics_without_page([]) == tuple(Topic)
    own = [(Topic.POSTURE, "docs/sit.md")]
    assert safe_practice.topics_without_page(own) == (Topic.WARM_UP, Topic.HEARING)
    assert safe_practice.topics_without_page((topic, f"{topic}.md") for topic in Topic) == ()


def test_two_pages_for_one_topic_are_an_error_that_names_both():
    own = [(Topic.HEARING, "docs/ears.md"), (Topic.HEARING, "docs/more-ears.md")]
    with pytest.raises(SafePracticeError, match=r"docs/more-ears\.md: safe-practice: hearing is already docs/ears\.md"):
        safe_practice.topics_without_page(own)


@pytest.mark.parametrize("topic", Topic)
def test_a_page_with_nothing_gets_everything_after_its_own_words(topic):
    page = safe_practice.completed(topic, "# Mine\n\nMy own words.\n")
    assert page.startswith("# Mine\n\nMy own words.\n\n## Cautions, and who can help\n")
    for notice in REQUIRED[topic]:
        assert page.count(notice.text) == 1
    assert safe_practice.missing(topic, page) == ()


@pytest.mark.parametrize("topic", Topic)
def test_a_complete_page_stays_as_it_is(topic):
    page = safe_practice.completed(topic, "# Mine\n")
    assert safe_practice.completed(topic, page) == page


@pytest.mark.parametrize(("topic", "notice"), ALL_NOTICES, ids=lambda value: getattr(value, "title", value))
def test_only_what_is_missing_is_added(topic, notice):
    rest = "\n\n".join(other.text for other in REQUIRED[topic] if other is not notice)
    assert safe_practice.missing(topic, rest) == (notice,)
    assert safe_practice.closing(topic, rest).count("!!!") == 1


@pytest.mark.parametrize(
    "written",
    [
        safe_practice.STOP_RULE.replace(" ", "\n"),
        safe_practice.STOP_RULE.replace("Stop at once", "**Stop at once**"),
        "> " + safe_practice.STOP_RULE.replace(". ", ".\n> "),
        safe_practice.STOP_RULE.upper(),
    ],
    ids=["wrapped", "emphasis", "quoted", "capitals"],
)
def test_the_stop_rule_counts_however_it_is_set(written):
    assert safe_practice.STOP_NOTICE not in safe_practice.missing(Topic.WARM_UP, written)


@pytest.mark.parametrize(
    "written",
    [
        f"<!-- {safe_practice.STOP_RULE} -->",
        f"```\n{safe_practice.STOP_RULE}\n```",
        f"    ~~~text\n    {safe_practice.STOP_RULE}\n    ~~~",
        f"<!-- {safe_practice.STOP_RULE}",
        safe_practice.STOP_RULE.replace("tingling, ", ""),
        "Stop when it hurts.",
    ],
    ids=["comment", "fence", "nested fence", "open comment", "a sign left out", "other words"],
)
def test_the_stop_rule_does_not_count_where_nobody_reads_it_whole(written):
    assert safe_practice.STOP_NOTICE in safe_practice.missing(Topic.WARM_UP, written)


def test_the_stop_rule_names_every_sign_and_who_to_see():
    for word in ("pain", "numbness", "tingling", "weakness", "burning", "doctor", "physiotherapist"):
        assert word in safe_practice.STOP_RULE


def test_hearing_loss_is_an_emergency():
    assert "Sudden hearing loss is an emergency" in safe_practice.HEARING_SIGNS
    assert safe_practice.SIGNS_NOTICE in REQUIRED[Topic.HEARING]


def test_the_routines_last_what_they_promise():
    assert [(routine.key, routine.seconds) for routine in warm_up.ROUTINES] == [
        ("short", 5 * 60),
        ("full", 10 * 60),
        ("ease-off", 2 * 60),
    ]


def test_a_warm_up_moves_first_and_then_begins_low():
    for routine in (warm_up.SHORT, warm_up.FULL):
        first, second = (step for step, _ in routine.timed_steps[:2])
        assert first.pattern is None
        assert second is warm_up.LOW_SINGLES


def test_the_short_warm_up_is_part_of_the_full_one_in_the_same_order():
    full = list(warm_up.all_steps())
    short = [full.index(step) for step, _ in warm_up.SHORT.timed_steps]
    assert short == sorted(short)
