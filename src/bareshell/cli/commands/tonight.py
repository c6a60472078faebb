"""``bareshell tonight``: the session's sheet in the terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.common import (
    build_option,
    car_named,
    find_build,
    heading,
    json_option,
    show,
    table,
)

if TYPE_CHECKING:
    from bareshell.whole.sheet_parts import Ticket, TonightSheet, WhyNot

CHAINS_SHOWN = 3
FIRST_SHOWN = 3
"""So many of the moves that are as good are told at length."""

ALSO_SHOWN = 3
"""So many other jobs that hang on the same root are named."""

FOLDED_FROM = 2
"""More proofs than this that read alike are one line."""

SPARE_SAID = 15
"""Less time than this left over is not worth a word. [min]"""


@click.command("tonight")
@build_option
@json_option
@click.option("--minutes", type=int, help="How long you really have.")
@click.option("--people", type=int, help="1 alone, 2 with a helper.")
@click.option("--helper", type=click.Choice(["hand", "marked", "any"]),
              help="What a helper does alone: lends a hand, jobs marked, any.")  # fmt: skip
@click.option("--stands", "support", metavar="SUPPORT", help="How the car stands: see 'car'.")
@click.option("--degrees", "temperature_c", type=float, help="In the garage. [degC]")
@click.option("--starts", help="Local time: 19:30, 'Saturday 10:00', '5 December 10:00'.")
@click.option("--nothing-dirty", is_flag=True)
@click.option("--nothing-dangerous", is_flag=True, help="Nothing dangerous to do alone.")
@click.option("--exactly", is_flag=True, help="Have a solver pack the session: takes some seconds.")
@click.option("--why-not", "job_id", metavar="JOB", help="Why this job is not tonight.")
def tonight_command(
    folder: Path | None,
    minutes: int | None,
    people: int | None,
    helper: str | None,
    support: str | None,
    temperature_c: float | None,
    starts: str | None,
    job_id: str | None,
    *,
    as_json: bool,
    nothing_dirty: bool,
    nothing_dangerous: bool,
    exactly: bool,
) -> None:
    """Say what to do in this session: the order, what to fetch, what can hurt, how to leave it."""
    from bareshell.app.door import Door
    from bareshell.app.tonight import HELPER, asked_from, tonight, why_not
    from bareshell.cli.engine import first_run_said

    mood = {"nothing dirty"} if nothing_dirty else set()
    mood |= {"nothing dangerous alone"} if nothing_dangerous else set()
    with Door.open(find_build(folder)) as door:
        asked = asked_from(
            door,
            minutes=minutes,
            people=people,
            support=support,
            temperature_c=temperature_c,
            starts=starts,
            mood=frozenset(mood),
            helper=HELPER.get(helper or ""),
            exactly=exactly,
        )
        first_run_said()
        if job_id is not None:
            chain = why_not(door, asked, job_id)
            show(chain, as_json=as_json, text=lambda: _chain(chain))
            return
        sheet = tonight(door, asked)
    show(sheet, as_json=as_json, text=lambda: _text(sheet))


def _text(sheet: TonightSheet) -> Iterable[str]:
    yield from _session(sheet)
    if len(sheet.begin_with) > 1:
        yield from _begin_with(sheet)
    moments: list[tuple[object, Iterable[str]]] = [
        (ticket.starts_at, _ticket(ticket)) for ticket in sheet.jobs
    ]
    moments += [
        (
            move.starts_at,
            ["", f"{move.starts_at:%H:%M}  move the car to {move.to_title}, {move.minutes} min"]
            + [f"         {caution.harm}: {caution.sentence}" for caution in move.cautions],
        )
        for move in sheet.moves
    ]
    for _, lines in sorted(moments, key=lambda pair: str(pair[0])):
        yield from lines
    if sheet.jobs and sheet.spare_minutes >= SPARE_SAID:
        yield ""
        yield f"{sheet.spare_minutes} min are left over: nothing more that can be done fits."
    yield ""
    yield heading("Leave the car so")
    for line in sheet.leave:
        yield f"  {line.lead}: {line.sentence}" if line.sentence else f"  {line.lead}."
    yield ""
    if sheet.why_not:
        yield heading("Why not tonight?", "--why-not JOB asks for another")
    for chain in sheet.why_not[:CHAINS_SHOWN]:
        yield from _chain(chain)
    if sheet.promise:
        yield ""
        yield sheet.promise
    yield ""
    yield "Planning help only: it does not see the car. The car's own manual outranks it."


def _session(sheet: TonightSheet) -> Iterable[str]:
    """Which session it is, what is taken for granted and what changed."""
    session = sheet.session
    who = "alone" if session.people == 1 else "two people"
    cold = f", {session.temperature_c:.0f} °C" if session.temperature_c is not None else ""
    yield heading(car_named(sheet.car, invented=sheet.invented))
    yield (
        f"{session.starts_at:%A %d %B %H:%M}, {session.minutes} min, {who}, on "
        f"{session.support_title}{cold}"
    )
    for sentence in (*sheet.assumptions, *sheet.stranded):
        yield f"  {sentence}"
    if sheet.changed:
        said = f"Since the last forecast kept: {sheet.changed} {sheet.because}".strip()
        yield from textwrap.wrap(said, 100)
    if sheet.packed or not sheet.jobs:
        yield ""
    if sheet.packed:
        yield f"{sheet.packed.status}: {sheet.packed.words}"
    if not sheet.jobs:
        yield _nothing(sheet)


def _nothing(sheet: TonightSheet) -> str:
    """Why the session is empty: no work at all, or none that can be done as it is."""
    if sheet.why_not or sheet.stranded:
        return "Nothing can be done in this session as it is."
    return (
        "No work is left to plan: every job is done or left out. 'bareshell jobs --all' lists them."
    )


def _begin_with(sheet: TonightSheet) -> Iterable[str]:
    """The first choices at length; the many that are as good, folded."""
    good = [move for move in sheet.begin_with if move.as_good]
    shown = [*good[:FIRST_SHOWN], *(move for move in sheet.begin_with if not move.as_good)]
    yield ""
    yield heading("Begin with", f"weighed over {sheet.samples} futures" if sheet.samples else "")
    yield from table([(f"  {move.title}", move.words) for move in shown])
    if len(good) > FIRST_SHOWN:
        more = len(good) - FIRST_SHOWN
        yield f"  ... and {more} more that {'is' if more == 1 else 'are'} as good; --json has all."


def _proofs(ticket: Ticket) -> Iterable[str]:
    """Proofs that read alike as one line with their count; the first is named, --json has all."""
    alike: dict[tuple[str, str, str], list[str]] = {}
    for proof in ticket.proves:
        limit = f"; {proof.limit}" if proof.limit else ""
        alike.setdefault((proof.title, limit, proof.state), []).append(proof.id)
    for (title, limit, state), ids in alike.items():
        if len(ids) <= FOLDED_FROM:
            yield from (f"  prove    {title}{limit} ({one}, {state})" for one in ids)
        else:
            yield (
                f"  prove    {len(ids)} x {title}{limit} ({state}: {ids[0]}, {ids[1]} and "
                f"{len(ids) - 2} more)"
            )


def _ticket(ticket: Ticket) -> Iterable[str]:
    piece = "" if ticket.finishes else " (a piece of it)"
    yield ""
    who = ", the helper alone" if ticket.by_helper else ", two people" if ticket.people > 1 else ""
    yield (
        f"{ticket.starts_at:%H:%M}  {heading(ticket.title)}{piece}  "
        f"{ticket.minutes} min{who}, {ticket.system} ({ticket.id})"
    )
    for lesson in ticket.lessons:
        yield f"         Learned: {lesson}"
    for line in ticket.fetch:
        where = f", {line.where}" if line.where else ""
        state = "" if line.state == "here" else f" [{line.state}]"
        yield f"  fetch    {line.quantity} x {line.title}{where}{state}"
    for tool in (*ticket.tools, *((ticket.kit,) if ticket.kit else ())):
        yield f"  tool     {tool}"
    for torque in ticket.tightens:
        yield f"  tighten  {torque}"
    for caution in ticket.cautions:
        yield f"  mind     {caution.harm}: {caution.sentence}"
    yield from _proofs(ticket)
    for hidden in ticket.hides:
        yield f"  hides    {hidden.title}: covered, unproven"
    for temp in ticket.raises:
        yield f"  raises   temp: {temp}"
    if ticket.easier:
        yield f"           {ticket.easier}"
    if ticket.then_wait:
        yield f"           {ticket.then_wait}"


def _chain(chain: WhyNot) -> Iterable[str]:
    yield f"  {chain.title}: {chain.rule}"
    for link in chain.links:
        yield f"    - {link.sentence}"
    if chain.frees:
        yield f"    frees it: {chain.frees}"
    if chain.also:
        more = len(chain.also) - ALSO_SHOWN
        named = "; ".join(chain.also[:ALSO_SHOWN])
        yield f"    and with it: {named}{f' and {more} more' if more > 0 else ''}"
