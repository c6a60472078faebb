"""Screw threads: designations, the standard series, and pairs that must not be confused."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.errors import BadInput
from bareshell.units import Thread, parse_thread, standard_threads
from tests.units.polite import is_polite, refusal


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("M10x1", "M10 x 1"),
        ("M10 x 1.0", "M10 x 1"),
        ("m10×1,0", "M10 x 1"),
        ("10x1", "M10 x 1"),
        ("10 mm x 1.0 mm", "M10 x 1"),
        ("M10", "M10 x 1.5"),
        ("M8x1.25-6g", "M8 x 1.25"),
        ("M10 x 1 6H", "M10 x 1"),
        ("M14 x 1.5 LH", "M14 x 1.5 LH"),
        ("3/8-24 UNF", "3/8-24 UNF"),
        ("3/8 UNF", "3/8-24 UNF"),
        ("3/8 x 24 UNF", "3/8-24 UNF"),
        ("3/8-24", "3/8-24 UNF"),
        ("3/8 24 tpi", "3/8-24 UNF"),
        ('7/16" UNF', "7/16-20 UNF"),
        ("7/16-20 UNF-2A", "7/16-20 UNF"),
        ("1/2 in UNC left hand", "1/2-13 UNC LH"),
        ("1 UNF", "1-12 UNF"),
        ("1-1/8 UNF", "1 1/8-12 UNF"),
        ("#10-32 UNF", "No 10-32 UNF"),
        ("10-32", "No 10-32 UNF"),
        ("No. 8 UNC", "No 8-32 UNC"),
        ("1/4 BSP", "1/4-19 BSP"),
        ("G1/4", "1/4-19 BSP"),
        ("R 1/8", "1/8-28 BSPT"),
        ("1/8 BSPT", "1/8-28 BSPT"),
        ("1/8-27 NPT", "1/8-27 NPT"),
        ("1/8 NPT", "1/8-27 NPT"),
        ("3/8 BSF", "3/8-20 BSF"),
        ("1/4 Whit.", "1/4-20 BSW"),
        ("5/16 Whitworth", "5/16-18 BSW"),
        ("2BA", "2 BA"),
        ("2 B.A.", "2 BA"),
        ("0 ba", "0 BA"),
        ("1/2 CEI", "1/2-26 BSC"),
    ],
)
def test_a_designation_as_it_is_written(typed: str, name: str) -> None:
    assert str(parse_thread(typed, "thread")) == name


# Basic sizes from tables that reproduce the standards, compared by hand when this was written:
# UNF and UNC after ASME B1.1, BSF after BS 84, BA after BS 93 (diameter also in inches), pipe
# after ISO 228-1 and ASME B1.20.1, metric after ISO 261. The standards themselves were not seen.
@pytest.mark.parametrize(
    ("typed", "diameter_mm", "threads_per_inch"),
    [
        ("M10 x 1", 10.0, 25.4),
        ("M12", 12.0, 25.4 / 1.75),
        ("3/8-24 UNF", 9.525, 24),
        ("7/16 UNF", 11.1125, 20),
        ("No 10-32 UNF", 0.190 * 25.4, 32),
        ("1/2 UNC", 12.7, 13),
        ("1/2 BSW", 12.7, 12),
        ("3/8 BSF", 9.525, 20),
        ("1/4 BSF", 6.35, 26),
        ("0 BA", 6.0, 25.38),
        ("2 BA", 0.1850 * 25.4, 31.35),
        ("4 BA", 0.1417 * 25.4, 38.46),
        ("6 BA", 0.1102 * 25.4, 47.85),
        ("10 BA", 0.0669 * 25.4, 72.46),
        ("1/8 BSP", 9.728, 28),
        ("1/4 BSP", 13.157, 19),
        ("1/2 BSP", 20.955, 14),
        ("1/8 NPT", 0.405 * 25.4, 27),
        ("1/4 NPT", 0.540 * 25.4, 18),
    ],
)
def test_a_thread_has_its_published_size(
    typed: str, diameter_mm: float, threads_per_inch: float
) -> None:
    thread = parse_thread(typed, "thread")
    assert thread.diameter_m * 1000 == pytest.approx(diameter_mm, rel=2e-3)
    assert thread.threads_per_inch == pytest.approx(threads_per_inch, rel=2e-3)


# Diameter and pitch as BS 93 prints them for 0 BA to 16 BA [mm]; from memory, and 0 to 12 BA
# agree with a reproduced table in inches.
BA_PRINTED = [
    (6.0, 1.0),
    (5.3, 0.90),
    (4.7, 0.81),
    (4.1, 0.73),
    (3.6, 0.66),
    (3.2, 0.59),
    (2.8, 0.53),
    (2.5, 0.48),
    (2.2, 0.43),
    (1.9, 0.39),
    (1.7, 0.35),
    (1.5, 0.31),
    (1.3, 0.28),
    (1.2, 0.25),
    (1.0, 0.23),
    (0.90, 0.21),
    (0.79, 0.19),
]


@pytest.mark.parametrize(("number", "printed"), list(enumerate(BA_PRINTED)))
def test_ba_sizes_are_the_printed_ones(number: int, printed: tuple[float, float]) -> None:
    thread = parse_thread(f"{number} BA", "thread")
    assert (thread.diameter_m * 1000, thread.pitch_m * 1000) == pytest.approx(printed)


@pytest.mark.parametrize("thread", standard_threads(), ids=str)
def test_every_standard_thread_reads_back_from_its_own_name(thread: Thread) -> None:
    assert parse_thread(str(thread), "thread") == thread
    left = thread.opposite_hand()
    assert left != thread
    assert parse_thread(str(left), "thread") == left


@pytest.mark.parametrize("thread", standard_threads(), ids=str)
def test_a_thread_is_never_coarser_than_its_bolt_can_carry(thread: Thread) -> None:
    """Depth of thread, about 0.6 of the pitch on each side, leaves at least half the bolt."""
    assert 0 < thread.pitch_m * 1.3 < thread.diameter_m / 2


def test_no_two_threads_of_one_series_are_the_same() -> None:
    everything = [(each.system, each.size, each.pitch_m) for each in standard_threads()]
    assert len(everything) == len(set(everything))


def test_the_brake_union_trap_can_be_seen_from_the_records() -> None:
    """M10 x 1 starts in a 3/8-24 port and strips: 25.4 threads to the inch against 24."""
    metric, inch = parse_thread("M10x1", "nut"), parse_thread("3/8-24 UNF", "port")
    assert metric != inch
    assert abs(metric.diameter_m - inch.diameter_m) < 0.0005
    assert metric.threads_per_inch == pytest.approx(25.4)
    assert inch.threads_per_inch == 24
    assert metric.form_angle_deg == inch.form_angle_deg == 60


def test_a_taper_is_known() -> None:
    assert parse_thread("1/8 NPT", "port").tapered
    assert parse_thread("1/8 BSPT", "port").tapered
    assert not parse_thread("1/8 BSP", "port").tapered


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("", "nothing was given"),
        ("bolt", "is no thread"),
        ("M8 x 25", "25 mm is a length, not a pitch"),
        ("M10x1.2", "does not come in a pitch of 1.2 mm"),
        ("M13", "nearest are M12 and M14"),
        ("M26", "no pitch that is understood"),
        ("3/8", "more than one series"),
        ("1/4-20", "1/4-20 UNC or 1/4-20 BSW"),
        ("3/8-26", "3/8-26 BSC or 3/8-26 BSB"),
        ("3/8-25", "no standard thread of size 3/8 has 25 threads"),
        ("3/8-25 UNF", "3/8-24 UNF"),
        ("3/8 UNX", "no thread series held here"),
        ("5/64 UNF", "no standard UNF thread of size 5/64"),
        ("40 BA", "finer than any thread on a car"),
    ],
)
def test_what_is_no_thread_or_could_be_two_is_refused(typed: str, says: str) -> None:
    with pytest.raises(BadInput, match=says) as told:
        parse_thread(typed, "pipe nut")
    assert told.value.field == "pipe nut"
    assert told.value.remedy


@given(st.text(max_size=30))
def test_no_entry_breaks_the_reader(typed: str) -> None:
    assert is_polite(refusal(lambda: parse_thread(typed, "thread")), "thread")
