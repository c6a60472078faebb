"""The circuit described on its pages, with scripts off: begun, corrected, added to, brought in."""

from __future__ import annotations

import pytest

from bareshell.app import brake_files
from bareshell.app.door import Door
from bareshell.brakes.examples import small_car
from bareshell.model import changes as c
from bareshell.model.brake import Role
from bareshell.model.trust import Trust
from tests.web.pages.conftest import Hands

CAR = small_car()
MASTER = "/brakes/circuit/master"


@pytest.fixture
def described(door: Door) -> Door:
    door.record(c.BrakeSystemSet(CAR))
    return door


def test_a_starter_is_begun_and_its_parts_open_by_the_picture(hands: Hands, door: Door) -> None:
    page = hands.send(
        "/brakes/begin", starter="front-rear tandem", title="as found", wheelbase="94.9 in"
    )
    brakes = next(iter(door.build().brakes.values()))

    assert brakes.role is Role.AS_BUILT
    assert brakes.title == "as found"
    assert brakes.part("car").figures["wheelbase_m"].value == pytest.approx(94.9 * 0.0254)
    for part in brakes.parts:
        assert f'href="/brakes/circuit/{part.id}?system={brakes.id}"' in page
    assert "Not worked out yet" in hands.see("/brakes"), "no starter knows a bore"


@pytest.mark.usefixtures("described")
def test_every_form_sent_as_it_stands_changes_nothing(hands: Hands, described: Door) -> None:
    before = described.build().brakes[CAR.id]
    for name in [part.id for part in CAR.parts] + [line.id for line in CAR.lines]:
        hands.send(f"/brakes/circuit/{name}")

    after = described.build().brakes[CAR.id]
    assert after.parts == before.parts
    assert after.lines == before.lines


def test_a_figure_is_typed_in_trade_units_with_its_range_and_trust(
    hands: Hands, described: Door
) -> None:
    page = hands.send(
        MASTER,
        figure_bore_m="3/4 in",
        range_bore_m="19.03 to 19.08 mm",
        trust_bore_m="marked on the part",
    )
    found = described.build().brakes[CAR.id].part("master").figures["bore_m"]

    assert found.value == pytest.approx(0.01905)
    assert (found.low, found.high) == pytest.approx((0.01903, 0.01908))
    assert found.trust is Trust.MARKED
    assert "marked on the part" in page


def test_weighing_the_car_gives_its_mass_share_and_height(hands: Hands, described: Door) -> None:
    car, weighed = "/brakes/circuit/car", "/brakes/circuit/car/weighed"
    page = hands.send(car, weighed, front="505", rear="395", raised_front="1190 lb", rise="600 mm")
    assert "Weighed with the driver&#39;s weight only: 900 kg, 56.1 in 100 of it in front." in page
    assert "Height of the centre of gravity: 0.64 m, by the scales from 0.60 to 0.69 m." in page
    figures = described.build().brakes[CAR.id].part("car").figures
    assert figures["driver_only_mass_kg"].value == 900
    assert figures["cg_height_m"].trust is Trust.MEASURED
    assert figures["wheelbase_m"] == CAR.part("car").figures["wheelbase_m"]

    refused = hands.refused(
        car, weighed, 422, front="505", rear="395", raised_front="480", rise="600"
    )
    assert "Raise the rear higher" in refused
    assert 'value="480"' in refused, "what was typed stays"
    assert "From weighing it" not in hands.see(MASTER)


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("figure_bore_m", "wide", "bore"),
        ("figure_bore_m", "19.05 kg", "bore"),
        ("figure_bore_m", "4 m", "bore"),
        ("range_bore_m", "25 to 26", "bore"),
        ("title", "", "title"),
        ("behind", "far", "behind"),
    ],
)
def test_a_wrong_figure_is_refused_and_everything_typed_stays(
    hands: Hands, described: Door, field: str, typed: str, said: str
) -> None:
    before = described.latest()
    page = hands.refused(MASTER, MASTER, 422, note="kept on the page", **{field: typed})

    assert said in page.casefold()
    assert "kept on the page" in page
    assert described.latest() == before


def test_a_figure_taken_out_is_asked_for_again(hands: Hands, described: Door) -> None:
    hands.send(MASTER, figure_bore_m="", trust_bore_m="")

    assert "bore_m" not in described.build().brakes[CAR.id].part("master").figures
    assert "Not worked out yet" in hands.see("/brakes")


