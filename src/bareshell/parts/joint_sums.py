"""The sums of a stand-in: shear, bearing and bending, against the load or against the right part.

Where the load and the plies are known the stress itself is reckoned. Where they are not, the
stand-in is held against the part that was wanted: it must bear as much. Where neither can be
reckoned the answer is *not known*, and says what to find out.
"""

from __future__ import annotations

import math
from typing import Final

from bareshell.calc import fixings
from bareshell.model.duty import Duty, LoadPath
from bareshell.parts.materials import PLAIN_PLATE_PA
from bareshell.parts.stand_in_parts import (
    Enough,
    Fixing,
    StandInLine,
    line,
    megapascals,
    millimetres,
)

__all__ = ["SHARE_BODY", "bearing_line", "bending_line", "cut_at", "last_plane_m", "shear_line"]

SAFETY: Final = 3.0
SAFETY_BODY: Final = 2.0
"""Shear strength over what is allowed: three where lives hang on it [S:trade-practice]. [-]"""

SHARE: Final = 0.97
SHARE_BODY: Final = 0.5
"""What a stand-in must bear of what the right one bears, where the load is not known: as much, but
for the play between nominal sizes; half where only trim hangs on it [S:trade-practice]. [-]"""

BENDING_SAFETY: Final = 1.5
"""Proof stress over the bending that is allowed [S:trade-practice]. [-]"""

TURNING_PA: Final = 60e6
"""Bearing pressure that a plain pivot stands without wearing fast [S:trade-practice]. [Pa]"""


def last_plane_m(duty: Duty) -> float | None:
    """How deep under the head the last shear plane lies; None when the plies are not known.

    Examples
    --------
    >>> round(last_plane_m(Duty(shear_planes=2, fork_ply_m=0.004, eye_ply_m=0.006)), 4)
    0.01
    """
    if duty.fork_ply_m is None or duty.shear_planes is None:
        return None
    if duty.shear_planes == 1:
        return duty.fork_ply_m
    if duty.eye_ply_m is None:
        return None
    return duty.fork_ply_m + duty.eye_ply_m + 2.0 * (duty.side_gap_m or 0.0)


_AS_LONG_M: Final = 0.25e-3


def cut_at(fixing: Fixing, wanted: Fixing, duty: Duty) -> tuple[float | None, str]:
    """Where the load cuts a fixing: its shank or the root of its thread, and why.

    Where nobody measured the plies, the right part's own plain length says how far it goes.

    Parameters
    ----------
    fixing : Fixing
        The stand-in, or the part that was wanted.
    wanted : Fixing
        The part that was wanted.
    duty : Duty
        The joint.
    """
    if fixing.kind == "pin":
        return fixing.diameter_m, "its full section"
    plane = last_plane_m(duty)
    if plane is None and wanted.plain_m and fixing.plain_m is not None:
        short = wanted.plain_m - fixing.plain_m
        if short <= _AS_LONG_M:
            return fixing.diameter_m, "its plain shank, as long as that of the right one"
        return fixing.root_m, (
            f"the root of its thread: its shank is {millimetres(short)} shorter than the right one"
        )
    if fixing.plain_m is not None and plane is not None and fixing.plain_m >= plane - 1e-9:
        return fixing.diameter_m, "its plain shank"
    if fixing.plain_m is None:
        return fixing.root_m, "the root of its thread, since its plain shank is not known"
    if plane is None:
        return fixing.root_m, "the root of its thread, since the plies are not known"
    return fixing.root_m, (
        f"the root of its thread: the shank ends {millimetres(plane - fixing.plain_m)} "
        "before the last shear plane"
    )


def _safety(duty: Duty) -> float:
    return SAFETY_BODY if duty.load_path is LoadPath.BODY else SAFETY


def _share(duty: Duty) -> float:
    return SHARE_BODY if duty.load_path is LoadPath.BODY else SHARE


def _planes(duty: Duty) -> tuple[int, str]:
    if duty.shear_planes is None:
        return 1, "taken as single shear, since nobody said"
    return duty.shear_planes, "single shear" if duty.shear_planes == 1 else "double shear"


def _ask_metal(check: str, fixing: Fixing) -> StandInLine:
    said = f"'{fixing.said}' promises nothing" if fixing.said else "nobody said what it is made of"
    return line(check, Enough.NOT_KNOWN, f"{said}: read the mark on its head, or ask")


def shear_line(offered: Fixing, wanted: Fixing, duty: Duty) -> StandInLine:
    """Judge a stand-in in shear."""
    section, why = cut_at(offered, wanted, duty)
    if section is None:
        return line("shear", Enough.NOT_KNOWN, "its diameter is not known: measure it")
    if offered.metal is None:
        return _ask_metal("shear", offered)
    planes, how = _planes(duty)
    if duty.load_n is not None:
        stress = fixings.pin_shear_stress(duty.load_n, section, float(planes))
        allowed = offered.metal.shear_pa / _safety(duty)
        state = Enough.FOR_GOOD if stress <= allowed else Enough.NOT_ENOUGH
        sum_ = (
            f"4 x {duty.load_n:.0f} N / ({planes} x pi x ({millimetres(section)})\u00b2) = "
            f"{megapascals(stress)}, of 0.6 x {megapascals(offered.metal.tensile_pa)} / "
            f"{_safety(duty):g} = {megapascals(allowed)} allowed"
        )
        return line("shear", state, f"{how}, cut at {why}", sum_, "pin-double-shear")
    return _shear_beside(offered, wanted, duty, section, why)


