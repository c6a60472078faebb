"""The car plan: to scale, words clear of each other, states told without colour, links."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bareshell.brakes.starters import STARTERS, starter
from bareshell.draw.brake_car import WHEELS, BleedMark, CarPlan, PlanCircuit, PlanFailure, PlanPart
from bareshell.draw.brake_key import circuit_key
from bareshell.draw.brake_places import circuits_of, plan_of
from bareshell.draw.brake_plan import circuit_plan
from bareshell.draw.brake_sheet import LETTERS, NARROW, WIDE
from bareshell.draw.brake_stage import set_stage
from bareshell.draw.svg import Svg
from bareshell.model.brake import BrakeSystem, Part, PartKind
from tests.draw import brake_samples as samples
from tests.draw.brake_boxes import (
    classes,
    of_class,
    outside,
    overlapping,
    points,
    read,
    walk,
    word_boxes,
)

PLATE_PX = 332.0  # what is left of a phone of 390 px for a picture


def scale_px_per_m(drawing: str) -> float:
    """The scale, measured on the picture's own bar of half a metre."""
    bar = next(
        n for n, _ in of_class(drawing, "l") if "h" in n.get("d", "") and "v12" in n.get("d", "")
    )
    return 2 * float(bar.get("d", "").split("h")[1].split("m")[0])


def pictures() -> dict[str, Svg]:
    found = {}
    for name in STARTERS:
        for width in (NARROW, WIDE):
            found[f"{name} {width:g}"] = circuit_plan(samples.plan(name), width=width)
            bare = plan_of(samples.without_places(name))
            found[f"{name} {width:g} by habit"] = circuit_plan(bare, width=width, flow=True)
    shown = samples.plan()
    found["failed"] = circuit_plan(shown, failure=samples.REAR_HOSE, href=lambda name: f"#{name}")
    found["bled"] = circuit_plan(shown, bleeds=samples.BLEEDS)
    found["bled wide"] = circuit_plan(shown, bleeds=samples.BLEEDS, width=WIDE)
    return found


PICTURES = pictures()


@pytest.mark.parametrize("name", PICTURES)
def test_words_lie_on_no_other_words_and_within_the_picture(name: str) -> None:
    assert overlapping(PICTURES[name]) == []
    assert outside(PICTURES[name]) == []


@pytest.mark.parametrize("name", PICTURES)
def test_a_plan_is_sound_and_says_its_result(name: str) -> None:
    root = read(PICTURES[name])
    assert not any("style" in node.attrib for node in root.iter())
    said = root.get("aria-label", "")
    assert said.endswith(".")
    assert "Circuit 1" in said


def test_letters_are_large_enough_on_a_phone() -> None:
    assert LETTERS * PLATE_PX / NARROW >= 12.5


@pytest.mark.parametrize(("base", "track"), [(2.0, 1.1), (2.4, 1.28), (2.9, 1.5)])
def test_the_plan_is_to_scale_along_and_across(base: float, track: float) -> None:
    system = starter("diagonal tandem", wheelbase_m=base, track_m=track)
    plan = plan_of(system)
    stage = set_stage(plan, NARROW)
    scale = scale_px_per_m(circuit_plan(plan))
    measured = {part.id: part.at_m for part in system.parts if part.wheel and part.at_m}
    for one, (behind, right) in measured.items():
        for two, (other_behind, other_right) in measured.items():
            dx = stage.places[two][0] - stage.places[one][0]
            dy = stage.places[two][1] - stage.places[one][1]
            assert dx == pytest.approx((other_right - right) * scale, abs=0.05)
            assert dy == pytest.approx((other_behind - behind) * scale, abs=0.05)


def test_tyres_stand_at_the_wheelbase_and_the_track() -> None:
    plan = samples.plan()
    drawing = circuit_plan(plan)
    scale = scale_px_per_m(drawing)
    tyres = [
        (float(n.get("x", 0)) + float(n.get("width", 0)) / 2, float(n.get("y", 0)))
        for n, _ in of_class(drawing, "bk-tyre")
    ]
    assert len(tyres) == 4
    across = max(x for x, _ in tyres) - min(x for x, _ in tyres)
    along = max(y for _, y in tyres) - min(y for _, y in tyres)
    assert across == pytest.approx(plan.front_track_m * scale, abs=0.1)
    assert along == pytest.approx(plan.wheelbase_m * scale, abs=0.1)


