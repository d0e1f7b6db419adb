"""The Markdown extension, with Markdown alone."""

import markdown
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from markupsafe import escape

from wristwork.site.mkdocs.plugin import WristworkPlugin

FENCE = "```pattern\nid: door-knocker\ntitle: Door knocker\nhands: R>LRR L>RLL\n```"


def convert(text: str, *extensions: str, **configs: dict[str, object]) -> str:
    return markdown.markdown(
        text,
        extensions=["wristwork", *extensions],
        extension_configs={name.replace("_", "."): config for name, config in configs.items()},
    )


def indented(text: str, prefix: str = "    ") -> str:
    return "\n".join(prefix + line for line in text.split("\n"))


def test_a_fence_becomes_a_figure() -> None:
    html = convert(f"Before.\n\n{FENCE}\n\nAfter.")
    assert html.startswith("<p>Before.</p>\n<figure ")
    assert html.endswith("</figure>\n<p>After.</p>")
    assert 'id="door-knocker"' in html
    assert '<span class="ww-title" dir="auto">Door knocker</span>' in html
    assert "<p><figure" not in html


@pytest.mark.parametrize(
    "fence_library",
    [(), ("fenced_code",), ("pymdownx.superfences",)],
    ids=["no fence library", "fenced code", "superfences"],
)
@pytest.mark.parametrize(
    ("lead", "prefix", "inside"),
    [
        ("- an item\n", "    ", "<li>"),
        ("1. an item\n\n", "    ", "<li>"),
        ("!!! note\n", "    ", '<div class="admonition note">'),
        ('=== "Pad"\n', "    ", '<div class="tabbed-block">'),
        ("> a quotation\n", "> ", "<blockquote>"),
        ("- outer\n\n    !!! note\n\n", "        ", '<div class="admonition note">'),
    ],
    ids=["list", "numbered list", "admonition", "tab", "quotation", "admonition in a list"],
)
def test_a_nested_fence_becomes_a_figure_in_its_place(
    fence_library: tuple[str, ...], lead: str, prefix: str, inside: str
) -> None:
    html = convert(
        lead + indented(FENCE, prefix) + "\n\nAfter.",
        "admonition",
        "pymdownx.tabbed",
        *fence_library,
        pymdownx_tabbed={"alternate_style": True},
    )
    container = html[html.index(inside) :]
    assert "<figure" in container
    assert "<p><figure" not in html
    assert html.endswith("<p>After.</p>")


def test_kept_tabs_do_not_hide_a_fence() -> None:
    html = convert(
        "- an item\n\n" + indented(FENCE, "\t"),
        "pymdownx.superfences",
        pymdownx_superfences={"preserve_tabs": True},
    )
    assert "<figure" in html
    assert "<pre" not in html


def test_a_fence_that_is_only_shown_stays_code() -> None:
    html = convert(f"````markdown\n{FENCE}\n````", "pymdownx.superfences")
    assert "<figure" not in html
    assert "hands: R" in html


def test_an_error_is_shown_in_the_figures_place() -> None:
    html = convert("# Title\n\n```pattern\nid: wrong\ntitle: Wrong <b>\nhands: RLRR >RLL\n```\n\nAfter.")
    assert '<div class="ww-problem" role="alert"><p>text:6:13: pattern' in html
    assert "hands: RLRR &gt;RLL\n            ^</pre><p>put the letter first: R&gt; or L&gt;</p>" in html
    assert "<b>" not in html
    assert html.endswith("<p>After.</p>")


def test_columns_of_an_error_count_a_tab_as_one() -> None:
    html = convert("- x\n\n\t```pattern\n\ttitle: t\n\tid: abc\n\thands:\tR?LR\n\t```")
    assert "text:6:10:" in html


def test_a_pattern_may_grow_out_of_another_in_the_same_text() -> None:
    html = convert(
        FENCE + "\n\n```pattern\nid: turned\ntitle: Turned\nfrom: door-knocker\nchange: other hand leads\n```"
    )
    assert html.count("<figure") == 2


def test_a_pattern_that_grows_out_of_a_wrong_one_waits() -> None:
    html = convert(
        FENCE.replace("L>RLL", ">RLL") + "\n\n```pattern\nid: turned\ntitle: Turned\nfrom: door-knocker\n```"
    )
    assert html.count("ww-problem") == 2
    assert "as soon as" in html


def test_a_heading_of_the_same_name_gives_way() -> None:
    html = convert(f"## Door knocker\n\n{FENCE}", "toc", "attr_list")
    assert '<h2 id="door-knocker_1">' in html
    assert html.count(' id="door-knocker"') == 1


def test_a_heading_that_asks_for_the_same_name_gives_way_too() -> None:
    html = convert(f"## Knock {{#door-knocker}}\n\n{FENCE}", "toc", "attr_list")
    assert html.count(' id="door-knocker"') == 1
    assert '<figure class="ww-exercise" id="door-knocker"' in html


def test_one_converter_serves_text_after_text() -> None:
    converter = markdown.Markdown(extensions=["wristwork"])
    first = converter.convert(FENCE)
    assert converter.reset().convert("No pattern here.") == "<p>No pattern here.</p>"
    assert converter.reset().convert(FENCE) == first


MARKUP = "<>&\"'/!-=[](){}*_`#;: abtr"  # what tags, attributes, entities and Markdown are made of


@settings(max_examples=60, deadline=None)
@given(st.text(st.sampled_from(MARKUP), min_size=1, max_size=60).map(lambda text: " ".join(text.split())))
@example("<b>bold</b>")
@example('"><img src=x onerror=y>')
@example("&lt;i&gt; [x](y) `z` **a**")
def test_no_title_escapes_as_markup(line: str) -> None:
    html = convert(f"```pattern\nid: any-id\ntitle: a {line}\nnote: a {line}\nhands: RLRL\n```")
    figures_own = convert("```pattern\nid: any-id\ntitle: x\nnote: x\nhands: RLRL\n```")
    assert "ww-problem" not in html
    assert html.count("<") == figures_own.count("<")
    assert html.count(f">{escape(f'a {line}'.strip())}</span>") == 2


@settings(max_examples=60, deadline=None)
@given(st.text(st.characters(codec="utf-8"), max_size=120))
def test_no_text_in_a_fence_is_a_traceback_or_markup(text: str) -> None:
    html = convert(f"```pattern\n{text}\n```\n")
    assert "<script" not in html
    assert "<img" not in html


def test_a_text_that_is_no_page_of_the_course_is_read_by_itself() -> None:
    plugin = WristworkPlugin()
    figures = plugin._current_figures(["```pattern", "title: By itself", "id: by-itself", "hands: RLRL", "```"])
    assert figures.ids == ["by-itself"]
