"""What fits, what may stand in, and what is written down when it does."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bareshell.app.door import Door
from bareshell.model import changes as c
from bareshell.model.duty import Duty, LoadPath
from bareshell.model.job import JobStatus
from bareshell.model.part import Holding, Need, NeededTo, NeedState, OrderLine
from bareshell.model.spec import BoltSpec, ElectricalSpec, HoseSpec, PinSpec, PlainSpec
from bareshell.model.standing import gate_standings, need_standings, open_temps
from bareshell.model.temp import Gate
from tests.web.pages.conftest import Hands

MM = 1e-3
PIN = PinSpec(diameter_m=8 * MM, grip_to_hole_m=18 * MM, material="mild steel")
HANDBRAKE = Duty(
    LoadPath.HANDBRAKE,
    load_n=1500.0,
    shear_planes=2,
    fork_ply_m=4 * MM,
    eye_ply_m=8 * MM,
    side_gap_m=0.5 * MM,
    hole_m=8.05 * MM,
    turns=True,
)
BOLT = BoltSpec(thread="M8", grip_length_m=17 * MM, length_m=30 * MM, grade="8.8", lock="nyloc")


@pytest.fixture(autouse=True)
def shelf(door: Door) -> None:
    """A handbrake that wants two pins, and tins with nearly the right thing."""
    door.record(
        [
            c.GateSet(Gate("pushed-roll", "Pushed roll")),
            c.NeedSet(
                Need("hb", "Handbrake pins", "rear-hose", 2, NeededTo.START, PIN, fixing=True,
                     duty=HANDBRAKE)
            ),
            c.HoldingSet(Holding("bolts", "M8 bolts", 5, BOLT, where="tin 3")),
            c.HoldingSet(
                Holding("short", "Clevis pins, short", 2, PinSpec(diameter_m=8 * MM,
                        grip_to_hole_m=14 * MM), where="tin 4")
            ),
            c.HoldingSet(Holding("bag", "Bag of handbrake pins", 3, PlainSpec(words="pins"))),
        ]
    )  # fmt: skip


def put_right_ones_there(door: Door, count: int = 3, need: str | None = None) -> None:
    door.record(c.HoldingSet(Holding("right", "Clevis pins", count, PIN, need, "tin 5")))


class TestWhatFits:
    """One need against the shelf."""

    def test_each_sort_stands_by_itself_with_its_reason(self, hands: Hands, door: Door) -> None:
        put_right_ones_there(door)
        page = hands.see("/needs/hb/fit")
        parts = [page.index(f"<h2>{head}</h2>") for head in (
            "Fits", "May stand in", "To be measured", "Looks right, and is not")]  # fmt: skip
        assert parts == sorted(parts)
        assert "will do as a temp until the car is first left held by it" in page
        assert "grip, head to hole: 4 mm short" in page
        assert "described in words only: measure it" in page

    def test_the_twin_says_the_same(self, hands: Hands) -> None:
        body = hands.client.get("/needs/hb/fit.json").json()
        assert body["relied_on"] == "handbrake"
        (temp,) = body["may_stand_in"]
        assert temp["stand_in"]["gate"] == "pushed-roll"
        shear = next(one for one in temp["stand_in"]["lines"] if one["check"] == "shear")
        assert "15 MPa" in shear["arithmetic"]
        assert shear["source"]

    def test_what_is_free_and_fits_is_found_without_asking(self, hands: Hands, door: Door) -> None:
        assert "Nothing that is free fits" in hands.see("/shelf/matches")
        put_right_ones_there(door)
        page = hands.see("/shelf/matches")
        assert "/needs/hb/fit" in page
        assert "tin 5" in page
        put_right_ones_there(door, need="hb")
        assert "Nothing that is free fits" in hands.see("/shelf/matches")

    def test_a_thing_that_is_not_there_is_said_to_be(self, hands: Hands) -> None:
        hands.see("/needs/nonesuch/fit", 404)
        hands.see("/needs/hb/fit/nonesuch", 404)


class TestUseIt:
    """Putting it aside."""

    def test_as_many_as_are_wanted_and_the_rest_stays(self, hands: Hands, door: Door) -> None:
        put_right_ones_there(door)
        page = hands.send("/needs/hb/fit/right", "/needs/hb/fit/right/use")
        assert "2 x Clevis pins put aside for" in page
        build = door.build()
        assert need_standings(build)["hb"].state is NeedState.HERE
        assert build.holdings["right"].quantity == 1
        assert build.holdings["right"].need is None

    def test_pressed_twice_it_is_put_aside_once(self, hands: Hands, door: Door) -> None:
        put_right_ones_there(door)
        form = hands.form("/needs/hb/fit/right", "/needs/hb/fit/right/use")
        for _ in range(2):
            hands.post(form)
        assert (
            sum(h.quantity for h in door.build().holdings.values() if h.title == "Clevis pins") == 3
        )
        assert need_standings(door.build())["hb"].here == 2

    def test_what_does_not_fit_is_refused_with_its_reason(self, hands: Hands, door: Door) -> None:
        put_right_ones_there(door)
        form = hands.form("/needs/hb/fit/right", "/needs/hb/fit/right/use")
        form.action = "/needs/hb/fit/short/use"
        answer = hands.post(form)
        assert answer.status_code == 409
        assert "grip: short: its hole stays inside" in answer.text
        assert "/needs/hb/fit/short/use" not in hands.see("/needs/hb/fit/short")

    def test_more_than_lie_there_cannot_be_taken(self, hands: Hands, door: Door) -> None:
        put_right_ones_there(door)
        page = hands.refused("/needs/hb/fit/right", "/needs/hb/fit/right/use", 422, quantity="9")
        assert "3 lie there" in page


class TestForTheTimeBeing:
    """A temp from the parts desk lands in the register by itself."""

    def fit(self, hands: Hands) -> str:
        return hands.send("/needs/hb/fit/bolts", "/needs/hb/fit/bolts/temp", words="marked red")

    def test_it_stands_among_the_temps_before_its_gate(self, hands: Hands, door: Door) -> None:
        page = self.fit(hands)
        assert "in place of Handbrake pins" in page
        build = door.build()
        (temp,) = open_temps(build)
        assert build.temps[temp].temp.gate == "pushed-roll"
        assert gate_standings(build)["pushed-roll"].temps == (temp,)
        assert "marked red" in build.temps[temp].events[0].words

    def test_the_job_goes_on_and_the_right_one_stays_wanted(self, hands: Hands, door: Door) -> None:
        self.fit(hands)
        build = door.build()
        states = {key: standing.state for key, standing in need_standings(build).items()}
        swap = build.needs["hb"].job
        assert build.jobs[swap].job.after == ("rear-hose",)
        assert states["hb"] is NeedState.NOT_KNOWN
        (stand_in,) = [n for n in build.needs.values() if n.job == "rear-hose" and n.id != "hose"]
        assert states[stand_in.id] is NeedState.HERE
        assert build.holdings["bolts"].quantity == 3

    def test_putting_the_right_one_in_ends_it(self, hands: Hands, door: Door) -> None:
        self.fit(hands)
        swap = door.build().needs["hb"].job
        door.record([c.JobFinished("rear-pipe"), c.JobFinished("rear-hose")])
        assert open_temps(door.build()), "finishing the job does not end its temp"
        door.record(c.JobFinished(swap))
        assert open_temps(door.build()) == ()
        assert door.build().jobs[swap].state.status is JobStatus.DONE

    def test_what_is_here_already_stays_with_the_job(self, hands: Hands, door: Door) -> None:
        door.record(
            [
                c.HoldingSet(Holding("one", "Clevis pin", 1, PIN, "hb")),
                c.OrderSet(OrderLine("o-hb", "Clevis pins", "hb", 1)),
            ]
        )
        self.fit(hands)
        build = door.build()
        assert build.needs["hb"].quantity == 1
        assert need_standings(build)["hb"].state is NeedState.HERE
        right = build.orders["o-hb"].line.need
        assert right != "hb"
        assert build.needs[right or ""].quantity == 1
        assert need_standings(build)[right or ""].state is NeedState.COMING

    @pytest.mark.parametrize("path", [LoadPath.PEDAL, LoadPath.STEERING, LoadPath.CALIPER])
    def test_never_in_pedal_steering_or_caliper(
        self, hands: Hands, door: Door, path: LoadPath
    ) -> None:
        form = hands.form("/needs/hb/fit/bolts", "/needs/hb/fit/bolts/temp")
        need = door.build().needs["hb"]
        door.record(c.NeedSet(Need("hb", need.title, need.job, 2, spec=PIN, fixing=True,
                                   duty=Duty(path, turns=True, load_n=500.0))))  # fmt: skip
        page = hands.see("/needs/hb/fit/bolts")
        assert "nothing is ever fitted there for the time being" in page
        assert "/temp" not in page
        answer = hands.post(form)
        assert answer.status_code == 409
        assert open_temps(door.build()) == ()

    def test_not_where_nobody_said_what_for(self, hands: Hands, door: Door) -> None:
        door.record(c.NeedSet(Need("hb", "Handbrake pins", "rear-hose", 2, spec=PIN, fixing=True)))
        page = hands.see("/needs/hb/fit/bolts")
        assert "nobody said what is relied on it" in page
        assert "/temp" not in page
        assert "What gives way when it does?" in hands.see("/needs/hb")

    def test_not_where_its_gate_was_passed(self, hands: Hands, door: Door) -> None:
        door.record(c.GatePassed("pushed-roll", "the owner"))
        assert "it is relied on already" in hands.see("/needs/hb/fit/bolts")

    def test_a_car_that_rolled_before_it_had_a_handbrake(self, hands: Hands, door: Door) -> None:
        door.record(
            [c.GatePassed("pushed-roll", "the owner"), c.GateSet(Gate("first-move", "First move"))]
        )
        page = hands.see("/needs/hb/fit/bolts")
        assert "chock the wheels" in page
        assert "gone before the gate &#39;First move&#39;" in page
        door.record([c.JobFinished("rear-pipe"), c.JobFinished("rear-hose")])
        assert "it is relied on already" in hands.see("/needs/hb/fit/bolts")

    def test_not_where_no_gate_stands_before_it(self, hands: Hands, door: Door) -> None:
        need = door.build().needs["hb"]
        door.record(c.NeedSet(Need("hb", need.title, need.job, 2, spec=PIN, fixing=True,
                                   duty=Duty(LoadPath.CATCH, turns=True))))  # fmt: skip
        assert "add one and name it on the need" in hands.see("/needs/hb/fit/bolts")

    def test_a_later_gate_than_the_moment_ends_nothing(self, hands: Hands) -> None:
        page = hands.send("/needs/hb/edit", "/needs/hb/edit", duty_gate="road")
        assert "Handbrake pins" in page
        body = hands.client.get("/needs/hb/fit.json").json()
        assert body["may_stand_in"][0]["stand_in"]["gate"] == "pushed-roll"

    def test_an_earlier_one_may_be_named(self, hands: Hands, door: Door) -> None:
        door.record(c.GateSet(Gate("pushed-roll", "Pushed roll", after=("under-car",))))
        hands.send("/needs/hb/edit", "/needs/hb/edit", duty_gate="under-car")
        body = hands.client.get("/needs/hb/fit.json").json()
        assert body["may_stand_in"][0]["stand_in"]["gate"] == "under-car"


class TestSayingWhatFor:
    """The duty of a need, typed as the trade writes it."""

    def test_it_comes_back_as_it_was_typed(self, hands: Hands, door: Door) -> None:
        hands.send(
            "/needs/hb/edit",
            duty_load_path="suspension",
            duty_load_n="340 lbf",
            duty_shear_planes="1",
            duty_fork_ply_m="1/8 in",
            duty_turns="no",
            guess_low="4",
            guess_high="7.50",
        )
        need = door.build().needs["hb"]
        assert need.duty is not None
        assert need.duty.load_path is LoadPath.SUSPENSION
        assert need.duty.load_n == pytest.approx(1512.4, abs=0.1)
        assert need.duty.fork_ply_m == pytest.approx(3.175 * MM)
        assert need.duty.turns is False
        page = hands.see("/needs/hb")
        assert "suspension, 1512 N, single shear" in page
        assert "4 to 7.50 GBP" in page

    def test_what_is_wrong_is_said_beside_it(self, hands: Hands) -> None:
        page = hands.refused("/needs/hb/edit", "/needs/hb/edit", 422, duty_load_n="a lot",
                             guess_low="9", guess_high="2")  # fmt: skip
        assert "reatest load across it" in page
        assert "less than the least" in page

    def test_a_tolerance_may_be_typed_with_its_size(self, hands: Hands, door: Door) -> None:
        hands.send("/needs/hb/edit", spec_grip_to_hole_m="22 ± 0.5 mm")
        spec = door.build().needs["hb"].spec
        assert isinstance(spec, PinSpec)
        assert (spec.grip_to_hole_m, spec.grip_tolerance_m) == (0.022, 0.0005)
        assert "grip to hole 22 ± 0.5 mm" in hands.see("/needs/hb")


class TestOtherKinds:
    """What a joint is asked is asked of bolts and pins; nothing that was said of it is lost."""

    def test_a_hose_is_not_asked_for_shear_planes(self, hands: Hands, door: Door) -> None:
        door.record(
            [
                c.NeedSet(Need("hose", "Hose", "rear-hose", spec=HoseSpec(thread_a="M10x1"))),
                c.NeedSet(Need("odd", "Odd hose", "rear-hose", spec=HoseSpec(), duty=HANDBRAKE)),
            ]
        )
        assert "shear planes" in hands.see("/needs/hb/edit")
        page = hands.see("/needs/hose/edit")
        assert "shear planes" not in page
        assert "what is relied on it" in page
        hands.send("/needs/odd/edit", quantity="3")
        odd = door.build().needs["odd"]
        assert (odd.quantity, odd.duty) == (3, HANDBRAKE)

    def test_a_larger_fuse_is_shown_with_why_it_will_not_do(self, hands: Hands, door: Door) -> None:
        fuse = ElectricalSpec(what="fuse", amps=10)
        door.record(
            [
                c.NeedSet(Need("fuse", "Lamp fuse", "rear-hose", spec=fuse)),
                c.HoldingSet(Holding("big", "Big fuses", 4, replace(fuse, amps=20), where="tin 6")),
            ]
        )
        page = hands.see("/needs/fuse/fit")
        assert "Of its kind, and will not do" in page
        assert "the wire burns before it blows" in page
        assert "Nothing on the shelf is of its kind" not in page
        assert "relied on for: <b>wiring or lamp</b>" in page
