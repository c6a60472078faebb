"""Trial fit: nothing is written down before it is kept, and what is kept is what was looked at."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner

from bareshell.app import trial
from bareshell.app.door import Door
from bareshell.app.open_job import open_job
from bareshell.app.plain import document
from bareshell.app.written import Pen
from bareshell.cli.main import bareshell
from bareshell.errors import BadInput, BareshellError, NotFound
from bareshell.model import changes as c
from bareshell.model.session import HelperWork
from bareshell.model.standing import need_standings
from bareshell.model.temp import Gate
from bareshell.whole.trial_parts import TrialOverview
from tests.stories import NOW, small_car_changes

FEW = 60


@pytest.fixture
def door(tmp_path: Path) -> Iterator[Door]:
    with Door.open(tmp_path / "car", create=True, clock=lambda: NOW, back_up=False) as opened:
        opened.record(small_car_changes())
        yield opened


@pytest.fixture
def cold(door: Door) -> Door:
    """The road asks for the seam too, which wants warmth through a day of curing."""
    needs = ("wheels-on", "carb", "seam")
    door.record(c.GateSet(Gate("road", "road", ("under-car",), needs, ("drive",))))
    return door


def _tried(door: Door, *codes: str) -> TrialOverview:
    return trial.trial(door, trial.steps_of(codes), samples=FEW)


def _kept(door: Door, *codes: str) -> str:
    return trial.keep(door, trial.steps_of(codes), Pen()).said


# --- what can be tried ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("code", "word"),
    [
        ("hours:carb=40", "farther"),
        ("part:hose=+70", "farther"),
        ("session:SU=10:00/360", "nearer"),
    ],
)
def test_one_change_moves_the_road_the_way_one_would_think(
    door: Door, code: str, word: str
) -> None:
    before = document(door.build())
    found = _tried(door, code)
    assert found.word == word, found.words
    assert document(door.build()) == before, "a trial writes nothing down"
    assert (found.gain_days or 0) * (1 if word == "nearer" else -1) > 0


def test_a_product_that_cures_colder_need_not_wait_for_the_spring(cold: Door) -> None:
    for code in ("lowest:seam=2", "without:seam"):
        found = _tried(cold, code)
        assert found.word == "nearer", found.words
        assert (found.gain_days or 0) > 14
    # Heating while one works does not carry a cure through the night.
    assert _tried(cold, "heated:25").word == "no clear effect"


def test_what_is_on_another_day_is_listed_with_both_days(door: Door) -> None:
    found = _tried(door, "part:hose=+70")
    hose = next(one for one in found.moved if one.id == "rear-hose")
    assert hose.before is not None
    assert hose.after is not None
    assert hose.after - hose.before > timedelta(days=50)
    assert found.before.hours_left == found.after.hours_left
    gates = {one.id: (one.before, one.after) for one in found.gates}
    assert gates["under-car"][0] < gates["under-car"][1]  # type: ignore[operator]


def test_several_changes_make_one_copy_each_on_the_one_before(door: Door) -> None:
    steps = trial.steps_of(["heated:20", "helps:any", "heated:20"])
    changes = trial.changes_for(door, steps)
    assert len(changes) == 2
    garage = door.try_out(changes).garage
    assert (garage.heated_to_c, garage.helper) == (20.0, HelperWork.ANY)


def test_a_copy_in_which_the_road_is_never_reached_says_so(door: Door) -> None:
    found = _tried(door, "lowest:wheels-on=45")
    assert found.word == "not reached"
    assert found.gain_days is None
    assert found.after.p50 is None
    assert "Wheels on" in found.stranded[0]


# --- what cannot be ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("code", "error"),
    [
        ("paint:red", BadInput),
        ("heated", BadInput),
        ("without:nothing", NotFound),
        ("hours:carb=many", BadInput),
        ("hours:carb=0", BadInput),
        ("part:nothing=+7", NotFound),
        ("part:hose=soon", BadInput),
        ("session:XX=10:00/240", BadInput),
        ("session:SU=later/240", BadInput),
        ("session:SU=10:00/0", BadInput),
        ("day:2026-03-07=420/3", BadInput),
        ("helper:2026-03-06", BadInput),
        ("helps:everything", BadInput),
        ("heated:900", BadInput),
        ("lowest:seam=cold", BadInput),
    ],
)
def test_what_cannot_be_tried_is_said_before_anything_is_planned(
    door: Door, code: str, error: type[BareshellError]
) -> None:
    with pytest.raises(error) as raised:
        trial.changes_for(door, trial.steps_of([code]))
    assert raised.value.remedy


def test_a_job_is_found_by_its_title_or_a_part_of_it(door: Door) -> None:
    build = door.build()
    assert open_job(build, "Rear hose") == "rear-hose"
    assert open_job(build, "wheel") == "wheels-on"
    with pytest.raises(BadInput, match="Say which"):
        open_job(build, "rear")
    with pytest.raises(NotFound, match="Did you mean Wheels on"):
        open_job(build, "Wheel son")


# --- keeping -------------------------------------------------------------------------------------


def test_what_is_kept_is_what_was_looked_at(door: Door) -> None:
    codes = ("without:door-seal", "hours:carb=4", "part:hose=2026-03-20", "helps:marked",
             "session:SU=10:00/240/2", "day:2026-03-11=0", "helper:eve")  # fmt: skip
    copy = door.try_out(trial.changes_for(door, trial.steps_of(codes)))
    said = _kept(door, *codes)
    build = door.build()
    assert "'Door seal' left out" in said
    for name in ("jobs", "orders", "garage", "patterns", "exceptions"):
        kept, tried = getattr(build, name), getattr(copy, name)
        assert document({name: _bare(kept)}) == document({name: _bare(tried)}), name
    assert build.orders["o1"].line.expected_on == date(2026, 3, 20)
    assert build.patterns["eve"].people == 2


def _bare(value: object) -> object:
    """Leave out the numbers of the entries, which a copy cannot have."""
    import re

    return re.sub(r"seq=\d+", "", repr(value))


def test_a_part_that_was_not_on_order_is_written_down_as_ordered_or_found(door: Door) -> None:
    door.record(c.NeedNotHere("nuts"))
    _kept(door, "part:nuts=2026-03-25")
    build = door.build()
    (order,) = [r.line for r in build.orders.values() if r.line.need == "nuts"]
    assert (order.ordered_on, order.expected_on) == (NOW.date(), date(2026, 3, 25))
    _kept(door, "part:hose=here")
    assert need_standings(door.build())["hose"].state == "here"


def test_the_same_form_sent_twice_is_kept_once(door: Door) -> None:
    steps = trial.steps_of(["without:door-seal"])
    pen = Pen(entry_id="form-1")
    trial.keep(door, steps, pen)
    count = door.latest()
    assert trial.keep(door, steps, pen).repeated
    assert door.latest() == count
    with pytest.raises(BadInput, match="nothing is changed"):
        trial.keep(door, (), Pen())


# --- the command line ----------------------------------------------------------------------------


def test_the_command_line_tries_and_keeps(door: Door) -> None:
    def run(*words: str) -> str:
        said = CliRunner().invoke(bareshell, ["trial", "--build", str(door.folder), *words])
        assert said.exit_code == 0, said.output
        return said.stdout

    count = door.latest()
    text = run("--without", "Door seal", "--heated", "12")
    assert "With 'Door seal' left out; the garage heated to 12 °C:" in text
    assert "Nothing is written down" in text
    assert door.latest() == count
    found = json.loads(run("--part", "hose=+7", "--json"))
    assert found["steps"][0]["code"] == "part:hose=+7"
    assert "Kept:" in run("--without", "Door seal", "--keep")
    assert door.build().jobs["door-seal"].state.status == "left out"


def test_a_changed_build_file_is_tried_whole_on_a_copy(door: Door, tmp_path: Path) -> None:
    from bareshell.app.trial_entries import file_step

    path = tmp_path / "changed.toml"
    path.write_text("""
