"""The parking brake: from hand to tyre, on a slope both ways, and how far its lever swings.

Forces are those of a steady pull with linings cold and bedded in. A drum that cools after the car
was parked shrinks away from its shoes, and a disc lets its pads go slack: what held may let go.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal, TypeAlias

from bareshell.brakes.answer import Load, Truth
from bareshell.brakes.figured import as_row, brought_back
from bareshell.brakes.figures import Figures, Missing
from bareshell.brakes.parking_chain import Reach, reach_of, torques_of, travel_of
from bareshell.brakes.prepared import Prepared, prepare
from bareshell.brakes.state import WHOLE, State
from bareshell.calc import parking as chain
from bareshell.calc import slope, stopping
from bareshell.calc.values import Value
from bareshell.model.brake import BrakeSystem, Wheel

__all__ = ["Direction", "Holding", "ParkingAnswer", "parked", "parking"]

Direction: TypeAlias = Literal["nose up", "nose down"]


@dataclass(frozen=True, slots=True)
class Holding:
    """What the parking brake holds one way round.

    Parameters
    ----------
    direction : {"nose up", "nose down"}
        How the car stands on the slope.
    wheel_torque_nm : mapping of Wheel to float or array
        Torque of each braked wheel. [N.m]
    force_n : float or array
        Holding force at the road, if the tyres grip. [N]
    force_slope : float or array
        Steepest slope that this force holds, rise over run. [-]
    adhesion_slope : float or array
        Steepest slope on which the braked wheels do not slide on the road asked about. [-]
    slope : float or array
        The lesser of the two. [-]
    limited_by : str or array of str
        ``force`` or ``tyres``.
    adhesion_asked : float or array
        Adhesion that the slope asked about needs; endless when no braked wheel carries. [-]
    hand_force_n : float or array
        Pull that the slope asked about needs; endless when no pull holds it. [N]
    holds : bool or array
        Whether the slope asked about is held by this pull on this road.
    """

    direction: Direction
    wheel_torque_nm: Mapping[Wheel, Value]
    force_n: Value
    force_slope: Value
    adhesion_slope: Value
    slope: Value
    limited_by: Any
    adhesion_asked: Value
    hand_force_n: Value
    holds: Truth


@dataclass(frozen=True, slots=True)
class ParkingAnswer:
    """The parking brake for one pull of the hand (or push of the foot).

    Parameters
    ----------
    hand_force_n : float or array
        The pull. [N]
    slope_asked, friction_of_road : float
        The slope and the road asked about. [-]
    cable_force_n : float or array
        In the cable of one wheel, or of the transmission brake. [N]
    nose_up, nose_down : Holding
        What it holds, both ways.
    share_of_weight : float or array
        The lesser holding force over the weight. [-]
    travel_m : float or array or None
        Travel at the lever's pin: clearance and stretch; None when not worked out. [m]
    clearance_travel_m, stretch_m : float or array or None
        Its two parts. [m]
    clicks : float or array or None
        Clicks of the lever, not rounded; not a number where the lever cannot swing so far.
    clicks_there_are : float or array or None
        Clicks that the ratchet has.
    clicks_suffice : bool, array or None
        Whether there are enough of them.
    """

    hand_force_n: Value
    slope_asked: float
    friction_of_road: float
    cable_force_n: Value
    nose_up: Holding
    nose_down: Holding
    share_of_weight: Value
    travel_m: Value | None
    clearance_travel_m: Value | None
    stretch_m: Value | None
    clicks: Value | None
    clicks_there_are: Value | None
    clicks_suffice: Truth | None
    not_worked_out: tuple[Missing, ...] = ()


def parking(
    system: BrakeSystem,
    figures: Figures,
    hand_force_n: Value,
    *,
    slope_asked: float = 0.20,
    friction_of_road: float = 0.8,
    load: Load = "laden",
    state: State = WHOLE,
) -> ParkingAnswer:
    """Work out what the parking brake holds for a pull of the hand.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    figures : mapping of str to float or array
        By path.
    hand_force_n : float or array
        Pull of the hand, or push of the foot. [N]
    slope_asked : float
        A slope to judge by, rise over run. [-]
    friction_of_road : float
        What the road offers. [-]
    load : {"driver only", "laden"}
        How the car is loaded.
    state : State
        What has gone wrong: a broken cable.

    Returns
    -------
    ParkingAnswer
        Both ways round.

    Raises
    ------
    BadInput
        When there is no mechanical parking brake, or figures that it needs are missing.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> car = small_car()
    >>> held = parking(car, gather(car).figures, 400.0)
    >>> round(held.nose_up.slope, 2), held.nose_up.limited_by, round(held.clicks, 1)
    (0.45, 'force', 4.0)
    """
    return parked(
        prepare(system, figures),
        hand_force_n,
        slope_asked=slope_asked,
        friction_of_road=friction_of_road,
        load=load,
        state=state,
    )


def parked(
    prepared: Prepared,
    hand_force_n: Value,
    *,
    slope_asked: float = 0.20,
    friction_of_road: float = 0.8,
    load: Load = "laden",
    state: State = WHOLE,
) -> ParkingAnswer:
    """Do what `parking` does, for a system that was looked over before."""
    import numpy as np

    reach = reach_of(prepared, state)
    prepared.ask("parking")
    at = prepared.figured
    given = np.asarray(hand_force_n, dtype=np.float64)
    hand = as_row(given)
    cable = chain.cable_force(
        hand,
        at(reach.part, "lever_ratio"),
        at(reach.part, "linkage_ratio"),
        at(reach.part, "linkage_efficiency"),
        reach.cables,
    )

    def back(value: Any) -> Any:  # noqa: ANN401 - numbers come back as numbers
        return brought_back(value, at.samples, given.shape)

    stand = _Stand(prepared, reach, load, friction_of_road, slope_asked)
    up = stand.holding("nose up", hand, cable, back)
    down = stand.holding("nose down", hand, cable, back)
    lesser = np.minimum(stand.forces["nose up"], stand.forces["nose down"])
    missing = prepared.missing_for("clicks")
    lever = _lever(prepared, reach, cable, back) if not missing else {}
    return ParkingAnswer(
        hand_force_n=back(hand),
        slope_asked=slope_asked,
        friction_of_road=friction_of_road,
        cable_force_n=back(cable),
        nose_up=up,
        nose_down=down,
        share_of_weight=back(lesser / stand.weight_n),
        travel_m=lever.get("travel_m"),
        clearance_travel_m=lever.get("clearance_travel_m"),
        stretch_m=lever.get("stretch_m"),
        clicks=lever.get("clicks"),
        clicks_there_are=lever.get("clicks_there_are"),
        clicks_suffice=lever.get("clicks_suffice"),
        not_worked_out=missing,
    )


def _lever(
    prepared: Prepared,
    reach: Reach,
    cable: Value,
    back: Any,  # noqa: ANN401
) -> dict[str, Any]:
    travel = travel_of(prepared, reach, cable)
    return {
        "travel_m": back(travel.clearance_m + travel.stretch_m),
        "clearance_travel_m": back(travel.clearance_m),
        "stretch_m": back(travel.stretch_m),
        "clicks": back(travel.clicks),
        "clicks_there_are": back(travel.there_are),
        "clicks_suffice": back(travel.clicks <= travel.there_are),
    }


class _Stand:
    """A parked car: its weight, its axles, and the road under it."""

    def __init__(
        self,
        prepared: Prepared,
        reach: Reach,
        load: Load,
        friction_of_road: float,
        slope_asked: float,
    ) -> None:
        at, car = prepared.figured, prepared.elements.car
        laden = load == "laden"
        self._prepared, self._reach = prepared, reach
        mass = at(car, "laden_mass_kg" if laden else "driver_only_mass_kg")
        self.weight_n = mass * stopping.GRAVITY_M_S2
        share = at(car, "laden_front_share" if laden else "driver_only_front_share")
        self._wheelbase_m = at(car, "wheelbase_m")
        self._to_front_m = self._wheelbase_m * (1.0 - share)
        self._height_m = at(car, "laden_cg_height_m" if laden else "cg_height_m")
        self._front = reach.axle[0].is_front
        self._radius_m = at(car, f"{'front' if self._front else 'rear'}_rolling_radius_m")
        # One wheel of two can pass on half of what the axle could.
        self._friction = friction_of_road * len(reach.held) / 2.0
        self._asked = slope_asked
        self.forces: dict[str, Value] = {}

    def holding(
        self,
        direction: Direction,
        hand: Value,
        cable: Value,
        back: Any,  # noqa: ANN401
    ) -> Holding:
        """Work out one way round."""
        import numpy as np

        backwards = direction == "nose up"
        torques = torques_of(self._prepared, self._reach, cable, backwards=backwards)
        force: Value = sum(
            chain.parking_force(torque, 1.0, self._radius_m) for torque in torques.values()
        )
        self.forces[direction] = force
        by_force = slope.slope_held(force, self.weight_n)
        by_tyres = self._tyres(direction)
        held = np.minimum(by_force, by_tyres)
        pull = slope.slope_pull(self.weight_n, self._asked)
        wanted = np.divide(
            hand * pull, force, out=np.full(np.shape(force), np.inf), where=force > 0
        )
        return Holding(
            direction=direction,
            wheel_torque_nm={wheel: back(torque) for wheel, torque in torques.items()},
            force_n=back(force),
            force_slope=back(by_force),
            adhesion_slope=back(by_tyres),
            slope=back(held),
            limited_by=back(np.where(by_force <= by_tyres, "force", "tyres")),
            adhesion_asked=back(self._asked_of_tyres(direction)),
            hand_force_n=back(np.where(self._asked <= by_tyres, wanted, np.inf)),
            holds=back(held >= self._asked),
        )

    def _tyres(self, direction: Direction) -> Value:
        """Steepest slope on which the held wheels do not slide; nose down is the car turned."""
        turned = direction == "nose down"
        ahead = self._wheelbase_m - self._to_front_m if turned else self._to_front_m
        limit = slope.front_slope_limit if self._front is not turned else slope.rear_slope_limit
        return limit(self._friction, self._wheelbase_m, ahead, self._height_m)

    def _asked_of_tyres(self, direction: Direction) -> Value:
        import numpy as np

        if not self._reach.held:
            return np.inf
        sign = 1.0 if direction == "nose up" else -1.0
        needed = slope.front_parking_adhesion if self._front else slope.rear_parking_adhesion
        alone = needed(sign * self._asked, self._wheelbase_m, self._to_front_m, self._height_m)
        return alone * 2.0 / len(self._reach.held)
