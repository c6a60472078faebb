"""The brakes on one page: nothing is answered that hangs on what nobody said."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from bareshell.app.plain import document
from bareshell.brakes.examples import small_car
from bareshell.brakes.failures import failures
from bareshell.brakes.figures import gather
from bareshell.brakes.starters import STARTERS, starter
from bareshell.brakes.yardsticks import YARDSTICKS, yardstick
from bareshell.demo.brake_built import as_built
from bareshell.demo.brake_standard import as_it_left_the_works
from bareshell.errors import BadInput, NotFound
from bareshell.model.brake import BrakeSystem
from bareshell.whole.brake_check import Asked, BrakeCheck, Head, brake_check

HEAD = Head(datetime(2026, 3, 4, 18, 0, tzinfo=UTC))
PICKED = [yardstick(name) for name in ("un-r13-circuit", "un-r13-adhesion", "uk-mot-service")]


def check(system: BrakeSystem, asked: Asked = Asked()) -> BrakeCheck:  # noqa: B008 - frozen
    return brake_check(system, HEAD, asked, PICKED)


@pytest.mark.parametrize("name", STARTERS)
def test_a_starter_without_figures_answers_nothing_and_asks(name: str) -> None:
    found = check(starter(name))
    assert (found.whole, found.curve, found.failures) == (None, None, ())
    assert {"master", "car"} <= {
        path.path.partition(".")[0].split("-")[0] for path in found.missing
    }
    assert all(one.question for one in found.missing)
    assert {verdict.state for verdict in found.verdicts} == {"not worked out"}
    assert all(verdict.because for verdict in found.verdicts)


@pytest.mark.parametrize("name", STARTERS)
@pytest.mark.parametrize("load", ["driver only", "laden"])
def test_every_layout_is_answered_and_can_be_handed_out_as_data(name: str, load: str) -> None:
    found = check(small_car(name), Asked(load=load))  # type: ignore[arg-type]
    assert found.whole is not None
    assert found.failures
    json.dumps(document(found), allow_nan=False)


def test_no_brakes_at_all_are_asked_for_and_not_stumbled_over() -> None:
    found = check(BrakeSystem("empty", "Nothing yet"))
    assert found.whole is None
    assert found.problems or found.missing


def test_what_was_taken_as_usual_stands_beside_the_answer() -> None:
    found = check(as_built())
    gathered = gather(as_built())
    assert {one.path for one in found.assumed} == {one.path for one in gathered.assumed}
    assert all(one.mark and one.said for one in found.assumed)
    assert found.trust.usual == len(found.assumed)
    stated = found.trust.measured + found.trust.marked + found.trust.data_sheet
    assert stated + found.trust.assumed + found.trust.usual == len(gathered.figures)


def test_every_single_failure_is_in_one_of_the_groups() -> None:
    system = as_built()
    found = check(system)
    listed = [one.id for group in found.failures for one in group.elements]
    every = failures(system, gather(system).figures, 500.0, "laden")
    assert sorted(listed) == sorted(one.id for one in every)


def test_what_is_left_is_said_by_its_wheels_and_what_holds_it() -> None:
    by_id = {one.id: one for one in check(as_built()).failures}
    rear_lost, front_lost = by_id["leak-pipe-rear-circuit"], by_id["leak-pipe-front-circuit"]
    assert rear_lost.left == "fronts"
    assert front_lost.left == "rears, held to 21 bar"
    assert front_lost.verdict == "short of 2.9 m/s2"
    assert rear_lost.verdict == "meets 2.9 m/s2"
    one_line = check(as_it_left_the_works()).failures
    assert one_line[-1].left == "nothing but the parking brake"


def test_the_car_can_be_shown_with_any_of_its_failures() -> None:
    found = check(as_built(), Asked(failure="leak-hose-rear"))
    assert found.now is not None
    assert found.whole is not None
    assert found.now.deceleration_m_s2 < found.whole.deceleration_m_s2
    assert found.now.travel is not None
    assert any(piece.key == "run to the stop" for piece in found.now.travel.pieces)
    with pytest.raises(NotFound, match="no failure 'leak-nothing'"):
        check(as_built(), Asked(failure="leak-nothing"))


def test_the_pieces_of_the_travel_add_up_to_it() -> None:
    for failure in ("", "leak-pipe-front-circuit"):
        travel = check(as_built(), Asked(failure=failure)).now.travel  # type: ignore[union-attr]
        assert travel is not None
        pieces = sum(piece.length_m for piece in travel.pieces)
        assert pieces == pytest.approx(travel.total_m, abs=2e-5)
        assert travel.left_m == pytest.approx(travel.floor_m - travel.total_m)


def test_nothing_is_held_against_a_yardstick_that_nobody_picked() -> None:
    found = brake_check(as_built(), HEAD)
    assert found.verdicts == ()
    assert not found.yardsticks_chosen
    assert {one.verdict for one in found.failures} == {""}


def test_each_verdict_says_where_it_stands_and_how_far_that_was_read() -> None:
    found = brake_check(as_built(), HEAD, Asked(), YARDSTICKS.values())
    assert [one.id for one in found.verdicts] == list(YARDSTICKS)
    for one in found.verdicts:
        assert one.mark in one.cite
        assert one.state in {"meets", "short of", "not worked out"}


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ({"pedal_force_n": 0.0}, "no push of a foot"),
        ({"pedal_force_n": 9000.0}, "no push of a foot"),
        ({"load": "half laden"}, "'half laden' is none"),
        ({"friction_of_road": 5.0}, "no road"),
    ],
)
def test_what_cannot_be_asked_is_refused_in_words(asked: dict[str, object], words: str) -> None:
    with pytest.raises(BadInput, match=words):
        Asked(**asked)  # type: ignore[arg-type]


def test_half_a_circuit_is_answered_as_far_as_it_goes() -> None:
    system = as_built()
    loose = replace(system, lines=tuple(one for one in system.lines if one.id != "pipe-rear"))
    found = check(loose)
    assert found.whole is not None
    assert found.whole.rear_adhesion_used == 0.0
    assert any("bracket-rear" in one.about or "rear" in one.where for one in found.problems)
