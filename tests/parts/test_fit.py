"""Does this fit there: near misses a fitter knows, and what holds for every pair."""

from __future__ import annotations

from dataclasses import fields, replace
from datetime import date
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bareshell.model.spec import (
    BoltSpec,
    CaliperSpec,
    GoodsSpec,
    HoseSpec,
    PinSpec,
    PlainSpec,
    RubberSpec,
    Spec,
    SplitPinSpec,
    UnionSpec,
)
from bareshell.parts import FitWord, check_fit, match_all
from bareshell.parts.rules import RULES
from tests.parts.shelves import KINDS, any_spec, some_specs

MM = 1e-3


class TestNearMisses:
    """What would be found out too late."""

    def test_the_pipe_nut_of_the_other_world(self) -> None:
        """3/8-24 UNF in M10 x 1 starts loosely and jams; the other way round it hardly starts."""
        metric, inch = UnionSpec(thread="M10x1"), UnionSpec(thread="3/8-24 UNF")
        starts = check_fit(metric, inch)
        assert starts.word is FitWord.WILL_NOT_DO
        assert "starts, and jams" in starts.says
        assert starts.near_misses[0].arithmetic.startswith("3/8-24 UNF in M10 x 1")
        binds = check_fit(inch, metric)
        assert "binds in its first turn" in binds.says
        assert binds.near_misses

    def test_a_female_part_is_the_outer_of_the_two(self) -> None:
        wanted = UnionSpec(thread="M10x1", sex="female")
        found = UnionSpec(thread="3/8-24 UNF", sex="female")
        assert "binds in its first turn" in check_fit(wanted, found).says

    @pytest.mark.parametrize(
        ("male", "female", "words"),
        [
            ("M12x1.25", "1/2-20 UNF", "holds by the tips"),
            ("5/16-18 UNC", "M8", "jams within its first turn"),
            ("1/4-20 UNC", "1/4-20 BSW", "bear on their edges"),
            ("1/8-27 NPT", "1/8 BSP", "tapered"),
            ("M14x1.5", "M14x1.5 LH", "tightens the other way"),
            ("M8", "M12", "drops through"),
            ("M12", "M8", "does not start"),
        ],
    )
    def test_threads_that_meet(self, male: str, female: str, words: str) -> None:
        """What fitters say of these pairs (common practice, no source)."""
        assert words in check_fit(BoltSpec(thread=female), BoltSpec(thread=male)).says

    def test_a_pin_that_is_right_but_short(self) -> None:
        wanted = PinSpec(diameter_m=7.94 * MM, grip_to_hole_m=22 * MM)
        short = check_fit(wanted, PinSpec(diameter_m=7.94 * MM, grip_to_hole_m=18 * MM))
        assert short.word is FitWord.WILL_NOT_DO
        assert short.says == "grip, head to hole: 4 mm short"
        assert [line.field for line in short.near_misses] == ["grip_to_hole_m"]

    def test_an_inch_pin_for_a_metric_hole(self) -> None:
        fit = check_fit(PinSpec(diameter_m=8 * MM), PinSpec(diameter_m=7.94 * MM))
        assert fit.near_misses[0].words == "0.06 mm too small"

    def test_a_seat_that_does_not_match(self) -> None:
        wanted = UnionSpec(thread="M10x1", seat="60 degree cone", flare="bubble")
        found = replace(wanted, flare="SAE double")
        assert "the thread may take it, the seat does not" in check_fit(wanted, found).says
        assert check_fit(wanted, replace(wanted, flare="convex")).word is FitWord.FITS

    def test_the_other_hand(self) -> None:
        fit = check_fit(CaliperSpec(hand="left"), CaliperSpec(hand="right"))
        assert fit.near_misses
        assert fit.says == "left or right: right instead of left"

    def test_a_weaker_bolt_with_the_right_thread(self) -> None:
        fit = check_fit(BoltSpec(thread="M8", grade="8.8"), BoltSpec(thread="M8", grade="4.6"))
        assert fit.near_misses[0].words == "weaker than wanted"
        assert fit.near_misses[0].arithmetic == "proof 225 against 580 MPa"

    def test_sealer_past_its_day(self) -> None:
        wanted = GoodsSpec(what="seam sealer")
        found = GoodsSpec(what="Seam sealer", use_by=date(2026, 3, 1))
        assert check_fit(wanted, found, today=date(2026, 3, 1)).word is FitWord.FITS
        old = check_fit(wanted, found, today=date(2026, 3, 31))
        assert old.says == "use by: past its day by 30 days"


