"""What is odd is found, by name and with a remedy; what is whole is left in peace."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import networkx as nx
import pytest
from hypothesis import HealthCheck, given, settings

from bareshell.brakes.entry_checks import Finding, check_entry
from bareshell.brakes.fittings import meet
from bareshell.brakes.graph import chamber_at
from bareshell.brakes.pipe_sheet import pipe_sheet
from bareshell.brakes.starters import STARTERS, starter
from bareshell.brakes.ways import ways_of
from bareshell.model.brake import BrakeSystem, LineEnd, LineKind, PartKind, Port
from bareshell.model.trust import Stated, Trust
from bareshell.units import known_thread, read_quantity
from tests.brakes import edits as e
from tests.brakes.systems import any_systems

CAR = starter("front-rear tandem", threads="metric")
FOUR_POTS = starter("two lines into one caliper", threads="inch")


def looked_over(name: str) -> BrakeSystem:
    """A starter of which everything that the checks ask for was looked at."""
    system = starter(name, threads="metric")
    for part in system.parts:
        ports = tuple(replace(p, at_top=True) if p.bleeds else p for p in part.ports)
        system = e.with_part(system, part.id, ports=ports)
    for line in system.lines:
        if line.kind is LineKind.HOSE:
            system = e.with_line(system, line.id, figures=e.measured(length_m=0.32, reach_m=0.28))
        else:
            system = e.with_line(system, line.id, figures=e.measured(outside_diameter_m=0.00475))
    for caliper in system.of_kind(PartKind.CALIPER):
        system = e.with_part(system, caliper.id, figures=e.measured(wheel_clearance_m=0.006))
    return e.with_part(system, "fluid", choices={"grade": "DOT 4", "filled_on": "2026-03-04"})


def found(system: BrakeSystem, rule: str) -> tuple[Finding, ...]:
    return tuple(each for each in check_entry(system) if each.rule == rule)


@pytest.mark.parametrize("name", STARTERS)
def test_a_starter_that_was_looked_over_is_left_in_peace(name: str) -> None:
    """Nothing is asked about but the layout's own lack of a split."""
    single = name in ("single line", "remote servo")
    rules = {each.rule for each in check_entry(looked_over(name))}
    assert rules == ({"no failure split"} if single else set())


@pytest.mark.parametrize("name", STARTERS)
def test_a_fresh_starter_has_nothing_that_stops(name: str) -> None:
    """It is whole; what only the car can tell is asked."""
    assert all(each.problem.severity != "stops" for each in check_entry(starter(name)))


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(system=any_systems())
def test_any_entry_is_answered_in_sentences(system: BrakeSystem) -> None:
    """Half a circuit, a wrong name, odd figures: never a traceback, always a remedy."""
    for found in check_entry(system):
        assert found.problem.where
        assert found.problem.what
        assert found.problem.remedy


LAYOUT = [
    (
        "floating end",
        e.with_line(
            CAR, "pipe-rear", ends=(LineEnd("valve-rear", "out"), LineEnd("bracket-reer", "pipe"))
        ),
        "Was 'bracket-rear' meant?",
    ),
    (
        "floating end",
        e.with_line(CAR, "pipe-rear", ends=(LineEnd(), LineEnd("bracket-rear", "pipe"))),
        "its first end is joined to nothing",
    ),
    ("floating end", e.with_end(CAR, "pipe-rear", 0, port="outt"), "Was 'out' meant?"),
    (
        "two lines on one port",
        e.with_end(CAR, "pipe-front-right", 0, port="left"),
        "put a tee between",
    ),
    (
        "line on a bleed screw",
        e.with_end(CAR, "hose-front-left", 1, port="bleed"),
        "joined to a bleed screw",
    ),
    ("open port", e.without(CAR, "pipe-rear"), "fluid would run out"),
    ("pushes nothing", e.with_part(CAR, "servo", choices={"pushes": "mastr"}), "'master' meant"),
    ("nothing pushes it", e.with_part(CAR, "pedal", choices={"pushes": "master"}), "servo"),
    ("pushed twice", e.with_part(CAR, "pedal", choices={"pushes": "master"}), "by 2 things"),
    ("no pedal", e.without(CAR, "pedal"), "ratio"),
    (
        "chambers of a cylinder",
        e.with_part(CAR, "master", choices={"form": "single"}),
        "floating and primary",
    ),
    (
        "form not known",
        replace(
            CAR,
            parts=tuple(replace(p, choices={}) if p.id == "master" else p for p in CAR.parts),
        ),
        "count the lines",
    ),
    (
        "chambers of a valve",
        e.with_port(CAR, "valve-rear", "in", chamber="front"),
        "in and out",
    ),
    (
        "circuits joined",
        e.with_port(CAR, "shuttle", "rear in", chamber="front"),
        "one leak empties both",
    ),
    (
        "turned about",
        e.with_end(e.with_end(CAR, "pipe-to-rear-valve", 1, port="out"), "pipe-rear", 0, port="in"),
        "outlet towards the master cylinder",
    ),
    ("wheel without a brake", e.without(CAR, "cylinder-rear-left"), "rear left wheel"),
    ("no wheel named", e.with_part(CAR, "disc-front-left", wheel=None), "Name its wheel"),
    ("half a brake", e.without(CAR, "disc-front-left"), "there is no disc"),
    ("not fed", e.without(CAR, "hose-front-left"), "no master cylinder reaches it"),
    (
        "shoes and cylinders",
        e.with_part(CAR, "drum-rear-left", choices={"form": "twin leading"}),
        "2 single-ended cylinders",
    ),
    ("no failure split", starter("single line"), "a leak anywhere takes them all"),
    (
        "circuit without a wheel",
        e.with_blanked_branch(CAR),
        "brakes no wheel",
    ),
]