def test_a_pipe_runs_along_its_route() -> None:
    plan = samples.plan()
    stage = set_stage(plan, WIDE)
    line = next(line for line in plan.lines if line.id == "pipe-to-rear-valve")
    drawn = circuit_plan(plan, width=WIDE)
    for place in line.route_m:
        x, y = stage.at(place)
        near = [
            math.dist((x, y), corner)
            for node, _ in of_class(drawn, "bk-long")
            for corner in points(node.get("d", "").replace("Q", "L"))
        ]
        assert min(near) < 0.1, place


def test_no_sign_lies_on_another_but_at_the_wheels() -> None:
    for name in STARTERS:
        stage = set_stage(samples.plan(name), NARROW)
        loose = [part for part in stage.plan.parts if not part.wheel]
        for index, one in enumerate(loose):
            for two in loose[index + 1 :]:
                assert not stage.box(one.id).meets(stage.box(two.id), -0.5), (name, one.id, two.id)


def test_signs_that_were_set_apart_stay_near_their_true_place() -> None:
    for name in STARTERS:
        stage = set_stage(samples.plan(name), NARROW)
        for part in stage.plan.parts:
            moved = math.dist(stage.places[part.id], stage.at(part.at_m))
            assert moved < 0.35 * stage.px_per_m, (name, part.id)


# ---------------------------------------------------------------- what state looks like


def test_circuits_differ_by_line_and_by_tag_not_by_colour() -> None:
    plan = replace(samples.plan(), circuits=())
    by_number = {
        number: circuit_plan(
            replace(plan, lines=tuple(replace(line, circuit=number) for line in plan.lines))
        )
        for number in (0, 1, 2, 3, 4)
    }
    looks = ("bk-case", "bk-long", "bk-dashdot", "bk-short", "bk-none")
    drawn = {number: classes(drawing) & set(looks) for number, drawing in by_number.items()}
    assert drawn == {
        0: {"bk-none"},
        1: {"bk-case"},
        2: {"bk-long"},
        3: {"bk-dashdot"},
        4: {"bk-short"},
    }
    assert not any("t-ox" in classes(drawing) for drawing in by_number.values())


def test_a_failed_hose_is_an_octagon_with_a_word_and_wheels_without_brake_say_so() -> None:
    drawing = PICTURES["failed"]
    assert len(of_class(drawing, "bk-failed")) == 1
    words = [said for said, _ in word_boxes(drawing)]
    assert words.count("burst") == 1
    assert words.count("no brake") == 2
    assert words.count("grips") == 2
    hatched = [n for n in read(drawing).iter() if n.get("fill") == "url(#h-lost)"]
    assert len(hatched) == 2
    struck = of_class(drawing, "bk-strike")
    assert struck
    assert "rear hose burst" in read(drawing).get("aria-label", "").lower()


def test_the_octagon_stands_on_the_element_that_failed() -> None:
    plan = samples.plan()
    stage = set_stage(plan, NARROW)
    failure = PlanFailure("The valve leaks.", {"valve-rear": "leaks"})
    drawing = circuit_plan(plan, failure=failure)
    _, spot = of_class(drawing, "bk-failed")[0]
    assert (spot.x, spot.y) == pytest.approx(stage.places["valve-rear"], abs=0.01)


def test_a_failed_joint_is_shown_at_its_end_and_two_failures_at_once_as_two() -> None:
    plan = samples.plan()
    stage = set_stage(plan, NARROW)
    both = {"pipe-rear-left-1": "leaks", "hose-front-left": "burst"}
    drawing = circuit_plan(plan, failure=PlanFailure("Two at once.", both))
    spots = [(spot.x, spot.y) for _, spot in of_class(drawing, "bk-failed")]
    assert len(spots) == 2
    cylinder = stage.places["cylinder-rear-left"]
    assert min(math.dist(spot, cylinder) for spot in spots) < 16
    assert "joint leaks" in [said for said, _ in word_boxes(drawing)]


def test_what_was_taken_off_is_struck_through_and_names_its_departure() -> None:
    built = starter("twin cylinders")
    standard = starter("front-rear tandem")
    plan = plan_of(built, standard=standard, gone={"servo": "7", "master": "Two cylinders instead"})
    drawing = circuit_plan(plan)
    said = " ".join(words for words, _ in word_boxes(drawing))
    assert "servo taken off: 7" in said
    assert "taken off: b" in said  # a long one has a letter, told beneath
    assert "b: Two cylinders instead." in said
    gone = [part.id for part in plan.parts if part.removed]
    assert "standard-servo" in gone
    assert "standard-disc-front-left" not in gone  # one of its kind stands at that wheel
    assert len(of_class(drawing, "bk-ghost")) == len(gone)
    assert overlapping(drawing) == []


