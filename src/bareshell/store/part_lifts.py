"""Bodies of the parts desk as they were first written, lifted to the form of today.

The first form knew fewer fields. What it did not know was not said, so each new field is lifted as
unknown or empty, by name: should a default ever change, the past does not.
"""

from __future__ import annotations

from typing import Any, Final

__all__ = ["lift_car", "lift_duty", "lift_holding", "lift_need", "lift_order", "lift_rate"]

Body = dict[str, Any]

_SPEC_FIELDS: Final = {
    "bolt": "what drive grip_tolerance_m length_tolerance_m",
    "pin": "grip_tolerance_m hole_m hardness",
    "union": "nut_length_m lead",
    "hose": "thread_a seat_a thread_b seat_b clip_m wall_m length_tolerance_m",
    "bearing": "tolerance_m",
    "seal": "lips tolerance_m",
    "cable": "length_tolerance_m",
    "rubber": "hardness corners",
    "glass": "thickness_m edge heater",
    "goods": "batch use_by",
    "electrical": "watts colour length_m",
}
"""What each kind of specification gained."""


def _spec(spec: Body) -> Body:
    gained = _SPEC_FIELDS.get(str(spec.get("kind")), "").split()
    return {**spec, **dict.fromkeys(gained)}


def lift_car(body: Body) -> Body:
    """Lift the car's own data: no budget was set.

    Examples
    --------
    >>> lift_car({"car": {"name": "a saloon"}})
    {'car': {'name': 'a saloon', 'budget': None}}
    """
    return {"car": {**body["car"], "budget": None}}


def lift_need(body: Body) -> Body:
    """Lift a need: what it is relied on for and what it may cost were not said.

    Examples
    --------
    >>> lift_need({"need": {"id": "n", "spec": {"kind": "seal"}}})["need"]["spec"]["lips"] is None
    True
    """
    need = body["need"]
    return {"need": {**need, "spec": _spec(need["spec"]), "duty": None, "guess": None}}


def lift_duty(body: Body) -> Body:
    """Lift a need of the second form: on what and how a fixing is tightened was not said.

    Examples
    --------
    >>> lift_duty({"need": {"id": "n", "duty": {"gate": ""}}})["need"]["duty"]
    {'gate': '', 'seat': None, 'lubrication': None}
    >>> lift_duty({"need": {"id": "n", "duty": None}})
    {'need': {'id': 'n', 'duty': None}}
    """
    need = body["need"]
    duty = need["duty"]
    gained = None if duty is None else {**duty, "seat": None, "lubrication": None}
    return {"need": {**need, "duty": gained}}


def lift_holding(body: Body) -> Body:
    """Lift a holding: only its specification has more fields.

    Examples
    --------
    >>> lift_holding({"holding": {"id": "h", "spec": {"kind": "plain", "words": "a clip"}}})
    {'holding': {'id': 'h', 'spec': {'kind': 'plain', 'words': 'a clip'}}}
    """
    holding = body["holding"]
    return {"holding": {**holding, "spec": _spec(holding["spec"])}}


def lift_order(body: Body) -> Body:
    """Lift an order line: batches, carriage, tax, payment and returns were not said.

    Examples
    --------
    >>> lift_order({"line": {"id": "o", "spec": {"kind": "pipe"}}})["line"]["batch"]
    ''
    """
    line = body["line"]
    exchange = line.get("exchange")
    if exchange is not None:
        exchange = {**exchange, **dict.fromkeys(("proved_on", "photographed_on", "measured_on"))}
    unknown = ("carriage", "tax", "paid_on", "return_within_days", "sent_back_on")
    said = {**line, "exchange": exchange, "spec": _spec(line["spec"]), "batch": "", "sent": ""}
    return {"line": {**said, **dict.fromkeys(unknown)}}


def lift_rate(body: Body) -> Body:
    """Lift an order line of the second form: no rate of exchange was stated.

    Examples
    --------
    >>> lift_rate({"line": {"id": "o"}})
    {'line': {'id': 'o', 'rate': None}}
    """
    return {"line": {**body["line"], "rate": None}}
