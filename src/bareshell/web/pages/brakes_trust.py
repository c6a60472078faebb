"""How far the brakes' answers can be trusted, and what to measure first."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import brakes_reading, brakes_trust
from bareshell.app.brakes_found import system_of
from bareshell.draw.brake_results import settling_plate, trusted_rows
from bareshell.draw.brake_trust import sensitivity_bars, share_strips
from bareshell.draw.svg import Svg
from bareshell.errors import BadInput
from bareshell.web.beside import PROGRAM_PATIENCE_S
from bareshell.web.brake_units import Units
from bareshell.web.desk import door_of
from bareshell.web.pages.brakes import SUBPAGES, figure_in
from bareshell.web.pages.brakes_circuit import query_of, system_in
from bareshell.web.trust_desk import trust_desk_of
from bareshell.web.twin import PageRouter, page, wants_json
from bareshell.whole.brake_trust import TrustAsked, TrustedAnswer, TrustView

router = PageRouter()

_USUAL = TrustAsked()


@dataclass(frozen=True, slots=True)
class TrustShown:
    """What the page needs besides: words to the others, units, pictures, what was asked."""

    pages: tuple[tuple[str, str], ...]
    here: str
    answers: dict[str, str]
    units: Units
    query: str
    bars: Svg | None
    strips: Svg | None
    yardsticks: tuple[TrustedAnswer, ...]
    questions: tuple[TrustedAnswer, ...]
    asked: TrustAsked

    @property
    def count(self) -> str:
        """How many combinations, in groups of three figures."""
        return f"{self.asked.count:,}".replace(",", "\N{NARROW NO-BREAK SPACE}")

    def part(self, path: str) -> str:
        """Where a figure is entered."""
        return figure_address(path, self.query)


@router.page("/brakes/trust")
def trust(request: Request) -> Response:
    """Show in how many combinations each answer holds, the worst, and what to measure first."""
    door, system_id = door_of(request), system_in(request)
    build = door.build()
    system = system_of(build, system_id)
    wanted = _asked_in(request)
    desk = trust_desk_of(request)
    if desk is None:
        view = brakes_trust.trust(door, system_id, wanted)
    else:
        patience = PROGRAM_PATIENCE_S if wants_json(request) else None
        view = desk.trust(door, system.id, wanted, wait_s=patience)
    query = query_of(system_id)
    answers = {"system": system_id} if system_id else {}
    shown = TrustShown(
        pages=SUBPAGES,
        here="/brakes/trust",
        answers=answers,
        units=Units(brakes_reading.preference_of(build)),
        query=query,
        bars=_bars(view, query),
        strips=_strips(view),
        yardsticks=tuple(one for one in view.answers if one.kind == "yardstick"),
        questions=tuple(one for one in view.answers if one.kind == "question"),
        asked=wanted,
    )
    return page(request, "brakes/trust.html", view, also=shown)


def _asked_in(request: Request) -> TrustAsked:
    """Read what was asked from an address.

    Raises
    ------
    BadInput
        Naming what cannot be.
    """
    params = request.query_params
    return TrustAsked(
        _whole(params.get("samples", ""), "number of combinations", _USUAL.count),
        _whole(params.get("seed", ""), "seed", _USUAL.seed),
        figure_in(params.get("road", ""), "adhesion of the road", _USUAL.friction_of_road),
    )


def _whole(said: str, what: str, otherwise: int) -> int:
    found = figure_in(said, what, otherwise)
    if found != int(found):
        raise BadInput(what, f"{found:g} is no whole number", f"give one such as {otherwise}")
    return int(found)


def _bars(view: TrustView, query: str) -> Svg | None:
    if not view.measure_first:
        return None
    plate = settling_plate("the answers that are open", view.measure_first, measure=view.measure)
    return sensitivity_bars(plate, href=lambda path: figure_address(path, query))


def _strips(view: TrustView) -> Svg | None:
    rows = trusted_rows(view.answers)
    return share_strips(rows, href=lambda name: f"#{name}") if rows else None


def figure_address(path: str, query: str = "") -> str:
    """Where a figure is entered: in the form of its part or line.

    Examples
    --------
    >>> figure_address("car.laden_front_share")
    '/brakes/circuit/car#figure-laden_front_share'
    """
    thing, _, name = path.partition(".")
    return f"/brakes/circuit/{thing}{query}#figure-{name}"
