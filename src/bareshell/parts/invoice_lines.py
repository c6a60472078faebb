"""A supplier's invoice pasted as text, read line by line: how many of what, at what price.

Invoices have no one form. What is tried, in this order: a count, a part number, words, a price for
each and a price for all; what is wrapped over several lines is put together again; totals,
carriage, tax and discounts are told apart by their words. A line that is not understood is kept as
it was typed, never dropped and never guessed at.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from bareshell.parts.invoice_words import (
    Piece,
    Sort,
    currency_of,
    is_head,
    is_table_head,
    names_tax,
    read_piece,
)

__all__ = ["Invoice", "InvoiceLine", "read_invoice"]

PENNY = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class InvoiceLine:
    """One line as it was read.

    Parameters
    ----------
    typed : str
        As it stood in the text; what was wrapped, on one line.
    sort : str
        ``item``, ``carriage``, ``tax``, ``total``, ``discount``, ``credit`` or
        ``not understood``.
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
    discount : Decimal or None
        What is taken off the whole of it, above 0.
    credits : Decimal or None
        What is paid back on it for other things, above 0.
    tax_on_top : bool or None
        Whether the tax comes on top of the lines; False when it is within them, None without tax.
    """

    lines: tuple[InvoiceLine, ...]
    carriage: Decimal | None = None
    tax: Decimal | None = None
    total: Decimal | None = None
    currency: str = ""
    doubt: str = ""
    discount: Decimal | None = None
    credits: Decimal | None = None
    tax_on_top: bool | None = None

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
    ... 2    Hose, rear,
    ...      with washers                  9.00 18.00
    ... Postage 3.50
    ... Total £22.30
    ... ''')
    >>> [(line.count, line.number, line.title, str(line.price)) for line in found.items]
    [(4, 'QF-3310', 'Nyloc nut 5/16 UNF', '0.80'), (2, '', 'Hose, rear with washers', '18.00')]
    >>> str(found.carriage), str(found.total), found.currency, found.doubt
    ('3.50', '22.30', 'GBP', '')
    """
    lines = list(_added_up(_put_together(_body(text))))
    items = sum((line.price for line in lines if line.sort == "item" and line.price), Decimal(0))
    lines = [_taken_off(line, items) for line in lines]
    carriage, tax = _sum_of(lines, "carriage"), _sum_of(lines, "tax")
    total = _largest_of(lines, "total")
    discount, back = _sum_of(lines, "discount"), _sum_of(lines, "credit")
    net = items + (carriage or Decimal(0)) - (discount or Decimal(0)) - (back or Decimal(0))
    included = any(line.sort == "tax" and read_piece(line.typed).included for line in lines)
    return Invoice(
        tuple(lines),
        carriage,
        tax,
        total,
        currency_of(text),
        _doubt(net, items, tax, total),
        discount,
        back,
        None if tax is None else not (included or total == net),
    )


def _body(text: str) -> list[Piece]:
    """Take the lines apart, without the addresses above the heads of the columns."""
    typed = [line for line in text.splitlines() if line.strip()]
    pieces = [read_piece(line) for line in typed]
    head = next((at for at, line in enumerate(typed) if is_table_head(line)), None)
    if head is not None and not any(piece.prices for piece in pieces[:head]):
        pieces = pieces[head + 1 :]
    return [piece for piece in pieces if not is_table_head(piece.typed)]


