"""What is done with the hands: the pipe sheet, bleeding in its order, the parking brake."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import brakes_proofs
from bareshell.app import brakes_reading as reading
from bareshell.app.brakes_found import system_of
from bareshell.brakes.joints import Joint, ScrewJoint, joint_schedule
from bareshell.brakes.yardstick import Hold, Subject
from bareshell.draw import brake_checked as plates
from bareshell.draw.brake_car import BleedMark
from bareshell.draw.brake_key import KeyLine, circuit_key
from bareshell.draw.brake_pipes import pipe_sheet
from bareshell.draw.brake_places import circuits_of
from bareshell.draw.brake_plan import circuit_plan
from bareshell.draw.brake_results import pipes_plate
from bareshell.draw.brake_results_heat import slope_plate
from bareshell.draw.brake_sheet import WIDE
from bareshell.draw.brake_slope import parking_slope
from bareshell.draw.svg import Svg
from bareshell.web.brake_units import Units
from bareshell.web.desk import door_of
from bareshell.web.pages.brakes import SUBPAGES, figure_in
from bareshell.web.pages.brakes_circuit import query_of, system_in
from bareshell.web.pieces import Figure
from bareshell.web.twin import PageRouter, page
from bareshell.whole.brake_check import LOADS, load_called
from bareshell.whole.brake_opening import address_of
from bareshell.whole.brake_park import ParkAsked, ParkView

router = PageRouter()

_WAYS = {"rear wheels": "rear", "front wheels": "front", "transmission": "rear"}


@dataclass(frozen=True, slots=True)
class WorkshopShown:
    """What these pages need besides: the words to the others, units, a picture."""

    pages: tuple[tuple[str, str], ...]
    here: str
    answers: dict[str, str]
    units: Units
    query: str
    picture: Svg | None = None
    key: tuple[KeyLine, ...] = ()
    wide: Svg | None = None
    figures: tuple[Figure, ...] = ()
    loads: tuple[str, ...] = LOADS
    offer: str = ""
    addresses: Mapping[str, str] = field(default_factory=dict)

    def address(self, thing: Joint | ScrewJoint) -> str:
        """Where the page of a joint or screw is."""
        return address_of(thing)


def _shown(request: Request) -> tuple[dict[str, str], Units, str]:
    system_id = system_in(request)
    build = door_of(request).build()
    answers = {"system": system_id} if system_id else {}
    return answers, Units(reading.preference_of(build)), query_of(system_id)


# --- joints and pipes ------------------------------------------------------------------------


@router.page("/brakes/joints")
def joints(request: Request) -> Response:
    """Show every joint, what to cut and buy, and the pipe sheet."""
    door, system_id = door_of(request), system_in(request)
    view = reading.joints(door, system_id)
    system = system_of(door.build(), system_id)
    answers, units, query = _shown(request)
    circuits = circuits_of(system)
    drawn = pipes_plate(
        view.sheet, {line.id: circuits.of_line(system, line) for line in system.lines}
    )

    def pipe(line_id: str) -> str:
        return f"/brakes/circuit/{line_id}{query}"

    shown = WorkshopShown(
        SUBPAGES,
        "/brakes/joints",
        answers,
        units,
        query,
        picture=pipe_sheet(drawn, href=pipe) if drawn else None,
        wide=pipe_sheet(drawn, width=WIDE) if drawn else None,
        offer=brakes_proofs.offer_of(door),
    )
    return page(request, "brakes/joints.html", view, also=shown)


# --- bleeding --------------------------------------------------------------------------------


@router.page("/brakes/bleed")
def bleed(request: Request) -> Response:
    """Show the bleeding in its order."""
    door, system_id = door_of(request), system_in(request)
    vented = tuple(request.query_params.getlist("vented"))
    view = reading.bleed(door, system_id, vented)
    system = system_of(door.build(), system_id)
    answers, units, query = _shown(request)
    plan = plates.car_plate(system, None, {})
    marks = [
        BleedMark(step.number, step.part, f"draw {units.volume(step.draw_m3)}")
        for step in view.plan.steps
    ]
    shown = WorkshopShown(
        SUBPAGES,
        "/brakes/bleed",
        answers,
        units,
        query,
        picture=circuit_plan(plan, bleeds=marks),
        key=circuit_key(plan),
        offer=brakes_proofs.offer_of(door),
        addresses={one.id: address_of(one) for one in joint_schedule(system).screws},
    )
    return page(request, "brakes/bleed.html", view, also=shown)


# --- the parking brake -----------------------------------------------------------------------


@router.page("/brakes/park")
def park(request: Request) -> Response:
    """Show what the parking brake holds."""
    door, system_id = door_of(request), system_in(request)
    usual, params = ParkAsked(), request.query_params
    asked = ParkAsked(
        figure_in(params.get("hand", ""), "pull of the hand", usual.hand_force_n),
        figure_in(params.get("slope", ""), "slope", usual.slope * 100) / 100,
        figure_in(params.get("road", ""), "adhesion of the road", usual.friction_of_road),
        load_called(params.get("load", usual.load)),
    )
    view = reading.park(door, system_id, asked)
    answers, units, query = _shown(request)
    picked = reading.picked(door.build()) or ()
    yardstick = next(
        (one for one in picked if one.subject is Subject.PARKING and isinstance(one.asks, Hold)),
        None,
    )
    picture = None
    if view.answer is not None:
        braked = _WAYS.get(view.acts_on, "rear")
        picture = parking_slope(slope_plate(view.answer, yardstick=yardstick, braked=braked))
    shown = WorkshopShown(
        SUBPAGES,
        "/brakes/park",
        answers,
        units,
        query,
        picture=picture,
        figures=_park_figures(view, units),
    )
    return page(request, "brakes/park.html", view, also=shown)


def _park_figures(view: ParkView, units: Units) -> tuple[Figure, ...]:
    if view.up is None or view.down is None:
        return ()
    found = []
    for side in (view.up, view.down):
        ends = "the tyres" if side.limited_by == "tyres" else "the pull"
        words = f"{side.direction}, ended by {ends}"
        found.append(Figure(f"{side.slope * 100:.0f}", words, "% slope"))
    if view.clicks is not None:
        of = f", of {view.clicks_there_are:.0f}" if view.clicks_there_are is not None else ""
        words = f"clicks at {units.force(view.hand_force_n)}{of}"
        found.append(Figure(f"{view.clicks:.1f}", words))
    if view.share_of_weight is not None:
        words = "of the laden weight held, by force alone"
        found.append(Figure(f"{view.share_of_weight * 100:.0f}", words, "%"))
    return tuple(found)


# --- beside the standard ---------------------------------------------------------------------


@router.page("/brakes/compare")
def compare(request: Request) -> Response:
    """Show the brakes beside the standard ones."""
    door, system_id = door_of(request), system_in(request)
    view = reading.comparison(door, system_id, request.query_params.get("with", ""))
    answers, units, query = _shown(request)
    shown = WorkshopShown(SUBPAGES, "/brakes/compare", answers, units, query)
    if view is None:
        return page(request, "brakes/alone.html", reading.circuit(door, system_id), also=shown)
    return page(request, "brakes/compare.html", view, also=shown)
