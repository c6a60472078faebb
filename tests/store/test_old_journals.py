"""What was ever written opens for ever: journals as they were on the day they were written."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from bareshell.app.archive import export_archive
from bareshell.app.doctor import doctor
from bareshell.app.door import Door
from bareshell.model import Standing
from bareshell.model import changes as c
from bareshell.model.job import JobStatus
from bareshell.model.part import NeedState
from bareshell.model.proof import ProofState
from bareshell.model.standing import need_standings, open_temps, proof_standings
from bareshell.store.journal import Journal, Row
from tests.stories import NOW

JOURNALS = Path(__file__).parents[1] / "fixtures" / "journals"
WRITTEN = sorted(path.name for path in JOURNALS.iterdir() if path.is_dir())


@pytest.fixture(params=WRITTEN)
def written(request: pytest.FixtureRequest) -> Path:
    return JOURNALS / str(request.param)


def _lines(written: Path) -> list[dict[str, object]]:
    return [
        json.loads(line) for line in (written / "journal.jsonl").read_text("utf-8").splitlines()
    ]


@pytest.fixture(params=["journal.db", "journal.jsonl"])
def door(request: pytest.FixtureRequest, written: Path, tmp_path: Path) -> Iterator[Door]:
    """The old journal, opened as a file, or laid anew from the lines of an archive."""
    if request.param == "journal.db":
        shutil.copy(written / "journal.db", tmp_path / "journal.db")
    else:
        journal = Journal.open(tmp_path / "journal.db", create=True)
        rows = []
        for line in _lines(written):
            body = json.dumps(line.pop("body"), ensure_ascii=False, separators=(",", ":"))
            rows.append(Row(**line, body=body))  # type: ignore[arg-type]
        with journal.writing() as writing:
            writing.append(rows)
        journal.close()
    with Door.open(tmp_path, back_up=False) as opened:
        yield opened


def test_it_opens_and_every_entry_reads(door: Door, written: Path) -> None:
    entries = door.entries()
    assert [e.seq for e in entries] == list(range(1, len(_lines(written)) + 1))
    assert not any(isinstance(e.change, c.Unread) for e in entries)
    assert [e.id for e in entries] == [line["id"] for line in _lines(written)]


def test_the_build_is_what_it_was(door: Door) -> None:
    """Facts a person would miss, written down by hand when the first of these was made."""
    build = door.build()
    assert build.car is not None
    assert build.car.name == "The invented saloon"
    assert build.garage.clear_up_minutes == 20
    assert build.jobs["rear-pipe"].job.ways[1].people == 2
    assert build.jobs["rear-pipe"].state.hours_done == 2.0
    assert build.jobs["rear-hose"].state.hours_done == 1.25, "the settled quarter hour counts"
    assert build.jobs["carpet"].state.hours_done == 2.5, "the withdrawal was withdrawn"
    assert build.jobs["spare"].state.status is JobStatus.TO_DO, "taken back"
    assert build.jobs["tank"].state.taken_off
    assert proof_standings(build)["tee-dry"].state is ProofState.HELD
    assert proof_standings(build)["tee-dry"].readings[0].value == 70.0
    assert need_standings(build)["tee-union"].state is NeedState.USED
    assert "tee-union" in build.not_here
    assert need_standings(build)["hose"].coming == 2
    assert open_temps(build) == ()
    assert build.gates["under-car"].passed is not None
    assert build.gates["under-car"].passed.by == "the owner"
    assert str(build.orders["o-hose"].line.price.amount) == "12.50"  # type: ignore[union-attr]
    assert build.placement is not None
    assert build.placement.off == {"glass out"}
    assert set(build.supports) == {"stands"}
    assert build.notes["n-1"].words == "the tee is \u00be inch"
    assert build.photos["p-1"].sha256 == "00" * 32
    assert build.to_settle == {"phone-1"}


def test_how_entries_stand_and_who_wrote_them_is_kept(door: Door) -> None:
    entries = {entry.id: entry for entry in door.entries()}
    assert entries["phone-1"].standing is Standing.TO_SETTLE
    assert entries["phone-1"].author == "helper"
    assert entries["phone-1"].base_version == 1
    assert entries["entry-1"].happened_at.isoformat() == "2026-03-04T18:00:00+00:00"
    assert entries["entry-1"].recorded_at.microsecond == 250


def test_it_is_written_on_and_goes_out_as_it_came(
    door: Door, written: Path, tmp_path: Path
) -> None:
    before = _lines(written)
    door.settle("phone-1", keep=False)
    door.record(c.JobStarted("spare"))
    made = export_archive(door, tmp_path / "out.zip")
    assert made.entries == len(before) + 2
    again = [json.loads(line) for line in _exported(made.path)]
    assert again[: len(before)] == before


def _exported(path: Path) -> list[str]:
    import zipfile

    with zipfile.ZipFile(path) as packed:
        return packed.read("journal.jsonl").decode().splitlines()


def test_the_check_up_has_nothing_against_it(written: Path, tmp_path: Path) -> None:
    shutil.copy(written / "journal.db", tmp_path / "journal.db")
    stops = [p for p in doctor(tmp_path, NOW.replace(year=2030)) if p.severity == "stops"]
    assert [p.where for p in stops if p.where != "disk"] == []


def test_every_kind_there_is_has_been_written_down_in_one_of_them() -> None:
    """A new kind, or a new version of one, wants a new folder here; see its README."""
    held = {(line["kind"], line["version"]) for name in WRITTEN for line in _lines(JOURNALS / name)}
    assert {(kind, cls.VERSION) for kind, cls in c.CHANGES.items()} <= held