def _shear_beside(
    offered: Fixing, wanted: Fixing, duty: Duty, section: float, why: str
) -> StandInLine:
    its, _ = cut_at(wanted, wanted, duty)
    if its is None or wanted.metal is None or offered.metal is None:
        return line(
            "shear",
            Enough.NOT_KNOWN,
            "neither the load nor what the right one is made of is known: say one of the two",
        )
    mine = offered.metal.shear_pa * section**2 * math.pi / 4.0
    needed = wanted.metal.shear_pa * its**2 * math.pi / 4.0
    state = Enough.FOR_GOOD if mine >= needed * _share(duty) else Enough.NOT_ENOUGH
    sum_ = (
        f"{mine / 1000:.1f} kN a plane ({offered.metal.name}, {millimetres(section)}) against "
        f"{needed / 1000:.1f} kN of the right one ({wanted.metal.name}, {millimetres(its)})"
    )
    return line("shear", state, f"held against the right one; cut at {why}", sum_, "shigley-bolts")


def bearing_line(offered: Fixing, wanted: Fixing, duty: Duty) -> StandInLine:
    """Judge a stand-in on the walls of its hole."""
    size = offered.diameter_m
    if size is None:
        return line("bearing", Enough.NOT_KNOWN, "its diameter is not known: measure it")
    if duty.load_n is None or duty.eye_ply_m is None or duty.fork_ply_m is None:
        if wanted.diameter_m is None:
            return line("bearing", Enough.NOT_KNOWN, "load, plies or the right diameter: say which")
        state = Enough.FOR_GOOD if size >= 0.97 * wanted.diameter_m else Enough.NOT_ENOUGH
        sum_ = f"{millimetres(size)} wide against {millimetres(wanted.diameter_m)}"
        return line("bearing", state, "held against the right one", sum_)
    planes, _ = _planes(duty)
    eye = fixings.bearing_stress(duty.load_n, size, duty.eye_ply_m)
    fork = fixings.bearing_stress(duty.load_n / planes, size, duty.fork_ply_m)
    turning = duty.turns is not False
    allowed = TURNING_PA if turning else PLAIN_PLATE_PA
    worst = max(eye, fork)
    how = "a pivot" if duty.turns else "taken as a pivot" if turning else "a joint that stays still"
    sum_ = (
        f"{duty.load_n:.0f} N / ({millimetres(size)} x {millimetres(duty.eye_ply_m)}) = "
        f"{megapascals(eye)} in the eye, {megapascals(fork)} in each side of what holds it; "
        f"{megapascals(allowed)} allowed"
    )
    state = Enough.FOR_GOOD if worst <= allowed else Enough.NOT_ENOUGH
    if state is Enough.NOT_ENOUGH and turning and worst <= PLAIN_PLATE_PA:
        state, how = Enough.FOR_NOW, f"{how}: it will wear, not give way"
    return line("bearing", state, how, sum_, "pin-double-shear")


def bending_line(offered: Fixing, wanted: Fixing, duty: Duty) -> StandInLine:
    """Judge a stand-in in bending, with the gap between the plies."""
    section, why = cut_at(offered, wanted, duty)
    if section is None:
        return line("bending", Enough.NOT_KNOWN, "its diameter is not known: measure it")
    if offered.metal is None:
        return _ask_metal("bending", offered)
    known = (duty.load_n, duty.eye_ply_m, duty.fork_ply_m, duty.side_gap_m, duty.shear_planes)
    if None not in known:
        return _bending_reckoned(offered, duty, section, why)
    its, _ = cut_at(wanted, wanted, duty)
    if its is None or wanted.metal is None:
        return line(
            "bending",
            Enough.NOT_KNOWN,
            "load, plies and gap, or what the right one is made of: say one of the two",
        )
    mine, needed = offered.metal.proof_pa * section**3, wanted.metal.proof_pa * its**3
    enough = mine >= needed * _share(duty) ** 1.5
    state = Enough.FOR_GOOD if enough else Enough.NOT_ENOUGH
    sum_ = (
        f"proof x d\u00b3: {megapascals(offered.metal.proof_pa)} x ({millimetres(section)})\u00b3 "
        f"is {mine / needed:.2f} of the right one's"
    )
    return line(
        "bending", state, f"held against the right one; bent at {why}", sum_, "shigley-bolts"
    )


def _bending_reckoned(offered: Fixing, duty: Duty, section: float, why: str) -> StandInLine:
    load, gap = duty.load_n or 0.0, duty.side_gap_m or 0.0
    fork, eye = duty.fork_ply_m or 0.0, duty.eye_ply_m or 0.0
    if duty.shear_planes == 2:
        moment = fixings.fork_pin_moment(load, fork, eye, gap)
        made = f"{load:.0f} N / 2 x ({fork * 500:.3g} + {eye * 250:.3g} + {gap * 1000:.3g} mm)"
        source_id = "afml-stress-manual"
    else:
        moment = fixings.overhung_pin_moment(load, eye, gap)
        made = f"{load:.0f} N x ({eye * 500:.3g} + {gap * 1000:.3g} mm)"
        source_id = "first-principles"
    stress = fixings.bar_bending_stress(moment, section)
    proof = offered.metal.proof_pa if offered.metal else 0.0
    allowed = proof / BENDING_SAFETY
    state = Enough.FOR_GOOD if stress <= allowed else Enough.NOT_ENOUGH
    sum_ = (
        f"{made} = {moment:.2f} N m; 32 M / (pi d\u00b3) = {megapascals(stress)}, of "
        f"{megapascals(proof)} / {BENDING_SAFETY:g} = {megapascals(allowed)} allowed"
    )
    return line("bending", state, f"with the gap; bent at {why}", sum_, source_id)
