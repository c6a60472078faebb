"""The brakes: what a push does, what is left when one thing fails, and what that rests on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import brakes_reading
from bareshell.app.brakes_found import system_of, with_role
from bareshell.app.door import Door
from bareshell.brakes.figures import gather
from bareshell.brakes.starters import STARTERS
from bareshell.draw import brake_checked as plates
from bareshell.draw.brake_balance import adhesion_used, distribution
from bareshell.draw.brake_key import KeyLine, circuit_key
from bareshell.draw.brake_pedal import pedal_curve
from bareshell.draw.brake_plan import circuit_plan
from bareshell.draw.brake_results import distribution_plate, pedal_plate
from bareshell.draw.brake_rungs import failure_ladder
from bareshell.draw.brake_sheet import WIDE
from bareshell.draw.brake_travel import pedal_travel, travel_letters
from bareshell.draw.svg import Svg
from bareshell.model.brake import BrakeSystem, Role
from bareshell.web.beside import PROGRAM_PATIENCE_S
from bareshell.web.brake_answer import (
    MOST_SETTLING,
    answer_sentence,
    axle_share,
    large_figures,
    short_comparison,
)
from bareshell.web.brake_units import Units
from bareshell.web.desk import door_of
from bareshell.web.links import asked
from bareshell.web.pieces import Figure
from bareshell.web.trust_desk import trust_desk_of
from bareshell.web.twin import PageRouter, page, wants_json
from bareshell.whole.brake_check import LOADS, Asked, BrakeCheck, load_called
from bareshell.whole.brake_parts import (
    CompareRow,
    FailedElement,
    FailureView,
    PushCurve,
    Settling,
    TravelPieceView,
)
from bareshell.whole.brake_trust import TrustAsked, TrustedAnswer, TrustView, with_shares

router = PageRouter()

SUBPAGES: tuple[tuple[str, str], ...] = (
    ("/brakes", "Check"),
    ("/brakes/compare", "Compare"),
    ("/brakes/heat", "Heat"),
    ("/brakes/park", "Parking"),
    ("/brakes/bleed", "Bleeding"),
    ("/brakes/commissioning", "Commissioning"),
    ("/brakes/joints", "Joints"),
    ("/brakes/owed", "Proofs and parts"),
    ("/brakes/tests", "Readings"),
    ("/brakes/pictures", "Pictures"),
    ("/brakes/circuit", "Circuit"),
    ("/brakes/yardsticks", "Yardsticks"),
    ("/brakes/trust", "Trust"),
)
"""The pages about the brakes, in the order they stand at their head."""


@dataclass(frozen=True, slots=True)
class NoBrakes:
    """A build that does not say yet what brakes the car has, and how it could begin."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    starters: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class PieceRow:
    """A piece of the travel in the table beside its picture."""

    letter: str
    words: str
    whole: float | None
    now: float | None


@dataclass(frozen=True, slots=True)
class DrawnCurves:
    """What is drawn over a rising push: adhesion used, slowing and travel, axle against axle."""

    adhesion: Svg
    pedal: Svg
    balance: Svg


@dataclass(frozen=True, slots=True)
class CheckShown:
    """What the page of the check needs besides."""

    pages: tuple[tuple[str, str], ...]
    here: str
    units: Units
    figures: tuple[Figure, ...]
    answer: str
    heading: str
    shown: FailureView | None
    choices: tuple[tuple[str, tuple[FailedElement, ...]], ...]
    loads: tuple[str, ...]
    plan: Svg
    plan_key: tuple[KeyLine, ...]
    travel: Svg | None
    pieces: tuple[PieceRow, ...]
    curves: DrawnCurves | None
    ladder: Svg | None
    wide_ladder: Svg | None
    first: str
    answers: Mapping[str, str]
    comparison: tuple[CompareRow, ...]
    other_role: str
    front_first: TrustedAnswer | None
    settling: tuple[Settling, ...]
    trust: TrustView | None
    drawing: bool


def asked_in(request: Request) -> Asked:
    """Read what was asked of the brakes from an address.

    Raises
    ------
    BadInput
        Naming what cannot be.
    """
    params, usual = request.query_params, Asked()
    return Asked(
        figure_in(params.get("force", ""), "force of the foot", usual.pedal_force_n),
        load_called(params.get("load", usual.load)),
        figure_in(params.get("road", ""), "adhesion of the road", usual.friction_of_road),
        params.get("with", ""),
        params.get("two", "") == "yes",
    )


def figure_in(said: str, what: str, otherwise: float) -> float:
    """Read a figure from an address; one that is not said is the usual."""
    if not said.strip():
        return otherwise
    from bareshell.units import read_figure

    return read_figure(said, what)


@router.page("/brakes")
def brakes(request: Request) -> Response:
    """Show what the brakes do, whole or with one thing failed."""
    door = door_of(request)
    build = door.build()
    if not build.brakes:
        return page(request, "brakes/none.html", none_yet(door))
    wanted = asked_in(request)
    system_id = request.query_params.get("system", "")
    system = system_of(build, system_id)
    check = brakes_reading.check(door, system_id, wanted)
    check, trust, drawing = shares_for(request, system, check)
    shown = _shown(door, system, check, trust, drawing=drawing)
    return page(request, "brakes/check.html", check, also=shown)


def shares_for(
    request: Request, system: BrakeSystem, check: BrakeCheck
) -> tuple[BrakeCheck, TrustView | None, bool]:
    """Write shares of combinations beside the verdicts, if they are there; a twin waits for them.

    Returns
    -------
    BrakeCheck
        With what there is.
    TrustView or None
        What the shares are from.
    bool
        Whether they are still being drawn.
    """
    desk = trust_desk_of(request)
    if desk is None or check.whole is None:
        return check, None, False
    door, wanted = door_of(request), TrustAsked(friction_of_road=check.friction_of_road)
    if wants_json(request):
        found: TrustView | None = desk.trust(door, system.id, wanted, wait_s=PROGRAM_PATIENCE_S)
    else:
        found = desk.soon(door, system.id, wanted)
    if found is None:
        return check, None, True
    return replace(check, verdicts=with_shares(check.verdicts, found)), found, False


