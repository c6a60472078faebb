"""The start of a build: at most twelve questions, then a few taps where nobody can be sure."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import Request
from starlette.responses import RedirectResponse, Response

from bareshell.app import begin as beginning
from bareshell.app.begin import Doubt
from bareshell.app.door import Door
from bareshell.errors import BareshellError, Conflict
from bareshell.trade.questions import NOT_SURE, Question
from bareshell.web.bench import bench_of
from bareshell.web.desk import author_of, door_of
from bareshell.web.forms import Form, Sent
from bareshell.web.twin import PageRouter, done, page, wants_json

router = PageRouter()


@dataclass(frozen=True, slots=True)
class BeginPage:
    """The first questions, and where the build will be kept."""

    questions: tuple[Question, ...]
    folder: str
    zone: str
    unsure: str = NOT_SURE


@dataclass(frozen=True, slots=True)
class CheckPage:
    """What was taken for done and for still to do, where a tap resolves the most doubt."""

    car: str
    doubts: tuple[Doubt, ...]
    jobs: int
    taken_for_done: int


@router.page("/begin")
def ask(request: Request) -> Response:
    """Ask; where a build lies open there is nothing to begin."""
    if _opened(request) is not None:
        return RedirectResponse("/begin/check", status_code=303)
    return _asked(request, Form())


@router.post("/begin", response_model=None)
def answer(request: Request, sent: Sent) -> Response:
    """Make the build from the answers."""
    bench = bench_of(request)
    fields = {name: values for name, values in sent.fields.items() if any(values)}
    zone = next(iter(fields.pop("zone", ())), bench.zone)
    if _opened(request) is not None:  # sent twice: it is begun
        return done(request, "/begin/check", "The build is begun already.")
    try:
        with bench.turn:
            bench.door = beginning.begin(
                bench.folder, fields, zone=zone, clock=bench.clock, author=author_of(request)
            )
    except Conflict:
        return RedirectResponse("/begin", status_code=303)
    except BareshellError as error:
        if wants_json(request):
            raise
        return _asked(request, sent.again(error))
    door = bench.lay_open(request.app)
    jobs = len(door.build().jobs) if door else 0
    said = f"The build is begun: {jobs} jobs from the starter network, all of it yours to change."
    return done(request, "/begin/check", said)


def _asked(request: Request, form: Form) -> Response:
    bench = bench_of(request)
    zone = form.value("zone", bench.zone)
    context = BeginPage(beginning.questions(), str(bench.folder), zone)
    return page(request, "begin/questions.html", context, also=form, status=int(form.status))


@router.page("/begin/check")
def check(request: Request) -> Response:
    """Put the doubtful jobs before the owner."""
    return _checked(request, Form())


@router.post("/begin/check", response_model=None)
def correct(request: Request, sent: Sent) -> Response:
    """Write the taps down, with what follows from them."""
    door = door_of(request)
    taps = {
        name.removeprefix("job:"): values[0]
        for name, values in sent.fields.items()
        if name.startswith("job:") and values
    }
    finished = [job for job, said in taps.items() if said == "done"]
    open_still = [job for job, said in taps.items() if said == "not done"]
    more = "more" in sent.fields
    to = "/begin/check" if more else "/tonight"
    if not finished and not open_still:
        return done(request, to, "Left as it was taken.")
    before = _done_count(door)
    try:
        beginning.correct_frontier(door, finished, open_still)
    except BareshellError as error:
        if wants_json(request):
            raise
        return _checked(request, sent.again(error))
    turned = _done_count(door) - before
    return done(request, to, _turned_words(turned))


def _checked(request: Request, form: Form) -> Response:
    door = door_of(request)
    build = door.build()
    context = CheckPage(
        car=build.car_name,
        doubts=beginning.doubts(door),
        jobs=len(build.jobs),
        taken_for_done=_done_count(door),
    )
    return page(request, "begin/check.html", context, also=form, status=int(form.status))


def _done_count(door: Door) -> int:
    return sum(record.state.is_done for record in door.build().jobs.values())


def _turned_words(turned: int) -> str:
    if turned > 0:
        jobs = "job is" if turned == 1 else "jobs are"
        return f"{turned} more {jobs} taken for done before the record, unproven."
    if turned < 0:
        jobs = "job is" if turned == -1 else "jobs are"
        return f"{-turned} {jobs} there to do again."
    return "Written down."


def _opened(request: Request) -> Door | None:
    """The build, also one that was begun meanwhile from the command line."""
    return bench_of(request).lay_open(request.app)
