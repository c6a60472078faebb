"""Tonight's sheet laid out for the page: numbered steps, the rule, what to look for."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from bareshell.draw.days import short_day
from bareshell.draw.rule import SessionRule, Stretch
from bareshell.draw.spans import Span, whole_scale
from bareshell.model import Build
from bareshell.model.job import Caution, JobStatus
from bareshell.model.part import NeedState
from bareshell.web.links import path_of
from bareshell.whole.garage_time import zone_of
from bareshell.whole.gates_ahead import CLEAR, THROUGH, UNCOVER
from bareshell.whole.proving import PROVE, READ
from bareshell.whole.sheet_parts import Fetch, FirstMove, SupportLine, Ticket, TonightSheet
from bareshell.whole.stretch import begun_at, stretch_hours

LEAVING = "checks and papers"
"""The hatch of everything that is no job: moving the car, leaving it."""

_NINE_IN_TEN: Final = 1.645
"""Standard errors each way that hold nine in ten (the normal distribution)."""

_GOOD_SHOWN: Final = 3
_DEARER_SHOWN: Final = 2
"""So many first moves are shown; where all are as good, more names help nobody choose."""

_TORQUE: Final = re.compile(
    r"(?P<what>.+?)[,:]\s+(?P<figure>\d[\d.]*(?:\s*(?:-|–|to)\s*\d[\d.]*)?"
    r"\s*(?:N[ .]?m|kgf?[ .]?m|lbf[ .](?:ft|in))(?:,? .{1,14})?)"
)


def place_of(job: str) -> str:
    """What a job's ticket is called within the page, for the end of an address.

    Examples
    --------
    >>> place_of("read:pipe bay")
    'at-read-pipe-bay'
    """
    return "at-" + re.sub(r"[^A-Za-z0-9.-]", "-", job)


@dataclass(frozen=True, slots=True)
class Tightening:
    """What to tighten, and to what; the figure stands apart when there is one."""

    what: str
    torque: str = ""


@dataclass(frozen=True, slots=True)
class Proving:
    """Proofs that differ only in what they are about, as one line.

    ``things`` are (proof, what it is about); the latter is empty when nothing is named.
    """

    state: str
    title: str
    limit: str
    hold_hours: float | None
    things: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class WayThrough:
    """Where work that only a gate asks for is written down."""

    path: str
    words: str


_WAYS: Final = {
    THROUGH: "Let it through on the gate's page",
    CLEAR: "Write it down on the temp's page",
    UNCOVER: "Prove it, or name a substitute, on its page",
}


@dataclass(frozen=True, slots=True)
class Step:
    """One strip of the evening: a job, or moving the car.

    Parameters
    ----------
    number : str
        Its number in the evening.
    starts, ends, minutes : str, str, int
        Times of day. [min]
    ticket, move : Ticket or None, SupportLine or None
        Which of the two it is.
    begun : str
        The time of day at which it was begun, if it is under way.
    hours_since : str
        Hours since then, for the form that stops it.
    stopping : bool
        Whether its form stands open to be stopped.
    proof : str
        The proof's id, when it is proving or reading and no job of the network.
    can_begin : bool
        Whether there is a start to write down.
    under_way : bool
        Whether something of it is on the car already, which can come off again.
    tightens : tuple of Tightening
        With the figure apart.
    proves : tuple of Proving
        The ticket's proofs, alike ones together.
    way : WayThrough or None
        Where it is written down, when it is work that only a gate asks for.
    """

    number: str
    starts: str
    ends: str
    minutes: int
    ticket: Ticket | None = None
    move: SupportLine | None = None
    begun: str = ""
    hours_since: str = ""
    stopping: bool = False
    proof: str = ""
    reading: bool = False
    can_begin: bool = False
    under_way: bool = False
    tightens: tuple[Tightening, ...] = ()
    proves: tuple[Proving, ...] = ()
    way: WayThrough | None = None

    @property
    def key(self) -> str:
        """What the strip is called within the page; the same after the plan was made anew."""
        return place_of(self.ticket.id) if self.ticket else f"move-{self.number}"


@dataclass(frozen=True, slots=True)
class Choice:
    """A first move with what it costs, drawn to the scale of all of them.

    ``planned`` is the day on which the plan comes to it, where that is another day.
    """

    move: FirstMove
    cost: Span
    verdict: str
    figure: str
    step: str = ""
    planned: str = ""


@dataclass(frozen=True, slots=True)
class Evening:
    """The sheet laid out."""

    day: str
    starts: str
    length: str
    steps: tuple[Step, ...]
    rule: SessionRule | None
    leave_number: str
    leave_from: str
    leave_minutes: int
    choices: tuple[Choice, ...]
    more: tuple[Choice, ...]
    scale_days: float
    look_for: tuple[Fetch, ...]
    cautions: tuple[Caution, ...] = field(default=())
    beside: SessionRule | None = None


def evening(sheet: TonightSheet, build: Build, now: datetime, stopping: str = "") -> Evening:
    """Lay a sheet out.

    Parameters
    ----------
    sheet : TonightSheet
        What the plan says of the session.
    build : Build
        The build it was planned for.
    now : datetime
        Aware; what is under way is counted up to it.
    stopping : str
        The job whose form stands open to be stopped.
    """
    zone = zone_of(build)
    steps = _steps(sheet, build, zone, now, stopping)
    starts = sheet.session.starts_at.astimezone(zone)
    leave_from = _leave_from(sheet, build)
    minutes = round((sheet.session.ends_at - leave_from) / timedelta(minutes=1))
    number = str(len(steps) + 1)
    choices, scale = _choices(sheet, steps)
    shown = {c for step in steps for c in _cautions_of(step)}
    return Evening(
        day=f"{starts:%A} {starts.day} {starts:%B}",
        starts=f"{starts:%H:%M}",
        length=length_words(sheet.session.minutes),
        steps=steps,
        rule=_rule(sheet, zone, steps, leave_from, number),
        beside=_beside(sheet, zone, steps),
        leave_number=number,
        leave_from=f"{leave_from.astimezone(zone):%H:%M}",
        leave_minutes=minutes,
        choices=shown_first(choices),
        more=tuple(one for one in choices if one not in shown_first(choices)),
        scale_days=scale,
        look_for=tuple(f for f in sheet.fetch if f.need and f.state == NeedState.NOT_KNOWN),
        cautions=tuple(c for c in sheet.cautions if c not in shown),
    )


def length_words(minutes: int) -> str:
    """How long a session is, as it is said.

    Examples
    --------
    >>> length_words(150), length_words(120), length_words(45)
    ('2 h 30', '2 h', '45 min')
    """
    hours, rest = divmod(minutes, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest:02}" if rest else f"{hours} h"


def tightening(line: str) -> Tightening:
    """Part what is tightened from its figure, when there is one.

    Examples
    --------
    >>> tightening("Pipe nuts M10x1, dry threads: 13-16 N.m")
    Tightening(what='Pipe nuts M10x1, dry threads', torque='13-16 N.m')
    >>> tightening("bracket to strut, two M8, 22 N m").torque
    '22 N m'
    >>> tightening("Locknuts: nipped only until toe is set").torque
    ''
    """
    found = _TORQUE.fullmatch(line.strip())
    return Tightening(found["what"], found["figure"]) if found else Tightening(line)


def _cautions_of(step: Step) -> tuple[Caution, ...]:
    if step.ticket is not None:
        return step.ticket.cautions
    return step.move.cautions if step.move is not None else ()


def _steps(
    sheet: TonightSheet, build: Build, zone: ZoneInfo, now: datetime, stopping: str
) -> tuple[Step, ...]:
    """Number what is done in the order of the clock; the car is moved before the job it serves."""
    moments: list[tuple[datetime, int, Ticket | SupportLine]] = [
        *((ticket.starts_at, 1, ticket) for ticket in sheet.jobs),
        *((move.starts_at, 0, move) for move in sheet.moves),
    ]
    found = []
    for number, (_, _, thing) in enumerate(sorted(moments, key=lambda row: row[:2]), start=1):
        starts, ends = (f"{at.astimezone(zone):%H:%M}" for at in (thing.starts_at, thing.ends_at))
        if isinstance(thing, SupportLine):
            found.append(Step(str(number), starts, ends, thing.minutes, move=thing))
        else:
            found.append(_ticket_step(str(number), starts, ends, thing, build, zone, now, stopping))
    return tuple(found)


def _ticket_step(
    number: str,
    starts: str,
    ends: str,
    ticket: Ticket,
    build: Build,
    zone: ZoneInfo,
    now: datetime,
    stopping: str,
) -> Step:
    proof = next((ticket.id.removeprefix(p) for p in (PROVE, READ) if ticket.id.startswith(p)), "")
    record = build.jobs.get(ticket.id)
    state = record.state if record else None
    begun, hours = begun_at(build, ticket.id, now), stretch_hours(build, ticket.id, now)
    return Step(
        number,
        starts,
        ends,
        ticket.minutes,
        ticket=ticket,
        begun=f"{begun.astimezone(zone):%H:%M}" if begun else "",
        hours_since="" if hours is None else f"{hours:g}",
        stopping=bool(stopping) and stopping == ticket.id,
        proof=proof,
        reading=ticket.id.startswith(READ),
        can_begin=bool(state and begun is None and state.is_open),
        under_way=bool(state and state.status is JobStatus.STARTED),
        tightens=tuple(tightening(line) for line in ticket.tightens),
        proves=_alike(ticket, build),
        way=_way(ticket.id),
    )


def _way(job: str) -> WayThrough | None:
    words = next((words for prefix, words in _WAYS.items() if job.startswith(prefix)), "")
    return WayThrough(path_of("job", job), words) if words else None


def _alike(ticket: Ticket, build: Build) -> tuple[Proving, ...]:
    groups: dict[tuple[str, str, str, float | None], list[tuple[str, str]]] = {}
    for line in ticket.proves:
        record = build.proofs.get(line.id)
        alike = (line.state, line.title, line.limit, line.hold_hours)
        groups.setdefault(alike, []).append((line.id, record.proof.about if record else ""))
    return tuple(Proving(*alike, tuple(things)) for alike, things in groups.items())


def _leave_from(sheet: TonightSheet, build: Build) -> datetime:
    """The car is left in the last minutes, or as soon as there is nothing more to do."""
    clear_up = timedelta(minutes=build.garage.clear_up_minutes)
    ends = sheet.session.ends_at
    moments = [*(t.ends_at for t in sheet.jobs), *(m.ends_at for m in sheet.moves)]
    last = max(moments, default=sheet.session.starts_at)
    return min(ends, max(ends - clear_up, last))


def _rule(
    sheet: TonightSheet, zone: ZoneInfo, steps: tuple[Step, ...], leave_from: datetime, number: str
) -> SessionRule | None:
    """Draw the session; None when it has no length."""
    starts = sheet.session.starts_at
    whole = (sheet.session.ends_at - starts) / timedelta(minutes=1)
    if whole <= 0:
        return None
    pieces: list[Stretch] = []
    reached = 0.0
    own = [step for step in steps if not (step.ticket and step.ticket.by_helper)]
    for step, name, system, begins, ends in _stretches(own):
        first = max(reached, (begins - starts) / timedelta(minutes=1))
        last = min(whole, (ends - starts) / timedelta(minutes=1))
        if last - first >= 1:
            pieces.append(Stretch(step.number, name, system, first, last))
            reached = last
    first = max(reached, (leave_from - starts) / timedelta(minutes=1))
    if whole - first >= 1:
        pieces.append(Stretch(number, "leave the car", LEAVING, first, whole))
    return SessionRule(starts.astimezone(zone), whole, tuple(pieces))


def _beside(sheet: TonightSheet, zone: ZoneInfo, steps: tuple[Step, ...]) -> SessionRule | None:
    """Draw what the helper does alone meanwhile; None when that is nothing."""
    starts = sheet.session.starts_at
    whole = (sheet.session.ends_at - starts) / timedelta(minutes=1)
    theirs = [step for step in steps if step.ticket and step.ticket.by_helper]
    pieces = tuple(
        Stretch(
            step.number,
            name,
            system,
            (begins - starts) / timedelta(minutes=1),
            min(whole, (ends - starts) / timedelta(minutes=1)),
        )
        for step, name, system, begins, ends in _stretches(theirs)
        if begins < min(ends, sheet.session.ends_at)
    )
    return SessionRule(starts.astimezone(zone), whole, pieces) if pieces else None


def _stretches(
    steps: Iterable[Step],
) -> Iterable[tuple[Step, str, str, datetime, datetime]]:
    for step in steps:
        if step.ticket is not None:
            one = step.ticket
            yield step, one.title, one.system, one.starts_at, one.ends_at
        elif step.move is not None:
            name = f"move the car: {step.move.to_title}"
            yield step, name, LEAVING, step.move.starts_at, step.move.ends_at


def shown_first(choices: Sequence[Choice]) -> tuple[Choice, ...]:
    """Keep the first of those that are as good, and the first that are dearer; fold the rest."""
    good = [one for one in choices if one.move.as_good][:_GOOD_SHOWN]
    dearer = [one for one in choices if not one.move.as_good][:_DEARER_SHOWN]
    return (*good, *dearer)


def _choices(sheet: TonightSheet, steps: tuple[Step, ...]) -> tuple[tuple[Choice, ...], float]:
    numbers = {step.ticket.id: step.key for step in steps if step.ticket}
    day = sheet.session.starts_at.date()
    choices = tuple(_choice(move, numbers.get(move.id, ""), day) for move in sheet.begin_with)
    if choices:
        choices = (replace(choices[0], verdict="first on the list"), *choices[1:])
    return choices, whole_scale(tuple(choice.cost for choice in choices))


def _choice(move: FirstMove, step: str, day: date) -> Choice:
    days = max(0.0, move.days)
    reach = _NINE_IN_TEN * max(0.0, move.standard_error_days)
    cost = Span(max(0.0, days - reach), days, days + reach)
    figure = f"{days:.1f}".removesuffix(".0")
    words = f"{figure} {'day' if figure == '1' else 'days'}"
    at = move.planned
    planned = f"{at:%a} {short_day(at.date())}" if at and at.date() > day else ""
    verdict = "as good" if move.as_good else "dearer"
    return Choice(move, cost, verdict, words, step, planned)
