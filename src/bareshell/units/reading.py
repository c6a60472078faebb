"""Read a figure and its unit as the trade writes them, and work out the SI.

Every refusal names the field, what was wrong and what would be right. A figure with no unit is
refused too, unless the form says which unit it prints beside the field.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

from bareshell.errors import BadInput
from bareshell.units.beyond import si_of
from bareshell.units.figures import FIGURE, read_figure, tidy
from bareshell.units.tables import QUANTITIES, Country, Quantity, QuantityName, Unclear, Unit

__all__ = [
    "Reading",
    "read_quantity",
    "unit_called",
]


@dataclass(frozen=True, slots=True)
class Reading:
    """What was typed, understood: the figure, its unit, and the same in SI.

    Parameters
    ----------
    si : float
        The value in the quantity's SI unit.
    figure : float
        The figure as written.
    mark : str
        The unit's mark.
    typed : str
        The entry, in plain characters.
    """

    si: float
    figure: float
    mark: str
    typed: str


_SIMPLE = re.compile(rf"({FIGURE})\s*(.*)")
_PAIRS = re.compile(rf"({FIGURE})\s*([^\d\s][^\d]*?)\s*(?=\d|$)")
_FRACTION = re.compile(r"[+-]?(?:\d+[ -])?\d+/\d+")


def key(name: str) -> str:
    """Bring a unit's name to the one spelling that the table is searched by.

    Examples
    --------
    >>> key("lbf ft"), key("ft-lbs"), key("N.m."), key("Lbs per sq. in")
    ('lbf.ft', 'ft.lbs', 'n.m', 'lbs/sq.in')
    """
    plain = name.casefold().replace("^", "").replace("**", "").replace(" per ", "/")
    plain = re.sub(r"\s*/\s*", "/", plain)
    return re.sub(r"[\s.*-]+", ".", plain).strip(".")


@lru_cache(maxsize=16)
def _by_name(name: QuantityName) -> MappingProxyType[str, Unit | Unclear]:
    quantity = QUANTITIES[name]
    table: dict[str, Unit | Unclear] = {}
    for unit in quantity.units:
        for spelling in (unit.mark, *unit.names):
            table[key(spelling)] = unit
    for unclear in quantity.unclear:
        for spelling in unclear.names:
            table[key(spelling)] = unclear
    return MappingProxyType(table)


def unit_called(quantity: QuantityName, mark: str) -> Unit:
    """Look up one of the table's units by its mark or another of its names.

    Parameters
    ----------
    quantity : str
        The kind of quantity.
    mark : str
        A name the table knows.

    Examples
    --------
    >>> unit_called("pressure", "bar").si
    100000.0
    """
    found = _by_name(quantity)[key(mark)]
    if isinstance(found, Unclear):
        raise BadInput(quantity, found.says, f"write {_either(found.choices)}")
    return found


def read_quantity(
    text: str,
    quantity: QuantityName,
    field: str,
    *,
    bare: str | None = None,
    country: Country | None = None,
    signed: bool = False,
) -> Reading:
    """Read one entry and keep what was typed beside what it means.

    Parameters
    ----------
    text : str
        The entry.
    quantity : str
        The kind of quantity: ``"length"``, ``"pressure"``, ``"torque"``, ``"volume"``,
        ``"mass"``, ``"force"`` or ``"speed"``.
    field : str
        The field's name as the reader knows it, for the error.
    bare : str, optional
        The unit that is printed beside the field, taken when the entry has none.
    country : {"UK", "US"}, optional
        Settles pints, gallons and tons. Without it the tool asks.
    signed : bool
        Whether the quantity may be below zero.

    Returns
    -------
    Reading
        The figure, the unit and the value in SI.

    Raises
    ------
    BadInput
        When the entry cannot be read, has no unit, has a unit of another kind, or could mean
        two amounts.

    Examples
    --------
    >>> read_quantity("1 1/2 in", "length", "stroke")
    Reading(si=0.0381, figure=1.5, mark='in', typed='1 1/2 in')
    """
    kind = QUANTITIES[quantity]
    typed = tidy(text, field)
    simple = _SIMPLE.fullmatch(typed)
    if simple is None:
        raise BadInput(
            field, f"'{typed}' is not {kind.article}", f"write a figure and a unit: {kind.example}"
        )
    name = simple[2] or _unit_of_a_bare_figure(typed, kind, field, bare)
    unit = _find(name, kind, country)
    if unit is not None:
        figure = read_figure(simple[1], field)
        reading = Reading(figure * unit.si, figure, unit.mark, typed)
    else:
        reading = _compound(typed, kind, field, country) or _refuse(name, typed, kind, field)
    if reading.si < 0 and not signed:
        raise BadInput(
            field, f"'{typed}' is below zero", f"write it without the minus: {kind.example}"
        )
    return reading


def _unit_of_a_bare_figure(typed: str, kind: Quantity, field: str, bare: str | None) -> str:
    if kind.name == "length" and _FRACTION.fullmatch(typed):
        return "in"  # nobody writes a fraction of a millimetre: common practice, no source
    if bare is not None:
        return bare
    figure = read_figure(typed, field)
    first, second = kind.example.split(" or ")
    marks = " or ".join(f"{figure:g} {part.split(' ', 1)[1]}" for part in (first, second))
    raise BadInput(field, f"'{typed}' has no unit", f"write the unit too, such as {marks}")


def _find(name: str, kind: Quantity, country: Country | None) -> Unit | None:
    """Find the unit; nothing when the table and the library do not know the name."""
    wanted = key(name)
    found = _by_name(kind.name).get(wanted)
    if isinstance(found, Unit):
        return found
    if found is not None:
        settled = found.by_country.get(country) if country else None
        return unit_called(kind.name, settled) if settled else None
    si = si_of(wanted, kind.si_mark)
    return None if si is None else Unit(wanted.replace(".", " "), si)


def _compound(typed: str, kind: Quantity, field: str, country: Country | None) -> Reading | None:
    """Read feet and inches, stones and pounds: each part a whole step down from the last."""
    pairs = _PAIRS.findall(typed)
    if len(pairs) != 2 or _PAIRS.sub("", typed).strip():
        return None
    (big_figure, big_name), (small_figure, small_name) = pairs
    big, small = (_find(name, kind, country) for name in (big_name, small_name))
    if big is None or small is None or (big.mark, small.mark) not in kind.compounds:
        return None
    sign = -1 if big_figure.startswith("-") else 1
    si = (
        read_figure(big_figure, field) * big.si + sign * read_figure(small_figure, field) * small.si
    )
    return Reading(si, si / small.si, small.mark, typed)


def _refuse(name: str, typed: str, kind: Quantity, field: str) -> Reading:
    wanted = key(name)
    found = _by_name(kind.name).get(wanted)
    if isinstance(found, Unclear):
        figure = typed[: len(typed) - len(name)].strip()
        choices = _either(tuple(f"{figure} {choice}" for choice in found.choices))
        raise BadInput(field, f"in '{typed}', {found.says}", f"write {choices}")
    for other in QUANTITIES.values():
        if wanted in _by_name(other.name):
            raise BadInput(
                field,
                f"'{name}' in '{typed}' is {other.article}, and this is {kind.article}",
                f"write something like {kind.example}",
            )
    marks = ", ".join(unit.mark for unit in kind.units)
    raise BadInput(
        field,
        f"'{name}' in '{typed}' is no unit for {kind.article}",
        f"write something like {kind.example}; the units are {marks}",
    )


def _either(choices: tuple[str, ...]) -> str:
    return " or ".join((", ".join(choices[:-1]), choices[-1]))
