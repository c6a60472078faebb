"""Tonight: the session as it really is, its tickets, and why not something else."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Final

from fastapi import Request
from starlette.responses import RedirectResponse, Response

from bareshell.app import reading
from bareshell.app.door import Door
from bareshell.app.going_back import away
from bareshell.app.open_job import open_job
from bareshell.app.sessions import did_this_happen
from bareshell.errors import BadInput, NotFound, Problem, Refused
from bareshell.model import Build
from bareshell.web.desk import door_of
from bareshell.web.pages.road_view import short_name
from bareshell.web.pages.tonight_asked import Asking, comes_from_the_form, read_asked
from bareshell.web.pages.tonight_page import (
    Also,
    Mishap,
    SayPanel,
    Silent,
    begin_words,
    coming_choices,
    limits,
    nothing_words,
    session_shown,
    set_words,
    written_today,
)
from bareshell.web.pages.tonight_said import panel_of
from bareshell.web.pages.tonight_view import evening
from bareshell.web.plan_desk import PROGRAM_PATIENCE_S, MovedSince, StillWorking, plan_desk_of
from bareshell.web.twin import PageRouter, page, wants_json
from bareshell.whole.car_overview import ComingSession
from bareshell.whole.garage_time import sessions_between, zone_of
from bareshell.whole.sheet_parts import SessionAsked, SessionFacts, TonightSheet, WhyNot

router = PageRouter()

MOVED_PATIENCE_S: Final = 1.5
"""How long the session waits for what its last entries did to the next two weeks. [s]"""

_LINES_READ: Final = 40
_WORK: Final = frozenset(
    "job-started job-worked job-finished job-taken-off job-not-done proof-begun proof-held "
    "proof-failed proof-spent proof-uncovered proof-substituted temp-raised temp-cleared "
    "car-placed session-held note-written lesson-learned photo-kept holding-set need-not-here "
    "goods-checked gate-passed".split()
)
"""Kinds of entry that tell of work."""

_LOOKED_AHEAD: Final = timedelta(weeks=3)


@router.page("/tonight")
def show(
    request: Request, why: str = "", stop: str = "", line: str = "", day: str = ""
) -> Response:
    """Show the session: as it is, or as it is asked for in the address."""
    asking = asking_of(request)
    if comes_from_the_form(request.query_params) and not asking.problems:
        # The form carries what it showed; a plain address is kept and shared.
        return RedirectResponse(asking.page, status_code=303)
    return shown(request, asking, why=why, stop=stop, line=line, day=day)


def asking_of(request: Request, query: str | None = None) -> Asking:
    """Read how the session is asked for: from this page's address, or from another's."""
    from starlette.datastructures import QueryParams

    door = door_of(request)
    build = door.build()
    words = request.query_params if query is None else QueryParams(query)
    return read_asked(words, zone_of(build), build.supports, _coming(build, door.now()))


def shown(
    request: Request,
    asking: Asking,
    *,
    why: str = "",
    stop: str = "",
    line: str = "",
    day: str = "",
    mishaps: Sequence[Mishap] = (),
) -> Response:
    """Answer with the page, or with the sheet as data.

    Parameters
    ----------
    request : Request
        What is answered.
    asking : Asking
        How the session is asked for.
    why : str
        A job asked about, as typed.
    stop : str
        The job whose form stands open to be stopped.
    line, day : str
        A line to be read back, and the day it is about.
    mishaps : sequence of Mishap
        Forms that could not be taken.
    """
    door = door_of(request)
    found = list(mishaps)
    plan_desk_of(request).begin_road(door)
    sheet, refused = _sheet(request, door, asking, found)
    build = door.build()
    if why.strip():
        answer = _why_not(request, door, build, asking, why, found)
        if answer is not None:
            others = tuple(one for one in sheet.why_not if one.job != answer.job)
            sheet = replace(sheet, why_not=(answer, *others))
    also = _also(door, build, sheet, asking, stop=stop, refused=refused)
    jobs = tuple(ticket.id for ticket in sheet.jobs)
    panel, misread = panel_of(door, line, day, jobs, example_of(sheet))
    found += misread
    moved = None if wants_json(request) else _moved(request, door)
    also = replace(also, say=panel, why_typed=why.strip(), mishaps=tuple(found), moved=moved)
    bad = (*(m.status for m in found), *((422,) if asking.problems else ()))
    return page(request, "tonight/tonight.html", sheet, also=also, status=max(bad, default=200))


def _moved(request: Request, door: Door) -> MovedSince | None:
    """What the last entries did to the next two weeks, when that is known within a moment."""
    try:
        return plan_desk_of(request).moved(door, wait_s=MOVED_PATIENCE_S)
    except StillWorking:
        return None


def _sheet(
    request: Request, door: Door, asking: Asking, mishaps: list[Mishap]
) -> tuple[TonightSheet, bool]:
    """Ask the plan; an answer that cannot be had becomes a page that says why."""
    desk = plan_desk_of(request)
    # A page that looks again by itself would lose what was typed in a form.
    patience = PROGRAM_PATIENCE_S if wants_json(request) or mishaps else None
    try:
        return desk.tonight(door, asking.asked, wait_s=patience), False
    except BadInput as error:
        if asking.asked is None:
            raise
        mishaps.append(Mishap("", error.problems))
        return desk.tonight(door, None, wait_s=patience), False
    except Refused:
        if wants_json(request):
            raise
        return _no_session(door), True


def _no_session(door: Door) -> TonightSheet:
    """A sheet for a garage that has no evenings: everything else is there."""
    build, now = door.build(), door.now()
    placement = build.placement.support if build.placement else ""
    support = build.supports.get(placement)
    local = now.astimezone(zone_of(build))
    facts = SessionFacts(
        number=len(build.sessions) + 1,
        starts_at=local,
        ends_at=local,
        minutes=0,
        people=1,
        support=placement,
        support_title=support.title if support else "not known",
        temperature_c=None,
    )
    car = build.car
    return TonightSheet(
        made_at=now,
        seq=build.seq,
        car=car.name if car else "",
        invented=bool(car and car.invented),
        session=facts,
    )


def _also(
    door: Door, build: Build, sheet: TonightSheet, asking: Asking, *, stop: str, refused: bool
) -> Also:
    now = door.now()
    zone = zone_of(build)
    settle = (
        f"{sheet.to_settle} {'entry waits' if sheet.to_settle == 1 else 'entries wait'} to be "
        "settled on the record"
        if sheet.to_settle
        else ""
    )
    lines = reading.record(door, limit=_LINES_READ).lines
    kinds = {
        entry.seq: entry.change.KIND for entry in door.entries(limit=_LINES_READ, newest_first=True)
    }
    work = {seq for seq, kind in kinds.items() if kind in _WORK}
    open_jobs = tuple(ticket.id for ticket in sheet.jobs)
    asked_sheet = None if refused else sheet
    return Also(
        build=build,
        asking=asking,
        evening=evening(sheet, build, now, stop),
        session_shown=session_shown(sheet, asking),
        coming=coming_choices(_coming(build, now), now),
        say=SayPanel(),
        written=written_today(lines, work, now, zone),
        silent=_silent(door, open_jobs),
        away=away(door),
        nothing=nothing_words(asked_sheet, build),
        set_words=set_words(asking, asked_sheet),
        settle=settle,
        begin_words=begin_words(sheet),
        limits=limits(sheet),
    )


def _silent(door: Door, planned: Sequence[str]) -> tuple[Silent, ...]:
    """What to ask after weeks in which nothing was written down."""
    return tuple(
        Silent(
            question.about,
            question.text,
            tuple((str(n), choice.label) for n, choice in enumerate(question.choices)),
        )
        for question in did_this_happen(door, planned)
    )


def example_of(sheet: TonightSheet) -> str:
    """What one could type about this very session."""
    jobs = [ticket for ticket in sheet.jobs if ":" not in ticket.id]
    if not jobs:
        return "tidied up, found the rear lamp screws in bag 12"
    return f"{short_name(jobs[0].title)} done 1h30, two clips short"


def _coming(build: Build, now: datetime) -> tuple[ComingSession, ...]:
    """The sessions one can choose among; none when the garage's rules cannot be read."""
    zone = zone_of(build)
    try:
        slots = sessions_between(build, now, now + _LOOKED_AHEAD)
    except BadInput:
        return ()
    return tuple(
        ComingSession(
            _whole_minute(now + timedelta(minutes=slot.start_minute)).astimezone(zone),
            slot.minutes,
            slot.people,
            slot.temperature_c,
            slot.kind,
        )
        for slot in slots
    )


def _whole_minute(moment: datetime) -> datetime:
    """The nearest whole minute: slots are counted in minutes from a moment that has seconds."""
    return (moment + timedelta(seconds=30)).replace(second=0, microsecond=0)


def _why_not(
    request: Request,
    door: Door,
    build: Build,
    asking: Asking,
    typed: str,
    mishaps: list[Mishap],
) -> WhyNot | None:
    try:
        job = open_job(build, typed, "why not")
    except BadInput as error:
        mishaps.append(Mishap("why", error.problems))
        return None
    except NotFound as error:
        mishaps.append(Mishap("why", (Problem("why not", error.message, error.remedy),)))
        return None
    patience = PROGRAM_PATIENCE_S if wants_json(request) else None
    asked: SessionAsked | None = asking.asked
    return plan_desk_of(request).why_not(door, asked, job, wait_s=patience)
