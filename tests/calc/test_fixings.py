"""Threads, bolts and pins against published tables; each says how far it was read."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.calc import fixings, thread_pairs, threads
from bareshell.calc.strength import GRADES, strength_of
from bareshell.calc.threads import FORMS, depths_of
from bareshell.errors import BadInput
from bareshell.units.threads import standard_threads

INCH = 0.0254
LBF = 4.4482216
LBF_FT = 1.3558179

# M size: pitch [mm], stress area [mm2] and proof loads [N] of classes 4.6 ... 12.9: a fastener
# supplier's print of ISO 898-1 table 5 (read second-hand).
PROOF_CLASSES = ("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9")
PROOF_LOADS = {
    5: (0.8, 14.2, (3200, 4400, 3980, 5400, 6250, 8230, 9230, 11800, 13800)),
    6: (1.0, 20.1, (4520, 6230, 5630, 7640, 8840, 11600, 13100, 16700, 19500)),
    8: (1.25, 36.6, (8240, 11400, 10200, 13900, 16100, 21200, 23800, 30400, 35500)),
    10: (1.5, 58.0, (13000, 18000, 16200, 22000, 25500, 33700, 37700, 48100, 56300)),
    12: (1.75, 84.3, (19000, 26100, 23600, 32000, 37100, 48900, 54800, 70000, 81800)),
    14: (2.0, 115, (25900, 35600, 32200, 43700, 50600, 66700, 74800, 95500, 112000)),
    16: (2.0, 157, (35300, 48700, 44000, 59700, 69100, 91000, 102000, 130000, 152000)),
}
# Breaking loads of the same classes where they are read: ISO 898-1 table 4, another supplier.
BREAKING_LOADS = {
    8: {"4.6": 14600, "8.8": 29200, "10.9": 38100, "12.9": 44600},
    10: {"4.6": 23200, "8.8": 46400, "10.9": 60300, "12.9": 70800},
    12: {"4.6": 33700, "8.8": 67400, "10.9": 87700, "12.9": 103000},
}


class TestStressArea:
    """`stress_area`: the area that carries a pull."""

    @pytest.mark.parametrize("size", PROOF_LOADS)
    def test_metric_coarse(self, size: int) -> None:
        pitch, area, _ = PROOF_LOADS[size]
        found = threads.stress_area(size / 1e3, pitch / 1e3, "metric")
        assert found * 1e6 == pytest.approx(area, rel=4e-3)

    @pytest.mark.parametrize(
        ("size", "pitch", "area"),
        [(8, 1.0, 39.2), (10, 1.0, 64.5), (10, 1.25, 61.2), (12, 1.25, 92.1), (12, 1.5, 88.1),
         (14, 1.5, 125.0), (18, 1.5, 216.0), (20, 1.5, 272.0), (24, 2.0, 384.0)],
    )  # fmt: skip
    def test_metric_fine(self, size: int, pitch: float, area: float) -> None:
        """ISO 898-1 table 6 (from memory)."""
        found = threads.stress_area(size / 1e3, pitch / 1e3, "metric")
        assert found * 1e6 == pytest.approx(area, rel=4e-3)

    @pytest.mark.parametrize(
        ("size", "tpi", "area", "root_area"),
        [
            (1 / 4, 20, 0.0318, 0.0269),
            (5 / 16, 18, 0.0524, 0.0454),
            (3 / 8, 16, 0.0775, 0.0678),
            (7 / 16, 14, 0.1063, 0.0933),
            (1 / 2, 13, 0.1419, 0.1257),
            (1 / 4, 28, 0.0364, 0.0326),
            (5 / 16, 24, 0.0580, 0.0524),
            (3 / 8, 24, 0.0878, 0.0809),
            (7 / 16, 20, 0.1187, 0.1090),
            (1 / 2, 20, 0.1599, 0.1486),
            (9 / 16, 18, 0.203, 0.189),
            (5 / 8, 18, 0.256, 0.240),
        ],
    )
    def test_unified(self, size: float, tpi: int, area: float, root_area: float) -> None:
        """A handbook's table of unified threads, stress and minor-diameter areas (from memory)."""
        given = size * INCH, INCH / tpi, "unified"
        assert threads.stress_area(*given) / INCH**2 == pytest.approx(area, abs=6e-4)
        root = math.pi / 4 * threads.root_diameter(*given) ** 2 / INCH**2
        assert root == pytest.approx(root_area, abs=8e-4)

    def test_whitworth(self) -> None:
        """3/16 BSW: depth 0.0267, effective 0.1608, minor 0.1341 in, a handbook's table (read)."""
        given = 3 / 16 * INCH, INCH / 24, "whitworth"
        assert threads.pitch_diameter(*given) / INCH == pytest.approx(0.1608, abs=5e-5)
        assert threads.root_diameter(*given) / INCH == pytest.approx(0.1341, abs=5e-5)

    def test_the_metric_tooth_is_the_standard_s_triangle(self) -> None:
        """H = P cos 30; flank line 3/8 H deep, nut 5/8, root 17/24, on each side."""
        height = math.cos(math.pi / 6)
        depths = depths_of("metric")
        assert depths.flank_line == pytest.approx(2 * 3 / 8 * height, abs=1e-6)
        assert depths.nut_bore == pytest.approx(2 * 5 / 8 * height, abs=1e-6)
        assert depths.root == pytest.approx(2 * 17 / 24 * height, abs=1e-6)
        assert depths.stress == pytest.approx((depths.flank_line + depths.root) / 2, abs=1e-6)

    @pytest.mark.parametrize("form", FORMS)
    def test_each_form_lies_in_order(self, form: str) -> None:
        depths = depths_of(form)
        assert 0 < depths.flank_line < depths.stress < depths.root
        assert depths.nut_bore <= depths.root

    def test_a_pitch_as_coarse_as_the_bolt_is_refused(self) -> None:
        with pytest.raises(BadInput, match="too coarse"):
            threads.root_diameter(0.002, 0.002, "metric")
        with pytest.raises(BadInput, match="form of the thread"):
            threads.stress_area(0.01, 0.001, "tapered")


