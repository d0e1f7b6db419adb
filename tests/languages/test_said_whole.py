"""What is said can be found by whoever gathers the texts, and is said when it is needed."""

from __future__ import annotations

import ast
from collections.abc import Iterator

import pytest

from tests.languages.catalogue import PACKAGE

SAYING = {"say", "say_count", "say_html", "marked"}
MODULES = sorted(path for path in PACKAGE.rglob("*.py") if path.parent.name != "languages")


def called(node: ast.AST) -> str:
    return node.func.id if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) else ""


def in_f_strings(tree: ast.AST) -> Iterator[int]:
    """Lines with a text that stands within another: who gathers texts does not look there."""
    for text in ast.walk(tree):
        if isinstance(text, ast.JoinedStr):
            said = (node for node in ast.walk(text) if called(node) in SAYING)
            yield from (node.lineno for node in said if isinstance(node.args[0], ast.Constant))


def put_together(tree: ast.AST) -> Iterator[int]:
    """Lines with a text that is said and is not a whole one."""
    for node in ast.walk(tree):
        if called(node) in SAYING:
            texts = node.args[:2] if called(node) == "say_count" else node.args[:1]
            yield from (text.lineno for text in texts if isinstance(text, (ast.JoinedStr, ast.BinOp)))


def too_early(tree: ast.Module) -> Iterator[int]:
    """Lines that say something when a module is read, where nobody knows the language yet."""
    for statement in tree.body:
        early = [statement] if not isinstance(statement, (ast.FunctionDef, ast.ClassDef)) else []
        if isinstance(statement, ast.ClassDef):
            early = [each for each in statement.body if not isinstance(each, ast.FunctionDef)]
        for each in early:
            yield from (
                node.lineno for node in ast.walk(each) if called(node) in SAYING - {"marked"} and not lazy(each)
            )


def lazy(statement: ast.AST) -> bool:
    """Does it stand in a function without a name, which is called later?"""
    return any(isinstance(node, ast.Lambda) for node in ast.walk(statement))


@pytest.mark.parametrize("rule", [in_f_strings, put_together, too_early], ids=lambda rule: rule.__name__)
def test_texts_are_whole_and_said_when_they_are_needed(rule):
    faults = [
        f"{path.relative_to(PACKAGE)}:{line}"
        for path in MODULES
        for line in rule(ast.parse(path.read_text(encoding="utf-8")))
    ]
    assert faults == []


@pytest.mark.parametrize(
    ("rule", "code"),
    [
        (in_f_strings, "x = f\"{say('a')}\""),
        (put_together, 'say(f"a {b}")'),
        (put_together, 'say("a " + b)'),
        (put_together, 'say_count("a", f"{b}s", 2)'),
        (too_early, 'A = say("a")'),
        (too_early, 'class A:\n    b: str = say("a")'),
    ],
)
def test_the_rules_find_what_breaks_them(rule, code):
    assert list(rule(ast.parse(code))) != []
