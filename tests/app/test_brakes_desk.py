"""Describing the brakes through the door: begun, corrected, tried, read off, dropped."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from bareshell.app import (
    brake_files,
    brakes_desk,
    brakes_figures,
    brakes_lines,
    brakes_parts,
    brakes_readings,
)
from bareshell.app.brakes_found import system_of
from bareshell.app.demo import make_demo
from bareshell.app.door import Door
from bareshell.app.written import Pen
from bareshell.brakes.starters import STARTERS
from bareshell.brakes.yardsticks import YARDSTICKS
from bareshell.errors import BadInput, NotFound, Refused
from bareshell.model.brake import LineKind, PartKind, ReadingKind, Role
from bareshell.model.trust import Stated, Trust

NOW = datetime(2026, 11, 25, 18, 0, tzinfo=UTC)
PEN = Pen()


def said(**fields: str) -> Mapping[str, tuple[str, ...]]:
    return {name: (value,) for name, value in fields.items()}


@pytest.fixture
def door(tmp_path: Path) -> Iterator[Door]:
    with Door.open(tmp_path / "build", create=True, clock=lambda: NOW, back_up=False) as opened:
        yield opened


@pytest.fixture
def begun(door: Door) -> Door:
    brakes_desk.begin_from_starter(door, said(starter="front-rear tandem"), PEN)
    return door


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Door]:
    folder = tmp_path_factory.mktemp("demo") / "build"
    with make_demo(folder, date(2026, 11, 25), clock=lambda: NOW) as made:
        yield made


# --- beginning -------------------------------------------------------------------------------


@pytest.mark.parametrize("name", STARTERS)
def test_every_starter_can_be_begun_from(door: Door, name: str) -> None:
    written = brakes_desk.begin_from_starter(
        door, said(starter=name, wheelbase="2311 mm", driver_on="left", threads="metric"), PEN
    )
    system = door.build().brakes["as-built"]
    assert written.subject == "brakes:as-built"
    assert system.part("car").figures["wheelbase_m"] == Stated(2.311, Trust.MEASURED)
    pedal = system.part("pedal").at_m
    assert pedal is not None
    assert pedal[1] < 0, "on the left"


def test_a_starter_that_is_none_is_named_with_those_there_are(door: Door) -> None:
    with pytest.raises(BadInput, match="single line"):
        brakes_desk.begin_from_starter(door, said(starter="three lines"), PEN)
    assert not door.build().brakes


def test_the_brakes_are_not_begun_twice(begun: Door) -> None:
    with pytest.raises(Refused, match="'As built' are the brakes on the car already"):
        brakes_desk.begin_from_starter(begun, said(starter="single line", title="Others"), PEN)


def test_a_build_without_brakes_says_how_to_begin(door: Door) -> None:
    with pytest.raises(NotFound, match="begin"):
        system_of(door.build())


# --- one figure ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("path", "typed", "figure", "stated"),
    [
        ("master.bore_m", "3/4 in, marked on the part", "bore_m", Stated(0.01905, Trust.MARKED)),
        ("master.bore", "19.05 mm measured", "bore_m", Stated(0.01905, Trust.MEASURED)),
        ("pedal.ratio", "4.4", "ratio", Stated(4.4)),
        ("fluid.age", "18 months", "age_years", Stated(1.5)),
    ],
)
def test_a_figure_is_set_by_its_path(
    begun: Door, path: str, typed: str, figure: str, stated: Stated
) -> None:
    brakes_figures.set_figure(begun, "", path, typed, PEN)
    part = begun.build().brakes["as-built"].part(path.partition(".")[0])
    assert part.figures[figure] == stated


def test_what_is_not_known_after_all_is_taken_away_again(begun: Door) -> None:
    brakes_figures.set_figure(begun, "", "pedal.ratio", "4.4", PEN)
    brakes_figures.set_figure(begun, "", "pedal.ratio", "unknown", PEN)
    assert "ratio" not in begun.build().brakes["as-built"].part("pedal").figures


def test_a_choice_is_set_by_its_path_too(begun: Door) -> None:
    brakes_figures.set_figure(begun, "", "fluid.grade", "DOT 4", PEN)
    assert begun.build().brakes["as-built"].part("fluid").choices["grade"] == "DOT 4"


@pytest.mark.parametrize(
    ("path", "typed", "words"),
    [
        ("mastr.bore", "19 mm", "Was master"),
        ("master.boar", "19 mm", "no figure or choice 'boar'"),
        ("master.bore", "19", "no unit"),
        ("master.bore", "19 m", "cannot be"),
        ("fluid.grade", "olive oil", "cannot be 'olive oil'"),
    ],
)
def test_a_slip_is_named_and_nothing_is_written(
    begun: Door, path: str, typed: str, words: str
) -> None:
    before = begun.latest()
    with pytest.raises((BadInput, NotFound), match=words):
        brakes_figures.set_figure(begun, "", path, typed, PEN)
    assert begun.latest() == before


def test_an_idea_is_a_copy_with_one_thing_changed(begun: Door) -> None:
    written = brakes_desk.copy_to_idea(
        begun, "", said(title="Smaller cylinder", path="master.bore", figure="17.46 mm"), PEN
    )
    idea, built = (begun.build().brakes[key] for key in (written.key, "as-built"))
    assert idea.role is Role.IDEA
    assert idea.part("master").figures["bore_m"].value == pytest.approx(0.01746)
    assert "bore_m" not in built.part("master").figures
    assert idea.lines == built.lines


# --- forms there and back --------------------------------------------------------------------


@pytest.mark.parametrize("system_id", ["as-built", "standard"])
def test_every_part_and_line_of_the_demo_comes_back_from_its_form(
    demo: Door, system_id: str
) -> None:
    system = demo.build().brakes[system_id]
    for part in system.parts:
        laid = brakes_parts.lay_part(part) | {"has_ports": ("yes",)}
        brakes_parts.set_part(demo, system_id, part.id, laid, PEN)
        assert demo.build().brakes[system_id].part(part.id) == part
    for line in system.lines:
        brakes_lines.set_line(demo, system_id, line.id, brakes_lines.lay_line(line), PEN)
        assert demo.build().brakes[system_id].line(line.id) == line


def test_a_bare_figure_is_in_the_unit_that_stands_behind_its_box(begun: Door) -> None:
    fields = brakes_parts.lay_part(begun.build().brakes["as-built"].part("master"))
    fields |= {"figure_bore_m": ("19.05",), "trust_bore_m": ("marked on the part",)}
    brakes_parts.set_part(begun, "as-built", "master", fields, PEN)
    bore = begun.build().brakes["as-built"].part("master").figures["bore_m"]
    assert bore == Stated(0.01905, Trust.MARKED)


def test_every_fault_of_a_form_is_said_at_once(begun: Door) -> None:
    fields = said(title="", figure_bore_m="wide", figure_primary_stroke_m="7 m", behind="1200 mm")
    with pytest.raises(BadInput) as refused:
        brakes_parts.set_part(begun, "as-built", "master", fields, PEN)
    where = {problem.where for problem in refused.value.problems}
    assert {"what you call it", "bore", "place"} <= where
    assert any("stroke" in one for one in where)


def test_a_new_part_has_the_ports_of_its_kind(begun: Door) -> None:
    written = brakes_parts.set_part(
        begun, "as-built", None, said(title="Tee on the wing", kind=PartKind.TEE.value), PEN
    )
    part = begun.build().brakes["as-built"].part(written.key.partition("/")[2])
    assert [port.name for port in part.ports] == ["in", "left", "right"]


def test_the_same_form_sent_twice_makes_one_part(begun: Door) -> None:
    pen = Pen(entry_id="from-the-phone")
    count = len(begun.build().brakes["as-built"].parts)
    for _ in range(2):
        fields = said(title="Plug", kind=PartKind.STUB.value)
        brakes_parts.set_part(begun, "as-built", None, fields, pen)
    assert len(begun.build().brakes["as-built"].parts) == count + 1


def test_a_pipe_is_laid_between_two_ports(begun: Door) -> None:
    brakes_parts.set_part(begun, "as-built", None, said(title="Plug", kind="blank"), PEN)
    brakes_parts.set_part(begun, "as-built", None, said(title="Tee", kind="tee"), PEN)
    fields = said(
        title="Stub pipe",
        kind="pipe",
        end0="tee:left",
        end0_thread="M10x1",
        end1="plug:a",
        route="1200, -400\n1500 mm, -380 mm",
        figure_length_m="300",
        trust_length_m="measured",
    )
    written = brakes_lines.set_line(begun, "as-built", None, fields, PEN)
    line = begun.build().brakes["as-built"].line(written.key.partition("/")[2])
    assert line.kind is LineKind.PIPE
    assert [(end.part, end.port) for end in line.ends] == [("tee", "left"), ("plug", "a")]
    assert line.route_m == ((1.2, -0.4), (1.5, -0.38))
    assert line.figures["length_m"] == Stated(0.3, Trust.MEASURED)
    slip = {**fields, **said(end0_thread="M9.7")}
    with pytest.raises(BadInput, match="no standard metric thread"):
        brakes_lines.set_line(begun, "as-built", line.id, slip, PEN)


def test_parts_and_lines_are_taken_out(begun: Door) -> None:
    brakes_lines.drop_line(begun, "as-built", "hose-rear", {}, PEN)
    brakes_parts.drop_part(begun, "as-built", "tee-axle", said(words="made in one"), PEN)
    system = begun.build().brakes["as-built"]
    assert "hose-rear" not in {line.id for line in system.lines}
    assert system.line("pipe-rear-left").ends[0].part == ""


# --- readings and yardsticks -----------------------------------------------------------------


def test_a_roller_sheet_is_typed_in_the_units_of_its_printer(begun: Door) -> None:
    brakes_readings.take_reading(
        begun,
        ReadingKind.ROLLER,
        said(
            figure_front_left_n="185 kgf",
            figure_front_right_n="1700",
            choice_rear_left="locked",
            words="wet tyres",
            when="2026-11-24 10:00",
        ),
        PEN,
    )
    reading = next(iter(begun.build().brake_readings.values()))
    assert reading.figures["front_left_n"] == pytest.approx(185 * 9.80665)
    assert reading.figures["front_right_n"] == 1700.0
    assert reading.choices == {"rear_left": "locked"}
    assert reading.at.date() == date(2026, 11, 24)


def test_a_reading_of_nothing_is_none(begun: Door) -> None:
    with pytest.raises(BadInput, match="nothing was read"):
        brakes_readings.take_reading(begun, ReadingKind.HOLD, said(words="forgot"), PEN)


def test_yardsticks_are_chosen_from_those_there_are(begun: Door) -> None:
    ids = tuple(YARDSTICKS)[:2]
    brakes_readings.choose_yardsticks(begun, ids, PEN)
    assert begun.build().yardsticks == ids
    with pytest.raises(BadInput, match="no yardstick 'a-guess'"):
        brakes_readings.choose_yardsticks(begun, ["a-guess"], PEN)


# --- files -----------------------------------------------------------------------------------


def test_brakes_go_out_as_a_file_and_come_in_again(demo: Door, door: Door, tmp_path: Path) -> None:
    path = brake_files.save_brake_file(demo, "standard", tmp_path / "standard.toml")
    brakes_desk.begin_from_file(door, path.read_text("utf-8"), {}, PEN)
    assert door.build().brakes["standard"] == demo.build().brakes["standard"]


def test_a_file_with_a_slip_is_refused_by_its_line(door: Door) -> None:
    with pytest.raises(BadInput, match="line 4"):
        brakes_desk.begin_from_file(
            door, 'start = "single line"\n[[part]]\nid = "master"\nboar = "19 mm"\n', {}, PEN
        )
    assert not door.build().brakes
