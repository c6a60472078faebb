"""The list of yardsticks: where each stands, how far it was read, and for which cars it was meant.

What is *read* here was read in the source named; what is *from memory* agrees with its own
arithmetic and no more.
"""

from __future__ import annotations

import re
from datetime import date

import pytest

from bareshell.brakes.yardstick import (
    KMH,
    MPH,
    Adhesion,
    Effort,
    Even,
    Hold,
    Hot,
    LockOrder,
    Slow,
    Subject,
)
from bareshell.brakes.yardsticks import (
    CAUTIONS,
    FAMILIES,
    MARKETS,
    YARDSTICKS,
    chosen,
    suggested,
    yardstick,
)
from bareshell.errors import BadInput, NotFound
from bareshell.sources import SOURCES

UK = "United Kingdom"
EVERY = [pytest.param(each, id=each.id) for each in YARDSTICKS.values()]


def ids(market: str, first_used: date | None, **layout: bool) -> set[str]:
    return {each.yardstick.id for each in suggested(market, first_used, **layout)}


# ------------------------------------------------------------------------ every one of them


@pytest.mark.parametrize("one", EVERY)
def test_each_says_where_it_stands_and_how_far_it_was_read(one) -> None:  # type: ignore[no-untyped-def]  # noqa: ANN001
    assert one.source_id in SOURCES
    assert one.jurisdiction
    assert one.edition
    assert one.clause
    assert one.words[0].islower() or one.words[0].isdigit()
    assert one.mark in one.cite()
    assert re.fullmatch(r"[a-z0-9-]+", one.id)
    if one.mark == "read":  # nothing is read in a source that was not
        assert SOURCES[one.source_id].mark == "read"


@pytest.mark.parametrize("one", EVERY)
def test_what_it_says_is_what_it_asks(one) -> None:  # type: ignore[no-untyped-def]  # noqa: ANN001
    asks, words = one.asks, one.words
    match asks:
        case Effort(least=least) | Even(least=least):
            assert f"{100 * least:.0f} %" in words
        case Hold(slope=slope) if slope is not None:
            assert f"{100 * slope:.0f} %" in words
        case Slow(least_m_s2=least) if least is not None and "m/s2" in words:
            assert f"{least:g} m/s2" in words or f"{least:.1f} m/s2" in words
        case Hot(of_cold=share):
            assert f"{100 * share:.0f}" in words
        case Adhesion(slope=slope):
            assert f"0.1 + {slope:g} (k - 0.2)" in words
        case LockOrder(from_z=low):
            assert f"{low:.2f}" in words


def test_there_is_something_of_every_subject_and_every_regulation() -> None:
    assert {each.subject for each in YARDSTICKS.values()} == set(Subject)
    assert set(FAMILIES) == {
        "UN R13-H",
        "UN R13, for cars before 13-H",
        "UN R13, for vehicles other than cars",
        "FMVSS 135",
        "FMVSS 105",
        "UK annual inspection",
        "UK construction rules",
        "StVZO s.41",
    }
    assert {family for families in MARKETS.values() for family in families} <= set(FAMILIES)
    assert any("no approval" in caution for caution in CAUTIONS)


def test_an_id_that_is_not_there_is_refused() -> None:
    with pytest.raises(NotFound, match="no yardstick 'un-r99'"):
        yardstick("un-r99")
    with pytest.raises(NotFound):
        chosen(["uk-mot-service", "nothing"])


def test_those_picked_come_in_the_order_of_the_list() -> None:
    picked = ["uk-mot-service", "un-r13-circuit", "un-r13-service"]
    assert [each.id for each in chosen(picked)] == [
        "un-r13-service",
        "un-r13-circuit",
        "uk-mot-service",
    ]
    assert [each.id for each in chosen(picked, Subject.CIRCUIT)] == ["un-r13-circuit"]


# ------------------------------------------------------------------------ published figures


