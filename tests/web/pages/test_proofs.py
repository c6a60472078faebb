"""Proofs: writing down what was found, gates that open for a name only when clear, temps."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bareshell.app import reading
from bareshell.app.door import Door
from bareshell.model import changes as c
from bareshell.model.proof import ProofState, Reading
from bareshell.model.standing import open_temps, standing_of_proof
from tests.web.pages.conftest import Hand, Hands, form_in

JOINT = "/proofs/rear-joint"
MARK = "/proofs/rear-joint/mark"


def state(door: Door, key: str = "rear-joint") -> ProofState:
    build = door.build()
    return standing_of_proof(build, build.proofs[key]).state


def make_joint(door: Door) -> None:
    door.record([c.JobFinished("rear-pipe", 1.5), c.JobFinished("rear-hose", 0.7)])


def cover_joint(door: Door) -> None:
    make_joint(door)
    door.record([c.JobFinished("hold", 0.5), c.JobFinished("tank", 2)])


class TestList:
    """What is owed and what stands, findable with a thumb."""

    def test_it_says_how_many_stand_and_what_the_next_gate_wants(self, hands: Hands) -> None:
        page = hands.see("/proofs")
        assert "next gate: under-car" in page
        assert "<b>0</b>" in page
        assert "held, of 1 proofs" in page
        assert "Between you and under-car" in page
        assert "1 proof, 1 job." in page
        assert "Rear tee dry under pressure" in page

    def test_what_waits_for_work_says_after_what(self, hands: Hands, door: Door) -> None:
        assert "After Rear pipe." in hands.see("/proofs")
        make_joint(door)
        page = hands.see("/proofs")
        assert "After Rear pipe." not in page
        assert "1 can be shown now" in page

    def test_the_ladder_is_drawn_from_the_gates(self, hands: Hands) -> None:
        page = hands.see("/proofs")
        assert "Ladder of 2 gates. None is passed yet. Next: under-car" in page

    @pytest.mark.parametrize(
        ("query", "found"),
        [
            ("find=tee", True),
            ("find=windscreen", False),
            ("system=brakes", True),
            ("system=glass", False),
            ("state=owed", True),
            ("state=held", False),
            ("gate=under-car", True),
            ("gate=road", False),
        ],
    )
    def test_only_some_can_be_asked_for(self, hands: Hands, query: str, found: bool) -> None:
        page = hands.see(f"/proofs?{query}")
        after = page[page.index('id="list"') : page.index('id="temps"')]
        assert ("Rear tee dry under pressure" in after) is found
        assert ("No proof is like that." in after) is not found

    def test_what_lies_hidden_unproven_stands_first_with_a_caution(
        self, hands: Hands, door: Door
    ) -> None:
        cover_joint(door)
        page = hands.see("/proofs")
        caution = page.index("lies hidden and was never shown to be right")
        assert caution < page.index("Ladder of")
        assert "covered, unproven" in page

    def test_a_running_hold_says_when_to_read_it(self, hands: Hands, door: Door) -> None:
        make_joint(door)
        door.record(c.ProofBegun("rear-joint"))
        assert "read it from 5 Mar 2026, 06:00" in hands.see("/proofs")
        assert "Read it from <b>5 Mar 2026, 06:00</b>" in hands.see(JOINT)

    def test_two_gates_of_one_name_are_still_two_rungs(self, hands: Hands, door: Door) -> None:
        from bareshell.model.temp import Gate

        door.record(c.GateSet(Gate("road-2", "road")))
        page = hands.see("/proofs")
        assert "Ladder of 3 gates." in page
        assert "road (road-2)" in page


class TestMarking:
    """Begin, hold, fail, spend, uncover, substitute: as forms, without a script."""

    def test_held_with_a_figure(self, hands: Hands, door: Door) -> None:
        make_joint(door)
        page = hands.send(
            JOINT, MARK, what="held", figure0="71.5", instrument="0-100 gauge", words="dry"
        )
        assert "&#39;Rear tee dry under pressure&#39; is held." in page
        standing = standing_of_proof(door.build(), door.build().proofs["rear-joint"])
        assert standing.state is ProofState.HELD
        assert standing.readings == (Reading("pressure", 71.5, "bar", "0-100 gauge"),)
        assert standing.words == "dry"

    def test_a_figure_in_another_unit_is_brought_to_the_limits(
        self, hands: Hands, door: Door
    ) -> None:
        """1 bar is 14.5038 psi (NIST SP 811, table B.8)."""
        make_joint(door)
        hands.send(JOINT, MARK, what="held", figure0="1030 psi")
        reading_ = standing_of_proof(door.build(), door.build().proofs["rear-joint"]).readings[0]
        assert reading_.unit == "bar"
        assert reading_.value == pytest.approx(1030 / 14.5038, rel=1e-5)

    def test_a_figure_that_misses_its_limit_is_not_held_and_stays_in_the_form(
        self, hands: Hands, door: Door
    ) -> None:
        make_joint(door)
        before = door.latest()
        page = hands.refused(JOINT, MARK, 422, what="held", figure0="900 psi", words="looked dry")
        assert "misses its limit, pressure at least 70 bar" in page
        assert "Write it down as failed, or correct the figure." in page
        again = form_in(page, MARK)
        assert again.fields["figure0"] == ["900 psi"]
        assert again.fields["words"] == ["looked dry"]
        assert again.fields["what"] == ["held"]
        assert door.latest() == before

    def test_what_cannot_be_read_is_said_all_at_once(self, hands: Hands) -> None:
        page = hands.refused(
            JOINT, MARK, 422, what="held", figure0="lots", value="12", when="some time ago"
        )
        assert "Pressure." in page
        assert "Another figure." in page
        assert "When." in page
        assert page.count('class="mind"') >= 3

    def test_a_program_is_told_what_is_wrong_as_data(self, hands: Hands) -> None:
        form = hands.form(JOINT, MARK)
        answer = hands.client.post(
            MARK,
            data={**form.fields, "what": "held", "figure0": "lots"},
            headers={"Accept": "application/json"},
        )
        assert answer.status_code == 422
        problem = answer.json()["error"]["problems"][0]
        assert problem["where"] == "pressure"
        assert problem["remedy"]

    def test_a_program_is_told_what_was_done_as_data(self, hands: Hands, door: Door) -> None:
        make_joint(door)
        answer = hands.client.post(
            MARK, data={"what": "begun"}, headers={"Accept": "application/json"}
        )
        done = answer.json()["done"]
        assert done["see"] == JOINT
        assert done["result"]["subject"] == "proof:rear-joint"
        assert done["result"]["to_settle"] is False

    def test_held_without_a_figure_says_that_none_stands_beside_it(
        self, hands: Hands, door: Door
    ) -> None:
        make_joint(door)
        page = hands.send(JOINT, MARK, what="held")
        assert "No figure stands beside it; its limit is pressure at least 70 bar." in page

    def test_when_it_happened_may_be_typed_in_later(self, hands: Hands, door: Door) -> None:
        make_joint(door)
        hands.send(JOINT, MARK, what="held", figure0="71", when="yesterday 21:00")
        entry = door.entries(newest_first=True, limit=1)[0]
        assert entry.happened_at.isoformat() == "2026-03-03T21:00:00+00:00"
        assert "typed late" in hands.see("/record")

    def test_sent_twice_it_lands_once(self, hands: Hands, door: Door) -> None:
        make_joint(door)
        form = hands.form(JOINT, MARK)
        before = door.latest()
        for _ in range(2):
            answer = hands.post(form, what="held", figure0="71")
            assert answer.status_code == 303
        assert door.latest() == before + 1
        assert "was written down already; it stands once" in hands.see(JOINT)

    def test_filled_in_on_an_older_page_it_is_kept_aside_to_be_settled(
        self, hands: Hands, door: Door
    ) -> None:
        make_joint(door)
        form = hands.form(JOINT, MARK)
        door.record(c.ProofFailed("rear-joint", (), "damp at the tee"))
        answer = hands.post(form, what="held", figure0="71")
        page = hands.see(answer.headers["location"])
        assert "this is kept aside: settle it on the record" in page
        assert state(door) is ProofState.FAILED
        assert len(door.build().to_settle) == 1

    def test_spent_and_failed(self, hands: Hands, door: Door) -> None:
        make_joint(door)
        hands.send(JOINT, MARK, what="held", figure0="71")
        hands.send(JOINT, MARK, what="spent", words="circuit opened")
        assert state(door) is ProofState.SPENT
        hands.send(JOINT, MARK, what="failed", words="damp")
        assert state(door) is ProofState.FAILED

    def test_hidden_it_can_be_uncovered_or_given_a_substitute_by_name(
        self, hands: Hands, door: Door
    ) -> None:
        cover_joint(door)
        page = hands.see(JOINT)
        assert "A hold written down now proves nothing." in page
        assert 'value="held"' not in page
        refused = hands.refused(JOINT, MARK, 422, what="substitute", words="")
        assert "it has no name" in refused.lower()
        hands.send(JOINT, MARK, what="substitute", words="held 70 bar for 12 h, gauge steady")
        assert state(door) is ProofState.SUBSTITUTED
        hands.send(JOINT, MARK, what="uncovered")
        assert state(door) is ProofState.OWED

    def test_pressure_shows_its_caution_where_the_figure_is_typed(self, hands: Hands) -> None:
        page = hands.see(JOINT)
        assert "<b>Pressure.</b> Fluid only, never air." in page
        assert page.index("<b>Pressure.</b>") < page.index("What was found")


class TestDefining:
    """What a proof asks for is the owner's to write."""

    def test_add_one(self, hands: Hands, door: Door) -> None:
        page = hands.send(
            "/add/proof",
            title="Front tee dry",
            kind="held pressure over time",
            about_kind="joint",
            about="front tee",
            limit_quantity0="pressure",
            limit_unit0="bar",
            limit_low0="70",
            hold="12",
            made_by=["Rear hose", ""],
            covered_by=["Tank", ""],
            gates=["road"],
        )
        assert "Front tee dry" in page
        proof = door.build().proofs["front-tee-dry"].proof
        assert proof.made_by == ("rear-hose",)
        assert proof.covered_by == ("tank",)
        assert proof.gates == ("road",)
        assert proof.limits[0].low == 70
        assert proof.mark == "yours"

    def test_correct_one_and_its_history_stays(self, hands: Hands, door: Door) -> None:
        make_joint(door)
        hands.send(JOINT, MARK, what="held", figure0="71")
        hands.send(f"{JOINT}/edit", title="Rear tee dry", limit_low0="65")
        proof = door.build().proofs["rear-joint"].proof
        assert (proof.title, proof.limits[0].low, proof.hold_hours) == ("Rear tee dry", 65, 12)
        assert proof.covered_by == ("tank",)
        assert state(door) is ProofState.HELD

    def test_an_unknown_job_is_named_with_what_it_may_have_meant(self, hands: Hands) -> None:
        page = hands.refused("/add/proof", "/add/proof", 422, title="x", made_by=["Rear hoes"])
        assert "There is no job &#39;Rear hoes&#39;." in page
        assert "Did you mean &#39;Rear hose&#39;" in page

    def test_a_job_may_not_hide_what_it_makes_itself(self, hands: Hands) -> None:
        page = hands.refused(
            "/add/proof", "/add/proof", 422, title="x", made_by=["Tank"], covered_by=["Tank"]
        )
        assert "the very job that makes or proves it" in page


