"""Finding pattern fences in a page, with the place of every line."""

from textwrap import dedent

import pytest

from wristwork.pattern.fences import find_blocks, split_lines


def blocks(text):
    return find_blocks(split_lines(text))


def page(text):
    return dedent(text).strip("\n")


def test_a_fence_at_the_margin():
    (block,) = blocks("# Week\n\n```pattern\ntitle: One\nhands: RL\n```\n\nmore")
    assert (block.first, block.last, block.text) == (2, 5, "title: One\nhands: RL")
    assert [(line.number, line.skipped) for line in block.lines] == [(4, 0), (5, 0)]


@pytest.mark.parametrize(
    "opening", ["```pattern", "``` pattern", "````pattern", "~~~pattern", "```{.pattern}", "``` { .pattern }"]
)
def test_ways_to_open_a_fence(opening):
    closing = opening[: len(opening) - len(opening.lstrip("`~"))]
    (block,) = blocks(f"{opening}\nhands: RL\n{closing}")
    assert block.text == "hands: RL"
    assert block.extra == ""


def test_words_after_pattern_are_kept_for_an_error():
    (block,) = blocks("```pattern wide loud\nhands: RL\n```")
    assert block.extra == "wide loud"


@pytest.mark.parametrize("opening", ["```pattern-like", "```python", "```", "`pattern`"])
def test_what_is_no_pattern_fence(opening):
    assert blocks(f"{opening}\nhands: RL\n```") == []


NESTED = {
    "list item": """
        1.  Item

            ```pattern
            hands: RL
            ```
        """,
    "list item, no blank line": """
        - Item
            ```pattern
            hands: RL
            ```
        """,
    "admonition": """
        !!! note "Title"

            Text.

            ```pattern
            hands: RL
            ```
        """,
    "details": """
        ???+ tip

            ```pattern
            hands: RL
            ```
        """,
    "content tab in a list": """
        - Item

            === "Left"

                ```pattern
                hands: RL
                ```
        """,
    "definition": """
        Term
        :   Meaning

            ```pattern
            hands: RL
            ```
        """,
    "quotation": """
        > ```pattern
        > hands: RL
        > ```
        """,
}


@pytest.mark.parametrize("text", NESTED.values(), ids=NESTED.keys())
def test_nested_fences(text):
    (block,) = blocks(page(text))
    assert block.text == "hands: RL"
    line = block.lines[0]
    assert page(text).splitlines()[line.number - 1][line.skipped :] == "hands: RL"


def test_tabs_as_indentation_count_as_one_column_each():
    (block,) = blocks("- Item\n\n\t```pattern\n\thands: RL\n\t```")
    assert block.text == "hands: RL"
    assert block.lines[0].place(7).column == 9


def test_a_fence_inside_another_is_only_shown():
    assert blocks("````markdown\n```pattern\nhands: RL\n```\n````") == []
    assert blocks("~~~\n```pattern\nhands: RL\n```\n~~~") == []


def test_a_fence_in_a_comment_is_not_read():
    assert blocks("<!-- later\n```pattern\nhands: RL\n```\n-->\n") == []
    assert len(blocks("<!-- a --> text <!-- b -->\n```pattern\nhands: RL\n```")) == 1


def test_an_indented_code_block_is_not_read():
    assert blocks("Text.\n\n    ```pattern\n    hands: RL\n    ```") == []


def test_front_matter_is_passed_over():
    (block,) = blocks("---\nweek: 1\n---\n```pattern\nhands: RL\n```")
    assert block.place.line == 4


def test_carriage_returns_and_a_byte_order_mark():
    (block,) = blocks("\ufeff```pattern\r\nhands: RL\r\n```\r\n")
    assert block.place.column == 1
    assert block.text == "hands: RL"


def test_unusual_line_separators_are_characters():
    (block,) = blocks("```pattern\ntitle: a\u2028b\x0bc\n```")
    assert len(block.lines) == 1


@pytest.mark.parametrize(
    "text",
    [
        "```pattern\nhands: RL\n",
        "```pattern\nhands: RL\n\n```pattern\nhands: RL\n```",
        "- Item\n\n    ```pattern\n    hands: RL\n\nText at the margin\n\n    ```\n",
    ],
)
def test_a_fence_that_is_not_closed(text):
    first = blocks(text)[0]
    assert first.fault is not None


def test_the_next_fence_is_read_after_one_that_is_not_closed():
    assert [block.fault is None for block in blocks("```pattern\na: b\n```pattern\nhands: RL\n```")] == [False, True]


def test_marks_of_a_comment_in_code_open_none():
    assert len(blocks("Write `<!--` there.\n\n```pattern\nhands: RL\n```\n<!-- end -->")) == 1
    assert len(blocks("<!-- never closed\n\n```pattern\nhands: RL\n```")) == 1


def test_a_page_may_begin_with_a_rule():
    assert len(blocks("---\n\n```pattern\nhands: RL\n```\n\n---\n")) == 1


def test_a_nested_line_may_begin_with_an_accent():
    (block,) = blocks("- x\n\n    ```pattern\n    note: soft\n      > loud\n    ```")
    assert block.fault is None
    assert block.text == "note: soft\n  > loud"


@pytest.mark.parametrize("word", ["Pattern", "patern", "patterns", "pattren"])
def test_a_lane_under_a_name_like_pattern_is_told(word):
    (block,) = blocks(f"```{word}\nhands: RL\n```")
    assert block.fault.found == f"a fence called '{word}'"
    assert (block.fault.place.line, block.fault.place.column) == (1, 4)


def test_a_line_that_leaves_its_container_is_told_where_it_stands():
    (block,) = blocks("- x\n\n    ```pattern\n    title: A\n   hands: RL\n    ```")
    assert (block.fault.place.line, block.fault.place.column) == (5, 4)
    assert "further left" in block.fault.found