@pytest.mark.parametrize(("rule", "system", "says"), LAYOUT, ids=[each[0] for each in LAYOUT])
def test_the_shape_is_looked_at(rule: str, system: BrakeSystem, says: str) -> None:
    """Each rule finds its own fault and says what would put it right."""
    assert not found(CAR, rule)
    told = " ".join(each.problem.describe() for each in found(system, rule))
    assert says in told


class TestBleeding:
    """Air must be able to leave from everywhere."""

    def test_a_caliper_with_no_bleed_screw(self) -> None:
        """Its air would stay whatever is done."""
        ports = (CAR.part("caliper-front-left").port("in"),)
        [one] = found(e.with_part(CAR, "caliper-front-left", ports=ports), "no bleed screw")
        assert (one.about, one.problem.severity) == ("caliper-front-left", "stops")

    def test_a_chamber_of_a_caliper_with_no_bleed_screw(self) -> None:
        """One screw for two circuits leaves one of them full of air."""
        caliper = FOUR_POTS.part("caliper-front-left")
        ports = tuple(port for port in caliper.ports if port.name != "bleed b")
        [one] = found(e.with_part(FOUR_POTS, caliper.id, ports=ports), "no bleed screw")
        assert "a chamber of it has no bleed screw" in one.problem.what
        assert not found(FOUR_POTS, "no bleed screw")

    def test_a_bleed_screw_that_is_not_at_the_top(self) -> None:
        """The caliper of the other side: everything fits and the air stays."""
        system = e.with_port(CAR, "caliper-front-left", "bleed", at_top=False)
        first = found(system, "bleed screw at the top")[0]
        assert first.problem.severity == "stops"
        assert "other side of the car" in first.problem.remedy

    def test_nobody_has_looked(self) -> None:
        """Asked once, with every one of them named."""
        [one] = found(CAR, "bleed screw at the top")
        assert one.problem.severity == "doubtful"
        assert "front left caliper, front right caliper" in one.problem.where

    def test_a_blanked_leg_counts_as_bled_only_once_vented(self) -> None:
        """It may be there on purpose, so it is asked about."""
        [one] = found(e.with_blanked_branch(CAR), "blanked leg")
        assert one.about == "plug"
        assert "only when its far end has been vented" in one.problem.what

    def test_a_dead_leg_with_nothing_at_its_end(self) -> None:
        """A gauge's old pipe, left on the tee."""
        tee = CAR.part("tee-front")
        system = e.with_part(CAR, "tee-front", ports=(*tee.ports, Port("gauge")))
        system = e.added(system, e.pipe("gauge-pipe", ("tee-front", "gauge"), ("union", "a")))
        union = replace(e.blank("union"), kind=PartKind.TEE, choices={"form": "in-line union"})
        system = e.added(system, union)
        [one] = found(system, "dead leg")
        assert one.problem.severity == "stops"

    @settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
    @given(system=any_systems())
    def test_dead_legs_are_those_of_a_general_graph_library(self, system: BrakeSystem) -> None:
        """Every line is on some simple way from a cylinder to a screw, or is in a dead leg."""
        graph: nx.MultiGraph[tuple[str, str]] = nx.MultiGraph()
        for line in system.lines:
            one, other = chamber_at(system, line, 0), chamber_at(system, line, 1)
            if one is not None and other is not None:
                graph.add_edge(one, other, key=line.id)
        for part in system.of_kind(PartKind.VALVE, PartKind.REMOTE_SERVO):
            if {"in", "out"} <= {port.chamber for port in part.ports}:
                graph.add_edge((part.id, "in"), (part.id, "out"), key="")
        ways = ways_of(system)
        for source in ways.sources:
            graph.add_edge(("", "start"), source, key="")
        for screw in {each.chamber for each in ways.screws}:
            graph.add_edge(screw, ("", "end"), key="")
        alive: set[str] = set()
        if ways.sources and ways.screws:
            for way in nx.all_simple_edge_paths(graph, ("", "start"), ("", "end")):
                alive |= {str(step[-1]) for step in way}
        dead = {line for leg in ways.dead for line in leg.lines}
        lines = {key for _, _, key in graph.edges(keys=True) if key}
        assert dead == lines - alive


