"""Owners' own spreadsheets: understood, asked about, and taken whole or not at all."""

from __future__ import annotations

from contextlib import suppress
from datetime import date, time
from decimal import Decimal
from random import Random

import pytest

from bareshell.errors import BadInput, Damaged
from bareshell.io.sheets import (
    Choices,
    Meaning,
    Preview,
    RowChoice,
    RowState,
    SheetKind,
    accept,
    preview_sheets,
    read_grids,
)
from bareshell.io.sheets import grid as grid_module
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.car import Car
from bareshell.model.job import JobStatus
from bareshell.model.part import Holding, Money, Need, NeedState
from bareshell.model.spec import BoltSpec, PlainSpec
from bareshell.model.standing import need_standings
from bareshell.model.trust import ThreePoint
from tests.io.builds import land
from tests.io.sheet_files import Rows, ods, xlsx
from tests.stories import NOW, later, small_car


def seen(
    data: bytes, build: Build | None = None, name: str = "list.csv", **chosen: Choices
) -> Preview:
    """Preview the one sheet of a file."""
    grids = read_grids(data, name)
    choices = {grid.name: chosen["choices"] for grid in grids} if chosen else None
    [preview] = preview_sheets(
        small_car() if build is None else build, grids, NOW, choices=choices, file_name=name
    )
    return preview


def brought_in(build: Build, *previews: Preview) -> Build:
    for at, change in accept(*previews):
        build = land(build, change, at or NOW)
    return build


def said(preview: Preview) -> list[str]:
    return [problem.describe() for problem in preview.every_problem]


PARTS: Rows = (
    ("My parts list, invented", None, None, None, None, None),
    (None, None, None, None, None, None),
    ("Part", "Size", "No. off", "Job", "Supplier", "Notes"),
    ("Copper washer", "10 mm", "x8", "Rear pipe", "the fixings shop", "anneal first"),
    (None, None, None, None, None, None),
    ("Clevis pin", '5/16"', "2 pairs", "rear hose", None, None),
    ("Door seal", None, "1 set", "Door seals", None, "left and right"),
    ("Total", None, 14, None, None, None),
)


@pytest.mark.parametrize("form", ["xlsx", "ods", "csv", "semicolons", "tabs", "old encoding"])
def test_a_list_of_parts_is_understood_in_every_form(form: str) -> None:
    lines = {"csv": ",", "semicolons": ";", "tabs": "\t", "old encoding": ";"}
    if form in lines:
        text = "\n".join(
            lines[form].join('"' + str(cell or "").replace('"', '""') + '"' for cell in row)
            for row in PARTS
        )
        data = text.encode("cp1252" if form == "old encoding" else "utf-8-sig")
    else:
        data = {"xlsx": xlsx, "ods": ods}[form]({"Parts": PARTS})
    preview = seen(data, name=f"parts.{form}")
    assert preview.kind is SheetKind.NEEDS
    assert preview.header_row == 3
    assert [column.meaning for column in preview.columns] == [
        Meaning.TITLE,
        Meaning.SIZE,
        Meaning.QUANTITY,
        Meaning.JOB,
        Meaning.SUPPLIER,
        Meaning.NOTE,
    ]
    assert [(row.number, row.words, row.state) for row in preview.rows] == [
        (4, "8 x Copper washer, 10 mm, for the job 'Rear pipe'", RowState.NEW),
        (6, "4 x Clevis pin, 5/16\", for the job 'Rear hose'", RowState.NEW),
        (7, "1 x Door seal, for the job 'Door seal'", RowState.NEW),
    ]
    needs = brought_in(small_car(), preview).needs
    washer = needs["copper-washer"]
    assert washer == Need(
        "copper-washer",
        "Copper washer",
        "rear-pipe",
        8,
        spec=PlainSpec(words="10 mm"),
        note="anneal first; supplier: the fixings shop",
    )
    assert any("row 8: left out as a total" in each for each in said(preview))


