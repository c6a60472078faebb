"""Nothing lies about that nobody picks up: every function and class is named where work is done.

A name counts as used where code names it: not where it is defined, not in an import, an
``__all__``, a comment or a docstring. Templates and scripts of the pages count, and so do the
project's own scripts and benchmarks; tests do not. Names are compared as words, so two things of
one name vouch for each other: what is found here is idle, what is not may still be.
"""

from __future__ import annotations

import ast
import re
from collections import Counter
from collections.abc import Iterator
from itertools import chain
from pathlib import Path

from tests.architecture.test_house import PACKAGE, ROOT, modules

Defined = ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef

# What a test needs to reach, each for its reason.
SEAMS = {
    "cited_in": "finds the sources that a text cites, for the check that all of them are known",
    "site_app": "the whole site without a server around it",
    "small_car": "the car of the examples in the docstrings",
    "up_casts": "every up-caster, for the check that none of the old kinds is without its own",
    "urls": "every address of a static file, for the check that each is served",
}

# These change what a function is; any other decorator hands it to somebody who calls it, or, as
# ``formula`` does, puts it in the handbook of `calc`: there a published equation may stand by
# itself, for the checks hold the solver against it.
PLAIN = {
    "cache",
    "cached_property",
    "classmethod",
    "contextmanager",
    "dataclass",
    "lru_cache",
    "property",
    "staticmethod",
    "total_ordering",
}

WORD = re.compile(r"[A-Za-z_]\w*")
DEFINED = re.compile(r"^ *(?:async +)?(?:def|class) +(\w+)", re.MULTILINE)
IMPORTED = re.compile(r"^ *(?:from .+ )?import (?:\([^)]*\)|.*)$", re.MULTILINE)
FILLED_IN = re.compile(r"\{[^{}]*\}")
STRING_OR_COMMENT = re.compile(
    r"""(?P<mark>[A-Za-z]{0,2})(?P<quote>\"{3}|'{3}|"|')(?:\\.|(?!(?P=quote)).)*(?P=quote)|\#[^\n]*""",
    re.DOTALL,
)


def only_code(text: str) -> str:
    """Python without strings and comments, but for what is filled into a string."""

    def kept(found: re.Match[str]) -> str:
        is_filled = "f" in (found["mark"] or "").casefold()
        return " ".join(FILLED_IN.findall(found[0])) if is_filled else ""

    return STRING_OR_COMMENT.sub(kept, text)


def idle(texts: dict[str, str], beside: Counter[str]) -> list[str]:
    """What of some modules is named nowhere but where it is defined.

    Words are counted first, which is quick; only modules with something that no word names are
    parsed, to see what it is.
    """
    codes = {where: only_code(text) for where, text in texts.items()}
    named = beside.copy()
    for code in codes.values():
        named.update(WORD.findall(IMPORTED.sub("", DEFINED.sub("", code))))
    found = []
    for where, code in codes.items():
        suspects = {name for name in DEFINED.findall(code) if not named[name]}
        if suspects:
            found += [f"{where}: {name}" for name in of_no_use(texts[where], suspects)]
    return found


def of_no_use(text: str, suspects: set[str]) -> Iterator[str]:
    """Those of some names that a module defines and hands to nobody."""
    for node in defined_in(ast.parse(text).body):
        known = node.name.startswith("__") or node.name in SEAMS
        if node.name in suspects and not known and not is_handed_over(node):
            yield node.name


def defined_in(body: list[ast.stmt], *, ours: bool = True) -> Iterator[Defined]:
    """What is defined at the top of a module, and in its classes.

    Methods of a class that is made from somebody else's are called by that somebody.
    """
    for node in body:
        if isinstance(node, ast.ClassDef):
            yield node
            yield from defined_in(node.body, ours=not node.bases)
        elif isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and ours:
            yield node


def is_handed_over(node: Defined) -> bool:
    """Whether a decorator registers it somewhere: a page, a command, a rule, the handbook."""
    named = (WORD.findall(ast.unparse(decorator))[0] for decorator in node.decorator_list)
    return bool(set(named) - PLAIN)


def words_beside() -> Counter[str]:
    """The words of the pages' templates and scripts, and of what the project runs by itself."""
    pages = (path for path in (PACKAGE / "web").rglob("*") if path.suffix in (".html", ".js"))
    own = (path for room in ("scripts", "benchmarks") for path in (ROOT / room).rglob("*"))
    texts = (path.read_text(encoding="utf-8") for path in chain(pages, own) if is_text(path))
    return Counter(chain.from_iterable(map(WORD.findall, texts)))


def is_text(path: Path) -> bool:
    return path.is_file() and path.suffix in (".html", ".js", ".py", ".sh", "")


def test_nothing_is_defined_that_nobody_names() -> None:
    texts = {str(path.relative_to(PACKAGE)): path.read_text("utf-8") for path in modules()}
    assert idle(texts, words_beside()) == []


def test_every_seam_is_still_there() -> None:
    defined = {name for path in modules() for name in DEFINED.findall(path.read_text("utf-8"))}
    assert SEAMS.keys() - defined == set()


MODULE = """
from a import (
    idle,
    used,
)
__all__ = ["idle"]
def idle():
    '''It's idle() that does it.'''
    return f"idle {used(')')}"  # unlike idle()
def used(): ...
def seen_on_a_page(): ...
@router.page("/a")
def page(): ...
class Kept:
    @property
    def far(self): ...
    def near(self): return self.near
class Commands(click.Group):
    def format_help(self): return Kept
"""


def test_what_is_idle_is_found_and_what_is_used_is_not() -> None:
    found = idle({"a": MODULE}, Counter(["seen_on_a_page"]))
    assert found == ["a: idle", "a: far", "a: Commands"]
