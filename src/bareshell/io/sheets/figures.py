"""What stands in a cell, read the way owners write it: "2 pairs", "£12.50", "3/4/26", "2-3 h"."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from decimal import Decimal, InvalidOperation
from enum import StrEnum

from bareshell.errors import BadInput
from bareshell.io.sheets.grid import Cell
from bareshell.model.part import Money
from bareshell.model.trust import ThreePoint
from bareshell.units import DateOrder, parse_date, parse_hours

__all__ = [
    "Done",
    "Written",
    "day_in",
    "done_in",
    "hours_in",
    "is_unclear_day",
    "money_in",
    "order_of_days",
    "quantity_in",
    "text_in",
    "three_hours_in",
    "yes_in",
]


@dataclass(frozen=True, slots=True)
class Written:
    """How a sheet was written, where a cell alone could be read in two ways."""

    today: date
    order: DateOrder | None = None
    comma: bool | None = None
    currency: str = "GBP"


_NOTHING = frozenset(
    ("", "-", "--", "?", "??", "tbc", "tba", "unknown", "not known", "n/a", "na", "none", "asap")
)
"""What people write in a cell when they do not know."""


def text_in(cell: Cell) -> str:
    """Return a cell as words, on one line where it was on several.

    Examples
    --------
    >>> text_in(" Rear   pipe "), text_in(4.0), text_in(None)
    ('Rear pipe', '4', '')
    """
    if cell is None:
        return ""
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, float):
        return f"{cell:g}"
    if isinstance(cell, datetime):
        midnight = cell.time() == time()
        return cell.date().isoformat() if midnight else f"{cell:%Y-%m-%d %H:%M}"
    return " ".join(str(cell).split())


# --- how many ------------------------------------------------------------------------------------

_SMALL = dict(
    zip(
        "one two three four five six seven eight nine ten eleven twelve".split(),
        range(1, 13),
        strict=True,
    )
) | {"a": 1, "an": 1, "pair": 2, "dozen": 12}
_TIMES = {"pair": 2, "pairs": 2, "pr": 2, "prs": 2, "dozen": 12, "doz": 12}
_COUNT = r"x?\s*(\d{1,6}|" + "|".join(_SMALL) + r")\s*"
_OFF = r"(?:x|off|no|nos|pcs?|pieces?|pce|ea|each|stk|st(?:ü|u)ck|set|sets|kit|kits)"
_PLAIN_COUNT = re.compile(rf"{_COUNT}{_OFF}?\.?")
_GROUPS = re.compile(rf"{_COUNT}?(pairs?|prs?|dozen|doz)\.?(?:\s*off)?")


def quantity_in(cell: Cell, field: str) -> int | None:
    """Read how many; None when the cell says that nobody knows.

    A set or a kit counts as one of it.

    Raises
    ------
    BadInput
        When it is no number of things.

    Examples
    --------
    >>> [quantity_in(each, "qty") for each in (4, "x4", "2 pairs", "1 set", "3 off", "pair", "?")]
    [4, 4, 4, 1, 3, 2, None]
    """
    remedy = "write how many, such as 4, x4 or 2 pairs"
    if isinstance(cell, (bool, date | time | timedelta)):
        raise BadInput(field, f"'{text_in(cell)}' is no number of things", remedy)
    if isinstance(cell, int | float):
        if not 0 <= cell < 1_000_000 or cell != int(cell):
            raise BadInput(field, f"{cell:g} is no whole number of things", remedy)
        return int(cell)
    typed = text_in(cell).casefold()
    if typed in _NOTHING:
        return None
    if found := _GROUPS.fullmatch(typed):
        return _small(found[1] or "1") * _TIMES[found[2]]
    if found := _PLAIN_COUNT.fullmatch(typed):
        return _small(found[1])
    if re.fullmatch(r"(?:sets?|kits?)", typed):
        return 1
    if re.fullmatch(r"\d{1,6}[.,]0+", typed):
        return int(re.split("[.,]", typed)[0])
    raise BadInput(field, f"'{text_in(cell)}' is no number of things", remedy)


def _small(word: str) -> int:
    return _SMALL[word] if word in _SMALL else int(word)


# --- money ---------------------------------------------------------------------------------------

_SYMBOLS = {"£": "GBP", "€": "EUR", "₹": "INR", "zł": "PLN", "₺": "TRY", "Kč": "CZK"}
_SHARED_SYMBOLS = {
    "$": ("USD", "AUD", "CAD", "NZD", "SGD", "HKD", "MXN"),
    "¥": ("JPY", "CNY"),
    "kr": ("SEK", "NOK", "DKK", "ISK"),
    "R": ("ZAR", "BRL"),
}
"""Signs that several currencies write: the build's own settles them, or nothing does."""

