"""``bareshell log``, ``undo``, ``settle``: the record, and putting it right."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.common import build_option, find_build, heading, json_option, show, table

if TYPE_CHECKING:
    from bareshell.app.reading import RecordLine, RecordPage


@click.command("log")
@build_option
@json_option
@click.option("--about", help="Only entries about this, such as job:rear-pipe.")
@click.option("--before", type=int, help="Only entries numbered below this.")
@click.option("-n", "limit", type=click.IntRange(1, 500), default=25, show_default=True)
def log_command(
    folder: Path | None, about: str | None, before: int | None, limit: int, *, as_json: bool
) -> None:
    """Read the record, newest first."""
    from bareshell.app import reading
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        page = reading.record(door, before=before, about=about, limit=limit)
    show(page, as_json=as_json, text=lambda: _text(page))


@click.command("undo")
@click.argument("number", type=int, required=False)
@build_option
@click.option("--words", default="", help="Why.")
@click.confirmation_option("--yes", prompt="Take the entry back?")
def undo_command(folder: Path | None, number: int | None, words: str) -> None:
    """Take entry NUMBER back, or the newest one; nothing is erased."""
    from bareshell.app.correcting import take_back_number
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        click.echo(take_back_number(door, number, words))


@click.command("settle")
@click.argument("number", type=int)
@click.argument("verdict", metavar="keep|aside", type=click.Choice(["keep", "aside"]))
@build_option
@click.option("--words", default="", help="Why.")
def settle_command(folder: Path | None, number: int, verdict: str, words: str) -> None:
    """Keep entry NUMBER, which met a change made meanwhile, or set it aside."""
    from bareshell.app.correcting import settle_number
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        click.echo(settle_number(door, number, words, keep=verdict == "keep"))


def _text(page: RecordPage) -> Iterable[str]:
    if page.to_settle:
        yield heading("To settle", "bareshell settle NUMBER keep|aside")
        yield from table([_row(line) for line in page.to_settle])
        yield ""
    yield from table([_row(line) for line in page.lines])
    if not page.lines:
        about = f" about '{page.about}'" if page.about else " here"
        yield f"Nothing is written down{about}."
    if page.older_before is not None:
        yield f"Older: bareshell log --before {page.older_before}"


def _row(line: RecordLine) -> tuple[str, ...]:
    state = "" if line.state in {"kept", "about the record"} else f" [{line.state}]"
    late = f" (written {line.recorded_at:%d %b})" if line.late else ""
    return (
        f"{line.seq:>6}",
        f"{line.happened_at:%a %d %b %Y %H:%M}",
        f"{line.words}{late}{state}",
    )
