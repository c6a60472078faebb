"""The keys of a brake file: which key is which figure or choice of which kind of part.

They are the names of the model's own tables with the unit taken off, since in the file the unit
stands beside the figure.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import Final

from bareshell.model.brake import Choice, Field, LineKind, PartKind, choices_of, fields_of

__all__ = [
    "FITTING_KEYS",
    "LINE_KEYS",
    "PART_KEYS",
    "PORT_KEYS",
    "choice_keys",
    "figure_keys",
    "key_of",
]

PART_KEYS: Final = ("id", "title", "kind", "wheel", "at", "ports", "departure", "note")
LINE_KEYS: Final = ("id", "title", "kind", "from", "to", "route", "departure", "note")
FITTING_KEYS: Final = ("thread", "sex", "seat", "flare")
PORT_KEYS: Final = ("name", "chamber", "bleeds", "at_top", *FITTING_KEYS)

_UNIT_OF: Final = {
    "length": "_m",
    "mass": "_kg",
    "force": "_n",
    "pressure": "_pa",
    "volume": "_m3",
    "speed": "_m_s",
    "torque": "_nm",
    "angle": "_rad",
    "compliance": "_m3_pa",
    "stiffness": "_n_m",
    "temperature": "_c",
    "share_of_g": "_g",
    "years": "_years",
    "area": "_m2",
    "specific_heat": "_j_kg_k",
    "heat_flow": "_w_k",
}


@cache
def figure_keys(kind: PartKind | LineKind) -> Mapping[str, Field]:
    """Return the figures of a kind of part by their keys in the file.

    Examples
    --------
    >>> figure_keys(PartKind.MASTER)["bore"].name
    'bore_m'
    """
    return MappingProxyType({key_of(field): field for field in fields_of(kind).values()})


def key_of(field: Field) -> str:
    """Return the key of a figure: its name without the unit.

    Examples
    --------
    >>> key_of(figure_keys(PartKind.VALVE)["knee"])
    'knee'
    """
    return field.name.removesuffix(_UNIT_OF.get(field.quantity, ""))


def choice_keys(kind: PartKind | LineKind) -> Mapping[str, Choice]:
    """Return the choices of a kind of part by their keys in the file."""
    return choices_of(kind)
