"""What the brakes want of the parts desk, against what it has."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bareshell.brakes.cut_list import cut_list
from bareshell.brakes.starters import STARTERS, starter
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.brake import LineKind
from bareshell.model.part import Holding, Need
from bareshell.model.spec import GoodsSpec, HoseSpec, PipeSpec, UnionSpec
from bareshell.model.trust import YOURS, Trust
from bareshell.whole.brake_jobs import BrakeJobs, where_is_line
from bareshell.whole.brake_needs import BrakeNeeds, WantedNeed, brake_needs
from tests.brakes import edits as e
from tests.stories import later
from tests.whole.brake_builds import network_build, own_build

CAR = starter("front-rear tandem", threads="inch")
for _line in CAR.lines:
    if _line.kind is LineKind.PIPE:
        CAR = e.with_line(
            CAR,
            _line.id,
            figures=e.measured(outside_diameter_m=0.00476, wall_m=0.00071),
            choices={"material": "copper-nickel"},
        )
NUT = UnionSpec(
    thread="3/8-24 UNF",
    sex="male",
    seat="45 degree",
    flare="double 45 degree",
    pipe_diameter_m=0.00476,
)


def of(found: BrakeNeeds, need_id: str) -> WantedNeed:
    return {each.need.id: each for each in found.wanted}[need_id]


class TestWhatIsWanted:
    """Typed specifications, job by job."""

    def test_general_needs_of_the_network_are_settled_to_this_car(self) -> None:
        """Not added a second time."""
        found = brake_needs(CAR, network_build())
        nuts = of(found, "pipe-rear.pipe-nuts-for-the-rear-axle")
        assert (nuts.comes, nuts.need.quantity, nuts.need.spec) == ("settled", 6, NUT)
        pipe = of(found, "pipe-under.brake-pipe-to-the-rear").need.spec
        assert isinstance(pipe, PipeSpec)
        assert pipe.material == "copper-nickel"
        assert pipe.length_m is not None
        assert pipe.length_m > 3.0
        hoses = of(found, "front-hoses.front-brake-hoses").need
        assert hoses.quantity == 2
        assert isinstance(hoses.spec, HoseSpec)
        assert (hoses.spec.thread_b, hoses.spec.seat_b) == ("3/8-24 UNF", "washer")
        assert of(found, "rear-hoses.copper-washers-for-the-rear-hoses").need.quantity == 1
        assert of(found, "caliper-bench.bleed-screws").comes == "settled"

    @pytest.mark.parametrize("name", STARTERS)
    def test_every_nut_hose_and_metre_is_in_some_need(self, name: str) -> None:
        """The sum over the jobs is the cut list."""
        system = starter(name, threads="metric")
        found, cuts = brake_needs(system, network_build()), cut_list(system)
        needs = [each.need for each in found.wanted]
        nuts = sum(n.quantity for n in needs if isinstance(n.spec, UnionSpec))
        assert nuts == sum(each.count for each in (*cuts.of("pipe nut"), *cuts.of("blank")))
        hoses = sum(n.quantity for n in needs if isinstance(n.spec, HoseSpec))
        assert hoses == len(cuts.hoses)
        metres = sum(n.spec.length_m or 0 for n in needs if isinstance(n.spec, PipeSpec))
        assert metres >= sum(each.buy_m for each in cuts.stock) - 1e-9
        assert found.without_job == ()
        clips = sum(n.quantity for n in needs if n.title.casefold().startswith("pipe clips"))
        assert clips == sum(each.count for each in cuts.of("pipe clip"))

    def test_fluid_is_wanted_by_the_jobs_that_use_it(self) -> None:
        """By its grade, in sealed bottles; a grade that was not chosen is said."""
        found = brake_needs(CAR, network_build())
        spec = of(found, "bleed-1.brake-fluid-for-the-first-bleed").need.spec
        assert isinstance(spec, GoodsSpec)
        assert spec.what == "brake fluid, grade not chosen"
        chosen = e.with_part(CAR, "fluid", choices={"grade": "DOT 4"})
        spec = of(
            brake_needs(chosen, network_build()), "bleed-1.brake-fluid-for-the-first-bleed"
        ).need.spec
        assert isinstance(spec, GoodsSpec)
        assert spec.what == "brake fluid, DOT 4"
        assert spec.amount is not None
        assert spec.amount.endswith("ml, sealed bottle")

    def test_the_door_takes_the_changes_and_then_they_stand(self) -> None:
        """Asked again, nothing is left to change."""
        build = later(network_build(), *brake_needs(CAR, network_build()).changes)
        again = brake_needs(CAR, build)
        assert again.changes == ()
        assert {each.comes for each in again.wanted} == {"as it stands"}

    def test_a_changed_circuit_changes_the_same_needs(self) -> None:
        """One pipe more: the nuts of that job, not a second need of nuts."""
        build = later(network_build(), *brake_needs(CAR, network_build()).changes)
        other = e.with_line(CAR, "pipe-rear", figures=e.measured(length_m=1.9))
        changed = brake_needs(other, build).changes
        assert {each.need.id for each in changed} <= set(build.needs)
        assert any(isinstance(each.need.spec, PipeSpec) for each in changed)

    def test_two_kinds_of_nut_in_one_job_are_two_needs(self) -> None:
        """They go into two bags."""
        nut = e.male("7/16-20 UNF", "double 45 degree")
        system = e.with_end(CAR, "pipe-rear-left", 1, fitting=nut)
        found = brake_needs(system, network_build())
        nuts = [
            each.need
            for each in found.wanted
            if each.need.job == "pipe-rear" and isinstance(each.need.spec, UnionSpec)
        ]
        assert sorted(need.quantity for need in nuts) == [1, 5]
        assert len({need.id for need in nuts}) == 2

    def test_what_its_owner_wrote_is_kept(self) -> None:
        """He may know better; that it differs is said."""
        own = replace(
            network_build().needs["front-hoses.front-brake-hoses"],
            spec=HoseSpec(free_length_m=0.4),
            mark=YOURS,
        )
        found = of(brake_needs(CAR, later(network_build(), c.NeedSet(own))), own.id)
        assert (found.comes, found.need) == ("kept as written", own)
        assert "the circuit says otherwise" in found.words

    def test_what_an_old_need_knew_besides_is_kept(self) -> None:
        """The circuit does not speak of the clocking of a hose's ends."""
        old = network_build().needs["front-hoses.front-brake-hoses"]
        known = replace(old, spec=HoseSpec(clocking_deg=90.0))
        found = of(brake_needs(CAR, later(network_build(), c.NeedSet(known))), old.id)
        assert isinstance(found.need.spec, HoseSpec)
        assert found.need.spec.clocking_deg == 90.0

    def test_a_pipe_that_is_not_measured_is_said(self) -> None:
        """The length to buy is short of it."""
        line = replace(CAR.line("pipe-rear"), figures={})
        system = replace(CAR, lines=tuple(line if x.id == "pipe-rear" else x for x in CAR.lines))
        notes = [each.need.note for each in brake_needs(system, network_build()).wanted]
        assert "some of its pipes are not measured yet" in notes


