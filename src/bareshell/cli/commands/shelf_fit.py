"""``bareshell shelf fit`` and its like: what fits, what stands in, bags, fetching, counting."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.common import counted, find_build, heading, json_option, show, table

if TYPE_CHECKING:
    from bareshell.app.fitting import FitPage
    from bareshell.app.sizes import SizesRead
    from bareshell.whole.away import AwayPage
    from bareshell.whole.fit_answer import Candidate, NeedFits, ShelfMatches
    from bareshell.whole.kits import KitLine, KitPage
    from bareshell.whole.pick_list import Pick, PickList


@click.command("fit")
@click.argument("need_id", required=False)
@click.argument("holding_id", required=False)
@json_option
@click.pass_obj
def fit_command(
    folder: Path | None, need_id: str | None, holding_id: str | None, *, as_json: bool
) -> None:
    """Hold what is wanted against the shelf.

    With NEED, everything that fits it, may stand in or looks right and is not; with HOLDING too,
    every check of the pair with its sum. With neither, what is free on the shelf and fits a need.
    """
    from bareshell.app import fitting
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        if need_id is None:
            found = fitting.matches(door)
            show(found, as_json=as_json, text=lambda: _matches(found))
        elif holding_id is None:
            fits = fitting.fits(door, need_id)
            show(fits, as_json=as_json, text=lambda: _fits(fits))
        else:
            pair = fitting.fit_page(door, need_id, holding_id)
            show(pair, as_json=as_json, text=lambda: _pair(pair))


@click.command("use")
@click.argument("need_id")
@click.argument("holding_id")
@click.option("--quantity", "-n", type=int, help="How many; else as many as are wanted.")
@click.option("--temp", is_flag=True, help="For the time being: it stands among the temps.")
@click.option("--words", default="", help="Of a temp: why, and how it is marked on the car.")
@click.pass_obj
def use_command(
    folder: Path | None,
    need_id: str,
    holding_id: str,
    quantity: int | None,
    words: str,
    *,
    temp: bool,
) -> None:
    """Put something on the shelf aside for a need, or fit it as a temp."""
    from bareshell.app import fitting
    from bareshell.app.door import Door
    from bareshell.app.written import Pen

    fields = {"quantity": ["" if quantity is None else str(quantity)], "words": [words]}
    act = fitting.use_as_temp if temp else fitting.use
    with Door.open(find_build(folder)) as door:
        for sentence in act(door, need_id, holding_id, fields, Pen()).words:
            click.echo(sentence)


@click.command("sizes")
@click.option("--take", "taken", multiple=True, help="Take one that was read right.")
@json_option
@click.pass_obj
def sizes_command(folder: Path | None, taken: tuple[str, ...], *, as_json: bool) -> None:
    """Read sizes that stand in words as figures; nothing is kept but what is taken."""
    from bareshell.app import sizes
    from bareshell.app.door import Door
    from bareshell.app.written import Pen

    with Door.open(find_build(folder)) as door:
        if taken:
            for sentence in sizes.take(door, {"take": list(taken)}, Pen()).words:
                click.echo(sentence)
        else:
            found = sizes.sizes(door)
            show(found, as_json=as_json, text=lambda: _sizes(found))


@click.command("kit")
@click.argument("job_id")
@click.option("--bag", help="Write this number or name on the bag.")
@click.option("--all-here", is_flag=True, help="Everything still to be found was found.")
@click.option("--where", default="", help="With --all-here: where it lies.")
@json_option
@click.pass_obj
def kit_command(
    folder: Path | None,
    job_id: str,
    bag: str | None,
    where: str,
    *,
    all_here: bool,
    as_json: bool,
) -> None:
    """Open the bag of a job: what is here to start and to finish, what to look for."""
    from bareshell.app import kit_desk
    from bareshell.app.door import Door
    from bareshell.app.written import Pen

    with Door.open(find_build(folder)) as door:
        said = []
        if bag is not None:
            said.append(kit_desk.name_bag(door, job_id, {"bag": [bag]}, Pen()).said)
        if all_here:
            said.append(kit_desk.all_here(door, job_id, {"where": [where]}, Pen()).said)
        page = kit_desk.kit(door, job_id)
    show(page, as_json=as_json, text=lambda: (*said, *_kit(page)))


@click.command("pick")
@click.argument("jobs", nargs=-1, metavar="[JOB]...")
@click.option("--tonight", is_flag=True, help="For the jobs of tonight's list.")
@json_option
@click.pass_obj
def pick_command(
    folder: Path | None, jobs: tuple[str, ...], *, tonight: bool, as_json: bool
) -> None:
    """Say what to fetch, bin after bin; without a JOB for those that were begun."""
    from bareshell.app import kit_desk
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        if tonight:
            from bareshell.app.tonight import tonight as plan

            jobs = (*jobs, *(ticket.id for ticket in plan(door).jobs))
        found = kit_desk.picks(door, jobs)
    show(found, as_json=as_json, text=lambda: _picks(found))


@click.command("away")
@json_option
@click.pass_obj
def away_command(folder: Path | None, *, as_json: bool) -> None:
    """List what is away for work: counted out, back, missing."""
    from bareshell.app import counting
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        page = counting.away(door)
    show(page, as_json=as_json, text=lambda: _away(page))


@click.command("send")
@click.argument("to")
@click.argument("counts", nargs=-1, required=True, metavar="HOLDING=COUNT...")
@click.option("--work", default="", help="What is done: zinc plating.")
@click.option("--expected", default="", metavar="DAY", help="When it is expected back.")
@click.pass_obj
def send_command(
    folder: Path | None, to: str, counts: tuple[str, ...], work: str, expected: str
) -> None:
    """Count things out for work: bareshell shelf send "A plater" clips=46 --work "zinc plating"."""
    from bareshell.app import counting
    from bareshell.app.door import Door
    from bareshell.app.written import Pen

    fields = {"to": [to], "work": [work], "expected_on": [expected]}
    fields |= {f"out-{key}": [count] for key, count in pairs_of(counts)}
    with Door.open(find_build(folder)) as door:
        written = counting.send_away(door, fields, Pen())
        click.echo(f"{written.said} The lot is '{written.key}'.")


@click.command("back")
@click.argument("lot")
@click.argument("counts", nargs=-1, metavar="[ORDER=COUNT]...")
@click.option("--spoilt", multiple=True, metavar="ORDER=COUNT", help="Came back and is spoilt.")
@click.option("--lost", is_flag=True, help="What did not come is lost.")
@click.option("--where", default="", help="Where it was put.")
@click.option("--words", default="", help="What was seen.")
@click.pass_obj
def back_command(
    folder: Path | None,
    lot: str,
    counts: tuple[str, ...],
    spoilt: tuple[str, ...],
    where: str,
    words: str,
    *,
    lost: bool,
) -> None:
    """Count a lot back in."""
    from bareshell.app import counting
    from bareshell.app.door import Door
    from bareshell.app.written import Pen

    fields = {"where": [where], "words": [words], "lost": ["yes" if lost else ""]}
    fields |= {f"back-{key}": [count] for key, count in pairs_of(counts)}
    fields |= {f"spoilt-{key}": [count] for key, count in pairs_of(spoilt)}
    with Door.open(find_build(folder)) as door:
        click.echo(counting.take_back(door, lot, fields, Pen()).said)


def pairs_of(counts: Sequence[str]) -> Iterable[tuple[str, str]]:
    """Read counts such as ``clips=46``."""
    from bareshell.errors import BadInput

    for pair in counts:
        key, sign, count = pair.rpartition("=")
        if not sign or not key or not count:
            raise BadInput("count", f"'{pair}' is no count", "write it as clips=46")
        yield key, count


# --- in words --------------------------------------------------------------------------------


def _sizes(found: SizesRead) -> Iterable[str]:
    yield heading("Sizes in words")
    yield f"{len(found.rows) or 'None'} of {found.in_words} could be read without guessing."
    yield from table(
        [(f"  {one.kind}:{one.id}", one.title, one.words, f"{one.read_as}: {one.what}")
         for one in found.rows]
    )  # fmt: skip


def _matches(found: ShelfMatches) -> Iterable[str]:
    yield heading("On the shelf already", f"{found.needs} needs, {found.holdings} things free")
    for one in found.matches:
        where = ", ".join(f"{c.holding} in {c.where or 'no place noted'}" for c in one.fits)
        may = f"{one.may_fit} may fit" if one.may_fit else ""
        yield f"  {one.need}: {one.missing} x {one.title}"
        yield f"    {'; '.join(part for part in (f'fits: {where}' if where else '', may) if part)}"
    if not found.matches:
        yield "  nothing that is free fits anything that is wanted, as far as sizes are known"


def _fits(fits: NeedFits) -> Iterable[str]:
    yield heading(fits.title, fits.size)
    yield f"  {fits.missing} of {fits.quantity} still wanted"
    groups = (
        ("Fits", fits.fit),
        ("May stand in", fits.may_stand_in),
        ("To be measured", fits.to_measure),
        ("Looks right, and is not", fits.near_misses),
        ("Of its kind, and will not do", fits.will_not_do),
    )
    for title, found in groups:
        if found:
            yield ""
            yield heading(title)
            yield from table([_candidate(one) for one in found])
    if not any(found for _, found in groups):
        words = "nothing on the shelf is of its kind"
        if fits.by_words:
            words = "it is described in words only: say its kind and sizes, then they are compared"
        yield f"  {words}"
    if fits.questions:
        yield ""
        yield heading("Find out first")
        yield from (f"  {one.label}: {one.ask}" for one in fits.questions)


def _candidate(one: Candidate) -> tuple[str, ...]:
    said = one.doubt or one.says
    if one.stand_in is not None and one.stand_in.word not in ("will not do", "not known"):
        near = f"; near miss: {'; '.join(one.near_misses)}" if one.near_misses else ""
        said = one.stand_in.says + near
    elif one.stand_in is not None and one.word == "will not do" and not one.near_misses:
        said = one.stand_in.says
    what = f"{one.quantity} x {one.title}"
    return (f"  {one.holding}", what, one.where or "no place noted", said or one.word)


def _pair(pair: FitPage) -> Iterable[str]:
    found = pair.found
    yield heading(f"{found.title} for {pair.title}", found.where)
    yield f"  {found.stand_in.says if found.stand_in else found.word}"
    yield ""
    yield from table(
        [(f"  {one.label}", one.state, one.found or "not known", one.words or one.arithmetic)
         for one in found.lines]
    )  # fmt: skip
    for one in found.stand_in.lines if found.stand_in else ():
        yield f"  {one.check}: {one.state.value}, {one.words}"
        if one.arithmetic:
            yield f"      {one.arithmetic}"
        if one.source:
            yield f"      {one.source}"


def _kit(page: KitPage) -> Iterable[str]:
    bag = f"bag {page.bag}" if page.bag and not page.bag.startswith("bag") else page.bag
    yield heading(page.job_title, ", ".join(part for part in (page.word, bag) if part))
    yield f"  {page.says}"
    for title, lines in (("To start", page.to_start), ("To finish", page.to_finish)):
        if lines:
            yield ""
            yield heading(title)
            yield from table([_kit_line(one) for one in lines])


def _kit_line(one: KitLine) -> tuple[str, ...]:
    state = "look for it" if one.state == "not known" else one.state
    return (f"  {one.need}", f"{one.quantity} x {one.title}", one.size, state, one.where)


def _picks(found: PickList) -> Iterable[str]:
    if not found.jobs:
        yield "No job is begun: name some, or give --tonight."
        return
    yield heading("Fetch", "for " + ", ".join(title for _, title in found.jobs))
    for place in found.places:
        yield ""
        yield heading(place.place)
        yield from (_pick(one) for one in place.picks)
    for title, picks in (("Look for", found.look_for), ("Not here", found.not_here)):
        if picks:
            yield ""
            yield heading(title)
            yield from (_pick(one) for one in picks)
    if found.tools:
        yield ""
        yield heading("Tools")
        yield f"  {', '.join(found.tools)}"


def _pick(one: Pick) -> str:
    size = f", {one.size}" if one.size else ""
    return f"  [ ] {one.count} x {one.title}{size}  for {one.job_title}"


def _away(page: AwayPage) -> Iterable[str]:
    if not page.lots:
        yield "Nothing is away."
    for lot in page.lots:
        due = f", due {lot.expected_on:%d %b %Y}" if lot.open and lot.expected_on else ""
        late = f", {lot.overdue_days} days late" if lot.overdue_days else ""
        state = f"{lot.back} of {lot.out} back{due}{late}" if lot.open else "all counted back"
        yield heading(f"{lot.to}{f', {lot.work}' if lot.work else ''}", f"{lot.batch}: {state}")
        yield from table(
            [(f"  {one.order}", f"{one.out} x {one.title}",
              "lost" if one.closed else counted(one.missing, "out", "out")) for one in lot.lines]
        )  # fmt: skip