@pytest.mark.parametrize(
    ("one", "metres", "coefficient"),
    [
        ("un-r13h-service", 70, 0.0060),  # from memory; coefficients read second-hand
        ("un-r13h-circuit", 168, 0.0158),
        ("un-r13h-servo", 168, 0.0158),
        ("fmvss-135-cold", 70, 0.0060),  # read: interpretation letter 11409.MLS
        ("fmvss-135-circuit", 168, 0.0158),  # from memory
        ("fmvss-135-servo", 168, 0.0158),
        ("fmvss-135-valve", 110, 0.0100),
    ],
)
def test_distances_from_a_hundred(one: str, metres: int, coefficient: float) -> None:
    asks = yardstick(one).asks
    assert isinstance(asks, Slow)
    assert asks.speed_m_s == pytest.approx(100 * KMH)
    assert asks.distance_m() == pytest.approx(metres, abs=0.5)
    assert round(0.1 * 100 + coefficient * 100**2) == metres
    assert asks.steady_m_s2 == pytest.approx(1 / (2 * coefficient * 12.96), rel=5e-3)


def test_the_older_regulation_from_eighty() -> None:
    """Secondary (read): 0.1 v + 2 v2 / 150 and 2.9; service (from memory): 0.1 v + v2/150, 5.8."""
    secondary, service = yardstick("un-r13-circuit").asks, yardstick("un-r13-service").asks
    assert isinstance(secondary, Slow)
    assert isinstance(service, Slow)
    assert (secondary.steady_m_s2, service.steady_m_s2) == (2.9, 5.8)
    assert secondary.distance_m() == pytest.approx(8 + 2 * 6400 / 150)
    assert service.distance_m() == pytest.approx(8 + 6400 / 150)
    assert round(150 / 25.92, 3) == 5.787


def test_hot_brakes() -> None:
    """R13-H, from memory: 75 % of 6.43 is 4.82; FMVSS 135, read: 60 % of the best cold stop."""
    asks = yardstick("un-r13h-hot").asks
    assert isinstance(asks, Hot)
    assert asks.least_m_s2 == pytest.approx(0.75 * 6.43, abs=0.005)
    assert asks.of_cold == 0.60
    again = yardstick("fmvss-135-recovery").asks
    assert isinstance(again, Hot)
    assert (again.of_cold, again.most_of_cold) == (0.70, 1.50)


def test_germany() -> None:
    """StVZO s.41, read in full: 5.0, of which 44 % is 2.2; 3.5 up to 25 km/h; 1.5 parked."""
    figures = {
        one: yardstick(one).asks.steady_m_s2  # type: ignore[union-attr]
        for one in (
            "de-stvzo-service",
            "de-stvzo-circuit",
            "de-stvzo-service-slow",
            "de-stvzo-parking-moving",
        )
    }
    assert list(figures.values()) == pytest.approx([5.0, 2.2, 3.5, 1.5])
    assert {yardstick(one).mark for one in figures} == {"read"}


def test_the_first_american_rule() -> None:
    """Read in a letter of 29 April 1970: 20 ft/s2 from 60 mph, 194 ft (193.6 exactly)."""
    asks = yardstick("fmvss-105-1968-service").asks
    assert isinstance(asks, Slow)
    assert asks.least_m_s2 == pytest.approx(20 * 0.3048)
    assert round((60 * MPH) ** 2 / (2 * 20 * 0.3048) / 0.3048, 1) == 193.6
    assert asks.most_distance_m == pytest.approx(194 * 0.3048)
    old = yardstick("fmvss-105-parking")
    assert old.asks == Hold(0.30, 5.0)
    assert old.forces.most_foot_n == pytest.approx(556, abs=0.5)
    assert old.forces.most_hand_n == pytest.approx(400, abs=0.5)


