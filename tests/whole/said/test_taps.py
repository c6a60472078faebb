"""Taps make the same changes as lines, with the same questions."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bareshell.errors import BadInput, NotFound
from bareshell.model import changes as c
from bareshell.whole.said.taps import Tap, TapAction, offered_hours, tapped
from bareshell.whole.said.understand import understand
from tests.whole.said.invented_builds import (
    AT,
    TONIGHT,
    ZONE,
    build_under_pressure,
    kept,
    small_build,
)
from tests.whole.said.telling import told

SMALL = small_build()


def tap(job: str, action: TapAction, **more: object) -> Tap:
    return Tap(job, action, **more)  # type: ignore[arg-type]


def test_a_tap_and_a_line_record_the_same() -> None:
    by_tap = tapped([tap("heater-fit", TapAction.FINISHED, hours=2.5)], SMALL, AT, ZONE)
    by_line = understand("heater in 2.5 h", SMALL, TONIGHT, AT, ZONE)
    assert told(by_tap) == told(by_line) == ("done heater-fit 2.5 h",)
    assert by_tap.heard[0].sentence == by_line.heard[0].sentence


def test_taps_keep_the_order_in_which_they_were_tapped() -> None:
    taps = [
        tap("heater-fit", TapAction.FINISHED),
        tap("", TapAction.PROOF_HELD, proof="matrix", figure="1 bar", held_hours=0.2),
    ]
    understood = tapped(taps, SMALL, AT, ZONE)
    assert told(understood) == ("done heater-fit", "held matrix 1 bar 0.2 h")
    assert "stays covered, unproven" in understood.heard[1].sentence


def test_a_stop_tells_hours_and_what_is_left() -> None:
    taps = [tap("fuse-box", TapAction.STOP, hours=0.75, hours_left=1.0)]
    assert told(tapped(taps, SMALL, AT, ZONE)) == ("worked fuse-box 0.75 h, 1 h left",)


def test_a_tap_of_a_proof_holds_its_figure_against_the_limit() -> None:
    good = [tap("", TapAction.PROOF_HELD, proof="earth", figure="0.05 ohm")]
    assert told(tapped(good, SMALL, AT, ZONE)) == ("held earth 0.05 ohm",)
    bare = [tap("", TapAction.PROOF_HELD, proof="earth", figure="0.05")]
    assert told(tapped(bare, SMALL, AT, ZONE)) == ("held earth 0.05 ohm",)
    bad = tapped([tap("", TapAction.PROOF_HELD, proof="earth", figure="0.4 ohm")], SMALL, AT, ZONE)
    assert told(bad) == ()
    assert "limit is resistance at most 0.1 ohm" in bad.asked[0].question
    begun = [tap("", TapAction.PROOF_BEGUN, proof="rear-tee", figure="1030 psi")]
    assert told(tapped(begun, SMALL, AT, ZONE)) == ("begun rear-tee 71.02 bar",)


def test_a_start_that_a_rule_forbids_is_recorded_as_begun_and_says_the_rule() -> None:
    understood = tapped([tap("heater-fit", TapAction.START)], SMALL, AT, ZONE)
    assert told(understood) == ("worked heater-fit",)
    assert "would hide an unproven joint" in understood.heard[0].sentence


def test_taps_of_nothing_the_build_has_are_refused() -> None:
    with pytest.raises(NotFound, match="no job 'no-such'"):
        tapped([tap("no-such", TapAction.START)], SMALL, AT, ZONE)
    with pytest.raises(NotFound, match="no proof 'no-such'"):
        tapped([tap("", TapAction.PROOF_HELD, proof="no-such")], SMALL, AT, ZONE)
    with pytest.raises(BadInput, match="hours of 'Fit fuse box"):
        tapped([tap("fuse-box", TapAction.STOP, hours=-1)], SMALL, AT, ZONE)
    with pytest.raises(BadInput, match="is no figure"):
        tapped([tap("", TapAction.PROOF_HELD, proof="earth", figure="low")], SMALL, AT, ZONE)


def test_a_stop_offers_the_hours_since_the_start() -> None:
    started = AT - timedelta(hours=1, minutes=17)
    build = kept([(started, c.JobStarted("fuse-box"))], SMALL)
    assert offered_hours(build, "fuse-box", AT) == pytest.approx(1.25)
    stopped = kept([(AT - timedelta(minutes=5), c.JobWorked("fuse-box", 1.2))], build)
    assert offered_hours(stopped, "fuse-box", AT) is None, "it was stopped already"
    assert offered_hours(SMALL, "fuse-box", AT) is None
    assert offered_hours(build, "fuse-box", AT + timedelta(days=1)) is None
    assert offered_hours(build, "no-such", AT) is None


def test_a_hold_that_runs_can_be_read_by_a_tap() -> None:
    morning = AT + timedelta(hours=12)
    taps = [tap("lines-hold", TapAction.PROOF_HELD, proof="rear-tee", figure="71 bar")]
    understood = tapped(taps, build_under_pressure(), morning, ZONE)
    assert told(understood) == ("held rear-tee 71 bar 36 h",)
