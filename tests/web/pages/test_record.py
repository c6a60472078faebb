"""The record: in people's words, found by subject, taken back, settled, looked back upon."""

from __future__ import annotations

from datetime import timedelta

from bareshell.app.door import Door
from bareshell.model import changes as c
from bareshell.model.job import JobStatus
from bareshell.web.pages.record import router
from tests.web.pages.conftest import Hand, Hands, at


class TestReading:
    """Newest first, by the day on which it was written down."""

    def test_each_entry_in_words_with_its_number_and_hand(self, hands: Hands, door: Door) -> None:
        door.record(c.JobFinished("rear-pipe", 1.5, "no leaks"))
        page = hands.see("/record")
        assert "<h2>Wed 4 March 2026</h2>" in page
        assert "&#39;Rear pipe&#39; was finished, 1.5 h: no leaks." in page
        assert f'href="/record/{door.latest()}"' in page
        assert "4 Mar 2026, 18:00, owner" in page

    def test_what_was_typed_late_says_so(self, hands: Hands, door: Door) -> None:
        door.record(c.JobFinished("rear-pipe"), happened_at=at(1, 20))
        page = hands.see("/record")
        assert "1 Mar 2026, 20:00, owner; <b>typed late</b>, 4 Mar 2026, 18:00" in page

    def test_further_back_part_by_part(self, hands: Hands, door: Door) -> None:
        door.record([c.JobWorked("carb", 0.1) for _ in range(80)])
        first = hands.see("/record")
        assert first.count("/record/") >= 50
        assert f'href="/record/{door.latest() - 55}"' not in first
        before = door.latest() - 49
        assert f"/record?before={before}" in first
        older = hands.see(f"/record?before={before}")
        assert f'href="/record/{before - 1}"' in older
        assert "The newest" in older

    def test_whose_history_is_found_by_name(self, hands: Hands, door: Door) -> None:
        door.record(c.JobFinished("rear-pipe"))
        page = hands.see("/record?find=rear+pipe")
        assert "/record?about=job%3Arear-pipe" in page
        history = hands.see("/record?about=job:rear-pipe")
        assert "was finished" in history
        assert "&#39;Carb&#39;" not in history
        assert "Nothing is called that." in hands.see("/record?find=zeppelin")

    def test_the_twin_is_one_stretch(self, hands: Hands) -> None:
        body = hands.client.get("/record.json?about=job:carb").json()
        assert [line["subject"] for line in body["lines"]] == ["job:carb"]
        assert body["about"] == "job:carb"


class TestTakingBack:
    """A pause before it, a reason with it, and a name for what stands in the way."""

    def test_it_takes_two_presses_and_is_struck_through(self, hands: Hands, door: Door) -> None:
        door.record(c.JobFinished("rear-pipe"))
        number = door.latest()
        page = hands.see(f"/record/{number}")
        assert "Written down by mistake?" in page
        hands.send(f"/record/{number}", f"/record/{number}/take-back", words="wrong side")
        assert door.build().jobs["rear-pipe"].state.status is JobStatus.TO_DO
        record = hands.see("/record")
        assert '<li class="gone">' in record
        assert "an earlier entry was taken back: wrong side" in record.lower()
        assert "Take it back" not in hands.see(f"/record/{number}")

    def test_a_later_entry_that_rests_on_it_is_named(self, hands: Hands, door: Door) -> None:
        door.record(c.JobFinished("rear-pipe"))
        number = door.latest()
        door.record(c.JobTakenOff("rear-pipe", "leaked"))
        page = hands.refused(
            f"/record/{number}", f"/record/{number}/take-back", 409, words="mistake"
        )
        assert "Later entries rest on it." in page
        assert "&#39;Rear pipe&#39; was taken off again" in page
        assert 'value="mistake"' in page

    def test_no_address_takes_anything_back_by_being_opened(self, hands: Hands) -> None:
        writing = {"POST"}
        for route in router.routes:
            path = str(getattr(route, "path", ""))
            methods = set(getattr(route, "methods", ()))
            if path.endswith(("take-back", "settle")):
                assert methods == writing, path
        assert hands.client.get("/record/1/take-back").status_code == 405

    def test_sent_twice_it_is_taken_back_once(self, hands: Hands, door: Door) -> None:
        door.record(c.JobFinished("rear-pipe"))
        number = door.latest()
        form = hands.form(f"/record/{number}", f"/record/{number}/take-back")
        for _ in range(2):
            assert hands.post(form).status_code == 303
        assert door.latest() == number + 1


