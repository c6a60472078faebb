"""The shapes of the JSON answers, read off the readings: for the page that documents them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any, get_args, get_type_hints

from bareshell.app.evidence import GateWay, RecheckPage, RehearsalPage, TorquePage
from bareshell.app.fitting import FitPage
from bareshell.app.going_back import BackBook, BackPage, LeftPage
from bareshell.app.opening import HoldingPage, NeedPage
from bareshell.app.reading import JobsList, RecordPage
from bareshell.app.sizes import SizesRead
from bareshell.app.typed_in import PartKinds
from bareshell.whole.away import AwayPage
from bareshell.whole.brake_check import BrakeCheck
from bareshell.whole.brake_circuit import CircuitView, ThingView
from bareshell.whole.brake_commission import CommissioningView
from bareshell.whole.brake_compare import CompareView
from bareshell.whole.brake_heat import HeatView
from bareshell.whole.brake_opening import OpeningView
from bareshell.whole.brake_owed import OwedView
from bareshell.whole.brake_park import ParkView
from bareshell.whole.brake_tried import TriedView
from bareshell.whole.brake_trust import TrustView
from bareshell.whole.brake_workshop import BleedView, JointsView
from bareshell.whole.brake_yardsticks import YardsticksView
from bareshell.whole.car_overview import CarOverview, JobDetail
from bareshell.whole.chase import ChaseList
from bareshell.whole.costs import Costs
from bareshell.whole.fit_answer import NeedFits, ShelfMatches
from bareshell.whole.forecast_parts import GroundsOverview, LeversOverview
from bareshell.whole.goods_plan import GoodsPlan
from bareshell.whole.invoice_answer import InvoicePreview
from bareshell.whole.kits import KitPage
from bareshell.whole.opened import OrderPage
from bareshell.whole.order_list import OrderList
from bareshell.whole.parcels import Parcels
from bareshell.whole.pick_list import PickList
from bareshell.whole.proofs_overview import ProofsOverview
from bareshell.whole.road_parts import RoadOverview
from bareshell.whole.sheet_parts import TonightSheet, WhyNot
from bareshell.whole.shelf_overview import ShelfOverview
from bareshell.whole.trial_parts import TrialOverview

ANSWERS: dict[str, type] = {
    "tonight --json, /tonight.json": TonightSheet,
    "tonight --why-not JOB --json": WhyNot,
    "road --json, /road-ahead.json": RoadOverview,
    "road --levers --json, /road-ahead/levers.json": LeversOverview,
    "trial --json, /road-ahead/trial.json": TrialOverview,
    "road --explain --json, /road-ahead/grounds.json": GroundsOverview,
    "jobs --json, /jobs.json": JobsList,
    "jobs show JOB --json": JobDetail,
    "shelf --json, /shelf.json": ShelfOverview,
    "shelf fit --json, /shelf/matches.json": ShelfMatches,
    "shelf fit NEED --json, /needs/NEED/fit.json": NeedFits,
    "shelf fit NEED HOLDING --json, /needs/NEED/fit/HOLDING.json": FitPage,
    "shelf need NEED --json, /needs/NEED.json": NeedPage,
    "shelf holding HOLDING --json, /holdings/HOLDING.json": HoldingPage,
    "shelf line ORDER --json, /orders/ORDER.json": OrderPage,
    "shelf fields --json": PartKinds,
    "shelf sizes --json, /shelf/sizes.json": SizesRead,
    "shelf kit JOB --json, /shelf/kits/JOB.json": KitPage,
    "shelf pick --json, /shelf/pick.json": PickList,
    "shelf order-list --json, /shelf/order-list.json": OrderList,
    "shelf came ORDER --json, /orders/ID/plan.json": GoodsPlan,
    "shelf parcels --json, /shelf/parcels.json": Parcels,
    "shelf chase --json, /shelf/chase.json": ChaseList,
    "shelf costs --json, /shelf/costs.json": Costs,
    "shelf invoice --json": InvoicePreview,
    "shelf away --json, /shelf/away.json": AwayPage,
    "proofs --json, /proofs.json": ProofsOverview,
    "proofs way GATE --json, /gates/GATE/way.json": GateWay,
    "proofs torque --json, /torque.json": TorquePage,
    "proofs rehearsal --json, /rehearsal.json": RehearsalPage,
    "proofs again --json, /again.json": RecheckPage,
    "log --json, /record.json": RecordPage,
    "car --json, /car.json": CarOverview,
    "car back DEPARTURE --json, /departures/DEPARTURE/back.json": BackPage,
    "car back --json, /way-back.json": BackBook,
    "car left --json, /left.json": LeftPage,
    "brakes check --json, /brakes.json": BrakeCheck,
    "brakes compare --json, /brakes/compare.json": CompareView,
    "brakes heat --json, /brakes/heat.json": HeatView,
    "brakes park --json, /brakes/park.json": ParkView,
    "brakes joints --json, brakes cut-list --json, /brakes/joints.json": JointsView,
    "brakes bleed --json, /brakes/bleed.json": BleedView,
    "brakes trust --json, /brakes/trust.json": TrustView,
    "brakes show --json, /brakes/circuit.json": CircuitView,
    "brakes show --thing ID --json, /brakes/circuit/ID.json": ThingView,
    "brakes owe --json, brakes needs --json, /brakes/owed.json": OwedView,
    "brakes commission --json, /brakes/commissioning.json": CommissioningView,
    "/brakes/joints/JOINT.json, /brakes/screws/SCREW.json": OpeningView,
    "/brakes/yardsticks.json": YardsticksView,
    "/brakes/tests.json": TriedView,
}
"""Each answer by the command and the page that give it."""

HEAD = """# JSON answers

