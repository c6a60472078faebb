"""What heat is reckoned with where nobody has looked: usual values with wide ranges.

The same shape as `bareshell.brakes.assumed`, which is asked for whatever is not here. None of these
is published; each use of one is listed beside the answer it went into.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import Final

from bareshell.brakes.assumed import Usual, usual
from bareshell.model.brake import Line, Part

__all__ = ["usual_in_heat"]

# kind | figure | value | low | high
_TABLE: Final = """
car | rotating_mass_ratio | 1.04 | 1.0 | 1.1
disc | thickness_m | 0.0105 | 0.008 | 0.013
disc | cheek_thickness_m | 0.0065 | 0.005 | 0.009
disc | heat_share | 0.95 | 0.88 | 0.99
disc | specific_heat_j_kg_k | 500 | 460 | 550
disc | cooling_ratio | 1.0 | 0.6 | 1.5
drum | rim_thickness_m | 0.008 | 0.0065 | 0.011
drum | lining_width_m | 0.04 | 0.032 | 0.057
drum | heat_share | 0.95 | 0.88 | 0.98
drum | specific_heat_j_kg_k | 500 | 460 | 550
drum | cooling_ratio | 0.8 | 0.4 | 1.3
drum | lining_mass_kg | 1.1 | 0.7 | 1.8
drum | drum_to_shoe_w_k | 1.5 | 0.6 | 4.0
drum | shoe_to_body_w_k | 0.25 | 0.08 | 0.8
drum | hot_friction_ratio | 0.85 | 0.6 | 1.05
caliper | mass_kg | 3.5 | 2.0 | 6.0
caliper | pad_mass_kg | 0.6 | 0.35 | 1.0
caliper | fluid_m3 | 2.5e-5 | 1e-5 | 6e-5
caliper | disc_to_pad_w_k | 1.5 | 0.6 | 4.0
caliper | pad_to_body_w_k | 1.0 | 0.4 | 2.5
caliper | body_to_fluid_w_k | 2.0 | 0.8 | 5.0
caliper | cooled_area_m2 | 0.035 | 0.02 | 0.05
caliper | hot_friction_ratio | 0.9 | 0.65 | 1.05
wheel cylinder | mass_kg | 1.0 | 0.4 | 1.5
wheel cylinder | fluid_m3 | 5e-6 | 2e-6 | 1.2e-5
wheel cylinder | body_to_fluid_w_k | 1.0 | 0.3 | 3.0
wheel cylinder | cooled_area_m2 | 0.04 | 0.015 | 0.08
"""


@cache
def _rows() -> Mapping[tuple[str, str], Usual]:
    rows: dict[tuple[str, str], Usual] = {}
    for row in _TABLE.strip().splitlines():
        kind, name, value, low, high = (cell.strip() for cell in row.split("|"))
        rows[kind, name] = Usual(float(value), float(low), float(high))
    return MappingProxyType(rows)


def usual_in_heat(thing: Part | Line, name: str, known: Mapping[str, float]) -> Usual | None:
    """Return what a figure is taken to be in heat when it is not known; None when it is asked for.

    What goes with the part's other figures comes first, then the table of this room.

    Parameters
    ----------
    thing : Part or Line
        Whose figure it is.
    name : str
        The figure.
    known : mapping of str to float
        What is known of the same thing already, in SI units.

    Examples
    --------
    >>> from bareshell.model.brake import PartKind
    >>> disc = Part("d", "left front disc", PartKind.DISC)
    >>> usual_in_heat(disc, "specific_heat_j_kg_k", {})
    Usual(value=500.0, low=460.0, high=550.0, mark='common practice, no source')
    >>> usual_in_heat(disc, "outer_diameter_m", {}) is None
    True
    """
    return usual(thing, name, known) or _rows().get((thing.kind.value, name))