def test_a_list_of_jobs_is_understood() -> None:
    preview = seen(
        xlsx(
            {
                "Jobs": (
                    ("Task", "Area", "Est.", "Actual", "Done?", "Depends on"),
                    ("Fit pedal box", "Brakes", 2, None, None, None),
                    ("Bleed", "Brakes", "1-3 h", 2.5, "x", "Fit pedal box; Hold"),
                    ("Tail lamps", "Wiring", time(1, 30), None, "in progress", "Bleed"),
                    ("Headlining", "trim", "1/2/6", None, "yes", None),
                    ("Tow bar", "body", None, None, "n/a", None),
                    ("Wash", "underneath", 1, None, date(2026, 2, 1), None),
                )
            }
        )
    )
    assert preview.kind is SheetKind.JOBS
    assert not preview.stopped_by
    build = brought_in(small_car(), preview)
    jobs = {key: record.job for key, record in build.jobs.items()}
    assert jobs["bleed"].after == ("fit-pedal-box", "hold")
    assert jobs["fit-pedal-box"].ways[0].hours == ThreePoint(1, 2, 4)
    assert jobs["bleed"].ways[0].hours == ThreePoint(1, 2, 3)
    assert jobs["headlining"].ways[0].hours == ThreePoint(1, 2, 6)
    assert jobs["tail-lamps"].ways[0].hours.likely_hours == 1.5
    assert jobs["tail-lamps"].system == "electrics"
    status = {key: build.jobs[key].state.status for key in build.jobs}
    assert status["fit-pedal-box"] is JobStatus.TO_DO
    assert status["bleed"] is JobStatus.DONE
    assert build.jobs["bleed"].state.hours_done == 2.5
    assert status["tail-lamps"] is JobStatus.STARTED
    assert status["headlining"] is JobStatus.DONE_BEFORE
    assert status["tow-bar"] is JobStatus.LEFT_OUT
    assert build.jobs["wash"].state.finished_at is not None
    assert build.jobs["wash"].state.finished_at.date() == date(2026, 2, 1)
    assert any("half and double of it" in each for each in said(preview))
    assert any(
        "1 row has no hours" in each or "rows have no hours" in each for each in said(preview)
    )


def test_headings_of_systems_and_jobs_hold_for_the_rows_below() -> None:
    jobs = seen(b"Job,Hours\nBRAKES,\nPads,1\nWiring:,\nHorn,1\nGlass,\nDoor glass,2\n")
    assert [row.words.split(", ")[1] for row in jobs.rows] == ["brakes", "electrics", "glass"]
    parts = seen(b"Part,Qty,Size\nRear pipe,,\nClip,4,\nTank,,\nStrap,2,\n")
    assert [row.words for row in parts.rows] == [
        "4 x Clip, for the job 'Rear pipe'",
        "2 x Strap, for the job 'Tank'",
    ]


def test_a_cell_merged_down_a_column_speaks_for_each_row() -> None:
    rows: Rows = (
        ("Part", "Qty", "Job"),
        ("Clip", 4, "Rear pipe"),
        ("Nut", 2, None),
        ("Strap", 2, "Tank"),
    )
    preview = seen(xlsx({"Parts": rows}, {"Parts": ["C2:C3"]}))
    assert [row.words.rsplit("job ", 1)[1] for row in preview.rows] == [
        "'Rear pipe'",
        "'Rear pipe'",
        "'Tank'",
    ]


def test_a_shelf_is_understood_and_put_aside_for_what_is_wanted() -> None:
    preview = seen(
        b"Bin;Description;Part;How many;Cond.\nB1;Rear flexible hose;HX12;1;new\n"
        b"B2;Door hinge;DH3;2;used, good\nB3;Hose clips;HC9;?;\n",
        name="shelf.csv",
    )
    assert preview.kind is SheetKind.HOLDINGS
    assert [row.words for row in preview.rows] == [
        "1 x Rear flexible hose, no. HX12, in B1, for the need 'Rear flexible hose'",
        "2 x Door hinge, no. DH3, in B2",
        "1 x Hose clips, no. HC9, in B3",
    ]
    build = brought_in(small_car(), preview)
    assert need_standings(build)["hose"].state is NeedState.HERE
    assert build.holdings["door-hinge"].condition == "used, good"
    assert said(preview) == ["row 4, cell D4: '?' is not known. 1 is taken."]