class TestGates:
    """Nobody passes until what stands between is gone, and then by name."""

    def test_what_stands_between_is_named(self, hands: Hands, door: Door) -> None:
        make_joint(door)
        page = hands.see("/gates/road")
        for name in ("under-car", "Wheels on", "Carb"):
            assert name in page
        assert "It holds up" in page
        assert 'href="/jobs/drive"' in page

    def test_it_is_refused_with_everything_that_stands_between(
        self, hands: Hands, door: Door
    ) -> None:
        page = hands.refused("/gates/under-car", "/gates/under-car/pass", 409, by="A. Owner")
        assert "proof &#39;rear tee: Rear tee dry under pressure&#39;" in page
        assert "Clear these first; no reason opens a gate." in page
        assert form_in(page, "/gates/under-car/pass").fields["by"] == ["A. Owner"]
        assert door.build().gates["under-car"].passed is None

    def test_clear_it_opens_for_a_name(self, hands: Hands, door: Door) -> None:
        make_joint(door)
        door.record([c.JobFinished("hold"), c.ProofHeld("rear-joint")])
        nobody = hands.refused("/gates/under-car", "/gates/under-car/pass", 422, by=" ")
        assert "nobody is named" in nobody.lower()
        page = hands.send("/gates/under-car", "/gates/under-car/pass", by="A. Owner")
        assert "It records what was found, no more." in page
        assert "by A. Owner" in page
        passed = door.build().gates["under-car"].passed
        assert passed is not None
        assert passed.by == "A. Owner"

    def test_no_page_gives_a_verdict(self, hands: Hands, door: Door) -> None:
        make_joint(door)
        door.record([c.JobFinished("hold"), c.ProofHeld("rear-joint")])
        door.record(c.GatePassed("under-car", "A. Owner"))
        for path in ("/proofs", "/gates/under-car", JOINT):
            page = hands.see(path).lower()
            for word in ("roadworthy", "is safe", "legal", "approved", ">ok<"):
                assert word not in page, (path, word)

    def test_add_and_correct_one(self, hands: Hands, door: Door) -> None:
        hands.send(
            "/add/gate",
            title="Headlining",
            after=["under-car"],
            needs_jobs=["Carb", ""],
            blocks=["Door seal", ""],
        )
        gate = door.build().gates["headlining"].gate
        assert (gate.after, gate.needs_jobs, gate.blocks) == (
            ("under-car",),
            ("carb",),
            ("door-seal",),
        )
        hands.send("/gates/headlining/edit", sentence="roof wires proven")
        kept = door.build().gates["headlining"].gate
        assert (kept.sentence, kept.needs_jobs) == ("roof wires proven", ("carb",))

    def test_gates_in_a_circle_are_refused(self, hands: Hands) -> None:
        page = hands.refused("/gates/under-car/edit", "/gates/under-car/edit", 422, after=["road"])
        assert "would wait for each other" in page


