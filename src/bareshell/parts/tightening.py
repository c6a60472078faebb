"""What a bolt may be tightened to, reckoned from its thread, its grade and what is on it.

Torque to three quarters of proof load by the short form T = K d F, with K as a range. It is a
figure to hold another against: the vehicle's own always comes first. Where something is not known
it is asked for and nothing is reckoned; a seat that is soft, tapered or a cone keeps the figure of
the fitting itself, since no thread tells it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bareshell.calc import fixings
from bareshell.calc.nut_factors import NUT_FACTORS, SHARE_OF_PROOF, NutFactor
from bareshell.model.duty import Duty, Lubrication, Seat
from bareshell.model.spec import BoltSpec
from bareshell.parts.stand_in_parts import Fixing, fixing_of
from bareshell.sources import source
from bareshell.units import show_torque
from bareshell.units.show import IMPERIAL

__all__ = ["Torque", "newton_metres", "tightening", "wrench_for"]

OWN_FIGURE: Final = {
    Seat.TAPER: "a taper is drawn home, not stretched by a share of proof: the joint's own figure, "
    "taper clean and dry",
    Seat.GASKET: "a gasket or soft mount gives way before the bolt does: the maker's own figure, "
    "in its order",
    Seat.BEARING: "it sets a bearing or clamps a hub on its shaft: the maker's own figure, then "
    "its end float or its lock",
    Seat.WASHER: "a banjo or soft washer crushes, and a hollow bolt shears early: the fitting's "
    "own figure",
    Seat.UNION: "a union seals on its seat and splits when it is forced: the fitting's own figure, "
    "by its thread and pipe",
}
"""Seats whose torque no thread tells, and why [S:trade-practice]."""

MIND: Final = {
    Seat.RUBBER: "nip it, and torque it only at ride height with the wheels loaded: hanging, the "
    "rubber is wound up for life",
    Seat.WHEEL: "a cone or ball seat eats torque of its own, and its studs are never oiled: the "
    "wheel's own figure goes first, by hand, in sequence, again after 50 miles",
    Seat.PINCH: "a clamp must close on what it grips before any of it is pull: see that the gap "
    "stays open",
}
"""Seats whose torque is reckoned and held with caution [S:trade-practice]."""

_SELF_LOCKING: Final = ("nyloc", "nylon", "self", "distorted", "stiff")


@dataclass(frozen=True, slots=True)
class Torque:
    """What a bolt may be tightened to, and what it was reckoned from.

    Parameters
    ----------
    low_nm, usual_nm, high_nm : float or None
        To ``SHARE_OF_PROOF`` of its proof load, at the least, usual and greatest nut factor; None
        when it is not reckoned. [N.m]
    proof_nm : float or None
        At which it reaches its proof load, at the usual factor. [N.m]
    proof_load_n : float or None
        Its proof load. [N]
    inputs : tuple of (str, str)
        What it was reckoned from, each with its figure.
    arithmetic : str
        The sum with its figures.
    sources : tuple of str
        Where they are from.
    ask : tuple of str
        What must be found out first, or would sharpen it.
    mind : tuple of str
        What to beware of.
    lubrication : str
        What is on its thread and what that does to its torque; empty when nobody said.
    """

    low_nm: float | None = None
    usual_nm: float | None = None
    high_nm: float | None = None
    proof_nm: float | None = None
    proof_load_n: float | None = None
    inputs: tuple[tuple[str, str], ...] = ()
    arithmetic: str = ""
    sources: tuple[str, ...] = ()
    ask: tuple[str, ...] = ()
    mind: tuple[str, ...] = ()
    lubrication: str = ""

    @property
    def words(self) -> str:
        """The figure with its range, or that there is none."""
        if self.low_nm is None or self.usual_nm is None or self.high_nm is None:
            return ""
        return (
            f"{newton_metres(self.usual_nm)}; {self.low_nm:.3g} to {self.high_nm:.3g} N.m "
            "by its friction"
        )

    def beside(
        self, low_nm: float | None, high_nm: float | None, how: str = "given"
    ) -> tuple[str, ...]:
        """Say where a figure stands beside the reckoned one; nothing when they agree.

        Parameters
        ----------
        low_nm, high_nm : float or None
            Its bounds. [N.m]
        how : str
            ``given``, or ``read`` on the wrench.

        Examples
        --------
        >>> duty = Duty(seat=Seat.FIRM, lubrication=Lubrication.OILED)
        >>> found = tightening(BoltSpec(thread="M8", grade="8.8"), duty)
        >>> found.beside(18, 22), len(found.beside(70, 75)), len(found.beside(5, 6))
        ((), 2, 1)
        """
        bounds = [one for one in (low_nm, high_nm) if one is not None]
        if self.low_nm is None or self.high_nm is None or self.proof_nm is None or not bounds:
            return ()
        figure = " to ".join(f"{one:.3g}" for one in dict.fromkeys(bounds)) + " N.m"
        called = f"The given {figure}" if how == "given" else f"The {figure} read"
        span = f"the computed {self.low_nm:.3g} to {self.high_nm:.3g} N.m"
        said = []
        if min(bounds) > self.high_nm:
            said.append(f"{called} stands above {span}. {_OUTRANKS}")
        elif max(bounds) < self.low_nm:
            why = "a soft seat, thin metal or a small load may be why"
            said.append(f"{called} stands below {span}: {why}. {_OUTRANKS}")
        if max(bounds) > self.proof_nm:
            said.append(
                f"{called} is above the {self.proof_nm:.3g} N.m at which this bolt reaches its "
                "proof load: see whether thread, grade and lubrication are written down right."
            )
        return tuple(said)


_OUTRANKS: Final = (
    "A figure of the vehicle's own data outranks the computed one: read it there once more."
)


def newton_metres(torque_nm: float) -> str:
    """Say a torque both ways, as wrenches are marked.

    Examples
    --------
    >>> newton_metres(37.9)
    '37.9 N.m (28 lbf.ft)'
    """
    return f"{show_torque(torque_nm)} ({show_torque(torque_nm, IMPERIAL)})"


def wrench_for(torque_nm: float) -> str:
    """Say which torque wrench reads a figure in its upper part, where it reads best.

    Common practice, no source: the figure between half and nine tenths of the scale.

    Examples
    --------
    >>> wrench_for(22.0)
    'a wrench whose scale ends between 25 and 44 N.m'
    """
    least, most = torque_nm / 0.9, torque_nm / 0.5
    step = 1 if least < 60 else 5
    ends = (-(-least // step) * step, most // step * step)
    return f"a wrench whose scale ends between {ends[0]:.0f} and {ends[1]:.0f} N.m"


def tightening(spec: BoltSpec, duty: Duty | None) -> Torque:
    """Reckon what a bolt may be tightened to.

    [S:torque-tkdf]

    Parameters
    ----------
    spec : BoltSpec
        The bolt.
    duty : Duty or None
        What it draws together and what is on its thread; None when nobody said.

    Examples
    --------
    >>> duty = Duty(seat=Seat.FIRM, lubrication=Lubrication.DRY)
    >>> tightening(BoltSpec(thread="M10", grade="8.8"), duty).words
    '50.5 N.m (37.2 lbf.ft); 45.4 to 68.1 N.m by its friction'
    >>> tightening(BoltSpec(thread="M10"), duty).ask
    ('grade not known: read the head marks',)
    """
    said = duty or Duty()
    if said.seat in OWN_FIGURE:
        return Torque(ask=("the fitting's own figure",), mind=(OWN_FIGURE[said.seat],))
    fixing = fixing_of(spec)
    mind = _minded(spec, said)
    if fixing is None:
        return Torque()
    ask = _asked(spec, fixing, said)
    factor = NUT_FACTORS[said.lubrication.value] if said.lubrication else None
    lubrication = f"{said.lubrication}: {factor.what_it_does}" if factor else ""
    if ask or factor is None or fixing.metal is None:
        return Torque(ask=(*ask, *_asked_too(said)), mind=mind, lubrication=lubrication)
    if said.seat is None:
        mind = (*mind, "nobody said what it draws together: reckoned as firm metal faces")
    return _reckoned(fixing, said, factor, mind, lubrication)


def _asked_too(duty: Duty) -> tuple[str, ...]:
    return () if duty.seat else ("seat not known: say what it draws together",)


def _asked(spec: BoltSpec, fixing: Fixing, duty: Duty) -> tuple[str, ...]:
    ask = []
    if spec.thread is None:
        ask.append("thread not known: measure diameter and pitch")
    elif fixing.stress_area_m2 is None:
        ask.append(f"thread '{spec.thread}' has no stress area here: write it as M8x1.25")
    if fixing.nut:
        ask.append("a nut goes by its bolt or stud: write down the grade of that one")
    elif not fixing.said:
        ask.append("grade not known: read the head marks")
    elif _metric(fixing) and fixing.metal is not None and fixing.metal.name.startswith("grade"):
        ask.append(
            f"grade '{fixing.said}' on a metric thread is the class of a nut, not of a bolt: read "
            "the head marks, such as 8.8"
        )
    elif fixing.metal is None:
        ask.append(f"grade '{fixing.said}' promises nothing: read the head marks")
    if duty.lubrication is None:
        ask.append("lubrication not known: say dry, oiled or what is on the thread")
    elif fixing.metal is not None and fixing.metal.stainless and duty.lubrication in _DRY:
        ask.append("stainless that runs dry galls: grease it and say with what")
    return tuple(ask)


def _metric(fixing: Fixing) -> bool:
    return fixing.thread is not None and fixing.thread.system == "metric"


_DRY: Final = frozenset({Lubrication.DRY, Lubrication.ZINC})


def _minded(spec: BoltSpec, duty: Duty) -> tuple[str, ...]:
    mind = [MIND[duty.seat]] if duty.seat in MIND else []
    lock = (spec.lock or "").casefold()
    if any(word in lock for word in _SELF_LOCKING):
        mind.append("a self-locking nut drags before it clamps: read its drag and add it")
    if (spec.finish or "").casefold().startswith("zinc") and duty.lubrication is Lubrication.DRY:
        mind.append("its finish is zinc and it is said to be plain: say which it is")
    return tuple(mind)


def _reckoned(
    fixing: Fixing, duty: Duty, factor: NutFactor, mind: tuple[str, ...], lubrication: str
) -> Torque:
    size = fixing.thread.diameter_m if fixing.thread else 0.0
    area, metal = fixing.stress_area_m2 or 0.0, fixing.metal
    proof_pa = metal.proof_pa if metal else 0.0
    load = fixings.proof_load(area, proof_pa)
    pull = SHARE_OF_PROOF * load
    low, usual, high = (
        fixings.tightening_torque(k, size, pull) for k in (factor.low, factor.usual, factor.high)
    )
    sum_ = (
        f"F = {SHARE_OF_PROOF:g} x {proof_pa / 1e6:.0f} MPa x {area * 1e6:.1f} mm\u00b2 = "
        f"{pull / 1000:.1f} kN; T = K d F = {factor.usual:g} x {size * 1000:.4g} mm x "
        f"{pull / 1000:.1f} kN = {usual:.3g} N.m"
    )
    slippery = fixings.tightening_torque(factor.low, size, load)
    doubt = (
        f"the range is doubt, not room: on the slipperiest thread found {slippery:.3g} N.m "
        "already brings it to its proof load"
    )
    ids = ("torque-tkdf", metal.source_id if metal else "", factor.source_id)
    return Torque(
        low,
        usual,
        high,
        fixings.tightening_torque(factor.usual, size, load),
        load,
        (
            ("thread", str(fixing.thread)),
            ("grade", metal.name.removeprefix("grade ") if metal else ""),
            ("on the thread", duty.lubrication.value if duty.lubrication else ""),
            ("K", f"{factor.usual:g}, found between {factor.low:g} and {factor.high:g}"),
            ("share of proof load", f"{SHARE_OF_PROOF:g} of {load / 1000:.1f} kN"),
        ),
        sum_,
        tuple(source(each).cite() for each in ids if each),
        (),
        (*mind, doubt),
        lubrication,
    )
