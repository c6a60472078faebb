"""Spreadsheets as owners keep them already: read, understood and shown before anything lands.

``read_grids`` reads Excel's, OpenDocument's and CSV files; ``preview_sheets`` says what each
sheet, column and row is taken to mean and what is wrong, cell by cell; ``accept`` hands out the
changes, all or none. ``write_sheet`` writes lists for other programs.
"""

from bareshell.io.sheets.export import SheetFormat as SheetFormat
from bareshell.io.sheets.export import write_sheet as write_sheet
from bareshell.io.sheets.grid import Grid as Grid
from bareshell.io.sheets.grid import read_grids as read_grids
from bareshell.io.sheets.meanings import Meaning as Meaning
from bareshell.io.sheets.meanings import SheetKind as SheetKind
from bareshell.io.sheets.preview import Choices as Choices
from bareshell.io.sheets.preview import Preview as Preview
from bareshell.io.sheets.preview import RowChoice as RowChoice
from bareshell.io.sheets.preview import RowState as RowState
from bareshell.io.sheets.preview import accept as accept
from bareshell.io.sheets.understand import preview_sheet as preview_sheet
from bareshell.io.sheets.understand import preview_sheets as preview_sheets
