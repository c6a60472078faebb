"""The joint schedule: every joint once, both sides, sealing, tightness with its source."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings

from bareshell.brakes.fittings import flare_word, seat_word, torque_of_nut, usual_threads
from bareshell.brakes.joints import bracket_joints, joint_schedule
from bareshell.brakes.starters import STARTERS, starter
from bareshell.model.brake import BrakeSystem, Fitting, LineEnd, LineKind
from bareshell.model.trust import Stated, Trust
from bareshell.sources import SOURCES
from tests.brakes import edits as e
from tests.brakes.systems import any_systems

CAR = starter("front-rear tandem", threads="inch")


@pytest.mark.parametrize("name", STARTERS)
def test_every_end_of_every_line_is_in_one_joint(name: str) -> None:
    """A hose's end in its bracket is the other side of its pipe's joint, not one more."""
    system = starter(name, threads="metric")
    schedule = joint_schedule(system)
    ends = {f"{line.id}-{end}" for line in system.lines for end in (0, 1)}
    beyond = {f"{line}-{end}" for line, end in bracket_joints(system).values()}
    assert {joint.id for joint in schedule.joints} == ends - beyond
    assert len(beyond) == sum(line.kind is LineKind.HOSE for line in system.lines)
    assert {joint.agreement for joint in schedule.joints} == {"agrees"}
    numbers = [joint.number for joint in schedule.joints]
    numbers += [screw.number for screw in schedule.screws]
    assert numbers == list(range(1, len(numbers) + 1))
    assert all(len(joint.circuits) == 1 for joint in schedule.joints)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(system=any_systems())
def test_any_entry_has_a_schedule(system: BrakeSystem) -> None:
    """Half a circuit too; an end that reaches no port makes no joint."""
    schedule = joint_schedule(system)
    assert len({joint.id for joint in schedule.joints}) == len(schedule.joints)
    for joint in schedule.joints:
        assert any(port.name == joint.port for port in system.part(joint.part).ports)


class TestSides:
    """What screws into what."""

    def test_a_pipe_at_a_bracket_meets_the_hose(self) -> None:
        """Its other side is the hose's own end."""
        joint = {each.id: each for each in joint_schedule(CAR).joints}["pipe-rear-1"]
        assert joint.sides[1].words == "rear hose"
        assert (joint.thread, joint.seals_on) == ("3/8-24 UNF", "45 degree")

    def test_a_bracket_with_a_pipe_alone_is_a_part_like_any_other(self) -> None:
        """The hose was taken off."""
        system = e.without(CAR, "hose-rear")
        joint = {each.id: each for each in joint_schedule(system).joints}["pipe-rear-1"]
        assert joint.sides[1].words == "rear hose bracket (pipe)"
        assert joint.agreement == "not known"

    def test_two_pieces_screwed_straight_together_are_joints_too(self) -> None:
        """No pipe, and both its ends count."""
        direct = replace(CAR.line("pipe-rear-left"), kind=LineKind.DIRECT, figures={})
        system = e.added(e.without(CAR, "pipe-rear-left"), direct)
        ids = {joint.id for joint in joint_schedule(system).joints}
        assert {"pipe-rear-left-0", "pipe-rear-left-1"} <= ids

    def test_threads_written_in_another_way_agree(self) -> None:
        """M10 x 1.0 is M10x1."""
        system = starter("single line", threads="metric")
        nut = replace(system.line("pipe-rear-left").ends[1].fitting, thread="m10 x 1.0")
        system = e.with_end(system, "pipe-rear-left", 1, fitting=nut)
        joint = {each.id: each for each in joint_schedule(system).joints}["pipe-rear-left-1"]
        assert joint.agreement == "agrees"

    def test_both_sides_and_what_is_not_known_are_named(self) -> None:
        """The thread of one side alone is a question still."""
        system = starter("front-rear tandem")
        nut = Fitting("M10x1", "male", flare="convex single")
        system = e.with_end(system, "pipe-rear-left", 1, fitting=nut)
        joint = {each.id: each for each in joint_schedule(system).joints}["pipe-rear-left-1"]
        assert joint.agreement == "not known"
        assert joint.asked == ("thread", "seat", "pipe size")
        assert joint.thread == "M10x1"

    def test_a_loose_end_makes_no_joint(self) -> None:
        """There is nothing to tighten yet."""
        line = CAR.line("pipe-rear")
        system = e.with_line(CAR, "pipe-rear", ends=(line.ends[0], LineEnd()))
        assert "pipe-rear-1" not in {joint.id for joint in joint_schedule(system).joints}

    def test_circuits_are_those_of_the_cylinder(self) -> None:
        """Valves are passed through; the shuttle keeps the two apart."""
        circuits = {each.id: each.circuits for each in joint_schedule(CAR).joints}
        assert circuits["pipe-rear-left-1"] == ("master-floating",)
        assert circuits["hose-front-left-1"] == ("master-primary",)

    def test_bleed_screws_of_a_caliper_with_two_are_told_apart(self) -> None:
        """One for each circuit."""
        screws = joint_schedule(starter("two lines into one caliper")).screws
        words = [screw.words for screw in screws if screw.part == "caliper-front-left"]
        assert words == [
            "bleed screw of front left caliper (bleed a)",
            "bleed screw of front left caliper (bleed b)",
        ]


