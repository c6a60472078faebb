"""The kinds of value a build file holds: how each is read, written and named in the guide.

Reading refuses with ``Mismatch``; whoever reads the section says where. Writing gives one
canonical form, and two values are the same when their canonical forms are.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from difflib import get_close_matches
from enum import StrEnum
from math import isfinite
from typing import Any

from bareshell.errors import BadInput, Problem, Severity
from bareshell.io.build_file.lines import Lines, Path
from bareshell.model.part import Money
from bareshell.model.trust import ThreePoint

__all__ = [
    "Kind",
    "Mismatch",
    "Plain",
    "Setting",
    "Spot",
    "amount",
    "clock_time",
    "day",
    "figure",
    "figures",
    "flag",
    "hours",
    "ident",
    "length",
    "many_of",
    "moment",
    "nearest",
    "one_of",
    "one_word",
    "ref",
    "refs",
    "shown",
    "temperature",
    "text",
    "texts",
    "thread",
    "three_hours",
    "tidy_number",
    "whole",
]

Plain = str | int | float | bool | datetime | date | time | list[Any] | dict[str, Any]
"""What TOML can hold."""


@dataclass(frozen=True, slots=True)
class Setting:
    """What reading and writing must know of the build: whose clock its times show."""

    zone: tzinfo | None = UTC


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in a file that is being read, and where its problems go."""

    lines: Lines
    path: Path
    words: str
    setting: Setting
    problems: list[Problem]

    def at(self, key: str | int, words: str) -> Spot:
        """Return the place one step further in."""
        said = f"{self.words}, {words}" if self.words else words
        return replace(self, path=(*self.path, key), words=said)

    def say(self, what: str, remedy: str = "", severity: Severity = "stops") -> None:
        """Put down a problem of this place."""
        where = f"line {self.lines.line_of(self.path)}"
        where = f"{where}, {self.words}" if self.words else where
        self.problems.append(Problem(where, what, remedy, severity))


class Mismatch(Exception):
    """A value cannot be taken: what is wrong and what would be right.

    Without words the problems are put down already.
    """

    def __init__(self, what: str = "", remedy: str = "") -> None:
        super().__init__(what)
        self.what = what
        self.remedy = remedy


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of value.

    Parameters
    ----------
    takes : str
        What a person writes, for the guide.
    read : callable
        Takes a value of the file, or raises ``Mismatch`` or ``BadInput``.
    write : callable
        Gives the canonical form of a value.
    of : str
        The section whose ids it names, if it names any.
    must : bool
        Whether what it names has to be there.
    """

    takes: str
    read: Callable[[object, Spot], Any]
    write: Callable[[Any, Setting], Plain]
    of: str = ""
    must: bool = False


# --- words about values ------------------------------------------------------------------------


def nearest(word: str, known: Iterable[str]) -> str:
    """Return a question naming the known word nearest to a slip, or nothing.

    Examples
    --------
    >>> nearest("suport", ("support", "session"))
    "did you mean 'support'?"
    """
    by_folded = {name.casefold(): name for name in known}
    found = get_close_matches(word.casefold(), by_folded, n=1, cutoff=0.6)
    return f"did you mean '{by_folded[found[0]]}'?" if found else ""


def shown(value: object) -> str:
    """Return a value of the file as a sentence names it, never longer than a line.

    Examples
    --------
    >>> shown("rear"), shown(True), shown([1, 2])
    ("'rear'", 'true', '[1, 2]')
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    words = repr(value) if isinstance(value, str | list | dict) else str(value)
    return words if len(words) <= 60 else f"{words[:57]}..."


def tidy_number(value: float, places: int = 9) -> int | float:
    """Return a number without idle digits, so that 2.0 is written 2.

    Examples
    --------
    >>> tidy_number(2.0), tidy_number(0.1 + 0.2)
    (2, 0.3)
    """
    rounded = round(value, places)
    return int(rounded) if rounded == int(rounded) else rounded


def _as_it_is(value: Plain, _setting: Setting) -> Plain:
    return value


# --- words -------------------------------------------------------------------------------------


def _read_text(value: object, _spot: Spot) -> str:
    if isinstance(value, str):
        return value
    raise Mismatch(f"{shown(value)} is not words", "put it in quotation marks")


def text(takes: str = "words") -> Kind:
    """Words."""
    return Kind(takes, _read_text, _as_it_is)


def ref(of: str, *, must: bool = True) -> Kind:
    """The id of something else in the build."""
    return Kind(f"id of a {of}", _read_text, _as_it_is, of, must)


def ident() -> Kind:
    """A short name by which other things are named."""

    def read(value: object, spot: Spot) -> str:
        found = _read_text(value, spot)
        if not found.strip() or not found.isprintable():
            raise Mismatch(f"{shown(found)} is no short name", 'write it as "rear-pipe"')
        return found

    return Kind("short name", read, _as_it_is)


