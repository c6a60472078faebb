"""May this stand in for that: what a fitter asks of pins and bolts, and what is never offered."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bareshell.model.duty import NO_STAINLESS, NO_STAND_IN, Duty, LoadPath
from bareshell.model.spec import BoltSpec, PinSpec, SealSpec, Spec
from bareshell.parts.relied_on import MOMENTS, moment_of
from bareshell.parts.stand_in import StandIn, StandInWord, judge_stand_in
from bareshell.parts.stand_in_parts import Enough, StandInLine
from tests.parts.shelves import GRADES, THREADS, any_spec

MM = 1e-3

PIN = PinSpec(diameter_m=8 * MM, grip_to_hole_m=18 * MM, material="mild steel", head="flat")
FORK = Duty(
    LoadPath.HANDBRAKE,
    load_n=1500.0,
    shear_planes=2,
    fork_ply_m=4 * MM,
    eye_ply_m=8 * MM,
    side_gap_m=0.5 * MM,
    hole_m=8.05 * MM,
    turns=True,
)
BOLT = BoltSpec(
    thread="M8", grip_length_m=17 * MM, length_m=30 * MM, grade="8.8", lock="nyloc", what="bolt"
)
HELD = BoltSpec(thread="M8", grip_length_m=17 * MM, length_m=30 * MM, grade="8.8", lock="nyloc")


def of(found: StandIn, check: str) -> StandInLine:
    """The line of a check."""
    return next(one for one in found.lines if one.check == check)


class TestBoltForPin:
    """A bolt where a clevis pin belongs."""

    def test_a_handbrake_pin_until_the_car_is_left_held_by_it(self) -> None:
        found = judge_stand_in(PIN, BOLT, FORK)
        assert found.says == "will do as a temp until the car is first left held by it"
        assert found.until is not None
        assert found.until.gate == "pushed-roll"
        assert "tight, it nips the fork" in of(found, "clamp").words

    def test_its_sums_are_those_of_the_handbooks(self) -> None:
        """Worked by hand.

        Shear 4F/(n pi d2) = 14.9 MPa; bending 750 N x (2 + 2 + 0.5 mm) = 3.38 N m, 67 MPa; bearing
        1500/(8 x 8) = 23 MPa.
        """
        found = judge_stand_in(PIN, BOLT, FORK)
        assert "= 15 MPa, of 0.6 x 800 MPa / 3 = 160 MPa allowed" in of(found, "shear").arithmetic
        assert "= 3.38 N m" in of(found, "bending").arithmetic
        assert "= 67 MPa, of 580 MPa / 1.5 = 387 MPa allowed" in of(found, "bending").arithmetic
        assert "= 23 MPa in the eye" in of(found, "bearing").arithmetic
        assert all(one.source for one in found.lines)

    def test_six_kilonewtons_on_eight_millimetres(self) -> None:
        """119 MPa in single shear, 60 in double: the worked example of pins in shear (read)."""
        single = replace(FORK, load_n=6000.0, shear_planes=1)
        assert "= 119 MPa" in of(judge_stand_in(PIN, PIN, single), "shear").arithmetic
        double = replace(FORK, load_n=6000.0)
        assert "= 60 MPa" in of(judge_stand_in(PIN, PIN, double), "shear").arithmetic

    def test_threads_in_the_shear_plane_count_by_their_root(self) -> None:
        found = judge_stand_in(PIN, replace(BOLT, grip_length_m=10 * MM), FORK)
        assert "the shank ends 3 mm before the last shear plane" in of(found, "shear").words
        assert "(6.466 mm)" in of(found, "shear").arithmetic
        assert of(found, "shank").state is Enough.FOR_NOW

    def test_a_screw_threaded_to_its_head_files_what_turns_on_it(self) -> None:
        found = judge_stand_in(PIN, replace(BOLT, what="set screw", grip_length_m=None), FORK)
        assert "files it away" in of(found, "shank").words
        assert found.word is StandInWord.TEMP

    def test_a_short_bolt_is_no_stand_in(self) -> None:
        found = judge_stand_in(PIN, replace(BOLT, length_m=20 * MM), FORK)
        assert found.says.startswith("will not do: length: short")

    def test_an_unmarked_bolt_promises_nothing(self) -> None:
        found = judge_stand_in(PIN, replace(BOLT, grade=None), FORK)
        assert found.word is StandInWord.NOT_KNOWN
        assert "read the mark on its head" in found.says

    def test_a_spring_washer_holds_no_nut_that_is_not_tightened(self) -> None:
        found = judge_stand_in(PIN, replace(BOLT, lock="spring washer"), FORK)
        assert "holds only under clamp" in found.says

    def test_a_bolt_that_rattles_in_the_hole(self) -> None:
        small = replace(BOLT, thread="1/4-28 UNF")
        assert "1.7 mm of play: it hammers" in judge_stand_in(PIN, small, FORK).says

    def test_a_load_that_is_too_much(self) -> None:
        found = judge_stand_in(PIN, BOLT, replace(FORK, load_n=20_000.0))
        assert found.word is StandInWord.WILL_NOT_DO
        assert of(found, "shear").state is Enough.NOT_ENOUGH

    def test_stainless_never_holds_the_handbrake(self) -> None:
        found = judge_stand_in(PIN, replace(BOLT, grade="A2-70"), FORK)
        assert found.says == "will not do: metal: stainless is not for handbrake"
        assert of(found, "metal").arithmetic.startswith("0.2 % proof 450 MPa")

    def test_without_a_load_it_is_held_against_the_right_pin(self) -> None:
        found = judge_stand_in(PIN, BOLT, Duty(LoadPath.HANDBRAKE, turns=True, shear_planes=2))
        assert "held against the right one" in of(found, "shear").words
        assert found.word is StandInWord.TEMP
        soft = judge_stand_in(PIN, replace(BOLT, grade="4.6", grip_length_m=None), FORK)
        assert of(soft, "shear").words.endswith("since its plain shank is not known")


class TestPinForBolt:
    """A pin where a bolt belongs."""

    def test_a_joint_that_was_clamped_loses_its_clamp(self) -> None:
        """0.75 x 580 MPa x 36.6 mm2 = 15.9 kN, x 0.2 = 3.2 kN a face (arithmetic by hand)."""
        found = judge_stand_in(HELD, PIN, Duty(LoadPath.SUSPENSION, turns=False))
        assert found.word is StandInWord.WILL_NOT_DO
        assert of(found, "clamp").arithmetic.endswith(
            "= 15.9 kN; x 0.2 = 3.2 kN a face, lost whole"
        )

    def test_a_pivot_bolt_may_be_a_pin_for_now_where_it_is_strong_enough(self) -> None:
        strong = replace(PIN, material="10.9", grip_to_hole_m=17 * MM)
        duty = Duty(LoadPath.CATCH, turns=True, fork_ply_m=4 * MM, eye_ply_m=9 * MM, shear_planes=2)
        found = judge_stand_in(HELD, strong, duty)
        assert found.says == "will do as a temp until the car first moves under its own power"
        weak = judge_stand_in(HELD, replace(strong, material="mild steel"), duty)
        assert weak.word is StandInWord.WILL_NOT_DO


class TestOtherBolts:
    """Longer, stronger, stainless, another thread."""

    HELD_STILL = Duty(LoadPath.SUSPENSION, turns=False)

    def test_a_stronger_one_fits_at_the_right_one_s_torque(self) -> None:
        found = judge_stand_in(HELD, replace(HELD, grade="10.9"), self.HELD_STILL)
        assert found.word is StandInWord.FITS
        assert "to the right one's torque" in of(found, "torque").words
        assert "never plate it at home" in of(found, "metal").words

    def test_a_weaker_one_clamps_less(self) -> None:
        found = judge_stand_in(HELD, replace(HELD, grade="4.6"), self.HELD_STILL)
        assert found.word is StandInWord.WILL_NOT_DO
        assert "clamps 39% of what the right one does" in found.says

    def test_the_torque_is_the_table_s(self) -> None:
        """M8 of 8.8: 25.5 N m dry, 19.1 oiled in a maker's table of T = K D F (read)."""
        found = judge_stand_in(HELD, HELD, self.HELD_STILL)
        assert "25 N m dry (K 0.2), 19 oiled (K 0.15)" in of(found, "torque").arithmetic

    def test_a_longer_one_is_watched_for_what_it_touches(self) -> None:
        found = judge_stand_in(HELD, replace(HELD, length_m=60 * MM), self.HELD_STILL)
        assert found.word is StandInWord.FITS
        assert "bottoms in no blind hole" in of(found, "length").words

    def test_a_longer_one_at_a_caliper_is_measured_first(self) -> None:
        """Ten millimetres more reach the disc, and nobody said what it goes through."""
        longer = replace(HELD, length_m=40 * MM)
        found = judge_stand_in(HELD, longer, Duty(LoadPath.CALIPER, turns=False))
        assert found.word is StandInWord.NOT_KNOWN
        assert "10 mm longer: measure what it goes through" in found.says
        trim = judge_stand_in(HELD, longer, Duty(LoadPath.BODY, turns=False))
        assert of(trim, "length").words.startswith("long: see that it touches nothing")

    def test_a_screw_threaded_to_its_head_is_no_bolt_with_a_shank(self) -> None:
        """Nobody measured the plies: the right one's shank of 17 mm says where it is cut.

        By hand: pi/4 x 8.0 mm squared x 480 MPa is 24.1 kN a plane, over the root of 6.466 mm
        15.8 kN.
        """
        screw = replace(HELD, what="set screw", grip_length_m=None)
        found = judge_stand_in(HELD, screw, self.HELD_STILL)
        assert found.word is StandInWord.WILL_NOT_DO
        assert "15.8 kN a plane (8.8, 6.466 mm) against 24.1 kN" in of(found, "shear").arithmetic
        assert "17 mm shorter than the right one" in of(found, "shear").words
        assert "measure the plies" in of(found, "shank").words
        trim = judge_stand_in(HELD, screw, Duty(LoadPath.BODY, turns=False))
        assert trim.word is StandInWord.FITS
        assert of(trim, "shank").state is Enough.MIND
        longer = judge_stand_in(HELD, replace(HELD, grip_length_m=22 * MM), self.HELD_STILL)
        assert "washers of 5 mm at least" in of(longer, "shank").words

    def test_stainless_for_trim_fits_and_galls(self) -> None:
        trim = Duty(LoadPath.BODY, turns=False)
        found = judge_stand_in(HELD, replace(HELD, grade="A2-70"), trim)
        assert found.word is StandInWord.FITS
        assert "galls" in of(found, "galling").words

    def test_another_thread_in_the_same_hole(self) -> None:
        found = judge_stand_in(HELD, replace(HELD, thread="5/16-18 UNC"), self.HELD_STILL)
        assert "jams within its first turn" in found.says

    def test_a_seal_is_no_stand_in_for_a_bolt(self) -> None:
        assert judge_stand_in(HELD, SealSpec(), None).word is StandInWord.WILL_NOT_DO

    def test_a_lock_that_holds_without_clamp_is_not_given_up(self) -> None:
        loose = replace(HELD, lock="spring washer")
        found = judge_stand_in(HELD, loose, self.HELD_STILL)
        assert "lets go once the clamp is lost" in found.says
        assert judge_stand_in(HELD, loose, Duty(LoadPath.BODY)).word is StandInWord.TEMP
        assert judge_stand_in(loose, HELD, self.HELD_STILL).word is StandInWord.FITS

    def test_a_nut_that_strips_before_its_bolt_is_tight(self) -> None:
        nut = BoltSpec(what="nut", thread="M10", grade="10", lock="nyloc")
        weak = judge_stand_in(nut, replace(nut, grade="8"), self.HELD_STILL)
        assert "its threads strip before its bolt is tight" in weak.says
        assert judge_stand_in(nut, replace(nut, grade="12"), self.HELD_STILL).word is (
            StandInWord.FITS
        )
        assert (
            "read the mark" in judge_stand_in(nut, replace(nut, grade=None), self.HELD_STILL).says
        )

    def test_another_head(self) -> None:
        hexagon = replace(HELD, head="hexagon")
        sunk = judge_stand_in(hexagon, replace(HELD, head="countersunk"), self.HELD_STILL)
        assert "bears on its edge only" in sunk.says
        cap = judge_stand_in(hexagon, replace(HELD, head="socket cap"), self.HELD_STILL)
        assert cap.word is StandInWord.FITS
        assert "a spanner gets to it" in of(cap, "head").words


