"""The demo's names are nobody's, and no other code knows them."""

from __future__ import annotations

from pathlib import Path

from bareshell.demo import jobs, orders, shelf, wanted
from bareshell.demo.car import CAR
from tests.demo.conftest import Played

SRC = Path(__file__).parents[2] / "src" / "bareshell"


def test_the_car_says_that_it_is_invented(demo: Played) -> None:
    car = demo.build.car
    assert car is not None
    assert car.invented
    assert "invented" in car.name
    assert car.words.startswith("An invented car")


def test_every_supplier_is_one_of_the_invented_ones(demo: Played) -> None:
    suppliers = {record.line.supplier for record in demo.build.orders.values()}
    assert suppliers == set(orders.SOURCES)


def test_nobody_is_named(demo: Played) -> None:
    assert {entry.author for entry in demo.entries} == {"owner", "helper"}
    passed = [record.passed for record in demo.build.gates.values() if record.passed]
    assert {passing.by for passing in passed} == {"owner"}


def test_no_other_code_knows_the_demo() -> None:
    made, model, _ = CAR.name.split(maxsplit=2)
    names = {made, model, *orders.SOURCES}
    names |= {supplier.split()[0] for supplier in orders.SOURCES}
    quoted = {job.id for job in jobs.JOBS} | {proof.id for proof in jobs.PROOFS}
    quoted |= {temp.id for temp in jobs.TEMPS} | {order.key for order in orders.ORDERS}
    quoted |= {loose.key for loose in shelf.LOOSE}
    quoted |= {need.id for need in wanted.NEEDS if "-" in need.id}
    others = [
        path
        for path in SRC.rglob("*")
        if path.suffix in {".py", ".html", ".js", ".css", ".md", ".json"}
        and SRC / "demo" not in path.parents
    ]
    assert len(others) > 50
    for path in others:
        text = path.read_text(encoding="utf-8")
        found = {name for name in names if name in text}
        found |= {key for key in quoted if f'"{key}"' in text or f"'{key}'" in text}
        assert not found, f"{path.relative_to(SRC)} knows of {sorted(found)}"
