"""The kinds of value that are figures, money, days and times."""

from __future__ import annotations

from contextlib import suppress
from datetime import UTC, date, datetime, time, timedelta
from math import isfinite

from bareshell.io.build_file.kinds import (
    Kind,
    Mismatch,
    Plain,
    Setting,
    Spot,
    as_it_is,
    listed,
    shown,
)
from bareshell.model.part import Money
from bareshell.model.trust import ThreePoint

__all__ = [
    "amount",
    "clock_time",
    "day",
    "figure",
    "figures",
    "flag",
    "hours",
    "length",
    "moment",
    "temperature",
    "three_hours",
    "tidy_number",
    "whole",
]


def tidy_number(value: float, places: int = 9) -> int | float:
    """Return a number without idle digits, so that 2.0 is written 2.

    Examples
    --------
    >>> tidy_number(2.0), tidy_number(0.1 + 0.2)
    (2, 0.3)
    """
    rounded = round(value, places)
    return int(rounded) if rounded == int(rounded) else rounded


# --- figures -----------------------------------------------------------------------------------


def _number(value: object) -> float | None:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    return float(value) if abs(value) < 1e300 else None


def flag() -> Kind:
    """Yes or no."""

    def read(value: object, _spot: Spot) -> bool:
        if isinstance(value, bool):
            return value
        raise Mismatch(
            f"{shown(value)} is neither true nor false", "write true or false, without quotes"
        )

    return Kind("true or false", read, as_it_is)


def whole(least: int = 0, unit: str = "") -> Kind:
    """A whole number."""

    def read(value: object, _spot: Spot) -> int:
        number = _number(value)
        if number is None or number != int(number):
            raise Mismatch(f"{shown(value)} is not a whole number", "write a figure such as 2")
        if number < least:
            raise Mismatch(f"{shown(value)} is too few", f"write {least} or more")
        return int(number)

    return Kind(f"whole number{f' [{unit}]' if unit else ''}", read, as_it_is)


def _read_figure(value: object, _spot: Spot) -> float:
    number = _number(value)
    if number is None or not isfinite(number):
        raise Mismatch(f"{shown(value)} is not a figure", "write a figure such as 19.05")
    return number


def figure(unit: str = "") -> Kind:
    """A figure whose unit stands in its key, or beside it."""
    takes = f"figure{f' [{unit}]' if unit else ''}"
    return Kind(takes, _read_figure, lambda value, _setting: tidy_number(value))


def figures(count: int, unit: str) -> Kind:
    """So many figures, each in the unit that stands in the key."""

    def read(value: object, spot: Spot) -> tuple[float, ...]:
        found = listed(value, "[6, 6, 8, ...]")
        if len(found) != count:
            raise Mismatch(f"{len(found)} figures are given", f"write all {count}")
        return tuple(_read_figure(each, spot) for each in found)

    return Kind(
        f"{count} figures [{unit}]", read, lambda value, _s: [tidy_number(v) for v in value]
    )


def _read_hours(value: object, *, days: bool = False) -> float:
    number = _number(value)
    if number is None and isinstance(value, str):
        from bareshell.units import parse_hours

        number = parse_hours(value, "hours", bare="h", days=days)
    if number is None or not 0 <= number < 1e6:
        raise Mismatch(f"{shown(value)} is no number of hours", "write hours such as 2.5")
    return number


def hours(*, days: bool = False) -> Kind:
    """Hours: of work, or by the clock when ``days`` may be written."""
    also = '"2 days"' if days else '"2h30"'
    return Kind(
        f"hours, as a figure or as {also}",
        lambda value, _spot: _read_hours(value, days=days),
        lambda value, _setting: tidy_number(value, 6),
    )


def three_hours() -> Kind:
    """Three figures: if all goes well, most likely, if it goes badly."""
    remedy = "write if all goes well, most likely, if it goes badly, such as [1, 2, 4]"

    def read(value: object, _spot: Spot) -> ThreePoint:
        if not isinstance(value, list) or len(value) != 3:
            raise Mismatch(f"{shown(value)} is not three figures", remedy)
        low, likely, high = (_read_hours(each) for each in value)
        try:
            return ThreePoint(low, likely, high)
        except ValueError as error:
            raise Mismatch(str(error), remedy) from error

    def write(value: ThreePoint, _setting: Setting) -> Plain:
        three = (value.optimistic_hours, value.likely_hours, value.pessimistic_hours)
        return [tidy_number(each, 6) for each in three]

    return Kind("three figures [h]: if all goes well, most likely, if it goes badly", read, write)


