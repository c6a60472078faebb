"""The bleed plan: the order, the amounts, and what no screw empties."""

from __future__ import annotations

import math

import pytest
from hypothesis import HealthCheck, given, settings

from bareshell.brakes.bleed_plan import bleed_plan
from bareshell.brakes.starters import STARTERS, starter
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem, PartKind, Port
from bareshell.model.trust import Stated, Trust
from bareshell.sources import SOURCES
from tests.brakes import edits as e
from tests.brakes.systems import any_systems


def known(name: str, **options: str) -> BrakeSystem:
    """A starter whose pedal and cylinders were measured."""
    system = starter(name, **options)  # type: ignore[arg-type]
    for part in system.of_kind(PartKind.MASTER):
        strokes = {"primary_stroke_m": 0.03}
        if part.choices["form"] == "tandem":
            strokes = {"primary_stroke_m": 0.018, "floating_stroke_m": 0.015}
        system = e.with_part(system, part.id, figures=e.measured(bore_m=0.01905, **strokes))
    return e.with_part(system, "pedal", figures=e.measured(ratio=4.5, floor_travel_m=0.13))


def parts_in_order(system: BrakeSystem, **more: tuple[str, ...]) -> list[str]:
    return [step.part.split("-", 1)[1] for step in bleed_plan(system, **more).steps]


class TestOrder:
    """The farthest first; the maker's before it."""

    def test_a_car_driven_from_the_left_is_bled_as_two_manuals_have_it(self) -> None:
        """Right rear, left rear, right front, left front [S:bleeding-manuals]."""
        found = parts_in_order(starter("front-rear tandem", driver_on="left"))
        assert found == ["rear-right", "rear-left", "front-right", "front-left"]

    def test_a_car_driven_from_the_right_is_bled_the_other_way_about(self) -> None:
        """The farthest from the cylinder is the left rear."""
        found = parts_in_order(starter("front-rear tandem", driver_on="right"))
        assert found == ["rear-left", "rear-right", "front-left", "front-right"]

    def test_a_diagonal_split_goes_circuit_by_circuit(self) -> None:
        """Each rear wheel, then the front wheel across: common practice, no source."""
        found = parts_in_order(starter("diagonal tandem"))
        assert found in (
            ["rear-right", "front-left", "rear-left", "front-right"],
            ["rear-left", "front-right", "rear-right", "front-left"],
        )

    def test_the_makers_order_is_taken_before_it(self) -> None:
        """Given with the call, or written down at the fluid, in the words of a manual."""
        system = starter("front-rear tandem")
        order = ("front left", "right front", "cylinder-rear-left")
        wanted = ["front-left", "front-right", "rear-left", "rear-right"]
        assert parts_in_order(system, order=order) == wanted
        written = e.with_part(
            system, "fluid", choices={"bleed_order": "front left, front right then rear left"}
        )
        assert parts_in_order(written) == wanted
        assert "as it was written down" in bleed_plan(written).ordered_by

    def test_an_order_that_names_nothing_is_refused(self) -> None:
        """With what was probably meant."""
        with pytest.raises(BadInput, match="Was 'rear left' meant"):
            bleed_plan(starter("single line"), order=("rear lft",))

    def test_the_screw_of_a_remote_servo_comes_before_the_wheels_behind_it(self) -> None:
        """Air that stays in it would follow."""
        system = starter("remote servo")
        remote = system.part("remote")
        ports = (*remote.ports, Port("bleed", "out", bleeds=True))
        assert bleed_plan(e.with_part(system, "remote", ports=ports)).steps[0].part == "remote"


