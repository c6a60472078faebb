"""What is tapped and typed on Tonight lands in the journal, once, or is given back whole."""

from __future__ import annotations

import io
from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from bareshell.app.door import Door
from bareshell.model import changes as c
from bareshell.model.job import JobStatus
from bareshell.model.part import NeedState
from bareshell.model.proof import ProofState
from bareshell.model.standing import need_standings, proof_standings
from tests.web.conftest import Clock
from tests.web.session.by_hand import SeenForm, form_to, press
from tests.web.session.made_up_plan import MadeUpPlan

if TYPE_CHECKING:
    from starlette.testclient import TestClient


def html_of(site: TestClient, address: str = "/tonight") -> str:
    answer = site.get(address)
    assert answer.status_code == 200, answer.text[:400]
    return answer.text


def landed(answer: object, to: str = "/tonight") -> None:
    assert answer.status_code == 303, answer.text[:600]  # type: ignore[attr-defined]
    assert answer.headers["location"] == to  # type: ignore[attr-defined]


def state_of(door: Door, job: str) -> JobStatus:
    return door.build().jobs[job].state.status


def ticks(site: TestClient) -> SeenForm:
    return form_to(html_of(site), "/tonight/went")


def test_start_and_stop_offer_the_hours_between(
    site: TestClient, door: Door, hand_clock: Clock
) -> None:
    landed(press(site, form_to(html_of(site), "/tonight/start", job="carb")), "/tonight#at-carb")
    assert state_of(door, "carb") is JobStatus.STARTED
    hand_clock.forward(timedelta(minutes=50))
    html = html_of(site)
    assert "begun</span> 18:00" in html
    stopping = html_of(site, "/tonight?stop=carb")
    form = form_to(stopping, "/tonight/job", job="carb")
    assert form.value("hours") == "0.83"
    landed(press(site, form, what="worked", hours_left="1:30"))
    state = door.build().jobs["carb"].state
    assert (state.hours_done, state.hours_left) == (0.83, 1.5)


def test_a_session_of_two_jobs_is_logged_in_few_taps(
    site: TestClient, door: Door, hand_clock: Clock
) -> None:
    form = ticks(site)
    hand_clock.forward(timedelta(hours=3))  # pressed at 21:00, near the end of the session
    taps = 2 + 1 + 1  # two ticks, that it is over, and the press
    answer = press(site, form, done=["rear-pipe", "carb"], over="yes", support="wheels")
    landed(answer)
    assert taps <= 8
    build = door.build()
    assert state_of(door, "rear-pipe") is JobStatus.DONE
    assert build.jobs["rear-pipe"].state.hours_done == 0, "nobody said how long it took"
    assert build.placement is not None
    assert build.placement.support == "wheels"
    (held,) = build.sessions.values()
    assert f"{held.started_at:%H:%M}" == "19:00"
    said = site.get("/tonight").text
    assert "hours not said" in said
    assert "The session is written down, 19:00 to 21:00." in said
    assert "It lasted 2 h; no hours of it are told of a job" in said


def test_a_tick_on_a_job_that_was_begun_counts_the_hours_since(
    site: TestClient, door: Door, hand_clock: Clock
) -> None:
    door.record(c.JobStarted("carb"))
    hand_clock.forward(timedelta(minutes=95))
    landed(press(site, ticks(site), done=["carb"]))
    assert door.build().jobs["carb"].state.hours_done == pytest.approx(1.58)


def test_typed_hours_beside_a_tick_are_taken(site: TestClient, door: Door) -> None:
    form = ticks(site)
    landed(press(site, form, done=["carb"], **{"hours:carb": "2h15"}))
    assert door.build().jobs["carb"].state.hours_done == 2.25


def test_nothing_ticked_is_said_and_unreadable_hours_change_nothing(
    site: TestClient, door: Door
) -> None:
    before = door.latest()
    answer = press(site, ticks(site))
    assert answer.status_code == 422
    assert "nothing is ticked" in answer.text.lower()
    answer = press(site, ticks(site), done=["carb"], **{"hours:carb": "ages"})
    assert answer.status_code == 422
    assert "no length of time" in answer.text
    assert door.latest() == before


