"""Does a stand-in go in, stay in and hold together: hole, grip, thread, lock, clamp, metal."""

from __future__ import annotations

from typing import Final

from bareshell.calc import fixings
from bareshell.calc.nut_factors import NUT_FACTORS, SHARE_OF_PROOF
from bareshell.model.duty import NO_STAINLESS, NO_STAND_IN, Duty, LoadPath, Lubrication
from bareshell.parts.joint_sums import SHARE_BODY
from bareshell.parts.stand_in_parts import Enough, Fixing, StandInLine, line, millimetres
from bareshell.parts.threads_meet import meet
from bareshell.parts.tightening import OWN_FIGURE

__all__ = [
    "clamp_line",
    "grip_lines",
    "head_line",
    "hole_line",
    "lock_line",
    "metal_lines",
    "nut_line",
    "thread_line",
    "torque_line",
]

TIGHT_M: Final = 0.02e-3
LOOSE_PIVOT_M: Final = 0.15e-3
LOOSE_NOW_M: Final = 0.4e-3
NEAR_HOLE_M: Final = 0.15e-3
LOOSE_STILL: Final = 0.12
"""Play of a pivot for good and for now; how much larger than the right one it may still go into a
hole that nobody measured; play of a clamped bolt as a share of its diameter [S:trade-practice]."""

TAKE_UP_M: Final = 3e-3
"""How much of a long grip washers may take up [S:trade-practice]. [m]"""

NUT_HEIGHT: Final = 0.8
PROUD_THREADS: Final = 2.0
"""Height of a nut in diameters, and threads that stand proud of it [S:trade-practice]. [-]"""

DRY: Final = NUT_FACTORS[Lubrication.DRY.value].usual
OILED: Final = NUT_FACTORS[Lubrication.OILED.value].usual
SCATTER: Final = 0.30
_FRICTION: Final = 0.2
_AS_RIGHT_M: Final = 0.25e-3


def hole_line(offered: Fixing, wanted: Fixing, duty: Duty) -> StandInLine:
    """Judge how it sits in its hole: too large, loose, or as it should."""
    size, hole = offered.diameter_m, duty.hole_m or wanted.diameter_m
    if size is None or hole is None:
        what = "its diameter" if size is None else "the hole"
        return line("hole", Enough.NOT_KNOWN, f"{what} is not known: measure it")
    play = hole - size
    where = "the hole" if duty.hole_m else "a hole for the right one"
    sum_ = f"{millimetres(size)} in {where} of {millimetres(hole)}"
    if duty.hole_m is None and -NEAR_HOLE_M <= play < -TIGHT_M:
        words = f"{millimetres(-play)} larger than the right one: measure the hole, and say it"
        return line("hole", Enough.NOT_KNOWN, words, sum_)
    if play < -TIGHT_M:
        words = f"{millimetres(-play)} too large: it stays out"
        return line("hole", Enough.NOT_ENOUGH, words, sum_)
    if duty.turns is False and offered.kind == "bolt":
        enough = play <= LOOSE_STILL * size
        state = Enough.FOR_GOOD if enough else Enough.NOT_ENOUGH
        words = "clamped, so play is allowed" if enough else "too loose to clamp square"
        return line("hole", state, words, sum_)
    if play <= LOOSE_PIVOT_M + 1e-9:
        return line("hole", Enough.FOR_GOOD, "it sits", sum_)
    if play <= LOOSE_NOW_M + 1e-9:
        return line("hole", Enough.FOR_NOW, "loose: it hammers its hole wider with use", sum_)
    return line("hole", Enough.NOT_ENOUGH, f"{millimetres(play)} of play: it hammers", sum_)


