"""After an entry, Tonight and the road say what it did to the next two weeks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bareshell.model import changes as c

if TYPE_CHECKING:
    from starlette.testclient import TestClient

    from bareshell.app.door import Door


def test_before_anybody_looked_nothing_is_compared(site: TestClient) -> None:
    assert 'class="changed' not in site.get("/tonight").text


def test_after_an_entry_both_pages_say_what_moved_since_one_last_looked(
    site: TestClient, door: Door
) -> None:
    site.get("/road-ahead")
    assert "<b>Since 18:00:</b>" not in site.get("/tonight").text
    door.record(c.JobLeftOut("rear-pipe", "bought ready bent"))
    for page in ("/tonight", "/road-ahead"):
        html = site.get(page).text
        said = html[html.index("<b>Since 18:00:</b>") :]
        assert "is off the list" in said[:600]
        assert "no longer to be done" in said[:900]


def test_the_sheet_for_programs_says_it_by_the_kept_forecast_alone(
    site: TestClient, door: Door
) -> None:
    site.get("/road-ahead")
    door.record(c.JobLeftOut("rear-pipe", "bought ready bent"))
    assert site.get("/tonight.json").json()["changed"] == ""