def length() -> Kind:
    """A length with its unit; inside it is metres."""

    def read(value: object, _spot: Spot) -> float:
        from bareshell.units import parse_length

        if not isinstance(value, str):
            raise Mismatch(
                f"{shown(value)} has no unit", f'write it with one, such as "{shown(value)} mm"'
            )
        return parse_length(value, "length")

    return Kind(
        'length with its unit, such as "19.05 mm" or "3/4 in"',
        read,
        lambda value, _setting: f"{tidy_number(value * 1000, 6)} mm",
    )


def temperature() -> Kind:
    """A temperature; a figure alone is degrees Celsius."""

    def read(value: object, _spot: Spot) -> float:
        from bareshell.units import parse_temperature_c

        if _number(value) is None and not isinstance(value, str):
            raise Mismatch(f"{shown(value)} is no temperature", 'write it as "5 C" or "41 F"')
        return parse_temperature_c(str(value), "temperature")

    return Kind(
        'temperature, such as "5 C" or "41 F"; a figure alone is Celsius',
        read,
        lambda value, _setting: f"{tidy_number(value, 4)} C",
    )


def amount() -> Kind:
    """Money with its currency."""
    remedy = 'write it as "12.50 GBP"'

    def read(value: object, _spot: Spot) -> Money:
        from decimal import Decimal, InvalidOperation

        if not isinstance(value, str):
            raise Mismatch(f"{shown(value)} has no currency", remedy)
        written, _, currency = value.strip().rpartition(" ")
        try:
            found = Decimal(written.strip())
            if found.is_finite():
                return Money(found, currency.upper())
        except (InvalidOperation, ValueError):
            pass
        raise Mismatch(f"{shown(value)} is no amount of money with its currency", remedy)

    return Kind(
        'money with its currency, such as "12.50 GBP"',
        read,
        lambda value, _setting: f"{value.amount:f} {value.currency}",
    )


# --- days and times ----------------------------------------------------------------------------


def day() -> Kind:
    """A day."""

    def read(value: object, _spot: Spot) -> date:
        if isinstance(value, date) and not isinstance(value, datetime):
            return value
        if isinstance(value, str):
            try:
                return date.fromisoformat(value.strip())
            except ValueError:
                pass
        raise Mismatch(f"{shown(value)} is no day", "write it as 2026-03-04, without quotes")

    return Kind("day, such as 2026-03-04", read, as_it_is)


def moment() -> Kind:
    """A day and time; without a zone it is the garage's own."""

    def read(value: object, spot: Spot) -> datetime:
        if isinstance(value, str):
            with suppress(ValueError):
                value = datetime.fromisoformat(value.strip())
        if not isinstance(value, datetime):
            raise Mismatch(
                f"{shown(value)} is no day with a time",
                "write it as 2026-03-04T19:30:00Z, without quotes",
            )
        if value.tzinfo is None:
            if spot.setting.zone is None:
                raise Mismatch(
                    f"{shown(value)} has no zone",
                    "end it with Z or an offset such as +01:00, or give the car its zone",
                )
            value = _on_the_clock(value.replace(tzinfo=spot.setting.zone))
        return value.astimezone(UTC)

    def write(value: datetime, setting: Setting) -> Plain:
        here = value.astimezone(setting.zone or UTC).replace(microsecond=0)
        # TOML writes an offset in whole minutes; a town's own old time may not be one.
        odd = (here.utcoffset() or timedelta()).seconds % 60
        return here.astimezone(UTC) if odd else here

    return Kind(
        "day and time, such as 2026-03-04T19:30:00Z; without a zone, the car's own", read, write
    )


def _on_the_clock(wall: datetime) -> datetime:
    """Return a time of the garage's clock, unless that clock skipped it or showed it twice."""
    first, second = wall.replace(fold=0), wall.replace(fold=1)
    if first.utcoffset() == second.utcoffset():
        return first
    said = f"{wall:%Y-%m-%d %H:%M}"
    if (first.utcoffset() or timedelta()) < (second.utcoffset() or timedelta()):
        raise Mismatch(
            f"{said} never was: the clocks went forward over it", "write the time the clock showed"
        )
    raise Mismatch(
        f"{said} was twice: the clocks went back that night",
        f"write {first.isoformat()} for the first or {second.isoformat()} for the second",
    )


def clock_time() -> Kind:
    """A time of day on the garage's clock."""

    def read(value: object, _spot: Spot) -> time:
        if isinstance(value, str):
            with suppress(ValueError):
                value = time.fromisoformat(value.strip())
        if not isinstance(value, time) or value.tzinfo is not None:
            raise Mismatch(f"{shown(value)} is no time of day", "write it as 19:30:00")
        return value

    return Kind(
        "time of day, such as 19:30:00", read, lambda value, _s: value.replace(microsecond=0)
    )
