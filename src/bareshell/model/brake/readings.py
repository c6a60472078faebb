"""What was read off the brakes themselves: a pedal's travel, a roller sheet, a gauge left standing.

A reading is kept as it was taken, in SI; what it says of the brakes is worked out each time.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum
from functools import cache
from typing import Final

from bareshell.model.brake.fields import Choice, Field, choices_in, fields_in


class ReadingKind(StrEnum):
    """How a reading was taken."""

    PEDAL_TEST = "pedal test"
    ROLLER = "roller sheet"
    DECELEROMETER = "decelerometer"
    STOP = "measured stop"
    HOLD = "pressure hold"
    BLEEDING = "bleeding"
    PARKING = "parking hold"
    DESCENT = "long descent"
    BEDDING = "bedding"
    FLUID = "fluid test"


# As in `tables`: name | quantity | least | most | likely low | likely high | words
_FIGURES: Final[dict[ReadingKind, str]] = {
    ReadingKind.PEDAL_TEST: """
first_force_n | force | 1 | 3000 | 30 | 200 | lighter force on the pedal
first_travel_m | length | 0 | 0.4 | 0.005 | 0.15 | travel at the lighter force
second_force_n | force | 1 | 3000 | 150 | 700 | heavier force on the pedal
second_travel_m | length | 0 | 0.4 | 0.01 | 0.18 | travel at the heavier force
pumped_travel_m | length | 0 | 0.4 | 0.01 | 0.18 | travel at the heavier force, pumped first
first_pressure_pa | pressure | 0 | 40000000 | 20000 | 3000000 | pressure at the lighter force
second_pressure_pa | pressure | 0 | 40000000 | 500000 | 15000000 | pressure at the heavier force
floor_m | length | 0 | 0.4 | 0.08 | 0.2 | travel of the pedal pad to the floor
temperature_c | temperature | -40 | 150 | -10 | 45 | temperature of the garage
""",
    ReadingKind.ROLLER: """
front_left_n | force | 0 | 30000 | 200 | 5000 | brake force, front left
front_right_n | force | 0 | 30000 | 200 | 5000 | brake force, front right
rear_left_n | force | 0 | 30000 | 100 | 4000 | brake force, rear left
rear_right_n | force | 0 | 30000 | 100 | 4000 | brake force, rear right
parking_left_n | force | 0 | 30000 | 100 | 4000 | parking brake force, left
parking_right_n | force | 0 | 30000 | 100 | 4000 | parking brake force, right
mass_kg | mass | 50 | 9000 | 400 | 2900 | mass of the car at the test
pedal_force_n | force | 0 | 3000 | 50 | 700 | force on the pedal
hand_force_n | force | 0 | 1500 | 50 | 500 | pull on the hand lever
""",
    ReadingKind.DECELEROMETER: """
deceleration_g | share_of_g | 0 | 2 | 0.1 | 1.1 | deceleration
pedal_force_n | force | 0 | 3000 | 50 | 700 | force on the pedal
speed_m_s | speed | 0 | 130 | 5 | 30 | speed at the start
""",
    ReadingKind.STOP: """
speed_m_s | speed | 1 | 130 | 5 | 40 | speed at the start
distance_m | length | 0.1 | 2000 | 3 | 150 | distance to rest
upper_speed_m_s | speed | 0 | 130 | 4 | 32 | upper of two speeds on the way, 0.8 of the first
upper_distance_m | length | 0 | 2000 | 0.5 | 80 | distance run at the upper speed
lower_speed_m_s | speed | 0 | 130 | 0.4 | 5 | lower of two speeds on the way, 0.1 of the first
lower_distance_m | length | 0 | 2000 | 2 | 150 | distance run at the lower speed
pedal_force_n | force | 0 | 3000 | 50 | 700 | force on the pedal
""",
    ReadingKind.HOLD: """
first_pressure_pa | pressure | 0 | 40000000 | 500000 | 15000000 | pressure at the beginning
last_pressure_pa | pressure | 0 | 40000000 | 100000 | 15000000 | pressure at the end
minutes | minutes | 0 | 20000 | 2 | 1500 | how long it stood
first_temperature_c | temperature | -40 | 60 | -10 | 45 | temperature at the beginning
last_temperature_c | temperature | -40 | 60 | -10 | 45 | temperature at the end
""",
    ReadingKind.BLEEDING: """
drawn_m3 | volume | 0 | 0.02 | 0.00001 | 0.001 | fluid drawn through the screw
strokes | count | 0 | 1000 | 1 | 60 | strokes of the pedal
""",
    ReadingKind.PARKING: """
slope | share | 0 | 1 | 0.05 | 0.3 | slope it stood on
clicks | count | 0 | 60 | 2 | 15 | clicks of the lever
hand_force_n | force | 0 | 1500 | 50 | 500 | pull on the hand lever
""",
    ReadingKind.DESCENT: """