def test_a_form_sent_twice_lands_once(site: TestClient, door: Door) -> None:
    form = ticks(site)
    landed(press(site, form, done=["carb"]))
    after = door.latest()
    landed(press(site, form, done=["carb"]))
    start = form_to(html_of(site), "/tonight/start", job="rear-pipe")
    landed(press(site, start), "/tonight#at-rear-pipe")
    landed(press(site, start), "/tonight#at-rear-pipe")
    assert door.latest() == after + 1


def test_a_job_that_changed_meanwhile_is_kept_to_be_settled(site: TestClient, door: Door) -> None:
    form = ticks(site)
    door.record(c.JobWorked("carb", 1.0, 0.5), author="the other phone")
    landed(press(site, form, done=["carb"]))
    assert len(door.build().to_settle) == 1
    assert "settle it on the record" in site.get("/tonight").text


def test_part_done_and_off_again(site: TestClient, door: Door) -> None:
    form = form_to(html_of(site), "/tonight/job", job="carb")
    landed(press(site, form, what="done", hours="2"))
    assert state_of(door, "carb") is JobStatus.DONE
    form = form_to(html_of(site), "/tonight/job", job="door-seal")
    landed(press(site, form, what="worked", hours="0.5", hours_left="1"))
    form = form_to(html_of(site), "/tonight/job", job="door-seal")
    landed(press(site, form, what="off", words="wrong profile"))
    assert door.build().jobs["door-seal"].state.taken_off


def test_what_was_typed_comes_back_when_it_cannot_be_taken(site: TestClient, door: Door) -> None:
    form = form_to(html_of(site), "/tonight/job", job="carb")
    answer = press(site, form, what="worked", hours="a while", words="float needle sticks")
    assert answer.status_code == 422
    again = form_to(answer.text, "/tonight/job", job="carb")
    assert again.value("hours") == "a while"
    assert again.value("words") == "float needle sticks"
    assert again.value("entry") != form.value("entry")


def test_a_start_that_a_rule_forbids_is_refused_by_name(
    site: TestClient, door: Door, plan: MadeUpPlan
) -> None:
    door.record([c.JobFinished(job) for job in ("rear-pipe", "rear-hose", "hold")])
    form = form_to(html_of(site), "/tonight/start", job="tank")
    answer = press(site, form)
    assert answer.status_code == 409
    assert "<b>Proof before cover.</b>" in answer.text
    assert state_of(door, "tank") is JobStatus.TO_DO


def test_look_for_it_here_or_not_plans_anew(site: TestClient, door: Door, plan: MadeUpPlan) -> None:
    html = html_of(site)
    assert "Look for these first" in html
    form = form_to(html, "/tonight/fetch", need="nuts")
    asked = plan.asked.count("tonight")
    landed(press(site, form, **{"is": "here"}))
    assert need_standings(door.build())["nuts"].state is NeedState.HERE
    html = html_of(site)
    assert plan.asked.count("tonight") == asked + 1
    assert "Look for these first" not in html


def test_looked_for_and_not_here(site: TestClient, door: Door) -> None:
    form = form_to(html_of(site), "/tonight/fetch", need="nuts")
    landed(press(site, form, **{"is": "not here"}))
    assert need_standings(door.build())["nuts"].state is NeedState.NOT_HERE


def test_the_car_was_moved(site: TestClient, door: Door, plan: MadeUpPlan) -> None:
    plan.moves_the_car = True
    landed(press(site, form_to(html_of(site), "/tonight/stands", support="wheels")))
    placement = door.build().placement
    assert placement is not None
    assert placement.support == "wheels"


def test_taps_keep_the_session_as_it_was_asked_for(site: TestClient, door: Door) -> None:
    html = html_of(site, "/tonight?minutes=90")
    form = form_to(html, "/tonight/start", job="rear-pipe")
    landed(press(site, form), "/tonight?minutes=90#at-rear-pipe")