class TestLongerPins:
    """Pins for pins."""

    def test_a_little_long_is_taken_up_with_washers(self) -> None:
        found = judge_stand_in(PIN, replace(PIN, grip_to_hole_m=20 * MM), FORK)
        assert found.word is StandInWord.FITS
        assert "with plain washers" in of(found, "grip").words

    def test_far_too_long_wanders(self) -> None:
        found = judge_stand_in(PIN, replace(PIN, grip_to_hole_m=25 * MM), FORK)
        assert found.word is StandInWord.TEMP

    def test_as_long_as_the_right_one_whatever_lies_under_its_washers(self) -> None:
        """The right pin is 18 mm to its hole and the plies 17: it was made with a washer."""
        long_duty = replace(FORK, eye_ply_m=4 * MM)
        assert of(judge_stand_in(PIN, PIN, long_duty), "grip").state is Enough.FOR_GOOD

    def test_a_hair_larger_than_the_right_one_asks_for_the_hole(self) -> None:
        """8 mm for 5/16 in: 0.06 mm more, which a worn or reamed hole takes and a new one not."""
        inch = replace(PIN, diameter_m=7.94 * MM)
        found = judge_stand_in(inch, PIN, replace(FORK, hole_m=None))
        assert found.says.startswith("not known: hole: 0.06 mm larger than the right one")
        assert judge_stand_in(inch, PIN, FORK).word is StandInWord.FITS
        tight = judge_stand_in(inch, PIN, replace(FORK, hole_m=7.95 * MM))
        assert tight.word is StandInWord.WILL_NOT_DO

    def test_four_tenths_under_in_its_bush(self) -> None:
        """Play 0.4 mm: it hammers, so only until the car is first left held by it."""
        thin = replace(PIN, diameter_m=7.6 * MM)
        found = judge_stand_in(PIN, thin, replace(FORK, hole_m=8.0 * MM))
        assert found.word is StandInWord.TEMP
        assert "hammers its hole wider" in of(found, "hole").words
        worn = judge_stand_in(PIN, thin, replace(FORK, hole_m=8.1 * MM))
        assert worn.word is StandInWord.WILL_NOT_DO

    def test_short_will_not_do(self) -> None:
        found = judge_stand_in(PIN, replace(PIN, grip_to_hole_m=15 * MM), FORK)
        assert found.says == "will not do: grip: short: its hole stays inside"

    def test_its_split_pin_is_part_of_it(self) -> None:
        """1.6 for 3.2 mm: (1.6/3.2)2 is a quarter of the wire (by hand)."""
        drilled = replace(PIN, hole_m=3.2 * MM)
        small = judge_stand_in(drilled, replace(PIN, hole_m=1.6 * MM), FORK)
        assert "too thin a split pin" in small.says
        assert of(small, "lock").arithmetic.endswith("= 25% of its wire")
        next_size = judge_stand_in(drilled, replace(PIN, hole_m=2.5 * MM), FORK)
        assert next_size.word is StandInWord.TEMP

    def test_the_right_one_fits(self) -> None:
        assert judge_stand_in(PIN, PIN, FORK).word is StandInWord.FITS


