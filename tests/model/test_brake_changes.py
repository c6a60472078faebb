"""Brakes in a build: described whole, corrected piece by piece, refused where nothing is meant."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bareshell.errors import BadInput, NotFound, Refused
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.brake import (
    BrakeSystem,
    Line,
    LineEnd,
    LineKind,
    Part,
    PartKind,
    Port,
    Role,
)
from bareshell.model.trust import Stated, Trust
from tests.stories import build_of, later

TEE = Part("tee", "Tee", PartKind.TEE, ports=(Port("a"), Port("b"), Port("c")))
PLUG = Part("plug", "Plug", PartKind.STUB, ports=(Port("a"),))
PIPE = Line("pipe", "Pipe", LineKind.PIPE, (LineEnd("tee", "a"), LineEnd("plug", "a")))
BUILT = BrakeSystem("built", "As built", parts=(TEE, PLUG), lines=(PIPE,))


@pytest.fixture
def build() -> Build:
    return build_of([c.BrakeSystemSet(BUILT)])


def test_a_part_is_corrected_in_its_place(build: Build) -> None:
    better = replace(TEE, title="Brass tee")
    after = later(build, c.BrakePartSet("built", better)).brakes["built"]
    assert [part.title for part in after.parts] == ["Brass tee", "Plug"]
    assert after.lines == (PIPE,)


def test_a_figure_given_to_a_line_stays_with_it(build: Build) -> None:
    longer = replace(PIPE, figures={"length_m": Stated(0.9, Trust.MEASURED)})
    after = later(build, c.BrakeLineSet("built", longer)).brakes["built"]
    assert after.line("pipe").figures["length_m"].value == 0.9


def test_what_was_screwed_to_a_part_that_is_gone_ends_loose(build: Build) -> None:
    after = later(build, c.BrakePartDropped("built", "plug")).brakes["built"]
    assert [end.part for end in after.line("pipe").ends] == ["tee", ""]


def test_a_line_that_is_gone_leaves_its_parts(build: Build) -> None:
    after = later(build, c.BrakeLineDropped("built", "pipe")).brakes["built"]
    assert (len(after.parts), after.lines) == (2, ())


def test_a_line_needs_a_port_that_is_there(build: Build) -> None:
    nowhere = replace(PIPE, ends=(LineEnd("tee", "d"), LineEnd()))
    with pytest.raises(BadInput, match=r"screwed to 'd' of 'Tee'.*a, b, c"):
        later(build, c.BrakeLineSet("built", nowhere))
    nobody = replace(PIPE, ends=(LineEnd("union", "a"), LineEnd()))
    with pytest.raises(BadInput, match="'union', and there is no such part"):
        later(build, c.BrakeLineSet("built", nobody))


def test_a_line_does_not_end_where_it_begins(build: Build) -> None:
    ring = replace(PIPE, ends=(LineEnd("tee", "a"), LineEnd("tee", "a")))
    with pytest.raises(BadInput, match="same hole"):
        later(build, c.BrakeLineSet("built", ring))


def test_a_port_that_a_line_is_screwed_to_is_not_taken_from_under_it(build: Build) -> None:
    with pytest.raises(BadInput, match="line 'Pipe'"):
        later(build, c.BrakePartSet("built", replace(TEE, ports=(Port("b"),))))


def test_a_part_does_not_take_the_name_of_a_line(build: Build) -> None:
    with pytest.raises(BadInput, match="two parts or lines are called pipe"):
        later(build, c.BrakePartSet("built", replace(TEE, id="pipe")))


def test_a_slip_from_millimetres_to_metres_is_caught(build: Build) -> None:
    with pytest.raises(BadInput, match="nowhere on a car"):
        later(build, c.BrakePartSet("built", replace(TEE, at_m=(1200.0, -400.0))))


def test_only_one_set_of_brakes_is_on_the_car(build: Build) -> None:
    second = BrakeSystem("other", "Others")
    with pytest.raises(Refused, match="'As built' are the brakes on the car already"):
        later(build, c.BrakeSystemSet(second))
    assert len(later(build, c.BrakeSystemSet(replace(second, role=Role.IDEA))).brakes) == 2


@pytest.mark.parametrize(
    "change",
    [
        c.BrakeSystemDropped("works"),
        c.BrakePartSet("works", TEE),
        c.BrakePartDropped("built", "nothing"),
        c.BrakeLineDropped("built", "nothing"),
    ],
    ids=lambda change: change.KIND,
)
def test_what_is_not_there_cannot_be_spoken_of(build: Build, change: c.Change) -> None:
    with pytest.raises(NotFound) as refused:
        later(build, change)
    assert refused.value.remedy
