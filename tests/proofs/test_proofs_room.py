"""What an owner relies on before a gate, on the way back, and after three weeks away."""

from __future__ import annotations

from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from bareshell.errors import BareshellError
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.job import Recheck
from bareshell.model.network import predecessors
from bareshell.model.proof import AboutKind, Proof, ProofKind, Reading
from bareshell.model.session import HeldSession
from bareshell.model.standing import gate_standings, proof_standings
from bareshell.model.temp import Departure, Gate, Temp
from bareshell.proofs.rechecks import RecheckState, comparisons, rechecks
from bareshell.proofs.rehearsal import ITEMS, rehearsal
from bareshell.proofs.stopping import back_card, stopped_note
from bareshell.proofs.torque_sheet import FixingState, torque_sheet
from bareshell.proofs.way_back import ReturnKind, laid, way_back
from bareshell.proofs.way_through import way_through
from bareshell.trade.network import rows
from tests.stories import NOW, job, later, small_car

UNDER = ("rear-pipe", "rear-hose", "hold")


def test_the_way_through_a_gate_holds_only_what_must_be_done_in_a_workable_order() -> None:
    way = way_through(small_car(), "under-car", NOW)

    assert tuple(step.job for step in way.steps) == UNDER
    assert way.hours == 1.5 + 0.7 + 0.5
    assert way.steps[-1].wait_hours == 12


def test_what_an_earlier_gate_asks_for_comes_before_what_it_holds_up() -> None:
    way = way_through(small_car(), "road", NOW)
    order = [step.job for step in way.steps]

    assert way.gates == ("under-car", "road")
    assert order.index("hold") < order.index("tank") < order.index("wheels-on")
    assert "door-seal" not in order, "nobody needs the door seal before the road gate"
    assert way.two_person_hours == 2


def test_a_proof_that_was_spent_is_proved_again_by_hand() -> None:
    build = later(small_car(), *(c.JobFinished(name, 1) for name in UNDER))
    build = later(build, c.ProofHeld("rear-joint", (Reading("pressure", 75, "bar"),), "owner"))
    assert way_through(build, "under-car", NOW).prove_again == ()

    spent = later(build, c.ProofSpent("rear-joint", "nut slackened"), at=NOW + timedelta(hours=1))

    assert way_through(spent, "under-car", NOW + timedelta(hours=2)).prove_again == ("rear-joint",)


def test_a_joint_buried_unproven_is_named_with_its_two_ways_out() -> None:
    build = later(small_car(), *(c.JobDoneBefore(name) for name in (*UNDER, "tank")))

    way = way_through(build, "road", NOW)

    assert way.uncover == ("rear-joint",)
    assert way.prove_again == ()


def test_a_temp_that_no_open_job_clears_is_cleared_by_hand() -> None:
    build = later(
        small_car(), c.TempSet(Temp("wire", "tie wire", "clip", "road")), c.TempRaised("wire")
    )

    assert way_through(build, "road", NOW).temps == ("wire",)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.sampled_from([*UNDER, "tank", "carb", "wheels-on"]), unique=True))
def test_whatever_is_done_each_step_comes_after_what_it_waits_for(done: list[str]) -> None:
    build = small_car()
    for name in [name for name in (*UNDER, "tank", "carb", "wheels-on") if name in done]:
        build = later(build, c.JobDoneBefore(name))
    way = way_through(build, "road", NOW)
    place = {step.job: index for index, step in enumerate(way.steps)}
    before = predecessors(build)

    assert not {*place} & set(done)
    for name, index in place.items():
        for earlier in before[name]:
            assert not build.jobs[earlier].state.is_open or place[earlier] < index


def _torque(name: str, title: str, made_by: str) -> c.ProofSet:
    return c.ProofSet(
        Proof(name, title, ProofKind.TORQUE, AboutKind.FIXING, "bolts", made_by=(made_by,))
    )


