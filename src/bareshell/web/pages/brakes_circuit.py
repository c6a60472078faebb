"""The circuit as it was entered: a picture to press, every part and line, and their forms."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Annotated

from fastapi import Depends
from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import (
    brake_files,
    brakes_desk,
    brakes_lines,
    brakes_parts,
    brakes_proofs,
    brakes_weighed,
    opening,
)
from bareshell.app import brakes_reading as reading
from bareshell.app.brakes_found import system_of, thing_of, with_role
from bareshell.app.brakes_parts import MOST_PORTS, FigureField, figure_fields
from bareshell.app.reading import RecordLine
from bareshell.app.written import Pen, Written
from bareshell.brakes.starters import STARTERS
from bareshell.brakes.weighed import CAUTIONS as WEIGHING_CAUTIONS
from bareshell.draw import brake_checked as plates
from bareshell.draw.brake_key import KeyLine, circuit_key
from bareshell.draw.brake_plan import circuit_plan
from bareshell.draw.svg import Svg
from bareshell.errors import BadInput
from bareshell.model.brake import Line, LineKind, Part, PartKind, Role, Wheel
from bareshell.model.trust import Trust
from bareshell.web.desk import blank_of, door_of
from bareshell.web.forms import Form, Sent, SentForm, answered, pairs
from bareshell.web.links import asked
from bareshell.web.pages.brakes import SUBPAGES
from bareshell.web.pages.bring_in import file_sent
from bareshell.web.twin import PageRouter, page
from bareshell.whole.brake_circuit import ChoiceView, FigureView, ThingName, ThingView

router = PageRouter()

_ROLES = pairs(Role)
_SEXES = pairs(("male", "female"))
_TOPS = (("", "nobody looked"), ("yes", "yes"), ("no", "no"))
_BLANK_PORTS = 2


@dataclass(frozen=True, slots=True)
class Kinds:
    """The parts of one kind, in the list of all."""

    kind: str
    things: tuple[ThingName, ...]


@dataclass(frozen=True, slots=True)
class CircuitShown:
    """What the page of the circuit needs besides."""

    pages: tuple[tuple[str, str], ...]
    here: str
    answers: dict[str, str]
    plan: Svg
    plan_key: tuple[KeyLine, ...]
    kinds: tuple[Kinds, ...]
    name: Form
    idea: Form
    drop: Form
    roles: tuple[tuple[str, str], ...]
    query: str
    offer: str = ""


@dataclass(frozen=True, slots=True)
class FigureRow:
    """A figure's three boxes and what stands beside them."""

    field: FigureField
    view: FigureView | None


@dataclass(frozen=True, slots=True)
class ThingShown:
    """What the form of a part or line needs."""

    pages: tuple[tuple[str, str], ...]
    here: str
    answers: dict[str, str]
    form: Form
    drop: Form
    action: str
    needed: tuple[FigureRow, ...]
    more: tuple[FigureRow, ...]
    choices: tuple[ChoiceView, ...]
    ports: tuple[tuple[str, str], ...]
    port_rows: range
    departures: tuple[tuple[str, str], ...]
    history: tuple[RecordLine, ...]
    subject: str
    is_line: bool
    wheels: tuple[tuple[str, str], ...] = pairs(Wheel)
    trusts: tuple[tuple[str, str], ...] = pairs(Trust)
    sexes: tuple[tuple[str, str], ...] = _SEXES
    tops: tuple[tuple[str, str], ...] = _TOPS
    kinds: tuple[tuple[str, str], ...] = ()
    weigh: Form | None = None
    weigh_loads: tuple[tuple[str, str], ...] = tuple(brakes_weighed.LOADS.items())
    weigh_cautions: tuple[str, ...] = WEIGHING_CAUTIONS


@dataclass(frozen=True, slots=True)
class BeginShown:
    """What the form that begins brakes lets one choose from."""

    form: Form
    file_form: Form
    starters: tuple[tuple[str, str, str], ...]
    roles: tuple[tuple[str, str], ...] = _ROLES
    sides: tuple[tuple[str, str], ...] = tuple(brakes_desk.SIDES.items())
    threads: tuple[tuple[str, str], ...] = tuple(brakes_desk.THREADS.items())


def system_in(request: Request) -> str:
    """Return which brakes a page is about; empty for those on the car."""
    return request.query_params.get("system", "")


