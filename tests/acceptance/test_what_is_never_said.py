"""No page and no command gives a verdict that only a person beside the car may give."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

SOURCE = Path(__file__).parents[2] / "src" / "bareshell"
# What a person types is read by these words; nothing of it is said by us.
READS_WHAT_IS_TYPED = ("whole/said/", "io/sheets/figures.py")

NEVER = {
    "a verdict": re.compile(
        r"""\b(?:un)?safe(?:ly|ty)?\b | \b(?:il)?legal(?:ly|ity)?\b | \bOK\b | \bokay\b
        | \broad-?worth\w+ | \bguarantee\w* | \bcertif(?:y|ies|ied)\b
        | \btests?\ pass\w* | \bpasses?\ (?:the\ )?(?:test|inspection|check)\b | \bPASS\b
        | \bmay\ be\ driven\b | \bfit\ to\ drive\b | \bgood\ to\ go\b""",
        re.VERBOSE,
    ),
    "anybody's workplace": re.compile(r"\b(?:workplace|employ\w+|colleague|customer|client's)\b"),
    "a chance in per cent": re.compile(r"\bprobabilit\w+|\blikelihood\b", re.IGNORECASE),
}
# The trade's own words for a grease, a catch and an inspection, a job's short name, and the
# sentence that leaves the verdict to others.
ALLOWED = re.compile(
    r"[Rr]ubber-safe|safety catch|roadworthiness inspection|legal-route"
    r"|Whether it may be driven is for local law and the inspection to say"
)


def strings(path: Path) -> Iterator[tuple[int, str]]:
    """Yield every string of a module that is no docstring."""
    tree = ast.parse(path.read_text("utf-8"))
    docs = {
        id(statement.value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef)
        for statement in node.body
        if isinstance(statement, ast.Expr)
    }
    commands = "cli/commands" in path.as_posix()
    for node in ast.walk(tree):
        if not isinstance(node, ast.Constant) or not isinstance(node.value, str):
            continue
        if id(node) not in docs or commands:  # a command's docstring is its help
            yield node.lineno, node.value


def said_in(path: Path) -> Iterator[tuple[int, str]]:
    """Yield what a template says, with marks and expressions taken out."""
    text = re.sub(r"\{#.*?#\}", "", path.read_text("utf-8"), flags=re.DOTALL)
    for number, line in enumerate(text.splitlines(), 1):
        yield number, re.sub(r"\|\s*safe\b", "", line)


def everything_said() -> list[tuple[str, str]]:
    """Every sentence, or piece of one, that may reach a reader, with where it stands."""
    found = []
    for path in sorted(SOURCE.rglob("*.py")):
        name = path.relative_to(SOURCE).as_posix()
        if not name.startswith(READS_WHAT_IS_TYPED):
            found += [(f"{name}:{line}", words) for line, words in strings(path)]
    for path in sorted(SOURCE.rglob("*.html")):
        name = path.relative_to(SOURCE).as_posix()
        found += [(f"{name}:{line}", words) for line, words in said_in(path)]
    return found


@pytest.mark.parametrize("what", sorted(NEVER))
def test_nothing_that_is_shown_gives(what: str) -> None:
    shown = everything_said()
    assert len(shown) > 5000
    assert [
        f"{where}: {words.strip():.80}"
        for where, words in shown
        if NEVER[what].search(ALLOWED.sub("", words))
    ] == []


@pytest.mark.parametrize(
    "sentence",
    ["The car is safe.", "All legal.", "Brakes OK", "Roadworthy", "It passes the test.",
     "It may be driven."],
)  # fmt: skip
def test_a_verdict_would_be_found(sentence: str) -> None:
    found = NEVER["a verdict"].search(sentence) or NEVER["a verdict"].search(sentence.lower())
    assert found