_MONEY = re.compile(
    r"(?P<before>[^\d\s.,+-]{1,4}|[A-Za-z]{3})?\s*(?P<figure>[+-]?\d[\d.,' ]*)\s*"
    r"(?P<after>[^\d\s.,]{1,4}|[A-Za-z]{3})?"
)
_BEFORE_MONEY = re.compile(r"^(?:approx\.?|about|around|circa|ca\.?|c\.|~)\s*", re.IGNORECASE)
_EACH = re.compile(r"\b(?:each|ea|pp)\.?$", re.IGNORECASE)
_AFTER_MONEY = re.compile(r"\s*(?:each|ea|pp|total|inc\.?\s*vat)\.?$", re.IGNORECASE)


def money_in(cell: Cell, field: str, written: Written) -> Money | None:
    """Read an amount of money; a bare figure is in the build's own currency.

    Raises
    ------
    BadInput
        When it is no amount, or its sign stands for several currencies.

    Examples
    --------
    >>> how = Written(date(2026, 3, 4))
    >>> [str(money_in(each, "price", how).amount) for each in (12.5, "£1,250.00", "12,50 €")]
    ['12.50', '1250.00', '12.50']
    """
    remedy = "write it as 12.50 GBP"
    if isinstance(cell, (bool, date | time | timedelta)):
        raise BadInput(field, f"'{text_in(cell)}' is no amount of money", remedy)
    if isinstance(cell, int | float):
        if not abs(cell) < 1e12:
            raise BadInput(field, f"{cell:g} is no amount of money", remedy)
        return Money(_pennies(Decimal(str(round(cell, 4)))), written.currency)
    typed = text_in(cell).replace("\u00a0", " ")
    if typed.casefold() in _NOTHING:
        return None
    found = _MONEY.fullmatch(_BEFORE_MONEY.sub("", _AFTER_MONEY.sub("", typed)))
    if found is None:
        raise BadInput(field, f"'{typed}' is no amount of money", remedy)
    amount = _decimal(found["figure"], typed, field, written)
    signs = [each for each in (found["before"], found["after"]) if each]
    if len(signs) > 1:
        raise BadInput(field, f"'{typed}' names two currencies", remedy)
    return Money(amount, _currency(signs[0], typed, field, written) if signs else written.currency)


def for_each(typed: str) -> bool:
    """Whether an amount says that it is for one.

    Examples
    --------
    >>> for_each("£12.50 each"), for_each("3.20 ea."), for_each("12.50 total")
    (True, True, False)
    """
    return bool(_EACH.search(typed))


def _pennies(amount: Decimal) -> Decimal:
    """Write an amount of a sheet's figure with two places, unless it has more."""
    two = amount.quantize(Decimal("0.01"))
    return two if two == amount else amount


def _currency(sign: str, typed: str, field: str, written: Written) -> str:
    if sign in _SYMBOLS:
        return _SYMBOLS[sign]
    if sign in _SHARED_SYMBOLS:
        choices = _SHARED_SYMBOLS[sign]
        if written.currency in choices:
            return written.currency
        raise BadInput(
            field,
            f"in '{typed}', {sign} may be {', '.join(choices)}",
            f"write its letters, such as {choices[0]}",
        )
    if len(sign) == 3 and sign.isalpha() and sign.isascii():
        return sign.upper()
    raise BadInput(field, f"'{sign}' in '{typed}' is no currency", "write it as 12.50 GBP")


def _decimal(figure: str, typed: str, field: str, written: Written) -> Decimal:
    digits = figure.replace(" ", "").replace("'", "")
    comma, point = digits.rfind(","), digits.rfind(".")
    if comma >= 0 and point >= 0:
        drop, mark = (".", ",") if comma > point else (",", ".")
        digits = digits.replace(drop, "").replace(mark, ".")
    elif comma >= 0 or point >= 0:
        mark = "," if comma >= 0 else "."
        parts = digits.split(mark)
        groups = all(len(part) == 3 for part in parts[1:]) and 1 <= len(parts[0].lstrip("+-")) <= 3
        if len(parts) > 2 and groups:
            digits = "".join(parts)
        elif len(parts) == 2 and groups and (mark == "," or written.comma is True):
            digits = _one_mark(parts, mark, typed, field, written)
        else:
            digits = digits.replace(mark, ".")
    try:
        return Decimal(digits)
    except InvalidOperation as error:
        raise BadInput(
            field, f"'{typed}' is no amount of money", "write it as 12.50 GBP"
        ) from error


