"""``bareshell backup`` and ``bareshell doctor``: keeping the record and looking it over."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from pathlib import Path

import click

from bareshell.cli.common import build_option, find_build, heading, json_option


@click.group("backup", invoke_without_command=True)
@build_option
@click.pass_context
def backup_command(ctx: click.Context, folder: Path | None) -> None:
    """Keep a copy of the journal in backups/; one is also kept each day by itself."""
    ctx.obj = folder
    if ctx.invoked_subcommand is not None:
        return
    from bareshell.app.backup import back_up

    kept = back_up(find_build(folder), datetime.now(UTC))
    click.echo(f"Kept: {kept.path}")


@backup_command.command("list")
@json_option
@click.pass_obj
def list_backups(folder: Path | None, *, as_json: bool) -> None:
    """List the copies there are."""
    from bareshell.app.backup import backups

    listed = backups(find_build(folder))
    if as_json:
        copies = [{"made_at": one.made_at.isoformat(), "path": str(one.path)} for one in listed]
        click.echo(json.dumps({"format": 1, "copies": copies}, indent=2, ensure_ascii=False))
        return
    if not listed:
        click.echo("There is none yet; 'bareshell backup' makes one.")
    for one in listed:
        click.echo(f"{one.made_at:%d %b %Y %H:%M}  {one.path}")


@backup_command.command("restore")
@click.argument("copy", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.confirmation_option("--yes", prompt="Put this copy in the place of the journal?")
@click.pass_obj
def restore_backup(folder: Path | None, copy: Path) -> None:
    """Put a copy back in the journal's place; the journal that stood there is kept too."""
    from bareshell.app.backup import restore

    put = restore(find_build(folder), copy, datetime.now(UTC))
    click.echo(f"The journal is back at entry {put.entries}.")
    click.echo(f"What stood there is kept: {put.kept_aside}")


@click.command("doctor")
@build_option
@json_option
@click.option("--photos", "every_photo", is_flag=True, help="Read every photograph through.")
def doctor_command(folder: Path | None, *, as_json: bool, every_photo: bool) -> None:
    """Look the build over: damage, room, folder, clock, photographs, what is to settle."""
    from bareshell.app.doctor import doctor

    problems = doctor(find_build(folder), datetime.now(UTC), every_photo=every_photo)
    if as_json:
        found = [
            {"where": p.where, "what": p.what, "remedy": p.remedy, "severity": p.severity}
            for p in problems
        ]
        click.echo(json.dumps({"format": 1, "problems": found}, indent=2, ensure_ascii=False))
    else:
        for problem in problems:
            click.echo(f"{heading(problem.severity)}: {problem.describe()}")
        if not problems:
            click.echo("Nothing found. That is all this command can see.")
    if any(problem.severity == "stops" for problem in problems):
        raise SystemExit(6)