DUTIES = st.builds(
    Duty,
    load_path=st.none() | st.sampled_from(LoadPath),
    load_n=st.none() | st.floats(1, 20_000),
    shear_planes=st.sampled_from((None, 1, 2)),
    fork_ply_m=st.none() | st.floats(1 * MM, 10 * MM),
    eye_ply_m=st.none() | st.floats(1 * MM, 10 * MM),
    side_gap_m=st.none() | st.floats(0, 3 * MM),
    hole_m=st.none() | st.floats(5 * MM, 12 * MM),
    turns=st.sampled_from((None, True, False)),
)
BOLTS = st.builds(
    BoltSpec,
    thread=st.none() | st.sampled_from((*THREADS, "odd")),
    grip_length_m=st.none() | st.floats(0, 30 * MM),
    length_m=st.none() | st.floats(5 * MM, 60 * MM),
    grade=st.sampled_from((None, *GRADES, "shiny")),
    lock=st.sampled_from((None, "nyloc", "spring washer", "castle")),
    what=st.sampled_from((None, "bolt", "set screw", "nut")),
)
PINS = st.builds(
    PinSpec,
    diameter_m=st.none() | st.floats(4 * MM, 12 * MM),
    grip_to_hole_m=st.none() | st.floats(5 * MM, 40 * MM),
    material=st.sampled_from((None, "mild steel", "EN8", "8.8", "stainless", "odd")),
)
FIXINGS: st.SearchStrategy[Spec] = st.one_of(BOLTS, PINS)


