"""Jobs: found, opened, marked, corrected, added, left out; each change decided by the door."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bareshell.app.door import Door
from bareshell.model import changes as c
from bareshell.model.job import JobStatus, Recheck
from bareshell.model.position import Place, Wheels, Zone
from bareshell.model.trust import COMMON_PRACTICE, YOURS
from tests.stories import job
from tests.web.pages.conftest import Hand, Hands, form_in

PIPE = "/jobs/rear-pipe"
MARK = "/jobs/rear-pipe/mark"


class TestList:
    """Every job by system; a few hundred stay findable."""

    def test_each_system_says_how_far_it_is(self, hands: Hands, door: Door) -> None:
        door.record(c.JobFinished("rear-pipe", 1.5))
        page = hands.see("/jobs")
        assert "1 of 3 done, 1.2 h left" in page
        assert "done, of 9 jobs" in page

    @pytest.mark.parametrize(
        ("query", "found"),
        [
            ("find=pipe", ["Rear pipe"]),
            ("state=ready+to+begin", ["Rear pipe", "Seam", "Door seal", "Carb"]),
            ("state=done", []),
            ("system=wheels", ["Wheels on"]),
            ("zone=doors", ["Door seal"]),
            ("place=bench", ["Carb"]),
        ],
    )
    def test_only_some_can_be_asked_for(self, hands: Hands, query: str, found: list[str]) -> None:
        page = hands.see(f"/jobs?{query}")
        shown = [
            title
            for title in ("Rear pipe", "Rear hose", "Seam", "Door seal", "Carb", "Wheels on")
            if f"<b>{title}</b>" in page
        ]
        assert sorted(shown) == sorted(found)

    def test_a_job_that_waits_says_for_what(self, hands: Hands) -> None:
        assert "after Rear pipe" in hands.see("/jobs")


class TestSheet:
    """One job as its ticket."""

    def test_it_shows_what_it_takes_and_hangs_on(self, hands: Hands) -> None:
        page = hands.see("/jobs/rear-hose")
        for said in (
            "0.7 h",
            "Wheels hanging",
            "Rear flexible hose",
            "coming",
            "it takes plastic caps on the pipe ends off the car",
            'href="/jobs/rear-pipe"',
            'href="/jobs/hold"',
        ):
            assert said in page, said

    def test_beneath_the_car_the_crush_caution_stands_on_the_ticket(self, hands: Hands) -> None:
        page = hands.see(PIPE)
        assert "<dt>Mind</dt>" in page
        assert "<b>Crush.</b>" in page

    def test_a_gate_before_it_is_named(self, hands: Hands) -> None:
        page = hands.see("/jobs/tank")
        assert 'It may not start before <a href="/gates/under-car">under-car</a> is passed' in page

    def test_its_history_is_the_records(self, hands: Hands) -> None:
        hands.send(PIPE, MARK, what="done", hours="1.5", words="no leaks")
        page = hands.see(PIPE)
        assert "&#39;Rear pipe&#39; was finished, 1.5 h: no leaks." in page


class TestMarking:
    """What was done is written down; what is about to be begun may be refused."""

    def test_finished_with_hours_as_people_write_them(self, hands: Hands, door: Door) -> None:
        page = hands.send(PIPE, MARK, what="done", hours="1h30")
        state = door.build().jobs["rear-pipe"].state
        assert (state.status, state.hours_done) == (JobStatus.DONE, 1.5)
        assert "&#39;Rear pipe&#39; is done, 1.5 h in all." in page
        assert "It left a temp on the car: plastic caps on the pipe ends." in page
        assert "It owes" not in page  # proved in a later job

    def test_worked_on_with_a_guess_of_what_is_left(self, hands: Hands, door: Door) -> None:
        hands.send(PIPE, MARK, what="worked", hours="0.5", hours_left="2")
        state = door.build().jobs["rear-pipe"].state
        assert (state.status, state.hours_left) == (JobStatus.STARTED, 2)

    def test_a_job_that_was_begun_says_the_hours_since_beside_their_field(
        self, hands: Hands, door: Door, hand: Hand
    ) -> None:
        assert " since " not in hands.see(PIPE)
        hands.send(PIPE, MARK, what="started")
        hand.now += timedelta(minutes=50)
        assert "0.83 since " in hands.see(PIPE)
        hands.send(PIPE, MARK, what="done", hours="0.83")
        assert door.build().jobs["rear-pipe"].state.hours_done == 0.83
        assert "0.83 since " not in hands.see(PIPE)

    def test_hours_that_belong_nowhere_are_not_dropped_in_silence(self, hands: Hands) -> None:
        page = hands.refused(PIPE, MARK, 422, what="started", hours="2")
        assert "they belong to work done" in page.lower()
        page = hands.refused(PIPE, MARK, 422, what="done", hours="2", hours_left="1")
        assert "they belong to a job still open" in page.lower()

    def test_a_start_that_a_gate_holds_up_is_refused_with_the_reason(
        self, hands: Hands, door: Door
    ) -> None:
        door.record([c.JobFinished("rear-pipe"), c.JobFinished("rear-hose")])
        page = hands.refused("/jobs/tank", "/jobs/tank/mark", 409, what="started", words="keen")
        assert "<b>Proof before cover.</b>" in page
        assert "&#39;Rear tee dry under pressure&#39; is owed" in page
        assert form_in(page, "/jobs/tank/mark").fields["words"] == ["keen"]

    def test_what_was_done_all_the_same_is_kept_and_says_what_it_hides(
        self, hands: Hands, door: Door
    ) -> None:
        page = hands.send("/jobs/tank", "/jobs/tank/mark", what="done", hours="2")
        assert "now stands covered, unproven at every gate" in page
        assert "was never shown to be right" in page
        assert door.build().jobs["tank"].state.is_done

    def test_it_came_off_again(self, hands: Hands, door: Door) -> None:
        hands.send(PIPE, MARK, what="done")
        page = hands.send(PIPE, MARK, what="off", words="leaked")
        assert "Taken off again" in page
        assert door.build().jobs["rear-pipe"].state.status is JobStatus.TO_DO

    def test_only_what_can_have_happened_is_offered(self, hands: Hands, door: Door) -> None:
        def offered() -> set[str]:
            page = hands.see(PIPE)
            return {m for m in ("started", "off", "not-done") if f'value="{m}"' in page}

        assert offered() == {"started"}
        door.record(c.JobFinished("rear-pipe"))
        assert offered() == {"off", "not-done"}

    def test_sent_twice_it_lands_once(self, hands: Hands, door: Door) -> None:
        form = hands.form(PIPE, MARK)
        hands.post(form, what="worked", hours="1")
        hands.post(form, what="worked", hours="1")
        assert door.build().jobs["rear-pipe"].state.hours_done == 1

    def test_the_same_form_saying_something_else_is_asked_about(
        self, hands: Hands, door: Door
    ) -> None:
        form = hands.form(PIPE, MARK)
        hands.post(form, what="worked", hours="1")
        answer = hands.post(form, what="worked", hours="2")
        assert answer.status_code == 409
        assert "was written down already, saying something else" in answer.text
        again = form_in(answer.text, MARK)
        assert hands.post(again).status_code == 303
        assert door.build().jobs["rear-pipe"].state.hours_done == 3


class TestCorrecting:
    """The definition: every field goes out as it stands and comes back as it was written."""

    def test_sent_back_untouched_nothing_changes(self, hands: Hands, door: Door) -> None:
        before = {key: record.job for key, record in door.build().jobs.items()}
        for key in before:
            path = f"/jobs/{key}/edit"
            answer = hands.post(hands.form(path, path))
            assert answer.status_code == 303
        assert {key: record.job for key, record in door.build().jobs.items()} == before

    def test_every_field(self, hands: Hands, door: Door) -> None:
        hands.send(
            f"{PIPE}/edit",
            title="Rear pipes, both",
            system="brakes",
            after=["Seam", "carb", ""],
            people0="1",
            likely0="2",
            best0="1.5",
            worst0="4",
            kit0="flaring tool",
            people1="2",
            likely1="1",
            place="on the car",
            zones=["underneath", "rear wheel ends"],
            wheels="hanging",
            level="yes",
            off=["engine out"],
            off_is_necessary="yes",
            splittable="yes",
            least_piece="30 min",
            wait="2 days",
            wait_why="sealer skins",
            wait_stretches="yes",
            wait_lowest="10",
            lowest="-5",
            weather="dry",
            tools="bender\nfile\n\n",
            tightens="nuts 13 to 16 N.m",
            harm0="Eyes",
            caution0="glasses on",
            dirty="yes",
            dangerous_alone="yes",
            twin="Rear hose",
            gate="road",
            recheck_miles0="500",
            recheck_months0="",
            note="as the old ones",
        )
        made = door.build().jobs["rear-pipe"].job
        assert (made.title, made.after) == ("Rear pipes, both", ("seam", "carb"))
        assert [
            (w.people, w.kit, w.hours.optimistic_hours, w.hours.pessimistic_hours)
            for w in made.ways
        ] == [(1, "flaring tool", 1.5, 4), (2, "", 1, 1)]
        assert (made.place, made.wheels, made.level) == (Place.CAR, Wheels.HANGING, True)
        assert made.zones == {Zone.UNDERNEATH, Zone.WHEEL_ENDS_REAR}
        assert made.off == {"engine out"}
        assert made.off_is_necessary
        assert (made.splittable, made.least_piece_hours) == (True, 0.5)
        assert made.wait is not None
        assert (made.wait.hours, made.wait.why, made.wait.lowest_temperature_c) == (
            48,
            "sealer skins",
            10,
        )
        assert made.wait.stretches_with_cold
        assert (made.lowest_temperature_c, made.weather) == (-5, "dry")
        assert (made.tools, made.tightens) == (("bender", "file"), ("nuts 13 to 16 N.m",))
        assert (made.cautions[0].harm, made.cautions[0].sentence) == ("Eyes", "glasses on")
        assert made.dirty
        assert made.dangerous_alone
        assert (made.twin, made.gate, made.note) == ("rear-hose", "road", "as the old ones")
        assert made.rechecks == (Recheck(500, None),)

    def test_the_trades_mark_stays_until_its_figures_are_changed(
        self, hands: Hands, door: Door
    ) -> None:
        door.record(c.JobSet(job("shoes", mark=COMMON_PRACTICE)))
        hands.send("/jobs/shoes/edit", note="mind the springs")
        assert door.build().jobs["shoes"].job.mark == COMMON_PRACTICE
        hands.send("/jobs/shoes/edit", likely0="1.5")
        assert door.build().jobs["shoes"].job.mark == YOURS

    def test_all_that_is_wrong_is_said_at_once_and_all_is_kept(
        self, hands: Hands, door: Door
    ) -> None:
        page = hands.refused(
            f"{PIPE}/edit",
            f"{PIPE}/edit",
            422,
            title=" ",
            after=["No such job"],
            likely0="soon",
            lowest="cold",
            wait_why="paint",
            caution0="look out",
            recheck_miles0="1.5",
        )
        for said in (
            "What it is called.",
            "There is no job &#39;No such job&#39;.",
            "Way 1, likely hours.",
            "Not below.",
            "It has a reason and no hours.",
            "It names no harm.",
            "Look again after miles.",
        ):
            assert said in page, said
        again = form_in(page, f"{PIPE}/edit")
        assert again.fields["likely0"] == ["soon"]
        assert again.fields["caution0"] == ["look out"]
        assert 'aria-invalid="true"' in page
        assert door.build().jobs["rear-pipe"].job.title == "Rear pipe"

    def test_jobs_that_would_wait_for_each_other_are_named(self, hands: Hands) -> None:
        page = hands.refused(f"{PIPE}/edit", f"{PIPE}/edit", 422, after=["Tank"])
        assert "these jobs would wait for each other" in page.lower()

    def test_corrected_meanwhile_it_is_kept_aside(self, hands: Hands, door: Door) -> None:
        form = hands.form(f"{PIPE}/edit", f"{PIPE}/edit")
        door.record(c.JobStarted("rear-pipe"))
        answer = hands.post(form, title="Rear pipes")
        assert "settle it on the record" in hands.see(answer.headers["location"])
        assert door.build().jobs["rear-pipe"].job.title == "Rear pipe"

    def test_add_one_after_another(self, hands: Hands, door: Door) -> None:
        page = hands.see("/jobs/carb")
        assert "/add/job?system=fuel&amp;after=Carb" in page
        form = hands.form("/add/job?system=fuel&after=Carb", "/add/job")
        answer = hands.post(form, title="Choke cable", likely0="0.5")
        assert answer.headers["location"] == "/jobs/choke-cable"
        made = door.build().jobs["choke-cable"].job
        assert (made.after, made.system, made.mark) == (("carb",), "fuel", YOURS)
        assert hands.post(form, title="Choke cable", likely0="0.5").headers["location"] == (
            "/jobs/choke-cable"
        )
        assert "choke-cable-2" not in door.build().jobs

    def test_another_of_the_same_name_is_another_job(self, hands: Hands, door: Door) -> None:
        for _ in range(2):
            hands.send("/add/job?system=fuel", "/add/job", title="Carb", likely0="1")
        assert {"carb", "carb-2", "carb-3"} <= door.build().jobs.keys()
        page = hands.refused("/add/job", "/add/job", 422, title="x", after=["Carb"], likely0="1")
        assert "3 are called &#39;Carb&#39;" in page

    def test_leave_one_out_and_take_it_in_again(self, hands: Hands, door: Door) -> None:
        hands.send("/jobs/carb", "/jobs/carb/leave-out", words="rebuilt by a friend")
        assert door.build().jobs["carb"].state.status is JobStatus.LEFT_OUT
        page = hands.see("/jobs/carb")
        assert "What was done" not in page
        hands.send("/jobs/carb", "/jobs/carb/take-in")
        assert door.build().jobs["carb"].state.status is JobStatus.TO_DO