class TestSettling:
    """What met another change waits, with what it met beside it."""

    def aside(self, hands: Hands, door: Door) -> int:
        form = hands.form("/jobs/rear-pipe/edit", "/jobs/rear-pipe/edit")
        door.record(c.JobWorked("rear-pipe", 1))
        hands.post(form, title="Rear pipes")
        return door.latest()

    def test_it_heads_the_record_and_shows_what_it_met(self, hands: Hands, door: Door) -> None:
        number = self.aside(hands, door)
        page = hands.see("/record")
        assert page.index("To settle") < page.index("Whose history?")
        entry = hands.see(f"/record/{number}")
        assert "It met" in entry
        assert "&#39;Rear pipe&#39; was worked on, 1 h." in entry

    def test_kept_it_counts(self, hands: Hands, door: Door) -> None:
        number = self.aside(hands, door)
        page = hands.send(f"/record/{number}", f"/record/{number}/settle", what="keep")
        assert "Kept:" in page
        assert door.build().jobs["rear-pipe"].job.title == "Rear pipes"
        assert "To settle" not in hands.see("/record")

    def test_set_aside_it_never_counts(self, hands: Hands, door: Door) -> None:
        number = self.aside(hands, door)
        hands.send(f"/record/{number}", f"/record/{number}/settle", what="aside", words="old page")
        assert door.build().jobs["rear-pipe"].job.title == "Rear pipe"
        assert door.build().to_settle == frozenset()

    def test_nothing_chosen_is_asked_for(self, hands: Hands, door: Door) -> None:
        number = self.aside(hands, door)
        page = hands.refused(f"/record/{number}", f"/record/{number}/settle", 422, words="hm")
        assert "Keep it, or set it aside." in page
        assert 'value="hm"' in page


class TestLookingBack:
    """The car as it stood on a day."""

    def test_by_all_that_is_known_now_or_as_the_record_had_it(
        self, hands: Hands, door: Door, hand: Hand
    ) -> None:
        door.record(c.JobFinished("rear-pipe"), happened_at=at(1, 20))
        door.record(c.ProofHeld("rear-joint"))
        hand.now += timedelta(days=5)
        stood = hands.see("/record/as-it-stood?day=2026-03-01")
        assert "Sun 1 March 2026" in stood
        assert "<b>1</b></p><p>jobs done, of 9" in stood
        assert "<b>0</b></p><p>proofs good, of 1" in stood
        known = hands.see("/record/as-it-stood?day=2026-03-01&known=yes")
        assert "<b>0</b></p><p>jobs done, of 9" in known
        later = hands.see("/record/as-it-stood?day=2026-03-04")
        assert "<b>1</b></p><p>proofs good, of 1" in later
        assert "Finished in the four weeks before" in later

    def test_a_day_to_come_or_none_is_said_beside_the_form(self, hands: Hands) -> None:
        for day, said in (
            ("2027-01-01", "2027-01-01 is still to come"),
            ("", "None is named."),
            ("then", "Day."),
        ):
            page = hands.see(f"/record/as-it-stood?day={day}", 422)
            assert said in page
            assert "The car as it stood on" in page

    def test_before_the_first_entry_there_was_nothing(self, hands: Hands) -> None:
        assert "jobs done, of 0" in hands.see("/record/as-it-stood?day=2020-01-01")
