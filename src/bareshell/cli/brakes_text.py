"""Brakes in words on a terminal: the answer first, then what it rests on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from bareshell.cli.common import heading, table

if TYPE_CHECKING:
    from bareshell.whole.brake_check import BrakeCheck
    from bareshell.whole.brake_compare import CompareView
    from bareshell.whole.brake_park import ParkView
    from bareshell.whole.brake_parts import (
        AssumedFigure,
        EntryProblem,
        MissingFigure,
        PushView,
        VerdictView,
    )
    from bareshell.whole.brake_workshop import BleedView, JointsView

MOST_ASSUMED = 8


def check_text(found: BrakeCheck) -> Iterator[str]:
    """Say what a push does, which axle locks first, what fails worst and which yardsticks hold."""
    yield heading(found.title, found.role)
    yield from missing_text(found.missing)
    if found.now is not None:
        yield from _push(found.now, found.failure)
    for lock in found.locks:
        crossing = "" if lock.crossing_g is None else f"; curves cross at {lock.crossing_g:.2f} g"
        yield (
            f"  {lock.load}, adhesion {lock.friction_of_road:g}: {lock.first} first; "
            f"{lock.before_lock_g:.2f} g at {lock.before_lock_force_n:.0f} N before that{crossing}"
        )
    for force in found.forces:
        needed = f"{force.pedal_force_n:.0f} N" if force.pedal_force_n is not None else (
            f"not reached: {force.because}"
        )  # fmt: skip
        yield f"  {force.load}, {force.deceleration_g:.2f} g takes {needed}"
    if found.failures:
        worst = min(found.failures, key=lambda one: one.deceleration_m_s2)
        yield (
            f"  Worst single failure: {worst.words}. {worst.left.capitalize()} left, "
            f"{worst.deceleration_m_s2:.1f} m/s2."
        )
    yield from verdicts_text(found.verdicts, chosen=found.yardsticks_chosen)
    yield from rests_on(found.assumed, found.problems, found.cautions, found.not_proved)


def failures_text(found: BrakeCheck) -> Iterator[str]:
    """Say what every single failure leaves."""
    what = "two things fail" if found.two_at_once else "one thing fails"
    yield heading(f"{found.title}: {what}", f"{found.pedal_force_n:.0f} N, {found.load}")
    yield from missing_text(found.missing)
    rows = [("fails", "left", "m/s2", "pedal", "")]
    for one in found.failures:
        floor = ", on the floor" if one.on_floor else ""
        travel = "" if one.travel_m is None else f"{one.travel_m * 1000:.0f} mm{floor}"
        more = "; ".join(words for words in (one.verdict, one.pull) if words)
        if found.two_at_once:  # two causes are a sentence, too long for a column
            yield f"  {one.words}: {one.left} left, {one.deceleration_m_s2:.1f} m/s2, {travel}"
            continue
        rows.append((one.words, one.left, f"{one.deceleration_m_s2:.1f}", travel, more))
    if not found.two_at_once:
        yield from (f"  {line}" for line in table(rows))
    yield from rests_on(found.assumed, found.problems, found.cautions, found.not_proved)


def compare_text(found: CompareView) -> Iterator[str]:
    """Say what differs between two sets of brakes, and which departure does what."""
    yield heading(f"{found.title} beside {found.other_title}")
    yield from (f"  {words}" for words in found.words)
    rows = [("", found.role, found.other_role, "because")]
    for row in found.rows:
        because = "; ".join(f"{one.title}: {one.said}" for one in row.because)
        together = f"; together {row.together_said}" if row.together_said else ""
        rows.append((row.words, row.built_said, row.standard_said, because + together))
    yield from (f"  {line}" for line in table(rows))
    yield from (f"  not worked out: {words}" for words in found.not_worked_out)
    yield from not_proved_text(found.not_proved)


def park_text(found: ParkView) -> Iterator[str]:
    """Say what the parking brake holds, both ways."""
    yield heading(f"{found.title}: parking brake", f"{found.hand_force_n:.0f} N, {found.load}")
    yield from missing_text(found.missing)
    for side in (found.up, found.down):
        if side is None:
            continue
        needs = "" if side.hand_force_n is None else f", which takes {side.hand_force_n:.0f} N"
        word = "holds" if side.holds else "does not hold"
        yield (
            f"  {side.direction}: {side.slope:.0%} at most, by its {side.limited_by}; "
            f"{word} {found.slope_asked:.0%}{needs}"
        )
    if found.clicks is not None:
        there = "" if found.clicks_there_are is None else f" of {found.clicks_there_are:.0f}"
        yield f"  lever: {found.clicks:.0f}{there} clicks"
    if found.because:
        yield f"  not worked out: {found.because}"
    yield from verdicts_text(found.verdicts, chosen=found.yardsticks_chosen)
    yield from rests_on(found.assumed, found.problems, found.cautions, found.not_proved)


def verdicts_text(verdicts: Iterable[VerdictView], *, chosen: bool) -> Iterator[str]:
    """Say how the chosen yardsticks hold."""
    listed = tuple(verdicts)
    if not chosen:
        yield "No yardsticks are chosen yet: 'bareshell brakes yardsticks' lists them."
        return
    if listed:
        yield heading("Yardsticks", "published requirements; meeting one here approves nothing")
    for one in listed:
        share = f" ({one.share_words})" if one.share_words else ""
        because = f"; {one.because}" if one.because else ""
        yield f"  {one.subject}: {one.words}{share}{because}"
        yield f"      {one.cite} [{one.mark}]"


def rests_on(
    assumed: Iterable[AssumedFigure],
    problems: Iterable[EntryProblem],
    cautions: Iterable[str],
    not_proved: Iterable[str],
) -> Iterator[str]:
    """Say what an answer rests on, and what it does not prove."""
    listed = tuple(assumed)
    if listed:
        yield heading("Taken as usual, since nobody gave it", str(len(listed)))
        for one in listed[:MOST_ASSUMED]:
            yield f"  {one.path}: {one.said} [{one.mark}]"
        if len(listed) > MOST_ASSUMED:
            yield f"  and {len(listed) - MOST_ASSUMED} more; --json has them all"
    yield from problems_text(problems)
    yield from (f"Mind: {words}" for words in cautions)
    yield from not_proved_text(not_proved)


def problems_text(problems: Iterable[EntryProblem]) -> Iterator[str]:
    """Say what looks wrong in the entry."""
    listed = tuple(problems)
    if listed:
        yield heading("Look at", str(len(listed)))
    for one in listed:
        remedy = f" {one.remedy[:1].upper()}{one.remedy[1:]}." if one.remedy else ""
        yield f"  {one.severity}: {one.where}: {one.what}.{remedy}"


def _push(push: PushView, failure: str) -> Iterator[str]:
    what = f"with {failure}, " if failure else ""
    yield (
        f"  {what}{push.pedal_force_n:.0f} N, {push.load}: {push.deceleration_m_s2:.2f} m/s2 "
        f"({push.deceleration_g:.2f} g); on this road {push.on_road_m_s2:.2f} m/s2"
    )
    if push.locked:
        yield f"  locked there: {', '.join(push.locked)}"
    pressures = ", ".join(f"{one.title} {one.pressure_pa / 1e5:.1f} bar" for one in push.circuits)
    yield f"  pressure: {pressures}; {push.front_share:.0%} of the braking is in front"
    if push.travel is not None:
        pieces = ", ".join(
            f"{one.words} {one.length_m * 1000:.1f}" for one in push.travel.pieces if one.length_m
        )
        yield (
            f"  pedal: {push.travel.total_m * 1000:.0f} mm of {push.travel.floor_m * 1000:.0f}"
            f"{', on the floor' if push.travel.on_floor else ''} ({pieces} mm)"
        )


def missing_text(missing: Iterable[MissingFigure]) -> Iterator[str]:
    """Say what is not known and how to find it."""
    listed = tuple(missing)
    if listed:
        yield heading("Not worked out without", str(len(listed)))
        yield from (f"  {one.path}: {one.question}" for one in listed)


def not_proved_text(words: Iterable[str]) -> Iterator[str]:
    """Say what an answer does not prove."""
    yield from (f"It does not prove: {one}." for one in words)


def joints_text(found: JointsView) -> Iterator[str]:
    """List every joint: what is screwed into what, with which thread, flare and torque."""
    joints = found.sheet.joints
    yield heading(f"{found.title}: joints", f"{len(joints.joints)} and {len(joints.screws)} screws")
    rows = [("", "joint", "thread", "flare", "torque")]
    for one in joints.joints:
        thread, flare = one.thread or "not known", one.flare or one.seals_on or "not known"
        rows.append((f"{one.number}", one.words, thread, flare, one.torque_words))
    rows += [
        (f"{one.number}", one.words, one.thread or "not known", "bleed screw", one.torque_words)
        for one in joints.screws
    ]
    yield from (f"  {line}" for line in table(rows))
    for one in joints.joints:
        if one.trouble:
            yield f"  joint {one.number}: {one.trouble}"
        yield from (f"  joint {one.number}, ask: {question}" for question in one.asked)
    yield from problems_text(found.problems)
    yield from (f"Mind: {words}" for words in joints.cautions)
    yield from not_proved_text(found.not_proved)


def cut_list_text(found: JointsView) -> Iterator[str]:
    """Say what to cut, what to screw on and what to buy."""
    cuts = found.sheet.cuts
    yield heading(f"{found.title}: pipes to cut", str(len(cuts.pipes)))
    rows = [("", "pipe", "fitted", "cut", "ends", "bends", "clips")]
    for pipe in cuts.pipes:
        ends = " / ".join(
            ", ".join(word for word in (end.thread, end.flare) if word) or "not known"
            for end in pipe.ends
        )
        clips = "" if pipe.clips is None else f"{pipe.clips}"
        rows.append(
            (f"{pipe.number}", pipe.title, _mm(pipe.length_m), _mm(pipe.cut_m), ends,
             f"{pipe.bends}", clips)
        )  # fmt: skip
    yield from (f"  {line}" for line in table(rows))
    for hose in cuts.hoses:
        yield f"  hose: {hose.title}, {_mm(hose.length_m)}, {' / '.join(hose.ends)}"
    yield heading("To make and to have on the bench")
    yield from (f"  {one.count} x {one.what}: {one.words}" for one in cuts.fastenings)
    yield heading("Pipe to buy, waste included")
    for stock in cuts.stock:
        size = _mm(stock.outside_diameter_m, decimals=2)
        missing = f"; not measured: {', '.join(stock.not_measured)}" if stock.not_measured else ""
        yield f"  {size} {stock.material}: {stock.buy_m:.1f} m{missing}"
    yield from (f"Mind: {words}" for words in cuts.cautions)
    yield from not_proved_text(found.not_proved)


def bleed_text(found: BleedView) -> Iterator[str]:
    """Say the order, the millilitres and the strokes, and what no screw empties."""
    plan = found.plan
    yield heading(f"{found.title}: bleeding", plan.ordered_by)
    for title, steps in (("On the bench", plan.bench), ("Before", plan.preparing)):
        yield heading(title)
        yield from (f"  {one.words}" for one in steps)
    rows = [("", "screw", "millilitres", "strokes")]
    for step in plan.steps:
        amount = f"{step.draw_m3 * 1e6:.0f}"
        strokes = "" if step.strokes is None else f"{step.strokes}"
        rows.append((f"{step.number}", step.words, amount, strokes))
    yield from (f"  {line}" for line in table(rows))
    for title, steps in (
        ("Alone, with a pressure kit", plan.alone),
        ("With a helper", plan.with_helper),
        ("Afterwards", plan.afterwards),
    ):
        yield heading(title)
        yield from (f"  {one.words}" for one in steps)
    for leg in plan.dead_legs:
        pedal = "" if leg.pedal_m is None else f"; its air costs {leg.pedal_m.value * 1000:.0f} mm"
        yield f"  dead leg: {leg.words}{pedal}. {leg.what_to_do}"
    yield from (f"  no fluid reaches {words}" for words in plan.not_fed)
    yield from (f"  ask: {words}" for words in plan.asked)
    yield from problems_text(found.meetings)
    yield from (f"Mind: {one.harm}. {one.sentence}" for one in plan.cautions)
    yield from not_proved_text(found.not_proved)


def _mm(length_m: float | None, *, decimals: int = 0) -> str:
    return "not measured" if length_m is None else f"{length_m * 1000:.{decimals}f} mm"