class TestAmounts:
    """Millilitres and strokes."""

    def test_the_first_screw_draws_what_stands_on_its_way_and_a_margin(self) -> None:
        """Reckoned by hand: pipes of 3.34 mm bore, the rest as measured here."""
        system = known("twin cylinders")
        lines = ("pipe-rear", "pipe-rear-left")
        for line in lines:
            figures = e.measured(length_m=1.5, outside_diameter_m=0.00476, wall_m=0.00071)
            system = e.with_line(system, line, figures=figures)
        system = e.with_line(system, "hose-rear", figures=e.measured(length_m=0.3, bore_m=0.003))
        system = e.with_part(system, "cylinder-rear-left", figures=e.measured(fluid_m3=5e-6))
        step = bleed_plan(system).steps[0]
        pipe = 2 * math.pi / 4 * 0.00334**2 * 1.5
        hose = math.pi / 4 * 0.003**2 * 0.3
        way = pipe + hose + 5e-6
        assert step.part == "cylinder-rear-left"
        assert step.way_m3.value == pytest.approx(way, rel=1e-9)
        assert way * 1.5 + 30e-6 <= step.draw_m3 <= way * 1.5 + 35e-6
        # Six tenths of a stroke of 30 mm in a bore of 19.05 mm.
        stroke = math.pi / 4 * 0.01905**2 * 0.03 * 0.6
        assert step.strokes == math.ceil(step.draw_m3 / stroke)

    def test_what_an_earlier_screw_has_filled_is_not_drawn_again(self) -> None:
        """The second rear wheel shares the long pipe with the first."""
        first, second = bleed_plan(known("twin cylinders")).steps[:2]
        assert second.new_m3.value < 0.5 * second.way_m3.value
        assert second.draw_m3 < first.draw_m3

    def test_without_the_bore_the_strokes_are_asked_for(self) -> None:
        """Amounts by the bottle are there all the same."""
        plan = bleed_plan(starter("single line"))
        assert all(step.strokes is None and step.draw_m3 > 0 for step in plan.steps)
        assert plan.asked == ("bore (master cylinder)",)

    def test_what_was_taken_as_usual_is_listed(self) -> None:
        """With its range and mark, each figure once."""
        plan = bleed_plan(starter("single line"))
        paths = [each.path for each in plan.assumed]
        assert "pipe-rear.outside_diameter_m" in paths
        assert "hose-rear.bore_m" in paths
        assert len(set(paths)) == len(paths)
        assert all(each.low < each.value < each.high or each.mark for each in plan.assumed)

    def test_each_chamber_of_a_tandem_has_its_own_stroke(self) -> None:
        """The floating piston moves less."""
        strokes = {
            step.circuit: step.stroke_m3 for step in bleed_plan(known("diagonal tandem")).steps
        }
        primary, floating = strokes["master-primary"], strokes["master-floating"]
        assert primary is not None
        assert floating is not None
        assert floating / primary == pytest.approx(0.015 / 0.018)

    def test_fluid_to_buy_is_at_least_what_is_used(self) -> None:
        """Both bleeds, reservoir, bench and spill, in bottles of half a litre."""
        fluid = bleed_plan(known("front-rear tandem")).fluid
        used = fluid.first_bleed_m3 + fluid.second_bleed_m3 + fluid.reservoir_m3 + fluid.bench_m3
        assert used < used + fluid.spill_m3 <= fluid.buy_m3 < used + fluid.spill_m3 + 0.5e-3
        assert fluid.grade == ""

    @settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
    @given(system=any_systems())
    def test_any_entry_has_a_plan(self, system: BrakeSystem) -> None:
        """Every screw is in a step or said to be fed by nothing; spans hold their values."""
        if any("bleed_order" in part.choices for part in system.parts):
            return
        plan = bleed_plan(system)
        screws = [port for part in system.parts for port in part.ports if port.bleeds]
        assert len(plan.steps) + len(plan.not_fed) == len(screws)
        for step in plan.steps:
            assert step.new_m3.value <= step.way_m3.value + 1e-15
            assert step.way_m3.low <= step.way_m3.value <= step.way_m3.high


