"""Figures in a line: hours, clock times, pressures and torques, degrees, and plain counts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from typing import Final

from bareshell.units.reading import key
from bareshell.units.tables import QUANTITIES, Unit
from bareshell.whole.said.clock import clock_at
from bareshell.whole.said.numbers import number_at, texts_at
from bareshell.whole.said.words import Token

MOST_WORK_HOURS = 14.0
"""Longer than this is no stretch of work: it is a hold, a cure, or a slip."""


class Measure(StrEnum):
    """What a figure measures."""

    HOURS = "hours"
    VAGUE_HOURS = "some hours"
    CLOCK = "clock"
    DEGREES = "degrees"
    QUANTITY = "quantity"
    COUNT = "count"


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure and where it stands.

    Parameters
    ----------
    measure : Measure
        What it measures.
    value : float
        Hours; minutes after midnight; degrees as written; the quantity in ``unit``; a count.
    first, after : int
        Its first token and the one after it.
    unit : str
        The unit's mark, ``"C"`` or ``"F"`` for degrees, ``"am"`` or ``"pm"`` when a clock
        time says which, ``"24"`` when it can only be one.
    quantity : str
        ``"pressure"``, ``"torque"``, ``"voltage"`` and so on.
    """

    measure: Measure
    value: float
    first: int
    after: int
    unit: str = ""
    quantity: str = ""


_HOUR: Final = frozenset({"h", "hr", "hrs", "hour", "hours", "hours'"})
_MINUTE: Final = frozenset({"m", "min", "mins", "minute", "minutes"})
_SECOND: Final = frozenset({"s", "sec", "secs", "second", "seconds"})
_DAY: Final = frozenset({"day", "days", "week", "weeks", "weekend", "weekends", "evenings"})
_VAGUE: Final = frozenset({"few", "several", "some", "many"})

# Names that mean something else far more often than they mean a unit in one line of an evening.
_NOT_UNITS: Final = frozenset(
    {
        "m",
        "in",
        "at",
        "t",
        "a",
        "st",
        "'",
        "l",
        "g",
        "k",
        "n",
        "h",
        "ins",
        "stone",
        "ci",
        "mile",
        "miles",
        "mi",
    }
)

_ELECTRICAL: Final = {
    "V": ("voltage", 1.0, ("v", "volt", "volts")),
    "mV": ("voltage", 1e-3, ("mv", "millivolt", "millivolts")),
    "ohm": ("resistance", 1.0, ("ohm", "ohms", "ω")),
    "mohm": ("resistance", 1e-3, ("milliohm", "milliohms", "mohm", "mohms")),
    "kohm": ("resistance", 1e3, ("kohm", "kohms", "kilohm", "kilohms", "kω", "kiloohms")),
    "Mohm": ("resistance", 1e6, ("megohm", "megohms")),
    "A": ("current", 1.0, ("amp", "amps", "ampere", "amperes")),
    "mA": ("current", 1e-3, ("ma", "milliamp", "milliamps")),
    "rpm": ("rotation", 1.0, ("rpm", "revs")),
    "%": ("share", 1.0, ("%", "percent", "per.cent")),
}


@dataclass(frozen=True, slots=True)
class _Mark:
    quantity: str
    mark: str
    si: float


@lru_cache(maxsize=1)
def _marks() -> dict[str, _Mark]:
    """Return every unit's name, brought to one spelling, for the units a line may use."""
    found: dict[str, _Mark] = {}
    for quantity in QUANTITIES.values():
        for unit in quantity.units:
            for name in (unit.mark, *unit.names):
                found.setdefault(key(name), _Mark(quantity.name, unit.mark, unit.si))
    for mark, (name, factor, names) in _ELECTRICAL.items():
        for spelling in names:
            found[spelling] = _Mark(name, mark, factor)
    for name in _NOT_UNITS:
        found.pop(name, None)
    return found


def unit_named(name: str) -> tuple[str, float] | None:
    """Return the quantity that a unit's mark belongs to and how much of its base one is.

    Examples
    --------
    >>> unit_named("bar"), unit_named("ohm"), unit_named("gap")
    (('pressure', 100000.0), ('resistance', 1.0), None)
    """
    wanted = key(name)
    found = _marks().get(wanted)
    if found is None:
        for quantity in QUANTITIES.values():
            units: tuple[Unit, ...] = quantity.units
            for unit in units:
                if wanted in (key(unit.mark), *map(key, unit.names)):
                    return quantity.name, unit.si
        return None
    return found.quantity, found.si


