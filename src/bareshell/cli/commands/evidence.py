"""``bareshell proofs way|torque|rehearsal|look|again|miles``: many proofs at once."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.common import find_build, heading, json_option, show

if TYPE_CHECKING:
    from bareshell.app.evidence import (
        BoltFigures,
        GateWay,
        RecheckPage,
        RehearsalPage,
        TorqueLine,
        TorquePage,
    )


@click.command("way")
@click.argument("gate_id", metavar="GATE")
@json_option
@click.pass_obj
def way(folder: Path | None, gate_id: str, *, as_json: bool) -> None:
    """Show the shortest way through a gate: only what must be done before it."""
    from bareshell.app import evidence
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        found = evidence.way(door, gate_id)
    show(found, as_json=as_json, text=lambda: _way(found))


@click.command("torque")
@json_option
@click.pass_obj
def torque(folder: Path | None, *, as_json: bool) -> None:
    """Show the torque sheet: figures given and computed, what is torqued and marked, what is not.

    \b
    A figure is computed where thread, grade, seat and lubrication of a bolt are known:
    bareshell shelf need BOLT thread=M8x1.25 grade=8.8 seat=firm lubrication="dry and zinc"
    """  # noqa: D301 - click reads the escape
    from bareshell.app import evidence
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        found = evidence.torque(door)
    show(found, as_json=as_json, text=lambda: _torque(found))


@click.command("rehearsal")
@json_option
@click.pass_obj
def rehearsal(folder: Path | None, *, as_json: bool) -> None:
    """Show the rehearsal of an inspection, item by item, lights first."""
    from bareshell.app import evidence
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        found = evidence.rehearse(door)
    show(found, as_json=as_json, text=lambda: _rehearsal(found))


@click.command("look")
@click.argument("item")
@click.argument("seen", metavar="SEEN", type=click.Choice(["right", "wrong", "absent"]))
@click.option("--by", required=True, help="Who looked.")
@click.option("--words", default="", help="What must be put right.")
@click.pass_obj
def look(folder: Path | None, item: str, seen: str, by: str, words: str) -> None:
    """Write down what was seen of an item of the rehearsal.

    SEEN is right, wrong (to be put right) or absent (not on this car).
    """
    from bareshell.app import evidence
    from bareshell.app.door import Door
    from bareshell.app.written import Pen
    from bareshell.model.looked import Seen

    said = {"right": Seen.RIGHT, "wrong": Seen.WRONG, "absent": Seen.ABSENT}[seen]
    fields = {"seen": (str(said),), "by": (by,), "words": (words,)}
    with Door.open(find_build(folder)) as door:
        click.echo(evidence.look_at(door, item, fields, Pen()).said)


@click.command("again")
@json_option
@click.pass_obj
def again(folder: Path | None, *, as_json: bool) -> None:
    """Show what is to be looked at again, by miles and by months."""
    from bareshell.app import evidence
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        found = evidence.again(door)
    show(found, as_json=as_json, text=lambda: _again(found))


@click.command("miles")
@click.argument("miles_run", metavar="MILES")
@click.option("--words", default="")
@click.pass_obj
def miles(folder: Path | None, miles_run: str, words: str) -> None:
    """Write down the miles run since the car went back on the road."""
    from bareshell.app import evidence
    from bareshell.app.door import Door
    from bareshell.app.written import Pen

    fields = {"miles": (miles_run,), "words": (words,)}
    with Door.open(find_build(folder)) as door:
        click.echo(evidence.read_miles(door, fields, Pen()).said)


COMMANDS = (way, torque, rehearsal, look, again, miles)
"""What `bareshell proofs` can do besides."""


def _way(found: GateWay) -> Iterable[str]:
    if found.clear:
        yield f"Nothing stands between the car and the gate '{found.title}'."
        return
    yield heading(f"Way through {found.title}", f"{found.hours:.1f} h")
    yield f"  {found.two_person_hours:.1f} h of it takes two people."
    for title, things in (
        ("Buried unproven: uncover, or a substitute proof by name", found.uncover),
        ("Prove by hand", found.prove_again),
        ("Clear by hand", found.temps),
    ):
        if things:
            yield f"  {title}:"
            yield from (f"    {one.title} ({one.id})" for one in things)
    for number, step in enumerate(found.steps, 1):
        two = ", two people" if step.people > 1 else ""
        yield f"  {number}. {step.title} ({step.job}): {step.hours:.1f} h{two}"
        yield f"      {step.why}"


def _torque(found: TorquePage) -> Iterable[str]:
    done = [line for line in found.lines if line.state == "torqued and marked"]
    later = [line for line in found.lines if line.state == "not fitted"]
    for title, lines in (
        ("On the car, not torqued and marked", found.not_torqued),
        ("Torqued and marked", done),
        ("Not fitted yet", later),
    ):
        yield heading(title, str(len(lines)))
        for line in lines:
            yield from _torque_line(line)
    yield "Computed: to three quarters of proof load; the clamp scatters by a third either way."
    yield "The vehicle's own figures outrank these."


def _torque_line(line: TorqueLine) -> Iterable[str]:
    read = f": {', '.join(line.readings)}" if line.readings else ""
    by = f", {line.by}" if line.by else ""
    wrench = f", {line.wrench}" if line.wrench else ""
    yield f"  {line.state}: {line.what} ({line.proof or line.job}){by}{wrench}{read}"
    yield from (f"      given: {figure}" for figure in line.figures)
    yield from (f"      ticket: {words}" for words in line.ticket if words != line.what)
    for bolt in line.bolts:
        yield from _bolt(bolt)
    if line.unsaid:
        yield f"      {line.unsaid}"
    yield from (f"      wrench: {wrench}" for wrench in line.wrenches)
    if line.nipped_until:
        yield f"      final torque owed in: {line.nipped_until.title} ({line.nipped_until.id})"
    yield from (f"      torque {words}" for words in line.again)


def _bolt(bolt: BoltFigures) -> Iterable[str]:
    many = f", {bolt.quantity}" if bolt.quantity > 1 else ""
    what = f"{bolt.title}{many} ({bolt.need})"
    if bolt.computed:
        yield f"      computed: {bolt.computed}: {what}"
        yield f"        from {', '.join(f'{name} {value}' for name, value in bolt.inputs)}"
    elif bolt.ask:
        yield f"      not computed: {what}: {'; '.join(bolt.ask)}"
    yield from (f"        mind: {words}" for words in (*bolt.said, *bolt.mind))
    if bolt.lubrication:
        yield f"        on its thread: {bolt.lubrication}"


def _rehearsal(found: RehearsalPage) -> Iterable[str]:
    area = ""
    for item in found.items:
        if item.area != area:
            area = item.area
            yield heading(area)
        two = " Two people." if item.people > 1 else ""
        yield f"  {item.seen or 'not looked at'}: {item.words}{two} ({item.id})"
        yield f"      on record: {item.on_record}"
        if item.seen_words:
            yield f"      {item.seen_words}"
    yield f"{found.looked_at} of {len(found.items)} looked at, {found.to_put_right} to put right."
    yield "It decides nothing: local law and the inspection's own list outrank it."


def _again(found: RecheckPage) -> Iterable[str]:
    run = "no miles read yet" if found.miles is None else f"{found.miles:g} miles run"
    yield heading("Re-checks", run)
    for one in found.rechecks:
        due = f"{one.at_miles:g} miles" if one.at_miles is not None else f"{one.on:%d %b %Y}"
        yield f"  {one.state}: {one.title} ({one.job}), {due}"
    for line in found.compared:
        yield f"  {line.title}: {line.quantity} changed by {line.change:g} {line.unit}"