def query_of(system_id: str) -> str:
    """Return what an address ends in, to be about these brakes."""
    return asked("", system=system_id)


# --- the whole circuit -----------------------------------------------------------------------


@router.page("/brakes/circuit")
def circuit(request: Request) -> Response:
    """Show every part and line, drawn and listed."""
    return _circuit(request, Form(), Form(), Form())


def _circuit(request: Request, name: Form, idea: Form, drop: Form) -> Response:
    door = door_of(request)
    build = door.build()
    system_id = system_in(request)
    view = reading.circuit(door, system_id)
    system = system_of(build, system_id)
    plan = plates.car_plate(system, with_role(build, Role.STANDARD), build.departures)
    if not name.fields:
        name = name.laid(brakes_desk.lay_system(system))
    version = opening.version_of(door, f"brakes:{system.id}")
    shown = CircuitShown(
        pages=SUBPAGES,
        here="/brakes/circuit",
        answers={"system": system_id} if system_id else {},
        plan=circuit_plan(
            plan,
            href=lambda one: f"/brakes/circuit/{one}{query_of(system_id)}",
            flow=True,
        ),
        plan_key=circuit_key(plan, flow=True),
        kinds=_kinds(view.parts) + _kinds(view.lines),
        name=name.on(version),
        idea=idea,
        drop=drop.on(version),
        roles=_ROLES,
        query=query_of(system_id),
        offer=brakes_proofs.offer_of(door),
    )
    status = max(name.status, idea.status, drop.status)
    return page(request, "brakes/circuit.html", view, also=shown, status=status)


def _kinds(things: tuple[ThingName, ...]) -> tuple[Kinds, ...]:
    kinds: dict[str, list[ThingName]] = {}
    for thing in things:
        kinds.setdefault(thing.kind, []).append(thing)
    return tuple(Kinds(kind, tuple(every)) for kind, every in kinds.items())


@router.post("/brakes/circuit", response_model=None)
def describe(request: Request, sent: Sent) -> Response:
    """Correct what brakes are called and stand for."""
    door, system_id = door_of(request), system_in(request)
    return answered(
        request,
        sent,
        lambda pen: brakes_desk.describe_system(door, system_id, sent.fields, pen),
        f"/brakes/circuit{query_of(system_id)}",
        lambda form: _circuit(request, form, Form(), Form()),
    )


@router.post("/brakes/idea", response_model=None)
def idea(request: Request, sent: Sent) -> Response:
    """Copy brakes to an idea, with one thing changed."""
    door, system_id = door_of(request), system_in(request)
    return answered(
        request,
        sent,
        lambda pen: brakes_desk.copy_to_idea(door, system_id, sent.fields, pen),
        lambda written: asked("/brakes", system=written.key),
        lambda form: _circuit(request, Form(), form, Form()),
    )


@router.post("/brakes/dropped", response_model=None)
def dropped(request: Request, sent: Sent) -> Response:
    """Drop the description of brakes."""
    door, system_id = door_of(request), system_in(request)
    return answered(
        request,
        sent,
        lambda pen: brakes_desk.drop_system(
            door, system_of(door.build(), system_id).id, sent.fields, pen
        ),
        "/brakes",
        lambda form: _circuit(request, Form(), Form(), form),
    )


@router.get("/brakes/file.toml", response_model=None)
def brake_file(request: Request) -> Response:
    """Hand the brakes out as a brake file."""
    text = brake_files.brake_file_of(door_of(request), system_in(request))
    name = system_of(door_of(request).build(), system_in(request)).id
    return Response(
        text,
        media_type="application/toml",
        headers={"Content-Disposition": f'attachment; filename="{_plain(name)}.toml"'},
    )


def _plain(name: str) -> str:
    return "".join(
        each if each.isascii() and (each.isalnum() or each in "-_") else "-" for each in name
    )


# --- beginning -------------------------------------------------------------------------------


@router.page("/brakes/begin")
def begin(request: Request) -> Response:
    """Show how brakes can be begun: from a starter, or from a brake file."""
    starter = request.query_params.get("starter", "")
    return _begin(request, Form({"starter": (starter,)} if starter else {}), Form())