class TestDeadLegs:
    """A blanked line counts as bled only when its far end has been vented."""

    def test_its_air_is_shown_as_travel_of_the_pedal(self) -> None:
        """Boyle's law by hand: 20 ml of air, 30 bar, a bore of 19.05 mm, a ratio of 4.5."""
        system = e.with_blanked_branch(known("front-rear tandem"))
        for line in ("pipe-rear-circuit", "pipe-to-rear-valve"):
            system = e.with_line(system, line, figures=e.measured(length_m=1.0))
        [leg] = [each for each in bleed_plan(system).dead_legs if each.circuit]
        assert leg.circuit == "master-floating"
        assert (leg.vent_at, leg.vented) == (("plug",), False)
        taken = leg.volume_m3.value * 30e5 / (30e5 + 101325.0)
        wanted = taken / (math.pi / 4 * 0.01905**2) * 4.5
        assert leg.pedal_m is not None
        assert leg.pedal_m.value == pytest.approx(wanted, rel=1e-9)
        assert leg.to_the_floor
        assert "then it counts as bled" in leg.what_to_do

    def test_once_vented_it_counts_and_takes_no_travel(self) -> None:
        """Until it is opened again."""
        system = e.with_blanked_branch(known("front-rear tandem"))
        plan = bleed_plan(system, vented=("plug",))
        [leg] = [each for each in plan.dead_legs if each.circuit]
        assert leg.vented
        assert leg.pedal_m is not None
        assert leg.pedal_m.value == 0.0
        assert not leg.to_the_floor

    def test_a_leg_that_nothing_feeds_is_said(self) -> None:
        """And so are the screws on it."""
        plan = bleed_plan(e.with_blanked_branch(known("front-rear tandem")))
        loose = [each for each in plan.dead_legs if not each.circuit]
        assert [each.vent_at for each in loose] == [("plug-rear",)]
        assert plan.not_fed == ("cylinder-rear-left-bleed", "cylinder-rear-right-bleed")

    def test_a_leg_with_nothing_to_open_has_to_go(self) -> None:
        """A caliper with no bleed screw."""
        system = known("front-rear tandem")
        ports = (system.part("caliper-front-left").port("in"),)
        plan = bleed_plan(e.with_part(system, "caliper-front-left", ports=ports))
        assert "give it a bleed screw, or take it off" in plan.dead_legs[0].what_to_do


class TestWords:
    """What to do around the screws, and what can hurt."""

    def test_figures_from_manuals_carry_their_source(self) -> None:
        """25 mm [S:army-tm-bench-bleed]; 1 bar, eight to ten, thirty [S:bleeding-manuals]."""
        plan = bleed_plan(starter("front-rear tandem"))
        every = (*plan.bench, *plan.preparing, *plan.alone, *plan.with_helper, *plan.afterwards)
        by_source = {each.source_id: each for each in every if each.source_id}
        assert set(by_source) <= set(SOURCES)
        words = " ".join(each.words for each in every)
        for figure in ("25 mm", "at 1 bar at most", "Eight to ten", "thirty presses"):
            assert figure in words
        assert by_source["army-tm-bench-bleed"].mark == "read"

    @pytest.mark.parametrize(
        ("name", "shuttle", "servo"),
        [
            ("single line", False, False),
            ("front-rear tandem", True, True),
            ("remote servo", False, True),
            ("twin cylinders", False, False),
        ],
    )
    def test_only_what_the_car_has_is_spoken_of(
        self, name: str, *, shuttle: bool, servo: bool
    ) -> None:
        """A shuttle can be tripped; a servo is emptied first."""
        words = " ".join(each.words for each in bleed_plan(starter(name)).preparing)
        assert ("warning shuttle" in words) is shuttle
        assert ("empty the servo" in words) is servo

    @pytest.mark.parametrize("name", STARTERS)
    def test_cautions_are_always_there(self, name: str) -> None:
        """Paint, eyes, pressure, and what a plan does not prove."""
        harms = {caution.harm for caution in bleed_plan(starter(name)).cautions}
        assert {"Skin and paint", "Eyes", "Pressure", "Hands and lives"} <= harms

    def test_the_torque_of_a_screw_is_its_makers(self) -> None:
        """Nothing is published for one."""
        figures = {"bleed_torque_nm": Stated(8.0, Trust.DATA_SHEET)}
        system = e.with_part(starter("single line"), "cylinder-rear-left", figures=figures)
        steps = {step.part: step for step in bleed_plan(system).steps}
        given = steps["cylinder-rear-left"].torque
        assert given is not None
        assert given.high_nm == 8.0
        assert "snap easily" in steps["cylinder-rear-right"].torque_words

    def test_whether_a_screw_is_at_the_top_is_shown(self) -> None:
        """It is where most air is left."""
        system = e.with_port(starter("twin cylinders"), "caliper-front-left", "bleed", at_top=False)
        tops = {step.part: step.at_top for step in bleed_plan(system).steps}
        assert (tops["caliper-front-left"], tops["caliper-front-right"]) == (False, None)