class TestJoints:
    """Both sides of every joint are held against each other."""

    def test_the_near_miss_that_brakes_are_known_for(self) -> None:
        """M10 x 1 against 3/8-24 UNF: 25.4 and 24 to the inch [S:fittings-vendor]."""
        nut = e.male("3/8-24 UNF", "convex single")
        system = e.with_end(CAR, "pipe-rear-left", 1, fitting=nut)
        [one] = found(system, "near-miss thread")
        assert one.problem.severity == "stops"
        assert "24.0" in one.problem.what
        assert "25.4" in one.problem.what
        assert "never force it" in one.problem.remedy

    @pytest.mark.parametrize(
        ("male", "female", "fits"),
        [
            ("M10x1", "3/8-24 UNF", "starts and strips"),
            ("3/8-24 UNF", "M10x1", "starts and strips"),
            ("M12x1", "1/2-20 UNF", "starts and strips"),
            ("M14x1.5", "9/16-18 UNF", "starts and strips"),
            ("M10x1", "M10x1", "agree"),
            ("M10x1", "7/16-20 UNF", "does not go"),
            ("7/16-20 UNF", "3/8-24 UNF", "does not go"),
        ],
    )
    def test_threads_that_start_are_told_from_threads_that_do_not(
        self, male: str, female: str, fits: str
    ) -> None:
        """The pairs that fitters know; the first is read, the rest common practice."""
        threads = known_thread(male), known_thread(female)
        assert threads[0] is not None
        assert threads[1] is not None
        assert meet(threads[0], threads[1]).fits == fits

    def test_two_nuts_of_one_sex(self) -> None:
        """A male nut does not screw into a male hose end."""
        fitting = replace(CAR.line("hose-rear").ends[0].fitting, sex="male")
        [one] = found(e.with_end(CAR, "hose-rear", 0, fitting=fitting), "joint does not agree")
        assert "both sides are male" in one.problem.what
        assert one.about == "pipe-rear"

    def test_a_flare_on_the_wrong_seat(self) -> None:
        """It seals for a while, on an edge."""
        nut = e.male("M10x1", "double 45 degree")
        [one] = found(e.with_end(CAR, "pipe-rear-left", 1, fitting=nut), "joint does not agree")
        assert "seals on a 45 degree seat, and this one is convex" in one.problem.what

    def test_a_single_flare(self) -> None:
        """Never in brakes."""
        nut = e.male("M10x1", "single")
        assert found(e.with_end(CAR, "pipe-rear-left", 1, fitting=nut), "single flare")

    def test_a_metric_male_nut_goes_with_a_convex_flare(self) -> None:
        """As a maker's fittings list has it [S:fittings-manuals]."""
        nut = e.male("M10x1", "double 45 degree")
        system = e.with_end(CAR, "pipe-rear-left", 1, fitting=nut)
        system = e.with_port(
            system,
            "cylinder-rear-left",
            "in",
            fitting=replace(nut, sex="female", flare="", seat=""),
        )
        assert found(system, "flare and nut")
        assert not found(CAR, "flare and nut")

    def test_what_is_not_known_is_asked_once(self) -> None:
        """Not once for each of twenty joints."""
        [one] = found(starter("front-rear tandem"), "thread not known")
        assert one.problem.where == "thread of every joint"
        assert one.problem.severity == "note"

    def test_a_nut_that_is_unusual_for_its_pipe(self) -> None:
        """A 14 mm nut on a 3/16 pipe: one of them was measured wrong."""
        nut = e.male("M14x1.5", "convex single")
        system = e.with_end(CAR, "pipe-rear-left", 1, fitting=nut)
        system = e.with_line(
            system, "pipe-rear-left", figures=e.measured(outside_diameter_m=0.00475)
        )
        fitting = replace(nut, sex="female", seat="convex", flare="")
        system = e.with_port(system, "cylinder-rear-left", "in", fitting=fitting)
        [one] = found(system, "nut and pipe")
        assert "3/8-24 UNF" in one.problem.remedy

    @pytest.mark.parametrize(
        ("free", "reach", "rule"),
        [
            (0.30, 0.31, "hose in tension"),
            (0.30, 0.295, "hose nearly in tension"),
            (None, 0.2, "hose not measured"),
            (0.3, None, "hose not measured"),
        ],
    )
    def test_hoses(self, free: float | None, reach: float | None, rule: str) -> None:
        """Reach at full droop and lock against free length."""
        named = {"length_m": free, "reach_m": reach}
        figures = e.measured(**{name: each for name, each in named.items() if each is not None})
        system = e.with_line(looked_over("front-rear tandem"), "hose-rear", figures={})
        system = replace(
            system,
            lines=tuple(
                replace(x, figures=figures) if x.id == "hose-rear" else x for x in system.lines
            ),
        )
        assert [each.about for each in found(system, rule)] == ["hose-rear"]

    def test_a_range_that_reaches_into_tension_counts(self) -> None:
        """The worst of what is believed decides."""
        reach = Stated(0.27, Trust.ASSUMED, 0.25, 0.34)
        system = e.with_line(looked_over("single line"), "hose-rear", figures={"reach_m": reach})
        assert found(system, "hose in tension")

    def test_copper_is_asked_about(self) -> None:
        """Local rules differ."""
        assert found(e.with_line(CAR, "pipe-rear", choices={"material": "copper"}), "copper pipe")


