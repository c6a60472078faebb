"""Which sessions are lost and which helpers stay away, learned from the sessions there were.

Each is a share with a beta distribution (conjugate to counting, so learning is adding up)
[S:gelman-2013, section 2.4]: whole weeks that were lost, single sessions lost in the other weeks,
and helpers who did not come to a session that took place.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from bareshell.plan.lateness import Share
from bareshell.plan.problem import Luck

__all__ = ["Attendance", "Attended", "attendance"]

LOST_WEEK = Share(1.0, 19.0)
LOST_SESSION = Share(2.0, 23.0)
NO_SHOW = Share(1.2, 6.8)
"""What is believed before there is a record: one week in twenty, one session in twelve, one
helper in seven (common practice, no source), each weighing as many cases as it adds up to."""

MOST = 0.95
"""A share above this leaves nothing to plan with."""


@dataclass(frozen=True, slots=True)
class Attended:
    """What the record says of the sessions that were to be.

    Parameters
    ----------
    weeks, weeks_lost : int
        Weeks in which there should have been sessions, and those without any.
    sessions, sessions_lost : int
        Sessions of the other weeks, and those that did not take place.
    helped, no_shows : int
        Sessions held that a helper was to come to, and those to which none came.
    """

    weeks: int = 0
    weeks_lost: int = 0
    sessions: int = 0
    sessions_lost: int = 0
    helped: int = 0
    no_shows: int = 0


@dataclass(frozen=True, slots=True)
class Attendance:
    """What is believed of the sessions to come.

    Parameters
    ----------
    lost_week, lost_session, no_show : Share
        As `Luck` has them, with what each rests on.
    attended : Attended
        The record itself.
    """

    lost_week: Share
    lost_session: Share
    no_show: Share
    attended: Attended

    def laid_over(self, luck: Luck) -> Luck:
        """Put what is believed into the luck of a plan."""
        return replace(
            luck,
            lost_week_share=min(MOST, self.lost_week.mean),
            lost_session_share=min(MOST, self.lost_session.mean),
            no_show_share=min(MOST, self.no_show.mean),
            lost_week_weight=self.lost_week.yes + self.lost_week.no,
            lost_session_weight=self.lost_session.yes + self.lost_session.no,
            no_show_weight=self.no_show.yes + self.no_show.no,
        )


def attendance(attended: Attended) -> Attendance:
    """Say what is believed of the sessions to come.

    Parameters
    ----------
    attended : Attended
        The record.

    Examples
    --------
    >>> attendance(Attended(weeks=20, weeks_lost=5)).lost_week.mean
    0.15
    """
    a = attended
    return Attendance(
        LOST_WEEK.seen(a.weeks_lost, a.weeks - a.weeks_lost),
        LOST_SESSION.seen(a.sessions_lost, a.sessions - a.sessions_lost),
        NO_SHOW.seen(a.no_shows, a.helped - a.no_shows),
        attended,
    )
