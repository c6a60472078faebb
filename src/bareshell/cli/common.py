"""What commands share: which build, JSON or text, and text that is read at the bench."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any, TypeVar

import click

from bareshell.errors import NotFound

JOURNAL_FILE = "journal.db"
F = TypeVar("F", bound=Callable[..., Any])


def build_option(command: F) -> F:
    """Give a command ``--build DIR``."""
    return click.option(
        "--build",
        "folder",
        metavar="DIR",
        envvar="BARESHELL_BUILD",
        type=click.Path(path_type=Path),
        help="The build's folder; else BARESHELL_BUILD, else the folder you stand in.",
    )(command)


def json_option(command: F) -> F:
    """Give a reading command ``--json``."""
    return click.option("--json", "as_json", is_flag=True, help="Hand out data instead of text.")(
        command
    )


def find_build(folder: Path | None) -> Path:
    """Return the build's folder: the one named, or the one stood in or above.

    Raises
    ------
    NotFound
        When there is no build there.
    """
    if folder is not None:
        if _is_build(folder):
            return folder
        raise NotFound(
            f"there is no build in {folder}",
            f"begin one with 'bareshell new {folder}', or try 'bareshell demo {folder}'",
        )
    here = Path.cwd()
    for place in (here, *here.parents):
        if _is_build(place):
            return place
    raise NotFound(
        "there is no build in the folder you stand in",
        "name one with --build DIR, set BARESHELL_BUILD, or begin one with 'bareshell new DIR'",
    )


def _is_build(folder: Path) -> bool:
    """Whether a journal is there, or may be and cannot be seen: opening it then says why."""
    try:
        return (folder / JOURNAL_FILE).exists()
    except PermissionError:
        return True
    except (OSError, ValueError):  # no file system takes such a name
        return False


def show(reading: object, *, as_json: bool, text: Callable[[], Iterable[str]]) -> None:
    """Print a reading as data or as text."""
    if as_json:
        from bareshell.app.plain import document

        click.echo(json.dumps(document(reading), indent=2, ensure_ascii=False))
        return
    for line in text():
        click.echo(line)


def car_named(name: str, *, invented: bool) -> str:
    """Return a car's name, and that it is invented where the name itself does not say so."""
    return f"{name} (invented)" if invented and "invented" not in name else name


def counted(count: int, one: str, many: str) -> str:
    """Return how many there are of something: ``1 change``, ``2 changes``."""
    return f"{count} {one if count == 1 else many}"


def heading(title: str, note: str = "") -> str:
    """Make a heading line."""
    return click.style(title, bold=True) + (f"  {note}" if note else "")


def table(rows: Sequence[Sequence[str]], gap: int = 2) -> Iterable[str]:
    """Lay rows out in columns; the last one is left as long as it is."""
    if not rows:
        return
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]) - 1)]
    for row in rows:
        cells = [cell.ljust(width) for cell, width in zip(row, widths, strict=False)]
        yield ((" " * gap).join([*cells, row[-1]])).rstrip()
