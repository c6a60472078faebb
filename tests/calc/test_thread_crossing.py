"""One judgement of two threads that meet, whoever asks: pipe nuts and bolts say the same."""

from __future__ import annotations

from itertools import product

import pytest

from bareshell.brakes.fittings import meet as meet_at_a_port
from bareshell.calc.thread_crossing import STARTS_AND_IS_WRONG, Crossed, cross
from bareshell.parts.threads_meet import meet as meet_in_a_nut
from bareshell.units import known_thread
from bareshell.units.threads import Thread, standard_threads

NEAR_TEN = tuple(t for t in standard_threads() if 0.009 < t.diameter_m < 0.0125)


def thread(written: str) -> Thread:
    read = known_thread(written)
    assert read is not None, written
    return read


@pytest.mark.parametrize(
    ("male", "female", "crossed"),
    [
        ("M10x1", "M10 x 1.0", Crossed.SAME),
        ("3/8-24 UNF", "M10x1", Crossed.JAMS),
        ("M10x1", "3/8-24 UNF", Crossed.BINDS),
        ("M12x1.25", "1/2-20 UNF", Crossed.TIPS),
        ("1/4-20 UNC", "1/4-20 BSW", Crossed.EDGES),
        ("5/16-18 UNC", "M8", Crossed.JAMS_AT_ONCE),
        ("M14x1.5", "M14x1.5 LH", Crossed.OTHER_HAND),
        ("1/8-27 NPT", "1/8 BSP", Crossed.TAPERED),
        ("M8", "M12", Crossed.DROPS_THROUGH),
        ("M12", "M8", Crossed.TOO_LARGE),
    ],
)
def test_what_fitters_say_of_pairs(male: str, female: str, crossed: Crossed) -> None:
    """Common practice, no source; the turns of 3/8-24 in M10 x 1 are reckoned in thread_pairs."""
    assert cross(thread(male), thread(female)).crossed is crossed


def test_one_thread_under_two_names_is_one_thread() -> None:
    """Twenty-six to the inch at a quarter is one thread, fine or brass, by its own figures."""
    fine, brass = thread("1/4 BSF"), thread("1/4-26 BSB")
    assert cross(fine, brass).crossed is Crossed.SAME
    assert meet_in_a_nut(fine, brass).agrees
    assert meet_at_a_port(fine, brass).fits == "agree"


def test_a_nut_and_a_port_never_contradict_each_other() -> None:
    """Whatever near misses the parts desk names, the brakes' joints name the same."""
    for male, female in product(NEAR_TEN, repeat=2):
        desk, joint = meet_in_a_nut(male, female), meet_at_a_port(male, female)
        crossed = cross(male, female).crossed
        assert desk.agrees == (joint.fits == "agree") == (crossed is Crossed.SAME)
        assert (joint.fits == "starts and strips") == (crossed in STARTS_AND_IS_WRONG)
        if joint.fits == "starts and strips":
            assert desk.near_miss
        assert "tips" not in desk.words or "tips" in joint.words