class TestWashers:
    """New ones each time."""

    def test_a_hose_tail_seals_on_one_and_a_banjo_on_two(self) -> None:
        """One to each face."""
        washers = {each.id: each.washers for each in joint_schedule(CAR).joints}
        assert washers["hose-front-left-1"] == 1
        assert washers["pipe-rear-left-1"] == 0
        tail = replace(CAR.line("hose-rear").ends[1].fitting, seat="banjo bolt")
        system = e.with_end(CAR, "hose-rear", 1, fitting=tail)
        washers = {each.id: each.washers for each in joint_schedule(system).joints}
        assert washers["hose-rear-1"] == 2


class TestTorque:
    """A figure with its source, halved for soft pipe, and the maker's before all."""

    @pytest.mark.parametrize(
        ("thread", "pipe_mm", "low", "high"),
        [
            # A workshop manual: 3/16 pipe 11 +/- 2 N.m, 1/4 pipe 16 +/- 4, 1/2 thread 20 +/- 5
            # [S:nut-torque-manual, p. 33].
            ("3/8-24 UNF", 4.76, 9.0, 13.0),
            ("7/16-20 UNF", 6.35, 12.0, 20.0),
            ("1/2-20 UNF", 8.0, 15.0, 25.0),
            # Roughly 12 to 18 N.m: from memory.
            ("M10x1", 4.75, 12.0, 18.0),
        ],
    )
    def test_published_figures(self, thread: str, pipe_mm: float, low: float, high: float) -> None:
        """As their source has them, and half for pipe that is not steel."""
        steel = torque_of_nut(thread, pipe_mm / 1000, "steel", None)
        assert steel is not None
        assert (steel.low_nm, steel.high_nm, steel.how) == (low, high, "published")
        assert steel.source_id in SOURCES
        soft = torque_of_nut(thread, pipe_mm / 1000, "copper-nickel", None)
        assert soft is not None
        assert (soft.low_nm, soft.high_nm, soft.how) == (low / 2, high / 2, "computed")

    def test_a_pipe_of_unknown_material_is_told_of_both(self) -> None:
        """The figure for steel would crush a soft pipe."""
        unknown = torque_of_nut("3/8-24 UNF", 0.00476, "unknown", None)
        assert unknown is not None
        assert "half of it for copper or copper-nickel" in unknown.words

    def test_the_makers_figure_rules(self) -> None:
        """Whatever is published for the nut."""
        system = e.with_line(
            CAR, "pipe-rear-left", figures={"nut_torque_nm": Stated(14.0, Trust.DATA_SHEET)}
        )
        joint = {each.id: each for each in joint_schedule(system).joints}["pipe-rear-left-0"]
        assert joint.torque is not None
        assert (joint.torque.low_nm, joint.torque.how) == (14.0, "given")
        assert joint.torque.mark == "data sheet"

    def test_nothing_is_made_up(self) -> None:
        """No source was read for hoses, bleed screws or other threads."""
        schedule = joint_schedule(CAR)
        hose = {each.id: each for each in schedule.joints}["hose-front-left-1"]
        assert hose.torque is None
        assert "the hose's own figure" in hose.torque_words
        assert all(screw.torque is None for screw in schedule.screws)
        assert torque_of_nut("M12x1", 0.00635, "steel", None) is None
        assert torque_of_nut("", 0.00476, "steel", None) is None
        assert torque_of_nut("3/8-24 UNF", 0.00635, "steel", None) is None


@pytest.mark.parametrize(
    ("written", "word"),
    [("bubble", "convex single"), ("SINGLE", "single 45 degree"), ("own make", "own make")],
)
def test_flares_by_the_names_that_people_use(written: str, word: str) -> None:
    """One word for each, an unknown one kept."""
    assert flare_word(written) == word


def test_seats_by_the_names_that_people_use() -> None:
    """As for flares."""
    assert seat_word("Copper  Washer") == "washer"


def test_sizes_of_pipe_have_their_usual_nuts() -> None:
    """3/16 with 3/8-24 and 1/4 with 7/16-20, as a manual lists them [S:nut-torque-manual]."""
    assert "3/8-24 UNF" in usual_threads(0.0047625)
    assert "7/16-20 UNF" in usual_threads(0.00635)
    assert usual_threads(0.004) == ()
