"""``bareshell road``: every session to the road, and when it may be reached."""

from __future__ import annotations

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
    from bareshell.whole.road_parts import RoadOverview, RoadSession


@click.command("road")
@build_option
@json_option
@click.option("--sessions", "shown", type=click.IntRange(0, 1000), default=12, show_default=True,
              help="How many sessions to write out.")  # fmt: skip
def road_command(folder: Path | None, shown: int, *, as_json: bool) -> None:
    """Plan every session to the road; the finish as weeks, never as one date."""
    from bareshell.app.door import Door
    from bareshell.app.road import road
    from bareshell.cli.engine import first_run_said

    with Door.open(find_build(folder)) as door:
        first_run_said()
        overview = road(door)
    show(overview, as_json=as_json, text=lambda: _text(overview, shown))


def _text(road: RoadOverview, shown: int) -> Iterable[str]:
    yield heading(car_named(road.car, invented=road.invented))
    if road.p50 and road.p80 and road.p95:
        yield f"On the road by the week of {road.p50:%d %b %Y} in half of {road.samples} futures,"
        yield f"by {road.p80:%d %b %Y} in eight of ten, by {road.p95:%d %b %Y} in 19 of 20."
    else:
        yield "With the sessions there are, the road is not reached."
    yield f"{road.hours_left:.0f} h of work left, {road.helper_hours_left:.0f} h of it for two."
    if road.promise:
        yield road.promise
    for sentence in (*road.assumptions, *road.stranded):
        yield f"  {sentence}"
    yield ""
    for session in road.sessions[:shown]:
        yield from _session(session)
    if len(road.sessions) > shown:
        yield f"... and {len(road.sessions) - shown} more sessions; --sessions N shows them."
    yield ""
    if road.binds:
        yield heading("What holds it up", "share of futures")
        yield from table([(f"  {bind.share:.0%}", bind.words) for bind in road.binds])
        yield ""
    if road.order_by:
        yield heading("Order by")
        yield from table(
            [
                (f"  {one.order_by:%d %b %Y}", one.title, f"needed {one.needed_on:%d %b %Y}")
                for one in road.order_by[:12]
            ]
        )
    yield ""
    yield "A forecast from your own hours and pace; it knows nothing the record does not."


def _session(session: RoadSession) -> Iterable[str]:
    who = "" if session.people == 1 else ", two people"
    cold = f", {session.temperature_c:.0f} °C" if session.temperature_c is not None else ""
    yield f"{session.starts_at:%a %d %b %H:%M}  {session.minutes} min{who}{cold}"
    for moved in session.moved:
        yield f"      {moved}"
    for job in session.jobs:
        piece = "" if job.finishes else ", a piece"
        yield f"      {job.title} ({job.minutes} min{piece})"