class TestWords:
    """Not known is no half fit."""

    def test_what_nobody_measured_is_asked_for(self) -> None:
        wanted = PinSpec(diameter_m=6.35 * MM, grip_to_hole_m=16 * MM)
        fit = check_fit(wanted, PinSpec(diameter_m=6.35 * MM))
        assert fit.word is FitWord.NOT_KNOWN
        assert "under the head" in fit.says

    def test_a_need_that_says_nothing_fits_nothing(self) -> None:
        assert check_fit(BoltSpec(), BoltSpec(thread="M8")).word is FitWord.NOT_KNOWN
        assert check_fit(BoltSpec(finish="zinc"), BoltSpec(finish="zinc")).word is FitWord.NOT_KNOWN

    def test_other_words_are_for_eyes_to_compare(self) -> None:
        fit = check_fit(BoltSpec(head="hexagon"), BoltSpec(head="hex"))
        assert fit.word is FitWord.NOT_KNOWN
        assert "side by side" in fit.says

    def test_words_alone_are_measured_first(self) -> None:
        fit = check_fit(BoltSpec(thread="M8"), PlainSpec(words="bag of M8"))
        assert (fit.word, fit.says) == (
            FitWord.NOT_KNOWN,
            "kind: it is described in words only: measure it",
        )

    def test_another_kind_will_not_do(self) -> None:
        assert check_fit(PinSpec(), SplitPinSpec()).word is FitWord.WILL_NOT_DO

    def test_an_odd_thread_is_counted_again(self) -> None:
        fit = check_fit(BoltSpec(thread="M10x1"), BoltSpec(thread="M10 fine-ish"))
        assert fit.word is FitWord.NOT_KNOWN
        assert "cannot be read as a thread" in fit.says

    def test_enough_rubber_is_enough(self) -> None:
        wanted = RubberSpec(profile="P1", length_m=4.0)
        assert check_fit(wanted, RubberSpec(profile="p1", length_m=5.0)).word is FitWord.FITS
        assert "1000 mm short" in check_fit(wanted, RubberSpec(profile="P1", length_m=3.0)).says

    def test_a_hose_goes_in_either_way_round(self) -> None:
        wanted = HoseSpec(thread_a="M10x1", thread_b="3/8-24 UNF", free_length_m=0.33)
        turned = HoseSpec(thread_a="3/8-24 UNF", thread_b="M10x1", free_length_m=0.331)
        assert check_fit(wanted, turned).word is FitWord.FITS
        assert match_all([wanted], [turned]).fits == ((0,),)

    def test_a_hose_with_two_bores_goes_in_either_way_round(self) -> None:
        """A bottom hose that steps from 38 to 32 mm; one of a single bore is no such hose."""
        wanted = HoseSpec(bore_m=38 * MM, bore_b_m=32 * MM, carries="coolant")
        turned = HoseSpec(bore_m=32 * MM, bore_b_m=38 * MM, carries="coolant")
        assert check_fit(wanted, turned).word is FitWord.FITS
        assert match_all([wanted], [turned]).fits == ((0,),)
        plain = HoseSpec(bore_m=38 * MM, carries="coolant")
        assert check_fit(wanted, plain).word is FitWord.NOT_KNOWN

    def test_a_tolerance_that_was_given_is_the_one_that_counts(self) -> None:
        wanted = PinSpec(diameter_m=6.35 * MM, diameter_tolerance_m=0.02 * MM)
        found = PinSpec(diameter_m=6.32 * MM)
        assert check_fit(wanted, found).word is FitWord.WILL_NOT_DO
        assert check_fit(replace(wanted, diameter_tolerance_m=None), found).word is FitWord.FITS
        line = check_fit(wanted, found).lines[0]
        assert line.arithmetic == "off by 0.03 mm; 0.02 mm allowed, so much is allowed"


def known(spec: Spec) -> bool:
    """Whether a need says anything that a fit hangs on."""
    return any(
        rule.decides and getattr(spec, rule.name) not in (None, "") for rule in RULES[spec.kind]
    )


@pytest.mark.parametrize("kind", KINDS)
class TestEveryKind:
    """What holds for any two parts."""

    @given(data=st.data())
    @settings(max_examples=30, deadline=None)
    def test_a_need_fits_itself(self, kind: str, data: st.DataObject) -> None:
        spec = data.draw(any_spec(kind))
        word = check_fit(spec, spec).word
        assert word is (FitWord.FITS if known(spec) else FitWord.NOT_KNOWN)

    @given(data=st.data(), more=st.floats(0, 0.01))
    @settings(max_examples=40, deadline=None)
    def test_loosening_a_tolerance_never_loses_a_fit(
        self, kind: str, data: st.DataObject, more: float
    ) -> None:
        wanted, found = data.draw(any_spec(kind, whole=True)), data.draw(any_spec(kind))
        tolerances = {rule.tolerance for rule in RULES[kind] if rule.tolerance}
        loose: Any = replace(
            wanted,
            **{name: getattr(wanted, name) + more for name in tolerances},
        )
        order = (FitWord.WILL_NOT_DO, FitWord.NOT_KNOWN, FitWord.FITS)
        before, after = check_fit(wanted, found).word, check_fit(loose, found).word
        assert order.index(after) >= order.index(before)

    @given(data=st.data())
    @settings(max_examples=25, deadline=None)
    def test_many_at_once_say_what_each_pair_says(self, kind: str, data: st.DataObject) -> None:
        """The table of six million pairs and the page of one are the same judgement."""
        wanted = data.draw(st.lists(any_spec(kind), min_size=1, max_size=4))
        found = data.draw(st.lists(any_spec(kind), min_size=1, max_size=4)) + wanted
        day = date(2026, 1, 1)
        matches = match_all(wanted, found, today=day)
        for n, need in enumerate(wanted):
            for h, holding in enumerate(found):
                word = check_fit(need, holding, today=day).word
                assert (h in matches.fits[n]) == (word is FitWord.FITS)
                if h in matches.may_fit[n]:
                    assert word is FitWord.NOT_KNOWN

    def test_every_field_has_a_rule_and_every_rule_a_field(self, kind: str) -> None:
        held = {each.name for each in fields(KINDS[kind])} - {"kind"}
        rules = {rule.name for rule in RULES[kind]}
        tolerances = {rule.tolerance for rule in RULES[kind]} - {""}
        assert rules | tolerances == held
        assert not rules & tolerances


def test_a_whole_garage_agrees_pair_by_pair() -> None:
    needs, holdings = some_specs(60, 11), some_specs(90, 12)
    matches = match_all(needs, holdings)
    assert any(matches.fits)
    for n, need in enumerate(needs):
        fits = {h for h, one in enumerate(holdings) if check_fit(need, one).word is FitWord.FITS}
        assert set(matches.fits[n]) == fits