def test_orders_bring_their_days_and_prices() -> None:
    preview = seen(
        xlsx(
            {
                "Ordered": (
                    ("Item", "Qty", "Supplier", "Order date", "ETA", "Price", "Received"),
                    ("Wheel nuts", 16, "one shop", date(2026, 2, 1), 46100, 24, None),
                    ("Tank strap", "pair", "another", "17/02/2026", "3 Apr 2026", "€12,50", "y"),
                    ("Tank seal", None, "another", "02/02/2026", "TBC", "1.250,00 EUR", None),
                    ("Horn", 1, "another", "01/02/2026", "when he can", "$5", None),
                )
            }
        ),
        land(small_car(), c.CarDescribed(Car("Kit", currency="USD")), NOW),
    )
    assert preview.kind is SheetKind.ORDERS
    orders = {key: record.line for key, record in brought_in(small_car(), preview).orders.items()}
    nuts = orders["wheel-nuts"]
    assert (nuts.ordered_on, nuts.expected_on) == (date(2026, 2, 1), date(2026, 3, 19))
    assert nuts.price == Money(Decimal("24.00"), "USD")
    strap = orders["tank-strap"]
    assert strap.quantity == 2
    assert strap.ordered_on == date(2026, 2, 17)
    assert strap.price == Money(Decimal("12.50"), "EUR")
    assert orders["tank-seal"].expected_on is None
    assert orders["tank-seal"].price == Money(Decimal("1250.00"), "EUR")
    assert orders["horn"].price == Money(Decimal(5), "USD")
    assert orders["horn"].note == "expected on: when he can"
    assert [
        problem.where for problem in preview.every_problem if problem.severity == "doubtful"
    ] == [
        "row 3, cell G3",
        "row 5, cell E5",
    ]


def test_a_date_that_reads_two_ways_is_asked_about() -> None:
    data = b"Item,Supplier,ETA\nHorn,shop,3/4/26\nLamp,shop,5/6/26\n"
    preview = seen(data)
    [question] = preview.questions
    assert question.about == "day_first"
    assert question.sentence == "in dates such as 3/4/26, is 3 the day or the month"
    with pytest.raises(BadInput, match="is 3 the day or the month"):
        accept(preview)
    for day_first, expected in ((True, date(2026, 4, 3)), (False, date(2026, 3, 4))):
        answered = seen(data, choices=Choices(day_first=day_first))
        build = brought_in(small_car(), answered)
        assert build.orders["horn"].line.expected_on == expected
    # One date that can only be read one way settles the column.
    settled = seen(data + b"Wing,shop,25/6/26\n")
    assert not settled.questions
    assert brought_in(small_car(), settled).orders["horn"].line.expected_on == date(2026, 4, 3)


def test_an_amount_that_reads_two_ways_is_not_guessed() -> None:
    data = b"Item\tSupplier\tPrice\nHood\tshop\t1,500\n"
    preview = seen(data, name="x.tsv")
    assert "'1,500' could be 1500 or 1.500" in said(preview)[-1]
    prices = {
        comma: brought_in(small_car(), seen(data, choices=Choices(comma=comma))).orders["hood"]
        for comma in (True, False)
    }
    assert prices[True].line.price == Money(Decimal("1.500"), "GBP")
    assert prices[False].line.price == Money(Decimal(1500), "GBP")


def test_what_is_there_already_is_shown_and_not_added_again() -> None:
    build = later(small_car(), c.NeedSet(Need("pin", "Clevis pins", "hold", 2)))
    data = b"Part,Qty,Job\nclevis-pin,4,Hold\nPIPE NUTS M10 x 1,4,Rear pipe\nClevis pin,2,Tank\n"
    preview = seen(data, build)
    assert [(row.state, row.same_as) for row in preview.rows] == [
        (RowState.THERE, "pin"),
        (RowState.THERE, "nuts"),
        (RowState.NEW, ""),
    ]
    assert preview.rows[0].words == (
        "clevis-pin: there already as 'pin'; the sheet has another quantity"
    )
    assert len(preview.changes) == 1
    chosen = Choices(rows={2: RowChoice.CORRECT, 3: RowChoice.ADD, 4: RowChoice.LEAVE_OUT})
    other = brought_in(build, seen(data, build, choices=chosen))
    assert other.needs["pin"].quantity == 4
    assert other.needs["pin"].title == "Clevis pins"
    assert other.needs["pipe-nuts-m10-x-1"].job == "rear-pipe"
    assert len(other.needs) == len(build.needs) + 1


def test_correcting_keeps_what_is_known_figure_by_figure() -> None:
    spec = BoltSpec(thread="M8x1.25", length_m=0.025)
    build = later(small_car(), c.HoldingSet(Holding("bolt", "Bolt", 3, spec, where="A1")))
    data = b"Part,Size,Qty,Bin\nBolts,M8x1.25 long 25 mm,7,A1\n"
    preview = seen(data, build, choices=Choices(rows={2: RowChoice.CORRECT}))
    assert brought_in(build, preview).holdings["bolt"] == Holding(
        "bolt", "Bolt", 7, spec, None, "A1"
    )


