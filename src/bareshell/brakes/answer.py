"""What the solve answers: from foot to road, and where the pedal's travel goes.

Every number may be a float or an array. With figures of shape (n,) and pedal forces of shape (m,)
the numbers have shape (n, m); with floats for both they are floats.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, TypeAlias

from bareshell.brakes.figures import Missing
from bareshell.brakes.state import State
from bareshell.calc.values import Value
from bareshell.model.brake import Wheel

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = [
    "Answer",
    "ForceFor",
    "Limited",
    "Load",
    "LockOrder",
    "Piece",
    "SidePull",
    "TravelBudget",
    "Truth",
]

Load: TypeAlias = Literal["driver only", "laden"]
"""How the car is loaded."""

Truth: TypeAlias = "bool | NDArray[np.bool_]"
"""True or false, for one car or for many."""


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of the pedal's travel.

    Parameters
    ----------
    key : str
        Short, the same in every system: ``free play``, ``pad clearance``, ``hoses`` ...
    words : str
        What it is, to a person.
    circuit : str
        The circuit it belongs to (``master-primary``); empty for what is before the cylinders.
    volume_m3 : float or array
        Fluid that it takes; 0 for what takes none. [m3]
    length_m : float or array
        What it costs at the pedal pad. [m]
    """

    key: str
    words: str
    circuit: str
    volume_m3: Value
    length_m: Value


@dataclass(frozen=True, slots=True)
class TravelBudget:
    """Where the pedal's travel goes; the pieces add up to the total.

    Parameters
    ----------
    pieces : tuple of Piece
        From the foot to the wheels, circuit by circuit.
    total_m : float or array
        Travel at the pad. [m]
    floor_m : float or array
        Travel that there is. [m]
    reserve : float or array
        Share of it that is left. [-]
    on_floor : bool or array
        True where the pedal stands on the floor, so that a firmer push does nothing more.
    on_stop : bool or array
        True where some piston stands at the end of its bore, or on the piston ahead of it.
    strokes_m : mapping of str to float or array
        Stroke of each piston, by circuit. [m]
    """

    pieces: tuple[Piece, ...]
    total_m: Value
    floor_m: Value
    reserve: Value
    on_floor: Truth
    on_stop: Truth
    strokes_m: Mapping[str, Value]


@dataclass(frozen=True, slots=True)
class Answer:
    """What a push of the foot does.

    Parameters
    ----------
    pedal_force_n : float or array
        Force of the foot. [N]
    load : {"driver only", "laden"}
        How the car is loaded.
    state : State
        What has gone wrong.
    effective_force_n : float or array
        What of that force is used: less than all of it once the pedal stands on the floor. [N]
    push_rod_n : float or array
        Force of the push rod behind the pedal. [N]
    master_push_n : mapping of str to float or array
        Force on each master cylinder, behind servo and balance bar, by part. [N]
    circuit_pressure_pa : mapping of str to float or array
        Pressure in each master chamber, by circuit (``master-primary``). [Pa]
    chamber_pressure_pa : mapping of (str, str) to float or array
        Pressure in each chamber of a caliper, wheel cylinder, valve or remote servo. [Pa]
    pressure_pa : mapping of Wheel to float or array
        The highest pressure at each wheel. [Pa]
    wheel_torque_nm : mapping of Wheel to float or array
        Torque of each wheel's brake. [N.m]
    wheel_force_n : mapping of Wheel to float or array
        The same at the road, as if the tyres never slid. [N]
    front_force_n, rear_force_n : float or array
        Force of each axle at the road, as if the tyres never slid. [N]
    deceleration_m_s2, deceleration_g : float or array
        Deceleration that these make, as if the tyres never slid. [m/s2, -]
    front_adhesion_used, rear_adhesion_used : float or array
        Brake force of each axle over what it carries then. [-]
    front_share : float or array
        Front brake force over all of it; 1 while there is none. [-]
    servo_run_out : bool or array
        True where a servo gives all it has.
    shuttles : mapping of str to float or array
        Where each warning shuttle stands: 1 towards its rear side, -1 its front, 0 in the middle.
    travel : TravelBudget or None
        None when it could not be worked out; `not_worked_out` says what it needs.
    """

    pedal_force_n: Value
    load: Load
    state: State
    effective_force_n: Value
    push_rod_n: Value
    master_push_n: Mapping[str, Value]
    circuit_pressure_pa: Mapping[str, Value]
    chamber_pressure_pa: Mapping[tuple[str, str], Value]
    pressure_pa: Mapping[Wheel, Value]
    wheel_torque_nm: Mapping[Wheel, Value]
    wheel_force_n: Mapping[Wheel, Value]
    front_force_n: Value
    rear_force_n: Value
    deceleration_m_s2: Value
    deceleration_g: Value
    front_adhesion_used: Value
    rear_adhesion_used: Value
    front_share: Value
    servo_run_out: Truth
    shuttles: Mapping[str, Value]
    travel: TravelBudget | None
    not_worked_out: tuple[Missing, ...] = ()