def _begin(request: Request, form: Form, file_form: Form) -> Response:
    starters = tuple((one.name, one.name.capitalize(), one.words) for one in STARTERS.values())
    shown = BeginShown(form, file_form, starters)
    status = max(form.status, file_form.status)
    return page(request, "brakes/begin.html", blank_of(request), also=shown, status=status)


@router.post("/brakes/begin", response_model=None)
def begin_from_starter(request: Request, sent: Sent) -> Response:
    """Describe brakes from a starter."""
    return answered(
        request,
        sent,
        lambda pen: brakes_desk.begin_from_starter(door_of(request), sent.fields, pen),
        lambda written: f"/brakes/circuit{query_of(written.key)}",
        lambda form: _begin(request, form, Form()),
    )


@router.post("/brakes/begin/file", response_model=None)
def begin_from_file(
    request: Request, sent: Sent, file: Annotated[UploadFile | None, Depends(file_sent)]
) -> Response:
    """Describe brakes from a brake file."""

    def write(pen: Pen) -> Written:
        if file is None:
            raise BadInput("file", "none was chosen", "choose the file, then press again")
        with file.file as opened:
            data = opened.read(brake_files.LARGEST_BYTES + 1)
        text = brake_files.text_of(data, file.filename or "the file")
        return brakes_desk.begin_from_file(door_of(request), text, sent.fields, pen)

    return answered(
        request,
        sent,
        write,
        lambda written: f"/brakes/circuit{query_of(written.key)}",
        lambda form: _begin(request, Form(), form),
    )


# --- one part or line ------------------------------------------------------------------------


@router.page("/brakes/circuit/{thing_id}")
def thing(request: Request, thing_id: str) -> Response:
    """Show one part or line, to be corrected."""
    door = door_of(request)
    found = thing_of(system_of(door.build(), system_in(request)), thing_id)
    laid = brakes_parts.lay_part(found) if isinstance(found, Part) else brakes_lines.lay_line(found)
    return _thing(request, found, Form(laid), Form())


def _thing(
    request: Request, found: Part | Line, form: Form, drop: Form, weigh: Form | None = None
) -> Response:
    door, system_id = door_of(request), system_in(request)
    view = reading.thing(door, system_id, found.id)
    kind = "brake-line" if view.is_line else "brake-part"
    subject = f"{kind}:{view.system}/{view.id}"
    version = opening.version_of(door, subject)
    shown = _form_of(request, view, found.kind, form.on(version), drop.on(version), subject)
    weigh = weigh or Form()
    if found.kind is PartKind.CAR:
        shown = replace(shown, weigh=weigh.on(version))
    status = max(form.status, drop.status, weigh.status)
    return page(request, "brakes/thing.html", view, also=shown, status=status)


def _form_of(
    request: Request,
    view: ThingView | None,
    kind: PartKind | LineKind,
    form: Form,
    drop: Form,
    subject: str,
) -> ThingShown:
    door, system_id = door_of(request), system_in(request)
    build = door.build()
    system = system_of(build, system_id)
    views = {one.name: one for one in view.figures} if view else {}
    rows = [FigureRow(field, views.get(field.name)) for field in figure_fields(kind)]
    first = [row for row in rows if _first(row, form)]
    is_line = isinstance(kind, LineKind)
    old = next((part for part in system.parts if view and part.id == view.id), None)
    count = min(MOST_PORTS, (len(old.ports) if old else 0) + _BLANK_PORTS)
    here = f"/brakes/circuit/{view.id}" if view else f"/add/brake-{'line' if is_line else 'part'}"
    return ThingShown(
        pages=SUBPAGES,
        here="/brakes/circuit",
        answers={"system": system_id} if system_id else {},
        form=form,
        drop=drop,
        action=f"{here}{query_of(system_id)}",
        needed=tuple(first),
        more=tuple(row for row in rows if row not in first),
        choices=view.choices if view else (),
        ports=brakes_lines.ports_of(system),
        port_rows=range(count),
        departures=tuple((key, one.title) for key, one in build.departures.items()),
        history=opening.history(door, subject) if subject else (),
        subject=subject,
        is_line=is_line,
        kinds=pairs(LineKind if is_line else PartKind),
    )


def _first(row: FigureRow, form: Form) -> bool:
    """Whether a figure stands at the head: an answer reads it, or something is known of it."""
    needed = row.view is not None and row.view.needed
    return needed or bool(form.value(f"figure_{row.field.name}"))