class TestAlways:
    """What holds for any two fixings and any joint."""

    @given(wanted=FIXINGS, offered=FIXINGS, duty=DUTIES)
    @settings(max_examples=300, deadline=None)
    def test_no_temp_ever_in_pedal_steering_or_caliper(
        self, wanted: Spec, offered: Spec, duty: Duty
    ) -> None:
        for path in NO_STAND_IN:
            found = judge_stand_in(wanted, offered, replace(duty, load_path=path))
            assert found.word is not StandInWord.TEMP

    @given(wanted=FIXINGS, offered=FIXINGS, duty=DUTIES)
    @settings(max_examples=300, deadline=None)
    def test_a_temp_always_ends_at_a_named_moment(
        self, wanted: Spec, offered: Spec, duty: Duty
    ) -> None:
        found = judge_stand_in(wanted, offered, duty)
        assert (found.word is StandInWord.TEMP) == (found.until is not None)
        if found.until is not None:
            assert duty.load_path in MOMENTS
            assert found.until.words in found.says
        assert found.says

    @given(wanted=FIXINGS, offered=FIXINGS)
    @settings(max_examples=150, deadline=None)
    def test_nothing_stands_in_where_nobody_said_what_for(
        self, wanted: Spec, offered: Spec
    ) -> None:
        for duty in (None, Duty()):
            assert judge_stand_in(wanted, offered, duty).word is not StandInWord.TEMP

    @given(wanted=FIXINGS, offered=FIXINGS, duty=DUTIES, more=st.floats(1, 10))
    @settings(max_examples=200, deadline=None)
    def test_a_greater_load_is_never_borne_better(
        self, wanted: Spec, offered: Spec, duty: Duty, more: float
    ) -> None:
        if duty.load_n is None:
            return
        order = (StandInWord.WILL_NOT_DO, StandInWord.NOT_KNOWN, StandInWord.TEMP, StandInWord.FITS)
        less = judge_stand_in(wanted, offered, duty).word
        loaded = judge_stand_in(wanted, offered, replace(duty, load_n=duty.load_n * more)).word
        assert order.index(loaded) <= order.index(less)

    @given(spec=any_spec("pin", whole=True))
    @settings(max_examples=50, deadline=None)
    def test_the_right_pin_fits_wherever_nothing_else_is_known(self, spec: Any) -> None:
        assert judge_stand_in(spec, spec, None).word is StandInWord.FITS

    @given(wanted=PINS, offered=BOLTS, duty=DUTIES)
    @settings(max_examples=150, deadline=None)
    def test_stainless_never_in_a_load_path_that_lives_hang_on(
        self, wanted: PinSpec, offered: BoltSpec, duty: Duty
    ) -> None:
        steel = replace(wanted, material="EN8")
        for path in NO_STAINLESS:
            found = judge_stand_in(
                steel, replace(offered, grade="A2-70", what="bolt"), replace(duty, load_path=path)
            )
            assert found.word is StandInWord.WILL_NOT_DO

    def test_every_load_path_ends_somewhere_or_takes_nothing(self) -> None:
        assert set(MOMENTS) | NO_STAND_IN == set(LoadPath)
        assert not set(MOMENTS) & NO_STAND_IN

    @pytest.mark.parametrize("path", sorted(MOMENTS))
    def test_an_owner_may_name_an_earlier_gate(self, path: LoadPath) -> None:
        moment = moment_of(Duty(path, gate="engine-bay"))
        assert moment is not None
        assert moment.gate == "engine-bay"
