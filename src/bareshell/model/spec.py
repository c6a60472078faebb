"""Typed specifications of parts and fixings.

Every figure may be unknown (None): unknown is a question to ask before ordering, never a
silent default. Lengths in metres. A tolerance says by how much a size may be off either way;
where it is unknown, a fit is judged by how well such a size can be measured, and says so.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal


@dataclass(frozen=True, slots=True)
class PlainSpec:
    """Anything described in words only."""

    kind: Literal["plain"] = "plain"
    words: str = ""


@dataclass(frozen=True, slots=True)
class BoltSpec:
    """Bolt, screw, stud or nut."""

    kind: Literal["bolt"] = "bolt"
    thread: str | None = None
    diameter_m: float | None = None
    grip_length_m: float | None = None
    length_m: float | None = None
    head: str | None = None
    grade: str | None = None
    finish: str | None = None
    washer: str | None = None
    lock: str | None = None
    what: str | None = None
    drive: str | None = None
    grip_tolerance_m: float | None = None
    length_tolerance_m: float | None = None


@dataclass(frozen=True, slots=True)
class PinSpec:
    """Clevis or retaining pin."""

    kind: Literal["pin"] = "pin"
    diameter_m: float | None = None
    diameter_tolerance_m: float | None = None
    grip_to_hole_m: float | None = None
    head: str | None = None
    material: str | None = None
    grip_tolerance_m: float | None = None
    hole_m: float | None = None
    hardness: str | None = None


@dataclass(frozen=True, slots=True)
class SplitPinSpec:
    """Split pin."""

    kind: Literal["split pin"] = "split pin"
    diameter_m: float | None = None
    length_m: float | None = None
    material: str | None = None


@dataclass(frozen=True, slots=True)
class UnionSpec:
    """Pipe nut or union: thread, sex, seat and flare must all agree with the other side."""

    kind: Literal["union"] = "union"
    thread: str | None = None
    sex: str | None = None
    seat: str | None = None
    flare: str | None = None
    pipe_diameter_m: float | None = None
    nut_length_m: float | None = None
    lead: str | None = None


@dataclass(frozen=True, slots=True)
class PipeSpec:
    """Rigid pipe."""

    kind: Literal["pipe"] = "pipe"
    outside_diameter_m: float | None = None
    wall_m: float | None = None
    length_m: float | None = None
    material: str | None = None
    flare: str | None = None


@dataclass(frozen=True, slots=True)
class HoseSpec:
    """Flexible hose: both ends, free length, bracket and clocking; a moulded one by its shape.

    ``bore_b_m`` is the bore at the other end, where that is another.
    """

    kind: Literal["hose"] = "hose"
    end_a: str | None = None
    end_b: str | None = None
    free_length_m: float | None = None
    bore_m: float | None = None
    bracket: str | None = None
    clocking_deg: float | None = None
    carries: str | None = None
    thread_a: str | None = None
    seat_a: str | None = None
    thread_b: str | None = None
    seat_b: str | None = None
    clip_m: float | None = None
    wall_m: float | None = None
    length_tolerance_m: float | None = None
    bore_b_m: float | None = None
    shape: str | None = None


@dataclass(frozen=True, slots=True)
class CylinderSpec:
    """A hydraulic cylinder of any other kind, such as a clutch slave."""

    kind: Literal["cylinder"] = "cylinder"
    what: str | None = None
    bore_m: float | None = None
    pistons: int | None = None
    port_thread: str | None = None
    hand: str | None = None
    fluid_base: str | None = None


@dataclass(frozen=True, slots=True)
class CaliperSpec:
    """Brake caliper."""

    kind: Literal["caliper"] = "caliper"
    hand: str | None = None
    pistons: int | None = None
    piston_m: float | None = None
    mounting_centres_m: float | None = None
    mounting_thread: str | None = None
    pad: str | None = None
    disc_diameter_m: float | None = None
    disc_thickness_m: float | None = None
    port_thread: str | None = None
    port_seat: str | None = None
    bleed_thread: str | None = None
    bleed_place: str | None = None
    seal_material: str | None = None
    fluid_base: str | None = None


@dataclass(frozen=True, slots=True)
class WheelCylinderSpec:
    """Wheel cylinder of a drum brake."""

    kind: Literal["wheel cylinder"] = "wheel cylinder"
    bore_m: float | None = None
    hand: str | None = None
    pistons: int | None = None
    port_thread: str | None = None
    port_seat: str | None = None
    bleed_thread: str | None = None
    backplate_hole_m: float | None = None
    seal_material: str | None = None
    fluid_base: str | None = None


@dataclass(frozen=True, slots=True)
class MasterCylinderSpec:
    """Master cylinder of brake or clutch."""

    kind: Literal["master cylinder"] = "master cylinder"
    circuits: int | None = None
    bore_m: float | None = None
    stroke_m: float | None = None
    split: str | None = None
    port_thread: str | None = None
    port_seat: str | None = None
    push_rod_m: float | None = None
    residual_valve: str | None = None
    flange_centres_m: float | None = None
    seal_material: str | None = None
    fluid_base: str | None = None


@dataclass(frozen=True, slots=True)
class BearingSpec:
    """Bearing or bush."""

    kind: Literal["bearing"] = "bearing"
    number: str | None = None
    inside_m: float | None = None
    outside_m: float | None = None
    width_m: float | None = None
    tolerance_m: float | None = None


@dataclass(frozen=True, slots=True)
class SealSpec:
    """Rotary, static or cup seal."""

    kind: Literal["seal"] = "seal"
    inside_m: float | None = None
    outside_m: float | None = None
    width_m: float | None = None
    material: str | None = None
    lips: int | None = None
    tolerance_m: float | None = None


@dataclass(frozen=True, slots=True)
class CableSpec:
    """Control cable."""

    kind: Literal["cable"] = "cable"
    inner_length_m: float | None = None
    outer_length_m: float | None = None
    end_a: str | None = None
    end_b: str | None = None
    length_tolerance_m: float | None = None


@dataclass(frozen=True, slots=True)
class RubberSpec:
    """Rubber section: seals, mouldings, weather strip."""

    kind: Literal["rubber"] = "rubber"
    profile: str | None = None
    length_m: float | None = None
    hardness: str | None = None
    corners: str | None = None


@dataclass(frozen=True, slots=True)
class GlassSpec:
    """Glass: where it goes, its mark and tint."""

    kind: Literal["glass"] = "glass"
    where: str | None = None
    mark: str | None = None
    tint: str | None = None
    thickness_m: float | None = None
    edge: str | None = None
    heater: str | None = None


@dataclass(frozen=True, slots=True)
class GoodsSpec:
    """Sheet, paste and liquid goods, with shelf life and the lowest temperature they take."""

    kind: Literal["goods"] = "goods"
    what: str | None = None
    amount: str | None = None
    shelf_life_months: int | None = None
    lowest_temperature_c: float | None = None
    batch: str | None = None
    use_by: date | None = None
    thickness_m: float | None = None


@dataclass(frozen=True, slots=True)
class ElectricalSpec:
    """Cable, connector, lamp, switch or fuse."""

    kind: Literal["electrical"] = "electrical"
    what: str | None = None
    volts: float | None = None
    amps: float | None = None
    area_mm2: float | None = None
    connector: str | None = None
    watts: float | None = None
    colour: str | None = None
    length_m: float | None = None


Spec = (
    PlainSpec
    | BoltSpec
    | PinSpec
    | SplitPinSpec
    | UnionSpec
    | PipeSpec
    | HoseSpec
    | CylinderSpec
    | CaliperSpec
    | WheelCylinderSpec
    | MasterCylinderSpec
    | BearingSpec
    | SealSpec
    | CableSpec
    | RubberSpec
    | GlassSpec
    | GoodsSpec
    | ElectricalSpec
)
"""Any typed specification; ``kind`` tells which."""
