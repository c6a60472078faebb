"""``bareshell proofs``: what is owed, what hides unproven, the temps and the ladder."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.commands.evidence import COMMANDS
from bareshell.cli.common import build_option, find_build, heading, json_option, show
from bareshell.cli.figures import parse_readings

if TYPE_CHECKING:
    from bareshell.whole.proofs_overview import GateView, ProofsOverview, ProofView


@click.group("proofs", invoke_without_command=True)
@build_option
@json_option
@click.option("--all", "everything", is_flag=True, help="Also the proofs that are held.")
@click.pass_context
def proofs_command(
    ctx: click.Context, folder: Path | None, *, as_json: bool, everything: bool
) -> None:
    """Show proofs, temps and gates; or begin, hold, fail, spend or substitute a proof."""
    ctx.obj = folder
    if ctx.invoked_subcommand is not None:
        return
    from bareshell.app import reading
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        overview = reading.proofs(door)
    show(overview, as_json=as_json, text=lambda: _text(overview, everything=everything))


@proofs_command.command("mark")
@click.argument("proof_id")
@click.argument(
    "what",
    metavar="WHAT",
    type=click.Choice(["begun", "held", "failed", "spent", "uncovered", "substitute"]),
)
@click.option("--figure", "figures", multiple=True, help="A reading, such as '71 bar'.")
@click.option("--words", default="", help="Anything to keep with it; the substitute's name.")
@click.pass_obj
def mark(
    folder: Path | None, proof_id: str, what: str, figures: tuple[str, ...], words: str
) -> None:
    """Write down what happened to a proof.

    WHAT is one of: begun, held, failed, spent, uncovered, substitute (named by --words).
    """
    from bareshell.app.door import Door
    from bareshell.app.marking import mark_proof

    with Door.open(find_build(folder)) as door:
        for sentence in mark_proof(door, proof_id, what, parse_readings(figures), words):
            click.echo(sentence)


@proofs_command.command("gate")
@click.argument("gate_id")
@click.option("--by", required=True, help="Who lets the car through.")
@click.option("--words", default="")
@click.pass_obj
def gate(folder: Path | None, gate_id: str, by: str, words: str) -> None:
    """Let the car through a gate that is clear."""
    from bareshell.app.door import Door
    from bareshell.model.changes import GatePassed

    with Door.open(find_build(folder)) as door:
        door.record(GatePassed(gate_id, by, words))
        title = door.build().gates[gate_id].gate.title
    click.echo(f"The car is through the gate '{title}', by {by}.")


@proofs_command.command("temp")
@click.argument("temp_id")
@click.argument("what", metavar="WHAT", type=click.Choice(["raised", "cleared"]))
@click.option("--words", default="")
@click.pass_obj
def temp(folder: Path | None, temp_id: str, what: str, words: str) -> None:
    """Write down that a temporary fix was put on the car, or is gone from it.

    WHAT is raised or cleared.
    """
    from bareshell.app.door import Door
    from bareshell.model.changes import TempCleared, TempRaised

    with Door.open(find_build(folder)) as door:
        door.record((TempRaised if what == "raised" else TempCleared)(temp_id, words))
        title = door.build().temps[temp_id].temp.title
    click.echo(f"Temp {what}: {title}.")


for _command in COMMANDS:
    proofs_command.add_command(_command)


def _text(overview: ProofsOverview, *, everything: bool) -> Iterable[str]:
    groups = [
        ("Covered, unproven", overview.covered_unproven),
        ("Failed", overview.failed),
        ("Spent", overview.spent),
        ("Begun", overview.begun),
        ("Owed now: the work is done", tuple(p for p in overview.owed if p.due)),
    ]
    if everything:
        groups += [
            ("Owed later", tuple(p for p in overview.owed if not p.due)),
            ("Substitute proof", overview.substituted),
            ("Held", overview.held),
            ("Not asked for: the work is left out", overview.not_asked),
        ]
    for title, views in groups:
        if views:
            yield heading(title, str(len(views)))
            if views == overview.covered_unproven:
                yield "  Two ways out: see it again (proofs mark ID uncovered), or name what else"
                yield "  showed it (proofs mark ID substitute --words 'held 70 bar, gauge steady')."
            for view in views:
                yield from _proof(view)
            yield ""
    if not everything:
        later = sum(1 for p in overview.owed if not p.due)
        yield f"{later} owed later, {len(overview.held)} held; --all shows them."
        yield ""
    yield heading("Temps on the car", str(len(overview.temps)))
    for one in overview.temps:
        yield f"  {one.title} ({one.id}): gone before the gate '{one.gate_title}'"
        if one.replaced_by:
            yield f"      replaced by {one.replaced_by}"
        if one.need:
            yield f"      its part, {one.need_title} ({one.need}): {one.need_state}"
        if one.cleared_by:
            yield f"      taken off in {one.cleared_by}"
    yield ""
    yield heading("Gates, from the last to the next")
    for gate_view in reversed(overview.gates):
        yield from _gate(gate_view)


def _proof(view: ProofView) -> Iterable[str]:
    limit = f"; {view.limit}" if view.limit else ""
    # Many joints are proved in the same words: say which one.
    thing = view.about.partition(": ")[2]
    called = f"{thing}: {view.title}" if thing else view.title
    yield f"  {called} ({view.id}){limit}"
    if view.words:
        yield f"      {view.words}"
    if view.hidden_by:
        yield f"      hidden by {', '.join(view.hidden_by)}"


def _gate(view: GateView) -> Iterable[str]:
    if view.state == "passed" and view.passed_at is not None:
        yield f"  {view.title} ({view.id}): passed {view.passed_at:%d %b %Y}, {view.passed_by}"
    else:
        yield f"  {view.title} ({view.id}): {view.state}, {view.stands_between} stand between"
    for covered in view.covered:
        yield f"      covered, unproven: {covered}"
    if view.state == "next":
        for word, names in (
            ("job", view.jobs), ("proof", view.proofs), ("temp", view.temps)
        ):  # fmt: skip
            for name in names:
                yield f"      {word}: {name}"