def test_the_order_of_bleeding_is_numbered_at_the_screws_with_millilitres() -> None:
    drawing = PICTURES["bled"]
    stage = set_stage(samples.plan(), NARROW)
    turns = {}
    for node, spot in walk(read(drawing)):
        if node.tag.endswith("text") and "t-on-ink" in node.get("class", ""):
            turns[int("".join(node.itertext()))] = (spot.x, spot.y)
    assert sorted(turns) == [1, 2, 3, 4]
    for mark in samples.BLEEDS:
        assert math.dist(turns[mark.number], stage.places[mark.part]) < 40
    words = " ".join(said for said, _ in word_boxes(drawing))
    for mark in samples.BLEEDS:
        assert f"{mark.number}: {mark.words}" in words


def test_every_screw_of_a_caliper_with_two_gets_its_number() -> None:
    marks = tuple(BleedMark(n, "caliper-front-left", f"{n}0 ml") for n in (1, 2))
    drawing = circuit_plan(samples.plan("two lines into one caliper"), bleeds=marks)
    assert len(of_class(drawing, "bk-turn")) == 2
    assert overlapping(drawing) == []


# ---------------------------------------------------------------- circuits and flow


def test_flow_runs_from_the_cylinder_to_the_wheels() -> None:
    for name in STARTERS:
        system = starter(name)
        circuits = circuits_of(system)
        wheels = {part.id for part in system.parts if part.wheel}
        masters = {part.id for part in system.of_kind(PartKind.MASTER)}
        for line in system.lines:
            flow = circuits.flow_of(system, line)
            first, second = (end.part for end in line.ends)
            if first in masters or (second in wheels and first not in wheels):
                assert flow == 1, (name, line.id)
            if second in masters or (first in wheels and second not in wheels):
                assert flow == -1, (name, line.id)


def test_arrows_are_drawn_only_when_asked_for() -> None:
    plan = samples.plan()
    assert not of_class(circuit_plan(plan), "bk-arrow")
    assert len(of_class(circuit_plan(plan, flow=True), "bk-arrow")) >= 4


def test_each_circuit_reaches_the_wheels_it_is_known_for() -> None:
    titles = {name: [circuit.title for circuit in samples.plan(name).circuits] for name in STARTERS}
    assert titles == {
        "single line": ["all wheels"],
        "front-rear tandem": ["front", "rear"],
        "diagonal tandem": ["front left and rear right", "front right and rear left"],
        "two lines into one caliper": ["front", "all wheels"],
        "remote servo": ["all wheels"],
        "twin cylinders": ["front", "rear"],
    }


# ---------------------------------------------------------------- links


def test_every_part_and_line_is_a_link_with_a_name() -> None:
    plan = samples.plan()
    drawing = circuit_plan(plan, href=lambda name: f"/brakes/edit/{name}")
    root = read(drawing)
    assert root.get("role") == "group"  # an image would hide its links
    links = {node.get("href"): node.get("aria-label") for node in root.iter() if node.tag == "a"}
    ids = [part.id for part in plan.parts] + [line.id for line in plan.lines]
    assert set(links) == {f"/brakes/edit/{name}" for name in ids}
    assert all(links.values())
    assert links["/brakes/edit/hose-rear"] == "rear hose, hose, circuit 2"


def test_a_link_shows_where_the_keyboard_is_and_is_large_enough_to_hit() -> None:
    drawing = circuit_plan(samples.plan(), href=lambda name: f"#{name}")
    for node in read(drawing).iter():
        if node.tag != "a":
            continue
        hits = [each for each in node if "bk-hit" in each.get("class", "").split()]
        assert len(hits) == 1
        if hits[0].tag == "rect":
            assert min(float(hits[0].get("width", 0)), float(hits[0].get("height", 0))) >= 24


def test_without_addresses_it_is_one_image_without_links() -> None:
    root = read(circuit_plan(samples.plan()))
    assert root.get("role") == "img"
    assert not [node for node in root.iter() if node.tag == "a"]


# ---------------------------------------------------------------- what nobody entered


def test_places_that_nobody_entered_are_drawn_and_said() -> None:
    system = samples.without_places()
    plan = plan_of(system)
    drawing = circuit_plan(plan)
    seen = [p for p in system.parts if p.kind not in (PartKind.CAR, PartKind.FLUID)]
    assert len(plan.parts) == len(seen)
    assert all(part.by_habit for part in plan.parts)
    words = " ".join(said for said, _ in word_boxes(drawing))
    assert "No place entered" in words
    assert "No route entered for 9 of 9 pipes" in words
    assert [n for n, _ in of_class(drawing, "bk-lead") if "l-dot" in n.get("class", "")]
    by_id = {part.id: part for part in plan.parts}
    assert by_id["disc-front-left"].at_m[1] < 0 < by_id["disc-front-right"].at_m[1]
    assert by_id["cylinder-rear-left"].at_m[0] > by_id["caliper-front-left"].at_m[0]


