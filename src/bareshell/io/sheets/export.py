"""Lists of jobs and parts for other programs, as .xlsx or .csv.

Their headers are the words that are read back, so a list that was written can be brought in
again. Words that begin like a formula are written so that no spreadsheet takes them for one.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any, Literal

from bareshell.errors import BadInput
from bareshell.io.sheets.csv_text import is_like_a_formula
from bareshell.io.sheets.meanings import SheetKind
from bareshell.model.build import Build
from bareshell.model.part import GoodsIn, Money
from bareshell.model.standing import need_standings
from bareshell.whole.spec_words import spec_words

__all__ = ["SheetFormat", "Table", "table_of", "write_csv", "write_sheet", "write_xlsx"]

SheetFormat = Literal["xlsx", "csv"]
Value = str | int | float | Decimal | date | None


@dataclass(frozen=True, slots=True)
class Table:
    """A list ready to be written: its name, its headers, its rows."""

    name: str
    headers: tuple[str, ...]
    rows: tuple[tuple[Value, ...], ...]


def table_of(build: Build, kind: SheetKind) -> Table:
    """Return a list of a build.

    Parameters
    ----------
    build : Build
        Whose list.
    kind : SheetKind
        Which list.

    Examples
    --------
    >>> table_of(Build(), SheetKind.HOLDINGS).headers
    ('Id', 'Part', 'Size', 'Qty', 'Where', 'Condition', 'For the need', 'Notes')
    """
    return _TABLES[kind](build)


def write_sheet(build: Build, kind: SheetKind, form: SheetFormat) -> bytes:
    """Return a list of a build as a file.

    Raises
    ------
    BadInput
        When the form is neither xlsx nor csv.
    """
    table = table_of(build, kind)
    if form == "xlsx":
        return write_xlsx(table)
    if form == "csv":
        return write_csv(table)
    raise BadInput("format", f"'{form}' cannot be written", "write xlsx or csv")


def write_csv(table: Table) -> bytes:
    """Return a table as CSV: UTF-8 with its mark, so that spreadsheets read its letters right.

    Examples
    --------
    >>> write_csv(Table("x", ("Part",), (("=1+1",),))).decode("utf-8-sig").splitlines()
    ['Part', "'=1+1"]
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(table.headers)
    for row in table.rows:
        writer.writerow([_in_csv(value) for value in row])
    return out.getvalue().encode("utf-8-sig")


def _in_csv(value: Value) -> str | int | float:
    if value is None:
        return ""
    if isinstance(value, str):
        return f"'{value}" if is_like_a_formula(value) else value
    return value if isinstance(value, int | float) else str(value)


def write_xlsx(table: Table) -> bytes:
    """Return a table as an Excel file, its header kept in view and its columns wide enough."""
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    book = Workbook(write_only=True)
    sheet = book.create_sheet(table.name)
    sheet.freeze_panes = "A2"
    for number, header in enumerate(table.headers):
        texts = [header, *(str(row[number] or "") for row in table.rows)]
        width = min(max(len(each) for each in texts) + 2, 60)
        sheet.column_dimensions[get_column_letter(number + 1)].width = width
    head = []
    for header in table.headers:
        cell = WriteOnlyCell(sheet, value=header)
        cell.font = Font(bold=True)
        head.append(cell)
    sheet.append(head)
    for row in table.rows:
        cells = []
        for value in row:
            cell = WriteOnlyCell(sheet, value=_in_xlsx(value))
            if isinstance(value, str):
                # Words stay words: never a formula, also after somebody edits the cell.
                cell.data_type = "s"
                cell.quotePrefix = is_like_a_formula(value)
            elif isinstance(value, date):
                cell.number_format = "yyyy-mm-dd"
            cells.append(cell)
        sheet.append(cells)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _in_xlsx(value: Value) -> Any:  # noqa: ANN401 - more kinds of value than its types admit
    """Return a value without the control characters that such a file cannot hold."""
    if not isinstance(value, str):
        return value
    return "".join(each for each in value if each in "\n\t" or ord(each) >= 32)


# --- the lists -----------------------------------------------------------------------------------


def _money(money: Money | None) -> str | None:
    return f"{money.amount:f} {money.currency}" if money is not None else None


def _needs(build: Build) -> Table:
    standings = need_standings(build)
    rows: list[tuple[Value, ...]] = []
    for key, need in build.needs.items():
        record = build.jobs.get(need.job)
        rows.append(
            (
                key,
                need.title,
                spec_words(need.spec),
                need.quantity,
                record.job.title if record is not None else need.job,
                need.needed_to.value,
                standings[key].state.value,
                need.note,
            )
        )
    headers = ("Id", "Part", "Size", "Qty", "Job", "Needed to", "How it stands", "Notes")
    return Table("Parts wanted", headers, tuple(rows))


def _holdings(build: Build) -> Table:
    rows: list[tuple[Value, ...]] = []
    for key, holding in build.holdings.items():
        need = build.needs.get(holding.need or "")
        rows.append(
            (
                key,
                holding.title,
                spec_words(holding.spec),
                holding.quantity,
                holding.where,
                holding.condition,
                need.title if need is not None else "",
                holding.note,
            )
        )
    headers = ("Id", "Part", "Size", "Qty", "Where", "Condition", "For the need", "Notes")
    return Table("On the shelf", headers, tuple(rows))


def _orders(build: Build) -> Table:
    rows: list[tuple[Value, ...]] = []
    for key, record in build.orders.items():
        line = record.line
        need = build.needs.get(line.need or "")
        rows.append(
            (
                key,
                line.title,
                spec_words(line.spec),
                line.quantity,
                line.supplier,
                line.ordered_on,
                line.expected_on,
                _money(line.price),
                _came(record.cancelled, [each.outcome for each in record.deliveries]),
                need.title if need is not None else "",
                line.note,
            )
        )
    headers = (
        "Id",
        "Part",
        "Size",
        "Qty",
        "Supplier",
        "Ordered",
        "Expected",
        "Price",
        "How it came",
        "For the need",
        "Notes",
    )
    return Table("Orders", headers, tuple(rows))


def _came(cancelled: bool, outcomes: Sequence[GoodsIn]) -> str:  # noqa: FBT001 - a fact of it
    if cancelled:
        return "cancelled"
    return ", ".join(each.value for each in outcomes)


def _jobs(build: Build) -> Table:
    rows: list[tuple[Value, ...]] = []
    for key, record in build.jobs.items():
        hours = record.job.ways[0].hours
        three = (hours.optimistic_hours, hours.likely_hours, hours.pessimistic_hours)
        titles = ((each, build.jobs[each].job.title) for each in record.job.after)
        # A title that has the parting mark in it would read back as two.
        after = (each if ";" in title else title for each, title in titles)
        rows.append(
            (
                key,
                record.job.title,
                record.job.system,
                "; ".join(after),
                " / ".join(f"{each:g}" for each in three),
                record.job.ways[0].people,
                record.state.status.value,
                round(record.state.hours_done, 2) or None,
                record.job.note,
            )
        )
    headers = (
        "Id",
        "Job",
        "System",
        "After",
        "Hours",
        "People",
        "Status",
        "Hours done",
        "Notes",
    )
    return Table("Jobs", headers, tuple(rows))


_TABLES: dict[SheetKind, Callable[[Build], Table]] = {
    SheetKind.JOBS: _jobs,
    SheetKind.NEEDS: _needs,
    SheetKind.HOLDINGS: _holdings,
    SheetKind.ORDERS: _orders,
}
