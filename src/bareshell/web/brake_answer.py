"""The answer on brakes as their first page says it: a sentence, large figures, short lists."""

from __future__ import annotations

from typing import Final

from bareshell.brakes.against import FOOT_N
from bareshell.web.brake_units import Units
from bareshell.web.pieces import Figure
from bareshell.whole.brake_check import BrakeCheck
from bareshell.whole.brake_compare import CompareView
from bareshell.whole.brake_parts import CompareRow, FailedElement, FailureView
from bareshell.whole.brake_trust import SpanView, TrustedAnswer, TrustView

MOST_SETTLING: Final = 3

_LEFT: Final = {
    "all wheels": "All four wheels brake",
    "fronts": "Front wheels brake. Rear wheels do not",
    "rears": "Rear wheels brake. Front wheels do not",
    "nothing but the parking brake": "No wheel brakes but by the parking brake",
}
_SHORT: Final = ("force", "deceleration", "front share", "firm travel")
_SHORT_BESIDES: Final = ("worst leak", "parked nose up")


def answer_sentence(check: BrakeCheck, found: tuple[FailureView, FailedElement] | None) -> str:
    """Say which wheels brake, with what failed if anything did."""
    if check.now is None:
        return "Not worked out yet: figures are missing."
    if found is None:
        return "All four wheels brake."
    wheels, _, held = found[0].left.partition(", ")
    said = _LEFT.get(wheels, f"Only {wheels} brake")
    first, _, rest = said.partition(". ")
    said = ". ".join(filter(None, (f"{first}, {held}" if held else first, rest)))
    floor = "The pedal meets the floor. " if found[0].on_floor else ""
    return f"{floor}{said}."


def large_figures(
    check: BrakeCheck, units: Units, trust: TrustView | None = None
) -> tuple[Figure, ...]:
    """Return the large figures: slowing, travel left, front share, yardsticks met.

    Parameters
    ----------
    check : BrakeCheck
        What the brakes do.
    units : Units
        The owner's.
    trust : TrustView, optional
        How far figures go over all combinations, where that was worked out for the same push.
    """
    push = check.now
    if push is None:
        return ()
    force = units.force(push.pedal_force_n)
    reached = min(push.deceleration_m_s2, push.on_road_m_s2)
    held = "the tyres let go first" if push.locked else "no wheel locks"
    words = f"at {force} on the pedal, {check.load}; {held} at {check.friction_of_road:g}"
    slowing = _span(trust, f"slowing-{_what_failed(check)}", check)
    if slowing is not None:
        words += f". From {slowing.low:.1f} to {slowing.high:.1f} in 90 of 100 combinations"
    found = [Figure(units.slowing(reached), words, "m/s\N{SUPERSCRIPT TWO}")]
    if push.travel is not None:
        figure, _, unit = units.travel(push.travel.left_m).partition(" ")
        words = "the pedal stands on the floor" if push.travel.on_floor else "left before the floor"
        words += f", of {units.travel(push.travel.floor_m)}"
        travel = None if check.failure else _span(trust, "travel", check)
        if travel is not None:
            least, most = (push.travel.floor_m - one for one in (travel.high, travel.low))
            words += f". From {units.travel(least)} to {units.travel(most)}"
        found.append(Figure(figure, words, unit))
    share = f"{push.front_share * 100:.0f}"
    found.append(Figure(share, "of the braking is done by the front wheels", "%"))
    known = [one for one in check.verdicts if one.margin is not None]
    if known:
        met = sum(one.state == "meets" for one in known)
        words = "yardsticks met with nothing failed, of those that can be worked out"
        found.append(Figure(f"{met} of {len(known)}", words))
    return tuple(found)


def _what_failed(check: BrakeCheck) -> str:
    """The word that a span has for what is shown: the load, or the first that fails alike."""
    if not check.failure:
        return check.load.replace(" ", "-")
    for group in check.failures:
        if any(one.id == check.failure for one in group.elements):
            return group.id
    return check.failure


def _span(trust: TrustView | None, span_id: str, check: BrakeCheck) -> SpanView | None:
    """A span, if it was drawn for the push, load and road that are shown."""
    if trust is None or check.pedal_force_n != FOOT_N:
        return None
    if trust.friction_of_road != check.friction_of_road:
        return None
    if check.failure and check.load != "laden":
        return None
    return next((one for one in trust.spans if one.id == span_id), None)


def axle_share(trust: TrustView | None, load: str) -> TrustedAnswer | None:
    """In how many combinations the front wheels lock before the rear; None before that is known."""
    if trust is None:
        return None
    wanted = f"front-first-{load.replace(' ', '-')}"
    return next((one for one in trust.answers if one.id == wanted and one.share is not None), None)


def short_comparison(view: CompareView | None, load: str) -> tuple[CompareRow, ...]:
    """Return the few figures of a comparison that say most, at one load."""
    if view is None:
        return ()
    wanted = (*(f"{name}, {load}" for name in _SHORT), *_SHORT_BESIDES)
    rows = {row.key: row for row in view.rows}
    return tuple(rows[key] for key in wanted if key in rows)
