"""Tonight as a page: what it says of the session, and what one can ask of it."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import timedelta
from html import unescape as html_text
from typing import TYPE_CHECKING

import pytest

from bareshell.app.door import Door
from bareshell.app.plain import document
from bareshell.model import changes as c
from bareshell.model.note import Lesson
from bareshell.model.session import SessionException
from bareshell.web.bench import Bench
from bareshell.web.site import site_app
from tests.stories import NOW
from tests.web.conftest import Clock, browser
from tests.web.session.by_hand import form_to, forms, press
from tests.web.session.made_up_plan import MadeUpPlan

if TYPE_CHECKING:
    from starlette.testclient import TestClient


def page_at(site: TestClient, address: str = "/tonight", status: int = 200) -> str:
    answer = site.get(address)
    assert answer.status_code == status, answer.text[:400]
    return answer.text


def ticket_of(html: str, job: str) -> str:
    """The strip of one job."""
    start = html.index(f'id="at-{job}"')
    return html[start : html.index("</article>", start)]


def test_the_page_and_its_twin_say_the_same(site: TestClient, door: Door, plan: MadeUpPlan) -> None:
    html = page_at(site)
    data = site.get("/tonight.json").json()
    sheet = plan.tonight(door, None)
    assert data == document(replace(sheet, made_at=sheet.made_at))
    assert {"session", "jobs", "fetch", "cautions", "why_not"} <= data.keys()
    for job in data["jobs"]:
        assert job["title"] in html
    assert "Wednesday 4 March, 19:00. Session 1." in html


def test_tickets_come_in_the_order_of_use(site: TestClient) -> None:
    html = page_at(site)
    ticket = ticket_of(html, "rear-pipe")
    order = [ticket.index(f"<dt>{word}</dt>") for word in ("Fetch", "Mind", "Prove")]
    assert order == sorted(order)
    assert "Rear tee dry under pressure" not in ticket, "the hold's proof is not the pipe's"
    assert "raises a temp" in ticket
    assert "Where on the car: underneath." in ticket


def test_a_lesson_heads_the_ticket(site: TestClient, door: Door) -> None:
    door.record(c.LessonLearned(Lesson("l1", NOW, "Bend it on the bench, not in place", "carb")))
    html = page_at(site)
    ticket = ticket_of(html, "carb")
    assert ticket.index("Bend it on the bench") < ticket.index('class="taps')


def test_the_session_is_taken_as_it_is_said_and_only_what_was_changed(
    site: TestClient, plan: MadeUpPlan
) -> None:
    form = form_to(page_at(site), "/tonight", was_minutes="150")
    answer = press(site, form, minutes="90", support="wheels", mood=["nothing dirty"])
    assert answer.status_code == 303
    address = answer.headers["location"]
    assert address == "/tonight?minutes=90&support=wheels&mood=nothing+dirty"
    html = page_at(site, address)
    assert "how long, how the car stands" in html
    assert "The session, 1 h 30" in html
    again = form_to(html, "/tonight", minutes="90")
    assert "was_minutes" not in again.names, "what was set stays set"
    assert again.value("was_people") == "1"


def test_asked_again_as_it_was_the_record_decides(site: TestClient) -> None:
    form = form_to(page_at(site), "/tonight", was_minutes="150")
    assert press(site, form).headers["location"] == "/tonight"


@pytest.mark.parametrize(
    ("query", "field"),
    [
        ("minutes=5", "How long"),
        ("minutes=lots", "How long"),
        ("people=7", "Who is there"),
        ("people=1.5", "Who is there"),
        ("temperature=99", "In the garage"),
        ("support=roof", "How the car stands"),
        ("starts=soon", "Another start"),
    ],
)
def test_what_cannot_be_is_said_beside_the_form_and_stays_in_it(
    site: TestClient, query: str, field: str
) -> None:
    html = page_at(site, f"/tonight?{query}", 422)
    assert f"<b>{field}.</b>" in html
    if query.startswith("minutes"):
        assert form_to(html, "/tonight").value("minutes") == query.partition("=")[2]


def test_another_session_is_as_long_as_the_record_has_it(site: TestClient) -> None:
    html = page_at(site, "/tonight?starts=2026-03-07T10:00:00%2B00:00")
    assert "Saturday 7 March, 10:00" in html
    assert "The session, 5 h" in html
    assert form_to(html, "/tonight").value("people") == "2"


def test_a_plan_is_asked_once_for_one_state_of_the_build(
    site: TestClient, plan: MadeUpPlan, door: Door, hand_clock: Clock
) -> None:
    for _ in range(3):
        page_at(site)
    assert plan.asked.count("tonight") == 1
    page_at(site, "/tonight?minutes=90")
    assert plan.asked.count("tonight") == 2
    door.record(c.JobFinished("carb", 2.0))
    page_at(site)
    assert plan.asked.count("tonight") == 3
    hand_clock.forward(timedelta(hours=1))
    page_at(site)
    assert plan.asked.count("tonight") == 4


def test_why_not_is_asked_by_name(site: TestClient, door: Door) -> None:
    html = page_at(site, "/tonight?why=tank")
    why = html[html.index('id="why-tank"') :]
    assert "needs the hold under pressure" in why
    assert why.index("root:") > why.index("needs the hold")
    data = site.get("/tonight.json?why=Tank").json()
    assert data["why_not"][0]["job"] == "tank"


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("gearbox", "There is no job"),
        ("rear", "2 open jobs are called"),
        ("fit the tnk", "Choose a job from the list"),
        ("door sael", "Did you mean Door seal?"),
    ],
)
def test_a_job_nobody_knows_is_helped_with(site: TestClient, typed: str, said: str) -> None:
    html = page_at(site, f"/tonight?why={typed}", 422)
    assert said in html
    assert f'value="{typed}"' in html


def test_a_job_that_is_done_is_not_asked_about(site: TestClient, door: Door) -> None:
    door.record(c.JobFinished("carb", 2.0))
    assert "is done" in page_at(site, "/tonight?why=carb", 422)


def test_without_any_evening_the_page_helps_instead_of_failing(
    site: TestClient, door: Door
) -> None:
    door.record([c.PatternDropped("eve"), c.PatternDropped("sat")])
    html = page_at(site)
    assert "No session to come" in html
    assert 'href="/add/session"' in html
    assert site.get("/tonight.json").status_code == 409
    assert "The session, 2 h" in page_at(site, "/tonight?minutes=120")


def test_when_nothing_can_be_done_the_page_says_what_would_free_it(
    site: TestClient, door: Door, plan: MadeUpPlan
) -> None:
    plan.most = 0
    html = page_at(site)
    assert "Nothing can be done in this session" in html
    assert "/shelf" in html
    assert form_to(html, "/tonight#say".partition("#")[0], line="") is not None


def test_when_all_is_done_the_page_says_so(site: TestClient, door: Door) -> None:
    door.record([c.JobFinished(job) for job in door.build().jobs])
    assert "Nothing left to do" in page_at(site)


def test_moving_the_car_is_a_strip_of_its_own(small_bench: Bench, plan: MadeUpPlan) -> None:
    plan.moves_the_car = True
    html = page_at(browser(site_app(small_bench)))
    assert "1. Move the car: its wheels" in html
    assert "Chocks first, then down; nobody beneath." in html
    assert "2. " in html


def test_nothing_on_the_page_needs_a_script(site: TestClient) -> None:
    html = page_at(site)
    assert "onclick" not in html
    assert "javascript:" not in html
    assert html.count("<script") == 1
    for form in forms(html):
        assert form.method in ("get", "post")
        if form.method == "post" and form.action.startswith("/tonight"):
            assert form.value("entry"), f"the form to {form.action} could land twice"


def test_a_lost_evening_and_a_broken_rule_leave_a_page(site: TestClient, door: Door) -> None:
    day = (NOW + timedelta(days=7)).date()
    door.record(c.ExceptionSet(SessionException(day, 0, words="away")))
    assert "Wed 11 Mar" not in page_at(site)


def test_the_sheet_on_paper_has_a_box_for_all_that_can_be_typed(site: TestClient) -> None:
    html = page_at(site)
    ticket = ticket_of(html, "rear-pipe")
    paper = ticket[ticket.index('class="pencil paper-only"') :]
    for word in ("start", "end", "done", "part done", "hours left", "off again"):
        assert f"<span>{word} <i" in paper
    assert "what is loose or open" in html
    assert "began <i>" in html


def test_every_way_off_the_page_leads_somewhere(site: TestClient, door: Door) -> None:
    door.record(c.JobFinished("carb", 1.0))
    found = set()
    for start in ("/tonight", "/road-ahead"):
        found |= set(re.findall(r'href="(/[^"#]*)"', page_at(site, start)))
    pages = {path for path in found if not path.startswith("/static/")}
    assert len(pages) > 8
    for path in sorted(pages):
        assert site.get(html_text(path)).status_code in (200, 303), path


def test_packing_exactly_is_one_press_and_one_press_back(site: TestClient) -> None:
    html = site.get("/tonight?minutes=90").text
    form = html[html.index('class="screen-only pack"') :][:400]
    assert 'name="minutes" value="90"' in form
    assert 'name="exactly" value="yes"' in form
    kept = site.get("/tonight?minutes=90&was_minutes=150&exactly=yes", follow_redirects=False)
    assert kept.headers["location"] == "/tonight?minutes=90&exactly=yes"
