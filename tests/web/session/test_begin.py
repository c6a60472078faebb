"""Beginning a build in the browser: a folder with nothing in it becomes a plan in ten minutes."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from bareshell.app.begin import questions
from bareshell.app.door import Door
from bareshell.model.car import Layout
from bareshell.model.job import JobStatus
from tests.web.session.by_hand import form_to, press

if TYPE_CHECKING:
    from starlette.testclient import TestClient

    from bareshell.web.bench import Bench


def test_without_a_build_every_page_leads_to_the_beginning(
    new_site: TestClient, empty_bench: Bench
) -> None:
    for path in ("/", "/tonight", "/road-ahead", "/begin/check"):
        answer = new_site.get(path)
        assert (answer.status_code, answer.headers["location"]) == (303, "/begin"), path
    assert not empty_bench.folder.exists(), "looking made nothing"
    answer = new_site.get("/tonight.json")
    assert answer.status_code == 404
    assert "begin one" in answer.json()["error"]["remedy"]
    assert new_site.post("/tonight/start", data={"job": "x"}).status_code == 404


def test_at_most_twelve_questions_and_each_of_them_can_be_left_unsure(
    new_site: TestClient,
) -> None:
    html = new_site.get("/begin").text
    form = form_to(html, "/begin")
    asked = [question for question in questions() if question.id in form.names]
    assert len(asked) == len(questions()) <= 12
    for question in asked:
        if question.may_be_unsure and question.kind == "one":
            assert form.value(question.id) == "not sure"
    data = new_site.get("/begin.json").json()
    assert [one["id"] for one in data["questions"]] == [one.id for one in questions()]


def test_two_answers_are_enough_to_begin(new_site: TestClient, empty_bench: Bench) -> None:
    form = form_to(new_site.get("/begin").text, "/begin")
    answer = press(new_site, form, name="The old saloon", layout="rear")
    assert (answer.status_code, answer.headers["location"]) == (303, "/begin/check")
    door = empty_bench.open()
    assert isinstance(door, Door)
    build = door.build()
    assert build.car is not None
    assert (build.car.name, build.car.zone) == ("The old saloon", "Europe/London")
    assert len(build.jobs) > 200
    assert new_site.get("/").headers["location"] == "/tonight"
    assert "The old saloon" in new_site.get("/begin/check").text


def test_an_answer_that_cannot_be_read_makes_nothing_and_loses_nothing(
    new_site: TestClient, empty_bench: Bench
) -> None:
    form = form_to(new_site.get("/begin").text, "/begin")
    answer = press(
        new_site,
        form,
        name="The old saloon",
        layout=Layout.FRONT.value,
        hours="whenever",
        days=["monday"],
    )
    assert answer.status_code == 422
    assert "cannot be read" in answer.text
    again = form_to(answer.text, "/begin")
    assert again.value("hours") == "whenever"
    assert again.value("layout") == Layout.FRONT.value
    assert again.values("days") == ["monday"]
    assert not (empty_bench.folder / "journal.db").exists()


def test_a_name_and_a_layout_are_asked_for(new_site: TestClient) -> None:
    form = form_to(new_site.get("/begin").text, "/begin")
    answer = press(new_site, form, hours="19:15 to 21:45")
    assert answer.status_code == 422
    assert answer.text.count("Needs an answer.") == 2


def test_an_unknown_time_zone_is_said(new_site: TestClient, empty_bench: Bench) -> None:
    form = form_to(new_site.get("/begin").text, "/begin")
    answer = press(new_site, form, name="The old saloon", layout="rear", zone="Moon/Base")
    assert answer.status_code == 422
    assert "Moon/Base" in answer.text
    assert empty_bench.open() is None


def test_beginning_twice_makes_one_build(new_site: TestClient, empty_bench: Bench) -> None:
    form = form_to(new_site.get("/begin").text, "/begin")
    press(new_site, form, name="The old saloon", layout="rear")
    door = empty_bench.open()
    assert door is not None
    after = door.latest()
    answer = press(new_site, form, name="The old saloon", layout="rear")
    assert answer.headers["location"] == "/begin/check"
    assert door.latest() == after
    assert new_site.get("/begin").headers["location"] == "/begin/check"


def test_a_build_begun_elsewhere_meanwhile_is_opened(
    new_site: TestClient, empty_bench: Bench
) -> None:
    html = new_site.get("/begin").text
    with Door.open(empty_bench.folder, create=True):
        pass
    answer = press(new_site, form_to(html, "/begin"), name="The old saloon", layout="rear")
    assert answer.headers["location"] == "/begin/check"
    assert new_site.get("/").headers["location"] == "/tonight"


def test_a_few_taps_put_right_what_was_taken_wrongly(
    new_site: TestClient, empty_bench: Bench
) -> None:
    form = form_to(new_site.get("/begin").text, "/begin")
    press(new_site, form, name="The old saloon", layout="rear", standing="wheels", pedal="hard")
    html = new_site.get("/begin/check").text
    shown = form_to(html, "/begin/check")
    taps = sorted(name for name in shown.names if name.startswith("job:"))
    assert 1 <= len(taps) <= 25
    door = empty_bench.open()
    assert door is not None
    before = {k: r.state.status for k, r in door.build().jobs.items()}
    wrong = next(t for t in taps if before[t[4:]] is JobStatus.DONE_BEFORE)
    right = next(t for t in taps if before[t[4:]] is JobStatus.TO_DO)
    assert re.search(rf'name="{re.escape(wrong)}" value="not done"', html)
    answer = press(new_site, shown, **{wrong: "not done"})
    assert answer.headers["location"] == "/tonight"
    assert door.build().jobs[wrong[4:]].state.status is JobStatus.TO_DO
    press(new_site, shown, **{right: "done"})
    assert door.build().jobs[right[4:]].state.status is JobStatus.DONE_BEFORE


def test_the_next_doubts_are_shown_when_asked_for(new_site: TestClient, empty_bench: Bench) -> None:
    form = form_to(new_site.get("/begin").text, "/begin")
    press(new_site, form, name="The old saloon", layout="rear")
    shown = form_to(new_site.get("/begin/check").text, "/begin/check")
    answer = press(new_site, shown, more="yes")
    assert answer.headers["location"] == "/begin/check"
    data = new_site.get("/begin/check.json").json()
    assert {"job", "title", "system", "taken_for_done"} <= data["doubts"][0].keys()
