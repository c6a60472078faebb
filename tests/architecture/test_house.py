"""The floors of the house, and what a pure room may not know of."""

from __future__ import annotations

import ast
import sys
from functools import cache
from pathlib import Path

import pytest
from importlinter.cli import lint_imports

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "src" / "bareshell"

PURE = (
    "errors",
    "units",
    "sources",
    "calc",
    "model",
    "brakes",
    "plan",
    "parts",
    "proofs",
    "checks",
    "trade",
    "whole",
    "draw",
    "demo",
)

# What reaches the clock, chance, the disk, the network, a web page or the command line.
OUTSIDE = {
    "click",
    "fastapi",
    "glob",
    "http",
    "jinja2",
    "openpyxl",
    "os",
    "pathlib",
    "PIL",
    "platformdirs",
    "python_calamine",
    "random",
    "rich",
    "secrets",
    "shutil",
    "socket",
    "sqlite3",
    "starlette",
    "subprocess",
    "tempfile",
    "time",
    "tomlkit",
    "typst",
    "urllib",
    "uvicorn",
}

# A library that only one room may know.
ONE_ROOM = {
    "PIL": "io",
    "click": "cli",
    "fastapi": "web",
    "icalendar": "report",
    "jinja2": "web",
    "openpyxl": "io",
    "pi_heif": "io",
    "python_calamine": "io",
    "rich": "cli",
    "sqlite3": "store",
    "starlette": "web",
    "typst": "report",
    "uvicorn": "web",
}

# A library that only one module of a room may know, and only inside its functions.
ONE_MODULE = ("numba", "ortools", "pint")


def modules(*rooms: str) -> list[Path]:
    """The modules of some rooms; a room may be one file or not built yet."""
    found: list[Path] = []
    for room in rooms or ("",):
        if room and (single := PACKAGE / f"{room}.py").exists():
            found.append(single)
        found += sorted((PACKAGE / room).rglob("*.py"))
    return found


@cache
def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


def imported(node: ast.AST) -> set[str]:
    """The top names that a piece of code imports, wherever it does so."""
    names: set[str] = set()
    for part in ast.walk(node):
        if isinstance(part, ast.Import):
            names |= {alias.name.partition(".")[0] for alias in part.names}
        elif isinstance(part, ast.ImportFrom) and part.module and not part.level:
            names.add(part.module.partition(".")[0])
    return names


def test_imports_run_downwards_only(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    monkeypatch.setattr(sys, "path", [str(ROOT / "src"), *sys.path])
    assert lint_imports(no_cache=True) == 0


def test_the_pure_rooms_reach_nothing_outside() -> None:
    reaching = {
        str(path.relative_to(PACKAGE)): sorted(outside)
        for path in modules(*PURE)
        if (outside := imported(tree(path)) & OUTSIDE)
    }
    assert reaching == {}


def test_a_pure_room_asks_no_clock() -> None:
    """A date or moment is handed in; `now` and `today` are never asked of the library."""
    asked = [
        f"{path.relative_to(PACKAGE)}:{node.lineno}"
        for path in modules(*PURE)
        for node in ast.walk(tree(path))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and node.func.attr in {"now", "today", "utcnow"}
        and isinstance(node.func.value, ast.Name)
        and node.func.value.id in {"date", "datetime"}
    ]
    assert asked == []


@pytest.mark.parametrize("library", sorted(ONE_ROOM))
def test_a_library_stays_in_its_room(library: str) -> None:
    rooms = {
        path.relative_to(PACKAGE).parts[0].removesuffix(".py")
        for path in modules()
        if library in imported(tree(path))
    }
    assert rooms <= {ONE_ROOM[library]}


@pytest.mark.parametrize("library", ONE_MODULE)
def test_a_heavy_library_is_known_to_one_module_of_a_room(library: str) -> None:
    knowing = [path for path in modules() if library in imported(tree(path))]
    rooms = [path.relative_to(PACKAGE).parts[0] for path in knowing]
    assert len(rooms) == len(set(rooms)), knowing


def test_heavy_libraries_are_imported_inside_functions() -> None:
    """A quick answer on the command line must not wait for them."""
    heavy = {*ONE_MODULE, "PIL", "openpyxl", "pi_heif", "python_calamine", "scipy"}
    early = {
        str(path.relative_to(PACKAGE)): sorted(names)
        for path in modules()
        if (names := _at_module_level(tree(path)) & heavy)
    }
    assert early == {}


def _at_module_level(module: ast.Module) -> set[str]:
    names: set[str] = set()
    for node in module.body:
        if isinstance(node, ast.Import | ast.ImportFrom):
            names |= imported(node)
        elif isinstance(node, ast.Try | ast.With):
            names |= set().union(*(imported(part) for part in node.body))
    return names  # an `if TYPE_CHECKING` block costs nothing as the program runs


@pytest.mark.parametrize("path", modules(), ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_module_and_its_functions_can_be_read_in_one_sitting(path: Path) -> None:
    lines = path.read_text(encoding="utf-8").count("\n")
    assert lines <= 500, f"{path.name} has {lines} lines: divide it by subject"
    long = {
        node.name: length
        for node in ast.walk(tree(path))
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
        and (length := _lines_of_code(node)) > 60
    }
    assert long == {}


def _lines_of_code(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Length without the docstring, which may be as long as it needs."""
    first = function.body[0]
    documented = isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant)
    start = first.end_lineno if documented else function.lineno
    assert start is not None
    assert function.end_lineno is not None
    return function.end_lineno - start


def test_a_room_says_in_its_init_what_it_is_for() -> None:
    silent = [
        str(path.parent.relative_to(PACKAGE))
        for path in PACKAGE.rglob("__init__.py")
        if not ast.get_docstring(tree(path))
    ]
    assert silent == []
