"""The kinds of thing a brake system is made of."""

from __future__ import annotations

from enum import StrEnum


class Wheel(StrEnum):
    """Which wheel, as seen from the driver's seat."""

    FRONT_LEFT = "front left"
    FRONT_RIGHT = "front right"
    REAR_LEFT = "rear left"
    REAR_RIGHT = "rear right"

    @property
    def is_front(self) -> bool:
        """Whether it is on the front axle."""
        return self in (Wheel.FRONT_LEFT, Wheel.FRONT_RIGHT)

    @property
    def is_left(self) -> bool:
        """Whether it is on the left of the car."""
        return self in (Wheel.FRONT_LEFT, Wheel.REAR_LEFT)


class PartKind(StrEnum):
    """What a part is."""

    CAR = "car"
    PEDAL = "pedal"
    SERVO = "servo"
    BALANCE_BAR = "balance bar"
    MASTER = "master cylinder"
    REMOTE_SERVO = "remote servo"
    VALVE = "valve"
    TEE = "tee"
    CALIPER = "caliper"
    DISC = "disc"
    DRUM = "drum"
    WHEEL_CYLINDER = "wheel cylinder"
    STUB = "blank"
    PARKING = "parking brake"
    FLUID = "fluid"
    RESERVOIR = "reservoir"


class LineKind(StrEnum):
    """What joins two ports."""

    PIPE = "pipe"
    HOSE = "hose"
    DIRECT = "screwed straight in"