def test_only_a_proof_that_holds_makes_a_fixing_torqued_and_marked() -> None:
    build = later(small_car(), _torque("bolts", "Bracket bolts torqued and marked", "rear-hose"))
    assert torque_sheet(build, NOW)[0].state is FixingState.NOT_FITTED

    fitted = later(build, *(c.JobFinished(name, 1) for name in UNDER[:2]))
    assert torque_sheet(fitted, NOW)[0].state is FixingState.FITTED

    reading = Reading("torque", 22, "N.m", "small wrench")
    torqued = later(fitted, c.ProofHeld("bolts", (reading,), "owner"))
    row = torque_sheet(torqued, NOW)[0]
    assert (row.state, row.by, row.wrench) == (FixingState.TORQUED, "owner", "small wrench")
    assert row.readings == ("22 N.m",)

    undone = later(torqued, c.JobTakenOff("rear-hose"), at=NOW + timedelta(hours=1))
    assert torque_sheet(undone, NOW + timedelta(hours=2))[0].state is FixingState.SPENT


def test_a_pivot_left_for_a_later_job_stays_nipped_until_the_torque_of_that_job_holds() -> None:
    pivot = Proof("pivot", "Pivots listed", made_by=("rear-hose",), nipped_until="on-its-wheels")
    build = later(small_car(), c.JobSet(job("on-its-wheels")), c.ProofSet(pivot),
                  _torque("final", "Every pivot torqued", "on-its-wheels"))  # fmt: skip
    build = later(build, *(c.JobFinished(name, 1) for name in UNDER[:2]))
    build = later(build, c.ProofHeld("pivot", (), "owner"))
    row = next(row for row in torque_sheet(build, NOW) if row.proof == "pivot")
    assert (row.state, row.nipped_until) == (FixingState.NIPPED, "on-its-wheels")

    build = later(build, c.JobFinished("on-its-wheels", 1), c.ProofHeld("final", (), "owner"))
    row = next(row for row in torque_sheet(build, NOW) if row.proof == "pivot")
    assert (row.state, row.nipped_until) == (FixingState.TORQUED, "")

    undone = later(build, c.JobTakenOff("on-its-wheels"), at=NOW + timedelta(hours=1))
    row = next(r for r in torque_sheet(undone, NOW + timedelta(hours=2)) if r.proof == "pivot")
    assert row.state is FixingState.NIPPED


def test_a_re_torque_that_a_job_causes_stands_on_its_line_until_it_was_done() -> None:
    again = job("strap", rechecks=(Recheck(miles=50),))
    build = later(small_car(), c.JobSet(again), _torque("bolts", "Strap torqued", "strap"))
    assert torque_sheet(build, NOW)[0].owed_again == ()

    build = later(build, c.JobFinished("strap", 1))
    row = next(row for row in torque_sheet(build, NOW) if row.proof == "bolts")
    assert [(due.at_miles, due.state) for due in row.owed_again] == [(50, RecheckState.LATER)]


def test_a_figure_on_a_ticket_that_no_proof_keeps_is_on_the_sheet_too() -> None:
    build = later(small_car(), c.JobSet(job("strap", tightens=("Strap bolts: 10 N.m",))))

    (row,) = torque_sheet(build, NOW)

    assert (row.what, row.proof) == ("Strap bolts: 10 N.m", "")


def _departed() -> Build:
    departure = Departure(
        "pipe", "Copper-nickel for steel", "brakes", "steel pipe", "copper-nickel pipe",
        "loft", "the old clips fit", ("rear-pipe",),
    )  # fmt: skip
    build = later(small_car(), c.DepartureSet(departure))
    return later(build, *(c.JobFinished(name, 3) for name in (*UNDER, "tank")))


def test_the_way_back_uncovers_takes_off_refits_and_proves_what_it_disturbed() -> None:
    way = way_back(_departed(), "pipe")

    assert [(step.kind, step.from_job) for step in way.steps] == [
        (ReturnKind.UNCOVER, "tank"),
        (ReturnKind.TAKE_OFF, "rear-pipe"),
        (ReturnKind.FIT, "rear-pipe"),
        (ReturnKind.PROVE, "hold"),
        (ReturnKind.COVER, "tank"),
    ]
    assert [proof.id for proof in way.proofs] == ["rear-joint"]
    assert way.fitted
    assert way.originals == "loft"


def test_going_back_takes_the_hours_that_fitting_really_took() -> None:
    way = way_back(_departed(), "pipe")
    fit = next(step for step in way.steps if step.kind is ReturnKind.FIT)

    assert fit.hours.likely_hours == 3, "three hours were recorded where 1.5 were estimated"


