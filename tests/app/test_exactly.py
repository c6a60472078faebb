"""A session packed exactly when asked to; without the solver the plan's own list, and that said."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner

from bareshell.app.door import Door
from bareshell.app.tonight import tonight
from bareshell.cli.main import bareshell
from bareshell.plan import exact
from bareshell.whole.sheet_parts import SessionAsked
from tests.stories import NOW, small_car_changes

EXACTLY = SessionAsked(minutes=210, exactly=True)


@pytest.fixture
def door(tmp_path: Path) -> Iterator[Door]:
    with Door.open(tmp_path / "car", create=True, clock=lambda: NOW, back_up=False) as opened:
        opened.record(small_car_changes())
        yield opened


def test_a_session_packed_exactly_is_at_least_as_full(door: Door) -> None:
    plain = tonight(door, SessionAsked(minutes=210))
    packed = tonight(door, EXACTLY)
    assert plain.packed is None
    assert packed.packed is not None
    assert packed.packed.status in ("proven", "best found")
    assert packed.packed.words.startswith("Fills ")
    assert sum(job.minutes for job in packed.jobs) >= sum(job.minutes for job in plain.jobs)
    assert packed.spare_minutes <= plain.spare_minutes


def test_without_the_solver_the_list_is_the_plan_s_own_and_that_is_said(
    door: Door, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(exact, "_solver", lambda: None)
    found = tonight(door, EXACTLY)
    assert found.packed is not None
    assert found.packed.status == "not to be had"
    assert "extra 'exact'" in found.packed.words
    assert [job.id for job in found.jobs] == [
        job.id for job in tonight(door, SessionAsked(minutes=210)).jobs
    ]


def test_it_is_asked_for_on_the_command_line_too(door: Door) -> None:
    asked = ["tonight", "--build", str(door.folder), "--minutes", "210", "--exactly"]
    said = CliRunner().invoke(bareshell, asked)
    assert said.exit_code == 0
    assert "Fills " in said.stdout