@router.post("/brakes/circuit/{thing_id}", response_model=None)
def change(request: Request, thing_id: str, sent: Sent) -> Response:
    """Correct a part or line."""
    door, system_id = door_of(request), system_in(request)
    found = thing_of(system_of(door.build(), system_id), thing_id)
    write = brakes_parts.set_part if isinstance(found, Part) else brakes_lines.set_line
    return answered(
        request,
        sent,
        lambda pen: write(door, system_id, thing_id, sent.fields, pen),
        f"/brakes/circuit/{thing_id}{query_of(system_id)}",
        lambda form: _thing(request, found, form, Form()),
    )


@router.post("/brakes/circuit/{thing_id}/dropped", response_model=None)
def thing_dropped(request: Request, thing_id: str, sent: Sent) -> Response:
    """Take a part or line out of brakes."""
    door, system_id = door_of(request), system_in(request)
    system = system_of(door.build(), system_id)

    def drop(pen: Pen) -> Written:
        is_line = any(line.id == thing_id for line in system.lines)
        take = brakes_lines.drop_line if is_line else brakes_parts.drop_part
        return take(door, system.id, thing_id, sent.fields, pen)

    def again(form: Form) -> Response:
        found = thing_of(system, thing_id)
        laid = (
            brakes_parts.lay_part(found)
            if isinstance(found, Part)
            else brakes_lines.lay_line(found)
        )
        return _thing(request, found, Form(laid), form)

    return answered(request, sent, drop, f"/brakes/circuit{query_of(system_id)}", again)


@router.post("/brakes/circuit/{thing_id}/weighed", response_model=None)
def thing_weighed(request: Request, thing_id: str, sent: Sent) -> Response:
    """Write down what weighing the car gives."""
    door, system_id = door_of(request), system_in(request)
    found = thing_of(system_of(door.build(), system_id), thing_id)
    laid = brakes_parts.lay_part(found) if isinstance(found, Part) else {}
    return answered(
        request,
        sent,
        lambda pen: brakes_weighed.weigh(door, system_id, sent.fields, pen),
        f"/brakes/circuit/{thing_id}{query_of(system_id)}",
        lambda form: _thing(request, found, Form(laid), Form(), form),
    )


@router.page("/add/brake-part")
def new_part(request: Request) -> Response:
    """Show an empty form for a part of the brakes."""
    kind = request.query_params.get("kind", PartKind.TEE.value)
    return _new(request, Form({"kind": (kind,)}))


@router.page("/add/brake-line")
def new_line(request: Request) -> Response:
    """Show an empty form for a pipe or hose."""
    kind = request.query_params.get("kind", LineKind.PIPE.value)
    return _new(request, Form({"kind": (kind,)}), line=True)


def _new(request: Request, form: Form, *, line: bool = False) -> Response:
    kind = _kind(form.value("kind"), line=line)
    system_of(door_of(request).build(), system_in(request))
    shown = _form_of(request, None, kind, form, Form(), "")
    return page(request, "brakes/thing_new.html", blank_of(request), also=shown, status=form.status)


def _kind(said: str, *, line: bool) -> PartKind | LineKind:
    kinds: type[PartKind | LineKind] = LineKind if line else PartKind
    for one in kinds:
        if said in {one.value, ""}:
            return one
    raise BadInput("kind", f"'{said}' is none", f"choose one of: {', '.join(kinds)}")


def _added(
    request: Request,
    sent: SentForm,
    write: Callable[..., Written],
    *,
    line: bool,
) -> Response:
    door, system_id = door_of(request), system_in(request)
    return answered(
        request,
        sent,
        lambda pen: write(door, system_id, None, sent.fields, pen),
        lambda written: f"/brakes/circuit/{written.key.partition('/')[2]}{query_of(system_id)}",
        lambda form: _new(request, form, line=line),
    )


@router.post("/add/brake-part", response_model=None)
def add_part(request: Request, sent: Sent) -> Response:
    """Add a part to brakes."""
    return _added(request, sent, brakes_parts.set_part, line=False)


@router.post("/add/brake-line", response_model=None)
def add_line(request: Request, sent: Sent) -> Response:
    """Add a pipe or hose to brakes."""
    return _added(request, sent, brakes_lines.set_line, line=True)