class TestGrades:
    """`strength_of` and `proof_load`: what a mark promises."""

    @pytest.mark.parametrize("size", PROOF_LOADS)
    def test_proof_loads_of_the_standard(self, size: int) -> None:
        pitch, _, loads = PROOF_LOADS[size]
        area = threads.stress_area(size / 1e3, pitch / 1e3, "metric")
        for grade, load in zip(PROOF_CLASSES, loads, strict=True):
            found = fixings.proof_load(area, strength_of(grade, size / 1e3).proof_pa)
            assert found == pytest.approx(load, rel=7e-3), grade

    @pytest.mark.parametrize("size", BREAKING_LOADS)
    def test_breaking_loads_of_the_standard(self, size: int) -> None:
        area = threads.stress_area(size / 1e3, PROOF_LOADS[size][0] / 1e3, "metric")
        for grade, load in BREAKING_LOADS[size].items():
            found = area * strength_of(grade, size / 1e3).tensile_pa
            assert found == pytest.approx(load, rel=7e-3), grade

    def test_a_large_bolt_of_8_8_is_promised_more(self) -> None:
        """M20 of 8.8: proof 147000 N on 245 mm2, so 600 MPa (read second-hand)."""
        assert strength_of("8.8", 0.020).proof_pa * 245e-6 == pytest.approx(147000, rel=1e-6)
        assert strength_of("8.8", 0.016).proof_pa == 580e6

    @pytest.mark.parametrize(
        ("said", "grade"),
        [("8.8", "8.8"), ("class 10.9", "10.9"), ("grade 5", "grade 5"), ("SAE grade 8", "grade 8"),
         ("5", "grade 5"), ("a2-70", "A2-70"), ("A4 80", "A4-80"), ("s", "S"), ("Grade T", "T")],
    )  # fmt: skip
    def test_a_mark_is_read_as_it_is_written(self, said: str, grade: str) -> None:
        assert strength_of(said, 0.008).grade == grade

    @pytest.mark.parametrize("said", ["", "high tensile", "7", "8.9", "good"])
    def test_what_promises_nothing_is_refused_not_guessed(self, said: str) -> None:
        with pytest.raises(BadInput, match="grade"):
            strength_of(said, 0.008)

    def test_proof_is_always_below_breaking(self) -> None:
        assert all(0 < one.proof_pa < one.tensile_pa for one in GRADES.values())

    def test_stainless_is_weaker_than_the_common_graded_steel(self) -> None:
        assert strength_of("A2-70", 0.01).proof_pa < strength_of("8.8", 0.01).proof_pa
        assert strength_of("A2-70", 0.01).stainless


