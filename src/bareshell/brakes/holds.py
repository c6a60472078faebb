"""Pressure holds, from a breath to a hard push: dry joints are the proof, the gauge is context.

A closed line full of fluid gains or loses pressure as it warms or cools: a rigid one several bar
for each degree, one with hoses and calipers far less. So what a gauge may shift is worked out from
the fluid's growth against what the circuit gives, with its range; a gauge that stayed put proves
nothing by itself, and one that moved condemns nothing by itself. Every joint is wiped, looked at
and felt.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final, Literal

from bareshell.brakes.flow import Flow
from bareshell.brakes.measured import of_kind
from bareshell.brakes.prepared import Prepared
from bareshell.calc import fluid
from bareshell.errors import BadInput, NotFound
from bareshell.model.brake import BrakeReading, PartKind, ReadingKind
from bareshell.sources import Mark

__all__ = [
    "CAUTIONS",
    "HOLD_STEPS",
    "Closed",
    "HoldJudged",
    "HoldStep",
    "Seen",
    "Shift",
    "allowed_shift",
    "closed_circuit",
    "judged",
    "judged_reading",
    "steps_for",
]

Seen = Literal["dry", "wet", "not looked at"]
"""What a joint was seen to be."""

CAUTIONS: Final = (
    (
        "Fluid under pressure goes through skin and into eyes: goggles on, face and fingers away, "
        "a sheet of paper to find the leak. Release the pressure before any nut is touched."
    ),
    (
        "A propped pedal is a loaded spring. Nobody leans in, the prop cannot slip, and it comes "
        "off before the car is left unless it is the overnight hold."
    ),
    (
        "Never hold harder than a foot can press: joints, hoses and cups are made for that and "
        "the test shall not be what hurts them."
    ),
)
"""What stands beside every hold."""


@dataclass(frozen=True, slots=True)
class HoldStep:
    """One hold of a graded series.

    Parameters
    ----------
    id, words : str
        Short name, and what is done.
    pressure_pa : float
        What to hold. [Pa]
    minutes : float
        For how long. [min]
    look : str
        What to look at.
    mark : str
        How it is known.
    """

    id: str
    words: str
    pressure_pa: float
    minutes: float
    look: str
    mark: Mark = "common practice, no source"


HOLD_STEPS: Final = (
    HoldStep(
        "breath",
        "pressure bleeder at the reservoir",
        0.7e5,
        10.0,
        "reservoir, its grommets and every joint below it; cups are not tried by this",
        "read second-hand",
    ),
    HoldStep("light", "a light foot, held", 10e5, 5.0, "every joint, wiped dry first"),
    HoldStep("firm", "a firm foot, held", 35e5, 5.0, "every joint, bleed screw and cup"),
    HoldStep(
        "hard",
        "as hard as the brakes will ever be pressed, held",
        80e5,
        2.0,
        "hoses for a bulge, every joint again, the push rod for fluid behind the cups",
    ),
    HoldStep(
        "overnight",
        "a light foot propped, over night",
        10e5,
        720.0,
        "every joint and the floor beneath in the morning; then bleed again",
    ),
)
"""A graded series of holds. At the reservoir no more than 1 bar is put [S:bleeding-manuals]."""


def steps_for(most_pressure_pa: float | None) -> tuple[HoldStep, ...]:
    """Return the steps that these brakes may be held at, none harder than a foot presses them.

    Parameters
    ----------
    most_pressure_pa : float or None
        The highest pressure that the foot makes, from the solve; None when it is not known, and
        then the hard step is left out. [Pa]

    Examples
    --------
    >>> [round(step.pressure_pa / 1e5) for step in steps_for(62e5)]
    [1, 10, 35, 62, 10]
    """
    found = []
    for step in HOLD_STEPS:
        if most_pressure_pa is None:
            if step.id != "hard":
                found.append(step)
        else:
            found.append(replace(step, pressure_pa=min(step.pressure_pa, most_pressure_pa)))
    return tuple(found)


# ------------------------------------------------------------------------ what the gauge may do


@dataclass(frozen=True, slots=True)
class Closed:
    """A circuit shut in: the fluid in it, and what it gives, each as least and most.

    Parameters
    ----------
    base : str
        Base of the fluid: ``glycol``, ``silicone`` or ``mineral``.
    fluid_m3 : tuple of float
        Fluid shut in. [m3]
    compliance_m3_pa : tuple of float
        What pipes, hoses, calipers and shoes take for each pascal at that pressure. [m3/Pa]
    temperature_c : float
        Of the fluid. [degC]
    """

    base: str
    fluid_m3: tuple[float, float]
    compliance_m3_pa: tuple[float, float]
    temperature_c: float = 20.0


@dataclass(frozen=True, slots=True)
class Shift:
    """What the gauge may shift, least and most, in pascals; below zero it falls."""

    low_pa: float
    high_pa: float

    def words(self) -> str:
        """Say it in bar."""
        return f"{_bar(self.low_pa)} to {_bar(self.high_pa)} bar"


_CONTAINER_PER_K: Final = (3.0e-5, 7.0e-5)
"""Growth of the space: three times that of steel to that of iron and aluminium (from memory)."""
_THERMOMETER_K: Final = 1.0


def closed_circuit(
    prepared: Prepared, circuit_id: str, pressure_pa: float, base: str = "glycol"
) -> Closed:
    """Take a circuit's fluid and give from the system as it was entered.

    Parameters
    ----------
    prepared : Prepared
        The system with its figures, or with samples of them.
    circuit_id : str
        Such as ``master-primary``.
    pressure_pa : float
        What is held: hoses are stiffer the harder they are pressed. [Pa]
    base : str
        Base of the fluid.

    Returns
    -------
    Closed
        Least and most over the samples; what a shut valve cuts off is not in it.

    Raises
    ------
    NotFound
        When there is no such circuit.
    BadInput
        When figures that the pedal's travel needs are missing.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.prepared import prepare
    >>> car = small_car()
    >>> ready = prepare(car, gather(car).figures)
    >>> shut = closed_circuit(ready, "master-primary", 10e5)
    >>> round(shut.fluid_m3[0] * 1e6)
    97
    """
    import numpy as np

    prepared.ask("travel")
    topology = prepared.topology()
    if circuit_id not in topology.circuits:
        raise NotFound(
            f"there is no circuit '{circuit_id}'", f"known are {', '.join(topology.circuits)}"
        )
    flow = Flow(topology.circuits[circuit_id], topology, prepared.elements, travel=True)
    step = 0.02 * pressure_pa
    above = flow.pieces(np.float64(pressure_pa + step))
    below = flow.pieces(np.float64(pressure_pa - step))
    slopes = {key: np.ravel((above[key] - below[key]) / (2.0 * step)) for key in above}
    fluids = prepared.system.of_kind(PartKind.FLUID)
    modulus = np.ravel(prepared.figured(fluids[0].id, "bulk_modulus_pa"))
    volume = slopes.pop("fluid") * modulus
    gives = sum(slopes.values(), start=np.zeros(1))
    temperature = float(np.ravel(prepared.figured(fluids[0].id, "temperature_c"))[0])
    return Closed(
        base,
        (float(volume.min()), float(volume.max())),
        (float(gives.min()), float(gives.max())),
        temperature,
    )


def allowed_shift(closed: Closed, warmer_k: float, *, unsure_k: float = _THERMOMETER_K) -> Shift:
    """Say what a gauge may shift as a closed circuit warms or cools.

    Parameters
    ----------
    closed : Closed
        The circuit.
    warmer_k : float
        How much warmer it was at the end; below zero for colder. [K]
    unsure_k : float
        How far that may be off: a thermometer hangs in the air, not in the fluid. [K]

    Returns
    -------
    Shift
        Least and most that volumes and stiffnesses allow.

    Raises
    ------
    BadInput
        When the base is not known, or nothing is shut in.

    Examples
    --------
    >>> rigid = Closed("glycol", (1e-4, 1e-4), (0.0, 0.0))
    >>> allowed_shift(rigid, 1.0, unsure_k=0.0).words()
    '+12.4 to +19.4 bar'
    >>> with_hoses = Closed("glycol", (6e-5, 6e-5), (3e-13, 3e-13))
    >>> allowed_shift(with_hoses, -5.0, unsure_k=0.0).words()
    '-8.8 to -6.5 bar'
    """
    if closed.base not in fluid.FLUID_EXPANSIONS:
        raise BadInput(
            "base of the fluid",
            f"'{closed.base}' is none",
            f"known are {', '.join(fluid.FLUID_EXPANSIONS)}",
        )
    modulus = fluid.bulk_modulus_span(closed.temperature_c, closed.base)
    grows = fluid.FLUID_EXPANSIONS[closed.base]

    def for_a_kelvin(way: int) -> float:
        """Least (0) or most (1): much fluid that grows much and gives little shifts most."""
        other = 1 - way
        return fluid.closed_line_pressure_change(
            1.0,
            closed.fluid_m3[way],
            grows[way],
            _CONTAINER_PER_K[other],
            (modulus.low_pa, modulus.high_pa)[way],
            closed.compliance_m3_pa[other],
        )

    least, most = for_a_kelvin(0), for_a_kelvin(1)
    ends = [
        each * rate for each in (warmer_k - unsure_k, warmer_k + unsure_k) for rate in (least, most)
    ]
    return Shift(min(ends), max(ends))


# ------------------------------------------------------------------------ judging a hold


@dataclass(frozen=True, slots=True)
class HoldJudged:
    """A hold as it ended.

    Parameters
    ----------
    state : {"held", "failed", "not proven"}
        By the joints alone.
    words : str
        What the joints say.
    wet, unseen : tuple of str
        Joints that were wet, and those that nobody looked at.
    shift_pa : float or None
        What the gauge did; None when it was not read. [Pa]
    allowed : Shift or None
        What it may do for the change of temperature; None when that was not read.
    gauge : str
        What the gauge says, as context.
    """

    state: Literal["held", "failed", "not proven"]
    words: str
    wet: tuple[str, ...]
    unseen: tuple[str, ...]
    shift_pa: float | None
    allowed: Shift | None
    gauge: str


_CAUSES: Final = (
    "a joint that nobody looked at, a cup that lets fluid past inside, a valve's seat, a prop that "
    "gave way, or air that dissolved"
)


def judged(
    joints: Mapping[str, Seen],
    *,
    closed: Closed | None = None,
    began_pa: float | None = None,
    ended_pa: float | None = None,
    began_c: float | None = None,
    ended_c: float | None = None,
) -> HoldJudged:
    """Judge a hold: by its joints, with the gauge as context.

    Parameters
    ----------
    joints : mapping of str to {"dry", "wet", "not looked at"}
        What each joint of the circuit was seen to be.
    closed : Closed, optional
        The circuit shut in, to say what the gauge may have done.
    began_pa, ended_pa : float, optional
        The gauge, before and after. [Pa]
    began_c, ended_c : float, optional
        Temperature, before and after. [degC]

    Examples
    --------
    >>> closed = Closed("glycol", (6e-5, 6e-5), (3e-13, 3e-13))
    >>> ended = judged({"a": "dry", "b": "dry"}, closed=closed, began_pa=20e5, ended_pa=12e5,
    ...                began_c=18.0, ended_c=13.0)
    >>> ended.state, ended.gauge
    ('held', 'The gauge moved by -8.0 bar, which the change of temperature explains (-10.5 to \
-5.2 bar).')
    >>> judged({"a": "dry", "b": "not looked at"}).state
    'not proven'
    """
    wet = tuple(name for name, seen in joints.items() if seen == "wet")
    unseen = tuple(name for name, seen in joints.items() if seen == "not looked at")
    shift = None if began_pa is None or ended_pa is None else ended_pa - began_pa
    allowed = None
    if closed is not None and began_c is not None and ended_c is not None:
        allowed = allowed_shift(closed, ended_c - began_c)
        if began_pa is not None:  # it cannot fall below the air's
            allowed = Shift(max(allowed.low_pa, -began_pa), max(allowed.high_pa, -began_pa))
    gauge = _gauge(shift, allowed)
    if wet:
        words = f"Wet at {', '.join(wet)}: release the pressure, put it right, hold again."
        return HoldJudged("failed", words, wet, unseen, shift, allowed, gauge)
    if unseen or not joints:
        named = ", ".join(unseen) or "any joint"
        words = f"Nobody looked at {named}: a gauge alone proves no joint."
        return HoldJudged("not proven", words, wet, unseen, shift, allowed, gauge)
    return HoldJudged("held", "Every joint was dry.", wet, unseen, shift, allowed, gauge)


def _gauge(shift: float | None, allowed: Shift | None) -> str:
    if shift is None:
        return "The gauge was not read."
    moved = f"The gauge moved by {_bar(shift)} bar"
    if allowed is None:
        return f"{moved}; without both temperatures nothing can be said of that."
    span = f"({allowed.words()})"
    if shift < allowed.low_pa:
        return f"{moved}, which is more than cooling explains {span}: look for {_CAUSES}."
    if shift > allowed.high_pa:
        return (
            f"{moved}, more than warming explains {span}: look whether pedal or prop was pressed "
            "further, and whether a port is shut that should be open."
        )
    return f"{moved}, which the change of temperature explains {span}."


def judged_reading(
    reading: BrakeReading, joints: Mapping[str, Seen], closed: Closed | None = None
) -> HoldJudged:
    """Judge a hold as it was kept; joints that were not named one by one count as it says of all.

    Parameters
    ----------
    reading : BrakeReading
        Of kind ``pressure hold``.
    joints : mapping of str to {"dry", "wet", "not looked at"}
        Every joint of the circuit, with what was seen of it.
    closed : Closed, optional
        The circuit shut in.

    Raises
    ------
    BadInput
        When the reading is of another kind.
    """
    of_kind(reading, ReadingKind.HOLD)
    seen = dict(joints)
    if reading.choices.get("joints") == "all dry":
        seen = {name: "dry" if each == "not looked at" else each for name, each in seen.items()}
    figures = reading.figures
    return judged(
        seen,
        closed=closed,
        began_pa=figures.get("first_pressure_pa"),
        ended_pa=figures.get("last_pressure_pa"),
        began_c=figures.get("first_temperature_c"),
        ended_c=figures.get("last_temperature_c"),
    )


def _bar(pressure_pa: float) -> str:
    return f"{pressure_pa / 1e5:+.1f}"