class TestFluidAndSeals:
    """What is filled in must suit every rubber."""

    @pytest.mark.parametrize(
        ("grade", "seals", "severity"),
        [
            ("DOT 4", "nitrile", "stops"),
            ("mineral", "EPDM", "stops"),
            ("DOT 5", "SBR", "doubtful"),
        ],
    )
    def test_a_fluid_that_its_seals_do_not_bear(
        self, grade: str, seals: str, severity: str
    ) -> None:
        """By the table of fluids and rubbers."""
        system = e.with_part(CAR, "fluid", choices={"grade": grade})
        system = e.with_part(system, "master", choices={"seals": seals})
        told = {each.about: each.problem for each in found(system, "seals and fluid")}
        assert told["master"].severity == severity
        assert told["master"].remedy

    def test_seals_that_no_fluid_suits(self) -> None:
        """One nitrile cylinder among rubbers made for glycol."""
        system = e.with_part(CAR, "master", choices={"seals": "EPDM"})
        system = e.with_part(system, "cylinder-rear-left", choices={"seals": "nitrile"})
        [one] = found(system, "mixed seals")
        assert "rear left cylinder (nitrile)" in one.problem.what

    def test_a_fluid_that_nobody_knows_is_asked_about(self) -> None:
        """Never taken for granted, however it looks."""
        [one] = found(CAR, "fluid not known")
        assert (one.about, one.problem.severity) == ("fluid", "doubtful")
        assert "colour never proves" in one.problem.remedy
        [none] = found(e.without(CAR, "fluid"), "fluid not known")
        assert "before the first part is wetted" in none.problem.remedy

    def test_seals_that_nobody_knows_are_asked_about_together(self) -> None:
        """Where the fluid is of a kind that seals differ in how they bear."""
        system = e.with_part(CAR, "fluid", choices={"grade": "DOT 5"})
        told = [each.problem for each in found(system, "seals and fluid")]
        assert any("master cylinder" in each.where and "caliper" in each.where for each in told)

    def test_its_age_is_asked_about(self) -> None:
        """Only once the grade is known."""
        assert found(e.with_part(CAR, "fluid", choices={"grade": "DOT 4"}), "age of the fluid")

    def test_a_chamber_that_no_reservoir_feeds(self) -> None:
        """Written down so that the filling can be checked."""
        system = e.with_part(CAR, "reservoir", choices={"feeds": "master primary"})
        [one] = found(system, "no reservoir named")
        assert "master floating" in one.problem.what