def test_rows_that_cannot_be_read_stop_all_of_it_until_they_are_left_out() -> None:
    data = (
        b"Part,Qty,Job\nClip,lots,Rear pipe\nNut,4,Rear pipe\n,3,Tank\nStrap,2,Bonnet\n"
        b"Washer,2.5,Tank\n"
    )
    preview = seen(data)
    assert said(preview) == [
        "row 2, cell B2: 'lots' is no number of things. Write how many, such as 4, x4 or 2 pairs.",
        "row 4, cell A4: it has no title. Write what it is, or leave the row out.",
        "row 5, cell C5: there is no job 'Bonnet'. Name a job of this build.",
        "row 6, cell B6: '2.5' is no number of things. Write how many, such as 4, x4 or 2 pairs.",
    ]
    with pytest.raises(BadInput) as stopped:
        accept(preview)
    assert len(stopped.value.problems) == 4
    left = seen(data, choices=Choices(leave_out_unreadable=True))
    assert [row.state for row in left.rows].count(RowState.UNREADABLE) == 4
    assert [type(change) for _, change in accept(left)] == [c.NeedSet]
    one_job = Choices(
        rows={
            2: RowChoice.LEAVE_OUT,
            4: RowChoice.LEAVE_OUT,
            6: RowChoice.LEAVE_OUT,
            5: RowChoice.LEAVE_OUT,
        }
    )
    assert len(accept(seen(data, choices=one_job))) == 1


def test_one_job_can_be_said_for_all_rows_that_name_none() -> None:
    data = b"Part,Qty,Size\nClip,4,\nNut,2,M6\n"
    assert "it does not say which job wants it" in said(seen(data))[0]
    preview = seen(data, choices=Choices(for_all={Meaning.JOB: "Rear pipe"}))
    needs = brought_in(small_car(), preview).needs
    assert (needs["clip"].job, needs["nut"].job) == ("rear-pipe", "rear-pipe")


def test_the_meaning_of_columns_can_be_said_over_what_was_guessed() -> None:
    data = b"Bits,How,Whither\nClip,4,Rear pipe\n"
    lost = seen(data)
    assert lost.kind is None
    assert (
        "no row of headers was found: looked for columns such as Part, Item or Job"
        in (said(lost)[0])
    )
    assert "'Bits', 'How', 'Whither'" in said(lost)[0]
    columns = {"A": Meaning.TITLE, "B": Meaning.QUANTITY, "C": Meaning.JOB}
    told = seen(data, choices=Choices(header_row=1, columns=columns))
    assert [row.words for row in told.rows] == ["4 x Clip, for the job 'Rear pipe'"]
    other = seen(data, choices=Choices(SheetKind.HOLDINGS, 1, {**columns, "C": Meaning.WHERE}))
    assert [row.words for row in other.rows] == ["4 x Clip, in Rear pipe"]


def test_a_sheet_of_something_else_says_what_was_looked_for_and_found() -> None:
    preview = seen(b"Team,Points,Played\nReds,12,5\nBlues,9,5\n")
    assert preview.kind is None
    assert not preview.rows
    [problem] = preview.problems
    assert problem.severity == "stops"
    assert "the first words in it are 'Team', 'Points', 'Played'" in problem.what
    no_things = seen(b"Qty,Price,Notes\n1,2,x\n", name="odd.csv")
    assert "no column names the things in it" in said(no_things)[0]
    assert not accept(seen(b"Team,Points\nReds,1\n", choices=Choices(leave_out=True)))


def test_what_is_left_out_is_said() -> None:
    preview = seen(b"Part,Qty,Job,Colour\nClip,4,Tank,red\nPart,Qty,Job,Colour\nClip,4,Tank,\n")
    assert said(preview) == [
        "sheet 'list', row 3: left out as the header again.",
        (
            "sheet 'list', column D: 'Colour' is left out: red. Say what it means, or put it under "
            "note to keep it."
        ),
        "row 4: row 2 says the same. Leave one of them out?",
    ]
    kept = seen(
        b"Part,Qty,Job,Colour\nClip,4,Tank,red\n", choices=Choices(columns={"D": Meaning.NOTE})
    )
    assert brought_in(small_car(), kept).needs["clip"].note == "red"


