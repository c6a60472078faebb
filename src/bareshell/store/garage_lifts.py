"""Bodies of jobs, moves and the garage as they were first written, lifted to the form of today."""

from __future__ import annotations

from typing import Any

__all__ = ["lift_garage", "lift_garage_nights", "lift_job", "lift_move"]

Body = dict[str, Any]


def lift_garage(body: Body) -> Body:
    """Lift the garage: a helper lent a hand only.

    Examples
    --------
    >>> lift_garage({"garage": {"heated_to_c": None}})["garage"]["helper"]
    'lends a hand only'
    """
    return {"garage": {**body["garage"], "helper": "lends a hand only"}}


def lift_garage_nights(body: Body) -> Body:
    """Lift the garage: where it was heated, the nights were not said to be.

    Examples
    --------
    >>> lift_garage_nights({"garage": {"heated_to_c": 18.0}})["garage"]["heated_nights"]
    False
    """
    return {"garage": {**body["garage"], "heated_nights": False}}


def lift_job(body: Body) -> Body:
    """Lift a job: none was marked for a helper, and none said what it takes off the car.

    Examples
    --------
    >>> lift_job({"job": {"id": "bleed"}})
    {'job': {'id': 'bleed', 'helper_alone': False, 'takes_off': [], 'puts_back': []}}
    """
    gained: Body = {"helper_alone": False, "takes_off": [], "puts_back": []}
    return {"job": {**body["job"], **gained}}


def lift_move(body: Body) -> Body:
    """Lift a move from one support to another: it asked nothing of what is off the car.

    Examples
    --------
    >>> lift_move({"move": {"minutes": 40}})
    {'move': {'minutes': 40, 'off': [], 'not_off': []}}
    """
    return {"move": {**body["move"], "off": [], "not_off": []}}