class TestFigures:
    """Slips are asked about; what cannot both be true is said."""

    def test_psi_typed_as_bar(self) -> None:
        """The question names the unit that was probably meant."""
        typed = {"valve-rear.knee_pa": read_quantity("250 bar", "pressure", "knee")}
        figures = {"knee_pa": Stated(typed["valve-rear.knee_pa"].si)}
        system = e.with_part(CAR, "valve-rear", figures=figures)
        [one] = [each for each in check_entry(system, typed) if each.rule == "unlikely figure"]
        assert "Was 250 psi" in one.problem.describe()
        assert one.problem.severity == "doubtful"

    def test_a_slip_is_found_without_knowing_how_it_was_typed(self) -> None:
        """From a form, a build file or another program."""
        system = e.with_part(CAR, "valve-rear", figures=e.measured(knee_pa=250e5))
        [one] = found(system, "unlikely figure")
        assert "'250 bar' is outside the usual 7 bar to 80 bar" in one.problem.what
        assert "250 psi" in one.problem.remedy

    def test_a_share_out_of_the_usual(self) -> None:
        """Figures without a unit are asked about too."""
        system = e.with_part(CAR, "caliper-front-left", figures=e.measured(pad_friction=0.95))
        assert found(system, "unlikely figure")

    @pytest.mark.parametrize(
        ("about", "figures", "says"),
        [
            ("pipe-rear", {"outside_diameter_m": 0.00475, "wall_m": 0.0024}, "leaves no bore"),
            (
                "disc-front-left",
                {"outer_diameter_m": 0.24, "effective_radius_m": 0.13},
                "outside the disc",
            ),
            ("disc-front-left", {"outer_diameter_m": 0.1, "pad_height_m": 0.06}, "higher than"),
            (
                "drum-rear-left",
                {"diameter_m": 0.18, "actuation_arm_m": 0.2},
                "longer than the drum is wide",
            ),
            ("car", {"driver_only_mass_kg": 900, "laden_mass_kg": 850}, "no less with the driver"),
            ("car", {"wheelbase_m": 1.3, "front_track_m": 1.4}, "no less than its wheelbase"),
            ("car", {"wheelbase_m": 1.0, "cg_height_m": 0.6}, "as high as half its wheelbase"),
        ],
    )
    def test_figures_that_cannot_both_be_right(
        self, about: str, figures: dict[str, float], says: str
    ) -> None:
        """Both are named, with what would put it right."""
        is_line = any(line.id == about for line in CAR.lines)
        change = e.with_line if is_line else e.with_part
        system = change(CAR, about, figures=e.measured(**figures))
        told = [each.problem.what for each in found(system, "figures that contradict")]
        assert any(says in each for each in told)

    def test_a_piston_larger_than_its_disc(self) -> None:
        """54 cm typed for 54 mm is impossible already; this is the smaller slip."""
        system = e.with_part(CAR, "caliper-front-left", figures=e.measured(a_bore_m=0.14))
        system = e.with_part(system, "disc-front-left", figures=e.measured(outer_diameter_m=0.25))
        assert found(system, "figures that contradict")

    @pytest.mark.parametrize(
        ("clearance", "rule"),
        [(-0.001, "wheel touches the caliper"), (0.002, "wheel near the caliper")],
    )
    def test_the_wheel_over_the_caliper(self, clearance: float, rule: str) -> None:
        """A caliper that the wheel does not pass is no brake."""
        figures = e.measured(wheel_clearance_m=clearance)
        assert found(e.with_part(CAR, "caliper-front-left", figures=figures), rule)

    def test_the_wheel_clearance_is_asked_for(self) -> None:
        """Until somebody has measured it."""
        [one] = found(CAR, "wheel clearance not known")
        assert "front left caliper and front right caliper" in one.problem.where

    def test_an_assumption_without_a_range_is_said(self) -> None:
        """It would hide its doubt from every share."""
        system = e.with_part(CAR, "pedal", figures={"ratio": Stated(5.0)})
        [one] = found(system, "assumed as if exact")
        assert one.problem.where == "pedal, ratio of the pedal"


@pytest.mark.parametrize("share", [0.1, 0.7, 0.9, 1.3])
def test_a_pipe_shorter_than_its_own_way_is_asked_about(share: float) -> None:
    """A slip of the point, 0.21 for 2.1 m, spoils a cut; a rough sketch is no slip."""
    [drawn] = [each for each in pipe_sheet(CAR).pipes if each.pipe.line == "pipe-front-left"]
    assert drawn.plan_m is not None
    typed = e.with_line(CAR, "pipe-front-left", figures=e.measured(length_m=share * drawn.plan_m))
    asked = [each for each in check_entry(typed) if each.rule == "pipe shorter than its way"]
    assert [each.about for each in asked] == (["pipe-front-left"] if share < 0.8 else [])
    assert all("before you cut" in each.problem.remedy for each in asked)


def test_what_stops_comes_first() -> None:
    """The list begins with what makes answers wrong."""
    order = ["stops", "doubtful", "note"]
    entered = check_entry(e.without(CAR, "pipe-rear"))
    places = [order.index(each.problem.severity) for each in entered]
    assert all(one <= other for one, other in pairwise(places))