class TestTemps:
    """What must not stay on the car."""

    def test_the_job_that_leaves_one_puts_it_on_the_list(self, hands: Hands, door: Door) -> None:
        assert "None is on the car." in hands.see("/proofs")
        door.record(c.JobFinished("rear-pipe"))
        page = hands.see("/proofs")
        assert "plastic caps on the pipe ends" in page
        assert "gone before <b>road</b>" in page

    def test_it_is_cleared_from_the_list_with_one_press(self, hands: Hands, door: Door) -> None:
        door.record(c.JobFinished("rear-pipe"))
        form = hands.form("/proofs", "/temps")
        answer = hands.client.post("/temps/caps/clear", data=form.fields)
        assert answer.headers["location"] == "/proofs#temps"
        assert open_temps(door.build()) == ()

    def test_it_is_raised_and_cleared_on_its_own_page(self, hands: Hands, door: Door) -> None:
        hands.send("/temps/caps", "/temps/caps/raise", words="hose not here yet")
        assert open_temps(door.build()) == ("caps",)
        hands.send("/temps/caps", "/temps/caps/clear")
        assert open_temps(door.build()) == ()

    def test_a_new_one_is_on_the_car_and_before_a_gate(self, hands: Hands, door: Door) -> None:
        page = hands.refused("/add/temp", "/add/temp", 422, title="no-brakes board", gate="")
        assert "no gate is named" in page.lower()
        hands.send("/add/temp", title="no-brakes board", gate="road", replaced_by="the brakes")
        assert open_temps(door.build()) == ("no-brakes-board",)

    def test_it_names_the_part_that_replaces_it_and_how_that_stands(
        self, hands: Hands, door: Door
    ) -> None:
        page = hands.refused(
            "/add/temp", "/add/temp", 422, title="string", gate="road", need="no such part"
        )
        assert "part that replaces it" in page
        hands.send(
            "/add/temp", title="hose off another car", gate="road", need="Rear flexible hose"
        )
        temp = door.build().temps["hose-off-another-car"].temp
        assert temp.need == "hose"
        page = hands.client.get("/temps/hose-off-another-car").text
        assert "Rear flexible hose</a>, coming" in page
        door.record(c.TempRaised("hose-off-another-car"))
        hose = next(t for t in reading.proofs(door).temps if t.id == "hose-off-another-car")
        assert (hose.need_title, hose.need_state) == ("Rear flexible hose", "coming")
        assert "its part, Rear flexible hose, is coming" in hands.client.get("/proofs").text


