"""``bareshell car back|left``: the way back to standard, and how the car is left."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.common import find_build, heading, json_option, show

if TYPE_CHECKING:
    from bareshell.app.going_back import BackBook, BackPage, LeftPage


@click.command("back")
@click.argument("departure_id", metavar="DEPARTURE", required=False)
@click.option("--take-in", is_flag=True, help="Put its jobs, needs and proofs into the build.")
@json_option
@click.pass_obj
def back(folder: Path | None, departure_id: str | None, *, take_in: bool, as_json: bool) -> None:
    """Show what going back to standard would take, for one DEPARTURE or for all."""
    from bareshell.app import going_back
    from bareshell.app.door import Door
    from bareshell.app.written import Pen

    with Door.open(find_build(folder)) as door:
        if departure_id is None:
            if take_in:
                raise click.UsageError("Name the DEPARTURE whose way back to take in.")
            book = going_back.back_book(door)
            show(book, as_json=as_json, text=lambda: _book(book))
            return
        if take_in:
            click.echo(going_back.take_in(door, departure_id, Pen()).said)
            return
        page = going_back.back(door, departure_id)
        show(page, as_json=as_json, text=lambda: _back(page))


@click.command("left")
@json_option
@click.pass_obj
def left(folder: Path | None, *, as_json: bool) -> None:
    """Show how the car is left: loose, open, held, curing, temporary; and what came meanwhile."""
    from bareshell.app import going_back
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        found = going_back.left(door)
        moves = () if as_json else going_back.next_moves(door)
    show(found, as_json=as_json, text=lambda: _left(found, moves))


COMMANDS = (back, left)
"""What `bareshell car` can do besides."""


def _book(book: BackBook) -> Iterable[str]:
    for page in book.departures:
        yield from _back(page)
        yield ""
    if not book.departures:
        yield "Nothing is written down as different from standard."


def _back(page: BackPage) -> Iterable[str]:
    yield heading(f"{page.title} ({page.id})", f"{page.likely_hours:.1f} h to go back")
    yield f"  was: {page.what_was or 'not written down'}"
    yield f"  is: {page.what_is or 'not written down'}"
    yield f"  the original: {page.originals}"
    if page.to_return:
        yield f"  going back: {page.to_return}"
    if page.unknown:
        yield f"  not known: {'; '.join(page.unknown)}"
    if not page.fitted:
        yield "  Nothing of it is on the car yet."
    for number, step in enumerate(page.steps, 1):
        two = ", two people" if step.people > 1 else ""
        span = f"{step.low_hours:.1f} to {step.high_hours:.1f} h"
        yield f"  {number}. {step.job}: {step.likely_hours:.1f} h ({span}){two}"
    for words, things in (("used up", page.needs), ("to be shown again", page.proofs)):
        if things:
            yield f"  {words}:"
            yield from (f"    {one.title}" for one in things)


def _left(found: LeftPage, moves: tuple[str, ...]) -> Iterable[str]:
    if found.last_at is not None:
        yield heading("How the car is left", f"{found.gap_days} days ago")
    if found.stands_on:
        yield f"  How it stands: {found.stands_on}."
    for words in found.last_words:
        yield f"  said: {words}"
    for title, things in (
        ("Under pressure, or held: read the gauge first", found.holding),
        ("Ends that may stand open", found.open),
        ("Loose, half done, not torqued", found.loose),
        ("Still curing", found.curing),
        ("Grew too old meanwhile", found.spent_meanwhile),
        ("Should have come by now", found.due_in),
        ("Temps on the car", found.temps),
    ):
        if things:
            yield heading(title, str(len(things)))
            yield from (f"  {one.what}: {one.words}" for one in things)
    if moves:
        yield heading("Next moves")
        yield from (f"  {number}. {title}" for number, title in enumerate(moves, 1))
