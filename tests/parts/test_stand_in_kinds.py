"""May this stand in for that, beyond bolts and pins: what a restorer asks of every other kind."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bareshell.model.duty import NO_STAND_IN, Duty, LoadPath
from bareshell.model.spec import (
    BearingSpec,
    BoltSpec,
    CableSpec,
    CaliperSpec,
    ElectricalSpec,
    GlassSpec,
    GoodsSpec,
    HoseSpec,
    MasterCylinderSpec,
    PipeSpec,
    PlainSpec,
    RubberSpec,
    SealSpec,
    Spec,
    SplitPinSpec,
    UnionSpec,
)
from bareshell.parts import FitWord, check_fit, match_all
from bareshell.parts.stand_in import StandIn, StandInWord, judge_stand_in
from bareshell.parts.stand_in_parts import Enough, StandInLine
from tests.parts.shelves import KINDS, any_spec

MM = 1e-3
TEMP, FITS = StandInWord.TEMP, StandInWord.FITS
NEVER, ASK = StandInWord.WILL_NOT_DO, StandInWord.NOT_KNOWN
HANDBRAKE = Duty(LoadPath.HANDBRAKE)


def of(found: StandIn, check: str) -> StandInLine:
    """The line of a check."""
    return next(one for one in found.lines if one.check == check)


class TestSplitPins:
    """The thinnest thing that a handbrake hangs on."""

    RIGHT = SplitPinSpec(diameter_m=3.2 * MM, length_m=25 * MM)

    def test_one_size_thinner_is_looked_at_until_it_is_relied_on(self) -> None:
        """2.5 mm for 3.2: (2.5/3.2)2 = 61 % of the wire (by hand)."""
        thin = SplitPinSpec(diameter_m=2.5 * MM, length_m=25 * MM)
        found = judge_stand_in(self.RIGHT, thin, HANDBRAKE)
        assert found.says == "will do as a temp until the car is first left held by it"
        assert of(found, "diameter").arithmetic.endswith("= 61% of its wire")

    def test_half_as_thick_will_not_do(self) -> None:
        thin = SplitPinSpec(diameter_m=1.6 * MM, length_m=25 * MM)
        found = judge_stand_in(self.RIGHT, thin, HANDBRAKE)
        assert found.word is NEVER
        assert "= 25% of its wire" in of(found, "diameter").arithmetic

    def test_a_thicker_one_is_never_drilled_for(self) -> None:
        thick = SplitPinSpec(diameter_m=4.0 * MM, length_m=25 * MM)
        assert "never drill the hole" in judge_stand_in(self.RIGHT, thick, HANDBRAKE).says

    def test_a_short_one_cannot_be_bent_round(self) -> None:
        short = SplitPinSpec(diameter_m=3.2 * MM, length_m=16 * MM)
        assert "cannot be bent round" in judge_stand_in(self.RIGHT, short, HANDBRAKE).says

    def test_nobody_said_what_hangs_on_it(self) -> None:
        thin = SplitPinSpec(diameter_m=2.5 * MM, length_m=25 * MM)
        assert judge_stand_in(self.RIGHT, thin, None).word is ASK
        for path in NO_STAND_IN:
            assert judge_stand_in(self.RIGHT, thin, Duty(path)).word is NEVER


class TestPipesAndHoses:
    """What holds fluid."""

    HOSE = HoseSpec(thread_a="M10x1", thread_b="3/8-24 UNF", free_length_m=330 * MM)

    def test_another_thread_goes_in_by_an_adaptor_only(self) -> None:
        found = judge_stand_in(UnionSpec(thread="M10x1"), UnionSpec(thread="3/8-24 UNF"), None)
        assert found.says == "will do as a temp until fuel or fluid first stands in it"
        words = of(found, "thread").words
        assert words.startswith("never straight in (it starts, and jams after about 5 turns)")
        assert "one more joint to be proved dry" in words

    def test_the_seat_is_not_mended_by_an_adaptor(self) -> None:
        wanted = UnionSpec(thread="M10x1", seat="cone")
        found = judge_stand_in(wanted, UnionSpec(thread="M10x1", seat="flat, washer"), None)
        assert found.word is NEVER
        assert "the seat does not" in found.says

    def test_a_hose_that_is_longer_lays_the_pipes_out(self) -> None:
        turned = HoseSpec(thread_a="3/8-24 UNF", thread_b="M10x1", free_length_m=360 * MM)
        found = judge_stand_in(self.HOSE, turned, None)
        assert found.word is TEMP
        assert of(found, "free length").arithmetic == "30 mm over 330 mm = 9%"

    def test_far_longer_or_shorter_will_not_do(self) -> None:
        for length, words in ((430, "30% too long"), (310, "pulls tight at full droop")):
            offered = HoseSpec(thread_a="M10x1", thread_b="3/8-24 UNF", free_length_m=length * MM)
            assert words in judge_stand_in(self.HOSE, offered, None).says

    def test_never_in_the_load_path_of_a_caliper(self) -> None:
        longer = HoseSpec(thread_a="M10x1", thread_b="3/8-24 UNF", free_length_m=350 * MM)
        assert judge_stand_in(self.HOSE, longer, Duty(LoadPath.CALIPER)).word is NEVER

    def test_plain_hose_is_cut(self) -> None:
        wanted = HoseSpec(free_length_m=300 * MM, bore_m=16 * MM, carries="coolant")
        longer = HoseSpec(free_length_m=900 * MM, bore_m=16 * MM, carries="coolant")
        assert judge_stand_in(wanted, longer, None).word is FITS
        bent = replace(wanted, shape="one bend, 90 degrees")
        moulded = judge_stand_in(bent, replace(longer, shape=bent.shape), None)
        assert "its bends come where they were" in of(moulded, "free length").words
        fuel = HoseSpec(free_length_m=300 * MM, bore_m=16 * MM, carries="vacuum")
        assert "swells, hardens or dissolves" in judge_stand_in(wanted, fuel, None).says

    @pytest.mark.parametrize(
        ("wanted", "found", "word"),
        [
            ("steel", "copper-nickel", FITS),
            ("cupro nickel", "copper-nickel", FITS),
            ("copper-nickel", "plain copper", NEVER),
            ("steel", "stainless steel", TEMP),
        ],
    )
    def test_pipe_of_another_metal(self, wanted: str, found: str, word: StandInWord) -> None:
        """Common practice, no source."""
        right, other = (
            PipeSpec(outside_diameter_m=4.75 * MM, material=one) for one in (wanted, found)
        )
        assert judge_stand_in(right, other, None).word is word

    def test_a_joiner_is_one_more_joint(self) -> None:
        found = judge_stand_in(PipeSpec(length_m=2.0), PipeSpec(length_m=1.5), None)
        assert "one more joint to prove" in found.says


class TestCylinders:
    """Nothing stands in, and the sum says what it would have done."""

    def test_a_larger_master_cylinder(self) -> None:
        """22.2 for 19.05 mm: 1.358 of the area, 74 % of the pressure for one foot (by hand)."""
        found = judge_stand_in(
            MasterCylinderSpec(bore_m=19.05 * MM), MasterCylinderSpec(bore_m=22.2 * MM), None
        )
        assert found.word is NEVER
        assert "74% of the pressure for the same foot" in of(found, "bore").words
        assert "nothing stands in here" in of(found, "kind").words

    def test_a_caliper_of_the_other_hand(self) -> None:
        found = judge_stand_in(CaliperSpec(hand="left"), CaliperSpec(hand="right"), None)
        assert found.word is NEVER
        assert "left or right" in found.says


class TestCircuits:
    """A fuse never larger, a wire never thinner."""

    def fuse(self, amps: float) -> ElectricalSpec:
        return ElectricalSpec(what="blade fuse", amps=amps)

    def test_a_larger_fuse_neither_fits_nor_stands_in(self) -> None:
        wanted, large = self.fuse(10), self.fuse(20)
        assert check_fit(wanted, large).word is FitWord.WILL_NOT_DO
        assert match_all([wanted], [large, self.fuse(10)]).fits == ((1,),)
        assert "the wire burns before it blows" in judge_stand_in(wanted, large, None).says

    def test_a_smaller_fuse_may_blow_and_nothing_burns(self) -> None:
        found = judge_stand_in(self.fuse(10), self.fuse(7.5), None)
        assert found.says == "will do as a temp until the car first goes on the road"
        assert of(found, "amps").arithmetic == "7.5 A against 10 A = 75%"

    def test_a_relay_may_bear_more_and_not_less(self) -> None:
        relay = ElectricalSpec(what="relay", amps=30, volts=12)
        assert (
            check_fit(relay, ElectricalSpec(what="relay", amps=40, volts=12)).word is FitWord.FITS
        )
        weak = ElectricalSpec(what="relay", amps=20, volts=12)
        assert judge_stand_in(relay, weak, None).word is NEVER
        assert (
            "another voltage"
            in judge_stand_in(relay, ElectricalSpec(what="relay", amps=30, volts=24), None).says
        )

    def test_wire_by_its_copper(self) -> None:
        """1.5 of 2.5 mm2 is 60 % of the copper and 1.7 times the resistance (by hand)."""
        wanted = ElectricalSpec(what="cable", area_mm2=2.5, colour="red")
        thick = ElectricalSpec(what="cable", area_mm2=4.0, colour="red")
        assert check_fit(wanted, thick).word is FitWord.FITS
        thin = ElectricalSpec(what="cable", area_mm2=1.5, colour="red")
        found = judge_stand_in(wanted, thin, None)
        assert found.word is NEVER
        assert of(found, "cross-section").arithmetic == (
            "1.5 of 2.5 mm\u00b2 = 60% of its copper, 1.7 times its resistance"
        )
        blue = ElectricalSpec(what="cable", area_mm2=2.5, colour="blue")
        assert judge_stand_in(wanted, blue, None).word is FITS
        assert "sleeve both ends red" in of(judge_stand_in(wanted, blue, None), "colour").words

    def test_a_lamp_of_other_watts(self) -> None:
        lamp = ElectricalSpec(what="lamp", volts=12, watts=21)
        dim, hot = (ElectricalSpec(what="lamp", volts=12, watts=w) for w in (5, 55))
        assert judge_stand_in(lamp, dim, None).word is TEMP
        assert "made for less" in judge_stand_in(lamp, hot, None).says


class TestTheRest:
    """Bearings, seals, cables, rubber, glass, goods."""

    def test_a_bearing_of_another_number_and_the_same_sizes(self) -> None:
        bearing = BearingSpec(number="6205", inside_m=25 * MM, outside_m=52 * MM, width_m=15 * MM)
        sealed = replace(bearing, number="6205-2RS")
        found = judge_stand_in(bearing, sealed, Duty(LoadPath.WHEEL))
        assert found.word is FITS
        assert "compare its seals and its clearance" in of(found, "number").words

    def test_a_seal_of_a_rubber_that_its_oil_swells(self) -> None:
        drive = Duty(LoadPath.DRIVE)
        nitrile, epdm, fkm = (SealSpec(inside_m=0.04, material=m) for m in ("NBR", "EPDM", "FKM"))
        assert judge_stand_in(nitrile, epdm, drive).word is NEVER
        assert judge_stand_in(nitrile, fkm, drive).word is FITS

    def test_a_cable_by_what_is_left_of_its_inner(self) -> None:
        """1500 less 1200 is 300; 1560 less 1250 is 310: 10 mm for the adjuster (by hand)."""
        wanted = CableSpec(inner_length_m=1.5, outer_length_m=1.2)
        longer = CableSpec(inner_length_m=1.56, outer_length_m=1.25)
        found = judge_stand_in(wanted, longer, HANDBRAKE)
        assert found.word is TEMP
        assert "300 mm, 10 mm of slack" in of(found, "inner").arithmetic
        tight = CableSpec(inner_length_m=1.53, outer_length_m=1.25)
        assert "held half on" in judge_stand_in(wanted, tight, HANDBRAKE).says

    def test_rubber_of_another_section(self) -> None:
        wanted, found = RubberSpec(profile="door bulb 12"), RubberSpec(profile="bulb 16")
        assert judge_stand_in(wanted, found, None).word is TEMP
        screen = RubberSpec(profile="windscreen, 6 mm glass")
        assert judge_stand_in(screen, found, None).word is NEVER

    def test_glass(self) -> None:
        wanted = GlassSpec(where="left door", thickness_m=5 * MM, tint="clear")
        green = GlassSpec(where="left door", thickness_m=5 * MM, tint="green")
        assert judge_stand_in(wanted, green, None).word is FITS
        right = GlassSpec(where="right door", thickness_m=5 * MM, tint="clear")
        assert judge_stand_in(wanted, right, None).word is NEVER

    def test_sealer_that_wants_it_warmer(self) -> None:
        wanted = GoodsSpec(what="seam sealer", lowest_temperature_c=5.0)
        found = judge_stand_in(wanted, GoodsSpec(what="seam sealer", lowest_temperature_c=15), None)
        assert found.word is FITS
        assert "not below 15 \N{DEGREE SIGN}C" in of(found, "lowest temperature").words

    def test_goods_past_their_day(self) -> None:
        found = judge_stand_in(
            GoodsSpec(what="brake fluid"),
            GoodsSpec(what="brake fluid", use_by=date(2026, 1, 1)),
            None,
            today=date(2026, 3, 2),
        )
        assert found.word is NEVER
        assert "past its day by 60 days: never brake fluid" in found.says

    @pytest.mark.parametrize(
        ("wanted", "found", "word"),
        [
            ("1 l", "2 litres", FitWord.FITS),
            ("1 l", "500 ml", FitWord.WILL_NOT_DO),
            ("2 sheets", "3 sheets", FitWord.FITS),
            ("2 sheets", "1 tube", FitWord.NOT_KNOWN),
            ("1 kg", "1 l", FitWord.NOT_KNOWN),
        ],
    )
    def test_enough_of_it_is_enough(self, wanted: str, found: str, word: FitWord) -> None:
        pair = (GoodsSpec(what="wax", amount=one) for one in (wanted, found))
        assert check_fit(*pair).word is word

    def test_words_alone_are_measured_first(self) -> None:
        found = judge_stand_in(BoltSpec(thread="M8"), PlainSpec(words="a bag"), HANDBRAKE)
        assert found.word is ASK
        assert "measure it" in found.says


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind not in ("bolt", "pin")])
class TestEveryKind:
    """What holds for any two parts of a kind: no dead end, no temp where none may be."""

    @given(data=st.data(), path=st.none() | st.sampled_from(LoadPath))
    @settings(max_examples=40, deadline=None)
    def test_it_says_why_in_a_sentence(
        self, kind: str, data: st.DataObject, path: LoadPath | None
    ) -> None:
        wanted: Spec = data.draw(any_spec(kind))
        offered: Spec = data.draw(any_spec(kind))
        found = judge_stand_in(wanted, offered, Duty(path) if path else None)
        assert (found.word is TEMP) == (found.until is not None)
        if found.word in (NEVER, ASK) and found.lines:
            assert ": " in found.says
        if path in NO_STAND_IN:
            assert found.word is not TEMP
        if check_fit(wanted, offered).word is FitWord.FITS:
            assert found.word is FITS
        assert all(one.words and one.source for one in found.lines)
        assert all(one.state in Enough for one in found.lines)
