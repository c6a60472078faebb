"""What the parts desk wrote first is read as it was meant: what was not said is not known."""

from __future__ import annotations

from dataclasses import fields, replace
from datetime import date
from decimal import Decimal
from typing import Any, get_args

import pytest

from bareshell.model import changes as c
from bareshell.model.car import Car
from bareshell.model.duty import Duty, LoadPath
from bareshell.model.part import Exchange, Holding, Money, Need, OrderLine
from bareshell.model.proof import Proof
from bareshell.model.spec import BoltSpec, Spec
from bareshell.store.part_lifts import _SPEC_FIELDS
from bareshell.store.wire import decode, to_plain

KINDS: dict[str, type[Any]] = {str(cls().kind): cls for cls in get_args(Spec)}
# The kinds that were there from the first day.
FIRST = ("plain", "bolt", "pin", "split pin", "union", "pipe", "hose", "cylinder", "bearing",
         "seal", "cable", "rubber", "glass", "goods", "electrical")  # fmt: skip


def _first_form(spec: Spec) -> dict[str, Any]:
    """The specification as it was first written: without what was gained since."""
    gained = _SPEC_FIELDS.get(spec.kind, "").split()
    plain: Any = to_plain(spec)
    return {name: value for name, value in plain.items() if name not in gained}


def _read(kind: str, body: dict[str, Any]) -> c.Change:
    import json

    return decode(kind, 1, "", json.dumps(body))


def _without(value: Any, *names: str) -> dict[str, Any]:
    plain: Any = to_plain(value)
    return {name: each for name, each in plain.items() if name not in names}


@pytest.mark.parametrize("kind", FIRST)
def test_every_first_specification_is_lifted(kind: str) -> None:
    spec = KINDS[kind]()
    need = Need("n", "A thing", "j", 2, spec=spec, fixing=True)
    old = {**_without(need, "duty", "guess"), "spec": _first_form(spec)}
    assert _read("need-set", {"need": old}) == c.NeedSet(need)
    holding = Holding("h", "A thing", 3, spec)
    kept = {**_without(holding), "spec": _first_form(spec)}
    assert _read("holding-set", {"holding": kept}) == c.HoldingSet(holding)


def test_what_was_gained_is_what_the_kinds_have_now() -> None:
    for kind, gained in _SPEC_FIELDS.items():
        assert set(gained.split()) <= {each.name for each in fields(KINDS[kind])}


def test_an_order_with_an_exchange_is_lifted() -> None:
    money = Money(Decimal("5.00"), "EUR")
    line = OrderLine("o", "Starter", exchange=Exchange(date(2026, 4, 1), money), price=money)
    new = ("batch", "sent", "carriage", "tax", "paid_on", "return_within_days", "sent_back_on")
    old = _without(line, *new)
    old["exchange"] = _without(line.exchange, "proved_on", "photographed_on", "measured_on")
    assert _read("order-set", {"line": old}) == c.OrderSet(line)
    plain = replace(line, exchange=None)
    assert _read("order-set", {"line": _without(plain, *new)}) == c.OrderSet(plain)


def test_a_car_without_a_budget_is_lifted() -> None:
    car = Car("The invented saloon")
    assert _read("car-described", {"car": _without(car, "budget")}) == c.CarDescribed(car)


def test_what_a_fixing_draws_together_was_not_said_in_the_second_form() -> None:
    """A duty of an older build keeps its load path; how it is tightened is asked for."""
    duty = Duty(LoadPath.CALIPER, load_n=900.0, shear_planes=1)
    need = Need("n", "Bolt", "j", spec=BoltSpec(), fixing=True, duty=duty)
    old = {**_without(need), "duty": _without(duty, "seat", "lubrication")}
    assert _second("need-set", {"need": old}) == c.NeedSet(need)
    unsaid = replace(need, duty=None)
    assert _second("need-set", {"need": _without(unsaid)}) == c.NeedSet(unsaid)


def test_a_proof_of_the_second_form_told_by_its_title_what_it_only_nips() -> None:
    proof = Proof("axle", "Spring bolts left for ride height and listed")
    old = _without(proof, "fixings", "nipped_until")
    assert _second("proof-set", {"proof": old}) == c.ProofSet(
        replace(proof, nipped_until="bush-torque")
    )
    dry = Proof("dry", "Tee dry")
    assert _second("proof-set", {"proof": _without(dry, "fixings", "nipped_until")}) == c.ProofSet(
        dry
    )


def _second(kind: str, body: dict[str, Any]) -> c.Change:
    import json

    return decode(kind, 2, "", json.dumps(body))
