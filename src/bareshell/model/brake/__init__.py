"""The brakes that are on a car, as a graph: what pushes, what carries fluid, what slows a wheel.

A `BrakeSystem` is a set of parts with ports and of lines between ports. Everything that is known
of a part stands in its ``figures`` (with how far each can be trusted) and ``choices``; what nobody
knows is simply not there. `fields` says which figures and choices each kind of part has, in which
unit, and what would be impossible or unlikely. Every answer about brakes is drawn from this.
"""

from bareshell.model.brake.circuit import (
    BrakeSystem,
    Fitting,
    Line,
    LineEnd,
    Part,
    Port,
    Role,
)
from bareshell.model.brake.fields import Choice, Field, choices_of, field_of, fields_of
from bareshell.model.brake.kinds import LineKind, PartKind, Wheel
from bareshell.model.brake.readings import (
    BrakeReading,
    ReadingKind,
    reading_choices,
    reading_fields,
)

__all__ = [
    "BrakeReading",
    "BrakeSystem",
    "Choice",
    "Field",
    "Fitting",
    "Line",
    "LineEnd",
    "LineKind",
    "Part",
    "PartKind",
    "Port",
    "ReadingKind",
    "Role",
    "Wheel",
    "choices_of",
    "field_of",
    "fields_of",
    "reading_choices",
    "reading_fields",
]
