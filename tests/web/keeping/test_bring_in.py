"""Bringing files in by hand: shown first, chosen over, all of it or nothing."""

from __future__ import annotations

import zipfile
from dataclasses import replace
from datetime import date, timedelta
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bareshell.app.archive import export_archive
from bareshell.app.door import Door
from bareshell.app.exchange import export_build_file
from bareshell.app.sheet_choices import key_of
from bareshell.app.tray import MOST_EACH, Tray
from bareshell.model import changes as c
from bareshell.model.job import Job
from bareshell.model.part import Need
from bareshell.web.devices import Device
from tests.io.sheet_files import ods, xlsx
from tests.stories import NOW
from tests.web.conftest import AT_HOME, Clock, MemoryStore, browser
from tests.web.keeping.conftest import Bringing, app_of

if TYPE_CHECKING:
    from starlette.testclient import TestClient

BUILD_FILE = b"""\
format = 1

[[job]]
id = "horn"
title = "Fit the horn"
system = "electrics"

[[need]]
id = "horn-bracket"
title = "Horn bracket"
job = "horn"
"""

PARTS = (
    ("Part", "Qty", "Stuff", "For job"),
    ("Horn relay", 1, "6 V", "Carb"),
    ("Tank strap", "x2", "", "Tank"),
    ("Mystery", "a few", "", "Fit the flux"),
)
P = key_of("Parts")
LAND = "Let it land</button>"


def parts(*rows: tuple[object, ...]) -> bytes:
    return xlsx({"Parts": (PARTS[0], *rows)})


# --- a build file ---------------------------------------------------------------------------------


def test_a_build_file_is_shown_line_by_line_then_lands(hands: Bringing, door: Door) -> None:
    before = door.latest()
    page = hands.bring(BUILD_FILE, "mine.toml")
    assert "New: job" in page
    assert "Fit the horn" in page
    assert '<span class="off">line </span>3</span>' in page
    assert "2 entries: all of them, or none" in page
    assert door.latest() == before
    landed = hands.land(page)
    assert f"entries {before + 1} to {before + 2}" in landed
    assert door.build().needs["horn-bracket"].job == "horn"
    assert [entry.author for entry in door.entries(after=before)] == ["owner", "owner"]


def test_pressed_twice_it_lands_once(hands: Bringing, door: Door) -> None:
    page = hands.bring(BUILD_FILE, "mine.toml")
    hands.land(page)
    after = door.latest()
    again = hands.land(page)
    assert "It had landed before" in again
    assert door.latest() == after


def test_what_stops_it_is_said_with_its_line_and_remedy(hands: Bringing, door: Door) -> None:
    before = door.latest()
    page = hands.bring(BUILD_FILE.replace(b'job = "horn"', b'job = "hron"'), "mine.toml")
    assert "What stops it" in page
    assert "Line 8, need &#39;Horn bracket&#39;, job" in page
    assert "Did you mean &#39;horn&#39;?" in page
    assert LAND not in page
    refused = hands.land(page, status=422)
    assert "Nothing landed" in refused
    assert door.latest() == before


def test_a_build_that_moved_meanwhile_is_shown_again_before_anything_lands(
    hands: Bringing, door: Door
) -> None:
    page = hands.bring(BUILD_FILE, "mine.toml")
    door.record(c.JobSet(Job("horn", "Horn", "electrics")))
    before = door.latest()
    conflict = hands.land(page, status=409)
    assert "was changed after this was shown" in conflict
    assert door.latest() == before
    hands.land(conflict)
    assert door.build().jobs["horn"].job.title == "Fit the horn"


def test_a_change_that_makes_no_difference_stops_nothing(hands: Bringing, door: Door) -> None:
    page = hands.bring(BUILD_FILE, "mine.toml")
    door.record(c.JobFinished("carb", 1))
    hands.land(page)
    assert "horn" in door.build().jobs


def test_a_file_that_says_nothing_new_has_nothing_to_land(hands: Bringing, door: Door) -> None:
    page = hands.bring(export_build_file(door).encode(), "build.toml")
    assert "Nothing in it differs from the build" in page
    assert LAND not in page
    assert "nothing in it differs" in hands.land(page, status=422).casefold()