def grip_lines(offered: Fixing, wanted: Fixing, duty: Duty) -> tuple[StandInLine, ...]:
    """Judge its length under the head against what it has to go through."""
    plies = duty.plies_m
    if plies is None and wanted.kind == "pin":
        plies = wanted.plain_m  # the right pin's own grip says what it goes through
    if offered.kind == "pin":
        return (_pin_grip(offered, wanted, plies),)
    lines = [_bolt_length(offered, wanted, plies, duty)]
    if offered.plain_m is not None:
        if plies is not None:
            lines.append(_bolt_shank(offered, plies, duty))
        elif wanted.plain_m:
            lines.extend(_shank_beside(offered.plain_m, wanted.plain_m, duty))
    return tuple(lines)


def _shank_beside(plain: float, right: float, duty: Duty) -> tuple[StandInLine, ...]:
    """Judge a plain shank where nobody measured what it goes through."""
    over = plain - right
    sum_ = f"{millimetres(plain)} of plain shank, the right one {millimetres(right)}"
    if over < -0.5e-3 and duty.load_path is LoadPath.BODY:
        words = f"{millimetres(-over)} less shank: its thread bears in the hole, and marks it"
        return (line("shank", Enough.MIND, words, sum_),)
    if over < -0.5e-3:
        words = "its thread may lie where the load cuts it: measure the plies, and say them"
        return (line("shank", Enough.NOT_KNOWN, words, sum_),)
    if over > 0.5e-3:
        words = f"washers of {millimetres(over)} at least, or its nut runs onto the shank"
        return (line("shank", Enough.MIND, words, sum_),)
    return (line("shank", Enough.FOR_GOOD, "as long as that of the right one", sum_),)


def _pin_grip(offered: Fixing, wanted: Fixing, plies: float | None) -> StandInLine:
    mine, its = offered.plain_m, wanted.plain_m if wanted.kind == "pin" else None
    if mine is not None and its is not None and abs(mine - its) <= _AS_RIGHT_M:
        sum_ = f"{millimetres(mine)} to the hole, {millimetres(its)} of the right one"
        return line("grip", Enough.FOR_GOOD, "as the right one, with its washers", sum_)
    if plies is None or offered.plain_m is None:
        what = "what it goes through" if plies is None else "its grip to the hole"
        return line("grip", Enough.NOT_KNOWN, f"{what} is not known: measure it")
    over = offered.plain_m - plies
    sum_ = f"{millimetres(offered.plain_m)} to the hole, {millimetres(plies)} to go through"
    if over < -0.25e-3:
        return line("grip", Enough.NOT_ENOUGH, "short: its hole stays inside", sum_)
    if over <= 0.5e-3:
        return line("grip", Enough.FOR_GOOD, "its hole comes just outside", sum_)
    if over <= TAKE_UP_M:
        words = f"take {millimetres(over)} up with plain washers"
        return line("grip", Enough.FOR_GOOD, words, sum_)
    return line("grip", Enough.FOR_NOW, f"{millimetres(over)} too long: it wanders", sum_)


def _bolt_length(offered: Fixing, wanted: Fixing, plies: float | None, duty: Duty) -> StandInLine:
    size, length = offered.diameter_m, offered.length_m
    if length is None or size is None or (plies is None and wanted.length_m is None):
        return line("length", Enough.NOT_KNOWN, "its length, or what it goes through: measure it")
    if plies is None:
        return _beside_the_right_one(length, wanted.length_m or 0.0, offered, duty)
    pitch = offered.thread.pitch_m if offered.thread else 0.0
    needed = plies + NUT_HEIGHT * size + PROUD_THREADS * pitch
    made = f"{millimetres(plies)} + nut {millimetres(NUT_HEIGHT * size)} + two threads"
    sum_ = f"{millimetres(length)} long, {made} = {millimetres(needed)} wanted"
    if length < needed - 0.5e-3:
        return line("length", Enough.NOT_ENOUGH, "short: its nut is not filled", sum_)
    if length > needed + 2.0 * size:
        return line("length", Enough.MIND, _TOUCHES, sum_)
    return line("length", Enough.FOR_GOOD, "two threads proud of its nut", sum_)


_TOUCHES: Final = "long: see that it touches nothing, and bottoms in no blind hole"