def test_a_way_back_elsewhere_is_not_followed(site: TestClient, door: Door) -> None:
    form = form_to(html_of(site), "/tonight/start", job="carb")
    landed(press(site, form, back="//elsewhere.example/tonight"), "/tonight#at-carb")


# --- the one line ------------------------------------------------------------------------------


def test_a_line_is_read_back_before_anything_is_kept(site: TestClient, door: Door) -> None:
    before = door.latest()
    form = form_to(html_of(site), "/tonight", line="")
    answer = press(site, form, line="carb done 2h")
    assert "Read as" in answer.text
    assert "Carb: finished" in answer.text
    assert door.latest() == before
    keep = form_to(answer.text, "/tonight/say")
    landed(press(site, keep))
    assert state_of(door, "carb") is JobStatus.DONE
    assert door.build().jobs["carb"].state.hours_done == 2
    after = door.latest()
    landed(press(site, keep))
    assert door.latest() == after


def test_friday_is_told_on_sunday(site: TestClient, door: Door, hand_clock: Clock) -> None:
    hand_clock.forward(timedelta(days=4))
    html = html_of(site)
    answer = press(site, form_to(html, "/tonight", line=""), line="carb done 2h", day="2026-03-07")
    landed(press(site, form_to(answer.text, "/tonight/say")))
    finished = door.build().jobs["carb"].state.finished_at
    assert finished is not None
    assert finished.date() == date(2026, 3, 7)
    assert f"{finished:%H:%M}" == "15:00", "the end of that Saturday's session"


def test_a_day_to_come_is_no_day_to_tell_of(site: TestClient, door: Door) -> None:
    answer = site.get("/tonight", params={"line": "carb done", "day": "2026-03-09"})
    assert answer.status_code == 422
    assert "still to come" in answer.text
    assert 'value="carb done"' in answer.text


def test_words_nobody_understands_are_kept_as_a_note(site: TestClient, door: Door) -> None:
    answer = site.get("/tonight", params={"line": "zxqv wibble"})
    assert "kept as a note" in answer.text
    landed(press(site, form_to(answer.text, "/tonight/say")))
    assert [note.words for note in door.build().notes.values()] == ["zxqv wibble"]


def test_a_line_that_would_mean_something_else_by_now_is_shown_again(
    site: TestClient, door: Door
) -> None:
    keep = form_to(site.get("/tonight", params={"line": "carb done 2h"}).text, "/tonight/say")
    door.record(c.JobFinished("carb", 1.0), author="the other phone")
    before = door.latest()
    answer = press(site, keep)
    if answer.status_code == 409:
        assert "would be understood otherwise" in answer.text
        assert 'value="carb done 2h"' in answer.text
        assert door.latest() == before
    else:  # read the same, it is kept to be settled: the job is not what it was
        landed(answer)
        assert door.build().to_settle


def test_a_question_is_answered_by_a_choice(site: TestClient, door: Door) -> None:
    answer = site.get("/tonight", params={"line": "hose or pipe done"})
    keep = form_to(answer.text, "/tonight/say")
    asked = [name for name in keep.names if name.startswith("answer-")]
    assert asked, "two jobs are named: it must be asked which"
    landed(press(site, keep, **{asked[0]: "0"}))
    done = {k for k, r in door.build().jobs.items() if r.state.status is not JobStatus.TO_DO}
    assert len(done & {"rear-pipe", "rear-hose"}) == 1


# --- proofs, notes, photographs ------------------------------------------------------------------


def test_a_proof_is_written_down_with_its_figure(site: TestClient, door: Door) -> None:
    door.record([c.JobFinished("rear-pipe"), c.JobFinished("rear-hose")])
    form = form_to(html_of(site), "/tonight/proof", ticket="hold")
    missed = press(site, form, what="held", figure0="60")
    assert missed.status_code == 422
    assert "misses its limit" in missed.text
    form = form_to(missed.text, "/tonight/proof", ticket="hold")
    assert form.value("figure0") == "60"
    landed(press(site, form, what="held", figure0="1030 psi"))
    standing = proof_standings(door.build())["rear-joint"]
    assert standing.state is ProofState.HELD
    assert standing.readings[0].value == pytest.approx(71.0, abs=0.1)