# --- a spreadsheet --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("data", "name"),
    [
        (xlsx({"Parts": PARTS[:3]}), "parts.xlsx"),
        (ods({"Parts": PARTS[:3]}), "parts.ods"),
        (b"Part;Qty;Stuff;For job\nHorn relay;1;6 V;Carb\nTank strap;x2;;Tank\n", "Parts.csv"),
    ],
)
def test_each_kind_of_list_is_understood_and_lands(
    hands: Bringing, door: Door, data: bytes, name: str
) -> None:
    page = hands.bring(data, name)
    assert "as read: quantity" in page
    assert "as read: left out" in page
    assert "Nothing landed yet" in page
    hands.land(page)
    needs = door.build().needs
    assert needs["tank-strap"].quantity == 2
    assert needs["horn-relay"].job == "carb"


def test_problems_stand_by_row_and_cell_and_stop_all_of_it(hands: Bringing, door: Door) -> None:
    before = door.latest()
    page = hands.bring(parts(*PARTS[1:]), "parts.xlsx")
    assert "Row 4, cell B4" in page
    assert "Row 4, cell D4" in page
    assert LAND not in page
    hands.land(page, status=422)
    assert door.latest() == before
    freed = hands.look(page, {f"{P}.unreadable": "yes"})
    hands.land(freed)
    assert {"horn-relay", "tank-strap"} <= set(door.build().needs)
    assert "mystery" not in door.build().needs


def test_one_row_can_be_left_out_and_taken_in_again(hands: Bringing) -> None:
    page = hands.bring(parts(*PARTS[1:]), "parts.xlsx")
    out = hands.look(page, {f"{P}.row.4": "leave it out"})
    assert LAND in out
    back = hands.look(out, {f"{P}.row.4": None})
    assert LAND not in back


def test_what_a_column_means_can_be_said(hands: Bringing, door: Door) -> None:
    page = hands.bring(parts(*PARTS[1:3]), "parts.xlsx")
    said = hands.look(page, {f"{P}.col.C": "note"})
    assert '<option value="note" selected>note</option>' in said
    hands.land(said)
    assert "6 V" in door.build().needs["horn-relay"].note


def test_a_column_can_be_left_out_and_one_job_said_for_all(hands: Bringing, door: Door) -> None:
    page = hands.bring(parts(*PARTS[1:3]), "parts.xlsx")
    stopped = hands.look(page, {f"{P}.col.D": "-"})
    assert "It does not say which job wants it" in stopped
    said = hands.look(stopped, {f"{P}.all.job": "Door seal"})
    hands.land(said)
    assert {door.build().needs[key].job for key in ("horn-relay", "tank-strap")} == {"door-seal"}


def test_what_it_lists_and_where_its_header_is_can_be_said(hands: Bringing, door: Door) -> None:
    rows = (("My things", None, None), ("Qty", "Part", "x"), ("Part", "Qty", "Bin"),
            ("Horn relay", 1, "B2"))  # fmt: skip
    page = hands.bring(xlsx({"Parts": rows}), "list.xlsx")
    said = hands.look(page, {f"{P}.kind": "parts on the shelf", f"{P}.header": "3"})
    hands.land(said)
    [holding] = [one for one in door.build().holdings.values() if one.title == "Horn relay"]
    assert holding.where == "B2"


def test_a_header_row_that_is_none_is_said_and_stays_as_typed(hands: Bringing) -> None:
    page = hands.bring(parts(*PARTS[1:3]), "parts.xlsx")
    wrong = hands.look(page, {f"{P}.header": "top", f"{P}.col.C": "note"})
    assert "row of the headers" in wrong
    assert "&#39;top&#39; is none." in wrong
    assert "Write its number, such as 3." in wrong
    assert f'name="{P}.header" value="top"' in wrong
    assert '<option value="note" selected>' in wrong
    assert LAND not in wrong


def test_what_is_there_already_stays_unless_it_is_chosen(hands: Bringing, door: Door) -> None:
    door.record(c.NeedSet(Need("strap", "Tank strap", "tank")))
    page = hands.bring(parts(("Tank strap", 5, "", "Tank")), "parts.xlsx")
    assert "there already as" in page
    assert LAND not in page
    corrected = hands.look(page, {f"{P}.row.2": "correct what is there"})
    hands.land(corrected)
    assert door.build().needs["strap"].quantity == 5
    assert "tank-strap" not in door.build().needs