def _beside_the_right_one(length: float, right: float, offered: Fixing, duty: Duty) -> StandInLine:
    """Judge a length where nobody measured what it goes through."""
    over = length - right
    sum_ = f"{millimetres(length)} long, the right one {millimetres(right)}"
    if over < -0.5e-3:
        words = f"{millimetres(-over)} shorter than the right one: its thread is not filled"
        return line("length", Enough.NOT_ENOUGH, words, sum_)
    pitch = offered.thread.pitch_m if offered.thread else 0.0
    if over <= max(0.5e-3, PROUD_THREADS * pitch):
        return line("length", Enough.FOR_GOOD, "as long as the right one", sum_)
    if duty.load_path in NO_STAND_IN:
        words = f"{millimetres(over)} longer: measure what it goes through, and the room behind it"
        return line("length", Enough.NOT_KNOWN, words, sum_)
    return line("length", Enough.MIND, _TOUCHES, sum_)


def _bolt_shank(offered: Fixing, plies: float, duty: Duty) -> StandInLine:
    plain = offered.plain_m or 0.0
    sum_ = f"{millimetres(plain)} of plain shank, {millimetres(plies)} to go through"
    if plain >= plies - 0.25e-3:
        over = plain - plies
        if over > 0.25e-3:
            words = f"washers of {millimetres(over)} at least, or its nut runs onto the shank"
            return line("shank", Enough.MIND, words, sum_)
        return line("shank", Enough.FOR_GOOD, "its shank fills every ply", sum_)
    eye = duty.fork_ply_m is not None and plain < duty.fork_ply_m + (duty.eye_ply_m or 0.0)
    if eye and duty.turns is not False:
        return line("shank", Enough.FOR_NOW, "thread lies in what turns: it files it away", sum_)
    return line("shank", Enough.FOR_NOW, "thread lies in a ply and cuts its wall", sum_)


def thread_line(offered: Fixing, wanted: Fixing, duty: Duty) -> StandInLine | None:
    """Judge the thread where it goes into the same nut or hole; None where there is none."""
    if offered.thread is None or wanted.thread is None:
        return None
    met = meet(offered.thread, wanted.thread)
    if met.agrees:
        return line("thread", Enough.FOR_GOOD, "the same thread", str(offered.thread))
    if duty.hole_m is not None:
        words = "another thread: only through a plain hole, with a nut of its own"
        return line("thread", Enough.FOR_NOW, words, met.arithmetic, met.source_id)
    return line("thread", Enough.NOT_ENOUGH, met.words, met.arithmetic, met.source_id)


_POSITIVE: Final = ("nyloc", "nylon", "self", "distorted", "castle", "castellated", "wire", "tab")
"""Words of locks that hold without clamp; a spring washer and a plain nut do not."""

_THIN_WIRE: Final = 0.75


def _holds(lock: str) -> bool:
    return any(word in lock for word in _POSITIVE)


def lock_line(offered: Fixing, wanted: Fixing, duty: Duty) -> StandInLine:
    """Judge what keeps it in."""
    if offered.kind == "pin":
        return _split_pin_line(offered, wanted)
    lock = offered.lock
    if not lock and wanted.kind == "bolt":
        how = f", by {wanted.lock}" if wanted.lock else ""
        words = f"locked as the right one is{how}: the lock is part of the joint"
        return line("lock", Enough.MIND, words)
    if not lock:
        words = "what locks its nut is not known: self-locking, or castle with a split pin"
        return line("lock", Enough.NOT_KNOWN, words)
    if _holds(lock):
        once = "; a nylon insert holds once" if "ny" in lock else ""
        return line("lock", Enough.FOR_GOOD, f"locked by {lock}{once}")
    if wanted.kind == "pin":
        words = f"'{lock}' holds only under clamp, and this nut is not tightened"
        return line("lock", Enough.NOT_ENOUGH, words)
    if _holds(wanted.lock):
        words = f"'{lock}' lets go once the clamp is lost; the right one holds by {wanted.lock}"
        trim = duty.load_path is LoadPath.BODY
        return line("lock", Enough.FOR_NOW if trim else Enough.NOT_ENOUGH, words)
    return line("lock", Enough.FOR_GOOD, f"{lock}, as the right one holds: under clamp")


