"""What is wanted, here or ordered, written down and read back from a terminal, in trade units."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from bareshell.app.door import Door
from bareshell.app.spec_forms import SPEC_FIELDS
from bareshell.app.typed_in import part_kinds, typed_over
from bareshell.cli.main import bareshell
from bareshell.errors import BadInput
from bareshell.model.duty import LoadPath
from bareshell.model.spec import PinSpec

Run = Callable[..., Result]


@pytest.fixture
def run(garage: Path) -> Run:
    def call(*words: str) -> Result:
        return CliRunner().invoke(bareshell, ["shelf", "--build", str(garage), *words])

    return call


def data(result: Result) -> dict[str, Any]:
    assert result.exit_code == 0, result.output
    return dict(json.loads(result.stdout))


def test_a_need_in_inches_and_newtons(run: Run, garage: Path) -> None:
    said = run(
        "need", "--add", "Clevis pins", "job=rear-hose", "quantity=2", "kind=pin",
        "diameter=5/16 in +/- 0.05 mm", "grip=22mm", "load-path=handbrake", "load=1.5 kN",
        "shear-planes=2", "fork-ply=4 mm", "turns=yes", "fixing=yes",
    )  # fmt: skip
    assert said.exit_code == 0, said.output
    assert "It is 'clevis-pins'." in said.output
    with Door.open(garage, back_up=False) as door:
        need = door.build().needs["clevis-pins"]
    assert need.quantity == 2
    assert need.fixing
    assert isinstance(need.spec, PinSpec)
    assert need.spec.diameter_m == pytest.approx(0.0079375)
    assert need.spec.diameter_tolerance_m == pytest.approx(0.00005)
    assert need.spec.grip_to_hole_m == pytest.approx(0.022)
    assert need.duty is not None
    assert need.duty.load_path is LoadPath.HANDBRAKE
    assert need.duty.load_n == pytest.approx(1500.0)
    read = run("need", "clevis-pins").output
    assert "7.9375 \u00b1 0.05 mm" in read
    assert "Find out before you order" in read
    assert "gap: How wide is the gap between the two?" in read


def test_one_field_corrected_and_one_taken_away(run: Run) -> None:
    run("need", "--add", "Pins", "job=rear-hose", "kind=pin", "diameter=8mm", "material=EN8")
    found = data(run("need", "pins", "material=unknown", "grip-to-hole=18 mm", "--json"))
    sizes = {one["field"]: one["value"] for one in found["sizes"]}
    assert (sizes["diameter_m"], sizes["grip_to_hole_m"]) == ("8 mm", "18 mm")
    assert sizes["material"] == ""
    assert "material" in [one["field"] for one in found["questions"]]


def test_another_kind_brings_its_own_fields(run: Run) -> None:
    run("need", "--add", "Pin", "job=rear-hose", "kind=pin", "diameter=8mm")
    found = data(run("need", "pin", "kind=bolt", "thread=3/8-24 UNF", "--json"))
    thread = found["sizes"][0]
    assert thread["value"] == "3/8-24 UNF"
    assert thread["means"].startswith("9.525 mm outside, pitch 1.058 mm (24 to the inch)")
    assert found["need"]["size"] == "3/8-24 UNF"


def test_a_holding_and_what_it_fits(run: Run) -> None:
    run("need", "--add", "Bolts", "job=rear-hose", "kind=bolt", "thread=M8", "length=40mm")
    said = run("holding", "--add", "M8 bolts", "quantity=6", "where=tin 3", "kind=bolt",
               "thread=M8x1.25", "length=1.575 in")  # fmt: skip
    assert "6 x M8 bolts in tin 3." in said.output
    assert data(run("fit", "bolts", "--json"))["fit"][0]["holding"] == "m8-bolts"
    opened = run("holding", "m8-bolts").output
    assert "sizes are measured" in opened
    assert "Wanted for" in opened
    (wanted,) = data(run("holding", "m8-bolts", "--json"))["wanted_by"]
    assert (wanted["need"], wanted["missing"], wanted["word"]) == ("bolts", 1, "fits")
    run("use", "bolts", "m8-bolts")
    assert data(run("holding", "m8-bolts", "--json"))["wanted_by"] == []
    assert "on the shelf no longer" in run("holding", "m8-bolts", "--drop").output


def test_an_order_line_takes_the_sizes_of_what_it_is_for(run: Run) -> None:
    run("need", "--add", "Bolts", "job=rear-hose", "kind=bolt", "thread=M8", "length=40mm")
    run("line", "--add", "Bolts", "need=bolts", "supplier=A bolt shop", "length=45 mm")
    found = data(run("line", "bolts", "--json"))
    assert found["order"]["spec"]["thread"] == "M8"
    assert found["against"][0]["words"] == "5 mm too long"
    assert "A bolt shop" in run("line", "bolts").output


def test_a_pipe_nut_by_an_adaptor_and_what_it_nearly_is(run: Run) -> None:
    """It stands in only until fluid stands in it, and the list says how it would fool one."""
    run("need", "--add", "Pipe nut", "job=rear-hose", "kind=union", "thread=M10x1")
    run("holding", "--add", "Inch nuts", "kind=union", "thread=3/8-24 UNF", "where=tin 4")
    found = data(run("fit", "pipe-nut", "--json"))
    assert found["relied_on"] == "fuel or brake line"
    shown: list[dict[str, object]] = [*found["may_stand_in"], *found["near_misses"]]
    (nut,) = shown  # in the one list or the other, by whether a gate stands there
    assert nut["near_misses"] == ["thread: it starts, and jams after about 5 turns"]
    assert "jams after about 5 turns" in run("fit", "pipe-nut").output


def test_what_is_of_the_kind_and_will_not_do_is_shown_with_its_reason(run: Run) -> None:
    run("need", "--add", "Lamp fuse", "job=rear-hose", "kind=electrical", "what=fuse", "amps=10")
    run("holding", "--add", "Big fuses", "kind=electrical", "what=fuse", "amps=20")
    said = run("fit", "lamp-fuse").output
    assert "Of its kind, and will not do" in said
    assert "the wire burns before it blows" in said
    run("need", "--add", "Grey clip", "job=rear-hose", "kind=plain", "words=grey clip")
    assert "say its kind and sizes" in run("fit", "grey-clip").output


def test_nothing_is_half_saved(run: Run, garage: Path) -> None:
    wrong = run("need", "--add", "Pins", "job=rear-hose", "kind=pin", "diameter=8 bananas")
    assert wrong.exit_code != 0
    assert "diameter" in str(wrong.exception)
    with Door.open(garage, back_up=False) as door:
        assert "pins" not in door.build().needs
    for words in (("need",), ("need", "nobody"), ("need", "--add", "X", "job=rear-hose", "grap=1")):
        assert run(*words).exit_code != 0


def test_dropped_by_its_id_alone(run: Run) -> None:
    run("need", "--add", "Pins", "job=rear-hose")
    assert run("need", "pins", "quantity=3", "--drop").exit_code != 0
    assert "not wanted any more" in run("need", "pins", "--drop").output


def test_none_is_an_answer_and_unknown_is_not() -> None:
    form = typed_over({"spec": ("master cylinder",)}, ["residual-valve=none", "split=unknown"])
    assert form["spec_residual_valve"] == ("none",)
    assert form["spec_split"] == ("",)
    ticked = typed_over({"spec": ("pin",), "fixing": ("yes",)}, ["fixing=no"])
    assert ticked["fixing"] == ()


def test_usual_words_are_offered(run: Run) -> None:
    said = run("fields", "hose").output
    assert "bubble flare, double flare" in said
    found = data(run("fields", "pin", "--json"))["kinds"][0]["fields"]
    assert next(one["usual"] for one in found if one["name"] == "head") == ["flat", "none", "ring"]


def test_names_are_whole_words(run: Run) -> None:
    """'di' is no diameter: a slip of the finger is never a size."""
    with pytest.raises(BadInput, match="is no field here"):
        typed_over({"spec": ("pin",)}, ["di=8 mm"])
    with pytest.raises(BadInput, match="NAME=VALUE"):
        typed_over({"spec": ("pin",)}, ["diameter"])


SAID = {
    "length": "5/16 in",
    "thread": "M10x1",
    "whole": "2",
    "figure": "10",
    "temperature": "41 F",
    "day": "2027-03-04",
    "words": "grey",
}
"""Each sort of field as the trade writes it."""


@pytest.mark.parametrize("kind", sorted(SPEC_FIELDS))
def test_every_field_of_every_kind_can_be_typed_and_reads_back(run: Run, kind: str) -> None:
    named = part_kinds(kind).kinds[0].fields
    fields = SPEC_FIELDS[kind]
    said = [f"{name.name}={SAID[one.reads]}" for name, one in zip(named, fields, strict=True)]
    done = run("need", "--add", "Thing", "job=rear-hose", f"kind={kind}", *said)
    assert done.exit_code == 0, done.output + str(done.exception)
    page = data(run("need", "thing", "--json"))
    assert all(one["value"] for one in page["sizes"]), page["sizes"]
    assert page["questions"] == [] or kind in ("bolt", "pin")
    assert page["unknown"] == []
    for label in (one.label for one in fields if not one.also):
        assert label in run("fields", *kind.split()).output


def test_unknown_kinds_are_named(run: Run) -> None:
    assert "split pin" in str(run("fields", "gizmo").exception)
    assert "load-path" in run("fields").output
