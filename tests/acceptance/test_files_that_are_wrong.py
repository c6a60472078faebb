"""Files brought in that are cut short, spoilt, or of something else: nothing lands, and why."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path

import pytest

from bareshell.app.door import Door
from bareshell.model import changes as c
from bareshell.model.car import Car
from tests.acceptance.at_the_terminal import Terminal, typed_in, unchanged
from tests.acceptance.conftest import latest

JOB = '[[job]]\nid = "{0}"\ntitle = "{1}"\nsystem = "brakes"\n'
GATE = '[[gate]]\nid = "{0}"\ntitle = "Gate {0}"\nafter = ["{1}"]\n'
ORDER = '[[order]]\nid = "o"\ntitle = "O"\nneed = "hose"\n'
REPEATED = '[[session]]\nid = "z"\ntitle = "Z"\nrule = "{0}"\nstarts = 10:00:00\nminutes = 9\n'
ONE = JOB.format("one", "One")
BUILD_FILES: dict[str, tuple[str, str]] = {
    "jobs in a circle": (
        ONE + 'after = ["two"]\n' + JOB.format("two", "Two") + 'after = ["one"]\n',
        "line 2, job 'One', after: these jobs would wait for each other: One -> Two -> One. Take",
    ),
    "a job after itself": (ONE + 'after = ["one"]\n', "job one cannot come after itself"),
    "gates in a circle": (
        GATE.format("g", "h") + GATE.format("h", "g"),
        "these gates would wait for each other: Gate g -> Gate h -> Gate g",
    ),
    "an unknown predecessor": (
        ONE + 'after = ["tonk"]\n',
        "line 2, job 'One', after: there is no job 'tonk'. Did you mean 'tank'?",
    ),
    "negative hours": (
        ONE + "ways = [{people = 1, hours = [-1, 1, 2]}]\n",
        "ways, way 1, hours: -1 is no number of hours. Write hours such as 2.5.",
    ),
    "hours out of order": (
        ONE + "ways = [{people = 1, hours = [3, 2, 1]}]\n",
        "hours must rise from optimistic through likely to pessimistic",
    ),
    "hours without end": (
        ONE + "ways = [{people = 1, hours = [1, 2, inf]}]\n",
        "inf is no number of hours",
    ),
    "seven people": (ONE + "ways = [{people = 7, hours = [1, 2, 3]}]\n", "one or two people"),
    "no such system": (ONE.replace("brakes", "wings"), "system: 'wings' is no system. The words"),
    "no such word": (ONE + 'colour = "red"\n', "colour: there is no such key here"),
    "a session that ends before it starts": (
        '[[held]]\nid = "s"\nstarted_at = 2026-03-01T20:00:00Z\nended_at = 2026-03-01T18:00:00Z\n',
        "it ends (01 Mar 18:00) before it starts (01 Mar 20:00); swap the two or correct one",
    ),
    "a session of a year": (
        '[[held]]\nid = "s"\nstarted_at = 2025-03-01T20:00:00Z\nended_at = 2026-03-01T22:00:00Z\n',
        "session: it would have lasted 8762 hours",
    ),
    "a session to come": (
        '[[held]]\nid = "s"\nstarted_at = 2126-03-01T20:00:00Z\nended_at = 2126-03-01T22:00:00Z\n',
        "is still to come. Write when it did happen",
    ),
    "the hour that never was": (
        '[[held]]\nid = "s"\nstarted_at = 2025-03-30T01:30:00\nended_at = 2025-03-30T03:30:00\n',
        "never was: the clocks went forward over it",
    ),
    "the hour that was twice": (
        '[[held]]\nid = "s"\nstarted_at = 2025-10-26T01:30:00\nended_at = 2025-10-26T03:30:00\n',
        "2025-10-26 01:30 was twice: the clocks went back that night. Write 2025-10-26T01:30",
    ),
    "a proof that covers itself": (
        '[[proof]]\nid = "p"\ntitle = "Dry"\nmade_by = ["tank"]\ncovered_by = ["tank"]\n',
        "proof p would be covered by tank, the very job that makes or proves it",
    ),
    "minus four parts": (
        '[[need]]\nid = "n"\ntitle = "N"\njob = "tank"\nquantity = -4\n',
        "quantity: -4 is too few. Write 1 or more.",
    ),
    "parts beyond counting": (
        f'[[need]]\nid = "n"\ntitle = "N"\njob = "tank"\nquantity = {10**23}\n',
        "quantity: 1e+23 is beyond counting",
    ),
    "no such day": (
        ORDER + 'ordered_on = "31/02/2026"\n',
        "ordered_on: '31/02/2026' is no day. Write it as 2026-03-04",
    ),
    "due before it was ordered": (
        ORDER + "ordered_on = 2026-03-01\nexpected_on = 2026-02-01\n",
        "2026-02-01 is before it was ordered, on 2026-03-01",
    ),
    "a rule that never ends": (
        REPEATED.format("FREQ=SECONDLY"),
        "'FREQ=SECONDLY' does not repeat by the day. Write it as FREQ=WEEKLY;BYDAY=MO,WE.",
    ),
    "every nought weeks": (
        REPEATED.format("FREQ=WEEKLY;INTERVAL=0"),
        "every 0 is no interval",
    ),
    "a letter that is none": (ONE.replace("One", "O\\u0000ne"), "cannot be shown (U+0000)"),
    "a name that is an address": (
        JOB.format("../one two", "One"),
        "short name: '../one two' cannot be one. Use up to 150 letters, figures",
    ),
    "a title without end": (JOB.format("one", "x" * 200_000), "200000 letters are too many"),
    "twice the same": (ONE + ONE, "line 6, job 'one': it is there twice: line 2"),
    "a newer form": ("format = 99\n", "99 is a newer format than this bareshell reads"),
    "cut short": ('[[job]]\nid = "one"\ntitle = ', "it cannot be read from here on"),
}


@pytest.fixture
def in_london(garage: Path) -> Path:
    """The car in a zone where the clocks change."""
    with Door.open(garage) as door:
        door.record(c.CarDescribed(Car("Test mule", invented=True, zone="Europe/London")))
    return garage


@pytest.mark.parametrize("what", BUILD_FILES)
def test_a_build_file_says_its_line_and_nothing_of_it_lands(
    terminal: Terminal, in_london: Path, tmp_path: Path, what: str
) -> None:
    text, answer = BUILD_FILES[what]
    file = tmp_path / "car.toml"
    good = (
        '\n[[departure]]\nid = "d"\ntitle = "D"\nsystem = "brakes"\nwhat_was = "a"\nwhat_is = "b"\n'
    )
    start = "" if "format" in text else "format = 1\n"
    file.write_text(start + text + ("" if text.endswith("= ") else good), "utf-8")
    with unchanged(lambda: latest(in_london)):
        said = terminal("import", file, "--yes")
    assert said.code == 2
    assert answer in " ".join((said.out + said.err).split())


SHEETS: dict[str, tuple[str, str]] = {
    "of the weather": ("Rainfall,Wind\n3,SW\n", "no row of headers was found"),
    "of invoices": (
        "Date,Customer,Total\n2026-01-01,Someone,12.50\n",
        "no column names the things in it",
    ),
    "with odd quantities": (
        "Part,Qty,Job\nBolt,-4,Tank\nNut,1e30,Tank\nPin,abc,Tank\n",
        "row 3, cell B3: '1e30' is no number of things. Write how many",
    ),
    "with jobs in a circle": (
        "Job,System,After,Hours\nA one,brakes,B one,1\nB one,brakes,A one,1\n",
        "row 2, after: these jobs would wait for each other: A one -> B one -> A one",
    ),
    "with jobs nobody knows": (
        "Job,System,After,Hours\nA,brakes,Nonesuch,1\nC,wings,,-3\n",
        "row 2, cell C2: there is no job 'Nonesuch'",
    ),
    "without a job": ("Part,Qty\nBolt,4\n", "it does not say which job wants it"),
    "of nothing": ("", "it is empty. Save it again"),
    "of bytes": ("Part,Qty\nA\0B,1\n", "it is neither a spreadsheet nor text"),
    "too wide": (",".join(f"c{n}" for n in range(300)) + "\n1,2\n", "at most 20,000 rows and 200"),
}


@pytest.mark.parametrize("what", SHEETS)
def test_a_sheet_says_its_cell_and_nothing_of_it_lands(
    terminal: Terminal, garage: Path, tmp_path: Path, what: str
) -> None:
    text, answer = SHEETS[what]
    file = tmp_path / "list.csv"
    file.write_text(text, "utf-8")
    with unchanged(lambda: latest(garage)):
        said = terminal("import", file, "--yes")
    assert said.code == 2
    assert answer in said.out + said.err


def test_a_file_of_another_kind_is_called_what_it_is(
    terminal: Terminal, garage: Path, tmp_path: Path
) -> None:
    file = tmp_path / "file"
    for start, what in (
        (b"%PDF-1.7 ...", "it is a PDF"),
        (b"\x89PNG\r\n\x1a\n....", "it is a picture"),
        (b"\xff\xd8\xff\xe0....", "it is a photograph"),
        ((garage / "journal.db").read_bytes(), "it is a database"),
    ):
        file.write_bytes(start)
        said = terminal("import", file, "--yes")
        assert said.code == 2
        assert what in said.err


def test_a_sheet_or_an_archive_cut_short_anywhere_is_said_to_be(
    terminal: Terminal, garage: Path, tmp_path: Path
) -> None:
    sheet, archive = tmp_path / "jobs.xlsx", tmp_path / "all.zip"
    assert terminal("export", "jobs", sheet).code == 0
    assert terminal("export", "archive", archive).code == 0
    back = tmp_path / "back"
    for path in (sheet, archive):
        whole = path.read_bytes()
        for share in (0.001, 0.1, 0.5, 0.9, 0.999):
            path.write_bytes(whole[: int(len(whole) * share)])
            with unchanged(lambda: latest(garage)):
                said = terminal("import", path, "--yes")
            assert said.code in (2, 6), share
            assert "cut short" in said.err or "it is empty" in said.err
            if path is archive:
                said = typed_in("import", path, "--into", back)
                assert said.code == 6
                assert "cut short" in said.err
                assert not back.exists()


def test_a_list_that_unpacks_to_a_mountain_is_put_down_again(
    terminal: Terminal, tmp_path: Path
) -> None:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as book:
        book.writestr("xl/workbook.xml", "<x/>")
        book.writestr("xl/worksheets/sheet1.xml", b"0" * 150_000_000)
    file = tmp_path / "mountain.xlsx"
    file.write_bytes(packed.getvalue())
    said = terminal("import", file, "--yes")
    assert said.code == 2
    assert "which no list needs" in said.err


def test_an_archive_is_put_only_where_nothing_is(
    terminal: Terminal, garage: Path, tmp_path: Path
) -> None:
    archive = tmp_path / "all.zip"
    terminal("export", "archive", archive)
    with unchanged(lambda: latest(garage)):
        said = typed_in("import", archive, "--into", garage)
    assert said.code == 5
    assert "nothing is written over" in said.err
    again = terminal("export", "archive", archive)
    assert again.code == 5