def _split_pin_line(offered: Fixing, wanted: Fixing) -> StandInLine:
    words = "a new split pin of the size of its hole, both legs bent"
    mine, its = offered.split_hole_m, wanted.split_hole_m
    if mine is None or its is None or mine >= its - 0.1e-3:
        return line("lock", Enough.MIND, words)
    sum_ = f"({millimetres(mine)} / {millimetres(its)})\u00b2 = {(mine / its) ** 2:.0%} of its wire"
    if mine >= _THIN_WIRE * its:
        return line("lock", Enough.FOR_NOW, f"its hole takes a thinner split pin; {words}", sum_)
    words = "its hole takes too thin a split pin: never drill it wider through a hardened pin"
    return line("lock", Enough.NOT_ENOUGH, words, sum_)


def head_line(offered: Fixing, wanted: Fixing) -> StandInLine | None:
    """Judge another head; None where it is the same, or nobody asked for one."""
    mine, its = offered.head, wanted.head
    if not mine or not its or mine == its or offered.kind != wanted.kind:
        return None
    if ("counters" in mine or "raised" in mine) != ("counters" in its or "raised" in its):
        words = f"{mine} for {its}: a cone in a flat hole, or the other way, bears on its edge only"
        return line("head", Enough.NOT_ENOUGH, words)
    if offered.kind == "pin":
        words = f"{mine} for {its}: see that it cannot fall through, and clears what swings past"
        return line("head", Enough.MIND, words)
    words = f"{mine} for {its}: see that it bears on as much, and that a spanner gets to it"
    return line("head", Enough.MIND, words)


def nut_line(offered: Fixing, wanted: Fixing, duty: Duty) -> StandInLine | None:
    """Judge a nut of another class; None where it is the same, or nobody asked for one."""
    mine, its = offered.said.strip(), wanted.said.strip()
    if not its or mine.casefold() == its.casefold():
        return None
    if not (mine.isdigit() and its.isdigit()):
        words = f"'{mine or 'no mark'}' for '{its}': read the mark on the nut"
        return line("grade", Enough.NOT_KNOWN, words)
    if int(mine) >= int(its):
        return line("grade", Enough.FOR_GOOD, f"class {mine} for {its}: stronger than it need be")
    words = f"class {mine} for {its}: its threads strip before its bolt is tight"
    trim = duty.load_path is LoadPath.BODY
    return line("grade", Enough.MIND if trim else Enough.NOT_ENOUGH, words)


def clamp_line(offered: Fixing, wanted: Fixing, duty: Duty) -> StandInLine | None:
    """Judge the clamp where a bolt gives way to a pin, or a pin to a bolt."""
    if wanted.kind == "bolt" and offered.kind == "pin":
        if duty.turns:
            return line("clamp", Enough.FOR_NOW, "a pivot, so no clamp is lost")
        area, metal = wanted.stress_area_m2, wanted.metal
        if area is None or metal is None:
            return line("clamp", Enough.NOT_ENOUGH, "a pin clamps nothing, and the joint was held")
        pull = SHARE_OF_PROOF * fixings.proof_load(area, metal.proof_pa)
        slip = fixings.slip_force(pull, _FRICTION, 1.0)
        sum_ = (
            f"{SHARE_OF_PROOF:g} x {metal.proof_pa / 1e6:.0f} MPa x {area * 1e6:.1f} mm\u00b2 = "
            f"{pull / 1000:.1f} kN; x {_FRICTION:g} = {slip / 1000:.1f} kN a face, lost whole"
        )
        words = "a pin clamps nothing: the faces begin to work"
        return line("clamp", Enough.NOT_ENOUGH, words, sum_, "first-principles")
    if wanted.kind == "pin" and offered.kind == "bolt":
        words = "run the nut up until it touches, then lock it: tight, it nips the fork and binds"
        return line("clamp", Enough.FOR_NOW, words)
    return None


