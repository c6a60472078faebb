"""An invoice's discount and tax shared out over its lines, to the penny."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_DOWN, Decimal

from bareshell.parts.invoice_lines import PENNY, Invoice

__all__ = ["Charged", "charged", "shared_out"]

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class Charged:
    """What one line comes to once the whole invoice is shared out.

    Parameters
    ----------
    price : Decimal or None
        To pay for all of the line, its discount off and its tax in it; None when no price is
        written.
    off : Decimal
        Its share of the discount.
    tax : Decimal or None
        The tax within the price; None when the invoice has none.
    """

    price: Decimal | None
    off: Decimal = NOTHING
    tax: Decimal | None = None


def shared_out(amount: Decimal, weights: Sequence[Decimal]) -> tuple[Decimal, ...]:
    """Share an amount out by weights so that the shares add up to it, to the penny.

    Examples
    --------
    >>> [str(one) for one in shared_out(Decimal("1.00"), [Decimal(1)] * 3)]
    ['0.34', '0.33', '0.33']
    >>> shared_out(Decimal("1.00"), [Decimal(0)])
    (Decimal('0'),)
    """
    whole = sum(weights, NOTHING)
    if not whole:
        return tuple(NOTHING for _ in weights)
    exact = [amount * weight / whole for weight in weights]
    shares = [one.quantize(PENNY, ROUND_DOWN) for one in exact]
    left = int(((amount - sum(shares, NOTHING)) / PENNY).to_integral_value())
    turn = sorted(range(len(exact)), key=lambda at: (shares[at] - exact[at], at))
    for at in turn[:left]:
        shares[at] += PENNY
    return tuple(shares)


def charged(invoice: Invoice) -> tuple[tuple[Charged, ...], Charged]:
    r"""Say what each thing on an invoice comes to, and its carriage.

    Returns
    -------
    tuple of Charged, Charged
        For the things in their order; for the carriage, whose price is None without any.

    Examples
    --------
    >>> from bareshell.parts.invoice_lines import read_invoice
    >>> found = read_invoice("1 Hose 8.00 8.00\nPostage 2.00\nVAT 2.00\nTotal 12.00")
    >>> lines, carriage = charged(found)
    >>> str(lines[0].price), str(lines[0].tax), str(carriage.price)
    ('9.60', '1.60', '2.40')
    """
    prices = [line.price for line in invoice.items]
    known = [price or NOTHING for price in prices]
    offs = shared_out(invoice.discount or NOTHING, known)
    net = [price - off for price, off in zip(known, offs, strict=True)]
    carriage = invoice.carriage
    weights = [max(NOTHING, one) for one in (*net, carriage or NOTHING)]
    taxes = shared_out(invoice.tax or NOTHING, weights)
    on_top = bool(invoice.tax_on_top)

    def one(price: Decimal | None, net: Decimal, off: Decimal, tax: Decimal) -> Charged:
        if price is None:
            return Charged(None)
        whole = net + tax if on_top else net
        return Charged(whole, off, tax if invoice.tax is not None else None)

    lines = tuple(
        one(price, left, off, tax)
        for price, left, off, tax in zip(prices, net, offs, taxes[:-1], strict=True)
    )
    return lines, one(carriage, carriage or NOTHING, NOTHING, taxes[-1])