def test_a_part_and_a_pipe_to_it_are_added_and_taken_out(hands: Hands, described: Door) -> None:
    hands.send(
        "/add/brake-part",
        kind="tee",
        title="tee for a gauge",
    )
    added = next(p for p in described.build().brakes[CAR.id].parts if p.id.startswith("tee-for"))
    path = f"/brakes/circuit/{added.id}"
    hands.send(path, has_ports="yes", port0="in", chamber0="", port0_thread="M10x1")
    hands.send(
        "/add/brake-line", title="pipe to the gauge", end0=f"{added.id}:in", end1="master:primary"
    )
    line = next(x for x in described.build().brakes[CAR.id].lines if x.title == "pipe to the gauge")
    assert {end.part for end in line.ends} == {added.id, "master"}

    hands.send(path, f"{path}/dropped")
    ends = hands.form(f"/brakes/circuit/{line.id}", f"/brakes/circuit/{line.id}").fields
    assert ends["end1"] == ["master:primary"], "it is where it was"
    hands.send(f"/brakes/circuit/{line.id}", f"/brakes/circuit/{line.id}/dropped")
    assert described.build().brakes[CAR.id] == CAR


def test_an_idea_is_a_copy_with_one_thing_changed(hands: Hands, described: Door) -> None:
    form = hands.form("/brakes/circuit", "/brakes/idea")
    sent = hands.post(form, title="a smaller cylinder", path="master.bore_m", figure="17.46 mm")
    page = hands.see(sent.headers["location"])
    idea = next(one for one in described.build().brakes.values() if one.role is Role.IDEA)

    assert idea.part("master").figures["bore_m"].value == pytest.approx(0.01746)
    assert "a smaller cylinder" in page.casefold()
    assert described.build().brakes[CAR.id] == CAR
    body = hands.client.get(f"/brakes/compare.json?system={idea.id}").json()
    rows = {row["key"]: row for row in body["rows"]}
    assert rows["force, laden"]["built"] < rows["force, laden"]["standard"]
    assert rows["travel, laden"]["built"] > rows["travel, laden"]["standard"]


def test_a_brake_file_comes_back_as_it_went_out(hands: Hands, described: Door) -> None:
    answer = hands.client.get("/brakes/file.toml")
    text = answer.text

    assert answer.headers["content-type"].startswith("application/toml")
    assert brake_files.read_brakes(text).system.parts == described.build().brakes[CAR.id].parts
    sent = hands.client.post(
        "/brakes/begin/file",
        data={**hands.form("/brakes/begin", "/brakes/begin/file").fields, "role": "idea"},
        files={"file": ("brakes.toml", text.encode(), "application/toml")},
    )
    assert sent.status_code == 303, sent.text
    brought = [one for one in described.build().brakes.values() if one.role is Role.IDEA]
    assert [one.parts for one in brought] == [CAR.parts]
    assert described.build().brakes[CAR.id] == CAR, "what is on the car stays as it is"


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"\xff\xfe\x00", "text"),
        (b"[[part]\n", "line 1"),
        (b'title = "no parts"\n', "part"),
    ],
)
def test_a_brake_file_that_is_none_is_refused_in_words(
    hands: Hands, described: Door, data: bytes, said: str
) -> None:
    before = described.latest()
    fields = hands.form("/brakes/begin", "/brakes/begin/file").fields
    sent = hands.client.post(
        "/brakes/begin/file", data=fields, files={"file": ("x.toml", data, "application/toml")}
    )

    assert sent.status_code == 422, sent.text
    assert said in sent.text.casefold()
    assert described.latest() == before


def test_brakes_are_dropped_and_the_page_says_how_to_begin(hands: Hands, described: Door) -> None:
    page = hands.send("/brakes/circuit", "/brakes/dropped", words="described twice")

    assert not described.build().brakes
    assert "/brakes/begin" in page


def test_words_of_a_part_are_escaped_on_the_picture_and_beside_it(
    hands: Hands, described: Door
) -> None:
    hands.send(MASTER, title="<script>alert(1)</script>", note="<b>wet</b>")
    for path in ("/brakes", "/brakes/circuit", MASTER, "/brakes/joints", "/brakes/bleed"):
        page = hands.see(path)
        assert "<script>alert" not in page, path
        assert "<b>wet" not in page, path
    assert described.build().brakes[CAR.id].part("master").title == "<script>alert(1)</script>"
