"""Spreadsheet files made up for tests: what owners might keep. All of it is invented."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any
from xml.sax.saxutils import escape

from openpyxl import Workbook

Rows = Sequence[Sequence[Any]]


def xlsx(sheets: Mapping[str, Rows], merged: Mapping[str, Sequence[str]] | None = None) -> bytes:
    """Make an Excel file of rows, with ranges merged."""
    book = Workbook()
    book.remove(book.active)  # type: ignore[arg-type]
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(list(row))
        for cells in (merged or {}).get(name, ()):
            sheet.merge_cells(cells)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


_ODS = "application/vnd.oasis.opendocument.spreadsheet"
_NAMES = " ".join(
    f'xmlns:{short}="urn:oasis:names:tc:opendocument:xmlns:{full}:1.0"'
    for short, full in (("office", "office"), ("table", "table"), ("text", "text"))
)


def ods(sheets: Mapping[str, Rows]) -> bytes:
    """Make an OpenDocument spreadsheet (OASIS OpenDocument 1.3, part 3) by hand."""
    tables = "".join(
        f'<table:table table:name="{escape(name)}">'
        + "".join(
            f"<table:table-row>{''.join(_ods_cell(cell) for cell in row)}</table:table-row>"
            for row in rows
        )
        + "</table:table>"
        for name, rows in sheets.items()
    )
    content = (
        f'<?xml version="1.0"?><office:document-content {_NAMES} office:version="1.3">'
        f"<office:body><office:spreadsheet>{tables}</office:spreadsheet></office:body>"
        "</office:document-content>"
    )
    manifest = (
        '<?xml version="1.0"?><manifest:manifest '
        'xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0">'
        f'<manifest:file-entry manifest:full-path="/" manifest:media-type="{_ODS}"/>'
        "</manifest:manifest>"
    )
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as packed:
        packed.writestr("mimetype", _ODS, zipfile.ZIP_STORED)
        packed.writestr("content.xml", content)
        packed.writestr("META-INF/manifest.xml", manifest)
    return out.getvalue()


def _ods_cell(cell: Any) -> str:
    if cell is None:
        return "<table:table-cell/>"
    if isinstance(cell, date):
        return (
            f'<table:table-cell office:value-type="date" office:date-value="{cell.isoformat()}">'
            f"<text:p>{cell}</text:p></table:table-cell>"
        )
    if isinstance(cell, int | float):
        return (
            f'<table:table-cell office:value-type="float" office:value="{cell}">'
            f"<text:p>{cell}</text:p></table:table-cell>"
        )
    return (
        '<table:table-cell office:value-type="string">'
        f"<text:p>{escape(str(cell))}</text:p></table:table-cell>"
    )