class TestTorque:
    """`tightening_torque`: T = K D F."""

    # Makers' tables of dry and oiled torque [lbf ft] at three quarters of proof (read): the whole
    # pound-foot that they print.
    INCH_TABLE = (
        (1 / 4, 28, 10, 7, 14, 10),
        (5 / 16, 24, 19, 14, 27, 20),
        (3 / 8, 24, 35, 26, 49, 37),
        (7 / 16, 20, 55, 41, 78, 58),
        (1 / 2, 20, 85, 64, 120, 90),
        (9 / 16, 18, 121, 91, 171, 128),
        (5 / 8, 18, 170, 128, 240, 180),
        (1 / 4, 20, 8, 6, 12, 9),
        (5 / 16, 18, 17, 13, 25, 18),
        (3 / 8, 16, 31, 23, 44, 33),
        (7 / 16, 14, 49, 37, 70, 52),
        (1 / 2, 13, 75, 57, 106, 80),
    )

    @pytest.mark.parametrize("row", INCH_TABLE)
    def test_makers_tables_to_the_pound_foot(self, row: tuple[float, ...]) -> None:
        size, tpi, *printed = row
        diameter = size * INCH
        area = threads.stress_area(diameter, INCH / tpi, "unified")
        found = [
            fixings.tightening_torque(
                factor, diameter, 0.75 * fixings.proof_load(area, strength_of(g, diameter).proof_pa)
            )
            / LBF_FT
            for g, factor in itertools.product(("grade 5", "grade 8"), (0.20, 0.15))
        ]
        assert found == pytest.approx(printed, abs=0.75)

    def test_metric_table(self) -> None:
        """M6 to M14 of 8.8, dry and oiled [N m]: a maker's table of T = K D F (read)."""
        table = {6: (10.5, 7.9), 8: (25.5, 19.1), 10: (50.5, 37.8), 12: (88, 66), 14: (140, 105)}
        for size, printed in table.items():
            area = threads.stress_area(size / 1e3, PROOF_LOADS[size][0] / 1e3, "metric")
            pull = 0.75 * fixings.proof_load(area, strength_of("8.8", size / 1e3).proof_pa)
            found = [fixings.tightening_torque(k, size / 1e3, pull) for k in (0.20, 0.15)]
            assert found == pytest.approx(printed, rel=0.01)

    @pytest.mark.parametrize(
        ("size", "tpi", "clamp", "torque"),
        [(1 / 4, 20, 1312, 5.4), (5 / 16, 18, 2162, 11.5), (3 / 8, 24, 3622, 22.6),
         (1 / 2, 20, 6600, 55.0), (5 / 8, 11, 9323, 97.1)],
    )  # fmt: skip
    def test_another_maker_s_table_of_grade_2(
        self, size: float, tpi: int, clamp: float, torque: float
    ) -> None:
        """Clamp [lbf] at 75 % of proof and dry torque [lbf ft] (read)."""
        diameter = size * INCH
        area = threads.stress_area(diameter, INCH / tpi, "unified")
        pull = 0.75 * fixings.proof_load(area, strength_of("grade 2", diameter).proof_pa)
        assert pull / LBF == pytest.approx(clamp, rel=5e-3)
        found = fixings.tightening_torque(0.20, diameter, pull) / LBF_FT
        assert found == pytest.approx(torque, abs=0.3)  # printed to about half

    @given(st.floats(1, 500), st.floats(0.08, 0.4), st.floats(0.003, 0.03))
    def test_clamp_is_torque_undone(self, torque: float, factor: float, diameter: float) -> None:
        clamp = fixings.clamp_force(torque, factor, diameter)
        assert fixings.tightening_torque(factor, diameter, clamp) == pytest.approx(torque)


