"""The torque sheet with computed figures beside those that were given and read."""

from __future__ import annotations

from dataclasses import replace

from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.duty import Duty, LoadPath, Lubrication, Seat
from bareshell.model.part import Holding, Need
from bareshell.model.proof import AboutKind, Limit, Proof, ProofKind, Reading
from bareshell.model.spec import BoltSpec, UnionSpec
from bareshell.proofs.torque_sheet import TorqueRow, torque_sheet
from bareshell.whole.torques import bolt_torques, given_torques, wrenches
from tests.stories import NOW, later, small_car

OILED = Duty(LoadPath.FUEL, turns=False, seat=Seat.FIRM, lubrication=Lubrication.OILED)
M8 = BoltSpec(thread="M8x1.25", grade="8.8")  # 12.7 to 33.1 oiled, 19.1 as usual


def _need(name: str = "bolt", spec: BoltSpec | UnionSpec = M8, duty: Duty | None = OILED) -> Need:
    return Need(name, f"The {name}", "rear-hose", 2, spec=spec, fixing=True, duty=duty)


def _build(*needs: Need, given: tuple[Limit, ...] = (), fixings: tuple[str, ...] = ()) -> Build:
    proof = Proof("tight", "Bracket torqued", ProofKind.TORQUE, AboutKind.FIXING,
                  made_by=("rear-hose",), limits=given, fixings=fixings)  # fmt: skip
    return later(small_car(), *(c.NeedSet(one) for one in needs), c.ProofSet(proof))


def _row(build: Build) -> TorqueRow:
    return next(row for row in torque_sheet(build, NOW) if row.proof == "tight")


def _given(low: float, high: float, unit: str = "N m") -> tuple[Limit, ...]:
    return (Limit("torque", unit, low, high),)


def test_a_computed_figure_stands_beside_the_given_one() -> None:
    build = _build(_need(), given=_given(18, 22))
    (bolt,) = bolt_torques(build, _row(build))
    assert bolt.torque.words.startswith("19.1 N.m (14.1 lbf.ft); 12.7 to 33.1 N.m")
    assert bolt.said == ()
    assert wrenches(_row(build), [bolt]) == ("a wrench whose scale ends between 25 and 44 N.m",)


def test_a_given_figure_in_pound_feet_is_held_against_it_too() -> None:
    build = _build(_need(), given=_given(40, 42, "lbf ft"))
    (bolt,) = bolt_torques(build, _row(build))
    assert bolt.said[0].startswith("The given 54.2 to 56.9 N.m stands above the computed")
    assert len(bolt.said) == 2


def test_a_figure_read_on_the_wrench_is_held_against_it() -> None:
    build = _build(_need(), given=_given(18, 22))
    build = later(build, c.JobFinished("rear-pipe", 1), c.JobFinished("rear-hose", 1))
    build = later(build, c.ProofHeld("tight", (Reading("torque", 48, "N m", "big wrench"),)))
    (bolt,) = bolt_torques(build, _row(build))
    assert bolt.said[0].startswith("The 48 N.m read stands above the computed")


def test_what_the_need_does_not_say_is_read_from_the_one_on_the_shelf() -> None:
    build = _build(_need(spec=BoltSpec(thread="M8x1.25")))
    assert bolt_torques(build, _row(build))[0].torque.usual_nm is None

    shelf = later(build, c.HoldingSet(Holding("box", "Bolts", 4, M8, "bolt")))
    (bolt,) = bolt_torques(shelf, _row(shelf))
    assert bolt.torque.usual_nm is not None
    assert bolt.read_from == "box"

    for other in (Holding("box", "Bolts", 0, M8, "bolt"), Holding("box", "Bolts", 4, M8)):
        away = later(build, c.HoldingSet(other))
        assert bolt_torques(away, _row(away))[0].read_from == ""


def test_of_several_bolts_none_is_compared_with_one_figure() -> None:
    build = _build(_need(), _need("other"), given=_given(70, 80))
    found = bolt_torques(build, _row(build))
    assert [one.said for one in found] == [(), ()]

    named = _build(_need(), _need("other"), given=_given(70, 80), fixings=("bolt",))
    (bolt,) = bolt_torques(named, _row(named))
    assert bolt.said


def test_a_pipe_nut_keeps_the_figure_of_its_fitting() -> None:
    build = _build(_need(spec=UnionSpec(thread="M10x1.0"), duty=None))
    (bolt,) = bolt_torques(build, _row(build))
    assert bolt.torque.usual_nm is None
    assert "the fitting's own figure" in bolt.torque.mind[0]


def test_a_torque_in_the_words_of_the_ticket_is_the_given_one_where_the_proof_has_none() -> None:
    row = replace(_row(_build(_need())), lines=("bracket to strut, two M8: 22 N m",))
    assert given_torques(row) == ((22.0, 22.0),)
    assert given_torques(replace(row, figures=_given(18, 20))) == ((18.0, 20.0),)
    assert given_torques(replace(row, lines=("own figure",))) == ()
