"""Everything that is laid out as a form comes back from it as it was, for a whole real-sized build.

The build is the invented demo: some 250 jobs, 180 proofs and 280 needs of every kind.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.app import garage_desk, parts_desk, proofs_desk
from bareshell.app.demo import make_demo
from bareshell.app.door import Door
from bareshell.app.figures import figure_in, misses
from bareshell.app.filled import Filled
from bareshell.app.job_forms import lay_job, read_job
from bareshell.app.spec_forms import lay_spec, read_spec
from bareshell.app.written import Pen, slug
from bareshell.errors import BadInput, BareshellError
from bareshell.model.changes import Change
from bareshell.model.proof import Limit, Reading

NOW = datetime(2026, 11, 25, 18, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Door]:
    folder = tmp_path_factory.mktemp("demo") / "build"
    with make_demo(folder, date(2026, 11, 25), clock=lambda: NOW) as door:
        yield door


class Tried(Exception):
    """Carries what a form would have written, without writing it."""

    def __init__(self, change: Change) -> None:
        super().__init__()
        self.change = change


def asked_of(door: Door, monkeypatch: pytest.MonkeyPatch, write: Any) -> Change:
    """The change that a form would write down."""

    def caught(_self: Door, changes: tuple[Change, ...], **_rest: Any) -> None:
        raise Tried(changes[0])

    with monkeypatch.context() as patch:
        patch.setattr(Door, "record", caught)
        with pytest.raises(Tried) as tried:
            write()
    return tried.value.change


def test_every_job(demo: Door) -> None:
    build = demo.build()
    titles = {key: record.job.title for key, record in build.jobs.items()}
    for key, record in build.jobs.items():
        laid = lay_job(record.job, titles)
        assert read_job(Filled(laid), build, key, record.job) == record.job


def test_every_specification(demo: Door) -> None:
    build = demo.build()
    specs = [
        *(need.spec for need in build.needs.values()),
        *(holding.spec for holding in build.holdings.values()),
        *(record.line.spec for record in build.orders.values()),
    ]
    assert len({spec.kind for spec in specs}) > 5
    for spec in specs:
        form = Filled(lay_spec(spec))
        back = read_spec(form)
        form.check()
        assert lay_spec(back) == lay_spec(spec)  # to the figures that are shown


@pytest.mark.parametrize("what", ["need", "holding", "order", "proof", "gate", "departure"])
def test_everything_else_there_is(demo: Door, monkeypatch: pytest.MonkeyPatch, what: str) -> None:
    build = demo.build()
    things: dict[str, Any] = {
        "need": (build.needs, parts_desk.lay_need, parts_desk.set_need, "need"),
        "holding": (build.holdings, parts_desk.lay_holding, parts_desk.set_holding, "holding"),
        "order": (
            {key: record.line for key, record in build.orders.items()},
            parts_desk.lay_order,
            parts_desk.set_order,
            "line",
        ),
        "proof": (
            {key: record.proof for key, record in build.proofs.items()},
            proofs_desk.lay_proof,
            proofs_desk.set_proof,
            "proof",
        ),
        "gate": (
            {key: record.gate for key, record in build.gates.items()},
            lambda gate, build: proofs_desk.lay_gate(build, gate.id),
            proofs_desk.set_gate,
            "gate",
        ),
        "departure": (
            build.departures,
            lambda departure, _build: garage_desk.lay_departure(departure),
            garage_desk.set_departure,
            "departure",
        ),
    }
    mapping, lay, put, name = things[what]
    assert mapping
    for key, thing in mapping.items():
        laid = lay(thing, build)
        change = asked_of(demo, monkeypatch, lambda k=key, fields=laid: put(demo, k, fields, Pen()))
        back = getattr(change, name)
        if hasattr(thing, "spec"):
            assert lay_spec(back.spec) == lay_spec(thing.spec)
            from dataclasses import replace

            back = replace(back, spec=thing.spec)
        assert back == thing


class TestFilled:
    """One field after the other; what is wrong is collected and nothing is made up."""

    def test_an_empty_field_is_not_said(self) -> None:
        form = Filled({"hours": [" "], "count": [], "lowest": [""]})
        assert form.hours("hours", "hours") is None
        assert form.whole("count", "how many") is None
        assert form.temperature_c("lowest", "not below") is None
        assert form.moment("when", "when") is None
        form.check()

    def test_all_that_is_wrong_is_said_together(self) -> None:
        form = Filled({"hours": ["soon"], "count": ["2.5"], "day": ["someday"], "t": ["cold"]})
        form.hours("hours", "hours")
        form.whole("count", "how many", 1)
        form.day("day", "day")
        form.temperature_c("t", "not below")
        with pytest.raises(BadInput) as wrong:
            form.check()
        assert [one.where for one in wrong.value.problems] == [
            "hours",
            "how many",
            "day",
            "not below",
        ]
        assert all(one.remedy for one in wrong.value.problems)

    @given(st.text(max_size=40))
    def test_whatever_is_typed_is_read_or_refused_with_a_sentence(self, typed: str) -> None:
        form = Filled({"x": [typed]}, NOW)
        for read in (form.hours, form.figure, form.day, form.clock, form.moment):
            read("x", "it")
        form.whole("x", "it")
        form.temperature_c("x", "it")
        try:
            form.check()
        except BareshellError as error:
            assert error.describe()  # noqa: PT017  either way is right; nothing else may escape

    def test_a_bare_temperature_is_celsius_and_a_bare_length_of_time_is_hours(self) -> None:
        form = Filled({"t": ["-5"], "f": ["14 F"], "h": ["1,5"]})
        assert form.temperature_c("t", "t") == -5
        # -10 degrees Celsius are 14 degrees Fahrenheit exactly (NIST SP 811, B.8).
        assert form.temperature_c("f", "f") == pytest.approx(-10)
        assert form.hours("h", "h") == 1.5


class TestFigures:
    """A figure is held against its limit, whatever unit it was read in."""

    def test_units_are_brought_together(self) -> None:
        """1 lbf.ft is 1.355818 N.m (NIST SP 811, table B.8)."""
        limit = Limit("nut", "N.m", 13, 16)
        assert not misses(limit, Reading("nut", 10, "lbf.ft"))
        assert misses(limit, Reading("nut", 15, "lbf.ft"))
        assert figure_in("10 lbf.ft", "N.m", "nut") == pytest.approx(13.55818)

    def test_another_quantity_or_a_foreign_unit_misses_nothing(self) -> None:
        limit = Limit("pressure", "bar", low=70)
        assert not misses(limit, Reading("temperature", 8, "degC"))
        assert not misses(limit, Reading("pressure", 8, "turns"))

    @pytest.mark.parametrize(
        ("typed", "unit"), [("12.6 A", "V"), ("lots", "V"), ("3 bar", "mm"), ("5 mm", "")]
    )
    def test_what_is_of_another_kind_is_refused(self, typed: str, unit: str) -> None:
        with pytest.raises(BadInput):
            figure_in(typed, unit, "it")


@given(st.text(max_size=80))
def test_a_short_name_fits_an_address(title: str) -> None:
    name = slug(title)
    assert name
    assert name == slug(name)
    assert len(name) <= 48
    assert all(letter.isascii() and (letter.isalnum() or letter == "-") for letter in name)
