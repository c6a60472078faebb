"""Checks on figures: slips of the unit, sizes that contradict each other, what must be measured."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final, cast

from bareshell.brakes.finding import Finding, finding, listed
from bareshell.brakes.typed import figure_text, written_in
from bareshell.errors import Severity
from bareshell.model.brake import BrakeSystem, Field, Line, Part, PartKind, fields_of
from bareshell.model.trust import Trust
from bareshell.units import LikelyRange, QuantityName, Reading, ask_if_unlikely
from bareshell.units.tables import QUANTITIES

__all__ = ["figure_findings"]

Piece = Part | Line


def figure_findings(system: BrakeSystem, typed: Mapping[str, Reading]) -> Iterator[Finding]:
    """Look at the figures of a system.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    typed : mapping of str to Reading
        How figures were typed, by ``part.figure_name``.
    """
    pieces: tuple[Piece, ...] = (*system.parts, *system.lines)
    for piece in pieces:
        yield from _unlikely(piece, typed)
        yield from _contradictions(piece)
    yield from _car(system)
    yield from _brake_sizes(system)
    yield from _wheel_clearance(system)
    yield from _without_range(pieces)


# --- slips of the unit -------------------------------------------------------------------------


def _unlikely(piece: Piece, typed: Mapping[str, Reading]) -> Iterator[Finding]:
    for name, stated in piece.figures.items():
        field = fields_of(piece.kind)[name]
        if field.likely_low <= stated.value <= field.likely_high:
            continue
        where = f"{piece.title}, {field.words}"
        if field.quantity in QUANTITIES:
            quantity = cast("QuantityName", field.quantity)
            reading = typed.get(f"{piece.id}.{name}") or _as_written(field, stated.value)
            likely = LikelyRange(field.likely_low, field.likely_high)
            problem = ask_if_unlikely(reading, quantity, likely, where)
            if problem is not None:
                yield Finding("unlikely figure", piece.id, problem)
            continue
        usual = f"{figure_text(field.likely_low, field)} to {figure_text(field.likely_high, field)}"
        said = figure_text(stated.value, field)
        yield finding(
            "unlikely figure",
            piece.id,
            where,
            f"'{said}' is outside the usual {usual}",
            f"look at it again; if {said} is right, keep it",
            "doubtful",
        )


def _as_written(field: Field, value: float) -> Reading:
    """Say a figure as it would be written, when nobody kept how it was typed."""
    mark = written_in(field)
    factor = next(
        unit.si
        for unit in QUANTITIES[cast("QuantityName", field.quantity)].units
        if unit.mark == mark
    )
    return Reading(value, float(f"{value / factor:.6g}"), mark, figure_text(value, field))


# --- sizes that contradict each other ----------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Rule:
    """Two figures of one piece that cannot both be right, or hardly."""

    smaller: str
    larger: str
    times: float
    what: str
    remedy: str
    severity: Severity = "stops"


_RULES: Final[Mapping[str, tuple[_Rule, ...]]] = {
    "pipe": (
        _Rule(
            "wall_m",
            "outside_diameter_m",
            2.0,
            "its wall leaves no bore",
            "give the outside diameter and the thickness of one wall",
        ),
    ),
    "disc": (
        _Rule(
            "effective_radius_m",
            "outer_diameter_m",
            2.0,
            "its effective radius lies outside the disc",
            "it is a radius, not a diameter: some way inside the edge",
        ),
        _Rule(
            "pad_height_m",
            "outer_diameter_m",
            2.0,
            "its pad is higher than the disc's radius",
            "measure the pad along the radius",
        ),
        _Rule(
            "rubbing_inner_diameter_m",
            "outer_diameter_m",
            1.0,
            "the rubbed band's inner diameter is not inside the outer one",
            "measure both again",
        ),
    ),
    "drum": (
        _Rule(
            "actuation_arm_m",
            "diameter_m",
            1.0,
            "its arm to the cylinder is longer than the drum is wide",
            "measure from the shoe's pivot to the line of the cylinder",
        ),
    ),
    "car": (
        _Rule(
            "driver_only_mass_kg",
            "laden_mass_kg",
            1.0,
            "it weighs no less with the driver only than laden",
            "weigh both states, or take one of the figures out",
        ),
        _Rule(
            "cg_height_m",
            "wheelbase_m",
            2.0,
            "its centre of gravity is as high as half its wheelbase",
            "measure it by tilting, or take it out",
            "doubtful",
        ),
    ),
    "hose": (
        _Rule(
            "bore_m",
            "length_m",
            4.0,
            "its bore is large for its length",
            "look at the units of both",
            "doubtful",
        ),
    ),
}


def _contradictions(piece: Piece) -> Iterator[Finding]:
    for rule in _RULES.get(piece.kind.value, ()):
        small, large = piece.figures.get(rule.smaller), piece.figures.get(rule.larger)
        if small is None or large is None or small.value * rule.times < large.value:
            continue
        fields = fields_of(piece.kind)
        figures = ", ".join(
            f"{fields[name].words} {figure_text(stated.value, fields[name])}"
            for name, stated in ((rule.smaller, small), (rule.larger, large))
        )
        yield finding(
            "figures that contradict",
            piece.id,
            piece.title,
            f"{rule.what} ({figures})",
            rule.remedy,
            rule.severity,
        )


def _car(system: BrakeSystem) -> Iterator[Finding]:
    for car in system.of_kind(PartKind.CAR):
        for axle in ("front", "rear"):
            track = car.figures.get(f"{axle}_track_m")
            base = car.figures.get("wheelbase_m")
            if track and base and track.value >= base.value:
                yield finding(
                    "figures that contradict",
                    car.id,
                    car.title,
                    f"its {axle} track is no less than its wheelbase",
                    "measure both again; the track is across the car",
                    "doubtful",
                )


def _brake_sizes(system: BrakeSystem) -> Iterator[Finding]:
    """Look at cylinders against what they press on."""
    yield from _larger_than(
        system,
        (PartKind.CALIPER, ("a_bore_m", "a_second_bore_m", "b_bore_m")),
        (PartKind.DISC, lambda disc: _half(disc, "outer_diameter_m")),
        "is larger than the radius of its disc",
    )
    yield from _larger_than(
        system,
        (PartKind.WHEEL_CYLINDER, ("bore_m",)),
        (PartKind.DRUM, lambda drum: _half(drum, "diameter_m")),
        "is larger than the radius of its drum",
    )


def _half(part: Part, name: str) -> float | None:
    stated = part.figures.get(name)
    return None if stated is None else stated.value / 2


def _larger_than(
    system: BrakeSystem,
    pressing: tuple[PartKind, tuple[str, ...]],
    pressed: tuple[PartKind, Callable[[Part], float | None]],
    what: str,
) -> Iterator[Finding]:
    radii = {part.wheel: pressed[1](part) for part in system.of_kind(pressed[0])}
    for part in system.of_kind(pressing[0]):
        radius = radii.get(part.wheel)
        for name in pressing[1]:
            stated = part.figures.get(name)
            if stated is not None and radius is not None and stated.value >= radius:
                field = fields_of(part.kind)[name]
                yield finding(
                    "figures that contradict",
                    part.id,
                    f"{part.title}, {field.words}",
                    f"{figure_text(stated.value, field)} {what}",
                    "measure both again, and look at the units",
                    "stops",
                )


# --- what must be measured ---------------------------------------------------------------------

_CLOSE_M: Final = 0.003


def _wheel_clearance(system: BrakeSystem) -> Iterator[Finding]:
    not_known: list[Part] = []
    for part in system.of_kind(PartKind.CALIPER):
        stated = part.figures.get("wheel_clearance_m")
        if stated is None:
            not_known.append(part)
            continue
        field = fields_of(part.kind)["wheel_clearance_m"]
        said = figure_text(stated.value, field)
        least = stated.value if stated.low is None else stated.low
        if least <= 0:
            yield finding(
                "wheel touches the caliper",
                part.id,
                f"{part.title}, {field.words}",
                f"{said}: the wheel does not turn past it",
                "another wheel, another offset or another caliper; no spacer that the studs are "
                "too short for",
                "stops",
            )
        elif least < _CLOSE_M:
            yield finding(
                "wheel near the caliper",
                part.id,
                f"{part.title}, {field.words}",
                f"only {said} at the nearest: balance weights, a hot caliper and a worn bearing "
                "take of it",
                "turn the wheel by hand with the weights on, and look again after the first miles",
                "doubtful",
            )
    if not_known:
        yield finding(
            "wheel clearance not known",
            not_known[0].id,
            f"clearance to the wheel of {listed(part.title for part in not_known)}",
            "is not known",
            "try the wheel on, or a card of the caliper's outline inside the rim, and measure",
            "doubtful",
        )


def _without_range(pieces: tuple[Piece, ...]) -> Iterator[Finding]:
    bare = [
        f"{piece.title}, {fields_of(piece.kind)[name].words}"
        for piece in pieces
        for name, stated in piece.figures.items()
        if stated.trust is Trust.ASSUMED and stated.low is None and stated.high is None
        if fields_of(piece.kind)[name].quantity != "count"
    ]
    if bare:
        yield finding(
            "assumed as if exact",
            "",
            listed(bare, 4),
            "is assumed and has no range" if len(bare) == 1 else "are assumed and have no range",
            "give each a range, such as 0.38 (0.34-0.42), or say that it was measured",
            "note",
        )
