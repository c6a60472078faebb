"""The parts desk as commands: fit, stand-ins, bags, fetching, counting out and back."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from bareshell.app.door import Door
from bareshell.cli.main import bareshell
from bareshell.model import changes as c
from bareshell.model.duty import Duty, LoadPath
from bareshell.model.part import Holding, Need, NeededTo, NeedState
from bareshell.model.spec import BoltSpec, PinSpec, UnionSpec
from bareshell.model.standing import need_standings, open_temps
from bareshell.model.temp import Gate
from tests.stories import NOW, small_car_changes

Run = Callable[..., Result]
MM = 1e-3
PIN = PinSpec(diameter_m=8 * MM, grip_to_hole_m=18 * MM, material="mild steel")


@pytest.fixture
def garage(tmp_path: Path) -> Path:
    """The small car with a handbrake that wants two pins."""
    folder = tmp_path / "car"
    duty = Duty(LoadPath.HANDBRAKE, turns=True, shear_planes=2)
    bolt = BoltSpec(thread="M8", grip_length_m=18 * MM, length_m=32 * MM, grade="8.8", lock="nyloc")
    with Door.open(folder, create=True, clock=lambda: NOW) as door:
        door.record(
            [
                *small_car_changes(),
                c.GateSet(Gate("pushed-roll", "Pushed roll")),
                c.NeedSet(
                    Need("hb", "Handbrake pins", "rear-hose", 2, NeededTo.START, PIN, duty=duty)
                ),
                c.HoldingSet(Holding("pins", "Clevis pins", 3, PIN, where="tin 5")),
                c.HoldingSet(Holding("bolts", "Bolts M8", 4, bolt, where="tin 3")),
            ]
        )
    return folder


@pytest.fixture
def run(garage: Path) -> Run:
    """Call ``bareshell shelf`` on that build."""

    def call(*words: str) -> Result:
        return CliRunner().invoke(bareshell, ["shelf", "--build", str(garage), *words])

    return call


def data(result: Result) -> dict[str, Any]:
    assert result.exit_code == 0, result.output
    return dict(json.loads(result.output))


def states(garage: Path) -> dict[str, NeedState]:
    with Door.open(garage, back_up=False) as door:
        return {key: one.state for key, one in need_standings(door.build()).items()}


def test_what_fits_a_need_and_what_stands_in(run: Run) -> None:
    said = run("fit", "hb").output
    assert said.index("Fits") < said.index("3 x Clevis pins") < said.index("May stand in")
    assert "will do as a temp until the car is first left held by it" in said
    found = data(run("fit", "hb", "--json"))
    assert [one["holding"] for one in found["fit"]] == ["pins"]


def test_every_check_of_one_pair_with_its_sum(run: Run) -> None:
    said = run("fit", "hb", "bolts").output
    assert "kN a plane (8.8, 8 mm) against" in said
    assert "common practice, no source" in said


def test_what_is_free_and_fits_something(run: Run) -> None:
    assert "fits: pins in tin 5" in run("fit").output
    assert data(run("fit", "--json"))["needs"] == 3


def test_put_aside_and_used_as_a_temp(run: Run, garage: Path) -> None:
    assert "2 x Clevis pins put aside" in run("use", "hb", "pins").output
    assert states(garage)["hb"] is NeedState.HERE
    refused = run("use", "hb", "bolts")
    assert refused.exit_code != 0
    assert "does not fit" in str(refused.exception)


def test_a_temp_stands_in_the_register(run: Run, garage: Path) -> None:
    said = run("use", "hb", "bolts", "--temp", "--words", "marked red").output
    assert "gone before the gate 'Pushed roll'" in said
    with Door.open(garage, back_up=False) as door:
        assert len(open_temps(door.build())) == 1


def test_a_bag_opened_named_and_found(run: Run, garage: Path) -> None:
    assert "To finish" in run("kit", "rear-pipe").output
    said = run("kit", "rear-pipe", "--bag", "4", "--all-here", "--where", "bag 4").output
    assert "complete, bag 4" in said
    assert states(garage)["nuts"] is NeedState.HERE
    assert data(run("kit", "rear-pipe", "--json"))["word"] == "complete"
    assert run("kit", "nonesuch").exit_code != 0


def test_what_to_fetch(run: Run) -> None:
    assert "No job is begun" in run("pick").output
    said = run("pick", "rear-pipe", "rear-hose").output
    assert "Look for" in said
    assert "[ ] 4 x Pipe nuts M10x1" in said
    assert data(run("pick", "rear-pipe", "--json"))["jobs"] == [["rear-pipe", "Rear pipe"]]


def test_what_to_fetch_tonight(run: Run) -> None:
    assert "Fetch" in run("pick", "--tonight").output


def test_counted_out_and_back(run: Run) -> None:
    said = run("send", "A plater", "pins=2", "--work", "zinc plating").output
    assert "2 pieces counted out" in said
    lot = said.rsplit("'", 2)[1]
    (line,) = data(run("away", "--json"))["lots"][0]["lines"]
    assert "0 of 2 back" in run("away").output
    assert "1 still out" in run("back", lot, f"{line['order']}=1", "--where", "tin 5").output
    assert "1 of 2 came back in all" in run("back", lot, "--lost").output


def test_what_to_order_and_ordered(run: Run, garage: Path, tmp_path: Path) -> None:
    run("not-here", "nuts")
    assert "No supplier yet" in run("order-list", "--without-plan").output
    planned = data(run("order-list", "--sure", "0.8", "--json"))
    assert planned["planned"] is True
    target = tmp_path / "list.csv"
    run("order-list", "--without-plan", "--save", str(target))
    assert "Pipe nuts M10x1" in target.read_text("utf-8-sig")
    said = run("order", "Fennimoss", "nuts=5", "--carriage", "3")
    assert "1 line ordered from Fennimoss in one parcel." in said.output
    assert states(garage)["nuts"] is NeedState.COMING
    assert run("order", "Fennimoss", "nonesuch=1").exit_code != 0


def test_whom_to_ask_and_what_it_costs(run: Run) -> None:
    assert "days late: ask, and write the new day down" in run("chase", "--without-plan").output
    assert data(run("chase", "--json"))["lines"]
    said = run("costs", "--budget", "900").output
    assert "The budget is 900 GBP." in said
    assert "left of 900" in said
    assert data(run("costs", "--json"))["unpriced"] == 1


def test_a_size_in_words_is_offered_and_taken(run: Run, garage: Path) -> None:
    assert "need:nuts" in run("sizes").output
    offered = [row["id"] for row in data(run("sizes", "--json"))["rows"]]
    assert "nuts" in offered
    assert "1 size taken from words" in run("sizes", "--take", "need:nuts").output
    with Door.open(garage, back_up=False) as door:
        assert isinstance(door.build().needs["nuts"].spec, UnionSpec)


def test_an_invoice_is_shown_first(garage: Path) -> None:
    text = "1 Rear flexible hose 14.00\nCarriage 3.00\n"

    def read(*words: str) -> Result:
        where = ["shelf", "--build", str(garage), "invoice", "--supplier", "Invented supplier"]
        return CliRunner().invoke(bareshell, [*where, *words], input=text)

    assert "order:o1: it is on order already" in read().output
    with Door.open(garage, back_up=False) as door:
        assert door.build().orders["o1"].line.price is None
    assert "1 line of the invoice" in read("--keep").output
    assert "it is in the record already, at this price" in read().output


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("send", "A plater", "pins"), "'pins' is no count"),
        (("send", "A plater", "pins=9"), "9 cannot be counted out: 3 lie there"),
        (("send", "A plater", "nonesuch=1"), "there is no holding 'nonesuch'"),
        (("back", "nonesuch"), "there is no lot 'nonesuch'"),
        (("fit", "nonesuch"), "there is no need 'nonesuch'"),
        (("use", "hb", "pins", "-n", "7"), "7 of 'Clevis pins' cannot be taken"),
    ],
)
def test_what_is_wrong_is_a_sentence(run: Run, words: tuple[str, ...], sentence: str) -> None:
    result = run(*words)
    assert result.exit_code != 0
    assert sentence in str(result.exception)


def test_a_delivery_says_what_it_does(run: Run) -> None:
    wrong = run("goods-in", "o1", "wrong", "--words", "left hand thread").output
    assert "'Rear flexible hose': 1 wrong." in wrong
    assert "Ask by when it must go back" in wrong
    assert "'Rear hose' still waits to start, and 4 after it." in wrong
    right = run("goods-in", "o1", "right").output
    assert "Nothing of it is outstanding." in right


def test_what_happens_to_an_order_besides_coming(run: Run, garage: Path) -> None:
    assert "now expected on 20 March 2026" in run("expect", "o1", "2026-03-20").output
    assert "nobody knows when" in run("expect", "o1").output
    assert "was paid on" in run("paid", "o1", "--price", "£31.20", "--on", "2026-03-01").output
    with Door.open(garage) as door:
        price = door.build().orders["o1"].line.price
    assert price is not None
    assert (str(price.amount), price.currency) == ("31.20", "GBP")
    refused = run("returned", "o1", "proved")
    assert "is no exchange unit" in str(refused.exception)
    run("goods-in", "o1", "wrong", "--without-plan")
    assert "went back on" in run("returned", "o1", "wrong-goods").output
    assert "is cancelled" in run("expect", "o1", "--cancelled", "--words", "gave up").output


def test_an_old_unit_goes_back_step_by_step(run: Run, garage: Path) -> None:
    from datetime import date

    from bareshell.model.changes import OrderSet
    from bareshell.model.part import Exchange, OrderLine

    line = OrderLine("x", "Starter, exchange", exchange=Exchange(date(2026, 4, 1)))
    with Door.open(garage) as door:
        door.record(OrderSet(line))
    for step in ("proved", "photographed", "measured"):
        assert step in run("returned", "x", step).output
    assert "All three are done: it may go." in run("chase", "--without-plan").output
    assert "The old unit" in run("returned", "x", "old-unit").output
    assert "Starter" not in run("chase", "--without-plan").output.partition("Old units")[2]


def test_several_are_not_here_at_once_or_none(run: Run, garage: Path) -> None:
    said = run("not-here", "nuts", "hose").output
    assert said.count("is not here") == 2
    with Door.open(garage) as door:
        before = door.latest()
    assert run("not-here", "nuts", "nonesuch").exit_code != 0
    with Door.open(garage) as door:
        assert door.latest() == before


def test_lists_go_out_by_supplier_into_a_folder_or_a_file(
    run: Run, garage: Path, tmp_path: Path
) -> None:
    from bareshell.model.changes import OrderCancelled, OrderSet
    from bareshell.model.part import OrderLine

    with Door.open(garage) as door:
        door.record([OrderSet(OrderLine("old", "Nuts", "nuts", 4, "Fennimoss")),
                     OrderCancelled("old", "never came")])  # fmt: skip
    run("not-here", "nuts")
    folder = tmp_path / "lists"
    folder.mkdir()
    said = run("order-list", "--without-plan", "--save", str(folder)).output
    assert "order-fennimoss.xlsx" in said
    assert (folder / "order-fennimoss.xlsx").stat().st_size > 0
    words = ("order-list", "--without-plan", "--supplier", "fennimoss", "--save")
    assert run(*words, str(tmp_path / "one.csv")).exit_code == 0
    assert "says neither xlsx nor csv" in str(run(*words, str(tmp_path / "one.pdf")).exception)
    assert not (tmp_path / "one.pdf").exists()
    assert "there is no folder" in str(run(*words, str(tmp_path / "no" / "one.csv")).exception)
    nobody = run("order-list", "--without-plan", "--supplier", "Nobody", "--save", "x.csv")
    assert "nothing is to be ordered from 'Nobody'" in str(nobody.exception)


def test_more_than_was_ordered_is_said(run: Run) -> None:
    said = run("goods-in", "o1", "right", "-n", "5", "--without-plan").output
    assert "more came than were ordered: keep them as spares, or send them back." in said
