"""A parcel's list as a spreadsheet, to be sent to a supplier or kept beside the telephone."""

from __future__ import annotations

from bareshell.errors import NotFound
from bareshell.io.sheets.export import SheetFormat, Table, write_csv, write_xlsx
from bareshell.whole.order_list import OrderGroup, OrderList

HEADERS = ("Qty", "Part", "Size", "Order by", "Wanted on", "For the job", "May cost", "Ask first")


def order_sheet(found: OrderList, supplier: str, form: SheetFormat) -> bytes:
    """Write the list of one supplier.

    Parameters
    ----------
    found : OrderList
        What is to be ordered.
    supplier : str
        Whose list; empty for what has no supplier yet.
    form : str
        ``xlsx`` or ``csv``.

    Raises
    ------
    NotFound
        When nothing is to be ordered from there.
    """
    group = next((one for one in found.groups if one.supplier == supplier), None)
    if group is None:
        raise NotFound(f"nothing is to be ordered from '{supplier}'", "look at the order list")
    table = _table(group)
    return write_xlsx(table) if form == "xlsx" else write_csv(table)


def _table(group: OrderGroup) -> Table:
    rows = tuple(
        (
            line.quantity,
            line.title,
            line.size,
            line.order_by,
            line.needed_on,
            line.job_title,
            f"{line.guess.low.amount:f} to {line.guess.high.amount:f} {line.guess.low.currency}"
            if line.guess
            else "",
            f"{line.questions} open" if line.questions else "",
        )
        for line in group.lines
    )
    return Table("To order", HEADERS, rows)
