"""What belongs in a calendar: sessions, parts that are due, holds to read, last days to order."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Literal

from bareshell.model import Build
from bareshell.model.proof import ProofState
from bareshell.model.standing import proof_standings
from bareshell.whole.garage_time import zone_of
from bareshell.whole.proving import READING_MINUTES, held_together
from bareshell.whole.road_parts import RoadOverview, RoadSession

__all__ = ["DayAhead", "DayKind", "days_ahead"]

DayKind = Literal["session", "part due", "hold to read", "order by"]

LOOKED_AHEAD = timedelta(weeks=12)
"""Sessions farther off are still going to change, so they are not put into a calendar."""

CAVEAT = "Planning help only: it does not see the car. It is worked out anew after each entry."


@dataclass(frozen=True, slots=True)
class DayAhead:
    """One thing in a calendar.

    Parameters
    ----------
    key : str
        What it is, for ever: the same thing on another day keeps its key.
    kind : str
        One of `DayKind`.
    title, words : str
        What it is called, and what is to be done.
    starts : datetime or date
        When it begins; a date for the whole day.
    ends : datetime or None
        When it ends; None for the whole day.
    """

    key: str
    kind: DayKind
    title: str
    words: str
    starts: datetime | date
    ends: datetime | None = None


def days_ahead(build: Build, road: RoadOverview, now: datetime) -> tuple[DayAhead, ...]:
    """List what belongs in a calendar, each kind in order of time.

    Parameters
    ----------
    build : Build
        The build.
    road : RoadOverview
        Every session to the road.
    now : datetime
        Aware.
    """
    return (
        *_sessions(build, road, now),
        *_parts_due(road),
        *_holds(build, now),
        *_last_days(road),
    )


def _sessions(build: Build, road: RoadOverview, now: datetime) -> Iterator[DayAhead]:
    zone = zone_of(build)
    on_day: dict[date, int] = {}
    for session in road.sessions:
        if not session.jobs or session.starts_at > now + LOOKED_AHEAD:
            continue
        day = session.starts_at.astimezone(zone).date()
        on_day[day] = on_day.get(day, 0) + 1
        yield DayAhead(
            f"session/{day.isoformat()}/{on_day[day]}",
            "session",
            _session_title(session),
            "\n".join([*_session_words(session), "", CAVEAT]),
            session.starts_at,
            session.starts_at + timedelta(minutes=session.minutes),
        )


def _session_title(session: RoadSession) -> str:
    first, more = session.jobs[0].title, len(session.jobs) - 1
    title = f"Garage: {first}" + (f" and {more} more" if more else "")
    return f"{title} (two people)" if session.helper_minutes else title


def _session_words(session: RoadSession) -> Iterator[str]:
    stands = " then ".join(dict.fromkeys(stance.title for stance in session.stances))
    if stands:
        yield f"The car: {stands}."
    yield from (f"{moved[:1].upper()}{moved[1:]}." for moved in session.moved)
    for job in session.jobs:
        who = ", two people" if job.people > 1 else ", the helper alone" if job.by_helper else ""
        piece = "" if job.finishes else ", a piece of it"
        yield f"{job.title}: {job.minutes} min{who}{piece}"
    if session.temperature_c is not None:
        yield f"Expected in the garage: {session.temperature_c:.0f} °C."


def _parts_due(road: RoadOverview) -> Iterator[DayAhead]:
    for part in road.arrivals:
        if part.due is None:
            continue
        words = f"For '{part.job_title}'." if part.job_title else ""
        if part.latest:
            words += f" Nine in ten such parts are here by {part.latest.day} {part.latest:%B}."
        words = f"{words} Check it against the old part when it comes.".strip()
        yield DayAhead(f"part/{part.need}", "part due", f"Due: {part.title}", words, part.due)


def _holds(build: Build, now: datetime) -> Iterator[DayAhead]:
    """Tell when each running hold can be read; one reading for all that were begun together."""
    zone, standings = zone_of(build), proof_standings(build, now)
    told: set[str] = set()
    for key, standing in standings.items():
        proof = build.proofs[key].proof
        begun = standing.state is ProofState.BEGUN and standing.since is not None
        if not begun or not proof.hold_hours or key in told or standing.since is None:
            continue
        together = held_together(build, standings, key)
        told.update(together)
        reads = (standing.since + timedelta(hours=proof.hold_hours)).astimezone(zone)
        more = f" and {len(together) - 1} more" if len(together) > 1 else ""
        words = f"The hold of {proof.hold_hours:g} h is over: {proof.title}. {CAVEAT}"
        yield DayAhead(
            f"hold/{min(together)}/{standing.since:%Y%m%dT%H%M}",
            "hold to read",
            f"Read: {proof.title}{more}",
            words,
            reads,
            reads + timedelta(minutes=READING_MINUTES[1]),
        )


def _last_days(road: RoadOverview) -> Iterator[DayAhead]:
    for one in road.order_by:
        yield DayAhead(f"order/{one.need}", "order by", f"Order: {one.title}", one.words,
                       one.order_by)  # fmt: skip
