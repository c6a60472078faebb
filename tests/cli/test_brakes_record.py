"""``bareshell brakes``: begun, corrected, read, owed, wanted, opened, commissioned, drawn."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from click.testing import CliRunner, Result

from bareshell.app.door import Door
from bareshell.cli.commands.brakes_files import WHATS
from bareshell.cli.main import bareshell
from bareshell.draw.brake_drawn import PICTURES
from bareshell.errors import BareshellError
from bareshell.model import changes as c
from bareshell.model.brake import ReadingKind
from bareshell.model.car import Layout
from bareshell.model.proof import ProofState
from bareshell.model.standing import proof_standings
from bareshell.model.trust import Trust
from bareshell.trade.network import starter as network
from bareshell.whole.brake_proofs import air_proof_id, joint_proof_id, screw_proof_id

Run = Callable[..., Result]
JOINT = "hose-front-left-1"


@pytest.fixture
def garage(tmp_path: Path) -> Path:
    """The starter network; nothing said of the brakes."""
    folder, begun = tmp_path / "car", network(Layout.REAR)
    with Door.open(folder, create=True, back_up=False) as door:
        door.record(
            [
                *(c.JobSet(each) for each in begun.jobs),
                *(c.GateSet(each) for each in begun.gates),
                *(c.ProofSet(each) for each in begun.proofs),
                *(c.NeedSet(each) for each in begun.needs),
            ]
        )
    return folder


@pytest.fixture
def run(garage: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    """Call ``bareshell brakes`` on that build."""
    monkeypatch.setenv("BARESHELL_BUILD", str(garage))

    def call(*words: str, says: str | None = None) -> Result:
        return CliRunner().invoke(bareshell, ["brakes", *words], input=says)

    return call


@pytest.fixture
def begun(run: Run) -> Run:
    done(run("begin", "front-rear-tandem", "--threads", "metric"))
    return run


def done(result: Result) -> str:
    assert result.exit_code == 0, result.output or result.exception
    return result.output


def refused(result: Result) -> str:
    assert isinstance(result.exception, BareshellError), result.output
    return result.exception.describe()


def state(garage: Path, proof: str) -> ProofState:
    with Door.open(garage, back_up=False) as door:
        return proof_standings(door.build())[proof].state


# --- beginning and correcting ------------------------------------------------------------------


def test_starters_are_listed_and_begun_from_with_hyphens(run: Run, garage: Path) -> None:
    assert "diagonal tandem" in done(run("begin"))
    said = done(run("begin", "diagonal-tandem", "--wheelbase", "2311 mm"))
    assert "'bareshell brakes owe'" in said
    with Door.open(garage, back_up=False) as door:
        assert door.build().brakes["as-built"].part("car").figures["wheelbase_m"].value == 2.311
    assert "single line" in refused(run("begin", "none-such"))


def test_a_brake_file_is_written_and_begun_from(begun: Run, tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    done(begun("write", str(file), "--short"))
    assert "front-rear tandem" in file.read_text("utf-8")
    done(begun("begin", str(file), "--role", "standard", "--title", "As new"))
    assert "As new" in done(begun("show", "--system", "standard"))
    assert "as built" in done(begun("show")), "those on the car are still there"
    assert "no file" in refused(begun("begin", str(tmp_path / "gone.toml")))


def test_a_figure_is_set_shown_and_taken_away_again(begun: Run, garage: Path) -> None:
    done(begun("set", "master.bore", "3/4", "in,", "marked", "on", "the", "part"))
    with Door.open(garage, back_up=False) as door:
        bore = door.build().brakes["as-built"].part("master").figures["bore_m"]
    assert (bore.value, bore.trust) == (0.01905, Trust.MARKED)
    shown = done(begun("show", "--thing", "master"))
    assert "master.bore_m: 19.05 mm [marked on the part]" in shown
    done(begun("set", "master.bore", "unknown"))
    assert "master.bore_m: not known" in done(begun("show", "--thing", "master"))
    assert "names no figure" in refused(begun("set", "master", "3"))


def test_a_weighing_is_written_down_and_wants_the_wheelbase_for_a_height(
    begun: Run, garage: Path
) -> None:
    level = ("weigh", "--front", "505 kg", "--rear", "395 kg")
    raised = (*level, "--raised-front", "540 kg", "--rise", "600 mm")
    assert "900 kg, 56.1 in 100 of it in front" in done(begun(*level))
    assert "Weighed fully laden: 900 kg" in done(begun(*level, "--laden"))
    assert refused(begun(*raised)).startswith("wheelbase: is not known")
    for name in ("wheelbase 2286 mm", "front_rolling_radius 280 mm", "rear_rolling_radius 280 mm"):
        done(begun("set", *f"car.{name}".split()))
    assert "Height of the centre of gravity: 0.61 m" in done(begun(*raised))
    with Door.open(garage, back_up=False) as door:
        [brakes] = door.build().brakes.values()
    assert brakes.part("car").figures["cg_height_m"].low is not None


def test_parts_of_a_file_alone_are_shown(tmp_path: Path) -> None:
    file = tmp_path / "one.toml"
    file.write_text('start = "single line"\n', "utf-8")
    shown = CliRunner().invoke(bareshell, ["brakes", "show", str(file), "--json"])
    assert json.loads(done(shown))["parts"]
    opened = CliRunner().invoke(bareshell, ["brakes", "show", str(file), "--thing", "master"])
    assert "not known" in done(opened)


# --- readings and yardsticks -------------------------------------------------------------------


def test_readings_say_what_can_be_read_and_are_kept(begun: Run, garage: Path) -> None:
    assert "decelerometer" in done(begun("read"))
    assert "service | parking" in done(begun("read", "decelerometer"))
    done(begun("read", "decelerometer", "deceleration=0.62", "brake=service", "--by", "me"))
    with Door.open(garage, back_up=False) as door:
        [reading] = door.build().brake_readings.values()
    assert (reading.kind, reading.figures["deceleration_g"]) == (ReadingKind.DECELEROMETER, 0.62)
    assert "it may be: brake" in refused(begun("read", "decelerometer", "speeed=3"))
    assert "known are" in refused(begun("read", "crystal-ball")).lower()


def test_a_hold_on_the_command_line_names_the_wet_joint(begun: Run, garage: Path) -> None:
    done(begun("owe", "--yes"))
    circuit = "circuit=master-primary"
    done(begun("read", "pressure-hold", circuit, "first_pressure=10", "--wet", JOINT))
    assert state(garage, joint_proof_id(JOINT)) is ProofState.FAILED


def test_yardsticks_are_listed_and_chosen(begun: Run, garage: Path) -> None:
    assert "nobody chose yet" in done(begun("yardsticks"))
    done(begun("yardsticks", "choose", "uk-mot-service"))
    with Door.open(garage, back_up=False) as door:
        assert door.build().yardsticks == ("uk-mot-service",)
    assert "chosen" in done(begun("yardsticks", "--market", "United Kingdom"))
    done(begun("yardsticks", "choose"))
    assert begun("yardsticks", "take").exit_code == 2


# --- proofs and needs --------------------------------------------------------------------------


def test_owing_asks_first_and_looking_changes_nothing(begun: Run, garage: Path) -> None:
    key = joint_proof_id(JOINT)
    assert "new: Joint dry" in done(begun("owe", "--look"))
    assert begun("owe", says="n\n").exit_code == 1
    with Door.open(garage, back_up=False) as door:
        assert key not in door.build().proofs
    assert json.loads(done(begun("owe", "--json")))["differences"]
    assert "owed now" in done(begun("owe", says="y\n"))
    assert state(garage, key) is ProofState.OWED
    assert "asks for every proof" in done(begun("owe"))


def test_needs_ask_first_too(begun: Run) -> None:
    assert "new" in done(begun("needs", "--look"))
    assert "on the parts desk now" in done(begun("needs", "--yes"))
    assert "has everything" in done(begun("needs"))


def test_undone_and_opened(begun: Run, garage: Path) -> None:
    done(begun("owe", "--yes"))
    screw = screw_proof_id("caliper-front-left-bleed")
    air = air_proof_id("master-primary")
    with Door.open(garage, back_up=False) as door:
        door.record([c.ProofHeld(key) for key in (joint_proof_id(JOINT), screw, air)])
    assert "is spent" in done(begun("undo-joint", JOINT, "--words", "washer renewed"))
    assert state(garage, joint_proof_id(JOINT)) is ProofState.SPENT
    assert "pedal test renews it" not in done(begun("open-screw", "caliper-front-left"))
    assert state(garage, screw) is ProofState.SPENT
    assert "name one of" in refused(begun("open-screw", "nobody")).lower()


# --- first use and pictures --------------------------------------------------------------------


def test_commissioning_is_told_of_a_build_and_of_a_file(begun: Run, tmp_path: Path) -> None:
    said = done(begun("commission"))
    assert "Choose the fluid" in said
    assert "Mind: " in said
    file = tmp_path / "mine.toml"
    done(begun("write", str(file)))
    shown = CliRunner().invoke(bareshell, ["brakes", "commission", str(file), "--json"])
    assert len(json.loads(done(shown))["steps"]) == 19


def test_every_picture_can_be_named(begun: Run) -> None:
    assert tuple(PICTURES) == WHATS
    assert begun("draw", "--what", "none-such", "--out", "x.svg").exit_code == 2


def test_a_picture_is_one_file_of_its_own(begun: Run, tmp_path: Path) -> None:
    out = tmp_path / "plan.svg"
    done(begun("draw", "--out", str(out), "--light", "garage"))
    root = ET.fromstring(out.read_text("utf-8"))  # noqa: S314  our own file
    assert root.tag.endswith("svg")
    assert "http" not in out.read_text("utf-8").replace("http://www.w3.org/2000/svg", "")


def test_a_picture_that_lacks_figures_says_which(begun: Run, tmp_path: Path) -> None:
    out = tmp_path / "pedal.svg"
    said = refused(begun("draw", "--what", "pedal", "--out", str(out)))
    assert "bore" in said
    assert not out.exists()
    assert "neither SVG nor PDF" in refused(begun("draw", "--out", str(tmp_path / "x.png")))
