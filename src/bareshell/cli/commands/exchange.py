"""``bareshell import`` and ``bareshell export``: files in, shown first; files out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.common import build_option, counted, find_build, heading, json_option, show
from bareshell.errors import BadInput

if TYPE_CHECKING:
    from bareshell.app.door import Door
    from bareshell.app.exchange import ImportPreview
    from bareshell.io.sheets import Choices

SHOWN = 30
LISTS = {
    "jobs": "jobs",
    "needs": "parts wanted",
    "holdings": "parts on the shelf",
    "orders": "orders",
}
THERE = {"add": "add it all the same", "correct": "correct what is there"}


@click.command("import")
@click.argument("file", type=click.Path(path_type=Path))
@build_option
@click.option("--into", type=click.Path(path_type=Path), metavar="NEWDIR",
              help="For an archive: the new folder in which the build comes back.")  # fmt: skip
@click.option("--list", "kind", type=click.Choice(list(LISTS)), help="What a sheet is a list of.")
@click.option("--column", "columns", multiple=True, metavar="LETTERS=MEANING",
              help="What a column means, such as C=quantity; C= leaves it out.")  # fmt: skip
@click.option("--day-first/--month-first", default=None, help="How to read 3/4/2026.")
@click.option("--header", type=click.IntRange(1), metavar="ROW",
              help="The row in which the columns are named.")  # fmt: skip
@click.option("--comma/--point", default=None, help="How to read 2,50.")
@click.option("--currency", default="", help="Of bare figures, such as EUR.")
@click.option("--for-all", "for_all", multiple=True, metavar="MEANING=WORDS",
              help="For rows that do not say it, such as supplier='A shop'.")  # fmt: skip
@click.option("--there", type=click.Choice(list(THERE)),
              help="What to do with rows that are there already; else they stay.")  # fmt: skip
@click.option("--leave-out-unreadable", is_flag=True, help="Leave out rows that cannot be read.")
@click.option("--look", is_flag=True, help="Only show what would change.")
@click.option("--yes", is_flag=True, help="Let it land without being asked.")
@json_option
def import_command(
    file: Path,
    folder: Path | None,
    into: Path | None,
    kind: str | None,
    columns: tuple[str, ...],
    day_first: bool | None,  # noqa: FBT001  click hands it over by name
    header: int | None,
    comma: bool | None,  # noqa: FBT001  click hands it over by name
    currency: str,
    for_all: tuple[str, ...],
    there: str | None,
    *,
    leave_out_unreadable: bool,
    look: bool,
    yes: bool,
    as_json: bool,
) -> None:
    """Bring in a build file, a spreadsheet (xlsx, ods, csv) or an archive.

    What would change is shown first; nothing is half-imported. --json only looks.
    """
    if into is not None:
        from bareshell.app.archive import import_archive

        count = import_archive(file, into)
        click.echo(f"The build is back in {into}: {counted(count, 'entry', 'entries')}.")
        return
    from bareshell.app.door import Door
    from bareshell.app.exchange import ImportKind, accept_import, preview_import

    with Door.open(find_build(folder)) as door:
        seen = preview_import(door, file)
        if seen.kind is ImportKind.ARCHIVE:
            raise BadInput(
                str(file),
                "it is an archive of a whole build",
                "name a new folder with --into NEWDIR",
            )
        if seen.sheets:
            said = _choices(kind, columns, for_all)
            said = replace(
                said, header_row=header, day_first=day_first, comma=comma,
                currency=currency.upper(), leave_out_unreadable=leave_out_unreadable,
            )  # fmt: skip
            seen = _chosen(door, file, seen, said, there)
        if as_json:
            from bareshell.app.bringing_in import looked_at

            show(looked_at(door, seen), as_json=True, text=tuple)
            return
        for line in _text(seen):
            click.echo(line)
        if seen.stopped_by:
            raise SystemExit(BadInput.exit_code)
        if look or not seen.dated:
            return
        if not yes:
            click.confirm(f"Let {counted(len(seen.dated), 'change', 'changes')} land?", abort=True)
        receipt = accept_import(door, seen)
    landed = counted(len(receipt.entries), "change", "changes")
    click.echo(f"{landed} written down. 'bareshell log' shows what.")


def _choices(kind: str | None, columns: tuple[str, ...], for_all: tuple[str, ...]) -> Choices:
    from bareshell.io.sheets import Choices, Meaning, SheetKind

    known = [str(one) for one in Meaning]
    meant: dict[str, Meaning | None] = {}
    for column in columns:
        letters, equals, meaning = column.partition("=")
        if not equals or (meaning and meaning not in known):
            raise BadInput(
                "column", f"'{column}' cannot be read", f"write C=one of: {', '.join(known)}"
            )
        meant[letters.strip().upper()] = Meaning(meaning) if meaning else None
    alike: dict[Meaning, str] = {}
    for one in for_all:
        meaning, equals, words = one.partition("=")
        if not equals or meaning not in known:
            raise BadInput("for all", f"'{one}' cannot be read", "write supplier=WORDS")
        alike[Meaning(meaning)] = words
    return Choices(SheetKind(LISTS[kind]) if kind else None, None, meant, alike)


def _chosen(
    door: Door, file: Path, seen: ImportPreview, said: Choices, there: str | None
) -> ImportPreview:
    """Read the sheets again with what was said, and then for the rows that are there already."""
    from bareshell.app.exchange import preview_import
    from bareshell.io.sheets import Choices, RowChoice, RowState

    if said != Choices():
        seen = preview_import(door, file, choices={one.sheet: said for one in seen.sheets})
    if there is None:
        return seen
    rows = {
        sheet.sheet: {
            row.number: RowChoice(THERE[there]) for row in sheet.rows if row.state is RowState.THERE
        }
        for sheet in seen.sheets
    }
    choices = {sheet: replace(said, rows=found) for sheet, found in rows.items()}
    return preview_import(door, file, choices=choices)


def _text(seen: ImportPreview) -> Iterable[str]:
    yield heading(seen.name, str(seen.kind))
    for sheet in seen.sheets:
        if sheet.left_out:
            continue
        yield f"  sheet '{sheet.sheet}': {sheet.kind or 'nobody can tell what it is a list of'}"
        for column in sheet.columns:
            meaning = str(column.meaning) if column.meaning else "left out"
            yield f"    {column.letters}  {column.header}: {meaning}"
    for line in seen.lines[:SHOWN]:
        yield f"  {line.sentence}" + (f"  ({line.where})" if line.where else "")
    if len(seen.lines) > SHOWN:
        yield f"  and {len(seen.lines) - SHOWN} more"
    if not seen.lines:
        yield "  Nothing would change."
    for problem in dict.fromkeys((*seen.stopped_by, *seen.problems)):
        yield f"  {problem.severity}: {problem.describe()}"
    if seen.stopped_by:
        yield "Nothing lands until what stops it is put right."


@click.command("export")
@click.argument("what", type=click.Choice(["build-file", "archive", *LISTS]))
@click.argument("file", type=click.Path(path_type=Path))
@build_option
def export_command(what: str, file: Path, folder: Path | None) -> None:
    """Write the build file, a whole archive, or a list (xlsx or csv) to FILE.

    A build file that is there keeps your comments and your order.
    """
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        if what == "archive":
            _archive(door, file)
        elif what == "build-file":
            from bareshell.app.exchange import save_build_file

            click.echo(f"Written: {save_build_file(door, file)}")
        else:
            _list(door, what, file)


def _archive(door: Door, file: Path) -> None:
    from bareshell.app.archive import export_archive
    from bareshell.app.exchange import export_build_file

    made = export_archive(door, file, {"build.toml": export_build_file(door).encode()})
    click.echo(f"Written: {made.path}, {made.entries} entries, {made.photos} photographs.")
    for problem in made.problems:
        click.echo(problem.describe(), err=True)


def _list(door: Door, what: str, file: Path) -> None:
    from bareshell.app.exchange import save_sheet
    from bareshell.io.sheets import SheetKind

    click.echo(f"Written: {save_sheet(door, SheetKind(LISTS[what]), file)}")