def test_the_way_back_can_enter_the_build_and_its_proof_is_owed_again() -> None:
    build = _departed()
    jobs, needs, proofs = laid(way_back(build, "pipe"))
    back = later(
        build,
        *(c.JobSet(one) for one in jobs),
        *(c.NeedSet(one) for one in needs),
        *(c.ProofSet(one) for one in proofs),
    )

    (proof,) = proofs
    assert proof.id in back.proofs
    assert back.jobs[jobs[-1].id].job.after == (jobs[-2].id,)
    assert proof.proven_by == "back-pipe-prove-hold"


def test_what_nobody_wrote_down_about_a_departure_is_named() -> None:
    build = later(small_car(), c.DepartureSet(Departure("x", "Odd lamp", "electrics", "", "lamp")))

    assert len(way_back(build, "x").unknown) == 4


def test_the_rehearsal_starts_with_lights_and_knows_the_starter_network() -> None:
    known = set(rows())

    assert ITEMS[0].area == "Lights"
    assert len({item.id for item in ITEMS}) == len(ITEMS)
    assert not {name for item in ITEMS for name in item.jobs} - known


def test_an_item_is_never_better_on_record_than_its_worst_proof() -> None:
    build = later(small_car(), c.JobSet(job("wheel-torque", system="wheels")))
    build = later(build, _torque("nuts-on", "Wheel nuts torqued", "wheel-torque"))
    nuts = next(r for r in rehearsal(build, NOW) if r.item.id == "nuts")
    assert nuts.standing == "work still open"

    done = later(build, c.JobFinished("wheel-torque", 1))
    nuts = next(r for r in rehearsal(done, NOW) if r.item.id == "nuts")
    assert nuts.standing == "owed or spent on record"


def test_the_note_at_the_end_names_what_is_loose_open_and_holding() -> None:
    build = later(
        small_car(),
        c.JobFinished("rear-pipe", 1.5),
        c.JobWorked("rear-hose", 0.3, 0.4),
        c.ProofBegun("rear-joint", (Reading("pressure", 75, "bar"),), "owner"),
    )
    note = stopped_note(build, NOW + timedelta(hours=1))

    assert [left.subject for left in note.loose] == ["job:rear-hose"]
    assert [left.subject for left in note.open] == ["job:rear-hose"]
    assert note.holding[0].words == "stands; not to be opened"
    assert stopped_note(build, NOW + timedelta(hours=13)).holding[0].words == "may be read"
    assert [left.subject for left in note.temps] == ["temp:caps"]


def test_a_cure_is_named_until_it_ends() -> None:
    build = later(small_car(), c.JobFinished("seam", 1))

    assert stopped_note(build, NOW + timedelta(hours=23)).curing[0].subject == "job:seam"
    assert stopped_note(build, NOW + timedelta(hours=25)).curing == ()


def test_after_three_weeks_the_card_says_what_was_said_and_what_is_late() -> None:
    session = HeldSession("s1", NOW, NOW + timedelta(hours=2), words="nut 3 only by hand")
    build = later(small_car(), c.SessionHeld(session))

    card = back_card(build, NOW + timedelta(days=21))

    assert card.is_due
    assert card.gap_days == 20
    assert card.last_words[0] == "nut 3 only by hand"
    assert card.due_in[0].subject == "order:o1"
    assert not back_card(build, NOW + timedelta(days=2)).is_due


def _with_recheck() -> Build:
    hold = job("hold", "rear-hose", hours=0.5, rechecks=(Recheck(miles=50), Recheck(months=24)))
    build = later(small_car(), c.JobSet(hold), *(c.JobFinished(name, 1) for name in UNDER))
    return later(build, c.ProofHeld("rear-joint", (Reading("pressure", 75, "bar"),), "owner"))