front_temperature_c | temperature | -40 | 1000 | 40 | 500 | disc or drum at the front afterwards
rear_temperature_c | temperature | -40 | 1000 | 40 | 500 | disc or drum at the rear afterwards
fluid_temperature_c | temperature | -40 | 300 | 10 | 150 | fluid at the hottest place
air_temperature_c | temperature | -50 | 60 | -15 | 40 | temperature of the air
drop_m | length | 0 | 5000 | 20 | 1500 | height lost
distance_m | length | 0 | 200000 | 300 | 20000 | distance run
""",
    ReadingKind.BEDDING: """
stops | count | 0 | 1000 | 3 | 60 | stops made
speed_m_s | speed | 0 | 130 | 5 | 30 | speed at the start of each
front_temperature_c | temperature | -40 | 1000 | 40 | 500 | disc or drum at the front afterwards
rear_temperature_c | temperature | -40 | 1000 | 40 | 500 | disc or drum at the rear afterwards
""",
    ReadingKind.FLUID: """
boiling_c | temperature | 20 | 350 | 120 | 290 | temperature at which a sample boiled
water_share | share | 0 | 0.2 | 0 | 0.06 | water measured in it
""",
}

# name | options, or nothing for free words | words
_CHOICES: Final[dict[ReadingKind, str]] = {
    ReadingKind.PEDAL_TEST: """
when | before the road, after 50 miles, after 500 miles, later | when, of those to be compared
pumped | yes, no | pumped before it was read
servo | no servo, exhausted, with vacuum | servo
""",
    ReadingKind.ROLLER: """
front_left | turned, locked | front left wheel
front_right | turned, locked | front right wheel
rear_left | turned, locked | rear left wheel
rear_right | turned, locked | rear right wheel
parking_left | turned, locked | left wheel under the parking brake
parking_right | turned, locked | right wheel under the parking brake
load | driver only, laden | load
station | | where
""",
    ReadingKind.DECELEROMETER: """
brake | service, parking, secondary | brake that was applied
instrument | | instrument
""",
    ReadingKind.STOP: """
brake | service, parking, secondary | brake that was applied
load | driver only, laden | load
""",
    ReadingKind.HOLD: """
circuit | | circuit that was held
joints | all dry, one wet, not looked at | joints
""",
    ReadingKind.BLEEDING: """
screw | | bleed screw
came | clear, bubbles, nothing | what came last
""",
    ReadingKind.PARKING: """
facing | up, down | which way it faced
held | yes, no | whether it stood
""",
    ReadingKind.DESCENT: "pedal | as before, longer, soft | pedal afterwards",
    ReadingKind.BEDDING: "",
    ReadingKind.FLUID: "instrument | | instrument",
}


@dataclass(frozen=True, slots=True)
class BrakeReading:
    """Something that was read off the brakes, as it was taken.

    Parameters
    ----------
    id : str
        Short name.
    kind : ReadingKind
        How it was taken.
    at : datetime
        When, with a time zone.
    figures : mapping of str to float
        What was read, in SI, by the names that `reading_fields` gives.
    choices : mapping of str to str
        What was chosen, by the names that `reading_choices` gives.
    words, by : str
        What was seen, and who saw it.
    system : str
        The id of the brakes it was read off, when not those on the car.

    Examples
    --------
    >>> from datetime import UTC
    >>> night = datetime(2026, 3, 4, 21, 0, tzinfo=UTC)
    >>> BrakeReading("d-1", ReadingKind.DECELEROMETER, night, {"deceleration_g": 0.62}).by
    ''
    >>> BrakeReading("d-2", ReadingKind.DECELEROMETER, night, {"deceleration_g": 62.0})
    Traceback (most recent call last):
    ...
    ValueError: decelerometer: deceleration cannot be 62 in SI units; it lies between 0 and 2
    """

    id: str
    kind: ReadingKind
    at: datetime
    figures: Mapping[str, float] = field(default_factory=dict)
    choices: Mapping[str, str] = field(default_factory=dict)
    words: str = ""
    by: str = ""
    system: str = ""

    def __post_init__(self) -> None:
        """Hold names to the tables; a figure nobody reads would be lost without a word."""
        known = reading_fields(self.kind)
        for name, value in self.figures.items():
            if name not in known:
                listed = ", ".join(known)
                raise ValueError(f"a {self.kind} has no figure {name!r}; it may have {listed}")
            known[name].hold(str(self.kind), value)
        choices = reading_choices(self.kind)
        for name, chosen in self.choices.items():
            if name not in choices:
                listed = ", ".join(choices) or "none"
                raise ValueError(f"a {self.kind} has no choice {name!r}; it may have {listed}")
            choices[name].check(str(self.kind), chosen)


@cache
def reading_fields(kind: ReadingKind) -> Mapping[str, Field]:
    """Return the figures that a kind of reading may have, by name.

    Examples
    --------
    >>> reading_fields(ReadingKind.FLUID)["boiling_c"].words
    'temperature at which a sample boiled'
    """
    return fields_in(_FIGURES[kind])


@cache
def reading_choices(kind: ReadingKind) -> Mapping[str, Choice]:
    """Return what may be chosen for a kind of reading, by name.

    Examples
    --------
    >>> reading_choices(ReadingKind.PARKING)["facing"].options
    ('up', 'down')
    """
    return choices_in(_CHOICES[kind])
