"""Heat and fluid of brakes in plain lines."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from bareshell.cli.brakes_text import missing_text, rests_on, verdicts_text
from bareshell.cli.common import heading

if TYPE_CHECKING:
    from bareshell.whole.brake_heat import HeatView
    from bareshell.whole.brake_heat_parts import CourseHeat, FluidToday, HotBrakes, LumpPeak


def heat_text(found: HeatView) -> Iterator[str]:
    """Say how hot brakes and fluid get, course by course."""
    air = f"air {found.asked.ambient_c:.0f} C, {found.asked.load}"
    yield heading(f"{found.title}: heat and fluid", air)
    yield from missing_text(found.missing)
    if found.because:
        yield f"  not worked out: {found.because}"
    for each in found.meetings:
        remedy = each.remedy[:1].upper() + each.remedy[1:]
        yield f"  {each.where}: {each.what.rstrip('.')}. {remedy}".rstrip()
    if found.fluid is not None:
        yield from _fluid(found.fluid)
    for course in found.courses:
        yield from _course(course)
    if found.hot is not None:
        yield from _hot(found.hot)
    yield from verdicts_text(found.verdicts, chosen=found.yardsticks_chosen)
    yield from rests_on(found.assumed, found.problems, found.cautions, found.not_proved)


def _fluid(fluid: FluidToday) -> Iterator[str]:
    yield heading("Fluid today", fluid.grade)
    yield f"  {fluid.words} [{fluid.mark}]"
    if fluid.boils_low_c is not None:
        yield f"  boils at {fluid.boils_low_c:.0f} to {fluid.boils_high_c:.0f} C"
    for each in fluid.asks:
        yield f"  to know it better: {each}"


def _course(course: CourseHeat) -> Iterator[str]:
    yield heading(course.words[:1].upper() + course.words[1:], course.cite)
    if course.because:
        yield f"  not worked out: {course.because}"
        return
    for wheel in course.wheels:
        lumps = "; ".join(f"{one.words} {_span(one)}" for one in wheel.lumps)
        yield f"  {wheel.wheel}: {lumps}"
    if course.hottest_fluid is not None:
        yield f"  fluid hottest {course.hottest_wheel}, {course.when}: {course.margin}"
    if course.margin_low_k is not None and course.margin_high_k is not None:
        yield (
            f"  over all that was drawn: {course.margin_low_k:.0f} to "
            f"{course.margin_high_k:.0f} C below boiling; below zero it boils"
        )


def _hot(hot: HotBrakes) -> Iterator[str]:
    yield heading("What a push still does hot", f"{hot.pedal_force_n:.0f} N")
    yield (
        f"  {hot.cold_m_s2:.1f} m/s2 cold, {hot.hot_m_s2:.1f} hot "
        f"({hot.low_m_s2:.1f} to {hot.high_m_s2:.1f})"
    )
    if hot.cold_travel_m is not None and hot.hot_travel_m is not None:
        floor = "; the pedal meets the floor" if hot.on_floor else ""
        yield (
            f"  pedal {hot.cold_travel_m * 1000:.0f} mm cold, "
            f"{hot.hot_travel_m * 1000:.0f} mm hot{floor}"
        )
    for one in hot.needed:
        yield f"  linings must keep {one.share:.0%} of their friction: {one.words}"


def _span(one: LumpPeak) -> str:
    return f"{one.temperature_c:.0f} C ({one.low_c:.0f} to {one.high_c:.0f})"