@dataclass(frozen=True, slots=True)
class Limited:
    """The same push on a road that offers only so much adhesion.

    Parameters
    ----------
    friction_of_road : float or array
        What the road offers. [-]
    deceleration_g, deceleration_m_s2 : float or array
        What is reached, wheels that lock included. [-, m/s2]
    wheel_force_n : mapping of Wheel to float or array
        Force of each wheel at the road. [N]
    locked : mapping of Wheel to bool or array
        The wheels that lock.
    """

    friction_of_road: Value
    deceleration_g: Value
    deceleration_m_s2: Value
    wheel_force_n: Mapping[Wheel, Value]
    locked: Mapping[Wheel, Truth]


@dataclass(frozen=True, slots=True)
class LockOrder:
    """Which axle locks first on a road, at what push, and what the car reaches.

    Parameters
    ----------
    friction_of_road : float or array
        What the road offers. [-]
    front_g, rear_g : float or array
        Deceleration at which that axle locks, the other still rolling or locked already; endless
        when no push makes it lock. [-]
    front_force_n, rear_force_n : float or array
        Force of the foot then; endless likewise. [N]
    first : str or array of str
        ``front``, ``rear``, ``both`` or ``neither``.
    before_lock_g : float or array
        The most the car reaches with no wheel locked. [-]
    before_lock_force_n : float or array
        Force of the foot for that. [N]
    use_of_adhesion : float or array
        That deceleration over the road's adhesion. [-]
    """

    friction_of_road: Value
    front_g: Value
    rear_g: Value
    front_force_n: Value
    rear_force_n: Value
    first: str | NDArray[np.str_]
    before_lock_g: Value
    before_lock_force_n: Value
    use_of_adhesion: Value


@dataclass(frozen=True, slots=True)
class ForceFor:
    """Force of the foot for a deceleration.

    Parameters
    ----------
    deceleration_m_s2 : float or array
        What was asked for. [m/s2]
    pedal_force_n : float or array
        Not a number where no push reaches it. [N]
    reached : bool or array
        False where no push reaches it.
    most_m_s2 : float or array
        The most that any push reaches, as if the tyres never slid. [m/s2]
    because : str
        Why it is not reached, in words; empty when it always is.
    adhesion_asked : float or array
        Adhesion that the road must offer for it. [-]
    """

    deceleration_m_s2: Value
    pedal_force_n: Value
    reached: Truth
    most_m_s2: Value
    because: str
    adhesion_asked: Value


@dataclass(frozen=True, slots=True)
class SidePull:
    """How unevenly the car is braked.

    Parameters
    ----------
    yaw_moment_nm : float or array
        Turning moment on the car; above zero it turns to the left. [N.m]
    steering_moment_nm : float or array or None
        Moment about the steering axes; above zero it steers to the left. None when the scrub
        radius is not known. [N.m]
    front_left_share : float or array
        Left front brake force over that of both front wheels; 0.5 while there is none. [-]
    words : str
        What the driver will feel, for the first of many.
    """

    yaw_moment_nm: Value
    steering_moment_nm: Value | None
    front_left_share: Value
    words: str
