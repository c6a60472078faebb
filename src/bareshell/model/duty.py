"""What a fixing is relied on for: its load path, its joint, how it is tightened, and from when."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class LoadPath(StrEnum):
    """What gives way when the fixing does."""

    PEDAL = "pedal"
    STEERING = "steering"
    CALIPER = "caliper"
    HANDBRAKE = "handbrake"
    SUSPENSION = "suspension"
    WHEEL = "wheel"
    BELT = "seat or belt"
    DRIVE = "engine, gearbox or drive"
    FUEL = "fuel or brake line"
    WIRING = "wiring or lamp"
    CATCH = "door, bonnet or boot"
    BODY = "bracket, body or trim"


class Lubrication(StrEnum):
    """What is on the threads and under the head when it is tightened."""

    DRY = "dry and plain"
    ZINC = "dry and zinc plated"
    PHOSPHATED = "phosphated and oiled"
    OILED = "oiled"
    MOLYBDENUM = "molybdenum paste"
    COPPER = "copper grease or anti-seize"


class Seat(StrEnum):
    """What it draws together, which decides whether its torque can be reckoned from its thread."""

    FIRM = "firm metal faces"
    RUBBER = "a rubber-bushed pivot"
    WHEEL = "a wheel on its seats"
    PINCH = "a pinched clamp"
    TAPER = "a taper"
    BEARING = "a bearing or hub"
    GASKET = "a gasket or a soft mount"
    WASHER = "a banjo or soft washer"
    UNION = "a union or brake fitting"


NO_STAND_IN = frozenset({LoadPath.PEDAL, LoadPath.STEERING, LoadPath.CALIPER})
"""Load paths in which nothing is ever fitted for the time being."""

NO_STAINLESS = frozenset(
    {
        LoadPath.PEDAL,
        LoadPath.STEERING,
        LoadPath.CALIPER,
        LoadPath.HANDBRAKE,
        LoadPath.SUSPENSION,
        LoadPath.WHEEL,
        LoadPath.BELT,
    }
)
"""Load paths in which stainless steel never takes the place of graded steel."""


@dataclass(frozen=True, slots=True)
class Duty:
    """What a need is relied on for; every field may be unknown, and unknown is never harmless.

    Parameters
    ----------
    load_path : LoadPath or None
        What gives way when it does; None when nobody said.
    gate : str
        The gate before which it must be the right thing; empty for the usual one of its path.
    load_n : float or None
        Greatest load across it. [N]
    shear_planes : int or None
        1 when the load cuts it once, 2 in a fork.
    fork_ply_m, eye_ply_m, side_gap_m : float or None
        Thickness of the ply that holds it (each side of a fork), of the ply that pulls, and the
        gap between them. [m]
    hole_m : float or None
        The hole it goes in. [m]
    turns : bool or None
        Whether something turns or slides on it.
    seat : Seat or None
        What it draws together.
    lubrication : Lubrication or None
        What is on its threads when it is tightened.

    Examples
    --------
    >>> Duty(LoadPath.HANDBRAKE, load_n=1500.0, shear_planes=2).load_path.value
    'handbrake'
    """

    load_path: LoadPath | None = None
    gate: str = ""
    load_n: float | None = None
    shear_planes: int | None = None
    fork_ply_m: float | None = None
    eye_ply_m: float | None = None
    side_gap_m: float | None = None
    hole_m: float | None = None
    turns: bool | None = None
    seat: Seat | None = None
    lubrication: Lubrication | None = None

    def __post_init__(self) -> None:
        """A fixing is cut in one plane or in two."""
        if self.shear_planes not in (None, 1, 2):
            raise ValueError(f"shear planes are {self.shear_planes}; write 1, or 2 for a fork")

    @property
    def plies_m(self) -> float | None:
        """What lies under the head, gaps included; None when not all of it is known [m]."""
        if self.fork_ply_m is None or self.eye_ply_m is None or self.shear_planes is None:
            return None
        return self.shear_planes * (self.fork_ply_m + (self.side_gap_m or 0.0)) + self.eye_ply_m