def test_a_recheck_falls_due_at_its_miles_and_is_behind_once_held_again() -> None:
    build = _with_recheck()
    day = timedelta(days=1)
    assert [d.state for d in rechecks(build, NOW + day)] == [RecheckState.LATER] * 2

    driven = later(build, c.MilesRead(61), at=NOW + day)
    by_miles = next(d for d in rechecks(driven, NOW + 2 * day) if d.at_miles == 50)
    assert (by_miles.state, by_miles.proofs) == (RecheckState.DUE, ("rear-joint",))

    again = c.ProofHeld("rear-joint", (Reading("pressure", 72, "bar"),), "owner")
    looked = later(driven, again, at=NOW + 3 * day)
    by_miles = next(d for d in rechecks(looked, NOW + 4 * day) if d.at_miles == 50)
    assert by_miles.state is RecheckState.AGAIN

    (kept,) = comparisons(looked)
    assert kept.change == -3
    assert [miles for _, miles, _ in kept.readings] == [None, 61]


def test_a_gate_beyond_the_road_looks_again_whatever_its_owner_calls_it() -> None:
    day = timedelta(days=1)
    build = later(_with_recheck(), c.GateSet(Gate("first-look", "First look over", ("road",))))
    ready = [c.JobFinished(name, 1) for name in ("tank", "wheels-on", "carb")]
    build = later(
        build, c.GatePassed("under-car", "owner"), *ready, c.GatePassed("road", "owner"),
        at=NOW + day,
    )  # fmt: skip

    def stands(build: Build) -> RecheckState:
        return next(d for d in rechecks(build, NOW + 9 * day) if d.at_miles == 50).state

    # The road gate itself, passed before a mile was run, looks at nothing again.
    driven = later(build, c.MilesRead(55), at=NOW + 4 * day)
    assert stands(driven) is RecheckState.DUE
    looked = later(build, c.GatePassed("first-look", "owner"), at=NOW + 3 * day)
    assert stands(looked) is RecheckState.LATER
    # The miles are written down an hour after the look, on the same evening.
    noted = later(looked, c.MilesRead(55), at=NOW + 3 * day + timedelta(hours=1))
    assert stands(noted) is RecheckState.AGAIN
    # What is fitted later is not behind by a gate that was passed before its own miles.
    far = later(looked, c.MilesRead(55), at=NOW + 5 * day)
    assert stands(far) is RecheckState.DUE


def test_a_recheck_by_months_counts_from_the_last_time_it_was_held() -> None:
    build = _with_recheck()
    two_years = timedelta(days=731)

    by_month = next(d for d in rechecks(build, NOW + two_years) if d.on)

    assert by_month.state is RecheckState.DUE
    assert by_month.on is not None
    assert (by_month.on.year, by_month.on.month) == (NOW.year + 2, NOW.month)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.sampled_from(["hold-it", "cover", "uncover", "spend", "fail", "begin", "substitute"]),
        max_size=9,
    )
)
def test_no_order_of_actions_shows_a_buried_unproven_joint_as_held(actions: list[str]) -> None:
    """The rule of the house, tried at random: evidence taken under a cover proves nothing."""
    build = later(small_car(), *(c.JobDoneBefore(name) for name in UNDER))
    said = {
        "hold-it": c.ProofHeld("rear-joint", (Reading("pressure", 75, "bar"),), "owner"),
        "cover": c.JobFinished("tank", 1),
        "uncover": c.JobTakenOff("tank"),
        "spend": c.ProofSpent("rear-joint", "nut slackened"),
        "fail": c.ProofFailed("rear-joint", (), "wet"),
        "begin": c.ProofBegun("rear-joint", (), "owner"),
        "substitute": c.ProofSubstituted("rear-joint", "probe camera, dry"),
    }
    hidden, good = False, False
    for minute, action in enumerate(actions):
        try:
            build = later(build, said[action], at=NOW + timedelta(minutes=minute))
        except BareshellError:
            continue  # refused, so nothing happened
        hidden = {"cover": True, "uncover": False}.get(action, hidden)
        if (action == "hold-it" and not hidden) or action == "substitute":
            good = True
        elif action in ("spend", "fail", "begin"):
            good = False
        end = NOW + timedelta(minutes=minute + 1)
        standing = proof_standings(build, end)["rear-joint"]
        if standing.state.is_good:
            assert good, f"{actions[: minute + 1]} shows {standing.state}"
        elif hidden:
            names = {*way_through(build, "road", end).uncover}
            names |= set(gate_standings(build, end)["road"].proofs)
            assert "rear-joint" in names
