"""Lists written for other programs: read back the same, and never taken for formulas."""

from __future__ import annotations

import csv
import io
from datetime import date
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook

from bareshell.errors import BadInput
from bareshell.io.sheets import (
    RowState,
    SheetKind,
    accept,
    preview_sheets,
    read_grids,
    write_sheet,
)
from bareshell.io.sheets.export import SheetFormat, Table, table_of, write_csv, write_xlsx
from bareshell.model import changes as c
from bareshell.model.part import Holding
from tests.io.builds import NOW, some_build
from tests.stories import later, small_car

FORMS: tuple[SheetFormat, ...] = ("xlsx", "csv")


@pytest.mark.parametrize("kind", SheetKind)
@pytest.mark.parametrize("form", FORMS)
def test_a_written_list_comes_back_as_what_is_there_already(
    kind: SheetKind, form: SheetFormat
) -> None:
    build = later(
        small_car(),
        c.JobFinished("rear-pipe", 2),
        c.JobLeftOut("seam"),
        c.HoldingSet(Holding("washers", "washers", 3, where="-box", note="+1 spare")),
    )
    data = write_sheet(build, kind, form)
    [preview] = preview_sheets(build, read_grids(data, f"list.{form}"), NOW)
    assert preview.kind is kind
    assert {row.state for row in preview.rows} == {RowState.THERE}
    assert not any("the sheet has another" in row.words for row in preview.rows)
    assert not preview.stopped_by
    assert not accept(preview)


@given(st.integers(0, 100_000), st.sampled_from(SheetKind), st.sampled_from(FORMS))
@settings(max_examples=20)
def test_nothing_of_a_written_list_is_added_again(
    number: int, kind: SheetKind, form: SheetFormat
) -> None:
    build = some_build(number)
    if not table_of(build, kind).rows:
        return
    data = write_sheet(build, kind, form)
    [preview] = preview_sheets(build, read_grids(data, f"list.{form}"), NOW)
    # Titles that are empty or look like headings may be passed over; none becomes a new thing.
    assert RowState.NEW not in {row.state for row in preview.rows}


DANGEROUS = ("=1+1", "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)", "\t=1", " =1", "\uff1d1", "\r=1")


def _table(*words: str) -> Table:
    return Table("List", ("Part", "Qty"), tuple((each, -4) for each in words))


def test_words_like_a_formula_are_words_in_csv() -> None:
    # What spreadsheets take for a formula: OWASP, "CSV Injection" (from memory).
    text = write_csv(_table(*DANGEROUS)).decode("utf-8-sig")
    for row in list(csv.reader(io.StringIO(text, newline="")))[1:]:
        assert row[0].startswith("'")
        assert row[1] == "-4"  # a figure below zero stays a figure


def test_words_like_a_formula_are_words_in_xlsx() -> None:
    sheet = load_workbook(io.BytesIO(write_xlsx(_table(*DANGEROUS)))).active
    assert sheet is not None
    cells: list[Any] = [row[0] for row in sheet.iter_rows(min_row=2)]
    assert len(cells) == len(DANGEROUS)
    assert all(cell.data_type == "s" and cell.quotePrefix for cell in cells)
    assert cells[0].value == "=1+1"


@given(st.lists(st.text(max_size=30), max_size=6))
@settings(max_examples=50)
def test_no_cell_of_a_csv_begins_like_a_formula(words: list[str]) -> None:
    text = write_csv(_table(*words)).decode("utf-8-sig")
    for row in csv.reader(io.StringIO(text, newline="")):
        assert not row[0].lstrip().startswith(("=", "+", "-", "@"))


def test_days_and_figures_are_days_and_figures_in_xlsx() -> None:
    sheet = load_workbook(io.BytesIO(write_sheet(small_car(), SheetKind.ORDERS, "xlsx"))).active
    assert sheet is not None
    row = [cell.value for cell in next(iter(sheet.iter_rows(min_row=2)))]
    assert row[3] == 1
    assert row[5].date() == date(2026, 2, 20)  # type: ignore[union-attr]
    assert sheet.freeze_panes == "A2"


def test_another_form_is_refused() -> None:
    with pytest.raises(BadInput, match="'pdf' cannot be written"):
        write_sheet(small_car(), SheetKind.JOBS, "pdf")  # type: ignore[arg-type]