def metal_lines(offered: Fixing, wanted: Fixing, duty: Duty) -> tuple[StandInLine, ...]:
    """Judge the metal: stainless where it must not be, galling, brittleness."""
    metal = offered.metal
    if metal is None:
        return ()
    lines = []
    if metal.stainless and not (wanted.metal and wanted.metal.stainless):
        if duty.load_path in NO_STAINLESS:
            sum_ = f"0.2 % proof {metal.proof_pa / 1e6:.0f} MPa"
            if wanted.metal:
                sum_ += f" against {wanted.metal.proof_pa / 1e6:.0f} MPa"
            words = f"stainless is not for {duty.load_path.value if duty.load_path else ''}"
            lines.append(line("metal", Enough.NOT_ENOUGH, words, sum_, "iso-3506-1"))
        else:
            words = "stainless galls: grease its thread, turn it slowly, and never run it dry"
            lines.append(line("galling", Enough.MIND, words, "", "iso-3506-1"))
    if metal.name in {"12.9", "10.9"} and (wanted.metal and wanted.metal.name != metal.name):
        words = "harder steel notches and breaks sooner where it bends: never plate it at home"
        lines.append(line("metal", Enough.MIND, words, "", metal.source_id))
    return tuple(lines)


def _newton_metres(torque_nm: float) -> str:
    return f"{torque_nm:.0f}" if torque_nm >= 10.0 else f"{torque_nm:.1f}"


def torque_line(offered: Fixing, wanted: Fixing, duty: Duty) -> StandInLine | None:
    """Say the torque and clamp of a bolt that is tightened; None where none is."""
    area, size, metal = offered.stress_area_m2, offered.diameter_m, offered.metal
    if wanted.kind == "pin" or area is None or size is None or metal is None or duty.turns:
        return None
    pull = SHARE_OF_PROOF * fixings.proof_load(area, metal.proof_pa)
    stress = f"{metal.proof_pa / 1e6:.0f} MPa x {area * 1e6:.1f} mm\u00b2"
    clamp = f"{SHARE_OF_PROOF:g} x {stress} = {pull / 1000:.1f} kN"
    if duty.seat in OWN_FIGURE:
        sum_, words = clamp, OWN_FIGURE[duty.seat]
    else:
        dry, oiled = (fixings.tightening_torque(k, size, pull) for k in (DRY, OILED))
        sum_ = (
            f"T = K d F: {clamp}; {_newton_metres(dry)} N m dry (K {DRY:g}), "
            f"{_newton_metres(oiled)} oiled (K {OILED:g}); "
            f"clamp within {SCATTER:.0%} either way"
        )
        words = "the car's own figure first; this is the usual one"
    state = Enough.MIND
    if wanted.metal is not None and wanted.stress_area_m2 is not None:
        needed = SHARE_OF_PROOF * fixings.proof_load(wanted.stress_area_m2, wanted.metal.proof_pa)
        if pull < needed * (1.0 - 1e-9):
            only_trim = duty.load_path is LoadPath.BODY and pull >= SHARE_BODY * needed
            state = Enough.MIND if only_trim else Enough.NOT_ENOUGH
            words = f"it clamps {pull / needed:.0%} of what the right one does"
        elif pull > needed * 1.02:
            words = f"to the right one's torque, not its own: made for {needed / 1e3:.1f} kN"
    return line("torque", state, words, sum_, "torque-tkdf")


def path_line(duty: Duty | None) -> StandInLine | None:
    """Say what the load path forbids; None where it forbids nothing."""
    if duty is None or duty.load_path is None:
        words = "nobody said what is relied on it: until then nothing may stand in"
        return line("load path", Enough.NOT_KNOWN, words)
    if duty.load_path in {LoadPath.PEDAL, LoadPath.STEERING, LoadPath.CALIPER}:
        words = f"{duty.load_path.value}: nothing is ever fitted there for the time being"
        return line("load path", Enough.MIND, words)
    return None