def test_all_that_is_there_already_can_be_decided_at_once(hands: Bringing, door: Door) -> None:
    door.record(c.NeedSet(Need("strap", "Tank strap", "tank")))
    door.record(c.NeedSet(Need("relay", "Horn relay", "carb")))
    page = hands.bring(
        parts(("Tank strap", 5, "", "Tank"), ("Horn relay", 3, "", "Carb")), "parts.xlsx"
    )
    said = hands.look(page, {f"{P}.there": "add it all the same"})
    said = hands.look(said, {f"{P}.row.3": "leave"})
    hands.land(said)
    needs = door.build().needs
    assert needs["tank-strap"].quantity == 5
    assert needs["strap"].quantity == 1
    assert "horn-relay" not in needs
    assert needs["relay"].quantity == 1


def test_a_question_only_a_person_can_answer_is_asked(hands: Bringing, door: Door) -> None:
    rows = (("Part", "Supplier", "Ordered", "ETA"), ("Hose", "Somebody", "3/2/2026", "5/6/2026"))
    page = hands.bring(xlsx({"Orders": rows}), "orders.xlsx")
    assert "is 3 the day or the month?" in page
    assert LAND not in page
    answered = hands.look(page, {f"{key_of('Orders')}.days": "day"})
    hands.land(answered)
    [line] = [one.line for one in door.build().orders.values() if one.line.title == "Hose"]
    assert (line.ordered_on, line.expected_on) == (date(2026, 2, 3), date(2026, 6, 5))


def test_a_sheet_of_something_else_says_what_was_looked_for(hands: Bringing, door: Door) -> None:
    before = door.latest()
    rows = (("Pancakes",), ("flour", "200 g"), ("milk", "300 ml"))
    page = hands.bring(xlsx({"Recipes": rows}), "recipes.xlsx")
    assert "looked for columns such as Part, Item or Job" in page
    assert "Pancakes" in page
    out = hands.look(page, {f"{key_of('Recipes')}.out": "yes"})
    assert "There is nothing to land" in out
    assert "What stops it" not in out
    hands.land(out, status=422)
    assert door.latest() == before
    back = hands.look(out, {f"{key_of('Recipes')}.out": None})
    assert "looked for columns such as" in back


def test_of_several_sheets_each_problem_names_its_own(hands: Bringing, door: Door) -> None:
    book = xlsx({"Parts": (PARTS[0], PARTS[3]), "More": (PARTS[0], PARTS[1]), "Recipes": (("x",),)})
    page = hands.bring(book, "book.xlsx")
    assert "Sheet &#39;Parts&#39;, row 2, cell B2" in page
    good = hands.look(page, {f"{P}.out": "yes", f"{key_of('Recipes')}.out": "yes"})
    hands.land(good)
    assert "horn-relay" in door.build().needs


def test_a_choice_for_a_row_on_another_part_of_the_list_is_kept(
    hands: Bringing, door: Door
) -> None:
    rows = [(f"Clip number {n}", 1, "", "Tank") for n in range(100)]
    page = hands.bring(parts(*rows), "parts.xlsx")
    assert f'name="{P}.row.60"' not in page
    further = hands.look(page, {f"{P}.row.3": "leave it out", "then": f"{P} 2"})
    assert f'name="{P}.row.60"' in further
    last = hands.look(further, {f"{P}.row.60": "leave it out", "then": f"{P} 1"})
    assert f'name="{P}.row.3" value="leave it out" checked' not in last  # it now comes last
    hands.land(last)
    needs = door.build().needs
    assert {"clip-number-1", "clip-number-58"}.isdisjoint(needs)
    assert sum(key.startswith("clip-number") for key in needs) == 98


def test_a_choice_made_in_the_last_moment_is_shown_before_it_lands(
    hands: Bringing, door: Door
) -> None:
    before = door.latest()
    page = hands.bring(parts(*PARTS[1:3]), "parts.xlsx")
    shown = hands.land(page, {f"{P}.row.3": "leave it out"})
    assert "nothing landed yet: look what would land now" in shown
    assert door.latest() == before
    hands.land(shown)
    assert "tank-strap" not in door.build().needs
    assert "horn-relay" in door.build().needs


# --- files that are nothing of the kind -----------------------------------------------------------


