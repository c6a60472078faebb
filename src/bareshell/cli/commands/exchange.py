"""``bareshell import`` and ``bareshell export``: files in, shown first; files out."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.common import build_option, counted, find_build, heading
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


@click.command("import")
@click.argument("file", type=click.Path(path_type=Path))
@build_option
@click.option("--into", type=click.Path(path_type=Path), metavar="NEWDIR",
              help="For an archive: the new folder in which the build comes back.")  # fmt: skip
@click.option("--list", "kind", type=click.Choice(list(LISTS)), help="What a sheet is a list of.")
@click.option("--column", "columns", multiple=True, metavar="LETTERS=MEANING",
              help="What a column means, such as C=quantity; C= leaves it out.")  # fmt: skip
@click.option("--day-first/--month-first", default=None, help="How to read 3/4/2026.")
@click.option("--leave-out-unreadable", is_flag=True, help="Leave out rows that cannot be read.")
@click.option("--look", is_flag=True, help="Only show what would change.")
@click.option("--yes", is_flag=True, help="Let it land without being asked.")
def import_command(
    file: Path,
    folder: Path | None,
    into: Path | None,
    kind: str | None,
    columns: tuple[str, ...],
    day_first: bool | None,  # noqa: FBT001  click hands it over by name
    *,
    leave_out_unreadable: bool,
    look: bool,
    yes: bool,
) -> None:
    """Bring in a build file, a spreadsheet (xlsx, ods, csv) or an archive.

    What would change is shown first; nothing is half-imported.
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
        if seen.sheets and (kind or columns or day_first is not None or leave_out_unreadable):
            said = _choices(kind, columns, day_first, leave_out_unreadable=leave_out_unreadable)
            choices = {sheet.sheet: said for sheet in seen.sheets}
            seen = preview_import(door, file, choices=choices)
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


def _choices(
    kind: str | None,
    columns: tuple[str, ...],
    day_first: bool | None,  # noqa: FBT001  None for not said
    *,
    leave_out_unreadable: bool,
) -> Choices:
    from bareshell.io.sheets import Choices, Meaning, SheetKind

    meant: dict[str, Meaning | None] = {}
    for column in columns:
        letters, equals, meaning = column.partition("=")
        known = [str(one) for one in Meaning]
        if not equals or (meaning and meaning not in known):
            raise BadInput(
                "column", f"'{column}' cannot be read", f"write C=one of: {', '.join(known)}"
            )
        meant[letters.strip().upper()] = Meaning(meaning) if meaning else None
    return Choices(
        kind=SheetKind(LISTS[kind]) if kind else None,
        columns=meant,
        day_first=day_first,
        leave_out_unreadable=leave_out_unreadable,
    )


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