def figures_of(line: str, tokens: Sequence[Token]) -> tuple[Figure, ...]:
    """Find every figure of a line, from left to right, none over another.

    Examples
    --------
    >>> from bareshell.whole.said.words import tokens_of
    >>> line = "heater 2h30, two clips short, held 71 bar since half nine, 8 deg"
    >>> [(str(f.measure), f.value) for f in figures_of(line, tokens_of(line))]
    [('hours', 2.5), ('count', 2.0), ('quantity', 71.0), ('clock', 570), ('degrees', 8.0)]
    """
    found: list[Figure] = []
    at = 0
    while at < len(tokens):
        figure = (
            _hours_at(tokens, at)
            or _measured_at(line, tokens, at)
            or clock_figure(tokens, at)
            or _count_at(tokens, at)
        )
        if figure is None:
            at += 1
        else:
            found.append(figure)
            at = figure.after
    return tuple(found)


def clock_figure(tokens: Sequence[Token], at: int) -> Figure | None:
    """Read a time of day as a figure."""
    clock = clock_at(tokens, at)
    if clock is None:
        return None
    return Figure(Measure.CLOCK, clock.minutes, at, clock.after, clock.half)


# --- hours ---------------------------------------------------------------------------------


def _hours_at(tokens: Sequence[Token], at: int) -> Figure | None:
    vague = _vague_at(tokens, at)
    if vague is not None:
        return vague
    number = _number_of_time(tokens, at)
    if number is None:
        return None
    value, after = number
    after = _past(tokens, after, ("more", "good", "full", "solid", "odd"))
    after = _past(tokens, after, ("an", "a"))
    if after >= len(tokens) or (after > at and tokens[after].gap):
        return None
    unit = tokens[after].text
    if unit in _SECOND:
        return Figure(Measure.HOURS, value / 3600, at, after + 1)
    if unit in _MINUTE:
        return Figure(Measure.HOURS, value / 60, at, after + 1)
    if unit not in _HOUR:
        return None
    hours, after = _and_minutes(tokens, value, after + 1)
    return Figure(Measure.HOURS, hours, at, after)


def _vague_at(tokens: Sequence[Token], at: int) -> Figure | None:
    words = texts_at(tokens, at, 2)
    if words and words[0] in _VAGUE and words[1] in _HOUR | _MINUTE | _DAY:
        return Figure(Measure.VAGUE_HOURS, 0.0, at, at + 2)
    number = number_at(tokens, at)
    if number is None:
        return None
    after = number[1]
    if after < len(tokens) and tokens[after].text in _DAY and not tokens[after].gap:
        return Figure(Measure.VAGUE_HOURS, 0.0, at, after + 1)
    # "2 to 3 hours", "2-3 h": the person does not know, and neither do we.
    if after < len(tokens) and tokens[after].text in ("to", "or") and not tokens[after].gap:
        second = number_at(tokens, after + 1) if after + 1 < len(tokens) else None
    elif after < len(tokens) and not tokens[after].gap and not tokens[after].glued:
        dash = tokens[after].start - tokens[after - 1].end == 1 and tokens[after].text[0].isdigit()
        second = number_at(tokens, after) if dash else None
    else:
        second = None
    if second is None or second[1] >= len(tokens) or number[0] >= second[0]:
        return None
    if tokens[second[1]].text in _HOUR | _MINUTE and not tokens[second[1]].gap:
        # "1 1/2 hours" has been one number by then, so this is a range.
        return Figure(Measure.VAGUE_HOURS, 0.0, at, second[1] + 1)
    return None


def _number_of_time(tokens: Sequence[Token], at: int) -> tuple[float, int] | None:
    text = tokens[at].text
    if text in ("a", "an", "another"):
        second = texts_at(tokens, at, 2)[1:]
        if text != "another" and second and second[0] == "half":
            return 0.5, at + 2
        if second and second[0] in ("hour", "hours", "minute", "good", "full", "solid"):
            return 1.0, at + 1
    if text in ("hour", "hr") and (at == 0 or tokens[at - 1].text not in ("of", "the", "per")):
        return 1.0, at  # "hour and a half"
    clock = text.partition(":")
    if clock[1] and _is_length(tokens, at):
        return int(clock[0]) + int(clock[2]) / 60, at + 1
    return number_at(tokens, at)


