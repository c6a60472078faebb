"""``bareshell brakes owe|needs|undo-joint|open-screw|commission``: proofs, parts, first use."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.brakes_asked import answered, file_argument, system_option
from bareshell.cli.commands.brakes_build import fields_of, told
from bareshell.cli.common import build_option, counted, find_build, json_option, show

if TYPE_CHECKING:
    from bareshell.whole.brake_owed import OwedView


@click.command("owe")
@build_option
@click.option("--look", is_flag=True, help="Only show what would change.")
@click.option("--yes", is_flag=True, help="Write it down without being asked.")
@json_option
def owe(folder: Path | None, *, look: bool, yes: bool, as_json: bool) -> None:
    """Show what the brakes on the car owe in proof, and write it down when you say so."""
    from bareshell.app import brakes_proofs
    from bareshell.cli.brakes_record_text import owed_text

    found = _owed(folder)
    if as_json and not yes:
        show(found, as_json=True, text=lambda: ())
        return
    for line in owed_text(found):
        click.echo(line)
    if look or not found.proofs_to_write:
        return
    if not yes:
        what = counted(found.proofs_to_write, "proof", "proofs")
        click.confirm(f"Write {what} down?", default=True, abort=True)
    told(folder, brakes_proofs.owe)


@click.command("needs")
@build_option
@click.option("--look", is_flag=True, help="Only show what would change.")
@click.option("--yes", is_flag=True, help="Write it down without being asked.")
@json_option
def needs(folder: Path | None, *, look: bool, yes: bool, as_json: bool) -> None:
    """Show what the brakes on the car want, and put it on the parts desk when you say so."""
    from bareshell.app import brakes_needs
    from bareshell.cli.brakes_record_text import needs_text

    found = _owed(folder)
    if as_json and not yes:
        show(found, as_json=True, text=lambda: ())
        return
    for line in needs_text(found):
        click.echo(line)
    if look or not found.needs_to_write:
        return
    if not yes:
        what = counted(found.needs_to_write, "need", "needs")
        click.confirm(f"Put {what} on the parts desk?", default=True, abort=True)
    told(folder, brakes_needs.want)


def _owed(folder: Path | None) -> OwedView:
    from bareshell.app.brakes_proofs import owed
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        return owed(door)


@click.command("undo-joint")
@click.argument("joint")
@build_option
@click.option("--words", default="", help="Why.")
@click.option("--when", default="", help="Only if not just now: 'yesterday 21:00'.")
def undo_joint(joint: str, folder: Path | None, words: str, when: str) -> None:
    """Say that a joint was undone: its leak proof and its circuit's air proof are spent.

    JOINT is its number or id on the joint list.
    """
    from bareshell.app import brakes_proofs

    fields = fields_of({"words": words, "when": when})
    told(folder, lambda door, pen: brakes_proofs.undo_joint(door, joint, fields, pen))


@click.command("open-screw")
@click.argument("screw")
@build_option
@click.option("--words", default="", help="Why.")
@click.option("--when", default="", help="Only if not just now: 'yesterday 21:00'.")
def open_screw(screw: str, folder: Path | None, words: str, when: str) -> None:
    """Say that a bleed screw was opened: its own leak proof and the air proof are spent.

    SCREW is its number or id on the joint list, or the caliper or cylinder that it is in. The next
    pedal test renews both.
    """
    from bareshell.app import brakes_proofs

    fields = fields_of({"words": words, "when": when})
    told(folder, lambda door, pen: brakes_proofs.open_screw(door, screw, fields, pen))


@click.command("commission")
@file_argument
@build_option
@system_option
@click.option(
    "--series", default="thirty stops", show_default=True, help="Bedding series to warm by."
)
@json_option
def commission(
    file: Path | None, folder: Path | None, system_id: str, series: str, *, as_json: bool
) -> None:
    """Bring the brakes into use: the order, graded holds, the pedal test, bedding, 50 miles."""
    from bareshell.app import brakes_commission
    from bareshell.cli.brakes_record_text import commission_text

    found = answered(
        folder,
        file,
        lambda path, now: brakes_commission.commissioning_of_file(path, now, series),
        lambda door: brakes_commission.commissioning(door, system_id, series),
    )
    show(found, as_json=as_json, text=lambda: commission_text(found))


COMMANDS = (owe, needs, undo_joint, open_screw, commission)
"""What `bareshell brakes` says and writes of proofs, parts and first use."""
