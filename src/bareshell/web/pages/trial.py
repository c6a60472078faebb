"""Trial fit: change anything in a copy, look at the two roads side by side, keep it or leave it.

All of a trial stands in the address of its page, so it can be gone back to, shared and left;
nothing is written down before it is kept.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Final

from fastapi import Request
from starlette.datastructures import QueryParams
from starlette.responses import RedirectResponse, Response

from bareshell.app import trial
from bareshell.app.door import Door
from bareshell.app.open_job import open_job
from bareshell.draw.forecast import ForecastDots
from bareshell.draw.two_roads import GatePassed, TwoRoads
from bareshell.errors import BadInput, BareshellError, NotFound, Problem, Refused
from bareshell.model import Build
from bareshell.model.part import NeedState
from bareshell.model.standing import need_standings
from bareshell.web.desk import door_of
from bareshell.web.forms import Form, Sent, answered
from bareshell.web.links import TRIAL, trial_path
from bareshell.web.pages.road_view import landings_of_weeks
from bareshell.web.plan_desk import PROGRAM_PATIENCE_S, plan_desk_of
from bareshell.web.twin import PageRouter, page, wants_json
from bareshell.whole.rule_words import DAYS
from bareshell.whole.trial_answer import untouched
from bareshell.whole.trial_parts import RoadSide, TrialOverview
from bareshell.whole.trial_steps import HELPS, NIGHTS, TrialStep

router = PageRouter()

_WAITED_FOR: Final = (NeedState.NOT_HERE, NeedState.COMING, NeedState.WRONG, NeedState.SOME_HERE)

Typed = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class TrialShown:
    """What the page needs besides: the forms for one more change, and keeping all of them.

    Parameters
    ----------
    form : Form
        That keeps the changes.
    steps : tuple of (str, str)
        Each change in words, and the address without it.
    codes : tuple of str
        The changes as they are written.
    jobs, parts, patterns
        What one can choose among.
    before, after : ForecastDots or None
        The two forecasts.
    roads : TwoRoads or None
        The gates of both roads.
    typed : mapping of str to str
        What a form held that could not be taken; ``add`` says which.
    problems : tuple of Problem
        What was wrong with it.
    """

    form: Form
    steps: tuple[tuple[str, str], ...]
    codes: tuple[str, ...]
    jobs: tuple[str, ...]
    parts: tuple[tuple[str, str], ...]
    patterns: tuple[tuple[str, str], ...]
    before: ForecastDots | None
    after: ForecastDots | None
    roads: TwoRoads | None
    typed: Typed = field(default_factory=dict)
    problems: tuple[Problem, ...] = ()
    days: tuple[tuple[str, str], ...] = tuple(DAYS.items())
    helps: tuple[tuple[str, str], ...] = tuple((key, str(one)) for key, one in HELPS.items())

    def fields(self, kind: str) -> Form:
        """The form of a kind of change, as it was filled in if it could not be taken."""
        if self.typed.get("add") != kind:
            return Form()
        filled = {name: (value,) for name, value in self.typed.items()}
        return Form(filled, problems=self.problems)


@router.page(TRIAL)
def show(request: Request) -> Response:
    """Show the trial as its address has it; one more change leads to another address."""
    query = request.query_params
    codes = tuple(code for code in query.getlist("try") if code)
    if not query.get("add"):
        return _show(request, codes, Form())
    door = door_of(request)
    try:
        more = [*codes, _code(door.build(), query)]
        trial.changes_for(door, trial.steps_of(more))
    except (BadInput, NotFound, Refused) as error:
        if wants_json(request):
            raise
        typed = {name: query[name] for name in query if name != "try"}
        return _show(request, codes, Form(), typed, _problems(error))
    return RedirectResponse(trial_path(more), status_code=303)


@router.post(TRIAL, response_model=None)
def keep(request: Request, sent: Sent) -> Response:
    """Write the changes of a trial down."""
    codes = tuple(code for code in sent.fields.get("try", ()) if code)
    return answered(
        request,
        sent,
        lambda pen: trial.keep(door_of(request), trial.steps_of(codes), pen),
        "/road-ahead",
        lambda form: _show(request, codes, form),
    )


def _show(
    request: Request,
    codes: tuple[str, ...],
    form: Form,
    typed: Typed | None = None,
    problems: tuple[Problem, ...] = (),
) -> Response:
    door = door_of(request)
    try:
        steps = trial.steps_of(codes)
        trial.changes_for(door, steps)
    except (BadInput, NotFound, Refused) as error:
        if wants_json(request):
            raise
        # A change that cannot be any more is named, and the page begins anew without any.
        steps, problems = (), (*problems, *_problems(error))
    found = _overview(request, door, steps)
    build = door.build()
    shown = TrialShown(
        form,
        _lines(found),
        tuple(step.code for step in steps),
        tuple(r.job.title for r in build.jobs.values() if r.state.is_open),
        _parts(build),
        tuple((key, pattern.title) for key, pattern in build.patterns.items()),
        _dots(found.before, found.after, found.samples),
        _dots(found.after, found.before, found.samples),
        _roads(found),
        typed or {},
        problems,
    )
    status = 422 if problems else form.status
    return page(request, "road/trial.html", found, also=shown, status=status)


def _overview(request: Request, door: Door, steps: tuple[TrialStep, ...]) -> TrialOverview:
    patience = PROGRAM_PATIENCE_S if wants_json(request) else None
    desk = plan_desk_of(request)
    if not steps:
        return untouched(desk.road(door, wait_s=patience))
    return desk.trial(door, steps, wait_s=patience)


def _lines(found: TrialOverview) -> tuple[tuple[str, str], ...]:
    codes = [step.code for step in found.steps]
    return tuple(
        (step.words, trial_path([code for code in codes if code != step.code]))
        for step in found.steps
    )


def _parts(build: Build) -> tuple[tuple[str, str], ...]:
    """The needs of open jobs that are not here."""
    return tuple(
        (key, f"{build.needs[key].title} ({standing.state})")
        for key, standing in need_standings(build).items()
        if standing.state in _WAITED_FOR
        and build.needs[key].job in build.jobs
        and build.jobs[build.needs[key].job].state.is_open
    )


def _dots(side: RoadSide, other: RoadSide, samples: int) -> ForecastDots | None:
    """The forecast of one road, on a scale that has room for the other."""
    if not side.futures:
        return None
    landings = landings_of_weeks(side.p50, side.p80, side.p95)
    reach = tuple(day for day in (*other.futures, other.p50, other.p80, other.p95) if day)
    return ForecastDots(side.futures, landings, samples, reach)


def _roads(found: TrialOverview) -> TwoRoads | None:
    gates = [GatePassed(g.title, g.before, g.after) for g in found.ladder if g.before or g.after]
    return TwoRoads(tuple(gates)) if gates else None


def _problems(error: BareshellError) -> tuple[Problem, ...]:
    if isinstance(error, BadInput):
        return error.problems
    if isinstance(error, Refused):
        return (Problem(error.rule, error.because, error.remedy),)
    return (Problem("", error.message, error.remedy),)


# --- one more change ---------------------------------------------------------------------------


def _code(build: Build, query: QueryParams) -> str:
    """Make one word of a form.

    Raises
    ------
    BadInput
        When a field is missing or names nothing.
    """
    kind = query["add"]
    if kind not in _FORMS:
        raise BadInput("what is tried", f"'{kind}' is none", f"one of: {', '.join(_FORMS)}")
    return f"{kind}:{_FORMS[kind](build, query)}"


def _said(query: QueryParams, name: str, field: str, remedy: str) -> str:
    said = query.get(name, "").strip()
    if not said:
        raise BadInput(field, "it is empty", remedy)
    return said


def _job(build: Build, query: QueryParams) -> str:
    return open_job(build, _said(query, "job", "job", "choose an open job"))


def _hours(build: Build, query: QueryParams) -> str:
    return f"{_job(build, query)}={_said(query, 'hours', 'hours', 'give likely hours, such as 4')}"


def _lowest(build: Build, query: QueryParams) -> str:
    degrees = _said(query, "degrees", "not below", "give degrees Celsius, such as 8")
    return f"{_job(build, query)}={degrees}"


def _part(_build: Build, query: QueryParams) -> str:
    need = _said(query, "need", "part", "choose one that is waited for")
    if query.get("here"):
        return f"{need}=here"
    return f"{need}={_said(query, 'day', 'day', 'choose the day, or tick that it is here')}"


def _session(_build: Build, query: QueryParams) -> str:
    day = _said(query, "weekday", "day of the week", "choose one")
    starts = _said(query, "starts", "starts at", "write it as 19:00")
    minutes = _said(query, "minutes", "minutes", "say how long, such as 150")
    return f"{day}={starts}/{minutes}/{query.get('people') or '1'}"


def _one_day(_build: Build, query: QueryParams) -> str:
    day = _said(query, "day", "day", "choose the day")
    minutes = _said(query, "minutes", "minutes", "say how long; 0 for no session")
    people = query.get("people", "")
    return f"{day}={minutes}" + (f"/{people}" if people else "")


def _helper(_build: Build, query: QueryParams) -> str:
    if pattern := query.get("pattern", ""):
        return pattern
    return _said(query, "day", "helper", "choose a day, or every session of a kind")


def _heated(_build: Build, query: QueryParams) -> str:
    degrees = _said(query, "degrees", "heated to", "give degrees, or off")
    return f"{degrees}/{NIGHTS}" if query.get("nights") else degrees


_FORMS: Final[Mapping[str, Callable[[Build, QueryParams], str]]] = {
    "without": _job,
    "hours": _hours,
    "lowest": _lowest,
    "part": _part,
    "session": _session,
    "day": _one_day,
    "helper": _helper,
    "helps": lambda _build, query: _said(query, "helps", "what a helper does alone", "choose one"),
    "heated": _heated,
}