@pytest.mark.parametrize(
    ("data", "name", "said"),
    [
        (xlsx({"Parts": PARTS})[:-200], "parts.xlsx", "cut short or spoilt"),
        (xlsx({"Parts": PARTS})[:3000], "parts.xlsx", "cut short or spoilt"),
        (b"%PDF-1.7 and so on", "parts.pdf", "it is a PDF"),
        (b"\xff\xd8\xff\xe0 a picture", "parts.csv", "it is a photograph"),
        (b"", "parts.csv", "it is empty"),
        (bytes(range(256)) * 9, "parts.csv", "neither a spreadsheet nor text"),
        (b"[[job]\nid =", "mine.toml", "line 1"),
        (b"Part,Qty\n" + b"nut,1\n" * 1_800_000, "parts.csv", "too large for a list"),
    ],
)
def test_what_cannot_be_brought_in_is_said_in_a_sentence(
    hands: Bringing, door: Door, data: bytes, name: str, said: str
) -> None:
    before = door.latest()
    page = hands.bring(data, name, 422)
    assert said.casefold() in page.casefold()
    assert door.latest() == before
    assert "Waiting to land" not in page


def test_pressing_without_a_file_is_said(client: TestClient) -> None:
    for files in ({}, {"file": ("", b"")}):
        answer = client.post("/bring-in", data={"x": "y"}, files=files or None)
        assert answer.status_code == 422
        assert "None was chosen" in answer.text


def test_a_packed_file_that_unpacks_to_far_more_is_not_unpacked(hands: Bringing) -> None:
    packed = BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as file:
        file.writestr("xl/workbook.xml", b"0" * 150_000_000)
    page = hands.bring(packed.getvalue(), "parts.xlsx", 422)
    assert "It unpacks to 150 MB" in page


def test_an_archive_is_told_how_it_comes_back_and_is_not_kept(
    hands: Bringing, door: Door, tmp_path: Path
) -> None:
    export_archive(door, tmp_path / "mule.zip")
    before = door.latest()
    answer = hands.client.post(
        "/bring-in", files={"file": ("mule.zip", (tmp_path / "mule.zip").read_bytes())}
    )
    page = hands.see(answer.headers["location"])
    assert "bareshell import mule.zip --into NEWDIR" in page
    assert "the whole record of a build, with no photographs" in page
    assert LAND not in page
    assert door.latest() == before
    assert "mule.zip" not in hands.see("/bring-in")
    kept = [path.stat().st_size for path in (door.folder / ".cache" / "bring-in").glob("*.file")]
    assert kept == [0]


# --- the tray -------------------------------------------------------------------------------------


def test_what_was_brought_waits_through_a_restart_with_what_was_chosen(
    hands: Bringing, door: Door
) -> None:
    page = hands.bring(parts(*PARTS[1:]), "parts.xlsx")
    hands.look(page, {f"{P}.row.4": "leave it out"})
    after = Bringing(browser(app_of(door)))
    assert "parts.xlsx" in after.see("/bring-in")
    again = after.see(after.path(page))
    assert LAND in again


def test_a_week_later_it_is_gone(hands: Bringing, hand: Clock) -> None:
    page = hands.bring(parts(*PARTS[1:3]), "parts.xlsx")
    hand.forward(timedelta(days=8))
    gone = hands.see(hands.path(page), 404)
    assert "does not wait here any more" in gone
    assert "parts.xlsx" not in hands.see("/bring-in")


def test_it_can_be_put_away(hands: Bringing, door: Door) -> None:
    page = hands.bring(parts(*PARTS[1:3]), "parts.xlsx")
    answer = hands.client.post(f"{hands.path(page)}/let-go")
    assert "is put away" in hands.see(answer.headers["location"])
    hands.see(hands.path(page), 404)
    assert list((door.folder / ".cache" / "bring-in").iterdir()) == []


def test_only_so_many_wait_and_the_oldest_goes_first(
    hands: Bringing, door: Door, hand: Clock
) -> None:
    for number in range(MOST_EACH + 2):
        hand.forward(timedelta(minutes=1))
        hands.bring(parts(*PARTS[1:3]), f"list-{number}.xlsx")
    waiting = [one.name for one in Tray(door.folder).waiting("this computer", hand())]
    assert waiting == [f"list-{number}.xlsx" for number in range(MOST_EACH + 1, 1, -1)]