def one_word(words: tuple[str, ...], what: str, *, only: bool = True) -> Kind:
    """One word out of a list; without ``only`` another is kept, as a doubt."""

    def read(value: object, spot: Spot) -> str:
        found = _read_text(value, spot)
        if found not in words:
            remedy = nearest(found, words) or f"the words are: {', '.join(words)}"
            if only:
                raise Mismatch(f"{shown(found)} is no {what}", remedy)
            spot.say(f"{shown(found)} is no {what} the pages know", remedy, "doubtful")
        return found

    return Kind("one of: " + " / ".join(words), read, _as_it_is)


def thread() -> Kind:
    """A thread; one that no table knows is kept, as a doubt."""

    def read(value: object, spot: Spot) -> str:
        from bareshell.units import parse_thread

        found = _read_text(value, spot)
        try:
            parse_thread(found, "thread")
        except BadInput as error:
            spot.say(error.problem, error.remedy, "doubtful")
        return found

    return Kind('thread, such as "M10x1" or "3/8-24 UNF"', read, _as_it_is)


def one_of(words: type[StrEnum]) -> Kind:
    """One word out of a list."""

    def read(value: object, _spot: Spot) -> StrEnum:
        known = [each.value for each in words]
        if value in known:
            return words(value)
        hint = nearest(value, known) if isinstance(value, str) else ""
        raise Mismatch(
            f"{shown(value)} is none of its words", hint or f"the words are: {', '.join(known)}"
        )

    return Kind("one of: " + " / ".join(words), read, lambda value, _setting: str(value.value))


def _listed(value: object, example: str) -> list[Any]:
    if isinstance(value, list):
        return value
    raise Mismatch(f"{shown(value)} is not a list", f"write it in square brackets: {example}")


def many_of(words: Iterable[str], what: str, *, only: bool = True) -> Kind:
    """Any number of words out of a list; written in the list's own order."""
    known = {str(word): word for word in words}

    def read(value: object, spot: Spot) -> frozenset[str]:
        found = set()
        for each in _listed(value, f'["{next(iter(known))}"]'):
            if each not in known:
                hint = nearest(str(each), known) or f"the words are: {', '.join(known)}"
                if only or not isinstance(each, str):
                    raise Mismatch(f"{shown(each)} is no {what}", hint)
                spot.say(f"{shown(each)} is no {what} the pages know", hint, "doubtful")
            found.add(known.get(each, each))
        return frozenset(found)

    def write(value: frozenset[str], _setting: Setting) -> Plain:
        own = [word for word in known if word in value]
        return [*own, *sorted(str(word) for word in value if word not in known)]

    return Kind("list of any of: " + " / ".join(known), read, write)


def _read_texts(value: object, spot: Spot) -> tuple[str, ...]:
    return tuple(_read_text(each, spot) for each in _listed(value, '["one", "two"]'))


def texts() -> Kind:
    """A list of words."""
    return Kind("list of words", _read_texts, lambda value, _setting: list(value))


def refs(of: str, *, must: bool = True) -> Kind:
    """A list of ids of other things in the build."""
    takes = f"list of ids of {of}s"
    return Kind(takes, _read_texts, lambda value, _setting: list(value), of, must)


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

    return Kind("true or false", read, _as_it_is)


def whole(least: int = 0, unit: str = "") -> Kind:
    """A whole number."""

    def read(value: object, _spot: Spot) -> int:
        number = _number(value)
        if number is None or number != int(number):
            raise Mismatch(f"{shown(value)} is not a whole number", "write a figure such as 2")
        if number < least:
            raise Mismatch(f"{shown(value)} is too few", f"write {least} or more")
        return int(number)

    return Kind(f"whole number{f' [{unit}]' if unit else ''}", read, _as_it_is)


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
        listed = _listed(value, "[6, 6, 8, ...]")
        if len(listed) != count:
            raise Mismatch(f"{len(listed)} figures are given", f"write all {count}")
        return tuple(_read_figure(each, spot) for each in listed)

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

    return Kind("day, such as 2026-03-04", read, _as_it_is)


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
            value = value.replace(tzinfo=spot.setting.zone)
        return value.astimezone(UTC)

    def write(value: datetime, setting: Setting) -> Plain:
        here = value.astimezone(setting.zone or UTC).replace(microsecond=0)
        # TOML writes an offset in whole minutes; a town's own old time may not be one.
        odd = (here.utcoffset() or timedelta()).seconds % 60
        return here.astimezone(UTC) if odd else here

    return Kind(
        "day and time, such as 2026-03-04T19:30:00Z; without a zone, the car's own", read, write
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