def test_the_british_inspection() -> None:
    """MOT manual section 1, read in full."""
    efforts = {
        each.id: each.asks.least
        for each in YARDSTICKS.values()
        if each.family == "UK annual inspection" and isinstance(each.asks, Effort)
    }
    assert efforts == {
        "uk-mot-service-2010": 0.58,
        "uk-mot-service": 0.50,
        "uk-mot-first-control": 0.30,
        "uk-mot-second-control": 0.25,
        "uk-mot-secondary": 0.25,
        "uk-mot-parking": 0.16,
    }
    imbalance = yardstick("uk-mot-imbalance").asks
    assert isinstance(imbalance, Even)
    assert imbalance.least == 0.70
    assert imbalance.left_aside_below_n == pytest.approx(40 * 9.80665)


def test_what_the_hand_and_the_foot_may_do() -> None:
    assert yardstick("un-r13h-service").forces.least_foot_n == 65.0
    for one in ("un-r13h-service", "un-r13h-circuit", "fmvss-135-cold", "un-r13-circuit"):
        assert yardstick(one).forces.most_foot_n == 500.0
    for one in ("un-r13h-parking", "fmvss-135-parking"):
        assert yardstick(one).forces.most_hand_n == 400.0


# ------------------------------------------------------------------------ suggestions


@pytest.mark.parametrize(
    ("first_used", "service"),
    [
        (date(2010, 9, 1), "uk-mot-service-2010"),
        (date(2010, 8, 31), "uk-mot-service"),
        (date(1967, 12, 31), "uk-mot-service"),
    ],
)
def test_the_age_of_a_british_car(first_used: date, service: str) -> None:
    found = ids(UK, first_used)
    assert {one for one in found if one.startswith("uk-mot-service")} == {service}


def test_two_controls_are_for_old_cars_with_none_on_four_wheels() -> None:
    old = ids(UK, date(1930, 1, 1), one_control_on_four_wheels=False)
    assert {"uk-mot-first-control", "uk-mot-second-control"} <= old
    assert "uk-mot-service" not in old
    newer = ids(UK, date(1968, 1, 1), one_control_on_four_wheels=False)
    assert not {"uk-mot-first-control", "uk-mot-second-control"} & newer
    assert "uk-mot-1915" in ids(UK, date(1914, 12, 31))
    assert "uk-mot-1915" not in ids(UK, date(1915, 1, 1))


def test_a_single_line_has_its_own_rule_and_no_second_parking_test() -> None:
    single = ids(UK, date(1955, 1, 1), single_line=True)
    split = ids(UK, date(1972, 1, 1), single_line=False)
    nobody_said = ids(UK, date(1972, 1, 1))
    assert "uk-mot-secondary" in single
    assert "uk-mot-parking" not in single
    assert "uk-mot-secondary" not in split
    assert "uk-mot-parking" in split
    assert {"uk-mot-secondary", "uk-mot-parking"} <= nobody_said


def test_mechanical_hold_is_asked_from_1968() -> None:
    assert "uk-mot-parking-hold" in ids(UK, date(1968, 1, 1))
    assert "uk-mot-parking-hold" not in ids(UK, date(1967, 12, 31))


def test_an_age_that_nobody_knows_leaves_nothing_out() -> None:
    unknown = suggested("European Union", None)
    assert {each.yardstick.family for each in unknown} == {
        "UN R13-H",
        "UN R13, for cars before 13-H",
    }
    assert all("hangs on the day of first use" in each.because for each in unknown)
    seventies = ids("European Union", date(1976, 6, 1))
    assert "un-r13-circuit" in seventies
    assert "un-r13h-circuit" not in seventies
    assert "un-r13h-circuit" in ids("European Union", date(2010, 6, 1))
    assert "un-r13-circuit" not in ids("European Union", date(2010, 6, 1))


def test_american_rules_follow_one_another() -> None:
    first, second, third = (ids("United States", date(year, 6, 1)) for year in (1970, 1980, 2005))
    assert first == {"fmvss-105-1968-service"}
    assert second == {"fmvss-105-service", "fmvss-105-circuit", "fmvss-105-parking"}
    assert third
    assert all(one.startswith("fmvss-135") for one in third)


def test_a_market_that_is_not_known_is_refused() -> None:
    with pytest.raises(BadInput, match="United Kingdom, Germany, European Union, United States"):
        suggested("Atlantis", None)