def _is_length(tokens: Sequence[Token], at: int) -> bool:
    """Whether 1:30 is a length of time: the word hours follows it."""
    follows = texts_at(tokens, at, 2)[1:]
    hours, _, minutes = tokens[at].text.partition(":")
    fits = all(part.isascii() and part.isdigit() for part in (hours, minutes)) and len(minutes) == 2
    return fits and int(hours) < 15 and int(minutes) < 60 and bool(follows) and follows[0] in _HOUR


def _past(tokens: Sequence[Token], at: int, words: tuple[str, ...]) -> int:
    return at + 1 if at < len(tokens) and not tokens[at].gap and tokens[at].text in words else at


def _and_minutes(tokens: Sequence[Token], hours: float, at: int) -> tuple[float, int]:
    """Read what follows the word hours: 30, and a half, and twenty minutes."""
    if at >= len(tokens) or tokens[at].gap:
        return hours, at
    for length, share in ((3, ("and", "a", "half")), (2, ("and", "half"))):
        if texts_at(tokens, at, length) == share:
            return hours + 0.5, at + length
    if texts_at(tokens, at, 3) == ("and", "a", "quarter"):
        return hours + 0.25, at + 3
    if texts_at(tokens, at, 3) == ("and", "three", "quarters"):
        return hours + 0.75, at + 3
    start = at + 1 if tokens[at].text in ("and", "&") else at
    number = number_at(tokens, start) if start < len(tokens) and not tokens[start].gap else None
    if number is None or hours != int(hours):
        return hours, at
    value, after = number
    if after < len(tokens) and not tokens[after].gap and tokens[after].text in _MINUTE:
        return hours + value / 60, after + 1
    bare = tokens[start].glued or after >= len(tokens) or bool(tokens[after].gap)
    bare = bare or tokens[after].text in ("on", "and", "all", "each", "to", "left", "total", "but")
    if bare and 5 <= value < 60 and value == int(value):
        return hours + value / 60, after
    return hours, at


# --- everything else -----------------------------------------------------------------------


def _measured_at(line: str, tokens: Sequence[Token], at: int) -> Figure | None:
    number = number_at(tokens, at)
    if number is None:
        return None
    value, after = number
    return _degrees(line, tokens, value, at, after) or _quantity(line, tokens, value, at, after)


def _degrees(
    line: str, tokens: Sequence[Token], value: float, at: int, after: int
) -> Figure | None:
    signs = 0
    scale = ""
    if after < len(tokens) and tokens[after].text in ("°", "deg", "degs", "degree", "degrees"):
        signs = 1
    rest = after + signs
    if rest < len(tokens) and not (signs == 0 and tokens[rest].gap):
        token = tokens[rest]
        if token.text in ("celsius", "centigrade", "fahrenheit") or (
            token.text in ("c", "f") and (signs or token.glued or token.raw.isupper())
        ):
            scale = "F" if token.text[0] == "f" else "C"
            rest += 1
    if not signs and not scale:
        return None
    before = tokens[at - 1] if at else None
    minus = before is not None and before.text == "minus"
    dash = at < len(tokens) and line[tokens[at].start - 1 : tokens[at].start] in ("-", "−")
    if dash and tokens[at].start >= 2 and not line[tokens[at].start - 2].isspace():
        dash = False
    first = at - 1 if minus else at
    return Figure(Measure.DEGREES, -value if minus or dash else value, first, rest, scale)


def _quantity(
    line: str, tokens: Sequence[Token], value: float, at: int, after: int
) -> Figure | None:
    for count in (4, 3, 2, 1):
        if after + count > len(tokens):
            continue
        if after > at and tokens[after].gap in (";", "?"):
            return None
        name = key(line[tokens[after].start : tokens[after + count - 1].end])
        mark = _marks().get(name)
        if mark is not None:
            return Figure(Measure.QUANTITY, value, at, after + count, mark.mark, mark.quantity)
    inches = tokens[after].text if after < len(tokens) and not tokens[after].gap else ""
    digits = tokens[at].text[0].isdigit()
    if after + 1 < len(tokens) and not tokens[after + 1].gap:
        digits = digits and number_at(tokens, after + 1) is None
    if inches in ("in", '"', "″", "”", "ins") and value != int(value) and digits:
        return Figure(Measure.QUANTITY, value, at, after + 1, "in", "length")
    return None


def _count_at(tokens: Sequence[Token], at: int) -> Figure | None:
    number = number_at(tokens, at)
    if number is None or tokens[at].text in ("half", "oh"):
        return None
    return Figure(Measure.COUNT, number[0], at, number[1])