def test_sheets_of_one_file_find_what_the_others_bring() -> None:
    data = xlsx(
        {
            "Parts": (("Part", "Qty", "Job", "Got?"), ("Lamp", 2, "Fit lamps", "yes")),
            "To do": (("Job", "System", "Hours"), ("Fit lamps", "electrics", 2)),
            "League": (("Team", "Points"), ("Reds", 3)),
        }
    )
    choices = {"League": Choices(leave_out=True)}
    previews = preview_sheets(Build(), read_grids(data, "all.xlsx"), NOW, choices=choices)
    assert [preview.sheet for preview in previews] == ["To do", "Parts", "League"]
    build = brought_in(Build(), *previews)
    assert build.needs["lamp"].job == "fit-lamps"
    assert need_standings(build)["lamp"].state is NeedState.HERE


def test_jobs_that_come_after_each_other_land_in_an_order_that_works() -> None:
    data = b"Job,System,Hours,After\nBleed,brakes,1,Pipes\nPipes,brakes,2,Shell\nShell,body,9,\n"
    build = brought_in(Build(), seen(data, Build()))
    assert build.jobs["bleed"].job.after == ("pipes",)
    circle = data.replace(b"Shell,body,9,", b"Shell,body,9,Bleed")
    assert any(
        "no job" in each or "wait for each other" in each for each in said(seen(circle, Build()))
    )


# --- files that are not good ---------------------------------------------------------------------


def test_a_spoilt_or_locked_file_says_so() -> None:
    good = xlsx({"Parts": PARTS})
    for cut in (good[:400], good[: len(good) // 2], good[:-40]):
        with pytest.raises(Damaged, match="cut short or spoilt"):
            read_grids(cut, "parts.xlsx")
    # An encrypted workbook is a compound file that holds a stream of this name ([MS-OFFCRYPTO]).
    locked = (
        b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 600 + "EncryptedPackage".encode("utf-16-le")
    )
    with pytest.raises(Damaged, match="protected by a password"):
        read_grids(locked, "parts.xlsx")
    with pytest.raises(Damaged, match="cut short or spoilt"):
        read_grids(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 900, "parts.xls")
    with pytest.raises(BadInput, match="neither a spreadsheet nor text"):
        read_grids(bytes(range(256)) * 4, "parts.csv")
    with pytest.raises(BadInput, match="it is empty"):
        read_grids(b" \n", "parts.csv")
    with pytest.raises(BadInput, match="nothing is written in it"):
        read_grids(xlsx({"Empty": ()}), "parts.xlsx")


@pytest.mark.parametrize("number", range(60))
def test_a_file_spoilt_anywhere_is_read_or_refused_in_words(number: int) -> None:
    chance = Random(number)
    data = bytearray((xlsx, ods)[number % 2]({"Parts": PARTS}))
    for _ in range(chance.randrange(1, 6)):
        data[chance.randrange(len(data))] = chance.randrange(256)
    end = chance.randrange(len(data)) if number % 3 == 0 else len(data)
    with suppress(BadInput, Damaged):
        previews = preview_sheets(small_car(), read_grids(bytes(data[:end]), "x"), NOW)
        assert all(preview.sheet for preview in previews)


def test_a_job_that_would_come_after_itself_is_a_problem_of_its_row() -> None:
    preview = seen(b"Job,System,Hours,After\nBleed,brakes,1,Bleed\n", Build())
    assert said(preview)[-1].startswith("row 2: job bleed cannot come after itself.")


def test_a_file_that_is_no_list_any_more_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(grid_module, "LARGEST_UNPACKED", 1000)
    with pytest.raises(BadInput, match="unpacks to"):
        read_grids(xlsx({"Parts": PARTS}), "parts.xlsx")
    monkeypatch.setattr(grid_module, "MOST_ROWS", 3)
    with pytest.raises(BadInput, match="are too many"):
        read_grids(b"Part,Qty\n" + b"a,1\n" * 5, "parts.csv")
    monkeypatch.setattr(grid_module, "LARGEST_BYTES", 10)
    with pytest.raises(BadInput, match="too large for a list"):
        read_grids(b"Part,Qty\n" + b"a,1\n" * 5, "parts.csv")


def test_a_formula_is_never_run_and_its_value_is_read() -> None:
    # Written without a value kept beside it, a formula reads as nothing.
    preview = seen(xlsx({"P": (("Part", "Qty", "Job"), ("Clip", "=2+2", "Tank"))}))
    assert preview.rows[0].words == "1 x Clip, for the job 'Tank'"