def test_a_note_and_a_lesson_are_kept(site: TestClient, door: Door) -> None:
    form = form_to(html_of(site), "/tonight/keep")
    landed(press(site, form, words="The rear lamp screws are in bag 12"))
    landed(press(site, form, words="The rear lamp screws are in bag 12"))
    form = form_to(html_of(site), "/tonight/keep")
    landed(press(site, form, words="Warm the jet first", about="job:carb", lesson="yes"))
    build = door.build()
    assert len(build.notes) == 1
    assert [lesson.job for lesson in build.lessons.values()] == ["carb"]
    assert "Warm the jet first" in html_of(site)


def test_a_lesson_about_nothing_is_asked_about_and_not_lost(site: TestClient, door: Door) -> None:
    form = form_to(html_of(site), "/tonight/keep")
    answer = press(site, form, words="Warm the jet first", lesson="yes")
    assert answer.status_code == 422
    assert form_to(answer.text, "/tonight/keep").value("words") == "Warm the jet first"
    assert not door.build().lessons


def test_a_photograph_is_kept_once_with_its_words(site: TestClient, door: Door) -> None:
    picture = io.BytesIO()
    Image.new("RGB", (60, 40), "grey").save(picture, "JPEG")
    form = form_to(html_of(site), "/tonight/keep")
    files = {"photo": ("bay.jpg", picture.getvalue(), "image/jpeg")}
    for _ in range(2):
        landed(press(site, form, _files=files, words="the bay", about="job:carb"))
    (photo,) = door.build().photos.values()
    assert (photo.words, photo.about) == ("the bay", "job:carb")


def test_a_file_that_is_no_picture_is_refused_and_the_words_stay(
    site: TestClient, door: Door
) -> None:
    form = form_to(html_of(site), "/tonight/keep")
    files = {"photo": ("list.txt", b"nuts and bolts", "text/plain")}
    answer = press(site, form, _files=files, words="the bay")
    assert answer.status_code == 422
    assert "the bay" in answer.text
    assert not door.build().photos


# --- data, silence -------------------------------------------------------------------------------


def test_a_program_taps_and_gets_data(site: TestClient, door: Door) -> None:
    answer = site.post(
        "/tonight/start", data={"job": "carb"}, headers={"Accept": "application/json"}
    )
    assert answer.status_code == 200
    assert answer.json()["done"]["result"]["subject"] == "job:carb"
    missing = site.post(
        "/tonight/start", data={"job": "wings"}, headers={"Accept": "application/json"}
    )
    assert missing.status_code == 404
    assert missing.json()["error"]["kind"] == "not found"


def test_after_weeks_of_silence_the_page_asks_what_happened(
    site: TestClient, door: Door, hand_clock: Clock
) -> None:
    hand_clock.forward(timedelta(days=30))
    html = html_of(site)
    assert "Did this happen?" in html
    form = form_to(html, "/tonight/silent")
    answers = sorted(name for name in form.names if name.startswith("answer:"))
    assert answers
    landed(press(site, form, **{answers[0]: "0"}))
    assert "Did this happen?" not in html_of(site)


def test_todays_work_is_listed_and_how_the_build_is_laid_out_is_not(
    site: TestClient, door: Door
) -> None:
    door.record(c.JobFinished("carb", 2.0))
    html = html_of(site)
    written = html[html.index("Written down today") :]
    assert "Carb" in written[: written.index("</section>")]
    assert "comes after" not in written
    assert "Rear flexible hose" not in written[: written.index("</section>")]


def test_after_a_gap_the_page_says_how_the_car_was_left(
    site: TestClient, door: Door, hand_clock: Clock
) -> None:
    door.record(c.JobStarted("carb"))
    assert "since the last time" not in html_of(site)

    hand_clock.forward(timedelta(days=15))

    html = html_of(site)
    assert "15 days since the last time" in html
    assert "1 loose or half done" in html
