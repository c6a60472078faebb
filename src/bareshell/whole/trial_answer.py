"""Two roads compared: dates, work, and what is on another day."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from bareshell.model import Build
from bareshell.plan.levers import NO_ODDS_DAYS
from bareshell.plan.priority import paired_days
from bareshell.plan.road import Road
from bareshell.plan.wording import days as days_said
from bareshell.whole.moved import first_days
from bareshell.whole.road_parts import RoadOverview
from bareshell.whole.trial_parts import RoadSide, TrialLine, TrialOverview, TwoDays

__all__ = ["trial_overview", "untouched"]

MOST_MOVED = 20
"""So many jobs on another day are listed, the soonest first."""


def trial_overview(
    build: Build,
    steps: Sequence[TrialLine],
    before: tuple[RoadOverview, Road],
    after: tuple[RoadOverview, Road],
    copy: Build,
) -> TrialOverview:
    """Put two roads side by side.

    Parameters
    ----------
    build : Build
        As it is.
    steps : sequence of TrialLine
        What is changed in the copy, in words.
    before, after : tuple of (RoadOverview, Road)
        The road as it is, and the copy's: in words, and as planned.
    copy : Build
        The changed copy.
    """
    was, now = before[0], after[0]
    gain, error, word, words = _effect(before[1], after[1])
    moved = _two_days(*_titled(build, copy, was, now))
    ladder = _both_days(
        {g.id: g.day for g in was.gates},
        {g.id: g.day for g in now.gates},
        {g.id: g.title for g in (*was.gates, *now.gates)},
    )
    return TrialOverview(
        made_at=was.made_at,
        seq=was.seq,
        car=was.car,
        invented=was.invented,
        steps=tuple(steps),
        before=_side(was),
        after=_side(now),
        gain_days=gain,
        standard_error_days=error,
        word=word,
        words=words,
        ladder=ladder,
        gates=tuple(one for one in ladder if one.before != one.after),
        orders=_two_days(
            {o.need: o.order_by for o in was.order_by},
            {o.need: o.order_by for o in now.order_by},
            {o.need: o.title for o in (*was.order_by, *now.order_by)},
        ),
        moved=moved[:MOST_MOVED],
        moved_in_all=len(moved),
        stranded=tuple(words for words in now.stranded if words not in was.stranded),
        samples=now.samples,
        seed=now.seed,
    )


def untouched(road: RoadOverview) -> TrialOverview:
    """Make the comparison in which nothing is changed yet.

    Parameters
    ----------
    road : RoadOverview
        The road as it is.
    """
    side = _side(road)
    return TrialOverview(
        road.made_at, road.seq, road.car, road.invented, (), side, side,
        words="Nothing is changed yet.", samples=road.samples, seed=road.seed,
    )  # fmt: skip


def _effect(before: Road, after: Road) -> tuple[float | None, float | None, str, str]:
    """Compare future by future; both were drawn from the same luck."""
    reached = before.reaches_road and after.reaches_road
    if before.finishes is None or after.finishes is None or not reached:
        if before.reaches_road and not after.reaches_road:
            return None, None, "not reached", "In this copy the road is never reached."
        if after.reaches_road and not before.reaches_road:
            return None, None, "nearer", "In this copy the road is reached; as things are, never."
        return None, None, "not reached", "The road is reached in neither."
    both = min(len(before.finishes), len(after.finishes))
    gain, error = paired_days(before.finishes[:both], after.finishes[:both])
    around = f"{days_said(abs(gain))}, give or take {days_said(2 * error)}"
    if abs(gain) <= max(2 * error, NO_ODDS_DAYS):
        word, words = "no clear effect", "No clear effect on the day on the road."
    elif gain > 0:
        word, words = "nearer", f"The road is nearer by {around}."
    else:
        word, words = "farther", f"The road is farther by {around}."
    return round(gain, 2), round(error, 2), word, words


def _side(road: RoadOverview) -> RoadSide:
    worked = [session for session in road.sessions if session.jobs]
    return RoadSide(
        road.p50,
        road.p80,
        road.p95,
        road.hours_left,
        road.helper_hours_left,
        len(worked),
        sum(1 for session in worked if session.helper_minutes),
        road.support_changes,
        road.futures,
    )


def _titled(
    build: Build, copy: Build, was: RoadOverview, now: RoadOverview
) -> tuple[dict[str, date], dict[str, date], dict[str, str]]:
    before, after = first_days(build, was), first_days(copy, now)
    titles = {key: job.title for key, (_, job) in (before | after).items()}
    return (
        {key: day for key, (day, _) in before.items()},
        {key: day for key, (day, _) in after.items()},
        titles,
    )


def _two_days(
    before: Mapping[str, date], after: Mapping[str, date], titles: Mapping[str, str]
) -> tuple[TwoDays, ...]:
    """List what is on another day, by the sooner of its two days."""
    both = _both_days(before, after, titles)
    return tuple(one for one in both if one.before != one.after)


def _both_days(
    before: Mapping[str, date], after: Mapping[str, date], titles: Mapping[str, str]
) -> tuple[TwoDays, ...]:
    """List what has a day on either road, by the sooner of its two days."""
    never = date.max
    found = [
        TwoDays(key, titles[key], before.get(key), after.get(key))
        for key in dict.fromkeys((*before, *after))
    ]
    return tuple(
        sorted(found, key=lambda one: (min(one.before or never, one.after or never), one.id))
    )
