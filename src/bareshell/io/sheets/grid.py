"""A spreadsheet or CSV file as plain rows of cells, each with its address.

Reading is done by python-calamine, for Excel's and OpenDocument's files alike. It reads values
only: formulas and macros never run.
"""

from __future__ import annotations

import io
import zipfile
import zlib
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from typing import Any

from bareshell.errors import BadInput, Damaged
from bareshell.io.sheets.csv_text import read_csv

__all__ = [
    "LARGEST_BYTES",
    "MOST_COLUMNS",
    "MOST_ROWS",
    "Cell",
    "Grid",
    "column_letters",
    "read_grids",
]

Cell = str | float | int | bool | date | datetime | time | timedelta | None

LARGEST_BYTES = 10_000_000
"""A list of parts is far smaller; more than this is something else."""

LARGEST_UNPACKED = 100_000_000
"""What a spreadsheet may unpack to: a small file can be made to unpack to terabytes."""

MOST_ROWS = 20_000
MOST_COLUMNS = 200

_ZIP = b"PK\x03\x04"
_ZIP_FAULTS = (
    zipfile.BadZipFile,
    zlib.error,
    EOFError,
    OSError,
    ValueError,
    RuntimeError,
)
"""What the standard library answers to a spoilt zip, or to one of a later kind."""

_OLD_EXCEL = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"


@dataclass(frozen=True, slots=True)
class Grid:
    """One sheet of a file.

    Parameters
    ----------
    name : str
        The sheet's own name; the file's for a CSV.
    rows : tuple of tuple of Cell
        From the very first row and column, so that addresses are the sheet's own.
    comma : bool
        Whether it was written where a comma parts the whole from the fraction.
    """

    name: str
    rows: tuple[tuple[Cell, ...], ...]
    comma: bool = False

    @property
    def is_empty(self) -> bool:
        """Whether nothing is written in it."""
        return not any(cell is not None for row in self.rows for cell in row)


def column_letters(column: int) -> str:
    """Return a column's letters, counted from 0.

    Examples
    --------
    >>> column_letters(2), column_letters(27)
    ('C', 'AB')
    """
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def read_grids(data: bytes, name: str) -> tuple[Grid, ...]:
    r"""Read every sheet of a file that has something in it.

    Parameters
    ----------
    data : bytes
        The file.
    name : str
        Its name, for the words; what it is shows in its content.

    Raises
    ------
    Damaged
        When it is cut short, spoilt or protected by a password.
    BadInput
        When it is empty, too large, or no sheet at all.

    Examples
    --------
    >>> [grid] = read_grids(b"Part;Qty\nnut;4\n", "parts.csv")
    >>> grid.rows[1]
    ('nut', '4')
    """
    if not data.strip():
        raise BadInput(f"'{name}'", "it is empty", "save it again and bring it in once more")
    if len(data) > LARGEST_BYTES:
        raise BadInput(
            f"'{name}'",
            f"{len(data) / 1e6:.0f} MB is too large for a list",
            "save only the sheet with the list, without pictures",
        )
    if data.startswith((_ZIP, _OLD_EXCEL)):
        grids = _workbook(data, name)
    else:
        rows, comma = read_csv(data, name)
        grids = [Grid(name.rsplit(".", 1)[0], rows, comma)]
    grids = [grid for grid in grids if not grid.is_empty]
    if not grids:
        raise BadInput(f"'{name}'", "nothing is written in it", "bring in the file with the list")
    for grid in grids:
        _check_size(grid, name)
    return tuple(grids)


def _check_size(grid: Grid, name: str) -> None:
    wide = max(len(row) for row in grid.rows)
    if len(grid.rows) > MOST_ROWS or wide > MOST_COLUMNS:
        raise BadInput(
            f"'{name}', sheet '{grid.name}'",
            f"{len(grid.rows):,} rows and {wide} columns are too many",
            f"bring in at most {MOST_ROWS:,} rows and {MOST_COLUMNS} columns",
        )


def _workbook(data: bytes, name: str) -> list[Grid]:
    from python_calamine import CalamineError, CalamineWorkbook, PasswordError, SheetTypeEnum

    cut = Damaged(
        f"'{name}' cannot be read as a spreadsheet: it is cut short or spoilt",
        "open it where it was made, save it again, and bring that in",
    )
    locked = Damaged(
        f"'{name}' is protected by a password",
        "save it without one, as .xlsx, .ods or .csv, and bring that in",
    )
    if data.startswith(_ZIP):
        _check_unpacked(data, name, cut)
    elif b"E\0n\0c\0r\0y\0p\0t\0e\0d\0P\0a\0c\0k\0a\0g\0e" in data:
        raise locked
    try:
        book = CalamineWorkbook.from_filelike(io.BytesIO(data))
        sheets = [each.name for each in book.sheets_metadata if each.typ == SheetTypeEnum.WorkSheet]
        return [_grid(book.get_sheet_by_name(sheet)) for sheet in sheets]
    except PasswordError as error:
        raise locked from error
    except (CalamineError, OSError, ValueError) as error:
        raise cut from error
    except BaseException as error:
        # The reader is compiled; on a spoilt file it may give up as no exception of Python's.
        if type(error).__name__ == "PanicException":
            raise cut from error
        raise


def _check_unpacked(data: bytes, name: str, cut: Damaged) -> None:
    """Unpack it once for its checksums, before a reader that trusts what it says of its size."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            infos = packed.infolist()
            if any(info.flag_bits & 1 for info in infos):
                raise Damaged(f"'{name}' is protected by a password", "save it without one")
            unpacked = sum(info.file_size for info in infos)
            if unpacked > LARGEST_UNPACKED:
                raise BadInput(
                    f"'{name}'",
                    f"it unpacks to {unpacked / 1e6:.0f} MB, which no list needs",
                    "save only the sheet with the list",
                )
            spoilt = packed.testzip()
    except _ZIP_FAULTS as error:
        raise cut from error
    if spoilt is not None:
        raise cut


def _grid(sheet: Any) -> Grid:  # noqa: ANN401 - the compiled reader's own type
    if sheet.total_height > MOST_ROWS or sheet.total_width > MOST_COLUMNS:
        raise BadInput(
            f"sheet '{sheet.name}'",
            f"{sheet.total_height:,} rows and {sheet.total_width} columns are too many",
            f"bring in at most {MOST_ROWS:,} rows and {MOST_COLUMNS} columns",
        )
    rows = [[_cell(each) for each in row] for row in sheet.to_python(skip_empty_area=False)]
    for (top, left), (bottom, right) in sheet.merged_cell_ranges or ():
        # One cell merged down a column speaks for each of its rows; across, only for the first.
        if left == right and top < len(rows) and left < len(rows[top]):
            for row in range(top + 1, min(bottom + 1, len(rows))):
                rows[row][left] = rows[top][left]
    return Grid(sheet.name, tuple(tuple(row) for row in rows))


def _cell(value: Cell) -> Cell:
    if isinstance(value, str):
        return value.strip() or None
    if isinstance(value, float) and value.is_integer() and abs(value) < 1e15:
        return int(value)
    return value