[garage]
heated_to = 18

[[job]]
id = "wheels-paint"
title = "Paint the wheels"
system = "wheels"
ways = [{ people = 1, hours = [20, 30, 40] }]
""")
    before = door.latest()
    step = file_step(door, path)
    found = _tried(door, step.code)
    said = found.steps[0].words
    assert "Paint the wheels" in said
    assert "18" in said
    assert found.after.hours_left >= found.before.hours_left
    assert door.latest() == before


def test_a_file_that_changes_nothing_or_cannot_be_read_is_not_tried(
    door: Door, tmp_path: Path
) -> None:
    from bareshell.app.exchange import export_build_file
    from bareshell.app.trial_entries import file_step

    same = tmp_path / "same.toml"
    same.write_text(export_build_file(door))
    with pytest.raises(BadInput, match="change nothing"):
        file_step(door, same)
    same.write_text('[[job]]\nid = "carb"\nhours = "many"\n')
    with pytest.raises(BadInput):
        file_step(door, same)


def test_a_job_changed_by_its_form_is_told_by_what_differs(door: Door) -> None:
    from dataclasses import replace

    from bareshell.app.trial_entries import entry_step

    job = door.build().jobs["carb"].job
    step = entry_step([c.JobSet(replace(job, lowest_temperature_c=12.0))])
    said = trial.step_words(door, trial.steps_of([step.code])[0])
    assert said.startswith("job 'Carb': lowest")
    assert "12" in said


@pytest.mark.parametrize("change", [c.Withdrawn("a"), c.Settled("a", keep=True)])
def test_nothing_is_taken_back_or_settled_by_way_of_a_trial(change: c.Change) -> None:
    from bareshell.app.trial_entries import entry_step

    with pytest.raises(BadInput, match="cut short"):
        trial.steps_of([entry_step([change]).code])
