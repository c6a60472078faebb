"""Whatever is entered, the brakes answer or say in a sentence why not; they never fall over."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from typing import TypeVar

import numpy as np
import pytest

from bareshell.brakes.examples import small_car
from bareshell.brakes.failures import failures
from bareshell.brakes.figures import gather
from bareshell.brakes.inverse import crossing, force_found, locking
from bareshell.brakes.parking import parking
from bareshell.brakes.prepared import prepare
from bareshell.brakes.solve import solve
from bareshell.brakes.starters import STARTERS
from bareshell.errors import BadInput
from bareshell.model.brake import (
    BrakeSystem,
    Field,
    Line,
    Part,
    PartKind,
    Port,
    choices_of,
    fields_of,
)
from bareshell.model.trust import Stated

T = TypeVar("T", Part, Line)


def spoilt(seed: int, rate: float) -> BrakeSystem:
    """A car with parts left out, figures changed to the ends of what can be, other choices."""
    drawn = random.Random(seed)
    base = small_car(drawn.choice(list(STARTERS)))
    parts = [_spoilt(part, drawn, rate) for part in base.parts if drawn.random() > rate / 2]
    lines = [_figures(line, drawn, rate) for line in base.lines if drawn.random() > rate]
    return replace(base, parts=tuple(parts), lines=tuple(lines))


def _spoilt(part: Part, drawn: random.Random, rate: float) -> Part:
    choices = dict(part.choices)
    for name, choice in choices_of(part.kind).items():
        if drawn.random() < rate and choice.options:
            choices[name] = drawn.choice(choice.options)
    ports = part.ports[:-1] if drawn.random() < rate else part.ports
    wheel = None if drawn.random() < rate / 2 else part.wheel
    return _figures(replace(part, choices=choices, ports=ports, wheel=wheel), drawn, rate)


def _corner(field: Field, drawn: random.Random) -> float:
    between = drawn.uniform(field.least, field.most)
    return drawn.choice([field.least, field.most, field.likely_low, field.likely_high, between])


def _figures(thing: T, drawn: random.Random, rate: float) -> T:
    figures = {name: each for name, each in thing.figures.items() if drawn.random() > rate / 3}
    for name, field in fields_of(thing.kind).items():
        if drawn.random() < rate:
            figures[name] = Stated(_corner(field, drawn))
    return replace(thing, figures=figures)


def asked(system: BrakeSystem) -> list[Callable[[], object]]:
    figures = gather(system).figures
    return [
        lambda: failures(system, figures, 400.0, "laden"),
        lambda: force_found(prepare(system, figures), 5.0, "laden"),
        lambda: locking(prepare(system, figures), 0.7, "laden"),
        lambda: crossing(prepare(system, figures), "laden"),
        lambda: parking(system, figures, 300.0),
    ]


R = TypeVar("R")


def told(ask: Callable[[], R]) -> R | None:
    """Ask; a refusal must name each thing that is wrong, in sentences."""
    refused: BadInput | None = None
    try:
        return ask()
    except BadInput as caught:
        refused = caught
    assert refused.describe().endswith((".", "?"))
    assert all(each.where and each.what for each in refused.problems)
    return None


@pytest.mark.parametrize("seed", range(60))
def test_an_answer_or_a_sentence(seed: int) -> None:
    system = spoilt(seed, rate=0.01 if seed % 3 else 0.06)
    for ask in asked(system):
        told(ask)
    answer = told(
        lambda: solve(system, gather(system).figures, np.array([0.0, 100.0, 1400.0]), "laden")
    )
    if answer is None:
        return
    assert np.all(np.isfinite(answer.deceleration_g))
    if answer.travel is not None:
        total = sum(np.asarray(piece.length_m) for piece in answer.travel.pieces)
        np.testing.assert_allclose(total, answer.travel.total_m, rtol=1e-6, atol=1e-9)
        assert np.all(np.diff(answer.travel.total_m) >= -1e-9)


def cylinder_with(ports: tuple[Port, ...]) -> BrakeSystem:
    base = small_car()
    master = replace(base.part("master"), ports=ports)
    return replace(base, parts=tuple(master if p.id == "master" else p for p in base.parts))


@pytest.mark.parametrize("ports", [(), (Port("floating", "floating"),)])
def test_a_cylinder_that_lacks_an_outlet_is_named(ports: tuple[Port, ...]) -> None:
    system = cylinder_with(ports)
    with pytest.raises(BadInput, match="master cylinder: does not have one outlet chamber"):
        solve(system, gather(system).figures, 300.0, "laden")


def test_a_cylinder_that_nothing_pushes_is_named() -> None:
    base = small_car("twin cylinders")
    kept = tuple(p for p in base.parts if p.kind is not PartKind.BALANCE_BAR)
    pushes = tuple(
        replace(p, choices={"pushes": "master-front"}) if p.kind is PartKind.PEDAL else p
        for p in kept
    )
    system = replace(base, parts=pushes)
    with pytest.raises(BadInput, match="rear master cylinder: is pushed by nothing"):
        solve(system, gather(system).figures, 300.0, "laden")
