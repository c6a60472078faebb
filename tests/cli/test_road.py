"""``bareshell road`` and what else it can be asked: levers, grounds, keeping a forecast."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner

from bareshell.app.door import Door
from bareshell.cli.main import bareshell
from bareshell.plan.compiled import compiled_run
from bareshell.plan.engine import PLAIN_SAMPLES, warm_up
from tests.stories import NOW, small_car_changes

Ask = Callable[..., str]


@pytest.fixture
def ask(tmp_path: Path) -> Ask:
    """Ask about the road of the small car, by this machine's own clock."""
    folder = tmp_path / "car"
    with Door.open(folder, create=True, back_up=False) as door:
        door.record(small_car_changes(), happened_at=NOW - timedelta(days=30))

    def asked(*options: str) -> str:
        result = CliRunner().invoke(bareshell, ["road", *options, "--build", str(folder)])
        assert result.exit_code == 0, result.output
        return result.output

    return asked


def test_the_road_says_whether_to_believe_it(ask: Ask) -> None:
    said = ask("--sessions", "1")
    assert "On the road by the week of" in said
    assert "Your pace" in said
    assert "Hours are planned as estimated" in said
    assert "until jobs are finished" in said
    assert "Forecasts kept" not in said


def test_levers_are_told_in_days_with_their_error(ask: Ask) -> None:
    said = ask("--levers")
    assert "What would move the date" in said
    assert " days " in said
    assert "one session more a week" in said
    assert "no session lost and no helper absent" in said
    assert "criticality: share of futures" in said
    assert "for local law to say" in said
    found = json.loads(ask("--levers", "--json"))
    assert found["format"] == 1
    assert {"title", "gain_days", "standard_error_days", "word"} <= found["levers"][0].keys()


def test_without_a_compiler_it_is_said_that_the_answer_is_less_sure(
    ask: Ask, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as without:
        without.setitem(sys.modules, "numba", None)
        for kept in (compiled_run, warm_up):
            kept.cache_clear()
        said = ask("--sessions", "1")
    for kept in (compiled_run, warm_up):
        kept.cache_clear()
    assert f"No compiler to be had here: answered from at most {PLAIN_SAMPLES} futures" in said
    assert "is being compiled" not in said
    assert f"in half of {PLAIN_SAMPLES} futures" in said
    assert "No compiler" not in ask("--sessions", "1")


def test_every_number_can_be_opened(ask: Ask) -> None:
    said = ask("--explain")
    assert "your pace: 1.0 times (assumed;" in said
    assert "  weeks lost whole: " in said
    opened = json.loads(ask("--explain", "--json"))
    assert opened["grounds"][0]["beneath"]


def test_a_forecast_is_kept_and_shown_with_the_next(ask: Ask) -> None:
    assert "is kept, to be held against what comes" in ask("--keep")
    said = ask("--sessions", "0")
    assert "Forecasts kept" in said
    assert "Since the forecast of" in said
    assert len(json.loads(ask("--json"))["issued"]) == 1
