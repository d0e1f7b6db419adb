"""HTML of a page as blocks for paper."""

from hypothesis import given
from hypothesis import strategies as st
from markdown import Markdown

from wristwork.paper.text import read_text

EXTENSIONS = ("admonition", "attr_list", "def_list", "footnotes", "md_in_html", "tables", "toc", "pymdownx.tabbed")
SETTINGS = {"pymdownx.tabbed": {"alternate_style": True}, "toc": {"permalink": True}}
TEXT = st.text(st.sampled_from("ab<>&\"'*_`[](){}!#|-=~:;\\/ 1.\n\t"), max_size=80)


def blocks(markdown: str) -> list:
    return read_text(Markdown(extensions=list(EXTENSIONS), extension_configs=SETTINGS).convert(markdown))


def words(value: object) -> str:
    """All the text that is in some blocks."""
    if isinstance(value, dict):
        return "".join(
            words(value[name]) for name in ("text", "title", "term", "head", "rows", "items", "inside") if name in value
        )
    return "".join(map(words, value)) if isinstance(value, list) else str(value)


def kinds(found: list) -> list[str]:
    return [block["kind"] for block in found]


def test_what_markdown_holds_comes_through() -> None:
    found = blocks(
        "# One\n\nA *word* and `R>L`, **loud**.\n\n- a\n    1. b\n\n> said\n\n| x | y |\n| - | - |\n| 1 | 2 |\n\n"
        '!!! warning "Take care"\n\n    Stop.\n\n---\n\n    code <b>\n\n![A pad](pad.png)\n\nterm\n: meaning\n'
    )
    assert kinds(found) == [
        "heading", "paragraph", "list", "quote", "table", "box", "rule", "code", "paragraph", "terms",
    ]  # fmt: skip
    heading, paragraph, outer, _, table, box, _, code, picture, terms = found
    assert (heading["level"], heading["id"], words(heading)) == (1, "one", "One")
    assert [piece["kind"] for piece in paragraph["inside"]] == [
        "text",
        "emphasis",
        "text",
        "code",
        "text",
        "strong",
        "text",
    ]
    assert words(paragraph) == "A word and R>L, loud."
    inner = outer["items"][0][1]
    assert (outer["ordered"], inner["ordered"], words(inner)) == (False, True, "b")
    assert (words(table["head"]), words(table["rows"]), table["columns"]) == ("xy", "12", 2)
    assert (box["name"], words(box["title"]), words(box["inside"])) == ("warning", "Take care", "Stop.")
    assert code["text"] == "code <b>"
    assert picture["inside"] == [{"kind": "picture", "source": "pad.png", "words": "A pad"}]
    assert words(terms) == "termmeaning"


def test_tabs_stand_one_below_the_other() -> None:
    found = blocks('=== "Pad"\n\n    Play low.\n\n=== "Kit"\n\n    Play the hat.\n')
    assert [words(block) for block in found] == ["Pad", "Play low.", "Kit", "Play the hat."]


def test_what_only_a_screen_can_do_is_left_out() -> None:
    html = (
        "<p>Read<script>x()</script><button>Start</button> on</p><form><input></form><video src=a.mp4></video>"
        '<p hidden>no</p><h2 id="a">Head<a class="headerlink" href="#a">¶</a></h2>'
    )
    assert [words(block) for block in read_text(html)] == ["Read on", "Head"]


def test_notes_lead_to_their_place_and_not_back() -> None:
    found = blocks("Said.[^one]\n\n[^one]: Who said it.\n")
    assert found[0]["inside"][1]["kind"] == "raised"
    assert words(found[-1]).strip() == "Who said it."


def test_drawings_and_comments_are_kept_whole() -> None:
    found = read_text(
        '<figure><svg viewBox="0 0 9 9"><path d="M0 0"/></svg><figcaption>Up</figcaption></figure><!-- x: y -->'
    )
    assert found == [
        {"kind": "drawing", "svg": '<svg viewBox="0 0 9 9"><path d="M0 0"/></svg>', "caption": "Up"},
        {"kind": "comment", "text": "x: y"},
    ]


@given(TEXT)
def test_no_word_of_plain_text_is_lost(text: str) -> None:
    """Whatever a tutor types: what Markdown shows of it is in the blocks, letter by letter."""
    from html import escape

    shown = " ".join(text.split())
    assert " ".join(words(read_text(f"<p>{escape(text)}</p>")).split()) == shown


@given(TEXT)
def test_any_html_is_read(text: str) -> None:
    """Half of a tag, a comment that never ends: something is read, and nothing breaks."""
    assert isinstance(read_text(text), list)
    assert isinstance(blocks(text), list)