def test_a_figure_stands_beside_what_was_read_before(hands: Hands, door: Door, hand: Hand) -> None:
    make_joint(door)
    once = c.ProofHeld("rear-joint", (Reading("pressure", 75.0, "bar"),))
    door.record(once)
    assert "each time" not in hands.see(JOINT)
    hand.now += timedelta(days=40)
    door.record([c.MilesRead(52), c.ProofHeld("rear-joint", (Reading("pressure", 72.5, "bar"),))])
    page = hands.see(JOINT)
    assert "pressure, each time" in page
    assert "<b>75 bar</b>" in page
    assert "at 52 miles: <b>72.5 bar</b>" in page
    assert "Down by 2.5 bar since the first." in page


def test_what_the_pages_say_is_what_the_reading_says(hands: Hands, door: Door, hand: Hand) -> None:
    make_joint(door)
    hand.now += timedelta(hours=1)
    hands.send(JOINT, MARK, what="begun")
    assert [view.id for view in reading.proofs(door).begun] == ["rear-joint"]


def test_a_proof_whose_work_is_left_out_is_not_asked_for_and_still_opens(
    hands: Hands, door: Door
) -> None:
    door.record([c.JobLeftOut(job) for job in door.build().proofs["rear-joint"].proof.made_by])
    listed = hands.see("/proofs")
    assert "Not asked for" in listed
    assert 'href="/proofs/rear-joint"' in listed
    opened = hands.see(JOINT)
    assert "Its work is left out, so no gate asks for it." in opened
    door.record([c.JobTakenIn(job) for job in door.build().proofs["rear-joint"].proof.made_by])
    assert "Its work is left out" not in hands.see(JOINT)
