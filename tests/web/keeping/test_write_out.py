"""What is written out opens elsewhere: with the standard library, and with other readers."""

from __future__ import annotations

import csv
import io
import threading
import tomllib
import zipfile
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from openpyxl import load_workbook

from bareshell.app import writing_out
from bareshell.app.archive import Exported, export_archive, import_archive
from bareshell.app.door import Door
from tests.web.keeping.conftest import Bringing
from tests.web.keeping.pictures import jpeg

if TYPE_CHECKING:
    from starlette.testclient import TestClient


def name_of(headers: dict[str, str]) -> str:
    said = headers["content-disposition"]
    assert said.startswith("attachment; filename=")
    return said.partition('filename="')[2].rstrip('"')


def test_the_page_says_what_there_is(client: TestClient) -> None:
    client.post("/photos", files=[("photos", ("a.jpg", jpeg()))])
    page = client.get("/write-out").text
    assert "1 photograph, about" in page
    body = client.get("/write-out.json").json()
    assert [(one["word"], one["lines"]) for one in body["lists"]] == [
        ("jobs", 9),
        ("needs", 2),
        ("holdings", 0),
        ("orders", 1),
    ]
    assert body["photos_missing"] == 0
    for path in ("archive", "build-file", "jobs.xlsx", "needs.csv", "orders.xlsx"):
        assert f'href="/write-out/{path}"' in page


def test_the_build_file_is_toml_and_brings_nothing_new(client: TestClient) -> None:
    answer = client.get("/write-out/build-file")
    assert name_of(dict(answer.headers)) == "test-mule-2026-03-04.toml"
    assert answer.headers["cache-control"] == "no-store"
    assert tomllib.loads(answer.text)["car"]["name"] == "Test mule"
    page = Bringing(client).bring(answer.content, "test-mule.toml")
    assert "Nothing in it differs from the build" in page


@pytest.mark.parametrize("what", ["jobs", "needs", "holdings", "orders"])
def test_a_list_opens_as_a_spreadsheet_and_as_csv(client: TestClient, what: str) -> None:
    workbook = client.get(f"/write-out/{what}.xlsx")
    assert name_of(dict(workbook.headers)) == f"test-mule-{what}-2026-03-04.xlsx"
    assert workbook.headers["cache-control"] == "no-store"
    sheet = load_workbook(io.BytesIO(workbook.content)).active
    assert sheet is not None
    rows = list(sheet.iter_rows(values_only=True))
    text = client.get(f"/write-out/{what}.csv")
    assert text.headers["content-type"] == "text/csv; charset=utf-8"
    assert name_of(dict(text.headers)).endswith(".csv")
    lines = list(csv.reader(io.StringIO(text.content.decode("utf-8-sig"))))
    assert len(lines) == len(rows)
    assert lines[0][:2] == list(rows[0][:2])


def test_a_list_that_is_none_is_not_found(client: TestClient) -> None:
    for path in ("nothing.csv", "nothing.xlsx", "..%2f..%2fjournal.csv"):
        assert client.get(f"/write-out/{path}").status_code == 404


def test_an_archive_makes_the_same_build_elsewhere_and_leaves_nothing_behind(
    client: TestClient, door: Door, tmp_path: Path
) -> None:
    client.post("/photos", files=[("photos", ("a.jpg", jpeg()))])
    answer = client.get("/write-out/archive")
    assert name_of(dict(answer.headers)) == "test-mule-archive-2026-03-04.zip"
    assert answer.headers["content-type"] == "application/zip"
    assert answer.headers["cache-control"] == "no-store"
    with zipfile.ZipFile(io.BytesIO(answer.content)) as packed:
        assert packed.testzip() is None
        assert {"README.txt", "build.toml", "journal.jsonl"} <= set(packed.namelist())
    (tmp_path / "there.zip").write_bytes(answer.content)
    import_archive(tmp_path / "there.zip", tmp_path / "there")
    with Door.open(tmp_path / "there", back_up=False) as there:
        assert there.build() == door.build()
    assert list((door.folder / ".cache" / "write-out").iterdir()) == []


def test_what_a_reader_left_lying_is_swept_out(client: TestClient, door: Door) -> None:
    import os

    folder = door.folder / ".cache" / "write-out"
    folder.mkdir(parents=True)
    left = folder / "left.zip"
    left.write_bytes(b"PK")
    an_hour_ago = door.now().timestamp() - 3700
    os.utime(left, (an_hour_ago, an_hour_ago))
    assert client.get("/write-out/archive").status_code == 200
    assert list(folder.iterdir()) == []


def test_one_archive_is_made_at_a_time(client: TestClient, monkeypatch: pytest.MonkeyPatch) -> None:
    begun, go_on = threading.Event(), threading.Event()
    real = export_archive

    def slow(*given: object) -> Exported:
        begun.set()
        go_on.wait(20)
        return real(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(writing_out, "export_archive", slow)
    statuses = []
    first = threading.Thread(
        target=lambda: statuses.append(client.get("/write-out/archive").status_code)
    )
    first.start()
    assert begun.wait(20)
    second = client.get("/write-out/archive")
    go_on.set()
    first.join()
    assert second.status_code == 503
    assert "is being made already" in second.text
    assert statuses == [200]


def test_a_photograph_whose_file_is_gone_is_told_beforehand(client: TestClient, door: Door) -> None:
    client.post("/photos", files=[("photos", ("a.jpg", jpeg()))])
    for path in (door.folder / "photos").iterdir():
        path.unlink()
    assert "1 photograph cannot go along:" in client.get("/write-out").text
    assert client.get("/write-out/archive").status_code == 200