def test_a_part_that_says_its_side_is_drawn_on_it() -> None:
    by_id = {part.id: part for part in plan_of(samples.without_places("diagonal tandem")).parts}
    assert by_id["valve-rear-left"].at_m[1] < 0 < by_id["valve-rear-right"].at_m[1]


def test_what_was_entered_is_not_said_to_be_by_habit() -> None:
    words = " ".join(said for said, _ in word_boxes(circuit_plan(samples.plan())))
    assert "No place entered" not in words


def test_a_line_with_both_ends_loose_is_said_not_dropped() -> None:
    system = samples.system()
    loose = tuple(replace(end, part="", port="") for end in system.lines[0].ends)
    line = replace(system.lines[0], ends=(loose[0], loose[1]), route_m=())
    plan = plan_of(replace(system, lines=(line, *system.lines[1:])))
    words = " ".join(said for said, _ in word_boxes(circuit_plan(plan)))
    assert "Not drawn, since no end and no route is known" in words
    assert line.title in words


def test_an_end_that_reaches_nothing_is_an_open_ring() -> None:
    system = samples.system()
    first = next(line for line in system.lines if line.route_m)
    ends = (first.ends[0], replace(first.ends[1], part="", port=""))
    lines = tuple(replace(l, ends=ends) if l.id == first.id else l for l in system.lines)  # noqa: E741
    drawing = circuit_plan(plan_of(replace(system, lines=lines)))
    assert len(of_class(drawing, "bk-open")) == 1


def test_an_empty_system_is_a_car_with_nothing_in_it() -> None:
    drawing = circuit_plan(plan_of(BrakeSystem("x", "x")))
    assert len(of_class(drawing, "bk-tyre")) == 4
    assert outside(drawing) == []


def test_a_plan_is_drawn_the_same_every_time() -> None:
    one = circuit_plan(plan_of(samples.without_places()), failure=samples.REAR_HOSE, flow=True)
    two = circuit_plan(plan_of(samples.without_places()), failure=samples.REAR_HOSE, flow=True)
    assert one == two


def test_nasty_words_stay_words() -> None:
    nasty = """<b onload="x">&amp; 3/8" 'tee'\x00"""
    part = Part("tee", nasty, PartKind.TEE, at_m=(0.4, 0.1))
    drawing = circuit_plan(plan_of(BrakeSystem("x", "x", parts=(part,))), href=lambda _: nasty)
    read(drawing)
    assert "<b" not in drawing


_KINDS = [kind.value for kind in PartKind if kind not in (PartKind.CAR, PartKind.FLUID)]


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.tuples(
            st.sampled_from(_KINDS),
            st.floats(-0.4, 2.9),
            st.floats(-0.6, 0.6),
            st.sampled_from(["", *WHEELS]),
            st.text("abcdefghij klmnop", min_size=1, max_size=40).filter(str.strip),
            st.booleans(),
        ),
        max_size=26,
    ),
    st.sampled_from([NARROW, WIDE]),
)
def test_words_find_room_wherever_the_parts_stand(
    rows: list[tuple[str, float, float, str, str, bool]], width: float
) -> None:
    parts = tuple(
        PlanPart(f"p{index}", name, kind, (x, y), name=name, wheel=wheel, by_habit=habit)
        for index, (kind, x, y, wheel, name, habit) in enumerate(rows)
    )
    drawing = circuit_plan(CarPlan(2.4, 1.3, 1.25, parts), width=width)
    assert overlapping(drawing) == []
    assert outside(drawing) == []
    assert len(read(drawing).get("aria-label", "")) > 10


# ---------------------------------------------------------------- legend


def test_the_legend_explains_what_is_drawn_and_nothing_else() -> None:
    plan = samples.plan()
    calm = [words for _, words in circuit_key(plan)]
    assert calm == [
        "circuit 1, front: cased line, ring",
        "circuit 2, rear: long dashes, square",
        "flexible hose",
    ]
    failed = [words for _, words in circuit_key(plan, samples.REAR_HOSE, flow=True)]
    assert "the failed element" in failed
    assert "no brake here" in failed
    assert "flow, pedal going down" in failed
    assert failed[1].endswith("struck: no pressure")


def test_a_circuit_says_where_it_goes() -> None:
    said = PlanCircuit(2, "rear", ("rear left", "rear right")).sentence
    assert said == (
        "Circuit 2, rear, drawn as long dashes, square, reaches rear left and rear right."
    )