def none_yet(door: Door) -> NoBrakes:
    """Say that a build has no brakes described, and how it may begin."""
    build = door.build()
    car = build.car
    return NoBrakes(
        door.now(),
        build.seq,
        car.name if car else "",
        bool(car and car.invented),
        tuple((one.name, one.words) for one in STARTERS.values()),
    )


def _shown(
    door: Door, system: BrakeSystem, check: BrakeCheck, trust: TrustView | None, *, drawing: bool
) -> CheckShown:
    build = door.build()
    units = Units(brakes_reading.preference_of(build))
    answers = answers_of(check, system)
    standard = with_role(build, Role.STANDARD)
    plan = plates.car_plate(system, standard, build.departures)
    failure = plates.failure_on_plan(system, check)
    found = plates.chosen_failure(check)
    travel = plates.travel_plate(check)
    ladder = plates.ladder_plate(check)
    beside = brakes_reading.comparison(door, system.id)

    def with_failure(failure_id: str) -> str:
        return asked("/brakes", **{**answers, "with": failure_id}) + "#shown"

    def thing(part_id: str) -> str:
        return asked(f"/brakes/circuit/{part_id}", system=answers.get("system", ""))

    return CheckShown(
        pages=SUBPAGES,
        here="/brakes",
        units=units,
        figures=large_figures(check, units, trust),
        answer=answer_sentence(check, found),
        heading=f"With this: {found[1].words}" if found else "With nothing failed",
        shown=found[0] if found else None,
        choices=_choices(check),
        loads=LOADS,
        plan=circuit_plan(plan, failure=failure, href=thing),
        plan_key=circuit_key(plan, failure),
        travel=None if travel is None else pedal_travel(travel),
        pieces=_pieces(check, {} if travel is None else travel_letters(travel.rows)),
        curves=_curves(door, system, check),
        ladder=failure_ladder(ladder, href=with_failure) if ladder else None,
        wide_ladder=failure_ladder(ladder, href=with_failure, width=WIDE) if ladder else None,
        first=plates.first_words(check),
        answers=answers,
        comparison=short_comparison(beside, check.load),
        other_role=beside.other_role if beside else "",
        front_first=axle_share(trust, check.load),
        settling=trust.measure_first[:MOST_SETTLING] if trust else (),
        trust=trust,
        drawing=drawing,
    )


def answers_of(check: BrakeCheck, system: BrakeSystem) -> dict[str, str]:
    """Return what was asked, as an address says it; what is usual is left out."""
    usual = Asked()
    force, road = check.pedal_force_n, check.friction_of_road
    found = {
        "force": "" if force == usual.pedal_force_n else f"{force:g}",
        "load": "" if check.load == usual.load else check.load,
        "road": "" if road == usual.friction_of_road else f"{road:g}",
        "two": "yes" if check.two_at_once else "",
        "system": "" if system.role is Role.AS_BUILT else system.id,
    }
    return {name: said for name, said in found.items() if said}


def _choices(check: BrakeCheck) -> tuple[tuple[str, tuple[FailedElement, ...]], ...]:
    """Put everything that can fail into groups by what sort of failure it is."""
    kinds: dict[str, list[FailedElement]] = {}
    for group in check.failures:
        for element in group.elements:
            kinds.setdefault(element.kind, []).append(element)
    return tuple((kind, tuple(elements)) for kind, elements in kinds.items())


def _pieces(check: BrakeCheck, letters: Mapping[str, str]) -> tuple[PieceRow, ...]:
    whole = _by_key(check.whole.travel.pieces if check.whole and check.whole.travel else ())
    shown = bool(check.failure)
    now = _by_key(check.now.travel.pieces if check.now and check.now.travel else ())
    words = {key: piece.words for key, piece in (whole | now).items()}
    return tuple(
        PieceRow(
            letter,
            words[key],
            whole[key].length_m if key in whole else None,
            now[key].length_m if shown and key in now else None,
        )
        for key, letter in letters.items()
        if key in words
    )


def _by_key(pieces: tuple[TravelPieceView, ...]) -> dict[str, TravelPieceView]:
    return {piece.key: piece for piece in pieces}


def _standard_curve(door: Door, system: BrakeSystem, check: BrakeCheck) -> PushCurve | None:
    """The standard brakes over a rising push, to be drawn beside; None when there are none."""
    standard = with_role(door.build(), Role.STANDARD)
    if standard is None or standard.id == system.id:
        return None
    wanted = Asked(check.pedal_force_n, load_called(check.load), check.friction_of_road)
    return brakes_reading.check(door, standard.id, wanted).whole_curve


def _curves(door: Door, system: BrakeSystem, check: BrakeCheck) -> DrawnCurves | None:
    """Draw what is drawn over a rising push."""
    if check.curve is None:
        return None
    other = _standard_curve(door, system, check)
    picked = brakes_reading.picked(door.build()) or ()
    first = plates.first_words(check)
    floor = check.whole.travel.floor_m if check.whole and check.whole.travel else None
    pedal = pedal_plate([check.curve], standard=other, yardsticks=picked, floor_m=floor)
    known = gather(system).figures
    return DrawnCurves(
        adhesion_used(plates.adhesion_plate(check.curve, other, picked, first)),
        pedal_curve(pedal),
        distribution(distribution_plate(check.curve, known, standard=other, result=first)),
    )
