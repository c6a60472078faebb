"""Trust told: shares, the worst combination spelled out, what to measure, and what is not known."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from bareshell.app.plain import document
from bareshell.brakes.examples import small_car
from bareshell.brakes.starters import STARTERS, starter
from bareshell.brakes.yardsticks import yardstick
from bareshell.demo.brake_built import as_built
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem
from bareshell.model.trust import Stated, Trust
from bareshell.units.show import IMPERIAL
from bareshell.whole.brake_check import Head, brake_check
from bareshell.whole.brake_trust import (
    TrustAsked,
    TrustedAnswer,
    TrustView,
    trust_view,
    with_shares,
)
from tests.brakes import edits as e

HEAD = Head(datetime(2026, 3, 4, 18, 0, tzinfo=UTC))
FEW = TrustAsked(count=400)
PICKED = [yardstick(name) for name in ("un-r13h-adhesion", "un-r13-circuit", "uk-mot-imbalance")]
ADHESION, WEIGHT, FACTOR = (
    "un-r13h-adhesion",
    "car.laden_front_share",
    "drum-rear-left.brake_factor",
)


def vague() -> BrakeSystem:
    """A car that nobody has weighed loaded, with rear brakes of unknown bite."""
    share = Stated(0.47, Trust.ASSUMED, 0.41, 0.54)
    system = e.with_part(small_car(), "car", figures={"laden_front_share": share})
    for side in ("left", "right"):
        bite = Stated(2.4, Trust.ASSUMED, 2.0, 2.8)
        system = e.with_part(system, f"drum-rear-{side}", figures={"brake_factor": bite})
    return system


def told(system: BrakeSystem, asked: TrustAsked = FEW) -> TrustView:
    return trust_view(system, HEAD, asked, PICKED)


def named(view: TrustView, name: str) -> TrustedAnswer:
    return next(one for one in view.answers if one.id == name)


VAGUE = told(vague(), TrustAsked(count=2000))


def test_each_answer_has_its_share_its_worst_and_what_would_settle_it() -> None:
    one = named(VAGUE, ADHESION)
    assert one.kind == "yardstick"
    assert one.state == "open"
    assert one.share_words == f"in {round(100 * (one.share or 0))} of 100 combinations"
    assert one.worst.endswith("of adhesion short")
    assert {each.path for each in one.settles[:2]} == {WEIGHT, FACTOR}
    assert "per cent of whether this is met" in one.settles[0].advice
    said = {each.path: each.range_said for each in one.settles}
    assert (said[WEIGHT], said[FACTOR]) == ("assumed, 41 % to 54 %", "assumed, 2 to 2.8")
    assert [each.share for each in one.settles] == sorted(
        (each.share for each in one.settles), reverse=True
    )


def test_the_worst_combination_spells_out_every_input_those_that_matter_first() -> None:
    one = named(VAGUE, ADHESION)
    paths = [each.path for each in one.worst_inputs]
    assert sorted(paths) == sorted(each.path for each in VAGUE.inputs)
    assert paths[: len(one.settles)] == [each.path for each in one.settles]
    told_at = {each.path: each for each in one.worst_inputs}
    # It lies at an end of both ranges that matter, and is said as people write it.
    share = told_at[WEIGHT].value
    assert min(share - 0.41, 0.54 - share) < 0.02
    assert told_at[WEIGHT].said == f"{100 * share:.3g} %"


def test_what_only_a_test_shows_has_no_share() -> None:
    one = named(VAGUE, "uk-mot-imbalance")
    assert (one.state, one.share, one.worst, one.settles) == ("not worked out", None, "", ())
    assert one.because == "only a roller test shows it"


def test_what_to_measure_first_names_the_answer_that_it_settles() -> None:
    first = VAGUE.measure_first[0]
    assert first.path == WEIGHT
    assert first.words == "share of the laden mass on the front axle (the car)"
    assert first.advice.startswith("weigh each axle loaded, or take the plated axle weights: ")
    assert '"distribution between the axles" (UN R13-H) is met' in first.advice
    assert [one.share for one in VAGUE.measure_first] == sorted(
        (one.share for one in VAGUE.measure_first), reverse=True
    )


def test_shares_stand_beside_the_verdicts_of_the_check() -> None:
    check = brake_check(vague(), HEAD, yardsticks=PICKED)
    beside = {one.id: one for one in with_shares(check.verdicts, VAGUE)}
    one, found = beside[ADHESION], named(VAGUE, ADHESION)
    assert (one.share, one.share_words, one.worst) == (found.share, found.share_words, found.worst)
    assert one.settles == f"{found.settles[0].words}; {found.settles[0].advice}"
    assert beside["uk-mot-imbalance"].share is None
    assert beside["uk-mot-imbalance"].words == "not worked out"


def test_the_same_seed_says_the_same_and_another_nearly() -> None:
    few = told(vague())
    assert told(vague()) == few
    other = told(vague(), TrustAsked(count=400, seed=5))
    shares = [named(view, ADHESION).share or 0.0 for view in (few, other)]
    assert named(few, ADHESION).worst_inputs != named(other, ADHESION).worst_inputs
    assert shares[0] == pytest.approx(shares[1], abs=0.12)


def test_on_ice_the_question_is_another() -> None:
    ice = told(vague(), TrustAsked(count=400, friction_of_road=0.1))
    margins = [named(view, "front-first-laden").worst_margin for view in (VAGUE, ice)]
    assert margins[0] != margins[1]
    assert "on a road of 0.1" in named(ice, "front-first-laden").because


def test_what_was_measured_is_no_longer_asked_for() -> None:
    weighed = {"laden_front_share": Stated(0.47, Trust.MEASURED)}
    view = told(e.with_part(vague(), "car", figures=weighed))
    assert view.unknowns == VAGUE.unknowns - 1
    assert WEIGHT not in {one.path for one in view.inputs}
    assert WEIGHT not in {one.path for one in view.measure_first}


def test_the_demo_is_told_whole() -> None:
    view = told(as_built())
    assert view.because == ""
    assert {one.kind for one in view.answers} == {"yardstick", "question"}
    assert view.measure_first


@pytest.mark.parametrize("name", STARTERS)
def test_a_starter_without_figures_asks_and_says_no_share(name: str) -> None:
    view = told(starter(name))
    assert view.missing
    assert all(one.share is None for one in view.answers)
    assert view.measure_first == ()
    json.dumps(document(view), allow_nan=False)


@pytest.mark.parametrize("name", STARTERS)
def test_every_layout_can_be_handed_out_as_data(name: str) -> None:
    view = told(small_car(name))
    assert view.because == ""
    assert all(one.share is not None for one in view.answers if one.kind == "question")
    assert [one.id for one in view.spans][:2] == ["slowing-driver-only", "slowing-laden"]
    json.dumps(document(view), allow_nan=False)


def test_ranges_that_hold_what_cannot_be_are_refused_in_words() -> None:
    system = small_car()
    for name in ("drum-rear-left", "drum-rear-right"):
        arms = {
            "lining_friction": Stated(0.4, Trust.ASSUMED, 0.3, 0.9),
            "actuation_arm_m": Stated(0.16),
            "pivot_arm_m": Stated(0.08),
            "friction_arm_m": Stated(0.14),
            "lining_arc_rad": Stated(1.9),
        }
        factor = {"factor": "from geometry"}
        system = e.with_part(system, name, figures=arms, choices=factor)
    view = told(system)
    assert view.answers == ()
    assert "rear" in view.because
    assert view.inputs


def test_nobody_picked_any() -> None:
    view = trust_view(as_built(), HEAD, FEW)
    assert not view.yardsticks_chosen
    assert {one.kind for one in view.answers} == {"question"}


def test_ranges_are_told_in_the_owners_units() -> None:
    view = trust_view(as_built(), replace(HEAD, preference=IMPERIAL), FEW, PICKED)
    said = {one.path: one.range_said for one in view.inputs}
    assert said["valve-rear.knee_pa"].endswith("psi")


@pytest.mark.parametrize(
    ("asked", "about"),
    [
        ({"count": 3}, "number of combinations"),
        ({"count": 10_000_000}, "number of combinations"),
        ({"seed": -1}, "seed"),
        ({"friction_of_road": 0.0}, "adhesion of the road"),
        ({"friction_of_road": float("nan")}, "adhesion of the road"),
    ],
)
def test_what_cannot_be_drawn_is_refused(asked: dict[str, float], about: str) -> None:
    with pytest.raises(BadInput) as refused:
        TrustAsked(**asked)  # type: ignore[arg-type]
    assert refused.value.problems[0].where == about
    assert refused.value.problems[0].remedy