@pytest.mark.parametrize("token", ["x" * 32, "..%2f..%2fjournal", "a", "%00" * 20])
def test_a_name_that_was_never_handed_out_finds_nothing(hands: Bringing, token: str) -> None:
    hands.see(f"/bring-in/{token}", 404)
    assert hands.client.post(f"/bring-in/{token}/land").status_code == 404


@pytest.fixture
def phones(door: Door, clock: Clock) -> list[Bringing]:
    """Two paired phones on the home network."""
    import hashlib

    keys = ("key-of-the-first", "key-of-the-second")
    devices = tuple(
        Device(f"d{n}", f"phone {n}", hashlib.sha256(key.encode()).hexdigest(), NOW, NOW.date())
        for n, key in enumerate(keys)
    )
    app = app_of(
        door,
        home=True,
        hosts=frozenset({"192.168.1.20"}),
        address=AT_HOME,
        devices=MemoryStore(devices),
        clock=clock,
    )
    found = []
    for key in keys:
        client = browser(app, AT_HOME, "192.168.1.77")
        client.cookies.set("bareshell_device", key)
        found.append(Bringing(client))
    return found


def test_another_phone_cannot_see_or_land_what_one_brought(
    phones: list[Bringing], door: Door
) -> None:
    mine, other = phones
    page = mine.bring(parts(*PARTS[1:3]), "parts.xlsx")
    path = mine.path(page)
    assert "parts.xlsx" not in other.see("/bring-in")
    other.see(path, 404)
    assert other.client.post(f"{path}/land").status_code == 404
    mine.land(page)
    assert door.entries(newest_first=True, limit=1)[0].author == "phone 0"


def test_the_name_of_a_file_is_only_a_name(hands: Bringing) -> None:
    page = hands.bring(parts(*PARTS[1:3]), "../../<b>parts</b>.xlsx")
    assert "b&gt;.xlsx" in page
    assert "<b>parts" not in page


# --- for programs ---------------------------------------------------------------------------------


def test_the_twin_says_what_would_land(client: TestClient, hands: Bringing) -> None:
    as_json = {"Accept": "application/json"}
    answer = client.post(
        "/bring-in", files={"file": ("parts.xlsx", parts(*PARTS[1:]))}, headers=as_json
    )
    see = answer.json()["done"]["see"]
    body = client.get(f"{see}.json").json()
    assert body["kind"] == "sheet"
    assert body["changes"] == 0
    assert [one["where"] for one in body["stopped_by"]] == ["row 4, cell B4", "row 4, cell D4"]
    [sheet] = body["sheets"]
    assert [column["meaning"] for column in sheet["columns"]] == ["title", "quantity", None, "job"]
    assert [row["number"] for row in sheet["rows"]] == [4, 2, 3]
    landed = client.post(f"{see}/land", data={"mark": body["mark"]}, headers=as_json)
    assert landed.status_code == 422
    assert len(landed.json()["error"]["problems"]) == 2
    spoilt = client.post("/bring-in", files={"file": ("x.pdf", b"%PDF-1.7")}, headers=as_json)
    assert spoilt.status_code == 422
    assert [one["name"] for one in client.get("/bring-in.json").json()["waiting"]] == ["parts.xlsx"]
    assert hands.see("/bring-in")


def test_a_tray_that_cannot_be_read_is_as_good_as_empty(hands: Bringing, door: Door) -> None:
    page = hands.bring(parts(*PARTS[1:3]), "parts.xlsx")
    [told] = (door.folder / ".cache" / "bring-in").glob("*.json")
    told.write_text("{", encoding="ascii")
    hands.see(hands.path(page), 404)
    assert "Waiting to land" not in hands.see("/bring-in")


def test_choices_are_the_form_s_and_nothing_else(hands: Bringing, door: Door) -> None:
    page = hands.bring(parts(*PARTS[1:3]), "parts.xlsx")
    tray = Tray(door.folder)
    path = hands.path(page)
    hands.client.post(path, data={"nonsense": "x", f"{P}.sheet": "Parts", f"{P}.col.C": "note"})
    waiting = tray.find(path.rpartition("/")[2], "this computer", door.now())
    assert waiting == replace(waiting, answers={f"{P}.sheet": ("Parts",), f"{P}.col.C": ("note",)})
