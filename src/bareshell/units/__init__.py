"""Read what the trade writes and show what its owner reads; everything between is SI.

``parse_...`` takes an entry and its field's name and gives SI, or refuses with `BadInput` that
says what would be right. ``show_...`` turns SI into the owner's units. Two results are not SI,
and say so in their names: temperatures are degrees Celsius and times are hours.
"""

from bareshell.units.dates import DateOrder, Towards, parse_date, parse_moment
from bareshell.units.durations import parse_hours
from bareshell.units.figures import read_figure
from bareshell.units.likely import LikelyRange, ask_if_unlikely
from bareshell.units.quantities import (
    parse_force,
    parse_length,
    parse_mass,
    parse_speed,
    parse_temperature_c,
    parse_torque,
    parse_volume,
)
from bareshell.units.reading import Reading, read_quantity
from bareshell.units.show import (
    IMPERIAL,
    METRIC,
    MIXTURE,
    US_CUSTOMARY,
    Preference,
    show_date,
    show_force,
    show_hours,
    show_in,
    show_inches,
    show_length,
    show_mass,
    show_pressure,
    show_speed,
    show_temperature,
    show_torque,
    show_volume,
    show_wait,
)
from bareshell.units.tables import Country, QuantityName
from bareshell.units.thread_words import known_thread, parse_thread
from bareshell.units.threads import Thread, ThreadSystem, standard_threads

__all__ = [
    "IMPERIAL",
    "METRIC",
    "MIXTURE",
    "US_CUSTOMARY",
    "Country",
    "DateOrder",
    "LikelyRange",
    "Preference",
    "QuantityName",
    "Reading",
    "Thread",
    "ThreadSystem",
    "Towards",
    "ask_if_unlikely",
    "known_thread",
    "parse_date",
    "parse_force",
    "parse_hours",
    "parse_length",
    "parse_mass",
    "parse_moment",
    "parse_speed",
    "parse_temperature_c",
    "parse_thread",
    "parse_torque",
    "parse_volume",
    "read_figure",
    "read_quantity",
    "show_date",
    "show_force",
    "show_hours",
    "show_in",
    "show_inches",
    "show_length",
    "show_mass",
    "show_pressure",
    "show_speed",
    "show_temperature",
    "show_torque",
    "show_volume",
    "show_wait",
    "standard_threads",
]
