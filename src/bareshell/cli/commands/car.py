"""``bareshell car``: the car, how it stands, the garage, the sessions to come."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.commands.going_back import COMMANDS
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
    from bareshell.whole.car_overview import CarOverview


@click.group("car", invoke_without_command=True)
@build_option
@json_option
@click.pass_context
def car_command(ctx: click.Context, folder: Path | None, *, as_json: bool) -> None:
    """Show the car and the garage, or write down how it stands and when there is time."""
    ctx.obj = folder
    if ctx.invoked_subcommand is not None:
        return
    from bareshell.app import reading
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        overview = reading.car(door)
    show(overview, as_json=as_json, text=lambda: _text(overview))


@car_command.command("stands")
@click.argument("support_id")
@click.option("--off", multiple=True, help="What is off it: 'engine out', 'glass out' ...")
@click.pass_obj
def stands(folder: Path | None, support_id: str, off: tuple[str, ...]) -> None:
    """Write down how the car stands now."""
    from bareshell.app.door import Door
    from bareshell.model.changes import CarPlaced
    from bareshell.model.position import Placement

    with Door.open(find_build(folder)) as door:
        build = door.build()
        kept = frozenset(off) if off else (build.placement.off if build.placement else frozenset())
        door.record(CarPlaced(Placement(support_id, kept)))
        title = door.build().supports[support_id].title
    click.echo(f"The car stands on {title}.")


@car_command.command("day")
@click.argument("day")
@click.option("--minutes", type=click.IntRange(0), default=0, help="0 for no session that day.")
@click.option("--people", type=click.IntRange(1, 2))
@click.option("--starts", help="Local time, such as 19:30, to add a session.")
@click.option("--words", default="")
@click.pass_obj
def day_command(
    folder: Path | None,
    day: str,
    minutes: int,
    people: int | None,
    starts: str | None,
    words: str,
) -> None:
    """Say how one day differs: no session, a longer one, an added one.

    DAY is written as 2026-12-05, '5 December' or Saturday.
    """
    from bareshell.app.door import Door
    from bareshell.model.changes import ExceptionSet
    from bareshell.model.session import SessionException
    from bareshell.units import parse_date, parse_moment
    from bareshell.whole.garage_time import zone_of

    with Door.open(find_build(folder)) as door:
        zone = zone_of(door.build())
        today = door.now().astimezone(zone)
        on = parse_date(day, "day", today=today.date())
        start = parse_moment(starts, "starts", now=today, zone=zone).time() if starts else None
        door.record(ExceptionSet(SessionException(on, minutes, people, start, words)))
    said = f"{minutes} minutes" if minutes else "no session"
    click.echo(f"{on:%A %d %b %Y}: {said}.")


for _command in COMMANDS:
    car_command.add_command(_command)


def _text(car: CarOverview) -> Iterable[str]:
    name = car_named(car.car, invented=car.invented) if car.car else "no car described yet"
    yield heading(name, car.layout)
    if car.words:
        yield f"  {car.words}"
    yield f"  stands on {car.stands_title}" + (f"; {', '.join(car.off)}" if car.off else "")
    warmth = f"heated to {car.heated_to_c:g} °C" if car.heated_to_c is not None else "unheated"
    yield f"  garage {warmth}; set-up {car.set_up_minutes} min, clear-up {car.clear_up_minutes} min"
    yield ""
    yield heading("Ways it can stand")
    yield from table(
        [(f"  {s.id}", s.title, f"wheels {s.wheels}", ", ".join(s.opens)) for s in car.supports]
    )
    yield ""
    yield heading("Sessions in the next four weeks")
    yield from table(
        [
            (
                f"  {s.starts_at:%a %d %b %H:%M}",
                f"{s.minutes} min",
                "two people" if s.people == 2 else "alone",
                f"{s.temperature_c:.0f} °C expected" if s.temperature_c is not None else "",
            )
            for s in car.coming_sessions
        ]
    )
    yield ""
    yield heading("Systems")
    yield from table(
        [
            (f"  {s.system}", f"{s.done} of {s.total} done", f"{s.hours_left:g} h likely left")
            for s in car.by_system
        ]
    )
    if car.departures:
        yield ""
        yield heading("No longer standard")
        for departure in car.departures:
            yield f"  {departure.title}: was {departure.what_was}; is {departure.what_is}"
            yield f"      original: {departure.where_original}"
