"""Short ways to write down a need with its measured specification, in the trade's millimetres."""

from __future__ import annotations

from typing import Final

from bareshell.model.duty import Duty, LoadPath, Lubrication, Seat
from bareshell.model.part import Need, NeededTo
from bareshell.model.spec import (
    BoltSpec,
    ElectricalSpec,
    GoodsSpec,
    HoseSpec,
    PinSpec,
    PipeSpec,
    PlainSpec,
    Spec,
    SplitPinSpec,
    UnionSpec,
)
from bareshell.model.trust import YOURS

PLAIN: Final = PlainSpec()


def want(
    key: str,
    title: str,
    job: str,
    quantity: int = 1,
    spec: Spec = PLAIN,
    *,
    start: bool = False,
    fixing: bool = False,
    note: str = "",
    duty: Duty | None = None,
) -> Need:
    """Write down a need of the owner's; a fixing lies in the bag of its job."""
    when = NeededTo.START if start else NeededTo.FINISH
    bag = f"bag {job}" if fixing else ""
    return Need(key, title, job, quantity, when, spec, bag, fixing, YOURS, note, duty)


def fork(path: LoadPath, load_n: float, ply_mm: float, eye_mm: float, gap_mm: float) -> Duty:
    """Write down what hangs on a pin that turns in a fork."""
    return Duty(
        path,
        load_n=load_n,
        shear_planes=2,
        fork_ply_m=ply_mm / 1000,
        eye_ply_m=eye_mm / 1000,
        side_gap_m=gap_mm / 1000,
        turns=True,
    )


def clamped(
    path: LoadPath,
    *,
    lubrication: Lubrication | None = Lubrication.ZINC,
) -> Duty:
    """Write down what hangs on a bolt that clamps and stays still, as it goes together here."""
    return Duty(path, turns=False, seat=Seat.FIRM, lubrication=lubrication)


def bolt(
    thread: str,
    grip_mm: float | None,
    length_mm: float,
    grade: str | None = "8.8",
    lock: str | None = None,
    what: str | None = None,
    finish: str = "zinc",
) -> BoltSpec:
    """Write down a bolt or nut; an unknown grip stays unknown."""
    grip = None if grip_mm is None else grip_mm / 1000
    return BoltSpec(
        thread=thread,
        grip_length_m=grip,
        length_m=length_mm / 1000,
        head="hexagon",
        grade=grade,
        finish=finish,
        lock=lock,
        what=what,
    )


def clevis(diameter_mm: float, grip_mm: float) -> PinSpec:
    """Write down a clevis pin by diameter and length under the head to the hole."""
    return PinSpec(
        diameter_m=diameter_mm / 1000,
        grip_to_hole_m=grip_mm / 1000,
        head="flat",
        material="steel",
        hardness="zinc plated, a file bites",
    )


def split(diameter_mm: float, length_mm: float) -> SplitPinSpec:
    """Write down a split pin."""
    return SplitPinSpec(diameter_m=diameter_mm / 1000, length_m=length_mm / 1000, material="steel")


def hose(end_a: str, end_b: str, free_mm: float, bracket: str | None = None) -> HoseSpec:
    """Write down a brake hose by its two ends and free length."""
    return HoseSpec(
        end_a=end_a,
        end_b=end_b,
        free_length_m=free_mm / 1000,
        bore_m=0.0032,
        bracket=bracket,
        carries="brake fluid, glycol",
    )


def goods(what: str, amount: str, months: int | None = None, low: float | None = None) -> GoodsSpec:
    """Write down sheet, paste or liquid goods."""
    return GoodsSpec(what=what, amount=amount, shelf_life_months=months, lowest_temperature_c=low)


def wire(
    what: str, area: float | None = None, amps: float | None = None, connector: str | None = None
) -> ElectricalSpec:
    """Write down something electrical of a 12 V car."""
    return ElectricalSpec(what=what, volts=12.0, amps=amps, area_mm2=area, connector=connector)


UNION_M10 = UnionSpec(
    thread="M10x1.0",
    sex="male",
    seat="dished",
    flare="single convex",
    pipe_diameter_m=0.00475,
)
UNION_UNF = UnionSpec(
    thread="3/8-24 UNF", sex="male", seat="90 degree cone", flare="double", pipe_diameter_m=0.00475
)
COPPER_NICKEL = PipeSpec(
    outside_diameter_m=0.00475,
    wall_m=0.0009,
    length_m=7.6,
    material="copper-nickel",
    flare="double",
)
