"""A parcel's list as a spreadsheet, to be sent to a supplier or kept beside the telephone."""

from __future__ import annotations

from pathlib import Path

from bareshell.app.exchange import form_of, put
from bareshell.app.written import slug
from bareshell.errors import BadInput, NotFound
from bareshell.io.sheets.export import SheetFormat, Table, write_csv, write_xlsx
from bareshell.plan.wording import listed
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
    plain = supplier.strip().casefold()
    group = next((one for one in found.groups if one.supplier.casefold() == plain), None)
    if group is None:
        names = listed(f"'{one.supplier}'" for one in found.groups if one.supplier)
        remedy = f"something is to be ordered from {names}" if names else "look at the order list"
        raise NotFound(f"nothing is to be ordered from '{supplier}'", remedy)
    table = _table(group)
    return write_xlsx(table) if form == "xlsx" else write_csv(table)


def save_order_sheets(found: OrderList, supplier: str, path: Path) -> tuple[Path, ...]:
    """Write one supplier's list into a file, or into a folder one file for each supplier.

    Parameters
    ----------
    found : OrderList
        What is to be ordered.
    supplier : str
        Whose list; for a folder only this one's, or every one's when it is empty.
    path : Path
        A file that ends in ``.xlsx`` or ``.csv``, or a folder that is there.

    Raises
    ------
    BadInput
        When its ending says neither form, its folder is not there, or nothing is to be ordered.
    NotFound
        When nothing is to be ordered from there.
    """
    if path.is_dir():
        whose = [one.supplier for one in found.groups if not supplier or one.supplier == supplier]
        if not whose:
            raise BadInput("order list", "nothing is to be ordered", "look at the order list")
        return tuple(
            put(path / f"order-{slug(one) if one else 'no-supplier'}.xlsx",
                order_sheet(found, one, "xlsx"))
            for one in whose
        )  # fmt: skip
    return (put(path, order_sheet(found, supplier, form_of(path))),)


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