class _Open:
    """A thing whose lines are not all read yet."""

    def __init__(self, piece: Piece) -> None:
        self.first, self.pieces = piece, [piece]

    @property
    def prices(self) -> tuple[Decimal, ...]:
        return next((one.prices for one in self.pieces if one.prices), ())

    def goes_on_with(self, piece: Piece) -> bool:
        """Whether a line goes on with it: more words, or the prices that were missing."""
        if piece.labelled:
            return self.first.count is None and not self.prices
        if piece.sort not in ("item", "not understood") or is_head(piece):
            return False
        if self.prices:
            further_in = piece.indent >= self.first.indent + 2
            return piece.count is None and not piece.prices and further_in
        return piece.count is None

    def line(self) -> InvoiceLine:
        """Make the line that its pieces come to."""
        count = next((one.count for one in self.pieces if one.count is not None), None)
        title = " ".join(one.title for one in self.pieces if one.title)
        number = next((one.number for one in self.pieces if one.number), "")
        typed = " ".join(one.typed.strip() for one in self.pieces)
        rate = next((one.rate for one in self.pieces if one.rate is not None), None)
        if not title or (not self.prices and count is None):
            return InvoiceLine(typed, "not understood", title=title)
        if not any(one.pairs for one in self.pieces) or count is None:
            return _item(typed, count, number, title, self.prices, rate)
        pairs = _item(typed, count // 2, number, title, self.prices, rate)
        doubt = f"counted in pairs: {count // 2} of them are {count} pieces"
        each = None if pairs.price is None else _share(pairs.price, count)
        doubt = "; ".join(one for one in (pairs.doubt, doubt) if one)
        return replace(pairs, count=count, each=each, doubt=doubt)


def _put_together(pieces: list[Piece]) -> Iterator[InvoiceLine]:
    """Put the lines of one thing together again, and leave the others as they are."""
    priced = any(piece.prices for piece in pieces)
    begun = False  # above the first price an unpriced count is an address
    open_: _Open | None = None
    for at, piece in enumerate(pieces):
        if open_ is not None and open_.goes_on_with(piece):
            open_.pieces.append(piece)
            begun = begun or bool(piece.prices)
            continue
        if open_ is not None:
            yield open_.line()
            open_ = None
        if piece.sort in ("carriage", "tax", "total", "discount", "credit"):
            yield from _sum_lines(piece)
        elif is_head(piece) and not piece.prices:
            continue
        elif priced and not begun and not piece.prices and not _priced_soon(pieces, at):
            yield InvoiceLine(piece.typed, "not understood", title=piece.title)
        else:
            begun = begun or bool(piece.prices)
            open_ = _Open(piece)
    if open_ is not None:
        yield open_.line()


def _priced_soon(pieces: list[Piece], at: int) -> bool:
    """Whether the lines that go on with a piece come to a price."""
    thing = _Open(pieces[at])
    for piece in pieces[at + 1 : at + 4]:
        if not thing.goes_on_with(piece):
            return False
        if piece.prices:
            return True
        thing.pieces.append(piece)
    return False


def _sum_lines(piece: Piece) -> Iterator[InvoiceLine]:
    """Make a line that is no thing: a sum, or a part of one, or a total with the tax within it."""
    price = piece.prices[-1] if piece.prices else None
    if piece.sort == "total" and price is not None:
        price = max(piece.prices)
        if len(piece.prices) == 2 and piece.included and names_tax(piece.typed):
            yield InvoiceLine(piece.typed, "tax", title=piece.title, price=min(piece.prices))
    if piece.sort in ("discount", "credit") and price is not None:
        price = abs(price)
    doubt = ""
    if piece.sort == "discount" and price is None and piece.rate is not None:
        doubt = f"{piece.rate} percent of the things"
    yield InvoiceLine(piece.typed, piece.sort, title=piece.title, price=price, doubt=doubt)


def _taken_off(line: InvoiceLine, items: Decimal) -> InvoiceLine:
    """Reckon a discount that is written as a rate alone."""
    if line.sort != "discount" or line.price is not None:
        return line
    rate = read_piece(line.typed).rate
    price = (items * rate / 100).quantize(PENNY) if rate is not None else None
    return replace(line, price=price)


def _item(
    typed: str,
    count: int | None,
    number: str,
    title: str,
    prices: tuple[Decimal, ...],
    rate: Decimal | None,
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
    placed = _without_place(title, each, price) if each * many != price else None
    if placed is not None:
        many, title = placed
        doubt = ""
    elif (
        each * many != price and rate and (each * many * (100 - rate) / 100 - price).copy_abs() < 1
    ):
        doubt = f"{rate} percent off is within it" if price < each * many else ""
    elif each * many != price:
        doubt = f"{many} x {each} is not {price}"
    return InvoiceLine(typed, "item", many, title, number, each, price, doubt)


def _without_place(title: str, each: Decimal, price: Decimal) -> tuple[int, str] | None:
    """Find the count that the prices agree with: ``1 5 Pins 0.45 2.25`` are five, ``1`` its place.

    It may stand before the words or, as in a table, behind them.
    """
    first, _, rest = title.partition(" ")
    if first.isdecimal() and rest and int(first) * each == price:
        return int(first), rest
    rest, _, last = title.rpartition(" ")
    if last.isdecimal() and rest and int(last) * each == price:
        return int(last), rest
    return None


def _share(price: Decimal, many: int) -> Decimal:
    return (price / many).quantize(PENNY) if many else price


def _added_up(lines: Iterable[InvoiceLine]) -> Iterator[InvoiceLine]:
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


def _largest_of(lines: list[InvoiceLine], sort: Sort) -> Decimal | None:
    prices = [line.price for line in lines if line.sort == sort and line.price is not None]
    return max(prices) if prices else None


def _doubt(net: Decimal, items: Decimal, tax: Decimal | None, total: Decimal | None) -> str:
    if total is None or total in (net, net + (tax or Decimal(0)), items):
        return ""
    on_top = f"; with the tax they come to {net + tax}" if tax else ""
    return f"the lines come to {net}, and the invoice says {total}{on_top}"