Every reading command takes `--json`, and every page has a twin that ends in `.json`; both hand
out the same document. Each begins with `"format": 1`. Within one format fields are only ever
added, never taken away or given another meaning.

Times are ISO 8601 with their offset, dates ISO 8601, money a figure as text with its ISO 4217
currency, what is not known `null`. Lengths in specifications are metres; other figures carry
their unit in their name. An error is `{"format": 1, "error": {...}}` on a page, and a sentence
on standard error with an exit code on the command line.

This page is made by `scripts/json-shapes` from the readings themselves.
"""


def shape_fields(kind: type) -> dict[str, Any]:
    """Return the fields of a reading that its JSON carries, with their types."""
    hints = get_type_hints(kind)
    return {one.name: hints[one.name] for one in fields(kind) if one.metadata.get("twin", True)}


def shapes_page() -> str:
    """Write the page that documents every answer.

    Examples
    --------
    >>> "## tonight --json" in shapes_page()
    True
    """
    lines = [HEAD]
    seen: dict[str, type] = {}
    for name, kind in ANSWERS.items():
        lines += [f"## {name}", "", *_table(kind), ""]
        seen.update((part.__name__, part) for part in _parts(kind))
    lines += ["# Parts", ""]
    tops = {kind.__name__ for kind in ANSWERS.values()}
    for name in sorted(seen.keys() - tops):
        lines += [f"### {name}", "", *_table(seen[name]), ""]
    return "\n".join(lines).rstrip() + "\n"


def _table(kind: type) -> Iterator[str]:
    yield "| field | what it holds |"
    yield "| --- | --- |"
    for name, hint in shape_fields(kind).items():
        yield f"| `{name}` | {_words(hint)} |"


def _words(hint: Any) -> str:  # noqa: ANN401  a type hint may be anything
    """Say a type hint as JSON has it."""
    arguments = [a for a in get_args(hint) if a is not type(None)]
    text = str(hint)
    if text.startswith("tuple"):
        inner = [a for a in arguments if a is not Ellipsis]
        kind = "list of" if Ellipsis in get_args(hint) else "list of exactly"
        return f"{kind} {', '.join(_words(a) for a in inner)}"
    if arguments and ("|" in text or "Union" in text):
        kinds = sorted({_words(a) for a in arguments})
        nullable = type(None) in get_args(hint)
        return " or ".join(kinds) + (" or null" if nullable else "")
    if arguments:
        return "one of " + ", ".join(f'"{a}"' for a in arguments)
    plain = {"str": "text", "bool": "true or false", "int": "whole number", "float": "number"}
    name = getattr(hint, "__name__", text)
    if isinstance(hint, type) and is_dataclass(hint):
        return f"[{name}](#{name.lower()})"
    return plain.get(name, {"datetime": "time", "Decimal": "figure as text"}.get(name, name))


def _parts(kind: type) -> Iterator[type]:
    """Yield a reading and every dataclass in it, however deep."""
    stack, seen = [kind], set[type]()
    while stack:
        one = stack.pop()
        if one in seen:
            continue
        seen.add(one)
        yield one
        for hint in shape_fields(one).values():
            stack.extend(_dataclasses(hint))


def _dataclasses(hint: Any) -> Iterator[type]:  # noqa: ANN401  a type hint may be anything
    if isinstance(hint, type) and is_dataclass(hint):
        yield hint
    for argument in get_args(hint):
        yield from _dataclasses(argument)
