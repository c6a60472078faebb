"""``bareshell road``: every session to the road, and when it may be reached."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.common import (
    build_option,
    car_named,
    counted,
    find_build,
    heading,
    json_option,
    show,
    table,
)

if TYPE_CHECKING:
    from bareshell.app.door import Door
    from bareshell.whole.forecast_parts import Grounds, GroundsOverview, LeversOverview
    from bareshell.whole.road_parts import RoadOverview, RoadSession

SEASONAL_SHOWN = 8
HELPER_SHOWN = 6


@click.command("road")
@build_option
@json_option
@click.option("--sessions", "shown", type=click.IntRange(0, 1000), default=12, show_default=True,
              help="How many sessions to write out.")  # fmt: skip
@click.option("--sure", type=click.Choice(["0.8", "0.9", "0.95"]), default="0.9",
              show_default=True, help="Share of orders to be here in time.")  # fmt: skip
@click.option("--levers", "what", flag_value="levers",
              help="What would move the date, in days, and what holds it up.")  # fmt: skip
@click.option("--explain", "what", flag_value="grounds",
              help="What the dates rest on: every number with where it comes from.")  # fmt: skip
@click.option("--calendar", "calendar_file", type=click.Path(path_type=Path, dir_okay=False),
              metavar="FILE", help="Write it as an iCalendar file; - prints it.")  # fmt: skip
@click.option("--keep", "what", flag_value="keep",
              help="Keep today's forecast, to be held against what comes.")  # fmt: skip
def road_command(
    folder: Path | None,
    shown: int,
    sure: str,
    calendar_file: Path | None,
    what: str | None,
    *,
    as_json: bool,
) -> None:
    """Plan every session to the road; the finish as weeks, never as one date."""
    from bareshell.app import forecasts
    from bareshell.app.door import Door
    from bareshell.app.road import grounds, road
    from bareshell.cli.engine import first_run_said

    with Door.open(find_build(folder)) as door:
        first_run_said()
        if what == "levers":
            found = forecasts.levers(door)
            show(found, as_json=as_json, text=lambda: _levers(found))
            return
        if what == "grounds":
            opened = grounds(door)
            show(opened, as_json=as_json, text=lambda: _grounds(opened))
            return
        if calendar_file is not None:
            _calendar(door, calendar_file)
            return
        if what == "keep":
            written = forecasts.keep_forecast(door)
            if not as_json:
                click.echo(written.said)
        overview = road(door)
    show(overview, as_json=as_json, text=lambda: _text(overview, shown, float(sure)))


def _calendar(door: Door, file: Path) -> None:
    """Write the calendar, or print it."""
    from bareshell.app.calendar_feed import ahead, calendar
    from bareshell.app.road import road

    planned = road(door)
    text = calendar(door, planned)
    if str(file) == "-":
        click.echo(text.decode(), nl=False)
        return
    file.write_bytes(text)
    count = len(ahead(door, planned))
    click.echo(f"Written: {file}, {counted(count, 'day', 'days')} to keep. Open it in a calendar.")


def _text(road: RoadOverview, shown: int, share: float) -> Iterable[str]:
    yield from _finish(road)
    yield ""
    for session in road.sessions[:shown]:
        yield from _session(session)
    if len(road.sessions) > shown:
        yield f"... and {len(road.sessions) - shown} more sessions; --sessions N shows them."
    for words in road.idle:
        yield from textwrap.wrap(words, 100)
    yield ""
    if road.binds:
        yield heading("What holds it up", "share of futures; --levers says by how much")
        yield from table([(f"  {_share(one.share)}", one.words) for one in road.binds])
        yield ""
    if road.order_by:
        yield heading("Order by", f"so that {share:.0%} are here in time; --sure chooses")
        yield from table(
            [
                (f"  {one.by(share):%d %b %Y}", one.title, f"needed {one.needed_on:%d %b %Y}")
                for one in road.order_by[:12]
            ]
        )
        yield ""
    if road.seasonal:
        yield heading("Waits for warmth", "the first to come; --json has them all")
        first = road.seasonal[:SEASONAL_SHOWN]
        yield from (f"  {one.title}: {one.words}" for one in first)
        if len(road.seasonal) > len(first):
            yield f"  ... and {len(road.seasonal) - len(first)} more."
        yield ""
    yield from _together(road)
    yield from _believed(road)
    yield "A forecast from your own hours and pace; it knows nothing the record does not."


def _finish(road: RoadOverview) -> Iterable[str]:
    """When the road may be reached, and what that takes for granted."""
    yield heading(car_named(road.car, invented=road.invented))
    if road.p50 and road.p80 and road.p95:
        yield f"On the road by the week of {road.p50:%d %b %Y} in half of {road.samples} futures,"
        yield f"by {road.p80:%d %b %Y} in eight of ten, by {road.p95:%d %b %Y} in 19 of 20."
    elif road.hours_left:
        yield "With the sessions there are, the road is not reached."
        if road.rest:
            yield from textwrap.wrap(road.rest, 100)
    else:
        yield "No work is left to plan: every job is done or left out."
        return
    yield f"{road.hours_left:.0f} h of work left, {road.helper_hours_left:.0f} h of it for two."
    if road.promise:
        yield f"{road.promise} {road.gap}".rstrip()
    for sentence in (*road.assumptions, *road.stranded):
        yield f"  {sentence}"
    if road.changed:
        since = f"Since the forecast of {road.issued[-1].day:%d %b %Y}"
        said = f"{since}: {road.changed} {road.because}"
        yield from textwrap.wrap(said, 100)


def _share(share: float) -> str:
    return "under 1%" if share < 0.01 else f"{share:.0%}"


def _together(road: RoadOverview) -> Iterable[str]:
    """The sessions that count on a helper, and what for."""
    counted_on = [one for one in road.sessions if one.helper_minutes and one.jobs]
    if not counted_on:
        return
    left = f"{road.helper_hours_left:.0f} h of two-person work left"
    yield heading("A second pair of hands", f"{left}; --levers says which days to ask for")
    for one in counted_on[:HELPER_SHOWN]:
        both = "; ".join(job.title for job in one.jobs if job.people > 1)
        what = f": {both}" if both else ""
        yield f"  {one.starts_at:%a %d %b %Y %H:%M}, {one.helper_minutes / 60:.1f} h{what}"
    if len(counted_on) > HELPER_SHOWN:
        yield f"  ... and {len(counted_on) - HELPER_SHOWN} sessions after these."
    yield ""


def _believed(road: RoadOverview) -> Iterable[str]:
    """Whether to believe it: paces, what was foretold before, and how that has done."""
    yield heading("Your pace", "--explain opens every number")
    yield from (f"  {pace.words}" for pace in road.paces[:6])
    yield ""
    if road.scores:
        yield heading("How forecasts have done")
        yield from (f"  {score.words}" for score in road.scores)
        yield ""
    if road.issued:
        yield heading("Forecasts kept", "half, eight in ten, 19 in 20")
        yield from table(
            [
                (
                    f"  {one.day:%d %b %Y}:",
                    f"{one.p50:%d %b %Y}",
                    f"{one.p80:%d %b %Y}",
                    f"{one.p95:%d %b %Y}",
                    f"{one.done} of {counted(one.planned, 'job', 'jobs')} done in two weeks"
                    if one.over
                    else "",
                )
                for one in road.issued[-8:]
            ]
        )
        yield ""


def _levers(found: LeversOverview) -> Iterable[str]:
    yield heading(car_named(found.car, invented=found.invented))
    if not found.levers:
        yield "There is nothing to plan, so nothing moves the date."
        return
    yield heading(
        "What would move the date", f"on average over the same {found.lever_samples} futures"
    )
    yield from table(
        [
            (
                "  no clear effect"
                if one.word == "no clear effect"
                else f"  {one.gain_days:+.1f} days",
                "" if one.word == "no clear effect" else f"+-{2 * one.standard_error_days:.1f}",
                one.title,
            )
            for one in found.levers
        ]
    )
    yield "  A plus brings the road nearer; +- is twice the standard error."
    yield ""
    if found.helper:
        yield heading("A second pair of hands")
        yield f"  {found.helper.words}"
        yield from (
            f"  {day.starts_at:%a %d %b %Y %H:%M}, {day.hours:g} h: {'; '.join(day.titles)}"
            for day in found.helper.ask
        )
        yield ""
    yield heading("What holds it up", f"of {found.mean_days:.0f} days on average")
    yield from table(
        [
            (f"  {one.days:.1f} days", f"{one.share:.0%} of futures", one.title)
            for one in found.binds
            if one.kind != "job"
        ]
    )
    yield f"  {found.work_days:.0f} days are work, and the usual days between sessions."
    yield ""
    yield heading("Jobs on the chain that binds", "the published indices")
    yield from table(
        [
            ("  criticality", "cruciality", "significance", "sensitivity", "job"),
            *(
                (
                    f"  {one.criticality:.2f}",
                    f"{one.cruciality:.2f}" if one.clear else "not clear",
                    f"{one.significance:.2f}",
                    f"{one.sensitivity:.3f}",
                    one.title,
                )
                for one in found.indices
            ),
        ]
    )
    for name, words in found.index_words:
        yield f"  {name}: {words}"
    yield ""
    yield "Days are reckoned, not promised. Whether a car may go without a job is for its gate"
    yield "and for local law to say."


def _grounds(opened: GroundsOverview) -> Iterable[str]:
    yield heading(car_named(opened.car, invented=opened.invented))
    for ground in opened.grounds:
        yield from _opened(ground, 0)
    for sentence in opened.assumptions:
        yield f"Assumed: {sentence}"


def _opened(ground: Grounds, depth: int) -> Iterable[str]:
    value = "not known" if ground.value is None else f"{ground.value} {ground.unit}".strip()
    yield f"{'  ' * depth}{ground.name}: {value} ({ground.trust}; {ground.rests_on})"
    for one in ground.beneath:
        yield from _opened(one, depth + 1)


def _session(session: RoadSession) -> Iterable[str]:
    who = "" if session.people == 1 else ", two people"
    cold = f", {session.temperature_c:.0f} °C" if session.temperature_c is not None else ""
    yield f"{session.starts_at:%a %d %b %H:%M}  {session.minutes} min{who}{cold}"
    for moved in session.moved:
        yield f"      {moved}"
    for job in session.jobs:
        piece = "" if job.finishes else ", a piece"
        yield f"      {job.title} ({job.minutes} min{piece})"