def _one_mark(parts: list[str], mark: str, typed: str, field: str, written: Written) -> str:
    """Settle "1,500": fifteen hundred, or one and a half."""
    if written.comma is None:
        whole, part = "".join(parts), f"{parts[0]}.{parts[1]}"
        raise BadInput(
            field,
            f"'{typed}' could be {whole} or {part}",
            "say whether a comma parts the whole from the fraction in this sheet",
        )
    fraction = (mark == ",") == written.comma
    return ".".join(parts) if fraction else "".join(parts)


# --- hours ---------------------------------------------------------------------------------------

_SPLIT_HOURS = re.compile(r"\s*(?:-|–|—|/|to|\.\.+|bis)\s*")
_UNIT_OF_HOURS = re.compile(r"\s*(?:h|hr|hrs|hours?|std)\.?\s*$", re.IGNORECASE)


def hours_in(cell: Cell, field: str) -> float | None:
    """Read hours of work; None when the cell says that nobody knows.

    Examples
    --------
    >>> [hours_in(each, "hours") for each in (2, "2h30", "1,5", "90 min", time(1, 30), "tbc")]
    [2.0, 2.5, 1.5, 1.5, 1.5, None]
    """
    if isinstance(cell, timedelta):
        cell = cell.total_seconds() / 3600
    if isinstance(cell, time):
        return cell.hour + cell.minute / 60
    if isinstance(cell, (bool, date)):
        raise BadInput(
            field, f"'{text_in(cell)}' is no number of hours", "write hours, such as 2.5"
        )
    if isinstance(cell, int | float):
        if not 0 <= cell <= 1000:
            raise BadInput(field, f"{cell:g} is no number of hours", "write hours, such as 2.5")
        return float(cell)
    typed = text_in(cell)
    if typed.casefold() in _NOTHING:
        return None
    return parse_hours(typed, field, bare="h")


def three_hours_in(cell: Cell, field: str) -> tuple[ThreePoint | None, str]:
    """Read an estimate, with what was assumed about it.

    One figure is taken as most likely, with half and double of it around; two as the ends, with
    the middle most likely (common practice, no source). Three are all three.

    Examples
    --------
    >>> three_hours_in("2-4", "hours")
    (ThreePoint(optimistic_hours=2.0, likely_hours=3.0, pessimistic_hours=4.0), 'the middle of ...')
    """
    if isinstance(cell, str) and not re.fullmatch(r"\s*\d+/\d+\s*", cell):
        typed = _UNIT_OF_HOURS.sub("", text_in(cell))
        parts = [part for part in _SPLIT_HOURS.split(typed) if part]
        if len(parts) in (2, 3):
            figures = [hours_in(_UNIT_OF_HOURS.sub("", part), field) for part in parts]
            known = [each for each in figures if each is not None]
            if len(known) == len(parts):
                return _spread(known, text_in(cell), field)
    hours = hours_in(cell, field)
    if hours is None or hours == 0:
        return None, ""
    return ThreePoint(hours / 2, hours, hours * 2), "half and double of it are taken as its ends"


def _spread(figures: list[float], typed: str, field: str) -> tuple[ThreePoint, str]:
    if figures != sorted(figures):
        raise BadInput(
            field, f"the hours in '{typed}' do not rise", "write them rising, such as 2-4"
        )
    if len(figures) == 3:
        return ThreePoint(*figures), ""
    low, high = figures
    return ThreePoint(low, (low + high) / 2, high), "the middle of it is taken as most likely"


# --- days ----------------------------------------------------------------------------------------

_SERIALS = range(20_000, 80_000)
"""Days counted from the end of 1899, as spreadsheets keep them: 1954 to 2119."""

_IN_FIGURES = re.compile(r"(\d{1,2})[/-](\d{1,2})(?:[/-]\d{2,4})?")


def order_of_days(cells: Iterable[Cell]) -> DateOrder | None:
    """Tell from a column's dates whether the day or the month comes first; None when none tells.

    Examples
    --------
    >>> order_of_days(["3/4/26", "17/4/26"]), order_of_days(["3/4/26"])
    ('day first', None)
    """
    for cell in cells:
        found = _IN_FIGURES.fullmatch(cell.strip()) if isinstance(cell, str) else None
        if found and int(found[1]) > 12 >= int(found[2]):
            return "day first"
        if found and int(found[2]) > 12 >= int(found[1]):
            return "month first"
    return None


