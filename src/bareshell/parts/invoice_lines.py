"""A supplier's invoice pasted as text, read line by line: how many of what, at what price.

Invoices have no one form. What is tried, in this order: a count, a part number, words, a price for
each and a price for all; totals, carriage and tax are told apart by their words. A line that is not
understood is kept as it was typed, never dropped and never guessed at.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import Final, Literal

__all__ = ["Invoice", "InvoiceLine", "read_invoice"]

Sort = Literal["item", "carriage", "tax", "total", "not understood"]

_SIGN: Final = "GBP|EUR|USD|[€£$]"
# No price: the pitch in M8 x 1.25, and 19.05 mm.
_PRICES: Final = re.compile(
    rf"(?<![\w.,/])(?<![xX\u00d7] )((?:(?:{_SIGN})\s*)?\d{{1,3}}(?:[.,]?\d{{3}})*[.,]\d{{2}}"
    rf"(?:\s*(?:{_SIGN}))?)(?![\d.,]|\s*(?:mm|ml|cm|in|bar|[lmvaw])\b|\s*[\"%\u00b0])",
    re.IGNORECASE,
)
_COUNT_FIRST: Final = re.compile(
    r"^\s*(\d{1,4})\s*(?:x|\u00d7|off|pcs?|no\.?|pkts?)?(?=\s)\s*", re.IGNORECASE
)
_COUNT_LATER: Final = re.compile(
    r"(?:qty|quantity)\s*:?\s*(\d{1,4})\b(?!/)|(?<![/\d.])\b(\d{1,4})\s*(?:off|pcs?)\b|"
    r"(?<=\s)(?:x|\u00d7)\s*(\d{1,4})\s*@?\s*$",
    re.IGNORECASE,
)
_NUMBER: Final = re.compile(r"\b(?=[A-Z0-9/-]*\d)[A-Z0-9][A-Z0-9/-]{3,19}\b")
_CARRIAGE: Final = re.compile(
    r"\b(carriage|postage|p\s*&\s*p|shipping|delivery|freight)\b", re.IGNORECASE
)
_TAX: Final = re.compile(r"\b(vat|tax|mwst|tva|gst)\b", re.IGNORECASE)
_TOTAL: Final = re.compile(
    r"\b(sub-?\s*total|total|amount due|balance|paid|payment|discount)\b", re.IGNORECASE
)
_HEAD: Final = re.compile(
    r"^\s*(?:invoice|order|date|page|account|qty|quantity|code|part|description|"
    r"item|unit|price|thank|bill|ship|tel|www|email)\b[^\d]*(?:no\.?|number|date)?[:#\s]*[\w/-]*\s*$",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class InvoiceLine:
    """One line as it was read.

    Parameters
    ----------
    typed : str
        As it stood in the text.
    sort : str
        ``item``, ``carriage``, ``tax``, ``total`` or ``not understood``.
    count : int
        How many.
    title : str
        What, in the supplier's words.
    number : str
        The supplier's part number, if there seems to be one.
    each, price : Decimal or None
        For one, and for all of the line.
    doubt : str
        What is doubtful about the reading.
    """

    typed: str
    sort: Sort
    count: int = 1
    title: str = ""
    number: str = ""
    each: Decimal | None = None
    price: Decimal | None = None
    doubt: str = ""


@dataclass(frozen=True, slots=True)
class Invoice:
    """An invoice as it was read.

    Parameters
    ----------
    lines : tuple of InvoiceLine
        In the order of the text; the same line twice is added up into one.
    carriage, tax, total : Decimal or None
        As the invoice has them.
    currency : str
        The one that is written on it; empty when none is.
    doubt : str
        What does not add up.
    """

    lines: tuple[InvoiceLine, ...]
    carriage: Decimal | None = None
    tax: Decimal | None = None
    total: Decimal | None = None
    currency: str = ""
    doubt: str = ""

    @property
    def items(self) -> tuple[InvoiceLine, ...]:
        """The lines that are things."""
        return tuple(line for line in self.lines if line.sort == "item")


def read_invoice(text: str) -> Invoice:
    """Read an invoice pasted as text.

    Parameters
    ----------
    text : str
        Its lines, with or without heads and sums.

    Examples
    --------
    >>> found = read_invoice('''
    ... 4 x  QF-3310  Nyloc nut 5/16 UNF   0.20  0.80
    ... Postage 3.50
    ... Total £4.30
    ... ''')
    >>> [(line.count, line.number, line.title, str(line.price)) for line in found.items]
    [(4, 'QF-3310', 'Nyloc nut 5/16 UNF', '0.80')]
    >>> str(found.carriage), str(found.total), found.currency, found.doubt
    ('3.50', '4.30', 'GBP', '')
    """
    lines = list(_added_up(_line(typed) for typed in text.splitlines() if typed.strip()))
    lines = [
        line for line in lines if not (line.sort == "not understood" and _HEAD.match(line.typed))
    ]
    carriage = _sum_of(lines, "carriage")
    tax, total = _sum_of(lines, "tax"), _last_of(lines, "total")
    return Invoice(
        tuple(lines), carriage, tax, total, _currency(text), _doubt(lines, carriage, tax, total)
    )


def _line(typed: str) -> InvoiceLine:
    prices = [found for found in map(_amount, _PRICES.findall(typed)) if found is not None]
    words = _PRICES.sub(" ", typed)
    if _TOTAL.search(words):
        return InvoiceLine(typed, "total", price=prices[-1] if prices else None)
    if _TAX.search(words) and prices:
        return InvoiceLine(typed, "tax", price=prices[-1])
    if _CARRIAGE.search(words) and prices:
        return InvoiceLine(typed, "carriage", price=prices[-1])
    count, words = _count(words)
    number, title = _number(words)
    if not title or (not prices and count is None):
        return InvoiceLine(typed, "not understood", title=title)
    return _item(typed, count, number, title, prices)


def _item(
    typed: str, count: int | None, number: str, title: str, prices: list[Decimal]
) -> InvoiceLine:
    many = count if count is not None else 1
    doubt = "" if count is not None else "no count is written: taken as one"
    if not prices:
        return InvoiceLine(typed, "item", many, title, number, doubt="no price is written")
    if len(prices) == 1:
        each = _share(prices[0], many)
        if many > 1:
            doubt = f"one price is written: taken for all {many}"
        return InvoiceLine(typed, "item", many, title, number, each, prices[0], doubt)
    each, price = prices[0], prices[-1]
    if each * many != price:
        doubt = f"{many} x {each} is not {price}"
    return InvoiceLine(typed, "item", many, title, number, each, price, doubt)


def _share(price: Decimal, many: int) -> Decimal:
    return (price / many).quantize(Decimal("0.01")) if many else price


def _count(words: str) -> tuple[int | None, str]:
    if match := _COUNT_FIRST.match(words):
        return int(match[1]), words[match.end() :]
    if match := _COUNT_LATER.search(words):
        said = next(group for group in match.groups() if group)
        return int(said), f"{words[: match.start()]} {words[match.end() :]}"
    return None, words


def _number(words: str) -> tuple[str, str]:
    tidy = re.sub(r"[\t|;]+", " ", words).strip(" -@\u00b7")
    match = _NUMBER.search(tidy)
    number = ""
    if match and not re.fullmatch(r"M\d+(?:[X/-]\d+)?|\d+/\d+(?:-\d+)?|\d{1,3}", match[0]):
        number = match[0]
        tidy = f"{tidy[: match.start()]} {tidy[match.end() :]}"
    return number, " ".join(tidy.split()).strip(" -@,")


def _amount(written: str) -> Decimal | None:
    bare = re.sub(r"[^\d.,]", "", written)
    whole, sign, cents = bare.rpartition("," if bare.rfind(",") > bare.rfind(".") else ".")
    try:
        return Decimal(f"{re.sub('[.,]', '', whole)}{'.' if sign else ''}{cents}")
    except InvalidOperation:
        return None


def _currency(text: str) -> str:
    signs = (("GBP", "£"), ("EUR", "€"), ("USD", "$"))
    return next((name for name, sign in signs if sign in text or name in text.upper()), "")


def _added_up(lines: Iterator[InvoiceLine]) -> Iterator[InvoiceLine]:
    """Add the same thing up that stands there twice."""
    found: dict[tuple[object, ...], InvoiceLine] = {}
    for at, line in enumerate(lines):
        key: tuple[object, ...] = (line.sort, line.number, line.title.casefold(), line.each)
        known = found.get(key)
        if known is None or line.sort != "item":
            found[key if known is None else (at,)] = line
            continue
        price = line.price + known.price if line.price and known.price else known.price
        found[key] = InvoiceLine(
            known.typed, "item", known.count + line.count, known.title, known.number,
            known.each, price, "stands there twice: added up",
        )  # fmt: skip
    yield from found.values()


def _sum_of(lines: list[InvoiceLine], sort: Sort) -> Decimal | None:
    prices = [line.price for line in lines if line.sort == sort and line.price is not None]
    return sum(prices, Decimal(0)) if prices else None


def _last_of(lines: list[InvoiceLine], sort: Sort) -> Decimal | None:
    prices = [line.price for line in lines if line.sort == sort and line.price is not None]
    return max(prices) if prices else None


def _doubt(
    lines: list[InvoiceLine], carriage: Decimal | None, tax: Decimal | None, total: Decimal | None
) -> str:
    if total is None:
        return ""
    items = sum((line.price for line in lines if line.sort == "item" and line.price), Decimal(0))
    net = items + (carriage or Decimal(0))
    if total in (net, net + (tax or Decimal(0)), items):
        return ""
    return f"the lines come to {net}, and the invoice says {total}"
