"""``bareshell trial``: change anything in a copy, and look at two roads side by side."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
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
    from bareshell.app.door import Door
    from bareshell.whole.trial_parts import TrialOverview, TwoDays


@click.command("trial")
@build_option
@json_option
@click.option("--without", multiple=True, metavar="JOB", help="Leave a job out.")
@click.option("--hours", multiple=True, metavar="JOB=HOURS", help="Other hours: exhaust=4.")
@click.option("--lowest", multiple=True, metavar="JOB=DEGREES",
              help="Another lowest temperature, with another product.")  # fmt: skip
@click.option("--part", multiple=True, metavar="NEED=DAY",
              help="A part on 2031-03-05, +7 or -7 days, or 'here'.")  # fmt: skip
@click.option("--session", multiple=True, metavar="DAY=STARTS/MINUTES[/PEOPLE]",
              help="One more each week: SU=10:00/240.")  # fmt: skip
@click.option("--day", multiple=True, metavar="DATE=MINUTES[/PEOPLE]",
              help="A day not as usual: 2031-03-05=420/2; 0 for none.")  # fmt: skip
@click.option("--helper", multiple=True, metavar="DATE|PATTERN",
              help="The helper on a day, or at every session of a pattern.")  # fmt: skip
@click.option("--helps", type=click.Choice(["hand", "marked", "any"]),
              help="What a helper does alone.")  # fmt: skip
@click.option("--heated", metavar="DEGREES[/nights]",
              help="The garage heated, at night too with '/nights'; 'off' for not.")  # fmt: skip
@click.option("--file", "file", type=click.Path(path_type=Path),
              help="Anything else: what a changed build file or list would bring in.")  # fmt: skip
@click.option("--keep", is_flag=True, help="Write the changes down.")
def trial_command(
    folder: Path | None,
    helps: str | None,
    heated: str | None,
    file: Path | None,
    *,
    as_json: bool,
    keep: bool,
    **several: tuple[str, ...],
) -> None:
    """Offer changes up on a copy: two roads side by side, and nothing written down.

    With --keep the changes are written down, each as an entry that can be taken back.
    """
    from bareshell.app import trial
    from bareshell.app.door import Door
    from bareshell.app.trial_entries import file_step
    from bareshell.app.written import Pen
    from bareshell.cli.engine import first_run_said

    with Door.open(find_build(folder)) as door:
        codes = _codes(door, several)
        codes += [f"helps:{helps}"] if helps else []
        codes += [f"heated:{heated}"] if heated else []
        if file is not None and keep:
            raise click.UsageError("To keep what a file says, bring it in: 'bareshell import'.")
        codes += [file_step(door, file).code] if file is not None else []
        if not codes:
            raise click.UsageError("Say what to change: see 'bareshell trial --help'.")
        steps = trial.steps_of(codes)
        if keep:
            click.echo(trial.keep(door, steps, Pen()).said, err=as_json)
            return
        trial.changes_for(door, steps)  # what cannot be is said before anything is planned
        first_run_said()
        found = trial.trial(door, steps)
    show(found, as_json=as_json, text=lambda: _text(found))


JOBS_MOVED = "Jobs begun on another day"
OF_JOBS = ("without", "hours", "lowest")


def _codes(door: Door, several: dict[str, tuple[str, ...]]) -> list[str]:
    """Make one word of each option; jobs may be named by their title."""
    from bareshell.app.open_job import open_job

    codes = []
    for kind, values in several.items():
        for value in values:
            ref, equals, rest = value.rpartition("=") if kind != "without" else (value, "", "")
            ref, rest = (ref, rest) if equals else (value, "")
            if kind in OF_JOBS:
                ref = open_job(door.build(), ref)
            codes.append(f"{kind}:{ref}" + (f"={rest}" if rest else ""))
    return codes


def _text(found: TrialOverview) -> Iterable[str]:
    yield heading(car_named(found.car, invented=found.invented))
    yield "With " + "; ".join(step.words for step in found.steps) + ":"
    yield found.words
    yield ""
    was, now = found.before, found.after
    yield from table(
        [
            ("", "as things are", "in the copy"),
            ("  half of futures", _week(was.p50), _week(now.p50)),
            ("  eight of ten", _week(was.p80), _week(now.p80)),
            ("  19 of 20", _week(was.p95), _week(now.p95)),
            ("  work left", f"{was.hours_left:g} h", f"{now.hours_left:g} h"),
            ("  for two people", f"{was.helper_hours_left:g} h", f"{now.helper_hours_left:g} h"),
            ("  sessions with work", str(was.sessions), str(now.sessions)),
            ("  with a helper", str(was.helper_sessions), str(now.helper_sessions)),
            ("  times the car is moved", str(was.support_changes), str(now.support_changes)),
        ]
    )
    for title, rows in (
        ("Never reached in the copy", [(f"  {words}",) for words in found.stranded]),
        ("Gates on another day", _rows(found.gates)),
        (JOBS_MOVED, _rows(found.moved)),
        ("Last days to order", _rows(found.orders)),
    ):
        if rows:
            yield ""
            yield heading(title)
            yield from table(rows)
        if rows and title == JOBS_MOVED and found.moved_in_all > len(rows):
            yield f"  and {found.moved_in_all - len(rows)} jobs after these."
    yield ""
    yield "Nothing is written down; --keep does. Days are reckoned, not promised."


def _rows(found: Iterable[TwoDays]) -> list[tuple[str, ...]]:
    return [(f"  {one.title}", _day(one.before), f"-> {_day(one.after)}") for one in found]


def _week(monday: date | None) -> str:
    return "never" if monday is None else f"week of {monday:%d %b %Y}"


def _day(day: date | None) -> str:
    return "not at all" if day is None else f"{day:%a %d %b %Y}"