def is_unclear_day(cell: Cell) -> bool:
    """Whether a date reads as two days, until it is known which comes first.

    Examples
    --------
    >>> is_unclear_day("3/4/26"), is_unclear_day("17/4/26"), is_unclear_day("4/4/26")
    (True, False, False)
    """
    found = _IN_FIGURES.fullmatch(cell.strip()) if isinstance(cell, str) else None
    if found is None:
        return False
    return found[1] != found[2] and max(int(found[1]), int(found[2])) <= 12


def day_in(cell: Cell, field: str, written: Written, *, past: bool = False) -> date | None:
    """Read a day; None when the cell says that nobody knows.

    A weekday or "in three weeks" is refused: nobody knows when it was written.

    Examples
    --------
    >>> how = Written(date(2026, 3, 4), "day first")
    >>> [day_in(each, "ETA", how).isoformat() for each in (46085, "3/4/26", "17 Mar 2026")]
    ['2026-03-04', '2026-04-03', '2026-03-17']
    """
    if isinstance(cell, datetime):
        return cell.date()
    if isinstance(cell, date):
        return cell
    if isinstance(cell, int | float) and not isinstance(cell, bool):
        if not _SERIALS.start <= cell < _SERIALS.stop:
            raise BadInput(field, f"{cell:g} is no day", "write it as 2026-03-17 or 17 March 2026")
        return date(1899, 12, 30) + timedelta(days=int(cell))
    typed = text_in(cell)
    if typed.casefold() in _NOTHING:
        return None
    if typed.isdigit() and int(typed) in _SERIALS:
        return date(1899, 12, 30) + timedelta(days=int(typed))
    if not any(each.isdigit() for each in typed) or re.search(r"\b(in|ago|week|days?)\b", typed):
        raise BadInput(field, f"'{typed}' is no day", "write it as 2026-03-17 or 17 March 2026")
    return parse_date(
        typed,
        field,
        today=written.today,
        towards="past" if past else "future",
        order=written.order,
    )


# --- yes and no ----------------------------------------------------------------------------------


class Done(StrEnum):
    """How far a job is, as a cell says it."""

    NO = "no"
    STARTED = "started"
    YES = "yes"
    LEFT_OUT = "left out"


_YES = frozenset(
    "y yes x xx v ✓ ✔ ☑ done complete completed finished fitted ok true 100% ja oui si 1".split()
)
_NO = frozenset(
    ("", "n", "no", "nein", "non", "0", "0%", "false", "to do", "todo", "not started", "open")
) | frozenset(("not done", "pending", "☐", "outstanding", "waiting", "not yet", "planned"))
_STARTED = frozenset(
    "started,in progress,in hand,wip,partly,part done,half,half done,begun,ongoing,under way".split(
        ","
    )
)
_OUT = frozenset(
    "not needed,left out,skip,skipped,dropped,n/a,na,not required,cancelled".split(",")
)


def done_in(cell: Cell, field: str) -> Done:
    """Read whether a job is done.

    Examples
    --------
    >>> [str(done_in(each, "done")) for each in ("x", None, "in progress", "50%", 1.0, "n/a")]
    ['yes', 'no', 'started', 'started', 'yes', 'left out']
    """
    if isinstance(cell, bool):
        return Done.YES if cell else Done.NO
    if isinstance(cell, date):
        return Done.YES
    if isinstance(cell, int | float):
        share = cell / 100 if cell > 1 else cell
        if 0 <= share <= 1:
            return Done.YES if share == 1 else Done.STARTED if share else Done.NO
    typed = text_in(cell).casefold().rstrip(".!")
    if typed.startswith("done before"):
        return Done.YES
    for words, done in (
        (_YES, Done.YES),
        (_NO, Done.NO),
        (_STARTED, Done.STARTED),
        (_OUT, Done.LEFT_OUT),
    ):
        if typed in words:
            return done
    if re.fullmatch(r"\d{1,2}\s*%", typed):
        return Done.STARTED
    raise BadInput(
        field, f"'{text_in(cell)}' says neither done nor to do", "write yes, no or started"
    )


def yes_in(cell: Cell) -> bool:
    """Whether a cell says yes, in any of the ways people do.

    Examples
    --------
    >>> yes_in("x"), yes_in("no"), yes_in(date(2026, 3, 1)), yes_in("maybe")
    (True, False, True, False)
    """
    try:
        return done_in(cell, "") is Done.YES
    except BadInput:
        return False