class TestAgainstTheShelf:
    """Only what is missing is short; what nobody recorded is not known."""

    NEED = "pipe-rear.pipe-nuts-for-the-rear-axle"

    def test_nobody_has_looked(self) -> None:
        """Not known, never missing."""
        found = of(brake_needs(CAR, network_build()), self.NEED)
        assert (found.state, found.here, found.short) == ("not known", 0, 6)

    def test_what_is_put_aside_for_it_counts(self) -> None:
        """Four of six are here."""
        build = later(network_build(), c.HoldingSet(Holding("h1", "nuts", 4, NUT, need=self.NEED)))
        found = of(brake_needs(CAR, build), self.NEED)
        assert (found.here, found.short) == (4, 2)

    def test_what_lies_free_and_fits_counts_once(self) -> None:
        """Nuts of the right thread, put aside for nothing, go to the first job that wants them."""
        free = Holding("h1", "nuts", 12, NUT, trust=Trust.MEASURED)
        build = later(network_build(), c.HoldingSet(free))
        found = brake_needs(CAR, build)
        spare = [each.free for each in found.wanted if each.need.spec == NUT]
        assert sorted(spare) == [0, 0, 12]

    def test_what_nearly_fits_does_not_count(self) -> None:
        """A metric nut starts in an inch port, and strips it."""
        metric = replace(NUT, thread="M10x1")
        build = later(network_build(), c.HoldingSet(Holding("h1", "nuts", 12, metric)))
        assert not any(
            each.free for each in brake_needs(CAR, build).wanted if each.need.spec == NUT
        )

    def test_short_lists_what_is_still_to_be_found(self) -> None:
        """Nothing is short once the job is done."""
        build = later(network_build(), c.JobFinished("pipe-rear"))
        short = {each.need.id for each in brake_needs(CAR, build).short}
        assert self.NEED not in short
        assert "pipe-bay.pipe-nuts-for-the-bay" in short


class TestOtherNetworks:
    """An owner's own jobs, or none."""

    def test_jobs_are_found_by_their_titles(self) -> None:
        """Pipes, hoses and bleeding; what has no job is named, not hung on another."""
        found = brake_needs(CAR, own_build())
        jobs = {each.need.job for each in found.wanted}
        assert jobs <= {"b1", "b2", "b3", "b5"}
        assert "Bleed screws" in found.without_job
        assert all(each.comes == "new" for each in found.wanted)
        again = brake_needs(CAR, later(own_build(), *found.changes))
        assert again.changes == ()

    def test_a_build_with_no_jobs_names_everything(self) -> None:
        """Nothing can be put on a parts desk that has no jobs."""
        found = brake_needs(CAR, Build())
        assert found.wanted == ()
        assert {"Brake pipe", "Pipe nuts", "Brake hoses"} <= set(found.without_job)

    def test_a_job_taken_out_of_the_network_hands_its_pipes_on(self) -> None:
        """Its neighbour makes them then."""
        whole = network_build()
        jobs = {key: each for key, each in whole.jobs.items() if key != "pipe-rear"}
        smaller = replace(whole, jobs=jobs)
        assert BrakeJobs(smaller).find("rear pipes") == "pipe-under"
        assert BrakeJobs(smaller).find("valve") == "valve-fit"

    def test_a_need_of_an_unknown_job_is_left_alone(self) -> None:
        """Somebody else's nuts."""
        need = Need("mine", "Pipe nuts", "b2", 3, spec=NUT)
        found = brake_needs(CAR, later(own_build(), c.NeedSet(need)))
        assert all(each.need.id != "mine" for each in found.wanted)


@pytest.mark.parametrize(
    ("line", "where"),
    [
        ("pipe-front-circuit", "bay"),
        ("pipe-front-left", "bay"),
        ("pipe-to-rear-valve", "long"),
        ("pipe-rear", "rear"),
        ("pipe-rear-left", "rear"),
        ("hose-rear", "rear"),
        ("hose-front-right", "bay"),
    ],
)
def test_where_a_line_lies(line: str, where: str) -> None:
    """By where its ends are; by its name when nothing is drawn."""
    assert where_is_line(CAR, CAR.line(line)) == where
    bare = replace(CAR, parts=tuple(replace(p, at_m=None, wheel=None) for p in CAR.parts))
    named = where_is_line(bare, bare.line(line))
    assert named == ("rear" if "rear" in line else "bay")
