"""Looking a build over: what was found, the backups, and one made now."""

from __future__ import annotations

import sqlite3
from datetime import timedelta
from typing import TYPE_CHECKING

from bareshell.app.door import Door
from bareshell.model import changes as c
from bareshell.web.templating import NAV
from tests.web.conftest import Clock
from tests.web.keeping.pictures import jpeg

if TYPE_CHECKING:
    from starlette.testclient import TestClient


def test_a_build_with_no_backup_says_so_and_one_is_made(client: TestClient, door: Door) -> None:
    page = client.get("/look-over").text
    assert "<b>Backups</b>: There is none yet." in page
    assert "has it open" not in page  # of course it has: these pages do
    answer = client.post("/look-over/backup")
    assert answer.status_code == 303
    page = client.get("/look-over").text
    [backup] = (door.folder / "backups").iterdir()
    assert backup.name in page
    assert "Nothing was found." in page
    kept = sqlite3.connect(backup)
    assert kept.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    assert kept.execute("SELECT count(*) FROM entries").fetchone() == (door.latest(),)
    kept.close()


def test_a_backup_too_old_is_found_first(client: TestClient, door: Door, hand: Clock) -> None:
    client.post("/look-over/backup")
    hand.forward(timedelta(days=10))
    door.record(c.JobFinished("carb", 1))
    body = client.get("/look-over.json").json()
    assert [(one["where"], one["severity"]) for one in body["problems"]] == [
        ("backups", "doubtful")
    ]
    assert len(body["backups"]) == 1
    assert '<span class="word">doubtful</span> <b>Backups</b>' in client.get("/look-over").text


def test_photographs_are_read_through_when_that_is_asked(client: TestClient, door: Door) -> None:
    client.post("/photos", files=[("photos", ("a.jpg", jpeg()))])
    client.post("/look-over/backup")
    [kept] = (door.folder / "photos").iterdir()
    kept.write_bytes(kept.read_bytes()[:-1] + b"x")
    quick = client.get("/look-over").text
    assert "Nothing was found." in quick
    assert "Read the photograph through" in quick
    thorough = client.get("/look-over?photos=every").text
    assert "The file is not what was kept." in thorough
    kept.unlink()
    assert "The file is not there." in client.get("/look-over").text


def test_the_ways_lie_on_the_record_and_the_car_and_not_among_the_seven_words(
    client: TestClient,
) -> None:
    for path in ("/record", "/car"):
        page = client.get(path).text
        for way in ("/photos", "/bring-in", "/write-out", "/look-over"):
            assert f'href="{way}"' in page
    assert len(NAV) <= 7
    assert 'href="/record" aria-current="page"' in client.get("/look-over").text
