"""As built beside standard: what differs, and which departure carries it."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from bareshell.brakes.compare import compare
from bareshell.brakes.examples import small_car
from bareshell.brakes.figures import gather
from bareshell.brakes.inverse import force_found
from bareshell.brakes.prepared import prepare
from bareshell.brakes.swaps import swapped, swaps_between
from bareshell.model.brake import BrakeSystem, Line, LineEnd, LineKind, Part, PartKind
from bareshell.model.trust import Stated, Trust

STANDARD = small_car()


def changed(
    system: BrakeSystem, part_id: str, departure: str = "", **figures: float
) -> BrakeSystem:
    part = system.part(part_id)
    stated = {name: Stated(value, Trust.MEASURED) for name, value in figures.items()}
    new = replace(part, departure=departure, figures=dict(part.figures) | stated)
    return replace(system, parts=tuple(new if p.id == part_id else p for p in system.parts))


def bigger_calipers(system: BrakeSystem) -> BrakeSystem:
    for side in ("left", "right"):
        system = changed(system, f"caliper-front-{side}", "bigger calipers", a_bore_m=0.054)
    return system


def test_a_system_beside_itself_differs_in_nothing() -> None:
    found = compare(STANDARD, STANDARD)
    assert swaps_between(STANDARD, STANDARD) == ()
    assert len(found.rows) > 12
    for row in found.rows:
        assert row.because == ()
        if not math.isnan(row.change):
            assert row.change == 0.0
    assert found.words == ()
    assert found.not_worked_out == ()


def test_each_departure_is_given_what_it_does_alone() -> None:
    built = changed(bigger_calipers(STANDARD), "master", "wider cylinder", bore_m=0.0222)
    found = compare(built, STANDARD)
    row = found.row("force, laden")
    alone = {each.departure: each.change for each in row.because}
    for departure, system in (
        ("bigger calipers", bigger_calipers(STANDARD)),
        ("wider cylinder", changed(STANDARD, "master", bore_m=0.0222)),
    ):
        needs = [
            force_found(prepare(each, gather(each).figures), 4.9, "laden").pedal_force_n
            for each in (system, STANDARD)
        ]
        assert alone[departure] == pytest.approx(float(needs[0]) - float(needs[1]))
    assert alone["bigger calipers"] < 0.0 < alone["wider cylinder"]
    assert sum(alone.values()) + row.together == pytest.approx(row.change)
    assert abs(row.change) < abs(row.because[0].change)
    assert {each.departure for each in row.because} == {"bigger calipers", "wider cylinder"}
    assert row.because[0].parts == ("caliper-front-left", "caliper-front-right")


def test_the_front_share_is_no_business_of_the_master_cylinder() -> None:
    built = changed(STANDARD, "master", "wider cylinder", bore_m=0.0222)
    share = compare(built, STANDARD).row("front share, driver only")
    assert abs(share.change) < 2e-3
    travel = compare(built, STANDARD).row("travel, driver only")
    assert travel.change < 0.0
    assert travel.because[0].departure == "wider cylinder"


def test_what_differs_without_a_departure_is_told_apart() -> None:
    built = changed(STANDARD, "pedal", ratio=5.0)
    found = compare(built, STANDARD)
    (only,) = found.row("force, laden").because
    assert only.departure == ""
    assert only.words == "differs without a departure: pedal"
    assert only.change < 0.0


def test_trust_and_titles_make_no_difference() -> None:
    pedal = STANDARD.part("pedal")
    same = replace(
        pedal,
        title="the brake pedal",
        figures={
            name: Stated(each.value, Trust.ASSUMED, each.value * 0.99, each.value)
            for name, each in pedal.figures.items()
        },
    )
    parts = tuple(same if part.id == "pedal" else part for part in STANDARD.parts)
    assert swaps_between(replace(STANDARD, parts=parts), STANDARD) == ()


def without_valve() -> BrakeSystem:
    """The valve to the rear taken out and one pipe put where it and its two pipes were."""
    gone = {"valve-rear"}
    gone |= {
        line.id for line in STANDARD.lines if any(end.part == "valve-rear" for end in line.ends)
    }
    ends = [
        end
        for line in STANDARD.lines
        if line.id in gone
        for end in line.ends
        if end.part != "valve-rear"
    ]
    straight = Line(
        "pipe-straight",
        "straight rear pipe",
        LineKind.PIPE,
        (LineEnd(ends[0].part, ends[0].port), LineEnd(ends[1].part, ends[1].port)),
        figures={"length_m": Stated(2.5)},
        departure="rear valve left out",
    )
    return replace(
        STANDARD,
        parts=tuple(part for part in STANDARD.parts if part.id not in gone),
        lines=(*(line for line in STANDARD.lines if line.id not in gone), straight),
    )


def test_what_was_taken_out_goes_with_the_pipe_that_took_its_place() -> None:
    built = without_valve()
    (swap,) = swaps_between(built, STANDARD)
    assert swap.departure == "rear valve left out"
    assert "valve-rear" in swap.removed
    found = compare(built, STANDARD)
    row = found.row("rear locks, laden")
    assert not math.isnan(row.built)
    assert row.because[0].departure == "rear valve left out"
    made = swapped(STANDARD, built, swap)
    assert {line.id for line in made.lines} == {line.id for line in built.lines}


def test_a_departure_that_cannot_stand_alone_has_no_figure_of_its_own() -> None:
    """A servo that pushes a cylinder only another departure brings."""
    master = replace(STANDARD.part("master"), id="race-master", departure="race cylinder")
    servo = replace(
        STANDARD.part("servo"), departure="servo moved", choices={"pushes": "race-master"}
    )

    def moved(line: Line) -> Line:
        if all(end.part != "master" for end in line.ends):
            return line
        start, end = (
            replace(each, part="race-master") if each.part == "master" else each
            for each in line.ends
        )
        return replace(line, departure="race cylinder", ends=(start, end))

    lines = tuple(moved(line) for line in STANDARD.lines)
    parts = tuple({"master": master, "servo": servo}.get(part.id, part) for part in STANDARD.parts)
    built = replace(STANDARD, parts=parts, lines=lines)
    found = compare(built, STANDARD)
    row = found.row("force, laden")
    assert row.change == pytest.approx(0.0, abs=1e-6)
    assert "servo moved" in {each.departure for each in row.because} or row.because == ()


def test_another_layout_is_said_in_words() -> None:
    found = compare(small_car("front-rear tandem"), small_car("single line"))
    assert "as built there are 2 circuits, standard there is 1 circuit" in found.words
    assert any("locks first" in words for words in found.words)
    assert any(words.startswith("worst single failure as built") for words in found.words)
    assert found.row("worst leak").change > 0.0


def test_what_is_missing_on_one_side_is_said() -> None:
    body = STANDARD.part("car")
    figures = {name: each for name, each in body.figures.items() if "laden_mass" not in name}
    half = replace(
        STANDARD,
        parts=tuple(replace(p, figures=figures) if p is body else p for p in STANDARD.parts),
    )
    found = compare(half, STANDARD)
    keys = {row.key for row in found.rows}
    assert "force, driver only" in keys
    assert "force, laden" not in keys
    assert any("as built, laden: needs mass fully laden" in each for each in found.not_worked_out)


def test_a_car_without_a_parking_brake_is_compared_all_the_same() -> None:
    def bare(system: BrakeSystem) -> BrakeSystem:
        kept: tuple[Part, ...] = tuple(p for p in system.parts if p.kind is not PartKind.PARKING)
        return replace(system, parts=kept)

    keys = {row.key for row in compare(bare(STANDARD), STANDARD).rows}
    assert "parked nose up" not in keys
    assert "travel, laden" in keys
