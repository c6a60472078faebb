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
from bareshell.brakes.answer import Load
from bareshell.brakes.starters import STARTERS
from bareshell.draw import brake_checked as plates
from bareshell.draw.brake_balance import adhesion_used
from bareshell.draw.brake_key import KeyLine, circuit_key
from bareshell.draw.brake_plan import circuit_plan
from bareshell.draw.brake_rungs import failure_ladder
from bareshell.draw.brake_travel import pedal_travel, travel_letters
from bareshell.draw.svg import Svg
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem, Role
from bareshell.web.beside import PROGRAM_PATIENCE_S
from bareshell.web.brake_units import Units
from bareshell.web.desk import door_of
from bareshell.web.links import asked
from bareshell.web.pieces import Figure
from bareshell.web.trust_desk import trust_desk_of
from bareshell.web.twin import PageRouter, page, wants_json
from bareshell.whole.brake_check import LOADS, Asked, BrakeCheck
from bareshell.whole.brake_parts import FailedElement, FailureView, TravelPieceView
from bareshell.whole.brake_trust import TrustAsked, TrustView, with_shares

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
    adhesion: Svg | None
    ladder: Svg | None
    first: str
    answers: Mapping[str, str]
    trust: TrustView | None = None
    drawing: bool = False


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
        load_in(params.get("load", usual.load)),
        figure_in(params.get("road", ""), "adhesion of the road", usual.friction_of_road),
        params.get("with", ""),
    )


def load_in(said: str) -> Load:
    """Read a load from an address."""
    for one in LOADS:
        if said == one:
            return one
    raise BadInput("load", f"'{said}' is none", f"say {' or '.join(LOADS)}")


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
    shown = replace(_shown(door, system, check), trust=trust, drawing=drawing)
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


def _shown(door: Door, system: BrakeSystem, check: BrakeCheck) -> CheckShown:
    build = door.build()
    units = Units(brakes_reading.preference_of(build))
    answers = answers_of(check, system)
    standard = with_role(build, Role.STANDARD)
    plan = plates.car_plate(system, standard, build.departures)
    failure = plates.failure_on_plan(system, check)
    found = plates.chosen_failure(check)
    travel = plates.travel_plate(check)
    ladder = plates.ladder_plate(check)

    def with_failure(failure_id: str) -> str:
        return asked("/brakes", **{**answers, "with": failure_id}) + "#shown"

    def thing(part_id: str) -> str:
        return asked(f"/brakes/circuit/{part_id}", system=answers.get("system", ""))

    return CheckShown(
        pages=SUBPAGES,
        here="/brakes",
        units=units,
        figures=_figures(check, units),
        answer=_answer(check, found),
        heading=f"With this: {found[1].words}" if found else "With nothing failed",
        shown=found[0] if found else None,
        choices=_choices(check),
        loads=LOADS,
        plan=circuit_plan(plan, failure=failure, href=thing),
        plan_key=circuit_key(plan, failure),
        travel=None if travel is None else pedal_travel(travel),
        pieces=_pieces(check, {} if travel is None else travel_letters(travel.rows)),
        adhesion=_adhesion(door, system, check),
        ladder=None if ladder is None else failure_ladder(ladder, href=with_failure),
        first=plates.first_words(check),
        answers=answers,
    )


def answers_of(check: BrakeCheck, system: BrakeSystem) -> dict[str, str]:
    """Return what was asked, as an address says it; what is usual is left out."""
    usual = Asked()
    force, road = check.pedal_force_n, check.friction_of_road
    found = {
        "force": "" if force == usual.pedal_force_n else f"{force:g}",
        "load": "" if check.load == usual.load else check.load,
        "road": "" if road == usual.friction_of_road else f"{road:g}",
        "system": "" if system.role is Role.AS_BUILT else system.id,
    }
    return {name: said for name, said in found.items() if said}


def _figures(check: BrakeCheck, units: Units) -> tuple[Figure, ...]:
    push = check.now
    if push is None:
        return ()
    force = units.force(push.pedal_force_n)
    reached = min(push.deceleration_m_s2, push.on_road_m_s2)
    held = "the tyres let go first" if push.locked else "no wheel locks"
    found = [
        Figure(
            units.slowing(reached),
            f"at {force} on the pedal, {check.load}; {held} at {check.friction_of_road:g}",
            "m/s\N{SUPERSCRIPT TWO}",
        )
    ]
    if push.travel is not None:
        figure, _, unit = units.travel(push.travel.left_m).partition(" ")
        words = "the pedal stands on the floor" if push.travel.on_floor else "left before the floor"
        found.append(Figure(figure, f"{words}, of {units.travel(push.travel.floor_m)}", unit))
    share = f"{push.front_share * 100:.0f}"
    found.append(Figure(share, "of the braking is done by the front wheels", "%"))
    known = [one for one in check.verdicts if one.margin is not None]
    if known:
        met = sum(one.state == "meets" for one in known)
        found.append(
            Figure(
                f"{met} of {len(known)}",
                "yardsticks met with nothing failed, of those that can be worked out",
            )
        )
    return tuple(found)


_LEFT = {
    "all wheels": "All four wheels brake",
    "fronts": "Front wheels brake. Rear wheels do not",
    "rears": "Rear wheels brake. Front wheels do not",
    "nothing but the parking brake": "No wheel brakes but by the parking brake",
}


def _answer(check: BrakeCheck, found: tuple[FailureView, FailedElement] | None) -> str:
    if check.now is None:
        return "Not worked out yet: figures are missing."
    if found is None:
        return "All four wheels brake."
    wheels, _, held = found[0].left.partition(", ")
    said = _LEFT.get(wheels, f"Only {wheels} brake")
    first, _, rest = said.partition(". ")
    said = ". ".join(filter(None, (f"{first}, {held}" if held else first, rest)))
    floor = "The pedal meets the floor. " if found[0].on_floor else ""
    return f"{floor}{said}."


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


def _adhesion(door: Door, system: BrakeSystem, check: BrakeCheck) -> Svg | None:
    if check.curve is None:
        return None
    build = door.build()
    standard = with_role(build, Role.STANDARD)
    other = None
    if standard is not None and standard.id != system.id:
        wanted = Asked(check.pedal_force_n, load_in(check.load), check.friction_of_road)
        other = brakes_reading.check(door, standard.id, wanted).whole_curve
    picked = brakes_reading.picked(build) or ()
    return adhesion_used(
        plates.adhesion_plate(check.curve, other, picked, plates.first_words(check))
    )