class TestPins:
    """Shear, bearing and bending."""

    def test_a_published_worked_example(self) -> None:
        """10 kN on 18 mm in double shear, eye 10 mm, fork 8 mm each side, span 24 mm (read)."""
        assert fixings.pin_shear_stress(1e4, 0.018, 2.0) / 1e6 == pytest.approx(19.65, abs=0.005)
        assert fixings.bearing_stress(1e4, 0.018, 0.010) / 1e6 == pytest.approx(55.56, abs=0.005)
        assert fixings.bearing_stress(5e3, 0.018, 0.008) / 1e6 == pytest.approx(34.72, abs=0.005)
        assert fixings.bar_bending_stress(60.0, 0.018) / 1e6 == pytest.approx(104.8, abs=0.05)

    def test_single_and_double_shear_of_the_notes(self) -> None:
        """6 kN on 8 mm: 119 MPa single, 60 MPa double (arithmetic of tau = 4 F / n pi d2)."""
        assert fixings.pin_shear_stress(6e3, 0.008, 1.0) / 1e6 == pytest.approx(119.4, abs=0.05)
        assert fixings.pin_shear_stress(6e3, 0.008, 2.0) / 1e6 == pytest.approx(59.7, abs=0.05)

    @given(st.floats(100, 2e4), st.floats(1e-3, 2e-2), st.floats(1e-3, 2e-2), st.floats(0, 5e-3))
    def test_bending_is_the_integral_of_its_loads(
        self, load: float, fork: float, eye: float, gap: float
    ) -> None:
        """Statics, by adding up each slice's moment about the middle of the eye."""
        slices = (np.arange(2000) + 0.5) / 2000
        outer = load / 2 * np.mean(eye / 2 + gap + fork * slices)
        inner = load / 2 * np.mean(eye / 2 * slices)
        found = fixings.fork_pin_moment(load, fork, eye, gap)
        assert found == pytest.approx(outer - inner, rel=1e-6)

    @given(st.floats(1e-4, 5e-3))
    def test_a_gap_always_bends_more(self, gap: float) -> None:
        assert fixings.fork_pin_moment(1e3, 3e-3, 6e-3, gap) > fixings.fork_pin_moment(
            1e3, 3e-3, 6e-3, 0.0
        )
        assert fixings.overhung_pin_moment(1e3, 6e-3, gap) > fixings.fork_pin_moment(
            1e3, 3e-3, 6e-3, gap
        )

    @pytest.mark.parametrize(
        "thread", [t for t in standard_threads() if t.system == "UNF"], ids=str
    )
    def test_one_diameter_of_steel_outlasts_the_bolt(self, thread: object) -> None:
        """The rule of one diameter in steel (common practice, no source)."""
        diameter, pitch = thread.diameter_m, thread.pitch_m  # type: ignore[attr-defined]
        given = diameter, pitch, "unified"
        tensile = strength_of("grade 5", diameter).tensile_pa
        strips = fixings.stripping_force(threads.pitch_diameter(*given), diameter, 0.6 * tensile)
        assert strips > threads.stress_area(*given) * tensile


class TestPairs:
    """Threads that start in the wrong hole: what fitters say of them (common practice)."""

    @staticmethod
    def turns(male: tuple[float, float, str], female: tuple[float, float, str]) -> float:
        play = thread_pairs.flank_play(
            threads.pitch_diameter(*male),
            threads.pitch_diameter(*female),
            depths_of(female[2]).flank_angle_rad,
        )
        return thread_pairs.turns_to_binding(male[1], female[1], play)

    UNF_3_8 = (3 / 8 * INCH, INCH / 24, "unified")
    M10_1 = (0.010, 0.001, "metric")

    def test_3_8_24_runs_some_turns_into_m10_and_jams(self) -> None:
        assert 3 < self.turns(self.UNF_3_8, self.M10_1) < 7
        overlap = thread_pairs.thread_overlap(self.UNF_3_8[0], 0.010, 0.001, "metric")
        assert 0.4 < overlap < 0.65

    def test_m10_binds_at_once_in_3_8_24(self) -> None:
        assert self.turns(self.M10_1, self.UNF_3_8) == 0.0
        overlap = thread_pairs.thread_overlap(0.010, *self.UNF_3_8)
        assert overlap > 1.2

    def test_a_half_inch_nut_runs_right_over_m12(self) -> None:
        turns = self.turns((0.012, 0.00125, "metric"), (0.0127, INCH / 20, "unified"))
        nut = 7 / 16 * INCH / (INCH / 20)
        assert turns > nut

    def test_5_16_coarse_jams_in_m8_within_a_turn(self) -> None:
        turns = self.turns((5 / 16 * INCH, INCH / 18, "unified"), (0.008, 0.00125, "metric"))
        assert 0 < turns < 1

    @given(st.sampled_from(standard_threads()))
    def test_a_thread_in_its_own_nut_never_binds(self, thread: object) -> None:
        diameter, pitch = thread.diameter_m, thread.pitch_m  # type: ignore[attr-defined]
        own = thread_pairs.thread_overlap(diameter, diameter, pitch, "metric")
        assert own == 1.0
        assert thread_pairs.turns_to_binding(pitch, pitch, 0.0) in {0.0, 1000.0}
        assert thread_pairs.turns_to_binding(pitch, pitch, 1e-5) == 1000.0
